//! The surfaces of a map: areas as they are, lines and points made into areas.
use super::classify::Kind;
use super::clip::{Rings, Window, untangled};
use super::map::{Map, Mapped};
use super::nearby::{bounds, encloses, near};
use super::play::Layout;
use super::plays;
use super::shape::{Position, Shape};
use super::tees::is_of_another;
use super::{Assumed, Notes, Options, measure, on_plane};
use crate::figures::hole::{CROWN, FAIRWAY_WIDTH, GREEN, STREAM};
use crate::geometry::{Point, Polygon, Vector};
use crate::hole::{Canopy, Draft, DraftFeature, Surface, ellipse, ribbon};
use crate::text::{LONGEST_NAME, allowed};
use crate::units::feet_from_yards;

/// Yards around what belongs to a hole that shapes are cut to, at the least.
const MARGIN: f64 = 150.0;

/// How high a surface lies where outlines overlap; higher ones win.
fn height(surface: Surface) -> u8 {
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
    pub(super) layout: &'a Layout,
    pub(super) options: &'a Options,
    pub(super) window: Window,
    pub(super) draft: Draft,
    par: Option<i64>,
    /// True on a map of this hole alone.
    single: bool,
}

impl<'a> Drawing<'a> {
    pub(super) fn new(layout: &'a Layout, options: &'a Options, par: Option<i64>) -> Self {
        let margin = options.reach + options.reach.max(MARGIN);
        Drawing {
            layout,
            options,
            window: Window::around(&layout.line, margin),
            draft: Draft::default(),
            par,
            single: false,
        }
    }

    /// Draws everything that belongs to the hole.
    pub(super) fn draw(&mut self, map: &Map, notes: &mut Notes) {
        self.single = plays::is_single(map);
        for (place, feature) in map.features.iter().enumerate() {
            self.note_tidied(feature, notes);
            match feature.class.kind {
                Kind::Surface(surface) => {
                    let own_green = self.layout.green == Some(place);
                    self.add(feature, surface, own_green, notes);
                }
                Kind::Unused if self.is_near(feature) => notes.of(feature, " is not used"),
                Kind::Outline => self.note_faulty(feature, notes),
                _ => {}
            }
        }
        self.add_extras(map, notes);
        self.assume(notes);
    }

    /// The draft.
    pub(super) fn finish(mut self) -> Draft {
        let features = &mut self.draft.features;
        features.sort_by_key(|feature| height(feature.surface));
        self.draft
    }

