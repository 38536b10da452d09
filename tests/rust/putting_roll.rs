//! The line and pace of putts on planes and the integrator, against figures computed independently and mechanics.
use wideberth::geometry::{Point, Vector};
use wideberth::putting::{Choice, Ending, HOLE_RADIUS, ROLL_DECELERATION, no_rest_grade, roll};

const YARD: f64 = 0.9144;

fn choice(ft: f64, slope: (f64, f64), stimp: f64, past_ft: f64) -> Choice {
    Choice::new(ft, slope, stimp, past_ft).unwrap()
}

#[track_caller]
fn near(what: &str, got: f64, want: f64, within: f64) {
    assert!(
        (got - want).abs() <= within,
        "{what}: {got}, expected {want}, allowed {within}"
    );
}

/// Breaks in inches and launch speeds in m/s, computed independently (a numerical integration, not this
/// code): planar slope, ball and hole level with each other, 1 ft past on the level. The table is rounded to 0.1 in; the
/// launch, given once a row, is that of the 2 % slope within 0.7 cm/s.
#[test]
fn the_break_table() {
    let rows = [
        (8.0, 6.0, 1.71, [2.5, 5.0, 7.6]),
        (8.0, 10.0, 2.15, [4.7, 9.4, 14.2]),
        (8.0, 20.0, 2.97, [10.4, 21.0, 31.9]),
        (10.0, 6.0, 1.53, [3.1, 6.3, 9.5]),
        (10.0, 10.0, 1.92, [5.8, 11.8, 18.0]),
        (10.0, 20.0, 2.65, [13.0, 26.4, 40.5]),
        (12.0, 6.0, 1.40, [3.7, 7.6, 11.5]),
        (12.0, 10.0, 1.75, [7.0, 14.2, 21.9]),
        (12.0, 20.0, 2.42, [15.7, 31.9, 49.5]),
    ];
    for (stimp, ft, launch, breaks) in rows {
        for (percent, want) in [1.0, 2.0, 3.0].into_iter().zip(breaks) {
            let what = format!("Stimp {stimp}, {ft} ft, {percent} %");
            let got = choice(ft, (percent, 0.0), stimp, 1.0);
            near(&what, got.break_in, want, 0.05);
            near(
                &what,
                choice(ft, (-percent, 0.0), stimp, 1.0).break_in,
                -want,
                0.05,
            );
        }
        let middle = choice(ft, (2.0, 0.0), stimp, 1.0).launch_speed * YARD;
        near(
            &format!("launch, Stimp {stimp}, {ft} ft"),
            middle,
            launch,
            0.007,
        );
    }
    // Straight up and down, and diagonal: computed independently in the same way, speeds to a millimetre a second.
    let part = 2.0 * 0.5_f64.sqrt();
    for (slope, launch, breaks) in [
        ((0.0, -2.0), 2.129, 0.0),
        ((0.0, 2.0), 1.681, 0.0),
        ((part, part), 1.755, 9.9),
        ((part, -part), 2.070, 7.2),
    ] {
        let got = choice(10.0, slope, 10.0, 1.0);
        near(&format!("break, {slope:?}"), got.break_in, breaks, 0.05);
        near(
            &format!("launch, {slope:?}"),
            got.launch_speed * YARD,
            launch,
            0.0006,
        );
    }
}

/// Computed independently with SciPy (`tests/data/putts.csv`): the launch of 32 random putts and where it comes to rest.
#[test]
fn putts_computed_independently() {
    let data = include_str!("../data/putts.csv");
    let rows = data.lines().filter(|l| !l.starts_with(['#', 'l']));
    let mut count = 0;
    for line in rows {
        let x: Vec<f64> = line.split(',').map(|v| v.parse().unwrap()).collect();
        let line = choice(x[0], (x[1], x[2]), x[3], x[4]);
        near("aim_deg", line.aim_deg, x[5], 2e-4);
        near("break_in", line.break_in, x[6], 2e-3);
        near("launch_m_s", line.launch_speed * YARD, x[7], 2e-5);
        let path = roll(
            Point::origin(),
            line.velocity(),
            |_| line.gradient,
            x[3],
            None,
        );
        near("rest_right_ft", path.end().x * 3.0, x[8], 2e-3);
        near("rest_ahead_ft", path.end().y * 3.0, x[9], 2e-3);
        assert_eq!(path.ending, Ending::AtRest);
        count += 1;
    }
    assert_eq!(count, 32);
}

