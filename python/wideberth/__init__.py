"""wideberth: what a golf plan really costs.

A player's clubs are patterns of carry and lateral, a hole is a map of surfaces, and thousands of plays
are simulated stroke by stroke under the Rules of Golf, so that plans can be ranked by expected score
and by the risk of a blow-up hole.

Distances are yards; putts, proximities and heights are feet; the unit is in the name or the docstring.
Every number is a model estimate for learning, not a ruling and not a guarantee.

Example:
    >>> import wideberth as wb
    >>> hole = wb.Hole.sketch(par=4, length=392, fairway_width=32, green_depth=30, green_width=26)
    >>> pupil = wb.Player.from_handicap(18)
    >>> plans = [wb.Plan("driver", [wb.shot("driver", wb.along(200))])]
    >>> result = wb.compare(hole, pupil, plans, plays=2_000, seed=1)
    >>> 4.0 < result.best.mean < 7.0
    True
"""

from wideberth import ball
from wideberth._advice import Advice, Alternative
from wideberth._aim import AimSweep, SweptAim, aim_sweep
from wideberth._around import AroundOption, AroundTheGreen, around_the_green
from wideberth._compare import Comparison, compare
from wideberth._course import Course
from wideberth._explain import BagTable, Expectations, ExpectationTable
from wideberth._frontier import FrontierPoint, frontier
from wideberth._gained import BlowUpLosses, GainedTable, StrokesGained
from wideberth._habits import PriceOfHabits, price_of_habits
from wideberth._objective import Objective, at_most, safe
from wideberth._plan_result import PlanResult
from wideberth._players import PlayerResult, PlayersComparison, compare_players
from wideberth._plays import Plays, simulate
from wideberth._practice import PracticeGains, practice_gains
from wideberth._rating import Rating
from wideberth._report import pocket_card, report
from wideberth._review import Review, review
from wideberth._round_table import RoundTable
from wideberth._rounds import PlayedRounds, play_rounds
from wideberth._solution import Solution
from wideberth._solve import evaluate, solve
from wideberth._strategy import Strategy, strategy
from wideberth._strokes import strokes
from wideberth._sweep import sweep
from wideberth._target import Target, break_score
from wideberth._value_map import ValueMap
from wideberth._wideberth import (
    Aim,
    Checkpoint,
    Club,
    Conditions,
    Difference,
    Feature,
    Habits,
    Hazard,
    Hole,
    InputError,
    Instruction,
    MishitShape,
    Plan,
    Player,
    PlaysLike,
    TeeShot,
    Uncertainty,
    Wind,
    __version__,
    advance,
    along,
    at,
    at_pin,
    carry_over,
    exactly,
    first_putt,
    hazard,
    leave,
    plays_like,
    short_of_green,
    shot,
    suggest_plans,
)

__all__ = [
    "Advice",
    "Aim",
    "AimSweep",
    "Alternative",
    "AroundOption",
    "AroundTheGreen",
    "BagTable",
    "BlowUpLosses",
    "Checkpoint",
    "Club",
    "Comparison",
    "Conditions",
    "Course",
    "Difference",
    "ExpectationTable",
    "Expectations",
    "Feature",
    "FrontierPoint",
    "GainedTable",
    "Habits",
    "Hazard",
    "Hole",
    "InputError",
    "Instruction",
    "MishitShape",
    "Objective",
    "Plan",
    "PlanResult",
    "PlayedRounds",
    "Player",
    "PlayerResult",
    "PlayersComparison",
    "Plays",
    "PlaysLike",
    "PracticeGains",
    "PriceOfHabits",
    "Rating",
    "Review",
    "RoundTable",
    "Solution",
    "Strategy",
    "StrokesGained",
    "SweptAim",
    "Target",
    "TeeShot",
    "Uncertainty",
    "ValueMap",
    "Wind",
    "__version__",
    "advance",
    "aim_sweep",
    "along",
    "around_the_green",
    "at",
    "at_most",
    "at_pin",
    "ball",
    "break_score",
    "carry_over",
    "compare",
    "compare_players",
    "evaluate",
    "exactly",
    "first_putt",
    "frontier",
    "hazard",
    "leave",
    "play_rounds",
    "plays_like",
    "pocket_card",
    "practice_gains",
    "price_of_habits",
    "report",
    "review",
    "safe",
    "short_of_green",
    "shot",
    "simulate",
    "solve",
    "strategy",
    "strokes",
    "suggest_plans",
    "sweep",
]
