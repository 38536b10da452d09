"""The numbers of a comparison, worked out again with NumPy from every stroke of the same plays."""

import math

import numpy as np
import pytest
import wideberth as wb
from wideberth import _table

PLAN = "driver"


@pytest.fixture(scope="module")
def strokes(played):
    return played[PLAN].columns()


def test_means_and_their_errors(result, played):
    for r in result.plans:
        scores = played[r.name].scores
        assert r.mean == pytest.approx(scores.mean(), rel=1e-12)
        assert r.standard_error == pytest.approx(scores.std(ddof=1) / math.sqrt(len(scores)), rel=1e-12)
        assert r.penalties == pytest.approx(played[r.name].penalties.mean(), rel=1e-12)
        assert r.putts == pytest.approx(played[r.name].putts.mean(), rel=1e-12)
        assert r.unfinished == played[r.name].unfinished.sum()


def test_plans_are_in_order(result):
    means = [r.mean for r in result.plans]
    assert means == sorted(means) and result.best is result.plans[0]


def test_distributions(result, played):
    for r in result.plans:
        assert sum(r.distribution.values()) == pytest.approx(1, abs=1e-12)
        assert list(r.distribution) == sorted(r.distribution)
        assert sum(k * share for k, share in r.distribution.items()) == pytest.approx(r.mean, rel=1e-12)
        for score in range(0, 12):
            assert r.probability(at_least=score) == pytest.approx((played[r.name].scores >= score).mean(), abs=1e-12)


def test_blow_ups(result):
    for r in result.plans:
        assert r.blow_up == r.probability(at_least=result.par + 2) == r.double_bogey
        assert r.blow_up_error == pytest.approx(math.sqrt(r.blow_up * (1 - r.blow_up) / result.plays), rel=1e-12)
        assert sum(r.blow_up_causes.values()) == pytest.approx(1, abs=1e-12)
        assert list(r.blow_up_causes.values()) == sorted(r.blow_up_causes.values(), reverse=True)


def test_no_blow_ups_have_no_causes(hole, player, plans):
    none = wb.compare(hole, player, plans[:1], plays=20, blow_up=20).best
    assert none.blow_up == 0 and none.blow_up_causes == {}


def test_quantiles(result, played):
    for r in result.plans:
        for share in (0.0, 0.01, 0.25, 0.5, 0.9, 0.99, 1.0):
            wanted = np.quantile(played[r.name].scores, share, method="inverted_cdf")
            assert r.quantile(share) == wanted


def test_paired_differences(result, played):
    for first in result.names:
        for second in result.names:
            found = result.difference(first, second)
            differences = played[first].scores - played[second].scores
            error = differences.std(ddof=1) / math.sqrt(len(differences))
            assert found.mean == pytest.approx(differences.mean(), abs=1e-12)
            assert found.standard_error == pytest.approx(error, rel=1e-9)
            # The 97.5 % point of the normal law to 16 digits (scipy.stats.norm.ppf).
            half = 1.959963984540054 * error
            assert found.interval == pytest.approx((differences.mean() - half, differences.mean() + half), abs=1e-9)
            assert found.better == pytest.approx((differences < 0).mean(), abs=1e-12)
            assert found.worse == pytest.approx((differences > 0).mean(), abs=1e-12)


def test_pairing_sharpens(result):
    for r in result.plans[1:]:
        paired = result.difference(r.name, result.best.name).standard_error
        assert paired < math.hypot(r.standard_error, result.best.standard_error)


def test_a_precision_is_kept(hole, player, plans):
    settled = wb.compare(hole, player, plans, precision=0.06, seed=3)
    assert settled.settled
    for r in settled.plans[1:]:
        low, high = settled.difference(r.name, settled.best.name).interval
        assert (high - low) / 2 <= 0.06


