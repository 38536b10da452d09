"""Progress on long work: a callable, or a bar of tqdm."""

import io
import time

import pytest
import wideberth as wb


def test_a_callable_hears_of_every_wave(hole, player, plans):
    heard = []
    wb.compare(hole, player, plans, plays=30_000, seed=2, progress=lambda done, goal: heard.append((done, goal)))
    done = [d for d, _ in heard]
    assert len(heard) >= 2 and done == sorted(set(done))
    assert {goal for _, goal in heard} == {30_000} and done[-1] == 30_000


def test_a_slow_callable_does_not_shrink_the_waves(hole, player, plans):
    heard = []

    def slow(done, goal):
        heard.append(done)
        time.sleep(0.07)

    wb.compare(hole, player, plans, plays=4_000, seed=2, progress=slow)
    # Shrunk to a play a wave it would be called thousands of times; some waves are small on a busy machine.
    assert len(heard) < 400


def test_simulate_reports_too(hole, player, plans):
    heard = []
    wb.simulate(hole, player, plans[0], plays=700, progress=lambda *report: heard.append(report))
    assert heard == sorted(heard) and heard[-1] == (700, 700)


def test_a_run_to_a_precision_ends_where_it_says(hole, player, plans):
    heard = []
    result = wb.compare(hole, player, plans, precision=0.05, progress=lambda *report: heard.append(report))
    assert all(done <= goal for done, goal in heard)
    assert [done for done, _ in heard] == sorted({done for done, _ in heard})
    assert heard[-1] == (result.plays, result.plays)


def test_progress_changes_no_result(hole, player, plans, result):
    again = wb.compare(hole, player, plans, plays=4_000, seed=17, progress=lambda done, goal: None)
    assert all(again[name].distribution == result[name].distribution for name in result.names)


@pytest.mark.parametrize("length", [{"plays": 20_000}, {"precision": 0.05}])
def test_a_bar_of_tqdm_ends_full(length, hole, player, plans):
    tqdm = pytest.importorskip("tqdm")
    with tqdm.tqdm(disable=False, file=io.StringIO()) as bar:
        result = wb.compare(hole, player, plans, seed=2, progress=bar, **length)
        assert bar.n == bar.total == result.plays


def test_what_the_callable_raises_comes_through(hole, player, plans):
    class Enough(Exception):
        pass

    def stop(done, goal):
        raise Enough(done)

    with pytest.raises(Enough):
        wb.compare(hole, player, plans, plays=1_000_000_000, progress=stop)


def test_what_is_no_progress_is_refused(hole, player, plans):
    with pytest.raises(TypeError, match="progress is int"):
        wb.compare(hole, player, plans, plays=10, progress=3)
