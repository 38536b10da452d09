//! Players.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};
use std::sync::Arc;
use wideberth::fit::{Fit, Known};
use wideberth::player::{AverageScore, Bag, ClubSkill, Player, Reference};
use wideberth::setting::check_carries;

use crate::changes::Asks;
use crate::club::PyClub;
use crate::errors::refused;
use crate::explain;
use crate::fit::{self, Carried, PyUncertainty};
use crate::getters::getters;
use crate::given::{Text, given, taken_as};
use crate::habits::PyHabits;
use crate::notebook::preformatted;
use crate::pictures;
use crate::tee_shot::PyTeeShot;
use crate::travel::{Written, check_object, written};
use crate::whole::{SeedGiven, Whole};

/// A golfer: clubs, what lies do to them, the short game and putting.
///
/// Made by `from_handicap`, `from_average_score`, `from_shots`, `professional` or `from_json`, and changed with
/// `with_changes`, `with_clubs` and `with_habits`.
/// Immutable; equal when its figures are, however sure they may be; can be pickled.
#[pyclass(frozen, name = "Player", module = "wideberth")]
#[derive(Clone)]
pub(crate) struct PyPlayer {
    pub(crate) player: Player,
    /// The player prepared for the simulation, once.
    pub(crate) bag: Arc<Bag>,
    /// What is uncertain about it; None for a player of whom nothing is known but its figures.
    pub(crate) fit: Option<Arc<Fit>>,
}

taken_as!(PyPlayer, "a Player");

impl PyPlayer {
    /// A player, if a ball can be struck as far as every club carries: a carry may be a number and yet no ball's.
    pub(crate) fn playable(player: Player) -> PyResult<Self> {
        let bag = Arc::new(player.prepare());
        check_carries(&bag).map_err(refused)?;
        let fit = None;
        Ok(PyPlayer { player, bag, fit })
    }

    /// The player of a fit, with what is uncertain about it.
    pub(crate) fn fitted(fit: Fit) -> PyResult<Self> {
        let mut player = PyPlayer::playable(fit.player().clone())?;
        player.fit = Some(Arc::new(fit));
        Ok(player)
    }

    /// What is uncertain about the player: what differs between players of a level, if nothing more is known.
    pub(crate) fn fit(&self) -> PyResult<Arc<Fit>> {
        match &self.fit {
            Some(fit) => Ok(fit.clone()),
            None => Fit::by_level(&self.player).map(Arc::new).map_err(refused),
        }
    }
}

