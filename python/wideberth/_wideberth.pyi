"""Types of the compiled part of wideberth; the docstrings are in the compiled module."""

from collections.abc import Sequence
from os import PathLike
from typing import (
    Any,
    ClassVar,
    Final,
    Literal,
    Protocol,
    Self,
    SupportsFloat,
    SupportsIndex,
    TypeAlias,
    final,
    overload,
)

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import ArrayLike, NDArray
from typing_extensions import disjoint_base

from wideberth._explain import BagTable, Expectations
from wideberth._strategy import Strategy
from wideberth._table import Columns

# All that is declared here and is neither private nor imported: the tool that compares the stub wants it told.
__all__ = [
    "AcrossPlayers", "Aim", "AroundRanking", "Checkpoint", "Club", "Conditions", "Course", "Difference",
    "Feature", "Flight", "Habits", "Hazard", "Hole", "InputError", "Instruction",
    "MishitShape", "Plan", "PlayedRounds", "Player", "PlaysLike", "Putt", "Ranking", "Rating", "Run", "Solution",
    "Target", "TeeShot", "Uncertainty", "Wind", "__version__", "advance", "along", "along_line", "around_the_green",
    "at", "at_pin", "bag_table", "blow_up_losses", "break_score", "by_kind", "by_play", "captured", "carry_over",
    "club_shots", "compare", "compare_players", "course_read", "evaluate", "exactly", "expectations",
    "first_putt", "fly", "frontier", "hazard", "is_plain", "leave", "play_rounds", "plays_like", "practice_gains",
    "price_of_habits", "putt", "rating", "review", "run", "short_of_green", "shot", "simulate", "solve",
    "split_gained", "stands_out", "strokes", "strokes_gained", "suggest_plans", "two_thirds_ellipse", "usual_way",
    "whole_seed",
]  # fmt: skip

_Surface: TypeAlias = Literal[
    "tee",
    "fairway",
    "first_cut",
    "rough",
    "deep_rough",
    "fringe",
    "green",
    "bunker",
    "penalty_red",
    "penalty_yellow",
    "out_of_bounds",
    "trees",
]
#: Where a ball runs.
_Ground: TypeAlias = Literal[
    "tee",
    "fairway",
    "first_cut",
    "rough",
    "deep_rough",
    "fringe",
    "green",
    "bunker",
    "out_of_bounds",
    "trees",
]
_Aerodynamics: TypeAlias = Literal["smooth", "penner-2001", "smits-smith-1994"] | _Xy
_WindProfile: TypeAlias = Literal["logarithmic", "flat"]
_Then: TypeAlias = Literal["direct", "steady", "best"]
_Lie: TypeAlias = Literal["tee", "fairway", "first_cut", "rough", "deep_rough", "fringe", "green", "bunker", "trees"]
#: What fixes luck: a whole number, or what NumPy draws one of.
_Seed: TypeAlias = SupportsIndex | np.random.Generator | np.random.BitGenerator | np.random.SeedSequence
_Short: TypeAlias = Literal["putter", "chip", "pitch", "lob", "bunker_shot", "punch"]
#: A skill of another player, or a share of the way to it.
_Toward: TypeAlias = Player | tuple[Player, float]
#: How a skill changes: by a number, or towards another player.
_Change: TypeAlias = float | _Toward
_Theme: TypeAlias = Literal["light", "dark"]
_YardsFrom: TypeAlias = Literal["tee", "green", "both", "neither"]
_Xy: TypeAlias = tuple[float, float]
_Tiers: TypeAlias = tuple[float, float] | tuple[float, float, float]
_Firmness: TypeAlias = Literal["soft", "medium", "firm", "links-firm"] | float
_Figure: TypeAlias = Literal["carry", "carry_sd", "lateral_bias", "lateral_sd", "correlation", "mishit_share"]
_Six: TypeAlias = tuple[float, float, float, float, float, float]
_Units: TypeAlias = Literal["yards", "metres", "feet"]
# A data frame of pandas or polars, a mapping of columns, a structured array, rows or a path: read column by column.
_Table: TypeAlias = Any
_Number: TypeAlias = SupportsFloat | SupportsIndex
_Floats: TypeAlias = NDArray[np.float64]
_Integers: TypeAlias = NDArray[np.int64]

