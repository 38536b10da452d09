//! What wind, slopes and trees add to the cost of preparing a player and of a stroke.

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use std::sync::Arc;
use wideberth::geometry::{Line, Point, Polygon};
use wideberth::hole::{Conditions, Contours, Feature, Hole, HoleParts, Surface, Wind};
use wideberth::noise::{Noise, PlayNoise, Seed};
use wideberth::plan::Scene;
use wideberth::player::{Lie, Player};
use wideberth::setting::Setting;
use wideberth::situation::Situation;

/// Strokes' luck prepared beforehand; a power of two.
const PREPARED: usize = 1 << 12;

fn rectangle(surface: Surface, x: (f64, f64), y: (f64, f64)) -> Feature {
    let corners = [(x.0, y.0), (x.1, y.0), (x.1, y.1), (x.0, y.1)];
    let ring = corners.map(|(x, y)| Point::new(x, y)).to_vec();
    Feature {
        surface,
        outline: Polygon::from_points(vec![ring]).expect("a polygon"),
        name: None,
        canopy: None,
    }
}

/// A straight hole of 390 yards, with woods on both sides of the fairway if asked for.
fn hole(trees: bool) -> Hole {
    let mut features = Vec::new();
    if trees {
        features.push(rectangle(Surface::Trees, (-60.0, -24.0), (60.0, 360.0)));
        features.push(rectangle(Surface::Trees, (24.0, 60.0), (60.0, 360.0)));
    }
    features.push(rectangle(Surface::Fairway, (-17.0, 17.0), (90.0, 370.0)));
    features.push(rectangle(Surface::Green, (-15.0, 15.0), (375.0, 405.0)));
    let pin = Point::new(0.0, 390.0);
    let parts = HoleParts {
        name: "bench".to_owned(),
        number: None,
        par: 4,
        stroke_index: None,
        tee: Point::origin(),
        pin,
        line: Line::new(vec![Point::origin(), pin]).expect("a line"),
        features,
        green_speed: 10.0,
    };
    Hole::new(parts, Vec::new()).expect("a hole")
}

fn windy(hole: &Hole) -> Hole {
    let day = Conditions {
        wind: Wind::new(12.0, 60.0).expect("a wind"),
        ..Conditions::default()
    };
    hole.under(day).expect("a day")
}

fn sloping(hole: &Hole) -> Hole {
    let ground = Contours {
        uphill_ft: 25.0,
        fairway_tilt_percent: 3.0,
        green_tilt_percent: Some((1.0, 2.0)),
        ..Contours::default()
    };
    hole.with_contours(&ground).expect("slopes")
}

fn scene(hole: Hole) -> Scene {
    let player = Player::from_handicap(15.0).expect("a handicap");
    Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene")
}

/// Every flight, turf and distance of thirteen clubs and four touches.
fn prepare(c: &mut Criterion) {
    let bag = Arc::new(Player::from_handicap(15.0).expect("a handicap").prepare());
    for (name, hole) in [("still", hole(false)), ("windy", windy(&hole(false)))] {
        let hole = Arc::new(hole);
        c.bench_function(&format!("prepare a bag, {name}"), |b| {
            b.iter(|| Setting::new(hole.clone(), bag.clone()).expect("a setting"));
        });
    }
}

fn days() -> [(&'static str, Scene); 5] {
    [
        ("still and flat", scene(hole(false))),
        ("wind", scene(windy(&hole(false)))),
        ("trees", scene(hole(true))),
        ("slopes", scene(sloping(&hole(false)))),
        (
            "wind, slopes and trees",
            scene(windy(&sloping(&hole(true)))),
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
