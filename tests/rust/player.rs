//! Players: sampling against closed forms, lies, and faults by hand.
use proptest::prelude::*;
use wideberth::noise::{Noise, PlayNoise, Seed};
use wideberth::player::{
    Bag, Club, ClubId, ClubParts, Lie, LieEffect, Mishit, MishitShape, Player, PlayerFault,
    PlayerParts, Swing,
};

#[track_caller]
fn near(what: &str, got: f64, want: f64, within: f64) {
    assert!(
        (got - want).abs() <= within,
        "{what}: {got:.4}, expected {want}, allowed {within}"
    );
}

/// Luck number `play` of the stroke `stroke` under a seed fixed for this file.
fn luck(play: u64, stroke: u32) -> Noise {
    PlayNoise::new(Seed(20_261_125), play).stroke(stroke)
}

fn player(handicap: f64) -> Player {
    Player::from_handicap(handicap).unwrap()
}

/// A swing whose every part matters.
fn crooked_swing() -> Swing {
    let parts = ClubParts {
        lateral_bias: 6.0,
        correlation: -0.4,
        mishit_share: 0.2,
        mishit_shape: MishitShape {
            duff_part: 0.3,
            ..MishitShape::default()
        },
        run: 0.05,
        ..ClubParts::new("5-iron", 160.0, 8.0, 10.0)
    };
    *alone(Club::new(parts).unwrap()).swing(ClubId(0), Lie::Fairway)
}

/// The bag of a player with one club, whose lies change nothing.
fn alone(club: Club) -> Bag {
    let mut parts = player(10.0).into_parts();
    parts.clubs = vec![club];
    parts.lies = [LieEffect::NONE; 9];
    Player::new(parts).unwrap().prepare()
}

/// Moments of flush strikes: 400,000 draws, each figure within 4.5 of its standard errors (for all five
/// together a false alarm once in 29,000 seeds; the seed is fixed). A spread 5 % off is 45 standard errors out.
#[test]
fn flush_strikes_are_the_ellipse() {
    let swing = Swing {
        duff: never(),
        thin: never(),
        ..crooked_swing()
    };
    let n = 400_000;
    let strikes: Vec<(f64, f64)> = (0..n)
        .map(|i| swing.strike(0.75 * swing.full_carry, &luck(i, 0)))
        .map(|s| (s.carry, s.lateral))
        .collect();
    let count = n as f64;
    let mean = |f: &dyn Fn(&(f64, f64)) -> f64| strikes.iter().map(f).sum::<f64>() / count;
    let (mx, my) = (mean(&|s| s.0), mean(&|s| s.1));
    // At three quarters of the full carry the spread to the side is three quarters of the club's; half of the one in depth does
    // not depend on the carry.
    let (sx, sy, rho) = (7.0, 7.5, -0.4);
    let z = 4.5;
    near("mean carry", mx, 120.0, z * sx / count.sqrt());
    near("mean lateral", my, 4.5, z * sy / count.sqrt());
    near(
        "sd of carry",
        mean(&|s| (s.0 - mx).powi(2)).sqrt(),
        sx,
        z * sx / (2.0 * count).sqrt(),
    );
    near(
        "sd of lateral",
        mean(&|s| (s.1 - my).powi(2)).sqrt(),
        sy,
        z * sy / (2.0 * count).sqrt(),
    );
    let covariance = mean(&|s| (s.0 - mx) * (s.1 - my));
    near(
        "covariance",
        covariance,
        rho * sx * sy,
        z * sx * sy * (1.0 + rho * rho).sqrt() / count.sqrt(),
    );
}

fn never() -> Mishit {
    Mishit {
        share: 0.0,
        carry: 1.0,
        carry_sd: 0.0,
        side: 1.0,
        run: 0.0,
        mildness: 2.0,
    }
}

#[test]
fn no_spread_carries_exactly_what_was_meant() {
    let bag = alone(Club::new(ClubParts::exact("7-iron", 143.0)).unwrap());
    let swing = bag.swing(ClubId(0), Lie::Fairway);
    for i in 0..1000 {
        let strike = swing.strike(143.0, &luck(i, 0));
        assert_eq!(
            (strike.carry, strike.lateral, strike.run, strike.mishit),
            (143.0, 0.0, 0.0, false)
        );
        assert_eq!(swing.strike(71.5, &luck(i, 0)).carry, 71.5);
    }
    let still = player(18.0).without_spread().prepare();
    for club in still.clubs() {
        let swing = still.swing(club, Lie::Tee);
        assert_eq!(
            swing.strike(swing.full_carry, &luck(1, 1)).carry,
            swing.full_carry
        );
    }
}

/// A worse lie is worse, and worse still for a long club; the driver is a poor club off the ground.
#[test]
fn lies_cost_distance_and_accuracy() {
    let bag = player(18.0).prepare();
    let (driver, wood, wedge) = (
        bag.find("driver").unwrap(),
        bag.find("3-wood").unwrap(),
        bag.find("sand wedge").unwrap(),
    );
    let order = [
        Lie::Tee,
        Lie::Fairway,
        Lie::FirstCut,
        Lie::Rough,
        Lie::DeepRough,
    ];
    for club in bag.clubs() {
        for pair in order.windows(2) {
            let (a, b) = (bag.swing(club, pair[0]), bag.swing(club, pair[1]));
            assert!(b.full_carry <= a.full_carry);
            // As many are missed slightly: no more than half can be mishits.
            assert!(b.mishit_share() > a.mishit_share() && b.mishit_share() < 0.5);
            assert!(b.depth_slope > a.depth_slope && b.side_slope > a.side_slope);
        }
    }
    let kept = |club, lie| bag.swing(club, lie).full_carry / bag.swing(club, Lie::Tee).full_carry;
    assert!(kept(driver, Lie::DeepRough) < 0.5 && kept(wedge, Lie::DeepRough) > 0.6);
    let off_the_ground = |c| {
        let s = bag.swing(c, Lie::Fairway);
        s.mean_total(s.full_carry)
    };
    assert!(off_the_ground(driver) < off_the_ground(wood) + 1.0);
    assert_eq!(bag.longest(Lie::Tee), driver);
    assert_ne!(bag.longest(Lie::DeepRough), driver);
}

