//! Values over the whole hole, as an array.
use super::action::Action;
use super::fault::SolveFault;
use super::layers::Layer;
use super::place::Place;
use super::solution::{Looked, Solution};
use super::task::in_range;
use crate::geometry::Point;
use crate::player::Lie;
use crate::situation::Situation;
use rayon::prelude::*;
use std::sync::Arc;

/// Values at the nodes of a grid.
#[derive(Clone, Debug, PartialEq)]
pub struct Map {
    /// Yards to the right of the plan's origin, one a column.
    pub x: Vec<f64>,
    /// Yards up from the plan's origin, one a row.
    pub y: Vec<f64>,
    /// Row by row; NaN where no ball is played from: off the hole, out of bounds, in a penalty area.
    pub values: Vec<f64>,
}

/// A map being drawn: it advances in rows, and can be left at any time.
///
/// Where the lie occurs its solved values are read. Elsewhere, where a ball is only thought to lie so, the shots that
/// are played around there are valued from that lie over a little luck.
pub struct Mapping {
    solution: Arc<Solution>,
    lie: Lie,
    /// Strokes left, of a map of chances.
    left: Option<usize>,
    map: Map,
}

impl Mapping {
    /// Begins a map of the strokes to come from a lie, or with `at_most` of the chances of holing out in so many
    /// strokes; its nodes are `cell` yards apart.
    ///
    /// # Errors
    /// A cell out of range, more strokes than the solution tells of, a lie that only the tee has.
    pub fn new(
        solution: Arc<Solution>,
        lie: Lie,
        cell: f64,
        at_most: Option<u8>,
    ) -> Result<Self, SolveFault> {
        in_range("cell", cell, (0.5, 50.0), "0.5 to 50 yards")?;
        let left = match at_most {
            None => None,
            at_most => Some(solution.left(at_most)?),
        };
        let grid = &solution.found.places.grid;
        let high = grid.point(grid.len() - 1);
        let axis = |low: f64, high: f64| -> Vec<f64> {
            let mut at = vec![low];
            while at[at.len() - 1] + cell <= high {
                at.push(at[at.len() - 1] + cell);
            }
            at
        };
        let map = Map {
            x: axis(grid.corner.x, high.x),
            y: axis(grid.corner.y, high.y),
            values: Vec::new(),
        };
        Ok(Mapping {
            solution,
            lie,
            left,
            map,
        })
    }

    /// Rows drawn so far.
    #[must_use]
    pub fn done(&self) -> u64 {
        (self.map.values.len() / self.map.x.len()) as u64
    }

    /// Rows in all.
    #[must_use]
    pub fn goal(&self) -> u64 {
        self.map.y.len() as u64
    }

    /// True when every row is drawn.
    #[must_use]
    pub fn is_finished(&self) -> bool {
        self.done() == self.goal()
    }

    /// Draws up to `count` more rows on the current thread pool.
    pub fn advance(&mut self, count: u64) {
        for _ in 0..count {
            let number = self.map.values.len() / self.map.x.len();
            let Some(&y) = self.map.y.get(number) else {
                break;
            };
            let layer = self.layer();
            let row: Vec<f64> = self
                .map
                .x
                .par_iter()
                .map(|&x| self.value(Point::new(x, y), layer))
                .collect();
            self.map.values.extend(row);
        }
    }

    /// The map; None while it is not finished.
    #[must_use]
    pub fn map(self) -> Option<Map> {
        self.is_finished().then_some(self.map)
    }

    /// The layer to read: of chances, or of strokes where a score is played for.
    fn layer(&self) -> Option<&Layer> {
        match (self.left, self.solution.most()) {
            (Some(left), _) => self.solution.chance_layers().get(left - 1),
            (None, Some(most)) => self.solution.stroke_layers().get(most - 1),
            (None, None) => None,
        }
    }

    fn value(&self, at: Point, layer: Option<&Layer>) -> f64 {
        let Ok(from) = self.solution.situation(at, Some(self.lie)) else {
            return f64::NAN;
        };
        let found = &self.solution.found;
        if found.places.holds(from) {
            let nodes = layer.map_or(&found.values.nodes, |layer| &layer.nodes);
            return found.places.value_at(nodes, from);
        }
        self.reckoned(from)
    }

    /// The value by the shots that are played around a place, from a lie that it does not have.
    fn reckoned(&self, from: Situation) -> f64 {
        let (found, solution) = (&self.solution.found, &self.solution);
        let scene = solution.scene();
        let left = self.left.or(solution.most()).unwrap_or(0);
        let luck = found.luck.valuing(1);
        let looks: Vec<Looked> = if found.given.is_some() {
            vec![solution.look_over(from, None, luck)]
        } else {
            let lies = Lie::on(scene.hole().surface_at(from.at));
            let places = [Some(from.lie), lies].into_iter().flatten();
            let mut actions: Vec<Action> = Vec::new();
            for lie in places {
                let there = Situation { lie, ..from };
                if lie == Lie::Tee {
                    continue;
                }
                let state = found.places.state_at(there);
                for action in state.map_or(&[][..], |state| found.played.actions(state)) {
                    if !actions.contains(action) {
                        actions.push(*action);
                    }
                }
            }
            actions.push(Action::at_the_pin(scene, from));
            actions
                .into_iter()
                .map(|action| solution.look_over(from, Some(action), luck))
                .collect()
        };
        let (_, place) = solution.best(&looks, left);
        self.told(&place, left)
    }

    fn told(&self, place: &Place<'_>, left: usize) -> f64 {
        if self.left.is_some() {
            self.solution.chance_of(place, left)
        } else {
            self.solution.strokes_of(place, left)
        }
    }
}
