//! Square cells over a hole, with values at their corners.
use crate::geometry::{Point, Vector, along, share_of};
use crate::hole::Hole;
use crate::noise::{Noise, spread};
use crate::plan::Scene;
use crate::player::Lie;
use crate::situation::Situation;

/// A regular grid of nodes, `cell` yards apart.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::solve) struct Grid {
    pub(in crate::solve) corner: Point,
    pub(in crate::solve) cell: f64,
    pub(in crate::solve) columns: usize,
    pub(in crate::solve) rows: usize,
}

/// A place on a grid: the node at the lower left of its cell and the shares of the cell to the right and up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::solve) struct Spot {
    pub(in crate::solve) node: usize,
    pub(in crate::solve) right: f64,
    pub(in crate::solve) up: f64,
}

/// How far behind the tee, and past the pin, the ground is looked at, yards.
const BEHIND: f64 = 30.0;
const PAST: f64 = 70.0;

/// Balls of the longest shot by which the width is told, how many of them may stray farther than it is told by, and room
/// beyond, for what is played from there. On level ground of a golfer of 18 it gives the width by length.
const BALLS: u32 = 512;
const WILDEST: usize = 10;
const ROOM: f64 = 1.2;
/// The share of the width within which strokes are meant to end.
const WELL_IN: f64 = 0.75;
/// The most ground to either side that is looked at, yards.
const MOST_WIDE: f64 = 250.0;

/// The strip of ground on which a hole is played: along the line of play, and along the straight way from the tee to the pin,
/// which cuts the corners of that.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::solve) struct Strip {
    /// Yards to either side of both.
    pub(in crate::solve) width: f64,
}

impl Strip {
    /// As wide as the player's balls may go astray: by the length of the longest shot, and by where it ends, played straight
    /// from the tee. On a hillside balls run on, and into a gale they stray as far as ever, short as they are.
    pub(in crate::solve) fn of(scene: &Scene) -> Self {
        let line = scene.hole().line();
        let longest = scene.reach.farthest(Lie::Tee, line.direction(0.0));
        let usual = (0.35 * longest + 20.0).clamp(60.0, 130.0);
        Strip {
            width: (ROOM * astray(scene, longest)).clamp(usual, MOST_WIDE),
        }
    }

    /// Two thirds as wide.
    pub(in crate::solve) fn narrowed(self) -> Self {
        Strip {
            width: (self.width / 1.5).max(45.0),
        }
    }

    /// True for places in the strip.
    pub(in crate::solve) fn holds(&self, hole: &Hole, p: Point) -> bool {
        let station = hole.line().station(p);
        aside(hole, p) <= self.width
            && station.along >= -BEHIND
            && station.along <= hole.line().length() + PAST
    }

    /// True of a stroke from a place to one that is well in the strip, or no farther aside: near an edge many
    /// balls would end beyond it, and what lies there is not looked at.
    pub(in crate::solve) fn may_aim(&self, hole: &Hole, from: Point, to: Point) -> bool {
        let aside_to = aside(hole, to);
        aside_to <= WELL_IN * self.width || aside_to <= aside(hole, from)
    }

    /// The grid that covers the strip; the pin is a node of it, and of every `stride`-th line.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "a hole is small"
    )]
    pub(in crate::solve) fn grid(&self, hole: &Hole, cell: f64, stride: usize) -> Grid {
        let line = hole.line();
        let ends = [line.at(-BEHIND, 0.0), line.at(line.length() + PAST, 0.0)];
        let (mut low, mut high) = (hole.pin(), hole.pin());
        for &p in line.vertices().iter().chain(&ends).chain([&hole.tee()]) {
            (low, high) = (low.inf(&p), high.sup(&p));
        }
        let margin = Vector::new(self.width, self.width);
        let long = cell * stride as f64;
        let before = (hole.pin() - (low - margin)) / long;
        let after = (high + margin - hole.pin()) / long;
        let (left, down) = (before.x.ceil(), before.y.ceil());
        Grid {
            corner: hole.pin() - Vector::new(left, down) * long,
            cell,
            columns: (left + after.x.ceil()) as usize * stride + 1,
            rows: (down + after.y.ceil()) as usize * stride + 1,
        }
    }
}

/// Yards by which a place lies aside of the line of play or of the straight way to the pin, whichever is nearer.
pub(super) fn aside(hole: &Hole, p: Point) -> f64 {
    let (tee, pin) = (hole.tee(), hole.pin());
    let straight = along(tee, pin, share_of(tee, pin, p).clamp(0.0, 1.0));
    let off_line = hole.line().station(p).right.abs();
    off_line.min((p - straight).norm())
}

