//! What must hold between the parts of a hole: the card, the tee, the pin, the line and the features.
use super::draft::{check_point, is_sane};
use super::{Feature, FeatureRef, HoleFault, Surface};
use crate::figures::hole::LINE_END;
use crate::geometry::{LayerIndex, Line, Point};
use crate::text::{LONGEST_NAME, allowed, is_fit};

/// The most features a hole may have (their indices must fit sixteen bits).
pub(super) const MOST_FEATURES: usize = 65_000;

/// The most vertices of all features: what is prepared of them takes some 80 MiB.
const MOST_VERTICES: usize = 150_000;

/// The most edges of outlines in one square of the index. Detailed maps have some dozens; a comb of thousands of teeth would
/// make every look at the ground there a look at all of them.
const MOST_TOGETHER: usize = 1_000;
/// The shortest and the longest hole, yards; 2640 yards are 1.5 miles.
const SHORTEST: f64 = 30.0;
const LONGEST: f64 = 2640.0;

/// Checks what stands on the card.
pub(super) fn card(
    name: Option<&str>,
    number: Option<i64>,
    par: Option<i64>,
    stroke_index: Option<i64>,
    faults: &mut Vec<HoleFault>,
) {
    if let Some(name) = name.filter(|n| n.trim().is_empty()) {
        faults.push(HoleFault::field(
            "name",
            format!("{name:?}"),
            "text that is not empty",
        ));
    }
    check_name("name", name, faults);
    let mut whole = |field: &str, value: Option<i64>, low: i64, high: i64| {
        if let Some(value) = value.filter(|v| !(low..=high).contains(v)) {
            faults.push(HoleFault::field(field, value, format!("{low} to {high}")));
        }
    };
    whole("par", par, 3, 6);
    whole("number", number, 1, 99);
    whole("stroke_index", stroke_index, 1, 18);
}

/// Checks that a name, if there is one, can be shown as it is.
fn check_name(field: &str, name: Option<&str>, faults: &mut Vec<HoleFault>) {
    if let Some(name) = name.filter(|name| !is_fit(name, LONGEST_NAME)) {
        let allowed = allowed(LONGEST_NAME);
        faults.push(HoleFault::field(field, format!("{name:?}"), allowed));
    }
}

/// Checks the Stimpmeter reading: 4 to 16 ft is wider than anything seen on a course (readings of 7 to 12 ft
/// are usual, United States Golf Association Green Section).
pub(super) fn green_speed(feet: f64, faults: &mut Vec<HoleFault>) {
    if !(4.0..=16.0).contains(&feet) {
        faults.push(HoleFault::field("green_speed_ft", feet, "4 to 16 feet"));
    }
}

/// The fault of outlines too many edges of which lie together.
pub(super) fn too_dense(index: &LayerIndex) -> Option<HoleFault> {
    let (count, corner, side) = index.densest()?;
    let most = MOST_TOGETHER;
    (count > most).then_some(HoleFault::TooDense {
        count,
        corner,
        side,
        most,
    })
}

/// What lies where; parts that could not be read are None.
pub(super) struct Plan<'a> {
    pub(super) tee: Option<Point>,
    pub(super) pin: Option<Point>,
    pub(super) line: Option<&'a Line>,
    pub(super) features: &'a [Feature],
    /// Where each feature came from.
    pub(super) sources: &'a [usize],
    /// Surfaces of features that were refused before.
    pub(super) broken: &'a [Surface],
}

