//! The trees of a hole seen from above: where they stand, whatever the ground under them is.
use super::{Feature, HoleParts, Surface};
use crate::geometry::{LayerIndex, Piece, Point, Polygon};
use std::ops::ControlFlow;

/// The trees of a hole, prepared for paths.
///
/// Trees stand where they are drawn, over fairway and sand as over rough. Nobody plays from under branches on the tee or
/// putts under them at the pin, though: a stand that covers either is a wood that the hole is cut out of, and of it trees
/// stand only where nothing else is drawn over it.
#[derive(Clone, Debug)]
pub(super) struct Woods {
    index: LayerIndex,
    /// The feature of each layer of the index.
    features: Vec<u16>,
}

/// True for trees that stand over whatever lies under them.
pub(super) fn stand(feature: &Feature, parts: &HoleParts) -> bool {
    is_wood(feature) && !is_cut(feature, parts)
}

/// True for a wood that the hole is cut out of.
pub(super) fn is_cut(feature: &Feature, parts: &HoleParts) -> bool {
    is_wood(feature)
        && [parts.tee, parts.pin]
            .iter()
            .any(|&p| feature.outline.contains(p))
}

fn is_wood(feature: &Feature) -> bool {
    feature.surface == Surface::Trees
}

impl Woods {
    /// The trees among the features of a hole, whose outlines are indexed already.
    pub(super) fn of(parts: &HoleParts, outlines: &[Polygon], index: &LayerIndex) -> Self {
        let features = &parts.features;
        let all = || (0..).zip(features);
        let standing = all().filter(|(_, f)| stand(f, parts));
        // What lies over a wood that the hole is cut out of leaves no trees of it; standing trees are above all that.
        let cut = features.iter().any(|f| is_cut(f, parts));
        let ground = all().filter(|(_, f)| cut && !stand(f, parts));
        let order: Vec<u16> = ground.chain(standing).map(|(i, _)| i).collect();
        let layers: Vec<Polygon> = order
            .iter()
            .map(|&i| outlines[usize::from(i)].clone())
            .collect();
        Woods {
            index: if layers.is_empty() {
                LayerIndex::new(&[])
            } else {
                index.of_some(&layers)
            },
            features: order,
        }
    }

    /// Visits what a straight path passes under: each piece with the feature on top there.
    #[inline]
    pub(super) fn walk<B>(
        &self,
        from: Point,
        to: Point,
        mut visit: impl FnMut(Piece, Option<u16>) -> ControlFlow<B>,
    ) -> ControlFlow<B> {
        self.index.walk(from, to, |piece| {
            let feature = piece.layer.map(|layer| self.features[usize::from(layer)]);
            visit(piece, feature)
        })
    }
}
