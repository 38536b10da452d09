//! The end of a solution: decisions by strokes left, and what the chosen actions are worth.
use crate::noise::Noise;
use crate::plan::{Scene, Strategy};
use crate::situation::Situation;
use crate::solve::places::Places;
use crate::solve::score::by_left::{Decisions, Stakes, decide_next};
use crate::solve::search::action::Action;
use crate::solve::search::level::{Level, Luck, STEP, in_parts};
use crate::solve::search::model::{ByPlace, Model, Part};
use crate::solve::search::sight::Sight;
use crate::solve::solution::Solution;
use crate::solve::task::Task;
use std::sync::{Arc, OnceLock};

/// The last steps towards a solution.
pub(super) struct Finish {
    /// What is at stake, and in how many strokes at the most, by task; None where strokes alone count.
    stakes: Vec<Option<(Stakes, usize)>>,
    decisions: Vec<Decisions>,
    /// A strategy to be valued as it is.
    given: Option<Arc<dyn Strategy>>,
    played: Model,
    values: ByPlace,
    stage: Stage,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    /// Deciding with one stroke more left.
    Decide,
    /// Finding out where the chosen actions end.
    Play,
    /// The fixed point of what they are worth; the number of the sweep.
    Settle(u32),
    Done,
}

/// After the first sweep of a table the most that follow, and the change below which it is settled.
const MOST_SWEEPS: u32 = 100;
const SETTLED: f64 = 2e-5;

impl Finish {
    /// Begins with the values and choices of a settled level, for tasks with these stakes.
    pub(super) fn new(level: &Level, stakes: Vec<Option<(Stakes, usize)>>) -> Self {
        let decisions = |stakes: &Option<(Stakes, usize)>| Decisions {
            stakes: stakes.map_or(Stakes::STROKES, |(stakes, _)| stakes),
            ..Decisions::of_strokes()
        };
        Finish {
            decisions: stakes.iter().map(decisions).collect(),
            stakes,
            given: None,
            played: Model::default(),
            values: level.values.clone(),
            stage: Stage::Decide,
        }
    }

    /// Begins with a strategy to be valued as it is.
    pub(super) fn of(level: &Level, given: Arc<dyn Strategy>) -> Self {
        Finish {
            stakes: vec![None],
            decisions: vec![Decisions::of_strokes()],
            given: Some(given),
            played: Model::default(),
            values: level.values.clone(),
            stage: Stage::Play,
        }
    }

    pub(super) fn is_finished(&self) -> bool {
        self.stage == Stage::Done
    }

    /// Bytes of its table.
    pub(super) fn bytes(&self) -> usize {
        self.played.bytes()
    }

    /// Steps that it mostly takes.
    pub(super) fn usual_steps(level: &Level, stakes: &[Option<(Stakes, usize)>]) -> u64 {
        let decided: usize = stakes.iter().flatten().map(|&(_, most)| most).sum();
        (decided + level.places.states().len().div_ceil(STEP.0) + 12) as u64
    }

    /// Takes one step.
    pub(super) fn step(&mut self, scene: &Scene, level: &Level, luck: &Luck) {
        self.stage = match self.stage {
            Stage::Decide => {
                let open = |&task: &usize| {
                    let most = self.stakes[task].map_or(0, |(_, most)| most);
                    self.decisions[task].by_left.len() < most
                };
                match (0..self.stakes.len()).find(open) {
                    Some(task) => {
                        self.decide(level, task);
                        Stage::Decide
                    }
                    None => Stage::Play,
                }
            }
            Stage::Play => {
                self.play(scene, level, luck);
                if self.played.len() == level.places.states().len() {
                    if self.given.is_none() {
                        self.renumber(level);
                    }
                    Stage::Settle(0)
                } else {
                    Stage::Play
                }
            }
            Stage::Settle(sweep) => {
                let fixed = self.given.is_some();
                let change = self.played.evaluate(&level.places, &mut self.values, fixed);
                if change < SETTLED || sweep == MOST_SWEEPS {
                    Stage::Done
                } else {
                    Stage::Settle(sweep + 1)
                }
            }
            Stage::Done => Stage::Done,
        };
    }