#[test]
fn the_bag_holds_what_a_golfer_carries() {
    let player = player(18.0);
    let bag = player.prepare();
    assert_eq!((bag.len(), bag.clubs().len()), (13, 13));
    for name in [
        "driver",
        "3-wood",
        "5-hybrid",
        "5-iron",
        "7-iron",
        "pitching wedge",
        "sand wedge",
    ] {
        assert_eq!(bag.name(bag.find(name).unwrap()), name);
    }
    let longer = player.clone().with_carry("7-iron", 140.0).unwrap();
    let (old, new) = (
        player.club("7-iron").unwrap(),
        longer.club("7-iron").unwrap(),
    );
    assert_eq!(new.carry, 140.0);
    near(
        "spread keeps its share",
        new.carry_sd / new.carry,
        old.carry_sd / old.carry,
        1e-12,
    );
}

#[track_caller]
fn refused<T: std::fmt::Debug>(result: Result<T, PlayerFault>, message: &str) {
    assert_eq!(result.unwrap_err().to_string(), message);
}

#[test]
fn faults_name_field_value_and_what_is_allowed() {
    let iron = |f: fn(&mut ClubParts)| {
        let mut parts = ClubParts::new("5-iron", 160.0, 9.0, 12.0);
        f(&mut parts);
        Club::new(parts)
    };
    refused(
        iron(|c| c.carry_sd = -3.0),
        "5-iron: carry_sd is -3; it must be 0 or more",
    );
    refused(
        iron(|c| c.correlation = 1.4),
        "5-iron: correlation is 1.4; it must be -0.99 to 0.99",
    );
    refused(
        iron(|c| c.carry = f64::NAN),
        "5-iron: carry is NaN; it must be 1 to 450 yards",
    );
    refused(
        iron(|c| c.carry = f64::INFINITY),
        "5-iron: carry is inf; it must be 1 to 450 yards",
    );
    refused(
        iron(|c| c.lateral_sd = 90.0),
        "5-iron: lateral_sd is 90; it must be at most half the carry",
    );
    refused(
        iron(|c| c.mishit_share = 1.0),
        "5-iron: mishit_share is 1; it must be 0 to 0.45",
    );
    refused(
        iron(|c| c.name = " ".into()),
        "club name is \" \"; it must have 1 to 60 characters and no control characters",
    );
    refused(
        iron(|c| c.name = "Putter".into()),
        "clubs: \"Putter\" is not a club with a carry; describe the putter under putting",
    );
    for h in [80.0, -1.0, f64::NAN] {
        refused(
            Player::from_handicap(h),
            &format!("handicap is {h}; it must be 0 to 54"),
        );
    }
    let with = |f: fn(&mut PlayerParts)| {
        let mut parts = player(12.0).into_parts();
        f(&mut parts);
        Player::new(parts)
    };
    refused(
        with(|p| p.clubs.clear()),
        "clubs: there are 0; there must be 1 to 13 (Rule 4.1b allows 14 with the putter)",
    );
    refused(
        with(|p| p.clubs[1] = p.clubs[0].clone()),
        "clubs: \"driver\" appears twice; each club must have a name of its own",
    );
    refused(
        with(|p| p.putting.pace = f64::NAN),
        "putting: pace is NaN; it must be 0 to 0.6 (a share of the roll-out)",
    );
    refused(
        with(|p| p.short_game.bunker_shot.duffs = -0.1),
        "short_game.bunker_shot: duffs is -0.1; it must be 0 to 0.45",
    );
    // As many are missed slightly, and some must be flush.
    refused(
        with(|p| (p.short_game.lob.duffs, p.short_game.lob.thins) = (0.25, 0.25)),
        "short_game.lob: thins is 0.25; it must be 0 to 0.45 less the duffs",
    );
    refused(
        with(|p| p.lies[3].carry = 0.0),
        "lies.rough: carry is 0; it must be 0.1 to 1.2",
    );
    let unknown = player(12.0).club("2-iron").unwrap_err().to_string();
    assert!(
        unknown.contains("2-iron") && unknown.contains("driver, 3-wood"),
        "{unknown}"
    );
}

proptest! {
    /// Whatever the luck and the lie, a strike is finite, goes forward, and more luck in depth never
    /// shortens it.
    #[test]
    fn strikes_are_finite_and_ordered(
        handicap in 0.0..=54.0,
        club in 0_u8..13,
        lie in 0_usize..9,
        part in 0.01..=1.0,
        depth in -9.0..=9.0,
        side in -9.0..=9.0,
        strike in 0.0..1.0,
    ) {
        let bag = player(handicap).prepare();
        let swing = bag.swing(ClubId(club), Lie::ALL[lie]);
        let at = |depth: f64| swing.strike(part * swing.full_carry, &Noise { depth, side, strike, ..Noise::NONE });
        let (less, more) = (at(depth), at(depth + 0.5));
        prop_assert!(less.carry > 0.0 && less.carry.is_finite() && less.lateral.is_finite() && less.run >= 0.0);
        prop_assert!(more.carry >= less.carry);
    }
}
