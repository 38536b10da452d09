"""A view as a file: a still, the report, a card, made in a folder that is gone after, then handed over."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path
from typing import Any

import wideberth as wb
from wideberth._lesson import answers
from wideberth._lesson.opened import Opened
from wideberth._lesson.view import View

#: What can be saved, with the kinds of files.
KINDS = {
    "still.png": "image/png",
    "still.svg": "image/svg+xml",
    "report.html": "text/html; charset=utf-8",
    "card.pdf": "application/pdf",
}
#: Plays drawn on a still.
_DRAWN = 200


def saved(opened: Opened, view: View, solution: wb.Solution, what: str) -> tuple[bytes, str, str]:
    """Make a file of a view: its content, its kind and its name.

    Raises:
        InputError: a view that cannot be shown so.
        ImportError: what is needed to draw is not installed.

    """
    import matplotlib

    matplotlib.use("Agg")
    now = answers.situation(opened, view, solution)
    name = re.sub(r"[^a-z0-9]+", "-", now.ground.hole.name.lower()).strip("-") or "hole"
    with tempfile.TemporaryDirectory(prefix="wideberth-") as folder:
        path = Path(folder) / what
        if what == "card.pdf":
            wb.pocket_card([solution], path=path)
        else:
            result = answers.compared(opened, now, 20_000, None)
            if what == "report.html":
                _report(now, result, path)
            else:
                _still(opened, now, result, path)
        return path.read_bytes(), KINDS[what], f"{name}-{what}"


def _report(now: answers.Situation, result: wb.Comparison, path: Path) -> None:
    wb.report(result, solved=now.solution, path=path, title=f"{now.ground.hole.name}, {now.ground.player.name}")


def _still(opened: Opened, now: answers.Situation, result: wb.Comparison, path: Path) -> None:
    import matplotlib.pyplot as plt

    from wideberth.plot import plot_shots, save

    told = answers.figures(now, result)
    mine: Any = next(plan for plan in answers.plans(now) if plan.name == answers.MINE)
    lie: Any = now.view.lie
    figures = told["shots"][answers.MINE]
    ax = plot_shots(
        now.ground.hole,
        now.ground.player,
        mine,
        plays=_DRAWN,
        seed=opened.seed,
        at=None if answers.from_the_tee(now.view) else now.at,
        lie=lie,
        title=told["sentence"]["lead"],
        subtitle=f"{now.ground.hole.name}, {now.ground.player.name}: par or better {figures['par'][0]}",
    )
    try:
        save(ax, path)
    finally:
        plt.close("all")
