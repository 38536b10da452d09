//! The kernel and the play of a hole: right answers where they are known, and what holds in every play.
use crate::common;

use common::{rectangle, scene, straight, up_the_plan};
use proptest::prelude::*;
use std::sync::{Arc, OnceLock};
use wideberth::Run;
use wideberth::geometry::Point;
use wideberth::hole::{Hole, Surface};
use wideberth::noise::{Noise, Seed};
use wideberth::plan::{Aim, Instruction, Plan, Scene, Strategy, Then};
use wideberth::player::{Club, ClubId, ClubParts, Lie, MishitShape, Player, Touch};
use wideberth::rank::{Comparison, Length, Question, record};
use wideberth::rules::{Drop, Options, Procedure};
use wideberth::shot::{Events, Next, Shot, Stroke};
use wideberth::simulate::Recording;
use wideberth::situation::Situation;

/// A player with one club and no error but what the club's parts say.
fn one_club(parts: ClubParts) -> Player {
    let mut player = Player::from_handicap(18.0)
        .expect("a handicap")
        .without_spread()
        .into_parts();
    player.clubs = vec![Club::new(parts).expect("a club")];
    for lie in &mut player.lies {
        *lie = wideberth::player::LieEffect::NONE;
    }
    Player::new(player).expect("a player")
}

/// Full swings at the pin until the ball is on the green, then putts.
struct Hammer;

impl Strategy for Hammer {
    fn choose(&self, scene: &Scene, from: Situation, _: u8) -> Shot {
        let pin = scene.hole().pin();
        let stroke = if from.lie == Lie::Green {
            Stroke::Putt
        } else {
            Stroke::Swing(ClubId(0))
        };
        Shot {
            stroke,
            target: pin + (pin - from.at) * 100.0,
            carry: f64::INFINITY,
        }
    }
}

/// Scores of the Hardy hole: a good shot counts +2, an ordinary one +1, a bad one nothing, and the hole
/// ends when the total reaches par.
///
/// Source: Hardy 1945; values computed independently, as a chain of states, and but for the last row from the probability
/// function of van der Ven 2012, too. Played by the real engine, on fairway all the way, where every ball stops dead: one
/// club that carries 200 yards flush, half of it when it is missed one way and a twentieth when it is missed the other, for
/// with a mildness of 0 every miss is the worst. The green begins just short of where `par` ordinary shots end, which nine
/// bad ones do not reach. Then one putt, which never misses.
#[test]
#[expect(
    clippy::approx_constant,
    reason = "a share that happens to look like pi / 6"
)]
fn hardy_hole() {
    let table: [(f64, f64, u8, f64, f64, [f64; 5]); 5] = [
        (
            0.20,
            0.10,
            3,
            2.8944,
            0.0331,
            [0.3200, 0.5050, 0.1419, 0.0277, 0.0046],
        ),
        (
            0.20,
            0.10,
            4,
            3.8012,
            0.0425,
            [0.0400, 0.3580, 0.4149, 0.1446, 0.0344],
        ),
        (
            0.20,
            0.10,
            5,
            4.7108,
            0.0500,
            [0.0920, 0.3608, 0.3549, 0.1423, 0.0392],
        ),
        (
            0.10,
            0.10,
            4,
            4.1000,
            0.0597,
            [0.0100, 0.2100, 0.5235, 0.1968, 0.0482],
        ),
        (
            0.10,
            0.25,
            4,
            4.8442,
            0.2736,
            [0.0100, 0.1448, 0.3127, 0.2590, 0.1508],
        ),
    ];
    const PLAYS: u64 = 100_000;
    for (good, bad, par, mean, double, pmf) in table {
        let missed = 1.0 - good;
        let shape = MishitShape {
            duff_part: bad / missed,
            duff_carry: 0.05,
            duff_carry_sd: 0.0,
            duff_run: 0.0,
            wild_carry: 0.5,
            wild_carry_sd: 0.0,
            wild_side: 0.0,
            wild_run: 0.0,
            mildness: 0.0,
            ..MishitShape::default()
        };
        let club = ClubParts {
            // Half of all that are missed count as mishits.
            mishit_share: 0.5 * missed,
            mishit_shape: shape,
            ..ClubParts::exact("club", 200.0)
        };
        let player = one_club(club);
        let near = 100.0 * f64::from(par);
        let fairway = rectangle(Surface::Fairway, (-20.0, 20.0), (-20.0, near + 500.0));
        let green = rectangle(Surface::Green, (-20.0, 20.0), (near - 1.0, near + 400.0));
        let hole = up_the_plan(par, near + 62.5, vec![fairway, green]);
        let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
        let plan = Plan::new("hammer", vec![], Then::Custom(Arc::new(Hammer))).expect("a plan");
        let mut question = Question::new(Seed(5));
        question.length = Length::Plays(PLAYS);
        let mut run = Comparison::new(scene, &[plan], question).expect("a comparison");
        run.advance(PLAYS);
        let ranking = run.ranking();
        let found = ranking.mean(0);
        // One putt more than Hardy's shots. Five standard errors: false-alarm rate 6e-7 a figure.
        assert!(
            (found.mean - 1.0 - mean).abs() < 5.0 * found.standard_error + 5e-5,
            "{good} {bad} {par}: {found:?}"
        );
        let doubles = ranking.at_least(0, par + 2 + 1);
        assert!((doubles.mean - double).abs() < 5.0 * doubles.standard_error + 5e-5);
        let first = if par == 5 { 3 } else { 2 };
        for (score, share) in (first + 1..).zip(pmf) {
            let p = ranking.at_least(0, score).mean - ranking.at_least(0, score + 1).mean;
            let error = (share * (1.0 - share) / PLAYS as f64).sqrt();
            assert!(
                (p - share).abs() < 5.0 * error + 5e-5,
                "{good} {bad} {par}: {score} has {p}, not {share}"
            );
        }
    }
}

