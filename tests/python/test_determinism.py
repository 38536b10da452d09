"""The same seed gives the same numbers, however the work is cut up."""

import helpers
import numpy as np
import pytest
import wideberth as wb


@pytest.mark.parametrize("threads", [1, 2, 7])
def test_any_number_of_threads(threads, hole, player, plans, result, checkpoints, played):
    again = wb.compare(hole, player, plans, plays=4_000, seed=17, blow_up=2, checkpoints=checkpoints, threads=threads)
    assert again == result
    assert wb.simulate(hole, player, plans[1], plays=4_000, seed=17, threads=threads) == played[plans[1].name]


@pytest.mark.parametrize("threads", [1, 2, 7])
def test_a_precision_stops_at_the_same_play(threads, hole, player, plans):
    runs = [wb.compare(hole, player, plans, precision=0.2, seed=3, threads=n) for n in (None, threads)]
    assert runs[0] == runs[1]


def test_more_plays_begin_with_the_fewer(hole, player, plans, played):
    whole = played[plans[0].name]
    part = wb.simulate(hole, player, plans[0], plays=100, seed=17)
    assert np.array_equal(part.scores, whole.scores[:100])
    mine, theirs = part.columns(), whole.columns()
    first = theirs["play"] < 100
    assert all(np.array_equal(mine[name], theirs[name][first]) for name in mine)


def test_compare_counts_what_simulate_plays(plans, result, played):
    for plan in plans:
        counts = np.bincount(played[plan.name].scores) / result.plays
        assert result[plan.name].distribution == {k: share for k, share in enumerate(counts) if share}


def test_another_seed_is_other_luck(hole, player, plans, played):
    other = wb.simulate(hole, player, plans[0], plays=4_000, seed=18)
    # Two runs of 4,000 plays with 60 scores or so that agree play by play would be no luck at all.
    assert not np.array_equal(other.scores, played[plans[0].name].scores)


def test_the_ends_of_the_range_of_seeds(hole, player, plans):
    for seed in (0, 2**64 - 1, np.uint64(2**63)):
        assert wb.compare(hole, player, plans[:1], plays=10, seed=seed).plays == 10


def test_order_of_plans_changes_nothing(hole, player, plans, result):
    turned = wb.compare(hole, player, plans[::-1], plays=4_000, seed=17)
    for plan in plans:
        assert turned[plan.name].distribution == result[plan.name].distribution
    ahead, behind = turned.difference("driver", "iron"), result.difference("iron", "driver")
    assert ahead.mean == -behind.mean and ahead.standard_error == behind.standard_error


def test_helpers_are_what_other_processes_would_do():
    assert helpers.distributions(5) == helpers.distributions(5, threads=1)


def test_a_hole_that_was_asked_about_before_answers_as_one_that_was_not():
    """A player on a hole is kept prepared; what was worked out for earlier questions must not reach later ones."""
    hole = wb.Hole.sketch(par=4, length=380, trees=[wb.along(210, right=25), wb.along(260, left=25)])
    player = wb.Player.from_handicap(22)
    plans = [wb.Plan("driver", [wb.shot("driver", wb.along(200, right=12))])]
    wb.simulate(hole, player, plans[0], plays=2_000, seed=5)
    again, same = wb.Hole.from_json(hole.to_json()), wb.Player.from_json(player.to_json())
    for seed in (1, 2):
        kept, anew = (wb.simulate(h, p, plans[0], plays=1_000, seed=seed) for h, p in ((hole, player), (again, same)))
        assert kept == anew
        kept, anew = (wb.compare(h, p, plans, plays=1_000, seed=seed) for h, p in ((hole, player), (again, same)))
        assert kept.best.distribution == anew.best.distribution
