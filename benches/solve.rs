//! What a solution costs, and how that grows as the places come closer together.

use std::path::Path;
use std::sync::Arc;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use wideberth::Run;
use wideberth::io::{geojson::Options, read_hole};
use wideberth::plan::Scene;
use wideberth::player::{Lie, Player};
use wideberth::situation::Situation;
use wideberth::solve::{Fronting, Objective, Solution, Solving, Task};

/// The par 5 of 500 yards that comes with the library, and a player of 18 with thirteen clubs.
fn scene() -> Arc<Scene> {
    let file = "../python/wideberth/data/alder-bend.geojson";
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(file);
    let hole = read_hole(&path, &Options::default()).expect("a map of the library");
    let player = Player::from_handicap(18.0).expect("a handicap in range");
    Arc::new(Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene"))
}

fn solve(scene: &Arc<Scene>, cell: f64, objective: Objective) -> Solution {
    let task = Task {
        objective,
        cell,
        ..Task::default()
    };
    let mut run = Solving::new(scene.clone(), task).expect("a sensible task");
    let mut bytes = 0;
    while !run.is_finished() {
        run.advance(1);
        bytes = bytes.max(run.bytes());
    }
    assert!(bytes < 100 << 20, "{bytes} bytes");
    run.solution().expect("a solution")
}

fn cells(c: &mut Criterion) {
    let scene = scene();
    let mut group = c.benchmark_group("solve");
    group.sample_size(10);
    for cell in [4.0, 2.0, 1.0] {
        let id = BenchmarkId::new("fewest strokes, yards", cell);
        group.bench_function(id, |b| {
            b.iter(|| solve(&scene, cell, Objective::Fewest));
        });
    }
    group.bench_function("six or better, 4 yards", |b| {
        b.iter(|| solve(&scene, 4.0, Objective::AtMost(6)));
    });
    group.bench_function("frontier, 4 yards", |b| {
        b.iter(|| {
            let mut run = Fronting::new(scene.clone(), 3, 4.0).expect("a question");
            while !run.is_finished() {
                run.advance(1);
            }
            run.points()
        });
    });
    group.finish();
}

fn answers(c: &mut Criterion) {
    let scene = scene();
    let best = solve(&scene, 4.0, Objective::Fewest);
    let hole = scene.hole();
    let from = Situation {
        at: hole.line().at(250.0, 0.0),
        lie: Lie::Fairway,
    };
    c.bench_function("advice from a place", |b| {
        b.iter(|| best.advice(from, None).expect("advice"));
    });
}

criterion_group!(benches, cells, answers);
criterion_main!(benches);
