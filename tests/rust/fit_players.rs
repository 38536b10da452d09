//! Players from known numbers and from fits: what is drawn, kept and written.
use crate::common;

use common::shots::{evidence, figure, fit, level, shots, unlike};
use wideberth::Run;
use wideberth::fit::{Figure, Fit, FitFault, Fitting, Known, MOST_DRAWS, Reading, Shot};
use wideberth::noise::Seed;
use wideberth::player::{Club, ClubParts, Lie, LieEffect, Player, Reference};

#[test]
fn a_few_known_numbers_move_the_whole_bag() {
    let prior = level(18.0);
    let known = Known {
        carries: vec![("driver".to_owned(), 178.0), ("7-iron".to_owned(), 126.0)],
        lateral_biases: vec![("driver".to_owned(), 15.0)],
    };
    let fit = Fit::with_known(&prior, &known).unwrap();
    let pupil = fit.player();
    let times = |name: &str| pupil.club(name).unwrap().carry / prior.club(name).unwrap().carry;
    assert_eq!(pupil.club("driver").unwrap().carry, 178.0);
    assert_eq!(pupil.club("7-iron").unwrap().carry, 126.0);
    assert_eq!(pupil.club("driver").unwrap().lateral_bias, 15.0);
    // Between the two the others follow both; a slice grows with the length of the club.
    let (low, high) = (
        times("driver").min(times("7-iron")),
        times("driver").max(times("7-iron")),
    );
    for club in &prior.clubs {
        assert!(
            times(&club.name) > low.min(1.0) - 0.01 && times(&club.name) < high.max(1.0) + 0.01
        );
        let (old, new) = (club, pupil.club(&club.name).unwrap());
        assert!((new.carry_sd / new.carry - old.carry_sd / old.carry).abs() < 1e-12);
        assert!(new.lateral_bias > 0.0 && new.mishit_share - old.mishit_share < 1e-12);
    }
    assert!(
        pupil
            .clubs
            .windows(2)
            .all(|w| w[0].carry > w[1].carry && w[0].lateral_bias > w[1].lateral_bias)
    );
    // In every plausible player the known carries stand.
    for draw in fit.draws(50, Seed(2)).unwrap() {
        assert_eq!(draw.club("driver").unwrap().carry, 178.0);
        assert_ne!(
            draw.club("8-iron").unwrap().carry,
            pupil.club("8-iron").unwrap().carry
        );
    }
    assert!(fit.uncertainty("8-iron").unwrap().errors.carry < 5.0);
    // Closed form with one known club: the others' mean deviation is the ratio of covariances (Gaussian regression).
    let known = Known {
        carries: vec![("driver".to_owned(), 150.0)],
        ..Known::default()
    };
    let one = Fit::with_known(&prior, &known).unwrap();
    let deviation = |name: &str| {
        (one.player().club(name).unwrap().carry / prior.club(name).unwrap().carry).ln()
    };
    let apart =
        (prior.club("driver").unwrap().carry / prior.club("9-iron").unwrap().carry).ln() / 0.3;
    let (shared, own) = (
        0.0049 + 0.0009 * (-0.5 * apart * apart).exp(),
        0.0049 + 0.0009 + 0.0004,
    );
    assert!((deviation("9-iron") - deviation("driver") * shared / own).abs() < 1e-9);
}

#[test]
fn a_bag_of_other_clubs_is_filled_from_the_level() {
    let bag = ["driver", "4-iron", "7-iron", "wedge 52"].map(str::to_owned);
    let carries = [("driver", 212.0), ("4-iron", 165.0), ("wedge 52", 82.0)];
    let known = Known {
        carries: carries.map(|(n, c)| (n.to_owned(), c)).to_vec(),
        ..Known::default()
    };
    let fit = Fit::of_bag(Reference::Men, 18.0, &bag, &known).unwrap();
    let names: Vec<&str> = fit.player().clubs.iter().map(|c| c.name.as_str()).collect();
    assert_eq!(names, ["driver", "4-iron", "7-iron", "wedge 52"]);
    for (name, carry) in carries {
        assert_eq!(fit.player().club(name).unwrap().carry, carry);
    }
    // A driver longer than the level's makes the 7-iron longer; the other two, of no known level, add nothing.
    let level = level(18.0);
    let times =
        |name: &str| fit.player().club(name).unwrap().carry / level.club(name).unwrap().carry;
    assert!(times("driver") > 1.05 && times("7-iron") > 1.03 && times("7-iron") < times("driver"));
    let spread = |c: &ClubParts| c.carry_sd / c.carry;
    let like = Reference::Men.club(18.0, "x", 165.0).unwrap();
    assert!((spread(fit.player().club("4-iron").unwrap()) / spread(&like) - 1.0).abs() < 0.05);
    let none = Fit::of_bag(
        Reference::Men,
        18.0,
        &["spoon".to_owned()],
        &Known::default(),
    );
    assert!(
        none.unwrap_err()
            .to_string()
            .starts_with("bag: \"spoon\" is none of the level's clubs (driver,")
    );
}

