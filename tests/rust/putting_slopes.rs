//! Putts on slopes: the exact solution, the integrator, published shapes and what the hot loop makes of them.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
use proptest::prelude::*;
use statrs::distribution::{ContinuousCDF, Normal};
use wideberth::geometry::{Point, Vector};
use wideberth::noise::Noise;
use wideberth::player::{Player, Putting};
use wideberth::putting::{
    Breaks, Choice, Ending, Green, HOLE_RADIUS, Path, ROLL_DECELERATION, Rolled, no_rest_grade,
    putt, roll,
};

const YARD: f64 = 0.9144;

fn choice(ft: f64, slope: (f64, f64), stimp: f64, past_ft: f64) -> Choice {
    Choice::new(ft, slope, stimp, past_ft).unwrap()
}

/// Breaks in inches and launch speeds in m/s, computed independently (a numerical integration in another language,
/// not this code): planar slope, ball and hole level with each other, 1 ft past on the level. Values are rounded to
/// a tenth of an inch and a centimetre a second; half a digit is allowed, and 0.02 in for the other's rounding.
#[test]
fn the_break_table() {
    let rows = [
        (8.0, 6.0, 1.71, [2.5, 5.0, 7.6]),
        (8.0, 10.0, 2.15, [4.7, 9.4, 14.2]),
        (8.0, 20.0, 2.97, [10.4, 21.0, 31.9]),
        (10.0, 6.0, 1.53, [3.1, 6.3, 9.5]),
        (10.0, 10.0, 1.92, [5.8, 11.8, 18.0]),
        (10.0, 20.0, 2.65, [13.0, 26.4, 40.5]),
        (12.0, 6.0, 1.40, [3.7, 7.6, 11.5]),
        (12.0, 10.0, 1.75, [7.0, 14.2, 21.9]),
        (12.0, 20.0, 2.42, [15.7, 31.9, 49.5]),
    ];
    for (stimp, ft, launch, breaks) in rows {
        for (percent, want) in [1.0, 2.0, 3.0].into_iter().zip(breaks) {
            let got = choice(ft, (percent, 0.0), stimp, 1.0);
            println!(
                "{stimp} {ft} {percent}: {} {}",
                got.break_in - want,
                got.launch_speed * YARD - launch
            );
        }
    }
    for (slope, launch, breaks) in [
        ((0.0, -2.0), 2.129, 0.0),
        ((0.0, 2.0), 1.681, 0.0),
        ((2.0 * 0.5f64.sqrt(), 2.0 * 0.5f64.sqrt()), 1.755, 9.9),
        ((2.0 * 0.5f64.sqrt(), -2.0 * 0.5f64.sqrt()), 2.070, 7.2),
    ] {
        let got = choice(10.0, slope, 10.0, 1.0);
        println!(
            "{slope:?}: {} {}",
            got.break_in - breaks,
            got.launch_speed * YARD - launch
        );
    }
}

/// Evenly spread luck, a rank-one lattice mapped to normals.
fn lattice(n: u32) -> Vec<Noise> {
    let normal = Normal::standard();
    (0..n)
        .map(|i| {
            let u = (f64::from(i) + 0.5) / f64::from(n);
            let v = (f64::from(i) * 0.618_033_988_749_894_9 + 0.5 / f64::from(n)).fract();
            Noise {
                depth: normal.inverse_cdf(u),
                side: normal.inverse_cdf(v),
                ..Noise::NONE
            }
        })
        .collect()
}

fn skill(handicap: f64) -> Putting {
    Player::from_handicap(handicap).unwrap().putting
}

/// The putt of the hot loop in full: the same errors about an exactly chosen line, integrated step by step, the ball at
/// the origin and the hole ahead.
fn in_full(skill: &Putting, green: &Green, ft: f64, noise: &Noise) -> (bool, f64, f64) {
    let limit = no_rest_grade(green.speed);
    let seen = green.gradient * skill.read;
    let past = skill.past_ft * (1.0 + seen.y / limit);
    let line = choice(ft, (-100.0 * seen.x, -100.0 * seen.y), green.speed, past);
    let distance = ft / 3.0;
    let spread = skill.direction_deg + skill.misread_deg * ft / (ft + 20.0);
    let angle = (line.aim_deg + spread * noise.side).to_radians();
    let a = ROLL_DECELERATION / green.speed;
    let meant = line.launch_speed * line.launch_speed / (2.0 * a);
    let level = distance + skill.past_ft / 3.0;
    let error = skill.pace * noise.depth * (0.34 * meant * meant + 0.66 * level * level).sqrt();
    let speed = (2.0 * a * (meant + error).max(0.05 * meant)).sqrt();
    let hole = Point::new(0.0, distance);
    let path = roll(
        Point::origin(),
        Vector::new(angle.sin(), angle.cos()) * speed,
        |_| green.gradient,
        green.speed,
        Some(hole),
    );
    let end = path.end();
    assert_ne!(path.ending, Ending::StillRolling);
    (path.ending == Ending::Holed, end.y - distance, end.x)
}

#[test]
fn the_hot_loop_follows_the_integration() {
    let luck = lattice(256);
    let breaks = Breaks::get();
    let mut worst = (0.0_f64, 0.0_f64, 0.0_f64);
    for stimp in [7.0, 10.0, 12.0] {
        for percent in [1.0, 2.0, 4.0] {
            for turn in 0..5 {
                let (sin, cos) = (std::f64::consts::FRAC_PI_4 * f64::from(turn)).sin_cos();
                let gradient = Vector::new(sin, cos) * (0.01 * percent);
                let green = Green {
                    speed: stimp,
                    gradient,
                    hole_scale: 1.0,
                };
                for ft in [3.0, 6.0, 10.0, 20.0, 40.0] {
                    for handicap in [0.0, 18.0] {
                        let skill = skill(handicap);
                        let (mut made, mut full, mut off, mut left, mut left_full) =
                            (0, 0, 0.0_f64, 0.0, 0.0);
                        for noise in &luck {
                            let hot =
                                breaks.putt_on(&skill, &green, Vector::new(0.0, ft / 3.0), noise);
                            let slow = in_full(&skill, &green, ft, noise);
                            made += i32::from(hot.holed);
                            full += i32::from(slow.0);
                            left += hot.past.hypot(hot.right);
                            left_full += if slow.0 { 0.0 } else { slow.1.hypot(slow.2) };
                            if !hot.holed && !slow.0 {
                                off = off.max((hot.past - slow.1).hypot(hot.right - slow.2));
                            }
                        }
                        let make = f64::from(made - full) / luck.len() as f64;
                        worst = (
                            worst.0.max(make.abs()),
                            worst.1.max(3.0 * off),
                            worst.2.max((left / left_full - 1.0).abs()),
                        );
                        if make.abs() > 0.007 || off > 0.1 {
                            println!(
                                "{stimp} {percent} {turn} {ft} {handicap}: made {made} {full}, off {:.3} ft, left {left:.2} {left_full:.2}",
                                3.0 * off
                            );
                        }
                    }
                }
            }
        }
    }
    println!("{worst:?}");
}
