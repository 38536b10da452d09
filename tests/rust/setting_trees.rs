//! Trees stop balls by their height and openness, against laws in closed form and a walk without short cuts.
use crate::common;

use common::strokes::{FEET, full, golfer, lying, setting};
use common::woods::{WOODS, stand, with_trees};
use common::{all, rectangle, scene, straight};
use proptest::prelude::*;
use wideberth::Run;
use wideberth::geometry::{Point, Vector};
use wideberth::hole::{Feature, Hazard, Hole, Sketch, Surface};
use wideberth::noise::{Noise, PlayNoise, Seed};
use wideberth::plan::{Aim, Instruction, Plan, Then};
use wideberth::player::{ClubId, Lie, Touch};
use wideberth::rank::{Question, record};
use wideberth::setting::Setting;
use wideberth::shot::{self, Events, Next, Shot, Stroke};

fn wooded(height_ft: f64, openness: f64) -> Hole {
    let trees = stand(60.0, 90.0, height_ft, openness);
    straight(4, 390.0, vec![all(Surface::Fairway), trees])
}

#[test]
fn a_high_ball_clears_trees_that_a_low_one_meets() {
    let player = golfer(&[("9-iron", 135.0)]);
    let day = setting(&wooded(40.0, 0.1), &player);
    let tee = lying(Point::new(0.0, 20.0), Lie::Fairway);
    // All but the luckiest balls are stopped on thirty yards of such trees.
    let unlucky = with_trees(0.9);
    let high = shot::resolve(&day, tee, &full(0), &unlucky);
    assert!(!high.events.has(Events::TREES) && high.rest.y > 150.0);
    let punch = Shot {
        stroke: Stroke::Touch(Touch::Punch),
        target: Point::new(0.0, 500.0),
        carry: 85.0,
    };
    let low = shot::resolve(&day, tee, &punch, &unlucky);
    assert!(low.events.has(Events::TREES), "{low:?}");
    assert!((60.0..62.0).contains(&low.rest.y), "{low:?}");
    // The lucky punch goes through.
    let lucky = shot::resolve(&day, tee, &punch, &with_trees(0.0));
    assert!(!lucky.events.has(Events::TREES) && lucky.landed.y > 90.0);
}

#[test]
fn open_stands_stop_nothing_and_walls_everything() {
    let player = golfer(&[("driver", 230.0)]);
    for (openness, stops) in [(1.0, false), (0.0, true)] {
        let day = setting(&wooded(150.0, openness), &player);
        for play in 0..500 {
            let luck = PlayNoise::new(Seed(4), play).stroke(0).trees;
            let tee = lying(Point::origin(), Lie::Tee);
            let outcome = shot::resolve(&day, tee, &full(0), &with_trees(luck));
            assert_eq!(
                outcome.events.has(Events::TREES),
                stops,
                "{openness} {luck}"
            );
        }
    }
}

/// Where a stand is so tall that a drive crosses thirty yards of it within its crowns: it gets through by the cube of
/// the openness, and where it is stopped follows the same law, u = openness^(yards / 10).
#[test]
fn trees_stop_balls_by_their_openness() {
    let player = golfer(&[("driver", 230.0)]);
    let tee = lying(Point::origin(), Lie::Tee);
    for openness in [0.3, 0.5, 0.8_f64] {
        let day = setting(&wooded(110.0, openness), &player);
        let flight = &day.club(ClubId(0)).flight;
        let track = flight.track(230.0, Vector::y());
        for yards in [56.0, 94.0] {
            let feet = FEET * flight.height(&track, yards / 230.0);
            assert!((0.3 * 110.0..110.0).contains(&feet), "{yards}: {feet}");
        }
        let plays: u32 = 4_000;
        let mut through = 0;
        for play in 0..plays {
            let luck = PlayNoise::new(Seed(11), u64::from(play)).stroke(0).trees;
            let outcome = shot::resolve(&day, tee, &full(0), &with_trees(luck));
            if outcome.events.has(Events::TREES) {
                let expected = 60.0 + 10.0 * luck.ln() / openness.ln();
                assert!(
                    (outcome.rest.y - expected).abs() < 1e-3,
                    "{outcome:?} {expected}"
                );
            } else {
                through += 1;
            }
        }
        // Five standard errors: false-alarm rate 6e-7 each.
        let chance = openness.powi(3);
        let error = (chance * (1.0 - chance) / f64::from(plays)).sqrt();
        let found = f64::from(through) / f64::from(plays);
        assert!((found - chance).abs() < 5.0 * error, "{openness}: {found}");
    }
}

