//! How long a fit takes: one club with few shots, and a full bag with 500.
#![expect(clippy::unwrap_used, reason = "a bench fails by panicking")]

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use wideberth::fit::{Evidence, Fit, Shot};
use wideberth::noise::{PlayNoise, Seed};
use wideberth::player::{Lie, Player};

/// `count` shots of a longer player of the level, club after club.
fn shots(player: &Player, count: u32, clubs: usize) -> Evidence {
    let bag = player.prepare();
    let names: Vec<_> = bag.clubs().take(clubs).collect();
    let shot = |i: u32| {
        let club = names[i as usize % names.len()];
        let swing = bag.swing(club, Lie::Tee);
        let strike = swing.strike(
            swing.full_carry,
            &PlayNoise::new(Seed(5), u64::from(i)).stroke(0),
        );
        Shot {
            lie: Some(Lie::Tee),
            ..Shot::new(bag.name(club), 1.05 * strike.carry, strike.lateral + 3.0)
        }
    };
    Evidence {
        shots: (0..count).map(shot).collect(),
        ..Evidence::default()
    }
}

fn fit(c: &mut Criterion) {
    let prior = Player::from_handicap(18.0).unwrap();
    let mut group = c.benchmark_group("fit");
    group.sample_size(10);
    for (name, count, clubs) in [
        ("5 shots, 1 club", 5, 1),
        ("60 shots, 1 club", 60, 1),
        ("500 shots, 13 clubs", 500, 13),
        ("5000 shots, 13 clubs", 5000, 13),
    ] {
        let evidence = shots(&prior, count, clubs);
        group.bench_function(name, |b| {
            b.iter(|| Fit::to_shots(black_box(&prior), black_box(&evidence)).unwrap());
        });
    }
    let fitted = Fit::to_shots(&prior, &shots(&prior, 500, 13)).unwrap();
    group.bench_function("40 draws", |b| {
        b.iter(|| fitted.draws(40, black_box(Seed(1))).unwrap());
    });
    group.bench_function("by level", |b| {
        b.iter(|| Fit::by_level(black_box(&prior)).unwrap());
    });
    group.finish();
}

criterion_group!(benches, fit);
criterion_main!(benches);
