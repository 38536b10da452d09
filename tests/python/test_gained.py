"""The value of strokes: gains add up, a player's own play gains nothing on average, and losses are told by kind."""

import copy
import math
import pickle

import helpers
import numpy as np
import pytest
import wideberth as wb


@pytest.fixture(scope="module")
def pond():
    return wb.Hole.sketch(par=4, length=330, water=[wb.along(210, right=14)], bunkers=[wb.along(318, left=14)])


@pytest.fixture(scope="module")
def pupil():
    return wb.Player.from_handicap(18)


@pytest.fixture(scope="module")
def best(pond, pupil):
    return wb.solve(pond, pupil, cell=4)


@pytest.fixture(scope="module")
def driver(pond, pupil, best):
    plans = [wb.Plan("driver", [wb.shot("driver", wb.along(215))]), wb.Plan("solved", [], then=best)]
    return wb.compare(pond, pupil, plans, plays=20_000, seed=6)["driver"]


@pytest.mark.parametrize("maximum_score", [None, 6])
def test_over_a_play_gains_add_up_to_the_expectation_less_the_score(pond, pupil, best, maximum_score):
    plan = wb.Plan("driver", [wb.shot("driver", wb.along(215))])
    plays = wb.simulate(pond, pupil, plan, plays=3_000, seed=8, maximum_score=maximum_score)
    gained = best.strokes_gained(plays)
    totals = np.array(list(gained.plays.values()))
    assert np.abs(totals - (best.expected_strokes(pond.tee) - plays.scores)).max() < 1e-9
    columns = gained.columns()
    assert np.array_equal(columns["gained"], columns["before"] - columns["after"] - columns["used"])
    last = np.append(columns["play"][1:] != columns["play"][:-1], True)
    assert (columns["after"][last] == 0).all() and (columns["after"][~last] > 0).all()
    # What is expected after a stroke is what is expected before the next, wherever the ball was dropped.
    assert np.array_equal(columns["after"][~last], columns["before"][np.flatnonzero(~last) + 1])


def test_on_average_nothing_is_gained_by_playing_as_valued(pond, pupil, best):
    # The gains of a strategy's own play are a martingale's steps: every mean is 0 but for the places between those
    # that were solved. 0.01 strokes are allowed for that, and four and a half standard errors (false-alarm rate 7e-6
    # each).
    for solution in (best, wb.evaluate(pond, pupil, "steady", cell=4)):
        plays = wb.simulate(pond, pupil, wb.Plan("own", [], then=solution), plays=20_000, seed=31)
        gained = solution.strokes_gained(plays)
        for column in ("stroke", "club", "lie"):
            table = gained.by(column)
            for kind, mean in table.gained.items():
                assert abs(mean) < 4.5 * table.gained_errors[kind] + 0.01, (column, kind)
        assert abs(gained.gained.sum()) / 20_000 < 4.5 * plays.scores.std() / math.sqrt(20_000) + 0.02


def test_a_strategy_that_plays_for_a_score_is_held_to_what_it_expects(pond, pupil):
    # As above. After some strokes such a player expects something else from the same place.
    bold = wb.solve(pond, pupil, objective=wb.at_most(4), cell=4)
    plays = wb.simulate(pond, pupil, wb.Plan("own", [], then=bold), plays=20_000, seed=32)
    table = bold.strokes_gained(plays).by("stroke")
    for kind, mean in table.gained.items():
        assert abs(mean) < 4.5 * table.gained_errors[kind] + 0.01, kind


def test_a_worse_shot_loses_what_it_costs(pond, pupil, best):
    # A lay-up with a wedge where a driver is best: what the tee shot loses is what the plan costs.
    plan = wb.Plan("wedge", [wb.shot("pitching wedge", wb.along(100))], then=best)
    plays = wb.simulate(pond, pupil, plan, plays=20_000, seed=33)
    table = best.strokes_gained(plays).by("stroke")
    cost = plays.scores.mean() - best.expected_strokes(pond.tee)
    error = plays.scores.std() / math.sqrt(20_000)
    assert cost > 0.2
    assert abs(table.gained[1] + cost) < 4.5 * error + 0.02


