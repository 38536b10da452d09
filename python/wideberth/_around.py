"""The strokes around the green compared from one place: the ranked table and each option's result."""

from __future__ import annotations

from typing import Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._ranked import said
from wideberth._result import Counted
from wideberth._scores import Results
from wideberth._table import Cell, Columns, percent, share, words


def around_the_green(
    hole: core.Hole,
    player: core.Player,
    *,
    at: tuple[float, float] | core.Aim,
    plays: int | None = None,
    precision: float | None = None,
    seed: core._Seed = 0,
    then: core._Then = "steady",
    threads: int | None = None,
    progress: Any = None,
) -> AroundTheGreen:
    """Play every stroke that suits the lie from a place near the green and rank them by strokes to hole out.

    The options are "putter", "running chip", "pitch", "lob" and "bunker shot", as the lie allows: the putter from mown
    grass, the bunker shot from sand only (where a chip or pitch is picked clean), no high stroke from under trees; a
    stroke that cannot reach the green is left out. Each is aimed at the pin with the length that does best when played
    out, or played as far as it goes. What follows is the player's ordinary game. All options meet the same luck.

    The model knows the lie, not the height of a bunker's lip, and no ball that is plugged or sits badly.

    Args:
        hole: the hole.
        player: the player.
        at: where the ball lies: ``short_of_green(8)``, any other place such as ``along(380, right=12)``, or (x, y). The
            surface there gives the lie. At most 100 yards from the edge of the green, and off it.
        plays: plays of every option, as in :func:`compare`.
        precision: as in :func:`compare`.
        seed: as in :func:`compare`.
        then: the strategy that plays on, ``"steady"``, ``"direct"`` or ``"best"``, for which the hole is solved first.
        threads: number of threads; None for every core.
        progress: as in :func:`compare`.

    Returns:
        The options, best first; its ``repr`` is the ranked table.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed: a place out of bounds,
            in a penalty area, on a green or too far from it, a number out of range.
        TypeError: something of another type than asked for.
        KeyboardInterrupt: soon after Ctrl-C.

    Example:
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=4, length=360).with_pin(back=3)
        >>> options = wb.around_the_green(
        ...     hole, wb.Player.from_handicap(20), at=wb.short_of_green(6), plays=2_000, seed=4
        ... )
        >>> sorted(options.names)
        ['lob', 'pitch', 'putter', 'running chip']
        >>> options.best.mean < options["lob"].mean
        True
        >>> 0 < options["putter"].down_in(2) < options["putter"].down_in(3) < 1
        True

    """
    return AroundTheGreen(core.around_the_green(locals()), hole, player)


class AroundOption(Counted):
    """What one stroke around the green came to over all its plays."""

    _ranking: core.AroundRanking

    def down_in(self, strokes: int) -> float:
        """Share of plays in the hole after ``strokes`` or fewer, penalties included: 2 is up and down.

        Raises:
            InputError: strokes outside 1 to 60.

        """
        return self._down_in(strokes)[0]

    def down_in_error(self, strokes: int) -> float:
        """Standard error of that share.

        Raises:
            InputError: strokes outside 1 to 60.

        """
        return self._down_in(strokes)[1]

    def _down_in(self, strokes: int) -> tuple[float, float]:
        if not 1 <= strokes <= 60:
            raise core.InputError(f"strokes is {strokes}; it must be 1 to 60")
        return self._ranking.down_in(self.name, strokes)

    @property
    def carry(self) -> float:
        """How far the first stroke is meant to carry, yards; 0 for the putter."""
        return self._ranking.meant(self.name)[0]

    @property
    def run(self) -> float:
        """How far it is then meant to run, yards."""
        return self._ranking.meant(self.name)[1]

    @property
    def on_green(self) -> float:
        """Share of first strokes that finish on the green or in the hole."""
        return self._ranking.on_green(self.name)[0]

    @property
    def missed_green(self) -> float:
        """Share of first strokes that do not."""
        return self._ranking.missed_green(self.name)[0]

    @property
    def on_green_error(self) -> float:
        """Standard error of either share."""
        return self._ranking.on_green(self.name)[1]

    @property
    def holed(self) -> float:
        """Share of first strokes that are holed."""
        return self._ranking.holed(self.name)[0]

    @property
    def chunked(self) -> float:
        """Share of first strokes that are chunked and come up short."""
        return self._ranking.chunked(self.name)[0]

    @property
    def thinned(self) -> float:
        """Share of first strokes that are thinned and run on."""
        return self._ranking.thinned(self.name)[0]

    @property
    def left_ft(self) -> float:
        """Median distance left to the pin by the first stroke, feet, to the next half foot."""
        return self.left_quantile_ft(0.5)

    def left_quantile_ft(self, share: float) -> float:
        """The distance to the pin, feet, that a share of first strokes do not exceed, to the next half foot.

        Infinite if that is more than 300 feet.

        Raises:
            InputError: a share outside 0 to 1.

        """
        return self._ranking.left_ft(self.name, share)

    def within_ft(self, feet: float) -> float:
        """Share of first strokes left within ``feet`` of the pin.

        Raises:
            InputError: a distance that is not a multiple of half a foot from 0 to 300.

        """
        return self._ranking.within_ft(self.name, feet)[0]

    def __repr__(self) -> str:
        """One line with the mean, its error and the chance to get down in two and three."""
        return (
            f"{self.name}: {said(self.mean, self.standard_error)}, "
            f"down in two {percent(self.down_in(2), self.down_in_error(2))}, "
            f"in three or fewer {percent(self.down_in(3), self.down_in_error(3))}"
        )


