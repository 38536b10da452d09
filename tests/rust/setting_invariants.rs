//! What holds on every day: mirrored days give mirrored outcomes, the answer is the same whoever asks and however the work is
//! split, and every stroke has an outcome.
use crate::common;

use common::strokes::{lying, plan_on};
use common::woods::{rough_day, stand, with_trees, woods};
use common::{rectangle, shaped, straight, windy};
use proptest::prelude::*;
use std::sync::LazyLock;
use wideberth::Run;
use wideberth::geometry::Point;
use wideberth::hole::{Conditions, Feature, Firmness, Hole, Surface, Wind};
use wideberth::noise::{Noise, Seed};
use wideberth::plan::{Plan, Scene, Then};
use wideberth::player::{Lie, Player, Touch};
use wideberth::rank::{Comparison, Length, Question};
use wideberth::shot::{Events, Next, Shot, Stroke};

/// The hole, its ground, its wind and the luck, mirrored: the outcomes are mirror images. Rounding in the grids of the
/// ground lets places differ by a ten-thousandth of a yard where it is not level; a ball that comes to the edge of other
/// grass with hardly any pace magnifies that, which may befall one in a thousand, by less than a tenth of a yard.
#[test]
fn a_mirrored_day_gives_mirrored_outcomes() {
    let mirror = |hole: &Hole| {
        let last = hole.features().len() - 1;
        let features = hole.features()[..last].iter().map(|f| {
            let (low, high) = f.outline.bounds();
            Feature {
                canopy: f.canopy,
                ..rectangle(f.surface, (-high.x, -low.x), (low.y, high.y))
            }
        });
        straight(4, 390.0, features.collect())
    };
    let map = straight(
        4,
        390.0,
        vec![
            stand(200.0, 230.0, 35.0, 0.6),
            rectangle(Surface::Trees, (25.0, 60.0), (80.0, 330.0)),
            rectangle(Surface::Trees, (-60.0, -26.0), (60.0, 180.0)),
            rectangle(Surface::DeepRough, (-46.0, -26.0), (180.0, 330.0)),
            rectangle(Surface::Fairway, (-18.0, 18.0), (90.0, 370.0)),
            rectangle(Surface::PenaltyRed, (10.0, 40.0), (240.0, 260.0)),
            rectangle(Surface::Bunker, (-26.0, -16.0), (370.0, 400.0)),
        ],
    );
    let height = |x: f64, y: f64| {
        let fade = ((372.0 - y) / 60.0).clamp(0.0, 1.0);
        fade * (0.03 * x + 0.02 * y + 2.0 * (x / 25.0).sin() * (y / 35.0).cos()) + 0.01 * x
    };
    let flip = |p: Point| Point::new(-p.x, p.y);
    for (shape, most) in [(false, 1e-7), (true, 1e-4)] {
        let (one, other) = (windy(&map, 14.0, 70.0), windy(&mirror(&map), 14.0, -70.0));
        let (one, other) = if shape {
            (shaped(&one, height), shaped(&other, |x, y| height(-x, y)))
        } else {
            (one, other)
        };
        let player = Player::from_handicap(18.0).expect("a handicap");
        let (plain, turned) = (plan_on(&one, &player), plan_on(&other, &player));
        let (mut seen, mut magnified) = ([0; 4], 0);
        for (i, noise) in wideberth::noise::spread(3_000).into_iter().enumerate() {
            let targets = [(-5.0, 190.0), (4.0, 390.0), (30.0, 300.0)];
            let starts = [
                (3.0, 120.0, Lie::Fairway),
                (-20.0, 300.0, Lie::Rough),
                (3.0, 350.0, Lie::Fairway),
            ];
            let ((tx, ty), (x, y, lie)) = (targets[i % 3], starts[(i / 3) % 3]);
            let from = lying(Point::new(x, y), lie);
            let shot = plain.shot_at(from, Point::new(tx, ty));
            let twin = lying(flip(from.at), lie);
            let same = turned.shot_at(twin, Point::new(-tx, ty));
            assert_eq!(shot.stroke, same.stroke);
            assert!((flip(shot.target) - same.target).norm() < most);
            let a = plain.resolve(from, &shot, &noise);
            let mirrored = Noise {
                side: -noise.side,
                ..noise
            };
            let b = turned.resolve(
                twin,
                &Shot {
                    target: flip(shot.target),
                    ..shot
                },
                &mirrored,
            );
            let apart = (flip(a.rest) - b.rest).norm();
            magnified += i32::from(shape && apart >= most);
            let allowed = if shape { 0.1 } else { most };
            assert!(apart < allowed, "{i}: {a:?} {b:?}");
            assert_eq!((a.surface, a.events), (b.surface, b.events), "{i}");
            for (event, seen) in [Events::TREES, Events::PENALTY_AREA, Events::MISHIT]
                .into_iter()
                .zip(&mut seen)
            {
                *seen += i32::from(a.events.has(event));
            }
        }
        assert!(seen[..3].iter().all(|&n| n > 20), "{seen:?}");
        assert!(magnified <= 3, "{magnified} of 3,000");
    }
}

