//! A player with what is uncertain about it: errors, intervals and other players that the evidence allows as well.
use super::evidence::{Evidence, Known};
use super::fault::{Doubt, FitFault};
use super::prior::{FIGURES, Scaled, covariance, natural, with_figures};
use super::sample::Luck;
use crate::noise::Seed;
use crate::player::{Club, ClubParts, Player};
use std::ops::Index;

/// How many players can be drawn.
pub const MOST_DRAWS: usize = 1000;

/// The stream of a seed that shuffles the draws: the plays under the same seed have the small numbers.
const SHUFFLE: u64 = u64::MAX;

/// A fitted figure of a club.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// Mean carry of solid strikes.
    Carry,
    /// Standard deviation of that carry.
    CarrySd,
    /// Mean lateral.
    LateralBias,
    /// Standard deviation of the lateral of solid strikes.
    LateralSd,
    /// Correlation of carry and lateral.
    Correlation,
    /// Share of strikes that are not solid.
    MishitShare,
}

impl Figure {
    /// Every figure, in the order of the club's fields.
    pub const ALL: [Figure; FIGURES] = [
        Figure::Carry,
        Figure::CarrySd,
        Figure::LateralBias,
        Figure::LateralSd,
        Figure::Correlation,
        Figure::MishitShare,
    ];

    /// The name of the club's field.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Figure::Carry => "carry",
            Figure::CarrySd => "carry_sd",
            Figure::LateralBias => "lateral_bias",
            Figure::LateralSd => "lateral_sd",
            Figure::Correlation => "correlation",
            Figure::MishitShare => "mishit_share",
        }
    }

    /// The figure of a field's name.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|f| f.name() == name)
    }
}

/// One number for each fitted figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// For the mean carry.
    pub carry: f64,
    /// For the spread of the carry.
    pub carry_sd: f64,
    /// For the lateral bias.
    pub lateral_bias: f64,
    /// For the lateral spread.
    pub lateral_sd: f64,
    /// For the correlation of carry and lateral.
    pub correlation: f64,
    /// For the mishit share.
    pub mishit_share: f64,
}

impl Figures {
    fn from_fn(f: impl FnMut(usize) -> f64) -> Self {
        let [
            carry,
            carry_sd,
            lateral_bias,
            lateral_sd,
            correlation,
            mishit_share,
        ] = std::array::from_fn(f);
        Figures {
            carry,
            carry_sd,
            lateral_bias,
            lateral_sd,
            correlation,
            mishit_share,
        }
    }
}

impl Index<Figure> for Figures {
    type Output = f64;
    fn index(&self, figure: Figure) -> &f64 {
        match figure {
            Figure::Carry => &self.carry,
            Figure::CarrySd => &self.carry_sd,
            Figure::LateralBias => &self.lateral_bias,
            Figure::LateralSd => &self.lateral_sd,
            Figure::Correlation => &self.correlation,
            Figure::MishitShare => &self.mishit_share,
        }
    }
}

/// How sure the figures of one club are.
#[derive(Clone, Debug, PartialEq)]
pub struct Uncertainty {
    /// Name of the club.
    pub club: String,
    /// How many shots of it were measured.
    pub shots: usize,
    /// How many outcomes on the course were told.
    pub outcomes: usize,
    /// How many of the shots are expected to be mishits.
    pub mishits: f64,
    /// How many are expected to be outliers.
    pub outliers: f64,
    /// Standard errors (posterior standard deviations): yards, and shares for the last two.
    pub errors: Figures,
    /// What the evidence weighs against the level, 0 (the level alone) to 1 (the evidence alone): the share of the prior
    /// variance it has taken away.
    pub weights: Figures,
}

/// What a measured shot was taken for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// Row in the table of shots, counted from 0.
    pub row: usize,
    /// Probability that it was a mishit: a duff or a wild strike.
    pub mishit: f64,
    /// Probability that it fits no pattern of the club and was left out of account.
    pub outlier: f64,
}

/// What a fit rests on besides the prior.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Basis {
    Level,
    Known(Known),
    /// Shots and outcomes, of a player who had known figures before, if any.
    Evidence(Evidence, Known),
}

