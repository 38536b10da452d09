//! What looks odd in a table of shots: units, totals, two patterns in one club, too few shots.
use super::evidence::{Evidence, Shot};
use super::fault::Doubt;
use super::fitted::{Fit, mean};
use crate::player::Club;

/// With fewer shots a club rests mostly on its level.
const FEW: usize = 5;

/// The shots of one club that are judged solid, and all of them.
struct Pile<'a> {
    club: &'a Club,
    all: Vec<&'a Shot>,
    solid: Vec<&'a Shot>,
    outliers: usize,
}

impl Pile<'_> {
    /// Mean log of the solid carries over the level's.
    fn log_times(&self) -> f64 {
        let logs = self.solid.iter().map(|s| libm::log(s.carry.max(1.0)));
        mean(logs) - libm::log(self.club.carry)
    }
}

pub(super) fn doubts(fit: &Fit, evidence: &Evidence) -> Vec<Doubt> {
    let piles: Vec<Pile<'_>> = fit
        .prior()
        .clubs
        .iter()
        .filter_map(|club| pile(fit, evidence, club))
        .collect();
    let mut found = Vec::new();
    for pile in &piles {
        found.extend(few(pile));
        found.extend(two_patterns(pile));
        found.extend(outliers(pile));
        found.extend(far(fit, pile));
    }
    found.extend(beyond_total(evidence));
    if !evidence.unit_told {
        found.extend(like_metres(&piles));
    }
    found.extend(like_totals(&piles));
    if fit.disagreement() > 1.1 {
        found.push(Doubt::Unsettled {
            disagreement: fit.disagreement(),
        });
    }
    found
}

fn pile<'a>(fit: &Fit, evidence: &'a Evidence, club: &'a Club) -> Option<Pile<'a>> {
    let mut pile = Pile {
        club,
        all: Vec::new(),
        solid: Vec::new(),
        outliers: 0,
    };
    for (shot, judged) in evidence.shots.iter().zip(fit.judged()) {
        if shot.club == club.name {
            pile.all.push(shot);
            if judged.mishit + judged.outlier < 0.5 {
                pile.solid.push(shot);
            }
            pile.outliers += usize::from(judged.outlier > 0.5);
        }
    }
    (!pile.all.is_empty()).then_some(pile)
}

fn few(pile: &Pile<'_>) -> Option<Doubt> {
    let (club, count) = (pile.club.name.clone(), pile.all.len());
    (count < FEW).then_some(Doubt::FewShots { club, count })
}

fn outliers(pile: &Pile<'_>) -> Option<Doubt> {
    let (club, count, all) = (pile.club.name.clone(), pile.outliers, pile.all.len());
    (count >= 2 && 20 * count > all).then_some(Doubt::ManyOutliers { club, count, all })
}

/// A carry more than 2.5 of the prior's standard deviations (0.08 on the log scale) from the level's.
fn far(fit: &Fit, pile: &Pile<'_>) -> Option<Doubt> {
    let fitted = fit.player().club(&pile.club.name).ok()?;
    let far = libm::log(fitted.carry / pile.club.carry).abs() > 0.20;
    let (club, carry, level) = (fitted.name.clone(), fitted.carry, pile.club.carry);
    far.then_some(Doubt::FarFromLevel { club, carry, level })
}

fn beyond_total(evidence: &Evidence) -> Option<Doubt> {
    let beyond = |s: &&Shot| s.total.is_some_and(|total| total < s.carry - 5.0);
    let count = evidence.shots.iter().filter(beyond).count();
    (count > 0).then_some(Doubt::CarryBeyondTotal { count })
}

