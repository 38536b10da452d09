//! Where balls lie: a layer of nodes for every lie of a hole, and codes for the places between them.
pub(super) mod grid;
mod polar;
pub(super) mod spacing;

use crate::geometry::{Point, Vector};
use crate::hole::Hole;
use crate::player::Lie;
use crate::situation::Situation;
use grid::{Grid, Spot, Strip};
use polar::Polar;
use rayon::prelude::*;
use spacing::{Spacing, Square, lies_near};
use std::collections::VecDeque;

/// The lies with a layer of square cells, in their order. The green has rings; the tee is one place.
const LAYERED: [Lie; 7] = [
    Lie::Fairway,
    Lie::FirstCut,
    Lie::Rough,
    Lie::DeepRough,
    Lie::Fringe,
    Lie::Bunker,
    Lie::Trees,
];

/// No such thing.
const NONE: u32 = u32::MAX;

/// A place and a lie with a value and a shot of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::solve) struct State {
    pub(in crate::solve) situation: Situation,
    /// Its node; that of the tee is none.
    node: u32,
}

/// Every place a ball may lie, as nodes between which values are straight.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::solve) struct Places {
    pub(in crate::solve) strip: Strip,
    pub(in crate::solve) grid: Grid,
    pub(in crate::solve) polar: Polar,
    /// First node of each lie's layer.
    layers: [u32; 9],
    /// First node of the rings.
    rings: u32,
    /// The tee first, then from the pin outward.
    states: Vec<State>,
    /// The state whose shot a node takes: its own, or the nearest with that lie.
    homes: Vec<u32>,
    /// For every node of the grid the side, in cells, of the square whose corners have states of their own.
    strides: Vec<u8>,
    /// The lie taken for one that no cell knows of.
    spare: Lie,
    /// Bits of a code for each share of a cell, that many bits set, and the share that one of their steps is.
    bits: u32,
    mask: u32,
    step: f32,
}

/// Where a ball comes to lie, or what else becomes of it, in 32 bits.
///
/// The two highest bits tell the penalty: 0 is played as it lies; 1 and 2 are drops for so many strokes, in place of
/// which the stroke may be played again; 3 is a ball holed, or one that must be played again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::solve) struct Code(u32);

impl Code {
    pub(in crate::solve) const HOLED: Code = Code(3 << 30);
    pub(in crate::solve) const AGAIN: Code = Code(3 << 30 | 1);

    /// The penalty strokes of a drop; 0 for a ball played as it lies. Of a ball that [`lies`](Self::lies) only.
    #[inline]
    pub(in crate::solve) fn penalty(self) -> u32 {
        self.0 >> 30
    }

    /// True for a ball that lies somewhere, as it came or by a drop.
    #[inline]
    pub(in crate::solve) fn lies(self) -> bool {
        self.0 < 3 << 30
    }

    /// True for a ball that is played as it lies.
    #[inline]
    pub(in crate::solve) fn is_played(self) -> bool {
        self.0 < 1 << 30
    }

    fn with_penalty(self, strokes: u8) -> Self {
        Code(self.0 | u32::from(strokes.min(2)) << 30)
    }
}

impl Places {
    /// Lays the nodes over a hole: for each lie those at the corners of cells in which it occurs, by `spacing` with
    /// states of their own.
    pub(in crate::solve) fn new(hole: &Hole, strip: Strip, cell: f64, spacing: Spacing) -> Self {
        let widest = spacing.widest(cell);
        let grid = strip.grid(hole, cell, widest);
        let polar = Polar { pin: hole.pin() };
        let strides = spacing.strides(&grid, hole, strip);
        let near = lies_near(hole, strip, &grid, &strides);
        let mut layers = [NONE; 9];
        let mut count = 0_usize;
        for lie in LAYERED {
            if near.iter().any(|&lies| lies >> lie as u16 & 1 == 1) {
                layers[lie as usize] = index(count);
                count += grid.len();
            }
        }
        let rings = index(count);
        layers[Lie::Green as usize] = rings;
        count += Polar::LEN;
        let known = |lie: &Lie| layers[*lie as usize] != NONE;
        let spare = [Lie::Rough].into_iter().chain(LAYERED).find(known);
        let needed = usize::BITS - count.leading_zeros();
        let bits = (30 - needed.min(28)) / 2;
        let mut places = Places {
            strip,
            grid,
            polar,
            layers,
            rings,
            states: Vec::new(),
            homes: vec![NONE; count],
            strides,
            spare: spare.unwrap_or(Lie::Green),
            bits,
            mask: (1 << bits) - 1,
            step: 1.0 / (1_u32 << bits) as f32,
        };
        places.list_states(hole, &near);
        places.find_homes();
        places
    }

