//! Fits players by level to published figures, and prints what they come to.
//!
//! `cargo run --release --example calibrate > docs/calibration.md` reports on the figures in use (a few minutes);
//! `cargo run --release --example calibrate -- fit` first fits them anew by least squares, from those in use, and prints
//! each step (a quarter of an hour); `-- fit professional` the professional alone. `-- "depth, bogey=0.10" "wild side=4"`
//! reports on those in use but for the ones named.
#![expect(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a script for the terminal"
)]

#[path = "../../tests/rust/common/calibration/mod.rs"]
mod calibration;

use calibration::Who;
use calibration::report::{Row, markdown, rows};
use calibration::study::Study;
use calibration::targets::{Role, Target, all};
use wideberth::player::LevelFigures;

/// Rounds of a course and strokes from a place in the report, and in every step of the fit.
const REPORT: (u64, u64) = (4_000, 20_000);
const FIT: (u64, u64) = (500, 3_000);

/// A figure that is fitted: its name, where it is, what is believable before looking, and how far from it.
struct Knob {
    name: &'static str,
    of: fn(&mut LevelFigures) -> &mut f64,
    prior: f64,
    spread: f64,
}

const fn knob(
    name: &'static str,
    of: fn(&mut LevelFigures) -> &mut f64,
    prior: f64,
    spread: f64,
) -> Knob {
    Knob {
        name,
        of,
        prior,
        spread,
    }
}

/// What club golfers and reference golfers are fitted with. The priors are common practice, no source; that of the levelling
/// keeps the bunker shots of the weakest golfers within what a player may be.
const GOLFERS: [Knob; 15] = [
    knob("levelling", |f| &mut f.levelling, 44.0, 1.0),
    knob(
        "direction, scratch",
        |f| &mut f.direction_deg.scratch,
        2.4,
        0.3,
    ),
    knob("direction, bogey", |f| &mut f.direction_deg.bogey, 3.4, 0.5),
    knob("direction, long", |f| &mut f.direction_long, 0.35, 0.12),
    knob("depth, scratch", |f| &mut f.depth.scratch, 0.04, 0.006),
    knob("depth, bogey", |f| &mut f.depth.bogey, 0.09, 0.015),
    knob("duffs, scratch", |f| &mut f.duffs.scratch, 0.02, 0.006),
    knob("duffs, bogey", |f| &mut f.duffs.bogey, 0.06, 0.015),
    knob("wilds, scratch", |f| &mut f.wilds.scratch, 0.05, 0.015),
    knob("wilds, bogey", |f| &mut f.wilds.bogey, 0.09, 0.02),
    knob(
        "too little club, scratch",
        |f| &mut f.too_little_club.scratch,
        0.02,
        0.008,
    ),
    knob(
        "too little club, bogey",
        |f| &mut f.too_little_club.bogey,
        0.05,
        0.015,
    ),
    knob("wilds, long", |f| &mut f.wild_long, 0.6, 0.2),
    knob("wild side", |f| &mut f.wild_side, 4.0, 1.0),
    knob("bad lie, bogey", |f| &mut f.bad_lie.bogey, 1.5, 0.1),
];

/// What the professional is fitted with.
const PROFESSIONAL: [Knob; 5] = [
    knob(
        "direction, professional",
        |f| &mut f.direction_deg.professional,
        2.0,
        0.2,
    ),
    knob(
        "depth, professional",
        |f| &mut f.depth.professional,
        0.035,
        0.005,
    ),
    knob(
        "duffs, professional",
        |f| &mut f.duffs.professional,
        0.008,
        0.002,
    ),
    knob(
        "wilds, professional",
        |f| &mut f.wilds.professional,
        0.04,
        0.01,
    ),
    knob(
        "too little club, professional",
        |f| &mut f.too_little_club.professional,
        0.012,
        0.005,
    ),
];

/// Misses of the fitted figures about some golfers, and of the knobs from what is believable.
fn residuals(figures: LevelFigures, knobs: &[Knob], about: fn(Who) -> bool) -> Vec<f64> {
    let study = Study::new(figures, FIT.0, FIT.1);
    let fitted = |t: &Target| t.role == Role::Fitted && about(t.who);
    let targets: Vec<Target> = all().into_iter().filter(fitted).collect();
    let mut misses: Vec<f64> = rows(&study, targets).iter().map(Row::off).collect();
    let mut figures = figures;
    misses.extend(
        knobs
            .iter()
            .map(|k| (*(k.of)(&mut figures) - k.prior) / k.spread),
    );
    misses
}

