"""What a comparison says where there is little to tell: one play, and plans that played alike."""

import copy
from types import SimpleNamespace

import pytest
import wideberth as wb
from wideberth import _ranked, _table


def twins():
    return [wb.Plan(name, [wb.shot("driver", wb.along(215))]) for name in ("left hand", "right hand")]


def told(comparison):
    return [repr(comparison), comparison._repr_html_(), comparison.to_markdown()]


def test_a_difference_of_one_play_says_so(hole, player, plans):
    one = wb.compare(hole, player, plans, plays=1, seed=2)
    for name in one.names:
        text = repr(one.difference(name, one.names[0]))
        assert text.endswith(" strokes (one play: no standard error)") and "nan" not in text.lower()
        assert float(text.split()[0]) == one[name].mean - one.best.mean
    around = wb.around_the_green(hole, player, at=wb.short_of_green(8), plays=1)
    assert repr(around.difference(*around.names[:2])).endswith("(one play: no standard error)")
    drawn = wb.compare(hole, player, plans, plays=2, player_draws=2)
    assert not any("nan" in text.lower() for text in [*told(drawn), drawn.advice])


@pytest.mark.parametrize("plays", [1, 200])
def test_one_alone_is_not_told_to_be_best(hole, player, plans, plays):
    one = wb.compare(hole, player, plans[:1], plays=plays)
    for text in told(one):
        assert "There is no other plan to compare it with." in text and "settled" not in text and "paired" not in text
    assert "no other player to compare it" in repr(wb.compare_players(hole, {"now": player}, plays=plays))
    drawn = wb.compare(hole, player, plans[:1], plays=200, player_draws=2)
    assert "For the player as given there is no other plan" in repr(drawn)


def test_plans_that_play_alike_are_told_as_such(hole, player, tmp_path):
    both = wb.compare(hole, player, twins(), plays=500, seed=3)
    said = "“left hand” and “right hand” played alike: the same score in every play."
    assert said in both.advice and "better" not in both.advice and both.advice.count("average") == 1
    for text in told(both):
        assert said in text and "alike" in text.replace(said, "") and "is settled" not in text and " 0 ± 0" not in text
    assert repr(both.difference("left hand", "right hand")) == "alike: the same score in every play"
    path = tmp_path / "page.html"
    wb.report(both, path=path)
    assert said in path.read_text("utf-8")
    # Equal scores in a single play tell nothing.
    one = wb.compare(hole, player, twins(), plays=1)
    assert f"averages {one.best.mean:.0f}, as much as “right hand”;" in one.advice
    assert "is not settled by one play" in repr(one) and not any("alike" in text for text in told(one))


@pytest.mark.parametrize(("plays", "settled"), [(4_000, True), (20, False)])
def test_plans_alike_beside_another(hole, player, plays, settled):
    # The lead of few plays is within what chance explains if the other plan is about as good.
    other = wb.shot("sand wedge", wb.along(60)) if settled else wb.shot("driver", wb.along(215, left=9))
    comparison = wb.compare(hole, player, [wb.Plan("other", [other]), *twins()], plays=plays, seed=9)
    assert comparison.settled is settled and comparison.best.name == "left hand"
    note = "That they are the best is settled." if settled else "Whether they are the best is not settled"
    for text in told(comparison):
        assert "“left hand” and “right hand” played alike" in text and note in text
        assert text.count("alike") == 2
    start = "Play “left hand” or “right hand”, " if settled else "Too close to call: “left hand” and “right hand”, "
    assert comparison.advice.startswith(start)
    assert f"better than “{comparison.names[-1]}”" in comparison.advice


def test_aims_that_play_alike(hole, player):
    # A tenth of a yard changes no score of three plays.
    sweep = wb.aim_sweep(hole, player, aims=[0, 0.1], plays=3, seed=1)
    for text in (repr(sweep), sweep._repr_html_(), sweep.to_markdown()):
        assert "played alike: the same score in every play." in text
        assert text.count("alike") == 2
    assert copy.deepcopy(sweep) == sweep


def nearly_twins():
    return [wb.Plan(name, [wb.shot("driver", wb.along(215, right=yards))]) for name, yards in (("a", 0.0), ("b", 0.2))]


@pytest.mark.parametrize(
    ("mean", "error", "words"),
    [
        (0.0004, 0.0002, "less than 0.01 strokes"),
        (0.02, 1.4, "less than 0.1 strokes"),
        (0.052, 0.013, "0.05 strokes"),
        (0.0, 0.0, "0 strokes"),
    ],
)
def test_a_difference_that_is_not_nothing_is_not_told_as_nothing(mean, error, words):
    assert _ranked.strokes(SimpleNamespace(mean=mean, standard_error=error)) == words


def test_no_nought_has_a_sign():
    assert _table.worth(-0.001, 0.01) == "0.00" and _table.worth(-0.02, 0.01) == "-0.02"


def test_what_a_precision_does_not_tell_apart_is_level(hole, player):
    level = wb.compare(hole, player, nearly_twins(), precision=0.05, seed=1)
    best, other = level.names
    low, high = level.difference(other, best).interval
    assert level.settled and low <= 0 < high
    assert level.advice.startswith(
        f"Play “{best}” or “{other}”, level to within the precision asked for: “{best}” averages"
    )
    for text in told(level):
        assert f"“{best}” and “{other}” are level to within the precision asked for." in text
        assert "is settled" not in text
    apart = wb.compare(
        hole, player, [nearly_twins()[0], wb.Plan("short", [wb.shot("sand wedge", wb.along(60))])], precision=0.1
    )
    assert "level" not in apart.advice and "The best plan is settled." in repr(apart)


def test_a_solved_plan_is_told_in_plain_words(hole, player):
    solved = wb.solve(hole, player, cell=10)
    plans = [
        wb.Plan("machine", [], then=solved),
        wb.Plan("after a tee shot", [wb.shot("7-iron", wb.along(140))], then=solved),
    ]
    off_the_tee = solved.shot_from(hole.tee).words
    what = "the best shot from everywhere, for fewest strokes on average"
    result = wb.compare(hole, player, plans, plays=1_000, seed=1)
    assert result.advice.startswith(f"Play “machine” ({what}; off the tee: {off_the_tee}): it averages")
    alone = wb.compare(hole, player, plans[1:], plays=100)
    assert alone.advice.startswith(f"“after a tee shot” (then {what}) averages")
