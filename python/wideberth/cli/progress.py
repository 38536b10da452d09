"""Progress of long work on the standard error: a bar, or plain words."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from typing import Any

#: Seconds between two lines where there is no terminal; the first comes after as many.
_SECONDS = 10.0


@contextmanager
def progress(what: str, *, quiet: bool) -> Iterator[Any]:
    """What long work reports to: a bar of tqdm on a terminal, plain words without it, now and then a line elsewhere."""
    if quiet:
        yield None
        return
    if not sys.stderr.isatty():
        yield _Lines(what)
        return
    try:
        tqdm: Any = import_module("tqdm").tqdm
    except ImportError:
        words = _Words(what)
        try:
            yield words
        finally:
            words.clear()
        return
    with tqdm(desc=what, file=sys.stderr, leave=False, unit="", bar_format="{desc} {percentage:3.0f} %|{bar}|") as bar:
        yield bar


class _Words:
    """A line on a terminal that is written over."""

    def __init__(self, what: str) -> None:
        self._what, self._shown = what, ""

    def __call__(self, done: int, goal: int) -> None:
        told = f"{self._what} {100 * done // max(goal, 1)} %"
        if told != self._shown:
            self._shown = told
            print(f"\r{told}", end="", file=sys.stderr, flush=True)

    def clear(self) -> None:
        """Leave nothing behind."""
        if self._shown:
            print(f"\r{' ' * len(self._shown)}\r", end="", file=sys.stderr, flush=True)


class _Lines:
    """A line every ten seconds, for logs."""

    def __init__(self, what: str) -> None:
        self._what, self._last = what, time.monotonic()

    def __call__(self, done: int, goal: int) -> None:
        now = time.monotonic()
        if now - self._last >= _SECONDS:
            self._last = now
            print(f"{self._what} {100 * done // max(goal, 1)} %", file=sys.stderr, flush=True)
