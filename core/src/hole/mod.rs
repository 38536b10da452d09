//! A golf hole: a map of surfaces, a tee, a pin and a line of play.
mod about;
mod boundary;
mod check;
mod conditions;
mod describe;
mod draft;
mod fault;
mod feature;
mod in_the_way;
mod notes;
mod shapes;
mod sketch;
mod slopes;
mod surface;
mod tees;
mod terrain;
mod woods;

pub use about::{About, NamedTee};
pub(crate) use boundary::area_beside;
pub use boundary::{DraftBoundary, Side};
pub use conditions::{Conditions, Firmness, Wind};
pub use draft::{Draft, DraftFeature};
pub use fault::{BoundaryFault, FeatureRef, HoleFault, HoleFaults};
pub use feature::{Canopy, Feature};
pub use in_the_way::InTheWay;
pub(crate) use shapes::{ellipse, ribbon};
pub use sketch::{Along, Bounds, CrossingWater, Dogleg, Hazard, Sketch};
pub use surface::Surface;
pub(crate) use tees::from_tee;
pub use terrain::{Contours, Landform, Over, Patch, Step, Terrain, TwoTier};

use crate::geometry::{LayerIndex, Line, Piece, Point, Polygon, Vector, right_of};
use std::ops::ControlFlow;
use woods::Woods;

/// The centre of area of a green, or the pin if that lies off it.
fn middle(green: &Polygon, pin: Point) -> Point {
    let middle = green.centroid();
    if green.contains(middle) { middle } else { pin }
}

/// Something that was assumed of a hole, is not told or is out of the ordinary, and the caller should know.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Warning(pub String);

/// What a hole is made of; every field is public, [`Hole::new`] checks them together.
#[derive(Clone, Debug, PartialEq)]
pub struct HoleParts {
    /// Name of the hole.
    pub name: String,
    /// Number on the card, if known.
    pub number: Option<u8>,
    /// Par, 3 to 6.
    pub par: u8,
    /// Stroke index on the card (1 to 18), if known.
    pub stroke_index: Option<u8>,
    /// Where the tee shot is played from.
    pub tee: Point,
    /// The hole in the green.
    pub pin: Point,
    /// From the tee to the middle of the green, turning where the hole turns.
    pub line: Line,
    /// Later features lie on top of earlier ones.
    pub features: Vec<Feature>,
    /// Stimpmeter reading of the green, feet.
    pub green_speed: f64,
}

/// A valid hole, prepared for questions.
#[derive(Clone, Debug)]
pub struct Hole {
    parts: HoleParts,
    index: LayerIndex,
    woods: Woods,
    surfaces: Vec<Surface>,
    green: u16,
    middle_of_green: Point,
    warnings: Vec<Warning>,
    terrain: Terrain,
    conditions: Conditions,
    about: About,
}

impl PartialEq for Hole {
    /// Two holes are equal when their parts, terrain, conditions and what is known about them are; the index follows from
    /// them.
    fn eq(&self, other: &Self) -> bool {
        self.parts == other.parts
            && self.terrain == other.terrain
            && self.conditions == other.conditions
            && self.about == other.about
    }
}

impl Hole {
    /// Makes a hole of its parts.
    ///
    /// # Errors
    /// Every fault at once: values out of range, a pin off the green, a tee in trouble, a line of play that does
    /// not lead from the one to the other.
    pub fn new(parts: HoleParts, warnings: Vec<Warning>) -> Result<Self, HoleFaults> {
        let mut faults = Vec::new();
        let card = (
            parts.number.map(i64::from),
            i64::from(parts.par),
            parts.stroke_index.map(i64::from),
        );
        check::card(Some(&parts.name), card.0, Some(card.1), card.2, &mut faults);
        check::green_speed(parts.green_speed, &mut faults);
        let sources: Vec<usize> = (0..parts.features.len()).collect();
        let plan = check::Plan {
            tee: Some(parts.tee).filter(|&p| draft::check_point("tee", p, &mut faults)),
            pin: Some(parts.pin).filter(|&p| draft::check_point("pin", p, &mut faults)),
            line: Some(&parts.line),
            features: &parts.features,
            sources: &sources,
            broken: &[],
        };
        plan.check(&mut faults);
        if faults.is_empty() {
            Self::assemble(parts, warnings)
        } else {
            Err(HoleFaults(faults))
        }
    }

