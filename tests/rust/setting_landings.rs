//! Wind, air, height, slopes and firmness move where balls come down and stop as they should.
use crate::common;

use common::strokes::{BAG, FEET, fairway, full, golfer, lying, setting, sloping, struck};
use common::{shaped, windy};
use wideberth::flight::{Aerodynamics, Air, Launch, LaunchConditions, Weather, fly, solve_speed};
use wideberth::geometry::{Point, Vector};
use wideberth::hole::{Conditions, Firmness, Hole, Wind};
use wideberth::noise::{PlayNoise, Seed};
use wideberth::player::{Lie, Player};
use wideberth::setting::Setting;
use wideberth::shot::{self, Events};

fn launch(name: &str, carry: f64) -> Launch {
    let conditions = LaunchConditions::usual(name, carry).expect("a launch");
    let speed = solve_speed(carry, conditions, Air::default(), Aerodynamics::default());
    conditions.at_speed(speed.expect("a speed"))
}

fn day_of(hole: &Hole) -> Weather {
    Weather::of(hole.conditions()).expect("weather")
}

/// Against the full integration of the flight: carry within 0.15 yards and drift within 0.1 in winds to 20 mph.
#[test]
fn landings_in_wind_are_those_of_the_integration() {
    let mut worst = (0.0_f64, 0.0_f64);
    for mph in [10.0, 20.0] {
        for from in [0.0, 30.0, 90.0, 135.0, 180.0, 250.0, 300.0] {
            let hole = windy(&fairway(), mph, from);
            let day = setting(&hole, &golfer(&BAG));
            for ((name, carry), id) in BAG.into_iter().zip(0..) {
                let landed = struck(&day, id).landed;
                let flight = fly(&launch(name, carry), &day_of(&hole), 0.0).expect("a flight");
                worst.0 = worst.0.max((landed.y - flight.carry).abs());
                worst.1 = worst.1.max((landed.x - flight.lateral).abs());
            }
        }
    }
    println!("carry {:.3}, drift {:.3}", worst.0, worst.1);
    assert!(worst.0 < 0.15 && worst.1 < 0.1, "{worst:?}");
}

/// Against the full integration of the flight to the height of the ground where it lands, on slopes from 12 % down to
/// 6 % up: within 0.1 yards in still air, 1.5 in a wind of 15 mph; up steep hills within 0.6 and 3.5.
#[test]
fn landings_on_slopes_are_those_of_the_integration() {
    for (mph, from, most, steep) in [
        (0.0, 0.0, 0.1, 0.6),
        (15.0, 40.0, 1.5, 3.5),
        (15.0, 160.0, 1.5, 3.5),
    ] {
        let (mut worst, mut worst_up) = (0.0_f64, 0.0_f64);
        for rise in [-0.12, -0.06, -0.02, 0.03, 0.06, 0.12, 0.2] {
            let hole = sloping(&windy(&fairway(), mph, from), Vector::new(0.0, rise));
            let day = setting(&hole, &golfer(&BAG));
            for ((name, carry), id) in BAG.into_iter().zip(0..) {
                let landed = struck(&day, id).landed;
                let height = FEET * hole.terrain().height(landed);
                // A ball that the hill meets on its way up is none to compare.
                let Ok(flight) = fly(&launch(name, carry), &day_of(&hole), height) else {
                    continue;
                };
                let off = (landed.y - flight.carry).hypot(landed.x - flight.lateral);
                if rise > 0.1 {
                    worst_up = worst_up.max(off);
                } else {
                    worst = worst.max(off);
                }
            }
        }
        println!("{mph} mph from {from}: {worst:.3}, uphill {worst_up:.3}");
        assert!(worst < most && worst_up < steep, "{mph} mph from {from}");
    }
}

/// What a day does to a stroke: the landing and the rest under it, less those of a usual day.
fn differences(player: &Player, id: u8, day: Conditions) -> (Vector, Vector) {
    let plain = struck(&setting(&fairway(), player), id);
    let hole = fairway().under(day).expect("a day");
    let other = struck(&setting(&hole, player), id);
    (other.landed - plain.landed, other.rest - plain.rest)
}

/// Sources (published unless said): for a 250-yd drive 10 mph +9/-13 yd (teaching newsletter), 10 mph across about 15 yd
/// (press); a 7-iron loses 15 m to 10 mph and 22 m more to 20 (field test); head hurts more than tail helps. Computed
/// independently with other laws of drag: 10 mph -6.7/+5.3 % and 20 mph -14.8/+9.2 % of a drive, -11/+8 % and -24.8/+13.1 % of
/// a 7-iron. Bands a third to either side, and what lies between the sources.
#[test]
fn wind_changes_strokes_by_the_published_rules() {
    let player = golfer(&[("driver", 250.0), ("7-iron", 166.0)]);
    let along = |id: u8, mph: f64, from: f64| {
        let wind = Wind::new(mph, from).expect("a wind");
        let day = Conditions {
            wind,
            ..Conditions::default()
        };
        differences(&player, id, day).0
    };
    for (id, mph, loss, gain, drift) in [
        (0, 10.0, 9.0..20.0, 7.0..17.0, 9.0..19.0),
        (0, 20.0, 23.0..47.0, 13.0..31.0, 18.0..38.0),
        (1, 10.0, 11.0..23.0, 8.0..16.0, 8.0..17.0),
        (1, 20.0, 28.0..50.0, 14.0..28.0, 17.0..34.0),
    ] {
        let (head, tail) = (-along(id, mph, 0.0).y, along(id, mph, 180.0).y);
        let across = along(id, mph, 270.0);
        println!(
            "{id}, {mph} mph: -{head:.1} +{tail:.1}, {:.1} across",
            across.x
        );
        assert!(loss.contains(&head), "{head}");
        assert!(gain.contains(&tail), "{tail}");
        assert!(drift.contains(&across.x), "{across}");
        assert!(tail < head && across.y.abs() < 0.03 * 250.0);
    }
}

