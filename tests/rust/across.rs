//! What not knowing the player costs: against closed forms, against players made so that the answer is known, and refusals.
use rayon::ThreadPoolBuilder;
use std::sync::Arc;
use wideberth::Run;
use wideberth::fit::Fit;
use wideberth::hole::{Hazard, Hole, Sketch};
use wideberth::noise::{PlayNoise, Seed};
use wideberth::plan::{Aim, Direct, Instruction, Plan, Scene, Then};
use wideberth::player::{Club, ClubParts, Player};
use wideberth::rank::{
    AcrossPlayers, CompareFault, Comparison, Length, MoreShots, PlayersRun, Question,
};

fn document(names: &[&str], plays: [u64; 2], strokes: &[[Vec<u64>; 2]]) -> serde_json::Value {
    serde_json::json!({"source": "a test", "names": names, "plays": plays, "strokes": strokes, "clubs": []})
}

fn counted(names: &[&str], plays: [u64; 2], strokes: &[[Vec<u64>; 2]]) -> AcrossPlayers {
    serde_json::from_value(document(names, plays, strokes)).unwrap()
}

/// Standard normals in a fixed order.
fn normals(stream: u64) -> impl Iterator<Item = f64> {
    (0..).map(move |i| PlayNoise::new(Seed(77), stream).stroke(i).depth)
}

/// Two plans whose leads over players are normal of mean 0.05 and deviation 0.06 have a value of perfect information of
/// `s φ(m/s) - m Φ(-m/s)`, a unit normal loss (Raiffa and Schlaifer 1961, section 5.11), 0.00682 strokes. 1,000 plays with a
/// paired deviation of 1.3 blur each lead by 0.041, which would make 0.0106 of it unless taken away.
///
/// 300 runs of 200 players: the mean's standard error is 0.0003, so the band of 0.0013 is four of them (false-alarm rate
/// 6e-5) and a little for what is left of the bias. The stated errors must be those the runs show, within 15 %.
#[test]
fn the_cost_is_that_of_a_closed_form() {
    let truth = 0.006_82;
    let mut luck = normals(1);
    let mut next = || luck.next().unwrap();
    let (mut costs, mut errors) = (Vec::new(), Vec::new());
    for _ in 0..300 {
        let players: Vec<[Vec<u64>; 2]> = (0..200)
            .map(|_| {
                let lead = 0.05 + 0.06 * next();
                [(); 2].map(|()| {
                    let behind = 500.0 * lead + 1.3 * 500.0_f64.sqrt() * next();
                    vec![2400, (2400.0 + behind).round() as u64]
                })
            })
            .collect();
        let cost = counted(&["a", "b"], [500, 500], &players).cost();
        costs.push(cost.mean);
        errors.push(cost.standard_error);
    }
    let mean = |of: &[f64]| of.iter().sum::<f64>() / of.len() as f64;
    let found = mean(&costs);
    let spread = (costs.iter().map(|c| (c - found).powi(2)).sum::<f64>() / 299.0).sqrt();
    eprintln!(
        "{found:.5} is {truth:.5}; spread {spread:.5}, stated {:.5}",
        mean(&errors)
    );
    assert!((found - truth).abs() < 0.0013, "{found}");
    assert!((mean(&errors) / spread - 1.0).abs() < 0.15);
}