    /// Adds a feature if it belongs to the hole.
    fn add(&mut self, feature: &Mapped, surface: Surface, own_green: bool, notes: &mut Notes) {
        if !self.is_near(feature) {
            return;
        }
        let shape = match &feature.shape {
            Ok(shape) => shape,
            Err(broken) => {
                // A green that cannot be read may be that of the hole.
                let own = surface == Surface::Green && self.is_at_the_end(feature);
                for message in &broken.messages {
                    self.refuse(feature, surface, own, message, notes);
                }
                return;
            }
        };
        if let Some(assumed) = feature.class.assumed {
            notes.of(feature, format!(" ({}) {assumed}", feature.class.tag));
        }
        match shape {
            Shape::Areas(areas) => {
                for rings in areas {
                    let ring = |ring: &Vec<Position>| on_plane(&self.layout.plane, ring);
                    let rings: Rings = rings.iter().map(ring).collect();
                    if !self.ring_is_near(&rings[0]) {
                        continue;
                    }
                    if surface == Surface::Trees && self.is_played_under(&rings) {
                        let text = ": the line of play runs under these trees; where the hole is open, cut it out of \
                                    their outline";
                        notes.of(feature, text);
                    }
                    self.push(feature, (surface, own_green), rings, notes);
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

    /// Tells where a name is not shown as it is written.
    fn note_tidied(&self, feature: &Mapped, notes: &mut Notes) {
        let tags = &feature.tags;
        let named = tags.were_tidied(&["name"]) || tags.were_tidied(&plays::COURSE);
        let is_shown = matches!(
            feature.class.kind,
            Kind::Play | Kind::Surface(_) | Kind::Outline
        );
        if named && is_shown && self.is_near(feature) {
            let allowed = allowed(LONGEST_NAME);
            notes.of(
                feature,
                format!(": a name must be {allowed}: the rest is left out"),
            );
        }
    }

    /// Tells what is wrong with a shape that no play depends on.
    fn note_faulty(&self, feature: &Mapped, notes: &mut Notes) {
        if let Err(broken) = feature.shape.as_ref()
            && self.is_near(feature)
        {
            notes.of(
                feature,
                format!(": {}: left out", broken.messages.join("; ")),
            );
        }
    }

    /// What cannot be read is left out with a note where nothing worse than rough can hide there; else it is a fault.
    pub(super) fn refuse(
        &mut self,
        feature: &Mapped,
        surface: Surface,
        own_green: bool,
        message: &str,
        notes: &mut Notes,
    ) {
        let own_tee = surface == Surface::Tee && self.single;
        let decides = surface.is_penalty_area() || surface == Surface::OutOfBounds;
        // Ordinary maps have springs as points, and what lies nowhere may be any water or road of the map.
        let is_there = feature.class.is_marked() || feature.positions().nth(1).is_some();
        if own_green || own_tee || (decides && is_there) {
            notes.fault(feature.label(), message);
            self.draft.unreadable.push(surface);
        } else {
            notes.of(feature, format!(": {message}: left out"));
        }
    }

    /// True where a feature comes within reach of the line of play, as far as its geometry can be read. One that lies nowhere may
    /// be near, unless it has the number of another hole.
    pub(super) fn is_near(&self, feature: &Mapped) -> bool {
        let plane = &self.layout.plane;
        match &feature.shape {
            Ok(Shape::Areas(areas)) => areas
                .iter()
                .filter_map(|rings| rings.first())
                .any(|ring| self.ring_is_near(&on_plane(plane, ring))),
            Ok(Shape::Lines(lines)) => lines.iter().any(|line| {
                near(
                    &self.layout.line,
                    &on_plane(plane, line),
                    self.options.reach,
                )
            }),
            Ok(Shape::Points(points)) => on_plane(plane, points)
                .iter()
                .any(|&p| near(&self.layout.line, &[p], self.options.reach)),
            Err(broken) => {
                let known = on_plane(plane, &broken.positions);
                match known.is_empty() {
                    true => !is_of_another(feature, self.layout.reference.as_ref()),
                    false => self.ring_is_near(&known),
                }
            }
        }
    }

    fn ring_is_near(&self, ring: &[Point]) -> bool {
        let line = &self.layout.line;
        near(line, ring, self.options.reach) || line.first().is_some_and(|&p| encloses(ring, p))
    }

    /// True where a feature lies around the end of the line of play. One that lies nowhere may lie there, where nothing else does.
    fn is_at_the_end(&self, feature: &Mapped) -> bool {
        /// Yards: as deep as a large green.
        const CLOSE: f64 = 40.0;
        let known: Vec<Position> = feature.positions().collect();
        if known.is_empty() {
            return self.layout.green.is_none();
        }
        let (low, high) = bounds(on_plane(&self.layout.plane, &known).into_iter());
        let end = self.layout.line.last();
        end.is_some_and(|p| {
            p.x >= low.x - CLOSE
                && p.x <= high.x + CLOSE
                && p.y >= low.y - CLOSE
                && p.y <= high.y + CLOSE
        })
    }

    /// True where the line of play passes through an area that covers neither end of it: the hole is taken to be cut out of
    /// a wood that does.
    fn is_played_under(&self, rings: &[Vec<Point>]) -> bool {
        /// Yards between the places that are looked at.
        const STEP: f64 = 2.0;
        let line = &self.layout.line;
        let covers = |p: Point| {
            let mut within = rings.iter().map(|ring| encloses(ring, p));
            within.next() == Some(true) && !within.any(|hole| hole)
        };
        let ends = [line.first(), line.last()];
        if ends.into_iter().flatten().any(|&end| covers(end)) {
            return false;
        }
        line.windows(2).any(|leg| {
            let (from, way) = (leg[0], leg[1] - leg[0]);
            let steps = (way.norm() / STEP).ceil().clamp(1.0, 5_000.0);
            (0..steps as u32).any(|i| covers(from + way * (f64::from(i) / steps)))
        })
    }

    /// A line: a boundary, a watercourse, a row of trees, or an area that was saved as a closed line.
    fn add_line(
        &mut self,
        feature: &Mapped,
        surface: Surface,
        line: &[Position],
        notes: &mut Notes,
    ) {
        let points = on_plane(&self.layout.plane, line);
        let closed = line.len() > 3 && line.first() == line.last();
        // An open line of a wood is a part of its outline; only rows of trees are lines.
        let is_wood = matches!(
            feature.class.tag.as_str(),
            "natural=wood" | "landuse=forest"
        );
        if surface == Surface::OutOfBounds {
            self.add_boundary(feature, points, closed, notes);
        } else if closed {
            notes.of(feature, " is a closed line: taken for the area inside it");
            self.push(feature, (surface, false), vec![points], notes);
        } else if surface.is_penalty_area() || (surface == Surface::Trees && !is_wood) {
            let usual = if surface == Surface::Trees {
                CROWN
            } else {
                STREAM
            };
            let width = self
                .measure(feature, "width", usual, notes)
                .unwrap_or_else(|| {
                    notes.of(
                        feature,
                        format!(" has no width: taken to be {usual} yards wide"),
                    );
                    usual
                });
            for part in self.window.line(&points) {
                for ring in ribbon(&part, width) {
                    self.push(feature, (surface, false), vec![ring], notes);
                }
            }
        } else {
            let message = "it is an open line; it must be an area (a Polygon or MultiPolygon)";
            let own = surface == Surface::Green && self.is_at_the_end(feature);
            self.refuse(feature, surface, own, message, notes);
        }
    }

    /// Points: single trees, or places of tees, which are used elsewhere.
    fn add_points(
        &mut self,
        feature: &Mapped,
        surface: Surface,
        points: &[Position],
        notes: &mut Notes,
    ) {
        if surface == Surface::Tee {
            return;
        }
        if surface != Surface::Trees {
            let message = "it is a point; it must be an area (a Polygon or MultiPolygon)";
            let is_own = surface == Surface::Green
                && self.layout.green.is_none()
                && self.is_at_the_end(feature);
            self.refuse(feature, surface, is_own, message, notes);
            return;
        }
        let crown = self
            .measure(feature, "diameter_crown", CROWN, notes)
            .unwrap_or(CROWN);
        for center in on_plane(&self.layout.plane, points) {
            if near(&self.layout.line, &[center], self.options.reach) {
                let ring = ellipse(center, Vector::new(0.0, 1.0), crown / 2.0, crown / 2.0);
                self.push(feature, (surface, false), vec![ring], notes);
            }
        }
    }

    /// Draws an area: the part of it in the window, and where its outline crosses itself what that encloses.
    fn push(
        &mut self,
        feature: &Mapped,
        (surface, own_green): (Surface, bool),
        rings: Rings,
        notes: &mut Notes,
    ) {
        let canopy = (surface == Surface::Trees).then(|| self.canopy(feature, notes));
        let whole = rings.iter().all(|ring| self.window.holds_all(ring));
        let pieces = if whole {
            vec![rings]
        } else {
            self.window.area(&rings)
        };
        for piece in pieces {
            let Err(faults) = Polygon::from_points(piece.clone()) else {
                self.push_sound(feature, surface, canopy, piece);
                continue;
            };
            let fault = faults.first().map(ToString::to_string).unwrap_or_default();
            let parts = untangled(&piece);
            let sound = |rings: &Rings| Polygon::from_points(rings.clone()).is_ok();
            if own_green || parts.is_empty() || !parts.iter().all(sound) {
                self.refuse(feature, surface, own_green, &fault, notes);
                continue;
            }
            notes.of(
                feature,
                format!(": {fault}: taken for the areas that it encloses"),
            );
            for part in parts {
                self.push_sound(feature, surface, canopy, part);
            }
        }
    }

    pub(super) fn push_sound(
        &mut self,
        feature: &Mapped,
        surface: Surface,
        canopy: Option<Canopy>,
        rings: Rings,
    ) {
        self.draft.features.push(DraftFeature {
            source: feature.index,
            surface,
            rings,
            name: feature.name(),
            canopy,
        });
    }

    /// The canopy of trees: `height` in metres; `height_ft` and `openness` (0 to 1) are our own.
    fn canopy(&self, feature: &Mapped, notes: &mut Notes) -> Canopy {
        let usual = Canopy::default();
        let mut number = |key: &str, good: fn(f64) -> bool, usual: f64| {
            let text = feature.tags.get(key)?;
            let number = text.parse().ok().filter(|&n| good(n));
            if number.is_none() {
                notes.of(feature, not_understood(key, text, &usual.to_string()));
            }
            number
        };
        let told = number("height_ft", |h| h > 0.0 && h <= 300.0, usual.height_ft);
        let openness = number("openness", |o| (0.0..=1.0).contains(&o), usual.openness);
        let mut metres = || {
            let usual_yards = usual.height_ft / 3.0;
            let yards = self.measure(feature, "height", usual_yards, notes)?;
            let feet = feet_from_yards(yards);
            if feet > 300.0 {
                let text = feature.tags.get("height").unwrap_or_default();
                notes.of(feature, not_understood("height", text, "40 ft"));
                return None;
            }
            Some(feet)
        };
        Canopy {
            height_ft: told.or_else(&mut metres).unwrap_or(usual.height_ft),
            openness: openness.unwrap_or(usual.openness),
        }
    }

    /// A length tagged in metres (or in feet with `ft` or `'`), in yards; of what is not understood the usual one, with a
    /// note; None without such a tag.
    pub(super) fn measure(
        &self,
        feature: &Mapped,
        key: &str,
        usual: f64,
        notes: &mut Notes,
    ) -> Option<f64> {
        let text = feature.tags.get(key)?;
        match measure::length(text) {
            Some(length) => {
                if !length.exact {
                    let yards = length.yards;
                    notes.of(
                        feature,
                        format!(": {key} is {text:?}: taken for {yards:.1} yards"),
                    );
                }
                Some(length.yards)
            }
            None => {
                let yards = format!("{usual:.1} yards");
                notes.of(feature, not_understood(key, text, &yards));
                Some(usual)
            }
        }
    }

    /// What was asked to be assumed where the map has none.
    fn assume(&mut self, notes: &mut Notes) {
        let line = &self.layout.line;
        let asked = |what: Assumed| self.options.assume.contains(&what);
        let has = |surface: Surface| {
            let of_it = |f: &&DraftFeature| f.surface == surface;
            let drawn = self.draft.features.iter().filter(of_it);
            drawn.clone().any(|f| near(line, &f.rings[0], 0.0))
        };
        let (Some(&end), Some(leg)) = (line.last(), line.windows(2).next_back()) else {
            return;
        };
        let ahead = (leg[1] - leg[0]).try_normalize(1e-9);
        let ahead = ahead.unwrap_or_else(|| Vector::new(0.0, 1.0));
        let mut made: Vec<(Surface, Vec<Point>)> = Vec::new();
        let broken = self.draft.unreadable.contains(&Surface::Green);
        let wanted = asked(Assumed::Green) || self.options.line.is_some();
        if wanted && self.layout.green.is_none() && !broken {
            let (deep, wide) = GREEN;
            made.push((Surface::Green, ellipse(end, ahead, deep / 2.0, wide / 2.0)));
            notes.warn(format!(
                "no green is mapped at the end of the line of play: one of {deep} by {wide} yards is assumed there"
            ));
        }
        // A par 3 has an apron at most.
        let has_fairway = self.par == Some(3) || has(Surface::Fairway);
        if asked(Assumed::Fairway) && !has_fairway {
            let drawn = stretch_of(line);
            let bands = ribbon(&drawn, FAIRWAY_WIDTH);
            if !bands.is_empty() {
                notes.warn(format!(
                    "no fairway is mapped on the line of play: one {FAIRWAY_WIDTH} yards wide is assumed"
                ));
            }
            made.extend(bands.into_iter().map(|ring| (Surface::Fairway, ring)));
        }
        let count = self.draft.features.len();
        for (i, (surface, ring)) in made.into_iter().enumerate() {
            self.draft.features.push(DraftFeature {
                source: count + i,
                surface,
                rings: vec![ring],
                name: None,
                canopy: None,
            });
        }
    }
}

/// The part of a line of play where a fairway usually is: from 90 yards, or 35 % of a shorter hole, to 15 yards short of the
/// middle of the green; nothing on a hole where that is no way at all.
fn stretch_of(line: &[Point]) -> Vec<Point> {
    let long: f64 = line.windows(2).map(|leg| (leg[1] - leg[0]).norm()).sum();
    let (from, to) = (90.0_f64.min(0.35 * long), long - 15.0);
    if to - from < 40.0 {
        return Vec::new();
    }
    let (mut along, mut part) = (0.0, Vec::new());
    for leg in line.windows(2) {
        let (way, far) = (leg[1] - leg[0], (leg[1] - leg[0]).norm());
        let (start, end) = ((from - along).max(0.0), (to - along).min(far));
        if start < end {
            part.push(leg[0] + way * (start / far));
            part.push(leg[0] + way * (end / far));
        }
        along += far;
    }
    part.dedup();
    part
}

fn not_understood(key: &str, text: &str, usual: &str) -> String {
    format!(": {key} is {text:?}, which is not understood: taken for {usual}")
}
