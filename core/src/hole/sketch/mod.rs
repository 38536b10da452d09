//! A hole from the yardages a coach knows, without a map.
mod draw;
mod limits;

use super::boundary::{DraftBoundary, Side};
use super::draft::Draft;
use super::shapes::Spine;
use super::{Canopy, Contours, Hole, HoleFault, HoleFaults};
use crate::figures::hole as figures;
use crate::geometry::{Line, Point, Vector, right_of};

/// Fairways and their first cut end in a half ellipse this long, yards.
const ROUND: f64 = 12.0;

/// Where the hole turns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dogleg {
    /// Yards from the tee to the bend, along the line of play.
    pub at: f64,
    /// How far it turns, degrees; to the right is positive, -100 to 100.
    pub turn_deg: f64,
}

/// How far along the line of play something of a sketch lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Along {
    /// Yards from the tee.
    FromTee(f64),
    /// Yards before the front edge of the green; negative is past it.
    ShortOfGreen(f64),
}

/// A bunker, pond or stand of trees of a sketch.
#[derive(Clone, Debug, PartialEq)]
pub struct Hazard {
    /// How far along the line of play its middle lies.
    pub along: Along,
    /// Yards from the line of play to its near edge, to the left negative; it reaches further to that side. With 0 it lies
    /// across the line, half on each side.
    pub right: f64,
    /// Yards along the line of play; `None` for the usual length of its kind.
    pub length: Option<f64>,
    /// Yards across the line of play; `None` for the usual width of its kind.
    pub width: Option<f64>,
    /// Its name, if it has one.
    pub name: Option<String>,
    /// Of trees: how high and how open they are.
    pub canopy: Option<Canopy>,
}

impl Hazard {
    /// A hazard of the usual size of its kind: `along` yards from the tee to its middle, its near edge `right` yards to
    /// the right of the line of play.
    ///
    /// Usual sizes (common practice, no source), length by width: bunker 12 by 7 yards, water 40 by 25, trees 60 by 20.
    #[must_use]
    pub fn new(along: f64, right: f64) -> Self {
        Hazard {
            along: Along::FromTee(along),
            right,
            length: None,
            width: None,
            name: None,
            canopy: None,
        }
    }

    /// The same with this length and width, yards.
    #[must_use]
    pub fn sized(self, length: f64, width: f64) -> Self {
        Hazard {
            length: Some(length),
            width: Some(width),
            ..self
        }
    }
}

/// Water that crosses the whole hole: a yellow penalty area.
#[derive(Clone, Debug, PartialEq)]
pub struct CrossingWater {
    /// Yards along the line of play to its middle.
    pub at: f64,
    /// Yards from bank to bank.
    pub width: f64,
    /// Its name, if it has one.
    pub name: Option<String>,
}

/// On which sides of a sketched hole it is out of bounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Bounds {
    /// On the left only.
    Left,
    /// On the right only.
    Right,
    /// On both sides.
    Both,
}

impl Bounds {
    /// The sides of a name: `left`, `right` or `both`.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        match name {
            "left" => Some(Bounds::Left),
            "right" => Some(Bounds::Right),
            "both" => Some(Bounds::Both),
            _ => None,
        }
    }
}

/// A hole as a coach knows it. [`Sketch::new`] gives every field but par and length its usual value; the defaults are
/// common practice unless a source is named.
///
/// The tee is at (0, 0) and the first segment of the line of play runs along +y.
#[derive(Clone, Debug, PartialEq)]
pub struct Sketch {
    /// Name of the hole.
    pub name: String,
    /// Number on the card, if known.
    pub number: Option<u8>,
    /// Stroke index, if known.
    pub stroke_index: Option<u8>,
    /// Par.
    pub par: u8,
    /// Yards from the tee to the middle of the green along the line of play.
    pub length: f64,
    /// Where the hole turns, if it does.
    pub dogleg: Option<Dogleg>,
    /// Yards across the fairway; default 35 ("keeps about two thirds of weaker players in play", a golf architect's
    /// published figure). On a par 3 it is the apron, by default as wide as the green.
    pub fairway_width: Option<f64>,
    /// Yards from the tee to the start of the fairway; default 90, or 35 % of a hole shorter than 257 yards; on a par 3
    /// the apron starts 25 yards short of the green.
    pub fairway_from: Option<f64>,
    /// Yards from the tee to the end of the fairway; by default it meets the green, on a par 4 or 5 narrowing to two fifths
    /// of the width of the green over its last 40 yards.
    pub fairway_to: Option<f64>,
    /// Yards from the front to the back of the green; default 28 (with the width 26: 5150 ft², 5000 to 6000 being
    /// typical).
    pub green_depth: f64,
    /// Yards across the green; default 26.
    pub green_width: f64,
    /// Yards of first cut round the fairway; default 4, 0 for none.
    pub first_cut_width: f64,
    /// Yards of fringe round the green; default 1.5, 0 for none.
    pub fringe_width: f64,
    /// Yards from the middle of the green to the pin: towards the back is positive.
    pub pin_back: f64,
    /// Yards from the middle of the green to the pin: to the right is positive.
    pub pin_right: f64,
    /// Bunkers.
    pub bunkers: Vec<Hazard>,
    /// Ponds and the like: red penalty areas.
    pub water: Vec<Hazard>,
    /// Water across the hole: yellow penalty areas.
    pub crossings: Vec<CrossingWater>,
    /// Stands of trees.
    pub trees: Vec<Hazard>,
    /// Where it is out of bounds, if anywhere.
    pub out_of_bounds: Option<Bounds>,
    /// Yards from the line of play to the boundary, where there is one; default 35.
    pub out_of_bounds_offset: Option<f64>,
    /// Stimpmeter reading, feet; default 9 (most readings were 7 to 12 in 2003, United States Golf Association Green
    /// Section).
    pub green_speed: f64,
    /// The shape of the ground; by default it is flat.
    pub contours: Contours,
}

