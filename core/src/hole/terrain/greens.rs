//! Greens: which surveys tell their slopes, and how a green is laid into ground that does not.
use super::super::{HoleParts, Surface};
use super::patch::Laid;
use super::sum::Base;
use super::{Contours, Landform, Over, Patch, Step};
use crate::figures::hole::{RIM, RIM_SLOPE, SURVEY_SPACING, SURVEY_STEP_FT};
use crate::geometry::{HeightGrid, Vector, right_of};

/// True for a survey that tells the slopes of greens: fine enough, and not rounded to more than centimetres. Level ground
/// tells that greens are level.
pub(super) fn are_told_by(survey: &HeightGrid) -> bool {
    survey.cell().amax() <= SURVEY_SPACING
        && survey
            .least_step()
            .is_none_or(|step| step <= SURVEY_STEP_FT)
}

/// The green that holds the pin: the feature on top there.
pub(super) fn with_pin(parts: &HoleParts) -> Option<usize> {
    let top = parts
        .features
        .iter()
        .rposition(|feature| feature.outline.contains(parts.pin))?;
    is_green(parts, top).then_some(top)
}

fn is_green(parts: &HoleParts, feature: usize) -> bool {
    parts.features[feature].surface == Surface::Green
}

/// The landform with its greens laid level where its survey does not tell their slopes: they keep the height they have in
/// their middle. Unless something else shapes the green with the pin, greens are ordinary ones then.
pub(super) fn settled(landform: Landform, parts: &HoleParts) -> Landform {
    if landform.survey_ft.as_ref().is_none_or(are_told_by) {
        return landform;
    }
    let over = |patch: &&Patch, green: usize| patch.over == Over::Feature(green);
    let shapes = |patch: &Patch| {
        patch.level || patch.rise_percent != Vector::zeros() || !patch.steps.is_empty()
    };
    let patches = || landform.patches.iter();
    let is_told =
        with_pin(parts).is_some_and(|green| patches().filter(|p| over(p, green)).any(shapes));
    let level = (0..parts.features.len())
        .filter(|&i| is_green(parts, i))
        .filter(|&green| !patches().filter(|p| over(p, green)).any(|p| p.level))
        .filter_map(|green| shaped(green, &Contours::default(), &landform, parts))
        .collect::<Vec<_>>();
    Landform {
        patches: patches().cloned().chain(level).collect(),
        ordinary_greens: landform.ordinary_greens || !is_told,
        ..landform
    }
}

/// The patch over a green: a level one with the tilt and the tiers that are told, and a rim as wide as it needs.
pub(super) fn shaped(
    green: usize,
    told: &Contours,
    around: &Landform,
    parts: &HoleParts,
) -> Option<Patch> {
    let (across, back_to_front) = told.green_tilt_percent.unwrap_or_default();
    let outline = &parts.features.get(green)?.outline;
    let ahead = parts.line.direction(parts.line.length());
    let rise: Vector = ahead * back_to_front - right_of(ahead) * across;
    let steps = told.two_tier_green.iter().map(|tiers| {
        let middle = outline.centroid() + ahead * tiers.back;
        Step {
            foot: middle - ahead * (0.5 * tiers.ramp),
            top: middle + ahead * (0.5 * tiers.ramp),
            height_ft: tiers.step_ft,
        }
    });
    let mut patch = Patch {
        level: true,
        rise_percent: rise,
        steps: steps.collect(),
        ..Patch::over(Over::Feature(green))
    };
    let base = Base::new(around, parts);
    // The middle of a smooth rim is half as steep again as the rim.
    let wide = 1.5 * Laid::new(&patch, outline, &base).rim(&base) / RIM_SLOPE;
    if wide > RIM {
        patch.blend = wide.min(super::check::WIDEST);
    }
    Some(patch)
}
