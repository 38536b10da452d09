"""Tables for other programs: JSON, CSV and Markdown."""

from __future__ import annotations

import argparse
import csv
import io
import json
import math
from collections.abc import Mapping
from typing import Any

import numpy as np

Columns = Mapping[str, np.ndarray[Any, Any]]


def add_formats(p: argparse.ArgumentParser, *formats: str, document: str = "what was found as JSON") -> None:
    """Arguments that say how to write what was found."""
    told = {"json": document, "csv": "the table as CSV, every digit", "markdown": "the table in Markdown"}
    group = p.add_argument_group(
        "output", "Without one of these it is written to be read."
    ).add_mutually_exclusive_group()
    for name in formats:
        group.add_argument(f"--{name}", dest="format", action="store_const", const=name, help=f"write {told[name]}")


def to_json(content: Any) -> str:
    """JSON that every program reads: a number that is not known is null."""
    return json.dumps(_plain(content), ensure_ascii=False, indent=2, allow_nan=False)


def to_csv(columns: Columns) -> str:
    """CSV (RFC 4180) with a header; a number that is not known is an empty field."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(["" if v is None else v for v in row.values()] for row in rows(columns))
    return text.getvalue().rstrip("\n")


def rows(columns: Columns) -> list[dict[str, Any]]:
    """The rows of a table as dictionaries."""
    lists = {name: column.tolist() for name, column in columns.items()}
    return [_plain(dict(zip(lists, row, strict=True))) for row in zip(*lists.values(), strict=True)]


def _plain(value: Any) -> Any:
    """The value with None for numbers that are not known."""
    if isinstance(value, dict):
        return {str(k): _plain(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(v) for v in value]
    return None if isinstance(value, float) and not math.isfinite(value) else value