impl Sketch {
    /// A plain hole of this par and length.
    #[must_use]
    pub fn new(par: u8, length: f64) -> Self {
        Sketch {
            name: "Sketched hole".to_owned(),
            number: None,
            stroke_index: None,
            par,
            length,
            dogleg: None,
            fairway_width: None,
            fairway_from: None,
            fairway_to: None,
            green_depth: figures::GREEN.0,
            green_width: figures::GREEN.1,
            first_cut_width: figures::FIRST_CUT,
            fringe_width: figures::FRINGE,
            pin_back: 0.0,
            pin_right: 0.0,
            bunkers: Vec::new(),
            water: Vec::new(),
            crossings: Vec::new(),
            trees: Vec::new(),
            out_of_bounds: None,
            out_of_bounds_offset: None,
            green_speed: figures::GREEN_SPEED_FT,
            contours: Contours::default(),
        }
    }

    fn fairway_width(&self) -> f64 {
        self.fairway_width.unwrap_or(if self.par == 3 {
            self.green_width
        } else {
            figures::FAIRWAY_WIDTH
        })
    }

    /// Yards from the tee to the front of the green.
    fn front(&self) -> f64 {
        self.length - self.green_depth / 2.0
    }

    /// Yards from the tee to a place along the line of play.
    fn yards_out(&self, along: Along) -> f64 {
        match along {
            Along::FromTee(yards) => yards,
            Along::ShortOfGreen(yards) => self.front() - yards,
        }
    }

    /// Where the fairway starts and ends, yards from the tee.
    fn fairway(&self) -> (f64, f64) {
        let usual = if self.par == 3 {
            self.front() - figures::APRON_LENGTH
        } else {
            let (from, share) = figures::FAIRWAY_FROM;
            (share * self.length).min(from)
        };
        (
            self.fairway_from.unwrap_or(usual),
            self.fairway_to.unwrap_or(self.front() + 4.0),
        )
    }

    /// Half the width of the fairway so far along: where it meets the green it is narrow.
    fn half_width(&self, along: f64) -> f64 {
        let half = self.fairway_width() / 2.0;
        if self.par == 3 || self.fairway_to.is_some() {
            return half;
        }
        let (over, share) = figures::NARROWS;
        let narrow = half.min(share * self.green_width / 2.0);
        let part = ((along - self.front()) / over + 1.0).clamp(0.0, 1.0);
        half + part * (narrow - half)
    }

    /// The vertices of the line of play.
    fn line(&self) -> Vec<Point> {
        match self.dogleg {
            None => vec![Point::origin(), Point::new(0.0, self.length)],
            Some(Dogleg { at, turn_deg }) => {
                let turn = turn_deg.to_radians();
                let corner = Point::new(0.0, at);
                let leg = Vector::new(libm::sin(turn), libm::cos(turn)) * (self.length - at);
                vec![Point::origin(), corner, corner + leg]
            }
        }
    }
}

impl Hole {
    /// Draws a hole from yardages.
    ///
    /// # Errors
    /// Every fault of the sketch at once; each names the field, the value and what is allowed.
    pub fn sketch(sketch: &Sketch) -> Result<Hole, HoleFaults> {
        let faults = sketch.faults();
        if !faults.is_empty() {
            return Err(HoleFaults(faults));
        }
        let vertices = sketch.line();
        let line = Line::new(vertices.clone())
            .map_err(|list| HoleFaults(list.into_iter().map(HoleFault::Line).collect()))?;
        let features = draw::features(sketch, &line)?;
        let pin = sketch.pin(&line);
        let draft = Draft {
            name: Some(sketch.name.clone()),
            number: sketch.number.map(i64::from),
            par: Some(i64::from(sketch.par)),
            stroke_index: sketch.stroke_index.map(i64::from),
            tee: Some(Point::origin()),
            pin: Some(pin),
            features,
            boundaries: sketch.boundaries(&vertices),
            line: Some(vertices),
            green_speed: Some(sketch.green_speed),
            unreadable: Vec::new(),
        };
        draft.build(Vec::new())?.with_contours(&sketch.contours)
    }
}

impl Sketch {
    /// The pin.
    fn pin(&self, line: &Line) -> Point {
        let ahead = line.direction(self.length);
        let step = ahead * self.pin_back + right_of(ahead) * self.pin_right;
        line.at(self.length, 0.0) + step
    }

    /// The boundary lines, beside the line of play.
    fn boundaries(&self, vertices: &[Point]) -> Vec<DraftBoundary> {
        let spine = Spine::new(vertices);
        let (left, right) = match self.out_of_bounds {
            None => (false, false),
            Some(Bounds::Left) => (true, false),
            Some(Bounds::Right) => (false, true),
            Some(Bounds::Both) => (true, true),
        };
        let beside = |on: bool, out: Side, name: &str, offset: f64| {
            on.then(|| DraftBoundary {
                source: 0,
                name: Some(name.to_owned()),
                line: spine.side(&[0.0, self.length], |_| offset),
                out: Some(out),
            })
        };
        let offset = self.out_of_bounds_offset.unwrap_or(figures::OUT_OF_BOUNDS);
        let left = beside(left, Side::Left, "out of bounds left", -offset);
        left.into_iter()
            .chain(beside(right, Side::Right, "out of bounds right", offset))
            .collect()
    }
}
