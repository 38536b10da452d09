//! The statistics that golfers keep, read off the strokes of a play.
use crate::figures::round::AROUND_THE_GREEN;
use crate::hole::Hole;
use crate::player::Lie;
use crate::shot::Events;
use crate::simulate::{Listener, Played, Told};

/// Something that golfers keep count of in a round.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(u8)]
pub enum Statistic {
    /// Tee shots of par 4 and longer that end in play on fairway or green; of those holes.
    Fairways,
    /// Holes on whose green the ball lies, or in whose hole, after two strokes fewer than par; of all.
    Greens,
    /// Strokes from the putting green.
    Putts,
    /// Holes of one putt; of those with any.
    OnePutts,
    /// Holes of three putts or more; of those with any.
    ThreePutts,
    /// Down in two or fewer from the first stroke off the green within fifty yards of the pin; of those tried.
    UpAndDowns,
    /// The same where that stroke is from sand.
    SandSaves,
    /// Penalty strokes.
    Penalties,
    /// Penalty strokes for penalty areas.
    PenaltyAreas,
    /// Penalty strokes for balls out of bounds.
    OutOfBounds,
    /// Penalty strokes for lost balls.
    Lost,
    /// Penalty strokes for unplayable balls.
    Unplayable,
    /// Strokes from sand.
    FromSand,
    /// Strokes from trees.
    FromTrees,
    /// Strokes from off the green, 200 yards and farther from the pin, tee shots too.
    Beyond200,
    /// The same from 100 to 200 yards.
    From100,
    /// The same from 50 to 100 yards.
    From50,
    /// The same from within 50 yards.
    Within50,
    /// Holes one under par or better; of all.
    Birdies,
    /// Holes in par; of all.
    Pars,
    /// Holes one over par; of all.
    Bogeys,
    /// Holes two over par or worse; of all.
    Doubles,
}

/// How many there are.
const COUNT: usize = 22;

impl Statistic {
    /// Every statistic, in the order of the discriminants.
    pub const ALL: [Statistic; COUNT] = [
        Statistic::Fairways,
        Statistic::Greens,
        Statistic::Putts,
        Statistic::OnePutts,
        Statistic::ThreePutts,
        Statistic::UpAndDowns,
        Statistic::SandSaves,
        Statistic::Penalties,
        Statistic::PenaltyAreas,
        Statistic::OutOfBounds,
        Statistic::Lost,
        Statistic::Unplayable,
        Statistic::FromSand,
        Statistic::FromTrees,
        Statistic::Beyond200,
        Statistic::From100,
        Statistic::From50,
        Statistic::Within50,
        Statistic::Birdies,
        Statistic::Pars,
        Statistic::Bogeys,
        Statistic::Doubles,
    ];

    /// The name used in tables.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Statistic::Fairways => "fairways",
            Statistic::Greens => "greens in regulation",
            Statistic::Putts => "putts",
            Statistic::OnePutts => "one-putts",
            Statistic::ThreePutts => "three-putts",
            Statistic::UpAndDowns => "up and downs",
            Statistic::SandSaves => "sand saves",
            Statistic::Penalties => "penalty strokes",
            Statistic::PenaltyAreas => "penalty strokes, penalty area",
            Statistic::OutOfBounds => "penalty strokes, out of bounds",
            Statistic::Lost => "penalty strokes, lost ball",
            Statistic::Unplayable => "penalty strokes, unplayable",
            Statistic::FromSand => "strokes from sand",
            Statistic::FromTrees => "strokes from trees",
            Statistic::Beyond200 => "strokes from 200 yd and more",
            Statistic::From100 => "strokes from 100 to 200 yd",
            Statistic::From50 => "strokes from 50 to 100 yd",
            Statistic::Within50 => "strokes off the green inside 50 yd",
            Statistic::Birdies => "birdies or better",
            Statistic::Pars => "pars",
            Statistic::Bogeys => "bogeys",
            Statistic::Doubles => "double bogeys or worse",
        }
    }

    /// True if it is told as a share of the chances to make it.
    #[must_use]
    pub fn has_chances(self) -> bool {
        use Statistic as S;
        matches!(
            self,
            S::Fairways
                | S::Greens
                | S::OnePutts
                | S::ThreePutts
                | S::UpAndDowns
                | S::SandSaves
                | S::Birdies
                | S::Pars
                | S::Bogeys
                | S::Doubles
        )
    }
}

/// What is kept of one play or one round: of each statistic how often it was made, and of how many chances.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kept([(u16, u16); COUNT]);

impl Default for Kept {
    fn default() -> Self {
        Kept([(0, 0); COUNT])
    }
}

impl Kept {
    /// How often a statistic was made, and of how many chances.
    #[must_use]
    pub fn of(&self, statistic: Statistic) -> (u16, u16) {
        self.0[statistic as usize]
    }

    /// All of them, in the order of [`Statistic::ALL`].
    pub(super) fn all(&self) -> &[(u16, u16); COUNT] {
        &self.0
    }

