//! Players fitted to shots: tables in, uncertainty and plausible players out.

use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};
use wideberth::fit::{
    Evidence, Figure, Finish, Fit, Fitting, Ground, Known, Outcome, Reading, Shot, Uncertainty,
    spreadsheet_row,
};
use wideberth::player::{Club, Lie, Player, Reference};
use wideberth::units::{yards_from_feet, yards_from_metres};

use crate::club::PyClub;
use crate::columns::Columns;
use crate::errors::{input_error, refused};
use crate::given::given;
use crate::given::{Given, Item};
use crate::player::PyPlayer;
use crate::pool;
use crate::steps::Steps;

/// A column of lengths with its unit: `yards`, `metres` or `feet`.
type Lengths = (Vec<f64>, String);

/// Shots as `wideberth._fit` reads them: club, carry, lateral, total, lie, whether the unit was told, and the place of each row below
/// the header.
type ShotColumns = (
    Vec<String>,
    Lengths,
    Lengths,
    Option<Lengths>,
    Vec<Option<String>>,
    bool,
    Vec<usize>,
);

/// Outcomes as `wideberth._fit` reads them: club, finish, width, depth (NaN for a fairway), lie, and the place of each row below
/// the header.
type OutcomeColumns = (
    Vec<String>,
    Vec<String>,
    Lengths,
    Option<Lengths>,
    Vec<Option<String>>,
    Vec<usize>,
);

/// Fits the figures of a player to a table of shots and one of outcomes.
pub(crate) fn from_shots(
    py: Python<'_>,
    shots: Option<&Bound<'_, PyAny>>,
    outcomes: Option<&Bound<'_, PyAny>>,
    units: Option<&str>,
    prior: &PyPlayer,
) -> PyResult<Fit> {
    let reader = py.import("wideberth._fit")?;
    let mut evidence = Evidence::default();
    let (mut of_shots, mut of_outcomes) = (Vec::new(), Vec::new());
    if let Some(shots) = shots {
        let columns = reader.call_method1("read_shots", (shots, units))?;
        let columns: ShotColumns = columns.extract()?;
        evidence.unit_told = columns.5;
        of_shots.clone_from(&columns.6);
        evidence.shots = rows_of_shots(columns)?;
    }
    if let Some(outcomes) = outcomes {
        let columns = reader.call_method1("read_outcomes", (outcomes, units))?;
        let columns: OutcomeColumns = columns.extract()?;
        of_outcomes.clone_from(&columns.5);
        evidence.outcomes = rows_of_outcomes(columns)?;
    }
    let pool = pool::pool(Some(1))?;
    let prior = prior.clone();
    let fitting = pool::ask(py, &pool, move || match &prior.fit {
        Some(before) => Fitting::on(before, &evidence),
        None => Fitting::new(&prior.player, &evidence),
    })?;
    let fitting = fitting.map_err(|fault| refused(fault.in_places(&of_shots, &of_outcomes)))?;
    let fit = fitted(py, fitting)?;
    let doubts: Vec<String> = fit.doubts().iter().map(ToString::to_string).collect();
    reader.call_method1("warn_of", (doubts,))?;
    Ok(fit)
}

/// Brings a fit to its end, looking for Ctrl-C between waves.
fn fitted(py: Python<'_>, fitting: Fitting) -> PyResult<Fit> {
    // A fit is one chain of steps: more threads would have nothing to do.
    let pool = pool::pool(Some(1))?;
    let steps = pool::run(py, &pool, Steps(fitting), None)?;
    pool::ask(py, &pool, move || steps.0.fit())?.map_err(refused)
}

/// Reads a fit back from its text, which makes it again.
pub(crate) fn read(py: Python<'_>, text: &str) -> PyResult<Fit> {
    let (pool, text) = (pool::pool(Some(1))?, text.to_owned());
    let reading = pool::ask(py, &pool, move || Reading::from_json(&text))?;
    match reading.map_err(refused)? {
        Reading::Done(fit) => Ok(*fit),
        Reading::UnderWay(fitting) => fitted(py, *fitting),
    }
}

