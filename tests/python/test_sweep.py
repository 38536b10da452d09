"""Sweeps: the answers of this process to the last bit, whoever works; progress, errors and what is given up."""

import concurrent.futures
import multiprocessing
import threading

import pytest
import wideberth as wb

WAIT = 120.0  # seconds
COURSES = [
    wb.Course([wb.Hole.sketch(par=3, length=130), wb.Hole.sketch(par=4, length=330)], name="Still"),
    wb.Course([wb.Hole.sketch(par=3, length=130).under(wb.Conditions(wind=wb.Wind(15, 0)))], name="Windy"),
]
ROUNDS = [
    {"course": course, "player": wb.Player.from_handicap(handicap), "plays": 60, "seed": 7, "threads": 1}
    for course in COURSES
    for handicap in (3, 24)
]
TARGETS = [
    {
        "course": COURSES[0],
        "player": wb.Player.from_handicap(12),
        "target": score,
        "plays": 200,
        "cell": 10,
        "threads": 1,
    }
    for score in (7, 9)
]


@pytest.fixture(scope="module")
def here():
    """The answers of this process, asked with threads of its own: they do not depend on them."""
    rounds = [{**case, "threads": 2} for case in ROUNDS]
    return wb.sweep(wb.play_rounds, rounds), wb.sweep(wb.break_score, TARGETS)


@pytest.fixture
def pool():
    """A pool of processes of which none is left behind."""
    executor = concurrent.futures.ProcessPoolExecutor(2, mp_context=multiprocessing.get_context("spawn"))
    yield executor
    executor.shutdown(wait=True, cancel_futures=True)


def test_processes_give_the_answers_of_this_one(here, pool):
    told = []
    rounds = wb.sweep(wb.play_rounds, ROUNDS, executor=pool, progress=lambda done, goal: told.append((done, goal)))
    assert rounds == here[0] and [r.seed for r in rounds] == [7] * 4
    assert [r.distribution for r in rounds] == [r.distribution for r in here[0]]
    assert told == [(1, 4), (2, 4), (3, 4), (4, 4)]
    targets = wb.sweep(wb.break_score, TARGETS, executor=pool)
    assert targets == here[1] and targets[0].chance < targets[1].chance


@pytest.mark.parametrize("processes", [False, True])
def test_dask_gives_the_answers_of_this_process(here, processes):
    distributed = pytest.importorskip("distributed")
    here_alone = {"host": "127.0.0.1"} if processes else {}
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=processes, dashboard_address=None, **here_alone
        ) as cluster,
        distributed.Client(cluster) as client,
    ):
        told = []
        executor = client.get_executor()
        assert wb.sweep(wb.play_rounds, ROUNDS, executor=executor, progress=lambda *at: told.append(at)) == here[0]
        assert told[-1] == (4, 4)


def test_threads_and_no_executor_at_all(here):
    with concurrent.futures.ThreadPoolExecutor(3) as executor:
        assert wb.sweep(wb.play_rounds, iter(ROUNDS), executor=executor) == here[0]
    assert wb.sweep(wb.play_rounds, []) == []


def test_a_bar_is_moved():
    class Bar:
        n, total = 0, None

        def update(self, more):
            self.n += more

    bar = Bar()
    assert wb.sweep(abs, [], progress=bar) == []
    wb.sweep(wb.along, [{"yards": y} for y in (1, 2, 3)], progress=bar)
    assert (bar.n, bar.total) == (3, 3)


@pytest.mark.parametrize("make", [lambda: None, lambda: concurrent.futures.ThreadPoolExecutor(1)])
def test_an_error_says_which_case_it_is_of_and_the_rest_is_given_up(make):
    executor, asked = make(), []

    def ask(place):
        asked.append(place)
        if place == 1:
            raise wb.InputError("place is 1; it must be another")
        return place

    cases = [{"place": place} for place in range(500)]
    with pytest.raises(wb.InputError, match="it must be another") as caught:
        wb.sweep(ask, cases, executor=executor)
    assert caught.value.__notes__ == ["while asking case 1"]
    if executor is None:
        assert asked == [0, 1]
    else:
        executor.shutdown()


def test_what_has_not_begun_is_given_up():
    """An interrupt in the middle leaves the cases that wait: the one worker is held until the sweep has ended."""
    ended, begun = threading.Event(), []

    def ask(place):
        begun.append(place)
        if place:
            ended.wait(WAIT)
        return place

    def interrupt(done, goal):
        raise KeyboardInterrupt

    with concurrent.futures.ThreadPoolExecutor(1) as executor:
        with pytest.raises(KeyboardInterrupt):
            wb.sweep(ask, [{"place": place} for place in range(50)], executor=executor, progress=interrupt)
        ended.set()
    assert len(begun) <= 2


def test_arguments_of_an_executor_s_own_are_no_concern_of_the_cases():
    """An executor may take keywords, such as a key or workers: the cases' never meet them."""

    class Picky(concurrent.futures.ThreadPoolExecutor):
        def submit(self, fn, *args, key=None, workers=None):
            assert key is workers is None
            return super().submit(fn, *args)

    with Picky(1) as executor:
        assert wb.sweep(dict, [{"key": 1, "workers": 2, "fn": 3}], executor=executor) == [
            {"key": 1, "workers": 2, "fn": 3}
        ]
