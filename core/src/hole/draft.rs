//! A hole as drawn, before anything is checked: the common ground of the readers and the sketch.
use super::boundary::{self, DraftBoundary};
use super::check;
use super::{Canopy, Feature, Hole, HoleFault, HoleFaults, HoleParts, Surface, Warning};
use crate::geometry::{Line, Point, Polygon};

/// Coordinates farther from the origin than this are refused, yards.
pub(super) const FARTHEST: f64 = 100_000.0;

/// A feature as drawn: its rings may be anything.
#[derive(Clone, Debug, PartialEq)]
pub struct DraftFeature {
    /// Its place in the list it came from, counted from 0; faults name it.
    pub source: usize,
    /// What it is.
    pub surface: Surface,
    /// The exterior ring, then the holes; a repeated closing vertex is allowed.
    pub rings: Vec<Vec<Point>>,
    /// Its name, if it has one.
    pub name: Option<String>,
    /// Its trees, if any are known.
    pub canopy: Option<Canopy>,
}

/// A hole as drawn: [`Draft::build`] checks all of it at once.
///
/// A value of `None` is one that its source did not give.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft {
    /// Name of the hole.
    pub name: Option<String>,
    /// Number on the card, if known.
    pub number: Option<i64>,
    /// Par, 3 to 6.
    pub par: Option<i64>,
    /// Stroke index on the card (1 to 18), if known.
    pub stroke_index: Option<i64>,
    /// Where the tee shot is played from.
    pub tee: Option<Point>,
    /// The hole in the green.
    pub pin: Option<Point>,
    /// The vertices of the line of play, from the tee to the green.
    pub line: Option<Vec<Point>>,
    /// Later features lie on top of earlier ones.
    pub features: Vec<DraftFeature>,
    /// Lines beyond which it is out of bounds; their areas go on top of the features.
    pub boundaries: Vec<DraftBoundary>,
    /// Stimpmeter reading of the green, feet.
    pub green_speed: Option<f64>,
    /// Surfaces of features that could not be read at all and were reported by the reader: faults that
    /// would only follow from their absence are left out.
    pub unreadable: Vec<Surface>,
}

impl Draft {
    /// Makes the hole.
    ///
    /// # Errors
    /// Every fault of the draft at once.
    pub fn build(self, warnings: Vec<Warning>) -> Result<Hole, HoleFaults> {
        let (parts, mut faults) = self.examine();
        match parts {
            Some(parts) if faults.is_empty() => Hole::assemble(parts, warnings),
            _ => {
                faults.extend(self.missing());
                Err(HoleFaults(faults))
            }
        }
    }

    /// Every fault of what is given; values that are missing are passed over.
    #[must_use]
    pub fn faults(&self) -> Vec<HoleFault> {
        self.examine().1
    }

    /// The checked parts, if all are there, and the faults.
    fn examine(&self) -> (Option<HoleParts>, Vec<HoleFault>) {
        let mut faults = Vec::new();
        check::card(
            self.name.as_deref(),
            self.number,
            self.par,
            self.stroke_index,
            &mut faults,
        );
        if let Some(speed) = self.green_speed {
            check::green_speed(speed, &mut faults);
        }
        let tee = self.tee.filter(|&p| check_point("tee", p, &mut faults));
        let pin = self.pin.filter(|&p| check_point("pin", p, &mut faults));
        let line = self
            .line
            .as_ref()
            .and_then(|vertices| check_line(vertices, &mut faults));
        let (mut features, mut sources, broken) = self.polygons(&mut faults);
        if features.len() <= check::MOST_FEATURES {
            let areas = boundary::areas(
                &self.boundaries,
                &features,
                line.as_ref(),
                tee,
                pin,
                &mut faults,
            );
            for (source, area) in areas {
                features.push(area);
                sources.push(source);
            }
        }
        let plan = check::Plan {
            tee,
            pin,
            line: line.as_ref(),
            features: &features,
            sources: &sources,
            broken: &broken,
        };
        plan.check(&mut faults);
        (self.parts(tee, pin, line, features), faults)
    }

