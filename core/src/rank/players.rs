//! Plans played by plausible players, one after the other, in waves.
use super::across::{Drawn, TellingClub};
use super::explain::{Explained, explained};
use super::{AcrossPlayers, CompareFault, Comparison, Length, Question};
use crate::hole::Hole;
use crate::plan::{Plan, Scene, Then};
use crate::player::{Club, Player};
use crate::run::Run;
use rayon::prelude::*;
use std::collections::VecDeque;
use std::sync::Arc;

/// The most players that may be drawn.
pub const MOST_PLAYERS: usize = 1000;

/// Plays of every plan by each player when the comparison itself runs to a precision.
const USUAL_PLAYS: u64 = 20_000;

/// The plays of one player are numbered from a multiple of this, so that no two players meet the same luck and their results
/// are independent. The comparison itself has the plays below it.
const APART: u64 = 1 << 32;

/// A run of some plans by some plausible players: it advances in waves.
pub struct PlayersRun {
    hole: Arc<Hole>,
    players: Vec<Player>,
    plans: Vec<Plan>,
    question: Question,
    source: String,
    halves: [u64; 2],
    /// Comparisons prepared and not yet played to their end.
    ready: VecDeque<Comparison>,
    /// Strokes of the first of them over the first half of its plays, once it has got there.
    first_half: Option<Vec<u64>>,
    /// Players prepared so far.
    prepared: usize,
    strokes: Vec<[Vec<u64>; 2]>,
    /// The clubs that the plans use.
    clubs: Vec<String>,
    fault: Option<CompareFault>,
}

impl PlayersRun {
    /// Checks everything; nothing has been prepared or played yet. `of` is the comparison for the player as fitted, whose
    /// question and clubs are used; `source` says in words what the players were drawn from.
    ///
    /// # Errors
    /// Fewer than 2 players or more than [`MOST_PLAYERS`]; fewer than 2 plays; a plan whose strategy was prepared for one
    /// player.
    pub fn new(
        of: &Comparison,
        hole: Arc<Hole>,
        players: Vec<Player>,
        plans: &[Plan],
        source: String,
    ) -> Result<Self, CompareFault> {
        let fault = |field, value, allowed| {
            Err(CompareFault::Range {
                field,
                value,
                allowed,
            })
        };
        #[expect(clippy::cast_precision_loss, reason = "for a message")]
        if !(2..=MOST_PLAYERS).contains(&players.len()) {
            return fault("player_draws", players.len() as f64, "2 to 1,000");
        }
        let mut question = of.question().clone();
        let plays = match question.length {
            Length::Plays(plays) => plays,
            Length::Precision { most, .. } => most.min(USUAL_PLAYS),
        };
        if plays < 2 {
            return fault("plays", 1.0, "2 or more with player_draws");
        }
        if let Some(plan) = plans
            .iter()
            .find(|p| matches!(p.then(), Then::Custom(_) | Then::Waves(_) | Then::Best))
        {
            return Err(CompareFault::OnePlayer {
                plan: plan.name().to_owned(),
            });
        }
        question.length = Length::Plays(plays);
        question.checkpoints.clear();
        Ok(PlayersRun {
            hole,
            strokes: Vec::with_capacity(players.len()),
            players,
            plans: plans.to_vec(),
            question,
            source,
            halves: [plays / 2, plays - plays / 2],
            ready: VecDeque::new(),
            first_half: None,
            prepared: 0,
            clubs: of.clubs_used(),
            fault: None,
        })
    }

    fn each(&self) -> u64 {
        self.halves[0] + self.halves[1]
    }

    fn prepare(&mut self) {
        let to = (self.prepared + rayon::current_num_threads()).min(self.players.len());
        let made: Result<Vec<_>, CompareFault> = (self.prepared..to)
            .into_par_iter()
            .map(|at| self.comparison(at))
            .collect();
        match made {
            Ok(made) => self.ready.extend(made),
            Err(fault) => self.fault = Some(fault),
        }
        self.prepared = to;
    }

