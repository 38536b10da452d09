"""Progress on long work: any callable, or a tqdm bar."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

Report = Callable[[int, int], object]


def reporter(progress: Any) -> Report | None:
    """Turn what the caller gave into a function of (done, goal).

    ``progress`` may be None, a callable taking (done, goal) in plays, or a bar with ``update(n)``,
    ``total`` and ``n`` as tqdm's bars have them.
    """
    if progress is None:
        return None
    if hasattr(progress, "update") and hasattr(progress, "n"):

        def show(done: int, goal: int) -> None:
            if progress.total != goal:
                progress.total = goal
            progress.update(done - progress.n)

        return show
    if callable(progress):
        report: Report = progress
        return report
    raise TypeError(f"progress is {type(progress).__name__}; it must be None, a callable of (done, goal) or a tqdm bar")