#[test]
fn without_spread_the_score_is_known() {
    // 400 yards with a club that carries 100 exactly: four swings, the fourth stone dead. Partial swings count.
    let player = one_club(ClubParts::exact("club", 100.0));
    let scene = Scene::new(
        Arc::new(straight(4, 400.0, vec![])),
        Arc::new(player.prepare()),
    )
    .expect("a scene");
    for then in [Then::Direct, Then::Steady] {
        let plan = Plan::new("plain", vec![], then).expect("a plan");
        let question = Question {
            length: Length::Plays(10),
            ..Question::new(Seed(0))
        };
        let mut run = record(scene.clone(), &plan, &question).expect("a recording");
        run.advance(10);
        let scores: Vec<u8> = run.plays().iter().map(|p| p.score).collect();
        assert!(
            scores.iter().all(|&s| s == scores[0] && s <= 6),
            "{scores:?}"
        );
    }
}

#[test]
fn the_crossing_is_found_on_the_actual_path() {
    // A ball that pitches in the pond is dropped behind the edge that its flight crossed.
    let hole = straight(
        4,
        400.0,
        vec![rectangle(Surface::PenaltyRed, (-30.0, 30.0), (90.0, 130.0))],
    );
    let player = one_club(ClubParts::exact("club", 100.0));
    let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
    let tee = Situation::on_the_tee(scene.hole());
    let shot = Shot {
        stroke: Stroke::Swing(ClubId(0)),
        target: Point::new(0.0, 400.0),
        carry: 100.0,
    };
    let outcome = scene.resolve(tee, &shot, &Noise::NONE);
    assert!(outcome.events.has(Events::PENALTY_AREA));
    let Next::Relief(relief) = outcome.next else {
        panic!("no relief: {outcome:?}")
    };
    let options = relief.options(scene.hole());
    let back: Vec<_> = options
        .as_slice()
        .iter()
        .filter(|d| d.procedure == Procedure::BackOnTheLine)
        .collect();
    // Crossed at (0, 90); the drop is a quarter of a yard behind it.
    assert!((back[0].situation.at - Point::new(0.0, 89.75)).norm() < 1e-9);
}