    /// Prepares checked parts for questions.
    fn assemble(parts: HoleParts, warnings: Vec<Warning>) -> Result<Self, HoleFaults> {
        let outlines: Vec<_> = parts.features.iter().map(|f| f.outline.clone()).collect();
        let index = LayerIndex::new(&outlines);
        if let Some(fault) = check::too_dense(&index) {
            return Err(HoleFaults(vec![fault]));
        }
        let surfaces: Vec<_> = parts.features.iter().map(|f| f.surface).collect();
        match index
            .top(parts.pin)
            .filter(|&g| surfaces[usize::from(g)] == Surface::Green)
        {
            Some(green) => Ok(Hole {
                middle_of_green: middle(&outlines[usize::from(green)], parts.pin),
                woods: Woods::of(&parts, &outlines, &index),
                parts,
                index,
                surfaces,
                green,
                warnings,
                terrain: Terrain::FLAT,
                conditions: Conditions::default(),
                about: About::default(),
            }),
            None => Err(HoleFaults(vec![HoleFault::NoGreen])),
        }
    }

    /// The same hole with the pin elsewhere on a green.
    ///
    /// # Errors
    /// Where the pin would not lie on a green, or on ground too steep for a ball to rest.
    pub fn with_pin(&self, pin: Point) -> Result<Self, HoleFaults> {
        self.with_parts(HoleParts {
            pin,
            ..self.parts.clone()
        })
    }

    /// The same hole with the pin `back` yards behind and `right` yards to the right of the middle of the green, as in
    /// [`Hole::green_place`].
    ///
    /// # Errors
    /// As [`Hole::with_pin`].
    pub fn with_pin_at(&self, back: f64, right: f64) -> Result<Self, HoleFaults> {
        let mut faults = Vec::new();
        for (field, yards) in [("back", back), ("right", right)] {
            if !(yards.abs() <= draft::FARTHEST) {
                let allowed = "yards from the middle of the green to a place on it";
                faults.push(HoleFault::field(field, yards, allowed));
            }
        }
        if !faults.is_empty() {
            return Err(HoleFaults(faults));
        }
        self.with_pin(self.green_place(back, right))
    }

    /// The same terrain and conditions on other parts that differ in nothing the terrain is made of.
    fn with_parts(&self, parts: HoleParts) -> Result<Self, HoleFaults> {
        let hole = Hole {
            terrain: self.terrain.clone(),
            conditions: self.conditions,
            about: self.about.clone(),
            ..Self::new(parts, self.warnings.clone())?
        };
        hole.resting()
    }

    /// This hole, if a ball can rest at its pin.
    fn resting(self) -> Result<Self, HoleFaults> {
        match terrain::pin(&self.terrain, self.pin()) {
            None => Ok(self),
            Some(fault) => Err(HoleFaults(vec![fault])),
        }
    }

    /// The same map on ground of this shape, in place of the shape it had.
    ///
    /// # Errors
    /// Every fault of the landform at once: values out of range, tilts steeper than a bank, a survey that does not cover
    /// the hole; or a pin on ground too steep for a ball to rest.
    pub fn with_terrain(&self, landform: Landform) -> Result<Self, HoleFaults> {
        Hole {
            terrain: Terrain::new(landform, &self.parts)?,
            ..self.clone()
        }
        .resting()
    }

    /// The same map on ground told in a few numbers, in place of the shape it had.
    ///
    /// # Errors
    /// As [`Hole::with_terrain`].
    pub fn with_contours(&self, contours: &Contours) -> Result<Self, HoleFaults> {
        self.with_terrain(contours.checked(&self.parts)?.landform(&self.parts))
    }

    /// The same hole on another day.
    ///
    /// # Errors
    /// Every value of the conditions out of range at once.
    pub fn under(&self, conditions: Conditions) -> Result<Self, HoleFaults> {
        Ok(Hole {
            conditions: conditions.checked()?,
            ..self.clone()
        })
    }

