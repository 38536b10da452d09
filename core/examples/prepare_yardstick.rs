//! Writes what the yardstick's programs are given beside its documents: each stroke as the library prepares it.
//!
//! `cargo run --release -p wideberth --example prepare_yardstick > benches/yardstick/prepared.json`
//!
//! Numbers only: the pattern of each stroke from each lie, how a ball comes down by how far it carries, and how far it
//! goes in all. What is chosen, how a strike is missed and what the ball does on the ground the programs work out themselves.
#![expect(clippy::print_stdout, reason = "a script for the terminal")]

use serde_json::{Value, json};
use std::error::Error;
use std::path::Path;
use std::sync::Arc;
use wideberth::geometry::Vector;
use wideberth::io::{geojson, read_hole};
use wideberth::player::{Lie, Mishit, Player, Swing, Touch};
use wideberth::setting::{Planned, Prepared, Setting};

/// Landings are told at this many places evenly over the root of the carry, up to this root of a full carry.
const PLACES: u32 = 65;
const MOST_ROOT: f64 = 1.2;

/// Carries, evenly from 0 to the longest, at which carry and run together are told: those the library keeps.
const CARRIES: u32 = 9;

/// The lies there are on the hole.
const LIES: [Lie; 7] = [
    Lie::Tee,
    Lie::Fairway,
    Lie::FirstCut,
    Lie::Rough,
    Lie::Fringe,
    Lie::Green,
    Lie::Bunker,
];

fn main() -> Result<(), Box<dyn Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../benches/yardstick");
    let hole = read_hole(&folder.join("hole.json"), &geojson::Options::default())?;
    let player = Player::from_json(&std::fs::read_to_string(folder.join("player.json"))?)?;
    let bag = Arc::new(player.prepare());
    let setting = Setting::new(Arc::new(hole), Arc::clone(&bag))?;
    if !setting.is_still() {
        return Err("the programs play a level hole in still air".into());
    }
    let clubs = bag.clubs().map(|club| {
        let swings = LIES.map(|lie| bag.swing(club, lie));
        let full = bag.swing(club, Lie::Tee).full_carry;
        told(bag.name(club), full, swings, setting.club(club))
    });
    // A putter's ball does not fly, and the programs do not putt from off the green but from the fringe.
    let flying = [Touch::Chip, Touch::Pitch, Touch::Lob, Touch::BunkerShot];
    let touches = flying.into_iter().map(|touch| {
        let home = if touch == Touch::BunkerShot {
            Lie::Bunker
        } else {
            Lie::Fairway
        };
        let swings = LIES.map(|lie| bag.touch(touch, lie));
        let full = bag.touch(touch, home).full_carry;
        told(touch.name(), full, swings, setting.touch(touch))
    });
    let strokes: Result<Vec<Value>, String> = clubs.chain(touches).collect();
    let lies = json!(LIES.map(Lie::name));
    println!("{{\"most_root\": {MOST_ROOT}, \"lies\": {lies}, \"strokes\": [");
    let lines: Vec<String> = strokes?.iter().map(Value::to_string).collect();
    println!("  {}\n]}}", lines.join(",\n  "));
    Ok(())
}

/// One stroke whose longest carry from a good lie is `full` yards.
fn told(
    name: &str,
    full: f64,
    swings: [&Swing; LIES.len()],
    stroke: &Prepared,
) -> Result<Value, String> {
    if !stroke.runs {
        return Err(format!("{name}: the programs play balls that run"));
    }
    let landing = |place: u32| {
        let root = MOST_ROOT * f64::from(place) / f64::from(PLACES - 1);
        let carry = root * root * stroke.flight.full_carry();
        let l = stroke
            .lands
            .on(stroke.flight.track(carry, Vector::y()).landing);
        [l.forward_mps, l.down_mps, l.backspin_rad_s].map(short)
    };
    let totals = |ground: &Planned| -> Vec<f64> {
        let carries = (0..CARRIES).map(|k| full * f64::from(k) / f64::from(CARRIES - 1));
        carries
            .map(|carry| short(ground.day.total_for(carry, 0.0)))
            .collect()
    };
    Ok(json!({
        "name": name,
        "swings": swings.map(pattern),
        "aim_off": exact(stroke.bias),
        "home_rolling": short(stroke.home_rolling),
        "flight_carry": short(stroke.flight.full_carry()),
        "full_carry": short(full),
        "totals": totals(&stroke.told),
        "green_totals": totals(&stroke.green),
        "landings": (0..PLACES).map(landing).collect::<Vec<_>>(),
    }))
}

/// The pattern of a stroke from a lie.
fn pattern(swing: &Swing) -> Value {
    json!({
        "full_carry": exact(swing.full_carry),
        "flush": exact(swing.flush),
        "depth_floor": exact(swing.depth_floor),
        "depth_slope": exact(swing.depth_slope),
        "beyond": exact(swing.beyond.0),
        "side_slope": exact(swing.side_slope),
        "bias_slope": exact(swing.bias_slope),
        "correlation": exact(swing.correlation),
        "run": exact(swing.run),
        "duff": mishit(&swing.duff),
        "thin": mishit(&swing.thin),
    })
}

fn mishit(mishit: &Mishit) -> Value {
    json!({
        "share": exact(mishit.share),
        "carry": exact(mishit.carry),
        "carry_sd": exact(mishit.carry_sd),
        "side": exact(mishit.side),
        "run": exact(mishit.run),
        "mildness": exact(mishit.mildness),
    })
}

/// Digits enough for shares and slopes.
fn exact(value: f64) -> f64 {
    (value * 1e7).round() / 1e7
}

/// Digits enough for a yardstick.
fn short(value: f64) -> f64 {
    (value * 1e5).round() / 1e5
}
