//! A solved hole: what it promises is what happens, known answers come out, and more trouble never helps.
use crate::common;

use common::{rectangle, straight, up_the_plan};
use std::sync::{Arc, OnceLock};
use wideberth::Run;
use wideberth::geometry::{Point, Polygon};
use wideberth::hole::{Canopy, Feature, Hole, Surface};
use wideberth::noise::Seed;
use wideberth::plan::{Direct, Instruction, Plan, Scene, Steady, Strategy, Then};
use wideberth::player::{Club, ClubParts, Lie, LieEffect, Player};
use wideberth::rank::{Comparison, Length, Question, Ranking, record};
use wideberth::shot::Shot;
use wideberth::situation::Situation;
use wideberth::solve::{
    Advice, Fronting, MOST_TOLD, Mapping, Objective, Solution, SolveFault, Solving, Task,
};

fn solve(scene: &Arc<Scene>, task: Task) -> Arc<Solution> {
    let mut run = Solving::new(scene.clone(), task).expect("a sensible task");
    while !run.is_finished() {
        run.advance(10);
    }
    Arc::new(run.solution().expect("a solution"))
}

fn task(objective: Objective) -> Task {
    Task {
        objective,
        cell: 4.0,
        ..Task::default()
    }
}

fn fewest(scene: &Arc<Scene>) -> Arc<Solution> {
    solve(scene, task(Objective::Fewest))
}

/// The pupil on the hole, and the hole solved for fewest strokes: once for all tests.
fn usual() -> (Arc<Scene>, Arc<Solution>) {
    static USUAL: OnceLock<(Arc<Scene>, Arc<Solution>)> = OnceLock::new();
    let solved = USUAL.get_or_init(|| {
        let scene = scene(hole(Vec::new()), &pupil());
        let best = fewest(&scene);
        (scene, best)
    });
    solved.clone()
}

fn play(scene: &Scene, strategy: Arc<dyn Strategy>, plays: u64) -> Ranking {
    let plan = Plan::new("played", Vec::new(), Then::Custom(strategy)).expect("a plan");
    let question = Question {
        length: Length::Plays(plays),
        ..Question::new(Seed(20))
    };
    let mut run = Comparison::new(scene.clone(), &[plan], question).expect("a question");
    while !run.is_finished() {
        run.advance(plays);
    }
    run.ranking()
}

fn scene(hole: Hole, player: &Player) -> Arc<Scene> {
    Arc::new(Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene"))
}

fn pupil() -> Player {
    Player::from_handicap(18.0).expect("a handicap")
}

/// A short par 4 with a fairway, a bunker, water and out of bounds, and what is given besides.
fn hole(more: Vec<Feature>) -> Hole {
    mirrored(more, 1.0)
}

/// The same with the sides changed for -1.
fn mirrored(more: Vec<Feature>, side: f64) -> Hole {
    let sided = |surface, x: (f64, f64), y| {
        let (a, b) = (side * x.0, side * x.1);
        rectangle(surface, (a.min(b), a.max(b)), y)
    };
    let mut features = vec![
        rectangle(Surface::Fairway, (-16.0, 16.0), (90.0, 275.0)),
        sided(Surface::OutOfBounds, (38.0, 300.0), (-100.0, 500.0)),
        sided(Surface::Bunker, (-26.0, -17.0), (285.0, 305.0)),
        sided(Surface::PenaltyRed, (-60.0, -24.0), (120.0, 250.0)),
    ];
    features.extend(more);
    straight(4, 300.0, features)
}

/// Mean, whole distribution and the shares are within four and a half standard errors (false-alarm rate 7e-6 each) and
/// what the grid may be off: 0.01 strokes, half a point.
fn check_promise(scene: &Arc<Scene>, solution: &Arc<Solution>, strategy: Arc<dyn Strategy>) {
    let played = play(scene, strategy, 20_000);
    let mean = played.mean(0);
    let off = solution.from_the_tee() - mean.mean;
    assert!(
        off.abs() < 4.5 * mean.standard_error + 0.01,
        "{} played {mean:?}",
        solution.from_the_tee()
    );
    let shares = solution.distribution();
    assert_eq!(shares.len(), usize::from(MOST_TOLD) + 1);
    assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-9);
    for (score, share) in (0_u8..MOST_TOLD).zip(&shares) {
        let counted = played.at_most(0, score).mean
            - score
                .checked_sub(1)
                .map_or(0.0, |less| played.at_most(0, less).mean);
        let error = (share * (1.0 - share) / 20_000.0).sqrt();
        assert!(
            (counted - share).abs() < 4.5 * error + 0.005,
            "{score}: {share} played {counted}"
        );
    }
}