def test_what_somebody_wrote_down(pond, best):
    # A drive into the water, a drop 175 yards out, and on in two more.
    strokes = {
        "x": [pond.tee[0], 12.0, 0.0, 3.0, 0.5],
        "y": [pond.tee[1], 155.0, 270.0, 325.0, 329.0],
        "lie": ["tee", "rough", None, "green", "green"],
        "penalty": [1, 0, 0, 0, 0],
    }
    gained = best.strokes_gained(strokes)
    columns = gained.columns()
    assert columns["used"].tolist() == [2, 1, 1, 1, 1] and columns["stroke"].tolist() == [1, 2, 3, 4, 5]
    assert abs(gained.gained.sum() - (best.expected_strokes(pond.tee) - 6)) < 1e-9
    assert abs(columns["before"][1] - best.expected_strokes((12, 155), "rough")) < 0.05
    assert columns["gained"].argmin() == 0
    # The same twice, as two plays, from a data frame.
    pandas = pytest.importorskip("pandas")
    frame = pandas.DataFrame(strokes)
    twice = pandas.concat([frame.assign(play=1), frame.assign(play=2)])
    both = best.strokes_gained(twice)
    assert both.gained.tolist() == [*gained.gained, *gained.gained]
    assert both.columns()["stroke"].tolist() == [1, 2, 3, 4, 5] * 2
    assert set(both.plays) == {1, 2}
    assert "before" in repr(gained) and "<table>" in gained._repr_html_()


def test_the_table_of_simulated_strokes_is_one_that_may_be_written_down(pond, pupil, best):
    plays = wb.simulate(pond, pupil, wb.Plan("own", [], then=best), plays=40, seed=3)
    simulated = best.strokes_gained(plays).columns()
    # Without the plays that left the map.
    wide = np.unique(simulated["play"][np.abs(simulated["x"]) > 60])
    simulated = {name: column[~np.isin(simulated["play"], wide)] for name, column in simulated.items()}
    assert len(np.unique(simulated["play"])) > 30
    by_hand = best.strokes_gained(simulated).columns()
    same = np.abs(by_hand["before"] - simulated["before"]) < 0.1
    assert same.mean() > 0.95
    assert np.array_equal(by_hand["used"], simulated["used"])


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"x": None}, "no column 'x'"),
        ({"x": ["a", "b"]}, "x is an array"),
        ({"y": [0.0]}, "y has 1 rows; it must have 2"),
        ({"x": [0.0, math.nan]}, "row 2: the place"),
        ({"x": [0.0, 5e4]}, "row 2: the place"),
        ({"lie": ["tee", "grass"]}, "grass"),
        ({"penalty": [0, -1]}, "row 2: penalty is -1; it must be 0 to 10"),
        ({"penalty": [0.5, 0]}, "row 1: penalty is 0.5; it must be a whole number"),
        ({"play": [0, math.nan]}, "row 2: play is nan"),
        ({"holed": [True, True]}, "row 1: holed is true"),
        ({"holed": [False, False]}, "row 2: holed is false"),
        ({"holed": [0, 1]}, "holed is an array"),
        ({"x": [0.0, 0.0] * 2, "y": [0.0, 330.0] * 2, "play": [1, 2, 2, 1]}, "row 4: play 1"),
    ],
)
def test_rows_that_are_no_strokes_are_refused(best, change, words):
    table = {"x": [0.0, 0.0], "y": [0.0, 328.0], **change}
    table = {name: column for name, column in table.items() if column is not None}
    with pytest.raises(wb.InputError, match=words):
        best.strokes_gained(table)


def test_no_strokes_gain_nothing(best):
    assert len(best.strokes_gained({"x": np.zeros(0), "y": np.zeros(0)})) == 0


@pytest.mark.parametrize("by", ["cause", "club", "stroke", "surface"])
def test_what_blow_ups_lose_adds_up(best, driver, by):
    losses = best.blow_up_losses(driver, by=by)
    assert losses.plays == 20_000
    assert losses.blow_ups == round(20_000 * driver.blow_up)
    assert abs(sum(losses.lost.values()) - losses.total) < 1e-6
    assert abs(sum(losses.shares.values()) - 1) < 1e-9
    # A blow-up loses its score less what is to be expected from the tee.
    scores = {score: share for score, share in driver.distribution.items() if score >= 7}
    mean = sum(score * share for score, share in scores.items()) / sum(scores.values())
    assert abs(losses.total - (mean - best.expected_strokes(best.hole.tee))) < 1e-6
    assert list(losses.lost.values()) == sorted(losses.lost.values(), reverse=True)
    assert all(error >= 0 for error in [*losses.lost_errors.values(), *losses.share_errors.values()])


