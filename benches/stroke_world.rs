//! What wind, slopes and trees add to the cost of preparing a player and of a stroke.

mod straight_hole;

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use std::sync::Arc;
use straight_hole::{sloping, straight, windy};
use wideberth::geometry::Point;
use wideberth::hole::Hole;
use wideberth::noise::{Noise, PlayNoise, Seed};
use wideberth::plan::Scene;
use wideberth::player::{Lie, Player};
use wideberth::setting::Setting;
use wideberth::situation::Situation;

/// Strokes' luck prepared beforehand; a power of two.
const PREPARED: usize = 1 << 12;

fn scene(hole: Hole) -> Scene {
    let player = Player::from_handicap(15.0).expect("a handicap");
    Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene")
}

/// Every flight, turf and distance of thirteen clubs and four touches.
fn prepare(c: &mut Criterion) {
    let bag = Arc::new(Player::from_handicap(15.0).expect("a handicap").prepare());
    for (name, hole) in [
        ("still", straight(false)),
        ("windy", windy(&straight(false))),
    ] {
        let hole = Arc::new(hole);
        c.bench_function(&format!("prepare a bag, {name}"), |b| {
            b.iter(|| Setting::new(hole.clone(), bag.clone()).expect("a setting"));
        });
    }
}

fn days() -> [(&'static str, Scene); 5] {
    [
        ("still and flat", scene(straight(false))),
        ("wind", scene(windy(&straight(false)))),
        ("trees", scene(straight(true))),
        ("slopes", scene(sloping(&straight(false)))),
        (
            "wind, slopes and trees",
            scene(windy(&sloping(&straight(true)))),
        ),
    ]
}

fn stroke(c: &mut Criterion) {
    let luck: Vec<Noise> = (0..PREPARED as u64)
        .map(|play| PlayNoise::new(Seed(1), play).stroke(0))
        .collect();
    for (name, scene) in days() {
        let tee = Situation::on_the_tee(scene.hole());
        let fairway = Situation {
            at: Point::new(3.0, 240.0),
            lie: Lie::Fairway,
        };
        let drive = scene.shot_at(tee, Point::new(0.0, 205.0));
        let approach = scene.shot_at(fairway, scene.hole().pin());
        for (what, from, shot) in [("tee shot", tee, drive), ("approach", fairway, approach)] {
            let mut i = 0;
            c.bench_function(&format!("{what}, {name}"), |b| {
                b.iter(|| {
                    i = (i + 1) % PREPARED;
                    scene.resolve(black_box(from), &shot, &luck[i])
                });
            });
        }
        c.bench_function(&format!("choose an approach, {name}"), |b| {
            b.iter(|| scene.shot_at(black_box(fairway), scene.hole().pin()));
        });
    }
}

criterion_group!(benches, prepare, stroke);
criterion_main!(benches);