#[test]
fn the_answer_does_not_depend_on_threads_or_waves() {
    let ask = |threads: usize, wave: u64| {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .expect("a pool");
        pool.install(|| {
            let plans = [Then::Direct, Then::Steady]
                .map(|then| Plan::new(&format!("{then:?}"), vec![], then).expect("a plan"));
            let question = Question {
                length: Length::Plays(1_500),
                ..Question::new(Seed(77))
            };
            let player = Player::from_handicap(16.0).expect("a handicap");
            let scene = plan_on(&rough_day(), &player);
            let mut run = Comparison::new(scene, &plans, question).expect("a comparison");
            while !run.is_finished() {
                run.advance(wave);
            }
            run.ranking()
        })
    };
    let one = ask(1, 1_500);
    assert_eq!(one, ask(2, 17));
    assert_eq!(one, ask(7, 701));
}

/// The way out of the trees depends on the cell alone, whoever asks first, and leads out.
#[test]
fn the_way_out_of_the_trees_is_the_same_whoever_asks_first() {
    let player = Player::from_handicap(16.0).expect("a handicap");
    let (one, other) = (
        plan_on(&rough_day(), &player),
        plan_on(&rough_day(), &player),
    );
    let place = |i: u32| {
        Point::new(
            -58.0 + 0.9 * f64::from(i % 40),
            50.0 + 6.0 * f64::from(i / 10),
        )
    };
    let shot =
        |scene: &Scene, i: u32| scene.shot_at(lying(place(i), Lie::Trees), scene.hole().pin());
    let forth: Vec<Shot> = (0..400).map(|i| shot(&one, i)).collect();
    let mut back: Vec<Shot> = (0..400).rev().map(|i| shot(&other, i)).collect();
    back.reverse();
    assert_eq!(forth, back);
    let mut out = 0;
    for (shot, i) in forth.iter().zip(0..) {
        assert_eq!(shot.stroke, Stroke::Touch(Touch::Punch));
        let outcome = one.resolve(lying(place(i), Lie::Trees), shot, &with_trees(0.0));
        out += i32::from(outcome.surface != Surface::Trees);
    }
    assert!(out > 300, "{out}");
}

/// Days of every kind on ground of every kind, for what must always hold.
static DAYS: LazyLock<Vec<Scene>> = LazyLock::new(|| {
    let steep = shaped(&woods(), |x, y| {
        let fade = ((345.0 - y) / 60.0).clamp(0.0, 1.0);
        fade * (0.5 * x + 6.0 * (y / 12.0).sin())
    });
    let downhill = shaped(&woods(), |_, y| -0.55 * y.min(340.0));
    let day = |hole: &Hole, mph: f64, from: f64, firmness: f64| {
        let firmness = Firmness::new(firmness).expect("a firmness");
        let wind = Wind::new(mph, from).expect("a wind");
        let day = Conditions {
            wind,
            firmness,
            ..Conditions::default()
        };
        let player = Player::from_handicap(16.0).expect("a handicap");
        plan_on(&hole.under(day).expect("a day"), &player)
    };
    vec![
        day(&woods(), 60.0, 10.0, 0.5),
        day(&steep, 60.0, 100.0, 2.0),
        day(&steep, 0.0, 0.0, 0.5),
        day(&downhill, 45.0, 170.0, 0.6),
        day(&rough_day(), 25.0, 280.0, 1.0),
    ]
});

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_500))]

    /// Whatever the day, the ground, the luck and the lie, a stroke has an outcome that can be played on.
    #[test]
    fn strokes_never_fail(
        day in 0..5_usize, x in -100.0..100.0f64, y in -20.0..420.0f64, tx in -500.0..500.0f64, ty in -500.0..900.0f64,
        depth in -4.0..4.0f64, side in -4.0..4.0f64, strike in 0.0..1.0f64, trees in 0.0..1.0f64,
    ) {
        let scene = &DAYS[day];
        let at = Point::new(x, y);
        let Some(lie) = Lie::on(scene.hole().surface_at(at)) else { return Ok(()) };
        let noise = Noise { depth, side, strike, trees, search: 0.99 };
        let from = lying(at, lie);
        let shot = scene.shot_at(from, Point::new(tx, ty));
        prop_assert!(shot.carry.is_finite() && shot.target.x.is_finite() && shot.target.y.is_finite());
        let like = scene.plays_like(from, Point::new(tx, ty));
        prop_assert!(like.is_finite() && like >= 0.0, "{like}");
        let outcome = scene.resolve(from, &shot, &noise);
        prop_assert!(outcome.rest.x.is_finite() && outcome.rest.y.is_finite());
        prop_assert!((outcome.rest - at).norm() < 4_000.0, "{shot:?} {outcome:?}");
        if let Next::Play(s) = outcome.next {
            prop_assert_eq!(Lie::on(scene.hole().surface_at(s.at)), Some(s.lie));
        }
    }
}