#[test]
fn a_fit_written_as_text_is_made_again() {
    let prior = level(18.0);
    let known = Known {
        carries: vec![("driver".to_owned(), 190.0)],
        ..Known::default()
    };
    for fit in [
        fit(&prior, shots(&prior, "7-iron", Lie::Fairway, 8, 17)),
        Fit::with_known(&prior, &known).unwrap(),
        Fit::by_level(&prior).unwrap(),
    ] {
        assert_eq!(Fit::from_json(&fit.to_json().unwrap()).unwrap(), fit);
    }
    let refused = Fit::from_json("{}").unwrap_err().to_string();
    assert!(
        refused.starts_with("fit document: missing field"),
        "{refused}"
    );
}

/// Prior draws against the stated spreads: a carry strays by 0.0787 (the root of 0.07², 0.03² and 0.02²) on the log scale,
/// and two clubs' together as clubs of one bag do. 1,000 draws: 4.5 standard errors, false-alarm rate 7e-6 each.
#[test]
fn a_level_alone_allows_players_as_far_apart_as_it_says() {
    let prior = level(18.0);
    let fit = Fit::by_level(&prior).unwrap();
    assert_eq!(fit.player(), &prior);
    let draws = fit.draws(MOST_DRAWS, Seed(1)).unwrap();
    let away = |name: &str| -> Vec<f64> {
        let at = prior.club(name).unwrap().carry;
        draws
            .iter()
            .map(|d| (d.club(name).unwrap().carry / at).ln())
            .collect()
    };
    let (driver, wedge) = (away("driver"), away("sand wedge"));
    let product = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>() / 1000.0;
    let own = 0.07_f64.powi(2) + 0.03_f64.powi(2) + 0.02_f64.powi(2);
    let apart =
        (prior.club("driver").unwrap().carry / prior.club("sand wedge").unwrap().carry).ln() / 0.3;
    let shared = 0.07_f64.powi(2) + 0.03_f64.powi(2) * (-0.5 * apart * apart).exp();
    assert!((product(&driver, &driver) / own - 1.0).abs() < 4.5 * (2.0_f64 / 1000.0).sqrt());
    assert!((product(&driver, &wedge) - shared).abs() < 4.5 * own * (2.0_f64 / 1000.0).sqrt());
    assert!(fit.uncertainty("driver").unwrap().weights.carry < 0.15);
}

#[test]
fn women_are_fitted_to_their_own_level() {
    let prior = Player::from_reference(Reference::Women, 24.0).unwrap();
    let fit = fit(&prior, shots(&prior, "7-iron", Lie::Fairway, 60, 15));
    let club = fit.player().club("7-iron").unwrap();
    // Three of the errors that it states: a false alarm once in 370 seeds.
    let error = fit.uncertainty("7-iron").unwrap().errors.carry;
    assert!((club.carry - prior.club("7-iron").unwrap().carry).abs() < 3.0 * error);
}

/// A club told to be perfect, and a bag of one club, are priors too.
#[test]
fn odd_priors_are_fitted_or_left_alone() {
    let mut parts = level(18.0).into_parts();
    parts.clubs = vec![
        Club::new(ClubParts::exact("stick", 150.0)).unwrap(),
        Club::new(ClubParts::exact("other", 90.0)).unwrap(),
    ];
    let prior = Player::new(parts).unwrap();
    let shots: Vec<Shot> = (0..30)
        .map(|i| Shot::new("stick", 145.0 + f64::from(i % 10), f64::from(i % 7) - 3.0))
        .collect();
    let fit = fit(&prior, shots);
    let (stick, other) = (
        fit.player().club("stick").unwrap(),
        fit.player().club("other").unwrap(),
    );
    assert!(
        (stick.carry - 149.5).abs() < 1.5 && stick.carry_sd > 1.0,
        "{stick:?}"
    );
    assert!(other.carry_sd == 0.0 && other.mishit_share == 0.0 && (other.carry - 90.0).abs() < 2.0);
    let sure = fit.uncertainty("other").unwrap();
    assert!(sure.errors.carry_sd == 0.0 && sure.weights.carry_sd == 0.0 && sure.errors.carry > 0.5);
    assert_eq!(fit.draws(3, Seed(1)).unwrap().len(), 3);
}

