//! A sweep: how far left of the water to aim, by handicap and wind, as a table for a spreadsheet.
//!
//! `cargo run --release --example sweep > sweep.csv`
//!
//! The hole and the golfers are invented.
#![expect(clippy::print_stdout, reason = "a script for the terminal")]

use std::error::Error;
use std::sync::Arc;
use wideberth::Run;
use wideberth::hole::{Conditions, Hazard, Hole, Sketch, Wind};
use wideberth::noise::Seed;
use wideberth::plan::{Aim, Instruction, Plan, Scene, Then};
use wideberth::player::Player;
use wideberth::rank::{Comparison, Length, Question};

/// Aims of the drive, yards to the right of the line of play.
const AIMS: [f64; 7] = [-30.0, -24.0, -18.0, -12.0, -6.0, 0.0, 6.0];

fn main() -> Result<(), Box<dyn Error>> {
    let hole = Hole::sketch(&Sketch {
        water: vec![Hazard::new(205.0, 18.0).sized(80.0, 16.0)],
        ..Sketch::new(4, 370.0)
    })?;
    println!("handicap,wind_mph,aim_right,mean,standard_error,behind,behind_error");
    for handicap in [6.0, 18.0, 30.0] {
        let golfer = Player::from_handicap(handicap)?;
        let far = golfer.clubs[0].total();
        let bag = Arc::new(golfer.prepare());
        for mph in [0.0, 15.0] {
            // From the left, which is a bearing of 270 degrees.
            let day = hole.under(Conditions {
                wind: Wind::new(mph, 270.0)?,
                ..*hole.conditions()
            })?;
            let scene = Scene::new(Arc::new(day), bag.clone())?;
            let plans: Result<Vec<Plan>, _> =
                AIMS.map(|right| drive(far, right)).into_iter().collect();
            let question = Question {
                length: Length::Plays(10_000),
                ..Question::new(Seed(1))
            };
            let mut run = Comparison::new(scene, &plans?, question)?;
            while !run.is_finished() {
                run.advance(1_000);
            }
            let ranking = run.ranking();
            let best = ranking.order()[0];
            for (plan, right) in AIMS.iter().enumerate() {
                let (mean, behind) = (ranking.mean(plan), ranking.difference(plan, best).estimate);
                println!(
                    "{handicap},{mph},{right},{:.4},{:.4},{:.4},{:.4}",
                    mean.mean, mean.standard_error, behind.mean, behind.standard_error
                );
            }
        }
    }
    Ok(())
}

/// A driver over a place so far along the line of play, then sensibly on.
fn drive(along: f64, right: f64) -> Result<Plan, Box<dyn Error>> {
    let driver = Instruction::Shot {
        club: "driver".to_owned(),
        aim: Aim::Along { along, right },
        carry: None,
    };
    Ok(Plan::new(&format!("{right}"), vec![driver], Then::Steady)?)
}
