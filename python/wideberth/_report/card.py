"""The pocket card: one small sheet a hole, to be carried."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from os import PathLike
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._compare import Comparison
from wideberth._plays import Column, simulate
from wideberth._report import checks, words
from wideberth._solution import Solution

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from wideberth.plot.theme import Theme

#: Sizes of text, points: the club, the name of the hole, what is told, what explains, the foot.
_CLUB, _TITLE, _BODY, _SMALL, _FOOT = 17.0, 12.5, 9.2, 7.2, 5.8
#: How high up the sheet the map begins.
_LOW = 0.175
#: Inches of a sheet (A6).
SIZE = (105 / 25.4, 148 / 25.4)
#: Most sheets of one file, and plays of each hole.
_MOST, _PLAYS = 100, 6_000
#: Share of tee shots that are told as missed to one side.
_MISSED = 1 / 6
#: The share of plays that meet what is good enough.
_SHARE = 2 / 3
#: Most legs of the route drawn, and yards from the pin at which it has arrived.
_LEGS, _ARRIVED = 4, 15.0


@dataclass(frozen=True)
class _Sheet:
    """What one card says."""

    hole: core.Hole
    who: str
    how: str
    club: str
    lines: list[tuple[str, str]]
    route: Column


def pocket_card(
    of: Solution | Comparison | Sequence[Solution | Comparison],
    *,
    path: str | PathLike[str],
    seed: int = 1,
) -> Path:
    """Write pocket cards as PDF, a sheet of 105 by 148 mm (A6) for each hole; needs the extra ``report``.

    A card tells the club off the tee, the aim, what the tee shot should leave, the side to miss on and what is good
    enough, and shows the hole with the usual way of the ball. Of a comparison it is the best plan that is told.

    The side to miss on is told from plays: the sixth of tee shots farthest to one side of the aim, against the sixth
    farthest to the other, by the scores they led to. A side is named only if the difference is more than two of its
    standard errors. The route goes through the median resting places of the strokes. Good enough is what two of three
    of the player's own plays and full tee shots are.

    Args:
        of: what :func:`solve` or :func:`compare` returned, or a list of them: one card each, in that order.
        path: the file, ending in ``.pdf``; one that is there is written over.
        seed: fixes the luck of the plays.

    Returns:
        The path.

    Raises:
        InputError: no card or more than 100, a path of another ending or in a directory that there is not, before
            anything is played.
        TypeError: something else than solutions and comparisons.
        ImportError: Matplotlib is not installed.

    Example:
        >>> import tempfile, pathlib
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=3, length=150)
        >>> player = wb.Player.from_handicap(14)
        >>> result = wb.compare(hole, player, wb.suggest_plans(hole, player)[:2], plays=500, seed=1)
        >>> with tempfile.TemporaryDirectory() as folder:
        ...     card = wb.pocket_card(result, path=pathlib.Path(folder) / "card.pdf")
        ...     card.read_bytes()[:4]
        b'%PDF'

    """
    holes = [of] if isinstance(of, Solution | Comparison) else list(of)
    for one in holes:
        if not isinstance(one, Solution | Comparison):
            raise TypeError(f"of holds {type(one).__name__}; it must be what solve() or compare() returned")
    if not 1 <= len(holes) <= _MOST:
        raise core.InputError(f"of has {len(holes)} holes; it must have 1 to {_MOST}")
    path = checks.file_at(path, (".pdf",))
    sheets = [_sheet(one, seed) for one in holes]
    _write(sheets, path)
    return path


def _sheet(of: Solution | Comparison, seed: int) -> _Sheet:
    """What the card of one hole says."""
    hole, player = of.hole, of.player
    plan = of.best.plan if isinstance(of, Comparison) else core.Plan("solved", [], then=of)
    plays = simulate(hole, player, plan, plays=_PLAYS, seed=seed)
    strokes = plays.columns()
    club = str(strokes["club"][0])
    lines = [("Aim", _aim(of, strokes)), ("Leave", _leave(of, strokes)), ("Miss", _miss(plays.scores, strokes))]
    band = words.bands(player).get(club)
    enough = [] if band is None else [f"within {words.aside(band)}"]
    enough.append(f"a score of {_score(of)} or better")
    lines.append(("Good enough", "; ".join(enough)))
    how = f"plan “{plan.name}”" if isinstance(of, Comparison) else "the best shot from everywhere"
    return _Sheet(hole, player.name, how, club, lines, _route(hole, strokes))


def _aim(of: Solution | Comparison, strokes: dict[str, Column]) -> str:
    """The aim of the tee shot in words."""
    hole = of.hole
    target = (float(strokes["target_x"][0]), float(strokes["target_y"][0]))
    if isinstance(of, Solution):
        # The club is told apart; what follows it is the aim and what is left, in the solver's own words.
        told = of.shot_from(hole.tee)
        return told.words.removeprefix(told.club).removeprefix(",").strip()
    if np.hypot(*np.subtract(target, hole.pin)) < 0.75:
        return "at the flag"
    return f"{words.from_the_line(hole, target)}, over the point {_from_tee(hole, target):.0f} yd out"


def _from_tee(hole: core.Hole, point: tuple[float, float]) -> float:
    return float(np.hypot(*np.subtract(point, hole.tee)))


def _leave(of: Solution | Comparison, strokes: dict[str, Column]) -> str:
    """What the tee shot and a lay-up leave to the pin."""
    if isinstance(of, Solution):
        told = of.shot_from(of.hole.tee)
        left = float(np.hypot(*np.subtract(told.finish, of.hole.pin)))
        if left < _ARRIVED:
            return "nothing: the green is in reach"
        after = of.shot_from(told.finish) if _playable(of, told.finish) else None
        return f"{left:.0f} yd" + ("" if after is None else f"; then {after.words}")
    first = strokes["stroke"] == 2
    left = float(np.median(strokes["to_pin"][first])) if first.any() else 0.0
    if left < _ARRIVED:
        return "nothing: the green is in reach"
    lay_up = [words.instruction(i) for i in of.best.plan.instructions]
    then = next((f"; then lay up to {i.yards:g} yd" for i in lay_up if i.kind == "leave"), "")
    return f"about {left:.0f} yd{then}"


def _playable(of: Solution, place: tuple[float, float]) -> bool:
    """True where a ball may be played from."""
    return of.hole.surface_at(place) not in ("out_of_bounds", "penalty_red", "penalty_yellow")


def _miss(scores: Column, strokes: dict[str, Column]) -> str:
    """The side to miss on, from what tee shots far to either side of the aim led to."""
    tee = strokes["stroke"] == 1
    x, y, aim_x, aim_y, rest_x, rest_y = (
        strokes[name][tee] for name in ("x", "y", "target_x", "target_y", "rest_x", "rest_y")
    )
    way_x, way_y = aim_x - x, aim_y - y
    right = ((rest_x - x) * way_y - (rest_y - y) * way_x) / np.hypot(way_x, way_y)
    score = scores[strokes["play"][tee]].astype(float)
    left_most, right_most = np.quantile(right, [_MISSED, 1 - _MISSED])
    left, right_side = score[right <= left_most], score[right >= right_most]
    gap = float(right_side.mean() - left.mean())
    error = float(np.sqrt(left.var(ddof=1) / len(left) + right_side.var(ddof=1) / len(right_side)))
    good, bad = ("left", "right") if gap > 0 else ("right", "left")
    if abs(gap) <= 2 * error:
        return f"no side is clearly better: {bad} costs {abs(gap):.2f} ± {error:.2f} more"
    return f"{good}: {bad} costs {abs(gap):.2f} ± {error:.2f} strokes more"


def _score(of: Solution | Comparison) -> int:
    """The score that two of three plays do not exceed."""
    if isinstance(of, Comparison):
        return of.best.quantile(_SHARE)
    shares = of.distribution
    total = np.cumsum(list(shares.values()))
    return list(shares)[int(np.searchsorted(total, _SHARE))]


def _route(hole: core.Hole, strokes: dict[str, Column]) -> Column:
    """The tee, the median resting places of the strokes to the green, and the pin."""
    places, full = [hole.tee], ~np.isin(strokes["club"], ["putt"])
    for stroke in range(1, _LEGS + 1):
        mine = full & (strokes["stroke"] == stroke)
        if not mine.any():
            break
        rest = (float(np.median(strokes["rest_x"][mine])), float(np.median(strokes["rest_y"][mine])))
        if np.hypot(*np.subtract(rest, hole.pin)) < _ARRIVED:
            break
        places.append(rest)
    return np.array([*places, hole.pin])


def _write(sheets: list[_Sheet], path: Path) -> None:
    """Draw the sheets into one file, the same for the same sheets."""
    from matplotlib.backends.backend_pdf import PdfPages
    from matplotlib.figure import Figure

    from wideberth.plot.theme import LIGHT

    metadata: dict[str, Any] = {"CreationDate": None, "ModDate": None, "Creator": "wideberth", "Producer": None}
    with PdfPages(path, metadata=metadata) as pdf:
        for sheet in sheets:
            figure = Figure(figsize=SIZE, facecolor="white")
            _draw(figure, sheet, LIGHT)
            pdf.savefig(figure)


def _draw(figure: Figure, sheet: _Sheet, theme: Theme) -> None:
    """One sheet: the words on the left, the hole on the right."""
    from wideberth.plot.figure import wrapped

    def text(x: float, y: float, words: str, size: float, colour: str, weight: str = "normal") -> None:
        figure.text(
            x, y, words, fontsize=size, color=colour, fontweight=weight, ha="left", va="top", linespacing=1.25,
            parse_math=False,
        )  # fmt: skip

    points = 72 * SIZE[1]
    left, wide = 0.06, 72 * SIZE[0] * 0.88
    column = 72 * SIZE[0] * 0.50
    y = 0.965
    for line in wrapped(sheet.hole.name, wide, _TITLE, 2):
        text(left, y, line, _TITLE, theme.ink, "bold")
        y -= 1.3 * _TITLE / points
    for line in wrapped(f"{words.on_the_card(sheet.hole)}; {sheet.who}", wide, _BODY, 2):
        text(left, y, line, _BODY, theme.muted)
        y -= 1.35 * _BODY / points
    y -= 8 / points
    top = y
    text(left, y, "Off the tee", _SMALL, theme.muted)
    y -= 1.5 * _SMALL / points
    for line in wrapped(sheet.club, column, _CLUB, 2):
        text(left, y, line, _CLUB, theme.accent, "bold")
        y -= 1.3 * _CLUB / points
    for label, told in sheet.lines:
        y -= 5 / points
        text(left, y, label, _SMALL, theme.muted)
        y -= 1.5 * _SMALL / points
        for line in wrapped(told, column, _BODY, 5):
            text(left, y, line, _BODY, theme.ink, "bold" if label == "Miss" else "normal")
            y -= 1.35 * _BODY / points
    foot = wrapped(
        f"By {sheet.how}. Model estimates for learning: the Rules of Golf, the Committee, local rules and a qualified "
        "professional decide. Nobody in range, nobody near your swing; “fore” at once; stop for lightning. "
        "May be barred in competition (Rule 4.3).",
        wide * 1.14, _FOOT, 5,
    )  # fmt: skip
    text(left, 0.022 + 1.3 * _FOOT * len(foot) / points, "\n".join(foot), _FOOT, theme.muted)
    _sketch(figure, sheet, theme, top)


def _sketch(figure: Figure, sheet: _Sheet, theme: Theme, top: float) -> None:
    """The hole, small, with the route of the ball; its upper edge is so high up the sheet."""
    from wideberth.plot.hole import map_of
    from wideberth.plot.page import Page

    ax = figure.add_axes((0.585, _LOW, 0.36, top - _LOW))
    map_of(sheet.hole, ax, theme, yards_from="neither")
    figure.set_facecolor("white")
    ax.set_anchor("N")
    route = Page(sheet.hole).of(sheet.route)
    ax.plot(*route.T, color=theme.paper, linewidth=3.4, alpha=0.8, zorder=4.0, solid_joinstyle="round")
    ax.plot(*route.T, color=theme.accent, linewidth=1.5, zorder=4.1, solid_joinstyle="round")
    ax.plot(*route[1:-1].T, color=theme.accent, marker="o", markersize=3.6, linestyle="none", zorder=4.2)