/// Three players by hand. Whole means: (4, 5), (5, 4), (4.5, 4.5); halves as given. The first plan is chosen: equal totals,
/// so the one given first.
#[test]
fn three_players_by_hand() {
    let players = [
        [vec![8, 10], vec![8, 10]],
        [vec![10, 8], vec![10, 8]],
        [vec![8, 10], vec![10, 8]],
    ];
    let across = counted(&["a", "b"], [2, 2], &players);
    assert_eq!((across.draws(), across.plays()), (3, 4));
    // The third is shared out.
    assert!((across.chance_best(0).mean - 0.5).abs() < 1e-12);
    assert!((across.chance_best(1).mean - 0.5).abs() < 1e-12);
    assert_eq!((across.choice(), across.rival()), (0, Some(1)));
    assert!((across.mean(0).mean - 4.5).abs() < 1e-12);
    // Whole: (0 + 1 + 0) / 3. First half, choice a: (0 + 1 + 0) / 3. Second half, choice b: (1 + 0 + 0) / 3.
    assert!((across.cost().mean - (2.0 / 3.0 - 1.0 / 3.0)).abs() < 1e-12);
    let error = {
        // 2 whole - (a + b) / 2: 0 - 0.5, 2 - 0.5, 0 - 0.
        let saved = [-0.5, 1.5, 0.0_f64];
        (saved.iter().map(|s| (s - 1.0 / 3.0).powi(2)).sum::<f64>() / 2.0 / 3.0).sqrt()
    };
    assert!((across.cost().standard_error - error).abs() < 1e-12);
    assert_eq!(across.more_shots(), MoreShots::Untold);
    let alone = counted(&["a"], [2, 2], &[[vec![8], vec![9]], [vec![8], vec![8]]]);
    assert_eq!((alone.chance_best(0).mean, alone.rival()), (1.0, None));
    assert_eq!(
        (alone.cost().mean, alone.more_shots()),
        (0.0, MoreShots::NotNeeded)
    );
}

#[test]
fn broken_counts_are_refused() {
    let good = [[vec![8, 10], vec![8, 10]], [vec![8, 10], vec![8, 10]]];
    let refused = |value: serde_json::Value| {
        serde_json::from_value::<AcrossPlayers>(value)
            .unwrap_err()
            .to_string()
    };
    assert!(refused(document(&["a", "a"], [2, 2], &good)).contains("all different"));
    assert!(refused(document(&["a"], [2, 2], &good)).contains("strokes of player 0"));
    assert!(refused(document(&["a", "b"], [2, 0], &good)).contains("plays is [2, 0]; each must"));
    let far = [(); 2].map(|()| [(); 2].map(|()| vec![u64::MAX / 3; 2]));
    assert!(refused(document(&["a", "b"], [u64::MAX / 200; 2], &far)).contains("1 to 1000000000"));
    assert!(refused(document(&["a", "b"], [2, 2], &good[..1])).contains("2 to 1000"));
    assert!(refused(document(&["a", "b"], [20, 2], &good)).contains("each of 20 plays"));
    let mut odd = document(&["a", "b"], [2, 2], &good);
    odd["clubs"] = serde_json::json!([{"club": "driver", "share": 1.5, "by_chance": 0.0}]);
    assert!(refused(odd).contains("clubs: share of driver is 1.5; it must be 0 to 1"));
    let mut more = document(&["a", "b"], [2, 2], &good);
    more["what"] = serde_json::json!(1);
    assert!(refused(more).contains("unknown field"));
    let value = document(&["a", "b"], [2, 2], &good);
    let across = counted(&["a", "b"], [2, 2], &good);
    assert_eq!(serde_json::to_value(&across).unwrap(), value);
}

/// A par 4 with water all along the right of where the driver lands.
fn hole() -> Arc<Hole> {
    let mut sketch = Sketch::new(4, 370.0);
    sketch.water = vec![Hazard::new(205.0, 16.0).sized(90.0, 60.0)];
    Arc::new(Hole::sketch(&sketch).unwrap())
}

fn plans() -> Vec<Plan> {
    let tee = |club: &str, along: f64| {
        let aim = Aim::Along { along, right: 0.0 };
        let shot = Instruction::Shot {
            club: club.to_owned(),
            aim,
            carry: None,
        };
        Plan::new(club, vec![shot], Then::Direct).unwrap()
    };
    vec![tee("driver", 200.0), tee("7-iron", 130.0)]
}

/// The player of a handicap of 18 whose driver starts so far to the right.
fn with_bias(bias: f64) -> Player {
    let mut parts = Player::from_handicap(18.0).unwrap().into_parts();
    let driver = parts.clubs.iter_mut().find(|c| c.name == "driver").unwrap();
    *driver = Club::new(ClubParts {
        lateral_bias: bias,
        ..driver.clone().into_parts()
    })
    .unwrap();
    Player::new(parts).unwrap()
}

fn question(plays: u64) -> Question {
    Question {
        length: Length::Plays(plays),
        ..Question::new(Seed(3))
    }
}

