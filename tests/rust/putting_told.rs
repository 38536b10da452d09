//! Putts on greens whose slope is told, against the published figures that greens whose slope is not told are fitted to, and
//! against closed forms.
use crate::common;

use common::luck::lattice;
use common::putts::{ALL_ROUND, DOWN, Putts, UP, played};
use proptest::prelude::*;
use statrs::distribution::{ContinuousCDF, Normal};
use wideberth::geometry::{Point, Vector};
use wideberth::noise::Noise;
use wideberth::player::{Player, Putting};
use wideberth::putting::{
    Green, HOLE_RADIUS, ORDINARY_GRADE, ROLL_DECELERATION, captured, no_rest_grade, putt, stroke,
};

/// Putts on planes of one grade that fall in all directions of a part of the circle.
fn putts(skill: &Putting, speed: f64, grade: f64, ft: f64, part: (f64, f64)) -> Putts {
    let green = |uphill: Vector| Green::plane(speed, uphill * grade);
    played(&lattice(1 << 13), skill, green, ft, part)
}

#[track_caller]
fn near(what: &str, got: f64, want: f64, within: f64) {
    assert!(
        (got - want).abs() <= within,
        "{what}: {got:.4}, expected {want}, allowed {within}"
    );
}

fn professional() -> Putting {
    Player::professional().unwrap().putting
}

fn amateur(handicap: f64) -> Putting {
    Player::from_handicap(handicap).unwrap().putting
}

/// On ordinary greens with their slopes the figures come out again that were fitted without them: nothing is
/// counted twice. Published: makes, PGA TOUR 2016-18 (A. Gelman, golf putting case study, 2019, data file); three-putts 2, 6
/// and 10 % from 20, 32 and 40 ft, 2.0 putts from 33 ft (Broadie, 2012 and 2014). Counting slopes twice (misreading as where
/// they are not told) fails.
#[test]
fn professionals_on_ordinary_slopes() {
    let rows = [
        (2.92, 0.9634),
        (3.93, 0.8766),
        (4.94, 0.7661),
        (5.94, 0.6561),
        (6.95, 0.5758),
        (7.95, 0.4993),
        (8.95, 0.4379),
        (9.95, 0.3862),
        (11.95, 0.3120),
        (14.43, 0.2378),
        (18.44, 0.1675),
        (20.44, 0.1445),
        (24.39, 0.1024),
        (28.40, 0.0776),
        (32.39, 0.0631),
        (40.37, 0.0410),
    ];
    let from = |ft| putts(&professional(), 11.0, ORDINARY_GRADE, ft, ALL_ROUND);
    for (ft, makes) in rows {
        near(&format!("makes, {ft} ft"), from(ft).makes, makes, 0.02);
    }
    for (ft, three, within) in [(20.0, 0.02, 0.01), (32.0, 0.06, 0.01), (40.0, 0.10, 0.015)] {
        near(
            &format!("three-putts, {ft} ft"),
            from(ft).three,
            three,
            within,
        );
    }
    near("mean putts, 33 ft", from(33.0).mean, 2.0, 0.03);
    near("left short, 10 ft", from(10.0).short, 0.07, 0.03);
}

/// Published (Broadie): the golfer who averages 90 makes 84, 50 and just over 25 % from 3, 5 and 8 ft and takes 2.0 putts from
/// 19 ft, the one who averages 80 makes half from 6 ft; 17 and 12 % of 10-foot putts are left short.
#[test]
fn amateurs_on_ordinary_slopes() {
    let from = |handicap, ft| putts(&amateur(handicap), 10.0, ORDINARY_GRADE, ft, ALL_ROUND);
    for (ft, makes) in [(3.0, 0.84), (5.0, 0.50), (8.0, 0.26)] {
        near(
            &format!("makes, {ft} ft"),
            from(17.0, ft).makes,
            makes,
            0.035,
        );
    }
    near("mean putts, 19 ft", from(17.0, 19.0).mean, 2.0, 0.06);
    near("left short, 10 ft", from(17.0, 10.0).short, 0.17, 0.04);
    near("makes, 6 ft", from(7.5, 6.0).makes, 0.50, 0.02);
    near("left short, 10 ft", from(7.5, 10.0).short, 0.12, 0.025);
}

/// At every level a told slope of the ordinary grade plays as one that is not told: makes within 2 points.
/// A green known to be level is easier than that and one that falls 3.5 % is harder.
#[test]
fn told_and_untold_agree_at_every_level() {
    let luck = lattice(1 << 13);
    let levels = [0.0, 9.0, 18.0, 27.0, 36.0, 54.0].map(|h| (amateur(h), 10.0));
    for (skill, speed) in levels.into_iter().chain([(professional(), 11.0)]) {
        for ft in [3.0, 6.0, 10.0, 20.0, 40.0] {
            let holed = luck
                .iter()
                .filter(|n| putt(&skill, speed, ft / 3.0, n).holed)
                .count();
            let untold = holed as f64 / luck.len() as f64;
            let at = |grade| putts(&skill, speed, grade, ft, ALL_ROUND);
            let (level, told, steep) = (at(0.0), at(ORDINARY_GRADE), at(0.035));
            near(&format!("{skill:?}, {ft} ft"), told.makes, untold, 0.02);
            assert!(level.makes > untold && untold > steep.makes, "{ft} ft");
            assert!(level.mean < told.mean && told.mean < steep.mean, "{ft} ft");
        }
    }
}