/// Metres are 0.9144 yards: all clubs short by about that much or more, and alike. As players of one level differ by 8 %
/// that finds six of ten tables in metres, and asks a short hitter for the unit too (a quarter of honest tables).
fn like_metres(piles: &[Pile<'_>]) -> Option<Doubt> {
    let logs: Vec<f64> = piles
        .iter()
        .filter(|p| p.solid.len() >= 3)
        .map(Pile::log_times)
        .collect();
    let shots: usize = piles.iter().map(|p| p.solid.len()).sum();
    if logs.len() < 2 || shots < 10 {
        return None;
    }
    let times = libm::exp(mean(logs.iter().copied()));
    let alike = logs.iter().all(|log| (log - libm::log(times)).abs() < 0.06);
    ((0.80..0.945).contains(&times) && alike).then_some(Doubt::LikeMetres { times })
}

/// Totals make the long clubs longer than the short ones suggest, as only they run. Clubs of one bag differ by as much: it
/// finds about half the tables of totals, and asks one honest player in eight.
fn like_totals(piles: &[Pile<'_>]) -> Option<Doubt> {
    let mean_of = |keep: &dyn Fn(f64) -> bool, value: &dyn Fn(&Pile<'_>) -> f64| {
        let kept = piles
            .iter()
            .filter(|p| p.solid.len() >= 5 && keep(p.club.run));
        mean(kept.map(value))
    };
    let (long, short) = (|run: f64| run > 0.06, |run: f64| run < 0.045);
    let difference =
        |value: &dyn Fn(&Pile<'_>) -> f64| mean_of(&long, value) - mean_of(&short, value);
    let runs = difference(&|p| libm::log(1.0 + p.club.run));
    let excess = difference(&|p| p.log_times());
    // Without clubs of both kinds both are NaN.
    (excess > 0.75 * runs && excess < 2.0 * runs).then_some(Doubt::LikeTotals { excess })
}

/// Two tight heaps of shots, far apart. Duffs are no such heap: they scatter more widely than solid strikes.
///
/// The best cut of the sorted values in two (least sum of squares within), then the distance of the halves next to their
/// spread (Ashman, Bird and Zepf 1994, Astronomical Journal 108, 2348): halves of one normal are 2.6 apart, of a
/// uniform 3.5.
fn two_patterns(pile: &Pile<'_>) -> Option<Doubt> {
    let carries = pile.all.iter().map(|s| s.carry).collect();
    let laterals = pile.all.iter().map(|s| s.lateral).collect();
    let club = pile.club;
    let found = [
        ("carry", carries, club.carry_sd),
        ("lateral", laterals, club.lateral_sd),
    ];
    found.into_iter().find_map(|(axis, values, usual)| {
        let (share, low, high) = heaps(values, usual)?;
        Some(Doubt::TwoPatterns {
            club: club.name.clone(),
            axis,
            share,
            low,
            high,
        })
    })
}

/// Share of the smaller heap and the two centres, if the values fall into two heaps.
fn heaps(mut values: Vec<f64>, usual_sd: f64) -> Option<(f64, f64, f64)> {
    let n = values.len();
    let least = (n / 4).max(7);
    if n < 2 * least {
        return None;
    }
    values.sort_by(f64::total_cmp);
    // Sums of everything below each place, of distances from the median so that they stay small.
    let middle = values[n / 2];
    let mut sums = vec![[0.0; 2]];
    for (i, value) in values.iter().enumerate() {
        let x = value - middle;
        sums.push([sums[i][0] + x, sums[i][1] + x * x]);
    }
    #[expect(clippy::cast_precision_loss, reason = "a number of shots")]
    let squares = |from: usize, to: usize| {
        let [sum, of_squares] = [0, 1].map(|k| sums[to][k] - sums[from][k]);
        of_squares - sum * sum / (to - from) as f64
    };
    let cost = |cut: usize| squares(0, cut) + squares(cut, n);
    let cut = (least..=n - least).min_by(|&a, &b| cost(a).total_cmp(&cost(b)))?;
    let (low, high) = values.split_at(cut);
    #[expect(clippy::cast_precision_loss, reason = "a number of shots")]
    let count = |part: &[f64]| part.len() as f64;
    let sd = |squares: f64, part: &[f64]| (squares.max(0.0) / (count(part) - 1.0)).sqrt();
    let (low_sd, high_sd) = (sd(squares(0, cut), low), sd(squares(cut, n), high));
    let (low_at, high_at) = (mean(low.iter().copied()), mean(high.iter().copied()));
    let apart = (high_at - low_at) / (0.5 * (low_sd * low_sd + high_sd * high_sd)).sqrt();
    let tight = low_sd.max(high_sd) < 2.0 * usual_sd;
    let share = count(low).min(count(high)) / count(&values);
    (apart > 4.5 && tight).then_some((share, low_at, high_at))
}