/// The launch, rolled out step by step, meets the centre of the hole with the speed asked for.
#[test]
fn the_line_meets_the_centre() {
    for (slope, ft) in [
        ((3.0, 1.0), 6.0),
        ((-2.0, -4.0), 25.0),
        ((1.0, 5.0), 60.0),
        ((0.0, 0.0), 10.0),
    ] {
        let line = choice(ft, slope, 9.0, 1.5);
        let hole = Point::new(0.0, line.length);
        let path = roll(
            Point::origin(),
            line.velocity(),
            |_| line.gradient,
            9.0,
            Some(hole),
        );
        let entry = path.entry.unwrap();
        assert_eq!((path.ending, path.end()), (Ending::Holed, hole));
        // It bends by a millimetre or two between rim and centre.
        assert!(entry.offset.abs() < 0.05 * HOLE_RADIUS, "{entry:?}");
        let level = entry.speed * entry.speed * 9.0 / (2.0 * ROLL_DECELERATION);
        near("roll left", level * 3.0, 1.5, 0.3);
    }
}

/// Friction takes exactly what the ball loses, on ground of any shape: v^2 / 2 = (5/7) g rise + a length.
#[test]
fn energy_is_only_lost_to_friction() {
    let height = |p: Point| 0.05 * (0.9 * p.x).sin() * (0.7 * p.y).cos() + 0.01 * p.y;
    let gradient = |p: Point| {
        let (s, c) = (0.9 * p.x).sin_cos();
        let (t, u) = (0.7 * p.y).sin_cos();
        Vector::new(0.045 * c * u, -0.035 * s * t + 0.01)
    };
    for (speed, angle) in [(1.0_f64, 0.2_f64), (2.0, 1.1), (3.0, 4.0), (2.5, 5.5)] {
        let velocity = Vector::new(angle.sin(), angle.cos()) * speed;
        let path = roll(Point::new(0.3, -0.2), velocity, gradient, 9.0, None);
        assert_eq!(path.ending, Ending::AtRest);
        let length: f64 = path.points.windows(2).map(|p| (p[1] - p[0]).norm()).sum();
        let rise = height(path.end()) - height(path.points[0]);
        let weight = 5.0 / 7.0 * 9.80665 / YARD;
        let lost = weight * rise + ROLL_DECELERATION / 9.0 * length;
        near("energy", lost, 0.5 * speed * speed, 1e-3 * speed * speed);
    }
}

#[test]
fn too_steep_a_green_is_said_and_does_not_hang() {
    // Published: 7.8 % at Stimp 10 and 6.5 % at Stimp 12 (mechanics of Penner's equation).
    near("Stimp 10", no_rest_grade(10.0), 0.078, 0.0005);
    near("Stimp 12", no_rest_grade(12.0), 0.065, 0.0005);
    let down = roll(
        Point::origin(),
        Vector::y(),
        |_| Vector::new(0.0, -0.08),
        10.0,
        None,
    );
    assert_eq!(down.ending, Ending::StillRolling);
    let up = roll(
        Point::origin(),
        Vector::y(),
        |_| Vector::new(0.0, 0.08),
        10.0,
        None,
    );
    assert!(up.ending == Ending::StillRolling && up.end().y < -10.0);
    let fault = Choice::new(10.0, (0.0, 8.0), 10.0, 1.0)
        .unwrap_err()
        .to_string();
    assert_eq!(
        fault,
        "slope_percent falls 8.00 % in all; with a green_speed of 10 ft it must be less than 7.83 %, where a ball no \
         longer comes to rest"
    );
    for (given, says) in [
        (
            Choice::new(f64::NAN, (0.0, 0.0), 10.0, 1.0),
            "length_ft is NaN; it must be 0.5 to 300 feet",
        ),
        (
            Choice::new(9.0, (25.0, 0.0), 10.0, 1.0),
            "slope_percent (right) is 25; it must be -20 to 20 %",
        ),
        (
            Choice::new(9.0, (0.0, f64::NAN), 10.0, 1.0),
            "slope_percent (ahead) is NaN; it must be -20 to 20 %",
        ),
        (
            Choice::new(9.0, (0.0, 1.0), 0.0, 1.0),
            "green_speed is 0; it must be a Stimpmeter reading of 3 to 20 feet",
        ),
        (
            Choice::new(9.0, (0.0, 1.0), 9.0, -1.0),
            "past_ft is -1; it must be 0.05 to 20 feet",
        ),
    ] {
        assert_eq!(given.unwrap_err().to_string(), says);
    }
}
