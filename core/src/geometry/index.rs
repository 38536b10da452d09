//! The prepared index over layers of polygons.
use super::{Point, Polygon};
use std::ops::ControlFlow;

/// A part of a path over one layer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Share of the path at which the piece begins.
    pub from: f64,
    /// Share of the path at which it ends.
    pub to: f64,
    /// The topmost layer there, or None where nothing covers.
    pub layer: Option<u16>,
}

/// Layers of polygons, later ones on top, prepared for many questions.
#[derive(Clone, Debug)]
pub struct LayerIndex {}

impl LayerIndex {
    /// Prepares the index.
    pub fn new(layers: &[Polygon]) -> Self {
        let _ = layers;
        todo!()
    }
    /// The topmost layer at `p` (a boundary counts as inside).
    pub fn top(&self, p: Point) -> Option<u16> {
        let _ = p;
        todo!()
    }
    /// Quick answer.
    pub fn uniform(&self, from: Point, to: Point) -> Option<Option<u16>> {
        let _ = (from, to);
        todo!()
    }
    /// Visits the pieces of the path from `from` to `to` in order.
    pub fn walk<B>(
        &self,
        from: Point,
        to: Point,
        visit: impl FnMut(Piece) -> ControlFlow<B>,
    ) -> ControlFlow<B> {
        let _ = (from, to, visit);
        todo!()
    }
}