#[test]
fn what_it_promises_is_what_happens() {
    let (scene, best) = usual();
    check_promise(&scene, &best, best.clone());
    // The sensible way comes near it, but no nearer: a false alarm once in 300,000 times.
    let steady = play(&scene, Arc::new(Steady::new(&scene)), 20_000).mean(0);
    let most = steady.mean + 4.5 * steady.standard_error;
    assert!(best.from_the_tee() < most, "{steady:?}");
    let direct = play(&scene, Arc::new(Direct::new(&scene)), 20_000).mean(0);
    assert!(best.from_the_tee() < direct.mean - 0.03, "{direct:?}");
}

#[test]
fn a_given_strategy_is_valued_as_it_plays() {
    let scene = scene(hole(Vec::new()), &pupil());
    let strategies: [Arc<dyn Strategy>; 2] =
        [Arc::new(Steady::new(&scene)), Arc::new(Direct::new(&scene))];
    for strategy in strategies {
        let mut run = Solving::valuing(scene.clone(), strategy.clone(), 2.0).expect("a strategy");
        while !run.is_finished() {
            run.advance(1);
        }
        let valued = Arc::new(run.solution().expect("valued"));
        check_promise(&scene, &valued, strategy);
    }
}

/// A player whose one club lands in a circular normal about the pin, and whose ball stops dead and is putted in.
fn archer(length: f64, spread: f64) -> Player {
    let club = ClubParts {
        carry_sd: spread,
        lateral_sd: spread,
        ..ClubParts::exact("bow", length)
    };
    let mut parts = pupil().without_spread().into_parts();
    parts.clubs = vec![Club::new(club).expect("a club")];
    parts.lies = parts.lies.map(|_| LieEffect::NONE);
    Player::new(parts).expect("a player")
}

/// A round green, and everything but the tee and the green out of bounds.
fn island(length: f64, radius: f64) -> Hole {
    let corner = |i: u32| {
        let (sin, cos) = (f64::from(i) * std::f64::consts::TAU / 256.0).sin_cos();
        Point::new(radius * sin, length + radius * cos)
    };
    let ring = (0..256).map(corner).collect();
    let green = Feature {
        surface: Surface::Green,
        outline: Polygon::from_points(vec![ring]).expect("a disc"),
        name: None,
        canopy: None,
    };
    let features = vec![
        rectangle(Surface::OutOfBounds, (-400.0, 400.0), (-200.0, 600.0)),
        rectangle(Surface::Tee, (-4.0, 4.0), (-4.0, 4.0)),
        green,
    ];
    up_the_plan(3, length, features)
}

/// The chance to miss a disc of radius R with a circular normal of spread s is exp(-R^2 / 2 s^2) (Rayleigh 1880), and each
/// miss costs stroke and distance: v = 1 + miss (1 + v) + (1 - miss), so v = 2 / (1 - miss); of four strokes the chance is
/// 1 - miss^2.
#[test]
fn an_island_green_is_the_rayleigh_law() {
    for (spread, radius) in [(8.0, 14.0), (8.0, 9.0), (5.0, 3.5)] {
        let scene = scene(island(150.0, radius), &archer(150.0, spread));
        let best = fewest(&scene);
        let miss = (-radius * radius / (2.0 * spread * spread)).exp();
        let strokes = 2.0 / (1.0 - miss);
        // 8,192 even strokes tell the chance to about 0.002.
        let allowed = 0.003 * strokes / (1.0 - miss);
        let found = best.from_the_tee();
        assert!(
            (found - strokes).abs() < allowed,
            "{found} is not {strokes}"
        );
        assert!((best.within(2) - (1.0 - miss)).abs() < 0.004);
        assert!((best.within(3) - best.within(2)).abs() < 1e-9);
        assert!((best.within(4) - (1.0 - miss * miss)).abs() < 0.006);
        let four = solve(&scene, task(Objective::AtMost(4)));
        let tee = Situation::on_the_tee(scene.hole());
        let chance = four.chance(tee, None).expect("a chance");
        assert!((chance - (1.0 - miss * miss)).abs() < 0.006);
    }
}

