//! Probe.
use std::sync::Arc;
use std::time::Instant;
use wideberth::io::{geojson::Options, read_hole};
use wideberth::noise::{PlayNoise, Seed};
use wideberth::plan::Scene;
use wideberth::player::{Lie, Player};
use wideberth::situation::Situation;
use wideberth::shot::Next;
fn main() {
    let args: Vec<String> = std::env::args().collect();
    let hole = read_hole(std::path::Path::new(&args[1]), &Options::default()).expect("hole");
    let bag = Arc::new(Player::from_handicap(18.0).unwrap().prepare());
    let scene = Scene::new(Arc::new(hole), bag).unwrap();
    let hole = scene.hole();
    let luck: Vec<_> = (0..20000).map(|p| PlayNoise::new(Seed(1), p).stroke(0)).collect();
    for along in [0.0, 100.0, 200.0, 300.0, 350.0, 400.0, 430.0, 460.0] {
        for right in [-40.0, 0.0, 40.0] {
        let at = hole.line().at(along, right);
        let Some(lie) = Lie::on(hole.surface_at(at)) else { continue };
        let from = Situation { at, lie };
        let shot = scene.shot_at(from, hole.pin());
        let t = Instant::now();
        let mut relief = 0; let mut mis = 0;
        let mut x = 0.0;
        for n in &luck { let o = scene.resolve(from, &shot, n); x += o.rest.x; if let Next::Relief(_) = o.next { relief += 1; } if o.events.has(wideberth::shot::Events::MISHIT) {mis+=1;} }
        let a = t.elapsed().as_nanos() as f64 / 20000.0;
        let t = Instant::now();
        let mut k = 0;
        for n in &luck { let o = scene.resolve(from, &shot, n); if let Next::Relief(r) = o.next { k += r.options(hole).as_slice().len(); } }
        let b = t.elapsed().as_nanos() as f64 / 20000.0;
        println!("{along} {right} {lie:?} {:?} {a:.0} ns, with relief {b:.0} ns, share {:.3} mis {:.3} {x:.0} {k}", shot.stroke, relief as f64 / 20000.0, mis as f64/20000.0);
        }
    }
}
