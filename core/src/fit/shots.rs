//! The fit of a bag to measured shots and outcomes.
use super::doubts::doubts;
use super::evidence::{Evidence, Outcome, Shot};
use super::fault::FitFault;
use super::fitted::{Basis, Fit, Judged, MOST_DRAWS, centre, clubs, mean, player_with, quantile};
use super::known::{DRAWS_SEED, draw};
use super::linear::Square;
use super::pattern::{Fixed, Group, LieFactors, Seen, Tally};
use super::posterior::Posterior;
use super::prior::{
    BIAS, CARRY, CARRY_SD, FIGURES, LATERAL_SD, Regression, Scaled, covariance, scaled,
    scaled_for_shots,
};
use super::sample::{Luck, Sample, sample};
use crate::player::{Club, ClubParts, Lie, Player};

/// Every so many draws are asked what each shot was.
const JUDGES: usize = 10;

impl Fit {
    /// Fits a player to shots and outcomes, beginning from the player of a level.
    ///
    /// The posterior is sampled (Hamiltonian Monte Carlo), so the uncertainty is right for five shots and for five
    /// hundred. A club without shots keeps the prior's figures, moved as the player's other clubs are.
    ///
    /// # Errors
    /// A table that is empty, names a club that is not in the bag of the prior, or has a number that cannot be true; carries
    /// that have nothing to do with the prior's; totals and carries that are swapped.
    pub fn to_shots(prior: &Player, evidence: &Evidence) -> Result<Fit, FitFault> {
        evidence.check(prior)?;
        let parts = clubs(prior);
        let seen: Vec<(usize, Seen)> = (0..parts.len())
            .filter_map(|at| Some((at, seen_of(prior, at, evidence)?)))
            .collect();
        let measured: Vec<usize> = seen.iter().map(|(at, _)| *at).collect();
        let mut level: Vec<Scaled> = parts.iter().map(scaled).collect();
        for &at in &measured {
            level[at] = scaled_for_shots(&parts[at]);
        }
        let posterior = Posterior {
            level: measured.iter().map(|&at| level[at]).collect(),
            precisions: precisions(&parts, &measured),
            seen: seen.into_iter().map(|(_, seen)| seen).collect(),
        };
        let summit = posterior.summit(&moved(&posterior));
        let sample = sample(&posterior, &summit, MOST_DRAWS, DRAWS_SEED);
        let draws = whole_bags(&parts, &level, &measured, &sample);
        let mut fit = Fit {
            player: player_with(prior, &centre(&draws), None)?,
            prior: prior.clone(),
            judged: judge(&posterior, &sample, evidence.shots.len()),
            basis: Basis::Evidence(evidence.clone()),
            draws,
            doubts: Vec::new(),
            disagreement: sample.disagreement,
        };
        fit.doubts = doubts(&fit, evidence);
        Ok(fit)
    }
}

/// What was seen of one club, lie by lie; None if nothing was.
fn seen_of(prior: &Player, at: usize, evidence: &Evidence) -> Option<Seen> {
    let club = &prior.clubs[at];
    let lies = std::iter::once(None).chain(Lie::ALL.map(Some));
    let groups: Vec<Group> = lies
        .map(|lie| Group {
            factors: factors(prior, club, lie),
            shots: shots_of(&evidence.shots, &club.name, lie),
            tallies: tallies_of(&evidence.outcomes, &club.name, lie),
        })
        .filter(|group| !(group.shots.is_empty() && group.tallies.is_empty()))
        .collect();
    let fixed = Fixed {
        shape: club.mishit_shape,
        run: club.run,
        level_carry: club.carry,
        reach: 1.0 - prior.shortfall,
    };
    (!groups.is_empty()).then_some(Seen { fixed, groups })
}

/// What a lie does to a club, as when the player is prepared for the simulation.
fn factors(prior: &Player, club: &Club, lie: Option<Lie>) -> LieFactors {
    let Some(lie) = lie else {
        return LieFactors {
            carry: 1.0,
            spread: 1.0,
            mishits: 1.0,
        };
    };
    let effect = prior.lies[lie as usize].on(club.carry / prior.clubs[0].carry);
    let off_ground = if lie == Lie::Tee {
        1.0
    } else {
        club.off_ground
    };
    LieFactors {
        carry: effect.carry * off_ground,
        spread: effect.spread,
        mishits: effect.mishits,
    }
}

