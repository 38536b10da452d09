//! One play of a hole: strokes until the ball is holed.
use super::Cause;
use crate::noise::{Noise, PlayNoise};
use crate::plan::{Ready, Scene};
use crate::player::{Lie, Touch};
use crate::rules::Procedure;
use crate::shot::{Events, Next, Outcome, Shot, Stroke};
use crate::situation::Situation;

/// Strokes and penalties after which a play is broken off and reported as unfinished, so that a hole
/// that cannot be finished does not run for ever.
pub const STROKE_CAP: u8 = 60;

/// What a play came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Played {
    /// Strokes and penalty strokes.
    pub score: u8,
    /// Penalty strokes among them.
    pub penalties: u8,
    /// Strokes made from the putting green.
    pub putts: u8,
    /// True if the play was broken off at [`STROKE_CAP`].
    pub unfinished: bool,
    /// Strokes and penalties before the first putt, and its length in yards; None if there was none.
    pub first_putt: Option<(u8, f64)>,
    /// The first thing that went wrong.
    pub cause: Option<Cause>,
}

/// One stroke of a play, told in full.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Told {
    /// Where it was played from.
    pub from: Situation,
    /// The decision.
    pub shot: Shot,
    /// What became of it.
    pub outcome: Outcome,
    /// Penalty strokes it cost.
    pub penalty: u8,
    /// The procedure under which the ball came back into play, if any.
    pub relief: Option<Procedure>,
    /// Where the next stroke is played from; None when holed.
    pub to: Option<Situation>,
}

/// Listens to the strokes of a play.
pub trait Listener {
    /// Hears of one stroke.
    fn hear(&mut self, stroke: &Told);
}

/// The listener that does not listen.
impl Listener for () {
    fn hear(&mut self, _: &Told) {}
}

impl Listener for Vec<Told> {
    fn hear(&mut self, stroke: &Told) {
        self.push(*stroke);
    }
}

/// Plays the hole once, from `start`. A score of `pick_up` or more counts as `pick_up` (Maximum Score, Rule 21.2).
pub(crate) fn play(
    scene: &Scene,
    plan: &Ready,
    start: Situation,
    luck: PlayNoise,
    pick_up: u8,
    listener: &mut impl Listener,
) -> Played {
    let mut playing = Playing::new(start);
    for number in 0.. {
        if playing.stroke(scene, plan, &luck.stroke(number), pick_up, listener) {
            break;
        }
    }
    playing.played(pick_up)
}

/// A play under way.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Playing {
    ball: Situation,
    /// The instruction of the plan that is due.
    due: usize,
    played: Played,
}

impl Playing {
    /// A play that begins in a situation.
    #[inline]
    pub(crate) fn new(start: Situation) -> Self {
        Playing {
            ball: start,
            due: 0,
            played: Played {
                score: 0,
                penalties: 0,
                putts: 0,
                unfinished: false,
                first_putt: None,
                cause: None,
            },
        }
    }

    /// Strokes and penalties so far.
    pub(super) fn score(&self) -> u8 {
        self.played.score
    }

    /// The shot of the instruction that is due, if any is, and which comes after it.
    pub(super) fn instructed(&self, scene: &Scene, plan: &Ready) -> (Option<Shot>, usize) {
        plan.instructed(scene, self.ball, self.due)
    }

    /// Where the next stroke is played from.
    pub(crate) fn ball(&self) -> Situation {
        self.ball
    }

    /// What the play came to.
    #[inline]
    pub(crate) fn played(self, pick_up: u8) -> Played {
        let score = self.played.score.min(pick_up).min(STROKE_CAP);
        Played {
            score,
            ..self.played
        }
    }

    /// Makes a stroke; true if it was the last.
    #[inline]
    pub(crate) fn stroke(
        &mut self,
        scene: &Scene,
        plan: &Ready,
        noise: &Noise,
        pick_up: u8,
        listener: &mut impl Listener,
    ) -> bool {
        let choice = plan.instructed(scene, self.ball, self.due);
        self.chosen(scene, plan, choice, noise, pick_up, listener)
    }

    /// Makes a stroke with a shot, or the one that the plan's strategy chooses, and says which instruction comes after it;
    /// true if it was the last.
    #[inline]
    pub(super) fn chosen(
        &mut self,
        scene: &Scene,
        plan: &Ready,
        (shot, then_due): (Option<Shot>, usize),
        noise: &Noise,
        pick_up: u8,
        listener: &mut impl Listener,
    ) -> bool {
        let (ball, played) = (self.ball, &mut self.played);
        let shot = shot.unwrap_or_else(|| plan.strategy().choose(scene, ball, played.score));
        played.before(scene, ball);
        let outcome = scene.resolve(ball, &shot, noise);
        played.score += 1;
        let (to, penalty, relief) = follow(scene, plan, &outcome, played.score);
        played.score += penalty;
        played.penalties += penalty;
        played.after(ball, &shot, &outcome);
        listener.hear(&Told {
            from: ball,
            shot,
            outcome,
            penalty,
            relief,
            to,
        });
        let Some(next) = to else { return true };
        if played.score >= pick_up {
            return true;
        }
        if played.score >= STROKE_CAP {
            played.unfinished = true;
            return true;
        }
        // A ball played again from the same place is played again as planned.
        if relief != Some(Procedure::StrokeAndDistance) {
            self.due = then_due;
        }
        self.ball = next;
        false
    }
}