#[test]
fn trouble_never_helps_and_clubs_never_hurt() {
    // Half of what two solutions of one hole may differ by.
    const SLACK: f64 = 0.006;
    let open = usual().1.from_the_tee();
    let water = rectangle(Surface::PenaltyYellow, (-60.0, 38.0), (200.0, 225.0));
    let wood = rectangle(Surface::Trees, (-36.0, -18.0), (150.0, 220.0));
    for trouble in [water, wood] {
        let harder = fewest(&scene(hole(vec![trouble]), &pupil())).from_the_tee();
        assert!(harder > open - SLACK, "{harder} against {open}");
    }
    let mut parts = pupil().into_parts();
    parts.clubs.retain(|club| club.name != "driver");
    let fewer = Player::new(parts).expect("a player");
    let harder = fewest(&scene(hole(Vec::new()), &fewer)).from_the_tee();
    assert!(harder > open - SLACK, "{harder} against {open}");
}

#[test]
fn mirrored_holes_are_worth_the_same() {
    let (_, one) = usual();
    let other = fewest(&scene(mirrored(Vec::new(), -1.0), &pupil()));
    let off = one.from_the_tee() - other.from_the_tee();
    assert!(off.abs() < 0.02, "{off}");
    let at = |x: f64| Situation {
        at: Point::new(x, 180.0),
        lie: Lie::Rough,
    };
    let off = one.expected_strokes(at(22.0)) - other.expected_strokes(at(-22.0));
    assert!(off.abs() < 0.045, "{off}");
    let off = one.expected_strokes(at(-22.0)) - other.expected_strokes(at(22.0));
    assert!(off.abs() < 0.045, "{off}");
}

#[test]
fn trying_everything_gains_next_to_nothing() {
    let scene = scene(
        straight(
            3,
            150.0,
            vec![
                rectangle(Surface::Bunker, (-24.0, -15.0), (135.0, 160.0)),
                rectangle(Surface::PenaltyRed, (16.0, 60.0), (120.0, 170.0)),
            ],
        ),
        &pupil(),
    );
    // Wide cells: it takes minutes otherwise.
    let with = |thorough| Task {
        cell: 6.0,
        thorough,
        ..Task::default()
    };
    let (usual, thorough) = (solve(&scene, with(false)), solve(&scene, with(true)));
    let off = usual.from_the_tee() - thorough.from_the_tee();
    assert!(off.abs() < 0.01, "{off}");
    // Everywhere: short, beside and behind, from whatever is there.
    let hole = scene.hole();
    let offs: Vec<f64> = (0..48)
        .map(|i| {
            hole.line()
                .at(20.0 + 3.0 * f64::from(i), f64::from(i * 7 % 39) - 19.0)
        })
        .filter_map(|at| {
            let lie = Lie::on(hole.surface_at(at)).filter(|lie| *lie != Lie::Green)?;
            let from = Situation { at, lie };
            Some(usual.expected_strokes(from) - thorough.expected_strokes(from))
        })
        .collect();
    let mean = offs.iter().sum::<f64>() / f64::from(u32::try_from(offs.len()).unwrap());
    println!("{} places: {mean:+.4}, {offs:.3?}", offs.len());
    // 0.009 measured, and 0.117 at the worst place, where the luck of 128 strokes prefers a lay-up.
    assert!(offs.len() > 30 && mean.abs() < 0.012, "{mean}");
    let worst = offs.iter().fold(0.0_f64, |worst, off| worst.max(off.abs()));
    assert!(worst < 0.13, "{offs:?}");
}