#[pymethods]
impl PyPlayer {
    /// A golfer of a Handicap Index of 0 to 54, read against the reference golfers of course rating.
    ///
    /// Lengths go through the scratch golfer (0) and the bogey golfer (men 20, women 24) of the Course Rating System
    /// (published). All else goes by the handicap: spreads, misses, how bad lies are felt and habits were fitted to published
    /// figures of play, such as greens hit and strokes by distance. `docs/calibration.md` lists them all, those that were only
    /// checked too, with how far each is missed.
    ///
    /// A player's average score is above the Course Rating plus the handicap: `from_average_score` knows by how much.
    ///
    /// Figures the player knows replace the level's and move the other clubs with them, as clubs of one bag are alike; spreads
    /// keep their share of the carry.
    ///
    /// Args:
    ///     handicap: 0 to 54.
    ///     carries: mean carries of flush strikes that the player knows, yards by club; taken as exact.
    ///     lateral_biases: mean laterals that the player knows, yards by club, positive to the right of the aim
    ///         (the slice of a right-handed golfer); taken as exact.
    ///     reference: whose reference golfers, `men` or `women`.
    ///     bag: the clubs carried, 1 to 13 and the putter; None for the usual thirteen. A name stands for the level's club of
    ///         that name; a club that the level does not have needs its carry among `carries`. A `Club` is taken as it is,
    ///         neither moved by what is known nor moving others; how long the longest club is decides, as in every bag, how
    ///         much the others feel a lie. With such clubs what is known of the others is told by their figures alone, as
    ///         after `with_clubs`.
    ///
    /// Raises:
    ///     InputError: a handicap outside 0 to 54, or NaN; another reference; an unknown club; a carry or bias that cannot
    ///         be true, or of a club that was given as a `Club`.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> better, weaker = wb.Player.from_handicap(5), wb.Player.from_handicap(25)
    ///     >>> better.club("7-iron").carry > weaker.club("7-iron").carry
    ///     True
    ///     >>> slicer = wb.Player.from_handicap(18, carries={"driver": 178}, lateral_biases={"driver": 15})
    ///     >>> slicer.club("3-wood").lateral_bias > 5 and slicer.club("driver").carry == 178
    ///     True
    ///     >>> own = wb.Club("7-iron", carry=128, carry_sd=7, lateral_sd=9, mishit_share=0.15)
    ///     >>> [club.name for club in wb.Player.from_handicap(18, bag=["driver", own, "sand wedge"]).clubs]
    ///     ['driver', '7-iron', 'sand wedge']
    ///     >>> wb.Player.from_handicap(24, reference="women").tee_shot().club
    ///     'driver'
    ///     >>> wb.Player.from_handicap(80)
    ///     Traceback (most recent call last):
    ///         ...
    ///     wideberth.InputError: handicap is 80; it must be 0 to 54
    #[classmethod]
    #[pyo3(signature = (handicap, *, carries = None, lateral_biases = None, reference = "men", bag = None))]
    fn from_handicap(
        _: &Bound<'_, PyType>,
        #[pyo3(from_py_with = given)] handicap: f64,
        carries: Option<Bound<'_, PyAny>>,
        lateral_biases: Option<Bound<'_, PyAny>>,
        #[pyo3(from_py_with = given)] reference: &str,
        #[pyo3(from_py_with = given)] bag: Option<Vec<Carried>>,
    ) -> PyResult<Self> {
        let reference = Reference::from_name(reference).map_err(refused)?;
        let known = Known {
            carries: fit::named("carries", carries)?,
            lateral_biases: fit::named("lateral_biases", lateral_biases)?,
        };
        if known == Known::default() && bag.is_none() {
            let level = Player::from_reference(reference, handicap).map_err(refused)?;
            return Self::playable(level);
        }
        fit::from_handicap(reference, handicap, &known, bag)
    }

