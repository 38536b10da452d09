//! The Python binding: convert, call the core with the GIL released, convert back. No modelling.

mod around;
mod asked;
mod ball;
mod best;
mod changes;
mod club;
mod columns;
mod compare;
mod conditions;
mod course;
mod errors;
mod explain;
mod feature;
mod fit;
mod fork;
mod gained;
mod getters;
mod given;
mod habits;
mod hole;
mod map;
mod mishit_shape;
mod notebook;
mod pictures;
mod places;
mod plan;
mod player;
mod players;
mod plays_like;
mod pool;
mod practice;
mod prepared;
mod ranking;
mod review;
mod rounds;
mod simulate;
mod sketch;
mod solve;
mod start;
mod steps;
mod strokes;
mod survey;
mod target;
mod tee_shot;
mod terrain;
mod travel;
mod usual;
mod wave;
mod whole;

use pyo3::prelude::*;

/// The compiled part of the package `wideberth`.
#[pymodule]
mod _wideberth {
    use pyo3::prelude::*;

    #[pymodule_export]
    use crate::around::{PyAroundRanking, around_the_green};
    #[pymodule_export]
    use crate::ball::{PyFlight, PyPutt, PyRun, captured, fly, putt, run};
    #[pymodule_export]
    use crate::club::PyClub;
    #[pymodule_export]
    use crate::compare::{
        PyCheckpoint, PyDifference, PyRanking, compare, compare_players, first_putt,
    };
    #[pymodule_export]
    use crate::conditions::{PyConditions, PyWind};
    #[pymodule_export]
    use crate::course::PyCourse;
    #[pymodule_export]
    use crate::errors::InputError;
    #[pymodule_export]
    use crate::explain::{bag_table, expectations};
    #[pymodule_export]
    use crate::feature::PyFeature;
    #[pymodule_export]
    use crate::fit::PyUncertainty;
    #[pymodule_export]
    use crate::gained::{blow_up_losses, by_kind, by_play, split_gained, strokes_gained};
    #[pymodule_export]
    use crate::given::is_plain;
    #[pymodule_export]
    use crate::habits::{PyHabits, price_of_habits};
    #[pymodule_export]
    use crate::hole::PyHole;
    #[pymodule_export]
    use crate::map::course_read;
    #[pymodule_export]
    use crate::mishit_shape::PyMishitShape;
    #[pymodule_export]
    use crate::pictures::{club_shots, two_thirds_ellipse};
    #[pymodule_export]
    use crate::plan::{
        PyAim, PyInstruction, PyPlan, advance, along, at, at_pin, carry_over, exactly, leave,
        short_of_green, shot, suggest_plans,
    };
    #[pymodule_export]
    use crate::player::PyPlayer;
    #[pymodule_export]
    use crate::players::PyAcrossPlayers;
    #[pymodule_export]
    use crate::plays_like::{PyPlaysLike, plays_like};
    #[pymodule_export]
    use crate::practice::practice_gains;
    #[pymodule_export]
    use crate::ranking::stands_out;
    #[pymodule_export]
    use crate::review::review;
    #[pymodule_export]
    use crate::rounds::{PyPlayedRounds, PyRating, play_rounds, rating};
    #[pymodule_export]
    use crate::simulate::simulate;
    #[pymodule_export]
    use crate::sketch::{PyHazard, hazard};
    #[pymodule_export]
    use crate::solve::{PySolution, evaluate, frontier, solve};
    #[pymodule_export]
    use crate::start::along_line;
    #[pymodule_export]
    use crate::strokes::strokes;
    #[pymodule_export]
    use crate::target::{PyTarget, break_score};
    #[pymodule_export]
    use crate::tee_shot::PyTeeShot;
    #[pymodule_export]
    use crate::usual::usual_way;
    #[pymodule_export]
    use crate::whole::whole_seed;
    #[pymodule_export]
    #[expect(non_upper_case_globals, reason = "the name Python uses")]
    const __version__: &str = env!("CARGO_PKG_VERSION");

    #[pymodule_init]
    fn init(module: &Bound<'_, PyModule>) -> PyResult<()> {
        crate::fork::watch_forks(module)
    }
}
