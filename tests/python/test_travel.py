"""Everything travels: pickles, copies and documents of every public class are equal to what they came from."""

import copy
import inspect
import json
import pathlib
import pickle
import re
import tempfile

import helpers
import numpy as np
import pytest
import wideberth as wb
from wideberth import ball

HOLE = helpers.sketch()
PLAYER = wb.Player.from_handicap(16)
PLANS = helpers.plans()
AROUND = wb.around_the_green(HOLE, PLAYER, at=wb.short_of_green(9), plays=300, seed=2)
RESULT = wb.compare(HOLE, PLAYER, PLANS, plays=300, seed=2, checkpoints={"early": wb.first_putt(20.5, 2)})
SOLVED = wb.solve(HOLE, PLAYER, cell=10)
ADVICE = [SOLVED.shot_from(HOLE.tee), SOLVED.shot_from(wb.along(200), lie="rough")]
FRONTIER = wb.frontier(HOLE, PLAYER, cell=10)
SOLVED_PLAN = wb.Plan("solved", [], then=SOLVED)

SHOTS = {"club": ["7-iron"] * 6, "carry": [131, 127, 124, 74, 130, 137], "lateral": [4, -9, 11, -15, 2, 14]}
FITTED = wb.Player.from_shots(SHOTS, prior=PLAYER)
KNOWN = wb.Player.from_handicap(16, carries={"driver": 190}, lateral_biases={"driver": -10})
FOUND = PLAYER.expectations(plays=100)
SWEEP = wb.aim_sweep(HOLE, PLAYER, aims=[0, 5], plays=40, seed=2)

#: Some of every public class, no two of them equal.
EVEN = wb.compare(HOLE, PLAYER, PLANS, plays=64, seed=2, luck="even")
PLAYERS = wb.compare_players(HOLE, {"now": PLAYER, "better": PLAYER.with_changes(straighter=0.8)}, plays=300, seed=2)
OWN = wb.strategy(helpers.eight_irons)
NAMED = wb.strategy(helpers.eight_irons, name="b")
GAINED = SOLVED.strokes_gained(wb.simulate(HOLE, PLAYER, PLANS[0], plays=20))

SHORT = wb.Hole.sketch(par=3, length=150)
COURSE = wb.Course([SHORT, SHORT], name="Twice", attribution="drawn by the club")
PLAYED = [wb.play_rounds(COURSE, PLAYER, plays=50, seed=seed) for seed in (2, 3)]
CARD = pathlib.Path(tempfile.mkdtemp()) / "card.csv"
CARD.write_text("hole,stroke,club,lie,to_pin\n1,1,7-iron,tee,150\n1,2,putter,green,9\n", "utf-8")

