//! Probe.
use std::sync::Arc;
use std::time::Instant;
use wideberth::io::{geojson::Options, read_hole};
use wideberth::noise::Seed;
use wideberth::plan::{Plan, Scene, Then, suggest_plans};
use wideberth::player::Player;
use wideberth::rank::{Comparison, Length, Question};
use wideberth::solve::{Solving, Task};
fn main() {
    let args: Vec<String> = std::env::args().collect();
    let hole = read_hole(std::path::Path::new(&args[1]), &Options::default()).expect("hole");
    let cell: f64 = args[2].parse().unwrap();
    let hcp: f64 = args[3].parse().unwrap();
    let plays: u64 = args[4].parse().unwrap();
    let bag = Arc::new(Player::from_handicap(hcp).unwrap().prepare());
    let scene = Scene::new(Arc::new(hole), bag).unwrap();
    let t = Instant::now();
    let mut run = Solving::new(Arc::new(scene.clone()), Task { cell, objective: match args.get(5).map(|s| s.parse::<u8>().unwrap()) { None => wideberth::solve::Objective::Fewest, Some(k) => wideberth::solve::Objective::AtMost(k) }, thorough: args.get(6).is_some() }).unwrap();
    println!("laid {:?}", t.elapsed());
    let mut most=0; while !run.is_finished() { run.advance(1); most=most.max(run.bytes()); }
    let took = t.elapsed();
    let solution = Arc::new(run.solution().unwrap());
    println!("solved in {took:?}: {:.4}, {} places, {:.1} MB", solution.from_the_tee(), solution.places(), most as f64/1e6);
    let t=Instant::now(); println!("{:?} {:?}", solution.distribution().iter().map(|p| (p*1e4).round()/1e4).collect::<Vec<_>>(), t.elapsed());
    let tee = wideberth::situation::Situation::on_the_tee(scene.hole());
    let t=Instant::now(); println!("{:#?} {:?}", solution.advice(tee, None).unwrap(), t.elapsed());
    for along in [150.0, 300.0, 400.0] { for lie in [wideberth::player::Lie::Fairway, wideberth::player::Lie::Rough] { let t=Instant::now(); let s = wideberth::situation::Situation{at: scene.hole().line().at(along, 0.0), lie}; let a = solution.advice(s, None).unwrap(); println!("{along} {lie:?}: {} {:.3}, then {:?} {:?} {:?}", a.words, a.strokes, a.runner_up, a.mistakes, t.elapsed()); } }
    if plays == 0 { return; }
    if plays == 1 { let t=Instant::now(); let mut f = wideberth::solve::Fronting::new(Arc::new(scene.clone()), 3, 4.0).unwrap(); while !f.is_finished() { f.advance(1); } for p in f.points() { println!("{} {:.4} {:.4}", p.price, p.mean, p.blow_up); } println!("{:?}", t.elapsed()); return; }
    if plays == 2 { for (name, s) in [("steady", Arc::new(wideberth::plan::Steady::new(&scene)) as Arc<dyn wideberth::plan::Strategy>), ("direct", Arc::new(wideberth::plan::Direct::new(&scene)))] { let t=Instant::now(); let mut v = Solving::valuing(Arc::new(scene.clone()), s.clone(), cell).unwrap(); while !v.is_finished() { v.advance(1); } let v = v.solution().unwrap(); println!("{name} {:.4} {:?}", v.from_the_tee(), t.elapsed()); println!("{:?}", v.distribution().iter().map(|p| (p*1e4).round()/1e4).collect::<Vec<_>>());
      let mut q = Question::new(Seed(9)); q.length = Length::Plays(40000); let mut c = Comparison::new(scene.clone(), &[Plan::new(name, vec![], Then::Custom(s)).unwrap()], q).unwrap(); while !c.is_finished() { c.advance(2000); } println!("{:?} {:?}", c.ranking().mean(0), c.ranking().distribution(0).collect::<Vec<_>>()); } return; }
    let mut plans = vec![Plan::new("solved", vec![], Then::Custom(solution)).unwrap()];
    plans.extend(suggest_plans(&scene));
    let mut q = Question::new(Seed(9));
    q.length = Length::Plays(plays);
    let mut c = Comparison::new(scene, &plans, q).unwrap();
    while !c.is_finished() { c.advance(2000); }
    let r = c.ranking();
    for &i in r.order().iter().take(5) { println!("{:40} {:.4} +- {:.4} blow {:.3}", r.name(i), r.mean(i).mean, r.mean(i).standard_error, r.blow_up(i).mean); }
    let d: Vec<_> = r.distribution(r.index_of("solved").unwrap()).collect(); println!("{d:?}");
}