__version__: Final[str]

class InputError(ValueError): ...

class _Compared:
    """What is equal when its parts are, and has no hash."""

    def __eq__(self, other: object, /) -> bool: ...
    def __ne__(self, other: object, /) -> bool: ...
    __hash__: ClassVar[None]  # type: ignore[assignment]

class _Document(_Compared):
    """What the package itself keeps as JSON. What is public tells of its own documents, in its class."""

    @classmethod
    def from_json(cls, text: str) -> Self: ...
    def to_json(self) -> str: ...

@final
class Aim(_Compared): ...

@final
class Hazard(_Compared): ...

@final
class Feature(_Compared):
    surface: Final[_Surface]
    name: Final[str | None]
    area: Final[float]
    height_ft: Final[float | None]
    openness: Final[float | None]
    rings: Final[list[_Floats]]

@final
class Hole(_Compared):
    @classmethod
    def read(
        cls,
        source: Any,
        *,
        hole: float | str | _Xy | None = None,
        course: str | None = None,
        par: int | None = None,
        number: int | None = None,
        stroke_index: int | None = None,
        name: str | None = None,
        tee: str | _Xy | None = None,
        line: Sequence[_Xy] | None = None,
        pin: _Xy | None = None,
        assume: str | Sequence[str] = (),
        out_of_bounds: str | Sequence[str] = (),
        obstructions: str | Sequence[str] = (),
        attribution: str | None = None,
    ) -> Self: ...
    @classmethod
    def from_geojson(cls, text: str, *, hole: float | str | _Xy | None = None) -> Self: ...
    def to_geojson(self) -> dict[str, Any]: ...
    @property
    def __geo_interface__(self) -> dict[str, Any]: ...
    @classmethod
    def from_json(cls, text: str) -> Self: ...
    def to_json(self) -> str: ...
    @classmethod
    def sketch(
        cls,
        *,
        par: int,
        length: float,
        name: str | None = None,
        number: int | None = None,
        stroke_index: int | None = None,
        dogleg: _Xy | None = None,
        fairway_width: float | None = None,
        fairway_from: float | None = None,
        fairway_to: float | None = None,
        green_depth: float | None = None,
        green_width: float | None = None,
        first_cut_width: float | None = None,
        fringe_width: float | None = None,
        pin_back: float = 0.0,
        pin_right: float = 0.0,
        bunkers: Sequence[Aim | Hazard] = (),
        water: Sequence[Aim | Hazard] = (),
        crossings: Sequence[_Xy] = (),
        trees: Sequence[Aim | Hazard] = (),
        out_of_bounds: Literal["left", "right", "both"] | None = None,
        out_of_bounds_offset: float | None = None,
        green_speed: float | None = None,
        uphill_ft: float = 0.0,
        fairway_tilt_percent: float = 0.0,
        green_tilt_percent: _Xy | None = None,
        two_tier_green: _Tiers | None = None,
    ) -> Self: ...
    name: Final[str]
    number: Final[int | None]
    par: Final[int]
    stroke_index: Final[int | None]
    length: Final[float]
    tee: Final[_Xy]
    pin: Final[_Xy]
    green_speed: Final[float]
    notes: Final[list[str]]
    warnings: Final[list[str]]
    cautions: Final[list[str]]
    attribution: Final[str | None]
    origin: Final[_Xy | None]
    tees: Final[dict[str, _Xy]]
    slopes_in_words: Final[str]
    north_up: Final[bool]
    line_of_play: Final[_Floats]
    features: Final[list[Feature]]
    standing_trees: Final[list[Feature]]
    def point(self, aim: Aim) -> _Xy: ...
    @overload
    def surface_at(self, place: tuple[_Number, _Number] | Aim) -> _Surface: ...
    @overload
    def surface_at(self, place: Sequence[Sequence[_Number]]) -> NDArray[np.str_]: ...
    # An array of shape (2,) is one place, one of shape (n, 2) many: its type does not tell which.
    @overload
    def surface_at(self, place: NDArray[Any]) -> Any: ...
    conditions: Final[Conditions]
    def under(self, conditions: Conditions) -> Self: ...
    def with_pin(self, *, back: float = 0.0, right: float = 0.0) -> Self: ...
    def with_tee(self, tee: str | _Xy) -> Self: ...
    def with_terrain(
        self,
        *,
        heights_ft: ArrayLike | None = None,
        cell: float | _Xy | None = None,
        corner: _Xy | None = None,
        uphill_ft: float = 0.0,
        fairway_tilt_percent: float = 0.0,
        green_tilt_percent: _Xy | None = None,
        two_tier_green: _Tiers | None = None,
    ) -> Self: ...
    def with_survey(
        self,
        path: str | PathLike[str],
        *,
        origin: _Xy | None = None,
        plan: Literal["metres", "feet", "degrees"] | None = None,
        heights: Literal["metres", "feet"] | None = None,
        crs: str | None = None,
        green_tilt_percent: _Xy | None = None,
        two_tier_green: _Tiers | None = None,
    ) -> Self: ...
    @overload
    def height_ft(self, place: tuple[_Number, _Number] | Aim) -> float: ...
    @overload
    def height_ft(self, place: ArrayLike) -> _Floats: ...
    @overload
    def slope_percent(self, place: tuple[_Number, _Number] | Aim) -> _Xy: ...
    @overload
    def slope_percent(self, place: ArrayLike) -> _Floats: ...
    def plot(
        self,
        ax: Axes | None = None,
        *,
        title: str | None = None,
        theme: _Theme = "light",
        yards_from: _YardsFrom = "both",
    ) -> Axes: ...
    def _repr_html_(self) -> str: ...