/// A dict of club names and yards, in its order.
pub(crate) fn named(field: &str, given: Option<Bound<'_, PyAny>>) -> PyResult<Vec<(String, f64)>> {
    let Some(given) = given else {
        return Ok(Vec::new());
    };
    let refused = |what: &Bound<'_, PyAny>| -> PyErr {
        let shown = what
            .repr()
            .map_or_else(|_| String::new(), |shown| shown.to_string());
        PyTypeError::new_err(format!(
            "{field} has {shown}; it must be a dict of names of clubs and yards"
        ))
    };
    let Ok(dict) = given.cast::<PyDict>() else {
        return Err(refused(&given));
    };
    dict.iter()
        .map(|(name, value)| {
            let yards = f64::read(&value)?.ok_or_else(|| refused(&value))?;
            Ok((name.extract().map_err(|_| refused(&name))?, yards))
        })
        .collect()
}

/// What a bag holds: a club of the level by its name, or a club told in full.
pub(crate) enum Carried {
    Named(String),
    Told(PyClub),
}

impl Item for Carried {
    const ITEMS: &'static str =
        "names of clubs, whose carries are told with carries={...}, and of what Club() makes";

    fn of(item: &Bound<'_, PyAny>) -> Option<Self> {
        if let Ok(name) = item.extract() {
            return Some(Carried::Named(name));
        }
        item.extract().ok().map(Carried::Told)
    }
}

/// The player of a handicap with the figures it knows and the clubs it carries.
pub(crate) fn from_handicap(
    reference: Reference,
    handicap: f64,
    known: &Known,
    bag: Option<Vec<Carried>>,
) -> PyResult<PyPlayer> {
    let Some(bag) = bag else {
        let level = Player::from_reference(reference, handicap).map_err(refused)?;
        let fit = Fit::with_known(&level, known).map_err(refused)?;
        return PyPlayer::fitted(fit);
    };
    let (mut names, mut told) = (Vec::new(), Vec::new());
    for club in bag {
        match club {
            Carried::Named(name) => names.push(name),
            Carried::Told(club) => told.push(club.0),
        }
    }
    if told.is_empty() {
        let fit = Fit::of_bag(reference, handicap, &names, known).map_err(refused)?;
        return PyPlayer::fitted(fit);
    }
    check_named(known, &names)?;
    let mut parts = Player::from_reference(reference, handicap)
        .map_err(refused)?
        .into_parts();
    let of_level = |name: &String| parts.clubs.iter().find(|club| club.name == *name).cloned();
    let level: Option<Vec<Club>> = names.iter().map(of_level).collect();
    // Where nothing moves them, clubs of the level are the level's to the last bit.
    let named = match level.filter(|_| *known == Known::default()) {
        Some(clubs) => clubs,
        None => Fit::of_bag(reference, handicap, &names, known)
            .map_err(refused)?
            .player()
            .clubs
            .clone(),
    };
    parts.clubs = told;
    parts.clubs.extend(named);
    PyPlayer::playable(Player::new(parts).map_err(refused)?)
}

/// Refuses what is known of a club that the bag does not hold by its name: one told in full has figures of its own.
fn check_named(known: &Known, names: &[String]) -> PyResult<()> {
    let fields = [
        ("carries", &known.carries),
        ("lateral_biases", &known.lateral_biases),
    ];
    for (field, list) in fields {
        if let Some((name, value)) = list.iter().find(|(name, _)| !names.contains(name)) {
            let allowed = match names {
                [] => "the bag holds none".to_owned(),
                names => format!("these are {}", names.join(", ")),
            };
            return Err(input_error(format!(
                "{field}: {name:?} is {value}; it must be a club that the bag holds by name, not as a Club: {allowed}"
            )));
        }
    }
    Ok(())
}

fn yards((values, unit): Lengths) -> PyResult<Vec<f64>> {
    let convert: fn(f64) -> f64 = match unit.as_str() {
        "yards" => |x| x,
        "metres" => yards_from_metres,
        "feet" => yards_from_feet,
        other => {
            let message =
                format!("units is {other:?}; it must be \"yards\", \"metres\" or \"feet\"");
            return Err(input_error(message));
        }
    };
    Ok(values.into_iter().map(convert).collect())
}

