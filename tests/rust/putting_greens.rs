//! The plane that stands for a curved green, against putts integrated over the green itself.
use crate::common;

use common::luck::lattice;
use wideberth::geometry::{Point, Vector};
use wideberth::noise::Noise;
use wideberth::player::{Player, Putting};
use wideberth::putting::{
    Choice, Ending, Green, Path, ROLL_DECELERATION, Slope, make_chance, no_rest_grade, roll, stroke,
};

/// A green of any shape: height (yards) and gradient of the place, with the ball at the origin.
struct Shape {
    name: &'static str,
    height: fn(Point) -> f64,
    gradient: fn(Point) -> Vector,
}

/// A putt straight up the y axis over a shape.
struct Putt<'a> {
    shape: &'a Shape,
    skill: Putting,
    speed: f64,
    distance: f64,
}

impl Putt<'_> {
    fn hole(&self) -> Point {
        Point::new(0.0, self.distance)
    }

    fn gradient(&self, at: Point) -> Vector {
        (self.shape.gradient)(at)
    }

    fn green(&self) -> Green {
        Green::over(self.speed, Point::origin(), self.hole(), |p| {
            self.gradient(p)
        })
    }

    /// Rolls a launch (angle to the right, roll-out on the level) over the share `read` of the shape.
    fn rolled(&self, (angle, level): (f64, f64), read: f64, hole: Option<Point>) -> Path {
        let speed = (2.0 * ROLL_DECELERATION / self.speed * level).sqrt();
        roll(
            Point::origin(),
            Vector::new(angle.sin(), angle.cos()) * speed,
            |p| self.gradient(p) * read,
            self.speed,
            hole,
        )
    }

    /// The launch that enters the centre of the hole on the shape as the player sees it, with so much roll left that a miss
    /// would run out the distance meant on the slope at the hole.
    fn meant(&self) -> (f64, f64) {
        let (limit, read) = (no_rest_grade(self.speed), self.skill.read);
        let rise = (self.shape.height)(self.hole()) - (self.shape.height)(Point::origin());
        let at_hole = self.gradient(self.hole()).y * read / limit;
        let past = self.skill.past_ft / 3.0 * (1.0 + at_hole);
        let mut launch = (0.0, self.distance + rise * read / limit + past);
        for _ in 0..60 {
            let path = self.rolled(launch, read, None);
            let (offset, length) = nearest(&path, self.hole());
            // Friction and the rise take the rest: exact on any shape.
            launch.1 += 0.8 * (past - (launch.1 - length - rise * read / limit));
            launch.0 -= 0.7 * offset / self.distance;
        }
        launch
    }

    /// Mean and root mean square of what there is on the way.
    fn mean_gradient(&self) -> Vector {
        self.on_the_way().sum::<Vector>() / 100.0
    }

    fn grade(&self) -> f64 {
        let squares: f64 = self.on_the_way().map(|g| g.norm_squared()).sum();
        (squares / 100.0).sqrt()
    }

    fn on_the_way(&self) -> impl Iterator<Item = Vector> {
        (0..100).map(|i| {
            self.gradient(Point::new(
                0.0,
                self.distance * (f64::from(i) + 0.5) / 100.0,
            ))
        })
    }

    /// How much more a misread slope turns this line than one on a green that falls only to the side.
    fn lead(&self, gradient: Vector) -> f64 {
        let past = self.skill.past_ft * (1.0 + gradient.y / no_rest_grade(self.speed));
        let per_slope = |right: f64, ahead: f64| {
            let choice =
                Choice::new(3.0 * self.distance, (right, ahead), self.speed, past).unwrap();
            (0.5 * choice.aim_deg).to_radians().tan() / right
        };
        let right = (100.0 * gradient.x.abs()).max(1e-3);
        per_slope(right, -100.0 * gradient.y) / per_slope(1e-3, 0.0)
    }

    /// Makes and mean feet left by misses, integrated over the shape itself: the errors of [`stroke`] about the line and
    /// pace of the shape.
    fn in_full(&self, luck: &[Noise]) -> (f64, f64) {
        let skill = &self.skill;
        let plane = self.mean_gradient();
        let misread = 3.1 * self.grade() / no_rest_grade(self.speed);
        let far = self.distance / (self.distance + 20.0 / 3.0);
        let turned = skill.misread_deg * self.lead(plane * skill.read) * misread * far;
        let spread = (skill.direction_deg + turned).to_radians();
        let (angle, level) = self.meant();
        let plain = self.distance + skill.past_ft / 3.0;
        let reading = 0.36 + 0.30 * misread * misread;
        let pace = skill.pace * (0.34 * level * level + reading * plain * plain).sqrt();
        let (mut made, mut left) = (0.0, 0.0);
        for n in luck {
            let launch = (
                angle + spread * n.side,
                (level + pace * n.depth).max(0.05 * level),
            );
            let path = self.rolled(launch, 1.0, Some(self.hole()));
            if path.ending == Ending::Holed {
                made += 1.0;
            } else {
                left += 3.0 * (path.end() - self.hole()).norm();
            }
        }
        let n = luck.len() as f64;
        (made / n, left / (n - made))
    }

    /// The same by the hot path on the plane.
    fn on_plane(&self, luck: &[Noise]) -> (f64, f64) {
        let (green, line) = (self.green(), Vector::new(0.0, self.distance));
        let (mut made, mut left) = (0.0, 0.0);
        for n in luck {
            let r = stroke(&self.skill, &green, line, n);
            if r.holed {
                made += 1.0;
            } else {
                left += 3.0 * r.past.hypot(r.right);
            }
        }
        let n = luck.len() as f64;
        (made / n, left / (n - made))
    }
}