@final
class Wind(_Compared):
    def __new__(cls, mph: float, from_deg: float) -> Self: ...
    mph: Final[float]
    from_deg: Final[float]

@final
class Conditions(_Compared):
    def __new__(
        cls,
        *,
        wind: Wind | None = None,
        firmness: _Firmness = "medium",
        green_speed: float | None = None,
        temperature_f: float = 59.0,
        altitude_ft: float = 0.0,
        hole_diameter_in: float = 4.25,
    ) -> Self: ...
    wind: Final[Wind]
    firmness: Final[str | float]
    green_speed: Final[float | None]
    temperature_f: Final[float]
    altitude_ft: Final[float]
    hole_diameter_in: Final[float]

# The package makes its own of it.
@disjoint_base
class Course(_Compared):
    def __new__(cls, holes: Sequence[Hole], *, name: str = "Course", attribution: str | None = None) -> Self: ...
    @classmethod
    def from_json(cls, text: str) -> Self: ...
    def to_json(self) -> str: ...
    name: Final[str]
    attribution: Final[str | None]
    holes: Final[list[Hole]]
    numbers: Final[list[int]]
    par: Final[int]
    length: Final[float]
    stroke_indexes: Final[list[int] | None]

@final
class Flight(_Compared):
    path: Final[_Floats]
    carry: Final[float]
    lateral: Final[float]
    apex_ft: Final[float]
    apex_at: Final[float]
    time_s: Final[float]
    landing_deg: Final[float]
    landing_speed_mph: Final[float]
    landing_spin_rpm: Final[float]
    speed_mph: Final[float]
    launch_deg: Final[float]
    spin_rpm: Final[float]
    axis_tilt_deg: Final[float]
    bearing_deg: Final[float]
    wind: Final[Wind]
    wind_profile: Final[_WindProfile]
    temperature_f: Final[float]
    altitude_ft: Final[float]
    aerodynamics: Final[str | _Xy]
    target_height_ft: Final[float]
    def height_ft(self, at: float) -> float: ...