/// Sources (published): about 2 yd per 10 F; about 2.5 yd per 1000 ft for a driver (coaching test), 6 % at a mile (ball
/// maker; computed independently 5.9 % of a drive, 8 % of a 7-iron).
#[test]
fn air_changes_strokes_by_the_published_rules() {
    let player = golfer(&[("driver", 270.0), ("7-iron", 166.0)]);
    let usual = Conditions::default();
    let carry = |id: u8, day: Conditions| differences(&player, id, day).0.y;
    for (id, mile) in [(0, 0.045..0.09), (1, 0.045..0.10)] {
        let warm = |temperature_f| Conditions {
            temperature_f,
            ..usual
        };
        let high = |altitude_ft| Conditions {
            altitude_ft,
            ..usual
        };
        let by_ten = (carry(id, warm(79.0)) - carry(id, warm(39.0))) / 4.0;
        let share = carry(id, high(5280.0)) / [270.0, 166.0][usize::from(id)];
        println!("{id}: {by_ten:.2} yd per 10 F, {share:.3} at a mile");
        assert!((1.2..2.9).contains(&by_ten), "{by_ten}");
        assert!(mile.contains(&share), "{share}");
    }
    let foot = carry(
        0,
        Conditions {
            altitude_ft: 1000.0,
            ..usual
        },
    );
    assert!((1.7..4.5).contains(&foot), "{foot}");
}

/// Source: a yard of carry per yard of height (rule of thumb, from memory); computed independently for 10 yards down and up:
/// driver 1.20 and 1.42, 7-iron 0.87 and 0.97, wedge 0.79 and 0.88.
#[test]
fn height_changes_carries_by_the_rule_of_thumb() {
    for (id, carry, down, up) in [
        (0, 250.0, 1.2, 1.42),
        (1, 160.0, 0.87, 0.97),
        (2, 85.0, 0.79, 0.88),
    ] {
        for (rise, expected) in [(-10.0, down), (10.0, up)] {
            // Level where the ball lands, so that only the height counts.
            let hole = shaped(&fairway(), |_, y| rise * (y / 40.0).clamp(0.0, 1.0));
            let landed = struck(&setting(&hole, &golfer(&BAG)), id).landed;
            let per_yard = (carry - landed.y) / rise;
            println!("{id} {rise}: {per_yard:.2} ({expected})");
            assert!(
                (per_yard / expected - 1.0).abs() < 0.35,
                "{id} {rise}: {per_yard}"
            );
        }
    }
}

#[test]
fn firmer_ground_and_downhill_are_longer() {
    let player = golfer(&BAG);
    for id in 0..3 {
        let runs = [
            Firmness::SOFT,
            Firmness::MEDIUM,
            Firmness::FIRM,
            Firmness::LINKS_FIRM,
        ]
        .map(|firmness| {
            let day = Conditions {
                firmness,
                ..Conditions::default()
            };
            struck(&setting(&fairway().under(day).expect("a day"), &player), id)
                .rest
                .y
        });
        assert!(runs.windows(2).all(|w| w[0] < w[1]), "{id}: {runs:?}");
        let slopes = [0.08, 0.04, 0.0, -0.04, -0.08].map(|rise| {
            let hole = sloping(&fairway(), Vector::new(0.0, rise));
            struck(&setting(&hole, &player), id).rest.y
        });
        println!("{id}: {runs:.1?} {slopes:.1?}");
        assert!(slopes.windows(2).all(|w| w[0] < w[1]), "{id}: {slopes:?}");
    }
}

/// The lie on a side slope turns a ball downhill by the slope times the tangent of the launch (plane geometry), loft
/// by loft, the same either way; a gentle slope does not.
#[test]
fn side_hill_lies_turn_balls_downhill() {
    let player = golfer(&BAG);
    let aside = |id: u8, rise: f64| {
        let hole = sloping(&fairway(), Vector::new(rise, 0.0));
        struck(&setting(&hole, &player), id).landed
    };
    for ((name, carry), id) in BAG.into_iter().zip(0..) {
        let launch = LaunchConditions::usual(name, carry).expect("a launch");
        let lofted = launch.launch_deg.to_radians().tan();
        let (right, left) = (aside(id, -0.08), aside(id, 0.08));
        assert!(
            (right.x / carry / (0.08 * lofted) - 1.0).abs() < 0.05,
            "{name}: {right}"
        );
        assert!((right.x + left.x).abs() < 1e-6 && (right.y - left.y).abs() < 1e-6);
        assert!(aside(id, 0.02).x.abs() < 1e-9);
    }
    // More spread, and more mishits.
    let level = setting(
        &fairway(),
        &Player::from_handicap(18.0).expect("a handicap"),
    );
    let steep = setting(
        &sloping(&fairway(), Vector::new(0.1, 0.0)),
        &Player::from_handicap(18.0).expect("a handicap"),
    );
    let mishits = |day: &Setting| {
        let from = lying(Point::new(0.0, 60.0), Lie::Fairway);
        let strike = |play| {
            let noise = PlayNoise::new(Seed(2), play).stroke(0);
            shot::resolve(day, from, &full(7), &noise)
                .events
                .has(Events::MISHIT)
        };
        (0..2_000).filter(|&play| strike(play)).count()
    };
    let (few, many) = (mishits(&level), mishits(&steep));
    println!("{few} and {many} of 2,000");
    assert!(many > few + few / 4 && many < 2 * few, "{few} {many}");
}
