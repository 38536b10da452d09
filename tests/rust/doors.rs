//! Questions from anywhere, players compared, many strokes at once, and strategies that are asked by waves.
use std::sync::{Arc, Mutex};
use wideberth::Run;
use wideberth::geometry::Point;
use wideberth::hole::{Hazard, Hole, Sketch};
use wideberth::noise::Seed;
use wideberth::plan::{
    Aim, Ball, Instruction, Plan, Scene, Steady, Strategy, Then, WaveFault, WaveStrategy, Waves,
};
use wideberth::player::{Bag, Lie, Player};
use wideberth::rank::{Comparison, Length, Question, Ranking, record};
use wideberth::shot::{Shot, Stroke};
use wideberth::simulate::{ManyStrokes, Recording};
use wideberth::situation::Situation;

fn hole() -> Arc<Hole> {
    let water = vec![Hazard::new(365.0, 14.0)];
    Arc::new(
        Hole::sketch(&Sketch {
            water,
            ..Sketch::new(4, 400.0)
        })
        .unwrap(),
    )
}

fn bag(handicap: f64) -> Arc<Bag> {
    Arc::new(Player::from_handicap(handicap).unwrap().prepare())
}

fn scene() -> Scene {
    Scene::new(hole(), bag(18.0)).unwrap()
}

fn question(plays: u64) -> Question {
    Question {
        length: Length::Plays(plays),
        ..Question::new(Seed(20_261_129))
    }
}

fn played(mut run: Comparison) -> Ranking {
    while !run.is_finished() {
        run.advance(700);
    }
    assert!(run.take_fault().is_none());
    run.ranking()
}

fn plan(name: &str, then: Then) -> Plan {
    Plan::new(name, Vec::new(), then).unwrap()
}

/// Answers what the steady way would play, for every other ball; keeps how many balls it was asked for.
struct Echo {
    steady: Steady,
    asked: Mutex<Vec<Vec<u64>>>,
}

impl WaveStrategy for Echo {
    fn shots(&self, scene: &Scene, balls: &[Ball]) -> Result<Vec<Option<Shot>>, WaveFault> {
        let numbers = balls.iter().map(|ball| ball.play).collect();
        self.asked.lock().unwrap().push(numbers);
        Ok(balls
            .iter()
            .map(|ball| (ball.play % 2 == 0).then(|| self.steady.choose(scene, ball.from, 0)))
            .collect())
    }
}

fn waves(strategy: Arc<dyn WaveStrategy>) -> Then {
    Then::Waves(Waves {
        strategy,
        otherwise: Box::new(Then::Steady),
    })
}

/// A strategy that is asked by waves is the same strategy: whoever answers as `steady` does scores as `steady` does, play by
/// play, whatever the waves of the run; and it is asked for the same balls in the same order however the run advances.
#[test]
fn a_strategy_asked_by_waves_plays_what_it_answers() {
    let mut asked = Vec::new();
    for waves_of in [100, 6_000] {
        let echo = Arc::new(Echo {
            steady: Steady::new(&scene()),
            asked: Mutex::default(),
        });
        let plans = [
            plan("own", waves(echo.clone())),
            plan("steady", Then::Steady),
        ];
        let mut run = Comparison::new(scene(), &plans, question(6_000)).unwrap();
        while !run.is_finished() {
            run.advance(waves_of);
        }
        let ranking = run.ranking();
        let difference = ranking.difference(0, 1);
        assert_eq!(
            (difference.better, difference.worse),
            (Some(0.0), Some(0.0))
        );
        assert_eq!(ranking.plays, 6_000);
        asked.push(std::mem::take(&mut *echo.asked.lock().unwrap()));
    }
    assert_eq!(asked[0], asked[1]);
    assert_eq!(asked[0][0].len(), 4_096);
}

/// Every stroke of a recording is the same, too, and instructions come first.
#[test]
fn strokes_asked_by_waves_are_those_of_the_plan() {
    let echo = || Echo {
        steady: Steady::new(&scene()),
        asked: Mutex::default(),
    };
    let driver = Instruction::Shot {
        club: "driver".to_owned(),
        aim: Aim::Along {
            along: 210.0,
            right: -5.0,
        },
        carry: None,
    };
    let of = |then| {
        let plan = Plan::new("p", vec![driver.clone()], then).unwrap();
        let mut run: Recording = record(scene(), &plan, &question(300)).unwrap();
        run.advance(300);
        run
    };
    let (own, usual) = (of(waves(Arc::new(echo()))), of(Then::Steady));
    assert_eq!(own.strokes(), usual.strokes());
    assert_eq!(own.plays(), usual.plays());
}

