"""Holes solved, and strategies valued without playing them."""

from __future__ import annotations

from typing import Any

from wideberth import _wideberth as core
from wideberth._objective import Objective
from wideberth._solution import Solution

__all__ = ["Solution", "evaluate", "solve"]


def solve(
    hole: core.Hole,
    player: core.Player,
    *,
    objective: Objective | None = None,
    cell: float = 2.0,
    threads: int | None = None,
    progress: Any = None,
) -> Solution:
    """Find the best shot from everywhere on a hole, for this player.

    Dynamic programming over the very strokes that are simulated: from every place and lie, every club at many aims is
    tried over a fixed, even set of luck, relief is taken where it is worth most, and a stroke that must be played again
    (out of bounds, lost) is reckoned exactly. Shots are chosen and valued over different luck.

    Args:
        hole: the hole.
        player: the player.
        objective: None for fewest strokes on average; ``at_most(6)`` for the best chance of a six or better, whatever
            that takes; ``safe(price=2)`` to pay strokes for fewer blow-ups.
        cell: yards between places that have a value, 0.5 to 10. Around the green each has a shot of its own; farther
            off, where values change slowly, those some 4 yards apart have, and well aside of play some 8.
        threads: number of threads; None for every core. The result does not depend on it.
        progress: a callable of (done, goal) in steps, or a tqdm bar.

    Returns:
        The solution: a strategy for plans, maps, and advice from anywhere.

    Raises:
        InputError: before anything is solved, naming the field, the value and what is allowed.
        TypeError: something of another type than asked for.
        KeyboardInterrupt: soon after Ctrl-C.

    Example:
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=3, length=150, water=[wb.along(140, right=12)])
        >>> best = wb.solve(hole, wb.Player.from_handicap(15), cell=4)
        >>> advice = best.shot_from(hole.tee)
        >>> advice.words.endswith("by the flag") or " out" in advice.words
        True
        >>> 3 < advice.expected_strokes < 4.5
        True
        >>> best.expected_strokes(wb.along(100), lie="rough") > best.expected_strokes(wb.along(100), lie="fairway")
        True
        >>> plan = wb.Plan("solved", [], then=best)
        >>> wb.compare(hole, wb.Player.from_handicap(15), [plan], plays=500).names
        ['solved']

    """
    asked = locals()
    what = objective if objective is not None else Objective("fewest", None, 0.0)
    if not isinstance(what, Objective):
        raise TypeError(f"objective is {type(what).__name__}; it must be None, at_most(...) or safe(...)")
    return Solution(core.solve(asked, what.kind, what.strokes, what.price), objective)


def evaluate(
    hole: core.Hole,
    player: core.Player,
    then: str = "steady",
    *,
    cell: float = 2.0,
    threads: int | None = None,
    progress: Any = None,
) -> Solution:
    """Work out what a strategy is worth from everywhere, without playing and so without sampling error.

    Args:
        hole: the hole.
        player: the player.
        then: ``"steady"`` or ``"direct"``.
        cell: as in :func:`solve`.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal) in steps, or a tqdm bar.

    Returns:
        A solution that plays like the strategy: strokes, chances and the distribution of scores are the strategy's.

    Raises:
        InputError: before anything is worked out, naming the field, the value and what is allowed.

    Example:
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=3, length=150)
        >>> steady = wb.evaluate(hole, wb.Player.from_handicap(15), "steady", cell=4)
        >>> abs(sum(steady.distribution.values()) - 1) < 1e-9
        True

    """
    return Solution(core.evaluate(locals()))
