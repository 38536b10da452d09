//! Players fitted to shots: honest intervals, a known truth found again, outliers found.
//!
//! The shots come from `player::Swing::strike`, the code that plays them, which shares no line with the likelihood.
use crate::common;

use common::law::Law;
use common::shots::{evidence, figure, fit, level, level_from_any_lie, shots, strike, unlike};
use nalgebra::{SMatrix, SVector};
use rayon::prelude::*;
use statrs::distribution::{Binomial, DiscreteCDF};
use wideberth::fit::{Doubt, Evidence, Figure, Finish, Fit, Ground, Outcome, Shot};
use wideberth::noise::Seed;
use wideberth::player::{Club, ClubParts, Lie, Player};

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
    // A golfer of habit swings fully at what lies a little beyond.
    let centre = swing.full_carry * (1.0 + swing.run) / (1.0 - player.habits.too_little_club);
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
        .filter_map(|(i, truth)| {
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
            // Five shots of which most are duffed look like another unit, and are refused.
            let fit = Fit::to_shots(&prior, &evidence).ok()?;
            let mut hits = [[false; 2]; 24];
            for (i, hit) in hits.iter_mut().enumerate() {
                let (club, asked) = (asked[i / 6], Figure::ALL[i % 6]);
                let true_value = figure(truth.club(club).unwrap(), asked);
                for (hit, share) in hit.iter_mut().zip([0.9, 0.5]) {
                    let (low, high) = fit.interval(club, asked, share).unwrap();
                    *hit = (low..=high).contains(&true_value);
                }
            }
            Some(hits)
        })
        .collect();
    assert!(
        hits.len() + 2 >= players,
        "{} refused",
        players - hits.len()
    );
    let players = hits.len();
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

/// The errors that many shots leave of a club's six figures: from the information in the shots, the squares of the slopes of
/// the log density of an integration over 64 severities that shares no code with the core (computed independently).
fn large_sample_errors(truth: &ClubParts, shots: &[Shot]) -> [f64; 6] {
    let moved = |figure: usize, step: f64| {
        let mut club = truth.clone();
        let figures = [
            &mut club.carry,
            &mut club.carry_sd,
            &mut club.lateral_bias,
            &mut club.lateral_sd,
            &mut club.correlation,
            &mut club.mishit_share,
        ];
        for (k, value) in figures.into_iter().enumerate() {
            if k == figure {
                *value += step;
            }
        }
        Law::over(&club, 1.0, 64)
    };
    const STEP: f64 = 1e-4;
    let laws: Vec<[Law; 2]> = (0..6).map(|k| [moved(k, STEP), moved(k, -STEP)]).collect();
    let mut information = SMatrix::<f64, 6, 6>::zeros();
    for shot in shots {
        let slope = SVector::<f64, 6>::from_fn(|k, _| {
            let [up, down] = laws[k]
                .each_ref()
                .map(|law| law.log_density(shot.carry, shot.lateral));
            (up - down) / (2.0 * STEP)
        });
        information += slope * slope.transpose();
    }
    let covariance = information.try_inverse().unwrap();
    std::array::from_fn(|k| covariance[(k, k)].sqrt())
}

/// 2,000 shots outweigh the level: each figure must lie within 4 of its standard errors (false-alarm rate 4e-4 for the
/// six), and the errors must be those of large samples. The information of 2,000 shots is known to some 5 %, and what is left
/// of the level makes it more.
#[test]
fn a_known_truth_is_found_again() {
    let truth = unlike();
    let shots = shots(&truth, "7-iron", Lie::Fairway, 2000, 7);
    let fit = fit(&level_from_any_lie(18.0), shots.clone());
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
    let exact = large_sample_errors(truth.club("7-iron").unwrap(), &shots);
    for (f, exact) in Figure::ALL.into_iter().zip(exact) {
        let ratio = sure.errors[f] / exact;
        eprintln!("{}: {ratio:.3} of the error of large samples", f.name());
        // The spread in depth is told by strikes short of the middle, where slight misses lie, too: what the level says of both
        // weighs more. (Over 100 tables of 400 shots the misses of the six figures were 0.88 to 1.11 of their errors.)
        let least = if f == Figure::CarrySd { 0.7 } else { 0.85 };
        assert!((least..1.15).contains(&ratio), "{}: {ratio}", f.name());
    }
    assert!(
        sure.weights.carry > 0.98 && sure.weights.mishit_share > 0.8,
        "{:?}",
        sure.weights
    );
    let off = sure.mishits - 0.22 * 2000.0;
    assert!(off.abs() < 5.0 * 2000.0 * sure.errors.mishit_share, "{off}");
    assert!(fit.doubts().is_empty(), "{:?}", fit.doubts());
    assert!(fit.disagreement() < 1.02, "{}", fit.disagreement());
}

/// Without mishits the fit is the sample's mean, deviation and correlation, but for the prior's small pull: a slight miss
/// looks like a flush strike, so that a few are always thought to be among them, and the flush carry to be a little longer
/// than the mean.
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
    let fit = fit(&level_from_any_lie(18.0), shots.clone());
    let club = fit.player().club("7-iron").unwrap();
    let near = |got: f64, want: f64, within: f64| {
        assert!((got - want).abs() < within, "{got} is not {want}");
    };
    near(club.carry, x, 0.5);
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
            with.judged()[20].outlier > 0.93,
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
    let rough = fit(&truth, shots(&truth, "5-iron", Lie::Rough, 400, 11));
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
    let mean = shots(&truth, "5-iron", Lie::Rough, 400, 11)
        .iter()
        .map(|s| s.carry)
        .sum::<f64>()
        / 400.0;
    assert!(mean < 0.9 * club.carry, "{mean}");
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
    // As many drives of that straight golfer's, measured.
    let measured = fit(&prior, shots(straight.player(), "driver", Lie::Tee, 40, 12))
        .uncertainty("driver")
        .unwrap();
    let told = straight.uncertainty("driver").unwrap();
    assert!(
        told.weights.lateral_bias > 0.3
            && told.weights.lateral_bias < measured.weights.lateral_bias
    );
    assert!(told.weights.carry < 0.1 && (told.shots, told.outcomes) == (0, 40));
}
