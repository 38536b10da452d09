//! Which shot, in words a coach uses, and what other shots would cost.
use crate::geometry::{Point, right_of, unit_or_up};
use crate::noise::Noise;
use crate::plan::{Aim, Instruction, Scene, Strategy};
use crate::player::Lie;
use crate::shot::{Shot, Stroke};
use crate::situation::Situation;
use crate::solve::fault::SolveFault;
use crate::solve::score::place::Place;
use crate::solve::score::signed;
use crate::solve::search::action::{Action, down_the_line};
use crate::solve::solution::{Looked, Solution};
use crate::solve::task::Objective;

/// The shot that is played, what it is worth, and what others would cost.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// Where the ball lies.
    pub from: Situation,
    /// The club, or the stroke around the green, as it is called.
    pub club: String,
    /// The shot.
    pub shot: Shot,
    /// Where a solid strike without luck ends.
    pub finish: Point,
    /// Strokes to hole out with it, penalties included.
    pub strokes: f64,
    /// The chance of holing out in the strokes left, of a solution for a score.
    pub chance: Option<f64>,
    /// The shot as a coach would tell it.
    pub words: String,
    /// The shot as an instruction of a plan, played just as it is told.
    pub instruction: Instruction,
    /// The best shot with another club that a long look finds; it costs less than nothing where it is better.
    pub runner_up: Option<Other>,
    /// Usual mistakes that differ from the best shot.
    pub mistakes: Vec<Other>,
}

/// A shot from the tee, told in parts.
#[derive(Clone, Debug, PartialEq)]
pub struct TeeShotTold {
    /// The club, with its carry where it is not swung fully.
    pub club: String,
    /// Where it is aimed, such as `7 left of the line of play`.
    pub aim: String,
    /// Yards to the pin from where a solid strike without luck ends.
    pub leave: f64,
    /// The whole shot as a coach would tell it.
    pub words: String,
}

/// Another shot, and what it costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Other {
    /// What it is called, such as `at the flag`.
    pub name: String,
    /// The shot as a coach would tell it.
    pub words: String,
    /// Strokes to hole out with it.
    pub strokes: f64,
    /// The chance of holing out in the strokes left, of a solution for a score.
    pub chance: Option<f64>,
    /// What it costs next to the best: strokes, or for the best chance of a score the chance lost.
    pub cost: f64,
}

/// An aim within this many yards of the flag is at it.
const AT_IT: f64 = 0.75;
/// Shots that go less than this share of the way to the flag are told from the line of play.
const FROM_THE_LINE: f64 = 0.8;
/// A shot that ends within this many yards of the flag finishes by it.
const BY_IT: f64 = 5.0;
/// Where a solid ball ends is told besides the aim if it is so many yards, or more, to a side of it.
const ASIDE: f64 = 2.5;

impl Solution {
    /// What is played from a situation, with what others cost; `left` strokes are left where it is played for a score,
    /// and None stands for all it was solved for.
    ///
    /// # Errors
    /// More strokes left than the task has, or none.
    pub fn advice(&self, from: Situation, left: Option<u8>) -> Result<Advice, SolveFault> {
        let left = match self.most() {
            None => 0,
            Some(_) => self.left(left)?,
        };
        let best = self.played_from(from, left);
        let place = self.place(&best, left);
        let least = place.cost(signed(left));
        let (strokes, chance) = self.told(&place, left);
        let scene = self.scene();
        let told = |name: String, looked: &Looked| {
            let place = self.place(looked, left);
            let (strokes, chance) = self.told(&place, left);
            let cost = place.cost(signed(left)) - least;
            Other {
                name,
                words: words(scene, from, &looked.shot),
                strokes,
                chance,
                cost,
            }
        };
        let runner_up = self
            .tried(from, |action| action.stroke != best.shot.stroke)
            .iter()
            .map(|looked| told(scene.stroke_name(looked.shot.stroke), looked))
            .min_by(|a, b| a.cost.total_cmp(&b.cost));
        let mistakes = mistakes(scene, from)
            .into_iter()
            .filter(|(_, shot)| !alike(from, shot, &best.shot))
            .map(|(name, shot)| told(name.to_owned(), &self.look(from, shot)))
            .collect();
        Ok(Advice {
            from,
            club: scene.stroke_name(best.shot.stroke),
            finish: finish(scene, from, &best.shot),
            words: words(scene, from, &best.shot),
            instruction: instruction(scene, from, &best.shot),
            shot: best.shot,
            strokes,
            chance,
            runner_up,
            mistakes,
        })
    }