fn lie(table: &str, row: usize, name: Option<&String>) -> PyResult<Option<Lie>> {
    name.map(|name| {
        Lie::from_name(name).ok_or_else(|| {
            let known = Lie::ALL.map(Lie::name).join(", ");
            input_error(format!(
                "{table}, {}: lie is {name:?}; it must be empty or one of {known}",
                spreadsheet_row(row)
            ))
        })
    })
    .transpose()
}

fn rows_of_shots(columns: ShotColumns) -> PyResult<Vec<Shot>> {
    let (clubs, carry, lateral, total, lies, _, places) = columns;
    let (carry, lateral) = (yards(carry)?, yards(lateral)?);
    let total = total.map(yards).transpose()?;
    clubs
        .into_iter()
        .enumerate()
        .map(|(row, club)| {
            Ok(Shot {
                club,
                carry: carry[row],
                lateral: lateral[row],
                // An empty cell is no total.
                total: total.as_ref().map(|t| t[row]).filter(|t| !t.is_nan()),
                lie: lie("shots", places[row], lies[row].as_ref())?,
            })
        })
        .collect()
}

fn rows_of_outcomes(columns: OutcomeColumns) -> PyResult<Vec<Outcome>> {
    let (clubs, finishes, width, depth, lies, places) = columns;
    let width = yards(width)?;
    let depth = depth.map(yards).transpose()?;
    clubs
        .into_iter()
        .enumerate()
        .map(|(row, club)| {
            let finish = Finish::from_name(&finishes[row]).ok_or_else(|| {
                let known = Finish::ALL.map(Finish::name).join(", ");
                let name = &finishes[row];
                input_error(format!(
                    "outcomes, {}: finish is {name:?}; it must be one of {known}",
                    spreadsheet_row(places[row])
                ))
            })?;
            let depth = depth.as_ref().map(|d| d[row]).filter(|d| !d.is_nan());
            let ground = Ground {
                width: width[row],
                depth,
            };
            let lie = lie("outcomes", places[row], lies[row].as_ref())?;
            Ok(Outcome {
                club,
                ground,
                finish,
                lie,
            })
        })
        .collect()
}

/// A figure of a club, by its name.
pub(crate) fn figure(name: &str) -> PyResult<Figure> {
    Figure::from_name(name).ok_or_else(|| {
        let known = Figure::ALL.map(Figure::name).join(", ");
        input_error(format!("figure is {name:?}; it must be one of {known}"))
    })
}

/// The shots of a fit with what each was taken for, as columns.
pub(crate) fn judged<'py>(py: Python<'py>, fit: &Fit) -> PyResult<Bound<'py, PyDict>> {
    let shots = fit.evidence().map_or(&[][..], |e| &e.shots);
    let table = Columns::of(py, shots);
    let clubs: Vec<&str> = shots.iter().map(|s| s.club.as_str()).collect();
    let names = py.import("numpy")?.call_method1("array", (clubs, "str"))?;
    table.made.set_item("club", names)?;
    table.add("carry", |s| s.carry)?;
    table.add("lateral", |s| s.lateral)?;
    let taken_for = Columns::of(py, fit.judged());
    taken_for.add("mishit", |j| j.mishit)?;
    taken_for.add("outlier", |j| j.outlier)?;
    table.made.update(taken_for.made.as_mapping())?;
    Ok(table.made)
}

