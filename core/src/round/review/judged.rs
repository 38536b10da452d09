//! Strokes that were written down, judged against what their player was to expect.
use super::fault::ReviewFaults;
use super::outcomes::{ShotOutcome, outcome};
use super::place::situation;
use super::read::{WrittenPlace, WrittenRound, WrittenStroke};
use crate::course::Course;
use crate::figures::round::AROUND_THE_GREEN;
use crate::hole::Hole;
use crate::plan::{Scene, Strategy};
use crate::player::Lie;
use crate::run::Run;
use crate::shot::Stroke;
use crate::situation::Situation;
use crate::solve::{Gained, Recorded, Solution, Split, Valuation, Valued};
use crate::units::METRES_PER_YARD;
use rayon::prelude::*;
use std::sync::Arc;

/// A part of the game.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// Strokes from the tee on holes of par 4 and longer.
    TeeShots,
    /// Other strokes from farther than fifty yards.
    Approaches,
    /// Strokes from off the green within fifty yards.
    AroundTheGreen,
    /// Strokes on the green.
    Putting,
}

impl Part {
    /// Every part.
    pub const ALL: [Part; 4] = [
        Part::TeeShots,
        Part::Approaches,
        Part::AroundTheGreen,
        Part::Putting,
    ];

    /// The name used in tables.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Part::TeeShots => "tee shots",
            Part::Approaches => "approaches",
            Part::AroundTheGreen => "around the green",
            Part::Putting => "putting",
        }
    }
}

/// A stroke of a round, judged.
///
/// `choice + execution` is what it gained: what was to be expected before it, less what is to be expected after it, less the
/// strokes it took.
#[derive(Clone, Debug, PartialEq)]
pub struct JudgedStroke {
    /// The line that its row stands on.
    pub row: usize,
    /// Place of the hole on the course, from 0.
    pub place: usize,
    /// Number of the stroke on the hole, penalties counted.
    pub number: u32,
    /// What was played.
    pub club: String,
    /// The part of the game.
    pub part: Part,
    /// Where it was played from.
    pub from: Situation,
    /// Yards to the pin.
    pub to_pin: f64,
    /// What it gained.
    pub gained: Gained,
    /// What the choice of stroke gained on the best there is: the stroke played, at its best aim, against the best stroke. Less
    /// than 0 where another was better.
    pub choice: f64,
    /// What came of it against what was to be expected of that stroke.
    pub execution: f64,
    /// How far luck alone takes the execution of such a stroke: a standard deviation, strokes.
    pub luck: f64,
    /// The stroke that the player's own figures say is best, in words.
    pub best: String,
    /// False where the stroke played is none that suits the lie, so that nothing can be told of the choice.
    pub is_judged: bool,
}

/// A round, judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Review {
    /// The strokes, in their order.
    pub strokes: Vec<JudgedStroke>,
    /// Full shots of which it is known whether they hit what they were for.
    pub outcomes: Vec<ShotOutcome>,
    /// What should be known of the table, one sentence each.
    pub notes: Vec<String>,
}

/// One hole of a round, ready to be judged.
struct Ready {
    place: usize,
    solution: Arc<Solution>,
    strokes: Vec<(WrittenStroke, Situation)>,
}

/// A round being judged: it advances hole by hole.
pub struct Reviewing {
    holes: Vec<Ready>,
    judged: Vec<(Vec<JudgedStroke>, Vec<ShotOutcome>)>,
    notes: Vec<String>,
}

impl Reviewing {
    /// Finds where every ball lay. `solutions` are those for fewest strokes of the holes that were played, by place.
    ///
    /// # Errors
    /// Every ball that lies nowhere on its hole.
    pub fn new(
        course: &Course,
        round: &WrittenRound,
        solutions: impl Fn(usize) -> Arc<Solution>,
    ) -> Result<Self, ReviewFaults> {
        let (mut faults, mut notes, mut holes) = (Vec::new(), Vec::new(), Vec::new());
        for written in round.holes() {
            let place = written[0].place;
            let hole = &course.holes()[place];
            let mut strokes = Vec::new();
            for stroke in written {
                match situation(stroke, hole) {
                    Ok(from) => {
                        notes.extend(note(stroke, from, hole));
                        strokes.push((stroke.clone(), from));
                    }
                    Err(fault) => faults.push(fault),
                }
            }
            notes.extend(doubts(&strokes, hole));
            holes.push((place, strokes));
        }
        if !faults.is_empty() {
            return Err(ReviewFaults(faults));
        }
        let ready = |(place, strokes)| Ready {
            place,
            solution: solutions(place),
            strokes,
        };
        Ok(Reviewing {
            holes: holes.into_iter().map(ready).collect(),
            judged: Vec::new(),
            notes,
        })
    }

    /// What was found so far.
    #[must_use]
    pub fn review(self) -> Review {
        let (strokes, outcomes): (Vec<_>, Vec<_>) = self.judged.into_iter().unzip();
        Review {
            strokes: strokes.concat(),
            outcomes: outcomes.concat(),
            notes: self.notes,
        }
    }
}

impl Run for Reviewing {
    /// Judges up to `count` more holes on the current thread pool.
    fn advance(&mut self, count: u64) {
        let end = self.holes.len().min(
            self.judged
                .len()
                .saturating_add(usize::try_from(count).unwrap_or(usize::MAX)),
        );
        let more = &self.holes[self.judged.len()..end];
        let judged: Vec<_> = more.iter().map(judge).collect();
        self.judged.extend(judged);
    }