class AroundTheGreen(Results[AroundOption]):
    """The strokes around the green from one place, fewest strokes to hole out first."""

    _kind = "option"
    _counted = "strokes"
    _ranking: core.AroundRanking

    def __init__(self, ranking: core.AroundRanking, hole: core.Hole, player: core.Player) -> None:
        """Made by :func:`around_the_green`."""
        super().__init__(ranking, hole)
        #: The player.
        self.player = player
        #: The options, best first.
        self.options = [AroundOption(self, name) for name in ranking.names]
        self._results = self.options

    def _parts(self) -> tuple[Any, ...]:
        return *super()._parts(), self.player

    @property
    def at(self) -> tuple[float, float]:
        """Where the first stroke is played from, (x, y) in yards."""
        return self._ranking.start[0]

    @property
    def lie(self) -> str:
        """The lie there."""
        return self._ranking.start[1]

    @property
    def to_pin(self) -> float:
        """Yards from there to the pin."""
        return self._ranking.to_pin

    def columns(self) -> Columns:
        """The table as named NumPy columns, one row an option, best first.

        ``option`` (str), ``mean`` and ``standard_error`` (strokes to hole out), ``behind`` and ``behind_error`` (paired
        difference to the best option, strokes), ``down_in_two`` and ``down_in_three`` (shares of plays, in so many
        strokes or fewer) with their ``_error``, ``left_ft`` (median feet left by the first stroke), ``missed_green``,
        ``chunked`` and ``thinned`` (shares of first strokes), ``carry`` and ``run`` (yards meant).
        """
        return {
            **self._first_columns(),
            "down_in_two": np.array([o.down_in(2) for o in self.options]),
            "down_in_two_error": np.array([o.down_in_error(2) for o in self.options]),
            "down_in_three": np.array([o.down_in(3) for o in self.options]),
            "down_in_three_error": np.array([o.down_in_error(3) for o in self.options]),
            "left_ft": np.array([o.left_ft for o in self.options]),
            "missed_green": np.array([o.missed_green for o in self.options]),
            "chunked": np.array([o.chunked for o in self.options]),
            "thinned": np.array([o.thinned for o in self.options]),
            "carry": np.array([o.carry for o in self.options]),
            "run": np.array([o.run for o in self.options]),
        }

    @property
    def _title(self) -> str:
        lie = self.lie.replace("_", " ")
        return (
            f"{self.hole.name}, {self.player.name}: {self.to_pin:.0f} yd from the pin, lie {lie}; "
            f"{self._played}, seed {self._ranking.seed}"
        )

    def _shown(self) -> dict[str, Cell]:
        ranking, options = self._ranking, self.options
        return {
            "down in two": share("down_in_two"),
            "in three or fewer": share("down_in_three"),
            "left": words("left_ft", lambda feet: f"{feet:.1f} ft"),
            "missed green": lambda _, row: percent(*ranking.missed_green(options[row].name)),
            "chunked": lambda _, row: percent(*ranking.chunked(options[row].name)),
            "thinned": lambda _, row: percent(*ranking.thinned(options[row].name)),
            "carry + run": lambda columns, row: f"{columns['carry'][row]:.0f} + {columns['run'][row]:.0f} yd",
        }

    @property
    def _footer(self) -> str:
        alone = len(self.options) == 1
        settled = "There is no other stroke to choose from here." if alone else self._settled_note
        return (
            f"Strokes are those expected to hole out. {self._error_note}\n"
            "Left is the median left by the first stroke; missed green, chunked and thinned are shares of those.\n"
            f"{settled}{self._unfinished_note}"
        )
