//! Shots of a player of whom something is known already: known figures stand, earlier shots count, truths are found again.
use crate::common;

use common::shots::{evidence, figure, fit, level, shots};
use rayon::prelude::*;
use statrs::distribution::{Binomial, DiscreteCDF};
use wideberth::fit::{Evidence, Figure, Finish, Fit, FitFault, Ground, Known, Outcome, Shot};
use wideberth::noise::Seed;
use wideberth::player::{Lie, Player};

fn known(carries: &[(&str, f64)], biases: &[(&str, f64)]) -> Known {
    let list = |of: &[(&str, f64)]| of.iter().map(|(n, v)| ((*n).to_owned(), *v)).collect();
    Known {
        carries: list(carries),
        lateral_biases: list(biases),
    }
}

/// Shots of a player's 7-iron, every carry so many times as long.
fn irons(player: &Player, times: f64, count: u32, stream: u64) -> Evidence {
    let shots = shots(player, "7-iron", Lie::Fairway, count, stream);
    let longer = |s: Shot| Shot {
        carry: times * s.carry,
        ..s
    };
    evidence(shots.into_iter().map(longer).collect())
}

fn carry(player: &Player, club: &str) -> f64 {
    player.club(club).unwrap().carry
}

#[test]
fn known_figures_of_unmeasured_clubs_stand() {
    let level = level(18.0);
    let knows = Fit::with_known(
        &level,
        &known(&[("driver", 236.0)], &[("driver", 14.0), ("4-hybrid", 3.0)]),
    );
    let knows = knows.unwrap();
    let shots = irons(knows.player(), 1.08, 60, 31);
    let fitted = knows.with_shots(&shots).unwrap();
    let forgot = Fit::to_shots(knows.player(), &shots).unwrap();
    // Whoever forgets stretches the driver that is known.
    assert!(carry(forgot.player(), "driver") > 242.0);
    let driver = fitted.player().club("driver").unwrap();
    assert_eq!((driver.carry, driver.lateral_bias), (236.0, 14.0));
    assert_eq!(fitted.player().club("4-hybrid").unwrap().lateral_bias, 3.0);
    for draw in fitted.draws(200, Seed(2)).unwrap() {
        let driver = draw.club("driver").unwrap();
        assert_eq!((driver.carry, driver.lateral_bias), (236.0, 14.0));
    }
    let sure = fitted.uncertainty("driver").unwrap();
    assert!(sure.errors.carry < 1e-9 && sure.weights.carry > 1.0 - 1e-9);
    assert!(sure.errors.carry_sd > 0.5 && sure.shots == 0);
    // The 7-iron is as long as its shots; what lies between goes with both, and less far than if nothing were known.
    let times = |fit: &Fit, club| carry(fit.player(), club) / carry(knows.player(), club);
    assert!((times(&fitted, "7-iron") - 1.08).abs() < 0.02);
    for club in ["3-wood", "5-wood", "4-hybrid"] {
        assert!(times(&fitted, club) < times(&forgot, club) - 0.005);
    }
    assert!(times(&fitted, "8-iron") > 1.03);
    let words = fitted.source();
    assert_eq!(
        words,
        "what is left open by 60 measured shots and the figures that were known"
    );
}

/// Shots that agree with what is known leave the bag where it was. The mean of 300 solid carries is known to 0.4 %: 2 % is
/// 5 standard errors.
#[test]
fn shots_that_agree_change_little() {
    let knows = Fit::with_known(&level(18.0), &known(&[("driver", 236.0)], &[])).unwrap();
    let seen = irons(knows.player(), 1.0, 300, 32);
    let fitted = knows.with_shots(&seen).unwrap();
    for club in &knows.player().clubs {
        let times = carry(fitted.player(), &club.name) / club.carry;
        assert!((times - 1.0).abs() < 0.02, "{}: {times}", club.name);
    }
    assert_eq!(carry(fitted.player(), "driver"), 236.0);
}

/// Calibration as in `fit.rs`, of players whose driver's carry and bias are known and whose 7-iron has 12 shots: the truth
/// lies in an interval as often as it says. 24 counts, each outside its band with probability 2e-5: a false alarm has
/// probability 5e-4. And next to a fit that forgets what was known the carries of clubs never seen are nearer the truth.
#[test]
fn intervals_hold_the_truth_when_something_is_known() {
    const PLAYERS: u64 = 200;
    let prior = level(18.0);
    let by_level = Fit::by_level(&prior).unwrap();
    let truths = by_level.draws(200, Seed(14)).unwrap();
    let asked = ["3-wood", "5-iron", "7-iron", "sand wedge"];
    let figures = [Figure::Carry, Figure::LateralBias, Figure::CarrySd];
    let one = |(i, truth): (usize, &Player)| {
        let driver = truth.club("driver").unwrap();
        let told = known(
            &[("driver", driver.carry)],
            &[("driver", driver.lateral_bias)],
        );
        let knows = Fit::with_known(&prior, &told).unwrap();
        let seen = irons(truth, 1.0, 12, 9_000 + i as u64);
        let fitted = knows.with_shots(&seen).unwrap();
        let forgot = Fit::to_shots(knows.player(), &seen).unwrap();
        let mut hits = [[[false; 2]; 3]; 4];
        for (club, hits) in asked.iter().zip(&mut hits) {
            for (asked, hits) in figures.iter().zip(hits) {
                let want = figure(truth.club(club).unwrap(), *asked);
                for (hit, share) in hits.iter_mut().zip([0.9, 0.5]) {
                    let (low, high) = fitted.interval(club, *asked, share).unwrap();
                    *hit = (low..=high).contains(&want);
                }
            }
        }
        let miss = |fit: &Fit, club: &str| {
            (carry(fit.player(), club) / carry(truth, club))
                .ln()
                .powi(2)
        };
        let misses = ["3-wood", "5-iron"].map(|c| [miss(&fitted, c), miss(&forgot, c)]);
        (hits, misses)
    };
    let found: Vec<_> = truths.par_iter().enumerate().map(one).collect();
    for (k, share) in [0.9, 0.5].into_iter().enumerate() {
        let law = Binomial::new(share, PLAYERS).unwrap();
        let band = law.inverse_cdf(1e-5)..=law.inverse_cdf(1.0 - 1e-5);
        for (c, club) in asked.iter().enumerate() {
            for (f, asked) in figures.iter().enumerate() {
                let count = found.iter().filter(|(hits, _)| hits[c][f][k]).count() as u64;
                eprintln!("{club} {} {share}: {count}", asked.name());
                assert!(band.contains(&count), "{club} {}: {count}", asked.name());
            }
        }
    }
    for (c, club) in ["3-wood", "5-iron"].iter().enumerate() {
        let [fitted, forgot] = [0, 1].map(|w| found.iter().map(|(_, m)| m[c][w]).sum::<f64>());
        eprintln!("{club}: squared misses {fitted:.4}, forgetting {forgot:.4}");
        assert!(fitted < 0.95 * forgot, "{club}: {fitted} {forgot}");
    }
}

