//! What one swing and one putt cost, without the noise that drives them.
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use wideberth::noise::{Noise, PlayNoise, Seed};
use wideberth::player::{ClubId, Lie, Player};
use wideberth::putting::putt;

/// A block of luck that fits the cache: the times are per block.
const BLOCK: u64 = 1024;

fn strokes(criterion: &mut Criterion) {
    let bag = Player::from_handicap(18.0).expect("a handicap").prepare();
    let luck: Vec<Noise> = (0..BLOCK)
        .map(|i| PlayNoise::new(Seed(1), i).stroke(0))
        .collect();
    let swing = bag.swing(ClubId(0), Lie::Tee);
    criterion.bench_function("1024 strikes", |b| {
        b.iter(|| {
            luck.iter()
                .map(|n| black_box(swing).strike(black_box(190.0), n).carry)
                .sum::<f64>()
        });
    });
    for feet in [4.0, 10.0, 30.0] {
        criterion.bench_function(&format!("1024 putts of {feet} ft"), |b| {
            b.iter(|| {
                let roll = |n| putt(black_box(bag.putting()), 10.0, black_box(feet / 3.0), n).past;
                luck.iter().map(roll).sum::<f64>()
            });
        });
    }
}

criterion_group!(benches, strokes);
criterion_main!(benches);
