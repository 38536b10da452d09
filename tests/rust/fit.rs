//! Players fitted to shots: honest intervals, a known truth found again, outliers found, and refusals in words.
//!
//! The shots come from `player::Swing::strike`, the code that plays them, which shares no line with the likelihood.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use rayon::prelude::*;
use statrs::distribution::{Binomial, DiscreteCDF};
use wideberth::fit::{
    Doubt, Evidence, Figure, Finish, Fit, FitFault, Ground, Known, MOST_DRAWS, Outcome, Shot,
};
use wideberth::noise::{PlayNoise, Seed};
use wideberth::player::{Bag, Club, ClubParts, Lie, LieEffect, Player, Reference, Strike};

fn level(handicap: f64) -> Player {
    Player::from_handicap(handicap).unwrap()
}

/// Stroke number `i` of a full shot.
fn strike(bag: &Bag, club: &str, lie: Lie, stream: u64, i: u32) -> Strike {
    let swing = bag.swing(bag.find(club).unwrap(), lie);
    let noise = PlayNoise::new(Seed(20_261_125), stream).stroke(i);
    swing.strike(swing.full_carry, &noise)
}

fn shots(player: &Player, club: &str, lie: Lie, count: u32, stream: u64) -> Vec<Shot> {
    let bag = player.prepare();
    (0..count)
        .map(|i| {
            let strike = strike(&bag, club, lie, stream, i);
            Shot {
                lie: Some(lie),
                ..Shot::new(club, strike.carry, strike.lateral)
            }
        })
        .collect()
}

fn outcomes(
    player: &Player,
    club: &str,
    lie: Lie,
    ground: Ground,
    count: u32,
    stream: u64,
) -> Vec<Outcome> {
    let bag = player.prepare();
    let swing = bag.swing(bag.find(club).unwrap(), lie);
    let centre = swing.full_carry * (1.0 + swing.run);
    (0..count)
        .map(|i| {
            let strike = strike(&bag, club, lie, stream, i);
            let (side, deep) = (strike.lateral, strike.carry + strike.run - centre);
            let half = ground.depth.map_or(f64::INFINITY, |d| 0.5 * d);
            let finish = match () {
                () if side < -0.5 * ground.width => Finish::Left,
                () if side > 0.5 * ground.width => Finish::Right,
                () if deep < -half => Finish::Short,
                () if deep > half => Finish::Long,
                () => Finish::Hit,
            };
            Outcome {
                club: club.to_owned(),
                ground,
                finish,
                lie: Some(lie),
            }
        })
        .collect()
}

fn evidence(shots: Vec<Shot>) -> Evidence {
    Evidence {
        shots,
        unit_told: true,
        ..Evidence::default()
    }
}

fn fit(prior: &Player, shots: Vec<Shot>) -> Fit {
    Fit::to_shots(prior, &evidence(shots)).unwrap()
}

fn figure(club: &ClubParts, figure: Figure) -> f64 {
    match figure {
        Figure::Carry => club.carry,
        Figure::CarrySd => club.carry_sd,
        Figure::LateralBias => club.lateral_bias,
        Figure::LateralSd => club.lateral_sd,
        Figure::Correlation => club.correlation,
        Figure::MishitShare => club.mishit_share,
    }
}

/// The counts that a binomial leaves with probability `alarm` on each side.
fn band(trials: u64, chance: f64, alarm: f64) -> (u64, u64) {
    let law = Binomial::new(chance, trials).unwrap();
    (law.inverse_cdf(alarm), law.inverse_cdf(1.0 - alarm))
}

