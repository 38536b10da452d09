//! The Rules: each procedure on a hole drawn by hand, with the drop worked out on paper.
//!
//! The hole runs straight up the plan from (0, 0) to the pin at (0, 400). Sources are the Rules of Golf
//! (2023) as numbered at each test.
use crate::common;

use common::{rectangle, straight};
use wideberth::geometry::Point;
use wideberth::hole::{Hole, Surface};
use wideberth::player::Lie;
use wideberth::rules::{self, CLUB_LENGTH, Drop, Procedure};
use wideberth::situation::Situation;

fn hole() -> Hole {
    straight(
        4,
        400.0,
        vec![
            rectangle(Surface::Fairway, (-20.0, 20.0), (60.0, 380.0)),
            rectangle(Surface::PenaltyRed, (10.0, 60.0), (180.0, 220.0)),
            rectangle(Surface::PenaltyYellow, (-80.0, 80.0), (290.0, 310.0)),
            rectangle(Surface::Bunker, (-40.0, -20.0), (180.0, 200.0)),
            rectangle(Surface::OutOfBounds, (-200.0, -60.0), (-50.0, 500.0)),
            rectangle(Surface::Trees, (30.0, 60.0), (60.0, 160.0)),
        ],
    )
}

fn situation(x: f64, y: f64, lie: Lie) -> Situation {
    Situation {
        at: Point::new(x, y),
        lie,
    }
}

const TEE: Situation = Situation {
    at: Point::new(0.0, 0.0),
    lie: Lie::Tee,
};

fn find(drops: &[Drop], procedure: Procedure) -> Vec<Drop> {
    drops
        .iter()
        .copied()
        .filter(|d| d.procedure == procedure)
        .collect()
}

#[test]
fn out_of_bounds_or_lost_is_stroke_and_distance() {
    // Rule 18.2: no choice; from the tee the ball is teed again.
    let options = rules::stroke_and_distance(TEE);
    assert_eq!(
        options.as_slice(),
        [Drop {
            situation: TEE,
            penalty: 1,
            procedure: Procedure::StrokeAndDistance
        }]
    );
}

#[test]
fn yellow_penalty_area() {
    // Rule 17.1d: the ball crossed the near edge at (5, 290). Stroke and distance, or back on the line from
    // (0, 400) through (5, 290), a quarter of a yard behind the edge; nothing lateral.
    let hole = hole();
    let from = situation(0.0, 150.0, Lie::Fairway);
    let yellow = hole.feature_at(Point::new(0.0, 300.0)).expect("the band");
    let options = rules::penalty_area(&hole, from, Point::new(5.0, 290.0), yellow);
    let drops = options.as_slice();
    assert_eq!(drops.len(), 2);
    assert_eq!(
        drops[0],
        Drop {
            situation: from,
            penalty: 1,
            procedure: Procedure::StrokeAndDistance
        }
    );
    let back = drops[1];
    assert_eq!(
        (back.penalty, back.procedure),
        (1, Procedure::BackOnTheLine)
    );
    assert_eq!(back.situation.lie, Lie::Fairway);
    // From (5, 290) away from (0, 400): the line falls 110 for 5 across.
    let step = 0.25 / f64::hypot(5.0, 110.0);
    let expected = Point::new(5.0 + 5.0 * step, 290.0 - 110.0 * step);
    assert!((back.situation.at - expected).norm() < 1e-9);
}

#[test]
fn red_penalty_area() {
    // Rule 17.1d: crossed at (10, 200), its left edge. The line from the pin through it runs down inside
    // the area (it drifts right) and leaves it at the bottom edge, (11, 180); the drop is a quarter of a yard on.
    let hole = hole();
    let red = hole.feature_at(Point::new(30.0, 200.0)).expect("the pond");
    let crossing = Point::new(10.0, 200.0);
    let options = rules::penalty_area(&hole, TEE, crossing, red);
    assert_eq!(
        find(options.as_slice(), Procedure::StrokeAndDistance).len(),
        1
    );
    let back = find(options.as_slice(), Procedure::BackOnTheLine);
    let length = f64::hypot(10.0, 200.0);
    let expected = Point::new(11.0, 180.0) + (crossing - hole.pin()) * (0.25 / length);
    assert_eq!(back.len(), 1);
    assert!(
        (back[0].situation.at - expected).norm() < 1e-9,
        "{:?}",
        back[0]
    );
    // Lateral: within two club-lengths, no nearer the hole, outside the area: on the fairway to its left.
    let lateral = find(options.as_slice(), Procedure::Lateral);
    assert_eq!(lateral.len(), 1);
    let at = lateral[0].situation.at;
    // There is room, so it is taken whole.
    assert!(((at - crossing).norm() - 2.0 * CLUB_LENGTH).abs() < 1e-9);
    assert!((hole.pin() - at).norm() >= (hole.pin() - crossing).norm());
    assert!(at.x < 10.0 && lateral[0].situation.lie == Lie::Fairway);
    assert_eq!(lateral[0].penalty, 1);
}