#[test]
fn playing_for_a_score_has_the_best_chance_of_it() {
    // What two solutions of one hole may differ by.
    const SLACK: f64 = 0.012;
    let (scene, best) = usual();
    let tee = Situation::on_the_tee(scene.hole());
    for score in [4, 5] {
        let for_it = solve(&scene, task(Objective::AtMost(score)));
        let chance = for_it.chance(tee, None).expect("a chance");
        let usual = best.within(score);
        assert!(chance > usual - 0.002, "{score}: {chance} against {usual}");
        assert!(for_it.from_the_tee() > best.from_the_tee() - SLACK);
        check_promise(&scene, &for_it, for_it.clone());
        // More strokes left, more chance; none where the hole cannot be reached.
        let mut last = 0.0;
        for left in 1..=score {
            let chance = for_it.chance(tee, Some(left)).expect("a chance");
            assert!(chance >= last - 1e-9);
            last = chance;
        }
        assert!(for_it.chance(tee, Some(1)).expect("a chance") < 1e-6);
    }
}

#[test]
fn safety_costs_strokes_and_is_kept() {
    let scene = scene(hole(Vec::new()), &pupil());
    let mut run = Fronting::new(scene.clone(), 2, 6.0).expect("a question");
    while !run.is_finished() {
        run.advance(1);
    }
    let points = run.points();
    assert!(points.len() >= 2, "{}", points.len());
    for pair in points.windows(2) {
        assert!(pair[0].mean <= pair[1].mean && pair[0].blow_up > pair[1].blow_up);
    }
    let last = points.last().expect("a point");
    let played = play(&scene, last.solution.clone(), 20_000);
    let blown = played.at_least(0, 6);
    assert!((blown.mean - last.blow_up).abs() < 4.5 * blown.standard_error + 0.004);
    let off = played.mean(0).mean - last.mean;
    assert!(
        off.abs() < 4.5 * played.mean(0).standard_error + 0.012,
        "{off}"
    );
}

#[test]
fn threads_and_waves_change_no_bit() {
    let scene = scene(hole(Vec::new()), &pupil());
    let coarse = || Task {
        cell: 8.0,
        objective: Objective::AtMost(5),
        ..Task::default()
    };
    let solve = |threads: usize, wave: u64| {
        let pool = rayon_pool(threads);
        pool.install(|| {
            let mut run = Solving::new(scene.clone(), coarse()).expect("a task");
            let mut told = Vec::new();
            while !run.is_finished() {
                run.advance(wave);
                told.push((run.done(), run.goal()));
            }
            assert!(told.iter().all(|&(done, goal)| done <= goal));
            let solution = Arc::new(run.solution().expect("a solution"));
            let mut map = Mapping::new(solution.clone(), Lie::Rough, 20.0, None).expect("a map");
            while !map.is_finished() {
                map.advance(wave);
            }
            let bits = |v: &f64| v.to_bits();
            let map = map.map().expect("a map");
            let mut all: Vec<u64> = map.values.iter().map(bits).collect();
            all.extend(solution.distribution().iter().map(bits));
            all.push(solution.from_the_tee().to_bits());
            all
        })
    };
    let one = solve(1, 1);
    assert_eq!(one, solve(3, 1));
    assert_eq!(one, solve(2, 1_000_000));
}

fn rayon_pool(threads: usize) -> rayon::ThreadPool {
    rayon::ThreadPoolBuilder::new()
        .num_threads(threads)
        .build()
        .expect("threads")
}

