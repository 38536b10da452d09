//! What a putt on a slope costs beside one on the level, and what its preparation costs.
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use wideberth::geometry::Vector;
use wideberth::noise::{Noise, PlayNoise, Seed};
use wideberth::player::Player;
use wideberth::putting::{Breaks, Choice, Green, putt};

/// A block of luck that fits the cache: the times are per block.
const BLOCK: u64 = 1024;

fn putting(criterion: &mut Criterion) {
    let skill = Player::from_handicap(18.0).expect("a handicap").putting;
    let luck: Vec<Noise> = (0..BLOCK)
        .map(|i| PlayNoise::new(Seed(1), i).stroke(0))
        .collect();
    let breaks = Breaks::get();
    let mut block = |name: String, roll: &dyn Fn(&Noise) -> f64| {
        criterion.bench_function(&name, |b| b.iter(|| luck.iter().map(roll).sum::<f64>()));
    };
    for feet in [4.0, 10.0, 30.0] {
        block(format!("1024 level putts of {feet} ft"), &|n| {
            putt(black_box(&skill), 10.0, black_box(feet / 3.0), n).past
        });
        let green = Green {
            speed: 10.0,
            gradient: Vector::new(0.02, -0.01),
            hole_scale: 1.0,
        };
        let line = Vector::new(0.0, feet / 3.0);
        block(format!("1024 sloping putts of {feet} ft"), &|n| {
            breaks
                .putt_on(black_box(&skill), black_box(&green), black_box(line), n)
                .past
        });
    }
    criterion.bench_function("the line and pace of one putt", |b| {
        b.iter(|| Choice::new(black_box(10.0), (2.0, 1.0), 10.0, 1.0));
    });
}

criterion_group!(benches, putting);
criterion_main!(benches);