fn shots_of(shots: &[Shot], club: &str, lie: Option<Lie>) -> Vec<([f64; 2], usize)> {
    shots
        .iter()
        .enumerate()
        .filter(|(_, s)| s.club == club && s.lie == lie)
        .map(|(row, s)| ([s.carry, s.lateral], row))
        .collect()
}

/// Like outcomes, counted together.
fn tallies_of(outcomes: &[Outcome], club: &str, lie: Option<Lie>) -> Vec<Tally> {
    let mut tallies: Vec<Tally> = Vec::new();
    for o in outcomes.iter().filter(|o| o.club == club && o.lie == lie) {
        match tallies
            .iter_mut()
            .find(|t| t.ground == o.ground && t.finish == o.finish)
        {
            Some(tally) => tally.count += 1.0,
            None => tallies.push(Tally {
                ground: o.ground,
                finish: o.finish,
                count: 1.0,
            }),
        }
    }
    tallies
}

/// The inverse covariances of the measured clubs' deviations, figure by figure.
fn precisions(parts: &[ClubParts], measured: &[usize]) -> [Square; FIGURES] {
    std::array::from_fn(|p| {
        let covariance = covariance(p, parts).part(measured);
        // A covariance with a part of its own for each club is positive definite.
        covariance.triangle().map_or(covariance, |t| t.inverse())
    })
}

/// A start where the bulk of the shots lies, with spreads wide enough to see them.
fn moved(posterior: &Posterior) -> Vec<f64> {
    let mut start = vec![0.0; posterior.size()];
    for (j, seen) in posterior.seen.iter().enumerate() {
        let level = &posterior.level[j];
        let (mut carries, mut sides) = (Vec::new(), Vec::new());
        for group in &seen.groups {
            for ([carry, lateral], _) in &group.shots {
                carries.push(carry / group.factors.carry);
                sides.push(lateral / (carry.max(1.0)));
            }
        }
        if carries.len() < 3 {
            continue;
        }
        carries.sort_by(f64::total_cmp);
        sides.sort_by(f64::total_cmp);
        let at = FIGURES * j;
        // Mishits come up short: the bulk of solid strikes lies above the median of all.
        let bulk = libm::log(quantile(&carries, 0.6).max(1.0));
        start[at + CARRY] = (bulk - level[CARRY]).clamp(-0.5, 0.5);
        start[at + BIAS] = (quantile(&sides, 0.5) - level[BIAS]).clamp(-0.15, 0.15);
        start[at + CARRY_SD] = (0.4_f64).min(-0.8 - level[CARRY_SD]);
        start[at + LATERAL_SD] = (0.4_f64).min(-0.8 - level[LATERAL_SD]);
    }
    start
}

/// Draws of the measured clubs completed by draws of the others given them.
fn whole_bags(
    parts: &[ClubParts],
    level: &[Scaled],
    measured: &[usize],
    sample: &Sample,
) -> Vec<Vec<Scaled>> {
    let laws = std::array::from_fn(|p| Regression::new(covariance(p, parts), measured));
    let mut luck = Luck::new(DRAWS_SEED, u64::MAX);
    sample
        .points
        .iter()
        .map(|point| {
            let told = std::array::from_fn(|p| {
                (0..measured.len())
                    .map(|j| point[FIGURES * j + p])
                    .collect()
            });
            draw(level, &laws, &told, &mut luck)
        })
        .collect()
}

/// What each shot was, averaged over draws.
fn judge(posterior: &Posterior, sample: &Sample, rows: usize) -> Vec<Judged> {
    let nothing = |row| Judged {
        row,
        mishit: 0.0,
        outlier: 0.0,
    };
    let mut judged: Vec<Judged> = (0..rows).map(nothing).collect();
    for (j, seen) in posterior.seen.iter().enumerate() {
        let draws: Vec<Scaled> = sample
            .points
            .iter()
            .step_by(JUDGES)
            .map(|point| posterior.figures(point, j))
            .collect();
        for group in &seen.groups {
            for (at, row) in &group.shots {
                let chances: Vec<[f64; 3]> = draws
                    .iter()
                    .map(|figures| seen.judge(figures, group, *at))
                    .collect();
                judged[*row].mishit = mean(chances.iter().map(|c| c[1]));
                judged[*row].outlier = mean(chances.iter().map(|c| c[2]));
            }
        }
    }
    judged
}