/// A player, and what is uncertain about it.
///
/// The same prior and evidence give the same fit, whatever the threads.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    pub(super) prior: Player,
    pub(super) basis: Basis,
    /// The known figures that stand in every player drawn.
    pub(super) standing: Known,
    pub(super) player: Player,
    /// For each draw the figures of every club, in the order of the prior's bag.
    pub(super) draws: Vec<Vec<Scaled>>,
    pub(super) judged: Vec<Judged>,
    pub(super) doubts: Vec<Doubt>,
    pub(super) disagreement: f64,
}

impl Fit {
    /// The player: each figure is its posterior mean on the scale it was fitted on, which is close to its median.
    #[must_use]
    pub fn player(&self) -> &Player {
        &self.player
    }

    /// The player the fit began from.
    #[must_use]
    pub fn prior(&self) -> &Player {
        &self.prior
    }

    /// The shots and outcomes fitted, if any were.
    #[must_use]
    pub fn evidence(&self) -> Option<&Evidence> {
        match &self.basis {
            Basis::Evidence(evidence, _) => Some(evidence),
            _ => None,
        }
    }

    /// The known figures the player was moved to, if any were; of a club with measured shots they are only where its fit
    /// began.
    #[must_use]
    pub fn known(&self) -> Option<&Known> {
        match &self.basis {
            Basis::Known(known) => Some(known),
            Basis::Evidence(_, known) if *known != Known::default() => Some(known),
            _ => None,
        }
    }

    /// What each measured shot was taken for, in the order of the table.
    #[must_use]
    pub fn judged(&self) -> &[Judged] {
        &self.judged
    }

    /// What looks odd in the table.
    #[must_use]
    pub fn doubts(&self) -> &[Doubt] {
        &self.doubts
    }

    /// The worst ratio of the spread of all draws to that within half chains of the sampling: 1 when it has settled.
    #[must_use]
    pub fn disagreement(&self) -> f64 {
        self.disagreement
    }

    /// `n` players that the evidence allows, each as plausible as the others; the first of a longer list are the shorter
    /// list. Only the clubs differ: short game and putting stay the prior's.
    ///
    /// # Errors
    /// [`FitFault::Draws`] unless `n` is 1 to [`MOST_DRAWS`].
    pub fn draws(&self, n: usize, seed: Seed) -> Result<Vec<Player>, FitFault> {
        if !(1..=MOST_DRAWS).contains(&n) {
            return Err(FitFault::Draws {
                value: n,
                most: MOST_DRAWS,
            });
        }
        // The first n places of a shuffle (Fisher and Yates), so that neighbours of a chain do not come together.
        let mut luck = Luck::new(seed, SHUFFLE);
        let mut order: Vec<usize> = (0..self.draws.len()).collect();
        (0..n)
            .map(|i| {
                #[expect(
                    clippy::cast_precision_loss,
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "at most a thousand"
                )]
                let other = i + (luck.uniform() * (order.len() - i) as f64) as usize;
                order.swap(i, other);
                self.player_of(&self.draws[order[i]])
            })
            .collect()
    }

    /// How sure the figures of a club are.
    ///
    /// # Errors
    /// A club that is not in the bag.
    pub fn uncertainty(&self, club: &str) -> Result<Uncertainty, FitFault> {
        let at = self.place(club)?;
        let values: Vec<[f64; FIGURES]> = self.draws.iter().map(|d| natural(&d[at])).collect();
        let errors = Figures::from_fn(|p| spread(values.iter().map(|v| v[p])));
        let parts: Vec<ClubParts> = clubs(&self.prior);
        let weights = Figures::from_fn(|p| {
            let left = spread(self.draws.iter().map(|d| d[at][p]));
            let prior = covariance(p, &parts).at(at, at);
            // A spread or share that is nought stays so: nothing is uncertain, and nothing was learnt.
            if left.is_finite() {
                (1.0 - left * left / prior).clamp(0.0, 1.0)
            } else {
                0.0
            }
        });
        let (mut shots, mut outcomes, mut mishits, mut outliers) = (0, 0, 0.0, 0.0);
        if let Basis::Evidence(evidence, _) = &self.basis {
            outcomes = evidence.outcomes.iter().filter(|o| o.club == club).count();
            for (shot, judged) in evidence.shots.iter().zip(&self.judged) {
                if shot.club == club {
                    shots += 1;
                    mishits += judged.mishit;
                    outliers += judged.outlier;
                }
            }
        }
        let club = club.to_owned();
        Ok(Uncertainty {
            club,
            shots,
            outcomes,
            mishits,
            outliers,
            errors,
            weights,
        })
    }

    /// The interval that holds a figure with probability `level`, with equal chances outside on both sides.
    ///
    /// # Errors
    /// A club that is not in the bag, or a level that is not between 0 and 1.
    pub fn interval(&self, club: &str, figure: Figure, level: f64) -> Result<(f64, f64), FitFault> {
        let at = self.place(club)?;
        if !(level > 0.0 && level < 1.0) {
            return Err(FitFault::Level { value: level });
        }
        let mut values: Vec<f64> = self
            .draws
            .iter()
            .map(|d| natural(&d[at])[figure as usize])
            .collect();
        values.sort_by(f64::total_cmp);
        let outside = 0.5 * (1.0 - level);
        Ok((quantile(&values, outside), quantile(&values, 1.0 - outside)))
    }

    fn place(&self, club: &str) -> Result<usize, FitFault> {
        self.prior.club(club)?;
        super::evidence::place(&self.prior, "club", None, club)
    }

    /// The prior with other figures for its clubs.
    fn player_of(&self, figures: &[Scaled]) -> Result<Player, FitFault> {
        player_with(&self.prior, figures, &self.standing)
    }
}