@final
class Run(_Compared):
    distance: Final[float]
    lateral: Final[float]
    path: Final[_Floats]
    stopped: Final[bool]
    firmness: Final[str | float]
    surface: Final[str]
    green_speed: Final[float]
    slope_percent: Final[_Xy]

@final
class Putt(_Compared):
    length_ft: Final[float]
    slope_percent: Final[_Xy]
    green_speed: Final[float]
    past_ft: Final[float]
    break_in: Final[float]
    aim_deg: Final[float]
    launch_ft_s: Final[float]
    path: Final[_Floats]
    def make_chance(self, player: Player) -> float: ...

@final
class MishitShape(_Compared):
    def __new__(
        cls,
        *,
        duff_part: float = 0.5,
        duff_carry: float = 0.25,
        duff_carry_sd: float = 0.12,
        duff_side: float = 0.8,
        duff_run: float = 0.15,
        wild_carry: float = 0.8,
        wild_carry_sd: float = 0.1,
        wild_side: float = 4.0,
        wild_run: float = 0.12,
        mildness: float = 2.0,
    ) -> Self: ...
    duff_part: Final[float]
    duff_carry: Final[float]
    duff_carry_sd: Final[float]
    duff_side: Final[float]
    duff_run: Final[float]
    wild_carry: Final[float]
    wild_carry_sd: Final[float]
    wild_side: Final[float]
    wild_run: Final[float]
    mildness: Final[float]
    @classmethod
    def from_json(cls, text: str) -> Self: ...
    def to_json(self) -> str: ...

@final
class Habits(_Compared):
    def __new__(cls, *, too_little_club: float = 0.0, every_flag: bool = False, always_chips: bool = False) -> Self: ...
    @classmethod
    def none(cls) -> Self: ...
    too_little_club: Final[float]
    every_flag: Final[bool]
    always_chips: Final[bool]
    @classmethod
    def from_json(cls, text: str) -> Self: ...
    def to_json(self) -> str: ...

@final
class Club(_Compared):
    def __new__(
        cls,
        name: str,
        *,
        carry: float,
        carry_sd: float,
        lateral_sd: float,
        lateral_bias: float = 0.0,
        correlation: float = 0.0,
        mishit_share: float = 0.0,
        mishit_shape: MishitShape | None = None,
        run: float | None = None,
        off_ground: float = 1.0,
        launch_deg: float | None = None,
        spin_rpm: float | None = None,
    ) -> Self: ...
    @classmethod
    def like(cls, club: Club, **changes: Any) -> Self: ...
    name: Final[str]
    carry: Final[float]
    carry_sd: Final[float]
    lateral_sd: Final[float]
    lateral_bias: Final[float]
    correlation: Final[float]
    mishit_share: Final[float]
    mishit_shape: Final[MishitShape]
    run: Final[float]
    off_ground: Final[float]
    total: Final[float]
    launch_deg: Final[float | None]
    spin_rpm: Final[float | None]
    flight: Final[Flight]
    def height_ft(self, at: float) -> float: ...
    @classmethod
    def from_json(cls, text: str) -> Self: ...
    def to_json(self) -> str: ...

