//! What not knowing the player exactly does to the choice of a plan.
use super::{MOST_PLAYERS, MOST_PLAYS};
use crate::simulate::STROKE_CAP;
use crate::stats::Estimate;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// A cost below this, in strokes a play of the hole, is not worth measuring shots for. Common practice, no source.
pub const WORTH: f64 = 0.01;

/// A club is named as the one to measure if it explains at least this share of the lead (adjusted for chance), and more than
/// [`FALSE_ALARM`] allows. Common practice, no source.
pub const TELLING: f64 = 0.2;

/// Where no club has anything to do with the lead, one is named all the same with at most this probability: each is tested
/// (F test), and the more clubs there are the more each must tell (Bonferroni).
pub const FALSE_ALARM: f64 = 0.05;

/// With fewer players than this nothing is called not needed: a plan that would be best for one golfer in ten would still be
/// unseen in 19 draws with probability 0.135.
pub const FEWEST: usize = 20;

/// The plans played by every one of some plausible players.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Drawn", into = "Drawn")]
pub struct AcrossPlayers(Drawn);

/// What was counted: all that the answers are made of.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Drawn {
    /// What the players were drawn from, in words.
    pub(super) source: String,
    /// Names of the plans, in the order given.
    pub(super) names: Vec<String>,
    /// Plays of every plan by each player, in the two halves of the run.
    pub(super) plays: [u64; 2],
    /// For each player and half, strokes over all plays, plan by plan.
    pub(super) strokes: Vec<[Vec<u64>; 2]>,
    /// The clubs that the plans use, with what each explains of the lead, largest share first.
    pub(super) clubs: Vec<TellingClub>,
}

/// A club, and what its own figures explain of the lead.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TellingClub {
    /// Its name.
    pub club: String,
    /// The share of the differences between the players' leads, adjusted for chance, 0 to 1.
    pub share: f64,
    /// The chance that figures which have nothing to do with the lead would explain as much.
    pub by_chance: f64,
}

impl TellingClub {
    /// The first of some clubs, largest share first, if it stands out among them.
    #[expect(clippy::cast_precision_loss, reason = "a small count")]
    fn first_of(clubs: &[TellingClub]) -> Option<&TellingClub> {
        let most = FALSE_ALARM / clubs.len().max(1) as f64;
        clubs
            .first()
            .filter(|club| club.share >= TELLING && club.by_chance <= most)
    }
}

/// Whether shots measured in addition would change the advice.
#[derive(Clone, Debug, PartialEq)]
pub enum MoreShots {
    /// Knowing the player better would save less than [`WORTH`].
    NotNeeded,
    /// They could change it: above all shots with this club, if one stands out.
    Worth(Option<String>),
    /// The plays or the draws are too few to tell.
    Untold,
}

impl AcrossPlayers {
    pub(super) fn of(drawn: Drawn) -> Self {
        AcrossPlayers(drawn)
    }

    /// What the players were drawn from, in words.
    #[must_use]
    pub fn source(&self) -> &str {
        &self.0.source
    }

    /// How many players were drawn.
    #[must_use]
    pub fn draws(&self) -> usize {
        self.0.strokes.len()
    }

    /// Plays of every plan by each of them.
    #[must_use]
    pub fn plays(&self) -> u64 {
        self.0.plays[0] + self.0.plays[1]
    }

    /// Names of the plans, in the order given.
    #[must_use]
    pub fn names(&self) -> &[String] {
        &self.0.names
    }

    /// Share of the players for whom a plan does best, with its binomial error. Players for whom several do equally well
    /// are shared out among them.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "at most a thousand players")]
    pub fn chance_best(&self, plan: usize) -> Estimate {
        let part = |player: usize| {
            let strokes: Vec<u64> = self.whole(player);
            let least = strokes.iter().copied().min().unwrap_or(0);
            let level = strokes.iter().filter(|&&s| s == least).count() as f64;
            if strokes[plan] == least {
                1.0 / level
            } else {
                0.0
            }
        };
        let draws = self.draws() as f64;
        let p = (0..self.draws()).map(part).sum::<f64>() / draws;
        Estimate {
            mean: p,
            standard_error: (p * (1.0 - p) / draws).max(0.0).sqrt(),
        }
    }

    /// Mean score of a plan over the players; the error is that of not having drawn more of them.
    #[must_use]
    pub fn mean(&self, plan: usize) -> Estimate {
        mean_of((0..self.draws()).map(|i| self.score(i, Part::Whole, plan)))
    }

    /// The plan with the lowest mean over the players: the choice of one who does not know which of them it is.
    #[must_use]
    pub fn choice(&self) -> usize {
        self.choice_by(Part::Whole)
    }

