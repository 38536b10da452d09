//! The fit of a bag to measured shots and outcomes, which advances in steps.
use super::doubts::doubts;
use super::evidence::{Evidence, Known};
use super::fault::FitFault;
use super::fitted::{Basis, Fit, Judged, MOST_DRAWS, centre, clubs, player_with};
use super::judging::{Judging, nothing_judged};
use super::known::{DRAWS_SEED, draw};
use super::linear::Square;
use super::pattern::Seen;
use super::posterior::{Climb, Posterior, STEPS, Summit};
use super::prior::{
    BIAS, CARRY, FIGURES, Regression, Scaled, covariance, given, scaled, scaled_for_shots,
};
use super::sample::{Luck, Sample, Sampling};
use super::shots::{moved, precisions, seen_of, standing};
use crate::player::Player;
use crate::run::Run;

/// A fit to shots and outcomes under way: it advances in steps, and can be left at any time.
///
/// However its steps are parted, the fit is the same to the last bit. A step takes longer the more shots there are: with the
/// most that are allowed some tens of milliseconds.
///
/// ```
/// use wideberth::Run;
/// use wideberth::fit::{Evidence, Fit, Fitting, Shot};
/// use wideberth::player::Player;
///
/// let prior = Player::from_handicap(18.0)?;
/// let shots = (0..9).map(|i| Shot::new("7-iron", 124.0 + f64::from(i), f64::from(i * 5 % 9))).collect();
/// let evidence = Evidence { shots, ..Evidence::default() };
/// let mut fitting = Fitting::new(&prior, &evidence)?;
/// while !fitting.is_finished() {
///     fitting.advance(100);
/// }
/// assert_eq!(fitting.fit()?, Fit::to_shots(&prior, &evidence)?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub struct Fitting {
    prior: Player,
    evidence: Evidence,
    /// What was known before, and what of it stands because its club was not measured.
    known: Known,
    standing: Known,
    /// Positions of the clubs with a known figure that stands, figure by figure.
    held: [Vec<usize>; FIGURES],
    /// How the clubs' deviations vary together, given what stands.
    covariances: [Square; FIGURES],
    /// Every club's figures by the level.
    level: Vec<Scaled>,
    /// Which clubs were measured.
    measured: Vec<usize>,
    posterior: Posterior,
    /// What was drawn; empty until all is.
    sample: Sample,
    judged: Vec<Judged>,
    stage: Stage,
}

/// What is being done.
enum Stage {
    /// The summit is looked for from the level, and from carries moved to where the bulk of the shots lies with spreads
    /// widened: a summit near the level can hide shots that all look like mishits from there.
    Climbing { level: Climb, moved: Climb },
    /// Points are drawn about the summit.
    Sampling { summit: Summit, sampling: Sampling },
    /// Each shot is asked what it was.
    Judging(Judging),
}

impl Fitting {
    /// Checks prior and evidence, as [`Fit::to_shots`] says, and puts the shots in order; nothing is fitted yet.
    ///
    /// # Errors
    /// As for [`Fit::to_shots`].
    pub fn new(prior: &Player, evidence: &Evidence) -> Result<Self, FitFault> {
        Self::knowing(prior.clone(), Known::default(), evidence.clone())
    }

    /// The same for a player of whom something is known already, as [`Fit::with_shots`] says.
    ///
    /// # Errors
    /// As for [`Fit::with_shots`].
    pub fn on(before: &Fit, evidence: &Evidence) -> Result<Self, FitFault> {
        match &before.basis {
            Basis::Level => Self::new(&before.player, evidence),
            Basis::Known(known) => {
                Self::knowing(before.player.clone(), known.clone(), evidence.clone())
            }
            Basis::Evidence(earlier, known) => {
                // Rows are counted in the table that was given.
                evidence.check(&before.prior)?;
                let both = earlier.followed_by(evidence)?;
                Self::knowing(before.prior.clone(), known.clone(), both)
            }
        }
    }

    /// The same with a prior whose clubs were moved to known figures.
    pub(super) fn knowing(
        prior: Player,
        known: Known,
        evidence: Evidence,
    ) -> Result<Self, FitFault> {
        evidence.check(&prior)?;
        let parts = clubs(&prior);
        let seen: Vec<(usize, Seen)> = (0..parts.len())
            .filter_map(|at| Some((at, seen_of(&prior, at, &evidence)?)))
            .collect();
        let measured: Vec<usize> = seen.iter().map(|(at, _)| *at).collect();
        let mut level: Vec<Scaled> = parts.iter().map(scaled).collect();
        for &at in &measured {
            level[at] = scaled_for_shots(&parts[at]);
        }
        let standing = standing(&known, &evidence);
        let mut held: [Vec<usize>; FIGURES] = std::array::from_fn(|_| Vec::new());
        held[CARRY] = places(&prior, &standing.carries);
        held[BIAS] = places(&prior, &standing.lateral_biases);
        let covariances: [Square; FIGURES] =
            std::array::from_fn(|p| given(&covariance(p, &parts), &held[p]));
        let posterior = Posterior {
            level: measured.iter().map(|&at| level[at]).collect(),
            precisions: precisions(&covariances, &measured),
            seen: seen.into_iter().map(|(_, seen)| seen).collect(),
        };
        Ok(Fitting {
            known,
            standing,
            held,
            covariances,
            level,
            measured,
            sample: Sample::default(),
            judged: nothing_judged(evidence.shots.len()),
            stage: Stage::Climbing {
                level: Climb::new(&posterior, vec![0.0; posterior.size()]),
                moved: Climb::new(&posterior, moved(&posterior)),
            },
            posterior,
            prior,
            evidence,
        })
    }

