//! How long a question about the height and the slope of the ground takes, and preparing the ground.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use wideberth::geometry::{Point, Vector};
use wideberth::hole::{Contours, Hole, Sketch, TwoTier};

const QUESTIONS: usize = 1 << 14;

fn hilly() -> Contours {
    Contours {
        uphill_ft: 25.0,
        fairway_tilt_percent: 4.0,
        green_tilt_percent: Some((1.0, 2.0)),
        two_tier_green: Some(TwoTier {
            step_ft: 2.0,
            ramp: 4.0,
            back: 3.0,
        }),
        survey_ft: None,
    }
}

fn sketched(contours: Contours) -> Hole {
    Hole::sketch(&Sketch {
        contours,
        ..Sketch::new(4, 400.0)
    })
    .expect("a valid sketch")
}

/// Places within `spread` yards of `middle`.
fn near(middle: Point, spread: f64) -> Vec<Point> {
    let mut random = Pcg64Mcg::seed_from_u64(1);
    let mut place = || {
        let (x, y) = (random.random::<f64>() - 0.5, random.random::<f64>() - 0.5);
        middle + Vector::new(x, y) * (2.0 * spread)
    };
    (0..QUESTIONS).map(|_| place()).collect()
}

/// One question in turn; the reported time is for [`QUESTIONS`] of them.
fn questions(c: &mut Criterion) {
    for (ground, hole) in [
        ("flat", sketched(Contours::default())),
        ("hilly", sketched(hilly())),
    ] {
        let mut group = c.benchmark_group(ground);
        group.throughput(criterion::Throughput::Elements(QUESTIONS as u64));
        let terrain = hole.terrain();
        for (name, places) in [
            ("green", near(hole.pin(), 12.0)),
            ("hole", near(Point::new(0.0, 200.0), 200.0)),
        ] {
            group.bench_function(format!("height, {name}"), |b| {
                b.iter(|| {
                    places
                        .iter()
                        .map(|&p| terrain.height(black_box(p)))
                        .sum::<f64>()
                });
            });
            group.bench_function(format!("slope, {name}"), |b| {
                b.iter(|| {
                    places
                        .iter()
                        .map(|&p| terrain.slope(black_box(p)))
                        .sum::<Vector>()
                });
            });
        }
        group.finish();
    }
}

fn prepare(c: &mut Criterion) {
    let flat = sketched(Contours::default());
    let contours = hilly();
    c.bench_function("prepare a hilly hole", |b| {
        b.iter(|| flat.with_contours(black_box(&contours)));
    });
}

criterion_group!(benches, questions, prepare);
criterion_main!(benches);
