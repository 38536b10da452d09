//! The run of a ball across the map: water, ditches, collars, banks and slopes.
use crate::common;

use common::{all, rectangle, shaped, straight, up_the_plan};
use nalgebra::Vector3;
use proptest::prelude::*;
use std::sync::LazyLock;
use wideberth::geometry::{Point, Vector};
use wideberth::ground::{
    After, Ball, Course, Rolling, Run, Slope, Turf, Turfs, hop, roll, run_out, touch,
};
use wideberth::hole::{Firmness, Hole, Surface};

const GRAVITY: f64 = 9.80665;
const YARD: f64 = 0.9144;

fn turfs(firmness: Firmness) -> Turfs {
    Turfs::of(firmness, 10.0)
}

/// A ball that comes down along the unit vector `forward`.
fn down(mps: f64, degrees: f64, rpm: f64, forward: Vector) -> Ball {
    let ball = Ball::coming_down(mps / 0.447_04, degrees, rpm).expect("a ball");
    let turn = |v: Vector3<f64>| {
        let right = Vector::new(forward.y, -forward.x);
        let level = right * v.x + forward * v.y;
        Vector3::new(level.x, level.y, v.z)
    };
    Ball {
        velocity: turn(ball.velocity),
        spin: turn(ball.spin),
    }
}

/// A drive and a 7-iron of a professional as they land.
fn drive() -> Ball {
    down(28.2, 39.8, 2118.0, Vector::y())
}

fn iron() -> Ball {
    down(23.8, 47.6, 5990.0, Vector::y())
}

/// A ball that rolls up the plan so far on a level fairway.
fn rolling(yards: f64) -> Rolling {
    Rolling::going(
        Vector::y(),
        yards,
        Turf::fairway(Firmness::MEDIUM).rolling(),
    )
}

fn bounced(hole: &Hole, firmness: Firmness, from: Point, ball: Ball) -> Run {
    let turfs = &turfs(firmness);
    Course { hole, turfs }.bounce_out(from, ball)
}

fn rolled(hole: &Hole, from: Point, ball: Rolling) -> Run {
    let turfs = &turfs(Firmness::MEDIUM);
    Course { hole, turfs }.roll_out(from, hole.feature_at(from), ball)
}

fn fairway(features: Vec<wideberth::hole::Feature>) -> Hole {
    let mut list = vec![all(Surface::Fairway)];
    list.extend(features);
    straight(4, 390.0, list)
}

/// Ground that rises by `gradient` up to y = 280 and goes level to the green.
fn sloping(hole: &Hole, gradient: Vector) -> Hole {
    shaped(hole, |x, y| {
        let fade = ((330.0 - y) / 50.0).clamp(0.0, 1.0);
        gradient.x * x * fade + gradient.y * y.min(280.0)
    })
}

const START: Point = Point::new(0.0, 60.0);

/// On ground of one kind the map changes nothing: a run is that of `run_out`, which other tests hold against sources.
#[test]
fn level_ground_of_one_kind_runs_as_without_a_map() {
    let hole = fairway(Vec::new());
    for firmness in [Firmness::SOFT, Firmness::MEDIUM, Firmness::LINKS_FIRM] {
        for ball in [drive(), iron()] {
            let run = bounced(&hole, firmness, START, ball);
            let free = run_out(&ball, &Slope::LEVEL, &Turf::fairway(firmness));
            assert!((run.rest - START - free.rest).norm() < 1e-9, "{run:?}");
            assert!(!run.holed);
        }
    }
}

/// A run on one slope whose roll is worked out inch by inch.
fn finely(ball: Ball, slope: &Slope, turf: &Turf) -> Vector {
    let (mut at, mut ball) = (Vector::zeros(), ball);
    let mut rolling = loop {
        match touch(&ball, slope, turf) {
            After::Hop(leaving) => {
                let hop = hop(&leaving, slope);
                at += hop.moved;
                ball = hop.ball;
            }
            After::Roll(rolling) => break rolling,
        }
    };
    loop {
        let piece = roll(&rolling, slope, turf, 0.03);
        at += piece.moved;
        rolling = piece.ball;
        if piece.at_rest {
            return at;
        }
    }
}

