//! Comparisons on even luck to a precision: where they end, what they are, and what they refuse.
use crate::common;

use common::{rectangle, straight};
use wideberth::Run;
use wideberth::hole::Surface;
use wideberth::noise::Seed;
use wideberth::plan::{Aim, Instruction, Plan, Scene, Then};
use wideberth::rank::{CompareFault, EvenComparison, Length, Question, Ranking};

fn scene() -> Scene {
    let hole = straight(
        4,
        350.0,
        vec![
            rectangle(Surface::Fairway, (-16.0, 16.0), (90.0, 325.0)),
            rectangle(Surface::PenaltyRed, (-60.0, -22.0), (150.0, 260.0)),
        ],
    );
    common::scene(hole, 18.0)
}

fn swing(name: &str, club: &str, along: f64) -> Plan {
    let shot = Instruction::Shot {
        club: club.to_owned(),
        aim: Aim::Along { along, right: 0.0 },
        carry: None,
    };
    Plan::new(name, vec![shot], Then::Direct).expect("a plan")
}

fn plans() -> Vec<Plan> {
    vec![
        swing("driver", "driver", 205.0),
        swing("7-iron", "7-iron", 140.0),
        swing("5-iron", "5-iron", 160.0),
    ]
}

fn to_precision(strokes: f64, most: u64) -> EvenComparison {
    EvenComparison::to_precision(scene(), &plans(), Question::new(Seed(3)), strokes, most)
        .expect("a question")
}

fn played(mut run: EvenComparison, parts: u64) -> Ranking {
    while !run.is_finished() {
        run.advance(parts);
    }
    run.ranking()
}

/// Half the width of the widest of the intervals that hold together, by Student's t of 31 degrees of freedom: 2.356 leaves
/// out 1.25 % on either side (published: a table of the t distribution gives 2.356 between 2.040 at 2.5 % and 2.453 at 1 %).
fn off(ranking: &Ranking) -> f64 {
    let best = ranking.order()[0];
    let rivals = ranking.order()[1..].iter();
    rivals
        .map(|&rival| 2.356 * ranking.difference(rival, best).estimate.standard_error)
        .fold(0.0, f64::max)
}

#[test]
fn a_run_to_a_precision_ends_where_it_says() {
    let ranking = played(to_precision(0.03, 100_000), 7);
    assert!(off(&ranking) < 0.0301, "{}", off(&ranking));
    assert!(
        ranking.plays > 1_024 && ranking.plays < 60_000,
        "{}",
        ranking.plays
    );
    // It is what a run of as many plays is, but for what was asked.
    let fixed = EvenComparison::new(scene(), &plans(), Question::new(Seed(3)), ranking.plays);
    let fixed = played(fixed.expect("a question"), 50);
    assert_eq!(fixed.question.length, Length::Plays(ranking.plays));
    let mut asked = fixed;
    asked.question = ranking.question.clone();
    assert_eq!(asked, ranking);
    // With the fewest plays the first round is enough.
    assert_eq!(played(to_precision(5.0, 1_024), 1).plays, 1_024);
}

#[test]
fn parts_change_nothing_and_progress_grows() {
    let whole = played(to_precision(0.03, 100_000), u64::MAX);
    let mut run = to_precision(0.03, 100_000);
    let (mut before, mut rounds) = (0, vec![run.goal()]);
    while !run.is_finished() {
        run.advance(5);
        assert!(run.done() > before && run.done() <= run.goal());
        before = run.done();
        if run.goal() > rounds[rounds.len() - 1] {
            // What is told stays that of the last whole round.
            assert_eq!(run.plays(), run.ranking().plays);
            rounds.push(run.goal());
        }
    }
    assert!(rounds.len() > 1 && before == run.goal());
    assert_eq!(run.ranking(), whole);
    run.advance(5);
    assert_eq!(run.ranking(), whole);
    let json = serde_json::to_string(&whole).expect("text");
    let read: Ranking = serde_json::from_str(&json).expect("counts");
    assert_eq!(read, whole);
}

#[test]
fn the_most_plays_are_not_exceeded() {
    let ranking = played(to_precision(0.0005, 3_000), 100);
    // Rounded up to whole plays in 32 sets.
    assert_eq!(ranking.plays, 3_008);
    assert!(off(&ranking) > 0.0005);
}

#[test]
fn plans_that_play_alike_are_settled_as_such() {
    let twins = [
        swing("one", "driver", 205.0),
        swing("other", "driver", 205.0),
    ];
    let run = EvenComparison::to_precision(scene(), &twins, Question::new(Seed(3)), 0.0005, 5_000);
    let ranking = played(run.expect("a question"), 9);
    assert_eq!(ranking.plays, 1_024);
    let difference = ranking.difference(0, 1);
    assert_eq!(
        (difference.estimate.mean, difference.half_width()),
        (0.0, 0.0)
    );
    assert!(ranking.settled() && difference.variance_factor == f64::INFINITY);
}

#[test]
fn what_cannot_be_asked_is_refused() {
    let refused = |strokes, most| {
        let run =
            EvenComparison::to_precision(scene(), &plans(), Question::new(Seed(3)), strokes, most);
        run.err().map(|fault| fault.to_string()).unwrap_or_default()
    };
    for strokes in [0.0, -1.0, 0.0004, 5.1, f64::NAN] {
        let said = refused(strokes, 5_000);
        assert!(said.ends_with("it must be 0.0005 to 5 strokes"), "{said}");
        assert!(said.starts_with("precision is "), "{said}");
    }
    for most in [0, 1_023, 3_200_001, u64::MAX] {
        let said = refused(0.1, most);
        assert!(
            said.ends_with("it must be 1,024 to 3,200,000 with a precision"),
            "{said}"
        );
    }
    let run = EvenComparison::to_precision(scene(), &[], Question::new(Seed(3)), 0.1, 5_000);
    assert!(matches!(run.err(), Some(CompareFault::NoPlans)));
}