    /// The same hole with another Stimpmeter reading, feet, in place of the map's and the day's.
    ///
    /// # Errors
    /// Where the reading is not 4 to 16.
    pub fn with_green_speed(&self, green_speed: f64) -> Result<Self, HoleFaults> {
        let mut hole = self.with_parts(HoleParts {
            green_speed,
            ..self.parts.clone()
        })?;
        hole.conditions.green_speed = None;
        Ok(hole)
    }

    /// The place `back` yards behind and `right` yards to the right of the middle (centre of area) of the green, seen
    /// along the end of the line of play.
    #[must_use]
    pub fn green_place(&self, back: f64, right: f64) -> Point {
        let ahead: Vector = self.parts.line.direction(self.length());
        self.green().outline.centroid() + ahead * back + right_of(ahead) * right
    }

    /// What the hole is made of.
    #[must_use]
    pub fn parts(&self) -> &HoleParts {
        &self.parts
    }

    /// Number on the card, if known.
    #[must_use]
    pub fn number(&self) -> Option<u8> {
        self.parts.number
    }

    /// Stroke index on the card, if known.
    #[must_use]
    pub fn stroke_index(&self) -> Option<u8> {
        self.parts.stroke_index
    }

    /// Name of the hole.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.parts.name
    }

    /// Par.
    #[must_use]
    pub fn par(&self) -> u8 {
        self.parts.par
    }

    /// Where the tee shot is played from.
    #[must_use]
    pub fn tee(&self) -> Point {
        self.parts.tee
    }

    /// The hole in the green.
    #[must_use]
    pub fn pin(&self) -> Point {
        self.parts.pin
    }

    /// Yards along the line of play.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.parts.line.length()
    }

    /// The line of play.
    #[must_use]
    pub fn line(&self) -> &Line {
        &self.parts.line
    }

    /// The features, later ones on top.
    #[must_use]
    pub fn features(&self) -> &[Feature] {
        &self.parts.features
    }

    /// The green that holds the pin.
    #[must_use]
    pub fn green(&self) -> &Feature {
        &self.parts.features[usize::from(self.green)]
    }

    /// Stimpmeter reading of the green, feet: the day's, or else the map's.
    #[must_use]
    pub fn green_speed(&self) -> f64 {
        self.conditions
            .green_speed
            .unwrap_or(self.parts.green_speed)
    }

    /// True where +y of the plan is known to be north, as on every map in degrees; false where nobody told.
    #[must_use]
    pub fn north_up(&self) -> bool {
        self.about.north_up
    }

    /// What is known of the hole beside what it is played on.
    #[must_use]
    pub fn about(&self) -> &About {
        &self.about
    }

    /// The same hole with something else known about it.
    #[must_use]
    pub fn with_about(self, about: About) -> Self {
        Hole { about, ..self }
    }

    /// The conditions of the day.
    #[must_use]
    pub fn conditions(&self) -> &Conditions {
        &self.conditions
    }

    /// The shape of the ground.
    #[must_use]
    #[inline]
    pub fn terrain(&self) -> &Terrain {
        &self.terrain
    }

    /// The lowest and the highest x and y of the ground that matters to the hole: what a survey should reach over.
    #[must_use]
    pub fn ground_reach(&self) -> (Point, Point) {
        terrain::reach(&self.parts)
    }

    /// The same hole with another stroke index on its card.
    /// An index out of range, 1 to 18, is none.
    #[must_use]
    pub fn with_stroke_index(mut self, stroke_index: Option<u8>) -> Self {
        self.parts.stroke_index = stroke_index.filter(|i| (1..=18).contains(i));
        self
    }

    /// The same hole with one more note for whoever plays it.
    #[must_use]
    pub fn noting(mut self, note: Warning) -> Self {
        self.warnings.push(note);
        self
    }

    /// What the reader of the map assumed; [`Hole::notes`] tells that and more.
    #[must_use]
    pub fn warnings(&self) -> &[Warning] {
        &self.warnings
    }

    /// The feature on top at `p`, if any covers it.
    #[must_use]
    pub fn feature_at(&self, p: Point) -> Option<u16> {
        self.index.top(p)
    }

    /// The surface at `p`.
    #[must_use]
    pub fn surface_at(&self, p: Point) -> Surface {
        self.surface_of(self.index.top(p))
    }

    /// The surface of a feature of this hole; rough where there is none.
    #[must_use]
    pub fn surface_of(&self, feature: Option<u16>) -> Surface {
        feature.map_or(Surface::Rough, |f| self.surfaces[usize::from(f)])
    }

    /// The middle of the green: its centre of area, or the pin if that lies off the green.
    #[must_use]
    #[inline]
    pub fn middle_of_green(&self) -> Point {
        self.middle_of_green
    }

    /// Yards along the line of play to the front edge of the green: where the line last comes onto it. Of a line that
    /// ends beside the green, to the edge nearest its end.
    #[must_use]
    pub fn front_of_green(&self) -> f64 {
        /// Yards; a green is deeper than that everywhere a line might cross it.
        const STEP: f64 = 0.25;
        let (line, green) = (self.line(), &self.green().outline);
        let on = |along: f64| green.contains(line.at(along, 0.0));
        let mut inside = line.length();
        if !on(inside) {
            let edge = green.nearest_edge_point(line.at(inside, 0.0));
            return line.station(edge).along;
        }
        while inside > 0.0 && on(inside - STEP) {
            inside -= STEP;
        }
        let mut outside = inside - STEP;
        for _ in 0..30 {
            let middle = 0.5 * (inside + outside);
            if on(middle) {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        inside
    }

    /// True if `feature` is the green that holds the pin.
    #[must_use]
    pub fn is_its_green(&self, feature: Option<u16>) -> bool {
        feature == Some(self.green)
    }

    /// The canopy of a feature of trees (the default canopy for anything else).
    #[must_use]
    pub fn canopy_of(&self, feature: Option<u16>) -> Canopy {
        feature
            .and_then(|f| self.parts.features[usize::from(f)].canopy)
            .unwrap_or_default()
    }

    /// The one feature under a short path, where that is plain to see without walking it: `Some(None)` is
    /// plain rough, None says nothing.
    #[must_use]
    #[inline]
    pub fn uniform(&self, from: Point, to: Point) -> Option<Option<u16>> {
        self.index.uniform(from, to)
    }

    /// Visits what a straight path passes over, knowing what it begins over.
    pub fn walk_on<B>(
        &self,
        start: Option<u16>,
        from: Point,
        to: Point,
        mut visit: impl FnMut(Piece, Surface) -> ControlFlow<B>,
    ) -> ControlFlow<B> {
        self.index.walk_on(start, from, to, |piece| {
            visit(piece, self.surface_of(piece.layer))
        })
    }

    /// Visits what a straight path passes over, in order.
    pub fn walk<B>(
        &self,
        from: Point,
        to: Point,
        mut visit: impl FnMut(Piece, Surface) -> ControlFlow<B>,
    ) -> ControlFlow<B> {
        self.index
            .walk(from, to, |piece| visit(piece, self.surface_of(piece.layer)))
    }

    /// Visits what a straight path passes under, in order: each piece with the feature whose trees stand there, if any do
    /// (where the hole is cut out of a wood, with the feature that lies there instead).
    pub(crate) fn walk_trees<B>(
        &self,
        from: Point,
        to: Point,
        visit: impl FnMut(Piece, Option<u16>) -> ControlFlow<B>,
    ) -> ControlFlow<B> {
        self.woods.walk(from, to, visit)
    }

    /// The features of trees that stand over whatever lies under them, from the bottom up: all of them but woods that the
    /// hole is cut out of, which are those that cover the tee or the pin. Of such a wood trees stand only where nothing
    /// else is drawn over it.
    pub fn standing_trees(&self) -> impl Iterator<Item = &Feature> {
        self.features()
            .iter()
            .filter(|feature| woods::stand(feature, &self.parts))
    }
}
