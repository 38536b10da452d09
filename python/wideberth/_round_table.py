"""A table of a round: named columns, with a title and a note, to be read in a terminal, a notebook or a file."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from wideberth._table import html_table, markdown_table, text_table, to_pandas, to_polars

if TYPE_CHECKING:
    import pandas
    import polars

Column = np.ndarray[Any, Any]


class RoundTable:
    """A table of what was found about rounds; what made it says what its columns are.

    Equal when every number is; can be pickled.
    """

    def __init__(
        self,
        title: str,
        columns: dict[str, Column],
        header: Sequence[str],
        rows: Sequence[Sequence[str]],
        footer: str = "",
    ) -> None:
        """Keep the columns, and how they are shown."""
        self._title = title
        self._columns = columns
        self._header = list(header)
        self._rows = [list(row) for row in rows]
        self._footer = footer

    def __len__(self) -> int:
        """Return the number of rows."""
        return len(self._rows)

    def columns(self) -> dict[str, Column]:
        """The table as named NumPy columns."""
        return dict(self._columns)

    def to_pandas(self) -> pandas.DataFrame:
        """The columns as a pandas data frame; needs the extra ``frames``."""
        return to_pandas(self.columns())

    def to_polars(self) -> polars.DataFrame:
        """The columns as a polars data frame; needs the extra ``frames``."""
        return to_polars(self.columns())

    def __eq__(self, other: object) -> bool:
        """Equal when the title and every number are; a number that is not known equals another."""
        if not isinstance(other, RoundTable):
            return NotImplemented
        mine, theirs = self._columns, other._columns
        return (
            self._title == other._title
            and list(mine) == list(theirs)
            and all(np.array_equal(mine[name], theirs[name], equal_nan=mine[name].dtype.kind == "f") for name in mine)
        )

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        """The table, to be read in a terminal."""
        parts = [self._title, text_table(self._header, self._rows), self._footer]
        return "\n".join(part for part in parts if part)

    def to_markdown(self) -> str:
        """The table in Markdown, between its title and its note."""
        return markdown_table(self._header, self._rows, self._title, self._footer)

    def _repr_html_(self) -> str:
        return html_table(self._header, self._rows, self._title, self._footer)