    /// What is played from the tee, told without looking at other shots.
    #[must_use]
    pub fn tee_shot(&self) -> TeeShotTold {
        let scene = self.scene();
        let from = Situation::on_the_tee(scene.hole());
        let shot = self.choose(scene, from, 0);
        let parts = parts(scene, from, &shot);
        let end = finish(scene, from, &shot);
        TeeShotTold {
            club: parts.club,
            aim: parts.aim,
            leave: (scene.hole().pin() - end).norm(),
            words: words(scene, from, &shot),
        }
    }

    /// The best shot with one stroke that a long look finds, for fewest strokes; None where it is not played from there.
    #[must_use]
    pub fn best_with(&self, from: Situation, stroke: Stroke) -> Option<Shot> {
        let looks = self.tried(from, |action| action.stroke == stroke);
        let worth = |looked: &Looked| self.place(looked, 0).strokes();
        looks
            .iter()
            .min_by(|a, b| worth(a).total_cmp(&worth(b)))
            .map(|looked| looked.shot)
    }

    /// A shot as a coach would tell it.
    #[must_use]
    pub fn words(&self, from: Situation, shot: &Shot) -> String {
        words(self.scene(), from, shot)
    }

    /// Strokes and, for a score, the chance by a shot.
    fn told(&self, place: &Place<'_>, left: usize) -> (f64, Option<f64>) {
        let chance = self.most().map(|_| self.chance_of(place, left));
        (self.strokes_of(place, left), chance)
    }

    /// What [`Other::cost`] is told in: `strokes`, or `chance`.
    #[must_use]
    pub fn costs_are_in(&self) -> &'static str {
        if matches!(self.task.objective, Objective::AtMost(_)) {
            "chance"
        } else {
            "strokes"
        }
    }
}

/// True of shots that a player would not tell apart.
fn alike(from: Situation, one: &Shot, other: &Shot) -> bool {
    let way = |shot: &Shot| unit_or_up(shot.target - from.at);
    let length = one.carry.max(other.carry);
    one.stroke == other.stroke
        && (one.carry - other.carry).abs() <= 1.0 + 0.01 * length
        && (way(one) - way(other)).norm() * length <= 1.5
}

/// The usual mistakes: at the flag whatever lies there, and the longest club.
fn mistakes(scene: &Scene, from: Situation) -> Vec<(&'static str, Shot)> {
    let pin = scene.hole().pin();
    if from.lie == Lie::Green {
        return Vec::new();
    }
    let at_the_flag = scene.shot_at(from, pin);
    let mut found = vec![("at the flag", at_the_flag)];
    let longest = Stroke::Swing(scene.bag().longest(from.lie));
    let ahead = unit_or_up(pin - from.at);
    let reach = scene.reach.farthest(from.lie, ahead);
    if from.lie != Lie::Trees && from.to_pin(scene.hole()) > reach {
        let target = down_the_line(scene, from.at, reach);
        let action = Action {
            stroke: longest,
            target,
        };
        let name = if from.lie == Lie::Tee {
            "the longest club down the line"
        } else {
            "as far as it goes"
        };
        found.push((name, action.shot(scene, from)));
    }
    found
}