/// The same on one slope in any direction. A map is rolled over in pieces of three yards: measured against pieces of an
/// inch it ends within 0.3 yards, and within 0.6 of `run_out`, which rolls in one piece.
#[test]
fn one_slope_runs_as_without_a_map() {
    let level = fairway(Vec::new());
    let turf = Turf::fairway(Firmness::MEDIUM);
    let (mut worst, mut apart) = (0.0_f64, 0.0_f64);
    for gradient in [
        (0.0, 0.05),
        (0.0, -0.05),
        (0.08, 0.0),
        (-0.06, 0.09),
        (0.1, -0.06),
        (0.0, 0.16),
        (0.15, 0.0),
    ] {
        let gradient = Vector::new(gradient.0, gradient.1);
        let hole = sloping(&level, gradient);
        let slope = Slope::rising(gradient);
        for ball in [drive(), iron()] {
            let run = bounced(&hole, Firmness::MEDIUM, START, ball).rest - START;
            let fine = finely(ball, &slope, &turf);
            let free = run_out(&ball, &slope, &turf);
            assert!(free.stopped);
            let off = (run - fine).norm();
            worst = worst.max(off);
            apart = apart.max((run - free.rest).norm());
            println!(
                "{gradient:?} {run:?}: {off:.3}, {:.3}",
                (run - free.rest).norm()
            );
            assert!(off < 0.3, "{run} {fine}");
        }
    }
    println!("at most {worst:.3} and {apart:.3} yards apart");
    assert!(apart < 0.6, "{apart}");
}

#[test]
fn a_ball_that_runs_into_a_brook_stops_inside_it() {
    let brook = || rectangle(Surface::PenaltyRed, (-60.0, 60.0), (100.0, 103.0));
    let level = fairway(vec![brook()]);
    let run = rolled(&level, Point::new(0.0, 90.0), rolling(30.0));
    assert_eq!(level.surface_of(run.on), Surface::PenaltyRed);
    assert_eq!(level.surface_at(run.rest), Surface::PenaltyRed);
    assert!((100.0..100.2).contains(&run.rest.y), "{run:?}");
    // A yard short of it the ball stays out.
    let short = rolled(&level, Point::new(0.0, 90.0), rolling(9.0));
    assert_eq!(level.surface_of(short.on), Surface::Fairway);
    assert!((short.rest.y - 99.0).abs() < 1e-6);
    // From every distance and on slopes that turn it, the place and the surface told agree.
    for gradient in [
        (0.0, 0.1),
        (0.0, -0.15),
        (0.12, -0.1),
        (-0.3, 0.05),
        (0.2, -0.4),
    ] {
        let hole = sloping(&level, Vector::new(gradient.0, gradient.1));
        let mut wet = 0;
        for i in 0..400 {
            let from = Point::new(0.0, 60.0 + 0.0997 * f64::from(i));
            let run = rolled(&hole, from, rolling(14.0));
            assert_eq!(
                run.on,
                hole.feature_at(run.rest),
                "{gradient:?} {from}: {run:?}"
            );
            if hole.surface_of(run.on) == Surface::PenaltyRed {
                wet += 1;
                assert!((100.0..100.2).contains(&run.rest.y), "{run:?}");
            }
        }
        assert!(wet > 50, "{gradient:?}: {wet}");
    }
}

