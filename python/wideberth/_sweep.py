"""One question asked of many cases, here or on any executor."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import Executor, Future, as_completed
from functools import partial
from typing import Any, TypeVar

from wideberth._given import listed, mapping, shown
from wideberth._progress import reporter

_Answer = TypeVar("_Answer")

#: The most cases of one sweep.
_MOST = 1_000_000


def sweep(
    function: Callable[..., _Answer],
    cases: Iterable[Mapping[str, Any]],
    *,
    executor: Executor | None = None,
    progress: Any = None,
) -> list[_Answer]:
    """Ask one question of many cases, such as handicaps, courses and targets, on any executor.

    Every question takes and returns what can be pickled, and its seed fixes its answer wherever it is asked: a sweep on
    a pool of processes, or on a cluster, gives the answers of this process to the last bit. Give the cases of a pool of
    processes ``threads=1``, or the processes fight over the cores.

    Args:
        function: the question, such as ``wb.play_rounds``, ``wb.break_score`` or ``wb.compare``; or a function of a
            module of your own, which the other processes must be able to import.
        cases: the keyword arguments of each case, a dict a case.
        executor: who works: a ``concurrent.futures.ProcessPoolExecutor``, what Dask's ``Client.get_executor()`` gives,
            or any other with ``submit``. None asks one case after another here. It stays open.
        progress: a callable of (done, goal) in cases, or a tqdm bar.

    Returns:
        The answers in the order of the cases.

    Raises:
        TypeError: no function, a case that is no dict, something that cannot be submitted to.
        Exception: what the first case to fail raised, with a note that tells which it was; cases that have not begun
            are given up, as after Ctrl-C.

    Example:
        >>> import wideberth as wb
        >>> course = wb.Course([wb.Hole.sketch(par=4, length=360)], name="One hole")
        >>> cases = [{"course": course, "player": wb.Player.from_handicap(h), "plays": 500} for h in (5, 25)]
        >>> better, weaker = wb.sweep(wb.play_rounds, cases)
        >>> better.mean < weaker.mean
        True

    """
    if not callable(function):
        raise TypeError(f"function is {shown(function)}; it must be a function, such as play_rounds")
    given = [
        mapping(f"cases[{place}]", case, "a dict of keyword arguments")
        for place, case in enumerate(listed("cases", cases, "dicts of keyword arguments", _MOST))
    ]
    report = reporter(progress)
    if executor is None:
        answers = []
        for place, case in enumerate(given):
            answers.append(_noting(place, partial(_ask, function, case)))
            if report:
                report(len(answers), len(given))
        return answers
    if not callable(getattr(executor, "submit", None)):
        raise TypeError(f"executor is {shown(executor)}; it must be an executor, with submit, or None")
    asked: dict[Future[_Answer], int] = {}
    try:
        for place, case in enumerate(given):
            asked[executor.submit(_ask, function, dict(case))] = place
        for done, answered in enumerate(as_completed(asked), 1):
            _noting(asked[answered], answered.result)
            if report:
                report(done, len(given))
    finally:
        for each in asked:
            each.cancel()
    return [each.result() for each in asked]


def _ask(function: Callable[..., _Answer], case: Mapping[str, Any]) -> _Answer:
    """Ask of one case; in another process, too, so executors that have arguments of their own never see the case's."""
    return function(**case)


def _noting(place: int, ask: Callable[[], _Answer]) -> _Answer:
    """The answer; an error is told which case it is of."""
    try:
        return ask()
    except Exception as error:
        error.add_note(f"while asking case {place}")
        raise