/// Ground of every kind under one and the same stand.
const GROUND: [Surface; 8] = [
    Surface::Fairway,
    Surface::FirstCut,
    Surface::Fringe,
    Surface::Bunker,
    Surface::DeepRough,
    Surface::PenaltyRed,
    Surface::OutOfBounds,
    Surface::Rough,
];

/// A ball is stopped at the same place by the same trees, drawn below the ground or above it, whatever that ground is.
#[test]
fn trees_stand_over_any_ground() {
    let player = golfer(&[("driver", 230.0)]);
    let tee = lying(Point::origin(), Lie::Tee);
    let luck = with_trees(0.8);
    let trees = || stand(60.0, 90.0, 110.0, 0.3);
    let bare = straight(4, 390.0, vec![trees()]);
    let expected = shot::resolve(&setting(&bare, &player), tee, &full(0), &luck).rest;
    assert!((60.0..90.0).contains(&expected.y), "{expected}");
    for surface in GROUND {
        let ground = rectangle(surface, (-20.0, 25.0), (50.0, 350.0));
        for features in [vec![trees(), ground.clone()], vec![ground.clone(), trees()]] {
            let hole = straight(4, 390.0, features);
            let outcome = shot::resolve(&setting(&hole, &player), tee, &full(0), &luck);
            assert!(outcome.events.has(Events::TREES), "{surface:?}");
            assert!((outcome.rest - expected).norm() < 1e-9, "{surface:?}");
            assert_eq!(outcome.surface, hole.surface_at(expected), "{surface:?}");
        }
    }
}

/// Under the branches a ball has the lie of the ground. On mown ground it is found and played whatever the luck of the
/// search; on the floor of the wood the same luck loses it.
#[test]
fn a_ball_under_trees_has_the_lie_of_the_ground() {
    let player = golfer(&[("driver", 230.0)]);
    let tee = lying(Point::origin(), Lie::Tee);
    let luck = Noise {
        search: 0.0,
        ..with_trees(0.8)
    };
    let trees = || stand(60.0, 90.0, 110.0, 0.3);
    let mown = rectangle(Surface::Fairway, (-20.0, 20.0), (50.0, 350.0));
    let outcome = |features| {
        let day = setting(&straight(4, 390.0, features), &player);
        shot::resolve(&day, tee, &full(0), &luck)
    };
    let on_fairway = outcome(vec![trees(), mown]);
    assert!(on_fairway.events.has(Events::TREES) && !on_fairway.events.has(Events::LOST));
    let lies = lying(on_fairway.rest, Lie::Fairway);
    assert_eq!(on_fairway.next, Next::Play(lies));
    assert!(outcome(vec![trees()]).events.has(Events::LOST));
}

