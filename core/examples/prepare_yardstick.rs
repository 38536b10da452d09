//! Writes what the yardstick's programs are given beside its documents: each stroke as the library prepares it.
//!
//! `cargo run --release -p wideberth --example prepare_yardstick > benches/yardstick/prepared.json`
//!
//! Numbers only: how a ball comes down by how far it carries, and how far it goes in all.
//! What the ball then does on the ground the programs work out themselves.
#![expect(clippy::print_stdout, reason = "a script for the terminal")]

use serde_json::{Value, json};
use std::error::Error;
use std::path::Path;
use std::sync::Arc;
use wideberth::geometry::Vector;
use wideberth::io::{geojson, read_hole};
use wideberth::player::{Lie, Player, Touch};
use wideberth::setting::{Planned, Prepared, Setting};

/// Landings are told at this many places evenly over the root of the carry, up to this root of a full carry.
const PLACES: u32 = 65;
const MOST_ROOT: f64 = 1.2;

/// Carries, evenly from 0 to the longest, at which carry and run together are told: those the library keeps.
const CARRIES: u32 = 9;

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
        let full = bag.swing(club, Lie::Tee).full_carry;
        told(bag.name(club), full, setting.club(club))
    });
    // A putter's ball does not fly, and the programs do not putt from off the green but from the fringe.
    let flying = Touch::ALL
        .into_iter()
        .filter(|&touch| touch != Touch::Putter);
    let touches = flying.map(|touch| {
        let home = if touch == Touch::BunkerShot {
            Lie::Bunker
        } else {
            Lie::Fairway
        };
        let full = bag.touch(touch, home).full_carry;
        told(touch.name(), full, setting.touch(touch))
    });
    let strokes: Result<Vec<Value>, String> = clubs.chain(touches).collect();
    println!("{{\"most_root\": {MOST_ROOT}, \"strokes\": [");
    let lines: Vec<String> = strokes?.iter().map(Value::to_string).collect();
    println!("  {}\n]}}", lines.join(",\n  "));
    Ok(())
}

/// One stroke whose longest carry from a good lie is `full` yards.
fn told(name: &str, full: f64, stroke: &Prepared) -> Result<Value, String> {
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
        "home_rolling": short(stroke.home_rolling),
        "flight_carry": short(stroke.flight.full_carry()),
        "full_carry": short(full),
        "totals": totals(&stroke.told),
        "green_totals": totals(&stroke.green),
        "landings": (0..PLACES).map(landing).collect::<Vec<_>>(),
    }))
}

/// Digits enough for a yardstick.
fn short(value: f64) -> f64 {
    (value * 1e5).round() / 1e5
}
