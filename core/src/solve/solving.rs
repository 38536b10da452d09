//! A solution under way: wide first, then close, in steps.
use crate::plan::{Scene, Strategy};
use crate::run::Run;
use crate::solve::fault::SolveFault;
use crate::solve::finish::Finish;
use crate::solve::places::grid::Strip;
use crate::solve::places::spacing::Spacing;
use crate::solve::score::by_left::Stakes;
use crate::solve::search::level::{Effort, Level, Luck};
use crate::solve::solution::Solution;
use crate::solve::task::Task;
use std::sync::Arc;

/// A hole being solved for a player: it advances in steps, and can be left at any time.
///
/// A first look at widely spaced places, from the pin outward, finds which actions are worth a closer look around
/// there; closer places try those over more luck. The few best of each place make a finite game, which is solved by
/// value iteration; at last the chosen actions are valued over luck they were not chosen by.
pub struct Solving {
    scene: Arc<Scene>,
    /// What is solved: one task, or several that differ in their objectives alone.
    tasks: Vec<Task>,
    luck: Arc<Luck>,
    /// From the widest places to the closest.
    levels: Vec<Level>,
    stage: Stage,
    finish: Option<Finish>,
    done: u64,
    goal: u64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    /// Looking for actions at the places of a level.
    Look(usize),
    /// Solving the finite game of a level; the number of the sweep.
    Settle(usize, u32),
    /// Another look at the tee.
    Tee,
    Finish,
    Done,
}

/// After the first sweep of a table the most that follow, and the change of a value below which it is settled.
const MOST_SWEEPS: u32 = 60;
const SETTLED: f64 = 1e-3;
/// Sweeps that are mostly needed; for telling progress.
const USUAL_SWEEPS: u64 = 8;

/// Yards between the places of the levels before the last, and how many times as wide as the last they are at least: a level
/// between nearly as close as that costs as much and finds little.
const CELLS: [f64; 3] = [24.0, 14.0, 7.0];
const WIDER: f64 = 1.4;

impl Solving {
    /// Checks the task and lays the places; nothing has been solved yet.
    ///
    /// # Errors
    /// Every reason why the task cannot be done, see [`SolveFault`].
    pub fn new(scene: Arc<Scene>, task: Task) -> Result<Self, SolveFault> {
        Self::several(scene, vec![task])
    }

    /// Several tasks at once, that differ in their objectives alone.
    pub(super) fn several(scene: Arc<Scene>, tasks: Vec<Task>) -> Result<Self, SolveFault> {
        let strip = Strip::of(&scene);
        Self::several_on(scene, tasks, strip)
    }

    /// The same on the ground alone that most balls find: a ball farther astray is taken to lie at its edge. For many holes at a
    /// time, where nobody asks about such a ball.
    pub(crate) fn several_nearby(scene: Arc<Scene>, tasks: Vec<Task>) -> Result<Self, SolveFault> {
        let strip = Strip::of(&scene).narrowed();
        Self::several_on(scene, tasks, strip)
    }

    fn several_on(scene: Arc<Scene>, tasks: Vec<Task>, strip: Strip) -> Result<Self, SolveFault> {
        for task in &tasks {
            task.check()?;
        }
        let task = tasks.first().cloned().unwrap_or_default();
        let wider = CELLS.into_iter().filter(|&cell| cell >= WIDER * task.cell);
        let spacing = if task.thorough {
            Spacing::Even
        } else {
            Spacing::Graded
        };
        let levels = wider
            .chain([task.cell])
            .map(|cell| Level::new(&scene, strip, cell, spacing))
            .collect();
        let mut solving = Solving {
            luck: Arc::new(Luck::new(task.thorough)),
            scene,
            tasks,
            levels,
            stage: Stage::Look(0),
            finish: None,
            done: 0,
            goal: 0,
        };
        solving.goal = solving.usual_steps();
        Ok(solving)
    }

    /// A strategy to be valued as it is, in place of a hole to be solved: the solution plays like it and tells what it
    /// is worth.
    ///
    /// # Errors
    /// A cell out of range; a strategy that is for another hole or player.
    pub fn valuing(
        scene: Arc<Scene>,
        strategy: Arc<dyn Strategy>,
        cell: f64,
    ) -> Result<Self, SolveFault> {
        let task = Task {
            cell,
            ..Task::default()
        };
        task.check()?;
        if !strategy.suits(&scene) {
            return Err(SolveFault::OtherScene);
        }
        let level = Level::new(&scene, Strip::of(&scene), cell, Spacing::Graded);
        let goal = Finish::usual_steps(&level, &[]);
        Ok(Solving {
            luck: Arc::new(Luck::new(false)),
            scene,
            tasks: vec![task],
            finish: Some(Finish::of(&level, strategy)),
            levels: vec![level],
            stage: Stage::Finish,
            done: 0,
            goal,
        })
    }