/// The branches above it stop the next ball, too: from the middle of a stand on the fairway it gets through by the openness.
#[test]
fn a_ball_under_trees_on_the_fairway_is_hindered() {
    let player = golfer(&[("driver", 230.0)]);
    let mown = rectangle(Surface::Fairway, (-20.0, 20.0), (50.0, 350.0));
    let under = lying(Point::new(0.0, 75.0), Lie::Fairway);
    let stopped = |features| {
        let day = setting(&straight(4, 390.0, features), &player);
        let stroke = |play| {
            let luck = PlayNoise::new(Seed(2), play).stroke(0).trees;
            shot::resolve(&day, under, &full(0), &with_trees(luck))
        };
        (0..1000)
            .filter(|&play| stroke(play).events.has(Events::TREES))
            .count()
    };
    let under_trees = stopped(vec![stand(60.0, 90.0, 110.0, 0.3), mown.clone()]);
    // Half of the rate below the lowest branches, for fifteen yards: 0.41 get through at the least, 0.16 at the most.
    // Four binomial errors on both sides: false-alarm rate 6e-5.
    assert!((530..=890).contains(&under_trees), "{under_trees}");
    assert_eq!(stopped(vec![mown]), 0);
}

/// A wood that covers the tee or the pin is one that the hole is cut out of: what is drawn over it is open, and a tree that
/// stands there on its own still stands.
#[test]
fn a_hole_cut_out_of_a_wood_is_open() {
    let player = golfer(&[("driver", 230.0)]);
    let tee = lying(Point::origin(), Lie::Tee);
    let mown = || rectangle(Surface::Fairway, (-20.0, 20.0), (-5.0, 380.0));
    let unlucky = with_trees(0.999);
    let drive = |features: Vec<Feature>| {
        let hole = straight(4, 390.0, features);
        let notes = hole.notes();
        let outcome = shot::resolve(&setting(&hole, &player), tee, &full(0), &unlucky);
        (outcome.events.has(Events::TREES), notes)
    };
    for covers in [(-50.0, 350.0), (50.0, 450.0)] {
        let (stopped, notes) = drive(vec![stand(covers.0, covers.1, 150.0, 0.1), mown()]);
        assert!(!stopped, "{covers:?}");
        let place = if covers.0 < 0.0 { "tee" } else { "pin" };
        assert!(
            notes
                .iter()
                .any(|n| n.0.contains("trees (feature 0)") && n.0.contains(place)),
            "{notes:?}"
        );
        // Beside the mown ground the wood stands.
        let bare = vec![stand(covers.0, covers.1, 150.0, 0.1)];
        assert!(drive(bare).0);
        let tree = stand(200.0, 210.0, 150.0, 0.1);
        let with_tree = vec![stand(covers.0, covers.1, 150.0, 0.1), tree, mown()];
        assert!(drive(with_tree).0, "{covers:?}");
    }
    let (stopped, notes) = drive(vec![stand(50.0, 350.0, 150.0, 0.1), mown()]);
    assert!(stopped && notes.is_empty(), "{notes:?}");
}

/// A stand across the fairway costs a golfer of 18, who must go over or through it, a tenth of a stroke and more: it is 1.1
/// in 20,000 plays, with a standard error below 0.02, so the false-alarm rate is far below 1e-6.
#[test]
fn trees_on_the_fairway_cost_strokes() {
    let mean = |trees: Vec<Hazard>| {
        let sketch = Sketch {
            fairway_width: Some(40.0),
            trees,
            ..Sketch::new(4, 360.0)
        };
        let scene = scene(Hole::sketch(&sketch).expect("a hole"), 18.0);
        let aim = Aim::Along {
            along: 200.0,
            right: 0.0,
        };
        let instructions = vec![
            Instruction::Shot {
                club: "driver".to_owned(),
                aim,
                carry: None,
            },
            Instruction::AtPin { clubs: 0 },
        ];
        let plan = Plan::new("at it", instructions, Then::Steady).expect("a plan");
        let mut run = record(scene, &plan, &Question::new(Seed(1))).expect("a run");
        run.advance(20_000);
        let scores: f64 = run.plays().iter().map(|play| f64::from(play.score)).sum();
        scores / 20_000.0
    };
    let trees = mean(vec![Hazard::new(270.0, 0.0).sized(40.0, 36.0)]);
    let open = mean(vec![]);
    assert!(trees > open + 0.1, "{trees} {open}");
}

