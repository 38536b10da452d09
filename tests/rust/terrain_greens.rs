//! The slope of greens: what is told of it holds, and what is not told stays unknown.
use crate::common;

use common::scene;
use common::terrain::{at, near_green, sketched, survey};
use wideberth::Run;
use wideberth::geometry::{HeightGrid, Point, Vector};
use wideberth::hole::{Contours, Dogleg, Hole, HoleFault, Landform, Sketch, TwoTier};
use wideberth::io::native;
use wideberth::noise::{PlayNoise, Seed};
use wideberth::plan::{Plan, Then};
use wideberth::player::Lie;
use wideberth::rank::{Question, record};
use wideberth::shot::{Shot, Stroke};
use wideberth::situation::Situation;

/// A green tilted 1 % to the right and 2 % from back to front on level ground: the plane holds all over the green.
#[test]
fn a_tilted_green_is_a_plane_on_the_green() {
    let hole = sketched(Contours {
        green_tilt_percent: Some((1.0, 2.0)),
        ..Contours::default()
    });
    let green = &hole.green().outline;
    let mut asked = 0;
    for p in near_green(&hole, 20_000).filter(|&p| green.contains(p)) {
        let exact = -0.01 * p.x + 0.02 * (p.y - 400.0);
        assert!(
            (hole.terrain().exact_height(p) - exact).abs() < 1e-12,
            "{p}"
        );
        // A cell on the edge, and the fits of its slopes, see a little of the rim.
        let high = (hole.terrain().height(p) - exact).abs();
        let off = (hole.terrain().slope(p) - Vector::new(-0.01, 0.02)).norm();
        let inside = (green.nearest_edge_point(p) - p).norm() > 0.75;
        let most = if inside {
            (1e-11, 1e-11)
        } else {
            (3e-4, 0.004)
        };
        assert!(high < most.0 && off < most.1, "{p}: {high}, {off}");
        asked += 1;
    }
    assert!(asked > 1000);
    assert_eq!(hole.terrain().height(at(0.0, 300.0)), 0.0);
}

/// Ground around the green: straight, around a bend, and with a bend whose planes pass into each other under the green.
fn tilted(fairway: f64, uphill_ft: f64, dogleg: Option<Dogleg>, green: Option<(f64, f64)>) -> Hole {
    Hole::sketch(&Sketch {
        dogleg,
        fairway_to: Some(350.0),
        contours: Contours {
            uphill_ft,
            fairway_tilt_percent: fairway,
            green_tilt_percent: green,
            ..Contours::default()
        },
        ..Sketch::new(4, 400.0)
    })
    .expect("a valid sketch")
}

/// The slope of the green is what is told of it, whatever the ground around it does, and its middle lies as high as it did.
#[test]
fn a_green_slopes_as_it_is_told() {
    let bend = |at, turn_deg| Some(Dogleg { at, turn_deg });
    let (mut asked, mut bent) = (0, 0.0_f64);
    for dogleg in [
        None,
        bend(220.0, 70.0),
        bend(220.0, -35.0),
        bend(378.0, 60.0),
    ] {
        for (fairway, uphill_ft) in [(0.0, 40.0), (8.0, 0.0), (-10.0, -60.0)] {
            for told in [None, Some((0.0, 0.0)), Some((-1.5, 2.5))] {
                let hole = tilted(fairway, uphill_ft, dogleg, told);
                let terrain = hole.terrain();
                let ahead = hole.line().direction(hole.length());
                let right = Vector::new(ahead.y, -ahead.x);
                let (across, back) = told.unwrap_or_default();
                let slope = (ahead * back - right * across) / 100.0;
                let middle = hole.middle_of_green();
                let planes = Landform {
                    rise_ft: uphill_ft,
                    fall_right_percent: fairway,
                    ..Landform::default()
                };
                let planes = hole.with_terrain(planes);
                let planes = planes.as_ref().map(Hole::terrain);
                if let Ok(planes) = planes {
                    let (was, is) = (planes.exact_height(middle), terrain.exact_height(middle));
                    assert!((was - is).abs() < 1e-9, "{was} {is}");
                }
                let outline = &hole.green().outline;
                for p in near_green(&hole, 900) {
                    let edge = (outline.nearest_edge_point(p) - p).norm();
                    if edge < 0.75 || !outline.contains(p) {
                        continue;
                    }
                    asked += 1;
                    let height = terrain.exact_height(middle) + slope.dot(&(p - middle));
                    assert!((terrain.exact_height(p) - height).abs() < 1e-9, "{p}");
                    assert!((terrain.slope(p) - slope).norm() < 1e-9, "{p}");
                    if let (Ok(planes), Some(Dogleg { at: 378.0, .. })) = (planes, dogleg) {
                        bent = bent.max((planes.slope(p) - planes.slope(middle)).norm());
                    }
                }
            }
        }
    }
    // The last bend does turn the planes under the green.
    assert!(asked > 1000 && bent > 0.01, "{asked}, {bent}");
}