#[test]
fn a_hopping_ball_jumps_a_ditch_that_stops_a_rolling_one() {
    let dry = fairway(Vec::new());
    let free = run_out(&drive(), &Slope::LEVEL, &Turf::fairway(Firmness::MEDIUM));
    let first = free.touches[0].y;
    assert!(first > 4.0, "{first}");
    let ditch = rectangle(
        Surface::PenaltyYellow,
        (-60.0, 60.0),
        (START.y + 0.5 * first, START.y + 0.5 * first + 1.0),
    );
    let hole = fairway(vec![ditch]);
    let over = bounced(&hole, Firmness::MEDIUM, START, drive());
    assert_eq!(
        over.rest,
        bounced(&dry, Firmness::MEDIUM, START, drive()).rest
    );
    let caught = rolled(&hole, START, rolling(30.0));
    assert_eq!(hole.surface_at(caught.rest), Surface::PenaltyYellow);
    // A ditch where it comes down takes it.
    let there = START.y + first;
    let hole = fairway(vec![rectangle(
        Surface::PenaltyYellow,
        (-60.0, 60.0),
        (there - 0.5, there + 0.5),
    )]);
    let wet = bounced(&hole, Firmness::MEDIUM, START, drive());
    assert!((wet.rest.y - there).abs() < 1e-9 && hole.surface_at(wet.rest).is_penalty_area());
}

#[test]
fn a_collar_of_rough_stops_a_ball_sooner() {
    let run = |low: f64, high: f64| {
        let collar = rectangle(Surface::Rough, (-60.0, 60.0), (low, high));
        let hole = fairway(vec![collar]);
        let turfs = &turfs(Firmness::MEDIUM);
        let course = Course { hole: &hole, turfs };
        course.roll_out(START, hole.feature_at(START), rolling(20.0))
    };
    let (none, one, four, all) = (
        run(300.0, 301.0).rest.y,
        run(70.0, 71.0).rest.y,
        run(70.0, 74.0).rest.y,
        run(50.0, 200.0).rest.y,
    );
    println!("{none} {one} {four} {all}");
    assert!((none - 80.0).abs() < 1e-6);
    // Rough takes 2.5 times as much of the speed's square per yard: a yard of it costs 2.5 yards of fairway.
    assert!((one - 78.5).abs() < 1e-6);
    assert!((four - 74.0).abs() < 1e-6);
    assert!((all - 68.0).abs() < 1e-6);
}

#[test]
fn a_side_slope_kicks_a_ball_downhill_the_same_either_way() {
    let level = fairway(Vec::new());
    for ball in [drive(), iron()] {
        let at = |rise: f64| {
            let hole = sloping(&level, Vector::new(rise, 0.0));
            bounced(&hole, Firmness::MEDIUM, START, ball).rest - START
        };
        let (gentle, steep, other) = (at(0.04), at(0.08), at(-0.08));
        assert!(
            gentle.x < -0.5 && steep.x < 1.5 * gentle.x,
            "{gentle} {steep}"
        );
        assert!((steep.x + other.x).abs() < 1e-6 && (steep.y - other.y).abs() < 1e-6);
    }
}

#[test]
fn firm_ground_sends_a_ball_off_the_back_of_a_green_that_soft_ground_holds() {
    let fringe = rectangle(Surface::Fringe, (-17.0, 17.0), (373.0, 407.0));
    let hole = fairway(vec![fringe]);
    let landed = Point::new(4.0, 397.0);
    let on = |firmness| {
        let run = bounced(&hole, firmness, landed, iron());
        (hole.surface_of(run.on), run.rest.y)
    };
    let (soft, firm) = (on(Firmness::SOFT), on(Firmness::LINKS_FIRM));
    assert_eq!(soft.0, Surface::Green);
    assert_eq!(firm.0, Surface::Fairway);
    assert!(firm.1 > 407.0 && soft.1 < firm.1, "{soft:?} {firm:?}");
}

/// Ground that is level to y = 120 and from 200 on, and a bank of a rise between.
fn bank(rise: f64) -> Hole {
    shaped(&fairway(Vec::new()), |_, y| rise * y.clamp(120.0, 200.0))
}