/// What a ball meets, worked out without any short cut: the whole way in pieces of an inch or so, the height judged in
/// the middle of every four yards as the library says it does. Yields the place where it comes to `patience`, and
/// what it met in all up to there.
fn walked(
    day: &Setting,
    from: Point,
    landed: Point,
    prepared: (ClubId, f64, Vector),
    patience: f64,
) -> (Option<Point>, f64) {
    let (hole, (club, carry, forward)) = (day.hole(), prepared);
    let flight = &day.club(club).flight;
    let track = flight.track(carry, forward);
    let rise = hole.terrain().height(landed) - hole.terrain().height(from);
    let share = if hole.terrain().is_flat() {
        1.0
    } else {
        flight.share_to(&track, rise)
    };
    let way = landed - from;
    let length = way.norm();
    let ground =
        |of_way: f64| hole.terrain().height(from + way * of_way) - hole.terrain().height(from);
    let above = |of_way: f64| flight.height(&track, share * of_way) - ground(of_way);
    let pieces = (length / 0.04).ceil();
    let mut met = 0.0;
    for i in 0..pieces as u32 {
        let middle = (f64::from(i) + 0.5) / pieces;
        let at = from + way * middle;
        let over = |f: &&Feature| f.surface == Surface::Trees && f.outline.contains(at);
        let Some(canopy) = hole.features().iter().rfind(over).and_then(|f| f.canopy) else {
            continue;
        };
        let judged = ((middle * length / 4.0).floor() + 0.5) * 4.0 / length;
        let (height, top) = (above(judged), canopy.height_ft / FEET);
        let part = if height >= top {
            0.0
        } else if height >= 0.3 * top {
            1.0
        } else {
            0.5
        };
        met += part * -canopy.openness.ln() / 10.0 * length / pieces;
        if met >= patience {
            return (Some(at), met);
        }
    }
    (None, met)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3_000))]

    /// The leaps over clearings and over what is high enough change nothing: the same balls stop, in the same place
    /// within 0.6 yards (a wood is entered within an inch, and the height judged within a hair).
    #[test]
    fn trees_are_met_as_if_the_whole_way_were_walked(
        which in 0..3_usize, club in 0..3_u8, x in -60.0..70.0f64, y in 0.0..250.0f64, bearing in 0.0..360.0f64,
        part in 0.3..1.0f64, luck in 0.001..0.999f64,
    ) {
        let day = &WOODS[which];
        let from = lying(Point::new(x, y), Lie::Fairway);
        let turn = bearing.to_radians();
        let forward = Vector::new(turn.sin(), turn.cos());
        let id = ClubId(club);
        let carry = part * day.bag().swing(id, Lie::Fairway).full_carry;
        let shot = Shot { stroke: Stroke::Swing(id), target: from.at + forward * 100.0, carry };
        let free = shot::resolve(day, from, &shot, &with_trees(0.0));
        prop_assume!(!free.events.has(Events::TREES) || free.surface == Surface::Trees);
        let outcome = shot::resolve(day, from, &shot, &with_trees(luck));
        let patience = -luck.ln();
        let (stopped, met) = walked(day, from.at, free.landed, (id, carry, forward), patience);
        // On the brink either is right.
        let close = 0.02 + 0.01 * patience;
        let was_stopped = outcome.landed != free.landed;
        match stopped {
            Some(place) => {
                if !was_stopped {
                    let (_, all) = walked(day, from.at, free.landed, (id, carry, forward), f64::INFINITY);
                    prop_assert!(all - patience < close, "{all} {patience}");
                } else {
                    let apart = (outcome.rest - place).norm();
                    let (_, before) = walked(day, from.at, free.landed, (id, carry, forward), patience - close);
                    prop_assert!(apart < 0.6 || before < patience, "{outcome:?} {place}");
                }
            }
            None => prop_assert!(!was_stopped || patience - met < close, "{outcome:?}: {met} of {patience}"),
        }
    }
}
