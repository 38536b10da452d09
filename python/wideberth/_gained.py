"""The value of strokes that were played: strokes gained, and where blow-ups lose theirs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._given import is_frame, of_kind, shown, without_gaps
from wideberth._plan_result import PlanResult
from wideberth._plays import Plays
from wideberth._table import Cell, Column, Columns, Kept, cells, number, share, text, text_table

#: Columns that valuing adds.
ADDED = ("before", "after", "used", "gained", "choice", "execution", "luck")


def of_plays(solution: core.Solution, plays: Plays, split: bool = False) -> StrokesGained:
    """Value the strokes of simulated plays, split into choice and execution if wanted."""
    columns = plays.columns()
    table = {**columns, **_coded(columns, "lie"), "scores": [int(score) for score in plays.scores]}
    gained = core.strokes_gained(solution, table)
    if split:
        parts = core.split_gained(solution, {**table, **gained, **_coded(columns, "club")})
        gained = {**gained, **parts}
    return StrokesGained({**columns, **gained})


def _coded(columns: Columns, name: str) -> dict[str, Any]:
    """A column of names as the core takes it: codes in its place, and the names they stand for in the plural."""
    names, codes = np.unique(columns[name], return_inverse=True)
    return {name: codes.astype(np.int64), f"{name}s": [str(name) for name in names]}


def of_table(solution: core.Solution, table: Any) -> StrokesGained:
    """Value strokes that somebody wrote down."""
    if not (isinstance(table, Mapping) or is_frame(table)):
        raise TypeError(
            f"strokes is {shown(table)}; it must be what simulate() returned, a dict of columns or a data frame"
        )
    x, y = _numbers(table, "x"), _numbers(table, "y")
    rows = len(x)
    play = _whole(table, "play") if "play" in table else np.zeros(rows, np.int64)
    penalty = _whole(table, "penalty") if "penalty" in table else np.zeros(rows, np.int64)
    holed = _holed(table) if "holed" in table else np.append(play[1:] != play[:-1], True)[:rows]
    names = [_lie(name) for name in table["lie"]] if "lie" in table else [None] * rows
    known = sorted({name for name in names if name is not None})
    columns = {"play": play, "x": x, "y": y, "penalty": penalty, "holed": holed}
    for name, column in {**columns, "lie": names}.items():
        if len(column) != rows:
            raise core.InputError(f"{name} has {len(column)} rows; it must have {rows}, as x has")
    codes = np.array([-1 if name is None else known.index(name) for name in names], np.int64)
    gained = core.strokes_gained(solution, {**columns, "lie": codes, "lies": known})
    kept = {str(name): np.asarray(table[name]) for name in _names(table) if name not in ADDED}
    # Counted again within each play, as simulated strokes are.
    first = np.flatnonzero(np.append(True, play[1:] != play[:-1]))[np.cumsum(np.append(False, play[1:] != play[:-1]))]
    stroke = np.arange(1, rows + 1) - first[:rows] if rows else np.zeros(0, np.int64)
    return StrokesGained({**kept, **columns, "stroke": stroke, **gained})


def _names(table: Any) -> Sequence[Any]:
    """The names of the columns of a dict or a data frame."""
    return list(table.columns) if hasattr(table, "columns") else list(table)


def _column(table: Any, name: str) -> Column:
    if name not in table:
        raise core.InputError(
            f"the table has no column {name!r}; it must have x and y, and may have lie, penalty, play and holed"
        )
    return np.asarray(without_gaps(name, table[name]))


def _numbers(table: Any, name: str) -> Column:
    column = _column(table, name)
    if column.dtype.kind not in "iuf" or column.ndim != 1:
        raise core.InputError(f"{name} is an array of {column.dtype}; it must be one of numbers")
    return np.ascontiguousarray(column, np.float64)


def _whole(table: Any, name: str) -> Column:
    column = _numbers(table, name)
    wrong = np.flatnonzero(~(np.abs(column) < 2.0**53) | (column != np.round(column)))
    if len(wrong):
        raise core.InputError(f"row {wrong[0] + 1}: {name} is {column[wrong[0]]:g}; it must be a whole number")
    return column.astype(np.int64)


def _holed(table: Any) -> Column:
    column = _column(table, "holed")
    if column.dtype != np.bool_ or column.ndim != 1:
        raise core.InputError(f"holed is an array of {column.dtype}; it must be one of bool")
    return np.ascontiguousarray(column)


def _lie(name: Any) -> str | None:
    """A lie's name; None, NaN and nothing at all stand for what the place gives."""
    if name is None or name == "" or name != name:
        return None
    return str(name)