#[test]
fn a_ball_rolls_back_down_a_bank_too_steep_to_rest_on() {
    // Fairway holds a ball up to a slope of 20 %.
    let (steep, gentle) = (bank(0.35), bank(0.12));
    let up = Point::new(0.0, 112.0);
    let back = rolled(&steep, up, rolling(25.0));
    assert!(back.rest.y < 122.5, "{back:?}");
    let there = rolled(&gentle, up, rolling(25.0));
    assert!((123.0..137.0).contains(&there.rest.y), "{there:?}");
    // Let go on the bank a ball comes down to its foot and rolls out beyond it; on the gentle one it stays.
    let still = |hole: &Hole| rolled(hole, Point::new(0.0, 160.0), rolling(0.0)).rest.y;
    assert!(still(&steep) < 116.0, "{}", still(&steep));
    assert_eq!(still(&gentle), 160.0);
}

/// A hop ends where the parabola meets the ground that is there, not the plane it left: against a bank sooner, over the
/// brink of one later (the quadratic, worked out by hand). The ground there is water, so the ball stays where it comes down.
#[test]
fn a_hop_ends_on_the_ground_that_is_there() {
    let pond = rectangle(Surface::PenaltyRed, (-60.0, 60.0), (121.0, 200.0));
    let map = fairway(vec![pond]);
    let up = Ball {
        velocity: Vector3::new(0.0, 12.0, 7.0),
        spin: Vector3::zeros(),
    };
    for rise in [0.6, 0.3, -0.1, -0.4] {
        let hole = shaped(&map, |_, y| rise * y.clamp(120.0, 200.0));
        let from = Point::new(0.0, 112.0);
        let run = bounced(&hole, Firmness::MEDIUM, from, up);
        // 7 t - g t^2 / 2 = rise (12 t - 8 yards)
        let b = 7.0 - 12.0 * rise;
        let seconds = (b + (b * b + 2.0 * GRAVITY * rise * 8.0 * YARD).sqrt()) / GRAVITY;
        let expected = from.y + 12.0 * seconds / YARD;
        println!("{rise}: {} {expected}", run.rest.y);
        assert!(
            (run.rest.y - expected).abs() < 0.02,
            "{rise}: {run:?} {expected}"
        );
    }
}

/// By how much, J/kg, the height a ball ends at is more than its energy pays for.
fn pays(hole: &Hole, from: Point, energy: f64, run: &Run) -> f64 {
    let climbed = hole.terrain().height(run.rest) - hole.terrain().height(from);
    GRAVITY * climbed * YARD - energy
}

/// A hole with everything on it on ground of many shapes: banks as steep as a survey may have, bowls, waves, ridges.
static GROUNDS: LazyLock<Vec<Hole>> = LazyLock::new(|| {
    let map = up_the_plan(
        4,
        390.0,
        vec![
            rectangle(Surface::Trees, (28.0, 60.0), (80.0, 330.0)),
            rectangle(Surface::DeepRough, (-45.0, -30.0), (80.0, 330.0)),
            rectangle(Surface::Fairway, (-17.0, 17.0), (90.0, 370.0)),
            rectangle(Surface::PenaltyRed, (10.0, 40.0), (200.0, 240.0)),
            rectangle(Surface::PenaltyYellow, (-45.0, 60.0), (330.0, 345.0)),
            rectangle(Surface::Bunker, (-26.0, -16.0), (350.0, 380.0)),
            rectangle(Surface::Fringe, (-22.0, 22.0), (368.0, 412.0)),
            rectangle(Surface::Green, (-20.0, 20.0), (370.0, 410.0)),
        ],
    );
    let away = |y: f64| ((360.0 - y) / 60.0).clamp(0.0, 1.0);
    type Shape = Box<dyn Fn(f64, f64) -> f64>;
    let shapes: Vec<Shape> = vec![
        Box::new(move |x, y| 0.6 * x * away(y)),
        Box::new(|_, y| -0.6 * y.min(330.0)),
        Box::new(|x, y| 0.02 * x + 0.6 * (y - 100.0).clamp(0.0, 60.0)),
        Box::new(move |x, y| away(y) * 0.004 * (x * x + (y - 200.0).powi(2))),
        Box::new(move |x, y| away(y) * 2.5 * ((x / 8.0).sin() + (y / 9.0).cos())),
        Box::new(move |x, y| away(y) * -0.7 * (y - 180.0).abs() + 0.1 * x * away(y)),
        Box::new(|x, y| 0.03 * x - 0.02 * y),
    ];
    let shaped = shapes.iter().map(|shape| shaped(&map, shape));
    std::iter::once(map.clone()).chain(shaped).collect()
});

