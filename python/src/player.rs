//! Players and clubs.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};
use std::sync::Arc;
use wideberth::player::{Bag, Club, ClubParts, Player, Reference};

use crate::ball::PyFlight;
use crate::errors::refused;
use crate::explain;
use crate::pictures;
use crate::travel::{Written, written};

/// A club in one player's hands: how far it carries, and how its shots scatter.
///
/// The figures are those of the lie the club is at home on, a driver on its tee, an iron on the fairway. Solid
/// strikes are a bivariate normal of carry and lateral; a share of mishits comes up short or flies wild.
/// Immutable; equal when its parts are; can be pickled.
///
/// Args:
///     name: such as `7-iron`; 1 to 60 characters, and not `putter`.
///     carry: mean carry of a solid full strike, 1 to 450 yards.
///     carry_sd: standard deviation of that carry, yards, 0 to half the carry.
///     lateral_sd: standard deviation of the lateral at landing, yards, 0 to half the carry.
///     lateral_bias: mean lateral, yards, positive to the right of the aim; within a quarter of the carry.
///     correlation: of carry and lateral, -0.99 to 0.99.
///     mishit_share: share of strikes that are not solid, 0 to 0.9.
///     run: run on a level fairway per yard of carry, 0 to 1; None for what is usual at that carry.
///     launch_deg: launch angle of a full strike, 0.1 to 85 degrees; None for what is usual with a club of that name and
///         carry.
///     spin_rpm: backspin of a full strike, 0 to 15000 rpm; None for what is usual.
///
/// Raises:
///     InputError: the first number outside its range.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.Club("7-iron", carry=150, carry_sd=7, lateral_sd=8, mishit_share=0.1)
///     7-iron: carry 150 yd (sd 7.0), lateral +0.0 yd (sd 8.0), mishits 10 %
#[pyclass(frozen, eq, from_py_object, name = "Club", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyClub(pub(crate) Club);

#[pymethods]
impl PyClub {
    #[new]
    #[pyo3(signature = (
        name, *, carry, carry_sd, lateral_sd, lateral_bias = 0.0, correlation = 0.0, mishit_share = 0.0, run = None,
        launch_deg = None, spin_rpm = None
    ))]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python class"
    )]
    fn new(
        name: &str,
        carry: f64,
        carry_sd: f64,
        lateral_sd: f64,
        lateral_bias: f64,
        correlation: f64,
        mishit_share: f64,
        run: Option<f64>,
        launch_deg: Option<f64>,
        spin_rpm: Option<f64>,
    ) -> PyResult<Self> {
        let parts = ClubParts {
            carry_sd,
            lateral_bias,
            lateral_sd,
            correlation,
            mishit_share,
            run: run.unwrap_or_else(|| ClubParts::usual_run(carry)),
            launch_deg,
            spin_rpm,
            ..ClubParts::exact(name, carry)
        };
        Club::new(parts).map(PyClub).map_err(refused)
    }

    /// Name of the club.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }

    /// Mean carry of a solid full strike, yards.
    #[getter]
    fn carry(&self) -> f64 {
        self.0.carry
    }

    /// Standard deviation of the carry of solid strikes, yards.
    #[getter]
    fn carry_sd(&self) -> f64 {
        self.0.carry_sd
    }

    /// Standard deviation of the lateral of solid strikes at landing, yards.
    #[getter]
    fn lateral_sd(&self) -> f64 {
        self.0.lateral_sd
    }

    /// Mean lateral at landing, yards, positive to the right of the aim.
    #[getter]
    fn lateral_bias(&self) -> f64 {
        self.0.lateral_bias
    }

    /// Correlation of carry and lateral of solid strikes.
    #[getter]
    fn correlation(&self) -> f64 {
        self.0.correlation
    }

    /// Share of strikes that are not solid, 0 to 1.
    #[getter]
    fn mishit_share(&self) -> f64 {
        self.0.mishit_share
    }

    /// Run on a level fairway per yard of carry.
    #[getter]
    fn run(&self) -> f64 {
        self.0.run
    }

    /// Mean carry plus run of a solid strike on a level fairway, yards.
    #[getter]
    fn total(&self) -> f64 {
        self.0.total()
    }

    /// Launch angle of a full strike, degrees; None where it is what is usual.
    #[getter]
    fn launch_deg(&self) -> Option<f64> {
        self.0.launch_deg
    }

    /// Backspin of a full strike, revolutions a minute; None where it is what is usual.
    #[getter]
    fn spin_rpm(&self) -> Option<f64> {
        self.0.spin_rpm
    }

    /// The flight of a solid full strike that carries the mean carry in still standard air, a `wideberth.ball.Flight`.
    ///
    /// The launch is the club's own or the usual one of a club of that name and carry; the ball speed is solved for.
    ///
    /// Raises:
    ///     InputError: a carry that no ball launched like that reaches.
    #[getter]
    fn flight(&self, py: Python<'_>) -> PyResult<PyFlight> {
        py.detach(|| PyFlight::of_club(&self.0)).map_err(refused)
    }

    /// Height of that flight above level ground, feet.
    ///
    /// Args:
    ///     at: yards from where the ball was struck, 0 to the carry.
    ///
    /// Raises:
    ///     InputError: a place before the start or beyond the carry.
    fn height_ft(&self, py: Python<'_>, at: f64) -> PyResult<f64> {
        let flight = self.flight(py)?.flight;
        flight.height_ft(at).map_err(refused)
    }

    /// Reads a club back from the text that `to_json` wrote.
    ///
    /// Args:
    ///     text: the JSON text.
    ///
    /// Raises:
    ///     InputError: the text is no JSON, or no club, or a number in it is out of range.
    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: &str) -> PyResult<Self> {
        let parts: ClubParts = serde_json::from_str(text).map_err(refused)?;
        Club::new(parts).map(PyClub).map_err(refused)
    }

    /// The club as JSON text with all its figures; `from_json` gives an equal club back.
    fn to_json(&self) -> PyResult<String> {
        let parts: &ClubParts = &self.0;
        serde_json::to_string(parts).map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        written(slf, slf.get().to_json()?)
    }

    fn __repr__(&self) -> String {
        let c = &self.0;
        format!(
            "{}: carry {:.0} yd (sd {:.1}), lateral {:+.1} yd (sd {:.1}), mishits {:.0} %",
            c.name,
            c.carry,
            c.carry_sd,
            c.lateral_bias,
            c.lateral_sd,
            100.0 * c.mishit_share
        )
    }
}

