//! The holes that golfers play: plain ones, those of an ordinary course, a meadow, and a patch beside a green.
use wideberth::geometry::{Point, Polygon};
use wideberth::hole::{Bounds, CrossingWater, Feature, Hazard, Hole, Sketch, Surface};

/// Stimpmeter reading of the greens where putts are counted.
pub(crate) const CLUB_GREEN: f64 = 10.0;

/// What stands in a golfer's way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Course {
    /// Nothing: a fairway 35 yards wide that narrows before the green, with a first cut and rough beside it, and a green 28
    /// yards deep and 26 wide.
    Plain,
    /// What most courses have, our own invention: sand by every green and where drives end, woods along two holes in
    /// three, water on six holes and a boundary on three.
    Ordinary,
}

/// Holes of a course: par, and length as a part of 6,950 yards.
const COURSE: [(u8, f64); 18] = [
    (4, 385.0),
    (4, 410.0),
    (3, 165.0),
    (5, 510.0),
    (4, 360.0),
    (4, 400.0),
    (3, 185.0),
    (4, 340.0),
    (5, 530.0),
    (4, 395.0),
    (4, 370.0),
    (3, 150.0),
    (4, 425.0),
    (5, 500.0),
    (4, 350.0),
    (3, 195.0),
    (4, 380.0),
    (5, 520.0),
];

impl Course {
    /// Its eighteen holes at some length of the whole, yards; pins go around the green by the golden angle, as far as two
    /// thirds of the way to the edge.
    pub(crate) fn holes(self, length: f64) -> impl Iterator<Item = Hole> {
        let whole: f64 = COURSE.iter().map(|hole| hole.1).sum();
        (0..).zip(COURSE).map(move |(number, (par, part))| {
            let turn = 2.399_963 * f64::from(number);
            let out = 0.65 * ((7.0 * f64::from(number) + 0.5) / 18.0).fract().sqrt();
            let length = part * length / whole;
            let sketch = Sketch {
                pin_back: 14.0 * out * turn.cos(),
                pin_right: 13.0 * out * turn.sin(),
                ..Sketch::new(par, length)
            };
            self.hole(number, sketch)
        })
    }

    fn hole(self, number: u8, sketch: Sketch) -> Hole {
        let sketch = match self {
            Course::Plain => sketch,
            Course::Ordinary => obstructed(number, sketch),
        };
        Hole::sketch(&sketch).expect("a valid sketch")
    }
}

/// The ordinary obstacles of a hole, on the side that its number tells.
fn obstructed(number: u8, sketch: Sketch) -> Sketch {
    let side = if number.is_multiple_of(2) { -1.0 } else { 1.0 };
    let (par, length) = (sketch.par, sketch.length);
    let sand = |along: f64, right: f64, long: f64| Hazard::new(along, right).sized(long, 7.0);
    let mut bunkers = vec![
        sand(length - 5.0, -16.0 * side, 18.0),
        sand(length - 1.0, 16.0 * side, 18.0),
        sand(length - 19.0, -10.0 * side, 11.0),
    ];
    if !number.is_multiple_of(3) {
        bunkers.push(sand(length - 20.0, 10.0 * side, 11.0));
    }
    let (mut trees, mut water, mut crossings) = (vec![], vec![], vec![]);
    let mut wood = |right: f64| {
        let mut along = 60.0;
        while along < length - 30.0 {
            trees.push(Hazard::new(along, right).sized(95.0, 18.0));
            along += 110.0;
        }
    };
    if par > 3 {
        if number % 3 != 2 {
            wood(-34.0 * side);
        }
        if number.is_multiple_of(3) {
            wood(36.0 * side);
        }
        if number.is_multiple_of(2) {
            bunkers.push(sand(205.0, -19.0 * side, 14.0));
        }
        if number % 4 == 1 {
            bunkers.push(sand(235.0, 19.0 * side, 14.0));
        }
    }
    match number {
        2 => crossings.push(crossing(0.62 * length)),
        7 => crossings.push(crossing(length - 65.0)),
        4 | 14 => water.push(Hazard::new(215.0, 26.0 * side).sized(60.0, 25.0)),
        11 | 16 => water.push(Hazard::new(length - 15.0, -16.0 * side).sized(35.0, 22.0)),
        _ => {}
    }
    let out_of_bounds = match number {
        5 | 12 => Some(Bounds::Right),
        8 => Some(Bounds::Left),
        _ => None,
    };
    Sketch {
        bunkers,
        trees,
        water,
        crossings,
        out_of_bounds,
        out_of_bounds_offset: out_of_bounds.map(|_| 42.0),
        fairway_width: (par > 3).then_some(32.0),
        ..sketch
    }
}