#[test]
fn advice_is_told_as_a_coach_tells_it() {
    let (scene, best) = usual();
    let tee = Situation::on_the_tee(scene.hole());
    let advice = best.advice(tee, None).expect("advice");
    let off = advice.strokes - best.from_the_tee();
    // Looked at again over more luck, another aim may come out a little better.
    assert!(off.abs() < 0.01, "{off}");
    assert!(advice.words.starts_with(&advice.club), "{}", advice.words);
    let runner_up = advice.runner_up.expect("another club");
    assert!(runner_up.cost > -0.003 && runner_up.name != advice.club);
    // At the flag with out of bounds on the right and water on the left is not free of cost, nor a gain.
    for mistake in &advice.mistakes {
        assert!(mistake.cost > -0.003, "{mistake:?}");
    }
    let putt = Situation {
        at: Point::new(0.0, 297.0),
        lie: Lie::Green,
    };
    let advice = best.advice(putt, None).expect("advice");
    assert_eq!(advice.words, "putt");
    assert!(advice.strokes > 1.0 && advice.strokes < 2.0);
    assert!(advice.runner_up.is_none() && advice.mistakes.is_empty());
}

/// What is told is what is played, from wherever plays come to, and its instruction is the very stroke.
#[test]
fn what_is_told_is_what_is_played() {
    let wood = rectangle(Surface::Trees, (-60.0, -40.0), (60.0, 200.0));
    let pupil = pupil();
    for (objective, left) in [(Objective::Fewest, None), (Objective::AtMost(5), Some(5))] {
        let scene = scene(hole(vec![wood.clone()]), &pupil);
        let best = solve(&scene, task(objective));
        let plan = Plan::new("played", Vec::new(), Then::Custom(best.clone())).expect("a plan");
        let mut run = record((*scene).clone(), &plan, &Question::new(Seed(4))).expect("a plan");
        run.advance(60);
        let mut lies = std::collections::BTreeSet::new();
        let mut rows = 0;
        let mut used = 0;
        for row in run.strokes() {
            used = if row.stroke == 1 { 0 } else { used };
            let left = left.map(|most: u8| most.saturating_sub(used));
            used += 1 + row.told.penalty;
            // With no stroke left there is nothing to play for, and a putt is a putt.
            if row.told.from.lie == Lie::Green || left == Some(0) {
                continue;
            }
            let advice = best.advice(row.told.from, left).expect("advice");
            assert_eq!(
                advice.shot, row.told.shot,
                "{:?}: {}",
                row.told.from, advice.words
            );
            assert_eq!(exactly(&scene, &advice), advice.shot, "{}", advice.words);
            lies.insert(row.told.from.lie.name());
            rows += 1;
        }
        assert!(rows > 50 && lies.len() > 3, "{rows} strokes from {lies:?}");
    }
}

/// The shot that an advice's instruction comes to.
fn exactly(scene: &Scene, advice: &Advice) -> Shot {
    let Instruction::Exactly {
        stroke,
        over,
        carry,
    } = &advice.instruction
    else {
        panic!("{:?}", advice.instruction);
    };
    let stroke = scene.stroke(stroke).expect("one of the player's");
    let most = scene.most_carry(advice.from.lie, stroke).expect("it suits");
    Shot {
        stroke,
        target: over.on(scene.hole()),
        carry: carry.unwrap_or(most),
    }
}

#[test]
fn lies_and_distance_cost_what_they_should() {
    let (_, best) = usual();
    let strokes = |y: f64, lie| {
        best.expected_strokes(Situation {
            at: Point::new(0.0, y),
            lie,
        })
    };
    assert!((strokes(300.0, Lie::Green) - 1.0).abs() < 1e-6);
    for y in [120.0, 180.0, 240.0] {
        assert!(strokes(y, Lie::Fairway) < strokes(y, Lie::Rough));
        assert!(strokes(y, Lie::Rough) < strokes(y, Lie::DeepRough));
        assert!(strokes(y, Lie::Fairway) > strokes(y + 50.0, Lie::Fairway));
    }
}

