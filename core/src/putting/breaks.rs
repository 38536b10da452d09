//! The line and pace of every putt on a plane, as one table.
use super::plane::enter;
use std::sync::OnceLock;

/// The line and pace that putts on slopes want, prepared once for all greens.
///
/// A path on a plane depends on three numbers: the slope along and across the putt, each over the grade at which
/// a ball would not come to rest, and the roll left at the hole over the length. The table holds what
/// `enter` finds at the nodes of a grid, and is read by linear interpolation.
#[derive(Debug)]
pub struct Breaks {
    /// tan(aim / 2) over the slope across, and (roll - roll left) over length.
    nodes: Vec<[f32; 2]>,
}

/// Nodes: slope along, slope across, roll left.
const ALONG: usize = 25;
const ACROSS: usize = 13;
const LEFT: usize = 17;

/// The steepest slope of the table, as a share of the grade at which a ball does not come to rest.
pub(super) const STEEPEST: f64 = 0.85;

/// The widest slope across at no slope along.
const WIDEST: f64 = 0.97;

/// What the table says of a putt, in units of its length.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    /// tan(aim / 2), turned uphill.
    pub(super) half: f64,
    /// Roll-out on the level of the launch, less that at the hole.
    pub(super) spent: f64,
}

impl Breaks {
    /// The table; the first call works it out, in some milliseconds.
    pub fn get() -> &'static Breaks {
        static BREAKS: OnceLock<Breaks> = OnceLock::new();
        BREAKS.get_or_init(Breaks::new)
    }

    fn new() -> Self {
        let nodes = places()
            .map(|(along, across, left)| {
                // The level line does not occur: a test asks for every node.
                node(along, across, left).unwrap_or([0.25, 1.0])
            })
            .collect();
        Breaks { nodes }
    }

    /// The line for a slope that falls `along` the putt and `across` it (>= 0), both as shares of the grade at which
    /// a ball does not come to rest, when `left` is the root of the share of a level roll-out that is
    /// left at the hole. Slopes beyond the table are read at its edge.
    #[inline]
    pub(super) fn line(&self, along: f64, across: f64, left: f64) -> Line {
        let along = along.clamp(-STEEPEST, STEEPEST);
        let widest = WIDEST * (1.0 - along * along);
        let across = across.min(widest);
        let (i, t) = cell((along + STEEPEST) * (0.5 / STEEPEST), ALONG);
        let (j, u) = cell(across / widest, ACROSS);
        let (l, v) = cell(left, LEFT);
        let at = (i * ACROSS + j) * LEFT + l;
        let row = |at: usize| {
            let (a, b) = (self.nodes[at], self.nodes[at + 1]);
            let mix = |n: usize| f64::from(a[n]) + v * (f64::from(b[n]) - f64::from(a[n]));
            [mix(0), mix(1)]
        };
        let face = |at: usize| {
            let (a, b) = (row(at), row(at + LEFT));
            [a[0] + u * (b[0] - a[0]), a[1] + u * (b[1] - a[1])]
        };
        let (a, b) = (face(at), face(at + ACROSS * LEFT));
        Line {
            half: across * (a[0] + t * (b[0] - a[0])),
            spent: a[1] + t * (b[1] - a[1]),
        }
    }
}

/// The places of the nodes as shares of the ranges.
fn places() -> impl Iterator<Item = (f64, f64, f64)> {
    let place = |i: usize| {
        (
            share(i / (ACROSS * LEFT), ALONG),
            share(i / LEFT % ACROSS, ACROSS),
            share(i % LEFT, LEFT),
        )
    };
    (0..ALONG * ACROSS * LEFT).map(place)
}

#[expect(clippy::cast_precision_loss, reason = "small integers")]
fn share(i: usize, of: usize) -> f64 {
    i as f64 / (of - 1) as f64
}

/// The cell of a share of the range, and the place in it.
#[inline]
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "small numbers that are not negative"
)]
fn cell(share: f64, nodes: usize) -> (usize, f64) {
    let at = share * (nodes - 1) as f64;
    let i = (at as usize).min(nodes - 2);
    (i, at - i as f64)
}

/// One node. The slope across is a share of 0.97 (1 - along^2), which keeps the whole slope below 1 and covers all slopes
/// up to [`STEEPEST`].
#[expect(
    clippy::cast_possible_truncation,
    reason = "half the precision is enough"
)]
fn node(along: f64, across: f64, left: f64) -> Option<[f32; 2]> {
    let along = STEEPEST * (2.0 * along - 1.0);
    let across = WIDEST * (1.0 - along * along) * across.max(1e-4);
    // Neither no roll left nor no length can be solved for; both are limits.
    let left = left.clamp(0.005, 0.999);
    let past = left * left / (1.0 - left * left);
    let k = along.hypot(across);
    let found = enter(k, along / k, across / k, past)?;
    let half = libm::tan(0.5 * found.aim) / across;
    Some([half as f32, (found.roll - past) as f32])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_node_has_a_line() {
        for (along, across, left) in places() {
            let found = node(along, across, left);
            assert!(found.is_some(), "{along} {across} {left}");
        }
    }
}