fn comparison(player: &Player, plans: &[Plan], question: Question) -> Comparison {
    let scene = Scene::new(hole(), Arc::new(player.prepare())).unwrap();
    Comparison::new(scene, plans, question).unwrap()
}

fn run(players: Vec<Player>, plays: u64, wave: u64) -> AcrossPlayers {
    let of = comparison(&with_bias(0.0), &plans(), question(plays));
    let mut run = PlayersRun::new(&of, hole(), players, &plans(), "a test".to_owned()).unwrap();
    assert_eq!((run.done(), run.is_finished()), (0, false));
    let goal = run.goal();
    while !run.is_finished() {
        let before = run.done();
        run.advance(wave);
        assert!(run.done() - before <= wave && run.done() <= goal);
    }
    assert_eq!(run.done(), goal);
    run.found().unwrap()
}

/// Half of the players drive straight, half into the water: the driver is best for half of them, and it is the driver that
/// explains the lead.
#[test]
fn players_made_for_the_answer_give_it() {
    let players: Vec<Player> = (0..40)
        .map(|i| with_bias(if i % 2 == 0 { -10.0 } else { 30.0 } + 0.1 * f64::from(i)))
        .collect();
    let across = run(players, 600, 1000);
    let shares = [0, 1].map(|plan| across.chance_best(plan).mean);
    assert_eq!(shares, [0.5, 0.5]);
    assert!(across.cost().mean > 0.1, "{:?}", across.cost());
    let first = &across.clubs()[0];
    assert!(
        first.club == "driver" && first.share > 0.9 && first.by_chance < 1e-6,
        "{:?}",
        across.clubs()
    );
    assert_eq!(
        across.more_shots(),
        MoreShots::Worth(Some("driver".to_owned()))
    );
    // The other clubs do not differ between these players, and so explain nothing.
    let others = &across.clubs()[1..];
    assert!(
        !others.is_empty() && others.iter().all(|o| o.share < 0.01 && o.by_chance > 0.01),
        "{others:?}"
    );
}

/// The same player drawn again and again: nothing is unknown, so nothing is to be saved but what chance makes up.
#[test]
fn players_all_alike_cost_nothing() {
    let across = run(vec![with_bias(0.0); 30], 500, 4000);
    assert_eq!(across.chance_best(across.choice()).mean, 1.0);
    assert_eq!(across.cost().mean, 0.0);
    assert_eq!(across.more_shots(), MoreShots::NotNeeded);
    // Each has luck of its own.
    assert!(across.mean(0).standard_error > 0.0);
}

#[test]
fn neither_threads_nor_waves_change_a_bit() {
    let players = || {
        let level = Player::from_handicap(18.0).unwrap();
        let fit = Fit::by_level(&level).unwrap();
        fit.draws(7, Seed(5)).unwrap()
    };
    let on = |threads, wave| {
        let pool = ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap();
        pool.install(|| run(players(), 301, wave))
    };
    let once = on(1, 50);
    assert_eq!(once, on(3, u64::MAX));
    assert_eq!(once, on(2, 1));
    assert!((once.draws(), once.plays()) == (7, 301) && once.clubs().is_empty());
}

#[test]
fn impossible_runs_are_refused() {
    let refused = |players: usize, plans: &[Plan], question: Question| {
        let of = comparison(&with_bias(0.0), plans, question);
        let players = vec![with_bias(0.0); players];
        PlayersRun::new(&of, hole(), players, plans, String::new())
            .err()
            .unwrap()
    };
    let words = |fault: CompareFault| fault.to_string();
    let too = "player_draws is 1; it must be 2 to 1,000";
    assert_eq!(words(refused(1, &plans(), question(50))), too);
    assert!(words(refused(1001, &plans(), question(50))).starts_with("player_draws is 1001;"));
    let single = "plays is 1; it must be 2 or more with player_draws";
    assert_eq!(words(refused(3, &plans(), question(1))), single);
    let scene = Scene::new(hole(), Arc::new(with_bias(0.0).prepare())).unwrap();
    let solved = Then::Custom(Arc::new(Direct::new(&scene)));
    let plan = Plan::new("mine", vec![], solved).unwrap();
    let fault = words(refused(3, &[plan], question(50)));
    assert!(
        fault.starts_with("plan \"mine\" was solved for one player"),
        "{fault}"
    );
}
