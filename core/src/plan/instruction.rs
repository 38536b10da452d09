//! A plan: instructions for the first strokes, then a strategy for the rest.
use super::{Direct, Scene, Steady, Strategy, Waves};
use crate::figures::choice::OVERTAKEN;
use crate::geometry::Point;
use crate::hole::Hole;
use crate::player::{ClubId, Lie, PlayerFault};
use crate::shot::Shot;
use crate::situation::Situation;
use crate::text::{LONGEST_NAME, allowed, is_fit};
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// A place to aim at, told the way a coach tells it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Aim {
    /// Yards along the line of play from the tee, and yards to the right of it (left is negative).
    Along {
        /// Yards along the line of play from the tee.
        along: f64,
        /// Yards to the right of the line of play; left is negative.
        right: f64,
    },
    /// A point of the plan, yards.
    At {
        /// Yards to the right of the plan's origin.
        x: f64,
        /// Yards up from the plan's origin.
        y: f64,
    },
    /// Yards short of the front edge of the green on the line of play, and yards to the right of it (left is
    /// negative).
    ShortOfGreen {
        /// Yards along the line of play before the front edge of the green; negative is past it.
        yards: f64,
        /// Yards to the right of the line of play; left is negative.
        right: f64,
    },
}

impl Aim {
    /// The point of the plan of a hole that is aimed at.
    #[must_use]
    pub fn on(self, hole: &Hole) -> Point {
        match self {
            Aim::Along { along, right } => hole.line().at(along, right),
            Aim::At { x, y } => Point::new(x, y),
            Aim::ShortOfGreen { yards, right } => {
                hole.line().at(hole.front_of_green() - yards, right)
            }
        }
    }
}

/// What to do with one stroke.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Instruction {
    /// Swing a club over an aim: fully, or for a carry in yards.
    Shot {
        /// Name of the club.
        club: String,
        /// The point aimed over.
        aim: Aim,
        /// Carry meant, yards; None for a full swing.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        carry: Option<f64>,
    },
    /// Play to the place on the line of play that leaves this many yards to the pin. A ball that is no more than 20 yards
    /// farther from the pin is there, and plays the next instruction.
    Leave {
        /// Yards left to the pin.
        yards: f64,
    },
    /// Move the ball this many yards down the line of play. Passed over where that would leave 20 yards or less to the pin.
    Advance {
        /// Yards along the line of play.
        yards: f64,
    },
    /// Play at the pin, as far towards it as the longest club goes.
    AtPin {
        /// Clubs more than reach it in the middle of their pattern (less if negative), -6 to 6, with the same share of a
        /// swing.
        #[serde(default, skip_serializing_if = "is_zero")]
        clubs: i8,
    },
    /// Carry a place: the shortest club whose ball lands so far beyond it, swung fully over it.
    Carry {
        /// The place to carry.
        over: Aim,
        /// Yards beyond it at which the middle of the pattern lands.
        by: f64,
    },
    /// The very stroke, from whatever lie it suits and wherever the ball is: aimed over a place with nothing held off for
    /// wind or slope.
    Exactly {
        /// Name of a club, or of a stroke around the green: `putt`, `chip`, `pitch`, ...
        stroke: String,
        /// The place that is aimed over.
        over: Aim,
        /// Carry meant, yards; None for a full one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        carry: Option<f64>,
    },
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "asked for by serde")]
fn is_zero(clubs: &i8) -> bool {
    *clubs == 0
}

/// The strategy that takes over when the instructions are done, or do not suit.
#[derive(Clone)]
pub enum Then {
    /// At the pin whenever it can be reached.
    Direct,
    /// Where the whole pattern fits.
    Steady,
    /// The best play of the hole: it is solved for the hole and the player, and the plan then goes on by the solution, see
    /// [`Plan::going_on_by`].
    Best,
    /// Any other strategy, prepared for the scene it will be played in.
    Custom(Arc<dyn Strategy>),
    /// One that is asked for many balls at once; runs over many plays know how, single questions do not.
    Waves(Waves),
}

impl std::fmt::Debug for Then {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.name().unwrap_or("custom"))
    }
}

impl PartialEq for Then {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Then::Custom(a), Then::Custom(b)) => Arc::ptr_eq(a, b),
            (Then::Waves(a), Then::Waves(b)) => {
                Arc::ptr_eq(&a.strategy, &b.strategy) && a.otherwise == b.otherwise
            }
            _ => self.name().is_some() && self.name() == other.name(),
        }
    }
}