    /// What not knowing the player costs, strokes a play: how much better the players would do on average if each played the
    /// plan that is best for it and not all the one that is best on average (expected value of perfect information, Raiffa
    /// and Schlaifer 1961, Applied Statistical Decision Theory).
    ///
    /// The lowest of several means that are known only to a sampling error is lower than it should be. The run is in two
    /// halves, and twice the whole's answer less the mean of the halves' takes that away to first order (the jackknife of
    /// Gordy and Juneja 2010, Management Science 56, 1833). An answer below nought is given as nought.
    #[must_use]
    pub fn cost(&self) -> Estimate {
        let parts = [Part::Whole, Part::Half(0), Part::Half(1)];
        let choices = parts.map(|part| self.choice_by(part));
        let saved = |player: usize| {
            let [whole, a, b] = [0, 1, 2].map(|k| {
                let score = |plan| self.score(player, parts[k], plan);
                let least = (0..self.0.names.len())
                    .map(score)
                    .fold(f64::INFINITY, f64::min);
                score(choices[k]) - least
            });
            2.0 * whole - 0.5 * (a + b)
        };
        let cost = mean_of((0..self.draws()).map(saved));
        Estimate {
            mean: cost.mean.max(0.0),
            ..cost
        }
    }

    /// The clubs that the plans use with what the club's own figures explain of the differences between the players' leads,
    /// largest share first; empty with too few draws. The lead is that of [`AcrossPlayers::choice`] over
    /// [`AcrossPlayers::rival`]. Clubs of one bag are alike, so the shares add up to more than one.
    #[must_use]
    pub fn clubs(&self) -> &[TellingClub] {
        &self.0.clubs
    }

    /// The plan that is best for most of the players for whom the choice is not; None if there is but one plan.
    #[must_use]
    pub fn rival(&self) -> Option<usize> {
        let choice = self.choice();
        let key = |&plan: &usize| (self.chance_best(plan).mean, -self.mean(plan).mean);
        (0..self.0.names.len())
            .filter(|&plan| plan != choice)
            .max_by(|a, b| {
                let (a, b) = (key(a), key(b));
                a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
            })
    }

    /// Whether more measured shots would change the advice: they are worth having if the cost of not knowing is more than two of
    /// its errors, and not needed if with [`FEWEST`] players or more it is surely below [`WORTH`].
    #[must_use]
    pub fn more_shots(&self) -> MoreShots {
        let cost = self.cost();
        let enough = self.draws() >= FEWEST || self.0.names.len() == 1;
        if enough && cost.mean + 2.0 * cost.standard_error < WORTH {
            MoreShots::NotNeeded
        } else if cost.mean > 2.0 * cost.standard_error {
            let telling = TellingClub::first_of(&self.0.clubs);
            MoreShots::Worth(telling.map(|telling| telling.club.clone()))
        } else {
            MoreShots::Untold
        }
    }

    /// Each player's lead of one plan over another, strokes: positive where the first is better.
    pub(super) fn leads(&self, plan: usize, over: usize) -> Vec<f64> {
        let score = |player, plan| self.score(player, Part::Whole, plan);
        (0..self.draws())
            .map(|player| score(player, over) - score(player, plan))
            .collect()
    }

    pub(super) fn with_clubs(mut self, clubs: Vec<TellingClub>) -> Self {
        self.0.clubs = clubs;
        self
    }

    fn choice_by(&self, part: Part) -> usize {
        let total = |plan: usize| -> u64 {
            let of = |strokes: &[Vec<u64>; 2]| match part {
                Part::Whole => strokes[0][plan] + strokes[1][plan],
                Part::Half(h) => strokes[h][plan],
            };
            self.0.strokes.iter().map(of).sum()
        };
        (0..self.0.names.len())
            .min_by_key(|&plan| total(plan))
            .unwrap_or(0)
    }

    /// Strokes of a player over the whole run, plan by plan.
    fn whole(&self, player: usize) -> Vec<u64> {
        let [a, b] = &self.0.strokes[player];
        a.iter().zip(b).map(|(a, b)| a + b).collect()
    }

    /// Mean score of a player with a plan.
    fn score(&self, player: usize, part: Part, plan: usize) -> f64 {
        let [a, b] = &self.0.strokes[player];
        let (strokes, plays) = match part {
            Part::Whole => (a[plan] + b[plan], self.plays()),
            Part::Half(h) => (self.0.strokes[player][h][plan], self.0.plays[h]),
        };
        #[expect(
            clippy::cast_precision_loss,
            reason = "counts below 2^53 are exact as f64"
        )]
        {
            strokes as f64 / plays as f64
        }
    }
}

/// The whole run, or one of its halves.
#[derive(Clone, Copy)]
enum Part {
    Whole,
    Half(usize),
}

