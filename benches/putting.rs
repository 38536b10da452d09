//! What a putt costs where the slope is not told, on a plane and on a curved green, and what choosing a line costs.
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use wideberth::geometry::{Point, Vector};
use wideberth::noise::{Noise, PlayNoise, Seed};
use wideberth::player::Player;
use wideberth::putting::{Breaks, Choice, Green, stroke};

/// A block of luck that fits the cache: the times are per block.
const BLOCK: u64 = 1024;

fn putting(criterion: &mut Criterion) {
    let skill = Player::from_handicap(18.0).expect("a handicap").putting;
    let luck: Vec<Noise> = (0..BLOCK)
        .map(|i| PlayNoise::new(Seed(1), i).stroke(0))
        .collect();
    // Prepared before anything is measured.
    let _ = Breaks::get();
    let mut block = |name: String, roll: &dyn Fn(&Noise) -> f64| {
        criterion.bench_function(&name, |b| b.iter(|| luck.iter().map(roll).sum::<f64>()));
    };
    for feet in [4.0, 10.0, 30.0] {
        let hole = Point::new(0.0, feet / 3.0);
        let line = hole - Point::origin();
        let ordinary = Green::ordinary(10.0);
        block(format!("1024 putts of {feet} ft, slope not told"), &|n| {
            stroke(black_box(&skill), black_box(&ordinary), black_box(line), n).past
        });
        let tilted = Green::plane(10.0, Vector::new(0.02, -0.01));
        block(format!("1024 putts of {feet} ft on a plane"), &|n| {
            stroke(black_box(&skill), black_box(&tilted), black_box(line), n).past
        });
        let waves = |p: Point| Vector::new(0.02 - 0.001 * p.y, 0.001 * p.x - 0.01);
        block(format!("1024 putts of {feet} ft on a curve"), &|n| {
            let green = Green::over(10.0, Point::origin(), black_box(hole), waves);
            stroke(black_box(&skill), &green, black_box(line), n).past
        });
    }
    criterion.bench_function("the line and pace of one putt", |b| {
        b.iter(|| Choice::new(black_box(10.0), (2.0, 1.0), 10.0, 1.0));
    });
}

criterion_group!(benches, putting);
criterion_main!(benches);