/// The next situation, the penalty and the procedure that an outcome leads to under a plan, after `played` strokes and
/// penalties.
fn follow(
    scene: &Scene,
    plan: &Ready,
    outcome: &Outcome,
    played: u8,
) -> (Option<Situation>, u8, Option<Procedure>) {
    match &outcome.next {
        Next::Holed => (None, 0, None),
        Next::Play(situation) => (Some(*situation), 0, None),
        Next::Relief(relief) => {
            let options = relief.options(scene.hole());
            let drop = plan.strategy().take(scene, &options, played);
            (Some(drop.situation), drop.penalty, Some(drop.procedure))
        }
    }
}

impl Played {
    fn before(&mut self, scene: &Scene, ball: Situation) {
        if ball.lie == Lie::Green {
            if self.first_putt.is_none() {
                self.first_putt = Some((self.score, ball.to_pin(scene.hole())));
            }
            self.putts += 1;
        }
    }

    fn after(&mut self, from: Situation, shot: &Shot, outcome: &Outcome) {
        if self.cause.is_none() {
            self.cause = cause(from, shot, outcome, self.putts);
        }
    }
}

/// What went wrong with a stroke, if anything. A penalty outranks what led to it.
pub(crate) fn cause(from: Situation, shot: &Shot, outcome: &Outcome, putts: u8) -> Option<Cause> {
    let events = outcome.events;
    let reached = matches!(
        outcome.next,
        Next::Holed
            | Next::Play(Situation {
                lie: Lie::Green,
                ..
            })
    );
    let short = matches!(
        shot.stroke,
        Stroke::Touch(Touch::Putter | Touch::Chip | Touch::Pitch | Touch::Lob | Touch::BunkerShot)
    );
    if events.has(Events::OUT_OF_BOUNDS) {
        Some(Cause::OutOfBounds)
    } else if events.has(Events::LOST) {
        Some(Cause::LostBall)
    } else if events.has(Events::PENALTY_AREA) {
        Some(Cause::PenaltyArea)
    } else if events.has(Events::TREES) {
        Some(Cause::Trees)
    } else if short && !reached {
        Some(Cause::ShortGame)
    } else if events.has(Events::MISHIT) && !short {
        Some(Cause::Mishit)
    } else if from.lie == Lie::Green && putts == 2 && outcome.next != Next::Holed {
        Some(Cause::ThreePutt)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Point;
    use crate::hole::Surface;
    use crate::player::ClubId;

    /// A putt that missed, and what went wrong with it if it was the one of that number.
    fn missed(number: u8) -> Option<Cause> {
        let at = |x| Situation {
            at: Point::new(x, 100.0),
            lie: Lie::Green,
        };
        let shot = Shot {
            stroke: Stroke::Putt,
            target: Point::new(0.0, 100.0),
            carry: 0.0,
        };
        let outcome = Outcome {
            landed: at(9.0).at,
            rest: at(1.0).at,
            surface: Surface::Green,
            events: Events::default(),
            next: Next::Play(at(1.0)),
        };
        cause(at(9.0), &shot, &outcome, number)
    }

    /// The second putt that misses makes a three-putt of it; the first does not yet, and the third is a putt of one.
    #[test]
    fn a_three_putt_begins_with_the_second_that_misses() {
        let told = [1, 2, 3, 4].map(missed);
        assert_eq!(told, [None, Some(Cause::ThreePutt), None, None]);
    }

    /// A missed chip that reaches the green has done what it was for; one that does not is the short game's, missed or not. A
    /// full stroke that was missed is a mishit wherever it ends.
    #[test]
    fn a_missed_stroke_is_judged_by_what_it_was_for() {
        let told = |stroke, mishit: bool, lie| {
            let from = Situation {
                at: Point::new(0.0, 80.0),
                lie: Lie::Rough,
            };
            let to = Situation {
                at: Point::new(0.0, 95.0),
                lie,
            };
            let shot = Shot {
                stroke,
                target: to.at,
                carry: 10.0,
            };
            let outcome = Outcome {
                landed: to.at,
                rest: to.at,
                surface: Surface::Rough,
                events: if mishit {
                    Events::MISHIT
                } else {
                    Events::default()
                },
                next: Next::Play(to),
            };
            cause(from, &shot, &outcome, 0)
        };
        let (chip, swing) = (Stroke::Touch(Touch::Chip), Stroke::Swing(ClubId(0)));
        assert_eq!(told(chip, true, Lie::Green), None);
        assert_eq!(told(chip, true, Lie::Rough), Some(Cause::ShortGame));
        assert_eq!(told(chip, false, Lie::Rough), Some(Cause::ShortGame));
        assert_eq!(told(swing, true, Lie::Green), Some(Cause::Mishit));
        assert_eq!(told(swing, false, Lie::Rough), None);
    }
}
