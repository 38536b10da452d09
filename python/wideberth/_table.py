"""Plain and HTML tables, and data frames from named columns."""

from __future__ import annotations

import html
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

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


def to_pandas(columns: dict[str, Any]) -> pandas.DataFrame:
    """Make a pandas data frame of named columns; needs the extra ``frames``."""
    try:
        import pandas
    except ImportError as error:
        raise ImportError("to_pandas needs pandas: pip install 'wideberth[frames]'") from error
    return pandas.DataFrame(columns)


def to_polars(columns: dict[str, Any]) -> polars.DataFrame:
    """Make a polars data frame of named columns; needs the extra ``frames``."""
    try:
        import polars
    except ImportError as error:
        raise ImportError("to_polars needs polars: pip install 'wideberth[frames]'") from error
    return polars.DataFrame(columns)