/// Where slopes are told a faster green is harder for putts of some length, and so is one above the hole; published for
/// handicaps of 1 to 30 (World Scientific Congress of Golf, abstract): putts uphill take fewer strokes.
#[test]
fn fast_greens_and_putts_from_above() {
    for handicap in [5.0, 15.0, 25.0] {
        let skill = amateur(handicap);
        for ft in [12.0, 20.0, 40.0] {
            let mean = |speed, part| putts(&skill, speed, ORDINARY_GRADE, ft, part).mean;
            assert!(
                mean(13.0, ALL_ROUND) > mean(10.0, ALL_ROUND) + 0.01,
                "{ft} ft"
            );
            assert!(
                mean(10.0, ALL_ROUND) > mean(7.0, ALL_ROUND) + 0.01,
                "{ft} ft"
            );
            let above = mean(10.0, DOWN) - mean(10.0, UP);
            assert!(
                above > if ft < 15.0 { 0.0 } else { 0.03 },
                "{handicap}, {ft} ft"
            );
            let cost = |speed| mean(speed, DOWN) - mean(speed, UP);
            assert!(ft < 15.0 || cost(12.0) > cost(8.0), "{handicap}, {ft} ft");
        }
    }
}

/// A perfect pace on level ground leaves the direction alone: P = 2 Phi(asin(d / length) / sd) - 1 where the hole takes a
/// ball up to d off its centre at the speed with which it arrives. On a green known to be level the sd is that of the
/// shortest putts; where the slope is not told, misreading adds to it.
#[test]
fn makes_by_a_closed_form() {
    let luck = lattice(1 << 14);
    let normal = Normal::standard();
    for (ft, scale) in [
        (4.0, 1.0),
        (10.0, 1.0),
        (10.0, 2.0),
        (25.0, 1.5),
        (6.0, 0.6),
    ] {
        let skill = Putting {
            pace: 0.0,
            ..amateur(17.0)
        };
        let (length, past) = (ft / 3.0, skill.past_ft / 3.0);
        let taken = |d: f64| {
            let radius = HOLE_RADIUS * scale;
            let rim = (length * length - d * d).sqrt() - (radius * radius - d * d).sqrt();
            let speed = (2.0 * ROLL_DECELERATION / 10.0 * (length + past - rim)).sqrt();
            // A ball 42.7 mm across falls for as long in a wider hole on a longer way.
            let longer = (108.0 * scale - 21.335) / (108.0 - 21.335);
            captured(speed / longer, d / scale)
        };
        let (mut low, mut high) = (0.0, HOLE_RADIUS * scale);
        for _ in 0..50 {
            let middle = 0.5 * (low + high);
            if taken(middle) {
                low = middle
            } else {
                high = middle
            }
        }
        let makes =
            |sd_deg: f64| 2.0 * normal.cdf((low / length).asin() / sd_deg.to_radians()) - 1.0;
        let misread = skill.misread_deg * ft / (ft + 20.0);
        let level = Green::plane(10.0, Vector::zeros()).with_hole(scale);
        let ordinary = Green::ordinary(10.0).with_hole(scale);
        for (green, sd) in [(level, 0.0), (ordinary, misread)] {
            let line = Vector::new(0.0, length);
            let holed = luck
                .iter()
                .filter(|n| stroke(&skill, &green, line, n).holed)
                .count();
            let share = holed as f64 / luck.len() as f64;
            near(
                &format!("{ft} ft, {scale}"),
                share,
                makes(skill.direction_deg + sd),
                0.001,
            );
        }
    }
}

