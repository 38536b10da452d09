"""Balls played to the end: one stroke by stroke, with what each gained, or a hundred."""

from __future__ import annotations

from typing import Any

import numpy as np

import wideberth as wb
from wideberth import _wideberth as core
from wideberth._given import shown
from wideberth._lesson.answers import MINE, Progress, Situation, Told, from_the_tee
from wideberth._lesson.opened import Opened

#: Who plays on after the first stroke: the best there is, or the pupil, whom nobody advises.
_WAYS = ("best", "pupil")


def played(opened: Opened, now: Situation, balls: int, first: int, way: str, progress: Progress) -> Told:
    """Play balls from where a view is, the first stroke as it is pointed.

    Args:
        opened: what the lesson was opened with.
        now: the view.
        balls: how many: of one ball every stroke is told with what it gained, of more where their strokes end.
        first: the number of the ball; it fixes its luck.
        way: who plays on: "best" or "pupil".
        progress: a callable of (done, goal).

    Raises:
        InputError: another way.

    """
    if way not in _WAYS:
        raise core.InputError(f"then is {shown(way)}; it must be one of {', '.join(_WAYS)}")
    then: Any = now.solution if way == "best" else "direct"
    lie: Any = now.view.lie
    plays = wb.simulate(
        now.ground.hole,
        now.ground.player,
        core.Plan("played", [now.shots[MINE]["instruction"]], then=then),
        plays=balls,
        seed=first,
        at=None if from_the_tee(now.view) else now.at,
        lie=lie,
        threads=opened.threads,
        progress=progress,
    )
    scores = (plays.scores + now.view.played).tolist()
    if balls > 1:
        return {"scores": scores, "strokes": _many(now, plays)}
    return {"scores": scores, "strokes": _one(now, plays)}


def _many(now: Situation, plays: wb.Plays) -> list[Told]:
    """Where the strokes of many balls end, by stroke, putts left out."""
    c = plays.columns()
    full = c["club"] != "putt"
    found = []
    for stroke in range(1, int(c["stroke"].max()) + 1):
        mine = full & (c["stroke"] == stroke)
        if mine.any():
            page = now.ground.to_page(np.column_stack([c["rest_x"], c["rest_y"]])[mine])
            found.append({"rest": page, "lost": np.flatnonzero(c["penalty"][mine] > 0).tolist()})
    return found


def _one(now: Situation, plays: wb.Plays) -> list[Told]:
    """Every stroke of one ball."""
    c = now.solution.strokes_gained(plays, split=True).columns()
    count = len(c["club"])
    ground = now.ground
    starts = ground.to_page(np.column_stack([c["x"], c["y"]]))
    rests = ground.to_page(np.column_stack([c["rest_x"], c["rest_y"]]))
    aims = ground.to_page(np.column_stack([c["target_x"], c["target_y"]]))
    return [
        {
            "club": str(c["club"][i]),
            "lie": str(c["lie"][i]),
            "from": starts[i],
            "aim": aims[i],
            "rest": rests[i],
            "rest_on": str(c["rest_on"][i]),
            "to_pin": round(float(c["to_pin"][i]), 1),
            "penalty": int(c["penalty"][i]),
            "used": int(c["used"][i]),
            "holed": bool(c["holed"][i]),
            "mishit": bool(c["mishit"][i]),
            "lost": bool(c["lost"][i]),
            "gained": round(float(c["gained"][i]), 2),
            "choice": round(float(c["choice"][i]), 2),
            "execution": round(float(c["execution"][i]), 2),
            "luck": round(float(c["luck"][i]), 2),
            "next": None if i + 1 == count else {"ball": starts[i + 1], "lie": str(c["lie"][i + 1])},
        }
        for i in range(count)
    ]
