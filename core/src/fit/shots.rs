//! Shots and outcomes put in order, club by club and lie by lie, for the fit.
use super::evidence::{Evidence, Known, Outcome, Shot};
use super::fitted::quantile;
use super::linear::Square;
use super::pattern::{Fixed, Group, LieFactors, Seen, Tally};
use super::posterior::Posterior;
use super::prior::{BIAS, CARRY, CARRY_SD, FIGURES, LATERAL_SD};
use crate::player::{Club, Lie, Player};

/// What was seen of one club, lie by lie; None if nothing was.
pub(super) fn seen_of(prior: &Player, at: usize, evidence: &Evidence) -> Option<Seen> {
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
        meant: prior.middle_of(club) / (1.0 - prior.habits.too_little_club),
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
pub(super) fn precisions(covariances: &[Square; FIGURES], measured: &[usize]) -> [Square; FIGURES] {
    covariances.each_ref().map(|covariance| {
        let covariance = covariance.part(measured);
        // A covariance with a part of its own for each club is positive definite.
        covariance.triangle().map_or(covariance, |t| t.inverse())
    })
}

/// The known figures of clubs without measured shots.
pub(super) fn standing(known: &Known, evidence: &Evidence) -> Known {
    let unmeasured = |list: &[(String, f64)]| {
        let measured = |club: &str| evidence.shots.iter().any(|shot| shot.club == club);
        let kept = list.iter().filter(|(club, _)| !measured(club));
        kept.cloned().collect()
    };
    Known {
        carries: unmeasured(&known.carries),
        lateral_biases: unmeasured(&known.lateral_biases),
    }
}

/// A start where the bulk of the shots lies, with spreads wide enough to see them.
pub(super) fn moved(posterior: &Posterior) -> Vec<f64> {
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