    /// Decides a task with one stroke more left. With as many left, two with the same stakes decide alike.
    fn decide(&mut self, level: &Level, task: usize) {
        let (stakes, known) = (
            self.decisions[task].stakes,
            self.decisions[task].by_left.len(),
        );
        let decided = |other: &&Decisions| other.stakes == stakes && other.by_left.len() > known;
        let alike = self.decisions.iter().find(decided);
        match alike.map(|other| (other.by_left[known].clone(), other.chosen[known].clone())) {
            Some((by_place, chosen)) => self.decisions[task].push(by_place, chosen),
            None => decide_next(level, &mut self.decisions[task]),
        }
    }

    /// Finds out where the chosen actions of the next places end, over luck they were not chosen by.
    fn play(&mut self, scene: &Scene, level: &Level, luck: &Luck) {
        let first = self.played.len();
        let sight = Sight {
            scene,
            places: &level.places,
            values: &self.values.nodes,
        };
        let states = &level.places.states()[first..];
        let states = &states[..states.len().min(STEP.0)];
        let parts = in_parts(first, states, STEP.1, |_, number, state, part| {
            let luck = luck.valuing(number);
            if let Some(given) = &self.given {
                part.add_given(&sight, &**given, state.situation, luck);
                part.end_state(1);
            } else {
                let taken = self.taken(level, number);
                for &action in &taken {
                    let action = &level.model.actions(number)[usize::from(action)];
                    let action = level.smoothed(scene, state.situation, action);
                    part.add(&sight, number, action, luck);
                }
                part.end_state(taken.len());
            }
            None
        });
        for (part, _) in &parts {
            self.played.extend(part);
        }
    }

    /// Every action that is chosen in a state by some task with some number of strokes left, the usual one first.
    fn taken(&self, level: &Level, state: usize) -> Vec<u8> {
        let mut taken = vec![level.chosen[state]];
        for chosen in self.decisions.iter().flat_map(|d| &d.chosen) {
            if !taken.contains(&chosen[state]) {
                taken.push(chosen[state]);
            }
        }
        taken
    }

    /// Makes every choice the number of its action among [`Finish::taken`], which are those of `played`; nothing is chosen
    /// where a strategy was given.
    fn renumber(&mut self, level: &Level) {
        for state in 0..level.places.states().len() {
            let taken = self.taken(level, state);
            for chosen in self.decisions.iter_mut().flat_map(|d| &mut d.chosen) {
                let number = taken.iter().position(|&action| action == chosen[state]);
                #[expect(clippy::cast_possible_truncation, reason = "a few actions")]
                let number = number.unwrap_or(0) as u8;
                chosen[state] = number;
            }
        }
    }

    /// What has been found, for every task.
    pub(super) fn solutions(
        self,
        scene: &Arc<Scene>,
        tasks: Vec<Task>,
        places: &Arc<Places>,
        luck: &Arc<Luck>,
    ) -> Vec<Solution> {
        let played = Arc::new(self.played);
        let solution = |(decisions, task): (Decisions, Task)| Solution {
            scene: scene.clone(),
            task,
            places: places.clone(),
            luck: luck.clone(),
            played: played.clone(),
            values: self.values.clone(),
            decisions,
            given: self.given.clone(),
            chances: OnceLock::new(),
            for_score: OnceLock::new(),
        };
        self.decisions
            .into_iter()
            .zip(tasks)
            .map(solution)
            .collect()
    }
}

impl Part {
    /// Adds the shot of a strategy with its outcomes over some luck, with the drops that the strategy takes.
    fn add_given(
        &mut self,
        sight: &Sight<'_>,
        given: &dyn Strategy,
        from: Situation,
        luck: &[Noise],
    ) {
        let shot = given.choose(sight.scene, from, 0);
        let addressed = sight.scene.address(from, &shot);
        let codes = luck
            .iter()
            .map(|noise| sight.code_by(given, &addressed, noise));
        self.add_codes(
            // Never played from: the strategy is asked anew.
            Action {
                stroke: shot.stroke,
                target: shot.target,
            },
            codes,
        );
    }
}