    fn step(&mut self) {
        let posterior = &self.posterior;
        match &mut self.stage {
            Stage::Climbing { level, moved } => {
                let climb = if level.is_finished() { moved } else { level };
                climb.step(posterior);
            }
            Stage::Sampling { summit, sampling } => sampling.step(posterior, summit),
            Stage::Judging(judging) => judging.step(posterior, &mut self.judged),
        }
        if let Some(next) = self.next() {
            self.stage = next;
        }
    }

    /// The next stage, when one is through.
    fn next(&mut self) -> Option<Stage> {
        let posterior = &self.posterior;
        match &mut self.stage {
            Stage::Climbing { level, moved } if level.is_finished() && moved.is_finished() => {
                let summit = posterior.summit(level, moved);
                let sampling = Sampling::new(posterior, &summit, MOST_DRAWS, DRAWS_SEED);
                Some(Stage::Sampling { summit, sampling })
            }
            Stage::Sampling { sampling, .. } if sampling.is_finished() => {
                self.sample = sampling.sample();
                Some(Stage::Judging(Judging::new(posterior, &self.sample)))
            }
            _ => None,
        }
    }

    /// Does what is left to do, and gives the fit.
    ///
    /// # Errors
    /// None in practice: figures that no club can have are not drawn.
    pub fn fit(mut self) -> Result<Fit, FitFault> {
        self.advance(u64::MAX);
        let draws = self.whole_bags();
        let mut fit = Fit {
            player: player_with(&self.prior, &centre(&draws), &self.standing)?,
            prior: self.prior,
            judged: self.judged,
            basis: Basis::Evidence(self.evidence.clone(), self.known),
            standing: self.standing,
            draws,
            doubts: Vec::new(),
            disagreement: self.sample.disagreement,
        };
        fit.doubts = doubts(&fit, &self.evidence);
        Ok(fit)
    }

    /// Draws of the measured clubs completed by draws of the others given them.
    fn whole_bags(&self) -> Vec<Vec<Scaled>> {
        let law = |p: usize| Regression::new(self.covariances[p].clone(), &self.measured);
        let laws = std::array::from_fn(law);
        let mut luck = Luck::new(DRAWS_SEED, u64::MAX);
        let bag = |point: &Vec<f64>| {
            let told = std::array::from_fn(|p| {
                (0..self.measured.len())
                    .map(|j| point[FIGURES * j + p])
                    .collect()
            });
            let mut bag = draw(&self.level, &laws, &told, &mut luck);
            for (p, held) in self.held.iter().enumerate() {
                for &at in held {
                    bag[at][p] = self.level[at][p];
                }
            }
            bag
        };
        self.sample.points.iter().map(bag).collect()
    }
}

impl Run for Fitting {
    /// Does up to `count` more steps.
    fn advance(&mut self, count: u64) {
        for _ in 0..count {
            if self.is_finished() {
                break;
            }
            self.step();
        }
    }

    /// Steps done so far; a climb that needs fewer than the most leaps to the end of its own.
    fn done(&self) -> u64 {
        let climbed = 2 * STEPS;
        match &self.stage {
            Stage::Climbing { level, moved } => level.done() + moved.done(),
            Stage::Sampling { sampling, .. } => climbed + sampling.done(),
            Stage::Judging(judging) => climbed + Sampling::leaps(MOST_DRAWS) + judging.done(),
        }
    }

    /// Steps in all.
    fn goal(&self) -> u64 {
        2 * STEPS + Sampling::leaps(MOST_DRAWS) + Judging::steps(self.evidence.shots.len())
    }

    /// True when there is nothing left but to take the [`fit`](Fitting::fit).
    fn is_finished(&self) -> bool {
        matches!(&self.stage, Stage::Judging(judging) if judging.is_finished())
    }
}

/// Positions in the bag of the clubs of a list.
fn places(prior: &Player, list: &[(String, f64)]) -> Vec<usize> {
    let named = |at: &usize| list.iter().any(|(name, _)| *name == prior.clubs[*at].name);
    (0..prior.clubs.len()).filter(named).collect()
}

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
        Fitting::new(prior, evidence)?.fit()
    }

    /// The same player with shots and outcomes more, fitted as if all that is known had been told at once.
    ///
    /// Known figures stand for clubs without measured shots, and the other clubs move only as far as they leave open; for a
    /// club with measured shots they are where its fit begins, and its shots can move them. To a player who was fitted to
    /// shots before, the new ones are added: the fit is that of both tables, the earlier first.
    ///
    /// # Errors
    /// As for [`Fit::to_shots`], and a table that holds the shots that the player was fitted to before.
    pub fn with_shots(&self, evidence: &Evidence) -> Result<Fit, FitFault> {
        Fitting::on(self, evidence)?.fit()
    }
}
