//! Putts on slopes in the hot loop, against the full integration and against what is known of them.
use crate::common;

use common::luck::lattice;
use proptest::prelude::*;
use wideberth::geometry::{Point, Vector};
use wideberth::noise::Noise;
use wideberth::player::{Player, Putting};
use wideberth::putting::{
    Choice, Ending, Green, ROLL_DECELERATION, Rolled, no_rest_grade, putt, roll, stroke,
};

fn choice(ft: f64, slope: (f64, f64), stimp: f64, past_ft: f64) -> Choice {
    Choice::new(ft, slope, stimp, past_ft).unwrap()
}

fn skill(handicap: f64) -> Putting {
    Player::from_handicap(handicap).unwrap().putting
}

/// How much more a misread slope turns this line than one on a green that falls only to the side.
fn lead(line: &Choice, past_ft: f64) -> f64 {
    let ahead = -100.0 * line.gradient.y;
    let right = (-100.0 * line.gradient.x).abs().max(1e-3);
    let per_slope = |right: f64, ahead: f64| {
        let aim = choice(3.0 * line.length, (right, ahead), line.green_speed, past_ft).aim_deg;
        (0.5 * aim).to_radians().tan() / right
    };
    per_slope(right, ahead) / per_slope(1e-3, 0.0)
}

/// The putt of the hot loop in full: the same errors about an exactly chosen line, integrated step by step, the ball at
/// the origin and the hole ahead.
fn in_full(skill: &Putting, green: &Green, ft: f64, noise: &Noise) -> (bool, f64, f64) {
    let limit = no_rest_grade(green.speed);
    let slope = green.slope.unwrap();
    let seen = slope.mean * skill.read;
    let steep = 3.1 * slope.mean.norm() / limit;
    let past = skill.past_ft * (1.0 + seen.y / limit);
    let line = choice(ft, (-100.0 * seen.x, -100.0 * seen.y), green.speed, past);
    let distance = ft / 3.0;
    let misread = skill.misread_deg * lead(&line, past) * steep * ft / (ft + 20.0);
    let spread = skill.direction_deg + misread;
    let angle = (line.aim_deg + spread * noise.side).to_radians();
    let a = ROLL_DECELERATION / green.speed;
    let meant = line.launch_speed * line.launch_speed / (2.0 * a);
    let level = distance + skill.past_ft / 3.0;
    let reading = 0.36 + 0.30 * steep * steep;
    let error = skill.pace * noise.depth * (0.34 * meant * meant + reading * level * level).sqrt();
    let speed = (2.0 * a * (meant + error).max(0.05 * meant)).sqrt();
    let hole = Point::new(0.0, distance);
    let path = roll(
        Point::origin(),
        Vector::new(angle.sin(), angle.cos()) * speed,
        |_| slope.mean,
        green.speed,
        Some(hole),
    );
    let end = path.end();
    assert_ne!(path.ending, Ending::StillRolling);
    (path.ending == Ending::Holed, end.y - distance, end.x)
}

#[test]
fn the_hot_loop_follows_the_integration() {
    let luck = lattice(512);
    for (stimp, percent) in [
        (7.0, 1.0),
        (7.0, 4.0),
        (10.0, 2.0),
        (12.0, 1.0),
        (12.0, 4.0),
    ] {
        for turn in 0..5 {
            let (sin, cos) = (std::f64::consts::FRAC_PI_4 * f64::from(turn)).sin_cos();
            let green = Green::plane(stimp, Vector::new(sin, cos) * (0.01 * percent));
            for ft in [3.0, 10.0, 40.0] {
                follows(&green, ft, &luck);
            }
        }
    }
}

/// Stroke by stroke under the same luck, both ways: at most 1 % of the strokes differ in the make on balance,
/// misses end within an inch and 0.5 % of the leave of each other, and the mean leave of what both miss agrees to 0.5 %.
fn follows(green: &Green, ft: f64, luck: &[Noise]) {
    let skill = skill(18.0);
    let line = Vector::new(0.0, ft / 3.0);
    let (mut made, mut left, mut left_full) = (0, 0.0, 0.0);
    for noise in luck {
        let hot = stroke(&skill, green, line, noise);
        let full = in_full(&skill, green, ft, noise);
        made += i32::from(hot.holed) - i32::from(full.0);
        if !hot.holed && !full.0 {
            left += hot.past.hypot(hot.right);
            left_full += full.1.hypot(full.2);
            let off = (hot.past - full.1).hypot(hot.right - full.2);
            let allowed = 1.0 / 36.0 + 0.005 * full.1.hypot(full.2);
            assert!(
                off < allowed,
                "{green:?}, {ft} ft: {off} yd, allowed {allowed}"
            );
        }
    }
    let off = f64::from(made) / luck.len() as f64;
    assert!(
        off.abs() <= 0.01,
        "{green:?}, {ft} ft: makes differ by {off}"
    );
    assert!(
        (left / left_full - 1.0).abs() < 0.005,
        "{green:?}, {ft} ft: {left} against {left_full}"
    );
}