def test_what_blow_ups_lose_is_what_their_strokes_lose(pond, pupil, best, driver):
    # Added up again from the strokes themselves, with the standard errors of NumPy.
    losses = best.blow_up_losses(driver, by="surface")
    plays = wb.simulate(pond, pupil, driver.plan, plays=20_000, seed=6)
    columns = best.strokes_gained(plays).columns()
    blown = plays.scores >= 7
    where = np.where(columns["holed"], "holed", columns["rest_on"])
    lost = np.zeros((len(plays), len(losses.kinds)))
    for number, kind in enumerate(losses.kinds):
        here = where == kind
        np.add.at(lost[:, number], columns["play"][here], -columns["gained"][here])
    lost = lost[blown]
    total = lost.sum(1)
    for number, kind in enumerate(losses.kinds):
        assert abs(losses.lost[kind] - lost[:, number].mean()) < 1e-6
        assert abs(losses.lost_errors[kind] - lost[:, number].std(ddof=1) / math.sqrt(len(lost))) < 1e-6
        share = lost[:, number].sum() / total.sum()
        rest = lost[:, number] - share * total
        error = rest.std(ddof=1) / math.sqrt(len(lost)) / total.mean()
        assert abs(losses.shares[kind] - share) < 1e-6
        assert abs(losses.share_errors[kind] - error) < 1e-4
    # A ball in the water cost more than its penalty stroke.
    water = (where == "penalty_red") & blown[columns["play"]]
    assert water.sum() > 50 and columns["gained"][water].mean() < -1


def test_losses_do_not_depend_on_threads(best, driver):
    one, four = (best.blow_up_losses(driver, plays=4_000, threads=n) for n in (1, 4))
    assert one == four and repr(one) == repr(four)
    assert "blow-ups in 4,000 plays" in repr(one) and "<table>" in one._repr_html_()
    assert set(one.columns()) == {"cause", "strokes", "lost", "lost_error", "share", "share_error"}


def test_losses_refuse_what_does_not_fit(pupil, best, driver):
    with pytest.raises(wb.InputError, match='by is "colour"; it must be one of cause, club, stroke, surface'):
        best.blow_up_losses(driver, by="colour")
    with pytest.raises(wb.InputError, match="plays is 0"):
        best.blow_up_losses(driver, plays=0)
    with pytest.raises(TypeError, match="result is str"):
        best.blow_up_losses("driver")
    other = wb.Hole.sketch(par=3, length=140)
    result = wb.compare(other, pupil, [wb.Plan("pin", [wb.at_pin()])], plays=100)
    with pytest.raises(wb.InputError, match="another hole or player"):
        best.blow_up_losses(result.best)


def test_no_blow_ups_lose_nothing(pond, pupil, best):
    plan = wb.Plan("own", [], then=best)
    result = wb.compare(pond, pupil, [plan], plays=200, seed=1, blow_up=20)
    losses = best.blow_up_losses(result.best)
    assert losses.blow_ups == 0 and losses.kinds == [] and "0 blow-ups" in repr(losses)


@pytest.fixture(scope="module")
def demo():
    hole = wb.Hole.from_geojson(helpers.read_map("alder-bend"))
    player = wb.Player.from_handicap(18)
    plans = [
        wb.Plan("driver", [wb.shot("driver", wb.along(200))]),
        wb.Plan("lay up", [wb.shot("7-iron", wb.along(140)), wb.leave(100)]),
    ]
    return hole, player, plans


def test_even_luck_agrees_with_many_plain_plays(demo):
    # Means, differences and blow-ups within four and a half standard errors of both together (false-alarm rate 1e-4
    # each at most: Student's t of 31 degrees of freedom).
    plain = wb.compare(*demo, plays=100_000, seed=1)
    even = wb.compare(*demo, plays=32_000, seed=2, luck="even")
    for name in even.names:
        one, other = even[name], plain[name]
        assert abs(one.mean - other.mean) < 4.5 * math.hypot(one.standard_error, other.standard_error)
        assert abs(one.blow_up - other.blow_up) < 4.5 * math.hypot(one.blow_up_error, other.blow_up_error)
        assert abs(sum(one.distribution.values()) - 1) < 1e-12
    one, other = even.difference("driver", "lay up"), plain.difference("driver", "lay up")
    assert abs(one.mean - other.mean) < 4.5 * math.hypot(one.standard_error, other.standard_error)
    assert even.plays == 32_000