def test_a_precision_out_of_reach_is_not_settled(hole, player, plans):
    # Two plans that are one and the same but for an aim half a yard apart: 1,000 plays cannot part them to 0.0005.
    # They differ by 0.002 strokes (40,000 plays), less than the standard error here; none of 40 seeds settled it.
    close = [wb.Plan(str(yards), [wb.shot("driver", wb.along(215, left=yards))]) for yards in (4, 4.5)]
    result = wb.compare(hole, player, close, precision=0.0005, plays=1_000)
    assert result.plays == 1_000 and not result.settled
    assert "Too close to call" in result.advice


def test_intervals_cover_as_often_as_they_say(player):
    """Of 400 comparisons of 300 plays the 95 % interval covers the difference of a long run 364 to 393 times.

    False-alarm rate 0.001 (binomial), to which the long run's own error adds little: it is a sixtieth of an
    interval's. Standard errors a fifth too small would fail with a chance of 0.94.
    """
    hole = wb.Hole.sketch(par=3, length=150, water=[wb.along(120, right=12)])
    clubs = [wb.Plan(club, [wb.shot(club, wb.along(150))], then="direct") for club in ("5-iron", "7-iron")]
    truth = wb.compare(hole, player, clubs, plays=1_000_000, seed=999).difference("5-iron", "7-iron").mean
    covered = 0
    for seed in range(400):
        found = wb.compare(hole, player, clubs, plays=300, seed=seed)
        low, high = found.difference("5-iron", "7-iron").interval
        covered += low <= truth <= high
    assert 364 <= covered <= 393


def test_one_play_has_no_error_to_tell(hole, player, plans):
    result = wb.compare(hole, player, plans, plays=1)
    assert math.isnan(result.best.standard_error) and not result.settled
    assert repr(result) and result.advice


def test_scores_are_strokes_and_penalties(played):
    """Conservation: each play's score is its strokes and penalties, and it ends in the hole."""
    for plays in played.values():
        rows = plays.columns()
        count = np.bincount(rows["play"], minlength=len(plays))
        penalties = np.bincount(rows["play"], rows["penalty"], len(plays)).astype(int)
        assert np.array_equal(plays.scores, count + penalties)
        assert np.array_equal(plays.penalties, penalties)
        putts = np.bincount(rows["play"], rows["lie"] == "green", len(plays))
        assert np.array_equal(plays.putts, putts)
        assert not plays.unfinished.any()
        last = np.cumsum(count) - 1
        assert rows["holed"][last].all() and rows["holed"].sum() == len(plays)
        assert np.array_equal(rows["stroke"], np.concatenate([np.arange(1, n + 1) for n in count]))


def test_strokes_follow_each_other(strokes, hole):
    """A stroke without a penalty is played from where the one before came to rest, unless it was a wrong green."""
    after = np.flatnonzero(strokes["stroke"] > 1)
    before = after - 1
    free = strokes["penalty"][before] == 0
    for axis in "xy":
        assert np.array_equal(strokes[axis][after[free]], strokes[f"rest_{axis}"][before[free]])
    away = np.hypot(strokes["x"] - hole.pin[0], strokes["y"] - hole.pin[1])
    assert strokes["to_pin"] == pytest.approx(away, abs=1e-9)
    first = strokes["stroke"] == 1
    assert set(zip(strokes["x"][first], strokes["y"][first], strict=True)) == {hole.tee}
    assert set(strokes["lie"][first]) == {"tee"}


def test_surfaces_of_the_strokes_are_those_of_the_hole(strokes, hole):
    rest = np.column_stack([strokes["rest_x"], strokes["rest_y"]])
    open_air = ~strokes["holed"]
    assert np.array_equal(hole.surface_at(rest[open_air]), strokes["rest_on"][open_air])