/// How far to the right of the hole a path passes where it is nearest, and its length to there.
fn nearest(path: &Path, hole: Point) -> (f64, f64) {
    let (mut best, mut length) = ((f64::INFINITY, 0.0, 0.0), 0.0);
    for pair in path.points.windows(2) {
        let step = pair[1] - pair[0];
        let to = hole - pair[0];
        let share = (to.dot(&step) / step.norm_squared().max(1e-12)).clamp(0.0, 1.0);
        let by = pair[0] + step * share - hole;
        if by.norm() < best.0 {
            best = (by.norm(), by.x, length + share * step.norm());
        }
        length += step.norm();
    }
    (best.1, best.2)
}

/// A step of a foot between levels that fall 1 % to the side, over 4 yards.
fn step(p: Point) -> (f64, f64) {
    let t = ((p.y - 4.0) / 4.0).clamp(0.0, 1.0);
    (t * t * (3.0 - 2.0 * t) / 3.0, t * (1.0 - t) * 1.5 / 3.0)
}

const TIERS: [Shape; 2] = [
    Shape {
        name: "up a tier",
        height: |p| step(p).0 - 0.01 * p.x,
        gradient: |p| Vector::new(-0.01, step(p).1),
    },
    Shape {
        name: "down a tier",
        height: |p| -step(p).0 - 0.01 * p.x,
        gradient: |p| Vector::new(-0.01, -step(p).1),
    },
];

const CURVED: [Shape; 6] = [
    Shape {
        name: "side slope that grows from 0.5 to 3.5 % over 10 yd",
        height: |p| -(0.005 + 0.003 * p.y) * p.x,
        gradient: |p| Vector::new(-(0.005 + 0.003 * p.y), -0.003 * p.x),
    },
    Shape {
        name: "side slope that fades from 3.5 to 0.5 % over 10 yd",
        height: |p| -(0.035 - 0.003 * p.y) * p.x,
        gradient: |p| Vector::new(-(0.035 - 0.003 * p.y), 0.003 * p.x),
    },
    Shape {
        name: "breaks both ways",
        height: |p| 0.02 * (0.6 * p.y).cos() * p.x,
        gradient: |p| Vector::new(0.02 * (0.6 * p.y).cos(), -0.012 * (0.6 * p.y).sin() * p.x),
    },
    Shape {
        name: "over a crown: up 2.5 %, then down as much",
        height: |p| {
            let y = p.y.min(10.0);
            0.025 * y - 0.0025 * y * y - 0.025 * (p.y - y) - 0.01 * p.x
        },
        gradient: |p| Vector::new(-0.01, 0.025 - 0.005 * p.y.min(10.0)),
    },
    Shape {
        name: "through a hollow: down 2.5 %, then up",
        height: |p| -0.025 * p.y + 0.0025 * p.y * p.y - 0.01 * p.x,
        gradient: |p| Vector::new(-0.01, -0.025 + 0.005 * p.y),
    },
    Shape {
        name: "gentle waves",
        height: |p| 0.03 * (0.5 * p.x).sin() * (0.5 * p.y).cos() - 0.01 * p.y,
        gradient: |p| {
            let ((s, c), (t, u)) = ((0.5 * p.x).sin_cos(), (0.5 * p.y).sin_cos());
            Vector::new(0.015 * c * u, -0.015 * s * t - 0.01)
        },
    },
];

