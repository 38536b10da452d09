//! What a golfer sees from the ball without knowing the hole: how far down the line of play a stroke may go.
use super::Scene;
use crate::figures::choice::{NEARLY, OVERTAKEN, SHORT_OF_WATER};
use crate::geometry::{Point, unit_or_up};
use crate::hole::Surface;
use crate::player::Lie;
use crate::shot::Shot;
use crate::situation::Situation;

/// Yards between places that are looked at: for the farthest within reach, and for water along a shot.
const STEP: f64 = 2.0;
/// The same on the way back from the farthest to one that is good to play at.
const STEP_BACK: f64 = 8.0;

/// The farthest point of the line of play within reach of a situation, short of water ahead and not behind trees; the pin if
/// that is in reach.
pub(super) fn farthest_on_line(scene: &Scene, from: Situation) -> Point {
    let pin = scene.hole().pin();
    if scene.reaches(from, pin) {
        return pin;
    }
    let to_pin = pin - from.at;
    let nearly = NEARLY * scene.reach.farthest(from.lie, unit_or_up(to_pin));
    if to_pin.norm() < nearly && is_good(scene, from, pin) {
        return pin;
    }
    let (farthest, good) = along_the_line(scene, from);
    good.unwrap_or(farthest)
}

/// A shot, or what is played in its place by a golfer who sees that trees will stop it: the ordinary shot as far down the line of
/// play as the trees let through, if anywhere.
pub(super) fn past_the_trees(scene: &Scene, from: Situation, shot: Shot) -> Shot {
    if from.lie == Lie::Trees || scene.is_open(from, &shot) {
        return shot;
    }
    let good = along_the_line(scene, from).1;
    good.map_or(shot, |place| scene.shot_at(from, place))
}

/// The farthest point of the line of play within reach, and the farthest that is good to play at or, failing that, is out sideways.
fn along_the_line(scene: &Scene, from: Situation) -> (Point, Option<Point>) {
    let line = scene.hole().line();
    let start = line.station(from.at).along;
    let forward = line.direction(start);
    let is_reached = |along: f64| {
        let goal = scene.goal(from.at, line.at(along, 0.0));
        scene.gets_to(from, forward, &goal)
    };
    let mut farthest = line.length();
    while farthest > start && !is_reached(farthest) {
        farthest -= STEP;
    }
    let reached = line.at(farthest, 0.0);
    // Back as far as abreast of the ball.
    let mut along = farthest;
    while along > start - STEP_BACK {
        let place = line.at(along.max(start), 0.0);
        let is_far = (place - from.at).norm() > OVERTAKEN;
        if is_far && is_reached(along.max(start)) && is_good(scene, from, place) {
            return (reached, Some(place));
        }
        along -= STEP_BACK;
    }
    (reached, None)
}

/// True if the ordinary shot at a place is one to try for a golfer who sees no more than what is in front of him.
fn is_good(scene: &Scene, from: Situation, target: Point) -> bool {
    let shot = scene.shot_at(from, target);
    is_dry(scene, from, &shot) && scene.is_open(from, &shot)
}

/// True if a ball struck as it is meant comes down, runs and stops well short of water and out of bounds ahead, or beyond.
fn is_dry(scene: &Scene, from: Situation, shot: &Shot) -> bool {
    let Some((carry, total)) = scene.lands(from, shot) else {
        return true;
    };
    let forward = unit_or_up(shot.target - from.at);
    let mut along = carry;
    while along < total + SHORT_OF_WATER {
        let surface = scene.hole().surface_at(from.at + forward * along);
        if surface.is_penalty_area() || surface == Surface::OutOfBounds {
            return false;
        }
        along += STEP;
    }
    true
}