impl Then {
    /// The built-in strategies by name.
    pub const NAMES: [&'static str; 3] = ["direct", "steady", "best"];

    /// The name of a built-in strategy.
    #[must_use]
    pub fn name(&self) -> Option<&'static str> {
        match self {
            Then::Direct => Some("direct"),
            Then::Steady => Some("steady"),
            Then::Best => Some("best"),
            Then::Custom(_) | Then::Waves(_) => None,
        }
    }

    /// The strategy for a scene, with which balls are played one at a time: of one that is asked by waves the usual way.
    ///
    /// # Errors
    /// [`PlanFault::NotSolved`] for [`Then::Best`], which is no strategy before the hole is solved.
    pub fn strategy(&self, scene: &Scene) -> Result<Arc<dyn Strategy>, PlanFault> {
        match self {
            Then::Direct => Ok(Arc::new(Direct::new(scene))),
            Then::Steady => Ok(Arc::new(Steady::new(scene))),
            Then::Best => Err(PlanFault::NotSolved),
            Then::Custom(strategy) => Ok(strategy.clone()),
            Then::Waves(waves) => waves.otherwise.strategy(scene),
        }
    }

    /// True where the hole must be solved first.
    #[must_use]
    pub fn is_best(&self) -> bool {
        match self {
            Then::Best => true,
            Then::Waves(waves) => waves.otherwise.is_best(),
            _ => false,
        }
    }

    /// The same with `best` in place of [`Then::Best`].
    #[must_use]
    pub fn going_on_by(&self, best: &Arc<dyn Strategy>) -> Then {
        match self {
            Then::Best => Then::Custom(best.clone()),
            Then::Waves(waves) => Then::Waves(Waves {
                strategy: waves.strategy.clone(),
                otherwise: Box::new(waves.otherwise.going_on_by(best)),
            }),
            then => then.clone(),
        }
    }

    /// A built-in strategy by name.
    ///
    /// # Errors
    /// [`PlanFault::UnknownStrategy`] for any other name.
    pub fn from_name(name: &str) -> Result<Self, PlanFault> {
        match name {
            "direct" => Ok(Then::Direct),
            "steady" => Ok(Then::Steady),
            "best" => Ok(Then::Best),
            _ => Err(PlanFault::UnknownStrategy {
                given: name.to_owned(),
            }),
        }
    }
}

/// Why a plan cannot be made, or not with this player.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PlanFault {
    /// The plan has no name.
    #[error("name is empty; a plan needs a name to be told from others")]
    NoName,
    /// A name that cannot be shown as it is.
    #[error("name is {name:?}; it must be {}", allowed(LONGEST_NAME))]
    BadName {
        /// The name.
        name: String,
    },
    /// No strategy of that name.
    #[error("then is {given:?}; it must be \"direct\", \"steady\", \"best\" or a solution")]
    UnknownStrategy {
        /// The name given.
        given: String,
    },
    /// The best play of a hole, where it is not solved.
    #[error(
        "then is \"best\"; it must be \"direct\" or \"steady\" here, or a solution of the hole for this player"
    )]
    NotSolved,
    /// A number of an instruction is outside its range.
    #[error("{field} is {value}; it must be {allowed}")]
    Range {
        /// Name of the field.
        field: &'static str,
        /// The value given.
        value: f64,
        /// What is allowed.
        allowed: &'static str,
    },
    /// An instruction that would never be played: from the start its place is as good as reached.
    #[error(
        "{field} is {value}; on this hole it must be {allowed}: a place that is not more than 20 yards ahead of the \
         ball is passed over"
    )]
    Overtaken {
        /// What tells the place.
        field: &'static str,
        /// Yards given.
        value: f64,
        /// What is allowed.
        allowed: String,
    },
    /// An instruction of a plan is at fault.
    #[error("plan {plan:?}, instruction {number}: {fault}")]
    Instruction {
        /// Name of the plan.
        plan: String,
        /// Number of the instruction, from 1.
        number: usize,
        /// What is wrong with it.
        fault: Box<PlanFault>,
    },
    /// The plan cannot be written down.
    #[error("the plan cannot be written as a document: {reason}")]
    NoDocument {
        /// Why.
        reason: String,
    },
    /// A document that is not a plan.
    #[error("the plan's JSON document: {reason}")]
    BadDocument {
        /// What is wrong with it.
        reason: String,
    },
    /// A strategy worked out for another hole or player.
    #[error(
        "plan {plan:?}: then is a solution for another hole or player; it must be one for those that play"
    )]
    OtherScene {
        /// Name of the plan.
        plan: String,
    },
    /// The player has no such club.
    #[error("plan {plan:?}, instruction {number}: {fault}")]
    Club {
        /// Name of the plan.
        plan: String,
        /// Number of the instruction, from 1.
        number: usize,
        /// What the bag says.
        fault: PlayerFault,
    },
}