fn squares(misses: &[f64]) -> f64 {
    misses.iter().map(|m| m * m).sum()
}

/// Least squares by Gauss, Newton and Levenberg: slopes by differences under the same luck, steps halved until they gain.
fn fit(mut figures: LevelFigures, knobs: &[Knob], about: fn(Who) -> bool) -> LevelFigures {
    let mut now = residuals(figures, knobs, about);
    for step in 0..6 {
        eprintln!(
            "step {step}, squares {:.2}: {}",
            squares(&now),
            told(figures, knobs)
        );
        let slopes: Vec<Vec<f64>> = knobs
            .iter()
            .map(|knob| {
                let (mut moved, by) = (figures, 0.5 * knob.spread);
                *(knob.of)(&mut moved) += by;
                let there = residuals(moved, knobs, about);
                there.iter().zip(&now).map(|(a, b)| (a - b) / by).collect()
            })
            .collect();
        let along = solve(knobs, &slopes, &now);
        let mut gained = false;
        for share in [1.0, 0.5, 0.25, 0.125] {
            let mut next = figures;
            for (knob, change) in knobs.iter().zip(&along) {
                let figure = (knob.of)(&mut next);
                *figure = (*figure + share * change).max(0.1 * knob.prior);
            }
            let there = residuals(next, knobs, about);
            if squares(&there) < squares(&now) - 0.05 {
                (figures, now, gained) = (next, there, true);
                break;
            }
        }
        if !gained {
            break;
        }
    }
    eprintln!(
        "fitted, squares {:.2}: {}",
        squares(&now),
        told(figures, knobs)
    );
    figures
}

/// The knobs by name.
fn told(mut figures: LevelFigures, knobs: &[Knob]) -> String {
    let told = |knob: &Knob| format!("{} {:.4}", knob.name, *(knob.of)(&mut figures));
    knobs.iter().map(told).collect::<Vec<_>>().join("; ")
}

/// The step: normal equations with a little damping, by Gauss's elimination.
fn solve(knobs: &[Knob], slopes: &[Vec<f64>], misses: &[f64]) -> Vec<f64> {
    let n = knobs.len();
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
    let mut rows: Vec<Vec<f64>> = (0..n)
        .map(|i| {
            let mut row: Vec<f64> = (0..n).map(|j| dot(&slopes[i], &slopes[j])).collect();
            row[i] *= 1.02;
            row.push(-dot(&slopes[i], misses));
            row
        })
        .collect();
    for i in 0..n {
        for j in 0..n {
            if i != j {
                let by = rows[j][i] / rows[i][i];
                let pivot = rows[i].clone();
                rows[j]
                    .iter_mut()
                    .zip(&pivot)
                    .for_each(|(a, b)| *a -= by * b);
            }
        }
    }
    (0..n).map(|i| rows[i][n] / rows[i][i]).collect()
}

fn main() {
    let mut figures = LevelFigures::FITTED;
    let told: Vec<String> = std::env::args().skip(1).collect();
    let wants = |word: &str| told.iter().any(|a| a == word);
    for (name, value) in told.iter().filter_map(|a| a.split_once('=')) {
        let knobs = GOLFERS.iter().chain(&PROFESSIONAL);
        let known: Vec<&Knob> = knobs.collect();
        let Some(knob) = known.iter().find(|knob| knob.name == name) else {
            let names: Vec<&str> = known.iter().map(|knob| knob.name).collect();
            eprintln!("no figure {name:?}; there are {}", names.join("; "));
            return;
        };
        match value.parse() {
            Ok(value) => *(knob.of)(&mut figures) = value,
            Err(_) => return eprintln!("{name} is {value:?}; it must be a number"),
        }
    }
    if wants("fit") {
        if !wants("professional") {
            figures = fit(figures, &GOLFERS, |who| who != Who::Professional);
        }
        figures = fit(figures, &PROFESSIONAL, |who| who == Who::Professional);
    }
    let study = Study::new(figures, REPORT.0, REPORT.1);
    let found = rows(&study, all());
    let effort = format!(
        "{} rounds of each course, {} strokes from each place, at fixed seeds.",
        REPORT.0, REPORT.1
    );
    print!("{}", markdown(&found, &format!("{figures:#?}"), &effort));
}
