//! One spacing of places: what is tried at each, and the finite game that comes of it.
use super::action::{Action, Mesh, offer};
use super::luck;
use super::model::{ByPlace, Model, Part};
use super::neighbours::hand_on;
use super::shortlist::{Shortlist, Trials};
use super::sight::Sight;
use crate::noise::Noise;
use crate::plan::Scene;
use crate::solve::places::grid::Strip;
use crate::solve::places::spacing::Spacing;
use crate::solve::places::{Places, State};
use rayon::prelude::*;
use std::sync::Arc;

/// The places of a hole with what is known of them.
pub(in crate::solve) struct Level {
    pub(in crate::solve) places: Arc<Places>,
    pub(in crate::solve) model: Model,
    /// Strokes to come.
    pub(in crate::solve) values: ByPlace,
    /// The action chosen, by state, as its number among the state's own.
    pub(in crate::solve) chosen: Vec<u8>,
}

/// Luck for choosing, and for finding out what the chosen are worth: independent, so that what looked best by chance
/// is not also paid for it.
///
/// Neighbouring places have different sets of both, so that their errors even out.
pub(in crate::solve) struct Luck {
    choosing: Vec<Vec<Noise>>,
    valuing: Vec<Vec<Noise>>,
    /// For choosing at the tee, and for answers about single places.
    pub(in crate::solve) long: Vec<Noise>,
    /// For valuing there.
    pub(in crate::solve) long_valuing: Vec<Noise>,
}

/// Sets of luck for choosing.
const CHOOSING: u32 = 16;
/// Sets of luck for valuing. Places with the same set share its error: with 8 sets of 128 strokes the values of all
/// fairways were 0.002 to 0.006 too low for each stroke played, with 64 sets less than 0.001.
const VALUING: u32 = 64;

impl Luck {
    pub(in crate::solve) fn new(thorough: bool) -> Self {
        let more = if thorough { 2 } else { 0 };
        Luck {
            choosing: (0..CHOOSING)
                .map(|set| luck::even(7 + more, 1000 + set))
                .collect(),
            valuing: (0..VALUING)
                .map(|set| luck::even(6 + more, 100 + set))
                .collect(),
            long: luck::even(12, 3),
            long_valuing: luck::even(13, 4),
        }
    }

    /// The luck by which the action of a state is chosen.
    pub(in crate::solve) fn choosing(&self, state: usize) -> &[Noise] {
        &self.choosing[state % self.choosing.len()]
    }

    /// The luck by which the chosen action of a state is valued; the tee is the first.
    pub(in crate::solve) fn valuing(&self, state: usize) -> &[Noise] {
        if state == 0 {
            &self.long_valuing
        } else {
            &self.valuing[state % self.valuing.len()]
        }
    }
}

/// How much is tried at a level.
pub(in crate::solve) struct Effort {
    /// States of a step, and those that one thread takes at a time.
    pub(in crate::solve) step: (usize, usize),
    /// How closely everything is laid that is tried; None where it is what a wider level hands on.
    mesh: Option<Mesh>,
    pub(in crate::solve) trials: Trials,
    /// Over how much luck outcomes are kept in the table.
    tabled: usize,
    /// True where each step sees the values of the steps before it: of the tee, then from the pin outward.
    onward: bool,
}

/// States of a step of the last level, and those that one thread takes at a time.
pub(in crate::solve) const STEP: (usize, usize) = (256, 8);

impl Effort {
    /// Everything, at widely spaced places.
    pub(in crate::solve) const COLD: Effort = Effort {
        step: (32, 2),
        mesh: Some(Mesh::WIDE),
        trials: Trials::race((8, 32), 256, 6, (16, 2)),
        tabled: 32,
        onward: true,
    };
    /// What a wider level hands on.
    pub(in crate::solve) const CLOSER: Effort = Effort {
        step: (64, 4),
        mesh: None,
        trials: Trials::race((4, 64), 96, 3, (32, 1)),
        tabled: 64,
        onward: false,
    };
    /// The same at the closest level. More than one stay: values change as what follows is looked at, and with them what is
    /// best. Half of the luck in the table is none by which they were found.
    pub(in crate::solve) const LAST: Effort = Effort {
        step: STEP,
        mesh: None,
        trials: Trials::race((4, 64), 96, 2, (64, 0)),
        tabled: 128,
        onward: false,
    };
    /// Everything at every place, over much luck.
    pub(in crate::solve) const THOROUGH: Effort = Effort {
        step: (16, 1),
        mesh: Some(Mesh::CLOSE),
        trials: Trials {
            race: false,
            ..Trials::race((32, 256), 2048, 6, (32, 2))
        },
        tabled: 512,
        onward: false,
    };
}