/// Published: through the centre the hole takes a ball of up to 1.63 m/s (Holmes, Am. J. Phys. 59, 129, 1991). The softest
/// straight putt that runs over it, uphill, level or downhill, came at that speed: it still had the energy to run where it stopped.
#[test]
fn nothing_faster_than_published_is_taken() {
    let limit = no_rest_grade(10.0);
    for scale in [1.0, 2.0] {
        for fall in [-0.03, -0.01, 0.0, 0.01, 0.03] {
            let green = Green::plane(10.0, Vector::new(0.0, -fall)).with_hole(scale);
            let skill = Putting {
                read: 1.0,
                ..amateur(17.0)
            };
            let roll = |depth| {
                let noise = Noise {
                    depth,
                    ..Noise::NONE
                };
                stroke(&skill, &green, Vector::new(0.0, 8.0), &noise)
            };
            let (mut soft, mut hard) = (0.0, 20.0);
            assert!(roll(soft).holed && !roll(hard).holed);
            for _ in 0..50 {
                let middle = 0.5 * (soft + hard);
                if roll(middle).holed {
                    soft = middle
                } else {
                    hard = middle
                }
            }
            let run = roll(hard).past + HOLE_RADIUS * scale;
            let at_rim = 2.0 * ROLL_DECELERATION / 10.0 * run * (1.0 - fall / limit);
            // The ball, 42.7 mm across, falls for as long in a wider hole on a longer way.
            let longer = (108.0 * scale - 21.335) / (108.0 - 21.335);
            near(
                &format!("{fall}"),
                at_rim.sqrt() * 0.9144,
                1.63 * longer,
                0.003,
            );
        }
    }
}

/// A hole 8 inches across: a professional's putts from 8 feet go from 50 to 86 % by the two-parameter model of direction
/// (1.02 degrees) and pace (8 %) in A. Gelman's golf putting case study (2019, published).
#[test]
fn a_hole_8_inches_across() {
    let skill = Player::professional().expect("a player").putting;
    let luck = lattice(1 << 14);
    let made = |inches: f64| {
        let green = Green::ordinary(11.0).with_hole(inches / 4.25);
        let line = Vector::new(0.0, 8.0 / 3.0);
        let holed = luck
            .iter()
            .filter(|n| stroke(&skill, &green, line, n).holed);
        holed.count() as f64 / luck.len() as f64
    };
    near("4.25 in", made(4.25), 0.50, 0.01);
    near("8 in", made(8.0), 0.86, 0.03);
}

#[test]
fn a_larger_hole_is_never_worse() {
    let luck = lattice(1 << 12);
    for gradient in [
        None,
        Some((0.0, 0.0)),
        Some((0.02, 0.01)),
        Some((-0.01, -0.03)),
    ] {
        for ft in [3.0, 10.0, 30.0] {
            let skill = amateur(17.0);
            let green = gradient.map_or(Green::ordinary(10.0), |(x, y)| {
                Green::plane(10.0, Vector::new(x, y))
            });
            let made = |scale| {
                let green = green.with_hole(scale);
                let putts = luck
                    .iter()
                    .map(|n| stroke(&skill, &green, Vector::new(ft / 3.0, 0.0), n));
                putts.filter(|r| r.holed).count()
            };
            let makes = [0.5, 0.8, 1.0, 1.2, 1.5, 2.0, 3.0].map(made);
            assert!(
                makes.windows(2).all(|m| m[0] < m[1] || m[1] == luck.len()),
                "{gradient:?}, {ft} ft: {makes:?}"
            );
        }
    }
}

/// The same numbers as before: a change of these is a change of results.
#[test]
fn strokes_stay_what_they_were() {
    let noise = Noise {
        depth: 0.4,
        side: -1.1,
        ..Noise::NONE
    };
    let skill = amateur(17.0);
    let line = Vector::new(3.0, 5.0);
    let even = Green::plane(11.0, Vector::new(0.02, -0.015));
    let curved = Green::over(11.0, Point::origin(), Point::new(3.0, 5.0), |p| {
        Vector::new(0.005 * p.x, 0.01 - 0.004 * p.y)
    });
    for (green, past, right) in [
        (Green::ordinary(10.0), 0.684_710_945_417, -0.376_164_803_324),
        (
            Green::plane(10.0, Vector::zeros()),
            0.647_770_773_106,
            -0.170_194_457_217,
        ),
        (even, 0.909_394_003_424, -0.874_649_296_586),
        (curved, 0.637_767_130_032, -0.350_220_287_926),
    ] {
        let r = stroke(&skill, &green, line, &noise);
        assert_eq!(r, stroke(&skill, &green, line, &noise));
        near("past", r.past, past, 1e-9);
        near("right", r.right, right, 1e-9);
    }
}

proptest! {
    /// Where the slope is not told nothing has changed: the direction of the putt does not matter either.
    #[test]
    fn untold_is_the_plain_putt(
        handicap in 0.0..=54.0, speed in 4.0..=14.0, ft in 0.05..=150.0_f64, depth in -6.0..=6.0, side in -6.0..=6.0,
    ) {
        let skill = amateur(handicap);
        let noise = Noise { depth, side, ..Noise::NONE };
        let plain = putt(&skill, speed, ft / 3.0, &noise);
        prop_assert_eq!(stroke(&skill, &Green::ordinary(speed), Vector::new(0.0, ft / 3.0), &noise), plain);
        prop_assert_eq!(stroke(&skill, &Green::ordinary(speed), Vector::new(-ft / 3.0, 0.0), &noise), plain);
    }
}
