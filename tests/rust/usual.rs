//! The usual way of a plan, and what it rests on: what lies in the way of a shot, and the shape of the ground in words.
use wideberth::Run;
use wideberth::geometry::{Point, Vector};
use wideberth::hole::{Contours, CrossingWater, Hazard, Hole, Side, Sketch, TwoTier};
use wideberth::noise::Seed;
use wideberth::plan::{Aim, Instruction, Plan, Scene, Then};
use wideberth::player::Player;
use wideberth::rank::{Length, Question, UsualWay, record};
use wideberth::shot::Stroke;

/// Bunkers 12 by 7 yards at 200 yards, to the left and to the right; a brook from 244 to 256; a bunker over the green.
fn hole() -> Hole {
    let mut sketch = Sketch::new(4, 390.0);
    sketch.bunkers = vec![
        Hazard::new(200.0, -20.0),
        Hazard::new(200.0, 20.0),
        Hazard::new(408.0, 0.0),
    ];
    sketch.crossings = vec![CrossingWater {
        at: 250.0,
        width: 12.0,
        name: Some("the brook".into()),
    }];
    Hole::sketch(&sketch).unwrap()
}

#[test]
fn what_lies_in_the_way_is_told_by_its_ends() {
    let hole = hole();
    let told = hole.in_the_way(hole.tee(), Point::new(0.0, 220.0), 0.15, 260.0);
    let sides: Vec<Option<Side>> = told.iter().map(|way| way.side).collect();
    // The bunkers are alike, so either may come first.
    assert_eq!(told.len(), 3);
    assert!(sides.contains(&Some(Side::Left)) && sides.contains(&Some(Side::Right)));
    assert_eq!(sides[2], None);
    // The brook is measured along the aim, to the half yard.
    assert!((told[2].reach - 244.0).abs() <= 0.5 && (told[2].carry - 256.0).abs() <= 0.5);
    assert_eq!(
        hole.features()[usize::from(told[2].feature)]
            .name
            .as_deref(),
        Some("the brook")
    );
    // An oval from 194 to 206, 20 to 27 yards aside, seen from the tee: what is nearest and farthest by hand.
    let ends: Vec<f64> = (0..3_600)
        .map(|i| {
            let turn = f64::from(i).to_radians() / 10.0;
            let on = Vector::new(23.5 + 3.5 * turn.sin(), 200.0 + 6.0 * turn.cos());
            on.norm()
        })
        .collect();
    let near = ends.iter().copied().fold(f64::INFINITY, f64::min);
    let far = ends.iter().copied().fold(0.0, f64::max);
    for bunker in &told[..2] {
        assert!((bunker.reach - near).abs() <= 0.5, "{bunker:?} {near}");
        assert!((bunker.carry - far).abs() <= 0.5, "{bunker:?} {far}");
    }
}

#[test]
fn what_is_out_of_the_fan_or_out_of_reach_is_not_in_the_way() {
    let hole = hole();
    let seen = |fan, farthest| {
        hole.in_the_way(hole.tee(), Point::new(0.0, 220.0), fan, farthest)
            .len()
    };
    assert_eq!(seen(0.15, 260.0), 3);
    // 20 yards aside at 200 is a tenth; the nearest corner of the oval is a little more.
    assert_eq!(seen(0.09, 260.0), 1);
    assert_eq!(seen(0.15, 240.0), 2);
    assert_eq!(seen(0.15, 190.0), 0);
    // From the left bunker that bunker is not in the way, nor from beyond the brook the brook.
    let in_sand = hole.in_the_way(Point::new(-23.5, 200.0), Point::new(0.0, 250.0), 0.1, 70.0);
    assert_eq!(in_sand.len(), 1);
    let behind = hole.in_the_way(Point::new(0.0, 270.0), hole.pin(), 0.2, 150.0);
    assert_eq!(behind.len(), 1);
    assert!(behind[0].side.is_none() && behind[0].reach > 130.0);
}