#[test]
fn a_red_area_with_no_lateral_room() {
    // The far edge of a pond square to the line, in line with the hole: every point within two club-lengths is
    // nearer the hole than the crossing point or still in the pond, so only the line and the tee are left
    // (Rule 17.1d(3)).
    let hole = straight(
        4,
        400.0,
        vec![rectangle(
            Surface::PenaltyRed,
            (-30.0, 30.0),
            (180.0, 220.0),
        )],
    );
    let red = hole.feature_at(Point::new(0.0, 200.0)).expect("the pond");
    let options = rules::penalty_area(&hole, TEE, Point::new(0.0, 220.0), red);
    assert!(find(options.as_slice(), Procedure::Lateral).is_empty());
    assert_eq!(options.as_slice().len(), 2);
}

#[test]
fn unplayable_under_trees() {
    // Rule 19.2: stroke and distance, back on the line, lateral, each for one stroke; the lateral drop may
    // still be under the trees, five yards from their left edge.
    let hole = hole();
    let at = situation(35.0, 100.0, Lie::Trees);
    let options = rules::unplayable(&hole, TEE, at);
    assert!(options.as_slice().iter().all(|d| d.penalty == 1));
    let lateral = find(options.as_slice(), Procedure::Lateral);
    assert_eq!(lateral[0].situation.lie, Lie::Trees);
    assert!((lateral[0].situation.at - at.at).norm() <= 2.0 * CLUB_LENGTH + 1e-9);
    // The line from (0, 400) through (35, 100) leaves the stand at its bottom edge, y = 60: behind it is
    // rough, and no better lie follows.
    let back = find(options.as_slice(), Procedure::BackOnTheLine);
    assert_eq!(back.last().expect("a way back").situation.lie, Lie::Rough);
    assert!(back.last().expect("a way back").situation.at.y < 60.0);
    for d in &back {
        let (p, pin) = (d.situation.at, hole.pin());
        let cross = (at.at - pin).perp(&(p - pin));
        assert!(cross.abs() < 1e-6, "off the line by {cross}");
    }
}

#[test]
fn unplayable_in_a_bunker() {
    // Rule 19.3: one stroke to stay in the bunker, two to go back on the line outside it.
    let hole = hole();
    let at = situation(-30.0, 190.0, Lie::Bunker);
    let options = rules::unplayable(&hole, TEE, at);
    for procedure in [Procedure::BackOnTheLine, Procedure::Lateral] {
        for d in find(options.as_slice(), procedure) {
            assert_eq!((d.penalty, d.situation.lie), (1, Lie::Bunker));
        }
    }
    let outside = find(options.as_slice(), Procedure::BackOutsideTheBunker);
    assert!(!outside.is_empty());
    assert!(
        outside
            .iter()
            .all(|d| d.penalty == 2 && d.situation.lie != Lie::Bunker)
    );
}

#[test]
fn a_wrong_green() {
    // Rule 13.1f: free relief off the green, no nearer the hole.
    let hole = straight(
        4,
        400.0,
        vec![rectangle(Surface::Green, (40.0, 60.0), (200.0, 220.0))],
    );
    let at = Point::new(45.0, 210.0);
    let drop = rules::wrong_green(&hole, at).expect("relief");
    assert_eq!((drop.penalty, drop.situation.lie), (0, Lie::Rough));
    assert!((hole.pin() - drop.situation.at).norm() >= (hole.pin() - at).norm());
    // The nearest edge is five yards to the left.
    assert!((drop.situation.at - at).norm() < 8.0);
    // Two yards from the front edge as the hole lies: three yards on the ball would be off the green, but nearer the hole. The
    // nearest place that is not is beyond the left edge, a little back.
    let at = Point::new(45.0, 218.0);
    let drop = rules::wrong_green(&hole, at).expect("relief");
    let to = drop.situation.at;
    assert!((hole.pin() - to).norm() >= (hole.pin() - at).norm(), "{to}");
    assert!(
        to.x < 40.0 && to.y < 218.0 && (to - at).norm() < 8.0,
        "{to}"
    );
}

#[test]
fn the_strategy_takes_the_option_it_thinks_best() {
    let hole = hole();
    let yellow = hole.feature_at(Point::new(0.0, 300.0)).expect("the band");
    let options = rules::penalty_area(&hole, TEE, Point::new(5.0, 290.0), yellow);
    let by_distance = options.best(|s| (hole.pin() - s.at).norm());
    assert_eq!(by_distance.procedure, Procedure::BackOnTheLine);
    let by_lie = options.best(|s| if s.lie == Lie::Tee { 0.0 } else { 1.0 });
    assert_eq!(by_lie.procedure, Procedure::StrokeAndDistance);
}