/// A ball that comes down short of the water and runs into it crossed the edge on the ground (Rule 17.1d): there it is
/// dropped, not where its flight was over dry land or over the pond.
#[test]
fn a_ball_that_runs_into_water_crossed_where_it_ran() {
    let pond = rectangle(Surface::PenaltyRed, (-30.0, 30.0), (90.0, 140.0));
    let hole = straight(4, 400.0, vec![pond]);
    let runner = ClubParts {
        run: 0.3,
        ..ClubParts::exact("club", 80.0)
    };
    let player = one_club(runner);
    let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
    let tee = Situation::on_the_tee(scene.hole());
    let shot = Shot {
        stroke: Stroke::Swing(ClubId(0)),
        target: Point::new(0.0, 400.0),
        carry: 80.0,
    };
    let outcome = scene.resolve(tee, &shot, &Noise::NONE);
    assert!(outcome.landed.y < 85.0 && outcome.events.has(Events::PENALTY_AREA));
    let Next::Relief(relief) = outcome.next else {
        panic!("no relief: {outcome:?}")
    };
    let options = relief.options(scene.hole());
    let mut drops = options.as_slice().iter();
    let back = drops.find(|d| d.procedure == Procedure::BackOnTheLine);
    let dropped = back.expect("a drop on the line").situation.at;
    assert!(
        (dropped - Point::new(0.0, 89.75)).norm() < 1e-9,
        "{dropped}"
    );
}

/// In trees 4 of 100 balls are lost and 6 unplayable, in deep rough 3 and 3, told by one uniform; nowhere else is any
/// searched for.
#[test]
fn how_many_balls_are_lost_and_unplayable() {
    let player = one_club(ClubParts::exact("club", 100.0));
    let what = |surface, search: f64| {
        let ground = rectangle(surface, (-60.0, 60.0), (20.0, 300.0));
        let hole = straight(4, 400.0, vec![ground]);
        let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
        let shot = Shot {
            stroke: Stroke::Swing(ClubId(0)),
            target: Point::new(0.0, 400.0),
            carry: 100.0,
        };
        // No tree stops it on the way.
        let luck = Noise {
            search,
            trees: 1e-300,
            ..Noise::NONE
        };
        let outcome = scene.resolve(Situation::on_the_tee(scene.hole()), &shot, &luck);
        match outcome.events {
            e if e.has(Events::LOST) => "lost",
            e if e.has(Events::UNPLAYABLE) => "unplayable",
            _ => "played",
        }
    };
    for (surface, lost, either) in [
        (Surface::Trees, 0.04, 0.10),
        (Surface::DeepRough, 0.03, 0.06),
    ] {
        for (search, expected) in [
            (0.0, "lost"),
            (lost - 1e-6, "lost"),
            (lost + 1e-6, "unplayable"),
            (either - 1e-6, "unplayable"),
            (either + 1e-6, "played"),
            (0.999, "played"),
        ] {
            assert_eq!(what(surface, search), expected, "{surface:?} {search}");
        }
    }
    for surface in [Surface::Rough, Surface::Fairway, Surface::Bunker] {
        assert_eq!(what(surface, 0.0), "played", "{surface:?}");
    }
}

/// Takes two penalty strokes for every relief, as Rule 19.3b asks in a bunker.
struct Costly;

impl Strategy for Costly {
    fn choose(&self, scene: &Scene, from: Situation, played: u8) -> Shot {
        Hammer.choose(scene, from, played)
    }

    fn take(&self, scene: &Scene, options: &Options, _: u8) -> Drop {
        let free = options.as_slice()[0];
        let at = Point::new(0.0, scene.hole().pin().y - 5.0);
        let situation = Situation {
            at,
            lie: Lie::Green,
        };
        Drop {
            situation,
            penalty: 2,
            ..free
        }
    }
}

/// A stroke into the water, two penalty strokes and putts of five yards: 1 + 2 + putts, and both penalties are told.
#[test]
fn every_penalty_stroke_counts() {
    let moat = rectangle(Surface::PenaltyYellow, (-90.0, 90.0), (60.0, 340.0));
    let hole = straight(4, 400.0, vec![moat]);
    let player = one_club(ClubParts::exact("club", 100.0));
    let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
    let plan = Plan::new("costly", vec![], Then::Custom(Arc::new(Costly))).expect("a plan");
    let question = Question {
        length: Length::Plays(20),
        ..Question::new(Seed(1))
    };
    let mut run = record(scene, &plan, &question).expect("a recording");
    run.advance(20);
    for play in run.plays() {
        assert_eq!((play.penalties, play.score), (2, 3 + play.putts));
    }
    assert!(run.strokes().iter().any(|row| row.told.penalty == 2));
}

