//! The conditions of the day, on the map they leave as it is.
use crate::common;

use common::terrain::{hilly, sketched};
use wideberth::hole::{Conditions, Firmness, Wind};

#[test]
fn the_day_changes_and_the_map_stays() {
    let hole = sketched(hilly());
    let day = Conditions {
        wind: Wind::new(18.0, 0.0).unwrap(),
        firmness: Firmness::FIRM,
        green_speed: Some(11.0),
        ..Conditions::default()
    };
    let windy = hole.under(day).unwrap();
    assert_eq!((hole.green_speed(), windy.green_speed()), (9.0, 11.0));
    assert_eq!(windy.parts(), hole.parts());
    assert_ne!(windy, hole);
    assert_eq!(windy.under(Conditions::default()).unwrap(), hole);
    let other = windy.with_green_speed(7.0).unwrap();
    assert_eq!(
        (other.green_speed(), other.conditions().wind.mph()),
        (7.0, 18.0)
    );
    assert_eq!(other.terrain(), hole.terrain());
    let text = hole
        .under(Conditions {
            temperature_f: 300.0,
            ..day
        })
        .unwrap_err()
        .to_string();
    assert_eq!(
        text,
        "temperature_f is 300; it must be -40 to 130 degrees F"
    );
}

#[test]
fn a_hole_tells_its_ground_and_its_day() {
    let text = sketched(hilly())
        .under(Conditions {
            wind: Wind::new(18.0, -90.0).unwrap(),
            firmness: Firmness::LINKS_FIRM,
            ..Conditions::default()
        })
        .unwrap()
        .to_string();
    assert!(
        text.contains("ground: 25 ft uphill, falls 4.0 % to the right, 1 patch"),
        "{text}"
    );
    assert!(!text.contains("not told"), "{text}");
    assert!(
        text.contains("day: wind 18 mph from 270 degrees, links-firm ground"),
        "{text}"
    );
}
