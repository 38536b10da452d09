//! The strokes around the green compared from one place: putter, running chip, pitch, lob or bunker shot.
//!
//! Every stroke that suits the lie is played first, at the pin with the length that does best, and the player's
//! ordinary strategy holes out: a comparison of plans that begin in another place than on the tee.

mod fault;
mod first;
mod opening;

pub use fault::AroundFault;
pub use first::{FirstStrokes, MOST_LEFT_FT};
pub use opening::Opening;

use crate::geometry::Point;
use crate::hole::{Hole, Surface};
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Scene, Then};
use crate::player::Lie;
use crate::rank::{Comparison, Question, Ranking};
use crate::run::Run;
use crate::situation::Situation;
use crate::stats::Estimate;
use opening::Place;
use rayon::prelude::*;
use serde::{Deserialize, Serialize};

/// The farthest from the edge of the green that the question makes sense, yards.
pub const FARTHEST: f64 = 100.0;

/// A comparison of the strokes around the green under way: it advances in waves, and can be left at any time.
pub struct Around {
    scene: Scene,
    start: Situation,
    seed: Seed,
    openings: Vec<Opening>,
    firsts: Vec<FirstStrokes>,
    comparison: Comparison,
}

impl Around {
    /// Checks everything and chooses the length of each first stroke; nothing has been played yet.
    ///
    /// The options are the strokes that suit the lie at `at` and reach the green, or the longest of them if none does.
    /// After its first stroke each is played by the strategy `then`.
    ///
    /// # Errors
    /// A place on a green, where a ball is not played as it lies, or far from the green; every reason why the
    /// question cannot be answered.
    pub fn new(
        scene: Scene,
        at: Point,
        then: &Then,
        question: Question,
    ) -> Result<Self, AroundFault> {
        let start = lying(scene.hole(), at)?;
        let then = then.strategy(&scene)?;
        let place = Place {
            scene: &scene,
            start,
            then,
        };
        let openings = place.openings()?;
        let plans = openings
            .iter()
            .map(|opening| place.plan(opening.name(), opening))
            .collect::<Result<Vec<_>, _>>()?;
        let seed = question.seed;
        let start_here = Question {
            start: Some(start),
            ..question
        };
        let comparison = Comparison::new(scene.clone(), &plans, start_here)?;
        Ok(Around {
            firsts: vec![FirstStrokes::new(); openings.len()],
            scene,
            start,
            seed,
            openings,
            comparison,
        })
    }

    /// What became of the first strokes of some plays. The same luck gives the same strokes as in the comparison, so
    /// they need not be listened to there.
    fn first_strokes(&self, from: u64, to: u64) -> Vec<FirstStrokes> {
        /// Plays taken together.
        const BLOCK: u64 = 512;
        let new = || vec![FirstStrokes::new(); self.openings.len()];
        (0..(to - from).div_ceil(BLOCK))
            .into_par_iter()
            .fold(new, |mut firsts, block| {
                let start = from + block * BLOCK;
                for play in start..(start + BLOCK).min(to) {
                    self.first_stroke(play, &mut firsts);
                }
                firsts
            })
            .reduce(new, |mut a, b| {
                merge(&mut a, &b);
                a
            })
    }

    /// The first stroke of one play under every option.
    fn first_stroke(&self, play: u64, firsts: &mut [FirstStrokes]) {
        let hole = self.scene.hole();
        let noise = PlayNoise::new(self.seed, play).stroke(0);
        for (first, opening) in firsts.iter_mut().zip(&self.openings) {
            let shot = opening.shot(hole, self.start.at);
            let outcome = self.scene.resolve(self.start, &shot, &noise);
            let swing = self.scene.bag().touch(opening.touch, self.start.lie);
            first.add(&outcome, swing.contact(&noise), hole.pin());
        }
    }

    /// What has been found so far.
    #[must_use]
    pub fn found(&self) -> AroundRanking {
        AroundRanking {
            ranking: self.comparison.ranking(),
            at: (self.start.at.x, self.start.at.y),
            lie: self.start.lie,
            to_pin: self.start.to_pin(self.scene.hole()),
            openings: self.openings.clone(),
            firsts: self.firsts.clone(),
        }
    }
}