class StrokesGained(Kept):
    """Strokes with what each gained on what was to be expected; equal when every column is."""

    _title = "Strokes gained on the player's own expectation"

    def __init__(self, columns: Columns) -> None:
        """Made by :meth:`Solution.strokes_gained`."""
        self._columns = columns

    def _parts(self) -> tuple[Any, ...]:
        return (self._columns,)

    def columns(self) -> Columns:
        """One row a stroke, as named NumPy columns of equal length.

        Those of the strokes themselves, and ``before`` and ``after``: strokes to hole out that were to be expected
        before the stroke, and from where the next one is played (0 after the last); ``used``: strokes it took,
        penalties included, int64; ``gained``: ``before - after - used``, below 0 where strokes were lost.
        """
        return super().columns()

    @property
    def gained(self) -> Column:
        """What each stroke gained."""
        return self._columns["gained"]

    @property
    def plays(self) -> dict[int, float]:
        """What each play gained in all: what was to be expected from its first stroke, less its score."""
        return dict(core.by_play(play=self._columns["play"], gained=self.gained))

    def by(self, column: str) -> GainedTable:
        """Add up what strokes gained by the entries of a column, such as ``"club"``, ``"lie"`` or ``"stroke"``.

        Raises:
            KeyError: there is no such column; the message lists those there are.
            TypeError: something else than text.

        """
        of_kind("column", column, str, "text")
        if column not in self._columns:
            raise KeyError(f"no column {column!r}; there are {', '.join(self._columns)}")
        kinds, codes = np.unique(self._columns[column], return_inverse=True)
        plays, total, sums = self._by_kind(codes.astype(np.int64), len(kinds))
        order = np.argsort(sums["gained"], kind="stable")
        amounts = {name: sums[name][order] for name in ("strokes", "gained", "gained_error")}
        return GainedTable(column, plays, total, kinds[order].tolist(), amounts)

    def _by_kind(self, kind: Column, kinds: int) -> tuple[int, tuple[float, float], Columns]:
        """The plays, what they gained each with its error, and what the strokes of each kind did."""
        return core.by_kind(play=self._columns["play"], kind=kind, kinds=kinds, gained=self.gained)

    def __repr__(self) -> str:
        """Few strokes as a table, many in a line."""
        if len(self) > 30:
            plays, (gained, _), _ = self._by_kind(np.zeros(len(self), np.int64), 1)
            return f"{len(self):,} strokes of {plays:,} plays, {gained:+.3f} strokes gained a play"
        header, rows = self._rows()
        return text_table(header, rows)

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        c = self._columns
        shown: dict[str, Cell] = {
            "play": text("play"),
            "stroke": text("stroke"),
            "from": lambda c, row: f"{c['x'][row]:.0f}, {c['y'][row]:.0f}",
            "lie": lambda c, row: _lie(c["lie"][row]) or "" if "lie" in c else "",
            "before": number("before", ".2f"),
            "after": number("after", ".2f"),
            "used": text("used"),
            "gained": number("gained", "+.2f"),
        }
        if len(set(c["play"].tolist())) <= 1:
            del shown["play"]
        return cells(c, shown)

    def _repr_html_(self) -> str:
        return f"<p>{self!r}</p>" if len(self) > 30 else super()._repr_html_()


class _ByKind(Kept):
    """Amounts by kind of stroke, with standard errors."""

    _amount: str

    def __init__(self, by: str, plays: int, total: tuple[float, float], kinds: Sequence[Any], amounts: Columns) -> None:
        """Keep what was added up: strokes of each kind, what they come to, and shares."""
        #: What the strokes are told apart by.
        self.by = by
        self._kinds = list(kinds)
        self._plays = plays
        self._total = total
        self._amounts = amounts
        self._columns = {by: np.array(self._kinds), **amounts}

    def _parts(self) -> tuple[Any, ...]:
        return self.by, self._plays, self._total, self._kinds, self._amounts

    @property
    def kinds(self) -> list[Any]:
        """The kinds of stroke, in the order of the table."""
        return list(self._kinds)

    def _told(self, column: str) -> dict[Any, float]:
        """A column by kind."""
        return dict(zip(self._kinds, self._amounts[column].tolist(), strict=True))

    def _shown(self) -> dict[str, Cell]:
        """What is shown of each kind."""
        return {
            self.by: lambda _, row: str(self._kinds[row]),
            "strokes": number("strokes", ".2f"),
            self._amount: self._amount_told,
        }

    def _amount_told(self, columns: Columns, row: int) -> str:
        return _plus_minus(columns[self._amount][row], columns[f"{self._amount}_error"][row])

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        return cells(self._columns, self._shown())