/// A hole with everything on it, for what must hold in every play.
fn eventful() -> Hole {
    straight(
        4,
        390.0,
        vec![
            // So wide that no ball comes down beyond it.
            rectangle(Surface::OutOfBounds, (-1_500.0, -45.0), (-100.0, 500.0)),
            rectangle(Surface::Trees, (28.0, 60.0), (80.0, 330.0)),
            rectangle(Surface::DeepRough, (-45.0, -30.0), (80.0, 330.0)),
            rectangle(Surface::FirstCut, (-22.0, 22.0), (90.0, 370.0)),
            rectangle(Surface::Fairway, (-17.0, 17.0), (90.0, 370.0)),
            rectangle(Surface::PenaltyRed, (10.0, 40.0), (200.0, 240.0)),
            rectangle(Surface::PenaltyYellow, (-45.0, 60.0), (330.0, 345.0)),
            rectangle(Surface::Bunker, (-26.0, -16.0), (370.0, 400.0)),
            rectangle(Surface::Fringe, (-17.0, 17.0), (373.0, 407.0)),
        ],
    )
}

fn recorded(handicap: f64, then: Then, plays: u64, seed: u64) -> Recording {
    let plan = Plan::new("plan", vec![], then).expect("a plan");
    let question = Question {
        length: Length::Plays(plays),
        ..Question::new(Seed(seed))
    };
    let mut run = record(scene(eventful(), handicap), &plan, &question).expect("a recording");
    run.advance(plays);
    run
}

#[test]
fn every_play_adds_up() {
    for then in [Then::Direct, Then::Steady] {
        let run = recorded(24.0, then, 3_000, 8);
        let mut strokes = run.strokes().iter().peekable();
        for (number, played) in (0..).zip(run.plays()) {
            let (mut count, mut penalties, mut last) = (0, 0, None);
            while let Some(row) = strokes.next_if(|row| row.play == number) {
                count += 1;
                penalties += row.told.penalty;
                if let Some(expected) = last {
                    assert_eq!(
                        row.told.from, expected,
                        "a stroke starts where the last one led"
                    );
                }
                let rest = row.told.outcome.rest;
                assert!(rest.x.is_finite() && rest.y.is_finite() && rest.coords.norm() < 2_000.0);
                match row.told.to {
                    Some(to) => {
                        assert!(
                            Lie::on(run.scene().hole().surface_at(to.at)).is_some(),
                            "{to:?} cannot be played"
                        );
                        last = Some(to);
                    }
                    None => assert_eq!(row.told.outcome.next, Next::Holed),
                }
            }
            assert_eq!(played.score, count + penalties);
            assert_eq!(played.penalties, penalties);
            assert!(!played.unfinished);
        }
        assert!(strokes.next().is_none());
    }
}

#[test]
fn drops_obey_the_rules_in_every_play() {
    let run = recorded(30.0, Then::Direct, 6_000, 2);
    let hole = run.scene().hole();
    let mut seen = std::collections::BTreeMap::new();
    for row in run.strokes() {
        let (Some(procedure), Some(to)) = (row.told.relief, row.told.to) else {
            continue;
        };
        *seen.entry(format!("{procedure:?}")).or_insert(0) += 1;
        match procedure {
            Procedure::StrokeAndDistance => assert_eq!(to, row.told.from),
            // From the crossing point a drop is never nearer the hole; the ball at rest may be farther off.
            Procedure::Lateral | Procedure::BackOnTheLine => {
                assert!(!hole.surface_at(to.at).is_penalty_area())
            }
            Procedure::BackOutsideTheBunker => assert_eq!(row.told.penalty, 2),
            Procedure::WrongGreen => assert_eq!(row.told.penalty, 0),
        }
    }
    assert!(
        seen.len() >= 3,
        "the hole should try most procedures: {seen:?}"
    );
}

