//! The shape of the ground as a coach knows it, in a few numbers.
use super::super::{HoleFaults, HoleParts};
use super::{Landform, check, greens};
use crate::geometry::HeightGrid;

/// A green of two tiers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoTier {
    /// Feet by which the back tier lies above the front tier (negative: below).
    pub step_ft: f64,
    /// Yards from the foot to the top of the ramp between them.
    pub ramp: f64,
    /// Yards from the middle of the green to the middle of the ramp; towards the back is positive.
    pub back: f64,
}

/// The ground in a few numbers; by default it is flat.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Contours {
    /// Surveyed heights, as in [`Landform::survey_ft`].
    pub survey_ft: Option<HeightGrid>,
    /// Feet from the tee up to the middle of the green (negative: down).
    pub uphill_ft: f64,
    /// Percent by which the ground falls from left to right of the line of play (negative: from right to left).
    pub fairway_tilt_percent: f64,
    /// Percent by which the green falls from left to right and from back to front, seen along the end of the line of play:
    /// the tilt of the green itself, whatever the ground around it does. On a survey that tells greens it is laid on top of
    /// the slopes there. None: the slope of the green is told by such a survey or the tiers; without either it is not told.
    pub green_tilt_percent: Option<(f64, f64)>,
    /// The tiers of the green, if it has two.
    pub two_tier_green: Option<TwoTier>,
}

impl Contours {
    /// These numbers, if ground on a map may be like that.
    pub(in super::super) fn checked(&self, parts: &HoleParts) -> Result<&Self, HoleFaults> {
        let faults = check::faults_of_contours(self, parts);
        if faults.is_empty() {
            Ok(self)
        } else {
            Err(HoleFaults(faults))
        }
    }

    /// The landform these numbers describe on a map.
    ///
    /// The green that holds the pin is laid level into the planes of `uphill_ft` and `fairway_tilt_percent`, at the height
    /// they have at its middle, and its own shape is laid on that. A green of which nothing else is told is an ordinary one
    /// ([`Landform::ordinary_greens`]).
    #[must_use]
    pub fn landform(&self, parts: &HoleParts) -> Landform {
        let mut landform = Landform {
            survey_ft: self.survey_ft.clone(),
            rise_ft: self.uphill_ft,
            fall_right_percent: self.fairway_tilt_percent,
            patches: Vec::new(),
            ordinary_greens: false,
        };
        let is_told = self.green_tilt_percent.is_some() || self.two_tier_green.is_some();
        let has_planes = self.uphill_ft != 0.0 || self.fairway_tilt_percent != 0.0;
        if is_told || has_planes {
            let green = greens::with_pin(parts);
            let patch = green.and_then(|green| greens::shaped(green, self, &landform, parts));
            landform.patches.extend(patch);
        }
        let is_surveyed = self.survey_ft.as_ref().is_some_and(greens::are_told_by);
        landform.ordinary_greens = has_planes && !is_told && !is_surveyed;
        landform
    }
}
