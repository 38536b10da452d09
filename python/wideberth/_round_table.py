"""A table of a round: named columns, with a title and a note, to be read in a terminal, a notebook or a file."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from wideberth._table import Table

Column = np.ndarray[Any, Any]


class RoundTable(Table):
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
        self._words = title, footer
        self._columns = columns
        self._shown = list(header), [list(row) for row in rows]

    @property
    def _title(self) -> str:
        return self._words[0]

    @property
    def _footer(self) -> str:
        return self._words[1]

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        return self._shown

    def __len__(self) -> int:
        """Return the number of rows."""
        return len(self._shown[1])

    def columns(self) -> dict[str, Column]:
        """The table as named NumPy columns."""
        return dict(self._columns)

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
