"""Comparisons on even luck: to a precision, with progress, and of plans that play alike."""

import copy
import pickle

import numpy as np
import pytest
import wideberth as wb


def half_widths(comparison):
    # Student's t of 31 degrees of freedom: 2.040 leaves out 2.5 % on either side, 2.356 half of that (published).
    t = {2: 2.040, 3: 2.356}[len(comparison.names)]
    best = comparison.names[0]
    return [t * comparison.difference(name, best).standard_error for name in comparison.names[1:]]


@pytest.mark.parametrize("of", [2, 3])
def test_a_run_to_a_precision_ends_where_it_says(of, hole, player, plans):
    result = wb.compare(hole, player, plans[:of], precision=0.05, seed=6, luck="even")
    assert max(half_widths(result)) < 0.0501 and 1_024 <= result.plays < 100_000
    # The last round is what is told, and is what as many plays give.
    fixed = wb.compare(hole, player, plans[:of], plays=result.plays, seed=6, luck="even")
    assert repr(fixed).splitlines()[:-1] == repr(result).splitlines()[:-1]
    assert fixed.best.distribution == result.best.distribution
    for threads in (1, 3):
        assert wb.compare(hole, player, plans[:of], precision=0.05, seed=6, threads=threads, luck="even") == result
    assert pickle.loads(pickle.dumps(result)) == result == copy.deepcopy(result)


def test_it_needs_fewer_plays_than_independent_ones(hole, player, plans):
    even = wb.compare(hole, player, plans[:2], precision=0.03, seed=6, luck="even")
    # What a run of independent plays of each plan would need for the same error: as many times as the gain says.
    difference = even.difference(*even.names)
    assert difference.variance_factor > 2 and difference.standard_error < 0.03 / 2.0395


def test_the_most_plays_are_not_exceeded(hole, player, plans):
    result = wb.compare(hole, player, plans[:2], precision=0.0005, plays=2_000, luck="even")
    assert result.plays == 2_016 and max(half_widths(result)) > 0.0005


def test_progress_of_a_run_to_a_precision(hole, player, plans):
    heard = []
    report = lambda *both: heard.append(both)  # noqa: E731
    result = wb.compare(hole, player, plans[:2], precision=0.05, progress=report, luck="even")
    done = [d for d, _ in heard]
    assert done == sorted(set(done)) and all(d <= goal for d, goal in heard)
    assert heard[-1][0] == heard[-1][1] >= result.plays


@pytest.mark.parametrize("precision", [0, -1, 0.0001, 6, float("nan")])
def test_precisions_that_cannot_be_asked(precision, hole, player, plans):
    with pytest.raises(wb.InputError, match=r"precision is .*; it must be 0\.0005 to 5 strokes"):
        wb.compare(hole, player, plans[:2], precision=precision, luck="even")


def test_plays_that_cannot_be_asked(hole, player, plans):
    for plays in (1_023, 3_200_001):
        with pytest.raises(wb.InputError, match=r"plays is .*; it must be 1,024 to 3,200,000 with a precision"):
            wb.compare(hole, player, plans[:2], precision=0.1, plays=plays, luck="even")
    with pytest.raises(TypeError):
        wb.compare(hole, player, plans[:2], precision="fine", luck="even")


def test_plans_that_play_alike(hole, player):
    plans = [wb.Plan(name, [wb.shot("driver", wb.along(215))]) for name in ("one", "other")]
    result = wb.compare(hole, player, plans, plays=640, luck="even")
    said = "“one” and “other” played alike: the same mean score in every set of plays."
    for text in (repr(result), result._repr_html_(), result.to_markdown()):
        assert said in text and "nan" not in text.lower() and "inf" not in text and " 0 ± 0" not in text
    assert repr(result.difference("one", "other")) == "alike: the same mean score in every set of plays"
    assert result.settled


def test_all_that_common_luck_tells_is_told_of_even_luck(hole, player, plans):
    asked = {"checkpoints": {"on": wb.first_putt(30, 3)}, "seed": 6}
    even = wb.compare(hole, player, plans[:2], plays=64_000, luck="even", **asked)
    common = wb.compare(hole, player, plans[:2], plays=64_000, **asked)
    assert (even.luck, common.luck) == ("even", "common") and even.names == common.names
    for name in even.names:
        one, other = even[name], common[name]
        # Two estimates of one number: within 5 standard errors. By Student's t of 31 degrees of freedom a right model
        # fails one of the twelve checks with a chance of at most 3e-4 (SciPy, computed independently).
        for figure in ("mean", "blow_up", "double_bogey", "penalties", "putts"):
            error = "standard_error" if figure == "mean" else f"{figure}_error"
            apart = abs(getattr(one, figure) - getattr(other, figure))
            assert apart < 5 * np.hypot(getattr(one, error), getattr(other, error)), figure
            # Evenly dealt, luck errs less.
            assert 0 < getattr(one, error) < 1.5 * getattr(other, error), figure
        apart = abs(one.checkpoints["on"] - other.checkpoints["on"])
        assert apart < 5 * np.hypot(one.checkpoint_errors["on"], other.checkpoint_errors["on"])
        # Shares of 4,600 blow-ups and more: a difference errs by 0.0104 at most, of which 0.05 is 4.8 (2e-6 each).
        for cause, share in other.blow_up_causes.items():
            assert one.blow_up_causes.get(cause, 0.0) == pytest.approx(share, abs=0.05), cause
    assert "on even luck" in repr(even) and repr(even).splitlines()[1].endswith("worth") and "worth" not in repr(common)
    assert set(even.columns()) - set(common.columns()) == {"variance_factor"}
    assert even.difference(*even.names).better is None
    for result, luck, intervals in (
        (even, "on even luck", "of the differences"),
        (common, "on the same luck", "of the paired differences"),
    ):
        told = " ".join(text.get_text() for text in result.plot().texts).replace("\n", " ")
        assert luck in told and intervals in told
    # Pairing, too, is told by how many independent plays one is worth: the variances of two independent means over the
    # variance of the paired difference.
    lead, parts = common.difference(*common.names), [common[name].standard_error for name in common.names]
    assert lead.variance_factor == pytest.approx(sum(error**2 for error in parts) / lead.standard_error**2)


def test_what_even_luck_has_not_is_refused(hole, player, plans):
    with pytest.raises(wb.InputError, match='player_draws is 5; with luck="even" it must be None'):
        wb.compare(hole, player, plans, luck="even", player_draws=5)
    for luck in ("fair", None, [1, 2]):
        with pytest.raises(wb.InputError, match=r'luck is .*; it must be "common" or "even"'):
            wb.compare(hole, player, plans, luck=luck)
