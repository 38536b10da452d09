"""Many single strokes of one shot, as columns: the kernel itself."""

from __future__ import annotations

from typing import Any

from wideberth import _wideberth as core
from wideberth._table import Columns


def strokes(
    hole: core.Hole,
    player: core.Player,
    *,
    club: str,
    target: core._Place,
    carry: float | None = None,
    at: core._Place | None = None,
    lie: core._Lie | None = None,
    n: int = 10_000,
    seed: core._Seed = 0,
    threads: int | None = None,
    progress: Any = None,
) -> Columns:
    """Play one shot many times, each under its own luck, and nothing after it.

    It is the model that everything else is made of, for an experiment that is nobody else's. Stroke number ``i`` has
    the luck of the first stroke of play ``i`` of :func:`simulate` under the same seed.

    Args:
        hole: the hole.
        player: the player.
        club: a club, or a stroke such as ``"chip"``, ``"bunker shot"`` or ``"putt"`` (which is at the hole, whatever
            the target).
        target: the place aimed exactly over, (x, y) in yards or a place such as ``along(150)``; nothing is held off
            for wind or slope.
        carry: yards meant; None for a full one, and no more than that.
        at: where the ball lies, (x, y) in yards or a place; None for the tee.
        lie: the lie there, such as ``"rough"``; None for what the ground gives.
        n: number of strokes, 1 to 10,000,000.
        seed: as in :func:`compare`.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal) in strokes, or a tqdm bar.

    Returns:
        Named NumPy columns of shape (n,): ``landed_x``, ``landed_y``: where the ball came down, yards; ``rest_x``,
        ``rest_y``: where it stopped, before any relief; ``rest_on``: the surface there, str; ``to_pin``: yards to the
        pin from there; ``holed``, ``mishit``, ``trees``, ``lost``, ``unplayable``: bool.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed.
        TypeError: something of another type than asked for, before anything is played.
        KeyboardInterrupt: within a fifth of a second of Ctrl-C.

    Example:
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=4, length=400)
        >>> pupil = wb.Player.from_handicap(18)
        >>> balls = wb.strokes(hole, pupil, club="8-iron", target=hole.pin, at=wb.along(270), n=2_000, seed=7)
        >>> balls["rest_x"].shape, bool(0.05 < balls["mishit"].mean() < 0.3)
        ((2000,), True)

    """
    return core.strokes(locals())