@final
class Player(_Compared):
    @classmethod
    def from_handicap(
        cls,
        handicap: float,
        *,
        carries: dict[str, float] | None = None,
        lateral_biases: dict[str, float] | None = None,
        reference: Literal["men", "women"] = "men",
        bag: Sequence[str | Club] | None = None,
    ) -> Self: ...
    @classmethod
    def from_average_score(
        cls,
        average_score: float,
        *,
        course_rating: float = 70.0,
        slope_rating: float = 113.0,
        reference: Literal["men", "women"] = "men",
    ) -> Self: ...
    @classmethod
    def from_shots(
        cls,
        shots: _Table | None,
        *,
        prior: Player,
        outcomes: _Table | None = None,
        units: _Units | None = None,
    ) -> Self: ...
    @staticmethod
    def _from_fit(text: str) -> Player: ...
    def uncertainty(self, club: str) -> Uncertainty: ...
    def interval(self, club: str, figure: _Figure, *, level: float = 0.9) -> tuple[float, float]: ...
    def draws(self, n: int, *, seed: _Seed) -> list[Player]: ...
    def judged_shots(self) -> dict[str, NDArray[Any]]: ...
    doubts: Final[list[str]]
    @classmethod
    def professional(cls) -> Self: ...
    @classmethod
    def from_json(cls, text: str) -> Self: ...
    def to_json(self) -> str: ...
    name: Final[str]
    handicap: Final[float | None]
    clubs: Final[list[Club]]
    def club(self, name: str) -> Club: ...
    def with_clubs(self, clubs: Sequence[Club]) -> Self: ...
    def with_changes(
        self,
        *,
        longer: _Toward | dict[str, _Change] | None = None,
        straighter: _Change | dict[str, _Change] | None = None,
        surer_distance: _Change | dict[str, _Change] | None = None,
        fewer_mishits: _Change | dict[str, _Change] | None = None,
        bad_lies: _Change | None = None,
        short_game: _Change | dict[_Short, _Change] | None = None,
        putting: _Change | dict[Literal["line", "reading", "pace"], _Change] | None = None,
    ) -> Self: ...
    habits: Final[Habits]
    def with_habits(self, habits: Habits) -> Self: ...
    def plot(
        self,
        ax: Axes | None = None,
        *,
        title: str | None = None,
        theme: _Theme = "light",
        shots: int = 60,
        seed: _Seed = 0,
    ) -> Axes: ...
    def tee_shot(self) -> TeeShot: ...
    def table(self) -> BagTable: ...
    def expectations(
        self, *, plays: int = 10000, seed: _Seed = 0, threads: int | None = None, progress: Any = None
    ) -> Expectations: ...
    def _repr_html_(self) -> str: ...

@final
class Uncertainty(_Compared):
    def __new__(
        cls,
        club: str,
        counts: tuple[int, int, float, float],
        errors: _Six,
        weights: _Six,
        text: str,
    ) -> Self: ...
    club: Final[str]
    shots: Final[int]
    outcomes: Final[int]
    mishits: Final[float]
    outliers: Final[float]
    carry_se: Final[float]
    carry_sd_se: Final[float]
    lateral_bias_se: Final[float]
    lateral_sd_se: Final[float]
    correlation_se: Final[float]
    mishit_share_se: Final[float]
    carry_weight: Final[float]
    carry_sd_weight: Final[float]
    lateral_bias_weight: Final[float]
    lateral_sd_weight: Final[float]
    correlation_weight: Final[float]
    mishit_share_weight: Final[float]
    _text: Final[str]

@final
class Instruction(_Compared):
    @classmethod
    def from_json(cls, text: str) -> Self: ...
    def to_json(self) -> str: ...

@final
class Plan(_Compared):
    def __new__(
        cls, name: str, instructions: Sequence[Instruction], then: _Then | _Solved | Strategy = "steady"
    ) -> Self: ...
    name: Final[str]
    instructions: Final[list[Instruction]]
    then: Final[Any]
    @classmethod
    def from_json(cls, text: str) -> Self: ...
    def to_json(self) -> str: ...

class _Solved(Protocol):
    @property
    def _solution(self) -> Solution: ...

_Place: TypeAlias = tuple[_Number, _Number] | Aim
_Other: TypeAlias = tuple[str, str, float, float | None, float]