impl Plan<'_> {
    /// Reports every fault of the plan.
    pub(super) fn check(&self, faults: &mut Vec<HoleFault>) {
        if self.features.len() > MOST_FEATURES {
            faults.push(HoleFault::TooManyFeatures {
                count: self.features.len(),
            });
            return;
        }
        let vertices = |feature: &Feature| feature.outline.edges().count();
        let count = self.features.iter().map(vertices).sum();
        if count > MOST_VERTICES {
            let most = MOST_VERTICES;
            faults.push(HoleFault::TooManyVertices { count, most });
            return;
        }
        self.check_names(faults);
        self.check_extent(faults);
        self.check_canopies(faults);
        if let Some(line) = self.line {
            self.check_line(line, faults);
        }
        if let Some(tee) = self.tee {
            self.check_tee(tee, faults);
        }
        if !self.green_was_broken() {
            self.check_green(faults);
        }
    }

    fn green_was_broken(&self) -> bool {
        self.broken.contains(&Surface::Green)
    }

    /// How faults call feature `i`.
    fn name(&self, i: usize) -> FeatureRef {
        let feature = &self.features[i];
        FeatureRef {
            index: self.sources[i],
            surface: feature.surface,
            name: feature.name.clone(),
        }
    }

    /// The feature on top at `p`.
    fn top(&self, p: Point) -> Option<usize> {
        self.features.iter().rposition(|f| f.outline.contains(p))
    }

    /// The greens with the distance of `p` from each (0 on it).
    fn greens(&self, p: Point) -> impl Iterator<Item = (usize, f64)> + '_ {
        let greens = self
            .features
            .iter()
            .enumerate()
            .filter(|(_, f)| f.surface == Surface::Green);
        greens.map(move |(i, f)| {
            let inside = f.outline.contains(p);
            (
                i,
                if inside {
                    0.0
                } else {
                    (f.outline.nearest_edge_point(p) - p).norm()
                },
            )
        })
    }

    fn nearest_green(&self, p: Point) -> Option<(usize, f64)> {
        self.greens(p).min_by(|a, b| a.1.total_cmp(&b.1))
    }

    fn check_names(&self, faults: &mut Vec<HoleFault>) {
        for (feature, source) in self.features.iter().zip(self.sources) {
            let field = format!("features[{source}].name");
            check_name(&field, feature.name.as_deref(), faults);
        }
    }

    fn check_extent(&self, faults: &mut Vec<HoleFault>) {
        for i in 0..self.features.len() {
            let (low, high) = self.features[i].outline.bounds();
            if let Some(p) = [low, high].into_iter().find(|&p| !is_sane(p)) {
                faults.push(HoleFault::Coordinate {
                    what: self.name(i).to_string(),
                    x: p.x,
                    y: p.y,
                });
            }
        }
        for (i, &p) in self
            .line
            .into_iter()
            .flat_map(|line| line.vertices())
            .enumerate()
        {
            check_point(&format!("line of play, vertex {i}"), p, faults);
        }
    }

    fn check_canopies(&self, faults: &mut Vec<HoleFault>) {
        for (i, feature) in self.features.iter().enumerate() {
            let Some(canopy) = feature.canopy else {
                continue;
            };
            if feature.surface != Surface::Trees {
                faults.push(HoleFault::CanopyOn {
                    feature: self.name(i),
                });
            }
            if !(canopy.height_ft > 0.0 && canopy.height_ft <= 300.0) {
                faults.push(HoleFault::CanopyHeight {
                    feature: self.name(i),
                    height_ft: canopy.height_ft,
                });
            }
            if !(0.0..=1.0).contains(&canopy.openness) {
                faults.push(HoleFault::CanopyOpenness {
                    feature: self.name(i),
                    openness: canopy.openness,
                });
            }
        }
    }

    fn check_line(&self, line: &Line, faults: &mut Vec<HoleFault>) {
        let length = line.length();
        if length > LONGEST {
            faults.push(HoleFault::TooLong { length });
        } else if length < SHORTEST {
            faults.push(HoleFault::TooShort { length });
        }
        let ends = (line.vertices().first(), line.vertices().last());
        let (Some(&start), Some(&end)) = ends else {
            return;
        };
        if let Some(tee) = self.tee {
            let distance = (start - tee).norm();
            if distance > LINE_END {
                faults.push(HoleFault::LineStart { distance });
            }
        }
        if let Some((_, distance)) = self.nearest_green(end).filter(|_| !self.green_was_broken())
            && distance > LINE_END
        {
            faults.push(HoleFault::LineEnd { distance });
        }
    }

    fn check_tee(&self, tee: Point, faults: &mut Vec<HoleFault>) {
        if let Some(i) = self.top(tee) {
            let surface = self.features[i].surface;
            if surface == Surface::OutOfBounds || surface.is_penalty_area() {
                faults.push(HoleFault::TeeInTrouble {
                    tee,
                    area: self.name(i),
                });
            }
        }
    }

    fn check_green(&self, faults: &mut Vec<HoleFault>) {
        if !self.features.iter().any(|f| f.surface == Surface::Green) {
            faults.push(HoleFault::NoGreen);
        }
        let Some(pin) = self.pin else { return };
        let Some((nearest, distance)) = self.nearest_green(pin) else {
            return;
        };
        if distance > 0.0 {
            faults.push(HoleFault::PinOffGreen {
                pin,
                green: self.name(nearest),
                distance,
            });
        } else if let Some(by) = self
            .top(pin)
            .filter(|&i| self.features[i].surface != Surface::Green)
        {
            faults.push(HoleFault::PinCovered {
                pin,
                by: self.name(by),
            });
        }
    }
}
