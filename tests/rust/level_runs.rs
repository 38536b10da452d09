//! Runs that are read from a table against balls followed hop by hop across the map.

use std::path::Path;
use std::sync::Arc;
use wideberth::geometry::Vector;
use wideberth::ground::{Ball, Course};
use wideberth::io::{geojson::Options, read_hole};
use wideberth::noise::{PlayNoise, Seed};
use wideberth::player::{Lie, Player, Touch};
use wideberth::setting::{Prepared, Setting};
use wideberth::shot::{Next, Shot, Stroke, resolve};
use wideberth::situation::Situation;

const STROKES: u64 = 100_000;
/// Yards by which a run read from the table may be off; it is interpolated to a few thousandths.
const CLOSE: f64 = 0.02;

fn right_of(forward: Vector) -> Vector {
    Vector::new(forward.y, -forward.x)
}

/// Solid strikes with every club and touch from places strewn over a hole with edges of every kind: on grass, into bunkers, over
/// fringes. At most one in 100,000 may end elsewhere: over a cell of carries that looked smooth and is not.
#[test]
fn a_run_from_the_table_is_the_run_of_a_ball_that_is_followed() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../benches/yardstick/hole.json");
    let hole = Arc::new(read_hole(&file, &Options::default()).expect("a hole"));
    let bag = Arc::new(Player::from_handicap(18.0).expect("a handicap").prepare());
    let setting = Setting::new(Arc::clone(&hole), Arc::clone(&bag)).expect("a setting");
    let strokes: Vec<(Stroke, &Prepared)> = bag
        .clubs()
        .map(|club| (Stroke::Swing(club), setting.club(club)))
        .chain(
            [Touch::Chip, Touch::Pitch, Touch::Lob, Touch::Punch]
                .map(|touch| (Stroke::Touch(touch), setting.touch(touch))),
        )
        .collect();
    let course = Course {
        hole: &hole,
        turfs: setting.turfs(),
    };
    let (mut followed, mut elsewhere) = (0, 0);
    for (play, (stroke, prepared)) in (0..STROKES).zip(strokes.iter().cycle()) {
        let luck = PlayNoise::new(Seed(9), play);
        let (place, noise) = (luck.stroke(0), luck.stroke(1));
        let along = place.trees * hole.length();
        let from = Situation {
            at: hole.line().at(along, 15.0 * place.side),
            lie: Lie::Fairway,
        };
        let swing = match *stroke {
            Stroke::Swing(club) => bag.swing(club, from.lie),
            Stroke::Touch(touch) => bag.touch(touch, from.lie),
            Stroke::Putt => unreachable!("no putts"),
        };
        let carry = swing.full_carry * (0.2 + 0.8 * place.strike);
        let strike = swing.strike(carry, &noise);
        if strike.mishit {
            continue;
        }
        let forward = (hole.pin() - from.at).normalize();
        let track = prepared.flight.track(strike.carry, forward);
        let way = forward * track.carry + right_of(forward) * strike.lateral;
        let landing = prepared.lands.on(prepared.flight.landing(&track, 0.0));
        let ball = Ball::landing(&landing, way.normalize());
        let run = course.bounce_out(from.at + way, ball);
        let shot = Shot {
            stroke: *stroke,
            target: hole.pin(),
            carry,
        };
        let told = resolve(&setting, from, &shot, &noise);
        let alike = if run.holed {
            told.next == Next::Holed
        } else {
            (told.rest - run.rest).norm() < CLOSE
        };
        followed += 1;
        elsewhere += usize::from(!alike);
    }
    assert!(followed > 60_000, "{followed}");
    assert!(elsewhere <= 1, "{elsewhere} of {followed} end elsewhere");
}