    fn usual_steps(&self) -> u64 {
        let looks: u64 = (0..self.levels.len())
            .map(|number| {
                let step = self.effort(number).step.0;
                self.levels[number].len().div_ceil(step) as u64 + USUAL_SWEEPS
            })
            .sum();
        let Some(last) = self.levels.last() else {
            return looks;
        };
        looks + Finish::usual_steps(last, &self.stakes())
    }

    /// What is at stake in each task.
    fn stakes(&self) -> Vec<Option<(Stakes, usize)>> {
        let hole = self.scene.hole();
        self.tasks.iter().map(|task| task.stakes(hole)).collect()
    }

    fn is_bold(&self) -> bool {
        self.tasks.iter().any(Task::is_bold)
    }

    /// True where everything is tried at every place.
    fn is_thorough(&self) -> bool {
        self.tasks.iter().any(|task| task.thorough)
    }

    fn effort(&self, level: usize) -> &'static Effort {
        let last = level + 1 == self.levels.len();
        match (level, last, self.is_thorough()) {
            (_, true, true) => &Effort::THOROUGH,
            (0, false, _) => &Effort::COLD,
            (_, false, _) => &Effort::CLOSER,
            (_, true, false) => &Effort::LAST,
        }
    }

    fn step(&mut self) -> Stage {
        let last = self.levels.len() - 1;
        match self.stage {
            Stage::Look(number) => {
                let effort = self.effort(number);
                let bold = self.is_bold();
                let (wider, rest) = self.levels.split_at_mut(number);
                let level = &mut rest[0];
                level.look(&self.scene, wider.last(), effort, bold, &self.luck);
                if level.is_looked_at() {
                    Stage::Settle(number, 0)
                } else {
                    Stage::Look(number)
                }
            }
            Stage::Settle(number, sweep) => {
                let change = self.levels[number].improve();
                if change >= SETTLED && sweep < MOST_SWEEPS {
                    return Stage::Settle(number, sweep + 1);
                }
                if number < last {
                    let (wider, rest) = self.levels.split_at_mut(number + 1);
                    rest[0].begin(&wider[number]);
                    return Stage::Look(number + 1);
                }
                Stage::Tee
            }
            Stage::Tee => {
                let bold = self.is_bold();
                let level = &mut self.levels[last];
                level.look_at_the_tee(&self.scene, bold, &self.luck);
                self.finish = Some(Finish::new(&self.levels[last], self.stakes()));
                Stage::Finish
            }
            Stage::Finish => match &mut self.finish {
                Some(finish) if !finish.is_finished() => {
                    finish.step(&self.scene, &self.levels[last], &self.luck);
                    Stage::Finish
                }
                _ => Stage::Done,
            },
            Stage::Done => Stage::Done,
        }
    }

    /// The solution; None while the hole is not solved.
    #[must_use]
    pub fn solution(mut self) -> Option<Solution> {
        self.solutions().into_iter().next()
    }

    /// Hands over the solutions of all tasks; none while they are not solved.
    pub(crate) fn solutions(&mut self) -> Vec<Solution> {
        match (
            self.levels.last(),
            self.finish.take_if(|finish| finish.is_finished()),
        ) {
            (Some(level), Some(finish)) => {
                let tasks = std::mem::take(&mut self.tasks);
                finish.solutions(&self.scene, tasks, &level.places, &self.luck)
            }
            _ => Vec::new(),
        }
    }

    /// Goes on to other tasks once the solutions are handed over. They differ from the first in their objectives alone:
    /// what was looked at serves them, too.
    pub(super) fn go_on(&mut self, tasks: Vec<Task>) {
        self.tasks = tasks;
        let stakes = self.stakes();
        if let Some(level) = self.levels.last() {
            self.goal = self.done + Finish::usual_steps(level, &stakes);
            self.finish = Some(Finish::new(level, stakes));
            self.stage = Stage::Finish;
        }
    }

    /// Bytes that the tables take now.
    #[must_use]
    pub fn bytes(&self) -> usize {
        let levels: usize = self.levels.iter().map(|l| l.model.bytes()).sum();
        levels + self.finish.as_ref().map_or(0, Finish::bytes)
    }
}

impl Run for Solving {
    /// Takes up to `count` more steps on the current thread pool. What comes out depends neither on the number of
    /// threads nor on how the steps are parted.
    fn advance(&mut self, count: u64) {
        for _ in 0..count {
            if self.is_finished() {
                break;
            }
            self.stage = self.step();
            self.done += 1;
        }
        if self.is_finished() {
            self.goal = self.done;
        }
    }

    /// Steps done so far.
    fn done(&self) -> u64 {
        self.done
    }

    /// Steps in all, as far as is known.
    fn goal(&self) -> u64 {
        self.goal.max(self.done)
    }

    /// True when the hole is solved.
    fn is_finished(&self) -> bool {
        self.stage == Stage::Done
    }
}