#[test]
fn the_answer_does_not_depend_on_threads_or_waves() {
    let ask = |threads: usize, wave: u64| {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .expect("a pool");
        pool.install(|| {
            let plans = ["direct", "steady"].map(|then| {
                Plan::new(then, vec![], Then::from_name(then).expect("a strategy")).expect("a plan")
            });
            let question = Question {
                length: Length::Plays(3_000),
                ..Question::new(Seed(77))
            };
            let mut run =
                Comparison::new(scene(eventful(), 12.0), &plans, question).expect("a comparison");
            while !run.is_finished() {
                run.advance(wave);
            }
            run.ranking()
        })
    };
    let one = ask(1, 3_000);
    assert_eq!(one, ask(2, 3_000));
    assert_eq!(one, ask(7, 3_000));
    assert_eq!(one, ask(2, 17));
    assert_eq!(one, ask(7, 1_001));
}

#[test]
fn a_mirrored_hole_scores_the_same_on_average() {
    // Mirror the hole and the luck: every play mirrors. The luck is mirrored by turning the sign of the
    // sideways normal, so outcomes are compared stroke by stroke.
    let mirror = |hole: &Hole| {
        let features = hole.features()[..hole.features().len() - 1]
            .iter()
            .map(|f| {
                let (low, high) = f.outline.bounds();
                rectangle(f.surface, (-high.x, -low.x), (low.y, high.y))
            });
        straight(4, 390.0, features.collect())
    };
    let plain = scene(eventful(), 18.0);
    let turned = scene(mirror(plain.hole()), 18.0);
    let flip = |p: Point| Point::new(-p.x, p.y);
    for noise in wideberth::noise::spread(2_000) {
        let mirrored = Noise {
            side: -noise.side,
            ..noise
        };
        let from = Situation {
            at: Point::new(3.0, 120.0),
            lie: Lie::Fairway,
        };
        let shot = plain.shot_at(from, Point::new(-5.0, 300.0));
        let a = plain.resolve(from, &shot, &noise);
        let twin = Shot {
            target: flip(shot.target),
            ..shot
        };
        let b = turned.resolve(
            Situation {
                at: flip(from.at),
                ..from
            },
            &twin,
            &mirrored,
        );
        assert!((flip(a.rest) - b.rest).norm() < 1e-9);
        assert_eq!((a.surface, a.events), (b.surface, b.events));
    }
}

#[test]
fn a_hole_that_cannot_be_finished_is_broken_off() {
    // A yellow moat that the one club never clears: dropped behind it again and again.
    let hole = straight(
        4,
        400.0,
        vec![rectangle(
            Surface::PenaltyYellow,
            (-400.0, 400.0),
            (150.0, 340.0),
        )],
    );
    let player = one_club(ClubParts::exact("club", 90.0));
    let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
    let plan = Plan::new("into the moat", vec![], Then::Direct).expect("a plan");
    let question = Question {
        length: Length::Plays(50),
        ..Question::new(Seed(1))
    };
    let mut run = record(scene.clone(), &plan, &question).expect("a recording");
    run.advance(50);
    assert!(
        run.plays()
            .iter()
            .all(|p| p.unfinished && p.score == wideberth::simulate::STROKE_CAP)
    );
    // With a maximum score (Rule 21.2) the ball is picked up in good order.
    let question = Question {
        maximum_score: Some(9),
        ..question
    };
    let mut run = record(scene, &plan, &question).expect("a recording");
    run.advance(50);
    assert!(run.plays().iter().all(|p| !p.unfinished && p.score == 9));
}

/// The second stroke of a plan from a place on the fairway of a hole of 390 yards, the first being a pitch of 20 yards, with
/// what was left to the pin before it; or why the plan is refused. Nobody strays or misses.
fn second_stroke(then: Vec<Instruction>, y: f64) -> Result<(Shot, f64), String> {
    let fairway = rectangle(Surface::Fairway, (-20.0, 20.0), (20.0, 375.0));
    let hole = straight(4, 390.0, vec![fairway]);
    let player = Player::from_handicap(18.0)
        .expect("a player")
        .without_spread();
    let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
    let pitch = Instruction::Exactly {
        stroke: "pitch".to_owned(),
        over: Aim::At { x: 0.0, y: 390.0 },
        carry: Some(20.0),
    };
    let instructions = [pitch].into_iter().chain(then).collect();
    let plan = Plan::new("plan", instructions, Then::Direct).expect("a plan");
    let start = Situation {
        at: Point::new(0.0, y),
        lie: Lie::Fairway,
    };
    let question = Question {
        start: Some(start),
        ..Question::new(Seed(1))
    };
    let mut run = record(scene, &plan, &question).map_err(|fault| fault.to_string())?;
    run.advance(1);
    let second = run.strokes()[1].told;
    Ok((second.shot, 390.0 - second.from.at.y))
}

