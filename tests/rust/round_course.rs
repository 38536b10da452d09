//! Courses: what is refused, and that documents come back equal.
use std::sync::Arc;
use wideberth::course::{Course, CourseFault};
use wideberth::hole::{Hole, Sketch};
use wideberth::io;

/// A hole of a par and length, with a number and a stroke index where they are given.
fn hole(par: u8, length: f64, number: Option<u8>, stroke_index: Option<u8>) -> Arc<Hole> {
    let sketch = Sketch {
        number,
        stroke_index,
        ..Sketch::new(par, length)
    };
    Arc::new(Hole::sketch(&sketch).expect("a hole"))
}

fn three() -> Vec<Arc<Hole>> {
    vec![
        hole(4, 380.0, None, Some(3)),
        hole(3, 150.0, None, Some(1)),
        hole(5, 500.0, None, Some(2)),
    ]
}

#[test]
fn a_course_adds_up() {
    let course = Course::new("Heron Links", three(), None).expect("a course");
    assert_eq!((course.par(), course.numbers()), (12, &[1, 2, 3][..]));
    assert!((course.length() - 1030.0).abs() < 1e-9);
    assert_eq!(course.stroke_indexes(), Some(vec![3, 1, 2]));
    assert_eq!((course.place_of(3), course.place_of(4)), (Some(2), None));
    let tenth = Course::new("Back", vec![hole(4, 380.0, Some(10), None)], None).expect("a course");
    assert_eq!((tenth.numbers(), tenth.stroke_indexes()), (&[10][..], None));
}

#[test]
fn every_fault_is_told_at_once() {
    let holes = vec![
        hole(4, 380.0, Some(2), Some(5)),
        hole(4, 380.0, None, Some(5)),
        hole(4, 380.0, Some(7), None),
    ];
    let faults = Course::new(" ", holes, Some(String::new())).expect_err("faults");
    assert_eq!(faults.0.len(), 5, "{faults}");
    let says = |part: &str| assert!(faults.to_string().contains(part), "{faults}");
    says("name is \" \"; it must be text that is not empty");
    says("attribution is \"\"");
    says("holes[0] and holes[1] are both number 2");
    says("holes[0] and holes[1] both have stroke index 5");
    says("holes[2] has no stroke index");
    let none = Course::new("Empty", Vec::new(), None).expect_err("a fault");
    assert_eq!(none.0, [CourseFault::Count { count: 0 }]);
    let many = vec![hole(3, 150.0, None, None); 19];
    let many = Course::new("Long", many, None).expect_err("a fault");
    assert_eq!(many.0, [CourseFault::Count { count: 19 }]);
}

#[test]
fn documents_come_back_equal() {
    let attribution = Some("drawn by the club".to_owned());
    let course = Course::new("Heron Links", three(), attribution).expect("a course");
    let text = io::course::write(&course);
    assert_eq!(io::course::read(&text).expect("a course"), course);
    let plain = Course::new("Heron Links", three(), None).expect("a course");
    let read = io::course::read(&io::course::write(&plain)).expect("a course");
    assert_eq!(read, plain);
    assert_ne!(read, course);
}

#[test]
fn documents_are_refused_with_the_way_to_each_fault() {
    let course = Course::new("Heron Links", three(), None).expect("a course");
    let mut value: serde_json::Value =
        serde_json::from_str(&io::course::write(&course)).expect("JSON");
    value["holes"][1]["par"] = serde_json::json!(9);
    value["holes"][2]["tea"] = serde_json::json!(1);
    value["greens"] = serde_json::json!(3);
    let faults = io::course::read(&value.to_string())
        .expect_err("faults")
        .to_string();
    for part in [
        "holes[1]: par is 9; it must be 3 to 6",
        "holes[2]: tea is not a known field",
        "greens is not a known field",
    ] {
        assert!(faults.contains(part), "{faults}");
    }
    for text in ["", "[]", "{}", "{\"format\": \"wideberth-hole\"}", "null"] {
        assert!(io::course::read(text).is_err(), "{text}");
    }
    value["holes"] = serde_json::json!(vec![serde_json::Value::Null; 40]);
    let faults = io::course::read(&value.to_string())
        .expect_err("faults")
        .to_string();
    assert!(faults.contains("holes is a list of 40"), "{faults}");
}