fn crossing(at: f64) -> CrossingWater {
    CrossingWater {
        at,
        width: 18.0,
        name: None,
    }
}

/// A hole like those on which the tour's strokes are counted, our own invention: sand where drives end and by the green,
/// woods on both sides, and a pin away from the middle of the green.
pub(crate) fn tour(par: u8, length: f64, pin: (f64, f64)) -> Hole {
    let sand = |along: f64, right: f64| Hazard::new(along, right).sized(13.0, 7.0);
    let mut bunkers = vec![
        sand(length - 6.0, -16.0),
        sand(length + 2.0, 16.0),
        sand(length - 22.0, 9.0),
    ];
    let mut trees = vec![];
    if par > 3 {
        bunkers.extend(
            [sand(275.0, -19.0), sand(295.0, 19.0)]
                .into_iter()
                .filter(|_| length > 330.0),
        );
        let mut along = 80.0;
        while along < length - 60.0 {
            trees.push(Hazard::new(along, -38.0).sized(95.0, 18.0));
            trees.push(Hazard::new(along, 38.0).sized(95.0, 18.0));
            along += 110.0;
        }
    }
    let sketch = Sketch {
        fairway_width: (par > 3).then_some(30.0),
        fairway_to: (par > 3).then_some(length - 19.0),
        green_speed: TOUR_GREEN,
        bunkers,
        trees,
        pin_back: pin.0,
        pin_right: pin.1,
        ..Sketch::new(par, length)
    };
    Hole::sketch(&sketch).expect("a valid sketch")
}

/// Stimpmeter reading of the professional's greens.
pub(crate) const TOUR_GREEN: f64 = 11.0;

/// Where pins are: a third of the way from the middle of the green to its edge, in front on one side and at the back on the
/// other; yards back and to the right.
pub(crate) const PINS: [(f64, f64); 2] = [(-3.5, 3.0), (3.5, -3.0)];

/// A level hole without obstacles.
pub(crate) fn level(par: u8, length: f64, fairway_width: Option<f64>, green_speed: f64) -> Hole {
    Hole::sketch(&Sketch {
        fairway_width,
        green_speed,
        ..Sketch::new(par, length)
    })
    .expect("a valid sketch")
}

/// A par 4 with a wood 20 yards wide along the fairway, and a place a third of the way into it, so many yards from the pin.
pub(crate) fn in_a_wood(length: f64, yards: f64) -> (Hole, Point) {
    let strip = |k: u8| Hazard::new(60.0 + 95.0 * f64::from(k), 34.0).sized(95.0, 20.0);
    let sketch = Sketch {
        trees: (0..4).map(strip).collect(),
        ..Sketch::new(4, length)
    };
    let hole = Hole::sketch(&sketch).expect("a valid sketch");
    (hole, Point::new(31.0, length - yards))
}

/// A hole with fairway as far as one sees.
pub(crate) fn meadow() -> Hole {
    level(5, 700.0, Some(150.0), CLUB_GREEN)
}

/// A hole with a patch of a surface so many yards short of the pin, which is six tenths of that way on the green or
/// in its middle.
pub(crate) fn beside(surface: Surface, yards: f64) -> (Hole, Point) {
    let sketch = Sketch {
        green_speed: CLUB_GREEN,
        ..Sketch::new(4, 380.0)
    };
    let half = 0.5 * sketch.green_depth;
    let hole = Hole::sketch(&sketch)
        .expect("a valid sketch")
        .with_pin_at((0.6 * yards).min(half) - half, 0.0)
        .expect("a pin on the green");
    let spot = Point::new(hole.pin().x, hole.pin().y - yards);
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    let ring = corners.map(|(x, y)| Point::new(spot.x + x, spot.y + y));
    let mut parts = hole.parts().clone();
    parts.features.push(Feature {
        surface,
        outline: Polygon::from_points(vec![ring.to_vec()]).expect("a square"),
        name: None,
        canopy: None,
    });
    (Hole::new(parts, vec![]).expect("a valid hole"), spot)
}
