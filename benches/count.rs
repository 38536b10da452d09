//! Plays a hole, prepares a player on it or solves it, so many times: what `benches/instructions.py` counts the instructions of.
//!
//! `cargo run --release --bin count -- alder-bend 1000`, or `-- "prepare still" 2`.

mod straight_hole;

use std::path::Path;
use std::sync::Arc;
use straight_hole::{sloping, straight, windy};
use wideberth::Run;
use wideberth::io::{geojson::Options, read_hole};
use wideberth::noise::Seed;
use wideberth::plan::{Plan, Scene, Then};
use wideberth::player::Player;
use wideberth::rank::{Comparison, Length, Question};
use wideberth::solve::{Solving, Task};

type Any = Box<dyn std::error::Error>;

fn main() -> Result<(), Any> {
    // On the main thread alone, so that every run executes the same instructions.
    rayon::ThreadPoolBuilder::new()
        .num_threads(1)
        .use_current_thread()
        .build_global()?;
    let told: Vec<String> = std::env::args().skip(1).collect();
    let [what, count] = &told[..] else {
        return Err("told must be what to count, and how many".into());
    };
    let count: u64 = count.parse()?;
    match what.split_once(' ') {
        Some(("prepare", what)) => (0..count).try_for_each(|_| scene(what).map(drop)),
        Some(("solve", what)) => (0..count).try_for_each(|_| solve(what)),
        _ => play(what, count),
    }
}

fn solve(what: &str) -> Result<(), Any> {
    let task = Task {
        cell: 10.0,
        ..Task::default()
    };
    Solving::new(Arc::new(scene(what)?), task)?.finish();
    Ok(())
}

fn play(what: &str, plays: u64) -> Result<(), Any> {
    let (what, then) = match what.strip_suffix(" steady") {
        Some(what) => (what, Then::Steady),
        None => (what, Then::Direct),
    };
    let plan = Plan::new("plan", Vec::new(), then)?;
    let question = Question {
        length: Length::Plays(plays),
        ..Question::new(Seed(1))
    };
    let mut comparison = Comparison::new(scene(what)?, &[plan], question)?;
    comparison.advance(plays);
    Ok(())
}

/// An 18-handicap on the hole of the yardstick, one of the library's or one drawn here.
fn scene(what: &str) -> Result<Scene, Any> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let map = |file: &str| read_hole(&root.join(file), &Options::default());
    let hole = match what {
        "yardstick" => map("benches/yardstick/hole.json")?,
        "alder-bend" | "plover-neck" => map(&format!("python/wideberth/data/{what}.geojson"))?,
        "open" | "still" => straight(false),
        "woods" => straight(true),
        "wind" | "windy" => windy(&straight(false)),
        "slopes" => sloping(&straight(false)),
        "wind and slopes" => windy(&sloping(&straight(false))),
        "all" => windy(&sloping(&straight(true))),
        _ => return Err(format!("{what:?} is no hole").into()),
    };
    let player = Player::from_handicap(18.0)?;
    Ok(Scene::new(Arc::new(hole), Arc::new(player.prepare()))?)
}
