"""A course: holes in the order in which they are played."""

from __future__ import annotations

import html
import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, Self, overload

from wideberth import _wideberth as core
from wideberth._rating import Rating


class Course(core.Course):
    """A course: one to eighteen holes in the order in which they are played.

    Immutable; equal to a course with the same name, attribution and holes; can be pickled. ``len(course)`` is the
    number of holes, ``course[0]`` the first of them, and iteration goes over them in order.

    Args:
        holes: the holes in the order of play. One without a number on its card is called by its place.
        name: name of the course.
        attribution: whose map the holes come from, where that must be told on everything made of it; None for nobody's.

    Raises:
        InputError: every fault at once: an empty name, no holes or more than 18, two holes of one number or of one
            stroke index, stroke indexes on some holes alone.

    Example:
        >>> import wideberth as wb
        >>> holes = [wb.Hole.sketch(par=4, length=360), wb.Hole.sketch(par=3, length=150)]
        >>> course = wb.Course(holes, name="Two holes")
        >>> len(course), course.par, round(course.length), course.numbers
        (2, 7, 510, [1, 2])
        >>> course.hole(2).par, course[0].par, wb.Course.from_json(course.to_json()) == course
        (3, 4, True)

    """

    __slots__ = ()

    def __init__(self, holes: Sequence[core.Hole], *, name: str = "Course", attribution: str | None = None) -> None:
        """Make a course of its holes."""
        # The core has made it of the same arguments: they stand here for whoever reads the signature.

    @classmethod
    def read(
        cls,
        source: Any,
        *,
        name: str | None = None,
        course: str | None = None,
        holes: Iterable[int | str] | None = None,
        par: Mapping[Any, int] | Sequence[int] | None = None,
        stroke_index: Mapping[Any, int] | Sequence[int] | None = None,
        tee: str | None = None,
        assume: str | Sequence[str] = (),
        out_of_bounds: str | Sequence[str] = (),
        obstructions: str | Sequence[str] = (),
        attribution: str | None = None,
    ) -> Self:
        """Read every hole of a course from a map, or a course from a wideberth document.

        What a map is, and what belongs to a hole, is told at :meth:`Hole.read`. Each hole has its own ``notes``: what
        was assumed and what was left out near it.

        Args:
            source: the map or the document: a path, a text, bytes, a dict, or anything with ``__geo_interface__``.
            name: name of the course; None for what the map says, or "Course".
            course: of a map with several courses, the name of the one to read (``leisure=golf_course`` around its
                holes, or ``golf:course:name`` on them).
            holes: the numbers of the holes to read in the order of play; None for all, by number. Holes without a
                number come last, in the order of the map.
            par: pars in place of what the map says: a dict from number to par, or a list with one for each hole in
                order.
            stroke_index: the same of the stroke indexes.
            tee: the tee to play from, by its colour or name, on every hole; None for the start of the line of play.
            assume: as in :meth:`Hole.read`, as are ``out_of_bounds`` and ``obstructions``.
            attribution: the credit that the data asks for; None for what the map says.

        Raises:
            InputError: a file that cannot be read (the message names it), holes of several courses where none is named,
                or                 every fault of every hole, with the hole it belongs to.
            ImportError: a format that needs an extra, and the extra is not installed.

        """
        asked = locals()
        if holes is not None:
            asked["holes"] = list(itertools.islice(holes, 100))
        found = core.course_read(asked)
        return cls(found.holes, name=found.name, attribution=found.attribution)

    def rating(
        self,
        *,
        reference: str = "men",
        plays: int = 10_000,
        seed: int = 0,
        threads: int | None = None,
        progress: Any = None,
    ) -> Rating:
        """Rate the course by two simulated reference golfers who play it.

        The scratch and the bogey golfer of the Course Rating System play the course unadvised; a golfer's rating is the
        mean of the better half of the rounds. Where the card has no stroke indexes they follow from what the holes are
        to both.

        Args:
            reference: whose reference golfers, ``"men"`` or ``"women"``.
            plays: rounds of each, 2 to 100,000,000.
            seed: a whole number, 0 to 2**64 - 1, that fixes the luck.
            threads: number of threads; None for every core.
            progress: a callable of (done, goal) in rounds, or a tqdm bar.

        Returns:
            Course Rating, bogey rating, Slope Rating and stroke indexes.

        Raises:
            InputError: before anything is played, naming the field, the value and what is allowed.

        Example:
            >>> import wideberth as wb
            >>> holes = [wb.Hole.sketch(par=4, length=380), wb.Hole.sketch(par=3, length=170)]
            >>> rating = wb.Course(holes * 9, name="Eighteen").rating(plays=200, seed=1)
            >>> 60 < rating.course < 75 < rating.bogey and sorted(rating.stroke_indexes) == list(range(1, 19))
            True

        """
        asked = locals() | {"course": self}
        return Rating(core.rating(asked), self)

    def hole(self, number: int) -> core.Hole:
        """The hole with a number.

        Args:
            number: one of :attr:`numbers`.

        Raises:
            KeyError: there is no such number.

        """
        return self.holes[self._place(number)]

    def _place(self, number: int) -> int:
        """The place of the hole with a number, counted from 0."""
        numbers = self.numbers
        if number not in numbers:
            raise KeyError(f"no hole {number!r}; there are {', '.join(map(str, numbers))}")
        return numbers.index(number)

    def __len__(self) -> int:
        """Return the number of holes."""
        return len(self.numbers)

    def __iter__(self) -> Iterator[core.Hole]:
        """Go over the holes in the order of play."""
        return iter(self.holes)

    @overload
    def __getitem__(self, place: int) -> core.Hole: ...

    @overload
    def __getitem__(self, place: slice) -> list[core.Hole]: ...

    def __getitem__(self, place: int | slice) -> core.Hole | list[core.Hole]:
        """Return the hole at a place counted from 0, or the holes of a slice."""
        return self.holes[place]

    def _repr_html_(self) -> str:
        return f"<pre>{html.escape(repr(self))}</pre>"
