//! How long the index takes on a map about the size of a golf hole, and on one ten times as detailed.

use std::hint::black_box;
use std::ops::ControlFlow;

use criterion::{Criterion, criterion_group, criterion_main};
use rand::{Rng, RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use wideberth::geometry::{LayerIndex, Point, Polygon, Vector};

const WIDTH: f64 = 500.0;
const HEIGHT: f64 = 600.0;
const QUESTIONS: usize = 1 << 14;

/// A wavy oval: its detail is in the waves, so that more vertices follow the same outline.
fn oval(centre: Point, rx: f64, ry: f64, vertices: usize) -> Polygon {
    let step = std::f64::consts::TAU / vertices as f64;
    let place = |i: usize| {
        let t = i as f64 * step;
        let r = 1.0 + 0.12 * (3.0 * t).cos() + 0.05 * (7.0 * t).sin();
        centre + Vector::new(rx * r * t.cos(), ry * r * t.sin())
    };
    Polygon::from_points(vec![(0..vertices).map(place).collect()]).expect("a wavy oval is simple")
}

/// Ground of 500 by 600 with a long strip, a pond, a green with its collar and eleven small ovals.
fn map(vertices: usize) -> LayerIndex {
    let at = Point::new;
    let mut layers = vec![
        oval(at(250.0, 300.0), 215.0, 260.0, vertices),
        oval(at(250.0, 300.0), 30.0, 180.0, vertices),
        oval(at(330.0, 380.0), 35.0, 60.0, vertices),
        oval(at(250.0, 510.0), 22.0, 20.0, vertices),
        oval(at(250.0, 510.0), 16.0, 15.0, vertices),
    ];
    layers.extend((0..10).map(|i| {
        let i = f64::from(i);
        oval(
            at(205.0 + 90.0 * (i % 2.0), 90.0 + 44.0 * i),
            7.0,
            9.0,
            vertices,
        )
    }));
    LayerIndex::new(&layers)
}

fn points(random: &mut impl Rng) -> Vec<Point> {
    (0..QUESTIONS)
        .map(|_| {
            Point::new(
                random.random_range(0.0..WIDTH),
                random.random_range(0.0..HEIGHT),
            )
        })
        .collect()
}

fn top(c: &mut Criterion) {
    let asked = points(&mut Pcg64Mcg::seed_from_u64(1));
    for vertices in [30, 300] {
        let index = map(vertices);
        c.bench_function(&format!("top, 15 polygons of {vertices}"), |b| {
            let mut i = 0;
            b.iter(|| {
                i = (i + 1) % QUESTIONS;
                index.top(black_box(asked[i]))
            });
        });
    }
}

fn walk(c: &mut Criterion) {
    let mut random = Pcg64Mcg::seed_from_u64(2);
    let starts = points(&mut random);
    for yards in [15.0, 250.0] {
        let turn = |p: &Point| {
            let t: f64 = random.random_range(0.0..std::f64::consts::TAU);
            (*p, p + yards * Vector::new(t.cos(), t.sin()))
        };
        let paths: Vec<_> = starts.iter().map(turn).collect();
        for vertices in [30, 300] {
            let index = map(vertices);
            c.bench_function(
                &format!("walk of {yards} yards, 15 polygons of {vertices}"),
                |b| {
                    let mut i = 0;
                    b.iter(|| {
                        i = (i + 1) % QUESTIONS;
                        let (from, to) = paths[i];
                        let mut pieces = 0;
                        let _ = index.walk(black_box(from), black_box(to), |piece| {
                            black_box(piece);
                            pieces += 1;
                            ControlFlow::<()>::Continue(())
                        });
                        pieces
                    });
                },
            );
        }
    }
}

fn prepare(c: &mut Criterion) {
    for vertices in [30, 300] {
        c.bench_function(&format!("prepare, 15 polygons of {vertices}"), |b| {
            b.iter(|| map(vertices))
        });
    }
}

criterion_group!(benches, top, walk, prepare);
criterion_main!(benches);
