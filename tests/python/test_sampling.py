"""What the simulation draws, against the laws it claims (scipy.stats).

Every p-value is compared with one in a million: that is the false-alarm rate of each such assertion over
seeds. With 100,000 strokes a spread that is 5 % off fails (asserted below), and so does a mean off by 2.5 % of
a standard deviation.
"""

import helpers
import numpy as np
import pytest
import wideberth as wb

stats = pytest.importorskip("scipy.stats")

PLAYS = 100_000
RARE = 1e-6


def tee_shots(**club):
    """Carry, lateral and mishit of full tee shots, straight up the plan, with a club of these figures."""
    # The longest club is at home on the tee: there a lie changes nothing.
    stick = wb.Club("driver", **{"carry": 250, "carry_sd": 9, "lateral_sd": 13, **club})
    player = wb.Player.from_handicap(0).with_clubs([stick])
    plan = wb.Plan("one full swing", [wb.shot("driver", wb.along(280))])
    # Picked up at the fifth stroke: only the first is of interest.
    plays = wb.simulate(helpers.plain_hole(), player, plan, plays=PLAYS, seed=8, maximum_score=5)
    strokes = plays.columns()
    first = strokes["stroke"] == 1
    assert first.sum() == PLAYS and set(strokes["club"][first]) == {"driver"}
    return strokes["landed_y"][first], strokes["landed_x"][first], strokes["mishit"][first]


@pytest.fixture(scope="module")
def solid():
    carry, lateral, mishit = tee_shots(mishit_share=0, lateral_bias=-6, correlation=0.5)
    assert not mishit.any()
    return carry, lateral


def test_carry_and_lateral_are_normal(solid):
    carry, lateral = solid
    assert stats.kstest(carry, stats.norm(250, 9).cdf).pvalue > RARE
    assert stats.kstest(lateral, stats.norm(-6, 13).cdf).pvalue > RARE


def test_a_spread_five_percent_off_would_be_seen(solid):
    carry, lateral = solid
    assert stats.kstest(carry, stats.norm(250, 9 * 1.05).cdf).pvalue < RARE
    assert stats.kstest(lateral, stats.norm(-6, 13 / 1.05).cdf).pvalue < RARE


def test_carry_and_lateral_are_jointly_normal_and_correlated(solid):
    points = np.column_stack(solid)
    covariance = np.array([[9**2, 0.5 * 9 * 13], [0.5 * 9 * 13, 13**2]])
    off = points - [250, -6]
    squared = np.einsum("ij,jk,ik->i", off, np.linalg.inv(covariance), off)
    # Squared Mahalanobis distances of a bivariate normal are chi-squared with two degrees of freedom.
    assert stats.kstest(squared, stats.chi2(2).cdf).pvalue > RARE
    # Fisher's transformation of the sample correlation is normal with standard error 1 / sqrt(n - 3).
    z = (np.arctanh(np.corrcoef(points.T)[0, 1]) - np.arctanh(0.5)) * np.sqrt(PLAYS - 3)
    assert 2 * stats.norm.sf(abs(z)) > RARE


def test_uncorrelated_unless_told():
    carry, lateral, _ = tee_shots()
    assert stats.pearsonr(carry, lateral).pvalue > RARE
    assert stats.spearmanr(carry, lateral).pvalue > RARE


def test_mishits_are_as_many_as_told_and_short_on_average():
    carry, lateral, mishit = tee_shots(mishit_share=0.15)
    low, high = stats.binom(PLAYS, 0.15).interval(1 - RARE)
    assert low <= mishit.sum() <= high
    # What is no mishit is the ellipse of the club, and as many slight misses as mishits: severities up to a half.
    shape = wb.MishitShape()
    far = ((np.arange(200) + 0.5) / 400) ** shape.mildness

    def law(values, flush, misses):
        slight = sum(part * stats.norm(*miss).cdf(values[:, None]).mean(axis=1) for part, miss in misses)
        return (0.7 * stats.norm(*flush).cdf(values) + 0.15 * slight) / 0.85

    def between(flush, worst):
        return flush + far * (worst - flush)

    parts = (shape.duff_part, 1 - shape.duff_part)
    deep = [(between(250, 250 * c), between(9, 250 * s)) for c, s in
            ((shape.duff_carry, shape.duff_carry_sd), (shape.wild_carry, shape.wild_carry_sd))]  # fmt: skip
    wide = [(0, between(13, 13 * side)) for side in (shape.duff_side, shape.wild_side)]
    some = slice(0, 20_000)
    for values, flush, misses in ((carry, (250, 9), deep), (lateral, (0, 13), wide)):
        kept = values[~mishit][some]
        assert stats.kstest(kept, lambda x, f=flush, m=misses: law(x, f, zip(parts, m, strict=True))).pvalue > RARE
    assert carry[mishit].mean() < 0.9 * 250 and lateral[mishit].std() > 1.2 * 13


def test_plays_are_independent():
    """Neighbouring plays share no luck: the ranks of one do not tell the next (Spearman)."""
    carry, lateral, _ = tee_shots()
    for column in (carry, lateral):
        assert stats.spearmanr(column[:-1], column[1:]).pvalue > RARE
        assert stats.spearmanr(column[::2], column[1::2]).pvalue > RARE
