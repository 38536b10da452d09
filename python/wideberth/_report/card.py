"""The pocket card: one small sheet a hole, to be carried."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from os import PathLike
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from wideberth import _wideberth as core
from wideberth._compare import Comparison
from wideberth._files import file_at, write_whole
from wideberth._report import checks, pdf, words
from wideberth._report.booklet import CAUTION, SIZE, booklet
from wideberth._report.sheet import BOOKLET, check_paper, sheet
from wideberth._report.usual import UsualWay, usual_way
from wideberth._solution import Solution
from wideberth._target import Target

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from wideberth.plot.theme import Theme

#: Sizes of text, points: the club, the name of the hole, what is told, what explains, the foot.
_CLUB, _TITLE, _BODY, _SMALL, _FOOT = 17.0, 12.5, 8.6, 7.2, 5.8
#: How high up the sheet the map begins, and the words end.
_LOW = 0.175
#: Most sheets of one file, and plays of each hole.
_MOST, _PLAYS = 100, 20_000
#: Yards from the pin at which the ball has arrived; a stroke from nearer than the other is no approach.
_ARRIVED, _APPROACH = 15.0, 50.0


@dataclass(frozen=True)
class _Line:
    """A line of the card: what it says on the left and on the right, how large, and points of room above it."""

    left: str
    size: float = _BODY
    right: str = ""
    look: str = "plain"
    above: float = 0.0

    @property
    def high(self) -> float:
        """Points from this line to the next."""
        return 1.35 * self.size


@dataclass(frozen=True)
class _Sheet:
    """What one card says."""

    hole: core.Hole
    who: str
    how: str
    club: str
    told: list[tuple[str, str]]
    usual: UsualWay


def pocket_card(
    of: Solution | Comparison | Target | Sequence[Solution | Comparison],
    *,
    path: str | PathLike[str],
    seed: int = 1,
    paper: str = "a4",
) -> Path:
    """Write pocket cards as PDF, to be carried; needs the extra ``report``.

    Of solutions and comparisons there is a sheet of 105 by 148 mm (A6) for each hole. Of a target for a round there is
    one sheet for all of it: on one side the holes with the score to make, the tee shot, and milestones with how often
    they are reached; on the other the budget and how the way to play turns with the score. Folded in three both ways
    it fits a pocket. With the paper ``"booklet"`` it is a small sheet a hole.

    A card tells the club off the tee, the aim, what the tee shot should leave, the side to miss on, what is good enough
    and how the ground lies; for the tee shot and for each approach the yards that reach and that carry the bunkers and
    penalty areas in its way; and shows the hole with the usual way of the ball. Of a comparison it is the best plan
    that is told.

    All of it is told from plays. The side to miss on: the sixth of tee shots farthest to one side of the aim, against
    the sixth farthest to the other, by the scores they led to; a side is named only if the difference is more than two
    of its standard errors. The usual way goes through the median resting places of the strokes. In the way of a stroke
    is what lies within the angle and the distance that nineteen of twenty of the player's keep to; yards are from the
    ball along the aim where that leads over it, else to its nearest and farthest point within that angle, on the map:
    they are not adjusted for wind or height. Good enough is what two of three of the player's own plays and full tee
    shots are.

    Args:
        of: what :func:`solve` or :func:`compare` returned, or a list of them: one card each, in that order; or what
            :func:`break_score` returned.
        path: the file, ending in ``.pdf``; one that is there is written over.
        seed: a whole number, 0 to 2**64 - 1, that fixes the luck of the plays; nothing is played of a target.
        paper: of a target the paper, ``"a4"``, ``"letter"`` or ``"booklet"``.

    Returns:
        The path.

    Raises:
        InputError: no card or more than 100, a path of another ending or in a directory that there is not, before
            anything is played; another paper than these.
        TypeError: something else than solutions, comparisons and a target.
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
    check_paper(paper)
    if isinstance(of, Target):
        path = file_at(path, (".pdf",))
        write_whole(path, booklet(of) if paper == BOOKLET else sheet(of, paper))
        return path
    if isinstance(of, Solution | Comparison):
        holes = [of]
    elif isinstance(of, Sequence) and not isinstance(of, str):
        holes = list(of)
    else:
        raise TypeError(f"of is {type(of).__name__}; it must be what solve(), compare() or break_score() returned")
    for one in holes:
        if not isinstance(one, Solution | Comparison):
            raise TypeError(f"of holds {type(one).__name__}; it must be what solve() or compare() returned")
        if isinstance(one, Comparison):
            checks.from_the_tee(one)
    if not 1 <= len(holes) <= _MOST:
        raise core.InputError(f"of has {len(holes)} holes; it must have 1 to {_MOST}")
    path = file_at(path, (".pdf",))
    sheets = [_sheet(one, seed) for one in holes]
    write_whole(path, pdf.sheets(SIZE, _draw, sheets))
    return path