/// How the first strokes are to be played, and what happens then.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    name: String,
    instructions: Vec<Instruction>,
    then: Then,
}

impl Plan {
    /// Makes a plan.
    ///
    /// # Errors
    /// An empty name; a distance that is not a sensible number of yards.
    pub fn new(name: &str, instructions: Vec<Instruction>, then: Then) -> Result<Self, PlanFault> {
        if name.trim().is_empty() {
            return Err(PlanFault::NoName);
        }
        if !is_fit(name, LONGEST_NAME) {
            return Err(PlanFault::BadName {
                name: name.to_owned(),
            });
        }
        for (i, instruction) in instructions.iter().enumerate() {
            instruction
                .check()
                .map_err(|fault| PlanFault::Instruction {
                    plan: name.to_owned(),
                    number: i + 1,
                    fault: Box::new(fault),
                })?;
        }
        Ok(Plan {
            name: name.to_owned(),
            instructions,
            then,
        })
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its instructions, for the first strokes in order.
    #[must_use]
    pub fn instructions(&self) -> &[Instruction] {
        &self.instructions
    }

    /// The strategy that takes over.
    #[must_use]
    pub fn then(&self) -> &Then {
        &self.then
    }

    /// The same plan with `best`, a solution of the hole for the player, in place of [`Then::Best`].
    ///
    /// ```
    /// use std::sync::Arc;
    /// use wideberth::Run;
    /// use wideberth::hole::{Hole, Sketch};
    /// use wideberth::noise::Seed;
    /// use wideberth::plan::{Plan, Scene, Strategy, Then};
    /// use wideberth::player::Player;
    /// use wideberth::rank::{Comparison, Length, Question};
    /// use wideberth::solve::{Solving, Task};
    ///
    /// let hole = Arc::new(Hole::sketch(&Sketch::new(3, 150.0))?);
    /// let bag = Arc::new(Player::from_handicap(18.0)?.prepare());
    /// let scene = Arc::new(Scene::new(hole, bag)?);
    /// let mut run = Solving::new(scene.clone(), Task { cell: 8.0, ..Task::default() })?;
    /// run.finish();
    /// let best: Arc<dyn Strategy> = Arc::new(run.solution().ok_or("not solved")?);
    /// let plan = Plan::new("best", Vec::new(), Then::Best)?.going_on_by(&best);
    /// let question = Question { length: Length::Plays(2_000), ..Question::new(Seed(1)) };
    /// let mut comparison = Comparison::new(scene, &[plan], question)?;
    /// comparison.finish();
    /// assert!(comparison.ranking().mean(0).mean < 4.5);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn going_on_by(&self, best: &Arc<dyn Strategy>) -> Plan {
        Plan {
            then: self.then.going_on_by(best),
            ..self.clone()
        }
    }

    /// The plan for this player on this hole, ready to be played from `start` on.
    ///
    /// # Errors
    /// A strategy for another scene, a club that the player has not, an instruction that would be passed over at the
    /// start.
    pub(crate) fn ready(
        &self,
        scene: &Scene,
        then: Arc<dyn Strategy>,
        start: Situation,
    ) -> Result<Ready, PlanFault> {
        if !then.suits(scene) {
            return Err(PlanFault::OtherScene {
                plan: self.name.clone(),
            });
        }
        let steps = self
            .instructions
            .iter()
            .enumerate()
            .map(|(i, instruction)| {
                let step = instruction.ready(&self.name, i + 1, scene)?;
                step.check(scene, start)
                    .map_err(|fault| PlanFault::Instruction {
                        plan: self.name.clone(),
                        number: i + 1,
                        fault: Box::new(fault),
                    })?;
                Ok(step)
            })
            .collect::<Result<_, _>>()?;
        let own = match &self.then {
            Then::Waves(waves) => Some(waves.clone()),
            _ => None,
        };
        Ok(Ready { steps, then, own })
    }
}

