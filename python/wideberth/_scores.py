"""What comparisons share, of plans and of players: results by name, the table, differences."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Generic, TypeVar

import numpy as np

from wideberth import _wideberth as core
from wideberth._given import named
from wideberth._ranked import Ranked
from wideberth._result import Counted, Result
from wideberth._table import Cell, Columns, share, worth

R = TypeVar("R", bound=Counted)
S = TypeVar("S", bound=Result)

#: Columns of every table of scores but the first; a checkpoint of such a name would hide one.
COLUMNS = (
    "mean",
    "standard_error",
    "behind",
    "behind_error",
    "double_bogey",
    "double_bogey_error",
    "blow_up",
    "blow_up_error",
    "penalties",
    "penalties_error",
    "putts",
    "putts_error",
    "chance_best",
    "chance_best_error",
    "variance_factor",
)


def checked(checkpoints: Mapping[str, core.Checkpoint] | None, first: str) -> Sequence[tuple[str, core.Checkpoint]]:
    """Checkpoints by name, none of which hides a column of a table whose first is called so."""
    columns = (first, *COLUMNS)
    given = {} if checkpoints is None else checkpoints
    named_checkpoints = named("checkpoints", given, core.Checkpoint, "what first_putt() makes")
    for name in named_checkpoints:
        if name in columns:
            raise core.InputError(
                f"checkpoint {name!r} has the name of a column of the table; it must not be one of {', '.join(columns)}"
            )
    return list(named_checkpoints.items())


class Results(Ranked, Generic[R]):
    """What each of those compared came to, best first."""

    _ranking: core.Ranking | core.AroundRanking
    #: What each came to, best first.
    _results: list[R]

    @property
    def best(self) -> R:
        """The best one: that with the lowest mean."""
        return self._results[0]

    def __getitem__(self, name: str) -> R:
        """The result of the one called ``name``."""
        return self._results[self._place(name)]


class Scores(Results[S]):
    """Results by name, lowest mean score first."""

    _ranking: core.Ranking

    @property
    def par(self) -> int:
        """Par of the hole."""
        return self._ranking.par

    @property
    def start(self) -> tuple[tuple[float, float], str] | None:
        """Where every play began, (x, y) in yards, and the lie there; None for the tee."""
        return self._ranking.start

    def columns(self) -> Columns:
        """The table as named NumPy columns, one row each, best first.

        The name (str; ``plan`` or ``player``), ``mean`` and ``standard_error`` (strokes), ``behind`` and
        ``behind_error`` (paired difference to the best, strokes), ``double_bogey`` and ``blow_up`` (shares of plays)
        with their ``_error``, ``penalties`` and ``putts`` (strokes a play) with their ``_error``, and one column for
        each checkpoint (share).
        """
        figures = [
            name + error for name in ("double_bogey", "blow_up", "penalties", "putts") for error in ("", "_error")
        ]
        columns = self._first_columns()
        for figure in figures:
            columns[figure] = np.array([getattr(r, figure) for r in self._results])
        for name in self.best.checkpoints:
            columns[name] = np.array([r.checkpoints[name] for r in self._results])
        return columns

    @property
    def _title(self) -> str:
        hole, count = self.hole, len(self._results)
        compared = f"1 {self._kind}" if count == 1 else f"{count} {self._kind}s"
        return (
            f"{hole.name}, par {hole.par}, {hole.length:.0f} yd: {compared}{self._from}, {self._played}, "
            f"seed {self._ranking.seed}"
        )

    def _shown(self) -> dict[str, Cell]:
        return {
            "double+": share("double_bogey"),
            f"{self._ranking.blow_up_over_par} over+": share("blow_up"),
            "penalties": _worth("penalties"),
            "putts": _worth("putts"),
        }

    @property
    def _footer(self) -> str:
        return f"{self._error_note}\n{self._settled_note}{self._unfinished_note}"


def _worth(column: str) -> Cell:
    """A mean with the digits it is worth."""
    return lambda columns, row: worth(columns[column][row], columns[f"{column}_error"][row])
