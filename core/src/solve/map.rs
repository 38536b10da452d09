//! Values over the whole hole, as an array.
use super::action::{Action, Mesh, offer};
use super::fault::SolveFault;
use super::grid::Grid;
use super::layers::Layer;
use super::level::COLD;
use super::place::Place;
use super::shortlist::Shortlist;
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
/// Where the lie occurs its solved values are read. Elsewhere a ball is only thought to lie so: there the best shots of
/// widely spaced places with that lie are valued over a little luck.
pub struct Mapping {
    solution: Arc<Solution>,
    lie: Lie,
    /// Strokes left, of a map of chances.
    left: Option<usize>,
    /// Widely spaced places, and the shots worth trying around them where the lie is only thought.
    wide: Grid,
    thought: Vec<Vec<Action>>,
    map: Map,
}

/// Yards between the places where shots from a lie that is only thought are looked for.
const WIDE: f64 = 16.0;
/// How many are kept of each.
const KEPT: usize = 3;

impl Mapping {
    /// Begins a map of the strokes to come from a lie, or with `at_most` of the chances of holing out in so many
    /// strokes; its nodes are `cell` yards apart.
    ///
    /// # Errors
    /// A cell out of range, more strokes than the solution tells of.
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
        let places = &solution.found.places;
        let high = places.grid.point(places.grid.len() - 1);
        let axis = |low: f64, high: f64| -> Vec<f64> {
            let mut at = vec![low];
            while at[at.len() - 1] + cell <= high {
                at.push(at[at.len() - 1] + cell);
            }
            at
        };
        let map = Map {
            x: axis(places.grid.corner.x, high.x),
            y: axis(places.grid.corner.y, high.y),
            values: Vec::new(),
        };
        Ok(Mapping {
            wide: places.strip.grid(solution.scene().hole(), WIDE, 1),
            thought: Vec::new(),
            solution,
            lie,
            left,
            map,
        })
    }

    /// Rows done so far, those of the first look included.
    #[must_use]
    pub fn done(&self) -> u64 {
        let rows = self.map.values.len() / self.map.x.len();
        (rows + self.thought.len() / self.wide.columns) as u64
    }

    /// Rows in all.
    #[must_use]
    pub fn goal(&self) -> u64 {
        (self.map.y.len() + self.wide.rows) as u64
    }

    /// True when every row is drawn.
    #[must_use]
    pub fn is_finished(&self) -> bool {
        self.done() == self.goal()
    }

    /// Draws up to `count` more rows on the current thread pool.
    pub fn advance(&mut self, count: u64) {
        for _ in 0..count {
            if self.thought.len() < self.wide.len() {
                self.think();
                continue;
            }
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

    /// Looks for shots from the next row of widely spaced places, where the lie does not occur.
    fn think(&mut self) {
        let first = self.thought.len();
        let row: Vec<Vec<Action>> = (first..first + self.wide.columns)
            .into_par_iter()
            .map(|node| self.thoughts(self.wide.point(node)))
            .collect();
        self.thought.extend(row);
    }

    fn thoughts(&self, at: Point) -> Vec<Action> {
        let (solution, found) = (&self.solution, &self.solution.found);
        let from = match self.situation(at) {
            Some(from) if found.given.is_none() => from,
            _ => return Vec::new(),
        };
        let sight = solution.sight();
        let mut shortlist = Shortlist::default();
        offer(solution.scene(), from, Mesh::WIDE, &mut shortlist.offers);
        let own = solution.reckoned(from);
        let bold = found.task.bold();
        shortlist.run(&sight, from, found.luck.choosing(), &COLD, own, bold);
        let tried = shortlist.tried().iter().take(KEPT + 2 * bold);
        tried.map(|tried| tried.action).collect()
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

    /// The situation thought of at a place; None where no ball is played from.
    fn situation(&self, at: Point) -> Option<Situation> {
        let hole = self.solution.scene().hole();
        let near = self.solution.found.places.strip.holds(hole, at);
        let played_from = Lie::on(hole.surface_at(at)).is_some();
        (near && played_from).then_some(Situation { at, lie: self.lie })
    }

    fn value(&self, at: Point, layer: Option<&Layer>) -> f64 {
        let Some(from) = self.situation(at) else {
            return f64::NAN;
        };
        let found = &self.solution.found;
        if found.places.holds(from) {
            let nodes = layer.map_or(&found.values.nodes, |layer| &layer.nodes);
            return found.places.value_at(nodes, from);
        }
        self.thought_value(from)
    }

    /// The value where the lie is only thought, by the best of the shots found around there.
    fn thought_value(&self, from: Situation) -> f64 {
        let (solution, found) = (&self.solution, &self.solution.found);
        let left = self.left.or(solution.most()).unwrap_or(0);
        let luck = found.luck.valuing(1);
        let looks: Vec<Looked> = if found.given.is_some() {
            vec![solution.look_over(from, None, luck)]
        } else {
            self.actions_around(from)
                .into_iter()
                .map(|action| solution.look_over(from, Some(action), luck))
                .collect()
        };
        let (_, place) = solution.best(&looks, left);
        self.told(&place, left)
    }

    /// The shots worth trying where the lie is only thought: unlike ones of those found around there.
    fn actions_around(&self, from: Situation) -> Vec<Action> {
        let node = self.wide.spot(from.at).node;
        let above = node + self.wide.columns;
        let mut actions = vec![Action::at_the_pin(self.solution.scene(), from)];
        for corner in [node, node + 1, above, above + 1] {
            for action in &self.thought[corner] {
                if !actions.iter().any(|a| a.is_like(action, from.at)) {
                    actions.push(*action);
                }
            }
        }
        actions
    }

    fn told(&self, place: &Place<'_>, left: usize) -> f64 {
        if self.left.is_some() {
            self.solution.chance_of(place, left)
        } else {
            self.solution.strokes_of(place, left)
        }
    }
}