    /// A golfer whose rounds of 18 holes average so many strokes.
    ///
    /// The average gives a Handicap Index by the Rules of Handicapping (published): an index is the mean of the lowest 8 of
    /// the last 20 rounds, each told as 113 / slope times the score less the Course Rating; so it lies 0.93 standard
    /// deviations of a golfer's rounds below the average, and those are 2.7 to 4.7 strokes by index (computed from the USGA
    /// Handicap System Manual, Appendix E, published). Who averages 80, 90 or 100 on a course of rating 70 has a handicap of
    /// about 7, 17 or 27. All figures are then those of `from_handicap`.
    ///
    /// Args:
    ///     average_score: mean of all rounds, not of the good ones, strokes.
    ///     course_rating: Course Rating of the course, 50 to 90; 70 is that of a men's course of 6,400 yards.
    ///     slope_rating: Slope Rating of the course, 55 to 155; 113 is standard.
    ///     reference: whose reference golfers, `men` or `women`.
    ///
    /// Raises:
    ///     InputError: a rating that no course has, an average that no handicap of 0 to 54 gives there, another reference.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> wb.Player.from_average_score(90).handicap
    ///     17.1
    ///     >>> wb.Player.from_average_score(90, course_rating=72.4, slope_rating=131).handicap
    ///     12.4
    #[classmethod]
    #[pyo3(
        signature = (average_score, *, course_rating = 70.0, slope_rating = 113.0, reference = "men"),
        text_signature = "($cls, average_score, *, course_rating=70.0, slope_rating=113.0, reference='men')"
    )]
    fn from_average_score(
        _: &Bound<'_, PyType>,
        #[pyo3(from_py_with = given)] average_score: f64,
        #[pyo3(from_py_with = given)] course_rating: f64,
        #[pyo3(from_py_with = given)] slope_rating: f64,
        #[pyo3(from_py_with = given)] reference: &str,
    ) -> PyResult<Self> {
        let reference = Reference::from_name(reference).map_err(refused)?;
        let average = AverageScore {
            score: average_score,
            rating: course_rating,
            slope: slope_rating,
        };
        let player = Player::from_average_score(reference, average);
        Self::playable(player.map_err(refused)?)
    }

    /// Fits a player to measured shots, outcomes on the course, or both; what they do not tell stays the prior's.
    ///
    /// Each club's shots are a mixture of flush strikes, misses of every severity and outliers, so mishits are found and not
    /// averaged in. Carry, spreads, bias, correlation and mishit share of each club are fitted, pulled towards the prior as far
    /// as the shots are few; clubs of one bag learn from each other. The same table gives the same player.
    ///
    /// Args:
    ///     shots: a pandas or polars data frame, a dict of columns, a structured NumPy array, rows as dicts, or the path
    ///         of a CSV file. Columns: `club`, `carry`, `lateral` (positive to the right of the aim), and if wanted
    ///         `total` (carry plus run; read only to see that the two are not mixed up) and `lie` (empty for
    ///         the lie the club is at home on). A name may end in its unit: `carry_m`, `lateral (ft)`. Others are left
    ///         alone. None if there are only outcomes.
    ///     prior: the player to begin from, such as `Player.from_handicap(18)`; its bag must hold the clubs. Its figures are
    ///         taken as those of a level, about which golfers differ. What it knows counts: the known carry or bias of a
    ///         club stands if no shots of that club were measured (if some were, it is where the club's fit begins), and to a
    ///         player who was fitted to shots the new ones are added, as if all had been given at once. `with_clubs`,
    ///         `with_habits` and `from_json` leave such knowledge behind.
    ///     outcomes: a table of full shots of which only the result is known. Columns: `club`, `finish` ("hit", "left",
    ///         "right", "short" or "long"), `width` of the fairway or green, and if wanted `depth` (of a green; empty for
    ///         a fairway) and `lie`. Each is taken as aimed at the middle with the club that reaches it.
    ///     units: "yards", "metres" or "feet" of columns whose names tell none; None for yards, with a warning if the
    ///         carries look like metres.
    ///
    /// Returns:
    ///     The player; `uncertainty`, `interval`, `draws`, `judged_shots` and `doubts` tell how sure it is.
    ///
    /// Raises:
    ///     InputError: a missing column, an unknown club, NaN, a value that cannot be true, swapped columns, a club whose
    ///         carries or laterals are all the same; a table with the shots that the prior was fitted to.
    ///     KeyboardInterrupt: soon after Ctrl-C.
    ///
    /// Warns:
    ///     UserWarning: what looks odd, such as very few shots, metres, totals, or two patterns in one club.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> shots = {"club": ["7-iron"] * 5, "carry": [131, 127, 124, 74, 130], "lateral": [4, -9, 11, -15, 2]}
    ///     >>> fitted = wb.Player.from_shots(shots, prior=wb.Player.from_handicap(18))
    ///     >>> 125 < fitted.club("7-iron").carry < 131
    ///     True
    ///     >>> bool(fitted.judged_shots()["mishit"][3] > 0.9)
    ///     True
    #[classmethod]
    #[pyo3(signature = (shots, *, prior, outcomes = None, units = None))]
    fn from_shots(
        class: &Bound<'_, PyType>,
        shots: Option<Bound<'_, PyAny>>,
        #[pyo3(from_py_with = given)] prior: &PyPlayer,
        outcomes: Option<Bound<'_, PyAny>>,
        #[pyo3(from_py_with = given)] units: Option<&str>,
    ) -> PyResult<Self> {
        let (shots, outcomes) = (shots.as_ref(), outcomes.as_ref());
        Self::fitted(fit::from_shots(class.py(), shots, outcomes, units, prior)?)
    }

    /// Reads back what `__reduce__` wrote of a player with uncertainty.
    #[staticmethod]
    fn _from_fit(py: Python<'_>, #[pyo3(from_py_with = given)] text: &str) -> PyResult<Self> {
        Self::fitted(fit::read(py, text)?)
    }

    /// How sure the figures of a club are: standard errors, and how much the evidence weighs against the level.
    ///
    /// For a player known by its figures alone it is how far players of one level differ (common practice, no source).
    ///
    /// Args:
    ///     club: name of the club.
    ///
    /// Raises:
    ///     InputError: a club that is not in the bag.
    fn uncertainty(&self, #[pyo3(from_py_with = given)] club: &str) -> PyResult<PyUncertainty> {
        let uncertainty = self.fit()?.uncertainty(club).map_err(refused)?;
        Ok((&uncertainty).into())
    }

    /// The interval that holds a figure of a club with a given probability.
    ///
    /// Args:
    ///     club: name of the club.
    ///     figure: "carry", "carry_sd", "lateral_bias", "lateral_sd", "correlation" or "mishit_share".
    ///     level: the probability, above 0 and below 1; as much is left out on either side.
    ///
    /// Returns:
    ///     Its lower and upper end, in the unit of the figure.
    ///
    /// Raises:
    ///     InputError: a club that is not in the bag, no such figure, or a level that is no probability.
    #[pyo3(signature = (club, figure, *, level = 0.9))]
    fn interval(
        &self,
        #[pyo3(from_py_with = given)] club: &str,
        #[pyo3(from_py_with = given)] figure: &str,
        #[pyo3(from_py_with = given)] level: f64,
    ) -> PyResult<(f64, f64)> {
        let fit = self.fit()?;
        fit.interval(club, fit::figure(figure)?, level)
            .map_err(refused)
    }

    /// Players that are as plausible as each other, given what is known.
    ///
    /// Drawn from what the shots of `from_shots` allow, or from players of the level if nothing was measured. Only the
    /// clubs differ; a known carry stands.
    ///
    /// Args:
    ///     n: how many, 1 to 1,000; the first of a longer list are the shorter list.
    ///     seed: a whole number, 0 to 2**64 - 1, that fixes the list.
    ///
    /// Raises:
    ///     InputError: a number out of range.
    #[pyo3(signature = (n, *, seed))]
    fn draws(&self, n: Whole, seed: SeedGiven) -> PyResult<Vec<Self>> {
        let (n, seed) = (n.fit("n", "1 to 1000")?, seed.fit()?);
        let players = self.fit()?.draws(n, seed).map_err(refused)?;
        players.into_iter().map(Self::playable).collect()
    }

    /// The shots the player was fitted to, with what each was taken for.
    ///
    /// Returns:
    ///     Named NumPy columns of equal length, one row a shot in the order of the table: `club` (str), `carry` and
    ///     `lateral` (yards), `mishit` and `outlier` (probabilities). Empty for a player that was not fitted to shots.
    fn judged_shots<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        fit::judged(py, &*self.fit()?)
    }

    /// What looked odd in the shots, in words; empty for a player that was not fitted to shots.
    #[getter]
    fn doubts(&self) -> Vec<String> {
        let doubts = self.fit.as_ref().map_or(&[][..], |fit| fit.doubts());
        doubts.iter().map(ToString::to_string).collect()
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
        Self::playable(Player::professional().map_err(refused)?)
    }

    /// Reads a player from the text of a wideberth document, as `to_json` writes it. Unknown fields are errors.
    ///
    /// Args:
    ///     text: the JSON text.
    ///
    /// Raises:
    ///     InputError: the text is no JSON, or no player, or the first figure that cannot be true.
    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: Text) -> PyResult<Self> {
        check_object(&text, "a player")?;
        Self::playable(Player::from_json(&text).map_err(refused)?)
    }

    /// The player as the text of a wideberth document; `from_json` gives an equal player back.
    ///
    /// It holds the figures, not how sure they are: a pickle holds both.
    fn to_json(&self) -> PyResult<String> {
        self.player.to_json().map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        if let Some(fit) = &slf.get().fit {
            let again = slf.get_type().getattr("_from_fit")?;
            return Ok((again, (fit.to_json().map_err(refused)?,)));
        }
        written(slf, slf.get().to_json()?)
    }

    /// The club called `name`.
    ///
    /// Raises:
    ///     InputError: a club that is not in the bag; the message lists those that are.
    fn club(&self, #[pyo3(from_py_with = given)] name: &str) -> PyResult<PyClub> {
        self.player.club(name).cloned().map(PyClub).map_err(refused)
    }

    /// The same player with some clubs replaced (by name) or added.
    ///
    /// What shots told about uncertainty is left behind.
    ///
    /// Args:
    ///     clubs: the clubs; a bag holds 1 to 13 and the putter (Rule 4.1b).
    ///
    /// Raises:
    ///     InputError: too many clubs.
    fn with_clubs(&self, #[pyo3(from_py_with = given)] clubs: Vec<PyClub>) -> PyResult<Self> {
        let mut parts = self.player.clone().into_parts();
        for club in clubs {
            match parts.clubs.iter_mut().find(|c| c.name == club.0.name) {
                Some(old) => *old = club.0.clone(),
                None => parts.clubs.push(club.0.clone()),
            }
        }
        Self::playable(Player::new(parts).map_err(refused)?)
    }

    /// The same player with some skills changed and all others kept: what practice would do.
    ///
    /// A skill changes by a number or towards another player, `player` for all of the way or `(player, share)` for a share of
    /// it, 0 to 1. A number is a factor of the errors made, 0 to 5: 0.9 is a tenth fewer, or smaller by a tenth; for `longer`
    /// it is yards. What goes for clubs, strokes or parts of putting may be given for some of them by name. A club is
    /// read against the other player's of the same name, or else against what that player has at its carry. Everything that
    /// is not named stays, name, handicap and habits too; what shots told about uncertainty is left behind. How long the
    /// longest club is still decides how much the others feel a lie.
    ///
    /// Args:
    ///     longer: carry of flush strikes: yards by club, such as `{"driver": 15}`, or a player (run per yard of
    ///         carry moves with it, then). Spreads and bias keep their share of the carry.
    ///     straighter: spread and bias to the side, as shares of the carry; also by club.
    ///     surer_distance: spread of the carry, as a share of it; also by club.
    ///     fewer_mishits: share of mishits with full swings (towards a player, their shape too); also by club.
    ///     bad_lies: how much rough, sand and trees are felt by full swings and short strokes.
    ///     short_game: the strokes `putter` (from off the green), `chip`, `pitch`, `lob`, `bunker_shot` and `punch`; also by
    ///         name.
    ///     putting: `line` (which short putts are missed by), `reading` and `pace` (which long ones are left far by); also by
    ///         name.
    ///
    /// Raises:
    ///     InputError: a name that there is not, a number out of range, a skill that then cannot be.
    ///     TypeError: a change that is neither a number nor a player.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> pupil, ten = wb.Player.from_handicap(18), wb.Player.from_handicap(10)
    ///     >>> better = pupil.with_changes(longer={"driver": 15}, straighter=0.9, putting=(ten, 0.5))
    ///     >>> round(better.club("driver").carry - pupil.club("driver").carry, 6)
    ///     15.0
    ///     >>> pupil.with_changes(short_game={"chip": ten}, straighter={"driver": ten}).club("7-iron") == pupil.club("7-iron")
    ///     True
    ///     >>> pupil.with_changes(straighter=-1)
    ///     Traceback (most recent call last):
    ///         ...
    ///     wideberth.InputError: straighter: direction of driver: factor is -1; it must be 0 to 5
    #[pyo3(signature = (*, longer = None, straighter = None, surer_distance = None, fewer_mishits = None, bad_lies = None, short_game = None, putting = None))]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python function"
    )]
    fn with_changes(
        &self,
        longer: Option<Bound<'_, PyAny>>,
        straighter: Option<Bound<'_, PyAny>>,
        surer_distance: Option<Bound<'_, PyAny>>,
        fewer_mishits: Option<Bound<'_, PyAny>>,
        bad_lies: Option<Bound<'_, PyAny>>,
        short_game: Option<Bound<'_, PyAny>>,
        putting: Option<Bound<'_, PyAny>>,
    ) -> PyResult<Self> {
        let asks = Asks {
            clubs: [
                ("longer", ClubSkill::Length, longer),
                ("straighter", ClubSkill::Direction, straighter),
                ("surer_distance", ClubSkill::Depth, surer_distance),
                ("fewer_mishits", ClubSkill::Mishits, fewer_mishits),
            ],
            bad_lies,
            short_game,
            putting,
        };
        Self::playable(asks.of(&self.player)?)
    }

    /// The same player with other habits; `Habits.none()` takes them all away.
    ///
    /// What shots told about uncertainty is left behind.
    ///
    /// Args:
    ///     habits: the habits.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> wb.Player.from_handicap(18).with_habits(wb.Habits.none()).habits.every_flag
    ///     False
    fn with_habits(&self, #[pyo3(from_py_with = given)] habits: &PyHabits) -> PyResult<Self> {
        let player = self.player.clone().with_habits(habits.0);
        Self::playable(player.map_err(refused)?)
    }

    fn __eq__(&self, other: &Self) -> bool {
        self.player == other.player
    }

    /// The bag, club by club, as in `table`.
    fn __repr__(slf: &Bound<'_, Self>) -> PyResult<String> {
        explain::shown(slf, "__repr__", Player::to_string)
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        explain::shown(slf, "_repr_html_", |p| preformatted(&p.to_string()))
    }

    /// The bag, club by club: how far each goes, and within what two thirds of its shots finish.
    ///
    /// Full swings from the lie a club is at home on (the driver on its tee, an iron on the fairway), on a level fairway of
    /// medium firmness in still air. The spans are quantiles of the club's pattern, flush strikes and misses of every
    /// severity together, without sampling error. Two thirds finish within the depth and two thirds within the width; fewer
    /// are within both.
    ///
    /// Returns:
    ///     A `BagTable`, one row a club, longest first. `columns()`: `club` (str); in yards `carry` and `total` (mean of
    ///     flush strikes), `average` (mean total of all shots), `short_end`, `long_end` and `depth` (of the central two
    ///     thirds of where all shots finish along the aim: a sixth ends shorter, a sixth longer), `left_end`, `right_end`
    ///     and `width` (the same to the side, positive to the right) and its `middle`, `solid_depth` and `solid_width` (of
    ///     flush strikes alone); `mishit_share` (0 to 1). `to_pandas()` and `to_polars()` give data frames.
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
    ///     seed: a whole number, 0 to 2**64 - 1, that fixes the luck, and with it every figure to the last bit, whatever the
    ///         number of threads.
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
        signature = (*, plays = None, seed = SeedGiven::usual(0), threads = None, progress = None),
        text_signature = "($self, *, plays=10000, seed=0, threads=None, progress=None)"
    )]
    fn expectations<'py>(
        slf: &Bound<'py, Self>,
        plays: Option<Bound<'py, PyAny>>,
        seed: SeedGiven,
        threads: Option<Bound<'py, PyAny>>,
        progress: Option<Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let seed = Some(seed.fit()?.0.into_pyobject(slf.py())?.into_any());
        let keywords = [
            ("plays", plays),
            ("seed", seed),
            ("threads", threads),
            ("progress", progress),
        ];
        let given = pictures::given_of(slf.py(), &keywords)?;
        explain::told(slf, "expectations", Some(&given))
    }

    /// Draws every club's pattern on one yardage picture, to scale; needs the extra `plot`.
    ///
    /// Dots are full shots, played by the model on a level fairway of medium firmness in still air from the lie the club is
    /// at home on. An ellipse is as deep and as wide as `Player.table` says: two thirds of all shots of a club finish within
    /// its depth, and two thirds within its width; within both are fewer.
    ///
    /// Args:
    ///     ax: Matplotlib axes to draw on; None for a new figure.
    ///     title: title; None for the player's name and handicap.
    ///     theme: `"light"` or `"dark"`.
    ///     shots: dots of every club, 1 to 100,000.
    ///     seed: a whole number that fixes the luck of the dots.
    ///
    /// Returns:
    ///     The axes, in yards: across the page to the right of the aim, and up the page along it.
    ///
    /// Raises:
    ///     InputError: before anything is played, naming the field, the value and what is allowed; a club whose carry no
    ///         believable ball speed gives.
    ///     ImportError: Matplotlib is not installed.
    #[pyo3(
        signature = (ax = None, *, title = None, theme = None, shots = None, seed = SeedGiven::usual(0)),
        text_signature = "($self, ax=None, *, title=None, theme='light', shots=60, seed=0)"
    )]
    fn plot<'py>(
        slf: &Bound<'py, Self>,
        ax: Option<Bound<'py, PyAny>>,
        title: Option<Bound<'py, PyAny>>,
        theme: Option<Bound<'py, PyAny>>,
        shots: Option<Bound<'py, PyAny>>,
        seed: SeedGiven,
    ) -> PyResult<Bound<'py, PyAny>> {
        let seed = Some(seed.fit()?.0.into_pyobject(slf.py())?.into_any());
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
        PyTeeShot(self.player.tee_shot())
    }
}

getters! {
    PyPlayer, self:
    /// Name of the player.
    name: &str = &self.player.name;
    /// Handicap Index, -10 (a plus handicap) to 54; None if not known.
    handicap: Option<f64> = self.player.handicap;
    /// The clubs but the putter, longest carry first.
    clubs: Vec<PyClub> = self.player.clubs.iter().cloned().map(PyClub).collect();
    /// What the player chooses by habit when nobody advises: the strategy `"direct"` follows it.
    habits: PyHabits = PyHabits(self.player.habits);
}