/// Simulation-based calibration (Talts and others 2018, arXiv 1804.06788): a truth drawn from the prior lies in the 90 %
/// interval of its posterior with probability 0.9 exactly, whatever the data, and in the 50 % interval with 0.5.
///
/// 200 players with few shots of a driver, some of a 7-iron, five of a 9-iron from the rough, twenty fairways and
/// greens told but not measured, and clubs never seen. 48 counts, each outside its band with probability 2e-5: a
/// false alarm has probability 1e-3. Intervals a quarter too narrow (coverage 0.78) are caught in any
/// figure with probability 0.6, in one of eight with certainty.
#[test]
fn intervals_hold_the_truth_as_often_as_they_say() {
    let asked_for = std::env::var("WIDEBERTH_PLAYERS")
        .ok()
        .and_then(|n| n.parse().ok());
    let players: usize = asked_for.unwrap_or(200);
    let prior = level(18.0);
    let truths = Fit::by_level(&prior)
        .unwrap()
        .draws(players, Seed(4))
        .unwrap();
    let asked = ["driver", "7-iron", "9-iron", "sand wedge"];
    let hits: Vec<[[bool; 2]; 24]> = truths
        .par_iter()
        .enumerate()
        .map(|(i, truth)| {
            let stream = 1000 * (1 + i as u64);
            let mut all = shots(truth, "driver", Lie::Tee, 8, stream);
            all.extend(shots(truth, "7-iron", Lie::Fairway, 25, stream + 1));
            all.extend(shots(truth, "9-iron", Lie::Rough, 5, stream + 2));
            let fairway = Ground {
                width: 32.0,
                depth: None,
            };
            let green = Ground {
                width: 26.0,
                depth: Some(24.0),
            };
            let mut told = outcomes(truth, "driver", Lie::Tee, fairway, 12, stream + 3);
            told.extend(outcomes(
                truth,
                "9-iron",
                Lie::Fairway,
                green,
                20,
                stream + 4,
            ));
            let evidence = Evidence {
                outcomes: told,
                ..evidence(all)
            };
            let fit = Fit::to_shots(&prior, &evidence).unwrap();
            let mut hits = [[false; 2]; 24];
            for (i, hit) in hits.iter_mut().enumerate() {
                let (club, asked) = (asked[i / 6], Figure::ALL[i % 6]);
                let true_value = figure(truth.club(club).unwrap(), asked);
                for (hit, share) in hit.iter_mut().zip([0.9, 0.5]) {
                    let (low, high) = fit.interval(club, asked, share).unwrap();
                    *hit = (low..=high).contains(&true_value);
                }
            }
            hits
        })
        .collect();
    for (k, share) in [0.9, 0.5].into_iter().enumerate() {
        let (least, most) = band(players as u64, share, 1e-5);
        let counts: Vec<u64> = (0..24)
            .map(|i| hits.iter().filter(|h| h[i][k]).count() as u64)
            .collect();
        eprintln!("{share}: {counts:?} of {players}, band {least} to {most}");
        for (i, count) in counts.iter().enumerate() {
            assert!(
                (least..=most).contains(count),
                "{} {}: the {share} interval held the truth {count} times of {players}, band {least} to {most}",
                asked[i / 6],
                Figure::ALL[i % 6].name()
            );
        }
    }
}

/// A golfer unlike the level in every figure.
fn unlike() -> Player {
    let prior = level(18.0);
    let mut parts = prior.into_parts();
    parts.lies = [LieEffect::NONE; 9];
    let old = parts.clubs.iter_mut().find(|c| c.name == "7-iron").unwrap();
    *old = Club::new(ClubParts {
        carry: 136.0,
        carry_sd: 9.5,
        lateral_bias: 6.0,
        lateral_sd: 7.0,
        correlation: -0.3,
        mishit_share: 0.22,
        ..old.clone().into_parts()
    })
    .unwrap();
    Player::new(parts).unwrap()
}

/// 2,000 shots outweigh the level: each figure must lie within 4 of its standard errors (false-alarm rate 4e-4 for the
/// six), and the errors must be those of large samples where a closed form exists.
#[test]
fn a_known_truth_is_found_again() {
    let truth = unlike();
    let fit = fit(&level(18.0), shots(&truth, "7-iron", Lie::Fairway, 2000, 7));
    let (found, sure) = (
        fit.player().club("7-iron").unwrap(),
        fit.uncertainty("7-iron").unwrap(),
    );
    for f in Figure::ALL {
        let want = figure(truth.club("7-iron").unwrap(), f);
        let (got, error) = (figure(found, f), sure.errors[f]);
        eprintln!("{}: {got:.4} ± {error:.4}, true {want}", f.name());
        assert!(
            (got - want).abs() < 4.0 * error,
            "{}: {got} ± {error} is not {want}",
            f.name()
        );
    }
    // Solid strikes alone would give sd / sqrt(n), which mishits can only blur.
    let solid = 2000.0 * 0.78;
    let ratio = |error: f64, exact: f64| {
        assert!(
            (0.97..1.25).contains(&(error / exact)),
            "{error} against {exact}"
        );
    };
    ratio(sure.errors.carry, 9.5 / f64::sqrt(solid));
    ratio(sure.errors.carry_sd, 9.5 / f64::sqrt(2.0 * solid));
    ratio(sure.errors.mishit_share, f64::sqrt(0.22 * 0.78 / 2000.0));
    assert!(
        sure.weights.carry > 0.98 && sure.weights.mishit_share > 0.9,
        "{:?}",
        sure.weights
    );
    assert!((sure.mishits - 0.22 * 2000.0).abs() < 5.0 * (2000.0_f64 * 0.22 * 0.78).sqrt());
    assert!(fit.doubts().is_empty(), "{:?}", fit.doubts());
    assert!(fit.disagreement() < 1.02, "{}", fit.disagreement());
}

