"""What not knowing the player does to the advice: compare with players drawn."""

import pickle
import re
import warnings

import numpy as np
import pytest
import wideberth as wb

POND = {"length": 50, "width": 60}
HOLE = wb.Hole.sketch(
    par=4,
    length=370,
    fairway_width=26,
    water=[wb.hazard(wb.along(205, right=8), **POND), wb.hazard(wb.along(205, left=8), **POND)],
)
PLANS = [
    wb.Plan("driver", [wb.shot("driver", wb.along(205))], then="direct"),
    wb.Plan("5-iron", [wb.shot("5-iron", wb.along(150))], then="direct"),
]
LEVEL = wb.Player.from_handicap(18)


def compare(player=LEVEL, plans=PLANS, **options):
    return wb.compare(HOLE, player, plans, **{"plays": 400, "seed": 2, "player_draws": 24, **options})


@pytest.fixture(scope="module")
def drawn():
    return compare()


def fitted(n):
    """A player known from `n` drives and `n` 7-irons that go a little to the right."""
    rng = np.random.default_rng(5)
    shots = {
        "club": ["driver"] * n + ["7-iron"] * n,
        "carry": np.concatenate([rng.normal(186, 11, n), rng.normal(128, 7, n)]),
        "lateral": np.concatenate([rng.normal(3, 14, n), rng.normal(2, 8, n)]),
    }
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)
        return wb.Player.from_shots(shots, prior=LEVEL)


def test_every_plan_is_best_for_a_share_of_the_players(drawn):
    assert drawn.player_draws == 24
    chances = [r.chance_best for r in drawn.plans]
    assert sum(chances) == pytest.approx(1) and all(0 <= c <= 1 for c in chances)
    p, error = chances[0], drawn.best.chance_best_error
    assert error == pytest.approx((p * (1 - p) / 24) ** 0.5)
    assert drawn.cost_of_not_knowing >= 0 and drawn.cost_of_not_knowing_error > 0
    shares = list(drawn.worth_measuring.values())
    assert {"driver", "5-iron"} <= set(drawn.worth_measuring)
    assert shares == sorted(shares, reverse=True) and all(0 <= s <= 1 for s in shares)


def test_the_ranking_itself_is_that_of_the_player(drawn):
    plain = compare(player_draws=None)
    assert [r.distribution for r in plain.plans] == [r.distribution for r in drawn.plans]
    assert plain != drawn and plain.player_draws == 0 and plain.worth_measuring == {}
    assert plain.cost_of_not_knowing is plain.cost_of_not_knowing_error is plain.best.chance_best is None
    assert "chance_best" not in plain.columns() and "Best for" not in repr(plain)


def test_shots_make_not_knowing_cheaper():
    """On this hole it hangs on how far and how straight the driver goes whether it is the club.

    The two costs are means over 200 players; the bound is their difference less two of its errors.
    """
    level, measured = (compare(player, plays=1_000, player_draws=200) for player in (LEVEL, fitted(150)))
    gain = level.cost_of_not_knowing - measured.cost_of_not_knowing
    error = (level.cost_of_not_knowing_error**2 + measured.cost_of_not_knowing_error**2) ** 0.5
    assert gain > 2 * error
    assert "how golfers of one level differ (common practice, no source)" in repr(level)
    assert "what is left open by 300 measured shots" in repr(measured)
    assert "More shots could change the advice, with the driver first" in repr(level)
    assert next(iter(level.worth_measuring)) == "driver"
    assert "More shots would hardly change the advice." in repr(measured)


def test_the_source_is_told():
    known = wb.Player.from_handicap(18, carries={"driver": 190})
    assert "who have the known figures" in repr(compare(known, plays=50, player_draws=2))


def test_a_lone_plan_costs_nothing():
    alone = compare(plans=PLANS[:1])
    assert (alone.best.chance_best, alone.cost_of_not_knowing) == (1, 0)
    assert "More shots would hardly change the advice." in repr(alone)


def test_the_table_says_it(drawn):
    text = repr(drawn)
    assert "best for" in text and "Best for: share of 24 players drawn from" in text
    costs, error = map(float, re.search(r"costs ([\d.]+) ± ([\d.]+) strokes", text).groups())
    assert costs == pytest.approx(drawn.cost_of_not_knowing, abs=5e-4)
    assert error == pytest.approx(drawn.cost_of_not_knowing_error, abs=5e-4)
    assert "best for" in drawn._repr_html_() and "of the players it may be" in drawn.advice
    columns = drawn.columns()
    assert list(columns["chance_best"]) == [r.chance_best for r in drawn.plans]
    assert list(columns["chance_best_error"]) == [r.chance_best_error for r in drawn.plans]
    assert compare(plays=2, player_draws=2).worth_measuring == {}
    assert "cannot be told" in repr(compare(plays=10, player_draws=3))


@pytest.mark.parametrize("threads", [1, 3])
def test_the_number_of_threads_changes_no_bit(threads, drawn):
    again = compare(threads=threads)
    assert again == drawn and again._across.to_json() == drawn._across.to_json()
    assert compare(seed=3)._across != drawn._across


def test_it_travels(drawn):
    again = pickle.loads(pickle.dumps(drawn))
    assert again == drawn and again.best.chance_best == drawn.best.chance_best and repr(again) == repr(drawn)
    kind = type(drawn._across)
    assert kind.from_json(drawn._across.to_json()) == drawn._across
    with pytest.raises(wb.InputError, match="line 1"):
        kind.from_json("{}")
    with pytest.raises(KeyError, match='no plan "x"; there are'):
        drawn._across.mean("x")


def test_progress_counts_their_plays():
    heard = []
    compare(plays=300, player_draws=3, progress=lambda done, goal: heard.append((done, goal)))
    assert heard == sorted(heard) and heard[-1] == (1200, 1200) and {goal for _, goal in heard} == {1200}
    heard.clear()
    result = compare(plays=1_000, precision=5, player_draws=2, progress=lambda *report: heard.append(report))
    assert result.plays == 1_000 and heard[-1] == (3_000, 3_000)


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ({"player_draws": 1}, "player_draws is 1; it must be 2 to 1,000"),
        ({"player_draws": 0}, "player_draws is 0; it must be 2 to 1,000"),
        ({"player_draws": 1_001}, "player_draws is 1001; it must be 2 to 1,000"),
        ({"player_draws": -3}, "player_draws is -3; it must be 2 to 1,000"),
        ({"player_draws": 2.5}, "player_draws"),
        ({"plays": 1}, "plays is 1; it must be 2 or more with player_draws"),
        ({"plays": 0}, "plays is 0"),
        ({"checkpoints": {"chance_best": wb.first_putt(15, 2)}}, "has the name of a column"),
    ],
)
def test_bad_input_is_refused_before_anything_is_played(options, words):
    heard = []
    with pytest.raises((wb.InputError, TypeError), match=words):
        compare(**options, progress=lambda *report: heard.append(report))
    assert heard == []
