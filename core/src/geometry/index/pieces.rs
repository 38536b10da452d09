//! The pieces of a path as they come, and the places where it is cut.

use std::ops::ControlFlow;

use super::{Code, layer_of};
use crate::geometry::MIN_SHARE;

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

/// The pieces as they come, neighbours of one layer joined.
pub(super) struct Pieces<F> {
    visit: F,
    /// The piece that has begun: its first share of the path, its layer.
    open: Option<(f64, Code)>,
    /// Shares come as shares of a part of the path, which begins at this share of the whole,
    offset: f64,
    /// and is this long.
    scale: f64,
    /// Stretches up to this share of the part are not judged.
    pub(super) least: f64,
}

impl<F> Pieces<F> {
    pub(super) fn new(visit: F) -> Self {
        Self {
            visit,
            open: None,
            offset: 0.0,
            scale: 1.0,
            least: MIN_SHARE,
        }
    }

    /// The same where the path is known to begin over a layer.
    pub(super) fn over(visit: F, code: Code) -> Self {
        Self {
            open: Some((0.0, code)),
            ..Self::new(visit)
        }
    }

    /// From now on shares are of the part of the path between these shares.
    pub(super) fn part(&mut self, enter: f64, leave: f64) {
        (self.offset, self.scale) = (enter, leave - enter);
        self.least = MIN_SHARE / self.scale;
    }

    /// True once something is known to lie beneath the path.
    #[inline]
    pub(super) fn has_begun(&self) -> bool {
        self.open.is_some()
    }

    /// From this share on the path is over this layer.
    #[inline]
    pub(super) fn step<B>(&mut self, share: f64, code: Code) -> ControlFlow<B>
    where
        F: FnMut(Piece) -> ControlFlow<B>,
    {
        let Some((from, before)) = self.open else {
            self.open = Some((0.0, code));
            return ControlFlow::Continue(());
        };
        if before == code {
            return ControlFlow::Continue(());
        }
        let to = self.offset + self.scale * share;
        self.open = Some((to, code));
        if to <= from {
            // What was taken to lie beneath the start is only touched there.
            return ControlFlow::Continue(());
        }
        (self.visit)(Piece {
            from,
            to,
            layer: layer_of(before),
        })
    }

    /// The path ends.
    pub(super) fn close<B>(mut self) -> ControlFlow<B>
    where
        F: FnMut(Piece) -> ControlFlow<B>,
    {
        let (from, code) = self.open.unwrap_or((0.0, 0));
        (self.visit)(Piece {
            from,
            to: 1.0,
            layer: layer_of(code),
        })
    }
}

/// The smallest shares in a span at which a path meets edges, in order; few enough for the stack.
pub(super) struct Cuts {
    shares: [f64; Cuts::MOST],
    count: usize,
    /// True where there are more than fit.
    pub(super) more: bool,
    span: (f64, f64),
}

impl Cuts {
    pub(super) const MOST: usize = 8;

    #[inline]
    pub(super) fn in_span(from: f64, to: f64) -> Self {
        Self {
            shares: [0.0; Self::MOST],
            count: 0,
            more: false,
            span: (from, to),
        }
    }

    pub(super) fn get(&self) -> &[f64] {
        &self.shares[..self.count]
    }

    #[inline]
    pub(super) fn add(&mut self, share: f64) {
        // Half open: a cut on the border of two cells belongs to the second.
        if !(self.span.0 <= share && share < self.span.1) {
            return;
        }
        let place = self.get().partition_point(|s| *s < share);
        if self.get().get(place) == Some(&share) {
            return;
        }
        if self.count == Self::MOST {
            self.more = true;
        } else {
            self.count += 1;
        }
        if place < self.count {
            self.shares.copy_within(place..self.count - 1, place + 1);
            self.shares[place] = share;
        }
    }
}