/// Without mishits the fit is the sample's mean, deviation and correlation, but for the prior's small pull.
#[test]
fn clean_shots_give_the_sample_moments() {
    let mut parts = unlike().into_parts();
    for club in &mut parts.clubs {
        let exact = ClubParts {
            mishit_share: 0.0,
            ..club.clone().into_parts()
        };
        *club = Club::new(exact).unwrap();
    }
    let truth = Player::new(parts).unwrap();
    let shots = shots(&truth, "7-iron", Lie::Fairway, 400, 8);
    let n = shots.len() as f64;
    let mean = |f: &dyn Fn(&Shot) -> f64| shots.iter().map(f).sum::<f64>() / n;
    let (x, y) = (mean(&|s| s.carry), mean(&|s| s.lateral));
    let (xx, yy) = (
        mean(&|s| (s.carry - x).powi(2)).sqrt(),
        mean(&|s| (s.lateral - y).powi(2)).sqrt(),
    );
    let rho = mean(&|s| (s.carry - x) * (s.lateral - y)) / (xx * yy);
    let fit = fit(&level(18.0), shots.clone());
    let club = fit.player().club("7-iron").unwrap();
    let near = |got: f64, want: f64, within: f64| {
        assert!((got - want).abs() < within, "{got} is not {want}");
    };
    near(club.carry, x, 0.25);
    near(club.lateral_bias, y, 0.2);
    near(club.carry_sd, xx, 0.35);
    near(club.lateral_sd, yy, 0.3);
    near(club.correlation, rho, 0.06);
    assert!(club.mishit_share < 0.03, "{}", club.mishit_share);
    assert!(fit.judged().iter().all(|j| j.outlier < 0.9));
}

#[test]
fn few_shots_keep_to_the_level_and_say_so() {
    let prior = level(18.0);
    let truth = unlike();
    let (few, many) = [5, 500]
        .map(|n| fit(&prior, shots(&truth, "7-iron", Lie::Fairway, n, 9)))
        .into();
    let of = |fit: &Fit| fit.uncertainty("7-iron").unwrap();
    for f in Figure::ALL {
        let unseen = Fit::by_level(&prior)
            .unwrap()
            .uncertainty("7-iron")
            .unwrap();
        assert!(of(&many).errors[f] < of(&few).errors[f], "{}", f.name());
        assert!(of(&many).weights[f] > of(&few).weights[f], "{}", f.name());
        assert!(of(&few).errors[f] < 1.3 * unseen.errors[f], "{}", f.name());
    }
    assert!(of(&few).weights.carry > 0.5 && of(&few).weights.correlation < 0.4);
    // The other clubs go with the one that was measured: 136 against the level's 130 or so.
    let longer =
        |fit: &Fit, name| fit.player().club(name).unwrap().carry / prior.club(name).unwrap().carry;
    for name in ["driver", "6-iron", "sand wedge"] {
        assert!(longer(&many, name) > 1.02 && longer(&many, name) < longer(&many, "7-iron"));
    }
    assert!(longer(&many, "6-iron") > longer(&many, "driver"));
    // Nothing but the clubs was fitted.
    assert_eq!(few.player().putting, prior.putting);
    assert_eq!(few.player().short_game, prior.short_game);
}

