"""Tables of shots and outcomes from wherever they are kept; the numbers are judged in the core."""

from __future__ import annotations

import csv
import os
import re
import warnings
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

import numpy as np

from wideberth._given import is_frame, without_gaps
from wideberth._wideberth import InputError

#: Endings of column names that tell a unit.
UNITS = {
    "yd": "yards",
    "yds": "yards",
    "yard": "yards",
    "yards": "yards",
    "m": "metres",
    "metre": "metres",
    "metres": "metres",
    "meter": "metres",
    "meters": "metres",
    "ft": "feet",
    "foot": "feet",
    "feet": "feet",
}

#: The most columns that a message lists.
_LISTED = 40

Lengths = tuple[list[float], str]
#: Names with what stands below them; a table may have a name twice.
Columns = list[tuple[str, Any]]


def read_shots(
    shots: Any, units: str | None
) -> tuple[list[str], Lengths, Lengths, Lengths | None, list[str | None], bool, list[int]]:
    """Read club, carry, lateral, total and lie, whether the unit of the carry was told, and the places of the rows."""
    table = Given("shots", shots, units)
    clubs = table.names("club")
    carry, told = table.lengths("carry")
    lateral, _ = table.lengths("lateral")
    total = table.lengths("total")[0] if table.has("total") else None
    return clubs, carry, lateral, total, table.lies(), told, table.places(len(clubs))


def read_outcomes(
    outcomes: Any, units: str | None
) -> tuple[list[str], list[str], Lengths, Lengths | None, list[str | None], list[int]]:
    """Read club, finish, width, depth and lie, and the places of the rows."""
    table = Given("outcomes", outcomes, units)
    depth = table.lengths("depth")[0] if table.has("depth") else None
    clubs = table.names("club")
    return clubs, table.names("finish"), table.lengths("width")[0], depth, table.lies(), table.places(len(clubs))


def warn_of(doubts: list[str]) -> None:
    """Warn of what looks odd, at the caller of ``Player.from_shots``."""
    for doubt in doubts:
        warnings.warn(doubt, UserWarning, stacklevel=2)


class Given:
    """A table as it was given: named columns of one length."""

    def __init__(self, what: str, source: Any, units: str | None) -> None:
        """Read the columns; ``what`` is what messages call the table."""
        self.what = what
        if units is not None and units not in ("yards", "metres", "feet"):
            raise InputError(f'units is {_shown(units)}; it must be "yards", "metres" or "feet", or None')
        self.units = units
        self.found: dict[str, list[tuple[str, str | None, Any]]] = {}
        columns, self._places = _columns(what, source)
        for name, column in columns:
            base, unit = _parts(name)
            self.found.setdefault(base, []).append((name, unit, column))
        self.listing = ", ".join(_shown(name) for name, _ in columns[:_LISTED]) or "no columns"
        if len(columns) > _LISTED:
            self.listing += f" and {len(columns) - _LISTED} more"

    def has(self, name: str) -> bool:
        """Whether there is such a column."""
        return name in self.found

    def places(self, rows: int) -> list[int]:
        """The places of the rows below the header, counted from 0: in a file its blank lines count."""
        return list(range(rows)) if self._places is None else self._places

    def row(self, row: int) -> str:
        """How a row of this table is told."""
        return _row(row if self._places is None else self._places[row])

    def column(self, name: str) -> tuple[str, str | None, list[Any]]:
        """One column: its full name, the unit in it and its cells."""
        found = self.found.get(name, [])
        if not found:
            raise InputError(f"{self.what}: there is no column {name!r}; there are {self.listing}")
        if len(found) > 1:
            names = " and ".join(_shown(full) for full, _, _ in found)
            raise InputError(f"{self.what}: {names} are both {name}; keep one")
        full, unit, column = found[0]
        without_gaps(f"{self.what}: {full}", column)
        cells = _cells(column)
        if cells is None:
            raise InputError(f"{self.what}: {full} must be one column of values, not {type(column).__name__}")
        first = next(iter(self.found.values()))[0]
        rows = _cells(first[2])
        if rows is not None and len(rows) != len(cells):
            raise InputError(f"{self.what}: {full} has {len(cells)} rows but {first[0]} has {len(rows)}")
        return full, unit, cells

    def names(self, name: str) -> list[str]:
        """Give a column of words."""
        full, _, cells = self.column(name)
        for row, cell in enumerate(cells):
            if not isinstance(cell, str) or not cell.strip():
                raise InputError(
                    f"{self.what}, {self.row(row)}: {full} is {_shown(cell)}; it must be text"
                    + (", such as '7-iron'" if name == "club" else "")
                )
        return [str(cell).strip() for cell in cells]

    def lies(self) -> list[str | None]:
        """Give the lies, None where nothing is said."""
        if not self.has("lie"):
            return [None] * len(self.column("club")[2])
        full, _, cells = self.column("lie")
        lies: list[str | None] = []
        for row, cell in enumerate(cells):
            if _missing(cell):
                lies.append(None)
            elif isinstance(cell, str):
                lies.append(cell.strip())
            else:
                raise InputError(f"{self.what}, {self.row(row)}: {full} is {_shown(cell)}; it must be text or empty")
        return lies

    def lengths(self, name: str) -> tuple[Lengths, bool]:
        """Give a column of lengths with its unit, and whether the unit was told."""
        full, unit, cells = self.column(name)
        if unit is not None and self.units is not None and unit != self.units:
            raise InputError(f"{self.what}: the name of {full!r} says {unit}, but units is {self.units!r}")
        numbers = [self.number(full, row, cell) for row, cell in enumerate(cells)]
        told = unit or self.units
        return (numbers, told or "yards"), told is not None

    def number(self, full: str, row: int, cell: Any) -> float:
        """Give one cell as a number; an empty one is not a number."""
        if _missing(cell):
            return float("nan")
        try:
            if isinstance(cell, bool | np.bool_ | complex):
                raise TypeError
            return float(cell)
        except (TypeError, ValueError, OverflowError):
            sign = "; to the right is positive, to the left negative" if full.lower().startswith("lateral") else ""
            told = f"{self.what}, {self.row(row)}: {full} is {_shown(cell)}"
            raise InputError(f"{told}; it must be a number{sign}") from None


