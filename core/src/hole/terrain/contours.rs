//! The shape of the ground as a coach knows it, in a few numbers.
use super::super::{HoleParts, Surface};
use super::patch::Laid;
use super::planes::Planes;
use super::{Landform, Over, Patch, Step};
use crate::geometry::{HeightGrid, Vector, right_of};

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
    /// Percent by which the green falls from left to right and from back to front, seen along the end of the line of play:
    /// the tilt of the green itself, whatever the ground around it does. With a survey, on top of it. None: the slope of the
    /// green is told by the survey or the tiers; without either it is not told.
    pub green_tilt_percent: Option<(f64, f64)>,
    /// The tiers of the green, if it has two.
    pub two_tier_green: Option<TwoTier>,
}

impl Contours {
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
            landform.patches.extend(self.green(&landform, parts));
        }
        landform.ordinary_greens = has_planes && !is_told && self.survey_ft.is_none();
        landform
    }

    /// The patch over the green: a level one where nothing more is told.
    fn green(&self, around: &Landform, parts: &HoleParts) -> Option<Patch> {
        let (across, back_to_front) = self.green_tilt_percent.unwrap_or_default();
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
            level: true,
            rise_percent: rise,
            steps: self.two_tier_green.map(step).into_iter().collect(),
            ..Patch::over(Over::Feature(green))
        };
        let planes = Planes::new(around, parts);
        // The middle of a smooth rim is half as steep again as the rim.
        let wide = 1.5 * Laid::new(&patch, outline, &planes).rim(&planes) / RIM_SLOPE;
        if wide > RIM {
            patch.blend = wide.min(super::check::WIDEST);
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