fn played(hole: Hole, instructions: &[Instruction], plays: u64) -> UsualWay {
    let player = Player::from_handicap(12.0).unwrap();
    let scene = Scene::new(hole.into(), player.prepare().into()).unwrap();
    let plan = Plan::new("plan", instructions.to_vec(), Then::Steady).unwrap();
    let question = Question {
        length: Length::Plays(plays),
        ..Question::new(Seed(5))
    };
    let mut run = record(scene, &plan, &question).unwrap();
    assert_eq!(UsualWay::of(&run), None);
    run.advance(plays);
    UsualWay::of(&run).unwrap()
}

fn driver_along(along: f64) -> Instruction {
    Instruction::Shot {
        club: "driver".to_owned(),
        aim: Aim::Along { along, right: 0.0 },
        carry: None,
    }
}

#[test]
fn the_usual_way_leads_from_the_tee_to_the_pin() {
    let hole = hole();
    let usual = played(hole.clone(), &[driver_along(220.0)], 2_000);
    let legs = &usual.legs;
    assert!((2..=4).contains(&legs.len()), "{}", legs.len());
    assert_eq!(
        (legs[0].from, legs[0].aim),
        (hole.tee(), Point::new(0.0, 220.0))
    );
    assert!(legs.iter().all(|leg| leg.stroke != Stroke::Putt));
    // Up the hole, stroke by stroke, until it is by the pin.
    assert!(legs.iter().all(|leg| leg.rest.y > leg.from.y));
    assert!((legs.last().unwrap().rest - hole.pin()).norm() < 15.0);
    assert!((usual.left - (hole.pin() - legs[0].rest).norm()).abs() < 15.0);
    assert!(!legs[0].in_the_way.is_empty());
    assert_eq!(usual.scores.total(), 2_000);
    assert_eq!(usual.good_enough(), usual.scores.quantile(2.0 / 3.0));
}

/// Water all along one side: to miss towards it costs more, to the other less. A hole that is its own mirror image has no
/// better side; with two errors as the bound that fails in one seed of twenty, and the seed is fixed.
#[test]
fn the_side_to_miss_on_is_away_from_the_water() {
    let with = |water: &[Hazard]| {
        let sketch = Sketch {
            water: water.to_vec(),
            ..Sketch::new(4, 380.0)
        };
        played(
            Hole::sketch(&sketch).unwrap(),
            &[driver_along(215.0)],
            4_000,
        )
    };
    let on = |right: f64| Hazard::new(190.0, right).sized(120.0, 30.0);
    let (left, right) = (with(&[on(-22.0)]), with(&[on(22.0)]));
    assert_eq!(left.better_side(), Some(Side::Right));
    assert_eq!(right.better_side(), Some(Side::Left));
    assert!(right.right_costs.mean > 0.3, "{:?}", right.right_costs);
    let neither = with(&[]);
    assert_eq!(neither.better_side(), None);
    let error = neither.right_costs.standard_error;
    assert!(error > 0.02 && error < 0.1, "{error}");
}

#[test]
fn the_shape_of_the_ground_is_told_in_words() {
    let told = |contours: Contours| {
        let sketch = Sketch {
            contours,
            ..Sketch::new(4, 390.0)
        };
        Hole::sketch(&sketch).unwrap().slopes_in_words()
    };
    let flat = Contours::default();
    assert_eq!(told(flat.clone()), "Level ground");
    assert_eq!(
        told(Contours {
            uphill_ft: -30.0,
            fairway_tilt_percent: -4.0,
            ..flat.clone()
        }),
        "The pin is 30 ft below the tee, the ground falls 4.0 % from right to left, the slopes of the green are not told"
    );
    assert_eq!(
        told(Contours {
            green_tilt_percent: Some((1.5, 2.0)),
            ..flat.clone()
        }),
        "The green falls 1.5 % from left to right and 2.0 % from back to front"
    );
    assert_eq!(
        told(Contours {
            green_tilt_percent: Some((0.0, -2.0)),
            ..flat.clone()
        }),
        "The green falls 2.0 % from front to back"
    );
    // Two feet over a green 28 yards deep, of which most lies in front of or behind the ramp.
    let tiers = told(Contours {
        two_tier_green: Some(TwoTier {
            step_ft: 2.0,
            ramp: 4.0,
            back: 7.0,
        }),
        ..flat
    });
    assert!(tiers.contains("from back to front"), "{tiers}");
}