THINGS = {
    wb.Advice: ADVICE,
    wb.Aim: [
        *(wb.along(215.1, left=4), wb.along(215.1, right=4), wb.along(215.1), wb.at(1.5, -2.25)),
        *(wb.short_of_green(8.5, left=4), wb.short_of_green(8.5, 4), wb.short_of_green(8.5)),
    ],
    wb.AimSweep: [SWEEP, wb.aim_sweep(HOLE, PLAYER, aims=[0, 5], plays=41, seed=2)],
    wb.Alternative: [ADVICE[0].runner_up, ADVICE[1].runner_up],
    wb.AroundOption: AROUND.options,
    wb.AroundTheGreen: [AROUND, wb.around_the_green(HOLE, PLAYER, at=wb.short_of_green(9), plays=300, seed=3)],
    wb.BagTable: [PLAYER.table(), wb.Player.from_handicap(17).table()],
    wb.Checkpoint: [wb.first_putt(15, 2), wb.first_putt(0.1, 2), wb.first_putt(15, 255)],
    wb.Club: [
        wb.Club("stick", carry=201.3, carry_sd=9.7, lateral_sd=11.1, lateral_bias=-3, correlation=0.4, run=0.05),
        wb.Club("stick", carry=201.3, carry_sd=9.7, lateral_sd=11.1, mishit_share=0.1),
        wb.Club("stick", carry=201.3, carry_sd=9.7, lateral_sd=11.1, launch_deg=14.5, spin_rpm=2950),
        wb.Club("stick", carry=201.3, carry_sd=9.7, lateral_sd=11.1, off_ground=0.8),
        wb.Club("stick", carry=201.3, carry_sd=9.7, lateral_sd=11.1, mishit_shape=wb.MishitShape(mildness=3)),
        *PLAYER.clubs,
    ],
    wb.Comparison: [
        *(RESULT, wb.compare(HOLE, PLAYER, PLANS[:1], plays=1)),
        wb.compare(HOLE, PLAYER, PLANS[:1], plays=2, player_draws=2),
        *(EVEN, wb.compare(HOLE, PLAYER, PLANS, plays=64, seed=3, luck="even")),
    ],
    wb.Conditions: [
        wb.Conditions(),
        wb.Conditions(firmness="soft"),
        wb.Conditions(wind=wb.Wind(12.5, 270), firmness=0.9, green_speed=10.5, temperature_f=80, altitude_ft=3000),
        wb.Conditions(hole_diameter_in=8),
    ],
    wb.Course: [COURSE, wb.Course([SHORT], name="Once"), wb.Course([SHORT, SHORT], name="Twice")],
    wb.Difference: [
        of.difference(*names) for of in (RESULT, EVEN) for names in (("driver", "iron"), ("iron", "driver"))
    ],
    wb.BlowUpLosses: [SOLVED.blow_up_losses(RESULT.best, by=by) for by in ("cause", "club")],
    wb.GainedTable: [GAINED.by(column) for column in ("club", "lie")],
    wb.StrokesGained: [GAINED, SOLVED.strokes_gained({"x": [HOLE.tee[0]], "y": [HOLE.tee[1]]})],
    wb.ExpectationTable: [FOUND.tee_shot, FOUND.approaches, FOUND.around_the_green, FOUND.putts],
    wb.Expectations: [FOUND, PLAYER.expectations(plays=100, seed=1), PLAYER.expectations(plays=101)],
    wb.Feature: HOLE.features,
    wb.FrontierPoint: FRONTIER[:2],
    wb.Habits: [
        *(wb.Habits(), wb.Habits(every_flag=True), wb.Habits(too_little_club=0.1), wb.Habits(always_chips=True)),
        PLAYER.habits,
    ],
    wb.Hazard: [
        wb.hazard(wb.along(230, right=18)),
        wb.hazard(wb.along(230, left=18), 60.5, 30, "the mere"),
        wb.hazard(wb.along(230, left=18), height_ft=30, openness=0.25),
    ],
    wb.Hole: [HOLE, helpers.plain_hole(), *(wb.Hole.from_geojson(helpers.read_map(name)) for name in helpers.MAPS)],
    wb.Instruction: [
        *(wb.at_pin(), wb.at_pin(clubs=1), wb.at_pin(clubs=-6), wb.leave(90), wb.advance(90)),
        *(wb.carry_over(wb.along(190)), wb.carry_over(wb.along(190), by=0), wb.carry_over(wb.at(3.5, -1))),
        *(wb.exactly("pitch", wb.at(2, 381), carry=24), wb.exactly("driver", wb.along(210)), ADVICE[0].instruction),
        *(i for p in PLANS for i in p.instructions[:1]),
    ],
    wb.MishitShape: [
        *(wb.MishitShape(), wb.MishitShape(mildness=0), wb.MishitShape(duff_part=0.1, wild_side=2.5)),
        *(PLAYER.clubs[0].mishit_shape, PLAYER.clubs[-1].mishit_shape),
    ],
    wb.Objective: [wb.at_most(5), wb.at_most(6), wb.safe(price=5), wb.safe(blow_up=2, price=5)],
    wb.Plan: [*PLANS, SOLVED_PLAN, *(wb.Plan("own", [], then=own) for own in (OWN, NAMED))],
    wb.PlanResult: RESULT.plans,
    wb.Player: [PLAYER, wb.Player.from_handicap(16.1), PLAYER.with_clubs([PLAYER.clubs[3]]).with_clubs(
        [wb.Club("driver", carry=230.7, carry_sd=12, lateral_sd=15)]
    ), PLAYER.with_habits(wb.Habits.none()), FITTED, KNOWN],
    wb.PlayedRounds: PLAYED,
    wb.PracticeGains: [wb.practice_gains(COURSE, PLAYER, plays=20, seed=2, target=target) for target in (None, 8)],
    wb.Rating: [COURSE.rating(plays=20, seed=seed) for seed in (2, 3)],
    wb.Review: [wb.review(COURSE, player, CARD, cell=10) for player in (PLAYER, wb.Player.from_handicap(3))],
    wb.RoundTable: [PLAYED[0].by_hole(), PLAYED[0].statistics(), PLAYED[1].by_hole()],
    wb.Target: [wb.break_score(COURSE, PLAYER, target, plays=200, cell=10) for target in (8, 9)],
    wb.PriceOfHabits: [wb.price_of_habits(HOLE, PLAYER, plays=50, seed=seed) for seed in (2, 3)],
    wb.PlayerResult: PLAYERS.players,
    wb.PlayersComparison: [PLAYERS, wb.compare_players(HOLE, {"now": PLAYER}, plays=1)],
    wb.PlaysLike: [wb.plays_like(HOLE, PLAYER), wb.plays_like(HOLE, PLAYER, at=wb.short_of_green(120))],
    wb.Solution: [SOLVED, wb.evaluate(HOLE, PLAYER, "direct", cell=10)],
    wb.Strategy: [OWN, NAMED, wb.strategy(helpers.eight_irons, otherwise="direct")],
    wb.ValueMap: [SOLVED.expected_strokes_map(lie=lie, cell=20) for lie in ("fairway", "rough")],
    wb.Wind: [wb.Wind(12.5, 270), wb.Wind(12.5, -90), wb.Wind(0, 0)],
    ball.Flight: [
        ball.fly(speed_mph=150, launch_deg=12, spin_rpm=2800),
        ball.fly(speed_mph=150, launch_deg=12, spin_rpm=2800, wind=wb.Wind(9, 200), wind_profile="flat"),
        ball.fly(speed_mph=150, launch_deg=12, spin_rpm=2800, aerodynamics=(0.25, 0.125), target_height_ft=-20),
        PLAYER.clubs[0].flight,
    ],
    ball.Putt: [ball.putt(length_ft=10, slope_percent=(2, -1)), ball.putt(length_ft=10, past_ft=0.5)],
    ball.Run: [
        ball.run(PLAYER.clubs[0].flight, firmness="firm", slope_percent=(2, -1)),
        ball.run(PLAYER.clubs[0].flight, firmness=0.9, surface="green", green_speed=11),
        ball.run(landing_speed_mph=55, landing_deg=44, landing_spin_rpm=5000),
    ],
    wb.SweptAim: SWEEP.aims,
    wb.TeeShot: [PLAYER.tee_shot(), wb.Player.from_handicap(3).tee_shot()],
    wb.Uncertainty: [p.uncertainty(club) for p in (FITTED, PLAYER) for club in ("7-iron", "driver")],
    wb.Plays: [wb.simulate(HOLE, PLAYER, plan, plays=50) for plan in PLANS],
}  # fmt: skip