#[test]
fn draws_are_players_the_evidence_allows() {
    let prior = level(18.0);
    let fit = fit(&prior, shots(&unlike(), "7-iron", Lie::Fairway, 30, 13));
    let draws = fit.draws(MOST_DRAWS, Seed(3)).unwrap();
    assert_eq!(draws[..40], fit.draws(40, Seed(3)).unwrap()[..]);
    assert_ne!(draws[..40], fit.draws(40, Seed(4)).unwrap()[..]);
    assert!(
        draws[..200]
            .iter()
            .enumerate()
            .all(|(i, d)| draws[..i].iter().all(|e| e != d))
    );
    // All draws together are the posterior: their mean and deviation are the fit's.
    for name in ["7-iron", "driver"] {
        let sure = fit.uncertainty(name).unwrap();
        let carries: Vec<f64> = draws.iter().map(|d| d.club(name).unwrap().carry).collect();
        let mean = carries.iter().sum::<f64>() / 1000.0;
        let sd = (carries.iter().map(|c| (c - mean).powi(2)).sum::<f64>() / 1000.0).sqrt();
        assert!((mean - fit.player().club(name).unwrap().carry).abs() < 0.02 * mean);
        assert!(
            (sd / sure.errors.carry - 1.0).abs() < 1e-6,
            "{sd} {}",
            sure.errors.carry
        );
    }
    assert!(matches!(
        fit.draws(0, Seed(1)),
        Err(FitFault::Draws { value: 0, .. })
    ));
    assert!(matches!(
        fit.draws(1001, Seed(1)),
        Err(FitFault::Draws { value: 1001, .. })
    ));
}

/// Two clubs with figures of their own, so that no level's figures can move what follows from them.
fn two_clubs() -> Player {
    let mut parts = level(18.0).into_parts();
    let club = |name: &str, carry: f64| {
        Club::new(ClubParts {
            carry_sd: 0.06 * carry,
            lateral_sd: 0.07 * carry,
            mishit_share: 0.15,
            ..ClubParts::exact(name, carry)
        })
        .unwrap()
    };
    parts.clubs = vec![club("stick", 150.0), club("other", 90.0)];
    parts.lies = [LieEffect::NONE; 9];
    Player::new(parts).unwrap()
}

fn stick_shots() -> Vec<Shot> {
    (0..20)
        .map(|i| {
            let carry = if i % 9 == 4 { 70.0 } else { 140.0 };
            Shot::new(
                "stick",
                carry + f64::from(i * 7 % 20),
                f64::from(i * 5 % 17) - 6.0,
            )
        })
        .collect()
}

/// Value stability: of a fit to clubs that hang on no level, every figure to the last bit.
#[test]
fn the_numbers_of_a_fit_stay() {
    let fit = fit(&two_clubs(), stick_shots());
    let figures = |name| {
        let club = fit.player().club(name).unwrap();
        Figure::ALL.map(|f| figure(club, f))
    };
    assert_eq!(
        figures("stick"),
        [
            149.8573784132078,
            7.240839249164555,
            1.4436556440096662,
            6.311790258833967,
            -0.16495362050828596,
            0.13059518326345662,
        ]
    );
    assert_eq!(
        figures("other"),
        [
            89.91633031945872,
            4.544521126205839,
            0.6975540392336551,
            4.1552469616283325,
            -0.11487001144301806,
            0.13607524148635064,
        ]
    );
    let carry = |name| fit.interval(name, Figure::Carry, 0.9).unwrap();
    let judged = |row: usize| (fit.judged()[row].mishit, fit.judged()[row].outlier);
    assert_eq!(carry("stick"), (146.87876477946196, 152.86642054752875));
    assert_eq!(carry("other"), (83.4574761256, 97.04190646192464));
    assert_eq!(judged(4), (0.998319422594606, 0.0016747800431935833));
    assert_eq!(judged(5), (0.005683021819689774, 2.835459037343766e-5));
    assert_eq!(fit.disagreement(), 1.012995759890971);
}

/// A fit may be left after any step and taken up again: it is the same however its steps are parted.
#[test]
fn a_fit_advances_in_steps() {
    let prior = level(12.0);
    let mut all = shots(&level(15.0), "8-iron", Lie::Fairway, 130, 14);
    all.extend(shots(&level(15.0), "driver", Lie::Tee, 8, 15));
    let evidence = evidence(all);
    let whole = Fit::to_shots(&prior, &evidence).unwrap();
    for size in [1, 7, 1_000] {
        let mut fitting = Fitting::new(&prior, &evidence).unwrap();
        let (mut before, goal) = (0, fitting.goal());
        assert_eq!(fitting.done(), 0);
        while !fitting.is_finished() {
            fitting.advance(size);
            assert!(fitting.done() > before && fitting.done() <= goal);
            before = fitting.done();
        }
        assert_eq!((before, fitting.goal()), (goal, goal));
        fitting.advance(size);
        assert_eq!(fitting.fit().unwrap(), whole);
    }
    let mut left = Fitting::new(&prior, &evidence).unwrap();
    left.advance(300);
    assert_eq!(left.fit().unwrap(), whole);
    let again = Reading::from_json(&whole.to_json().unwrap()).unwrap();
    assert!(matches!(again, Reading::UnderWay(fitting) if fitting.done() == 0));
}

#[test]
fn the_same_evidence_gives_the_same_fit() {
    let prior = level(12.0);
    let shots = shots(&level(15.0), "8-iron", Lie::Fairway, 12, 14);
    assert_eq!(fit(&prior, shots.clone()), fit(&prior, shots));
}