    /// Holes judged so far.
    fn done(&self) -> u64 {
        self.judged.len() as u64
    }

    /// Holes in all.
    fn goal(&self) -> u64 {
        self.holes.len() as u64
    }
}

/// What should be known of a row: a lie that the map does not have there.
fn note(stroke: &WrittenStroke, from: Situation, hole: &Hole) -> Option<String> {
    let on_map = Lie::on(hole.surface_at(from.at))?;
    let alike = |a: Lie, b: Lie| a == b || (matches!(a, Lie::Tee) && matches!(b, Lie::Fairway));
    if alike(stroke.lie, on_map) || alike(on_map, stroke.lie) || stroke.lie == Lie::Tee {
        return None;
    }
    let name = |lie: Lie| lie.name().replace('_', " ");
    Some(format!(
        "Row {}: told as {}, where the map has {}; what was told counts.",
        stroke.row,
        name(stroke.lie),
        name(on_map)
    ))
}

/// A last stroke holed from farther than this is worth a word, yards.
const HOLED_FROM: f64 = 60.0;
/// A full swing whose ball lies within so many yards of where it lay is worth one, too.
const NOWHERE: f64 = 3.0;
/// Distances told in metres are [`METRES_PER_YARD`] of those in yards, give or take so much.
const GIVE_OR_TAKE: f64 = 0.012;

/// What may have been forgotten on a hole.
fn doubts(strokes: &[(WrittenStroke, Situation)], hole: &Hole) -> Vec<String> {
    let mut doubts = Vec::new();
    if let Some((stroke, from)) = strokes.last()
        && from.to_pin(hole) > HOLED_FROM
    {
        doubts.push(format!(
            "Row {}: holed from {:.0} yards, as the last stroke of the hole; are rows missing?",
            stroke.row,
            from.to_pin(hole)
        ));
    }
    if let Some((stroke, from)) = strokes.first()
        && let WrittenPlace::From { to_pin, .. } = stroke.at
    {
        let own = from.to_pin(hole);
        if from.lie == Lie::Tee && (to_pin / own - METRES_PER_YARD).abs() < GIVE_OR_TAKE {
            doubts.push(format!(
                "Row {}: {to_pin:.0} from the tee, which lies {own:.0} yards from the pin; is the round told in metres?",
                stroke.row
            ));
        }
    }
    for pair in strokes.windows(2) {
        let ((stroke, from), (_, to)) = (&pair[0], &pair[1]);
        let moved = (to.at - from.at).norm();
        if is_swing(stroke.stroke) && stroke.penalty == 0 && moved < NOWHERE {
            doubts.push(format!(
                "Row {}: the ball lies where it lay before; if it was dropped or teed up again, the penalty is missing.",
                stroke.row
            ));
        }
    }
    doubts
}

/// Judges the strokes of a hole.
fn judge(ready: &Ready) -> (Vec<JudgedStroke>, Vec<ShotOutcome>) {
    let solution = &*ready.solution;
    let scene = solution.scene();
    let last = ready.strokes.len() - 1;
    let recorded: Vec<Recorded> = ready
        .strokes
        .iter()
        .enumerate()
        .map(|(i, (stroke, from))| Recorded {
            play: 0,
            from: *from,
            penalty: stroke.penalty,
            holed: i == last,
        })
        .collect();
    let gained = solution
        .strokes_gained(&recorded, None, Valued::Closely)
        .unwrap_or_default();
    let judged = ready
        .strokes
        .par_iter()
        .zip(&gained)
        .map(|((stroke, from), gained)| judged(solution, ready.place, stroke, *from, *gained))
        .collect();
    let outcomes = ready.strokes.windows(2).filter_map(|pair| {
        let [(stroke, from), (_, to)] = pair else {
            return None;
        };
        (stroke.penalty == 0)
            .then(|| outcome(scene, stroke, *from, *to))
            .flatten()
    });
    (judged, outcomes.collect())
}

fn judged(
    solution: &Solution,
    place: usize,
    stroke: &WrittenStroke,
    from: Situation,
    gained: Gained,
) -> JudgedStroke {
    let scene = solution.scene();
    let best = solution.choose(scene, from, 0);
    // The best aim of the stroke that was played: of a stroke one aims oneself, nobody tells where.
    let chosen = if best.stroke == stroke.stroke {
        Some(best)
    } else {
        solution.best_with(from, stroke.stroke)
    };
    let split = match &chosen {
        Some(shot) => solution.split(from, shot, gained.gained),
        None => Split {
            choice: 0.0,
            execution: gained.gained,
            luck: Valuation::of(solution, from, &best).deviation,
        },
    };
    JudgedStroke {
        row: stroke.row,
        place,
        number: stroke.number,
        club: scene.stroke_name(stroke.stroke),
        part: part(scene, from),
        from,
        to_pin: from.to_pin(scene.hole()),
        choice: split.choice,
        execution: split.execution,
        gained,
        luck: split.luck,
        best: solution.words(from, &best),
        is_judged: chosen.is_some(),
    }
}

fn part(scene: &Scene, from: Situation) -> Part {
    match from.lie {
        Lie::Green => Part::Putting,
        Lie::Tee if scene.hole().par() > 3 => Part::TeeShots,
        _ if from.to_pin(scene.hole()) <= AROUND_THE_GREEN => Part::AroundTheGreen,
        _ => Part::Approaches,
    }
}

/// True of a swing of a club.
pub(super) fn is_swing(stroke: Stroke) -> bool {
    matches!(stroke, Stroke::Swing(_))
}