ALL = [
    pytest.param(thing, id=f"{kind.__name__}-{i}") for kind, things in THINGS.items() for i, thing in enumerate(things)
]


def test_every_public_class_is_here():
    classes = {value for of in (wb, ball) for name in of.__all__ if inspect.isclass(value := getattr(of, name))}
    assert classes - {wb.InputError} == set(THINGS)
    assert all(type(thing) is kind for kind, things in THINGS.items() for thing in things)


@pytest.mark.parametrize("protocol", range(pickle.HIGHEST_PROTOCOL + 1))
@pytest.mark.parametrize("thing", ALL)
def test_pickles(thing, protocol):
    again = pickle.loads(pickle.dumps(thing, protocol))
    assert type(again) is type(thing)
    assert again == thing and not again != thing  # noqa: SIM202
    assert repr(again) == repr(thing)


@pytest.mark.parametrize("thing", ALL)
def test_copies(thing):
    assert copy.copy(thing) == thing
    assert copy.deepcopy(thing) == thing
    assert copy.deepcopy([thing, {"same": thing}]) == [thing, {"same": thing}]


@pytest.mark.parametrize("kind", THINGS, ids=lambda kind: kind.__name__)
def test_equal_only_to_the_same(kind):
    things = THINGS[kind]
    for i, one in enumerate(things):
        assert one == one and one != None and one != "text" and one != 3  # noqa: E711
        assert not any(one == other for j, other in enumerate(things) if j != i)