def _row(row: int) -> str:
    """How a row below the header, counted from 0, is told: as a spreadsheet counts it."""
    return f"row {row + 2} (the header is row 1)"


def _shown(cell: Any) -> str:
    text = repr(cell.item() if isinstance(cell, np.generic) else cell)
    return text if len(text) <= 60 else text[:57] + "..."


def _missing(cell: Any) -> bool:
    """Whether a cell holds nothing: None, an empty string, NaN or the NA of a data frame."""
    if cell is None or (isinstance(cell, str) and not cell.strip()):
        return True
    try:
        return bool(cell != cell)
    except (TypeError, ValueError):
        # The NA of pandas is neither equal to itself nor not.
        return True


def _parts(name: str) -> tuple[str, str | None]:
    """Split a column name into what it names and the unit it tells: ``Carry (m)``, ``carry_yd``, ``carry [ft]``."""
    plain = name.strip().lower()
    match = re.fullmatch(r"(\w+?)[\s_]*[\s_(\[]([a-z]+)[)\]]?", plain)
    if match and match[2] in UNITS:
        return match[1], UNITS[match[2]]
    return plain, None


def _cells(column: Any) -> list[Any] | None:
    """Give the cells of a column as a list, or None if it is no column."""
    if isinstance(column, str | bytes | Mapping):
        return None
    if hasattr(column, "to_numpy") or isinstance(column, np.ndarray):
        array = np.asarray(column, dtype=object)
        return list(array) if array.ndim == 1 else None
    return list(column) if isinstance(column, Iterable) else None


def _columns(what: str, source: Any) -> tuple[Columns, list[int] | None]:
    """Give the columns of a CSV file, a data frame, a mapping, a structured array or a list of rows.

    Of a file also the place of each row below the header, counted from 0.
    """
    if isinstance(source, str | os.PathLike):
        return _csv(what, source)
    if isinstance(source, np.ndarray) and source.dtype.names:
        return [(name, source[name]) for name in source.dtype.names], None
    if isinstance(source, Mapping):
        return _named(what, [(name, source[name]) for name in source]), None
    if is_frame(source):
        return _named(what, [(name, source[name]) for name in source.columns]), None
    if isinstance(source, Sequence) and all(isinstance(row, Mapping) for row in source):
        return _named(what, list(_turned(source).items())), None
    raise InputError(
        f"{what} is {type(source).__name__}; it must be a data frame, a dict of columns, a structured array, "
        "a list of dicts or the path of a CSV file"
    )


def _named(what: str, columns: list[tuple[Any, Any]]) -> Columns:
    for name, _ in columns:
        if not isinstance(name, str):
            raise InputError(f"{what}: a column is named {_shown(name)}; names must be text")
    return columns


def _turned(rows: Sequence[Mapping[Any, Any]]) -> dict[Any, list[Any]]:
    """Turn rows into columns; what a row does not say is None."""
    names = dict.fromkeys(name for row in rows for name in row)
    return {name: [row.get(name) for row in rows] for name in names}


def _csv(what: str, path: str | os.PathLike[str]) -> tuple[Columns, list[int]]:
    """Read a CSV file with a header, separated by commas, semicolons or tabs; blank lines are passed over."""
    try:
        with open(path, newline="", encoding="utf-8-sig") as file:
            separator = max(",;\t", key=file.readline().count)
            file.seek(0)
            rows = list(_numbered(csv.reader(file, delimiter=separator, strict=True)))
    except UnicodeDecodeError as error:
        raise InputError(
            f"{what}: {os.fspath(path)!r} cannot be read: it is not UTF-8 text (byte {error.start})"
        ) from error
    except (OSError, ValueError, csv.Error) as error:  # A path that no file can have, or a quote without an end.
        why = getattr(error, "strerror", None) or error
        raise InputError(f"{what}: {os.fspath(path)!r} cannot be read: {why}") from error
    (_, header), *rows = rows or [(1, [])]
    if rows and _blank(header):
        raise InputError(f"{what}: {os.fspath(path)!r} has nothing in row 1; it must be the header")
    rows = [(line, cells) for line, cells in rows if not _blank(cells)]
    places = [line - 2 for line, _ in rows]
    for place, (_, cells) in zip(places, rows, strict=True):
        if len(cells) != len(header):
            raise InputError(
                f"{what}, {_row(place)}: it has {len(cells)} cells; it must have {len(header)}, as the header has"
            )
    return [(name, [cells[i] for _, cells in rows]) for i, name in enumerate(header)], places


def _numbered(reader: Any) -> Iterator[tuple[int, list[str]]]:
    """The rows of a file with the line that each begins on: a cell in quotes may go on over several."""
    line = 1
    for cells in reader:
        yield line, cells
        line = reader.line_num + 1


def _blank(cells: list[str]) -> bool:
    """Whether nothing stands in a row, as in a blank line or one of separators alone."""
    return not any(cell.strip() for cell in cells)
