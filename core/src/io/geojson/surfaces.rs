//! The surfaces of a map: areas as they are, lines and points made into areas.
use super::super::ReadFault;
use super::super::projection::LocalPlane;
use super::classify::tag;
use super::shape::{Position, Shape};
use super::{Mapped, Notes, on_plane};
use crate::geometry::{Point, Vector};
use crate::hole::{Canopy, Draft, DraftBoundary, DraftFeature, Surface, ellipse, ribbon};
use crate::units::{METRES_PER_YARD, feet_from_yards, yards_from_feet, yards_from_metres};

/// The width of a watercourse that tells none, yards (common practice, no source).
const STREAM: f64 = 4.0;
/// The width of the crown of a tree or a row of trees that tells none, yards (common practice, no source).
const CROWN: f64 = 7.0;

/// How high a surface lies where outlines overlap; higher ones win.
pub(super) fn height(surface: Surface) -> u8 {
    match surface {
        Surface::Rough => 0,
        Surface::DeepRough => 1,
        Surface::Trees => 2,
        Surface::FirstCut => 3,
        Surface::Fairway => 4,
        Surface::PenaltyRed | Surface::PenaltyYellow => 5,
        Surface::Tee => 6,
        Surface::Bunker => 7,
        Surface::Fringe => 8,
        Surface::Green => 9,
        Surface::OutOfBounds => 10,
    }
}

/// A hole being drawn from a map.
pub(super) struct Drawing<'a> {
    pub(super) plane: &'a LocalPlane,
    pub(super) line: &'a [Point],
    pub(super) reach: f64,
    pub(super) draft: Draft,
    /// Features left out because they are too far from the line of play.
    pub(super) left_out: usize,
}

impl Drawing<'_> {
    /// Adds a feature if it belongs to the hole.
    pub(super) fn add(&mut self, feature: &Mapped<'_>, surface: Surface, notes: &mut Notes) {
        let Some(shape) = &feature.shape else {
            self.draft.unreadable.push(surface);
            return;
        };
        if !self.belongs(shape) {
            self.left_out += 1;
            return;
        }
        if let Some(assumed) = feature.class.assumed {
            notes.warn(format!(
                "{} ({}) {assumed}",
                feature.label(),
                feature.class.tag
            ));
        }
        match shape {
            Shape::Areas(areas) => {
                for rings in areas {
                    let rings: Vec<_> = rings
                        .iter()
                        .map(|ring| on_plane(self.plane, ring))
                        .collect();
                    if surface == Surface::Trees && self.is_played_under(&rings) {
                        notes.warn(format!(
                            "{}: the line of play runs under these trees; where the hole is open, cut it out of their \
                             outline",
                            feature.label()
                        ));
                    }
                    self.push(feature, surface, rings, notes);
                }
            }
            Shape::Lines(lines) => {
                for line in lines {
                    self.add_line(feature, surface, line, notes);
                }
            }
            Shape::Points(points) => self.add_points(feature, surface, points, notes),
        }
    }

    /// True where the shape comes within reach of the line of play.
    fn belongs(&self, shape: &Shape) -> bool {
        match shape {
            Shape::Areas(areas) => areas.iter().any(|rings| {
                let ring = on_plane(self.plane, &rings[0]);
                near(self.line, &ring, self.reach)
                    || self.line.first().is_some_and(|&p| encloses(&ring, p))
            }),
            Shape::Lines(lines) => lines
                .iter()
                .any(|line| near(self.line, &on_plane(self.plane, line), self.reach)),
            Shape::Points(_) => on_plane(self.plane, &shape.positions())
                .iter()
                .any(|&p| near(self.line, &[p], self.reach)),
        }
    }

    /// True where the line of play passes through an area that covers neither end of it: the hole is taken to be cut out of
    /// a wood that does.
    fn is_played_under(&self, rings: &[Vec<Point>]) -> bool {
        /// Yards between the places that are looked at.
        const STEP: f64 = 2.0;
        let covers = |p: Point| {
            let mut within = rings.iter().map(|ring| encloses(ring, p));
            within.next() == Some(true) && !within.any(|hole| hole)
        };
        let ends = [self.line.first(), self.line.last()];
        if ends.into_iter().flatten().any(|&end| covers(end)) {
            return false;
        }
        self.line.windows(2).any(|leg| {
            let (from, way) = (leg[0], leg[1] - leg[0]);
            let steps = (way.norm() / STEP).ceil().max(1.0);
            (0..steps as u32).any(|i| covers(from + way * (f64::from(i) / steps)))
        })
    }

    /// A line: a boundary, a watercourse, a row of trees, or an area that was saved as a closed line.
    fn add_line(
        &mut self,
        feature: &Mapped<'_>,
        surface: Surface,
        line: &[Position],
        notes: &mut Notes,
    ) {
        let points = on_plane(self.plane, line);
        let closed = line.len() > 3 && line.first() == line.last();
        if surface == Surface::OutOfBounds {
            let (source, name) = (feature.index, feature.name());
            self.draft.boundaries.push(DraftBoundary {
                source,
                name,
                line: points,
                out: None,
            });
        } else if closed {
            notes.warn(format!(
                "{} is a closed line: taken for the area inside it",
                feature.label()
            ));
            self.push(feature, surface, vec![points], notes);
        } else if surface.is_penalty_area() || surface == Surface::Trees {
            let usual = if surface == Surface::Trees {
                CROWN
            } else {
                STREAM
            };
            let width = measure(feature, "width", notes).unwrap_or_else(|| {
                notes.warn(format!(
                    "{} has no width: taken to be {usual} yards wide",
                    feature.label()
                ));
                usual
            });
            for ring in ribbon(&points, width) {
                self.push(feature, surface, vec![ring], notes);
            }
        } else {
            notes.fault(
                feature.label(),
                "it is an open line; it must be an area (a Polygon or MultiPolygon)",
            );
            self.draft.unreadable.push(surface);
        }
    }

    /// Points: single trees, or places of tees, which are used elsewhere.
    fn add_points(
        &mut self,
        feature: &Mapped<'_>,
        surface: Surface,
        points: &[Position],
        notes: &mut Notes,
    ) {
        if surface != Surface::Trees {
            if !feature.class.tells_tee {
                notes.warn(format!("{} is a point, no area: left out", feature.label()));
            }
            return;
        }
        let crown = measure(feature, "diameter_crown", notes).unwrap_or(CROWN);
        for center in on_plane(self.plane, points) {
            let ring = ellipse(center, Vector::new(0.0, 1.0), crown / 2.0, crown / 2.0);
            self.push(feature, surface, vec![ring], notes);
        }
    }

    fn push(
        &mut self,
        feature: &Mapped<'_>,
        surface: Surface,
        rings: Vec<Vec<Point>>,
        notes: &mut Notes,
    ) {
        let canopy = (surface == Surface::Trees).then(|| canopy(feature, notes));
        let (source, name) = (feature.index, feature.name());
        self.draft.features.push(DraftFeature {
            source,
            surface,
            rings,
            name,
            canopy,
        });
    }
}