/// A golfer: clubs, what lies do to them, the short game and putting.
///
/// Made by `from_handicap`, `professional` or `from_json`, and changed with `with_clubs`. Immutable; equal when its
/// parts are; can be pickled.
#[pyclass(frozen, name = "Player", module = "wideberth")]
#[derive(Clone)]
pub(crate) struct PyPlayer {
    pub(crate) player: Player,
    /// The player prepared for the simulation, once.
    pub(crate) bag: Arc<Bag>,
}

impl From<Player> for PyPlayer {
    fn from(player: Player) -> Self {
        let bag = Arc::new(player.prepare());
        PyPlayer { player, bag }
    }
}

#[pymethods]
impl PyPlayer {
    /// A golfer of a Handicap Index of 0 to 54, read against the reference golfers of course rating.
    ///
    /// Lengths and the areas in which shots lie go through the scratch golfer (0) and the bogey golfer (men 20, women 24)
    /// of the Course Rating System (published); mishits, short game and putting go by the handicap. What makes a level was
    /// fitted to published figures of golfers: `docs/calibration.md` lists them all, with the misses.
    ///
    /// A player's average score is above par plus handicap: who averages 80 has a handicap of about 8, who averages 90 of
    /// about 18.
    ///
    /// Args:
    ///     handicap: 0 to 54.
    ///     reference: whose reference golfers, `men` or `women`.
    ///
    /// Raises:
    ///     InputError: a handicap outside 0 to 54, or NaN; another reference.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> better, weaker = wb.Player.from_handicap(5), wb.Player.from_handicap(25)
    ///     >>> better.club("7-iron").carry > weaker.club("7-iron").carry
    ///     True
    ///     >>> wb.Player.from_handicap(24, reference="women").tee_shot().club
    ///     'driver'
    ///     >>> wb.Player.from_handicap(80)
    ///     Traceback (most recent call last):
    ///         ...
    ///     wideberth.InputError: handicap is 80; it must be 0 to 54
    #[classmethod]
    #[pyo3(signature = (handicap, *, reference = "men"))]
    fn from_handicap(_: &Bound<'_, PyType>, handicap: f64, reference: &str) -> PyResult<Self> {
        let reference = Reference::from_name(reference).map_err(refused)?;
        Player::from_reference(reference, handicap)
            .map(Self::from)
            .map_err(refused)
    }

    /// A man at the level of the professional tours, based on no real person: for checks and comparisons.
    ///
    /// His putting is fitted to the makes of 2016-18, his strokes from tee and fairway to what tour professionals need
    /// (`docs/calibration.md`). He has no handicap.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> wb.Player.professional().name
    ///     'tour professional'
    #[classmethod]
    fn professional(_: &Bound<'_, PyType>) -> PyResult<Self> {
        Player::professional().map(Self::from).map_err(refused)
    }