@final
class Solution:
    hole: Final[Hole]
    player: Final[Player]
    made: Final[tuple[str, int | None, float, float, _Then | None]]
    costs_are_in: Final[str]
    def cannot_be_finished(self) -> bool: ...
    def gain_over(self, other: Solution) -> float: ...
    def expected_strokes(self, where: _Place, lie: str | None) -> float: ...
    def chance(self, where: _Place, lie: str | None, at_most: int | None) -> float: ...
    def distribution(self) -> NDArray[np.float64]: ...
    def shot_from(self, where: _Place, lie: str | None, at_most: int | None) -> dict[str, Any]: ...
    def best_shot(self, where: _Place, lie: str | None) -> dict[str, Any]: ...
    def flag_shot(self, where: _Place, lie: str | None) -> dict[str, Any]: ...
    def pointed_shot(
        self, club: str, over: _Place, full: bool, where: _Place, lie: str | None
    ) -> dict[str, Any] | None: ...
    def strokes_from(self, where: _Place, lie: str | None) -> tuple[_Lie, list[tuple[str, float]]]: ...
    def map(
        self, lie: str, cell: float, at_most: int | None
    ) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]: ...

@final
class Checkpoint(_Compared): ...

@final
class Difference(_Compared):
    mean: Final[float]
    standard_error: Final[float]
    interval: Final[tuple[float, float]]
    better: Final[float | None]
    worse: Final[float | None]
    variance_factor: Final[float]

class _Ranked(_Document):
    """What was counted of all that is ranked, by name; pairs are a value and its standard error."""

    names: Final[list[str]]
    plays: Final[int]
    seed: Final[int]
    settled: Final[bool]
    cannot_be_finished: Final[bool]
    @property
    def start(self) -> tuple[_Xy, _Lie] | None: ...
    def mean(self, name: str) -> tuple[float, float]: ...
    def distribution(self, name: str) -> dict[int, float]: ...
    def putts(self, name: str) -> tuple[float, float]: ...
    def unfinished(self, name: str) -> int: ...
    def unfinished_share(self, name: str) -> tuple[float, float]: ...
    broken_off: Final[int]
    def difference(self, first: str, second: str) -> Difference: ...

@final
class Ranking(_Ranked):
    par: Final[int]
    is_even: Final[bool]
    blow_up_over_par: Final[int]
    safer: Final[str | None]
    def at_least(self, name: str, score: int) -> tuple[float, float]: ...
    def blow_up(self, name: str) -> tuple[float, float]: ...
    def double_bogey(self, name: str) -> tuple[float, float]: ...
    def quantile(self, name: str, share: float) -> int: ...
    def checkpoints(self, name: str) -> dict[str, tuple[float, float]]: ...
    def blow_up_causes(self, name: str) -> dict[str, float]: ...
    def penalties(self, name: str) -> tuple[float, float]: ...

@final
class AcrossPlayers(_Document):
    source: Final[str]
    draws: Final[int]
    choice: Final[str]
    cost: Final[tuple[float, float]]
    clubs: Final[list[tuple[str, float]]]
    more_shots: Final[tuple[Literal["not needed", "worth", "untold"], str | None]]
    def chance_best(self, name: str) -> tuple[float, float]: ...
    def mean(self, name: str) -> tuple[float, float]: ...

@final
class AroundRanking(_Ranked):
    @property
    def start(self) -> tuple[_Xy, _Lie]: ...
    to_pin: Final[float]
    def down_in(self, name: str, strokes: int) -> tuple[float, float]: ...
    def meant(self, name: str) -> tuple[float, float]: ...
    def on_green(self, name: str) -> tuple[float, float]: ...
    def missed_green(self, name: str) -> tuple[float, float]: ...
    def holed(self, name: str) -> tuple[float, float]: ...
    def chunked(self, name: str) -> tuple[float, float]: ...
    def thinned(self, name: str) -> tuple[float, float]: ...
    def left_ft(self, name: str, share: float) -> float: ...
    def within_ft(self, name: str, feet: float) -> tuple[float, float]: ...