#[test]
fn what_cannot_be_solved_is_refused_in_words() {
    let scene = scene(hole(Vec::new()), &pupil());
    let refused = |task: Task| {
        let fault = Solving::new(scene.clone(), task)
            .map(|_| ())
            .expect_err("refused");
        fault.to_string()
    };
    let cell = |cell| Task {
        cell,
        ..Task::default()
    };
    for absurd in [0.0, -1.0, 0.4, 11.0, f64::NAN, f64::INFINITY] {
        let words = refused(cell(absurd));
        assert!(
            words.contains("cell is") && words.contains("0.5 to 10 yards"),
            "{words}"
        );
    }
    assert!(refused(task(Objective::AtMost(0))).contains("at_most is 0; it must be 1 to 30"));
    assert!(refused(task(Objective::AtMost(31))).contains("at_most is 31"));
    let safe = |blow_up, price| refused(task(Objective::Safe { blow_up, price }));
    assert!(safe(0, 1.0).contains("blow_up is 0"));
    assert!(safe(3, f64::NAN).contains("price is NaN"));
    let best = solve(&scene, cell(10.0));
    let at = |x, y| {
        best.situation(Point::new(x, y), None)
            .map(|_| ())
            .expect_err("refused")
    };
    assert!(at(f64::NAN, 0.0).to_string().contains("finite"));
    assert!(at(9000.0, 0.0).to_string().contains("off the map"));
    assert!(at(60.0, 100.0).to_string().contains("out of bounds"));
    assert!(at(-40.0, 200.0).to_string().contains("penalty area"));
    let tee = Situation::on_the_tee(scene.hole());
    assert!(best.chance(tee, Some(0)).is_err() && best.chance(tee, Some(60)).is_err());
    assert!(Mapping::new(best.clone(), Lie::Rough, 0.0, None).is_err());
    // A solution is for its own hole and player alone.
    let other = self::scene(mirrored(Vec::new(), -1.0), &pupil());
    assert!(matches!(
        Solving::valuing(other.clone(), best.clone(), 4.0),
        Err(SolveFault::OtherScene)
    ));
    let plan = Plan::new("solved", Vec::new(), Then::Custom(best)).expect("a plan");
    let fault = Comparison::new((*other).clone(), &[plan], Question::new(Seed(1)));
    let words = fault.map(|_| ()).expect_err("refused").to_string();
    assert!(words.contains("another hole or player"), "{words}");
}

/// Ten yards behind a wood the trees stop the ball at the pin more often than not; what is told goes past them, and a long look
/// finds little better.
#[test]
fn trees_in_the_way_are_played_around() {
    let wood = rectangle(Surface::Trees, (20.0, 50.0), (210.0, 240.0));
    let scene = scene(hole(vec![wood]), &pupil());
    let best = fewest(&scene);
    for (x, y) in [(36.0, 200.0), (33.0, 203.0), (38.0, 200.0), (30.0, 206.0)] {
        let from = Situation {
            at: Point::new(x, y),
            lie: Lie::Rough,
        };
        let at_pin = scene.shot_at(from, scene.hole().pin());
        assert!(scene.chance(from, &at_pin) < 0.5);
        let shot = best.choose(&scene, from, 0);
        let chance = scene.chance(from, &shot);
        assert!(chance > 0.66, "{x}, {y}: {shot:?}, {chance}");
        let other = best.advice(from, None).expect("advice").runner_up;
        let cost = other.expect("another club").cost;
        assert!(cost > -0.1, "{x}, {y}: {cost}");
    }
}

/// Trees that let nothing through stop every stroke from among them: a hole with such a wood is solved all the same.
#[test]
fn a_wood_without_a_gap_is_played_from() {
    let mut wood = rectangle(Surface::Trees, (20.0, 80.0), (150.0, 240.0));
    wood.canopy = Some(Canopy {
        height_ft: 60.0,
        openness: 0.0,
    });
    let scene = scene(hole(vec![wood]), &pupil());
    let best = fewest(&scene);
    let from = Situation {
        at: Point::new(50.0, 195.0),
        lie: Lie::Trees,
    };
    let shot = best.choose(&scene, from, 0);
    assert!(scene.chance(from, &shot) < 0.3, "{shot:?}");
    assert!(best.expected_strokes(from) > 5.0);
}
