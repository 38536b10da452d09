//! What fits to shots refuse, and what they doubt: in words, and seldom in honest tables.
use crate::common;

use common::shots::{evidence, level, shots};
use rayon::prelude::*;
use wideberth::fit::{Doubt, Evidence, Finish, Fit, Ground, Known, Outcome, Shot};
use wideberth::noise::Seed;
use wideberth::player::{Lie, Player};

fn refused(shots: Vec<Shot>) -> String {
    Fit::to_shots(&level(18.0), &evidence(shots))
        .unwrap_err()
        .to_string()
}

#[test]
fn refusals_say_what_where_and_why() {
    let shot = Shot::new;
    let good = vec![shot("7-iron", 128.0, 3.0); 4];
    let with = |bad: Shot| {
        let mut all = good.clone();
        all.insert(2, bad);
        refused(all)
    };
    assert_eq!(
        refused(vec![]),
        "shots: the table is empty; without shots use the player of the level"
    );
    assert_eq!(
        with(shot("7-iron", f64::NAN, 3.0)),
        "shots, row 4 (the header is row 1), 7-iron: carry is NaN; it must be 0 to 450 yards"
    );
    assert!(
        with(shot("7-iron", -3.0, 3.0))
            .contains("row 4 (the header is row 1), 7-iron: carry is -3;")
    );
    assert!(with(shot("7-iron", 612.0, 3.0)).contains("carry is 612;"));
    assert!(
        with(shot("7-iron", 128.0, f64::INFINITY))
            .contains("lateral is inf; it must be within 250 yards")
    );
    assert!(
        with(Shot {
            total: Some(f64::NAN),
            ..shot("7-iron", 128.0, 0.0)
        })
        .contains("total is NaN")
    );
    assert!(refused(vec![shot("7-iron", -1.0, 0.0); 5]).ends_with("(4 more rows have this fault)"));
    let unknown = with(shot("7 Iron", 128.0, 3.0));
    assert!(
        unknown.starts_with(
            "shots, row 4 (the header is row 1): club is \"7 Iron\"; did you mean \"7-iron\"? the clubs"
        ),
        "{unknown}"
    );
    assert!(with(shot("spoon", 128.0, 3.0)).contains("the clubs of the prior are driver, 3-wood,"));
    let swapped = Shot {
        total: Some(128.0),
        ..shot("7-iron", 140.0, 1.0)
    };
    assert_eq!(
        refused(vec![swapped; 6]),
        "shots: total is shorter than carry in 6 of 6 rows (first: carry 140, total 128); are the two columns swapped?"
    );
    assert!(refused(vec![shot("7-iron", 384.0, 3.0); 5]).contains("are these feet? Give the unit"));
    assert!(
        refused(vec![shot("7-iron", 40.0, 3.0); 5])
            .contains("are they part swings or another club's?")
    );
    let straight: Vec<Shot> = (0..8)
        .map(|i| shot("7-iron", 125.0 + f64::from(i), 0.0))
        .collect();
    assert!(refused(straight.clone()).starts_with(
        "shots: lateral is 0 in all 8 rows with \"7-iron\", so nothing is told of its spread;"
    ));
    assert!(Fit::to_shots(&level(18.0), &evidence(straight[..7].to_vec())).is_ok());
    assert!(refused(vec![shot("7-iron", 128.0, 3.0); 9]).contains("carry is 128 in all 9 rows"));
    assert!(
        refused(vec![shot("7-iron", 128.0, 3.0); 20_001]).contains("there must be at most 20000")
    );
}