/// From 120 yards or less a lay-up to 100 yards is done, and the next instruction is played; from farther away it is due. Where
/// it is done before anything is played, the plan is refused.
#[test]
fn a_lay_up_that_is_nearly_reached_is_done() {
    let more_club = Instruction::AtPin { clubs: 2 };
    let both = || vec![Instruction::Leave { yards: 100.0 }, more_club.clone()];
    let pitched = second_stroke(vec![], 250.0).expect("a stroke").1;
    let run = 140.0 - pitched;
    for left in [101.0, 110.0, 119.5] {
        let y = 390.0 - left - run;
        let (next, there) = second_stroke(vec![more_club.clone()], y).expect("a stroke");
        assert!((there - left).abs() < 0.2, "{there}, not {left}");
        assert_eq!(
            second_stroke(both(), y).expect("a stroke").0,
            next,
            "{left}"
        );
    }
    let (due, _) = second_stroke(both(), 390.0 - 120.5 - run).expect("a stroke");
    assert!(
        (due.target - Point::new(0.0, 290.0)).norm() < 2.0,
        "{due:?}"
    );
    let refused = second_stroke(both(), 390.0 - 119.9).expect_err("overtaken");
    assert!(
        refused.contains("leave is 100; on this hole it must be below 100 yards"),
        "{refused}"
    );
}

/// An exact stroke is played from every lie it suits, over the very place; elsewhere the strategy goes on.
#[test]
fn an_exact_stroke_is_played_as_it_is_told() {
    let chip = |stroke: &str| Instruction::Exactly {
        stroke: stroke.to_owned(),
        over: Aim::At { x: 3.0, y: 380.0 },
        carry: Some(9.0),
    };
    let from = |lie, instruction| {
        let plan = Plan::new("p", vec![instruction], Then::Direct).expect("a plan");
        let scene = scene(straight(4, 390.0, vec![]), 18.0);
        let question = Question {
            start: Some(Situation {
                at: Point::new(1.0, 370.0),
                lie,
            }),
            ..Question::new(Seed(1))
        };
        let mut run = record(scene, &plan, &question).expect("a recording");
        run.advance(1);
        run.strokes()[0].told.shot
    };
    for (lie, stroke) in [
        (Lie::Fairway, Touch::Chip),
        (Lie::Bunker, Touch::BunkerShot),
        (Lie::Trees, Touch::Punch),
        (Lie::DeepRough, Touch::Pitch),
    ] {
        let told = Shot {
            stroke: Stroke::Touch(stroke),
            target: Point::new(3.0, 380.0),
            carry: 9.0,
        };
        assert_eq!(from(lie, chip(&stroke.spoken())), told, "{lie:?}");
    }
    let passed_over = from(Lie::Fairway, chip("bunker shot"));
    assert_eq!(passed_over, from(Lie::Fairway, chip("putt")));
    assert_ne!(passed_over.stroke, Stroke::Touch(Touch::BunkerShot));
}