/// Which contours tell the slope of the green.
#[test]
fn only_what_is_told_of_a_green_is_known() {
    let usual = Contours::default;
    let tiers = Some(TwoTier {
        step_ft: 1.0,
        ramp: 6.0,
        back: 5.0,
    });
    let ground = |cell: f64, step_ft: f64| {
        let rows_and_columns = ((720.0 / cell) as usize, (320.0 / cell) as usize);
        let height = |p: Point| (0.04 * p.y / step_ft).round() * step_ft;
        Some(survey(at(-160.0, -160.0), cell, rows_and_columns, height))
    };
    let (fine, wide, rounded) = (ground(0.5, 0.01), ground(33.0, 1e-3), ground(0.5, 0.3));
    let planes = || Contours {
        uphill_ft: 20.0,
        fairway_tilt_percent: 3.0,
        ..usual()
    };
    let level = Some((0.0, 0.0));
    for (contours, told) in [
        (usual(), false),
        (planes(), false),
        (
            Contours {
                green_tilt_percent: level,
                ..usual()
            },
            true,
        ),
        (
            Contours {
                green_tilt_percent: level,
                ..planes()
            },
            true,
        ),
        (
            Contours {
                two_tier_green: tiers,
                ..usual()
            },
            true,
        ),
        (
            Contours {
                two_tier_green: tiers,
                ..planes()
            },
            true,
        ),
        (
            Contours {
                survey_ft: fine.clone(),
                ..usual()
            },
            true,
        ),
        (
            Contours {
                survey_ft: fine.clone(),
                ..planes()
            },
            true,
        ),
        (
            Contours {
                survey_ft: wide.clone(),
                ..usual()
            },
            false,
        ),
        (
            Contours {
                survey_ft: wide.clone(),
                ..planes()
            },
            false,
        ),
        (
            Contours {
                survey_ft: rounded.clone(),
                ..usual()
            },
            false,
        ),
        (
            Contours {
                survey_ft: wide.clone(),
                green_tilt_percent: level,
                ..usual()
            },
            true,
        ),
        (
            Contours {
                survey_ft: rounded.clone(),
                two_tier_green: tiers,
                ..planes()
            },
            true,
        ),
    ] {
        let hole = sketched(contours.clone());
        let cell = contours.survey_ft.as_ref().map(HeightGrid::cell);
        let (tilt, tiers) = (contours.green_tilt_percent, contours.two_tier_green);
        assert_eq!(
            hole.terrain().tells_greens(),
            told,
            "{cell:?} {tilt:?} {tiers:?}"
        );
        let why = match cell {
            Some(cell) if cell.x > 2.0 => "are 33.0 yards apart",
            _ => "in steps of 0.30 feet",
        };
        let noted = hole
            .notes()
            .iter()
            .any(|note| note.0.contains("heights of the survey") && note.0.contains(why));
        assert_eq!(noted, !told && cell.is_some());
        let back = native::read(&native::write(&hole)).unwrap();
        assert_eq!(back, hole);
        assert_eq!(back.terrain().tells_greens(), told);
        let words = hole.to_string().contains("slopes of greens not told");
        assert_eq!(words, !told && !hole.terrain().is_flat());
    }
}

