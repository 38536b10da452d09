//! The shape of the ground of a hole.
//!
//! What is known of it is a [`Landform`]; [`Terrain`] is that, prepared on fine grids for fast questions.
mod check;
mod contours;
pub(super) mod greens;
mod patch;
mod planes;
mod prepare;
mod sum;

pub(super) use check::pin;
pub use contours::{Contours, TwoTier};
pub use patch::{Over, Patch, Step};

use super::{HoleFaults, HoleParts};
use crate::geometry::{HeightGrid, Point, Vector};
use std::sync::Arc;

/// What is known of the shape of the ground: the height is the sum of all of it.
///
/// Heights are feet and slopes percent, as people tell them; inside, everything is yards. Without a survey the tee is at
/// height 0.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Landform {
    /// Surveyed heights: feet at the nodes of a grid whose sides are yards. Heights more than 1.1 yards apart, or told in
    /// steps of more than 0.05 feet, do not tell the slopes of greens: on a hole every green is laid level into them, and
    /// greens are ordinary ones unless a patch shapes the one with the pin.
    pub survey_ft: Option<HeightGrid>,
    /// Feet that the middle of the green lies above the tee (negative: below), spread over the hole as one plane that
    /// rises straight from the tee to the green. On top of a survey this is added to it.
    pub rise_ft: f64,
    /// Percent by which the ground falls to the right of the line of play (negative: to the left). Each leg of the line
    /// has its own plane; around a bend they pass into each other over thirty yards. Neither this plane nor that of
    /// `rise_ft` tilts a patch that is [`Patch::level`].
    pub fall_right_percent: f64,
    /// Areas with a shape of their own.
    pub patches: Vec<Patch>,
    /// True where the slopes of greens are not told, whatever the ground is under them: putts roll as on an ordinary green
    /// ([`crate::putting::Green::ordinary`]). False: greens slope as the ground does. On flat ground nothing is told.
    pub ordinary_greens: bool,
}

impl Landform {
    /// True where nothing shapes the ground.
    #[must_use]
    pub fn is_flat(&self) -> bool {
        self.survey_ft.is_none()
            && self.rise_ft == 0.0
            && self.fall_right_percent == 0.0
            && self.patches.is_empty()
    }
}

/// The ground of a hole, prepared for questions; a hole without a landform is flat.
///
/// The sum of a [`Landform`] is laid on a grid of cells of two yards that reaches 150 yards beyond the tee, the line of
/// play and the greens (further out the ground goes on level), and on cells of a quarter yard over every green and patch
/// with four yards around. Planes are exact. Elsewhere heights are off by at most cell²/4 times the largest curvature:
/// the tests measure 0.002 yards and 1.5 % of slope at the foot of a step of 2 ft over 4 yards, which is 25 % steep, 0.3 % of
/// slope on its ramp, and 0.002 yards around the green. Heights have no jumps; slopes have none but at the edge of the finer
/// cells, within these errors.
#[derive(Clone, Debug, Default)]
pub struct Terrain(Option<Arc<Shaped>>);

/// Ground that is not flat.
#[derive(Debug)]
struct Shaped {
    landform: Landform,
    sum: sum::Sum,
    coarse: HeightGrid,
    /// Finer grids, no two of which overlap.
    fine: Vec<HeightGrid>,
}

impl PartialEq for Terrain {
    /// Two terrains are equal when their landforms are; on equal maps the rest follows.
    fn eq(&self, other: &Self) -> bool {
        self.landform() == other.landform()
    }
}

impl Terrain {
    /// Level ground.
    pub const FLAT: Terrain = Terrain(None);

    /// Prepares a landform on a map.
    ///
    /// # Errors
    /// Every fault at once: values out of range, tilts steeper than a bank, a survey that does not cover the hole.
    pub(super) fn new(landform: Landform, parts: &HoleParts) -> Result<Self, HoleFaults> {
        let faults = check::faults(&landform, parts);
        if !faults.is_empty() {
            return Err(HoleFaults(faults));
        }
        if landform.is_flat() {
            return Ok(Self::FLAT);
        }
        let landform = greens::settled(landform, parts);
        let sum = sum::Sum::new(&landform, parts);
        let (coarse, fine) = prepare::grids(&sum, parts)?;
        Ok(Terrain(Some(Arc::new(Shaped {
            landform,
            sum,
            coarse,
            fine,
        }))))
    }

    /// True where the ground is level.
    #[must_use]
    #[inline]
    pub fn is_flat(&self) -> bool {
        self.0.is_none()
    }

    /// True where the slopes of greens are told: putts break by the ground there is. False on flat ground.
    #[must_use]
    #[inline]
    pub fn tells_greens(&self) -> bool {
        self.0
            .as_ref()
            .is_some_and(|shaped| !shaped.landform.ordinary_greens)
    }

    /// What the ground was made of, unless it is flat.
    #[must_use]
    pub fn landform(&self) -> Option<&Landform> {
        self.0.as_ref().map(|shaped| &shaped.landform)
    }

    /// Height at `p`, yards.
    #[must_use]
    #[inline]
    pub fn height(&self, p: Point) -> f64 {
        match &self.0 {
            None => 0.0,
            Some(shaped) => shaped.grid_at(p).height(p),
        }
    }

    /// Slope at `p`: rise over run towards +x and +y (uphill is positive).
    #[must_use]
    #[inline]
    pub fn slope(&self, p: Point) -> Vector {
        match &self.0 {
            None => Vector::zeros(),
            Some(shaped) => shaped.grid_at(p).slope(p),
        }
    }

    /// Height and slope at `p`, as [`Terrain::height`] and [`Terrain::slope`] tell them, in one look.
    #[must_use]
    #[inline]
    pub fn height_and_slope(&self, p: Point) -> (f64, Vector) {
        match &self.0 {
            None => (0.0, Vector::zeros()),
            Some(shaped) => shaped.grid_at(p).height_and_slope(p),
        }
    }

    /// Height at `p` from the sum itself, yards: what the grids approximate within their reach, and slow.
    #[must_use]
    pub fn exact_height(&self, p: Point) -> f64 {
        self.0.as_ref().map_or(0.0, |shaped| shaped.sum.height(p))
    }
}

impl Shaped {
    /// The finest grid at `p`.
    #[inline]
    fn grid_at(&self, p: Point) -> &HeightGrid {
        for grid in &self.fine {
            if grid.covers(p) {
                return grid;
            }
        }
        &self.coarse
    }
}
