//! Plays side by side, a stroke at a time, for strategies that are asked for many balls at once.
use super::play::Playing;
use super::{Listener, Played};
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Ball, Ready, Scene, WaveFault, Waves};
use crate::shot::Shot;
use crate::situation::Situation;
use rayon::prelude::*;
use std::ops::Range;

/// Plays that go side by side at most, and where they are cut: at multiples of it, whatever the size of the waves of a run.
pub(crate) const ABREAST: u64 = 4_096;

/// The end of a wave of some plays from `done` on, such that the same plays always go side by side.
pub(crate) fn wave_end(done: u64, count: u64) -> u64 {
    done.saturating_add(count.max(1))
        .div_ceil(ABREAST)
        .saturating_mul(ABREAST)
}

/// One of the plays that go side by side.
struct Abreast<L> {
    slot: usize,
    playing: Playing,
    listener: L,
}

/// Plays numbered so under a plan whose strategy is asked by waves, in their order; see [`super::play`].
///
/// # Errors
/// What the strategy broke off with, or an answer of its that cannot be played.
pub(crate) fn abreast<L: Listener + Default + Send>(
    scene: &Scene,
    (plan, own): (&Ready, &Waves),
    start: Situation,
    seed: Seed,
    pick_up: u8,
    plays: Range<u64>,
) -> Result<Vec<(Played, L)>, WaveFault> {
    let mut ended: Vec<Option<(Played, L)>> = plays.clone().map(|_| None).collect();
    let mut in_play: Vec<Abreast<L>> = (0..ended.len())
        .map(|slot| Abreast {
            slot,
            playing: Playing::new(start),
            listener: L::default(),
        })
        .collect();
    let number = |slot: usize| plays.start + slot as u64;
    for stroke in 0.. {
        if in_play.is_empty() {
            break;
        }
        let choices = choices(scene, (plan, own), &in_play, number)?;
        let last: Vec<bool> = in_play
            .par_iter_mut()
            .zip(choices)
            .map(|(one, choice)| {
                let noise = PlayNoise::new(seed, number(one.slot)).stroke(stroke);
                let (playing, listener) = (&mut one.playing, &mut one.listener);
                playing.chosen(scene, plan, choice, &noise, pick_up, listener)
            })
            .collect();
        let mut still = Vec::with_capacity(in_play.len());
        for (one, last) in in_play.into_iter().zip(last) {
            if last {
                ended[one.slot] = Some((one.playing.played(pick_up), one.listener));
            } else {
                still.push(one);
            }
        }
        in_play = still;
    }
    Ok(ended.into_iter().flatten().collect())
}

/// A shot, or None for what the usual way plays, and the instruction that is due after it.
type Choice = (Option<Shot>, usize);

/// What is played next by every ball in play: its instruction, or what the strategy answers for those without.
fn choices<L>(
    scene: &Scene,
    (plan, own): (&Ready, &Waves),
    in_play: &[Abreast<L>],
    number: impl Fn(usize) -> u64,
) -> Result<Vec<Choice>, WaveFault> {
    let instructed = in_play
        .iter()
        .map(|one| one.playing.instructed(scene, plan));
    let mut choices: Vec<Choice> = instructed.collect();
    let balls: Vec<Ball> = in_play
        .iter()
        .zip(&choices)
        .filter(|(_, (shot, _))| shot.is_none())
        .map(|(one, _)| Ball {
            play: number(one.slot),
            score: one.playing.score(),
            from: one.playing.ball(),
        })
        .collect();
    let answers = own.ask(scene, &balls)?;
    let open = choices.iter_mut().filter(|(shot, _)| shot.is_none());
    for ((shot, _), answer) in open.zip(answers) {
        *shot = answer;
    }
    Ok(choices)
}
