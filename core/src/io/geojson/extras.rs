//! Boundaries, the sea, and what stands across the way: what a map tells of the game without golf tags.
use super::classify::{Barrier, Kind};
use super::join::joined;
use super::map::{Map, Mapped};
use super::nearby::near;
use super::shape::{Position, Shape};
use super::surfaces::Drawing;
use super::{Bound, Notes, Obstruction, on_plane};
use crate::figures::hole::{BARRIER, BUILDING_FT, LEAST_BOUND, LEVEL_FT};
use crate::geometry::{Point, Polygon};
use crate::hole::{Canopy, DraftBoundary, Side, Surface, area_beside, ribbon};
use crate::io::fault::wrong;
use crate::units::feet_from_yards;

/// Where a boundary cannot be drawn on for ever, ground is out of bounds so far behind it, yards.
const BEHIND: f64 = 80.0;

impl Drawing<'_> {
    /// Adds what the options ask for and what safety asks for.
    pub(super) fn add_extras(&mut self, map: &Map, notes: &mut Notes) {
        self.add_sea(map, notes);
        for bound in self.options.out_of_bounds.clone() {
            if bound == Bound::CourseOutline {
                self.add_course_outline(map, notes);
            } else {
                self.add_bounds(map, bound, notes);
            }
        }
        for feature in &map.features {
            let Some((obstruction, bound)) = stands(feature.class.kind) else {
                continue;
            };
            if !self.is_near(feature) {
                continue;
            }
            let is_bound = bound.is_some_and(|b| self.options.out_of_bounds.contains(&b));
            if obstruction.is_some_and(|o| self.options.obstructions.contains(&o)) {
                self.add_obstruction(feature, notes);
            } else if !is_bound && feature.class.kind != Kind::People("road") {
                notes.of(feature, " is not used");
            }
        }
    }

    /// A boundary of the map: as far as the frame of the hole where that parts tee and pin from the ground behind it.
    pub(super) fn add_boundary(
        &mut self,
        feature: &Mapped,
        points: Vec<Point>,
        closed: bool,
        notes: &mut Notes,
    ) {
        let stretch = if closed {
            Some(points)
        } else {
            self.window.stretch(&points)
        };
        let Some(line) = stretch else { return };
        if !closed && !self.parts_the_map(&line) && !near(&self.layout.line, &line, 0.0) {
            let strip = self.strip_behind(&line);
            if let Some(ring) = strip {
                notes.warn(format!(
                    "{} does not part the map in two when it is drawn on: out of bounds is taken to be {BEHIND} yards \
                     behind it",
                    feature.label()
                ));
                self.push_sound(feature, Surface::OutOfBounds, None, vec![ring]);
                return;
            }
        }
        self.draft.boundaries.push(DraftBoundary {
            source: feature.index,
            name: feature.name(),
            line,
            out: None,
        });
    }

    /// True where a line drawn on straight leaves tee and pin on one side.
    fn parts_the_map(&self, line: &[Point]) -> bool {
        let corners = (self.window.low, self.window.high);
        area_beside(line, corners, None, Some(self.layout.tee), self.layout.pin).is_ok()
    }

    /// The ground behind a line, seen from the line of play.
    fn strip_behind(&self, line: &[Point]) -> Option<Vec<Point>> {
        let along = (line.last()? - line.first()?).try_normalize(1e-9)?;
        let middle = line[line.len() / 2];
        let play = &self.layout.line;
        let nearest = play.iter().copied().min_by(|a, b| {
            let far = |p: &Point| (p - middle).norm();
            far(a).total_cmp(&far(b))
        })?;
        let across = crate::geometry::right_of(along);
        let away = if (nearest - middle).dot(&across) > 0.0 {
            -across
        } else {
            across
        };
        let back = line.iter().rev().map(|p| p + away * BEHIND);
        let ring: Vec<Point> = line.iter().copied().chain(back).collect();
        Polygon::from_points(vec![ring.clone()])
            .is_ok()
            .then_some(ring)
    }

    /// All ground outside the course, as far as the window reaches.
    fn add_course_outline(&mut self, map: &Map, notes: &mut Notes) {
        let outlines = map
            .features
            .iter()
            .filter(|m| m.class.kind == Kind::Outline);
        let plane = self.layout.plane;
        let mut around: Option<&Mapped> = None;
        let mut rings: Vec<Vec<Point>> = Vec::new();
        for outline in outlines.filter(|m| self.is_near(m)) {
            let own: Vec<Vec<Point>> = outline
                .areas()
                .iter()
                .flatten()
                .map(|ring: &Vec<Position>| on_plane(&plane, ring))
                .collect();
            let holds = |p: Point| {
                let within = own
                    .iter()
                    .filter(|ring| super::nearby::encloses(ring, p))
                    .count();
                within % 2 == 1
            };
            let ends = [Some(self.layout.tee), self.layout.pin];
            if ends.into_iter().flatten().any(holds) {
                around = around.or(Some(outline));
                rings.extend(own);
            }
        }
        let Some(outline) = around else {
            let allowed =
                "left out: no area leisure=golf_course of the map holds the tee or the pin";
            let told = "\"course outline\"";
            notes.faults.push(wrong("out_of_bounds", told, allowed));
            return;
        };
        let pieces = self.window.without(&rings);
        let sound = |rings: &Vec<Vec<Point>>| Polygon::from_points(rings.clone()).is_ok();
        let (good, bad): (Vec<_>, Vec<_>) = pieces.into_iter().partition(sound);
        if !bad.is_empty() {
            let text = "the ground outside it touches itself there: some of it is left out";
            notes.warn(format!("{}: {text}", outline.label()));
        }
        let label = outline.label();
        notes.warn(format!(
            "{label}: all ground outside it is taken for out of bounds"
        ));
        for rings in good {
            self.push_sound(outline, Surface::OutOfBounds, None, rings);
        }
    }

    /// Walls, fences, hedges or roads that are long enough to be a boundary.
    fn add_bounds(&mut self, map: &Map, bound: Bound, notes: &mut Notes) {
        let of_it = |m: &&Mapped| stands(m.class.kind).is_some_and(|(_, b)| b == Some(bound));
        let mut first = None;
        let mut lines: Vec<Vec<Position>> = Vec::new();
        for feature in map.features.iter().filter(of_it) {
            if !self.is_near(feature) {
                continue;
            }
            match &feature.shape {
                Ok(Shape::Lines(own)) => lines.extend(own.iter().cloned()),
                Ok(Shape::Areas(own)) => lines.extend(own.iter().flatten().cloned()),
                Ok(Shape::Points(_)) => continue,
                Err(broken) => {
                    for message in &broken.messages {
                        self.refuse(feature, Surface::OutOfBounds, false, message, notes);
                    }
                    continue;
                }
            }
            first = first.or(Some(feature));
        }
        let Some(feature) = first else { return };
        for line in joined(lines, false) {
            let points = on_plane(&self.layout.plane, &line);
            let closed = line.len() > 3 && line.first() == line.last();
            let stretch = if closed {
                Some(points)
            } else {
                self.window.stretch(&points)
            };
            let Some(stretch) = stretch else { continue };
            let long: f64 = stretch.windows(2).map(|leg| (leg[1] - leg[0]).norm()).sum();
            if !near(&self.layout.line, &stretch, self.options.reach) {
                continue;
            }
            if long < LEAST_BOUND || near(&self.layout.line, &stretch, 0.0) {
                let label = feature.label();
                notes.warn(format!(
                    "{label}: a part of {long:.0} yards crosses the hole or is too short to bound it: no boundary"
                ));
                continue;
            }
            self.add_boundary(feature, stretch, closed, notes);
        }
    }

    /// The sea, to the right of its shore.
    fn add_sea(&mut self, map: &Map, notes: &mut Notes) {
        let coasts = map.features.iter().filter(|m| m.class.kind == Kind::Coast);
        let mut first = None;
        let mut lines = Vec::new();
        for coast in coasts {
            if let Ok(Shape::Lines(own)) = &coast.shape {
                lines.extend(own.iter().cloned());
                first = first.or(Some(coast));
            } else if self.is_near(coast) {
                let text = "a shore must be a line, with land on its left: left out";
                notes.warn(format!("{}: {text}", coast.label()));
            }
        }
        let Some(coast) = first else { return };
        let corners = (self.window.low, self.window.high);
        for line in joined(lines, true) {
            let points = on_plane(&self.layout.plane, &line);
            let closed = line.len() > 3 && line.first() == line.last();
            let stretch = if closed {
                Some(points)
            } else {
                self.window.stretch(&points)
            };
            let near_hole = |l: &Vec<Point>| near(&self.layout.line, l, self.options.reach);
            let Some(stretch) = stretch.filter(near_hole) else {
                continue;
            };
            let sea = area_beside(&stretch, corners, Some(Side::Right), None, None);
            let ends = [Some(self.layout.tee), self.layout.pin];
            match sea {
                Ok(sea) if !ends.into_iter().flatten().any(|p| sea.contains(p)) => {
                    notes.warn(format!(
                        "{}: the sea on its right is taken for a red penalty area",
                        coast.label()
                    ));
                    let rings = sea
                        .rings()
                        .map(|ring| ring.vertices().to_vec())
                        .collect::<Vec<_>>();
                    for piece in self.window.area(&rings) {
                        if Polygon::from_points(piece.clone()).is_ok() {
                            self.push_sound(coast, Surface::PenaltyRed, None, piece);
                        }
                    }
                }
                _ => {
                    let text = "the sea on its right cannot be told from the land of the hole";
                    notes.fault(coast.label(), text);
                }
            }
        }
    }

    /// A building, wall or hedge as something that stops a ball.
    fn add_obstruction(&mut self, feature: &Mapped, notes: &mut Notes) {
        let plane = self.layout.plane;
        let ring = |ring: &Vec<Position>| on_plane(&plane, ring);
        let areas: Vec<Vec<Vec<Point>>> = match &feature.shape {
            Ok(Shape::Areas(areas)) => areas.iter().map(|a| a.iter().map(ring).collect()).collect(),
            Ok(Shape::Lines(lines)) => {
                let width = self
                    .measure(feature, "width", BARRIER.1, notes)
                    .unwrap_or(BARRIER.1);
                let parts = lines.iter().flat_map(|line| self.window.line(&ring(line)));
                parts
                    .flat_map(|part| ribbon(&part, width))
                    .map(|ring| vec![ring])
                    .collect()
            }
            _ => Vec::new(),
        };
        let is_building = feature.class.kind == Kind::Building;
        let levels = feature.tags.get("building:levels");
        let levels = levels.and_then(|text| text.parse::<f64>().ok());
        let levels_ft = levels
            .filter(|n| *n > 0.0 && *n < 30.0)
            .map(|n| n * LEVEL_FT);
        let usual_ft = match (is_building, levels_ft) {
            (true, Some(feet)) => feet,
            (true, None) => BUILDING_FT,
            (false, _) => BARRIER.0,
        };
        let told = self.measure(feature, "height", usual_ft / 3.0, notes);
        let height_ft = told.map_or(usual_ft, feet_from_yards).min(300.0);
        let canopy = Canopy {
            height_ft,
            openness: 0.0,
        };
        let mut drawn = false;
        let pieces: Vec<_> = areas
            .iter()
            .flat_map(|rings| self.window.area(rings))
            .collect();
        for piece in pieces {
            if Polygon::from_points(piece.clone()).is_ok() {
                self.push_sound(feature, Surface::Trees, Some(canopy), piece);
                drawn = true;
            }
        }
        let label = feature.label();
        notes.warn(if drawn {
            format!("{label}: taken for something {height_ft:.0} feet high that stops a ball, as dense trees do")
        } else {
            format!("{label}: no sound area can be made of it: left out")
        });
    }
}

/// What a feature may be taken for.
fn stands(kind: Kind) -> Option<(Option<Obstruction>, Option<Bound>)> {
    match kind {
        Kind::Building => Some((Some(Obstruction::Building), None)),
        Kind::Barrier(Barrier::Wall) => Some((Some(Obstruction::Wall), Some(Bound::Wall))),
        Kind::Barrier(Barrier::Hedge) => Some((Some(Obstruction::Hedge), Some(Bound::Hedge))),
        Kind::Barrier(Barrier::Fence) => Some((None, Some(Bound::Fence))),
        Kind::People("road") => Some((None, Some(Bound::Road))),
        _ => None,
    }
}