    fn count(&mut self, statistic: Statistic, times: u8) {
        self.0[statistic as usize].0 += u16::from(times);
    }

    fn chance(&mut self, statistic: Statistic, made: bool) {
        let kept = &mut self.0[statistic as usize];
        *kept = (kept.0 + u16::from(made), kept.1 + 1);
    }

    /// Adds another play of the round.
    pub(super) fn add(&mut self, other: &Kept) {
        for (mine, theirs) in self.0.iter_mut().zip(&other.0) {
            *mine = (mine.0 + theirs.0, mine.1 + theirs.1);
        }
    }
}

/// Listens to a play and keeps the statistics.
pub(super) struct Keeper<'a> {
    hole: &'a Hole,
    kept: Kept,
    /// Strokes and penalties so far.
    score: u8,
    on_in_regulation: bool,
    /// Strokes and penalties before the first stroke around the green, and whether that was from sand.
    around: Option<(u8, bool)>,
}

impl<'a> Keeper<'a> {
    pub(super) fn new(hole: &'a Hole) -> Self {
        Keeper {
            hole,
            kept: Kept::default(),
            score: 0,
            on_in_regulation: false,
            around: None,
        }
    }

    /// What was kept of the play that has ended.
    pub(super) fn kept(mut self, played: &Played) -> Kept {
        let (par, score) = (self.hole.par(), played.score);
        let kept = &mut self.kept;
        kept.chance(Statistic::Greens, self.on_in_regulation);
        if let Some((before, sand)) = self.around {
            let made = !played.unfinished && score - before.min(score) <= 2;
            kept.chance(Statistic::UpAndDowns, made);
            if sand {
                kept.chance(Statistic::SandSaves, made);
            }
        }
        kept.count(Statistic::Putts, played.putts);
        if played.putts > 0 {
            kept.chance(Statistic::OnePutts, played.putts == 1);
            kept.chance(Statistic::ThreePutts, played.putts >= 3);
        }
        kept.chance(Statistic::Birdies, score < par);
        kept.chance(Statistic::Pars, score == par);
        kept.chance(Statistic::Bogeys, score == par + 1);
        kept.chance(Statistic::Doubles, score > par + 1);
        self.kept
    }

    /// Counts a stroke by where it was played from.
    fn from(&mut self, told: &Told) {
        match told.from.lie {
            Lie::Bunker => self.kept.count(Statistic::FromSand, 1),
            Lie::Trees => self.kept.count(Statistic::FromTrees, 1),
            Lie::Green => return,
            _ => {}
        }
        let to_pin = told.from.to_pin(self.hole);
        let zone = match to_pin {
            far if far >= 200.0 => Statistic::Beyond200,
            far if far >= 100.0 => Statistic::From100,
            far if far >= AROUND_THE_GREEN => Statistic::From50,
            _ => Statistic::Within50,
        };
        self.kept.count(zone, 1);
        if zone == Statistic::Within50 && self.around.is_none() {
            self.around = Some((self.score, told.from.lie == Lie::Bunker));
        }
    }

    fn penalty(&mut self, told: &Told) {
        let events = told.outcome.events;
        let kind = match events {
            _ if events.has(Events::OUT_OF_BOUNDS) => Statistic::OutOfBounds,
            _ if events.has(Events::LOST) => Statistic::Lost,
            _ if events.has(Events::PENALTY_AREA) => Statistic::PenaltyAreas,
            _ => Statistic::Unplayable,
        };
        self.kept.count(Statistic::Penalties, told.penalty);
        self.kept.count(kind, told.penalty);
    }
}

/// True of a ball that lies on the green or in the hole.
fn is_on(told: &Told) -> bool {
    told.to.is_none_or(|to| to.lie == Lie::Green)
}

