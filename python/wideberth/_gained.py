"""The value of strokes that were played: strokes gained, and where blow-ups lose theirs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._given import shown, without_gaps
from wideberth._plan_result import PlanResult
from wideberth._plays import Column, Plays
from wideberth._progress import reporter
from wideberth._ranked import percent
from wideberth._table import Frames, Table, html_table, text_table

#: Columns that valuing adds.
ADDED = ("before", "after", "used", "gained", "choice", "execution", "luck")


def of_plays(solution: core.Solution, plays: Plays, split: bool = False) -> StrokesGained:
    """Value the strokes of simulated plays, split into choice and execution if wanted."""
    columns: dict[str, Any] = plays.columns()
    lies, codes = np.unique(columns["lie"], return_inverse=True)
    gained: dict[str, Any] = core.strokes_gained(
        solution,
        play=columns["play"],
        x=columns["x"],
        y=columns["y"],
        lie=codes.astype(np.int64),
        lies=[str(lie) for lie in lies],
        penalty=columns["penalty"],
        holed=columns["holed"],
        scores=[int(score) for score in plays.scores],
    )
    if split:
        clubs, club_codes = np.unique(columns["club"], return_inverse=True)
        parts = core.split_gained(
            solution,
            **{name: columns[name] for name in ("x", "y", "target_x", "target_y", "carry")},
            lie=codes.astype(np.int64),
            lies=[str(lie) for lie in lies],
            club=club_codes.astype(np.int64),
            clubs=[str(club) for club in clubs],
            gained=gained["gained"],
        )
        gained = {**gained, **parts}
    return StrokesGained({**columns, **gained})


def of_table(solution: core.Solution, table: Any) -> StrokesGained:
    """Value strokes that somebody wrote down."""
    if not (isinstance(table, Mapping) or hasattr(table, "columns")):
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
    gained = core.strokes_gained(
        solution,
        play=play,
        x=x,
        y=y,
        lie=np.array([-1 if name is None else known.index(name) for name in names], np.int64),
        lies=known,
        penalty=penalty,
        holed=holed,
        scores=None,
    )
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


class StrokesGained(Frames):
    """Strokes with what each gained on what was to be expected."""

    def __init__(self, columns: dict[str, Column]) -> None:
        """Made by :meth:`Solution.strokes_gained`."""
        self._columns = columns

    def columns(self) -> dict[str, Column]:
        """One row a stroke, as named NumPy columns of equal length.

        Those of the strokes themselves, and ``before`` and ``after``: strokes to hole out that were to be expected
        before the stroke, and from where the next one is played (0 after the last); ``used``: strokes it took,
        penalties included, int64; ``gained``: ``before - after - used``, below 0 where strokes were lost.
        """
        return dict(self._columns)

    @property
    def gained(self) -> Column:
        """What each stroke gained."""
        return self._columns["gained"]

    @property
    def plays(self) -> dict[int, float]:
        """What each play gained in all: what was to be expected from its first stroke, less its score."""
        play = self._columns["play"]
        first = np.flatnonzero(np.append(True, play[1:] != play[:-1])) if len(play) else np.zeros(0, np.int64)
        sums = np.add.reduceat(self.gained, first) if len(play) else np.zeros(0)
        return {int(play[row]): float(total) for row, total in zip(first, sums, strict=True)}

    def by(self, column: str) -> GainedTable:
        """Add up what strokes gained by the entries of a column, such as ``"club"``, ``"lie"`` or ``"stroke"``.

        Raises:
            KeyError: there is no such column; the message lists those there are.

        """
        if column not in self._columns:
            raise KeyError(f"no column {column!r}; there are {', '.join(self._columns)}")
        kinds, codes = np.unique(self._columns[column], return_inverse=True)
        plays, total, rows = core.by_kind(
            play=self._columns["play"],
            kind=codes.astype(np.int64),
            kinds=len(kinds),
            amount=self.gained,
        )
        kept = [(kind.item(), *row) for kind, row in zip(kinds, rows, strict=True)]
        kept.sort(key=lambda row: row[2][0])
        return GainedTable(column, plays, total, kept)

    def __len__(self) -> int:
        """Number of strokes."""
        return len(self.gained)

    def __eq__(self, other: object) -> bool:
        """Equal when every column is."""
        if not isinstance(other, StrokesGained):
            return NotImplemented
        mine, theirs = self._columns, other._columns
        return mine.keys() == theirs.keys() and all(np.array_equal(mine[name], theirs[name]) for name in mine)

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        """Few strokes as a table, many in a line."""
        if len(self) > 30:
            plays = len(np.unique(self._columns["play"]))
            return f"{len(self):,} strokes of {plays:,} plays, {self.gained.sum() / plays:+.3f} strokes gained a play"
        header, rows = self._rows()
        return text_table(header, rows)

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        c = self._columns
        several = len(set(c["play"].tolist())) > 1
        where = [f"{x:.0f}, {y:.0f}" for x, y in zip(c["x"], c["y"], strict=True)]
        lies = [_lie(lie) or "" for lie in c["lie"]] if "lie" in c else [""] * len(self)
        header = [*(["play"] if several else []), "stroke", "from", "lie", "before", "after", "used", "gained"]
        rows = [
            [
                *([str(c["play"][i])] if several else []),
                str(c["stroke"][i]),
                where[i],
                lies[i],
                f"{c['before'][i]:.2f}",
                f"{c['after'][i]:.2f}",
                str(c["used"][i]),
                f"{c['gained'][i]:+.2f}",
            ]
            for i in range(len(self))
        ]
        return header, rows

    def _repr_html_(self) -> str:
        if len(self) > 30:
            return f"<p>{self!r}</p>"
        header, rows = self._rows()
        return html_table(header, rows, "Strokes gained on the player's own expectation")


class _ByKind(Table):
    """Amounts by kind of stroke, with standard errors."""

    _amount: str

    def __init__(
        self,
        by: str,
        plays: int,
        total: tuple[float, float],
        rows: Sequence[tuple[Any, float, tuple[float, float], tuple[float, float]]],
    ) -> None:
        """Keep what was added up."""
        #: What the strokes are told apart by.
        self.by = by
        self._plays = plays
        self._total = total
        self._by_kind = list(rows)

    @property
    def kinds(self) -> list[Any]:
        """The kinds of stroke, in the order of the table."""
        return [row[0] for row in self._by_kind]

    def columns(self) -> dict[str, Column]:
        """The table as named NumPy columns."""
        return {
            self.by: np.array(self.kinds),
            "strokes": np.array([row[1] for row in self._by_kind]),
            self._amount: np.array([row[2][0] for row in self._by_kind]),
            f"{self._amount}_error": np.array([row[2][1] for row in self._by_kind]),
            "share": np.array([row[3][0] for row in self._by_kind]),
            "share_error": np.array([row[3][1] for row in self._by_kind]),
        }

    def __eq__(self, other: object) -> bool:
        """Equal when every number is."""
        if not isinstance(other, type(self)):
            return NotImplemented
        return repr(self.__dict__) == repr(other.__dict__)

    __hash__ = None  # type: ignore[assignment]


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
        return {row[0]: row[2][0] for row in self._by_kind}

    @property
    def gained_errors(self) -> dict[Any, float]:
        """Their standard errors; NaN after a single play."""
        return {row[0]: row[2][1] for row in self._by_kind}

    def columns(self) -> dict[str, Column]:
        """The table as named NumPy columns.

        The kind, ``strokes`` (strokes of that kind a play), ``gained`` (strokes gained a play by all of them) and
        ``gained_error`` (its standard error).
        """
        columns = super().columns()
        return {name: column for name, column in columns.items() if not name.startswith("share")}

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        rows = [[str(kind), f"{times:.2f}", _plus_minus(*gained)] for kind, times, gained, _ in self._by_kind]
        return [self.by, "strokes", "gained"], rows

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
        rows: Sequence[tuple[Any, float, tuple[float, float], tuple[float, float]]],
    ) -> None:
        """Made by :meth:`Solution.blow_up_losses`."""
        super().__init__(by, blow_ups, total, rows)
        #: Name of the plan.
        self.name = name
        #: Plays looked through.
        self.plays = looked_through

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
        return {row[0]: row[2][0] for row in self._by_kind}

    @property
    def lost_errors(self) -> dict[str, float]:
        """Standard errors of those."""
        return {row[0]: row[2][1] for row in self._by_kind}

    @property
    def shares(self) -> dict[str, float]:
        """Share of all that blow-ups lose; below 0 for strokes that make good."""
        return {row[0]: row[3][0] for row in self._by_kind}

    @property
    def share_errors(self) -> dict[str, float]:
        """Standard errors of the shares."""
        return {row[0]: row[3][1] for row in self._by_kind}

    def columns(self) -> dict[str, Column]:
        """The table as named NumPy columns.

        The kind, ``strokes`` (strokes of that kind in a blow-up), ``lost`` (strokes that they lose in a blow-up) and
        ``share`` (of all that is lost there), each with its ``_error``.
        """
        return super().columns()

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        rows = [
            [str(kind), f"{times:.2f}", _plus_minus(*lost), percent(*share)]
            for kind, times, lost, share in self._by_kind
        ]
        return [self.by, "strokes", "lost", "share"], rows

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
    looked_through, blow_ups, total, rows = core.blow_up_losses(
        solution,
        comparison.hole,
        comparison.player,
        result._ranking,
        result.plan,
        by=by,
        plays=comparison.plays if plays is None else plays,
        threads=threads,
        progress=reporter(progress),
    )
    return BlowUpLosses(result.name, by, looked_through, blow_ups, total, [(kind, *row) for kind, row in rows])