/// The parts of all clubs of a player.
pub(super) fn clubs(player: &Player) -> Vec<ClubParts> {
    player
        .clubs
        .iter()
        .map(|c| c.clone().into_parts())
        .collect()
}

/// A player with other figures for its clubs; known ones are as they were told, to the last bit.
pub(super) fn player_with(
    prior: &Player,
    figures: &[Scaled],
    known: &Known,
) -> Result<Player, FitFault> {
    let mut parts = prior.clone().into_parts();
    for (club, figures) in parts.clubs.iter_mut().zip(figures) {
        let mut fitted = with_figures(club, figures);
        let told = |list: &[(String, f64)]| {
            let found = list.iter().find(|(name, _)| *name == fitted.name);
            found.map(|(_, value)| *value)
        };
        let (carry, bias) = (told(&known.carries), told(&known.lateral_biases));
        fitted.carry = carry.unwrap_or(fitted.carry);
        fitted.lateral_bias = bias.unwrap_or(fitted.lateral_bias);
        *club = Club::new(fitted)?;
    }
    Ok(Player::new(parts)?)
}

/// Mean figures over draws, club by club.
pub(super) fn centre(draws: &[Vec<Scaled>]) -> Vec<Scaled> {
    let clubs = draws.first().map_or(0, Vec::len);
    (0..clubs)
        .map(|j| std::array::from_fn(|p| mean(draws.iter().map(|d| d[j][p]))))
        .collect()
}

#[expect(clippy::cast_precision_loss, reason = "a thousand draws")]
pub(super) fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (mut sum, mut count) = (0.0, 0_usize);
    for value in values {
        sum += value;
        count += 1;
    }
    sum / count as f64
}

/// Standard deviation.
fn spread(values: impl Iterator<Item = f64> + Clone) -> f64 {
    let centre = mean(values.clone());
    mean(values.map(|v| (v - centre) * (v - centre))).sqrt()
}

/// Quantile of sorted values, linear between them.
pub(super) fn quantile(sorted: &[f64], at: f64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a thousand draws")]
    let place = at * (sorted.len() - 1) as f64;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "within the list"
    )]
    let low = place.floor() as usize;
    let high = (low + 1).min(sorted.len() - 1);
    sorted[low] + (place - place.floor()) * (sorted[high] - sorted[low])
}