/// How far to the side the longest shot ends, played straight ahead from the tee: all but the wildest balls, yards.
fn astray(scene: &Scene, longest: f64) -> f64 {
    let tee = Situation::on_the_tee(scene.hole());
    let forward = scene.hole().line().direction(0.0);
    let (club, over) = (scene.bag().longest(Lie::Tee), tee.at + forward * longest);
    let shot = scene.address(tee, &scene.swing_over(tee, club, over, f64::INFINITY));
    let off = |noise: &Noise| {
        let way = shot.play(noise).rest - tee.at;
        way.perp(&forward).abs()
    };
    let mut all: Vec<f64> = spread(BALLS).iter().map(off).collect();
    all.sort_by(|a, b| b.total_cmp(a));
    all[WILDEST]
}

impl Grid {
    /// Number of nodes.
    pub(in crate::solve) fn len(&self) -> usize {
        self.columns * self.rows
    }

    /// The place of a node.
    #[expect(clippy::cast_precision_loss, reason = "a small grid")]
    pub(in crate::solve) fn point(&self, node: usize) -> Point {
        let (column, row) = ((node % self.columns) as f64, (node / self.columns) as f64);
        self.corner + Vector::new(column, row) * self.cell
    }

    /// True for places on the grid.
    pub(in crate::solve) fn holds(&self, p: Point) -> bool {
        let high = self.point(self.len() - 1);
        p.x >= self.corner.x && p.y >= self.corner.y && p.x <= high.x && p.y <= high.y
    }

    /// The cell of a place; of one off the grid, the nearest place on it. Hot path.
    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "clamped to the grid"
    )]
    pub(in crate::solve) fn spot(&self, p: Point) -> Spot {
        let at = (p - self.corner) / self.cell;
        let x = at.x.clamp(0.0, (self.columns - 1) as f64);
        let y = at.y.clamp(0.0, (self.rows - 1) as f64);
        // By way of 32 bits: the processor has no instruction for the whole range of 64.
        let column = (x as u32 as usize).min(self.columns - 2);
        let row = (y as u32 as usize).min(self.rows - 2);
        Spot {
            node: row * self.columns + column,
            right: x - column as f64,
            up: y - row as f64,
        }
    }

    /// The node nearest a place. Hot path.
    #[inline]
    pub(in crate::solve) fn nearest(&self, p: Point) -> usize {
        let spot = self.spot(p);
        spot.node + usize::from(spot.right >= 0.5) + if spot.up >= 0.5 { self.columns } else { 0 }
    }

    /// The nodes around a node, itself left out.
    pub(in crate::solve) fn around(&self, node: usize) -> impl Iterator<Item = usize> + '_ {
        let (column, row) = (node % self.columns, node / self.columns);
        let columns = column.saturating_sub(1)..(column + 2).min(self.columns);
        let rows = row.saturating_sub(1)..(row + 2).min(self.rows);
        rows.flat_map(move |r| columns.clone().map(move |c| r * self.columns + c))
            .filter(move |&other| other != node)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hole::{Conditions, Contours, Dogleg, Sketch, Wind};
    use crate::player::Player;
    use std::sync::Arc;

    fn width(hole: Hole) -> f64 {
        let bag = Arc::new(Player::from_handicap(18.0).unwrap().prepare());
        Strip::of(&Scene::new(Arc::new(hole), bag).unwrap()).width
    }

    #[test]
    fn the_strip_is_as_wide_as_balls_go_astray() {
        let level = Hole::sketch(&Sketch::new(4, 380.0)).unwrap();
        let tilted = |percent| {
            let contours = Contours {
                fairway_tilt_percent: percent,
                ..Contours::default()
            };
            width(level.with_contours(&contours).unwrap())
        };
        let gale = level
            .under(Conditions {
                wind: Wind::new(60.0, 0.0).unwrap(),
                ..Conditions::default()
            })
            .unwrap();
        let bent = Sketch {
            dogleg: Some(Dogleg {
                at: 150.0,
                turn_deg: 60.0,
            }),
            ..Sketch::new(4, 380.0)
        };
        // On level ground by the length of the longest shot. A drive into the gale goes half as far, and farther astray.
        let usual = width(level.clone());
        assert!((90.0..100.0).contains(&usual), "{usual}");
        assert!((usual - width(Hole::sketch(&bent).unwrap())).abs() < 1.0);
        let wide = width(gale);
        assert!(usual < wide && wide < 1.8 * usual, "{wide}");
        let tilts = [tilted(10.0), tilted(20.0)];
        assert!(tilts[0] >= usual && tilts[1] > 1.3 * usual, "{tilts:?}");
        assert!(tilted(60.0) <= MOST_WIDE);
    }
}
