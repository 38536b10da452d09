"""The tables of all answers: named columns, how they are shown, and numbers with the digits they are worth."""

from __future__ import annotations

import html
import math
import re
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    import pandas
    import polars


def text_table(header: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Lay out a table in plain text: the first column to the left, the others to the right."""
    lines = [list(header), *(list(row) for row in rows)]
    widths = [max(len(line[i]) for line in lines) for i in range(len(header))]
    return "\n".join(
        "  ".join(
            cell.ljust(width) if i == 0 else cell.rjust(width)
            for i, (cell, width) in enumerate(zip(line, widths, strict=True))
        ).rstrip()
        for line in lines
    )


def html_table(header: Sequence[str], rows: Iterable[Sequence[str]], caption: str, footer: str = "") -> str:
    """Lay out the same table as HTML that needs no style sheet."""

    def cells(row: Sequence[str], tag: str) -> str:
        return "".join(
            f'<{tag} style="text-align:{"left" if i == 0 else "right"}">{html.escape(cell)}</{tag}>'
            for i, cell in enumerate(row)
        )

    body = "".join(f"<tr>{cells(row, 'td')}</tr>" for row in rows)
    note = f"<p>{html.escape(footer)}</p>" if footer else ""
    return (
        f"<table><caption>{html.escape(caption)}</caption>"
        f"<thead><tr>{cells(header, 'th')}</tr></thead><tbody>{body}</tbody></table>{note}"
    )


def markdown_table(header: Sequence[str], rows: Iterable[Sequence[str]], caption: str, footer: str = "") -> str:
    """Lay out the same table in Markdown with pipes, between the caption and the footer."""
    lines = [list(header), [":---", *["---:"] * (len(header) - 1)], *(list(row) for row in rows)]
    told = [lines[0], *lines[2:]]
    for line in told:
        line[:] = [markdown(cell) for cell in line]
    table = "\n".join(f"| {' | '.join(line)} |" for line in lines)
    return "\n\n".join(part for part in (markdown(caption), table, markdown(footer)) if part)


def markdown(text: str) -> str:
    """A text in Markdown that reads as it is: no sign in a name means anything."""
    # CommonMark 0.31, 2.4: any ASCII punctuation may be escaped; these are those that can mean something within a line.
    return re.sub(r"([\\`*_{}\[\]<>|#~$&!])", r"\\\1", text)


#: Most digits after the point.
_MOST_DIGITS = 6


def digits(error: float) -> int:
    """How many digits after the point a number with a standard error is worth: to two figures of the error."""
    if not math.isfinite(error) or error <= 0:
        return 0
    # Rounded first: of 0.0996 two figures are 0.10.
    return min(max(1 - int(f"{error:.1e}".split("e")[1]), 0), _MOST_DIGITS)


def measured(mean: float, error: float) -> str:
    """A mean and its standard error, as many digits as they are worth; the mean alone where no error is known.

    Where plays did not differ at all the error is 0 and the mean is one of their whole numbers.
    """
    places = digits(error)
    if math.isnan(error):
        return f"{mean:.{places}f}"
    return f"{mean:.{places}f} ± {error:.{places}f}"


def worth(mean: float, error: float, most: int = 2) -> str:
    """A mean alone, in a sentence: as many digits as it is worth, and no more than so many."""
    places = min(digits(error), most)
    # A number of NumPy's is rounded otherwise. Adding nought takes the sign off what is rounded to it.
    return f"{round(float(mean), places) + 0.0:.{places}f}"


def percent(share: float, error: float) -> str:
    """A share in percent with no more digits than its error allows."""
    # Without any spread in what was seen nothing tells how much a digit would be worth.
    digits = 1 if 0 < error < 0.005 else 0
    return f"{100 * share:.{digits}f} %"


Column = np.ndarray[Any, Any]
Columns = dict[str, Column]
#: What a table shows of a row of its columns.
Cell = Callable[[Columns, int], str]


def text(column: str) -> Cell:
    """What stands in a column, as it is."""
    return lambda columns, row: str(columns[column][row])


def words(column: str, of: Callable[[float], str]) -> Cell:
    """A number in words of its own; nothing where it is not known."""
    return lambda columns, row: "" if math.isnan(columns[column][row]) else of(columns[column][row])


def number(column: str, form: str = ".0f") -> Cell:
    """A number in a form as Python's ``format`` has them; nothing where it is not known."""
    return words(column, lambda it: format(it, form))


def estimate(column: str) -> Cell:
    """A mean with its standard error, which is in the column of that name with ``_error`` after it."""
    return lambda columns, row: measured(columns[column][row], columns[f"{column}_error"][row])


def share(column: str) -> Cell:
    """A share in percent, by its standard error; nothing where it is not known."""

    def told(columns: Columns, row: int) -> str:
        value = columns[column][row]
        return "" if math.isnan(value) else percent(value, columns[f"{column}_error"][row])

    return told


def cells(columns: Columns, shown: Mapping[str, Cell]) -> tuple[list[str], list[list[str]]]:
    """The header and the rows of a table shown, of what it shows of every row by heading."""
    rows = range(len(next(iter(columns.values()), ())))
    return list(shown), [[cell(columns, row) for cell in shown.values()] for row in rows]


def same(one: Any, other: Any) -> bool:
    """Whether two things are equal, columns among them; a number that is not known equals another."""
    if isinstance(one, np.ndarray):
        numbers = all(np.asarray(column).dtype.kind == "f" for column in (one, other))
        return np.array_equal(one, other, equal_nan=numbers)
    if isinstance(one, dict):
        return isinstance(other, dict) and list(one) == list(other) and all(same(one[k], other[k]) for k in one)
    if isinstance(one, list | tuple):
        return type(one) is type(other) and len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, float) and math.isnan(one):
        return isinstance(other, float) and math.isnan(other)
    return bool(one == other)


