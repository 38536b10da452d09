//! Probe.
use std::sync::Arc;
use std::time::Instant;
use wideberth::io::{geojson::Options, read_hole};
use wideberth::plan::Scene;
use wideberth::player::{Lie, Player};
use wideberth::solve::{Mapping, Solution, Solving, Task};
fn solve(scene: &Arc<Scene>, cell: f64, thorough: bool) -> Arc<Solution> {
    let t = Instant::now();
    let mut run = Solving::new(scene.clone(), Task { cell, thorough, ..Task::default() }).unwrap();
    while !run.is_finished() { run.advance(1); }
    let s = run.solution().unwrap();
    println!("cell {cell} thorough {thorough}: {:.4} in {:?}", s.from_the_tee(), t.elapsed());
    Arc::new(s)
}
fn map(s: &Arc<Solution>, lie: Lie) -> wideberth::solve::Map {
    let mut m = Mapping::new(s.clone(), lie, 8.0, None).unwrap();
    while !m.is_finished() { m.advance(1); }
    m.map().unwrap()
}
fn main() {
    let args: Vec<String> = std::env::args().collect();
    let hole = read_hole(std::path::Path::new(&args[1]), &Options::default()).expect("hole");
    let bag = Arc::new(Player::from_handicap(18.0).unwrap().prepare());
    let scene = Arc::new(Scene::new(Arc::new(hole), bag).unwrap());
    let a = solve(&scene, 2.0, false);
    let a4 = solve(&scene, 4.0, false);
    let b = if args.len() > 2 { Some(solve(&scene, 4.0, true)) } else { None };
    let file = "/tmp/sol-ref.json";
    let lies = [Lie::Fairway, Lie::Rough, Lie::FirstCut, Lie::Bunker, Lie::Trees];
    if let Some(b) = &b { let t: Vec<String> = lies.iter().flat_map(|&l| map(b, l).values).map(|v| v.to_string()).collect(); std::fs::write(file, t.join(" ")).unwrap(); }
    let all: Vec<f64> = std::fs::read_to_string(file).unwrap().split(' ').map(|v| v.parse().unwrap()).collect();
    let n = all.len() / lies.len();
    for (i, lie) in lies.into_iter().enumerate() {
        for (name, s) in [("2", &a), ("4", &a4)] {
        let m = map(s, lie); let (x, x0, y0, c) = (m.values, m.x[0], m.y[0], m.x.len());
        let y = &all[i * n..(i + 1) * n];
        
        let mut d = vec![]; let mut h = vec![]; let mut at = (0.0, 0.0, 0.0);
        for (k, (x, y)) in x.iter().zip(y).enumerate() { if x.is_nan() || y.is_nan() { continue; }
            let p = wideberth::geometry::Point::new(x0 + 8.0 * (k % c) as f64, y0 + 8.0 * (k / c) as f64);
            let held = Lie::on(scene.hole().surface_at(p)) == Some(lie);
            if held { d.push(x - y); if (x - y).abs() > at.0 { at = ((x - y).abs(), p.x, p.y); } } else { h.push(x - y); } }
        for (what, d) in [("held", &d), ("thought", &h)] {
        let mean = d.iter().sum::<f64>() / d.len() as f64;
        let sd = (d.iter().map(|d| d * d).sum::<f64>() / d.len() as f64).sqrt();
        let worst = d.iter().fold(0.0f64, |m, d| m.max(d.abs()));
        println!("cell {name} {lie:?} {what}: {} places, mean {mean:.4}, rms {sd:.4}, worst {worst:.4} {at:?}", d.len());
        }}
    }
}