impl Instruction {
    /// Checks the numbers.
    ///
    /// # Errors
    /// [`PlanFault::Range`] for the first number that is not sensible.
    pub fn check(&self) -> Result<(), PlanFault> {
        let within = |field, value: f64, low: f64, high: f64, allowed| {
            if value >= low && value <= high {
                Ok(())
            } else {
                Err(PlanFault::Range {
                    field,
                    value,
                    allowed,
                })
            }
        };
        let place = |aim: Aim| {
            let aside = |right| {
                within(
                    "right (minus left)",
                    right,
                    -500.0,
                    500.0,
                    "-500 to 500 yards",
                )
            };
            match aim {
                Aim::Along { along, right } => {
                    within("along", along, 0.0, 2000.0, "0 to 2000 yards")?;
                    aside(right)
                }
                Aim::At { x, y } => {
                    within("x", x, -1e5, 1e5, "a finite number of yards")?;
                    within("y", y, -1e5, 1e5, "a finite number of yards")
                }
                Aim::ShortOfGreen { yards, right } => {
                    let allowed = "-500 to 2000 yards";
                    within("short_of_green", yards, -500.0, 2000.0, allowed)?;
                    aside(right)
                }
            }
        };
        match self {
            Instruction::Shot { aim, carry, .. } => {
                place(*aim)?;
                carry.map_or(Ok(()), |c| within("carry", c, 1.0, 450.0, "1 to 450 yards"))
            }
            Instruction::Leave { yards } => within("leave", *yards, 1.0, 1000.0, "1 to 1000 yards"),
            Instruction::Advance { yards } => {
                within("advance", *yards, 1.0, 450.0, "1 to 450 yards")
            }
            Instruction::AtPin { clubs } => {
                within("clubs", f64::from(*clubs), -6.0, 6.0, "-6 to 6")
            }
            Instruction::Carry { over, by } => {
                place(*over)?;
                within("by", *by, 0.0, 100.0, "0 to 100 yards")
            }
            Instruction::Exactly { over, carry, .. } => {
                place(*over)?;
                carry.map_or(Ok(()), |c| within("carry", c, 0.0, 450.0, "0 to 450 yards"))
            }
        }
    }

    fn ready(&self, plan: &str, number: usize, scene: &Scene) -> Result<Step, PlanFault> {
        let no_club = |fault| PlanFault::Club {
            plan: plan.to_owned(),
            number,
            fault,
        };
        Ok(match self {
            Instruction::Shot { club, aim, carry } => Step::Swing {
                club: scene.bag().find(club).map_err(no_club)?,
                target: aim.on(scene.hole()),
                along: scene.hole().line().station(aim.on(scene.hole())).along,
                carry: carry.unwrap_or(f64::INFINITY),
            },
            Instruction::Leave { yards } => Step::Leave {
                target: leaving(scene, *yards),
                yards: *yards,
            },
            Instruction::Advance { yards } => Step::Advance { yards: *yards },
            Instruction::AtPin { clubs } => Step::AtPin { clubs: *clubs },
            Instruction::Carry { over, by } => Step::Carry {
                over: over.on(scene.hole()),
                along: scene.hole().line().station(over.on(scene.hole())).along,
                by: *by,
            },
            Instruction::Exactly {
                stroke,
                over,
                carry,
            } => Step::Exactly(Shot {
                stroke: scene.stroke(stroke).map_err(no_club)?,
                target: over.on(scene.hole()),
                carry: carry.unwrap_or(f64::INFINITY),
            }),
        })
    }
}

/// The point on the line of play, nearest the green, from which `yards` are left to the pin.
fn leaving(scene: &Scene, yards: f64) -> Point {
    let (hole, line) = (scene.hole(), scene.hole().line());
    let mut along = line.length();
    while along > 0.0 && (line.at(along, 0.0) - hole.pin()).norm() < yards {
        along -= 0.5;
    }
    line.at(along.max(0.0), 0.0)
}

/// A plan with its clubs and targets looked up.
pub(crate) struct Ready {
    steps: Vec<Step>,
    then: Arc<dyn Strategy>,
    /// What is asked by waves before that.
    own: Option<Waves>,
}

enum Step {
    Swing {
        club: ClubId,
        target: Point,
        /// Yards along the line of play to the target.
        along: f64,
        carry: f64,
    },
    Leave {
        target: Point,
        yards: f64,
    },
    Advance {
        yards: f64,
    },
    AtPin {
        clubs: i8,
    },
    Carry {
        over: Point,
        /// Yards along the line of play to it.
        along: f64,
        by: f64,
    },
    Exactly(Shot),
}