    /// Lists the states. The home of a node that has one is that state.
    fn list_states(&mut self, hole: &Hole, near: &[u16]) {
        let mut states = Vec::new();
        for lie in LAYERED {
            let first = self.layers[lie as usize];
            if first == NONE {
                continue;
            }
            let nodes = near
                .iter()
                .enumerate()
                .filter(|&(_, &lies)| lies >> lie as u16 & 1 == 1);
            states.extend(nodes.map(|(node, _)| State {
                situation: Situation {
                    at: self.grid.point(node),
                    lie,
                },
                node: first + index(node),
            }));
        }
        let farthest = farthest_on_green(hole);
        // A ring is needed where the one within it is not yet beyond the green.
        let is_needed = |node: usize| {
            let within = node.checked_sub(Polar::STRIDE);
            within.is_none_or(|node| (self.polar.point(node) - hole.pin()).norm() <= farthest)
        };
        let on_rings = (0..Polar::LEN).filter(|&node| !Polar::is_copy(node) && is_needed(node));
        states.extend(on_rings.map(|node| State {
            situation: Situation {
                at: self.polar.point(node),
                lie: Lie::Green,
            },
            node: self.rings + index(node),
        }));
        // A stable sort: of states as far from the pin, the order is that of the nodes.
        states.sort_by(|a, b| {
            let far = |s: &State| s.situation.to_pin(hole);
            far(a).total_cmp(&far(b))
        });
        let tee = State {
            situation: Situation::on_the_tee(hole),
            node: NONE,
        };
        states.insert(0, tee);
        for (state, number) in states.iter().zip(0_u32..) {
            if state.node != NONE {
                self.homes[state.node as usize] = number;
            }
        }
        self.states = states;
    }

    /// Gives every node without a state of its own that of the nearest node of its layer.
    fn find_homes(&mut self) {
        for first in LAYERED.map(|lie| self.layers[lie as usize]) {
            if first == NONE {
                continue;
            }
            let layer = &mut self.homes[first as usize..][..self.grid.len()];
            let mut queue: VecDeque<usize> = (0..layer.len())
                .filter(|&node| layer[node] != NONE)
                .collect();
            while let Some(node) = queue.pop_front() {
                for next in self.grid.around(node) {
                    if layer[next] == NONE {
                        layer[next] = layer[node];
                        queue.push_back(next);
                    }
                }
            }
        }
        for ring in self.homes[self.rings as usize..].chunks_mut(Polar::STRIDE) {
            if let [first, .., copy] = ring {
                *copy = *first;
            }
        }
        // Beyond the green a node takes the state of the ring within it.
        for node in self.rings as usize + Polar::STRIDE..self.homes.len() {
            if self.homes[node] == NONE {
                self.homes[node] = self.homes[node - Polar::STRIDE];
            }
        }
    }

    /// The states: the tee first, then from the pin outward.
    pub(in crate::solve) fn states(&self) -> &[State] {
        &self.states
    }

    /// True if the hole has such a lie.
    pub(in crate::solve) fn knows(&self, lie: Lie) -> bool {
        self.layers[lie as usize] != NONE
    }

