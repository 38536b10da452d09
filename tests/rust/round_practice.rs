//! Practice: approaches that are practised from a band of distances, played by hand.
use std::sync::Arc;
use wideberth::Run;
use wideberth::course::Course;
use wideberth::hole::{Hole, Sketch};
use wideberth::noise::{PlayNoise, Seed};
use wideberth::plan::{Direct, Scene, Strategy};
use wideberth::player::{Change, ClubSkill, Lie, Player, Reference, Skill};
use wideberth::round::{PracticeGain, PracticeQuestion, PracticeRun, Way};
use wideberth::shot::Next;
use wideberth::situation::Situation;

const SEED: Seed = Seed(5);
const ROUNDS: u64 = 300;
const SHARE: f64 = 0.5;

/// Holes without trouble, so that every ball is played as it lies.
fn course(holes: &[(u8, f64)]) -> Arc<Course> {
    let hole = |&(par, length): &(u8, f64)| {
        Arc::new(Hole::sketch(&Sketch::new(par, length)).expect("a hole"))
    };
    let holes = holes.iter().map(hole).collect();
    Arc::new(Course::new("Plain", holes, None).expect("a course"))
}

fn gains(course: &Arc<Course>, player: &Player, to_break: Option<u16>) -> PracticeRun {
    let question = PracticeQuestion {
        way: Way::Direct,
        seed: SEED,
        rounds: ROUNDS,
        reference: Reference::Men,
        share: SHARE,
        to_break,
    };
    let mut run = PracticeRun::new(course, player, question).expect("a run");
    while !run.is_finished() {
        run.advance(128);
    }
    run
}

fn of<'a>(gains: &'a [PracticeGain], skill: &str) -> &'a PracticeGain {
    let found = gains.iter().find(|gain| gain.skill == skill);
    found.unwrap_or_else(|| panic!("no {skill}"))
}

/// The player with all clubs straighter, surer of their distance and less often mishit.
fn tighter(player: &Player) -> Player {
    let scratch = Player::from_handicap(0.0).expect("a player");
    let names: Vec<String> = player.clubs.iter().map(|club| club.name.clone()).collect();
    let skills = [ClubSkill::Direction, ClubSkill::Depth, ClubSkill::Mishits];
    let changes = names
        .iter()
        .flat_map(|name| skills.map(|skill| Skill::Club(skill, name.clone())))
        .map(|skill| (skill, Change::Toward(&scratch, SHARE)));
    player.clone().with_changes(changes).expect("a player")
}

/// The total of a round in which the strokes from a band are made by the second player, all others by the first.
fn total(sides: &[[Scene; 2]], (from, to): (f64, f64), round: u64) -> u32 {
    let hole = |(place, scenes): (usize, &[Scene; 2])| {
        let luck = PlayNoise::new(SEED.part(place as u64), round);
        let hole = scenes[0].hole();
        let mut ball = Situation::on_the_tee(hole);
        for stroke in 0..60 {
            let to_pin = (hole.pin() - ball.at).norm();
            let drive = hole.par() > 3 && ball.lie == Lie::Tee;
            let scene = &scenes[usize::from(!drive && (from..to).contains(&to_pin))];
            let shot = Direct::new(scene).choose(scene, ball, 0);
            match scene.resolve(ball, &shot, &luck.stroke(stroke)).next {
                Next::Holed => return stroke + 1,
                Next::Play(next) => ball = next,
                Next::Relief(_) => panic!("there is no trouble"),
            }
        }
        panic!("the hole can be finished")
    };
    sides.iter().enumerate().map(hole).sum()
}

/// What each band saves is the difference of rounds played by hand, to the last stroke; so is what it adds to the chance of a
/// target, which the target itself does not meet.
#[test]
fn bands_are_rounds_with_those_strokes_alone_practised() {
    let course = course(&[(3, 170.0), (4, 330.0), (5, 455.0)]);
    let player = Player::from_handicap(20.0)
        .and_then(|player| player.with_habits(wideberth::player::Habits::NONE))
        .expect("a player");
    let better = tighter(&player);
    let scene = |hole: &Arc<Hole>, player: &Player| {
        Scene::new(hole.clone(), Arc::new(player.prepare())).expect("a scene")
    };
    let sides: Vec<[Scene; 2]> = course
        .holes()
        .iter()
        .map(|hole| [scene(hole, &player), scene(hole, &better)])
        .collect();
    let target = 15;
    let run = gains(&course, &player, Some(target));
    let gains = run.gains();
    let usual: Vec<u32> = (0..ROUNDS)
        .map(|round| total(&sides, (-1.0, -1.0), round))
        .collect();
    let mean = f64::from(usual.iter().sum::<u32>()) / ROUNDS as f64;
    assert!((run.usual().0 - mean).abs() < 1e-12);
    for (name, band) in [
        ("tighter from inside 100 yd", (0.0, 100.0)),
        ("tighter from 100 to 150 yd", (100.0, 150.0)),
        ("tighter from 150 to 200 yd", (150.0, 200.0)),
        ("tighter from 200 yd and more", (200.0, 1e9)),
    ] {
        let changed: Vec<u32> = (0..ROUNDS)
            .map(|round| total(&sides, band, round))
            .collect();
        let saved: i64 = usual
            .iter()
            .zip(&changed)
            .map(|(a, b)| i64::from(*a) - i64::from(*b))
            .sum();
        let below =
            |totals: &[u32]| totals.iter().filter(|&&t| t < u32::from(target)).count() as f64;
        let gain = of(&gains, name);
        assert_eq!(gain.part, "approaches by distance");
        assert!(
            (gain.saved.mean - saved as f64 / ROUNDS as f64).abs() < 1e-12,
            "{name}"
        );
        let met = (below(&changed) - below(&usual)) / ROUNDS as f64;
        assert!((gain.chance.mean - met).abs() < 1e-12, "{name}");
        // Half of the way to scratch is far: every band is worth something.
        assert!(gain.saved.mean > 0.0, "{name}: {:?}", gain.saved);
        assert_eq!(gain.like, 20.0, "{name}");
    }
}

/// Where no approach is from a band nothing is saved there, and the chances do not differ: on a short par 3 but from near it,
/// on a par 4 that a driver reaches not from its tee.
#[test]
fn a_band_that_nobody_plays_from_saves_nothing() {
    let player = Player::from_handicap(15.0).expect("a player");
    for (hole, idle, busy) in [
        (
            (3, 120.0),
            ["tighter from 150 to 200 yd", "tighter from 200 yd and more"],
            "tighter from 100 to 150 yd",
        ),
        (
            (4, 262.0),
            ["tighter from 200 yd and more"; 2],
            "tighter from inside 100 yd",
        ),
    ] {
        let gains = gains(&course(&[hole]), &player, None).gains();
        for name in idle {
            let saved = of(&gains, name).saved;
            // A topped drive of the par 4 may leave that far: seldom.
            assert!(saved.mean.abs() < 0.02, "{name}: {saved:?}");
            assert!(
                hole.0 == 4 || (saved.mean, saved.standard_error) == (0.0, 0.0),
                "{name}: {saved:?}"
            );
        }
        assert!(of(&gains, busy).saved.mean > 0.0);
    }
}