/// The canopy of trees: `height` in metres; `height_ft` and `openness` (0 to 1) are our own.
fn canopy(feature: &Mapped<'_>, notes: &mut Notes) -> Canopy {
    let usual = Canopy::default();
    let mut number = |key: &str, allowed: &str| {
        let text = tag(feature.tags, key)?;
        let number = text.parse().ok();
        if number.is_none() {
            let field = format!("{}: {key}", feature.label());
            let (value, allowed) = (format!("{text:?}"), allowed.to_owned());
            notes.faults.push(ReadFault::Field {
                field,
                value,
                allowed,
            });
        }
        number
    };
    let (height_ft, openness) = (
        number("height_ft", "a number above 0, at most 300"),
        number("openness", "0 to 1"),
    );
    Canopy {
        height_ft: height_ft
            .or_else(|| measure(feature, "height", notes).map(feet_from_yards))
            .unwrap_or(usual.height_ft),
        openness: openness.unwrap_or(usual.openness),
    }
}

/// A length tagged in metres (or in feet with `ft` or `'`), in yards; what is no length is reported.
fn measure(feature: &Mapped<'_>, key: &str, notes: &mut Notes) -> Option<f64> {
    let text = tag(feature.tags, key)?;
    let feet = text.strip_suffix("ft").or_else(|| text.strip_suffix('\''));
    let number = feet
        .or_else(|| text.strip_suffix('m'))
        .unwrap_or(&text)
        .trim()
        .parse::<f64>()
        .ok();
    let yards = number.map(|n| {
        if feet.is_some() {
            yards_from_feet(n)
        } else {
            yards_from_metres(n)
        }
    });
    let good = yards.filter(|y| *y > 0.0 && *y <= 1000.0 / METRES_PER_YARD);
    if good.is_none() {
        let (field, value) = (format!("{}: {key}", feature.label()), format!("{text:?}"));
        let allowed = "a length in metres above 0, at most 1000, such as \"12\" (or in feet, such as \"40 ft\")".to_owned();
        notes.faults.push(ReadFault::Field {
            field,
            value,
            allowed,
        });
    }
    good
}

/// True where the polyline `drawn` (one point or more) comes within `reach` of `line`.
pub(super) fn near(line: &[Point], drawn: &[Point], reach: f64) -> bool {
    let segments = |points: &[Point]| -> Vec<(Point, Point)> {
        if points.len() == 1 {
            vec![(points[0], points[0])]
        } else {
            points.windows(2).map(|s| (s[0], s[1])).collect()
        }
    };
    let line = segments(line);
    segments(drawn)
        .iter()
        .any(|&(a, b)| line.iter().any(|&(c, d)| distance(a, b, c, d) <= reach))
}

/// The distance between two segments.
fn distance(a: Point, b: Point, c: Point, d: Point) -> f64 {
    let side = |p: Point, q: Point, r: Point| (q - p).perp(&(r - p));
    let crossing = side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0;
    if crossing {
        return 0.0;
    }
    let ends = [
        to_segment(a, c, d),
        to_segment(b, c, d),
        to_segment(c, a, b),
        to_segment(d, a, b),
    ];
    ends.into_iter().fold(f64::INFINITY, f64::min)
}

/// The distance of a point from a segment.
fn to_segment(p: Point, a: Point, b: Point) -> f64 {
    let along = b - a;
    let share = (p - a).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE);
    (p - (a + along * share.clamp(0.0, 1.0))).norm()
}

/// True where `p` is inside the ring (by the even-odd rule), which need not be valid.
fn encloses(ring: &[Point], p: Point) -> bool {
    let crosses = |a: &Point, b: &Point| {
        (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)
    };
    ring.windows(2).filter(|e| crosses(&e[0], &e[1])).count() % 2 == 1
}