/// A player without error who reads everything holes everything.
#[test]
fn the_table_leads_to_the_hole() {
    let skill = Player::from_handicap(18.0)
        .unwrap()
        .without_spread()
        .putting;
    for percent in [0.5, 1.5, 3.0, 4.0] {
        for turn in 0..16 {
            let (sin, cos) = (f64::from(turn) * std::f64::consts::PI / 8.0).sin_cos();
            for stimp in [7.0, 9.0, 11.0, 13.0] {
                let green = Green::plane(stimp, Vector::new(sin, cos) * (0.01 * percent));
                for ft in [1.0, 3.0, 8.0, 20.0, 50.0] {
                    let r = stroke(&skill, &green, Vector::new(0.0, ft / 3.0), &Noise::NONE);
                    assert!(r.holed, "{green:?}, {ft} ft: {r:?}");
                }
            }
        }
    }
}

/// What becomes of putts from one place: makes, three-putts or worse, mean feet left by a miss, share of misses
/// past the hole, and mean yards to the right of the misses.
struct From {
    makes: f64,
    three: f64,
    left_ft: f64,
    past: f64,
    right: f64,
}

fn putts_from(skill: &Putting, stimp: f64, fall: (f64, f64), ft: f64, hole_scale: f64) -> From {
    let luck = lattice(1 << 12);
    let green = Green::plane(stimp, Vector::new(fall.0, fall.1) * -0.01).with_hole(hole_scale);
    let putt = |line: Vector, noise: &Noise| stroke(skill, &green, line, noise);
    let mut f = From {
        makes: 0.0,
        three: 0.0,
        left_ft: 0.0,
        past: 0.0,
        right: 0.0,
    };
    for (i, noise) in luck.iter().enumerate() {
        let first = putt(Vector::new(0.0, ft / 3.0), noise);
        if first.holed {
            f.makes += 1.0;
            continue;
        }
        f.left_ft += 3.0 * first.past.hypot(first.right);
        f.past += f64::from(u8::from(first.past > 0.0));
        f.right += first.right;
        let second = putt(
            Vector::new(-first.right, -first.past),
            &luck[(i * 1_237 + 611) % luck.len()],
        );
        f.three += f64::from(u8::from(!second.holed));
    }
    let n = luck.len() as f64;
    let misses = n - f.makes;
    From {
        makes: f.makes / n,
        three: f.three / n,
        left_ft: f.left_ft / misses,
        past: f.past / misses,
        right: f.right / misses,
    }
}

/// Above the hole misses run out farther, the more so the faster the green, and cost more second putts (common
/// practice). Straight downhill putts are made no less often than uphill ones: they funnel to the line and have the wider
/// margin (Penner 2002, published), and they reach the hole more slowly; from some way off they still take more strokes.
#[test]
fn above_the_hole_is_harder() {
    for handicap in [0.0, 18.0, 36.0] {
        let skill = skill(handicap);
        let strokes = |f: &From| 2.0 - f.makes + f.three;
        for ft in [8.0, 15.0, 30.0] {
            let down = putts_from(&skill, 11.0, (0.0, 2.5), ft, 1.0);
            let up = putts_from(&skill, 11.0, (0.0, -2.5), ft, 1.0);
            let slow = putts_from(&skill, 8.0, (0.0, 2.5), ft, 1.0);
            assert!(down.three > 2.0 * up.three.min(0.2) && down.left_ft > 1.2 * up.left_ft);
            assert!(down.left_ft > slow.left_ft && down.three > slow.three);
            assert!(down.makes > up.makes);
            assert!(ft < 12.0 || strokes(&down) > strokes(&up) && down.past > up.past);
            let (side, level) = (
                putts_from(&skill, 11.0, (2.5, 0.0), ft, 1.0),
                putts_from(&skill, 11.0, (0.0, 0.0), ft, 1.0),
            );
            assert!(strokes(&side) > strokes(&level) && side.three > level.three);
        }
    }
}

