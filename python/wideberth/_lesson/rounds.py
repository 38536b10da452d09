"""The plan of a round: the score to make on each hole."""

from __future__ import annotations

import os

import wideberth as wb
from wideberth import _wideberth as core
from wideberth._lesson.answers import Progress, Told
from wideberth._lesson.opened import Opened
from wideberth._lesson.view import View
from wideberth._table import percent

#: Plays of every way on every hole.
_PLAYS = 2_000


def planned(opened: Opened, view: View, target: int, progress: Progress) -> Told:
    """Find the best chance to break a score, and the budget for it.

    Raises:
        InputError: no course is open; a score out of range.

    """
    if opened.course is None:
        raise core.InputError("a round needs a course; open one with --course")
    found = wb.break_score(
        opened.course,
        opened.player_of(view.scene),
        target,
        plays=_PLAYS,
        seed=opened.seed,
        # A core is left to those who drag an aim meanwhile.
        threads=opened.threads or max(1, (os.cpu_count() or 2) - 1),
        progress=progress,
    )
    c = found.plan().columns()
    return {
        "target": found.target,
        "player": found.player.name,
        "summary": found.summary,
        "holes": [
            {
                "hole": int(c["hole"][i]),
                "par": int(c["par"][i]),
                "make": int(c["score_to_make"][i]),
                "made": percent(c["made"][i], c["made_error"][i]),
                "words": str(c["words"][i]),
                "press": str(c["press"][i]),
            }
            for i in range(len(c["hole"]))
        ],
    }
