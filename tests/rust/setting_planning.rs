//! Strokes planned on a day end where they are meant to, with the club that takes.
use crate::common;

use common::strokes::{fairway, lying, plan_on, sloping};
use common::{all, rectangle, up_the_plan, windy};
use wideberth::geometry::{Point, Vector};
use wideberth::hole::{Hole, Surface};
use wideberth::noise::Noise;
use wideberth::plan::Scene;
use wideberth::player::{Club, ClubParts, Lie, Player, Touch};
use wideberth::shot::{Shot, Stroke};
use wideberth::situation::Situation;

/// Where a stroke at a target ends without luck, along and to the right of the way.
fn miss(scene: &Scene, from: Situation, target: Point) -> (Shot, Vector) {
    let shot = scene.shot_at(from, target);
    let off = scene.resolve(from, &shot, &Noise::NONE).rest - target;
    let forward = (target - from.at).normalize();
    let right = Vector::new(forward.y, -forward.x);
    (shot, Vector::new(off.dot(&right), off.dot(&forward)))
}

/// A bag without error and without shortfall.
fn exact() -> Player {
    Player::from_handicap(5.0)
        .expect("a handicap")
        .without_spread()
}

/// Such a player whose clubs all miss as much to the right, yards per yard of carry.
fn missing(bias: f64) -> Player {
    let mut parts = exact().into_parts();
    for club in &mut parts.clubs {
        let lateral_bias = bias * club.carry;
        let changed = ClubParts {
            lateral_bias,
            ..club.clone().into_parts()
        };
        *club = Club::new(changed).expect("a club");
    }
    Player::new(parts).expect("a player")
}

/// Strokes without luck end at their target in wind, uphill and downhill, on ground that falls to the side, and by a player
/// with a usual miss, within what is written beside each: yards across and along. A run on a slope is planned by its mean.
#[test]
fn planned_swings_end_at_their_target() {
    let around = [0.0, 45.0, 90.0, 160.0, 200.0, 300.0];
    let winds = around.map(|from| (18.0, from)).to_vec();
    let calm = || vec![(0.0, 0.0)];
    let both = vec![(15.0, 60.0), (15.0, 200.0)];
    for (what, bias, gradient, winds, most) in [
        ("still, level", 0.0, (0.0, 0.0), calm(), (0.01, 0.9)),
        ("wind", 0.0, (0.0, 0.0), winds.clone(), (0.6, 1.8)),
        ("a usual miss", 0.06, (0.0, 0.0), calm(), (0.1, 0.9)),
        ("wind, a usual miss", 0.06, (0.0, 0.0), winds, (0.9, 1.8)),
        ("uphill", 0.0, (0.0, 0.05), calm(), (0.5, 2.5)),
        ("downhill", 0.0, (0.0, -0.05), calm(), (0.5, 4.5)),
        ("side slope", 0.0, (0.03, 0.0), calm(), (1.5, 2.0)),
        ("everything", 0.0, (-0.03, 0.04), both, (2.5, 3.7)),
    ] {
        let player = missing(bias);
        let (mut across, mut along) = (0.0_f64, 0.0_f64);
        let mut tried = 0;
        for (mph, from_deg) in winds {
            let hole = windy(&fairway(), mph, from_deg);
            let hole = if gradient == (0.0, 0.0) {
                hole
            } else {
                sloping(&hole, Vector::new(gradient.0, gradient.1))
            };
            let scene = plan_on(&hole, &player);
            let from = lying(Point::new(5.0, 50.0), Lie::Fairway);
            for step in 0..30 {
                let target = Point::new(-5.0, 150.0 + 4.0 * f64::from(step));
                let (shot, off) = miss(&scene, from, target);
                let Stroke::Swing(club) = shot.stroke else {
                    panic!("{shot:?}")
                };
                // Out of reach, or by so little that a full swing is enough.
                if shot.carry >= scene.bag().swing(club, from.lie).full_carry {
                    continue;
                }
                tried += 1;
                across = across.max(off.x.abs());
                along = along.max(off.y.abs());
            }
        }
        println!("{what}: {across:.2} across, {along:.2} along, {tried}");
        assert!(tried > 12, "{what}: {tried}");
        assert!(
            across < most.0 && along < most.1,
            "{what}: {across} {along}"
        );
    }
}

