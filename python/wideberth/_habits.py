"""What a player's habits cost: the strategy that follows them against the same without."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._ranked import alike
from wideberth._table import Columns, Table, measured


def price_of_habits(
    hole: core.Hole,
    player: core.Player,
    *,
    plays: int = 20_000,
    seed: core._Seed = 0,
    at: core._Place | None = None,
    lie: core._Lie | None = None,
    threads: int | None = None,
    progress: Any = None,
) -> PriceOfHabits:
    """How many strokes a player's habits cost on a hole.

    The strategy ``"direct"``, a golfer whom nobody advises, plays the hole with the player's habits, with each of them
    taken away, and with none, all with the same luck: the strokes are struck as well as ever, only the choices differ.

    Args:
        hole: the hole.
        player: the player; ``player.habits`` are what is priced.
        plays: plays of each, 1 to 1,000,000,000.
        seed: as in :func:`compare`, and it is the luck of it.
        at: where every play begins, as in :func:`compare`.
        lie: the lie there.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal) in plays, or a tqdm bar.

    Returns:
        The price of each habit and of all; its ``repr`` is the table with a sentence on each.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed.
        TypeError: something of another type than asked for, before anything is played.
        KeyboardInterrupt: soon after Ctrl-C.

    Example:
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=4, length=360, bunkers=[wb.along(338, left=4)])
        >>> player = wb.Player.from_handicap(18).with_habits(wb.Habits(too_little_club=0.08))
        >>> price = wb.price_of_habits(hole, player, plays=4_000, seed=1)
        >>> price.too_little_club.mean > 0 and price.every_flag.mean == 0
        True

    """
    seed, prices = core.price_of_habits(locals())
    return PriceOfHabits(hole, player, plays, seed, *prices)


@dataclass(frozen=True, repr=False)
class PriceOfHabits(Table):
    """What habits cost on a hole, by :func:`price_of_habits`.

    Every price is a paired difference: strokes with all the player's habits less strokes without the one, so that above
    0 is what giving it up saves. What two habits cost together need not be the sum.
    """

    #: The hole.
    hole: core.Hole
    #: The player, with the habits.
    player: core.Player
    #: Plays of each.
    plays: int
    #: The seed that fixed the luck.
    seed: int
    #: What taking too little club costs.
    too_little_club: core.Difference
    #: What aiming at every flag costs.
    every_flag: core.Difference
    #: What always chipping costs.
    always_chips: core.Difference
    #: What all habits together cost.
    all: core.Difference

    __hash__ = None  # type: ignore[assignment]

    @property
    def _by_habit(self) -> dict[str, core.Difference]:
        habits = "too_little_club", "every_flag", "always_chips", "all"
        return {habit: getattr(self, habit) for habit in habits}

    @property
    def _sentences(self) -> list[str]:
        """What giving up each habit comes to."""
        has = self.player.habits
        given_up = []
        if has.too_little_club > 0:
            given_up.append(("Taking the right club", self.too_little_club))
        if has.every_flag:
            given_up.append(("Aiming at the middle of the green", self.every_flag))
        if has.always_chips:
            given_up.append(("Putting where a putt does", self.always_chips))
        if len(given_up) > 1:
            given_up.append(("Doing both" if len(given_up) == 2 else "Doing all three", self.all))
        told = [f"{what} {_saves(price)} on this hole." for what, price in given_up]
        return told or ["There are no habits to give up."]

    @property
    def advice(self) -> str:
        """What giving up each habit comes to, in plain sentences."""
        return " ".join(self._sentences)

    def columns(self) -> Columns:
        """The table as named NumPy columns, one row a habit and one for all.

        ``habit`` (``too_little_club``, ``every_flag``, ``always_chips``, ``all``), ``price`` and ``price_error``
        (strokes a play, paired), ``better`` and ``worse`` (shares of plays that score lower and higher with the habit
        than without).
        """
        prices = self._by_habit.values()
        return {
            "habit": np.array(list(self._by_habit)),
            "price": np.array([price.mean for price in prices]),
            "price_error": np.array([price.standard_error for price in prices]),
            "better": np.array([price.better for price in prices]),
            "worse": np.array([price.worse for price in prices]),
        }

    @property
    def _title(self) -> str:
        hole, plays = self.hole, "1 play" if self.plays == 1 else f"{self.plays:,} plays"
        return f"{hole.name}, par {hole.par}, {hole.length:.0f} yd: what habits cost, {plays} each, seed {self.seed}"

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        columns = self.columns()
        rows = [
            [
                habit.replace("_", " "),
                "nothing" if alike(price) else measured(price.mean, price.standard_error),
                f"{100 * worse:.0f} %",
                f"{100 * better:.0f} %",
            ]
            for (habit, price), worse, better in zip(
                self._by_habit.items(), columns["worse"], columns["better"], strict=True
            )
        ]
        return ["habit", "costs", "worse in", "better in"], rows

    @property
    def _footer(self) -> str:
        error = "One play of each tells no error." if self.plays == 1 else "± is one standard error, paired."
        return "\n".join([f"Strokes a play, and shares of plays. {error}", *self._sentences])


def _saves(price: core.Difference) -> str:
    """What giving up a habit comes to, in words."""
    if alike(price):
        return "changes no score"
    told = measured(abs(price.mean), price.standard_error)
    return f"{'costs' if price.mean < 0 else 'saves'} {told} strokes"