    /// The state whose shot is played from a situation: that of the nearest node. None where the hole has no such
    /// lie. Hot path.
    #[inline]
    pub(in crate::solve) fn state_at(&self, at: Situation) -> Option<usize> {
        if at.lie == Lie::Tee {
            return Some(0);
        }
        let first = self.layers[at.lie as usize];
        if first == NONE {
            return None;
        }
        let node = if at.lie == Lie::Green {
            let spot = self.polar.spot(at.at);
            spot.node
                + usize::from(spot.right >= 0.5)
                + if spot.up >= 0.5 { Polar::STRIDE } else { 0 }
        } else {
            self.grid.nearest(at.at)
        };
        Some(self.homes[first as usize + node] as usize)
    }

    /// The states at the corners of the square that holds a situation, with their weights there. Hot path.
    #[inline]
    pub(in crate::solve) fn states_around(
        &self,
        at: Situation,
    ) -> impl Iterator<Item = (usize, f64)> + '_ {
        let first = self.layers[at.lie as usize];
        let known = first != NONE && at.lie != Lie::Green;
        let (square, [right, up]) = self.square(at.at);
        let weights = [
            (1.0 - right) * (1.0 - up),
            right * (1.0 - up),
            (1.0 - right) * up,
            right * up,
        ];
        square
            .corners()
            .into_iter()
            .zip(weights)
            .filter(move |_| known)
            .map(move |(node, weight)| (self.homes[first as usize + node] as usize, weight))
    }

    /// The states around four points, each half a square away to either side and up or down, and each for a quarter. Around a
    /// state they are itself and its eight neighbours. Some come more than once.
    pub(in crate::solve) fn states_near(
        &self,
        at: Situation,
    ) -> impl Iterator<Item = (usize, f64)> + '_ {
        let half = 0.5 * self.grid.cell * f64::from(self.stride_at(at));
        [(-half, -half), (half, -half), (-half, half), (half, half)]
            .into_iter()
            .flat_map(move |(x, y)| {
                self.states_around(Situation {
                    at: at.at + Vector::new(x, y),
                    lie: at.lie,
                })
            })
            .map(|(state, weight)| (state, 0.25 * weight))
    }

    /// The square that holds a place, and the shares of it to the right and up. Hot path.
    #[inline]
    #[expect(clippy::cast_precision_loss, reason = "a few cells")]
    fn square(&self, at: Point) -> (Square, [f64; 2]) {
        let Spot { node, right, up } = self.grid.spot(at);
        let (square, [x, y]) = Square::of(node, &self.grid, &self.strides);
        let share = |cells: usize, more: f64| (cells as f64 + more) / square.side as f64;
        (square, [share(x, right), share(y, up)])
    }

    /// True if a situation lies where its lie occurs: all around it are states of their own. Of the green always, whose rings
    /// reach everywhere.
    pub(in crate::solve) fn holds(&self, at: Situation) -> bool {
        let side = self.grid.cell * self.square(at.at).0.side as f64;
        let within = |(state, _): (usize, f64)| {
            let way: Vector = self.states[state].situation.at - at.at;
            way.amax() <= 1.001 * side
        };
        at.lie == Lie::Green || (self.knows(at.lie) && self.states_around(at).all(within))
    }

    /// Cells between the places with values of their own, around a situation.
    fn stride_at(&self, at: Situation) -> u8 {
        self.strides[self.grid.nearest(at.at)].max(1)
    }

    /// The code of a ball that lies somewhere. Hot path.
    #[inline]
    pub(in crate::solve) fn code(&self, at: Situation) -> Code {
        if at.lie == Lie::Green {
            return self.pack(self.rings, self.polar.spot(at.at));
        }
        let first = self.layers[at.lie as usize];
        if first == NONE {
            // A sliver that no cell knows of; a tee is never come to.
            return self.code(Situation {
                lie: self.spare,
                ..at
            });
        }
        self.pack(first, self.grid.spot(at.at))
    }

    /// The code of a drop for some penalty strokes. Hot path.
    #[inline]
    pub(in crate::solve) fn drop_code(&self, at: Situation, penalty: u8) -> Code {
        self.code(at).with_penalty(penalty)
    }

    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "shares of a cell"
    )]
    fn pack(&self, first: u32, spot: Spot) -> Code {
        let steps = f64::from(self.mask + 1);
        let quantum = |share: f64| ((share * steps) as u32).min(self.mask);
        let node = first + index(spot.node);
        Code((node << self.bits | quantum(spot.up)) << self.bits | quantum(spot.right))
    }

    /// The value at a code of a ball that lies somewhere, straight between the nodes. Hot path.
    #[inline]
    pub(in crate::solve) fn value(&self, values: &[f32], code: Code) -> f64 {
        let packed = code.0 & 0x3fff_ffff;
        let share = |packed: u32| ((packed & self.mask) as i32 as f32 + 0.5) * self.step;
        let (right, up) = (share(packed), share(packed >> self.bits));
        let node = packed >> (2 * self.bits);
        let stride = if node >= self.rings {
            Polar::STRIDE
        } else {
            self.grid.columns
        };
        let node = node as usize;
        let (low, high) = (
            &values[node..node + 2],
            &values[node + stride..node + stride + 2],
        );
        let low = low[0] + right * (low[1] - low[0]);
        let high = high[0] + right * (high[1] - high[0]);
        f64::from(low + up * (high - low))
    }

    /// The value in a situation, straight between the nodes.
    #[inline]
    pub(in crate::solve) fn value_at(&self, values: &[f32], at: Situation) -> f64 {
        self.value(values, self.code(at))
    }

    /// Spreads values of the states over all nodes, straight between the corners of the squares.
    #[expect(
        clippy::cast_possible_truncation,
        reason = "half the precision is enough"
    )]
    pub(in crate::solve) fn spread(&self, of_states: &[f64], nodes: &mut Vec<f32>) {
        nodes.resize(self.homes.len(), 0.0);
        let (layered, rings) = nodes.split_at_mut(self.rings as usize);
        let value = |home: u32| of_states[home as usize] as f32;
        for (node, &home) in rings.iter_mut().zip(&self.homes[self.rings as usize..]) {
            *node = value(home);
        }
        let columns = self.grid.columns;
        layered
            .par_chunks_mut(columns)
            .enumerate()
            .with_min_len(64)
            .for_each(|(line, nodes)| {
                let (first, row) = (line / self.grid.rows, line % self.grid.rows);
                let homes = &self.homes[first * self.grid.len()..][..self.grid.len()];
                let strides = &self.strides[row * columns..];
                for (column, node) in nodes.iter_mut().enumerate() {
                    let stride = usize::from(strides[column]);
                    *node = between(stride, column, row, |column, row| {
                        value(homes[row * columns + column])
                    });
                }
            });
    }
}

/// The value at a node in a square of `stride` cells, straight between those at the corners.
#[inline]
fn between(stride: usize, column: usize, row: usize, corner: impl Fn(usize, usize) -> f32) -> f32 {
    let (x, y) = (column % stride, row % stride);
    if x == 0 && y == 0 {
        return corner(column, row);
    }
    let (left, down) = (column - x, row - y);
    let right = if x > 0 { left + stride } else { left };
    let up = if y > 0 { down + stride } else { down };
    #[expect(clippy::cast_precision_loss, reason = "a few cells")]
    let (x, y) = (x as f32 / stride as f32, y as f32 / stride as f32);
    let low = corner(left, down) * (1.0 - x) + corner(right, down) * x;
    let high = corner(left, up) * (1.0 - x) + corner(right, up) * x;
    low * (1.0 - y) + high * y
}

#[expect(clippy::cast_possible_truncation, reason = "fewer than 2^30 nodes")]
#[inline]
fn index(node: usize) -> u32 {
    node as u32
}

/// Yards from the pin to the farthest point of its green.
fn farthest_on_green(hole: &Hole) -> f64 {
    let outline = hole.green().outline.exterior().vertices().iter();
    outline.map(|p| (p - hole.pin()).norm()).fold(0.0, f64::max)
}
