//! What an unadvised golfer sees from the ball: water that lies across, and trees in the way.
use crate::common;

use common::strokes::plan_on;
use wideberth::geometry::Point;
use wideberth::hole::{Canopy, Contours, CrossingWater, Hazard, Hole, Sketch, Surface};
use wideberth::noise::Noise;
use wideberth::plan::{Direct, Scene, Steady, Strategy};
use wideberth::player::{Habits, Lie, Player};
use wideberth::shot::Next;
use wideberth::situation::Situation;

fn golfer(handicap: f64) -> Player {
    let player = Player::from_handicap(handicap).unwrap();
    player.with_habits(Habits::NONE).unwrap()
}

fn brook(at: f64, width: f64) -> CrossingWater {
    CrossingWater {
        at,
        width,
        name: None,
    }
}

/// Where a shot ends that is struck as it is meant.
fn end(scene: &Scene, from: Situation, strategy: &dyn Strategy) -> Option<Point> {
    let shot = strategy.choose(scene, from, 0);
    match scene.resolve(from, &shot, &Noise::NONE).next {
        Next::Play(next) => Some(next.at),
        _ => None,
    }
}

/// A scratch golfer's driver ends some 255 yards out: a brook there is laid up to, by no more than is needed, one nearer is
/// carried, and one farther out changes nothing.
#[test]
fn drives_stop_short_of_a_brook() {
    let drive = |at: f64| {
        let sketch = Sketch {
            crossings: vec![brook(at, 14.0)],
            ..Sketch::new(4, 420.0)
        };
        let scene = plan_on(&Hole::sketch(&sketch).unwrap(), &golfer(0.0));
        let tee = Situation::on_the_tee(scene.hole());
        end(&scene, tee, &Direct::new(&scene))
            .expect("a dry ball")
            .y
    };
    let free = drive(330.0);
    assert!((245.0..265.0).contains(&free), "{free}");
    assert!((drive(150.0) - free).abs() < 1.0);
    for at in [235.0, 250.0, 262.0] {
        let short = at - 7.0 - drive(at);
        assert!((10.0..30.0).contains(&short), "{short} short of {at}");
    }
}

/// Where no club gets to the green the driver is swung in full, level, down a hill and up one: within the two yards between the
/// places that are looked at, and their like in carry.
#[test]
fn the_driver_is_swung_in_full_on_any_hill() {
    for handicap in [0.0, 18.0, 36.0] {
        for uphill_ft in [-120.0, -60.0, 0.0, 30.0, 120.0] {
            let sketch = Sketch {
                contours: Contours {
                    uphill_ft,
                    ..Contours::default()
                },
                ..Sketch::new(5, 520.0)
            };
            let scene = plan_on(&Hole::sketch(&sketch).unwrap(), &golfer(handicap));
            let tee = Situation::on_the_tee(scene.hole());
            let shot = Direct::new(&scene).choose(&scene, tee, 0);
            let full = scene
                .bag()
                .swing(scene.bag().longest(tee.lie), tee.lie)
                .full_carry;
            assert!(
                full - shot.carry < 3.0,
                "{handicap}, {uphill_ft} ft: {} of {full}",
                shot.carry
            );
        }
    }
}

/// Water to carry on the way to the pin: whoever can, carries it, at every distance.
#[test]
fn nobody_means_to_land_in_the_pond_before_the_green() {
    for (handicap, far) in [(0.0, 215.0), (9.0, 165.0), (18.0, 150.0), (18.0, 135.0)] {
        let sketch = Sketch {
            crossings: vec![brook(400.0 - 28.0, 26.0)],
            ..Sketch::new(4, 400.0)
        };
        let scene = plan_on(&Hole::sketch(&sketch).unwrap(), &golfer(handicap));
        let from = Situation {
            at: Point::new(0.0, 400.0 - far),
            lie: Lie::Fairway,
        };
        let shot = scene.shot_at(from, scene.hole().pin());
        let landed = scene.resolve(from, &shot, &Noise::NONE).landed;
        assert!(landed.y > 400.0 - 15.0, "{handicap}, {far}: {landed:?}");
        assert!(scene.hole().surface_at(landed) != Surface::PenaltyYellow);
    }
}

/// Ten yards behind a dense wood both sensible strategies play out to where the trees let the ball through, and not at the pin.
#[test]
fn trees_in_the_way_are_played_around() {
    let wood = Hazard {
        canopy: Some(Canopy {
            height_ft: 60.0,
            openness: 0.2,
        }),
        ..Hazard::new(225.0, 20.0).sized(30.0, 30.0)
    };
    let sketch = Sketch {
        trees: vec![wood],
        ..Sketch::new(4, 400.0)
    };
    let hole = Hole::sketch(&sketch).unwrap();
    for handicap in [0.0, 9.0, 18.0, 36.0] {
        let scene = plan_on(&hole, &golfer(handicap));
        for at in [(36.0, 200.0), (33.0, 203.0), (38.0, 195.0)] {
            let from = Situation {
                at: Point::new(at.0, at.1),
                lie: Lie::Rough,
            };
            let blind = scene.shot_at(from, scene.hole().pin());
            assert!(scene.chance(from, &blind) < 0.2);
            let ways: [&dyn Strategy; 2] = [&Direct::new(&scene), &Steady::new(&scene)];
            for way in ways {
                let shot = way.choose(&scene, from, 0);
                assert!(
                    scene.chance(from, &shot) > 0.66,
                    "{handicap} {at:?} {shot:?}"
                );
            }
        }
    }
}

/// Beyond the green with trees on all sides nothing on the line of play is good, and abreast of the ball it ends: what is played
/// then is a stroke still, and not a yard.
#[test]
fn behind_trees_on_all_sides_a_stroke_is_a_stroke() {
    let wood = |along: f64, right: f64, length: f64, width: f64| Hazard {
        canopy: Some(Canopy {
            height_ft: 60.0,
            openness: 0.1,
        }),
        ..Hazard::new(along, right).sized(length, width)
    };
    let sketch = Sketch {
        trees: vec![wood(440.0, 0.0, 20.0, 120.0)],
        ..Sketch::new(4, 400.0)
    };
    let hole = Hole::sketch(&sketch).unwrap();
    let scene = plan_on(&hole, &golfer(18.0));
    for (x, y) in [(1.0, 470.0), (4.0, 475.0), (-3.0, 480.0)] {
        let from = Situation {
            at: Point::new(x, y),
            lie: Lie::Rough,
        };
        let blind = scene.shot_at(from, scene.hole().pin());
        assert!(scene.chance(from, &blind) < 0.5);
        let ways: [&dyn Strategy; 2] = [&Direct::new(&scene), &Steady::new(&scene)];
        for way in ways {
            let shot = way.choose(&scene, from, 0);
            assert!(shot.carry > 10.0, "{x}, {y}: {shot:?}");
        }
    }
}