def along(yards: float, right: float | None = None, *, left: float | None = None) -> Aim: ...
def at(x: float, y: float) -> Aim: ...
def short_of_green(yards: float, right: float | None = None, *, left: float | None = None) -> Aim: ...
def shot(club: str, aim: Aim, *, carry: float | None = None) -> Instruction: ...
def leave(yards: float) -> Instruction: ...
def advance(yards: float) -> Instruction: ...
def at_pin(*, clubs: int = 0) -> Instruction: ...
def carry_over(over: Aim, *, by: float = 10.0) -> Instruction: ...
def exactly(stroke: str, over: Aim, *, carry: float | None = None) -> Instruction: ...
def hazard(
    place: Aim,
    length: float | None = None,
    width: float | None = None,
    name: str | None = None,
    height_ft: float | None = None,
    openness: float | None = None,
) -> Hazard: ...
def fly(
    *,
    speed_mph: float,
    launch_deg: float,
    spin_rpm: float,
    axis_tilt_deg: float = 0.0,
    bearing_deg: float = 0.0,
    wind: Wind | None = None,
    wind_profile: _WindProfile = "logarithmic",
    temperature_f: float = 59.0,
    altitude_ft: float = 0.0,
    aerodynamics: _Aerodynamics = "smooth",
    target_height_ft: float = 0.0,
) -> Flight: ...
def run(
    flight: Flight | None = None,
    *,
    landing_speed_mph: float | None = None,
    landing_deg: float | None = None,
    landing_spin_rpm: float | None = None,
    firmness: _Firmness = "medium",
    surface: _Ground = "fairway",
    green_speed: float = 9.0,
    slope_percent: _Xy = (0.0, 0.0),
) -> Run: ...
def putt(
    *,
    length_ft: float,
    slope_percent: _Xy = (0.0, 0.0),
    green_speed: float = 9.0,
    past_ft: float = 1.0,
) -> Putt: ...
def captured(*, speed_ft_s: float, offset_in: float = 0.0) -> bool: ...
def first_putt(within_ft: float, after_strokes: int) -> Checkpoint: ...
def suggest_plans(hole: Hole, player: Player) -> list[Plan]: ...

# Place in Hole.features, side, yards to reach and to carry; then stroke, start, aim, rest and what lies in the way.
_InTheWay: TypeAlias = tuple[int, Literal["left", "right"] | None, float, float]
_Leg: TypeAlias = tuple[str, _Xy, _Xy, list[_InTheWay]]

@final
class PlaysLike(_Compared):
    def __new__(
        cls, distance: float, plays_like: float, stroke: str, aim_right: float, uphill_ft: float, in_reach: bool
    ) -> Self: ...
    distance: Final[float]
    plays_like: Final[float]
    stroke: Final[str]
    aim_right: Final[float]
    uphill_ft: Final[float]
    in_reach: Final[bool]

def plays_like(
    hole: Hole,
    player: Player,
    *,
    at: tuple[_Number, _Number] | Aim | None = None,
    to: tuple[_Number, _Number] | Aim | None = None,
) -> PlaysLike: ...

@final
class TeeShot:
    def __new__(cls, club: str, carry: float, run: float, total: float) -> Self: ...
    club: Final[str]
    carry: Final[float]
    run: Final[float]
    total: Final[float]
    def __eq__(self, other: object, /) -> bool: ...
    def __ne__(self, other: object, /) -> bool: ...

def bag_table(player: Player) -> Columns: ...
def is_plain(text: str) -> bool: ...
def two_thirds_ellipse(points: ArrayLike) -> tuple[float, float, float, float, float] | None: ...
def club_shots(player: Player, *, shots: int, seed: _Seed) -> list[tuple[str, _Floats]]: ...
def whole_seed(seed: _Seed) -> int: ...
def along_line(hole: Hole, at: _Place) -> float: ...

