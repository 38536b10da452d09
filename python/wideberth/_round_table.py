"""A table of a round: named columns, with a title and a note, to be read in a terminal, a notebook or a file."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from wideberth._table import Columns, Kept


class RoundTable(Kept):
    """A table of what was found about rounds; what made it says what its columns are.

    Equal when every number is; can be pickled.
    """

    def __init__(
        self,
        title: str,
        columns: Columns,
        header: Sequence[str],
        rows: Sequence[Sequence[str]],
        footer: str = "",
    ) -> None:
        """Keep the columns, and how they are shown."""
        self._words = title, footer
        self._columns = columns
        self._shown = list(header), [list(row) for row in rows]

    def _parts(self) -> tuple[Any, ...]:
        title, footer = self._words
        return title, self._columns, *self._shown, footer

    @property
    def _title(self) -> str:
        return self._words[0]

    @property
    def _footer(self) -> str:
        return self._words[1]

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        return self._shown

    def __len__(self) -> int:
        """Number of rows shown."""
        return len(self._shown[1])
