//! Full shots of a round of which it is known whether they hit what they were for: what a player is fitted to.
use super::judged::is_swing;
use super::read::WrittenStroke;
use crate::figures::round::AT_THE_GREEN;
use crate::geometry::{Point, Vector, right_of, unit_or_up};
use crate::hole::{Hole, Surface};
use crate::plan::Scene;
use crate::player::Lie;
use crate::shot::Stroke;
use crate::situation::Situation;

/// How far from the line of play the edge of a fairway is looked for, yards, and how closely.
const FAR: f64 = 60.0;
const STEP: f64 = 0.5;

/// How a full shot finished.
#[derive(Clone, Debug, PartialEq)]
pub struct ShotOutcome {
    /// The club.
    pub club: String,
    /// `hit`, `left`, `right`, `short` or `long`.
    pub finish: &'static str,
    /// Yards across the fairway or green that it was for.
    pub width: f64,
    /// Yards from the front to the back of a green; None of a fairway.
    pub depth: Option<f64>,
    /// The lie it was played from.
    pub lie: Lie,
}

/// How a stroke finished; None where it was none at a fairway or green, or missed it in a way that was not told.
pub(super) fn outcome(
    scene: &Scene,
    stroke: &WrittenStroke,
    from: Situation,
    to: Situation,
) -> Option<ShotOutcome> {
    if !is_swing(stroke.stroke) {
        return None;
    }
    let hole = scene.hole();
    let (finish, width, depth) = if stroke.number == 1 && hole.par() > 3 {
        let (finish, width) = at_the_fairway(hole, to)?;
        (finish, width, None)
    } else {
        is_at_the_green(scene, stroke.stroke, from).then_some(())?;
        let (finish, width, depth) = at_the_green(hole, from, to);
        (finish, width, Some(depth))
    };
    Some(ShotOutcome {
        club: scene.stroke_name(stroke.stroke),
        finish,
        width,
        depth,
        lie: from.lie,
    })
}

/// How a tee shot finished, and how wide the fairway is there.
fn at_the_fairway(hole: &Hole, to: Situation) -> Option<(&'static str, f64)> {
    let station = hole.line().station(to.at);
    let is_fairway =
        |right: f64| hole.surface_at(hole.line().at(station.along, right)) == Surface::Fairway;
    let steps = |sign: f64| {
        (0..)
            .map(move |i| sign * STEP * f64::from(i))
            .take_while(|r| r.abs() <= FAR)
    };
    // From the line of play outward, to the far edge on each side.
    let edge = |sign: f64| steps(sign).take_while(|&right| is_fairway(right)).last();
    let (left, right) = (edge(-1.0)?, edge(1.0)?);
    let finish = match to.lie {
        Lie::Fairway | Lie::Green | Lie::Fringe => "hit",
        _ if station.right < left => "left",
        _ if station.right > right => "right",
        // Told as off the fairway, at a place on it: nothing is known of the side.
        _ => return None,
    };
    Some((finish, right - left))
}

/// True where the club is the one for the way to the pin.
fn is_at_the_green(scene: &Scene, stroke: Stroke, from: Situation) -> bool {
    let Stroke::Swing(club) = stroke else {
        return false;
    };
    let to_pin = from.to_pin(scene.hole());
    let swing = scene.bag().swing(club, from.lie);
    (swing.full_carry - to_pin).abs() <= AT_THE_GREEN * to_pin
}

/// How a shot at the green finished, and how wide and deep the green is seen from where it was played.
fn at_the_green(hole: &Hole, from: Situation, to: Situation) -> (&'static str, f64, f64) {
    let middle = hole.middle_of_green();
    let ahead: Vector = unit_or_up(middle - from.at);
    let across = right_of(ahead);
    let outline = hole.green().outline.exterior().vertices();
    let extent = |way: Vector| {
        let along = outline.iter().map(|p: &Point| (p - middle).dot(&way));
        let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
            (low.min(v), high.max(v))
        });
        high - low
    };
    let (width, depth) = (extent(across), extent(ahead));
    let off = to.at - middle;
    let (past, right) = (off.dot(&ahead) / depth, off.dot(&across) / width);
    let finish = match to.lie {
        Lie::Green => "hit",
        _ if past.abs() >= right.abs() && past < 0.0 => "short",
        _ if past.abs() >= right.abs() => "long",
        _ if right < 0.0 => "left",
        _ => "right",
    };
    (finish, width, depth)
}
