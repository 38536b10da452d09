//! One feature of a hole: a surface, its outline and what is known of it.
use super::Surface;
use crate::figures::trees;
use crate::geometry::Polygon;

/// The canopy of a stand of trees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Canopy {
    /// Height of the trees, feet.
    pub height_ft: f64,
    /// How open the stand is, 0 (a wall) to 1 (no trees): a ball that crosses ten yards of canopy below its height gets
    /// through with this probability.
    pub openness: f64,
}

impl Default for Canopy {
    /// Forty feet high and half open over ten yards (common practice, no source).
    fn default() -> Self {
        Canopy {
            height_ft: trees::HEIGHT_FT,
            openness: trees::OPENNESS,
        }
    }
}

/// A part of the hole with one surface.
#[derive(Clone, Debug, PartialEq)]
pub struct Feature {
    /// What it is.
    pub surface: Surface,
    /// Its outline.
    pub outline: Polygon,
    /// Its name, if it has one ("the brook").
    pub name: Option<String>,
    /// Its trees, if the surface is [`Surface::Trees`].
    pub canopy: Option<Canopy>,
}
