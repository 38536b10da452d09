//! What a play is made of and what it costs: a look at the map, the luck of a stroke, a stroke, a play, a comparison.

use std::hint::black_box;
use std::path::Path;
use std::sync::Arc;
use std::time::Instant;

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use rayon::ThreadPoolBuilder;
use wideberth::Run;
use wideberth::geometry::{Point, Vector};
use wideberth::hole::Hole;
use wideberth::io::{geojson::Options, read_hole};
use wideberth::noise::{Noise, PlayNoise, Seed};
use wideberth::plan::{Aim, Direct, Instruction, Plan, Scene, Steady, Then};
use wideberth::player::{Lie, Player};
use wideberth::rank::{Comparison, Length, MOST_PLAYS, Question};
use wideberth::situation::Situation;

/// The maps that come with the library: a dogleg with woods and a pond, and a hole cut by a burn.
const MAPS: [&str; 2] = ["alder-bend", "plover-neck"];
/// Questions and strokes' luck prepared beforehand, so that none is timed; a power of two.
const PREPARED: usize = 1 << 12;

fn hole(map: &str) -> Arc<Hole> {
    let file = format!("../python/wideberth/data/{map}.geojson");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(file);
    Arc::new(read_hole(&path, &Options::default()).expect("a map of the library"))
}

fn scene(map: &str) -> Scene {
    let player = Player::from_handicap(15.0).expect("a handicap in range");
    Scene::new(hole(map), Arc::new(player.prepare())).expect("a scene")
}

fn luck() -> Vec<Noise> {
    (0..PREPARED as u64)
        .map(|play| PlayNoise::new(Seed(1), play).stroke(0))
        .collect()
}

fn plan(name: &str, instructions: Vec<Instruction>, then: Then) -> Plan {
    Plan::new(name, instructions, then).expect("a sensible plan")
}

/// Surfaces at places strewn over the hole: along all of its line of play and 60 yards to either side.
fn surface(c: &mut Criterion) {
    for map in MAPS {
        let hole = hole(map);
        let mut random = Pcg64Mcg::seed_from_u64(1);
        let places: Vec<Point> = (0..PREPARED)
            .map(|_| {
                let along = random.random_range(0.0..hole.length());
                hole.line().at(along, random.random_range(-60.0..60.0))
            })
            .collect();
        let mut i = 0;
        c.bench_function(&format!("surface, {map}"), |b| {
            b.iter(|| {
                i = (i + 1) % PREPARED;
                hole.surface_at(black_box(places[i]))
            });
        });
    }
}

fn noise(c: &mut Criterion) {
    let mut play = 0;
    c.bench_function("noise of a stroke", |b| {
        b.iter(|| {
            play += 1;
            PlayNoise::new(Seed(1), black_box(play)).stroke(0)
        });
    });
}

/// One stroke with its luck given: the tee shot down the line of play, and a putt of 20 feet.
fn stroke(c: &mut Criterion) {
    let scene = scene("alder-bend");
    let hole = scene.hole();
    let tee = Situation::on_the_tee(hole);
    let drive = scene.shot_at(
        tee,
        hole.line().at(
            scene.reach.farthest(Lie::Tee, hole.line().direction(0.0)),
            0.0,
        ),
    );
    let green = Situation {
        at: hole.pin() + Vector::new(0.0, -20.0 / 3.0),
        lie: Lie::Green,
    };
    let putt = scene.shot_at(green, hole.pin());
    let luck = luck();
    for (name, from, shot) in [("tee shot", tee, drive), ("putt", green, putt)] {
        let mut i = 0;
        c.bench_function(&format!("stroke, {name}"), |b| {
            b.iter(|| {
                i = (i + 1) % PREPARED;
                scene.resolve(black_box(from), &shot, &luck[i])
            });
        });
    }
}

/// One more play of a comparison under way, on one thread, the noise and the counting included.
fn one_play(c: &mut Criterion) {
    let pool = ThreadPoolBuilder::new()
        .num_threads(1)
        .build()
        .expect("one thread");
    for map in MAPS {
        let scene = scene(map);
        for then in [Then::Direct, Then::Steady] {
            let name = format!("play, {map}, {then:?}");
            let plans = [plan(&name, Vec::new(), then)];
            let question = Question {
                length: Length::Plays(MOST_PLAYS),
                ..Question::new(Seed(1))
            };
            let mut comparison =
                Comparison::new(scene.clone(), &plans, question).expect("a sensible question");
            c.bench_function(&name, |b| {
                b.iter_custom(|plays| {
                    let start = Instant::now();
                    pool.install(|| comparison.advance(plays));
                    start.elapsed()
                });
            });
        }
    }
}

/// Twelve plans, 2,000 plays each, from a ready scene on every core.
fn comparison(c: &mut Criterion) {
    let scene = scene("alder-bend");
    let plans = twelve_plans();
    let question = Question {
        length: Length::Plays(2_000),
        ..Question::new(Seed(1))
    };
    let mut group = c.benchmark_group("comparison");
    group.sample_size(20);
    group.bench_function("12 plans, 2,000 plays each", |b| {
        b.iter_batched(
            || {
                Comparison::new(scene.clone(), &plans, question.clone())
                    .expect("a sensible question")
            },
            |mut comparison| {
                comparison.advance(2_000);
                comparison
            },
            BatchSize::PerIteration,
        );
    });
    group.finish();
}

/// Four clubs off the tee, and three ways to go on from there.
fn twelve_plans() -> Vec<Plan> {
    let ways = [
        ("direct", None, Then::Direct),
        ("steady", None, Then::Steady),
        (
            "lay up",
            Some(Instruction::Leave { yards: 100.0 }),
            Then::Steady,
        ),
    ];
    let mut plans = Vec::new();
    for (club, along) in [
        ("driver", 215.0),
        ("3-wood", 205.0),
        ("4-hybrid", 180.0),
        ("6-iron", 150.0),
    ] {
        for (way, next, then) in &ways {
            let tee_shot = Instruction::Shot {
                club: club.to_owned(),
                aim: Aim::Along { along, right: 0.0 },
                carry: None,
            };
            let instructions = std::iter::once(tee_shot).chain(next.clone()).collect();
            plans.push(plan(&format!("{club}, {way}"), instructions, then.clone()));
        }
    }
    plans
}

/// What happens once before the first play.
fn prepare(c: &mut Criterion) {
    let scene = scene("alder-bend");
    let (hole, bag) = (
        Arc::new(scene.hole().clone()),
        Arc::new(scene.bag().clone()),
    );
    let mut group = c.benchmark_group("prepare");
    group.sample_size(20);
    group.bench_function("scene", |b| {
        b.iter(|| Scene::new(hole.clone(), bag.clone()).expect("a scene"));
    });
    group.bench_function("direct", |b| b.iter(|| Direct::new(&scene)));
    group.bench_function("steady", |b| b.iter(|| Steady::new(&scene)));
    group.finish();
}

criterion_group!(
    benches, surface, noise, stroke, one_play, comparison, prepare
);
criterion_main!(benches);