/// Shots that no strike explains are found, and their pull ends: the further away, the less it matters.
#[test]
fn outliers_are_found_and_not_averaged_in() {
    let prior = level(18.0);
    let clean = shots(&level(18.0), "7-iron", Lie::Fairway, 20, 3);
    let with = |carry, lateral| {
        let mut all = clean.clone();
        all.push(Shot::new("7-iron", carry, lateral));
        fit(&prior, all)
    };
    let alone = fit(&prior, clean.clone());
    let of = |fit: &Fit| fit.player().club("7-iron").unwrap().clone();
    for (carry, lateral) in [(255.0, 0.0), (210.0, 3.0), (130.0, 140.0), (0.0, -200.0)] {
        let with = with(carry, lateral);
        assert!(
            with.judged()[20].outlier > 0.95,
            "({carry}, {lateral}): {:?}",
            with.judged()[20]
        );
        let (a, b) = (of(&alone), of(&with));
        assert!((a.carry - b.carry).abs() < 0.5 && (a.carry_sd / b.carry_sd - 1.0).abs() < 0.05);
        assert!((a.lateral_bias - b.lateral_bias).abs() < 0.5);
        assert!((a.lateral_sd / b.lateral_sd - 1.0).abs() < 0.05);
    }
    // The mean of the shots would have moved by 6 yards.
    let topped = with(45.0, 5.0);
    assert!(topped.judged()[20].mishit > 0.95 && topped.judged()[20].outlier < 0.05);
    assert!((of(&topped).carry - of(&alone).carry).abs() < 0.5);
    let solid = with(of(&alone).carry, 1.0);
    assert!(solid.judged()[20].mishit < 0.1);
}

/// A golfer far from the level is found all the same: no shot may be taken for an outlier because the level is another.
#[test]
fn a_golfer_far_from_the_level_is_found() {
    let prior = level(18.0);
    for times in [0.7, 1.3] {
        let shots: Vec<Shot> = shots(&level(5.0), "7-iron", Lie::Fairway, 40, 4)
            .into_iter()
            .map(|s| Shot {
                carry: s.carry * times * prior.club("7-iron").unwrap().carry
                    / level(5.0).club("7-iron").unwrap().carry,
                ..s
            })
            .collect();
        let fit = fit(&prior, shots);
        let ratio =
            fit.player().club("7-iron").unwrap().carry / prior.club("7-iron").unwrap().carry;
        assert!((ratio / times - 1.0).abs() < 0.03, "{ratio} is not {times}");
        assert!(fit.judged().iter().filter(|j| j.outlier > 0.5).count() <= 1);
        assert!(
            fit.doubts()
                .iter()
                .any(|d| matches!(d, Doubt::FarFromLevel { .. })),
            "{:?}",
            fit.doubts()
        );
    }
}

/// Shots from the rough are shorter and wilder; the club is told as it is from its own lie.
#[test]
fn lies_are_taken_into_account() {
    let truth = level(18.0);
    let rough = fit(&truth, shots(&truth, "5-iron", Lie::DeepRough, 400, 11));
    let (found, sure) = (
        rough.player().club("5-iron").unwrap(),
        rough.uncertainty("5-iron").unwrap(),
    );
    let club = truth.club("5-iron").unwrap();
    for f in Figure::ALL {
        let (got, want) = (figure(found, f), figure(club, f));
        assert!(
            (got - want).abs() < 4.0 * sure.errors[f],
            "{}: {got} is not {want}",
            f.name()
        );
    }
    let mean = shots(&truth, "5-iron", Lie::DeepRough, 400, 11)
        .iter()
        .map(|s| s.carry)
        .sum::<f64>()
        / 400.0;
    assert!(mean < 0.75 * club.carry, "{mean}");
}