/// Golfers of two levels, all shapes: makes within 1.5 points of the integration (1024 strokes under the same luck: one is 0.1
/// points), mean leaves of misses within 15 %.
#[test]
fn a_plane_stands_for_a_curved_green() {
    for shape in &CURVED {
        for ft in [6.0, 15.0, 30.0] {
            holds(shape, ft, 0.15);
        }
    }
}

/// Where a putt crosses a step of a foot within four yards, half again too steep to hold a ball, to a hole two yards or more
/// beyond its foot: makes within 1.5 points, leaves within 30 %. With the hole a foot beyond the foot (25 feet)
/// downhill leaves come out less than half of what they are: putts that stay short gather below the step.
#[test]
fn a_plane_stands_for_a_tier() {
    for shape in &TIERS {
        for ft in [30.0, 36.0, 45.0, 50.0, 60.0] {
            holds(shape, ft, 0.30);
        }
    }
}

fn holds(shape: &Shape, ft: f64, leaves: f64) {
    let luck = lattice(1024);
    let amateur = Player::from_handicap(18.0).unwrap();
    for player in [Player::professional().unwrap(), amateur] {
        let putt = Putt {
            shape,
            skill: player.putting,
            speed: 10.0,
            distance: ft / 3.0,
        };
        let (full, plane) = (putt.in_full(&luck), putt.on_plane(&luck));
        let what = format!(
            "{}, {}, {ft} ft: {full:?}, {plane:?}",
            player.name, shape.name
        );
        assert!((full.0 - plane.0).abs() <= 0.015, "makes, {what}");
        assert!((plane.1 / full.1 - 1.0).abs() <= leaves, "leaves, {what}");
    }
}

/// What a putt meets of a surface: the mean of a slope that changes evenly is that in the middle, and slopes that cancel are
/// still there to be misread.
#[test]
fn what_is_looked_up() {
    let (ball, hole) = (Point::new(1.0, 2.0), Point::new(4.0, 6.0));
    let even = Slope::over(ball, hole, |p| Vector::new(0.01 * p.x, -0.002 * p.y));
    assert!((even.mean - Vector::new(0.025, -0.008)).norm() < 1e-12);
    assert_eq!(even.at_hole, Vector::new(0.04, -0.012));
    let both = Slope::over(ball, hole, |p| {
        Vector::new(0.02_f64.copysign(p.x - 2.5), 0.0)
    });
    assert!(both.mean.norm() < 1e-12 && (both.grade - 0.02).abs() < 1e-12);
    let plane = Slope::over(ball, hole, |_| Vector::new(0.01, 0.02));
    assert!((plane.mean - Slope::plane(Vector::new(0.01, 0.02)).mean).norm() < 1e-15);
    let skill = Player::from_handicap(18.0).unwrap().putting;
    let line = hole - ball;
    let chance = |slope| {
        let green = Green {
            slope: Some(slope),
            ..Green::ordinary(10.0)
        };
        make_chance(&skill, &green, line)
    };
    let level = chance(Slope::plane(Vector::zeros()));
    assert!(chance(both) < 0.8 * level, "{} {level}", chance(both));
}