/// A fine survey tells the green: its tilt is on top of the surveyed ground, and planes added to the survey still do not tilt it.
#[test]
fn a_green_is_tilted_on_top_of_a_survey() {
    let hole = sketched(Contours {
        survey_ft: Some(survey(at(-160.0, -160.0), 1.0, (720, 320), |p| {
            0.03 * p.x + 0.06 * p.y
        })),
        uphill_ft: 20.0,
        fairway_tilt_percent: 5.0,
        green_tilt_percent: Some((1.0, 2.0)),
        ..Contours::default()
    });
    let slope = hole.terrain().slope(hole.middle_of_green());
    let exact = Vector::new(0.01, 0.02) + Vector::new(-0.01, 0.02);
    assert!((slope - exact).norm() < 1e-9, "{slope}");
}

/// Heights in feet thirty metres apart, as of a map of a country: hills of 10 m, which are up to 11 %
/// steep.
fn of_a_country() -> HeightGrid {
    survey(at(-200.0, -200.0), 33.0, (26, 14), |p| {
        8.0 * ((p.x / 37.0).sin() + (p.y / 29.0).cos())
    })
}

/// Under a green that a survey does not tell, the ground is level or as it is told, at the height the survey has in its
/// middle, whether the survey comes with a coach's numbers or in a document.
#[test]
fn a_coarse_survey_does_not_tilt_a_green() {
    let told = Some((-1.0, 2.0));
    for tilt in [None, told] {
        let contours = Contours {
            survey_ft: Some(of_a_country()),
            green_tilt_percent: tilt,
            ..Contours::default()
        };
        let hole = sketched(contours.clone());
        let (terrain, middle) = (hole.terrain(), hole.middle_of_green());
        let height = of_a_country().height(middle) / 3.0;
        let slope = tilt.map_or(Vector::zeros(), |_| Vector::new(0.01, 0.02));
        for p in near_green(&hole, 2_000) {
            let edge = (hole.green().outline.nearest_edge_point(p) - p).norm();
            if hole.green().outline.contains(p) && edge > 0.75 {
                let exact = height + slope.dot(&(p - middle));
                assert!((terrain.exact_height(p) - exact).abs() < 1e-9, "{p}");
                assert!((terrain.slope(p) - slope).norm() < 1e-9, "{p}");
            }
        }
        // Far from the green the survey is the ground.
        let far = at(20.0, 200.0);
        assert!((terrain.exact_height(far) - of_a_country().height(far) / 3.0).abs() < 1e-9);
        if tilt.is_none() {
            let bare = Landform {
                survey_ft: Some(of_a_country()),
                ..Landform::default()
            };
            let same = sketched(Contours::default()).with_terrain(bare).unwrap();
            assert_eq!(same.terrain(), terrain);
        }
    }
}

/// On a survey of a country putts are those of an ordinary green: in 4,000 plays the mean differs from the flat hole's by
/// less than 0.15 of 2 putts (the standard error is 0.02: a false-alarm rate below 1e-6), and every play ends.
#[test]
fn a_coarse_survey_leaves_greens_playable() {
    let play = |survey_ft: Option<HeightGrid>| {
        let scene = scene(
            sketched(Contours {
                survey_ft,
                ..Contours::default()
            }),
            15.0,
        );
        let plan = Plan::new("one", vec![], Then::Direct).unwrap();
        let mut run = record(scene, &plan, &Question::new(Seed(3))).unwrap();
        run.advance(4_000);
        assert!(run.plays().iter().all(|play| !play.unfinished));
        let putts: f64 = run.plays().iter().map(|play| f64::from(play.putts)).sum();
        putts / 4_000.0
    };
    let (hilly, flat) = (play(Some(of_a_country())), play(None));
    assert!((hilly - flat).abs() < 0.15, "{hilly} {flat}");
}

