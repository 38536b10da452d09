//! The height of the ground worked out term by term.
use super::super::HoleParts;
use super::patch::{Laid, Over};
use super::planes::Planes;
use super::{Landform, Patch, greens};
use crate::geometry::{HeightGrid, Point, Polygon};
use crate::units::yards_from_feet;

/// What level patches are laid into: the planes, and a survey that does not tell greens.
pub(super) struct Base<'a> {
    planes: Planes,
    survey_ft: Option<&'a HeightGrid>,
}

impl<'a> Base<'a> {
    pub(super) fn new(landform: &'a Landform, parts: &HoleParts) -> Self {
        let coarse = |survey: &&HeightGrid| !greens::are_told_by(survey);
        Base {
            planes: Planes::new(landform, parts),
            survey_ft: landform.survey_ft.as_ref().filter(coarse),
        }
    }

    /// Level ground.
    #[cfg(test)]
    pub(super) fn level() -> Self {
        Base {
            planes: Planes::none(),
            survey_ft: None,
        }
    }

    /// Its height at `p`, yards.
    pub(super) fn height(&self, p: Point) -> f64 {
        self.planes.height(p) + surveyed(self.survey_ft, p)
    }
}

/// The height of a survey at `p`, yards; 0 without one.
fn surveyed(survey_ft: Option<&HeightGrid>, p: Point) -> f64 {
    survey_ft.map_or(0.0, |grid| yards_from_feet(grid.height(p)))
}

/// A landform in yards, ready to be added up.
#[derive(Clone, Debug)]
pub(super) struct Sum {
    survey_ft: Option<HeightGrid>,
    /// True for a survey that is part of the [`Base`].
    is_base: bool,
    planes: Planes,
    patches: Vec<Laid>,
}

impl Sum {
    /// The terms of a checked landform.
    pub(super) fn new(landform: &Landform, parts: &HoleParts) -> Self {
        let base = Base::new(landform, parts);
        let patches = landform
            .patches
            .iter()
            .filter_map(|patch| Some(Laid::new(patch, outline(patch, parts)?, &base)))
            .collect();
        Sum {
            survey_ft: landform.survey_ft.clone(),
            is_base: base.survey_ft.is_some(),
            planes: base.planes,
            patches,
        }
    }

    /// The height at `p`, yards.
    pub(super) fn height(&self, p: Point) -> f64 {
        let survey = surveyed(self.survey_ft.as_ref(), p);
        let planes = self.planes.height(p);
        let (above, mut base) = if self.is_base {
            (0.0, planes + survey)
        } else {
            (survey, planes)
        };
        let mut shapes = 0.0;
        for patch in &self.patches {
            let weight = patch.weight(p);
            if weight != 0.0 {
                base = patch.levelled(base, weight);
                shapes += weight * patch.shape(p);
            }
        }
        above + base + shapes
    }

    /// The boxes of the patches with their rims.
    pub(super) fn patches(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.patches.iter().map(Laid::bounds)
    }
}

/// The outline a patch lies over, if it names one there is.
pub(super) fn outline<'a>(patch: &'a Patch, parts: &'a HoleParts) -> Option<&'a Polygon> {
    match &patch.over {
        Over::Feature(i) => parts.features.get(*i).map(|feature| &feature.outline),
        Over::Area(outline) => Some(outline),
    }
}