def _sheet(of: Solution | Comparison, seed: int) -> _Sheet:
    """What the card of one hole says."""
    hole, player = of.hole, of.player
    plan = of.best.plan if isinstance(of, Comparison) else core.Plan("solved", [], then=of)
    usual = usual_way(hole, player, plan, plays=_PLAYS, seed=seed)
    club = usual.legs[0].stroke
    told = [("Aim", _aim(of, usual)), ("Leave", _leave(of, usual)), ("Miss", _miss(usual))]
    band = words.bands(player).get(club)
    enough = [] if band is None else [f"within {words.aside(band)}"]
    enough.append(f"a score of {usual.good_enough} or better")
    told.append(("Good enough", "; ".join(enough)))
    solved = not (plan.instructions or isinstance(plan.then, str))
    how = "the best shot from everywhere" if solved else f"plan “{plan.name}”"
    return _Sheet(hole, player.name, how, club, told, usual)


def _aim(of: Solution | Comparison, usual: UsualWay) -> str:
    """The aim of the tee shot in words."""
    hole, target = of.hole, usual.legs[0].aim
    if isinstance(of, Solution):
        # The club is told apart; what follows it is the aim and what is left, in the solver's own words.
        told = of.shot_from(hole.tee)
        return told.words.partition(", aimed ")[2] or told.words
    if np.hypot(*np.subtract(target, hole.pin)) < 0.75:
        return "at the flag"
    return f"{words.from_the_line(hole, target)}, over the point {_apart(hole.tee, target):.0f} yd out"


def _apart(one: tuple[float, float], other: tuple[float, float]) -> float:
    return float(np.hypot(*np.subtract(one, other)))


def _leave(of: Solution | Comparison, usual: UsualWay) -> str:
    """What the tee shot and a lay-up leave to the pin."""
    if usual.left < _ARRIVED:
        return "nothing: the green is in reach"
    then = ""
    if isinstance(of, Solution):
        told = of.shot_from(of.hole.tee)
        if _playable(of, told.finish):
            then = f"; then {of.shot_from(told.finish).words}"
    else:
        lay_up = [words.instruction(i) for i in of.best.plan.instructions]
        then = next((f"; then lay up to {i.yards:g} yd" for i in lay_up if i.kind == "leave"), "")
    return f"about {usual.left:.0f} yd{then}"


def _playable(of: Solution, place: tuple[float, float]) -> bool:
    """True where a ball may be played from."""
    return of.hole.surface_at(place) not in ("out_of_bounds", "penalty_red", "penalty_yellow")


def _miss(usual: UsualWay) -> str:
    """The side to miss on, and what the other costs."""
    if usual.better_side is None:
        return "no side is clearly better"
    worse = "right" if usual.better_side == "left" else "left"
    cost = abs(usual.right_costs[0])
    more = f"{cost:.1f} strokes more" if cost >= 0.1 else "a little more"
    return f"{usual.better_side}: {worse} costs {more}"