fn any_ball() -> impl Strategy<Value = Ball> {
    let spin = -900.0..900.0;
    (
        (-25.0..25.0, -25.0..25.0, -35.0..-0.01),
        (spin.clone(), spin.clone(), spin),
    )
        .prop_map(|(v, w)| Ball {
            velocity: Vector3::new(v.0, v.1, v.2),
            spin: Vector3::new(w.0, w.1, w.2),
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// Every run ends in a finite place, on the feature that is there, no higher than its energy takes it.
    #[test]
    fn every_run_ends_where_it_says(
        ball in any_ball(), ground in 0..8_usize, x in -60.0..60.0f64, y in -20.0..420.0f64, factor in 0.5..2.0f64,
    ) {
        let hole = &GROUNDS[ground];
        let from = Point::new(x, y);
        let run = bounced(hole, Firmness::new(factor).expect("a firmness"), from, ball);
        prop_assert!(run.rest.x.is_finite() && run.rest.y.is_finite());
        prop_assert!((run.rest - from).norm() < 2_500.0);
        if !run.holed {
            prop_assert_eq!(run.on, hole.feature_at(run.rest));
        }
        prop_assert!(pays(hole, from, ball.energy(), &run) < 0.5, "{run:?}");
    }

    /// The same of a ball that rolls or skips. A grid tells slopes smoothed over a kink and heights that are not, so where
    /// banks of 70 % meet, as here, a ball may end up to 0.3 m too high.
    #[test]
    fn every_roll_ends_where_it_says(
        vx in -12.0..12.0f64, vy in -12.0..12.0f64, skips: bool, ground in 0..8_usize, x in -60.0..60.0f64,
        y in -20.0..420.0f64,
    ) {
        let hole = &GROUNDS[ground];
        let from = Point::new(x, y);
        let ball = Rolling { velocity: Vector3::new(vx, vy, 0.0), skips };
        let run = rolled(hole, from, ball);
        prop_assert!(run.rest.x.is_finite() && run.rest.y.is_finite());
        if !run.holed {
            prop_assert_eq!(run.on, hole.feature_at(run.rest));
        }
        prop_assert!(pays(hole, from, 0.7 * ball.velocity.norm_squared(), &run) < 3.0, "{run:?}");
    }
}

#[test]
fn a_ball_drops_only_into_the_hole_it_meets_slowly() {
    let hole = fairway(Vec::new());
    let from = Point::new(0.0, 386.0);
    let green = Turf::on(Surface::Green, Firmness::MEDIUM, 10.0).expect("turf");
    let at = |yards: f64, right: f64| {
        let ball = Rolling::going(Vector::y(), yards, green.rolling());
        rolled(&hole, from + Vector::new(right, 0.0), ball).holed
    };
    // 1.63 m/s is the fastest through the centre (Holmes 1991, published): 2.9 yards beyond the hole at this speed.
    let beyond = 1.63 * 1.63 / (2.0 * 5.0 / 7.0 * green.rolling() * GRAVITY) / YARD;
    assert!(at(4.1, 0.0) && at(4.0 + 0.95 * beyond, 0.0));
    assert!(!at(3.9, 0.0) && !at(4.0 + 1.05 * beyond, 0.0));
    assert!(!at(4.1, 0.06) && at(4.1, 0.04));
    // On sloping ground the same, near enough.
    let tilted = shaped(&hole, |x, y| 0.01 * x + 0.004 * y);
    let ball = Rolling::going(Vector::y(), 4.6, green.rolling());
    let hits = (-60..=60)
        .filter(|&i| rolled(&tilted, from + Vector::new(0.01 * f64::from(i), 0.0), ball).holed)
        .count();
    assert!((6..=12).contains(&hits), "{hits}");
}
