//! How long a flight, a bag of tables, a reading of one and a run take.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use wideberth::flight::{
    Aerodynamics, Air, FlightTable, Launch, LaunchConditions, Weather, fly, solve_speed,
};
use wideberth::geometry::Vector;
use wideberth::ground::{After, Ball, Slope, Turf, hop, roll, touch};
use wideberth::hole::{Firmness, Wind};

const BAG: [(&str, f64); 13] = [
    ("driver", 215.0),
    ("3-wood", 195.0),
    ("5-wood", 183.0),
    ("4-hybrid", 174.0),
    ("5-hybrid", 166.0),
    ("5-iron", 160.0),
    ("6-iron", 149.0),
    ("7-iron", 138.0),
    ("8-iron", 127.0),
    ("9-iron", 117.0),
    ("pitching wedge", 106.0),
    ("gap wedge", 90.0),
    ("sand wedge", 75.0),
];

fn usual(name: &str, carry: f64) -> LaunchConditions {
    LaunchConditions::usual(name, carry).expect("a usual club")
}

fn windy() -> Weather {
    Weather {
        wind: Wind::new(12.0, 250.0).expect("a breeze"),
        ..Weather::default()
    }
}

fn prepare(c: &mut Criterion) {
    let drive = Launch::straight(150.0, 12.0, 2800.0);
    let weather = windy();
    for (name, weather) in [("still", Weather::default()), ("windy", weather)] {
        c.bench_function(&format!("fly a drive, {name}"), |b| {
            b.iter(|| fly(black_box(&drive), &weather, 0.0));
        });
    }
    c.bench_function("solve the speeds of 13 clubs", |b| {
        b.iter(|| {
            BAG.map(|(name, carry)| {
                solve_speed(
                    carry,
                    usual(name, carry),
                    Air::default(),
                    Aerodynamics::SMOOTH,
                )
            })
        });
    });
    for (name, weather) in [("still", Weather::default()), ("windy", weather)] {
        c.bench_function(&format!("tables of 13 clubs, {name}"), |b| {
            b.iter(|| {
                BAG.map(|(name, carry)| FlightTable::new(usual(name, carry), carry, &weather))
            });
        });
    }
}

fn read(c: &mut Criterion) {
    let (name, carry) = BAG[0];
    let table = FlightTable::new(usual(name, carry), carry, &windy()).expect("a table");
    let aim = Vector::new(0.6, 0.8);
    c.bench_function("read a flight", |b| {
        b.iter(|| table.track(black_box(210.0), black_box(aim)));
    });
    let track = table.track(210.0, aim);
    c.bench_function("height along a flight", |b| {
        b.iter(|| table.height(&track, black_box(0.4)));
    });
    c.bench_function("landing below", |b| {
        b.iter(|| {
            let height = black_box(-5.0);
            (
                table.share_to(&track, height),
                table.landing(&track, height),
            )
        });
    });
}

fn run(c: &mut Criterion) {
    let turf = Turf::fairway(Firmness::MEDIUM);
    let drive = Ball::coming_down(63.0, 39.0, 2000.0).expect("a drive");
    let iron = Ball::coming_down(53.0, 47.0, 6000.0).expect("an iron");
    let tilted = Slope::rising(Vector::new(0.03, -0.02));
    for (name, ball, slope) in [
        ("drive, level", drive, Slope::LEVEL),
        ("drive, slope", drive, tilted),
        ("7-iron, level", iron, Slope::LEVEL),
        ("7-iron, slope", iron, tilted),
    ] {
        c.bench_function(&format!("run: {name}"), |b| {
            b.iter(|| follow(black_box(&ball), &slope, &turf));
        });
    }
}

/// A run as the simulation follows it, without a map.
fn follow(landing: &Ball, slope: &Slope, turf: &Turf) -> Vector {
    let mut at = Vector::zeros();
    let mut ball = *landing;
    loop {
        match touch(&ball, slope, turf) {
            After::Hop(leaving) => {
                let hop = hop(&leaving, slope);
                at += hop.moved;
                ball = hop.ball;
            }
            After::Roll(rolling) => return at + roll(&rolling, slope, turf, 200.0).moved,
        }
    }
}

criterion_group!(benches, prepare, read, run);
criterion_main!(benches);