/// A green known to be steeper than 5 % at the pin is noted; one that is not told, or less steep, is not.
#[test]
fn a_steep_green_is_noted() {
    for (tilt, steep) in [
        (None, false),
        (Some((3.0, 3.9)), false),
        (Some((3.0, 4.1)), true),
    ] {
        let hole = tilted(8.0, 0.0, None, tilt);
        let note = hole.steep_pin();
        assert_eq!(note.is_some(), steep, "{tilt:?}");
        assert_eq!(hole.to_string().contains("falls 5.1 % at the pin"), steep);
        assert_eq!(hole.notes(), note.into_iter().collect::<Vec<_>>());
    }
}

/// Putts on a green of which no slope is told are those on a flat hole, to the bit; on a green known to be level they are not.
#[test]
fn untold_greens_are_ordinary() {
    let flat = scene(tilted(0.0, 0.0, None, None), 15.0);
    let hilly = scene(tilted(10.0, 35.0, None, None), 15.0);
    let level = scene(tilted(10.0, 35.0, None, Some((0.0, 0.0))), 15.0);
    let outline = &flat.hole().green().outline;
    let (mut putts, mut differ) = (0, 0);
    for (i, p) in near_green(flat.hole(), 2_000).enumerate() {
        if !outline.contains(p) {
            continue;
        }
        let from = Situation {
            at: p,
            lie: Lie::Green,
        };
        let putt = Shot {
            stroke: Stroke::Putt,
            target: flat.hole().pin(),
            carry: 0.0,
        };
        let luck = PlayNoise::new(Seed(20_261_125), i as u64).stroke(0);
        let ordinary = flat.resolve(from, &putt, &luck);
        assert_eq!(hilly.resolve(from, &putt, &luck), ordinary, "{p}");
        putts += 1;
        differ += usize::from(level.resolve(from, &putt, &luck) != ordinary);
    }
    assert!(putts > 150 && differ > putts / 2, "{putts}, {differ}");
}

/// A fairway that falls by 10 % leaves a pin wherever the green would have one.
#[test]
fn a_tilted_fairway_leaves_the_pin() {
    for fairway in [10.0, -25.0] {
        let hole = tilted(fairway, 90.0, None, None);
        for (back, right) in [
            (0.0, 0.0),
            (-12.0, 0.0),
            (12.0, 0.0),
            (0.0, -11.0),
            (7.0, 7.0),
        ] {
            let moved = hole.with_pin_at(back, right).unwrap();
            assert!(moved.terrain().slope(moved.pin()).norm() < 1e-4);
        }
    }
}

#[test]
fn a_ball_must_be_able_to_rest_at_the_pin() {
    let hole = sketched(Contours::default());
    let tiers = Contours {
        two_tier_green: Some(TwoTier {
            step_ft: 2.0,
            ramp: 4.0,
            back: 6.0,
        }),
        ..Contours::default()
    };
    let tiers = hole.with_contours(&tiers).unwrap();
    let fault = tiers.with_pin_at(6.0, 0.0).unwrap_err();
    assert!(
        matches!(fault.0[..], [HoleFault::SteepAtPin { percent, .. }] if (percent - 25.0).abs() < 1.0),
        "{fault}"
    );
    let back = tiers.with_pin_at(10.0, 2.0).unwrap();
    assert!((back.pin() - at(2.0, 410.0)).norm() < 1e-9);
    assert_eq!(back.terrain(), tiers.terrain());
    assert!((back.terrain().height(back.pin()) - 1.0 / 3.0).abs() < 1e-6);
}
