//! What is known of one golfer's shots: measured ones, outcomes on the course, and figures the golfer simply knows.
use super::fault::{FitFault, RowFault};
use crate::player::{Club, Lie, Player};
use serde::{Deserialize, Serialize};

/// One measured full shot, in yards.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shot {
    /// Name of the club, as in the player's bag.
    pub club: String,
    /// Carry along the aim, 0 to 450 yards.
    pub carry: f64,
    /// Lateral at landing, yards, positive to the right of the aim; within 250 yards.
    pub lateral: f64,
    /// Carry plus run, if it was measured: read only to see that the two are not mixed up.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub total: Option<f64>,
    /// The lie it was struck from; None for the one the club is at home on (a driver's tee, an iron's fairway or mat).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lie: Option<Lie>,
}

impl Shot {
    /// A shot from the lie the club is at home on.
    #[must_use]
    pub fn new(club: &str, carry: f64, lateral: f64) -> Self {
        Shot {
            club: club.to_owned(),
            carry,
            lateral,
            total: None,
            lie: None,
        }
    }
}

/// What a shot on the course was played to, and centred on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ground {
    /// Width across the aim, 1 to 200 yards.
    pub width: f64,
    /// Depth along the aim, 1 to 200 yards, for a green; None for a fairway, which has no end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth: Option<f64>,
}

/// Where a shot finished, next to the ground it was played to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Finish {
    /// On it.
    Hit,
    /// To the left of it, however far.
    Left,
    /// To the right of it, however far.
    Right,
    /// Short of it, neither left nor right.
    Short,
    /// Beyond it, neither left nor right.
    Long,
}

impl Finish {
    /// Every finish.
    pub const ALL: [Finish; 5] = [
        Finish::Hit,
        Finish::Left,
        Finish::Right,
        Finish::Short,
        Finish::Long,
    ];

    /// The name used in tables, such as `left`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Finish::Hit => "hit",
            Finish::Left => "left",
            Finish::Right => "right",
            Finish::Short => "short",
            Finish::Long => "long",
        }
    }

    /// The finish of a name.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|f| f.name() == name)
    }
}

/// What became of one full shot on the course: weaker evidence than a measured one.
///
/// The shot is taken to have been aimed at the middle of the ground with the club that reaches it, and to hold its line
/// when it runs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Outcome {
    /// Name of the club.
    pub club: String,
    /// A fairway or a green.
    pub ground: Ground,
    /// Where the ball finished.
    pub finish: Finish,
    /// The lie it was struck from; None for the one the club is at home on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lie: Option<Lie>,
}

/// Everything seen of a golfer's shots.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Evidence {
    /// Measured shots.
    pub shots: Vec<Shot>,
    /// Outcomes on the course.
    #[serde(default)]
    pub outcomes: Vec<Outcome>,
    /// True if the unit of the shots was told, so that nobody needs to wonder whether they are metres.
    #[serde(default)]
    pub unit_told: bool,
}

/// A few figures a golfer knows without measuring: they are taken as exact.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Known {
    /// Mean carries of solid strikes by club, yards.
    pub carries: Vec<(String, f64)>,
    /// Mean laterals by club, yards, positive to the right of the aim: a slice of a right-handed golfer is positive.
    pub lateral_biases: Vec<(String, f64)>,
}

/// So many shots of one club cannot all have the same carry or lateral if they were measured: with a spread of 3 yards and
/// values in whole yards the chance is 1e-6.
const SAME: usize = 8;

/// So many shots in a row are not the same in two tables by chance: of one club in whole yards two shots are alike with a
/// chance of about 1 in 800.
const AGAIN: usize = 3;

/// Most rows of a table: the fit takes some seconds with so many.
const MOST_ROWS: usize = 20_000;

/// Position of a club in a bag, or the fault of naming one that is not there.
pub(super) fn place(
    player: &Player,
    what: &'static str,
    row: Option<usize>,
    name: &str,
) -> Result<usize, FitFault> {
    player
        .clubs
        .iter()
        .position(|c| c.name == name)
        .ok_or_else(|| {
            let plain = |text: &str| -> String {
                text.chars()
                    .filter(|c| c.is_alphanumeric())
                    .flat_map(char::to_lowercase)
                    .collect()
            };
            let like = player.clubs.iter().find(|c| plain(&c.name) == plain(name));
            FitFault::UnknownClub {
                what,
                row,
                name: name.to_owned(),
                meant: like.map(|c| c.name.clone()),
                known: player.clubs.iter().map(|c| c.name.clone()).collect(),
            }
        })
}

impl Evidence {
    /// This and later shots and outcomes together, this first; refuses a later table that holds the shots of this.
    pub(super) fn followed_by(&self, later: &Evidence) -> Result<Evidence, FitFault> {
        let count = self.shots.len();
        if count >= AGAIN && later.shots.windows(count).any(|run| run == self.shots) {
            return Err(FitFault::Again { count });
        }
        let mut both = self.clone();
        both.shots.extend_from_slice(&later.shots);
        both.outcomes.extend_from_slice(&later.outcomes);
        both.unit_told &= later.unit_told;
        Ok(both)
    }