#[test]
fn shots_of_a_known_club_can_move_it() {
    let prior = level(18.0);
    let knows = Fit::with_known(&prior, &known(&[("7-iron", 150.0)], &[])).unwrap();
    let fitted = knows.with_shots(&irons(&prior, 1.0, 200, 33)).unwrap();
    let club = carry(fitted.player(), "7-iron");
    assert!(
        (club / carry(&prior, "7-iron") - 1.0).abs() < 0.02,
        "{club}"
    );
    assert_eq!(fitted.known(), knows.known());
}

/// Fairways hit or missed tell next to nothing of a carry: a known one stands.
#[test]
fn outcomes_leave_a_known_carry_alone() {
    let knows = Fit::with_known(&level(18.0), &known(&[("driver", 236.0)], &[])).unwrap();
    let fairway = |finish| Outcome {
        club: "driver".to_owned(),
        ground: Ground {
            width: 30.0,
            depth: None,
        },
        finish,
        lie: None,
    };
    let told = Evidence {
        outcomes: [
            vec![fairway(Finish::Right); 20],
            vec![fairway(Finish::Hit); 12],
        ]
        .concat(),
        ..irons(knows.player(), 1.08, 40, 34)
    };
    let fitted = knows.with_shots(&told).unwrap();
    let driver = fitted.player().club("driver").unwrap();
    assert!(driver.carry == 236.0 && driver.lateral_bias > 8.0);
    assert!(fitted.uncertainty("driver").unwrap().errors.carry < 1e-9);
    assert!(fitted.disagreement() < 1.05, "{}", fitted.disagreement());
    assert!(
        (carry(fitted.player(), "7-iron") / carry(knows.player(), "7-iron") - 1.08).abs() < 0.03
    );
}

#[test]
fn later_shots_are_added_to_earlier_ones() {
    let prior = level(18.0);
    let knows = Fit::with_known(&prior, &known(&[("driver", 236.0)], &[])).unwrap();
    let (first, second) = (irons(&prior, 1.03, 20, 35), irons(&prior, 1.03, 25, 36));
    let both = evidence([first.shots.clone(), second.shots.clone()].concat());
    for before in [Fit::by_level(&prior).unwrap(), knows] {
        let stepwise = before
            .with_shots(&first)
            .unwrap()
            .with_shots(&second)
            .unwrap();
        assert_eq!(stepwise, before.with_shots(&both).unwrap());
        assert_eq!(stepwise.judged().len(), 45);
        let again = Fit::from_json(&stepwise.to_json().unwrap()).unwrap();
        assert_eq!(again, stepwise);
    }
    // A driver measured later is known no more.
    let earlier = Fit::with_known(&prior, &known(&[("driver", 236.0)], &[])).unwrap();
    let earlier = earlier.with_shots(&first).unwrap();
    let drives = evidence(shots(&prior, "driver", Lie::Tee, 40, 37));
    let measured = earlier.with_shots(&drives).unwrap();
    assert!(carry(measured.player(), "driver") < 225.0);
}

#[test]
fn shots_given_twice_are_refused() {
    let prior = level(18.0);
    let first = irons(&prior, 1.0, 20, 38);
    let fitted = fit(&prior, first.shots.clone());
    let longer = evidence([irons(&prior, 1.0, 5, 39).shots, first.shots.clone()].concat());
    for table in [&first, &longer] {
        let refused = fitted.with_shots(table).unwrap_err();
        assert!(
            matches!(refused, FitFault::Again { count: 20 }),
            "{refused}"
        );
    }
    let said = fitted.with_shots(&first).unwrap_err().to_string();
    assert!(
        said.starts_with("shots: the table holds the 20 shots"),
        "{said}"
    );
    // Rows are counted in the table given, not after those before.
    let bad = evidence(vec![Shot::new("7-iron", 900.0, 0.0)]);
    let said = fitted.with_shots(&bad).unwrap_err().to_string();
    assert!(
        said.starts_with("shots, row 2 (the header is row 1), 7-iron: carry is 900"),
        "{said}"
    );
}
