#[path = "../../tests/rust/common/calibration/mod.rs"]
mod calibration;
use calibration::*;
use std::sync::Arc;
use wideberth::geometry::Point;
use wideberth::hole::{Hole, Hazard, Sketch};
use wideberth::noise::Seed;
use wideberth::plan::{Plan, Scene, Then, Strategy};
use wideberth::player::{LevelFigures, Lie};
use wideberth::rank::{Length, Question, record};
use wideberth::situation::Situation;
fn main() {
    for who in [Who::Professional, Who::Man(0.0), Who::Man(17.0)] {
        let player = who.player(&LevelFigures::FITTED).unwrap();
        let hole = holes::level(5, 620.0, Some(35.0), 10.0);
        let t = std::time::Instant::now();
        let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).unwrap();
        println!("{} scene {:?}", who.name(), t.elapsed());
        for lie in [Lie::Fairway, Lie::Rough, Lie::DeepRough, Lie::Bunker, Lie::Trees] {
            print!("{:?}: ", lie);
            for d in [10.0, 20.0, 40.0, 60.0, 80.0, 100.0, 150.0, 200.0, 240.0, 300.0, 400.0, 500.0] {
                let s = Situation { at: Point::new(0.0, 620.0 - d), lie };
                print!("{d}: {:.2} ", scene.reckon(s));
            }
            println!();
        }
        // Woods: a strip 20 yards wide beside the fairway.
        for then in [Then::Direct, Then::Steady] {
            print!("strip {:?}: ", then);
            let mut sketch = Sketch::new(4, 420.0);
            let mut along = 60.0;
            while along < 400.0 { sketch.trees.push(Hazard::new(along, 34.0).sized(95.0, 20.0)); along += 95.0; }
            for (x, d) in [(26.0, 160.0), (30.0, 160.0), (34.0, 160.0), (38.0, 160.0), (42.0, 160.0), (50.0, 160.0), (34.0, 100.0), (34.0, 220.0)] {
                let hole = Hole::sketch(&sketch).unwrap();
                let at = Point::new(x, 420.0 - d);
                let surface = hole.surface_at(at);
                let lie = Lie::on(surface).unwrap();
                let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).unwrap();
                let plan = Plan::new("x", vec![], then.clone()).unwrap();
                let mut q = Question::new(Seed(4));
                q.length = Length::Plays(3000);
                let mut r = record(scene, &plan, &q).unwrap().starting_at(Situation { at, lie });
                r.advance(3000);
                let m = mean(&r.plays().iter().map(|p| f64::from(p.score)).collect::<Vec<_>>());
                print!("({x},{d},{:?}) {m:.2} ", lie);
            }
            println!();
        }
    }
}
