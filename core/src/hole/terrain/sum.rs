//! The height of the ground worked out term by term.
use super::super::HoleParts;
use super::patch::{Laid, Over};
use super::planes::Planes;
use super::{Landform, Patch};
use crate::geometry::{HeightGrid, Point, Polygon};
use crate::units::yards_from_feet;

/// A landform in yards, ready to be added up.
#[derive(Clone, Debug)]
pub(super) struct Sum {
    survey_ft: Option<HeightGrid>,
    planes: Planes,
    patches: Vec<Laid>,
}

impl Sum {
    /// The terms of a checked landform.
    pub(super) fn new(landform: &Landform, parts: &HoleParts) -> Self {
        let planes = Planes::new(landform, parts);
        let patches = landform
            .patches
            .iter()
            .filter_map(|patch| Some(Laid::new(patch, outline(patch, parts)?, &planes)))
            .collect();
        Sum {
            survey_ft: landform.survey_ft.clone(),
            planes,
            patches,
        }
    }

    /// The height at `p`, yards.
    pub(super) fn height(&self, p: Point) -> f64 {
        let survey = self
            .survey_ft
            .as_ref()
            .map_or(0.0, |grid| yards_from_feet(grid.height(p)));
        let (mut planes, mut shapes) = (self.planes.height(p), 0.0);
        for patch in &self.patches {
            let weight = patch.weight(p);
            if weight != 0.0 {
                planes = patch.levelled(planes, weight);
                shapes += weight * patch.shape(p);
            }
        }
        survey + planes + shapes
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
