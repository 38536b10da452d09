//! The best chance of a total: an exact recursion over the holes to come and the strokes so far.
use super::scored::{Mark, Marks};
use super::ways::HoleWay;
use crate::stats::Estimate;

/// A way other than fewest strokes is taken where it raises the chance by more than so many standard errors of what the plays
/// say: of ways that are as good as one another chance would pick one.
const CLEARLY: f64 = 2.0;
/// And by more than this share of c (1 - c), where the chance is c by fewest strokes: half a point in a hundred where it is even.
/// For less nobody should have to change the way a hole is played.
const WORTH: f64 = 0.02;

/// Chances of no more than the strokes there are, by hole and strokes so far.
pub(super) type Values = Vec<Vec<f64>>;
/// The way that is taken, by hole and strokes so far.
pub(super) type Choices = Vec<Vec<HoleWay>>;

/// The plays of every hole that are looked at, and the most strokes that meet the target.
#[derive(Clone, Copy)]
pub(super) struct Recursion<'a> {
    pub(super) holes: &'a [Marks],
    /// The first play and the end.
    pub(super) plays: (usize, usize),
    pub(super) most: usize,
}

impl<'a> Recursion<'a> {
    /// The plays of a way on a hole.
    pub(super) fn plays(&self, hole: usize, way: HoleWay) -> &'a [Mark] {
        &self.holes[hole][way as usize][self.plays.0..self.plays.1]
    }

    /// How many there are.
    #[expect(clippy::cast_precision_loss, reason = "at most 100,000")]
    fn count(&self) -> f64 {
        (self.plays.1 - self.plays.0) as f64
    }

    /// The chance after the last hole, by strokes so far, and room for the holes before it.
    fn values(&self) -> Values {
        let mut values = vec![vec![0.0; self.most + 2]; self.holes.len() + 1];
        values[self.holes.len()][..=self.most].fill(1.0);
        values
    }

    /// The best way from everywhere.
    ///
    /// The chance is worked out from the last hole back: on each hole, with so many strokes so far, of every way the mean over
    /// its scores of the chance that each leaves.
    pub(super) fn choices(&self) -> Choices {
        let mut values = self.values();
        let mut choices = vec![vec![HoleWay::Fewest; self.most + 2]; self.holes.len()];
        for hole in (0..self.holes.len()).rev() {
            let pairs: Vec<Vec<(usize, usize, f64)>> =
                HoleWay::ALL.map(|way| self.pairs(hole, way)).to_vec();
            let (before, after) = values.split_at_mut(hole + 1);
            for strokes in 0..=self.most {
                let next = |score: usize| after[0][(strokes + score).min(self.most + 1)];
                let (mut best, mut chance, mut least) = (HoleWay::Fewest, 0.0, 0.0);
                for (way, pairs) in HoleWay::ALL.into_iter().zip(&pairs) {
                    let told = gain(pairs, next, self.count());
                    if way == HoleWay::Fewest {
                        chance = told.chance;
                        least = WORTH * chance * (1.0 - chance);
                    } else if told.gain > least.max(CLEARLY * told.error) && told.chance > chance {
                        (best, chance) = (way, told.chance);
                    }
                }
                choices[hole][strokes] = best;
                before[hole][strokes] = chance;
            }
        }
        choices
    }

    /// The pairs of scores that fewest strokes and a way came to in the same plays, with the share of plays of each.
    fn pairs(&self, hole: usize, way: HoleWay) -> Vec<(usize, usize, f64)> {
        let mut counts = std::collections::BTreeMap::<(u8, u8), u32>::new();
        let usual = self.plays(hole, HoleWay::Fewest);
        for (usual, other) in usual.iter().zip(self.plays(hole, way)) {
            *counts.entry((usual.score, other.score)).or_default() += 1;
        }
        let share = |count: u32| f64::from(count) / self.count();
        counts
            .into_iter()
            .map(|((usual, other), count)| (usize::from(usual), usize::from(other), share(count)))
            .collect()
    }

    /// The shares of plays by score, lowest first.
    pub(super) fn scores(&self, hole: usize, way: HoleWay) -> Vec<(usize, f64)> {
        let mut counts = std::collections::BTreeMap::<u8, u32>::new();
        for mark in self.plays(hole, way) {
            *counts.entry(mark.score).or_default() += 1;
        }
        let share = |count: u32| f64::from(count) / self.count();
        counts
            .into_iter()
            .map(|(score, count)| (usize::from(score), share(count)))
            .collect()
    }

    /// The chances when these choices are followed.
    pub(super) fn followed(&self, choices: &Choices) -> Values {
        let mut values = self.values();
        for hole in (0..self.holes.len()).rev() {
            let scores = HoleWay::ALL.map(|way| self.scores(hole, way));
            let (before, after) = values.split_at_mut(hole + 1);
            for strokes in 0..=self.most {
                let next = |score: usize| after[0][(strokes + score).min(self.most + 1)];
                let of_way = &scores[choices[hole][strokes] as usize];
                before[hole][strokes] = of_way.iter().map(|&(s, share)| share * next(s)).sum();
            }
        }
        values
    }

    /// How likely it is to come to each hole with so many strokes, from the first hole on; the last entry is the end.
    pub(super) fn occupied(&self, choices: &Choices) -> Values {
        let mut shares = vec![vec![0.0; self.most + 2]; self.holes.len() + 1];
        shares[0][0] = 1.0;
        for hole in 0..self.holes.len() {
            let scores = HoleWay::ALL.map(|way| self.scores(hole, way));
            for strokes in 0..=self.most + 1 {
                let here = shares[hole][strokes];
                if here > 0.0 {
                    let way = choices[hole].get(strokes).copied();
                    for &(score, share) in &scores[way.unwrap_or(HoleWay::Fewest) as usize] {
                        shares[hole + 1][(strokes + score).min(self.most + 1)] += here * share;
                    }
                }
            }
        }
        shares
    }

    /// What every play of a hole moves the chance from the first tee by, when these choices are followed.
    ///
    /// The chance is linear in the scores of each hole, so its variance is that of these moves, hole by hole: the first-order
    /// term of Hoeffding's decomposition (Hoeffding 1948, "A class of statistics with asymptotically normal distribution").
    fn moves(&self, choices: &Choices, hole: usize, chances: &Values, shares: &Values) -> Vec<f64> {
        // The move by each score of each way.
        let mut by_score = [[0.0; 256]; HoleWay::ALL.len()];
        for strokes in 0..=self.most {
            let share = shares[hole][strokes];
            if share > 0.0 {
                let moves = &mut by_score[choices[hole][strokes] as usize];
                for (score, moved) in moves.iter_mut().enumerate() {
                    let next = chances[hole + 1][(strokes + score).min(self.most + 1)];
                    *moved += share * (next - chances[hole][strokes]);
                }
            }
        }
        let plays = 0..self.plays.1 - self.plays.0;
        let of_play = |play: usize| {
            let ways = HoleWay::ALL.into_iter();
            ways.map(|way| by_score[way as usize][usize::from(self.plays(hole, way)[play].score)])
                .sum()
        };
        plays.map(of_play).collect()
    }

    /// The chance by some choices, and by others, and how much more the first is, from the first tee.
    pub(super) fn compared(&self, choices: &Choices, others: &Choices) -> Compared {
        let sides = [choices, others].map(|c| (c, self.followed(c), self.occupied(c)));
        let mut variances = [0.0; 3];
        for hole in 0..self.holes.len() {
            let [mine, theirs] = sides
                .each_ref()
                .map(|(c, values, shares)| self.moves(c, hole, values, shares));
            let differences: Vec<f64> = mine.iter().zip(&theirs).map(|(a, b)| a - b).collect();
            for (variance, moves) in variances.iter_mut().zip([&mine, &theirs, &differences]) {
                *variance += variance_of_mean(moves);
            }
        }
        let [(_, first, shares), (_, second, _)] = sides;
        let estimate = |mean: f64, variance: f64| Estimate {
            mean,
            standard_error: variance.sqrt(),
        };
        Compared {
            chance: estimate(first[0][0], variances[0]),
            other: estimate(second[0][0], variances[1]),
            gain: estimate(first[0][0] - second[0][0], variances[2]),
            values: first,
            shares,
        }
    }
}