    /// The features with valid outlines, where they came from, and the surfaces of the others.
    fn polygons(&self, faults: &mut Vec<HoleFault>) -> (Vec<Feature>, Vec<usize>, Vec<Surface>) {
        let (mut features, mut sources, mut broken) =
            (Vec::new(), Vec::new(), self.unreadable.clone());
        for draft in &self.features {
            match draft.outline(faults) {
                Some(outline) => {
                    features.push(Feature {
                        surface: draft.surface,
                        outline,
                        name: draft.name.clone(),
                        canopy: draft.canopy,
                    });
                    sources.push(draft.source);
                }
                None => broken.push(draft.surface),
            }
        }
        (features, sources, broken)
    }

    /// The parts of the hole, if every one that is needed is there.
    fn parts(
        &self,
        tee: Option<Point>,
        pin: Option<Point>,
        line: Option<Line>,
        features: Vec<Feature>,
    ) -> Option<HoleParts> {
        let narrow = |value: Option<i64>| value.map(u8::try_from).transpose().ok();
        Some(HoleParts {
            name: self.name.clone()?,
            number: narrow(self.number)?,
            par: narrow(self.par)??,
            stroke_index: narrow(self.stroke_index)?,
            tee: tee?,
            pin: pin?,
            line: line?,
            features,
            green_speed: self.green_speed?,
        })
    }

    /// What is needed and was not given.
    fn missing(&self) -> impl Iterator<Item = HoleFault> {
        [
            ("name", self.name.is_none()),
            ("par", self.par.is_none()),
            ("tee", self.tee.is_none()),
            ("pin", self.pin.is_none()),
            ("line of play", self.line.is_none()),
            ("green speed", self.green_speed.is_none()),
        ]
        .into_iter()
        .filter(|&(_, missing)| missing)
        .map(|(field, _)| HoleFault::Missing { field })
    }
}

impl DraftFeature {
    /// The outline as a polygon, or None after reporting why it is not one.
    fn outline(&self, faults: &mut Vec<HoleFault>) -> Option<Polygon> {
        let feature = super::FeatureRef {
            index: self.source,
            surface: self.surface,
            name: self.name.clone(),
        };
        let before = faults.len();
        for (r, ring) in self.rings.iter().enumerate() {
            for (v, &p) in ring.iter().enumerate().filter(|(_, p)| !is_sane(**p)) {
                let what = format!("{feature}: ring {r}, vertex {v}");
                faults.push(HoleFault::Coordinate {
                    what,
                    x: p.x,
                    y: p.y,
                });
            }
        }
        if faults.len() > before {
            return None;
        }
        match Polygon::from_points(self.rings.clone()) {
            Ok(outline) => Some(outline),
            Err(list) => {
                faults.extend(list.into_iter().map(|fault| HoleFault::Outline {
                    feature: feature.clone(),
                    fault,
                }));
                None
            }
        }
    }
}

/// True for a point that is finite and on this side of absurd.
pub(super) fn is_sane(p: Point) -> bool {
    p.x.abs() <= FARTHEST && p.y.abs() <= FARTHEST
}

/// True where `p` is sane; otherwise the fault is reported.
pub(super) fn check_point(what: &str, p: Point, faults: &mut Vec<HoleFault>) -> bool {
    let sane = is_sane(p);
    if !sane {
        faults.push(HoleFault::Coordinate {
            what: what.to_owned(),
            x: p.x,
            y: p.y,
        });
    }
    sane
}

/// The line of play, or None after reporting why it is not one.
fn check_line(vertices: &[Point], faults: &mut Vec<HoleFault>) -> Option<Line> {
    let before = faults.len();
    for (i, &p) in vertices.iter().enumerate() {
        check_point(&format!("line of play, vertex {i}"), p, faults);
    }
    if faults.len() > before {
        return None;
    }
    Line::new(vertices.to_vec())
        .map_err(|list| faults.extend(list.into_iter().map(HoleFault::Line)))
        .ok()
}