impl Ready {
    /// The shot of the instruction that is played from a situation, if any is, and which comes after it; `next` is the one
    /// due now.
    ///
    /// An instruction is meant for a ball in play from tee, fairway or rough. From trouble and on the
    /// green the strategy decides, and the instruction stays due; only an exact stroke is played from every lie that it
    /// suits, and passed over elsewhere. One that has been overtaken (its
    /// landing place is behind the ball or no more than 20 yards ahead) is done: the next one is due.
    #[inline]
    pub(crate) fn instructed(
        &self,
        scene: &Scene,
        from: Situation,
        next: usize,
    ) -> (Option<Shot>, usize) {
        if next < self.steps.len() {
            self.instruction(scene, from, next)
        } else {
            (None, next)
        }
    }

    fn instruction(&self, scene: &Scene, from: Situation, next: usize) -> (Option<Shot>, usize) {
        let in_play = matches!(
            from.lie,
            Lie::Tee | Lie::Fairway | Lie::FirstCut | Lie::Rough
        );
        let mut due = next;
        while let Some(step) = self.steps.get(due) {
            if !in_play && !matches!(step, Step::Exactly(_)) {
                break;
            }
            due += 1;
            if let Some(shot) = step.shot(scene, from) {
                return (Some(shot), due);
            }
        }
        (None, due)
    }

    /// What is asked by waves for balls without an instruction.
    pub(crate) fn own(&self) -> Option<&Waves> {
        self.own.as_ref()
    }

    pub(crate) fn strategy(&self) -> &dyn Strategy {
        &*self.then
    }
}

impl Step {
    /// Yards from a ball to the place of this step along the line of play, or, where the place is told from the pin, by
    /// which the ball is farther from the pin.
    fn ahead(&self, hole: &Hole, from: Situation) -> f64 {
        match *self {
            Step::Swing { along, .. } | Step::Carry { along, .. } => {
                along - hole.line().station(from.at).along
            }
            Step::Leave { yards, .. } | Step::Advance { yards } => from.to_pin(hole) - yards,
            Step::AtPin { .. } | Step::Exactly(_) => f64::INFINITY,
        }
    }

    /// Refuses a step that has been overtaken at the start.
    fn check(&self, scene: &Scene, start: Situation) -> Result<(), PlanFault> {
        let hole = scene.hole();
        if self.ahead(hole, start) > OVERTAKEN {
            return Ok(());
        }
        let most = start.to_pin(hole) - OVERTAKEN;
        let least = hole.line().station(start.at).along + OVERTAKEN;
        let from_pin = || format!("below {most:.0} yards");
        let from_tee = || format!("more than {least:.0} yards along the line of play");
        let (field, value, allowed) = match *self {
            Step::Swing { along, .. } => ("the aim", along, from_tee()),
            Step::Carry { along, .. } => ("the place to carry", along, from_tee()),
            Step::Leave { yards, .. } => ("leave", yards, from_pin()),
            Step::Advance { yards } => ("advance", yards, from_pin()),
            Step::AtPin { .. } | Step::Exactly(_) => return Ok(()),
        };
        Err(PlanFault::Overtaken {
            field,
            value,
            allowed,
        })
    }

    /// The shot from a ball, unless this step has been overtaken or does not suit the lie.
    fn shot(&self, scene: &Scene, from: Situation) -> Option<Shot> {
        let hole = scene.hole();
        if self.ahead(hole, from) <= OVERTAKEN {
            return None;
        }
        Some(match *self {
            Step::Swing {
                club,
                target,
                carry,
                ..
            } => scene.swing_over(from, club, target, carry),
            Step::Leave { target, .. } => scene.shot_at(from, target),
            Step::Advance { yards } => {
                let along = hole.line().station(from.at).along;
                scene.shot_at(from, hole.line().at(along + yards, 0.0))
            }
            Step::AtPin { clubs } => scene.shot_with(from, hole.pin(), clubs),
            Step::Carry { over, by, .. } => scene.shot_to_carry(from, over, by),
            Step::Exactly(shot) => {
                let most = scene.most_carry(from.lie, shot.stroke)?;
                Shot {
                    carry: shot.carry.min(most),
                    ..shot
                }
            }
        })
    }
}