/// Chips, pitches and bunker shots without luck end within two yards of the pin on a level green, in still air and in
/// a breeze.
#[test]
fn planned_touches_end_at_the_pin() {
    let hole = up_the_plan(
        4,
        390.0,
        vec![
            all(Surface::Fairway),
            rectangle(Surface::Green, (-18.0, 18.0), (372.0, 410.0)),
        ],
    );
    for (mph, from_deg) in [(0.0, 0.0), (12.0, 100.0), (12.0, 190.0)] {
        let scene = plan_on(&windy(&hole, mph, from_deg), &exact());
        let (mut seen, mut worst) = ([0; Touch::ALL.len()], 0.0_f64);
        for step in 0..60 {
            let away = 9.0 + f64::from(step);
            let from = Point::new(0.3 * away, scene.hole().pin().y - away);
            for lie in [Lie::Fairway, Lie::Rough, Lie::Bunker] {
                let (shot, off) = miss(&scene, lying(from, lie), scene.hole().pin());
                let Stroke::Touch(touch) = shot.stroke else {
                    continue;
                };
                seen[touch as usize] += 1;
                worst = worst.max(off.norm());
                assert!(
                    off.norm() < 2.0,
                    "{mph} {from_deg} {touch:?} {lie:?} {away}: {off}"
                );
            }
        }
        println!("{mph} mph from {from_deg}: {worst:.2}, {seen:?}");
        let played = [Touch::Chip, Touch::Pitch, Touch::BunkerShot];
        assert!(played.iter().all(|&t| seen[t as usize] > 5), "{seen:?}");
    }
}

#[test]
fn what_a_shot_plays_like_grows_into_the_wind_and_uphill() {
    let player = exact();
    let from = lying(Point::new(0.0, 40.0), Lie::Fairway);
    let like = |hole: &Hole, distance: f64| {
        let target = Point::new(0.0, 40.0 + distance);
        plan_on(hole, &player).plays_like(from, target)
    };
    for distance in [110.0, 130.0, 150.0, 170.0, 190.0] {
        let still = like(&fairway(), distance);
        assert!((still - distance).abs() < 1e-9, "{still}");
        let (head, tail) = (
            like(&windy(&fairway(), 12.0, 0.0), distance),
            like(&windy(&fairway(), 12.0, 180.0), distance),
        );
        let up = |rise| like(&sloping(&fairway(), Vector::new(0.0, rise)), distance);
        let (above, below) = (up(0.04), up(-0.04));
        println!("{distance}: {head:.1} {tail:.1}, {above:.1} {below:.1}");
        assert!(head > 1.05 * distance && tail < 0.97 * distance);
        // Source: a yard per yard of height (rule of thumb, from memory), the run on the slope on top.
        assert!((0.03..0.11).contains(&(above / distance - 1.0)), "{above}");
        assert!((0.03..0.10).contains(&(1.0 - below / distance)), "{below}");
    }
}

#[test]
fn the_club_goes_up_into_the_wind_and_uphill() {
    let from = lying(Point::new(0.0, 40.0), Lie::Fairway);
    let club = |hole: &Hole, distance: f64| {
        let shot = plan_on(hole, &exact()).shot_at(from, Point::new(0.0, 40.0 + distance));
        match shot.stroke {
            Stroke::Swing(club) => club.0,
            other => panic!("{other:?}"),
        }
    };
    for distance in [130.0, 160.0, 190.0] {
        let winds = [
            (20.0, 0.0),
            (10.0, 0.0),
            (0.0, 0.0),
            (10.0, 180.0),
            (20.0, 180.0),
        ];
        let clubs = winds.map(|(mph, from)| club(&windy(&fairway(), mph, from), distance));
        assert!(clubs.is_sorted() && clubs[0] + 2 <= clubs[2], "{clubs:?}");
        assert!(clubs[2] < clubs[4], "{clubs:?}");
        let slopes = [0.06, 0.03, 0.0, -0.03, -0.06];
        let clubs = slopes.map(|rise| club(&sloping(&fairway(), Vector::new(0.0, rise)), distance));
        assert!(clubs.is_sorted() && clubs[0] < clubs[4], "{clubs:?}");
    }
}
