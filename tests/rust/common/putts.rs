//! Putts played to the bottom of the hole, and published makes to hold them to.
use std::f64::consts::{SQRT_2, TAU};
use wideberth::geometry::Vector;
use wideberth::noise::Noise;
use wideberth::player::Putting;
use wideberth::putting::{Green, stroke};

/// Makes of professionals from one distance: feet, tries, made.
pub(crate) type Makes = (f64, f64, f64);

/// The published makes of a sample, "tour-2016-18" or "berry", nearest first (`tests/data/makes.csv` names the source).
pub(crate) fn published_makes(sample: &str) -> Vec<Makes> {
    let rows = include_str!("../../data/makes.csv").lines();
    let rows = rows.filter(|l| !l.starts_with('#')).skip(1);
    let makes: Vec<Makes> = rows
        .map(|row| row.split(',').collect::<Vec<_>>())
        .filter(|cells| cells[0] == sample)
        .map(|cells| {
            let n = |i: usize| cells[i].parse().expect("a number");
            (n(1), n(2), n(3))
        })
        .collect();
    assert!(!makes.is_empty(), "no makes of {sample}");
    makes
}

/// What becomes of putts from one distance, played to the bottom of the hole.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Putts {
    /// Share holed at once.
    pub(crate) makes: f64,
    /// Putts taken on average.
    pub(crate) mean: f64,
    /// Share of three putts or more.
    pub(crate) three: f64,
    /// Share that ends short of the hole.
    pub(crate) short: f64,
    /// Feet left on average, nothing where holed.
    pub(crate) left: f64,
}

/// Where the slope lies: shares of a full circle from straight uphill, between which it is spread evenly.
pub(crate) const ALL_ROUND: (f64, f64) = (0.0, 1.0);
pub(crate) const UP: (f64, f64) = (-0.125, 0.125);
pub(crate) const ACROSS: (f64, f64) = (0.125, 0.375);
pub(crate) const DOWN: (f64, f64) = (0.375, 0.625);

/// Putts from `ft` on the green of each direction of steepest rise (a unit vector, the line of the putt being +y). Evenly
/// spread luck and directions leave an error of about 0.002 in shares.
pub(crate) fn played(
    luck: &[Noise],
    skill: &Putting,
    green: impl Fn(Vector) -> Green,
    ft: f64,
    part: (f64, f64),
) -> Putts {
    let mut sum = Putts::default();
    for (i, first) in luck.iter().enumerate() {
        let turn = TAU * (part.0 + (i as f64 * SQRT_2).fract() * (part.1 - part.0));
        let green = green(Vector::new(turn.sin(), turn.cos()));
        let mut line = Vector::new(0.0, ft / 3.0);
        for k in 0..10 {
            let noise = if k == 0 {
                first
            } else {
                &luck[(i * 1_237 + 611 * k) % luck.len()]
            };
            let r = stroke(skill, &green, line, noise);
            sum.mean += 1.0;
            if r.holed {
                sum.makes += f64::from(u8::from(k == 0));
                break;
            }
            sum.three += f64::from(u8::from(k == 1));
            if k == 0 {
                sum.short += f64::from(u8::from(r.past < 0.0));
                sum.left += 3.0 * r.past.hypot(r.right);
            }
            let ahead = line / line.norm();
            line = -(ahead * r.past + Vector::new(ahead.y, -ahead.x) * r.right);
        }
    }
    let n = luck.len() as f64;
    Putts {
        makes: sum.makes / n,
        mean: sum.mean / n,
        three: sum.three / n,
        short: sum.short / n,
        left: sum.left / n,
    }
}