def _parts(sheet: _Sheet, wide: float) -> list[list[_Line]]:
    """Everything beside the map, in a column so many points wide: what matters most first, each part told whole."""
    from wideberth.plot.figure import wrapped

    def block(label: str, told: str, size: float = _BODY, look: str = "plain") -> list[_Line]:
        weight = "normal" if look == "plain" else "bold"
        body = [_Line(line, size, look=look) for line in wrapped(told, wide, size, 6, weight)]
        return [_Line(label, _SMALL, look="quiet", above=4), *body]

    parts = [block("Off the tee", sheet.club, _CLUB, "club")]
    parts += [block(label, told, look="bold" if label == "Miss" else "plain") for label, told in sheet.told]
    for leg in sheet.usual.legs:
        if leg.to_pin > _APPROACH:
            rows = [_Line(wrapped(way.words, 0.68 * wide, _BODY, 1)[0], _BODY, way.yards) for way in leg.in_the_way]
            head = [_Line(leg.where, _SMALL, "reach – carry", "quiet", above=5)]
            parts += [head + rows[:1], *([row] for row in rows[1:])] if rows else []
    return [*parts, block("Ground", sheet.hole.slopes_in_words)]


def _fitting(parts: list[list[_Line]], room: float) -> list[_Line]:
    """The lines of as many parts as fit into so many points."""
    ends = accumulate(sum(line.above + line.high for line in part) for part in parts)
    return [line for part, end in zip(parts, ends, strict=True) if end <= room for line in part]


def _draw(figure: Figure, sheet: _Sheet, theme: Theme) -> None:
    """One sheet: the words on the left, the hole on the right."""
    from wideberth.plot.figure import wrapped

    points = 72 * SIZE[1]
    left, wide = 0.06, 72 * SIZE[0] * 0.88
    column = 0.50
    looks = {
        "plain": (theme.ink, "normal"),
        "bold": (theme.ink, "bold"),
        "quiet": (theme.muted, "normal"),
        "club": (theme.accent, "bold"),
    }

    def write(x: float, y: float, words: str, size: float, look: str = "plain", ha: str = "left") -> None:
        colour, weight = looks[look]
        figure.text(
            x, y, words, fontsize=size, color=colour, fontweight=weight, ha=ha, va="top", linespacing=1.25,
            parse_math=False,
        )  # fmt: skip

    y = 0.965
    for line in wrapped(sheet.hole.name, wide, _TITLE, 2, "bold"):
        write(left, y, line, _TITLE, "bold")
        y -= 1.3 * _TITLE / points
    for line in wrapped(f"{words.on_the_card(sheet.hole)}; {sheet.who}", wide, _BODY, 2):
        write(left, y, line, _BODY, "quiet")
        y -= 1.35 * _BODY / points
    y -= 4 / points
    top = y - 4 / points
    near = f" Mind: {sheet.hole.cautions[0]}." if sheet.hole.cautions else ""
    credit = f" Map: {sheet.hole.attribution}" if sheet.hole.attribution else ""
    lines = 5 + bool(near) + bool(credit)
    foot = wrapped(f"By {sheet.how}. {CAUTION}{near}{credit}", wide, _FOOT, lines)
    end = 0.022 + 1.3 * _FOOT * len(foot) / points
    for told in _fitting(_parts(sheet, 72 * SIZE[0] * column), (y - end) * points - 4):
        y -= told.above / points
        write(left, y, told.left, told.size, told.look)
        write(left + column, y, told.right, told.size, told.look, "right")
        y -= told.high / points
    write(left, end, "\n".join(foot), _FOOT, "quiet")
    _sketch(figure, sheet, theme, top)


def _sketch(figure: Figure, sheet: _Sheet, theme: Theme, top: float) -> None:
    """The hole, small, with the usual way of the ball; its upper edge is so high up the sheet."""
    from wideberth.plot.hole import map_of
    from wideberth.plot.page import Page

    ax = figure.add_axes((0.605, _LOW, 0.35, top - _LOW))
    map_of(sheet.hole, ax, theme, yards_from="neither")
    figure.set_facecolor("white")
    ax.set_anchor("N")
    places = [leg.start for leg in sheet.usual.legs]
    route = Page(sheet.hole).of([*places, sheet.hole.pin])
    ax.plot(*route.T, color=theme.paper, linewidth=3.4, alpha=0.8, zorder=4.0, solid_joinstyle="round")
    ax.plot(*route.T, color=theme.accent, linewidth=1.5, zorder=4.1, solid_joinstyle="round")
    ax.plot(*route[1:-1].T, color=theme.accent, marker="o", markersize=3.6, linestyle="none", zorder=4.2)