/// A player who reads less than there is misses on the low side (common practice); one who reads all of it on both.
#[test]
fn misses_are_low() {
    let skill = skill(18.0);
    let low = putts_from(&skill, 10.0, (2.5, 0.0), 15.0, 1.0);
    let full = putts_from(&Putting { read: 1.0, ..skill }, 10.0, (2.5, 0.0), 15.0, 1.0);
    assert!(low.right > full.right + 0.05 && full.makes > low.makes);
}

#[test]
fn a_wide_hole_takes_more() {
    let skill = skill(18.0);
    let usual = putts_from(&skill, 10.0, (1.0, -1.0), 10.0, 1.0).makes;
    let wide = putts_from(&skill, 10.0, (1.0, -1.0), 10.0, 2.0).makes;
    assert!(wide > 1.5 * usual, "{wide} {usual}");
}

fn any_putt(
    skill: &Putting,
    fall: (f64, f64),
    speed: f64,
    line: Vector,
    depth: f64,
    side: f64,
) -> Rolled {
    let green = Green::plane(speed, Vector::new(fall.0, fall.1) * -0.01);
    stroke(
        skill,
        &green,
        line,
        &Noise {
            depth,
            side,
            ..Noise::NONE
        },
    )
}

proptest! {
    /// On a green known to be level it is the level putt of a player who misreads nothing, to the bit, and next to it on ground
    /// that is nearly so.
    #[test]
    fn level_ground_is_level(
        handicap in 0.0..=54.0, speed in 4.0..=14.0, ft in 0.05..=150.0,
        depth in -6.0..=6.0, side in -6.0..=6.0, turn in 0.0..=6.3_f64,
    ) {
        let skill = skill(handicap);
        let noise = Noise { depth, side, ..Noise::NONE };
        let sure = Putting { misread_deg: 0.0, pace: skill.pace * 0.7_f64.sqrt(), ..skill };
        let level = putt(&sure, speed, ft / 3.0, &noise);
        prop_assert_eq!(any_putt(&skill, (0.0, 0.0), speed, Vector::new(0.0, ft / 3.0), depth, side), level);
        let (sin, cos) = turn.sin_cos();
        let tilted = any_putt(&skill, (1e-5 * sin, 1e-5 * cos), speed, Vector::new(0.0, ft / 3.0), depth, side);
        if tilted.holed == level.holed {
            prop_assert!((tilted.past - level.past).hypot(tilted.right - level.right) < 1e-3 + 1e-4 * ft);
        }
    }

    /// Whatever the slope, even one too steep to rest on, and the luck, a putt ends at a finite place; its mirror image
    /// is its mirror image, and the plan can be turned.
    #[test]
    fn a_putt_on_any_slope_ends_somewhere(
        handicap in 0.0..=54.0, speed in 4.0..=14.0, ft in 0.05..=150.0, depth in -8.0..=8.0, side in -8.0..=8.0,
        right in -15.0..=15.0, ahead in -15.0..=15.0, turn in 0.0..=6.3_f64,
    ) {
        let skill = skill(handicap);
        let line = Vector::new(0.0, ft / 3.0);
        let r = any_putt(&skill, (right, ahead), speed, line, depth, side);
        prop_assert!(r.past.is_finite() && r.right.is_finite());
        if r.holed {
            prop_assert_eq!((r.past, r.right), (0.0, 0.0));
        }
        let mirror = any_putt(&skill, (-right, ahead), speed, line, depth, -side);
        prop_assert_eq!((mirror.holed, mirror.past, mirror.right), (r.holed, r.past, -r.right));
        let (sin, cos) = turn.sin_cos();
        let turned = |x: f64, y: f64| (x * cos + y * sin, y * cos - x * sin);
        let to = turned(0.0, ft / 3.0);
        let t = any_putt(&skill, turned(right, ahead), speed, Vector::new(to.0, to.1), depth, side);
        if t.holed == r.holed {
            prop_assert!((t.past - r.past).hypot(t.right - r.right) < 1e-3 * (1.0 + ft));
        }
    }
}
