"""A course rated by two reference golfers who play it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wideberth import _wideberth as core
from wideberth._round_table import RoundTable
from wideberth._table import Whole, cells, estimate, measured, text

if TYPE_CHECKING:
    from wideberth._course import Course


class Rating(Whole):
    """What a course is rated by two simulated reference golfers, by :meth:`Course.rating`.

    A golfer's rating is the mean of the better half of the rounds, as the Course Rating System means it; it is a
    simulation of its scratch and bogey golfer, not the work of a rating team. Equal when every number is; can be
    pickled.
    """

    def __init__(self, rating: core.Rating, of: Course) -> None:
        """Made by :meth:`Course.rating`."""
        self._rating = rating
        self._of = of

    def _parts(self) -> tuple[Any, ...]:
        return self._rating, self._of

    @property
    def plays(self) -> int:
        """Rounds of each golfer."""
        return self._rating.plays

    @property
    def seed(self) -> int:
        """The seed that fixed the luck."""
        return self._rating.seed

    @property
    def reference(self) -> str:
        """Whose reference golfers played: ``"men"`` or ``"women"``."""
        return self._rating.reference

    @property
    def course(self) -> float:
        """The Course Rating: strokes that the scratch golfer needs, not rounded."""
        return self._rating.scratch[0]

    @property
    def course_error(self) -> float:
        """Standard error of the Course Rating."""
        return self._rating.scratch[1]

    @property
    def bogey(self) -> float:
        """The bogey rating: strokes that the bogey golfer (men of 20, women of 24) needs, not rounded."""
        return self._rating.bogey[0]

    @property
    def bogey_error(self) -> float:
        """Standard error of the bogey rating."""
        return self._rating.bogey[1]

    @property
    def slope(self) -> float:
        """The Slope Rating, 55 to 155, not rounded: 5.381 (women 4.24) a stroke between bogey and scratch rating."""
        return self._rating.slope[0]

    @property
    def slope_error(self) -> float:
        """Standard error of the Slope Rating."""
        return self._rating.slope[1]

    @property
    def stroke_indexes(self) -> list[int]:
        """The stroke indexes in use, in the order of play: those of the card, or else those by the procedure.

        Rules of Handicapping, Appendix E: holes are ranked by what both golfers need over par; the odd indexes go to
            one nine (the front unless the back is clearly harder), the lowest of a nine into its middle three holes,
            the second into its first or last three, and indexes of 6 or less do not follow each other.
        """
        return self._rating.stroke_indexes()

    def by_hole(self) -> RoundTable:
        """What each hole is to both golfers, in the order of play.

        The columns are ``hole`` (its number), ``par``, ``scratch`` and ``bogey`` (mean scores, each with its
        ``_error``), ``stroke_index`` (in use) and ``by_procedure`` (by the procedure, which the card's may differ
        from).
        """
        columns = self._rating.by_hole()
        shown = {
            "hole": text("hole"),
            "par": text("par"),
            "scratch": estimate("scratch"),
            "bogey": estimate("bogey"),
            "stroke index": text("stroke_index"),
            "by procedure": text("by_procedure"),
        }
        return RoundTable(repr(self), columns, *cells(columns, shown), "± is one standard error.")

    def __repr__(self) -> str:
        """The ratings in a line."""
        return (
            f"{self._of.name}: Course Rating {measured(self.course, self.course_error)}, "
            f"bogey rating {measured(self.bogey, self.bogey_error)}, "
            f"Slope Rating {measured(self.slope, self.slope_error)} "
            f"({self.plays:,} simulated rounds of each golfer, {self.reference})"
        )
