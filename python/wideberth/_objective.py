"""What a hole is solved for: fewest strokes, a score, or safety."""

from __future__ import annotations

from dataclasses import dataclass

from wideberth import _wideberth as core
from wideberth._given import number, whole


@dataclass(frozen=True)
class Objective:
    """What a solution is best at; made with :func:`at_most` or :func:`safe`.

    Immutable; equal when its numbers are; can be pickled.
    """

    kind: str
    strokes: int | None
    price: float

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        if self.kind == "at_most":
            return f"at_most({self.strokes})"
        return f"safe(blow_up={self.strokes}, price={self.price:g})"


def at_most(strokes: int) -> Objective:
    """Playing for a score: the best chance of holing out in ``strokes`` or fewer, penalties included.

    Args:
        strokes: 1 to 30, counted from the tee.

    Raises:
        InputError: another number.
        TypeError: something else.

    Example:
        >>> import wideberth as wb
        >>> wb.at_most(5)
        at_most(5)

    """
    return Objective("at_most", whole("at_most: strokes", strokes, 1, 30), 0.0)


def safe(*, blow_up: int = 3, price: float) -> Objective:
    """Fewest strokes on average when a blow-up costs some strokes more.

    Args:
        blow_up: a blow-up is this many over par or worse, 1 to 14.
        price: strokes that a blow-up is made to cost besides those it takes, 0 to 1000.

    Raises:
        InputError: a number out of range.
        TypeError: something else.

    Example:
        >>> import wideberth as wb
        >>> wb.safe(blow_up=3, price=2)
        safe(blow_up=3, price=2)

    """
    over_par = whole("blow_up", blow_up, 1, 14)
    strokes = number("price", price)
    if not 0 <= strokes <= 1000:
        raise core.InputError(f"price is {strokes:g}; it must be 0 to 1000 strokes")
    return Objective("safe", over_par, strokes)