impl Listener for Keeper<'_> {
    fn hear(&mut self, told: &Told) {
        self.from(told);
        let is_drive = self.score == 0 && self.hole.par() > 3;
        if is_drive {
            let on = told
                .to
                .is_none_or(|to| matches!(to.lie, Lie::Fairway | Lie::Green));
            self.kept
                .chance(Statistic::Fairways, on && told.penalty == 0);
        }
        if told.penalty > 0 {
            self.penalty(told);
        }
        self.score = self.score.saturating_add(1 + told.penalty);
        if is_on(told) && self.score + 2 <= self.hole.par() {
            self.on_in_regulation = true;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Point, Vector};
    use crate::hole::{Sketch, Surface};
    use crate::shot::{Next, Outcome, Shot, Stroke};
    use crate::situation::Situation;

    /// Where a stroke was played from and where its ball lay then (yards from the pin, lie; None holed), and its penalty.
    type Row = ((f64, Lie), Option<(f64, Lie)>, u8);

    /// What is kept of strokes on a hole.
    fn kept(par: u8, rows: &[Row]) -> Kept {
        let length = if par == 3 { 200.0 } else { 400.0 };
        let hole = Hole::sketch(&Sketch::new(par, length)).unwrap();
        let mut keeper = Keeper::new(&hole);
        let (mut score, mut putts) = (0, 0);
        for &(from, to, penalty) in rows {
            let place = |(yards, lie): (f64, Lie)| Situation {
                at: hole.pin() - Vector::new(0.0, yards),
                lie,
            };
            let (from, to) = (place(from), to.map(place));
            keeper.hear(&Told {
                from,
                shot: Shot {
                    stroke: Stroke::Putt,
                    target: Point::origin(),
                    carry: 0.0,
                },
                outcome: Outcome {
                    landed: from.at,
                    rest: from.at,
                    surface: Surface::Rough,
                    events: Events::default(),
                    next: to.map_or(Next::Holed, Next::Play),
                },
                penalty,
                relief: None,
                to,
            });
            score += 1 + penalty;
            putts += u8::from(from.lie == Lie::Green);
        }
        keeper.kept(&Played {
            score,
            penalties: 0,
            putts,
            unfinished: false,
            first_putt: None,
            cause: None,
        })
    }

    const TEE: (f64, Lie) = (400.0, Lie::Tee);
    const FAIRWAY: (f64, Lie) = (150.0, Lie::Fairway);
    const SAND: (f64, Lie) = (20.0, Lie::Bunker);
    const ROUGH: (f64, Lie) = (30.0, Lie::Rough);
    const GREEN: (f64, Lie) = (5.0, Lie::Green);

    /// Drive, approach into the sand, sand shot to the green, and one putt or two: a save in two strokes, none in three.
    #[test]
    fn a_sand_save_by_hand() {
        let out = [
            (TEE, Some(FAIRWAY), 0),
            (FAIRWAY, Some(SAND), 0),
            (SAND, Some(GREEN), 0),
        ];
        let one = kept(4, &[&out[..], &[(GREEN, None, 0)]].concat());
        let two = kept(
            4,
            &[&out[..], &[(GREEN, Some(GREEN), 0), (GREEN, None, 0)]].concat(),
        );
        use Statistic as S;
        for (statistic, of_one, of_two) in [
            (S::Fairways, (1, 1), (1, 1)),
            (S::Greens, (0, 1), (0, 1)),
            (S::UpAndDowns, (1, 1), (0, 1)),
            (S::SandSaves, (1, 1), (0, 1)),
            (S::OnePutts, (1, 1), (0, 1)),
            (S::ThreePutts, (0, 1), (0, 1)),
            (S::Putts, (1, 0), (2, 0)),
            (S::FromSand, (1, 0), (1, 0)),
            (S::Beyond200, (1, 0), (1, 0)),
            (S::From100, (1, 0), (1, 0)),
            (S::Within50, (1, 0), (1, 0)),
            (S::Pars, (1, 1), (0, 1)),
            (S::Bogeys, (0, 1), (1, 1)),
            (S::Doubles, (0, 1), (0, 1)),
        ] {
            assert_eq!(
                (one.of(statistic), two.of(statistic)),
                (of_one, of_two),
                "{statistic:?}"
            );
        }
    }

    /// A drive into the water and dropped on the fairway has not hit it; on the green in four, three putts: 3 over par.
    #[test]
    fn a_bad_hole_by_hand() {
        let putt = (GREEN, Some(GREEN), 0);
        let all = kept(
            4,
            &[
                (TEE, Some(FAIRWAY), 1),
                (FAIRWAY, Some(ROUGH), 0),
                (ROUGH, Some(GREEN), 0),
                putt,
                putt,
                (GREEN, None, 0),
            ],
        );
        use Statistic as S;
        assert_eq!(
            (all.of(S::Fairways), all.of(S::Penalties)),
            ((0, 1), (1, 0))
        );
        assert_eq!(
            (all.of(S::ThreePutts), all.of(S::OnePutts)),
            ((1, 1), (0, 1))
        );
        assert_eq!(
            (all.of(S::UpAndDowns), all.of(S::SandSaves)),
            ((0, 1), (0, 0))
        );
        assert_eq!((all.of(S::Doubles), all.of(S::Bogeys)), ((1, 1), (0, 1)));
        // A double bogey itself is one.
        let double = kept(
            3,
            &[(TEE, Some(GREEN), 0), putt, putt, putt, (GREEN, None, 0)],
        );
        assert_eq!(
            (double.of(S::Doubles), double.of(S::Greens)),
            ((1, 1), (1, 1))
        );
        assert_eq!(double.of(S::Fairways), (0, 0));
    }

    /// Two chips and a putt are three strokes from the first, not two from the last.
    #[test]
    fn an_up_and_down_begins_with_the_first_stroke_near_the_green() {
        let rows = [
            (TEE, Some(FAIRWAY), 0),
            (FAIRWAY, Some(ROUGH), 0),
            (ROUGH, Some((10.0, Lie::Rough)), 0),
            ((10.0, Lie::Rough), Some(GREEN), 0),
            (GREEN, None, 0),
        ];
        assert_eq!(kept(4, &rows).of(Statistic::UpAndDowns), (0, 1));
        assert_eq!(kept(4, &rows).of(Statistic::Within50), (2, 0));
    }
}