impl Level {
    /// Lays the places of a level and reckons roughly what they are worth.
    pub(in crate::solve) fn new(scene: &Scene, strip: Strip, cell: f64, spacing: Spacing) -> Self {
        let places = Places::new(scene.hole(), strip, cell, spacing);
        let reckon = |s| scene.outlook.strokes(scene.hole(), s);
        let of_states = places
            .states()
            .iter()
            .map(|s| reckon(s.situation))
            .collect();
        Level {
            values: ByPlace::new(&places, of_states),
            places: Arc::new(places),
            model: Model::default(),
            chosen: Vec::new(),
        }
    }

    /// Number of places.
    pub(in crate::solve) fn len(&self) -> usize {
        self.places.states().len()
    }

    /// True when every place has its actions.
    pub(in crate::solve) fn is_looked_at(&self) -> bool {
        self.model.len() == self.len()
    }

    /// The action chosen in a state.
    pub(in crate::solve) fn best(&self, state: usize) -> &Action {
        &self.model.actions(state)[usize::from(self.chosen[state])]
    }

    /// One sweep of value iteration; gives the largest change.
    pub(in crate::solve) fn improve(&mut self) -> f64 {
        let (change, chosen) = self.model.improve(&self.places, &mut self.values);
        self.chosen = chosen;
        change
    }

    /// Takes over the values of a wider level.
    pub(in crate::solve) fn begin(&mut self, wide: &Level) {
        let value = |state: &State| wide.values.at(&wide.places, state.situation);
        let of_states = self.places.states().iter().map(value).collect();
        self.values = ByPlace::new(&self.places, of_states);
    }

    /// Looks at the tee again, where every play begins, when what follows is known.
    pub(in crate::solve) fn look_at_the_tee(&mut self, scene: &Scene, bold: bool, luck: &Luck) {
        let sight = Sight {
            scene,
            places: &self.places,
            values: &self.values.nodes,
        };
        let from = self.places.states()[0].situation;
        let (own, mut part) = (self.values.of_states[0], Part::default());
        let shortlist = Shortlist::long(&sight, from, &luck.long, own, bold, |_| true);
        part.add_tried(&shortlist, &sight, from, &luck.long);
        self.model.replace_first(&part);
        self.chosen[0] = 0;
        if let Some(best) = shortlist.tried().first() {
            self.values.of_states[0] = best.sum.strokes();
        }
    }

    /// Finds the actions worth keeping at the next places, where `bold` one for its boldness and one for its safety, too.
    /// What the `wide` level before kept is tried, or everything.
    pub(in crate::solve) fn look(
        &mut self,
        scene: &Scene,
        wide: Option<&Level>,
        effort: &Effort,
        bold: bool,
        luck: &Luck,
    ) {
        let (step, chunk) = effort.step;
        let first = self.model.len();
        let sight = Sight {
            scene,
            places: &self.places,
            values: &self.values.nodes,
        };
        let states = &self.places.states()[first..];
        let states = &states[..states.len().min(step)];
        let olds = &self.values.of_states;
        let parts = in_parts(first, states, chunk, |shortlist, number, state, part| {
            let (from, own) = (state.situation, olds[number]);
            match (effort.mesh, wide) {
                (None, Some(wide)) => hand_on(&sight, wide, from, &mut shortlist.offers),
                (mesh, _) => offer(
                    scene,
                    from,
                    mesh.unwrap_or(Mesh::WIDE),
                    &mut shortlist.offers,
                ),
            }
            let luck = luck.choosing(number);
            shortlist.run(&sight, from, luck, &effort.trials, own, bold);
            part.add_tried(shortlist, &sight, from, &luck[..effort.tabled]);
            shortlist.tried().first().map(|tried| tried.sum.strokes())
        });
        for (part, strokes) in &parts {
            let olds = &mut self.values.of_states[self.model.len()..];
            for (old, new) in olds.iter_mut().zip(strokes) {
                *old = new.filter(|_| effort.onward).unwrap_or(*old);
            }
            self.model.extend(part);
        }
        if effort.onward {
            self.values.spread(&self.places);
        }
    }
}

/// Works through states in parallel, in chunks; what comes out is in their order.
pub(in crate::solve) fn in_parts(
    first: usize,
    states: &[State],
    chunk: usize,
    work: impl Fn(&mut Shortlist, usize, &State, &mut Part) -> Option<f64> + Sync,
) -> Vec<(Part, Vec<Option<f64>>)> {
    states
        .par_chunks(chunk)
        .enumerate()
        .map_init(Shortlist::default, |shortlist, (number, states)| {
            let mut part = Part::default();
            let begin = first + number * chunk;
            let values = (begin..)
                .zip(states)
                .map(|(number, state)| work(shortlist, number, state, &mut part))
                .collect();
            (part, values)
        })
        .collect()
}