/// Two sets of choices compared on the same plays.
pub(super) struct Compared {
    pub(super) chance: Estimate,
    pub(super) other: Estimate,
    /// The first less the second.
    pub(super) gain: Estimate,
    /// Chances by the first, and how likely it comes to each hole with so many strokes.
    pub(super) values: Values,
    pub(super) shares: Values,
}

/// What a way comes to next to fewest strokes.
struct Gain {
    chance: f64,
    gain: f64,
    error: f64,
}

/// The chance by a way, and its paired gain on fewest strokes.
fn gain(pairs: &[(usize, usize, f64)], next: impl Fn(usize) -> f64, plays: f64) -> Gain {
    let (mut chance, mut gain, mut squares) = (0.0, 0.0, 0.0);
    for &(usual, other, share) in pairs {
        let (usual, other) = (next(usual), next(other));
        chance += share * other;
        gain += share * (other - usual);
        squares += share * (other - usual) * (other - usual);
    }
    let variance = (squares - gain * gain).max(0.0);
    Gain {
        chance,
        gain,
        error: (variance / plays).sqrt(),
    }
}

/// The variance of the mean of independent values.
fn variance_of_mean(values: &[f64]) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "at most 100,000")]
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|v| (v - mean) * (v - mean)).sum();
    squares / (n - 1.0) / n
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three holes on which every way has scores of its own, 240 plays of each.
    fn three() -> Vec<Marks> {
        let score = |hole: usize, way: usize, play: usize| {
            let wild = [3, 4, 4, 5, 7, 4, 3, 6][(play * (hole + 2) + way) % 8];
            let tame = [4, 4, 5, 5][(play + hole) % 4];
            if way.is_multiple_of(2) {
                tame
            } else {
                wild + u8::from(way == 3)
            }
        };
        let marks = |hole, way| -> Vec<Mark> {
            let mark = |play| Mark {
                score: score(hole, way, play),
                ..Mark::default()
            };
            (0..240).map(mark).collect()
        };
        (0..3)
            .map(|hole| {
                (0..HoleWay::ALL.len())
                    .map(|way| marks(hole, way))
                    .collect()
            })
            .collect()
    }

    fn whole(holes: &[Marks], most: usize) -> Recursion<'_> {
        Recursion {
            holes,
            plays: (0, 240),
            most,
        }
    }

    /// The best chance by trying every way after every score: no table, no sharing.
    fn tried(recursion: &Recursion<'_>, hole: usize, strokes: usize) -> f64 {
        if hole == recursion.holes.len() {
            return if strokes <= recursion.most { 1.0 } else { 0.0 };
        }
        let of_way = |way: HoleWay| -> f64 {
            let scores = recursion.scores(hole, way);
            let chance = |(score, share)| share * tried(recursion, hole + 1, strokes + score);
            scores.into_iter().map(chance).sum()
        };
        HoleWay::ALL.map(of_way).into_iter().fold(0.0, f64::max)
    }

    #[test]
    fn the_recursion_is_the_best_of_all_ways_to_play_three_holes() {
        let holes = three();
        for most in [9, 11, 12, 13, 15, 25] {
            let recursion = whole(&holes, most);
            let best = tried(&recursion, 0, 0);
            // The gate against chance keeps fewest strokes where a way is hardly better: never above the best, and close.
            let followed = recursion.followed(&recursion.choices())[0][0];
            assert!(followed <= best + 1e-12, "{most}: {followed} {best}");
            assert!(followed > best - 0.02, "{most}: {followed} {best}");
            let fewest = recursion.followed(&vec![vec![HoleWay::Fewest; most + 2]; 3])[0][0];
            assert!(followed >= fewest - 1e-12);
        }
    }

    /// One hole, 4 to make; by fewest strokes half of 240 plays do. A way that does in one play more is better by one standard
    /// error, and chance explains it; in five more by the root of five, and it is taken.
    #[test]
    fn a_way_must_be_clearly_better() {
        let hole = |more: usize| -> Marks {
            let marks = |way: HoleWay| -> Vec<Mark> {
                let better = if way == HoleWay::ALL[1] { more } else { 0 };
                let score = |play: usize| if play < 120 + better { 4 } else { 5 };
                (0..240)
                    .map(|play| Mark {
                        score: score(play),
                        ..Mark::default()
                    })
                    .collect()
            };
            HoleWay::ALL.map(marks).to_vec()
        };
        for (more, taken) in [(1, HoleWay::Fewest), (5, HoleWay::ALL[1])] {
            let holes = [hole(more)];
            assert_eq!(whole(&holes, 4).choices()[0][0], taken, "{more}");
        }
    }

    #[test]
    fn one_way_everywhere_is_the_convolution_of_its_scores() {
        let holes = three();
        let recursion = whole(&holes, 13);
        for way in HoleWay::ALL {
            let choices = vec![vec![way; 15]; 3];
            let mut sums = vec![1.0];
            for hole in 0..3 {
                let mut next = vec![0.0; sums.len() + 10];
                for (so_far, share) in sums.iter().enumerate() {
                    for (score, of_score) in recursion.scores(hole, way) {
                        next[so_far + score] += share * of_score;
                    }
                }
                sums = next;
            }
            let chance: f64 = sums[..=13].iter().sum();
            let followed = recursion.followed(&choices);
            assert!((followed[0][0] - chance).abs() < 1e-12);
            // The same from the front: who comes to the end with no more.
            let end: f64 = recursion.occupied(&choices)[3][..=13].iter().sum();
            assert!((end - chance).abs() < 1e-12);
        }
    }

    #[test]
    fn the_error_is_that_of_chances_over_fresh_plays() {
        // The same law of scores drawn anew 300 times, 240 plays each: the spread of the chance must be the error told, within
        // 4 of its own standard errors (1 / sqrt(2 * 299) of it, false-alarm rate 6e-5).
        let draw = |seed: u64, play: u64| {
            let noise = crate::noise::PlayNoise::new(crate::noise::Seed(seed), play).stroke(0);
            4 + u8::from(noise.strike < 0.5) + 2 * u8::from(noise.trees < 0.2)
        };
        let of = |seed: u64| {
            let marks = |hole: u64| -> Vec<Mark> {
                let mark = |play| Mark {
                    score: draw(3 * seed + hole, play),
                    ..Mark::default()
                };
                (0..240).map(mark).collect()
            };
            let holes: Vec<Marks> = (0..3).map(|h| vec![marks(h); HoleWay::ALL.len()]).collect();
            let recursion = whole(&holes, 14);
            let fewest = vec![vec![HoleWay::Fewest; 16]; 3];
            recursion.compared(&fewest, &fewest)
        };
        let all: Vec<Compared> = (0..300).map(of).collect();
        let n = all.len() as f64;
        let mean = all.iter().map(|c| c.chance.mean).sum::<f64>() / n;
        let spread = all
            .iter()
            .map(|c| (c.chance.mean - mean).powi(2))
            .sum::<f64>()
            / (n - 1.0);
        let told = all
            .iter()
            .map(|c| c.chance.standard_error.powi(2))
            .sum::<f64>()
            / n;
        let off = (spread / told).sqrt() - 1.0;
        assert!(off.abs() < 4.0 / (2.0 * 299.0_f64).sqrt(), "off by {off}");
        assert!(
            all.iter()
                .all(|c| c.gain.mean == 0.0 && c.gain.standard_error < 1e-12)
        );
    }
}
