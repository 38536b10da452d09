"""Safety against average: the ways to play that no other beats at both."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from wideberth import _wideberth as core
from wideberth._objective import safe
from wideberth._progress import reporter
from wideberth._solution import Solution


@dataclass(frozen=True)
class FrontierPoint:
    """A way to play that no other one on the frontier beats both on average and in safety."""

    #: Mean strokes from the tee.
    mean: float
    #: The chance of a blow-up.
    blow_up: float
    #: Strokes that a blow-up was made to cost besides those it takes.
    price: float
    #: The strategy, to be played like any other.
    solution: Solution

    __hash__ = None  # type: ignore[assignment]


def frontier(
    hole: core.Hole,
    player: core.Player,
    *,
    blow_up: int = 3,
    cell: float = 4.0,
    threads: int | None = None,
    progress: Any = None,
) -> list[FrontierPoint]:
    """Safety against average: what fewer blow-ups cost in strokes.

    Args:
        hole: the hole.
        player: the player.
        blow_up: a blow-up is this many over par or worse, 1 to 14.
        cell: as in :func:`solve`.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal) in steps, or a tqdm bar.

    Returns:
        The points, lowest mean first, each safer than the one before. How much a point's mean lies above the first
        one's is the price of its safety.

    Raises:
        InputError: before anything is worked out, naming the field, the value and what is allowed.

    """
    points = core.frontier(hole, player, blow_up=blow_up, cell=cell, threads=threads, progress=reporter(progress))
    return [
        FrontierPoint(mean, risk, price, Solution(solution, safe(blow_up=blow_up, price=price)))
        for solution, price, mean, risk in points
    ]
