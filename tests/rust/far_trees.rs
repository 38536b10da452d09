//! What lies far from the hole costs nothing.

use std::sync::Arc;
use wideberth::geometry::{Line, Point, Polygon};
use wideberth::hole::{Feature, Hole, HoleParts, Surface};
use wideberth::noise::{PlayNoise, Seed};
use wideberth::plan::{Direct, Scene, Strategy};
use wideberth::player::{Lie, Player};
use wideberth::shot::Next;
use wideberth::situation::Situation;

fn square(surface: Surface, (x, y): (f64, f64), half: f64) -> Feature {
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    let ring = corners
        .map(|(dx, dy)| Point::new(x + half * dx, y + half * dy))
        .to_vec();
    Feature {
        surface,
        outline: Polygon::from_points(vec![ring]).expect("a square"),
        name: None,
        canopy: None,
    }
}

/// A grove beside the fairway and one 70 miles off. Cells of both and of all that lies between them would take gigabytes.
#[test]
fn groves_far_apart_ask_for_no_more_memory_than_near_ones() {
    let pin = Point::new(0.0, 390.0);
    let parts = HoleParts {
        name: "groves".to_owned(),
        number: None,
        par: 4,
        stroke_index: None,
        tee: Point::origin(),
        pin,
        line: Line::new(vec![Point::origin(), pin]).expect("a line"),
        features: vec![
            square(Surface::Trees, (40.0, 200.0), 20.0),
            square(Surface::Trees, (90_000.0, 90_000.0), 50.0),
            square(Surface::Green, (0.0, 390.0), 15.0),
        ],
        green_speed: 10.0,
    };
    let hole = Hole::new(parts, Vec::new()).expect("a hole");
    let player = Player::from_handicap(18.0).expect("a handicap");
    let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
    let direct = Direct::new(&scene);
    // From under either the ball gets on: far off straight at the pin.
    for at in [Point::new(40.0, 200.0), Point::new(90_000.0, 90_000.0)] {
        let from = Situation {
            at,
            lie: Lie::Trees,
        };
        let shot = direct.choose(&scene, from, 0);
        let outcome = scene.resolve(from, &shot, &PlayNoise::new(Seed(1), 0).stroke(0));
        assert!(matches!(outcome.next, Next::Play(_) | Next::Relief(_)));
        assert!(outcome.rest.x.is_finite() && outcome.rest.y.is_finite());
    }
}