#[test]
fn outcomes_and_known_figures_are_refused_in_words() {
    let prior = level(18.0);
    let told = |ground, finish| {
        let outcomes = vec![Outcome {
            club: "driver".to_owned(),
            ground,
            finish,
            lie: None,
        }];
        Fit::to_shots(
            &prior,
            &Evidence {
                outcomes,
                ..Evidence::default()
            },
        )
        .unwrap_err()
        .to_string()
    };
    let fairway = |width| Ground { width, depth: None };
    assert!(told(fairway(0.0), Finish::Hit).contains(
        "outcomes, row 2 (the header is row 1), driver: width is 0; it must be 1 to 200 yards"
    ));
    assert!(told(fairway(f64::NAN), Finish::Hit).contains("width is NaN"));
    assert!(
        told(
            Ground {
                width: 20.0,
                depth: Some(-1.0)
            },
            Finish::Hit
        )
        .contains("depth is -1")
    );
    assert!(
        told(fairway(30.0), Finish::Short)
            .contains("finish is \"short\", which needs the depth of a green")
    );
    let known = |list: &[(&str, f64)], biases: &[(&str, f64)]| {
        let own = |list: &[(&str, f64)]| list.iter().map(|(n, v)| ((*n).to_owned(), *v)).collect();
        let known = Known {
            carries: own(list),
            lateral_biases: own(biases),
        };
        Fit::with_known(&prior, &known).unwrap_err().to_string()
    };
    assert!(known(&[("driver", 20.0)], &[]).starts_with("carries: driver is 20; it must be"));
    assert!(known(&[("driver", f64::NAN)], &[]).contains("driver is NaN"));
    assert!(
        known(&[("1-wood", 200.0)], &[])
            .starts_with("carries: club is \"1-wood\"; the clubs of the prior are")
    );
    assert!(known(&[("driver", 180.0), ("driver", 181.0)], &[]).contains("driver appears twice"));
    // The bound goes with the carry that is told.
    let told = known(&[("driver", 180.0)], &[("driver", 44.0)]);
    assert_eq!(
        told,
        "lateral_biases: driver is 44; it must be within 43.2 yards of the aim (0.24 of the carry)"
    );
    assert!(known(&[], &[("driver", f64::NAN)]).contains("driver is NaN; it must be within"));
    assert!(known(&[], &[("1-wood", 3.0)]).starts_with("lateral_biases: club is \"1-wood\""));
}

fn doubts(shots: Vec<Shot>, unit_told: bool) -> Vec<String> {
    let evidence = Evidence {
        shots,
        unit_told,
        ..Evidence::default()
    };
    let fit = Fit::to_shots(&level(18.0), &evidence).unwrap();
    fit.doubts().iter().map(ToString::to_string).collect()
}

#[track_caller]
fn said(doubts: &[String], words: &str) {
    assert!(
        doubts.iter().any(|d| d.contains(words)),
        "{words:?} is not in {doubts:?}"
    );
}

#[test]
fn doubts_are_told_in_words() {
    let player = level(18.0);
    let of = |club: &str, count| {
        shots(
            &player,
            club,
            if club == "driver" {
                Lie::Tee
            } else {
                Lie::Fairway
            },
            count,
            16,
        )
    };
    said(
        &doubts(of("7-iron", 3), true),
        "7-iron: only 3 shots; its figures rest mostly on the level",
    );
    let bag: Vec<Shot> = ["driver", "6-iron", "7-iron", "9-iron"]
        .iter()
        .flat_map(|c| of(c, 15))
        .collect();
    let metres: Vec<Shot> = bag
        .iter()
        .map(|s| Shot {
            carry: s.carry * 0.9144,
            ..s.clone()
        })
        .collect();
    said(
        &doubts(metres.clone(), false),
        "as they would be in metres; tell the unit",
    );
    assert!(!doubts(metres, true).iter().any(|d| d.contains("metres")));
    assert_eq!(doubts(bag.clone(), false), Vec::<String>::new());
    let totals: Vec<Shot> = bag
        .iter()
        .map(|s| {
            let run = player.club(&s.club).unwrap().run;
            Shot {
                carry: s.carry * (1.0 + run),
                ..s.clone()
            }
        })
        .chain(of("sand wedge", 15))
        .collect();
    said(
        &doubts(totals, true),
        "are the carries totals (carry plus run)?",
    );
    let mut two = of("7-iron", 20);
    two.extend(of("9-iron", 12).into_iter().map(|s| Shot {
        club: "7-iron".to_owned(),
        ..s
    }));
    // Knock-down shots among full ones, all well struck.
    let mixed: Vec<Shot> = (0..40)
        .map(|i| {
            Shot::new(
                "7-iron",
                if i % 2 == 0 { 130.0 } else { 92.0 } + f64::from(i % 9) - 4.0,
                f64::from(i % 5),
            )
        })
        .collect();
    said(
        &doubts(mixed, true),
        "7-iron: the shots fall into two patterns, 50 % against 50 % of carry about 92 and 130 yards",
    );
    let sides: Vec<Shot> = (0..40)
        .map(|i| {
            Shot::new(
                "7-iron",
                128.0 + f64::from(i % 7),
                if i % 2 == 0 { 25.0 } else { -25.0 } + f64::from(i % 9),
            )
        })
        .collect();
    said(
        &doubts(sides, true),
        "two patterns, 50 % against 50 % of lateral",
    );
    let mut wrong = of("7-iron", 25);
    wrong.extend([240.0, 250.0, 262.0].map(|c| Shot::new("7-iron", c, 0.0)));
    said(&doubts(wrong, true), "3 of 28 shots fit no pattern");
    let spun = |i: u32| Shot {
        total: Some(if i == 0 { 90.0 } else { 135.0 }),
        ..Shot::new("7-iron", 128.0 + f64::from(i % 5), f64::from(i % 3))
    };
    said(
        &doubts((0..10).map(spun).collect(), true),
        "1 shot has a carry more than 5 yards longer than the total",
    );
}

