"""The booklet for a round: a small sheet a hole, with the hole to scale, to be carried."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wideberth._report import pdf, words
from wideberth._report.sheet import Said, over_par, said
from wideberth._target import Target

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from wideberth.plot.theme import Theme

#: Inches of a sheet (A6).
SIZE = (105 / 25.4, 148 / 25.4)
#: Sizes of text, points: the number of the hole, the score to make, the club, what is told, what explains, the foot.
_NUMBER, _MAKE, _CLUB, _BODY, _SMALL, _FOOT = 26.0, 18.0, 14.0, 9.0, 7.4, 5.8
#: Points free at the edges, and the share of the width that the words have.
_EDGE, _WORDS = 16.0, 0.56
#: Points below the map for its scale and for which way it lies.
_BELOW = 30.0

#: The cautions at the foot of a small sheet.
CAUTION = (
    "Model estimates for learning: the Rules of Golf, the Committee, local rules and a qualified professional decide. "
    "Nobody in range, nobody near your swing; “fore” at once; stop for lightning. May be barred in competition (Rule "
    "4.3)."
)


def booklet(target: Target) -> bytes:
    """A sheet a hole as PDF, the same for the same target."""
    return pdf.sheets(SIZE, lambda figure, told, theme: _draw(figure, target, told, theme), said(target))


def _draw(figure: Figure, target: Target, told: Said, theme: Theme) -> None:
    """One hole: the words on the left, the hole on the right, how it turns with the score below."""
    from wideberth.plot.figure import width, wrapped

    wide, high = 72 * SIZE[0], 72 * SIZE[1]
    room = _WORDS * wide - _EDGE

    def write(x: float, y: float, text: str, size: float, colour: str, weight: str = "normal") -> None:
        figure.text(
            x / wide, y / high, text, fontsize=size, color=colour, fontweight=weight, va="top", parse_math=False
        )

    y = high - _EDGE
    write(_EDGE, y, f"{told.number}", _NUMBER, theme.ink, "bold")
    beside = _EDGE + width(f"{told.number}", _NUMBER, "bold") + 7
    index = told.hole.stroke_index
    on_card = f"{told.hole.name}, par {told.par}, {told.hole.length:.0f} yd"
    on_card += "" if index is None else f", stroke index {index}"
    card = wrapped(on_card, wide - beside - _EDGE, _SMALL, 2)
    for i, line in enumerate(card):
        write(beside, y - 4 - 1.35 * _SMALL * i, line, _SMALL, theme.muted)
    y -= 1.35 * _NUMBER
    top = y
    write(_EDGE, y, f"make {told.make}", _MAKE, theme.accent, "bold")
    y -= 1.35 * _MAKE
    chance = f"{over_par(told.make, told.par)} or better {words.share(told.made)}"
    blocks = [
        (f"{told.total} so far when it is made", _BODY, theme.ink, "normal"),
        (chance, _SMALL, theme.muted, "normal"),
        ("Off the tee", _SMALL, theme.muted, "normal"),
        (told.club, _CLUB, theme.ink, "bold"),
        (f"aimed {told.aim}", _BODY, theme.ink, "normal"),
        *([(f"leaves {told.leave:.0f} yd", _BODY, theme.ink, "normal")] if told.leave >= 1 else []),
        *([(f"Play: {told.way}", _BODY, theme.accent, "bold")] if told.turned else []),
        ("Good enough, and how often", _SMALL, theme.muted, "normal"),
        *[(milestone, 0.95 * _BODY, theme.ink, "normal") for milestone in told.milestones],
        *([("Worth most to reach", _SMALL, theme.muted, "normal")] if told.worth_most else []),
        *([(told.worth_most, _BODY, theme.ink, "normal")] if told.worth_most else []),
    ]
    for text, size, colour, weight in blocks:
        # What explains goes with what follows it.
        y -= 4 if size == _SMALL else 0
        for line in wrapped(text, room, size, 3, weight):
            write(_EDGE, y, line, size, colour, weight)
            y -= 1.3 * size
    mind = f" Mind: {told.hole.cautions[0]}." if told.hole.cautions else ""
    credit = f" Map: {target.course.attribution}" if target.course.attribution else ""
    foot = wrapped(f"{CAUTION}{mind}{credit}", wide - 2 * _EDGE, _FOOT, 5)
    end = _EDGE - 6 + 1.3 * _FOOT * len(foot)
    press = wrapped(told.press, wide - 2 * _EDGE, _SMALL, 8)
    turn = end + 8 + 1.3 * _SMALL * len(press)
    for i, line in enumerate(press):
        write(_EDGE, turn - 1.3 * _SMALL * i, line, _SMALL, theme.ink)
    for i, line in enumerate(foot):
        write(_EDGE, end - 1.3 * _FOOT * i, line, _FOOT, theme.muted)
    _hole(figure, told, theme, (turn + _BELOW) / high, top / high)


def _hole(figure: Figure, told: Said, theme: Theme, low: float, top: float) -> None:
    """The hole to scale between two heights of the sheet, with yards to the pin."""
    from wideberth.plot.hole import map_of

    ax = figure.add_axes((_WORDS + 0.01, low, 0.34, top - low))
    map_of(told.hole, ax, theme, yards_from="green")
    figure.set_facecolor("white")
    ax.set_anchor("N")