    /// Reads a player from the text of a wideberth document, as `to_json` writes it. Unknown fields are errors.
    ///
    /// Args:
    ///     text: the JSON text.
    ///
    /// Raises:
    ///     InputError: the text is no JSON, or no player, or the first figure that cannot be true.
    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: &str) -> PyResult<Self> {
        Player::from_json(text).map(Self::from).map_err(refused)
    }

    /// The player as the text of a wideberth document; `from_json` gives an equal player back.
    fn to_json(&self) -> PyResult<String> {
        self.player.to_json().map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        written(slf, slf.get().to_json()?)
    }

    /// Name of the player.
    #[getter]
    fn name(&self) -> &str {
        &self.player.name
    }

    /// Handicap Index, -10 (a plus handicap) to 54; None if not known.
    #[getter]
    fn handicap(&self) -> Option<f64> {
        self.player.handicap
    }

    /// The clubs but the putter, longest carry first.
    #[getter]
    fn clubs(&self) -> Vec<PyClub> {
        self.player.clubs.iter().cloned().map(PyClub).collect()
    }

    /// The club called `name`.
    ///
    /// Raises:
    ///     InputError: a club that is not in the bag; the message lists those that are.
    fn club(&self, name: &str) -> PyResult<PyClub> {
        self.player.club(name).cloned().map(PyClub).map_err(refused)
    }

    /// The same player with some clubs replaced (by name) or added.
    ///
    /// Args:
    ///     clubs: the clubs; a bag holds 1 to 13 and the putter (Rule 4.1b).
    ///
    /// Raises:
    ///     InputError: too many clubs.
    fn with_clubs(&self, clubs: Vec<PyRef<'_, PyClub>>) -> PyResult<Self> {
        let mut parts = self.player.clone().into_parts();
        for club in clubs {
            match parts.clubs.iter_mut().find(|c| c.name == club.0.name) {
                Some(old) => *old = club.0.clone(),
                None => parts.clubs.push(club.0.clone()),
            }
        }
        Player::new(parts).map(Self::from).map_err(refused)
    }

    fn __eq__(&self, other: &Self) -> bool {
        self.player == other.player
    }

    /// The bag, club by club, as in `table`.
    fn __repr__(slf: &Bound<'_, Self>) -> PyResult<String> {
        explain::shown(slf, "text", Player::to_string)
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        explain::shown(slf, "page", |p| crate::hole::preformatted(&p.to_string()))
    }

    /// The bag, club by club: how far each goes, and within what two thirds of its shots finish.
    ///
    /// Full swings from the lie a club is at home on (the driver on its tee, an iron on the fairway), on a level fairway of
    /// medium firmness in still air. The spans are exact: quantiles of the club's pattern, solid strikes and mishits
    /// together. Two thirds finish within the depth and two thirds within the width; fewer are within both.
    ///
    /// Returns:
    ///     A `BagTable`, one row a club, longest first. `columns()`: `club` (str); in yards `carry` and `total` (mean of
    ///     solid strikes), `average` (mean total of all shots), `short_end`, `long_end` and `depth` (of the central two
    ///     thirds of where all shots finish along the aim: a sixth ends shorter, a sixth longer), `left_end`, `right_end`
    ///     and `width` (the same to the side, positive to the right), `solid_depth` and `solid_width` (without mishits);
    ///     `mishit_share` (0 to 1). `to_pandas()` and `to_polars()` give data frames.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> columns = wb.Player.from_handicap(18).table().columns()
    ///     >>> str(columns["club"][0]), bool(columns["width"][0] > columns["solid_width"][0])
    ///     ('driver', True)
    fn table<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        explain::told(slf, "table", None)
    }

    /// What a good-enough tee shot, approach, chip and putt of this player look like.
    ///
    /// A good-enough shot is one as good as two in three of the player's own shots. Every shot is played by the same model
    /// as everything else: a tee shot, approaches of 75 to 175 yards as far as the player reaches, strokes from 10, 20 and
    /// 30 yards out of fairway, rough and sand, and putts of 3 to 40 feet.
    ///
    /// Args:
    ///     plays: plays of every task, 100 to 1,000,000.
    ///     seed: fixes the luck, and with it every figure to the last bit, whatever the number of threads.
    ///     threads: number of threads; None for every core.
    ///     progress: a callable of (done, goal) in plays, or a tqdm bar.
    ///
    /// Returns:
    ///     `Expectations`; its `repr` is the tables, `columns()` all figures with their standard errors.
    ///
    /// Raises:
    ///     InputError: before anything is played, naming the field, the value and what is allowed; a club whose carry no
    ///         believable ball speed gives.
    ///     KeyboardInterrupt: soon after Ctrl-C.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> pupil = wb.Player.from_handicap(18).expectations(plays=1_000, seed=1)
    ///     >>> putts = pupil.putts.columns()
    ///     >>> bool(putts["holed"][0] > putts["holed"][-1])
    ///     True
    #[pyo3(
        signature = (*, plays = None, seed = None, threads = None, progress = None),
        text_signature = "($self, *, plays=10000, seed=0, threads=None, progress=None)"
    )]
    fn expectations<'py>(
        slf: &Bound<'py, Self>,
        plays: Option<Bound<'py, PyAny>>,
        seed: Option<Bound<'py, PyAny>>,
        threads: Option<Bound<'py, PyAny>>,
        progress: Option<Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let keywords = PyDict::new(slf.py());
        let given = [
            ("plays", plays),
            ("seed", seed),
            ("threads", threads),
            ("progress", progress),
        ];
        for (name, value) in given.into_iter().filter(|(_, value)| value.is_some()) {
            keywords.set_item(name, value)?;
        }
        explain::told(slf, "expectations", Some(&keywords))
    }

    /// Draws every club's pattern on one yardage picture, to scale; needs the extra `plot`.
    ///
    /// Dots are full shots, played by the model on a level fairway of medium firmness in still air from the lie the club is
    /// at home on; an ellipse is where two thirds of all shots of a club finish closest together.
    ///
    /// Args:
    ///     ax: Matplotlib axes to draw on; None for a new figure.
    ///     title: title; None for the player's name and handicap.
    ///     theme: `"light"` or `"dark"`.
    ///     shots: shots of every club that the ellipses are found from, 200 to 100,000.
    ///     seed: fixes the luck.
    ///
    /// Returns:
    ///     The axes, in yards: across the page to the right of the aim, and up the page along it.
    ///
    /// Raises:
    ///     InputError: before anything is played, naming the field, the value and what is allowed; a club whose carry no
    ///         believable ball speed gives.
    ///     ImportError: Matplotlib is not installed.
    #[pyo3(
        signature = (ax = None, *, title = None, theme = None, shots = None, seed = None),
        text_signature = "($self, ax=None, *, title=None, theme='light', shots=3000, seed=0)"
    )]
    fn plot<'py>(
        slf: &Bound<'py, Self>,
        ax: Option<Bound<'py, PyAny>>,
        title: Option<Bound<'py, PyAny>>,
        theme: Option<Bound<'py, PyAny>>,
        shots: Option<Bound<'py, PyAny>>,
        seed: Option<Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let keywords = [
            ("title", title),
            ("theme", theme),
            ("shots", shots),
            ("seed", seed),
        ];
        pictures::drawn(slf.as_any(), "plot_bag", ax, &keywords)
    }

    /// What a tee shot with the longest club comes to on average, mishits included.
    ///
    /// That is the driver in a usual bag; on level ground of medium firmness in still air.
    ///
    /// Returns:
    ///     Its `club`, and the means of its `carry`, its `run` and their sum, the `total`, in yards.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> round(wb.Player.from_handicap(0).tee_shot().total)
    ///     250
    fn tee_shot(&self) -> PyTeeShot {
        let shot = self.player.tee_shot();
        PyTeeShot {
            club: shot.club,
            carry: shot.carry,
            run: shot.run,
            total: shot.total,
        }
    }
}

/// What a tee shot with the longest club comes to on average, mishits included; yards.
#[pyclass(frozen, eq, get_all, name = "TeeShot", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyTeeShot {
    /// Name of the club.
    club: String,
    /// Mean carry, yards.
    carry: f64,
    /// Mean run on a level fairway of medium firmness, yards.
    run: f64,
    /// Mean carry plus run, yards.
    total: f64,
}

#[pymethods]
impl PyTeeShot {
    #[new]
    fn new(club: String, carry: f64, run: f64, total: f64) -> Self {
        PyTeeShot {
            club,
            carry,
            run,
            total,
        }
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> (Bound<'py, PyType>, (String, f64, f64, f64)) {
        let shot = slf.get();
        let parts = (shot.club.clone(), shot.carry, shot.run, shot.total);
        (slf.get_type(), parts)
    }

    fn __repr__(&self) -> String {
        format!(
            "{}: carry {:.0} yd, total {:.0} yd",
            self.club, self.carry, self.total
        )
    }
}