#[test]
fn outcomes_on_the_course_are_weaker_evidence() {
    let prior = level(18.0);
    let fairway = Ground {
        width: 30.0,
        depth: None,
    };
    let fairways = |finishes: &[(Finish, usize)]| {
        let one = |finish| Outcome {
            club: "driver".to_owned(),
            ground: fairway,
            finish,
            lie: None,
        };
        let outcomes = finishes
            .iter()
            .flat_map(|(f, n)| vec![one(*f); *n])
            .collect();
        Fit::to_shots(
            &prior,
            &Evidence {
                outcomes,
                ..Evidence::default()
            },
        )
        .unwrap()
    };
    let sliced = fairways(&[(Finish::Hit, 12), (Finish::Right, 25), (Finish::Left, 3)]);
    let hooked = fairways(&[(Finish::Hit, 12), (Finish::Right, 3), (Finish::Left, 25)]);
    let straight = fairways(&[(Finish::Hit, 36), (Finish::Right, 2), (Finish::Left, 2)]);
    let of = |fit: &Fit| fit.player().club("driver").unwrap().clone();
    assert!(of(&sliced).lateral_bias > 8.0);
    // A mirror image to the sampling error of 1,000 draws.
    assert!((of(&sliced).lateral_bias + of(&hooked).lateral_bias).abs() < 1.0);
    assert!(of(&straight).lateral_sd < prior.club("driver").unwrap().lateral_sd - 2.0);
    assert!(of(&straight).lateral_bias.abs() < 1.5);
    let measured = fit(&prior, shots(&prior, "driver", Lie::Tee, 40, 12))
        .uncertainty("driver")
        .unwrap();
    let told = straight.uncertainty("driver").unwrap();
    assert!(
        told.weights.lateral_bias > 0.3
            && told.weights.lateral_bias < measured.weights.lateral_bias
    );
    assert!(told.weights.carry < 0.1 && (told.shots, told.outcomes) == (0, 40));
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

#[test]
fn the_same_evidence_gives_the_same_fit() {
    let prior = level(12.0);
    let shots = shots(&level(15.0), "8-iron", Lie::Fairway, 12, 14);
    assert_eq!(fit(&prior, shots.clone()), fit(&prior, shots));
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
fn women_are_fitted_to_their_own_level() {
    let prior = Player::from_reference(Reference::Women, 24.0).unwrap();
    let fit = fit(&prior, shots(&prior, "7-iron", Lie::Fairway, 60, 15));
    let club = fit.player().club("7-iron").unwrap();
    assert!((club.carry / prior.club("7-iron").unwrap().carry - 1.0).abs() < 0.04);
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
        "shots, row 2 (counted from 0, 7-iron): carry is NaN; it must be 0 to 450 yards"
    );
    assert!(
        with(shot("7-iron", -3.0, 3.0)).contains("row 2 (counted from 0, 7-iron): carry is -3;")
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
            "shots, row 2 (counted from 0): club is \"7 Iron\"; did you mean \"7-iron\"? the clubs"
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
        "outcomes, row 0 (counted from 0, driver): width is 0; it must be 1 to 200 yards"
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
    assert!(known(&[], &[("driver", 90.0)]).contains("within a quarter of the carry"));
    assert!(known(&[], &[("driver", f64::NAN)]).contains("within a quarter of the carry"));
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
        ..Shot::new("7-iron", 128.0 + f64::from(i % 5), 0.0)
    };
    said(
        &doubts((0..10).map(spun).collect(), true),
        "1 shot has a carry more than 5 yards longer than the total",
    );
}

/// Tables of 150 players of the level, with 15 to 55 shots of five clubs, changed by `change`.
fn doubted(change: impl Fn(&Player, Shot) -> Shot + Sync) -> Vec<Vec<Doubt>> {
    let prior = level(18.0);
    let truths = Fit::by_level(&prior).unwrap().draws(150, Seed(8)).unwrap();
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
    let honest = doubted(|_, shot| shot);
    let counts = [
        count(&honest, |d| matches!(d, Doubt::TwoPatterns { .. })),
        count(&honest, |d| matches!(d, Doubt::ManyOutliers { .. })),
        count(&honest, |d| matches!(d, Doubt::Unsettled { .. })),
        count(&honest, |d| matches!(d, Doubt::FarFromLevel { .. })),
        count(&honest, metres),
        count(&honest, totals),
    ];
    let in_metres = doubted(|_, shot| Shot {
        carry: 0.9144 * shot.carry,
        lateral: 0.9144 * shot.lateral,
        ..shot
    });
    let as_totals = doubted(|player, shot| {
        let run = player.club(&shot.club).unwrap().run;
        Shot {
            carry: shot.carry * (1.0 + run),
            ..shot
        }
    });
    let right = [count(&in_metres, metres), count(&as_totals, totals)];
    eprintln!(
        "doubts of 150 honest tables: {counts:?}; of 150 in metres and 150 of totals: {right:?}"
    );
    for (count, most) in counts.into_iter().zip([5, 3, 1, 8, 45, 30]) {
        assert!(count <= most, "{counts:?}");
    }
    assert!(right[0] > 75 && right[1] > 60, "{right:?}");
}

#[test]
fn a_bag_of_other_clubs_is_filled_from_the_level() {
    let bag = ["driver", "4-iron", "7-iron", "wedge 52"].map(str::to_owned);
    let carries = [("driver", 205.0), ("4-iron", 165.0), ("wedge 52", 82.0)];
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