/// Where a solid strike without luck ends.
pub(in crate::solve) fn finish(scene: &Scene, from: Situation, shot: &Shot) -> Point {
    scene.resolve(from, shot, &Noise::NONE).rest
}

/// A shot as an instruction that plays it, from the lie it is told for.
pub(in crate::solve) fn instruction(scene: &Scene, from: Situation, shot: &Shot) -> Instruction {
    let carry = (shot.stroke != Stroke::Putt && !is_full(scene, from, shot)).then_some(shot.carry);
    Instruction::Exactly {
        stroke: scene.stroke_name(shot.stroke),
        over: Aim::At {
            x: shot.target.x,
            y: shot.target.y,
        },
        carry,
    }
}

/// True of a swing for all that the club carries.
fn is_full(scene: &Scene, from: Situation, shot: &Shot) -> bool {
    matches!(shot.stroke, Stroke::Swing(club) if shot.carry >= scene.bag().swing(club, from.lie).full_carry)
}

/// A shot as a coach tells it: the club, where to aim, and where a solid ball ends and what it leaves.
pub(in crate::solve) fn words(scene: &Scene, from: Situation, shot: &Shot) -> String {
    let parts = parts(scene, from, shot);
    if parts.aim.is_empty() {
        return parts.club;
    }
    format!("{}, aimed {}, {}", parts.club, parts.aim, parts.end)
}

/// What is told of a shot: the club with its carry where that is not a full one, the aim, and where a solid ball ends.
struct Parts {
    club: String,
    /// Nothing for a putt.
    aim: String,
    end: String,
}

fn parts(scene: &Scene, from: Situation, shot: &Shot) -> Parts {
    let club = scene.stroke_name(shot.stroke);
    if shot.stroke == Stroke::Putt {
        let (aim, end) = (String::new(), String::new());
        return Parts { club, aim, end };
    }
    let end = finish(scene, from, shot);
    let (length, left) = ((end - from.at).norm(), (scene.hole().pin() - end).norm());
    let partial = match shot.stroke {
        Stroke::Swing(club) => shot.carry < 0.97 * scene.bag().swing(club, from.lie).full_carry,
        _ => false,
    };
    let club = if partial {
        format!("{club} for {length:.0}")
    } else {
        club
    };
    if left <= BY_IT {
        let aim = side(off_the_flag(scene, from, shot.target), "at", "the flag");
        let end = "finishing by the flag".to_owned();
        return Parts { club, aim, end };
    }
    let short = length < FROM_THE_LINE * from.to_pin(scene.hole());
    let ((aimed, ends), on, mark) = if short {
        let over = from.at + unit_or_up(shot.target - from.at) * length;
        let station = |at: Point| scene.hole().line().station(at).right;
        ((station(over), station(end)), "down", "the line of play")
    } else {
        let off = |at| off_the_flag(scene, from, at);
        ((off(shot.target), off(end)), "at", "the flag")
    };
    let aim = side(aimed, on, mark);
    let end = if (ends - aimed).abs() < ASIDE {
        format!("finishing {left:.0} out")
    } else {
        let ends = side(ends, "on", "it");
        format!("finishing {ends}, {left:.0} out")
    };
    Parts { club, aim, end }
}

/// Yards to the right of the flag at which the way to a place passes it.
fn off_the_flag(scene: &Scene, from: Situation, place: Point) -> f64 {
    let to_pin = scene.hole().pin() - from.at;
    let (pinward, forward) = (unit_or_up(to_pin), unit_or_up(place - from.at));
    let turn = libm::atan2(right_of(pinward).dot(&forward), pinward.dot(&forward));
    libm::tan(turn) * to_pin.norm()
}

/// So far to a side of a mark; `on` or `at` it where it is hardly any.
fn side(right: f64, on: &str, mark: &str) -> String {
    if right.abs() < AT_IT {
        return format!("{on} {mark}");
    }
    let side = if right < 0.0 { "left" } else { "right" };
    format!("{:.0} {side} of {mark}", right.abs())
}