    /// Refuses what cannot be a table of shots with this bag.
    pub(super) fn check(&self, player: &Player) -> Result<(), FitFault> {
        if self.shots.is_empty() && self.outcomes.is_empty() {
            return Err(FitFault::Nothing);
        }
        for (table, count) in [
            ("shots", self.shots.len()),
            ("outcomes", self.outcomes.len()),
        ] {
            if count > MOST_ROWS {
                return Err(FitFault::TooMany {
                    table,
                    count,
                    most: MOST_ROWS,
                });
            }
        }
        for (row, shot) in self.shots.iter().enumerate() {
            place(player, "shots", Some(row), &shot.club)?;
        }
        for (row, outcome) in self.outcomes.iter().enumerate() {
            place(player, "outcomes", Some(row), &outcome.club)?;
            outcome.check(row)?;
        }
        self.rows(
            "carry",
            "0 to 450 yards",
            |s| s.carry,
            |x| (0.0..=450.0).contains(&x),
        )?;
        let side = "within 250 yards of the aim";
        self.rows(
            "lateral",
            side,
            |s| s.lateral,
            |x| (-250.0..=250.0).contains(&x),
        )?;
        let none = |s: &Shot| s.total.unwrap_or(s.carry);
        self.rows("total", "0 to 600 yards", none, |x| {
            (0.0..=600.0).contains(&x)
        })?;
        self.not_swapped()?;
        self.of_this_size(player)?;
        self.not_all_the_same(player)
    }

    /// Refuses the first row whose value is not allowed, and tells how many more there are.
    fn rows(
        &self,
        field: &'static str,
        allowed: &'static str,
        value: impl Fn(&Shot) -> f64,
        fits: impl Fn(f64) -> bool,
    ) -> Result<(), FitFault> {
        let mut bad = self
            .shots
            .iter()
            .enumerate()
            .filter(|(_, s)| !fits(value(s)));
        let Some((row, shot)) = bad.next() else {
            return Ok(());
        };
        Err(FitFault::Row(RowFault {
            table: "shots",
            row,
            club: shot.club.clone(),
            field,
            value: value(shot),
            allowed,
            more: bad.count(),
        }))
    }

    /// Refuses totals that are mostly shorter than the carries.
    fn not_swapped(&self) -> Result<(), FitFault> {
        let pairs = self.shots.iter().filter_map(|s| Some((s.carry, s.total?)));
        let (mut all, mut shorter, mut first) = (0, 0, None);
        for (carry, total) in pairs {
            all += 1;
            // A wedge may spin back a few yards.
            if total < carry - 5.0 {
                shorter += 1;
                first = first.or(Some((carry, total)));
            }
        }
        match first {
            Some((carry, total)) if 4 * shorter > all => Err(FitFault::Swapped {
                carry,
                total,
                shorter,
                all,
            }),
            _ => Ok(()),
        }
    }

    /// Refuses a club whose carries have nothing to do with the level's.
    fn of_this_size(&self, player: &Player) -> Result<(), FitFault> {
        for club in &player.clubs {
            let mut carries: Vec<f64> = self
                .shots
                .iter()
                .filter(|s| s.club == club.name)
                .map(|s| s.carry)
                .collect();
            if carries.len() < 3 {
                continue;
            }
            carries.sort_by(f64::total_cmp);
            let median = carries[carries.len() / 2];
            // A golfer who duffs half of all shots still has a median above half the solid carry.
            let times = median / club.carry;
            if !(0.45..=1.9).contains(&times) {
                return Err(FitFault::Size {
                    club: club.name.clone(),
                    count: carries.len(),
                    median,
                    level: club.carry,
                    times,
                });
            }
        }
        Ok(())
    }

    /// Refuses a club whose carries or laterals were never measured: a fit would take it for one that never errs.
    fn not_all_the_same(&self, player: &Player) -> Result<(), FitFault> {
        for club in &player.clubs {
            let of_club = || self.shots.iter().filter(|shot| shot.club == club.name);
            differ(club, "carry", of_club().map(|shot| shot.carry))?;
            differ(club, "lateral", of_club().map(|shot| shot.lateral))?;
        }
        Ok(())
    }
}

/// Refuses [`SAME`] values or more that are all the same.
fn differ(
    club: &Club,
    field: &'static str,
    mut values: impl Iterator<Item = f64>,
) -> Result<(), FitFault> {
    let Some(value) = values.next() else {
        return Ok(());
    };
    let (mut count, mut same) = (1, true);
    for other in values {
        count += 1;
        same &= other == value;
    }
    if same && count >= SAME {
        let club = club.name.clone();
        return Err(FitFault::Same {
            club,
            field,
            count,
            value,
        });
    }
    Ok(())
}

impl Outcome {
    fn check(&self, row: usize) -> Result<(), FitFault> {
        let fault = |field, value, allowed| {
            let club = self.club.clone();
            Err(FitFault::Row(RowFault {
                table: "outcomes",
                row,
                club,
                field,
                value,
                allowed,
                more: 0,
            }))
        };
        let fits = 1.0..=200.0;
        if !fits.contains(&self.ground.width) {
            return fault("width", self.ground.width, "1 to 200 yards");
        }
        match self.ground.depth {
            Some(depth) if !fits.contains(&depth) => fault("depth", depth, "1 to 200 yards"),
            None if matches!(self.finish, Finish::Short | Finish::Long) => Err(FitFault::NoDepth {
                row,
                finish: self.finish.name(),
            }),
            _ => Ok(()),
        }
    }
}