class Whole(ABC):
    """What is put together from its parts: equal when they are, and pickled as they are."""

    @abstractmethod
    def _parts(self) -> tuple[Any, ...]:
        """The parts, as the class takes them."""

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle as the parts."""
        return type(self), self._parts()

    def __eq__(self, other: object) -> bool:
        """Equal when the parts are; a number that is not known equals another."""
        if type(other) is not type(self):
            return NotImplemented
        return same(self._parts(), other._parts())

    __hash__ = None  # type: ignore[assignment]


class Frames(ABC):
    """What has named columns, and so is a data frame to those who have one."""

    @abstractmethod
    def columns(self) -> Columns:
        """The table as named NumPy columns of equal length."""

    def to_pandas(self) -> pandas.DataFrame:
        """The columns as a pandas data frame; needs the extra ``frames``."""
        try:
            import pandas
        except ImportError as error:
            raise ImportError("to_pandas needs pandas: pip install 'wideberth[frames]'") from error
        return pandas.DataFrame(self.columns())

    def to_polars(self) -> polars.DataFrame:
        """The columns as a polars data frame; needs the extra ``frames``."""
        try:
            import polars
        except ImportError as error:
            raise ImportError("to_polars needs polars: pip install 'wideberth[frames]'") from error
        return polars.DataFrame(self.columns())


class Shown(ABC):
    """What is shown as a table with a caption above and notes below, in a terminal, in a notebook and in Markdown."""

    @property
    @abstractmethod
    def _title(self) -> str:
        """What stands above the table shown."""

    @property
    def _footer(self) -> str:
        """What stands below it."""
        return ""

    @abstractmethod
    def _rows(self) -> tuple[list[str], list[list[str]]]:
        """The header of the table shown, and its rows."""

    def to_markdown(self) -> str:
        """The table in Markdown, with its caption and its notes."""
        return markdown_table(*self._rows(), self._title, self._footer)

    def __repr__(self) -> str:
        """The table, to be read in a terminal."""
        return "\n".join(part for part in (self._title, text_table(*self._rows()), self._footer) if part)

    def _repr_html_(self) -> str:
        return html_table(*self._rows(), self._title, self._footer)


class Table(Shown, Frames):
    """A table that is shown, with its columns."""


class Kept(Table, Whole):
    """A table that keeps its columns."""

    _columns: Columns

    def columns(self) -> Columns:
        """The table as named NumPy columns of equal length."""
        return dict(self._columns)

    def __len__(self) -> int:
        """Number of rows."""
        return len(next(iter(self._columns.values()), ()))