/// How sure the figures of one club are.
///
/// Standard errors are posterior standard deviations, in the unit of the figure (yards; shares for correlation and
/// mishit share). A weight is what the evidence weighs against the level, from 0 (the level alone) to 1 (the evidence
/// alone): the share of the prior variance that it took away. Made by `Player.uncertainty`; immutable; equal when its
/// parts are; can be pickled.
#[pyclass(frozen, eq, get_all, name = "Uncertainty", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyUncertainty {
    /// Name of the club.
    club: String,
    /// How many shots of it were measured.
    shots: usize,
    /// How many outcomes on the course were told.
    outcomes: usize,
    /// How many of the shots are expected to be mishits: the sum of their probabilities.
    mishits: f64,
    /// How many of the shots are expected to fit no pattern: the sum of their probabilities.
    outliers: f64,
    /// Standard error of the mean carry, yards.
    carry_se: f64,
    /// Standard error of the spread of the carry, yards.
    carry_sd_se: f64,
    /// Standard error of the lateral bias, yards.
    lateral_bias_se: f64,
    /// Standard error of the lateral spread, yards.
    lateral_sd_se: f64,
    /// Standard error of the correlation of carry and lateral.
    correlation_se: f64,
    /// Standard error of the mishit share.
    mishit_share_se: f64,
    /// Weight of the evidence against the level in the mean carry, 0 to 1.
    carry_weight: f64,
    /// The same for the spread of the carry.
    carry_sd_weight: f64,
    /// The same for the lateral bias.
    lateral_bias_weight: f64,
    /// The same for the lateral spread.
    lateral_sd_weight: f64,
    /// The same for the correlation of carry and lateral.
    correlation_weight: f64,
    /// The same for the mishit share.
    mishit_share_weight: f64,
    /// All of it in words.
    #[pyo3(name = "_text")]
    text: String,
}

/// Six numbers for the six figures, in the order of the club's fields.
type Six = (f64, f64, f64, f64, f64, f64);

impl From<&Uncertainty> for PyUncertainty {
    fn from(u: &Uncertainty) -> Self {
        PyUncertainty {
            club: u.club.clone(),
            shots: u.shots,
            outcomes: u.outcomes,
            mishits: u.mishits,
            outliers: u.outliers,
            carry_se: u.errors.carry,
            carry_sd_se: u.errors.carry_sd,
            lateral_bias_se: u.errors.lateral_bias,
            lateral_sd_se: u.errors.lateral_sd,
            correlation_se: u.errors.correlation,
            mishit_share_se: u.errors.mishit_share,
            carry_weight: u.weights.carry,
            carry_sd_weight: u.weights.carry_sd,
            lateral_bias_weight: u.weights.lateral_bias,
            lateral_sd_weight: u.weights.lateral_sd,
            correlation_weight: u.weights.correlation,
            mishit_share_weight: u.weights.mishit_share,
            text: u.to_string(),
        }
    }
}

#[pymethods]
impl PyUncertainty {
    #[new]
    fn new(
        #[pyo3(from_py_with = given)] club: String,
        counts: (usize, usize, f64, f64),
        errors: Six,
        weights: Six,
        #[pyo3(from_py_with = given)] text: String,
    ) -> Self {
        let (shots, outcomes, mishits, outliers) = counts;
        PyUncertainty {
            club,
            shots,
            outcomes,
            mishits,
            outliers,
            carry_se: errors.0,
            carry_sd_se: errors.1,
            lateral_bias_se: errors.2,
            lateral_sd_se: errors.3,
            correlation_se: errors.4,
            mishit_share_se: errors.5,
            carry_weight: weights.0,
            carry_sd_weight: weights.1,
            lateral_bias_weight: weights.2,
            lateral_sd_weight: weights.3,
            correlation_weight: weights.4,
            mishit_share_weight: weights.5,
            text,
        }
    }

    #[expect(clippy::type_complexity, reason = "the arguments of the constructor")]
    fn __reduce__<'py>(
        slf: &Bound<'py, Self>,
    ) -> (
        Bound<'py, PyType>,
        (String, (usize, usize, f64, f64), Six, Six, String),
    ) {
        let u = slf.get();
        let counts = (u.shots, u.outcomes, u.mishits, u.outliers);
        let errors = (
            u.carry_se,
            u.carry_sd_se,
            u.lateral_bias_se,
            u.lateral_sd_se,
            u.correlation_se,
            u.mishit_share_se,
        );
        let weights = (
            u.carry_weight,
            u.carry_sd_weight,
            u.lateral_bias_weight,
            u.lateral_sd_weight,
            u.correlation_weight,
            u.mishit_share_weight,
        );
        (
            slf.get_type(),
            (u.club.clone(), counts, errors, weights, u.text.clone()),
        )
    }

    fn __repr__(&self) -> &str {
        &self.text
    }
}
