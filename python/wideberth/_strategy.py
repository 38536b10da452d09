"""Strategies of one's own, asked for all balls of a wave at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._given import checked_name
from wideberth._table import Column, Columns, Whole

if TYPE_CHECKING:
    from wideberth._solution import Solution

Answer = Mapping[str, Any] | None
Function = Callable[[Columns], Answer]

#: The columns of an answer that must be there, and the one that may.
_ANSWER = ("club", "target_x", "target_y")
_CARRY = "carry"


def strategy(function: Function, *, name: str | None = None, otherwise: core._Then | Solution = "steady") -> Strategy:
    """Make a strategy of a function of your own, for ``Plan(then=)``.

    Plays go side by side, up to 4,096 at a time, and before every stroke the function is asked once for all balls that
    no instruction of the plan is for. Which plays go side by side, and the order in which they are asked for, depends
    neither on the number of threads nor on the machine; where the answer for a ball depends on that ball alone, so do
    the results. It is called by one thread at a time, which need not be the one that called wideberth.

    Args:
        function: takes a dict of NumPy columns, one row a ball: ``play`` (number of the play, int64), ``x`` and ``y``
            (where it lies, yards), ``lie`` (str), ``to_pin`` (yards), ``score`` (strokes and penalties so far,
            int64). Gives back a mapping of columns as long: ``club`` (name of a club, or of a stroke such as
            ``"chip"``, ``"bunker shot"`` or ``"putt"``; None where the usual way is to go on), ``target_x`` and
            ``target_y`` (the place aimed exactly over, with nothing held off for wind or slope), and if wanted
            ``carry`` (yards meant; NaN or left out for a full one). Or None for the usual way with every ball.
        name: what the strategy is called, at most 200 characters; None for the name of the function.
        otherwise: the usual way, which also chooses between the options of a Rule.

    Returns:
        The strategy. It can be pickled if the function can.

    Raises:
        TypeError: something that cannot be called, a name that is no text, or a usual way that is none.
        InputError: a name that is empty, too long or has control characters; a usual way of no such name.

    An error that the function raises ends the run and is raised there; so is an ``InputError`` on an answer that cannot
    be played, which names the column.

    Example:
        Nobody may take more than an 8-iron:

        >>> import numpy as np
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=4, length=330)
        >>> def short_irons(balls):
        ...     far = balls["to_pin"] > 130
        ...     pin_x, pin_y = (np.full(len(far), c) for c in hole.pin)
        ...     return {"club": np.where(far, "8-iron", None), "target_x": pin_x, "target_y": pin_y}
        >>> own = wb.Plan("short irons", [], then=wb.strategy(short_irons))
        >>> usual = wb.Plan("usual", [])
        >>> result = wb.compare(hole, wb.Player.from_handicap(18), [own, usual], plays=1_000, seed=1)
        >>> result["usual"].mean < result["short irons"].mean
        True

    """
    return Strategy(function, name, otherwise)


class Strategy(Whole):
    """A function of your own as a strategy, by :func:`strategy`."""

    def __init__(self, function: Function, name: str | None, otherwise: str | Solution) -> None:
        """Made by :func:`strategy`."""
        if not callable(function):
            raise TypeError(f"function is of type {type(function).__name__}; it must be a function of columns")
        if isinstance(otherwise, Strategy):
            raise TypeError('otherwise is a strategy of your own; it must be "direct", "steady", "best" or a solution')
        # A plan refuses what is no way to go on.
        core.Plan("otherwise", [], then=otherwise)  # type: ignore[arg-type]
        #: The function.
        self.function = function
        #: What the strategy is called.
        self.name = checked_name("name", name if name is not None else getattr(function, "__name__", "own strategy"))
        #: The usual way, for balls that the function has no answer for.
        self.otherwise = otherwise

    def _shots(self, balls: Columns, strokes: list[str]) -> tuple[Column, Column, Column, Column]:
        """Ask for a wave: numbers of strokes (-1 for the usual way), targets, and carries (infinite for a full one)."""
        count = len(balls["play"])
        answer = self.function(balls)
        if answer is None:
            nowhere = np.zeros(count)
            return np.full(count, -1), nowhere, nowhere, nowhere
        self._check_names(answer)
        numbers = {stroke: number for number, stroke in enumerate(strokes)}
        clubs = np.asarray(answer["club"], object)
        self._check_length("club", clubs, count)
        codes = np.array([-1 if club is None else self._code(numbers, club) for club in clubs], np.int64)
        asked = codes >= 0
        x, y = (self._numbers(answer, column, count, asked) for column in _ANSWER[1:])
        carry = self._carry(answer, count, asked)
        return codes, x, y, carry

    def _refuse(self, told: str) -> core.InputError:
        return core.InputError(f"strategy {self.name!r}: {told}")

    def _check_names(self, answer: Any) -> None:
        if not isinstance(answer, Mapping):
            raise TypeError(
                f"strategy {self.name!r} answered with {type(answer).__name__}; it must be a dict of columns or None"
            )
        for column in _ANSWER:
            if column not in answer:
                raise self._refuse(f"the answer has no column {column!r}; it must have {', '.join(_ANSWER)}")
        for column in answer:
            if column not in (*_ANSWER, _CARRY):
                known = ", ".join(_ANSWER)
                raise self._refuse(f"the answer has a column {column!r}; it may have {known} and {_CARRY}")

    def _check_length(self, column: str, values: Column, count: int) -> None:
        if values.shape != (count,):
            raise self._refuse(f"{column} has the shape {values.shape}; it must have one entry a ball, ({count},)")

    def _code(self, numbers: Mapping[str, int], club: Any) -> int:
        try:
            return numbers[club]
        except (KeyError, TypeError):
            raise self._refuse(f"club is {club!r}; it must be None or one of {', '.join(numbers)}") from None

    def _floats(self, column: str, values: Any, count: int) -> Column:
        try:
            numbers = np.ascontiguousarray(values, np.float64)
        except (TypeError, ValueError):
            raise self._refuse(f"{column} holds {np.asarray(values).dtype}; it must hold numbers of yards") from None
        self._check_length(column, numbers, count)
        return numbers

    def _numbers(self, answer: Mapping[str, Any], column: str, count: int, asked: Column) -> Column:
        numbers = self._floats(column, answer[column], count)
        wrong = np.flatnonzero(asked & ~np.isfinite(numbers))
        if len(wrong):
            row = wrong[0]
            raise self._refuse(f"{column} of ball {row} is {numbers[row]:g}; it must be a finite number of yards")
        return numbers

    def _carry(self, answer: Mapping[str, Any], count: int, asked: Column) -> Column:
        if _CARRY not in answer:
            return np.full(count, np.inf)
        carry = self._floats(_CARRY, answer[_CARRY], count)
        carry = np.where(np.isnan(carry), np.inf, carry)
        wrong = np.flatnonzero(asked & (carry < 0))
        if len(wrong):
            row = wrong[0]
            raise self._refuse(
                f"carry of ball {row} is {carry[row]:g}; it must be 0 yards or more, or NaN for a full one"
            )
        return carry

    def _parts(self) -> tuple[Any, ...]:
        return self.function, self.name, self.otherwise

    def __repr__(self) -> str:
        """What it is called, and the usual way where that is another one than steady."""
        otherwise = ""
        if self.otherwise != "steady":
            otherwise = (
                f", otherwise={self.otherwise!r}" if isinstance(self.otherwise, str) else ", otherwise=<solution>"
            )
        return f"strategy({self.name!r}{otherwise})"


def called(then: str | Solution | Strategy) -> Sequence[str]:
    """Names of the strategies behind a way to go on; none of a solution."""
    if isinstance(then, Strategy):
        return [then.name, *called(then.otherwise)]
    return [then] if isinstance(then, str) else []
