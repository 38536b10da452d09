//! Habits of choice: what `direct` makes of them, and that nothing else does.
use crate::common;

use common::strokes::plan_on;
use common::{rectangle, straight};
use wideberth::Run;
use wideberth::geometry::Point;
use wideberth::hole::{Hole, Sketch, Surface};
use wideberth::noise::Seed;
use wideberth::plan::{Aim, Direct, Instruction, Plan, Scene, Steady, Strategy, Then};
use wideberth::player::{Habits, Lie, Player, Touch};
use wideberth::rank::{Length, Question, record};
use wideberth::shot::Stroke;
use wideberth::simulate::Recording;
use wideberth::situation::Situation;

fn with(habits: Habits) -> Player {
    let player = Player::from_handicap(18.0).unwrap();
    player.with_habits(habits).unwrap()
}

/// As strong as they may be.
const STRONG: Habits = Habits {
    too_little_club: 0.3,
    every_flag: true,
    always_chips: true,
};

/// A hole with trouble, whose pin is not in the middle of its green.
fn hole() -> Hole {
    let features = vec![
        rectangle(Surface::Fairway, (-17.0, 17.0), (90.0, 370.0)),
        rectangle(Surface::Fringe, (-16.0, 16.0), (368.0, 408.0)),
        rectangle(Surface::PenaltyRed, (18.0, 40.0), (200.0, 260.0)),
        rectangle(Surface::Bunker, (-26.0, -16.0), (370.0, 400.0)),
        rectangle(Surface::Trees, (-60.0, -30.0), (80.0, 330.0)),
    ];
    straight(4, 390.0, features).with_pin_at(6.0, 9.0).unwrap()
}

fn played(habits: Habits, instructions: &[Instruction], then: Then) -> Recording {
    let plan = Plan::new("plan", instructions.to_vec(), then).unwrap();
    let question = Question {
        length: Length::Plays(400),
        ..Question::new(Seed(12))
    };
    let mut run = record(plan_on(&hole(), &with(habits)), &plan, &question).unwrap();
    run.advance(400);
    run
}

/// Every stroke of every play is the same to the last bit whatever the habits, with `steady` and with the strokes that a
/// plan instructs; with `direct` they are not.
#[test]
fn habits_are_followed_by_direct_alone() {
    let plans: [&[Instruction]; 2] = [
        &[],
        &[
            Instruction::Advance { yards: 190.0 },
            Instruction::AtPin { clubs: 1 },
            Instruction::Leave { yards: 80.0 },
        ],
    ];
    for instructions in plans {
        let of = |habits| played(habits, instructions, Then::Steady);
        let (none, strong) = (of(Habits::NONE), of(STRONG));
        assert_eq!(none.plays(), strong.plays());
        assert_eq!(none.strokes(), strong.strokes());
        assert_ne!(
            none.plays(),
            played(STRONG, instructions, Then::Direct).plays()
        );
    }
    let of = |habits| played(habits, &[], Then::Direct);
    for habit in [
        Habits {
            too_little_club: 0.1,
            ..Habits::NONE
        },
        Habits {
            every_flag: true,
            ..Habits::NONE
        },
        Habits {
            always_chips: true,
            ..Habits::NONE
        },
    ] {
        assert_ne!(of(Habits::NONE).plays(), of(habit).plays());
    }
}

/// What an instruction says is played as told by a golfer with habits, too: the first two strokes of every play.
#[test]
fn instructions_know_no_habits() {
    let instructions = [
        Instruction::Shot {
            club: "5-wood".to_owned(),
            aim: Aim::Along {
                along: 200.0,
                right: -5.0,
            },
            carry: None,
        },
        Instruction::AtPin { clubs: 0 },
    ];
    let (none, strong) = (
        played(Habits::NONE, &instructions, Then::Direct),
        played(STRONG, &instructions, Then::Direct),
    );
    let firsts = |run: &Recording| {
        let rows = run.strokes().iter().filter(|row| row.stroke == 1);
        rows.copied().collect::<Vec<_>>()
    };
    assert_eq!(firsts(&none), firsts(&strong));
    // From the fairway the second instruction follows, in both alike.
    let seconds = |run: &Recording| {
        let rows = run.strokes().iter().filter(|row| row.stroke == 2);
        rows.filter(|row| row.told.from.lie == Lie::Fairway)
            .copied()
            .collect::<Vec<_>>()
    };
    assert!(seconds(&none).len() > 20);
    assert_eq!(seconds(&none), seconds(&strong));
}

fn approach(scene: &Scene, yards: f64) -> Situation {
    Situation {
        at: Point::new(0.0, scene.hole().pin().y - yards),
        lie: Lie::Fairway,
    }
}

