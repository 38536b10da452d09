"""Other processes: forked ones too, after the parent has used the library.

A pool of threads does not survive a fork; without care the child waits for ever for threads that are not
there. Every wait here has a limit, so that a hang is a failure.
"""

import concurrent.futures
import multiprocessing
import sys

import helpers
import pytest

WAIT = 60.0  # seconds
SEEDS = (1, 2, 3)

METHODS = [
    pytest.param("fork", marks=pytest.mark.skipif(sys.platform == "win32", reason="no fork there")),
    "spawn",
]


@pytest.fixture(scope="module")
def serial():
    """The answers of this process, which has used every kind of pool of threads by then."""
    helpers.distributions(9, threads=2)
    return [helpers.distributions(seed) for seed in SEEDS]


@pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")
@pytest.mark.parametrize("method", METHODS)
def test_multiprocessing(method, serial):
    with multiprocessing.get_context(method).Pool(2) as pool:
        assert pool.map_async(helpers.distributions, SEEDS).get(timeout=WAIT) == serial
    assert helpers.distributions(SEEDS[0]) == serial[0], "the parent goes on"


@pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")
@pytest.mark.parametrize("method", METHODS)
def test_process_pool_executor(method, serial):
    context = multiprocessing.get_context(method)
    executor = concurrent.futures.ProcessPoolExecutor(2, mp_context=context)
    try:
        assert list(executor.map(helpers.distributions, SEEDS, timeout=WAIT)) == serial
    except concurrent.futures.TimeoutError:
        for child in multiprocessing.active_children():
            child.kill()
        raise
    finally:
        executor.shutdown(wait=False, cancel_futures=True)


@pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")
@pytest.mark.skipif(sys.platform == "win32", reason="no fork there")
def test_a_fork_of_a_fork(serial):
    """A child that has made pools of its own is a parent, too."""
    context = multiprocessing.get_context("fork")
    answers = context.Queue()
    child = context.Process(target=_parent_again, args=(context, answers))
    child.start()
    try:
        assert [answers.get(timeout=WAIT), answers.get(timeout=WAIT)] == [serial[0], serial[0]]
        child.join(WAIT)
        assert child.exitcode == 0
    finally:
        child.kill()


def _parent_again(context, answers):
    answers.put(helpers.distributions(SEEDS[0]))
    grandchild = context.Process(target=lambda: answers.put(helpers.distributions(SEEDS[0])))
    grandchild.start()
    grandchild.join(WAIT)


def test_threads_of_python(serial):
    with concurrent.futures.ThreadPoolExecutor(3) as executor:
        assert list(executor.map(helpers.distributions, SEEDS, timeout=WAIT)) == serial


@pytest.mark.parametrize("backend", ["loky", "multiprocessing", "threading"])
def test_joblib(backend, serial):
    joblib = pytest.importorskip("joblib")
    work = joblib.Parallel(n_jobs=2, backend=backend, timeout=WAIT)
    assert work(joblib.delayed(helpers.distributions)(seed) for seed in SEEDS) == serial


def test_dask(serial):
    distributed = pytest.importorskip("distributed")
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, host="127.0.0.1"
        ) as cluster,
        distributed.Client(cluster) as client,
    ):
        assert client.gather(client.map(helpers.distributions, SEEDS), direct=False) == serial
