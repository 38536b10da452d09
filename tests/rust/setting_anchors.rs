//! A player's own carries and runs are met in still air on level ground, and those that cannot be are refused.
use crate::common;

use common::strokes::{BAG, fairway, golfer, lying, setting, struck};
use common::{all, rectangle, up_the_plan};
use std::sync::Arc;
use wideberth::geometry::Point;
use wideberth::hole::Surface;
use wideberth::noise::Noise;
use wideberth::player::{Club, ClubParts, Lie, Player, Reference, Touch};
use wideberth::setting::Setting;
use wideberth::shot::{self, Shot, Stroke};

fn players() -> Vec<(String, Player)> {
    let of = |h: f64| {
        let player = Player::from_handicap(h).expect("a handicap");
        (format!("handicap {h}"), player)
    };
    let mut list = [0.0, 18.0, 36.0, 54.0].map(of).to_vec();
    let professional = Player::professional().expect("a professional");
    list.push(("professional".to_owned(), professional));
    list
}

/// In still air over level fairway of medium firmness. Measured: carries within 1e-3 yards, runs within 0.01.
#[test]
fn every_club_carries_and_runs_what_its_player_says() {
    for (name, player) in players() {
        let day = setting(&fairway(), &player);
        for (club, id) in player.clubs.iter().zip(0..) {
            let outcome = struck(&day, id);
            let carry = (outcome.landed - Point::origin()).norm();
            let run = outcome.rest.y - outcome.landed.y;
            let what = format!("{name}, {}: {carry} and {run}", club.name);
            assert!((carry - club.carry).abs() < 0.05, "{what}");
            assert!((run - club.run * club.carry).abs() < 0.05, "{what}");
        }
    }
}

/// Source: Course Rating System Manual 2020 (published): a tee shot on a flat fairway runs 20 yards, scratch and bogey, men
/// and women.
#[test]
fn tee_shots_of_the_reference_golfers_run_twenty_yards() {
    for (reference, bogey) in [(Reference::Men, 20.0), (Reference::Women, 24.0)] {
        for handicap in [0.0, bogey] {
            let player = Player::from_reference(reference, handicap).expect("a player");
            let outcome = struck(&setting(&fairway(), &player), 0);
            let run = outcome.rest.y - outcome.landed.y;
            assert!((run - 20.0).abs() < 0.05, "{reference:?} {handicap}: {run}");
        }
    }
}

/// On a green that reads 9 (a punch on fairway).
#[test]
fn touches_run_what_their_player_says_at_their_usual_length() {
    let green = rectangle(Surface::Green, (-60.0, 60.0), (330.0, 450.0));
    let hole = up_the_plan(4, 390.0, vec![all(Surface::Fairway), green])
        .with_green_speed(9.0)
        .expect("a green");
    for (name, player) in players() {
        let day = setting(&hole, &player);
        for (touch, lie, carry) in [
            (Touch::Chip, Lie::Fairway, Some(7.0)),
            (Touch::Pitch, Lie::Fairway, Some(30.0)),
            (Touch::BunkerShot, Lie::Bunker, Some(12.0)),
            (Touch::Punch, Lie::Fairway, None),
        ] {
            let swing = day.bag().touch(touch, lie);
            let short = Point::new(20.0, if carry.is_some() { 335.0 } else { 100.0 });
            let carry = carry.unwrap_or(0.6 * swing.full_carry);
            // A strike without luck is flush, and goes a little farther than the middle of the pattern.
            let shot = Shot {
                stroke: Stroke::Touch(touch),
                target: Point::new(20.0, 500.0),
                carry: carry / swing.flush,
            };
            let outcome = shot::resolve(&day, lying(short, lie), &shot, &Noise::NONE);
            let flown = outcome.landed.y - short.y;
            let run = outcome.rest.y - outcome.landed.y;
            let what = format!("{name}, {}: {flown} and {run}", touch.name());
            assert!((flown - carry).abs() < 0.05, "{what}");
            assert!((run - swing.run * carry).abs() < 0.05, "{what}");
        }
    }
}

/// What runs the give of turf can be made to meet: less than nothing to half the carry and more; beyond that a stroke
/// runs as far as is believable and no farther.
#[test]
fn runs_that_cannot_be_met_are_as_near_as_is_believable() {
    let run = |name: &str, carry: f64, told: f64| {
        let mut player = golfer(&[(name, carry)]).into_parts();
        player.clubs = vec![
            Club::new(ClubParts {
                run: told,
                ..ClubParts::exact(name, carry)
            })
            .expect("a club"),
        ];
        let day = setting(&fairway(), &Player::new(player).expect("a player"));
        let outcome = struck(&day, 0);
        outcome.rest.y - outcome.landed.y
    };
    for (name, carry) in [
        ("driver", 270.0),
        ("driver", 140.0),
        ("7-iron", 170.0),
        ("7-iron", 90.0),
        ("lob wedge", 80.0),
        ("lob wedge", 40.0),
    ] {
        let (least, most) = (run(name, carry, 1e-9), run(name, carry, 1.0));
        println!("{name} {carry}: {least:.2} to {most:.2}");
        assert!(least < most);
        // No run at all is a ball that stops dead.
        assert_eq!(run(name, carry, 0.0), 0.0);
    }
}

#[test]
fn what_cannot_be_is_refused_by_name() {
    let hole = Arc::new(fairway());
    let refused = |clubs: &[(&str, f64)]| {
        let fault = Setting::new(hole.clone(), Arc::new(golfer(clubs).prepare()));
        fault.expect_err("a fault").to_string()
    };
    let fault = refused(&[("old faithful", 450.0), ("7-iron", 150.0)]);
    assert!(
        fault.starts_with("old faithful: ") && fault.contains("450"),
        "{fault}"
    );
    // A lie that adds to what is already too much.
    let mut parts = golfer(&[("driver", 440.0)]).into_parts();
    parts.lies[Lie::Tee as usize].carry = 1.2;
    let player = Player::new(parts).expect("a player");
    let fault = Setting::new(hole.clone(), Arc::new(player.prepare())).expect_err("a fault");
    assert!(fault.to_string().starts_with("driver: "), "{fault}");
    // A punch no ball speed gives.
    let mut parts = golfer(&BAG).into_parts();
    parts.short_game.punch.full_carry = 250.0;
    let player = Player::new(parts).expect("a player");
    if let Err(fault) = Setting::new(hole, Arc::new(player.prepare())) {
        assert!(fault.to_string().starts_with("punch: "), "{fault}");
    }
}