/// Too little club: a swing is chosen for a way shorter by the share that is told, along the same line. A pitch is not.
#[test]
fn too_little_club_is_a_shorter_way() {
    let short = Habits {
        too_little_club: 0.08,
        every_flag: true,
        always_chips: false,
    };
    let scene = plan_on(&hole(), &with(short));
    let plain = plan_on(
        &hole(),
        &with(Habits {
            every_flag: true,
            ..Habits::NONE
        }),
    );
    let (habit, none) = (Direct::new(&scene), Direct::new(&plain));
    for yards in [120.0, 135.0, 150.0, 165.0] {
        let from = approach(&scene, yards);
        let pin = scene.hole().pin();
        let believed = from.at + (pin - from.at) * 0.92;
        let (played, meant) = (habit.choose(&scene, from, 0), none.choose(&plain, from, 0));
        assert_eq!(played, plain.shot_at(from, believed));
        assert!(matches!(played.stroke, Stroke::Swing(_)));
        assert!(played.carry < 0.95 * meant.carry, "{played:?} {meant:?}");
    }
    for yards in [8.0, 25.0, 40.0] {
        let from = approach(&scene, yards);
        assert_eq!(habit.choose(&scene, from, 0), none.choose(&plain, from, 0));
    }
}

/// From mown ground with mown ground all the way the putter is the ordinary stroke: from the fairway as far as a chip, from
/// the fringe farther. Who always chips putts from the fringe near by alone.
#[test]
fn a_putt_is_chipped_by_habit() {
    let chips = Habits {
        always_chips: true,
        ..Habits::NONE
    };
    let hole = Hole::sketch(&Sketch::new(4, 390.0)).unwrap();
    let (scene, chipper) = (
        plan_on(&hole, &with(Habits::NONE)),
        plan_on(&hole, &with(chips)),
    );
    let stroke = |scene: &Scene, yards: f64, lie| {
        let from = Situation {
            at: Point::new(0.0, hole.pin().y - yards),
            lie,
        };
        Direct::new(scene).choose(scene, from, 0).stroke
    };
    let touch = Stroke::Touch;
    for (yards, lie, usual, habit) in [
        (12.0, Lie::Fringe, Stroke::Putt, Stroke::Putt),
        (16.0, Lie::Fringe, Stroke::Putt, touch(Touch::Chip)),
        (18.0, Lie::Fairway, touch(Touch::Putter), touch(Touch::Chip)),
        (18.0, Lie::Rough, touch(Touch::Chip), touch(Touch::Chip)),
        (28.0, Lie::Fairway, touch(Touch::Pitch), touch(Touch::Pitch)),
    ] {
        assert_eq!(stroke(&scene, yards, lie), usual, "{yards} {lie:?}");
        assert_eq!(stroke(&chipper, yards, lie), habit, "{yards} {lie:?}");
    }
}

/// A golfer who does not aim at every flag plays at the middle of the green from afar, and at the pin from near by; `steady`
/// goes by neither habit.
#[test]
fn every_flag_is_aimed_at_by_habit() {
    let flags = Habits {
        every_flag: true,
        ..Habits::NONE
    };
    let (scene, hunter) = (
        plan_on(&hole(), &with(Habits::NONE)),
        plan_on(&hole(), &with(flags)),
    );
    let (middle, pin) = (scene.hole().middle_of_green(), scene.hole().pin());
    assert!((middle - pin).norm() > 5.0);
    let from = approach(&scene, 140.0);
    assert_eq!(
        Direct::new(&scene).choose(&scene, from, 0),
        scene.shot_at(from, middle)
    );
    assert_eq!(
        Direct::new(&hunter).choose(&hunter, from, 0),
        hunter.shot_at(from, pin)
    );
    let near = approach(&scene, 35.0);
    assert_eq!(
        Direct::new(&scene).choose(&scene, near, 0),
        scene.shot_at(near, pin)
    );
    let steady = |scene: &Scene| Steady::new(scene).choose(scene, from, 0);
    assert_eq!(steady(&scene), steady(&hunter));
}

#[test]
fn a_habit_out_of_range_is_refused() {
    for share in [-0.01, 0.31, f64::NAN] {
        let habits = Habits {
            too_little_club: share,
            ..Habits::NONE
        };
        let player = Player::from_handicap(18.0).unwrap();
        let said = player.with_habits(habits).unwrap_err().to_string();
        assert_eq!(
            said,
            format!("habits.too_little_club is {share}; it must be 0 to 0.3 (a share of the way)")
        );
    }
}
