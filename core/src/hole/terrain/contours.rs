//! The shape of the ground as a coach knows it, in a few numbers.
use super::super::shapes::right_of;
use super::super::{HoleParts, Surface};
use super::patch::Laid;
use super::{Landform, Over, Patch, Step};
use crate::geometry::{HeightGrid, Vector};

/// A rim is at least this wide, yards,
const RIM: f64 = 8.0;
/// and so wide that it is no steeper than this (common practice, no source).
const RIM_SLOPE: f64 = 0.25;

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
    /// Percent by which the green falls from left to right and from back to front, seen along the end of the line of play,
    /// on top of the tilt of the ground it lies on.
    pub green_tilt_percent: (f64, f64),
    /// The tiers of the green, if it has two.
    pub two_tier_green: Option<TwoTier>,
}

impl Contours {
    /// The landform these numbers describe on a map: the green's part is a patch over the green that holds the pin.
    #[must_use]
    pub fn landform(&self, parts: &HoleParts) -> Landform {
        Landform {
            survey_ft: self.survey_ft.clone(),
            rise_ft: self.uphill_ft,
            fall_right_percent: self.fairway_tilt_percent,
            patches: self.green(parts).into_iter().collect(),
        }
    }

    /// The patch over the green, if it has a shape of its own.
    fn green(&self, parts: &HoleParts) -> Option<Patch> {
        let (across, back_to_front) = self.green_tilt_percent;
        if across == 0.0 && back_to_front == 0.0 && self.two_tier_green.is_none() {
            return None;
        }
        let green = green(parts)?;
        let outline = &parts.features.get(green)?.outline;
        let ahead = parts.line.direction(parts.line.length());
        let step = |tiers: TwoTier| {
            let middle = outline.centroid() + ahead * tiers.back;
            Step {
                foot: middle - ahead * (0.5 * tiers.ramp),
                top: middle + ahead * (0.5 * tiers.ramp),
                height_ft: tiers.step_ft,
            }
        };
        let rise: Vector = ahead * back_to_front - right_of(ahead) * across;
        let mut patch = Patch {
            rise_percent: rise,
            steps: self.two_tier_green.map(step).into_iter().collect(),
            ..Patch::over(Over::Feature(green))
        };
        // The middle of a smooth ramp is half as steep again as the ramp.
        let wide = 1.5 * Laid::new(&patch, outline).rim() / RIM_SLOPE;
        if wide > RIM && wide <= super::check::WIDEST {
            patch.blend = wide;
        }
        Some(patch)
    }
}

/// The green that holds the pin: the feature on top there.
pub(super) fn green(parts: &HoleParts) -> Option<usize> {
    let top = parts
        .features
        .iter()
        .rposition(|feature| feature.outline.contains(parts.pin))?;
    (parts.features[top].surface == Surface::Green).then_some(top)
}
