"""Public functions and methods with arguments of the wrong class, size and meaning."""

from __future__ import annotations

import functools

import numpy as np
import wideberth as wb

from attacking.things import COURSE, HOLE, PLANS, PLAYER, SHORT, Fault, Refused, refusal


class Odd:
    """Something that answers to nothing as it should."""

    def __repr__(self):
        raise RuntimeError("no words")

    def __len__(self):
        return 10**12

    def __getitem__(self, key):
        return self


def junk(dice):
    return dice.choice(
        [
            *(
                None,
                True,
                "",
                "x",
                "a\0b",
                b"x",
                [],
                {},
                (),
                [1],
                {"a": 1},
                (1, 2),
                [None],
                {1: 2},
                object(),
                Odd(),
                object,
            ),
            *(
                float("nan"),
                float("inf"),
                -1,
                0,
                3,
                2.5,
                1e308,
                10**40,
                -(10**40),
                2**64,
                np.float64("nan"),
                np.int64(3),
            ),
            *(
                np.zeros(0),
                np.zeros((2, 2)),
                np.array(["a"]),
                np.ma.masked_array([1.0], [True]),
                range(10**9),
                iter([1]),
            ),
            *(HOLE, PLAYER, PLANS[0], COURSE, wb.along(100), wb.Wind(mph=3, from_deg=4), lambda *a, **k: None, max),
        ]
    )


