//! What rounds of an ordinary course look like, golfer by golfer, and which strokes their spread comes from.
//!
//! `cargo run --release --example rounds -- 0 8 17 27` for men of those handicaps (`pro` for the professional); with
//! `steady` or `solved`, and with `plain` for a course without obstacles; `rounds=2000` for more or fewer rounds.
#![expect(clippy::print_stdout, reason = "a script for the terminal")]

#[path = "../../tests/rust/common/calibration/mod.rs"]
mod calibration;

use calibration::Who;
use calibration::holes::Course;
use calibration::rounds::{Played, Way};
use wideberth::player::LevelFigures;

fn main() {
    let told: Vec<String> = std::env::args().skip(1).collect();
    let wants = |word: &str| told.iter().any(|a| a == word);
    let number = |name: &str| {
        let value = told.iter().find_map(|a| a.strip_prefix(name));
        value.and_then(|v| v.parse::<f64>().ok())
    };
    let course = if wants("plain") {
        Course::Plain
    } else {
        Course::Ordinary
    };
    let way = match () {
        () if wants("steady") => Way::Steady,
        () if wants("solved") => Way::Solved,
        () => Way::Direct,
    };
    let rounds = number("rounds=").unwrap_or(2_000.0);
    let length = number("length=").unwrap_or(6_400.0);
    for word in &told {
        let who = match (word.as_str(), word.parse::<f64>()) {
            ("pro", _) => Who::Professional,
            (_, Ok(handicap)) => Who::Man(handicap),
            _ => continue,
        };
        let player = who.player(&LevelFigures::FITTED).expect("a player");
        let played = Played::of(&player, course, length, way, rounds as u64, true);
        println!("\n== {}\n{played}", who.name());
    }
}