def test_even_luck_is_fixed_by_the_seed_and_travels(demo):
    one, four = (wb.compare(*demo, plays=1_000, seed=3, threads=n, luck="even") for n in (1, 4))
    assert one == four and one.plays == 1_024
    assert pickle.loads(pickle.dumps(one)) == one and copy.deepcopy(one) == one
    other = wb.compare(*demo, plays=1_000, seed=4, luck="even")
    assert other != one
    difference = one.difference("driver", "lay up")
    assert pickle.loads(pickle.dumps(difference)) == difference
    assert "worth" in repr(one) and "<table>" in one._repr_html_()
    assert one.columns()["variance_factor"].shape == (2,)
    itself = one.difference("driver", "driver")
    assert itself.mean == 0 and itself.standard_error == 0


def test_even_luck_refuses_what_does_not_fit(demo):
    hole, player, plans = demo
    for plays in (63, 3_200_001, 10**30):
        with pytest.raises(wb.InputError, match=r"plays is .*; it must be 64 to 3,200,000"):
            wb.compare(hole, player, plans, plays=plays, luck="even")
    with pytest.raises(wb.InputError, match="plans is empty"):
        wb.compare(hole, player, [], luck="even")
    with pytest.raises(wb.InputError, match="two named"):
        wb.compare(hole, player, [plans[0], plans[0]], luck="even")
    with pytest.raises(KeyError, match='no plan "x"'):
        wb.compare(hole, player, plans, plays=64, luck="even").difference("x", "driver")


def test_choice_and_execution_are_told_apart(pond, pupil, best):
    """A shot at the water loses by its choice what the comparison says, and by its execution nothing on average.

    Four and a half standard errors are allowed (false-alarm rate 7e-6 each), and 0.02 strokes for the even luck over
    which shots are valued and for the places between those that were solved.
    """
    plan = wb.Plan("at the water", [wb.exactly("driver", wb.along(215, right=14))], then=best)
    plays = wb.simulate(pond, pupil, plan, plays=400, seed=9)
    columns = best.strokes_gained(plays, split=True).columns()
    assert np.abs(columns["choice"] + columns["execution"] - columns["gained"]).max() < 1e-12
    tee = columns["stroke"] == 1
    choice, execution = columns["choice"][tee], columns["execution"][tee]
    assert len(set(choice)) == 1 and choice[0] < -0.1
    # All other strokes are the solution's own.
    assert (columns["choice"][~tee] == 0).all()
    error = execution.std() / math.sqrt(len(execution))
    assert abs(execution.mean()) < 4.5 * error + 0.02
    # The standard deviation of 400 such strokes, skewed as they are, is known to about a tenth.
    assert abs(execution.std() / columns["luck"][tee][0] - 1) < 0.35
    lead = wb.compare(pond, pupil, [plan, wb.Plan("best", [], then=best)], plays=20_000, seed=2)
    told = lead.difference("at the water", "best")
    assert abs(told.mean + choice[0]) < 4.5 * told.standard_error + 0.02


def test_choice_is_told_of_simulated_strokes_alone(best):
    with pytest.raises(wb.InputError, match="split is True"):
        best.strokes_gained({"x": [0.0], "y": [300.0]}, split=True)


def test_the_carry_meant_plays_the_shot_again(pond, pupil, best):
    """Every stroke of a play is told so well that it can be played again under the same luck."""
    plays = wb.simulate(pond, pupil, wb.Plan("own", [], then=best), plays=50, seed=4).columns()
    assert np.isfinite(plays["carry"]).all() and (plays["carry"] >= 0).all()
    first = np.flatnonzero(plays["stroke"] == 1)
    row = first[0]
    target = plays["target_x"][row], plays["target_y"][row]
    again = wb.strokes(
        pond, pupil, club=plays["club"][row], target=target, carry=plays["carry"][row], n=len(first), seed=4
    )
    assert np.array_equal(again["rest_x"], plays["rest_x"][first])
