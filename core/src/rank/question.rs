//! What is asked about some plans.
use crate::hole::Hole;
use crate::noise::Seed;
use crate::plan::PlanFault;
use crate::setting::SettingFault;
use crate::simulate::Checkpoint;
use crate::situation::{PlaceFault, Situation};
use crate::text::is_plain;
use serde::{Deserialize, Serialize};

/// What is asked about some plans.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Question {
    /// Fixes the luck.
    pub seed: Seed,
    /// How long to play.
    pub length: Length,
    /// A blow-up is this many over par or worse.
    pub blow_up: u8,
    /// Milestones to count, with their names.
    pub checkpoints: Vec<(String, Checkpoint)>,
    /// The score at which the ball is picked up (Maximum Score, Rule 21.2), if there is one.
    pub maximum_score: Option<u8>,
    /// What every play begins from; None for the tee.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start: Option<Situation>,
}

/// When a comparison ends.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Length {
    /// After this many plays of every plan.
    Plays(u64),
    /// When the best plan's lead over each rival is known to within this many strokes, or after the
    /// most plays allowed.
    Precision {
        /// Half the width of the 95 % interval, strokes.
        strokes: f64,
        /// The most plays of every plan.
        most: u64,
    },
}

/// The plays after which a run to a precision is first judged; then every time it has grown by half.
pub(super) const FIRST_LOOK: u64 = 1_000;

/// The most plays one comparison may ask for.
pub const MOST_PLAYS: u64 = 1_000_000_000;

/// The most plans in one comparison: the pairs grow with the square of it.
pub const MOST_PLANS: usize = 500;

/// Why a comparison cannot be started.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CompareFault {
    /// No players.
    #[error("players is empty; give at least one player")]
    NoPlayers,
    /// A player who cannot be prepared for the hole, or cannot follow the plan.
    #[error("player {name:?}: {fault}")]
    Side {
        /// The name that tells the player from others.
        name: String,
        /// Why.
        fault: Box<CompareFault>,
    },
    /// No plans.
    #[error("plans is empty; give at least one plan")]
    NoPlans,
    /// Too many plans or players.
    #[error("{field} has {given} entries; it must have 1 to {MOST_PLANS}")]
    TooMany {
        /// What there are too many of.
        field: &'static str,
        /// How many were given.
        given: usize,
    },
    /// Two plans or players with one name.
    #[error("{field} has two named {name:?}; names must differ, they tell the results apart")]
    SameName {
        /// What they are.
        field: &'static str,
        /// The name.
        name: String,
    },
    /// A plan that this player cannot follow.
    #[error(transparent)]
    Plan(#[from] PlanFault),
    /// A player who cannot be prepared for the hole.
    #[error(transparent)]
    Setting(#[from] SettingFault),
    /// A place that no play begins from.
    #[error(transparent)]
    Place(#[from] PlaceFault),
    /// A solution worked out for another hole or player.
    #[error("solved is a solution for another hole or player; it must be one for those that play")]
    OtherScene,
    /// A number outside its range.
    #[error("{field} is {value}; it must be {allowed}")]
    Range {
        /// Name of the field.
        field: &'static str,
        /// The value given.
        value: f64,
        /// What is allowed.
        allowed: &'static str,
    },
    /// A plan that cannot be played by other players than the one its strategy was prepared for.
    #[error(
        "plan {plan:?} was solved for one player, or goes on by a strategy of your own, so it cannot be played by others: \
         leave out player_draws"
    )]
    OnePlayer {
        /// Its name.
        plan: String,
    },
    /// A plan whose strategy is asked by waves, where balls are played one at a time.
    #[error("plan {plan:?} goes on by a strategy of your own; {instead}")]
    Own {
        /// Its name.
        plan: String,
        /// What can be done.
        instead: &'static str,
    },
    /// A drawn player who cannot be prepared for the hole.
    #[error("player {number} of those drawn cannot play here: {fault}")]
    Player {
        /// Which of them, from 1.
        number: usize,
        /// Why.
        fault: String,
    },
    /// A checkpoint with a name that cannot be shown as it is.
    #[error("checkpoints has {name:?}; names must have no control characters")]
    CheckpointName {
        /// Its name.
        name: String,
    },
    /// A checkpoint with absurd numbers.
    #[error("checkpoint {name:?}: within_ft must be above 0 and after_strokes at least 1")]
    Checkpoint {
        /// Its name.
        name: String,
    },
}

impl Question {
    /// Twenty thousand plays; a blow-up is three over par or worse.
    #[must_use]
    pub fn new(seed: Seed) -> Self {
        Question {
            seed,
            length: Length::Plays(20_000),
            blow_up: 3,
            checkpoints: Vec::new(),
            maximum_score: None,
            start: None,
        }
    }

    /// What every play begins from.
    #[must_use]
    pub fn begins(&self, hole: &Hole) -> Situation {
        self.start.unwrap_or_else(|| Situation::on_the_tee(hole))
    }

    /// Checks what a written ranking says was asked, on a hole of a written par: sums of scores must stay sums.
    pub(super) fn check_written(&self, par: u8) -> Result<(), String> {
        let in_range = |field, value: u8, low: u8, high: u8| {
            if (low..=high).contains(&value) {
                Ok(())
            } else {
                Err(format!("{field} is {value}; it must be {low} to {high}"))
            }
        };
        in_range("par", par, 3, 6)?;
        in_range("blow_up", self.blow_up, 1, 20)
    }

    pub(super) fn check(&self, hole: &Hole) -> Result<(), CompareFault> {
        let range = |field, value: f64, ok: bool, allowed| {
            if ok {
                Ok(())
            } else {
                Err(CompareFault::Range {
                    field,
                    value,
                    allowed,
                })
            }
        };
        #[expect(clippy::cast_precision_loss, reason = "for a message")]
        match self.length {
            Length::Plays(n) => {
                range(
                    "plays",
                    n as f64,
                    (1..=MOST_PLAYS).contains(&n),
                    "1 to 1,000,000,000",
                )?;
            }
            Length::Precision { strokes, most } => {
                range(
                    "precision",
                    strokes,
                    (0.0005..=5.0).contains(&strokes),
                    "0.0005 to 5 strokes",
                )?;
                range(
                    "plays",
                    most as f64,
                    (FIRST_LOOK..=MOST_PLAYS).contains(&most),
                    "1,000 to 1,000,000,000",
                )?;
            }
        }
        range(
            "blow_up",
            f64::from(self.blow_up),
            (1..=20).contains(&self.blow_up),
            "1 to 20 over par",
        )?;
        if let Some(most) = self.maximum_score {
            range(
                "maximum_score",
                f64::from(most),
                most > hole.par() && most <= 60,
                "above par and at most 60",
            )?;
        }
        if let Some(Situation { at, lie }) = self.start {
            Situation::lying(hole, at, Some(lie))?;
        }
        if let Some((name, _)) = self.checkpoints.iter().find(|(name, _)| !is_plain(name)) {
            return Err(CompareFault::CheckpointName { name: name.clone() });
        }
        match self.checkpoints.iter().find(|(_, c)| !c.is_valid()) {
            Some((name, _)) => Err(CompareFault::Checkpoint { name: name.clone() }),
            None => Ok(()),
        }
    }
}