/// Tables of so many players of the level, with 15 to 55 shots of five clubs, changed by `change`.
fn doubted(players: usize, change: impl Fn(&Player, Shot) -> Shot + Sync) -> Vec<Vec<Doubt>> {
    let prior = level(18.0);
    let level = Fit::by_level(&prior).unwrap();
    let truths = level.draws(players, Seed(8)).unwrap();
    truths
        .par_iter()
        .enumerate()
        .map(|(i, truth)| {
            let clubs = ["driver", "5-iron", "7-iron", "9-iron", "gap wedge"];
            let all = clubs.iter().enumerate().flat_map(|(k, club)| {
                let lie = if k == 0 { Lie::Tee } else { Lie::Fairway };
                let (count, stream) = (15 + 10 * k as u32, 500_000 + 10 * i as u64 + k as u64);
                shots(truth, club, lie, count, stream)
            });
            let shots = all.map(|shot| change(truth, shot)).collect();
            let evidence = Evidence {
                shots,
                ..Evidence::default()
            };
            Fit::to_shots(&prior, &evidence).unwrap().doubts().to_vec()
        })
        .collect()
}

fn count(found: &[Vec<Doubt>], is: fn(&Doubt) -> bool) -> usize {
    found.iter().filter(|d| d.iter().any(is)).count()
}

/// Two patterns, outliers and unsettled sampling must be rare in honest tables. A player whose clubs happen to be in
/// the ratio of metres or totals cannot be told from one who mixed them up, so those doubts come more often; they
/// must come much more often where they are right.
#[test]
fn honest_tables_are_seldom_doubted() {
    let metres: fn(&Doubt) -> bool = |d| matches!(d, Doubt::LikeMetres { .. });
    let totals: fn(&Doubt) -> bool = |d| matches!(d, Doubt::LikeTotals { .. });
    let honest = doubted(60, |_, shot| shot);
    let counts = [
        count(&honest, |d| matches!(d, Doubt::TwoPatterns { .. })),
        count(&honest, |d| matches!(d, Doubt::ManyOutliers { .. })),
        count(&honest, |d| matches!(d, Doubt::Unsettled { .. })),
        count(&honest, |d| matches!(d, Doubt::FarFromLevel { .. })),
        count(&honest, metres),
        count(&honest, totals),
    ];
    let in_metres = doubted(24, |_, shot| Shot {
        carry: 0.9144 * shot.carry,
        lateral: 0.9144 * shot.lateral,
        ..shot
    });
    let as_totals = doubted(24, |player, shot| {
        let run = player.club(&shot.club).unwrap().run;
        Shot {
            carry: shot.carry * (1.0 + run),
            ..shot
        }
    });
    let right = [count(&in_metres, metres), count(&as_totals, totals)];
    eprintln!(
        "doubts of 60 honest tables: {counts:?}; of 24 in metres and 24 of totals: {right:?}"
    );
    for (count, most) in counts.into_iter().zip([3, 2, 1, 4, 20, 16]) {
        assert!(count <= most, "{counts:?}");
    }
    assert!(right[0] > 12 && right[1] > 9, "{right:?}");
}
