//! A player of a level moved to a few figures it knows: the other clubs follow, as far as clubs of one bag are alike.
use super::evidence::{Known, place};
use super::fault::FitFault;
use super::fitted::{Basis, Fit, MOST_DRAWS, clubs, player_with};
use super::prior::{BIAS, CARRY, FIGURES, Regression, Scaled, covariance, possible, scaled};
use super::sample::Luck;
use crate::noise::Seed;
use crate::player::Player;

/// The luck of the draws of every fit: one seed for all, so that the same evidence gives the same fit.
pub(super) const DRAWS_SEED: Seed = Seed(0x9E37_79B9);

/// Most that a known bias may be, yards to a yard of carry: a little inside what a club may have, so that other players who
/// have it can be drawn.
const MOST_BIAS: f64 = 0.24;

/// Tries before a club that keeps coming out impossible is left at its mean.
const TRIES: usize = 50;

impl Fit {
    /// A player of whom only the level is known: the draws are players of that level, as they differ.
    ///
    /// # Errors
    /// None for a valid player, unless its clubs stand on the bounds of what a club can be.
    pub fn by_level(prior: &Player) -> Result<Fit, FitFault> {
        Self::conditional(prior, None)
    }

    /// The prior moved to figures it knows. The other clubs' carries and biases are the mean of players of that level
    /// who have those figures; spreads keep their share of the carry.
    ///
    /// # Errors
    /// A club that is not in the bag, or a figure that cannot be true.
    pub fn with_known(prior: &Player, known: &Known) -> Result<Fit, FitFault> {
        check_names(prior, "carries", &known.carries)?;
        check_names(prior, "lateral_biases", &known.lateral_biases)?;
        check_carries(prior, &known.carries)?;
        Self::conditional(prior, Some(known))
    }

    fn conditional(prior: &Player, known: Option<&Known>) -> Result<Fit, FitFault> {
        let parts = clubs(prior);
        let level: Vec<Scaled> = parts.iter().map(scaled).collect();
        let told =
            |list: &[(String, f64)], value: &dyn Fn(usize, f64) -> f64| -> Vec<(usize, f64)> {
                let named = |(at, club): (usize, &crate::player::Club)| {
                    let (_, told) = list.iter().find(|(name, _)| *name == club.name)?;
                    Some((at, value(at, *told)))
                };
                prior.clubs.iter().enumerate().filter_map(named).collect()
            };
        let (mut carries, mut biases) = (Vec::new(), Vec::new());
        if let Some(known) = known {
            carries = told(&known.carries, &|at, carry| {
                libm::log(carry) - level[at][CARRY]
            });
        }
        let lengths = Regression::new(covariance(CARRY, &parts), &places(&carries));
        let carry = |at: usize| {
            let deviations = lengths.complete(&values(&carries), || 0.0);
            libm::exp(level[at][CARRY] + deviations[at])
        };
        if let Some(known) = known {
            for (club, bias) in &known.lateral_biases {
                let at = place(prior, "lateral_biases", None, club)?;
                check_bias(club, *bias, carry(at))?;
            }
            biases = told(&known.lateral_biases, &|at, bias| {
                bias / carry(at) - level[at][BIAS]
            });
        }
        let mut told: [Vec<(usize, f64)>; FIGURES] = std::array::from_fn(|_| Vec::new());
        told[CARRY] = carries;
        told[BIAS] = biases;
        let laws =
            std::array::from_fn(|p| Regression::new(covariance(p, &parts), &places(&told[p])));
        let told = told.each_ref().map(|told| values(told));
        let centre = complete(&level, &laws, &told, &mut || 0.0);
        let mut luck = Luck::new(DRAWS_SEED, u64::MAX);
        let draws = (0..MOST_DRAWS)
            .map(|_| draw(&level, &laws, &told, &mut luck))
            .collect();
        Ok(Fit {
            prior: prior.clone(),
            basis: known.map_or(Basis::Level, |known| Basis::Known(known.clone())),
            // A player known by level alone is the level's, to the last bit.
            player: match known {
                None => prior.clone(),
                Some(known) => player_with(prior, &centre, known)?,
            },
            standing: known.cloned().unwrap_or_default(),
            draws,
            judged: Vec::new(),
            doubts: Vec::new(),
            disagreement: 1.0,
        })
    }
}

fn places(told: &[(usize, f64)]) -> Vec<usize> {
    told.iter().map(|(at, _)| *at).collect()
}

fn values(told: &[(usize, f64)]) -> Vec<f64> {
    told.iter().map(|(_, value)| *value).collect()
}

/// Figures of all clubs, given for each figure its law and the deviations that are told.
fn complete(
    level: &[Scaled],
    laws: &[Regression; FIGURES],
    told: &[Vec<f64>; FIGURES],
    normal: &mut dyn FnMut() -> f64,
) -> Vec<Scaled> {
    let deviations: [Vec<f64>; FIGURES] =
        std::array::from_fn(|p| laws[p].complete(&told[p], &mut *normal));
    level
        .iter()
        .enumerate()
        .map(|(j, level)| std::array::from_fn(|p| level[p] + deviations[p][j]))
        .collect()
}

/// A draw of all clubs that can exist; their mean if none comes up.
pub(super) fn draw(
    level: &[Scaled],
    laws: &[Regression; FIGURES],
    told: &[Vec<f64>; FIGURES],
    luck: &mut Luck,
) -> Vec<Scaled> {
    (0..TRIES)
        .map(|_| complete(level, laws, told, &mut || luck.normal()))
        .find(|figures| figures.iter().all(possible))
        .unwrap_or_else(|| complete(level, laws, told, &mut || 0.0))
}

/// Refuses a bias that no club can have, NaN included.
fn check_bias(club: &str, bias: f64, carry: f64) -> Result<(), FitFault> {
    let most = libm::floor(10.0 * MOST_BIAS * carry) / 10.0;
    if (-most..=most).contains(&bias) {
        return Ok(());
    }
    Err(FitFault::Known {
        field: "lateral_biases",
        club: club.to_owned(),
        value: bias,
        allowed: format!("within {most:.1} yards of the aim ({MOST_BIAS} of the carry)"),
    })
}

/// Refuses a club told twice or not in the bag.
fn check_names(
    prior: &Player,
    field: &'static str,
    list: &[(String, f64)],
) -> Result<(), FitFault> {
    for (i, (club, _)) in list.iter().enumerate() {
        place(prior, field, None, club)?;
        if list[..i].iter().any(|(other, _)| other == club) {
            return Err(FitFault::KnownTwice {
                field,
                club: club.clone(),
            });
        }
    }
    Ok(())
}

/// Refuses a carry that no golfer of about the level can have, NaN included.
fn check_carries(prior: &Player, list: &[(String, f64)]) -> Result<(), FitFault> {
    for (club, value) in list {
        let level = prior.club(club)?.carry;
        let (least, most) = (
            libm::ceil(0.3 * level).max(1.0),
            libm::floor(2.5 * level).min(450.0),
        );
        if !(least..=most).contains(value) {
            let allowed = format!(
                "{least:.0} to {most:.0} yards (0.3 to 2.5 times the {level:.0} of the level, and 1 to 450)"
            );
            return Err(FitFault::Known {
                field: "carries",
                club: club.clone(),
                value: *value,
                allowed,
            });
        }
    }
    Ok(())
}