class GainedTable(_ByKind):
    """What strokes gained, added up by kind: the most strokes lost first."""

    _amount = "gained"

    @property
    def plays(self) -> int:
        """Plays."""
        return self._plays

    @property
    def gained(self) -> dict[Any, float]:
        """Strokes gained a play by each kind; below 0 where they were lost."""
        return self._told("gained")

    @property
    def gained_errors(self) -> dict[Any, float]:
        """Their standard errors; NaN after a single play."""
        return self._told("gained_error")

    def columns(self) -> Columns:
        """The table as named NumPy columns.

        The kind, ``strokes`` (strokes of that kind a play), ``gained`` (strokes gained a play by all of them) and
        ``gained_error`` (its standard error).
        """
        return super().columns()

    @property
    def _title(self) -> str:
        plays = "1 play" if self.plays == 1 else f"{self.plays:,} plays"
        return f"{plays}: {_plus_minus(*self._total)} strokes gained a play"


class BlowUpLosses(_ByKind):
    """Where the strokes of a plan's blow-ups are lost: the greatest loss first."""

    _amount = "lost"

    def __init__(
        self,
        name: str,
        by: str,
        looked_through: int,
        blow_ups: int,
        total: tuple[float, float],
        kinds: Sequence[Any],
        amounts: Columns,
    ) -> None:
        """Made by :meth:`Solution.blow_up_losses`."""
        super().__init__(by, blow_ups, total, kinds, amounts)
        #: Name of the plan.
        self.name = name
        #: Plays looked through.
        self.plays = looked_through

    def _parts(self) -> tuple[Any, ...]:
        return self.name, self.by, self.plays, self._plays, self._total, self._kinds, self._amounts

    @property
    def blow_ups(self) -> int:
        """Blow-ups among the plays."""
        return self._plays

    @property
    def total(self) -> float:
        """Strokes lost in a blow-up on average: its score less what was to be expected where play began."""
        return self._total[0]

    @property
    def total_error(self) -> float:
        """Standard error of that."""
        return self._total[1]

    @property
    def lost(self) -> dict[str, float]:
        """Strokes that each kind of stroke loses in a blow-up on average; they add up to the total."""
        return self._told("lost")

    @property
    def lost_errors(self) -> dict[str, float]:
        """Standard errors of those."""
        return self._told("lost_error")

    @property
    def shares(self) -> dict[str, float]:
        """Share of all that blow-ups lose; below 0 for strokes that make good."""
        return self._told("share")

    @property
    def share_errors(self) -> dict[str, float]:
        """Standard errors of the shares."""
        return self._told("share_error")

    def columns(self) -> Columns:
        """The table as named NumPy columns.

        The kind, ``strokes`` (strokes of that kind in a blow-up), ``lost`` (strokes that they lose in a blow-up) and
        ``share`` (of all that is lost there), each with its ``_error``.
        """
        return super().columns()

    def _shown(self) -> dict[str, Cell]:
        return super()._shown() | {"share": share("share")}

    @property
    def _title(self) -> str:
        head = f"{self.name}: {self.blow_ups:,} blow-ups in {self.plays:,} plays"
        return f"{head}, {self.total:.2f} ± {self.total_error:.2f} strokes lost in each" if self.blow_ups else head

    def __repr__(self) -> str:
        """The table, to be read in a terminal."""
        return super().__repr__() if self.blow_ups else self._title


def _plus_minus(value: float, error: float) -> str:
    return f"{value:+.3f}" if error != error else f"{value:+.3f} ± {error:.3f}"


def blow_up_losses(
    solution: core.Solution, result: PlanResult, by: str, plays: int | None, threads: int | None, progress: Any
) -> BlowUpLosses:
    """Look through the blow-ups of a plan that was compared."""
    if not isinstance(result, PlanResult):
        raise TypeError(f"result is {type(result).__name__}; it must be a PlanResult, such as comparison.best")
    comparison = result._comparison
    asked = {
        "hole": comparison.hole,
        "player": comparison.player,
        "plan": result.plan,
        "by": by,
        "plays": comparison.plays if plays is None else plays,
        "threads": threads,
        "progress": progress,
    }
    looked_through, blow_ups, total, amounts = core.blow_up_losses(asked, solution, result._ranking)
    kinds = amounts.pop(by).tolist()
    return BlowUpLosses(result.name, by, looked_through, blow_ups, total, kinds, amounts)