/// The mean of some numbers and its standard error.
#[expect(clippy::cast_precision_loss, reason = "at most a thousand")]
fn mean_of(values: impl ExactSizeIterator<Item = f64> + Clone) -> Estimate {
    let n = values.len() as f64;
    let mean = values.clone().sum::<f64>() / n;
    let squares: f64 = values.map(|v| (v - mean) * (v - mean)).sum();
    Estimate {
        mean,
        standard_error: (squares / (n - 1.0) / n).sqrt(),
    }
}

impl From<AcrossPlayers> for Drawn {
    fn from(across: AcrossPlayers) -> Self {
        across.0
    }
}

impl TryFrom<Drawn> for AcrossPlayers {
    type Error = String;

    /// Checks that written counts belong together before anything is asked of them.
    fn try_from(drawn: Drawn) -> Result<Self, String> {
        let plans = drawn.names.len();
        if plans == 0 || drawn.names.iter().collect::<BTreeSet<_>>().len() < plans {
            return Err("names must be at least one, and all different".to_owned());
        }
        let draws = drawn.strokes.len();
        if !(2..=MOST_PLAYERS).contains(&draws) {
            return Err(format!(
                "strokes has {draws} entries; it must have 2 to {MOST_PLAYERS}"
            ));
        }
        // With that no sum of strokes can overflow.
        if !drawn.plays.iter().all(|n| (1..=MOST_PLAYS).contains(n)) {
            let plays = drawn.plays;
            return Err(format!(
                "plays is {plays:?}; each must be 1 to {MOST_PLAYS}"
            ));
        }
        for (player, halves) in drawn.strokes.iter().enumerate() {
            for (strokes, plays) in halves.iter().zip(drawn.plays) {
                let most = plays * u64::from(STROKE_CAP);
                let fits =
                    strokes.len() == plans && strokes.iter().all(|s| (plays..=most).contains(s));
                if !fits {
                    return Err(format!(
                        "strokes of player {player}: there must be {plans} totals, each of {plays} plays of 1 to {STROKE_CAP}"
                    ));
                }
            }
        }
        for telling in &drawn.clubs {
            for (field, value) in [("share", telling.share), ("by_chance", telling.by_chance)] {
                if !(0.0..=1.0).contains(&value) {
                    let club = &telling.club;
                    return Err(format!(
                        "clubs: {field} of {club} is {value}; it must be 0 to 1"
                    ));
                }
            }
        }
        Ok(AcrossPlayers(drawn))
    }
}

#[cfg(test)]
mod tests {
    use super::super::explain::explained;
    use super::*;
    use crate::noise::{PlayNoise, Seed};

    /// The rate at which a club is named though figures and leads are independent normals: `clubs` clubs of six figures, two
    /// of them squares, as in a run.
    fn named(draws: usize, clubs: u64, runs: u64) -> f64 {
        let normals = |stream: u64| -> Vec<f64> {
            let luck = PlayNoise::new(Seed(draws as u64), stream);
            (0..draws as u32).map(|i| luck.stroke(i).depth).collect()
        };
        let squared = |values: &[f64]| values.iter().map(|v| (9.0 + v).powi(2)).collect();
        let mut streams = 0..;
        let mut next = || normals(streams.next().unwrap_or(0));
        let mut alarms = 0;
        for _ in 0..runs {
            let leads = next();
            let mut told: Vec<TellingClub> = (0..clubs)
                .filter_map(|_| {
                    let [a, b, c, d] = [next(), next(), next(), next()];
                    let found = explained(&leads, &[squared(&a), a, squared(&b), b, c, d])?;
                    Some(TellingClub {
                        club: String::new(),
                        share: found.share,
                        by_chance: found.by_chance,
                    })
                })
                .collect();
            assert_eq!(told.len() as u64, clubs);
            told.sort_by(|a, b| b.share.total_cmp(&a.share));
            alarms += u64::from(TellingClub::first_of(&told).is_some());
        }
        alarms as f64 / runs as f64
    }

    /// With one club the rate is that of its F test where that binds: 0.05 at 21 draws, and less where the share of
    /// [`TELLING`] asks for more: a share of 0.2 of 40 draws comes about by chance with probability 0.034 (SciPy's F law).
    /// With several clubs it is at most 0.05, and all but that for clubs that have nothing to do with each other.
    ///
    /// 4,000 runs each, bands of four binomial errors (0.0138 at 0.05): false-alarm rate 6e-5 a band.
    #[test]
    fn a_club_without_any_part_in_the_lead_is_named_as_seldom_as_said() {
        for (draws, clubs, rate) in [(21, 1, 0.05), (40, 1, 0.034), (21, 5, 0.05 * 0.98)] {
            let found = named(draws, clubs, 4_000);
            let error = (rate * (1.0 - rate) / 4_000.0_f64).sqrt();
            assert!(
                (found - rate).abs() < 4.0 * error,
                "{draws} draws, {clubs} clubs: {found} is {rate}"
            );
        }
    }
}