impl Run for Around {
    /// Plays up to `count` more plays of every option on the current thread pool, not beyond the next stop.
    fn advance(&mut self, count: u64) {
        let from = self.done();
        self.comparison.advance(count);
        let firsts = self.first_strokes(from, self.done());
        merge(&mut self.firsts, &firsts);
    }

    /// Plays of every option so far.
    fn done(&self) -> u64 {
        self.comparison.done()
    }

    /// Plays of every option after which the run ends or is judged next.
    fn goal(&self) -> u64 {
        self.comparison.goal()
    }

    /// True when the question has been answered.
    fn is_finished(&self) -> bool {
        self.comparison.is_finished()
    }
}

fn merge(into: &mut [FirstStrokes], from: &[FirstStrokes]) {
    for (mine, theirs) in into.iter_mut().zip(from) {
        mine.merge(theirs);
    }
}

/// The strokes around the green in order, fewest strokes to hole out first, with everything counted about them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Written")]
pub struct AroundRanking {
    /// The options as plans in the order of `openings`; a score is the number of strokes and penalties to hole out.
    pub ranking: Ranking,
    /// Where the first stroke is played from, yards.
    pub at: (f64, f64),
    /// The lie there.
    pub lie: Lie,
    /// Yards to the pin.
    pub to_pin: f64,
    /// The first stroke of each option.
    pub openings: Vec<Opening>,
    /// What became of it.
    pub firsts: Vec<FirstStrokes>,
}

/// A ranking as it was written, before it is known that its parts belong together.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    ranking: Ranking,
    at: (f64, f64),
    lie: Lie,
    to_pin: f64,
    openings: Vec<Opening>,
    firsts: Vec<FirstStrokes>,
}

impl TryFrom<Written> for AroundRanking {
    type Error = String;

    fn try_from(written: Written) -> Result<Self, String> {
        let options = written.ranking.order().len();
        let named = |(i, opening): (usize, &Opening)| written.ranking.name(i) == opening.name();
        if written.openings.len() != options || !written.openings.iter().enumerate().all(named) {
            return Err("openings must be the strokes ranked, in the same order".to_owned());
        }
        let whole = |first: &FirstStrokes| first.is_whole(written.ranking.plays);
        if written.firsts.len() != options || !written.firsts.iter().all(whole) {
            return Err(
                "firsts must count the first stroke of every play of every option".to_owned(),
            );
        }
        Ok(AroundRanking {
            ranking: written.ranking,
            at: written.at,
            lie: written.lie,
            to_pin: written.to_pin,
            openings: written.openings,
            firsts: written.firsts,
        })
    }
}

impl AroundRanking {
    /// Share of plays of an option that were down in `strokes` or fewer, penalties included.
    #[must_use]
    pub fn down_in(&self, option: usize, strokes: u8) -> Estimate {
        self.ranking.at_most(option, strokes)
    }
}

/// The ball at a place where the question makes sense.
fn lying(hole: &Hole, at: Point) -> Result<Situation, AroundFault> {
    let (x, y) = (at.x, at.y);
    if !(x.is_finite() && y.is_finite()) {
        return Err(AroundFault::NotFinite { x, y });
    }
    let surface = hole.surface_at(at);
    let where_it_is = match surface {
        Surface::OutOfBounds => Some("out of bounds"),
        Surface::PenaltyRed | Surface::PenaltyYellow => Some("in a penalty area"),
        Surface::Green => Some("on a putting green"),
        _ => None,
    };
    let lie = match (Lie::on(surface), where_it_is) {
        (Some(lie), None) => lie,
        (_, words) => {
            return Err(AroundFault::NoPlace {
                x,
                y,
                where_it_is: words.unwrap_or("no place to play from"),
            });
        }
    };
    let yards = (hole.green().outline.nearest_edge_point(at) - at).norm();
    if yards > FARTHEST {
        return Err(AroundFault::TooFar { x, y, yards });
    }
    Ok(Situation { at, lie })
}