    fn comparison(&self, at: usize) -> Result<Comparison, CompareFault> {
        let bag = Arc::new(self.players[at].prepare());
        let scene = Scene::new(self.hole.clone(), bag).map_err(|fault| CompareFault::Player {
            number: at + 1,
            fault: fault.to_string(),
        })?;
        let comparison = Comparison::new(scene, &self.plans, self.question.clone())?;
        Ok(comparison.beginning_at(APART * (1 + at as u64)))
    }

    /// What has been found.
    ///
    /// # Errors
    /// A drawn player who cannot be prepared for this hole.
    pub fn found(self) -> Result<AcrossPlayers, CompareFault> {
        if let Some(fault) = self.fault {
            return Err(fault);
        }
        let across = AcrossPlayers::of(Drawn {
            source: self.source,
            names: self.plans.iter().map(|p| p.name().to_owned()).collect(),
            plays: self.halves,
            strokes: self.strokes,
            clubs: Vec::new(),
        });
        let Some(rival) = across.rival() else {
            return Ok(across);
        };
        let leads = across.leads(across.choice(), rival);
        let mut clubs: Vec<TellingClub> = self
            .clubs
            .into_iter()
            .filter_map(|club| {
                let drawn: Option<Vec<&Club>> =
                    self.players.iter().map(|p| p.club(&club).ok()).collect();
                let Explained { share, by_chance } = explained(&leads, &figures(&drawn?))?;
                Some(TellingClub {
                    club,
                    share,
                    by_chance,
                })
            })
            .collect();
        // Stable, so that equal ones stay in the order of the bag.
        clubs.sort_by(|a, b| b.share.total_cmp(&a.share));
        Ok(across.with_clubs(clubs))
    }
}

impl Run for PlayersRun {
    /// Plays up to `count` more plays of every plan on the current thread pool; or, where no player is ready, prepares as many
    /// as there are threads.
    fn advance(&mut self, count: u64) {
        if self.is_finished() {
            return;
        }
        let Some(playing) = self.ready.front_mut() else {
            self.prepare();
            return;
        };
        let half = self.halves[0];
        if playing.done() < half {
            playing.advance(count.min(half - playing.done()));
            if playing.done() == half {
                self.first_half = Some(playing.strokes());
            }
            return;
        }
        playing.advance(count);
        if playing.is_finished() {
            let first = self.first_half.take().unwrap_or_default();
            let both = playing.strokes();
            let second = both.iter().zip(&first).map(|(both, first)| both - first);
            let second = second.collect();
            self.strokes.push([first, second]);
            self.ready.pop_front();
        }
    }

    /// Plays of every plan so far, over all players.
    fn done(&self) -> u64 {
        let under_way = self.ready.front().map_or(0, Comparison::done);
        self.strokes.len() as u64 * self.each() + under_way
    }

    /// Plays of every plan when it is finished.
    fn goal(&self) -> u64 {
        self.players.len() as u64 * self.each()
    }

    /// True when every player has played, or one cannot be prepared.
    fn is_finished(&self) -> bool {
        self.fault.is_some() || self.strokes.len() == self.players.len()
    }
}

/// The figures of one club over the players, figure by figure. Carry and bias come squared, too: with trouble on both sides
/// it matters how far the bias is from none, whichever way, and with trouble at one distance both more and less are good.
fn figures(clubs: &[&Club]) -> [Vec<f64>; 6] {
    let of = |figure: fn(&Club) -> f64| clubs.iter().map(|club| figure(club)).collect();
    [
        of(|c| c.carry),
        of(|c| c.carry * c.carry),
        of(|c| c.lateral_bias),
        of(|c| c.lateral_bias * c.lateral_bias),
        of(|c| c.lateral_sd),
        of(|c| c.mishit_share),
    ]
}