struct Broken(&'static str);

impl WaveStrategy for Broken {
    fn shots(&self, scene: &Scene, balls: &[Ball]) -> Result<Vec<Option<Shot>>, WaveFault> {
        let shot = Shot {
            stroke: scene.stroke("8-iron")?,
            target: scene.hole().pin(),
            carry: f64::INFINITY,
        };
        let answer = match self.0 {
            "fails" => return Err("not today".into()),
            "short" => return Ok(Vec::new()),
            "putts" => Shot {
                stroke: Stroke::Putt,
                ..shot
            },
            "nowhere" => Shot {
                target: Point::new(f64::NAN, 0.0),
                ..shot
            },
            _ => Shot {
                carry: -1.0,
                ..shot
            },
        };
        Ok(vec![Some(answer); balls.len()])
    }
}

#[test]
fn a_strategy_that_breaks_off_or_answers_nonsense_ends_the_run() {
    for (way, words) in [
        ("fails", "not today"),
        (
            "short",
            "the strategy gave 0 answers for 100 balls; it must give one for each",
        ),
        (
            "putts",
            "ball 0 of those asked for: a putt cannot be played from the lie \"tee\"",
        ),
        (
            "nowhere",
            "ball 0 of those asked for: the distance to the target is NaN; it must be 0 to 2,000 yards",
        ),
        (
            "backwards",
            "ball 0 of those asked for: carry is -1; it must be 0 yards or more",
        ),
    ] {
        let plans = [plan("own", waves(Arc::new(Broken(way))))];
        let mut run = Comparison::new(scene(), &plans, question(100)).unwrap();
        run.advance(10);
        assert!(run.is_finished(), "{way}");
        assert_eq!(run.take_fault().unwrap().to_string(), words);
        let mut run = record(scene(), &plans[0], &question(100)).unwrap();
        run.advance(100);
        assert!(run.is_finished() && run.plays().is_empty());
        assert_eq!(run.take_fault().unwrap().to_string(), words);
    }
}

/// Players of one name differ by nothing, and the better player is better: by the same luck the same strokes.
#[test]
fn players_meet_the_same_luck() {
    let players = [
        ("now".to_owned(), bag(18.0)),
        ("again".to_owned(), bag(18.0)),
        ("ten".to_owned(), bag(10.0)),
    ];
    let steady = plan("p", Then::Steady);
    let run = Comparison::of_players(&hole(), &players, &steady, question(3_000)).unwrap();
    let ranking = played(run);
    let same = ranking.difference(0, 1);
    assert_eq!((same.better, same.worse), (Some(0.0), Some(0.0)));
    let lead = ranking.difference(2, 0);
    assert!(lead.interval.1 < -0.2, "{lead:?}");
    // A player alone scores as in a comparison of plans.
    let alone = Comparison::new(scene(), &[steady], question(3_000)).unwrap();
    assert_eq!(played(alone).mean(0), ranking.mean(0));
    // Paired, the difference is known better than by independent plays.
    let independent = ranking
        .mean(2)
        .standard_error
        .hypot(ranking.mean(0).standard_error);
    assert!(lead.estimate.standard_error < 0.9 * independent);
}

#[test]
fn players_without_a_club_are_named() {
    let mut parts = Player::from_handicap(18.0).unwrap().into_parts();
    parts.clubs.retain(|club| club.name != "8-iron");
    let without = Arc::new(Player::new(parts).unwrap().prepare());
    let eight = Instruction::Shot {
        club: "8-iron".to_owned(),
        aim: Aim::Along {
            along: 120.0,
            right: 0.0,
        },
        carry: None,
    };
    let plan = Plan::new("p", vec![eight], Then::Steady).unwrap();
    let players = [("a".to_owned(), bag(18.0)), ("b".to_owned(), without)];
    let refused = |players: &[(String, Arc<Bag>)]| {
        let run = Comparison::of_players(&hole(), players, &plan, question(10));
        run.err().unwrap().to_string()
    };
    let words = refused(&players);
    assert!(
        words.starts_with("player \"b\": plan \"p\", instruction 1: club is \"8-iron\""),
        "{words}"
    );
    assert!(refused(&[]).starts_with("players is empty"));
    let twice = [players[0].clone(), players[0].clone()];
    assert!(refused(&twice).starts_with("players has two named \"a\""));
}

/// Single strokes are the first strokes of plays under the same seed.
#[test]
fn many_strokes_are_first_strokes() {
    let from = Situation::lying(&hole(), Point::new(0.0, 270.0), Some(Lie::Rough)).unwrap();
    let scene = scene();
    let shot = Shot {
        stroke: scene.stroke("8-iron").unwrap(),
        target: scene.hole().pin(),
        carry: f64::INFINITY,
    };
    let exactly = Instruction::Exactly {
        stroke: "8-iron".to_owned(),
        over: Aim::At {
            x: shot.target.x,
            y: shot.target.y,
        },
        carry: None,
    };
    let plan = Plan::new("p", vec![exactly], Then::Direct).unwrap();
    let asked = Question {
        start: Some(from),
        ..question(500)
    };
    let mut plays = record(scene.clone(), &plan, &asked).unwrap();
    plays.advance(500);
    let firsts = plays.strokes().iter().filter(|row| row.stroke == 1);
    let firsts: Vec<_> = firsts.map(|row| row.told.outcome).collect();
    let mut run = ManyStrokes::new(scene.clone(), from, &shot, asked.seed, 500).unwrap();
    run.advance(123);
    run.advance(10_000);
    assert_eq!(run.outcomes(), firsts);
    let refused = |count, shot: Shot| {
        let run = ManyStrokes::new(scene.clone(), from, &shot, asked.seed, count);
        run.err().unwrap().to_string()
    };
    assert_eq!(refused(0, shot), "n is 0; it must be 1 to 10,000,000");
    let putt = Shot {
        stroke: Stroke::Putt,
        ..shot
    };
    assert_eq!(
        refused(9, putt),
        "a putt cannot be played from the lie \"rough\""
    );
}

#[test]
fn a_ball_lies_where_one_can() {
    let hole = hole();
    let lying = |x, y, lie| Situation::lying(&hole, Point::new(x, y), lie);
    assert_eq!(lying(0.0, 0.0, None).unwrap().lie, Lie::Tee);
    assert_eq!(lying(0.0, 250.0, None).unwrap().lie, Lie::Fairway);
    assert_eq!(lying(0.0, 250.0, Some(Lie::Rough)).unwrap().lie, Lie::Rough);
    assert_eq!(lying(0.0, 400.0, None).unwrap().lie, Lie::Green);
    let words = |x, y, lie| lying(x, y, lie).unwrap_err().to_string();
    assert!(words(0.0, 250.0, Some(Lie::Green)).starts_with("lie is \"green\" at (0, 250)"));
    assert!(words(0.0, 400.0, Some(Lie::Rough)).starts_with("lie is \"rough\" at (0, 400)"));
    assert!(words(f64::NAN, 1.0, None).starts_with("at is (NaN, 1), not a finite number"));
    assert!(words(0.0, 9e9, None).contains("more than 2,000 yards from the pin"));
    let pond = words(14.0, 365.0, None);
    assert!(
        pond.contains("in a penalty area") && pond.ends_with("as it lies there"),
        "{pond}"
    );
    assert_eq!(
        lying(14.0, 365.0, Some(Lie::Rough)).unwrap().lie,
        Lie::Rough
    );
}

/// A plan whose place is behind the ball is refused where play begins, not on the tee.
#[test]
fn plans_are_checked_where_play_begins() {
    let along = |along| Instruction::Shot {
        club: "5-iron".to_owned(),
        aim: Aim::Along { along, right: 0.0 },
        carry: None,
    };
    let from = |y, along_yards| {
        let plan = Plan::new("p", vec![along(along_yards)], Then::Direct).unwrap();
        let asked = Question {
            start: Some(Situation::lying(&hole(), Point::new(0.0, y), None).unwrap()),
            ..question(100)
        };
        Comparison::new(scene(), &[plan], asked).map(played)
    };
    assert!(from(200.0, 340.0).unwrap().mean(0).mean < 4.5);
    let refused = from(250.0, 260.0).unwrap_err().to_string();
    assert!(
        refused.contains("it must be more than 270 yards along the line of play"),
        "{refused}"
    );
}
