"""Safety against average: the best way to play for each price of a blow-up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from wideberth import _wideberth as core
from wideberth._objective import safe
from wideberth._solution import Solution


@dataclass(frozen=True)
class FrontierPoint:
    """The best way to play that was found when a blow-up costs :attr:`price` strokes more."""

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

    Each point is the best for some price of a blow-up: the fewest strokes on average when one costs so many more than
    it takes. Where neighbours differ by more than 0.005 strokes or a tenth of a percent, the price at which both are
    equally good is tried, in four rounds at most. What no price makes best is not shown, though nothing may beat it on
    both counts: drawn as mean against chance the points are the convex edge of all ways to play, and others may lie
    above the line between two of them.

    Args:
        hole: the hole.
        player: the player.
        blow_up: a blow-up is this many over par or worse, 1 to 14.
        cell: as in :func:`solve`.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal) in steps, or a tqdm bar.

    Returns:
        The points, lowest mean first, each safer than the one before and dearer by blow-up saved. How much a point's
        mean lies above the first one's is what its safety costs.

    Raises:
        InputError: before anything is worked out, naming the field, the value and what is allowed.

    """
    points = core.frontier(locals())
    return [
        FrontierPoint(mean, risk, price, Solution(solution, safe(blow_up=blow_up, price=price)))
        for solution, price, mean, risk in points
    ]