/// What would be passed over on the tee is refused before anything is played, with the plan, the instruction, the value and
/// what is allowed on that hole.
#[test]
fn an_instruction_that_is_never_played_is_refused() {
    let along = |along: f64| Aim::Along { along, right: 0.0 };
    let shot = |place: f64| Instruction::Shot {
        club: "7-iron".to_owned(),
        aim: along(place),
        carry: None,
    };
    let carry = |place: f64| Instruction::Carry {
        over: along(place),
        by: 10.0,
    };
    let refused = |instruction: Instruction| {
        let plan = Plan::new("short", vec![shot(140.0), instruction], Then::Steady).unwrap();
        let scene = scene(straight(4, 390.0, vec![]), 18.0);
        record(scene, &plan, &Question::new(Seed(1)))
            .err()
            .map(|fault| fault.to_string())
    };
    for (bad, good, words) in [
        (
            Instruction::Leave { yards: 370.0 },
            Instruction::Leave { yards: 369.0 },
            ["leave is 370", "below 370 yards"],
        ),
        (
            Instruction::Advance { yards: 380.0 },
            Instruction::Advance { yards: 369.0 },
            ["advance is 380", "below 370 yards"],
        ),
        (
            shot(20.0),
            shot(21.0),
            ["aim is 20", "more than 20 yards along"],
        ),
        (
            carry(3.0),
            carry(21.0),
            ["place to carry is 3", "more than 20 yards along"],
        ),
    ] {
        let fault = refused(bad).expect("a refusal");
        assert!(fault.contains("plan \"short\", instruction 2"), "{fault}");
        assert!(words.iter().all(|word| fault.contains(word)), "{fault}");
        assert_eq!(refused(good), None);
    }
    assert_eq!(refused(Instruction::AtPin { clubs: 0 }), None);
}

#[test]
fn a_plan_is_followed_and_replayed() {
    // The tee shot aims out of bounds on purpose: the same instruction comes again after stroke and distance.
    let hole = straight(
        4,
        400.0,
        vec![rectangle(
            Surface::OutOfBounds,
            (40.0, 300.0),
            (50.0, 300.0),
        )],
    );
    let player = one_club(ClubParts::exact("club", 100.0));
    let scene = Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene");
    let out = Instruction::Shot {
        club: "club".into(),
        aim: Aim::At { x: 80.0, y: 60.0 },
        carry: None,
    };
    let plan = Plan::new("out", vec![out], Then::Direct).expect("a plan");
    let question = Question {
        length: Length::Plays(1),
        maximum_score: Some(9),
        ..Question::new(Seed(1))
    };
    // The fourth makes it eight, and the ball is picked up there.
    let eight = Question {
        maximum_score: Some(8),
        ..question.clone()
    };
    let mut run = record(scene.clone(), &plan, &eight).expect("a recording");
    run.advance(1);
    assert_eq!((run.plays()[0].penalties, run.plays()[0].score), (4, 8));
    let mut run = record(scene, &plan, &question).expect("a recording");
    run.advance(1);
    assert!(
        run.strokes()
            .iter()
            .all(|row| row.told.outcome.events.has(Events::OUT_OF_BOUNDS))
    );
    // Two strokes a time: the fifth takes the score past nine.
    assert_eq!((run.plays()[0].penalties, run.plays()[0].score), (5, 9));
}

proptest! {
    /// Whatever the luck and wherever the ball lies, a stroke has an outcome that can be played on.
    #[test]
    fn resolve_never_fails(
        x in -100.0..100.0f64, y in -20.0..420.0f64, tx in -500.0..500.0f64, ty in -500.0..900.0f64,
        depth in -8.0..8.0f64, side in -8.0..8.0f64, strike in 0.0..1.0f64, trees in 0.0..1.0f64,
        search in 0.0..1.0f64,
    ) {
        static SCENE: OnceLock<Scene> = OnceLock::new();
        let scene = SCENE.get_or_init(|| scene(eventful(), 20.0));
        let at = Point::new(x, y);
        let Some(lie) = Lie::on(scene.hole().surface_at(at)) else { return Ok(()) };
        let from = Situation { at, lie };
        let noise = Noise { depth, side, strike, trees, search };
        let outcome = scene.resolve(from, &scene.shot_at(from, Point::new(tx, ty)), &noise);
        prop_assert!(outcome.rest.x.is_finite() && outcome.rest.y.is_finite());
        match outcome.next {
            Next::Holed => {}
            Next::Play(s) => prop_assert!(Lie::on(scene.hole().surface_at(s.at)) == Some(s.lie)),
            Next::Relief(relief) => {
                for drop in relief.options(scene.hole()).as_slice() {
                    prop_assert!(Lie::on(scene.hole().surface_at(drop.situation.at)).is_some());
                }
            }
        }
    }
}
