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
    nodes: Vec<Node>,
}

/// Sine-like aim (tan(aim / 2) over the slope across), spent (roll less roll left, over the length), and fade (1 - e^-2y,
/// times the roll, over the length); the fourth number makes it one load.
type Node = [f32; 4];

/// Nodes: slope along, slope across, roll left.
const ALONG: usize = 25;
const ACROSS: usize = 13;
const LEFT: usize = 17;

/// Where the nodes without any slope begin.
const LEVEL: usize = ALONG / 2 * ACROSS * LEFT;

/// The steepest slope of the table, as a share of the grade at which a ball does not come to rest. A cell that holds a
/// slope as steep has no corner beyond [`SOLVED`].
pub(super) const STEEPEST: f64 = 0.85;

/// The steepest slope of a node that is worked out.
const SOLVED: f64 = 0.97;

/// What the table says of a putt, in units of its length.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    /// tan(aim / 2), turned uphill.
    pub(super) half: f64,
    /// Aim for some slope across, over that on a green that is level but for it: how much a misread slope matters.
    pub(super) lead: f64,
    /// Roll-out on the level of the launch, less that at the hole.
    pub(super) spent: f64,
    /// 1 - e^-2y at the hole, times the roll-out.
    pub(super) fade: f64,
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
                // Nobody asks for the slopes beyond.
                node(along, across, left).unwrap_or_default()
            })
            .collect();
        Breaks { nodes }
    }

    /// The line for a slope that falls `along` the putt and `across` it (>= 0), together at most [`STEEPEST`] of the
    /// grade at which a ball does not come to rest, when `left` is the root of the share of a level roll-out that is
    /// left at the hole.
    #[inline]
    pub(super) fn line(&self, along: f64, across: f64, left: f64) -> Line {
        let (i, t) = cell((along + STEEPEST) * (0.5 / STEEPEST), ALONG);
        let (j, u) = cell(across * (1.0 / STEEPEST), ACROSS);
        let (l, v) = cell(left, LEFT);
        let at = (i * ACROSS + j) * LEFT + l;
        let mut sum = Node::default();
        for (di, wi) in [(0, 1.0 - t), (1, t)] {
            for (dj, wj) in [(0, 1.0 - u), (1, u)] {
                let pair = &self.nodes[at + (di * ACROSS + dj) * LEFT..][..2];
                let (near, far) = (wi * wj * (1.0 - v), wi * wj * v);
                for n in 0..4 {
                    sum[n] += near * pair[0][n] + far * pair[1][n];
                }
            }
        }
        let [half, spent, fade, _] = sum;
        let level = &self.nodes[LEVEL + l..][..2];
        let plain = level[0][0] + v * (level[1][0] - level[0][0]);
        Line {
            half: across * f64::from(half),
            lead: f64::from(half / plain),
            spent: f64::from(spent),
            fade: f64::from(fade),
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
fn cell(share: f64, nodes: usize) -> (usize, f32) {
    let at = share * (nodes - 1) as f64;
    let i = (at as usize).min(nodes - 2);
    (i, (at - i as f64) as f32)
}

/// One node; none where its slope is too steep to be asked for, or (a test says it does not occur) where there is no line.
#[expect(
    clippy::cast_possible_truncation,
    reason = "half the precision is enough"
)]
fn node(along: f64, across: f64, left: f64) -> Option<Node> {
    let along = STEEPEST * (2.0 * along - 1.0);
    let across = STEEPEST * across.max(1e-4);
    // Neither no roll left nor no length can be solved for; both are limits.
    let left = left.clamp(0.005, 0.999);
    let past = left * left / (1.0 - left * left);
    let k = along.hypot(across);
    if k > SOLVED {
        return None;
    }
    let found = enter(k, along / k, across / k, past)?;
    let half = libm::tan(0.5 * found.aim) / across;
    let fade = (1.0 - found.left) * found.roll;
    Some([half as f32, (found.roll - past) as f32, fade as f32, 0.0])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_node_that_can_be_asked_for_has_a_line() {
        let mut solved = 0;
        for (along, across, left) in places() {
            let steep = STEEPEST * (2.0 * along - 1.0).hypot(across);
            let found = node(along, across, left);
            if steep < 0.9699 {
                assert!(found.is_some(), "{along} {across} {left}");
                solved += 1;
            }
        }
        assert!(solved > 4_000, "{solved}");
        // The corner farthest out of a cell that reaches into the steepest slope.
        let cell = (2.0 / 24.0_f64).hypot(1.0 / 12.0) * STEEPEST;
        assert!(STEEPEST + cell < SOLVED);
    }
}