@pytest.mark.parametrize("thing", ALL)
def test_equality_and_hash_do_not_contradict(thing):
    # What compares by value and is not hashable by value must not be hashable by identity.
    with pytest.raises(TypeError, match="unhashable"):
        hash(thing)


#: A document holds neither a solution nor a function.
UNWRITTEN = [id(plan) for plan in THINGS[wb.Plan] if not isinstance(plan.then, str)]
WRITTEN = [p for p in ALL if hasattr(type(p.values[0]), "from_json") and id(p.values[0]) not in UNWRITTEN]


@pytest.mark.parametrize("thing", WRITTEN)
def test_documents(thing):
    text = thing.to_json()
    assert type(thing).from_json(text) == thing
    assert json.loads(type(thing).from_json(text).to_json()) == json.loads(text)
    # A document that was written and read by another library says the same.
    assert type(thing).from_json(json.dumps(json.loads(text))) == thing


@pytest.mark.parametrize("thing", [p for p in ALL if type(p.values[0]).__module__ == "wideberth"])
def test_nothing_that_is_compiled_can_be_changed(thing):
    with pytest.raises(AttributeError):
        thing.name = "another"


def test_results_that_came_back_still_answer():
    again = pickle.loads(pickle.dumps(RESULT.best))
    assert again.mean == RESULT.best.mean and again.checkpoints == RESULT.best.checkpoints
    assert again.plan == RESULT.best.plan


def test_input_error_travels():
    with pytest.raises(wb.InputError) as caught:
        wb.Player.from_handicap(99)
    again = pickle.loads(pickle.dumps(caught.value))
    assert type(again) is wb.InputError and again.args == caught.value.args


def test_a_feature_keeps_its_shape():
    for feature in HOLE.features:
        again = pickle.loads(pickle.dumps(feature))
        assert all(np.array_equal(a, b) for a, b in zip(again.rings, feature.rings, strict=True))
        assert (again.area, again.height_ft, again.openness) == (
            feature.area,
            feature.height_ft,
            feature.openness,
        )


CUTS = [
    (RESULT._ranking, lambda told: told["tallies"].pop(), "tallies has"),
    (RESULT._ranking, lambda told: told["pairs"].pop(), "pairs has"),
    (RESULT._ranking, lambda told: told.update(plays=told["plays"] + 1), "must add up to plays"),
    (RESULT._ranking, lambda told: told["pairs"][0]["scores"].update(plays=1), "over all plays"),
    (EVEN._ranking, lambda told: told["sets"].pop(), "sets has"),
    (EVEN._ranking, lambda told: told["sets"][1].pop(), "sets has"),
    (EVEN._ranking, lambda told: told["sets"][0][0].update(unfinished=99), "unfinished plays than plays, 2"),
    (RESULT._ranking, lambda told: told["names"].__setitem__(1, told["names"][0]), "all different"),
    (AROUND._ranking, lambda told: told["openings"].pop(), "openings must be the strokes ranked"),
    (AROUND._ranking, lambda told: told["firsts"].pop(), "firsts must count"),
    (AROUND._ranking, lambda told: told["firsts"][0]["left"].pop(), "firsts must count"),
]


@pytest.mark.parametrize(("ranking", "cut", "words"), CUTS)
def test_counts_that_do_not_belong_together_are_refused(ranking, cut, words):
    """Counts are read whole or not at all: what is missing would be asked for later."""
    told = json.loads(ranking.to_json())
    assert type(ranking).from_json(json.dumps(told)) == ranking
    cut(told)
    with pytest.raises(wb.InputError, match=re.escape(words)):
        type(ranking).from_json(json.dumps(told))
