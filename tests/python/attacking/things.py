"""What every attack needs: good things to begin with, odd values, and what counts as refused and as a fault."""

from __future__ import annotations

import re

import helpers
import wideberth as wb
from wideberth import _wideberth as core

HOLE = helpers.sketch()
SHORT = wb.Hole.sketch(par=3, length=120, bunkers=[wb.along(110, left=12)])
PLAYER = wb.Player.from_handicap(16)
PLANS = helpers.plans()
COURSE = wb.Course([SHORT, SHORT], name="Twice")

NUMBERS = [0, -0.0, 1, -1, 3, 0.5, 1e-300, 1e300, -1e300, 2**31, 2**63, 2**64, -(2**63), 90, 180.0000001, 1e5, 255, 256]
WORDS = [
    *"format version name par tee pin holes features surface outline plays seed scores causes tallies pairs".split(),
    *"question names rounds counts plan choices chances driver green rough left right long putter 7-iron".split(),
    "",
    " ",
    "a\0b",
    "\x1b[31m",
    "\u202e",
    "\ud7ff\u2028",
    "x" * 300,
    "<script>",
    "é",
    "../../etc",
    "1e999",
    "NaN",
]


class Refused(Exception):
    """What was given was refused, in words."""


class Fault(Exception):
    """Something that must not happen, in words."""


def refusal(call, *, kinds=(wb.InputError, TypeError)):
    """What the call gives, or `Refused`; a `Fault` if it was refused without words, or in none of ours."""
    try:
        return call()
    except kinds as error:
        words = str(error)
        if not words.strip():
            raise Fault(f"{type(error).__name__} says nothing") from error
        if re.search(
            r"object is not an instance of|cannot be interpreted as|object has no attribute|not iterable", words
        ):
            raise Fault(f"told in Python's own words: {words}") from error
        if not all(core.is_plain(line) for line in words.split("\n")):
            raise Fault(f"control characters in {words!r}") from error
        raise Refused from error
