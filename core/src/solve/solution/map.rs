//! Values over the whole hole, as an array.
use crate::geometry::Point;
use crate::player::Lie;
use crate::run::Run;
use crate::shot::Shot;
use crate::situation::Situation;
use crate::solve::fault::SolveFault;
use crate::solve::places::grid::Grid;
use crate::solve::search::action::{Action, Mesh, offer, short_swings};
use crate::solve::search::level::Effort;
use crate::solve::search::shortlist::{Shortlist, Trials};
use crate::solve::solution::Solution;
use crate::solve::task::in_range;
use rayon::prelude::*;
use std::sync::Arc;

/// Values at the nodes of a grid.
#[derive(Clone, Debug, PartialEq)]
pub struct Map {
    /// Yards to the right of the plan's origin, one a column.
    pub x: Vec<f64>,
    /// Yards up from the plan's origin, one a row.
    pub y: Vec<f64>,
    /// Row by row; NaN where no ball is played from: out of bounds, in a penalty area.
    pub values: Vec<f64>,
}

/// A map being drawn: it advances in rows, and can be left at any time.
///
/// Where the lie occurs a node is worth what the stored choice is worth there. Elsewhere a ball is only thought to lie so:
/// the best of what is found from widely spaced places with that lie is played.
pub struct Mapping {
    solution: Arc<Solution>,
    lie: Lie,
    /// Strokes left, of a map of chances.
    left: Option<usize>,
    /// Widely spaced places, and the shots worth trying around them.
    wide: Grid,
    thought: Vec<Vec<Action>>,
    map: Map,
}

/// Yards between the places where shots are looked for besides those that are played.
const WIDE: f64 = 16.0;
/// How many are kept of each.
const KEPT: usize = 5;
/// How those found around a place are tried, to tell the best.
const AROUND: Trials = Trials::race((32, 64), 96, 1, (64, 0));
/// Over so much luck shots are valued where the lie occurs, and elsewhere.
const LUCK: (usize, usize) = (512, 128);

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
        let places = &solution.places;
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

    /// Looks for shots from the next row of widely spaced places.
    fn think(&mut self) {
        let first = self.thought.len();
        let row: Vec<Vec<Action>> = (first..first + self.wide.columns)
            .into_par_iter()
            .map(|node| self.thoughts(self.wide.point(node)))
            .collect();
        self.thought.extend(row);
    }

    fn thoughts(&self, at: Point) -> Vec<Action> {
        let solution = &self.solution;
        let from = match self.situation(at) {
            Some(from) if solution.given.is_none() => from,
            _ => return Vec::new(),
        };
        let sight = solution.sight();
        let mut shortlist = Shortlist::default();
        offer(solution.scene(), from, Mesh::WIDE, &mut shortlist.offers);
        let own = solution.values.at(&solution.places, from);
        let bold = solution.task.is_bold();
        shortlist.run(
            &sight,
            from,
            solution.luck.choosing(0),
            &Effort::COLD.trials,
            own,
            bold,
        );
        let tried = shortlist.tried().iter().take(KEPT + 2 * usize::from(bold));
        tried.map(|tried| tried.action).collect()
    }

    /// The map; None while it is not finished.
    #[must_use]
    pub fn map(self) -> Option<Map> {
        self.is_finished().then_some(self.map)
    }

    /// The situation thought of at a place; None where no ball is played from.
    fn situation(&self, at: Point) -> Option<Situation> {
        let surface = self.solution.scene().hole().surface_at(at);
        Lie::on(surface).map(|_| Situation { at, lie: self.lie })
    }

    /// The value at a place, by what is played there.
    fn value(&self, at: Point) -> f64 {
        let Some(from) = self.situation(at) else {
            return f64::NAN;
        };
        let solution = &self.solution;
        let left = self.left.or(solution.most()).unwrap_or(0);
        let (shot, luck) = match solution.stored(from, left) {
            Some(shot) => (shot, LUCK.0),
            None => (self.thought_of(from), LUCK.1),
        };
        let looked = solution.look_over(from, shot, &solution.luck.long_valuing[..luck]);
        let place = solution.place(&looked, left);
        if self.left.is_some() {
            solution.chance_of(&place, left)
        } else {
            solution.strokes_of(&place, left)
        }
    }

    /// The best shot of a ball that is only thought to lie so.
    fn thought_of(&self, from: Situation) -> Shot {
        let solution = &self.solution;
        let mut shortlist = Shortlist::default();
        shortlist.offers.extend(self.actions_around(from));
        let (own, bold) = (
            solution.values.at(&solution.places, from),
            solution.task.is_bold(),
        );
        let luck = &solution.luck.long;
        shortlist.run(&solution.sight(), from, luck, &AROUND, own, bold);
        match shortlist.tried().first() {
            Some(best) => best.shot,
            None => solution.at_the_pin(from),
        }
    }

    /// The shots worth trying: unlike ones of those found around there.
    fn actions_around(&self, from: Situation) -> Vec<Action> {
        let scene = self.solution.scene();
        let mut actions: Vec<Action> = vec![Action::at_the_pin(scene, from)];
        if from.lie == Lie::Green {
            return actions;
        }
        let mut short = Vec::new();
        short_swings(scene, from, &mut short);
        let node = self.wide.spot(from.at).node;
        let above = node + self.wide.columns;
        let corners = [node, node + 1, above, above + 1];
        let found = corners.into_iter().flat_map(|corner| &self.thought[corner]);
        for action in short.iter().chain(found) {
            let known = actions.iter().any(|known| known.is_like(action, from.at));
            if !known && action.is_stroke(scene, from) {
                actions.push(*action);
            }
        }
        actions
    }
}

impl Run for Mapping {
    /// Draws up to `count` more rows on the current thread pool.
    fn advance(&mut self, count: u64) {
        for _ in 0..count {
            if self.thought.len() < self.wide.len() {
                self.think();
                continue;
            }
            let number = self.map.values.len() / self.map.x.len();
            let Some(&y) = self.map.y.get(number) else {
                break;
            };
            let row: Vec<f64> = self
                .map
                .x
                .par_iter()
                .map(|&x| self.value(Point::new(x, y)))
                .collect();
            self.map.values.extend(row);
        }
    }

    /// Rows done so far, those of the first look included.
    fn done(&self) -> u64 {
        let rows = self.map.values.len() / self.map.x.len();
        (rows + self.thought.len() / self.wide.columns) as u64
    }

    /// Rows in all.
    fn goal(&self) -> u64 {
        (self.map.y.len() + self.wide.rows) as u64
    }
}
