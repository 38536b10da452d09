"""Every stroke of every play, as columns."""

from __future__ import annotations

from typing import Any

from wideberth import _wideberth as core
from wideberth._table import Column, Columns, Frames, Whole


def simulate(
    hole: core.Hole,
    player: core.Player,
    plan: core.Plan,
    *,
    plays: int = 1_000,
    seed: core._Seed = 0,
    maximum_score: int | None = None,
    at: core._Place | None = None,
    lie: core._Lie | None = None,
    threads: int | None = None,
    progress: Any = None,
) -> Plays:
    """Play one plan and keep every stroke.

    Args:
        hole: the hole.
        player: the player.
        plan: the plan.
        plays: number of plays. Every stroke is kept: a million plays take about a gigabyte.
        seed: as in :func:`compare`; the plays are those that it counts under the same seed.
        maximum_score: the score at which the ball is picked up (Maximum Score, Rule 21.2); None to hole out.
        at: where every play begins, (x, y) in yards or a place such as ``along(250, left=8)``; None for the tee.
        lie: the lie there, such as ``"rough"``; None for what the ground gives.
        threads: number of threads; None for every core.
        progress: as in :func:`compare`.

    Returns:
        The plays.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed.
        TypeError: something of another type than asked for, before anything is played.
        KeyboardInterrupt: within a fifth of a second of Ctrl-C.

    Example:
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=3, length=150)
        >>> plan = wb.Plan("at the pin", [wb.at_pin()])
        >>> plays = wb.simulate(hole, wb.Player.from_handicap(9), plan, plays=200, seed=2)
        >>> len(plays), plays.scores.shape
        (200, (200,))
        >>> strokes = plays.columns()
        >>> bool((strokes["to_pin"][strokes["stroke"] == 1] == 150).all())
        True

    """
    return Plays(*core.simulate(locals()))


class Plays(Frames, Whole):
    """Plays of one plan with all their strokes."""

    def __init__(self, by_play: Columns, by_stroke: Columns, mean: float) -> None:
        """Made by :func:`simulate`."""
        self._by_play = by_play
        self._by_stroke = by_stroke
        self._mean = mean

    def _parts(self) -> tuple[Any, ...]:
        return self._by_play, self._by_stroke, self._mean

    @property
    def scores(self) -> Column:
        """Score of each play, shape (plays,), int64."""
        return self._by_play["score"]

    @property
    def penalties(self) -> Column:
        """Penalty strokes of each play, shape (plays,), int64."""
        return self._by_play["penalties"]

    @property
    def putts(self) -> Column:
        """Strokes from the putting green in each play, shape (plays,), int64."""
        return self._by_play["putts"]

    @property
    def unfinished(self) -> Column:
        """True for plays broken off at the stroke cap, shape (plays,), bool."""
        return self._by_play["unfinished"]

    def columns(self) -> Columns:
        """One row a stroke, as named NumPy columns of equal length.

        ``play`` (from 0) and ``stroke`` (from 1, penalties not numbered), int64; ``club``, str; ``x``, ``y``: where it
        was played from, yards in the plan of the hole; ``lie``, str; ``to_pin``: yards to the pin before it;
        ``target_x``, ``target_y``: the point aimed over; ``carry``: the carry meant, yards (0 for a putt);
        ``landed_x``, ``landed_y``: where the ball came down; ``rest_x``, ``rest_y``: where it stopped, before any
        relief; ``rest_on``: the surface there, str; ``penalty``: penalty strokes it cost, int64; ``holed``,
        ``mishit``, ``trees``, ``lost``, ``unplayable``: bool.
        """
        return dict(self._by_stroke)

    def __len__(self) -> int:
        """Number of plays."""
        return len(self.scores)

    def __repr__(self) -> str:
        """One line: how many plays and strokes, and the mean score."""
        return f"{len(self):,} plays, {len(self._by_stroke['play']):,} strokes, mean score {self._mean:.3f}"