def test_checkpoints_worked_out_from_strokes(result, played, checkpoints):
    limits = {"birdie putt inside 30 ft": (30, 2), "putting in four": (1_000, 4)}
    assert set(limits) == set(checkpoints)
    for plan in result.names:
        rows = played[plan].columns()
        so_far = np.cumsum(1 + rows["penalty"]) - (1 + rows["penalty"])
        start = np.flatnonzero(rows["stroke"] == 1)
        taken = so_far - so_far[start][rows["play"]]  # strokes and penalties before this one
        for name, (within_ft, after_strokes) in limits.items():
            reached = 0
            for i, first in enumerate(start):
                stop = start[i + 1] if i + 1 < len(start) else len(taken)
                putts = first + np.flatnonzero(rows["lie"][first:stop] == "green")
                if len(putts):
                    near = 3 * rows["to_pin"][putts[0]] <= within_ft
                    reached += bool(near and taken[putts[0]] <= after_strokes)
                else:
                    reached += int(played[plan].scores[i] <= after_strokes)
            share = reached / len(start)
            assert 0 < share < 1 or plan != "driver"
            assert result[plan].checkpoints[name] == pytest.approx(share, abs=1e-12)
            error = math.sqrt(share * (1 - share) / len(start))
            assert result[plan].checkpoint_errors[name] == pytest.approx(error, rel=1e-9)


def test_maximum_score_is_the_most(hole, player, plans):
    free = wb.simulate(hole, player, plans[0], plays=2_000, seed=4)
    picked_up = wb.simulate(hole, player, plans[0], plays=2_000, seed=4, maximum_score=7)
    assert free.scores.max() > 7
    assert np.array_equal(picked_up.scores, np.minimum(free.scores, 7))
    counted = wb.compare(hole, player, plans[:1], plays=2_000, seed=4, maximum_score=7).best
    assert counted.mean == pytest.approx(picked_up.scores.mean(), rel=1e-12)


def test_penalties_and_putts_have_the_errors_of_their_samples(result, played):
    """They are means of counts, so their errors are the sample's; a share has another, and one above 1 has none."""
    columns = result.columns()
    for row, r in enumerate(result.plans):
        for name in ("penalties", "putts"):
            counts = getattr(played[r.name], name)
            error = counts.std(ddof=1) / math.sqrt(len(counts))
            assert getattr(r, f"{name}_error") == pytest.approx(error, rel=1e-12)
            assert columns[f"{name}_error"][row] == getattr(r, f"{name}_error")
            # The table shows no more digits than that error allows.
            assert f"  {_table.worth(getattr(r, name), error)}" in repr(result)


def test_a_mean_above_one_putt_has_an_error_around_the_green(hole, player):
    around = wb.around_the_green(hole, player, at=wb.short_of_green(8), plays=2_000, seed=4)
    errors = [option.putts_error for option in around.options]
    # Plays differ by half a putt or so.
    assert all(0.3 < error * math.sqrt(2_000) < 0.9 for error in errors), errors


def safer_by_hand(comparison, played):
    """The plan with the fewest blow-ups, if its paired 95 % interval (Bonferroni over the rivals) lies below nought."""
    score = comparison.par + comparison._ranking.blow_up_over_par
    blown = {name: played[name].scores >= score for name in comparison.names}
    best, *rivals = comparison.names
    safest = min(rivals, key=lambda name: blown[name].mean())
    difference = blown[safest].astype(float) - blown[best]
    # scipy.stats.norm.ppf(1 - 0.025 / 2).
    half = 2.241402727604947 * difference.std(ddof=1) / math.sqrt(len(difference))
    return safest if difference.mean() + half < 0 else None


@pytest.mark.parametrize("over", [1, 2, 3, 4])
def test_a_safer_plan_is_told_by_the_paired_difference(hole, player, plans, played, over):
    comparison = wb.compare(hole, player, plans, plays=4_000, seed=17, blow_up=over)
    assert len(plans) == 3
    safer = safer_by_hand(comparison, played)
    assert comparison._ranking.safer == safer
    assert ("The safest is" in comparison.advice) is (safer is not None)
