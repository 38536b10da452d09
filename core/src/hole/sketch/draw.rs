//! The outlines of a sketched hole.
use super::super::draft::DraftFeature;
use super::super::shapes::{self, Spine};
use super::super::{Canopy, HoleFault, HoleFaults, Surface};
use super::{Hazard, ROUND, Sketch};
use crate::figures::hole as figures;
use crate::geometry::{Line, Point, Polygon};

/// A crossing reaches this far to each side of the line of play, yards.
const ACROSS: f64 = 120.0;

/// The features of a sketch whose numbers have been checked, from the bottom to the top.
///
/// # Errors
/// Hazards that cover the tee or the pin.
pub(super) fn features(sketch: &Sketch, line: &Line) -> Result<Vec<DraftFeature>, HoleFaults> {
    let spine = Spine::new(line.vertices());
    let mut drawing = Drawing {
        sketch,
        spine,
        line,
        features: vec![],
        faults: vec![],
    };
    drawing.draw();
    let Drawing {
        features, faults, ..
    } = drawing;
    if faults.is_empty() {
        Ok(features)
    } else {
        Err(HoleFaults(faults))
    }
}

/// A sketch being drawn.
struct Drawing<'a> {
    sketch: &'a Sketch,
    spine: Spine<'a>,
    line: &'a Line,
    features: Vec<DraftFeature>,
    faults: Vec<HoleFault>,
}

impl Drawing<'_> {
    /// Draws everything, from the bottom to the top.
    fn draw(&mut self) {
        let sketch = self.sketch;
        for (i, trees) in sketch.trees.iter().enumerate() {
            let (length, width) = trees.size(figures::STAND);
            let ring = self.stand(trees, length, width);
            self.hazard(
                &format!("trees[{i}]"),
                Surface::Trees,
                ring,
                trees.name.clone(),
                trees.canopy.unwrap_or_default(),
            );
        }
        self.fairway();
        for (i, water) in sketch.water.iter().enumerate() {
            let ring = self.oval(water, figures::WATER);
            self.hazard(
                &format!("water[{i}]"),
                Surface::PenaltyRed,
                ring,
                water.name.clone(),
                None,
            );
        }
        for (i, crossing) in sketch.crossings.iter().enumerate() {
            let ahead = self.line.direction(crossing.at);
            let ring = shapes::rectangle(
                self.line.at(crossing.at, 0.0),
                ahead,
                crossing.width / 2.0,
                ACROSS,
            );
            self.hazard(
                &format!("crossings[{i}]"),
                Surface::PenaltyYellow,
                ring,
                crossing.name.clone(),
                None,
            );
        }
        let ahead = self.line.direction(0.0);
        self.add(
            Surface::Tee,
            shapes::rectangle(Point::origin(), ahead, 6.0, 4.0),
            None,
            None,
        );
        for (i, bunker) in sketch.bunkers.iter().enumerate() {
            let ring = self.oval(bunker, figures::BUNKER);
            self.hazard(
                &format!("bunkers[{i}]"),
                Surface::Bunker,
                ring,
                bunker.name.clone(),
                None,
            );
        }
        let (depth, width, fringe) = (
            sketch.green_depth / 2.0,
            sketch.green_width / 2.0,
            sketch.fringe_width,
        );
        let (center, ahead) = (
            self.line.at(sketch.length, 0.0),
            self.line.direction(sketch.length),
        );
        if fringe > 0.0 {
            self.add(
                Surface::Fringe,
                shapes::ellipse(center, ahead, depth + fringe, width + fringe),
                None,
                None,
            );
        }
        self.add(
            Surface::Green,
            shapes::ellipse(center, ahead, depth, width),
            None,
            None,
        );
    }

    /// The fairway with its first cut.
    fn fairway(&mut self) {
        let (from, to) = self.sketch.fairway();
        let cut = self.sketch.first_cut_width;
        if cut > 0.0 {
            let band = self.rounded(from - cut, to + cut, |s| self.sketch.half_width(s) + cut);
            self.add(Surface::FirstCut, band, None, None);
        }
        let band = self.rounded(from, to, |s| self.sketch.half_width(s));
        self.add(Surface::Fairway, band, None, None);
    }

    /// A band along the line of play whose ends are half ellipses.
    fn rounded(&self, from: f64, to: f64, half: impl Fn(f64) -> f64) -> Vec<Point> {
        let round = ROUND.min((to - from) / 2.0);
        let stations = self.spine.stations(from, to, round);
        self.spine.band(&stations, |s| {
            let u = 1.0 - (s - from).min(to - s).clamp(0.0, round) / round;
            half(s) * (1.0 - u * u).max(0.0).sqrt()
        })
    }

    /// An oval beside the line of play.
    fn oval(&self, hazard: &Hazard, usual: (f64, f64)) -> Vec<Point> {
        let (length, width) = hazard.size(usual);
        let along = self.sketch.yards_out(hazard.along);
        let center = self.line.at(along, hazard.middle(width));
        shapes::ellipse(
            center,
            self.line.direction(along),
            length / 2.0,
            width / 2.0,
        )
    }

    /// A strip beside the line of play that bends with it where it can.
    fn stand(&self, hazard: &Hazard, length: f64, width: f64) -> Vec<Point> {
        let along = self.sketch.yards_out(hazard.along);
        let stations = self
            .spine
            .stations(along - length / 2.0, along + length / 2.0, 0.0);
        let middle = hazard.middle(width);
        let bent = self
            .spine
            .strip(&stations, middle - width / 2.0, middle + width / 2.0);
        if Polygon::from_points(vec![bent.clone()]).is_ok() {
            return bent;
        }
        let ahead = self.line.direction(along);
        shapes::rectangle(
            self.line.at(along, middle),
            ahead,
            length / 2.0,
            width / 2.0,
        )
    }

    /// Adds a hazard after checking that it leaves the tee and the pin free.
    fn hazard(
        &mut self,
        field: &str,
        surface: Surface,
        ring: Vec<Point>,
        name: Option<String>,
        canopy: impl Into<Option<Canopy>>,
    ) {
        if let Ok(outline) = Polygon::from_points(vec![ring.clone()]) {
            let pin = self.sketch.pin(self.line);
            for (place, at) in [("tee", Point::origin()), ("pin", pin)] {
                if outline.contains(at) {
                    self.faults.push(HoleFault::Covers {
                        field: field.to_owned(),
                        place,
                    });
                }
            }
        }
        self.add(surface, ring, name, canopy.into());
    }

    fn add(
        &mut self,
        surface: Surface,
        ring: Vec<Point>,
        name: Option<String>,
        canopy: Option<Canopy>,
    ) {
        let source = self.features.len();
        self.features.push(DraftFeature {
            source,
            surface,
            rings: vec![ring],
            name,
            canopy,
        });
    }
}

impl Hazard {
    /// Length and width, with those usual for its kind where none are given.
    fn size(&self, (length, width): (f64, f64)) -> (f64, f64) {
        (self.length.unwrap_or(length), self.width.unwrap_or(width))
    }

    /// Yards from the line of play to its middle, right positive.
    fn middle(&self, width: f64) -> f64 {
        let right = self.right;
        if right == 0.0 {
            0.0
        } else {
            right + right.signum() * width / 2.0
        }
    }
}
