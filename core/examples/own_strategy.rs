//! A strategy of one's own, compared with the usual way on the same luck.
//!
//! `cargo run --release --example own_strategy`
//!
//! Would a golfer of handicap 18 do better never to swing more than a 5-iron? The hole and the golfer are invented.
#![expect(clippy::print_stdout, reason = "a script for the terminal")]

use std::error::Error;
use std::sync::Arc;
use wideberth::Run;
use wideberth::hole::{Hazard, Hole, Sketch};
use wideberth::noise::Seed;
use wideberth::plan::{Plan, Scene, Steady, Strategy, Then};
use wideberth::player::{ClubId, Player};
use wideberth::rank::{Comparison, Length, Question};
use wideberth::shot::{Shot, Stroke};
use wideberth::situation::Situation;

/// Plays as `steady` does, but no longer club than some: where it would, that one goes down the same line.
struct NoLonger {
    club: ClubId,
    usual: Steady,
}

impl Strategy for NoLonger {
    fn choose(&self, scene: &Scene, from: Situation, played: u8) -> Shot {
        let usual = self.usual.choose(scene, from, played);
        match usual.stroke {
            // Clubs are numbered from the longest.
            Stroke::Swing(club) if club < self.club => {
                let way = usual.target - from.at;
                let full = scene.bag().swing(self.club, from.lie).full_carry;
                scene.swing_over(from, self.club, from.at + way * (full / way.norm()), full)
            }
            _ => usual,
        }
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    let hole = Hole::sketch(&Sketch {
        water: vec![Hazard::new(205.0, 24.0).sized(60.0, 24.0)],
        ..Sketch::new(4, 370.0)
    })?;
    let golfer = Player::from_handicap(18.0)?.prepare();
    let scene = Scene::new(Arc::new(hole), Arc::new(golfer))?;
    let own = NoLonger {
        club: scene.bag().find("5-iron")?,
        usual: Steady::new(&scene),
    };
    let plans = [
        Plan::new("no more than a 5-iron", vec![], Then::Custom(Arc::new(own)))?,
        Plan::new("usual", vec![], Then::Steady)?,
    ];
    let question = Question {
        length: Length::Plays(20_000),
        ..Question::new(Seed(1))
    };
    let mut run = Comparison::new(scene, &plans, question)?;
    // A run advances in waves of any size: between them it can be left, or tell how far it is.
    while !run.is_finished() {
        run.advance(2_000);
    }
    let ranking = run.ranking();
    for &plan in ranking.order() {
        let (mean, blow_up) = (ranking.mean(plan), ranking.blow_up(plan));
        println!(
            "{:<24}{:.3} ± {:.3}, three over or worse in {:.1} %",
            ranking.name(plan),
            mean.mean,
            mean.standard_error,
            100.0 * blow_up.mean
        );
    }
    let lead = ranking.difference(0, 1);
    println!(
        "{} minus {}: {:+.3} ± {:.3} strokes, play by play",
        ranking.name(0),
        ranking.name(1),
        lead.estimate.mean,
        lead.estimate.standard_error
    );
    Ok(())
}
