"""What ranked results share: the columns and cells every table begins with, how it is shown, and how it travels."""

from __future__ import annotations

import math
from abc import abstractmethod
from typing import Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._given import shown
from wideberth._table import Cell, Columns, Table, Whole, cells, digits, measured, worth


def said(mean: float, error: float) -> str:
    """A mean with its standard error in words; the mean alone where one play tells no error."""
    places = digits(error)
    told = "" if math.isnan(error) else f" (standard error {error:.{places}f})"
    return f"mean {mean:.{places}f}{told}"


def listed(names: list[str]) -> str:
    """Names in a sentence."""
    *others, last = [f"“{name}”" for name in names]
    return f"{', '.join(others)} and {last}" if others else last


def strokes(difference: core.Difference) -> str:
    """By how many strokes one is behind another, in a sentence; what is not nothing is not told as 0.00."""
    told = worth(difference.mean, difference.standard_error)
    if float(told) == 0 and difference.mean > 0:
        return f"less than {10.0 ** -len(told.partition('.')[2]):g} strokes"
    return f"{told} strokes"


def alike(difference: core.Difference) -> bool:
    """Whether two scored the same in every play, or came to the same in every set of plays."""
    return difference.mean == 0 and difference.standard_error == 0


class Ranked(Table, Whole):
    """What was played on the same hole with the same luck, fewest strokes first."""

    #: What each of those ranked is called; the heading of the first column, too.
    _kind: str
    #: What the means are called in the heading of their column.
    _counted = "mean"
    #: What was counted, by name.
    _ranking: core._Ranked

    def __init__(self, ranking: core._Ranked, hole: core.Hole) -> None:
        """Keep what was counted and the hole it is about."""
        self._ranking = ranking
        #: The hole played.
        self.hole = hole

    def _parts(self) -> tuple[Any, ...]:
        """The counts and what they are about, in the order in which they are put together again."""
        return self._ranking, self.hole

    @property
    def names(self) -> list[str]:
        """Names of those compared, best first."""
        return self._ranking.names

    @property
    def plays(self) -> int:
        """Plays of each."""
        return self._ranking.plays

    @property
    def settled(self) -> bool:
        """True when the best one's lead over every rival is more than chance explains.

        All 95 % intervals are taken to hold together (Bonferroni). In a run to a precision, a rival that is
        level with the best to within the precision counts as settled, too; so does one that scored the same in every
        play, or on even luck came to the same in every set of plays. True where there is one alone.
        """
        return self._ranking.settled

    def difference(self, first: str, second: str) -> core.Difference:
        """Difference in strokes, first minus second: negative means that the first is better.

        It is paired, play by play, but on even luck.

        Raises:
            KeyError: one that was not compared; the message lists those that were.

        """
        return self._ranking.difference(first, second)

    def _place(self, name: str) -> int:
        """Where in the order the one called ``name`` is, from 0."""
        names = self.names
        if not isinstance(name, str) or name not in names:
            raise KeyError(f"no {self._kind} {shown(name)}; there are {', '.join(names)}")
        return names.index(name)

    def _behind(self) -> list[core.Difference]:
        """How far each is behind the best."""
        names = self.names
        return [self._ranking.difference(name, names[0]) for name in names]

    def _first_columns(self) -> Columns:
        """The names, the means and the differences to the best, with their errors."""
        means = [self._ranking.mean(name) for name in self.names]
        behind = self._behind()
        return {
            self._kind: np.array(self.names),
            "mean": np.array([mean for mean, _ in means]),
            "standard_error": np.array([error for _, error in means]),
            "behind": np.array([d.mean for d in behind]),
            "behind_error": np.array([d.standard_error for d in behind]),
        }

    @abstractmethod
    def _shown(self) -> dict[str, Cell]:
        """What is shown of each besides its mean and how far it is behind."""

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        header, rows = cells(self.columns(), self._shown())
        rows = [[*first, *row] for first, row in zip(self._first_cells(), rows, strict=True)]
        return [self._kind, self._counted, "behind", *header], rows

    def _first_cells(self) -> list[list[str]]:
        """The first cells of every row: the rank and the name, the mean, and how far it is behind."""
        rows, same = [], self._alike()
        for rank, (name, behind) in enumerate(zip(self.names, self._behind(), strict=True), start=1):
            mean, error = self._ranking.mean(name)
            rows.append(
                [
                    f"{rank} {name}",
                    measured(mean, error),
                    "" if rank == 1 else "alike" if name in same else measured(behind.mean, behind.standard_error),
                ]
            )
        return rows

    @property
    def _same(self) -> str:
        """What those that played alike have in common."""
        return "the same score in every play"

    @property
    def _played(self) -> str:
        """How often each was played."""
        plays = self._ranking.plays
        return "1 play each" if plays == 1 else f"{plays:,} plays each"

    @property
    def _from(self) -> str:
        """Where play began, if not on the tee."""
        start = self._ranking.start
        if start is None:
            return ""
        (x, y), lie = start
        away = math.hypot(self.hole.pin[0] - x, self.hole.pin[1] - y)
        return f" from {away:.0f} yd, lie {lie.replace('_', ' ')}"

    @property
    def _error_note(self) -> str:
        """What the errors shown are."""
        if self._ranking.plays == 1:
            return "One play of each tells no error."
        return f"± is one standard error{'; behind is paired' if len(self.names) > 1 else ''}."

    def _alike(self) -> list[str]:
        """Names of those that scored what the best did in every play; none after a single play, which tells nothing."""
        if self._ranking.plays == 1:
            return []
        best, *rivals = self.names
        return [name for name in rivals if alike(self._ranking.difference(name, best))]

    def _level(self) -> list[str]:
        """Names of those that a run to a precision did not tell apart from the best, those that are alike left out."""
        if not self._ranking.settled:
            return []
        best, *rivals = self.names
        same = self._alike()
        return [name for name in rivals if name not in same and self._ranking.difference(name, best).interval[0] <= 0]

    @property
    def _settled_note(self) -> str:
        return self._settled_words(self._kind)

    def _settled_words(self, kind: str) -> str:
        """Whether it is settled which is best, in words that call those ranked ``kind``."""
        if len(self.names) == 1:
            return f"There is no other {kind} to compare it with."
        if self._ranking.plays == 1:
            return f"Which {kind} is best is not settled by one play."
        same, level = self._alike(), self._level()
        if level:
            return f"{listed([self.names[0], *same, *level])} are level to within the precision asked for."
        if same:
            told = f"{listed([self.names[0], *same])} played alike: {self._same}."
            if len(same) + 1 == len(self.names):
                return told
            if self._ranking.settled:
                return f"{told}\nThat they are the best is settled."
            return f"{told}\nWhether they are the best is not settled: the lead is within what chance explains."
        if self._ranking.settled:
            return f"The best {kind} is settled."
        return f"Which {kind} is best is not settled: the lead is within what chance explains."

    @property
    def _unfinished_note(self) -> str:
        """A line of its own; nothing where every play was finished."""
        if self._ranking.cannot_be_finished:
            return f"\n{self._no_finish}"
        unfinished = self._ranking.broken_off
        return f"\n{unfinished:,} plays were broken off at the stroke cap." if unfinished else ""

    @property
    def _no_finish(self) -> str:
        """That there is no answer, where even the best seldom holes out."""
        best = self.names[0]
        share, _ = self._ranking.unfinished_share(best)
        return (
            f"The hole cannot be finished as it is: {100 * share:.0f} % of the plays of “{best}” were broken off at "
            "the stroke cap, and the means tell no more than how high it is. Look at slopes and boundaries of the map."
        )