@functools.cache
def calls():
    """Public functions and methods with arguments that are good and quickly answered."""
    plan = {"plays": 20, "seed": 1, "threads": 1}
    one = {"hole": HOLE, "player": PLAYER}
    course = {"course": COURSE, "player": PLAYER}
    solution = wb.evaluate(SHORT, PLAYER, cell=10)
    result = wb.compare(HOLE, PLAYER, PLANS, plays=20)
    heights = {"heights_ft": np.zeros((8, 8)), "cell": 100, "corner": (-300, -100)}
    return {
        "compare": (
            wb.compare,
            {**one, "plans": PLANS, **plan, "blow_up": 3, "at": None, "lie": None, "checkpoints": None},
        ),
        "compare to a precision": (wb.compare, {**one, "plans": PLANS[:1], "precision": 0.5, "maximum_score": 9}),
        "compare draws": (wb.compare, {**one, "plans": PLANS[:1], "plays": 5, "player_draws": 2}),
        "compare evenly": (
            wb.compare,
            {**one, "plans": PLANS[:1], "luck": "even", "plays": 64, "seed": 1, "threads": 1},
        ),
        "compare_players": (wb.compare_players, {"hole": HOLE, "players": {"a": PLAYER}, "plan": PLANS[0], **plan}),
        "simulate": (wb.simulate, {**one, "plan": PLANS[0], **plan, "at": None, "lie": None}),
        "strokes": (wb.strokes, {**one, "club": "7-iron", "target": wb.along(100), "carry": 90, "n": 9, "seed": 1}),
        "suggest_plans": (wb.suggest_plans, one),
        "plays_like": (wb.plays_like, {**one, "at": wb.along(100), "to": None}),
        "around_the_green": (wb.around_the_green, {**one, "at": wb.short_of_green(8), **plan}),
        "aim_sweep": (wb.aim_sweep, {**one, "club": "driver", "aims": [0, 5], **plan}),
        "price_of_habits": (wb.price_of_habits, {**one, **plan}),
        "evaluate": (wb.evaluate, {"hole": SHORT, "player": PLAYER, "cell": 10, "threads": 1}),
        "play_rounds": (wb.play_rounds, {**course, "then": "direct", "plans": None, **plan}),
        "break_score": (wb.break_score, {**course, "target": 8, "plays": 200, "cell": 10, "seed": 1}),
        "practice_gains": (wb.practice_gains, {**course, "target": 8, "share": 0.1, "plays": 2, "then": "direct"}),
        "review": (wb.review, {**course, "round": "nowhere.csv"}),
        "sweep": (wb.sweep, {"function": wb.along, "cases": [{"yards": 3}], "executor": None, "progress": None}),
        "Course": (wb.Course, {"holes": [SHORT], "name": "One", "attribution": None}),
        "rating": (COURSE.rating, {"plays": 3, "seed": 1, "reference": "men"}),
        "Hole.sketch": (
            wb.Hole.sketch,
            {"par": 4, "length": 400, "bunkers": [], "water": [], "trees": [], "name": "a", "dogleg": (230, 20)},
        ),
        "Hole.under": (HOLE.under, {"conditions": wb.Conditions()}),
        "Hole.with_pin": (HOLE.with_pin, {"back": 3, "right": 2}),
        "Hole.with_terrain": (
            HOLE.with_terrain,
            {"uphill_ft": 3, "fairway_tilt_percent": 1, "green_tilt_percent": (1, 1)},
        ),
        "Hole.with_terrain heights": (HOLE.with_terrain, heights),
        "Hole.surface_at": (HOLE.surface_at, {"place": (0, 100)}),
        "Hole.height_ft": (HOLE.height_ft, {"place": [[0, 100]]}),
        "Conditions": (wb.Conditions, {"wind": wb.Wind(mph=3, from_deg=1), "firmness": "firm", "green_speed": 9}),
        "Wind": (wb.Wind, {"mph": 3, "from_deg": 9}),
        "hazard": (wb.hazard, {"place": wb.along(100), "length": 9, "width": 9, "name": "a"}),
        "along": (wb.along, {"yards": 100, "right": 3}),
        "Plan": (wb.Plan, {"name": "p", "instructions": [wb.at_pin()], "then": "steady"}),
        "shot": (wb.shot, {"club": "driver", "target": wb.along(200), "carry": 190}),
        "carry_over": (wb.carry_over, {"target": wb.along(200), "by": 5}),
        "leave": (wb.leave, {"yards": 90}),
        "first_putt": (wb.first_putt, {"within_ft": 10, "after_strokes": 2}),
        "Club": (
            wb.Club,
            {"name": "x", "carry": 150, "carry_sd": 5, "lateral_sd": 5, "mishit_shape": None, "run": 0.1},
        ),
        "MishitShape": (wb.MishitShape, {"duff_part": 0.5, "mildness": 2}),
        "Habits": (wb.Habits, {"every_flag": True, "too_little_club": 0.1}),
        "from_handicap": (wb.Player.from_handicap, {"handicap": 9, "carries": {"driver": 200}, "bag": None}),
        "from_average_score": (wb.Player.from_average_score, {"average_score": 90, "course_rating": 71}),
        "from_shots": (
            wb.Player.from_shots,
            {"shots": {"club": ["7-iron"] * 3, "carry": [130, 131, 128], "lateral": [0, 2, 5]}, "prior": PLAYER},
        ),
        "with_changes": (PLAYER.with_changes, {"straighter": 0.9, "putting": {"line": 0.9}}),
        "with_clubs": (PLAYER.with_clubs, {"clubs": [PLAYER.clubs[0]]}),
        "draws": (PLAYER.draws, {"n": 2, "seed": 1}),
        "expectations": (PLAYER.expectations, {"plays": 100, "seed": 1}),
        "fly": (wb.ball.fly, {"speed_mph": 120, "launch_deg": 12, "spin_rpm": 2500, "wind": None}),
        "run": (
            wb.ball.run,
            {"landing_speed_mph": 50, "landing_deg": 40, "landing_spin_rpm": 4000, "firmness": "firm"},
        ),
        "shot_from": (solution.shot_from, {"place": (0, 20), "lie": "rough"}),
        "expected_strokes": (solution.expected_strokes, {"place": (0, 20), "lie": None}),
        "chance": (solution.chance, {"place": (0, 20), "at_most": 4}),
        "strokes_gained": (solution.strokes_gained, {"strokes": {"x": [0.0], "y": [0.0]}}),
        "result[]": (result.__getitem__, {"name": "driver"}),
        "difference": (result.difference, {"first": "driver", "second": "iron"}),
        "quantile": (result.best.quantile, {"share": 0.5}),
    }


#: Fields that a refusal may name in place of the argument: what the argument holds.
HOLDS = {
    "no plan",
    "lie",
    "place",
    "at",
    "name",
    "club",
    "carry",
    "x",
    "y",
    "aims",
    "cell",
    "heights",
    "extent",
    "terrain",
    "argument",
}


def call(dice):
    name = dice.choice(sorted(calls()))
    function, good = calls()[name]
    changed = dice.sample(sorted(good), min(len(good), dice.randint(1, 2)))
    arguments = {**good, **{field: junk(dice) for field in changed}}
    if name in ("result[]",):
        asked = functools.partial(function, *arguments.values())
    else:
        asked = functools.partial(function, **arguments)
    try:
        found = refusal(asked, kinds=(wb.InputError, TypeError, KeyError))
        if not isinstance(found, type(None)):
            repr(found)
    except Fault as fault:
        raise Fault(f"{name}({', '.join(changed)}): {fault}") from fault
    except Refused as refused:
        words = str(refused.__cause__)
        if not any(field in words for field in changed) and not any(word in words for word in HOLDS):
            raise Fault(f"{name}: names none of {changed}: {words}") from refused
        raise