@final
class PlayedRounds(_Compared):
    plays: Final[int]
    seed: Final[int]
    def mean(self) -> tuple[float, float, float]: ...
    over_par: Final[float]
    def distribution(self) -> dict[int, float]: ...
    def at_most(self, total: int) -> tuple[float, float]: ...
    def quantile(self, share: float) -> int: ...
    def statistics(self) -> Columns: ...
    def by_hole(self) -> Columns: ...
    def hole_scores(self, place: int) -> list[tuple[int, float]]: ...
    def blow_up_causes(self) -> list[tuple[str, float]]: ...
    unfinished: Final[int]
    def scores(self) -> NDArray[np.uint8]: ...
    def index(self, rating: Rating) -> tuple[float, float]: ...
    @staticmethod
    def _restore(course: Course, found: str) -> PlayedRounds: ...

@final
class Rating(_Compared):
    plays: Final[int]
    seed: Final[int]
    reference: Final[str]
    scratch: Final[tuple[float, float]]
    bogey: Final[tuple[float, float]]
    slope: Final[tuple[float, float]]
    def by_hole(self) -> Columns: ...
    def stroke_indexes(self) -> list[int]: ...
    @staticmethod
    def _restore(course: Course, found: str) -> Rating: ...

@final
class Target(_Compared):
    to_break: Final[int]
    plays: Final[int]
    seed: Final[int]
    chance: Final[tuple[float, float]]
    by_fewest: Final[tuple[float, float]]
    gain: Final[tuple[float, float]]
    def chance_from(self, hole: int, strokes_so_far: int) -> float: ...
    def way_from(self, hole: int, strokes_so_far: int) -> str: ...
    def likely(self, place: int) -> list[float]: ...
    ways: Final[list[str]]
    def plan(self) -> Columns: ...
    def hole_scores(self, place: int) -> list[list[tuple[int, float]]]: ...
    @staticmethod
    def _restore(course: Course, found: str) -> Target: ...

#: The arguments of the public function that asks, by name.
_Asked: TypeAlias = dict[str, Any]
_Estimate: TypeAlias = tuple[float, float]

def around_the_green(asked: _Asked) -> AroundRanking: ...
def break_score(asked: _Asked) -> Target: ...
def compare(asked: _Asked) -> tuple[Ranking, AcrossPlayers | None]: ...
def compare_players(asked: _Asked) -> Ranking: ...
def course_read(asked: _Asked) -> Course: ...
def evaluate(asked: _Asked) -> Solution: ...
def expectations(asked: _Asked) -> tuple[dict[str, Columns], float]: ...
def frontier(asked: _Asked) -> list[tuple[Solution, float, float, float]]: ...
def play_rounds(asked: _Asked) -> PlayedRounds: ...
def practice_gains(asked: _Asked) -> tuple[_Estimate, Columns]: ...
def price_of_habits(asked: _Asked) -> tuple[int, list[Difference]]: ...
def rating(asked: _Asked) -> Rating: ...
def review(
    asked: _Asked, text: str
) -> tuple[Columns, dict[str, list[Any]], list[str], dict[str, Columns], tuple[int, float, float]]: ...
def stands_out(mean: float, standard_error: float) -> bool: ...
def simulate(asked: _Asked) -> tuple[Columns, Columns, float]: ...
def solve(asked: _Asked, kind: str, strokes: int | None, price: float) -> Solution: ...
def strokes(asked: _Asked) -> Columns: ...
def usual_way(
    asked: _Asked,
) -> tuple[list[_Leg], float, _Estimate, Literal["left", "right"] | None, int]: ...
def strokes_gained(solution: Solution, table: _Asked) -> Columns: ...
def split_gained(solution: Solution, table: _Asked) -> Columns: ...
def by_play(*, play: _Integers, gained: _Floats) -> list[tuple[int, float]]: ...
def by_kind(*, play: _Integers, kind: _Integers, kinds: int, gained: _Floats) -> tuple[int, _Estimate, Columns]: ...
def blow_up_losses(asked: _Asked, solution: Solution, ranking: Ranking) -> tuple[int, int, _Estimate, Columns]: ...
