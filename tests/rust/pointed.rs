//! Shots that somebody points at, and what a stroke gains by being chosen.
use std::sync::Arc;
use wideberth::Run;
use wideberth::geometry::Point;
use wideberth::hole::{Hole, Sketch};
use wideberth::plan::{Instruction, Scene, Strategy};
use wideberth::player::{Lie, Player};
use wideberth::shot::{Shot, Stroke};
use wideberth::situation::Situation;
use wideberth::solve::{Solution, Solving, Task};

fn solved() -> Solution {
    let hole = Hole::sketch(&Sketch::new(4, 330.0)).expect("a hole");
    let bag = Player::from_handicap(18.0).expect("a player").prepare();
    let scene = Arc::new(Scene::new(Arc::new(hole), Arc::new(bag)).expect("a scene"));
    let task = Task {
        cell: 10.0,
        ..Task::default()
    };
    let mut run = Solving::new(scene, task).expect("a task");
    while !run.is_finished() {
        run.advance(10);
    }
    run.solution().expect("a solution")
}

fn ball(y: f64, lie: Lie) -> Situation {
    Situation {
        at: Point::new(0.0, y),
        lie,
    }
}

#[test]
fn a_part_swing_ends_where_it_is_pointed() {
    let solution = solved();
    let from = ball(200.0, Lie::Fairway);
    for name in ["9-iron", "pitch"] {
        let stroke = solution.scene().stroke(name).expect("a stroke");
        let most = solution
            .scene()
            .most_carry(from.lie, stroke)
            .expect("it suits");
        for share in [0.5, 0.8] {
            let over = Point::new(0.0, 200.0 + share * most);
            let told = solution
                .pointed(from, stroke, over, false)
                .expect("it suits");
            assert_eq!(told.shot.target, over);
            // The middle of a pattern lies shorter than a solid strike by its mishits and by the player's usual miss.
            let short = over.y - told.finish.y;
            assert!(short.abs() < 0.12 * (over.y - 200.0), "{name}: {short}");
        }
        let full = solution
            .pointed(from, stroke, Point::new(0.0, 201.0), true)
            .expect("it suits");
        assert_eq!(full.shot.carry, most);
    }
}

#[test]
fn what_does_not_suit_the_lie_is_not_told() {
    let solution = solved();
    let over = Point::new(0.0, 300.0);
    let stroke = |name: &str| solution.scene().stroke(name).expect("a stroke");
    let fairway = ball(200.0, Lie::Fairway);
    assert!(
        solution
            .pointed(fairway, stroke("bunker shot"), over, true)
            .is_none()
    );
    assert!(
        solution
            .pointed(fairway, Stroke::Putt, over, true)
            .is_none()
    );
    let names = |lie| {
        let told = solution.strokes_from(ball(200.0, lie));
        told.into_iter().map(|(name, _)| name).collect::<Vec<_>>()
    };
    assert_eq!(names(Lie::Fairway)[0], "driver");
    assert!(names(Lie::Bunker).contains(&"bunker shot".to_owned()));
    assert!(!names(Lie::Fairway).contains(&"putt".to_owned()));
    assert_eq!(names(Lie::Green).last().map(String::as_str), Some("putt"));
}

#[test]
fn the_best_shot_is_the_one_that_is_played() {
    let solution = solved();
    for from in [
        Situation::on_the_tee(solution.scene().hole()),
        ball(220.0, Lie::Fairway),
        ball(325.0, Lie::Green),
    ] {
        let told = solution.best_shot(from);
        let advice = solution.advice(from, None).expect("advice");
        assert_eq!(told.shot, advice.shot);
        assert_eq!(told.words, advice.words);
        assert_eq!(told.instruction, advice.instruction);
        assert!(matches!(told.instruction, Instruction::Exactly { .. }));
    }
}

#[test]
fn the_best_shot_gains_nothing_by_its_choice_and_another_loses() {
    let solution = solved();
    let from = Situation::on_the_tee(solution.scene().hole());
    let best = solution.choose(solution.scene(), from, 0);
    let split = solution.split(from, &best, -0.4);
    assert_eq!((split.choice, split.execution), (0.0, -0.4));
    assert!(split.luck > 0.0);
    let aside = Shot {
        target: Point::new(120.0, 100.0),
        ..best
    };
    let split = solution.split(from, &aside, -0.4);
    assert!(split.choice < -0.3, "{}", split.choice);
    assert!((split.choice + split.execution + 0.4).abs() < 1e-12);
}
