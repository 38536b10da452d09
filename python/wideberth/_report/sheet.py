"""The sheet for a round: eighteen holes on one side, the round on the other; folds to pocket size."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate
from typing import TYPE_CHECKING, Any

from wideberth import _wideberth as core
from wideberth._given import shown
from wideberth._report import pdf, words
from wideberth._target import Target

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from wideberth.plot.theme import Theme

#: What is asked for in place of a paper to get a small sheet a hole; and sizes of paper, inches.
BOOKLET = "booklet"
PAPERS = {"a4": (210 / 25.4, 297 / 25.4), "letter": (8.5, 11.0)}
#: Columns and rows of panels, as the sheet folds; there are two holes in each where one each is not enough.
_ACROSS, _DOWN = 3, 3
#: Points free around what a hole says, and across its map.
_MARGIN, _MAP = 9.0, 58.0
#: Sizes of text, points: the number of the hole, the score to make, the club, what is told, what explains.
_NUMBER, _MAKE, _CLUB, _BODY, _SMALL = 21.0, 14.0, 11.0, 8.6, 7.2
#: Points around what the back says.
_EDGE = 34.0
#: Sizes of the sentences on it, and of what stands below them.
_TURN, _SMALLEST = 9.0, 6.4

_FOOT = (
    "Model estimates for learning, made of averages that need not be yours: neither rulings nor guarantees. The Rules "
    "of Golf, the Committee, local rules and a qualified professional decide. Never play over people, roads or houses; "
    "nobody in range, nobody near your swing; “fore” at once; from under trees the safe line; stop for lightning. May "
    "be barred in competition (Rule 4.3)."
)


@dataclass(frozen=True)
class Said:
    """What the sheet says of one hole."""

    hole: core.Hole
    number: int
    par: int
    make: int
    #: Strokes so far once it is made.
    total: int
    made: float
    way: str
    club: str
    aim: str
    leave: float
    #: How often the milestones are reached, as the row of the back has it.
    milestones: list[str]
    worth_most: str
    press: str

    @property
    def turned(self) -> bool:
        """True where the way is another than that of the fewest strokes."""
        return self.way != "fewest strokes"


def sheet(target: Target, paper: str) -> bytes:
    """Both sides of the sheet as PDF, the same for the same target."""
    holes = said(target)
    return pdf.sheets(PAPERS[paper], lambda figure, draw, theme: draw(figure, target, holes, theme), (_front, _back))


def said(target: Target) -> list[Said]:
    """What there is to say, hole by hole."""
    c = target.plan().columns()
    totals = accumulate(int(make) for make in c["score_to_make"])
    return [
        Said(
            hole=hole,
            number=int(c["hole"][i]),
            par=hole.par,
            make=int(c["score_to_make"][i]),
            total=total,
            made=float(c["made"][i]),
            way=str(c["way"][i]),
            club=str(c["club"][i]),
            aim=str(c["aim"][i]),
            leave=float(c["leave"][i]),
            milestones=_milestones(c, i),
            worth_most=str(c["worth_most"][i]),
            press=str(c["press"][i]),
        )
        for i, (hole, total) in enumerate(zip(target.course.holes, totals, strict=True))
    ]


def _milestones(c: dict[str, Any], i: int) -> list[str]:
    """How often a ball is in play off the tee, and the first putt is for par or for bogey from within so many feet."""
    tee = f"in play off the tee {words.share(c['in_play'][i])}"
    putts = [
        f"1st putt for {what} ≤ {c[f'putt_for_{what}_ft'][i]:.0f} ft {words.share(c[f'putt_for_{what}'][i])}"
        for what in ("par", "bogey")
    ]
    return [tee, *putts]


def over_par(make: int, par: int) -> str:
    """A score next to par, as golfers say it."""
    names = {-2: "eagle", -1: "birdie", 0: "par", 1: "bogey", 2: "double bogey", 3: "triple bogey"}
    return names.get(make - par, f"{make - par} over")


def budget(holes: list[Said]) -> str:
    """The budget in a sentence: how many of which scores."""
    counts: dict[int, int] = {}
    for said in holes:
        counts[said.make - said.par] = counts.get(said.make - said.par, 0) + 1
    parts = []
    for over in sorted(counts):
        count, name = counts[over], over_par(over, 0)
        plural = name if count == 1 or name.endswith("over") else f"{name}s"
        parts.append(f"{count} {plural}")
    told = parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
    return f"{holes[-1].total} is {told}."


def _front(figure: Figure, target: Target, holes: list[Said], theme: Theme) -> None:
    """The holes, one or two to a panel, down the columns as they are played."""
    wide, high = 72 * figure.get_figwidth(), 72 * figure.get_figheight()
    rows = _DOWN if len(holes) <= _ACROSS * _DOWN else 2 * _DOWN
    across, down = wide / _ACROSS, high / rows
    for i, told in enumerate(holes):
        column, row = divmod(i, rows)
        _cell(figure, told, theme, (across * column, high - down * row), (across, down))
    _folds(figure, theme, rows)


def _folds(figure: Figure, theme: Theme, rows: int) -> None:
    """Where the sheet is folded: short marks at its edges, and a hair between holes."""
    from matplotlib.lines import Line2D

    def line(x: list[float], y: list[float], **look: Any) -> None:
        figure.add_artist(Line2D(x, y, color=theme.muted, **look))

    for i in range(1, _ACROSS):
        for y in ([0.0, 0.012], [0.988, 1.0]):
            line([i / _ACROSS] * 2, y, linewidth=0.8)
    for i in range(1, _DOWN):
        for x in ([0.0, 0.018], [0.982, 1.0]):
            line(x, [i / _DOWN] * 2, linewidth=0.8)
    for i in range(1, _ACROSS):
        line([i / _ACROSS] * 2, [0.02, 0.98], linewidth=0.3, linestyle=(0, (1, 4)))
    for i in range(1, rows):
        line([0.025, 0.975], [i / rows] * 2, linewidth=0.3, linestyle=(0, (1, 4)))


def _cell(figure: Figure, told: Said, theme: Theme, corner: tuple[float, float], size: tuple[float, float]) -> None:
    """One hole: what to make and how on the left, the hole on the right; the corner is the upper left one, points."""
    from wideberth.plot.figure import width, wrapped

    left, top = corner[0] + _MARGIN, corner[1] - _MARGIN
    room, floor = size[0] - 2 * _MARGIN - _MAP - 4, corner[1] - size[1] + 0.6 * _MARGIN
    write = _writer(figure)
    card = [f"par {told.par}, {told.hole.length:.0f} yd"]
    card += [] if told.hole.stroke_index is None else [f"stroke index {told.hole.stroke_index}"]
    number, make = f"{told.number}", f"make {told.make}"
    beside = left + width(number, _NUMBER, "bold") + 5
    for i, line in enumerate(card):
        write(beside, top - 2 - 1.3 * _SMALL * i, line, _SMALL, theme.muted)
    leaves = f", leaves {told.leave:.0f} yd" if told.leave >= 1 else ""
    # The way goes beside the club where it finds room.
    after = width(told.club, _CLUB, "bold") + 5
    fits = after + width(told.way, _BODY) <= room
    lines = [
        (number, _NUMBER, theme.ink, "bold", 1.18),
        (make, _MAKE, theme.accent, "bold", 1.3),
        (f"{over_par(told.make, told.par)} or better {words.share(told.made)}", _SMALL, theme.muted, "normal", 1.5),
        (told.club, _CLUB, theme.ink, "bold", 1.34),
        *([(told.way, _BODY, theme.accent, "normal", 1.28)] if told.turned and not fits else []),
        *[(line, _BODY, theme.ink, "normal", 1.26) for line in wrapped(f"{told.aim}{leaves}", room, _BODY, 3)],
        *[(line, _SMALL, theme.muted, "normal", 1.28) for line in told.milestones],
    ]
    # Everything is told: where there is much of it the lines move together, and where there is room a little apart.
    tight = min((top - floor) / sum(points * apart for _, points, _, _, apart in lines), 1.12)
    y = top
    for line, points, colour, weight, apart in lines:
        write(left, y, line, points, colour, weight)
        if line is make:
            aside = left + width(make, _MAKE, "bold") + 6
            write(aside, y - 0.76 * (_MAKE - _BODY), f"{told.total} so far", _BODY, theme.ink)
        if line is told.club and told.turned and fits:
            write(left + after, y - 0.76 * (_CLUB - _BODY), told.way, _BODY, theme.accent)
        y -= tight * apart * points
    turns = wrapped(told.press, room, _SMALL)
    if y - 6 - 1.35 * _SMALL * len(turns) > floor:
        for i, line in enumerate(turns):
            write(left, y - 6 - 1.35 * _SMALL * i, line, _SMALL, theme.ink)
    _map(figure, told.hole, theme, (corner[0] + size[0] - _MARGIN - _MAP, floor), (_MAP, top - floor))


def _map(figure: Figure, hole: core.Hole, theme: Theme, corner: tuple[float, float], size: tuple[float, float]) -> None:
    """The whole hole without words, as large as it fits, on white to save ink; the corner is its lower left one."""
    from matplotlib.patches import Rectangle

    from wideberth.plot.hole import area
    from wideberth.plot.page import Page

    wide, high = 72 * figure.get_figwidth(), 72 * figure.get_figheight()
    page = Page(hole)
    ax = figure.add_axes((corner[0] / wide, corner[1] / high, size[0] / wide, size[1] / high))
    ax.set_axis_off()
    ax.set(xlim=page.x, ylim=page.y)
    ax.set_aspect("equal", adjustable="box", anchor="NE")
    for feature in hole.features:
        area(ax, theme, feature.surface, [page.of(ring) for ring in feature.rings])
    for stand in hole.standing_trees:
        area(ax, theme, "trees", [page.of(ring) for ring in stand.rings])
    # What goes on beyond the map ends at a frame.
    frame = Rectangle((page.x[0], page.y[0]), page.width, page.height, fill=False, edgecolor=theme.faint, linewidth=1.0)
    ax.add_patch(frame)
    tee, pin = page.of(hole.tee), page.of(hole.pin)
    ax.plot(*page.of(hole.line_of_play).T, color=theme.ink, linewidth=0.5, linestyle=(0, (4, 3)), alpha=0.6)
    ax.plot(*tee, color=theme.ink, marker="s", markersize=2.2, linestyle="none")
    ax.plot(*pin, color=theme.strokes[1], marker="o", markersize=2.8, linestyle="none")


def _back(figure: Figure, target: Target, holes: list[Said], theme: Theme) -> None:
    """The round: the answer, the budget with what it leaves, how the way turns, cautions."""
    from wideberth.plot.figure import wrapped

    wide, high = 72 * figure.get_figwidth(), 72 * figure.get_figheight()
    write, across = _writer(figure), wide - 2 * _EDGE

    def paragraph(y: float, text: str, points: float, colour: str, weight: str = "normal") -> float:
        for line in wrapped(text, across, points, weight=weight):
            write(_EDGE, y, line, points, colour, weight)
            y -= 1.35 * points
        return y

    course, who = target.course, words.player(target.player)
    y = paragraph(high - _EDGE, f"{course.name}: breaking {target.target}", 15, theme.ink, "bold")
    y = paragraph(y - 1, f"{who}; par {course.par}, {course.length:,.0f} yd", 8.5, theme.muted)
    y = paragraph(y - 5, f"{target.summary} {budget(holes)}", 10.5, theme.ink)
    y = _table(figure, target, holes, theme, y - 8)
    turns = target.turns
    y = paragraph(y - 10, "How it turns with the score", 11, theme.ink, "bold")
    if not turns:
        y = paragraph(y, "Fewest strokes on every hole, whatever the score so far.", _TURN, theme.ink)
    floor = _EDGE + 44
    for turn in turns:
        if y - 1.35 * _TURN * len(wrapped(turn, across, _TURN)) < floor:
            y = paragraph(y, "… and more: target.turns tells all.", _TURN, theme.muted)
            break
        y = paragraph(y - 3, turn, _TURN, theme.ink)
    minded = [f"on {told.number}, {caution}" for told in holes for caution in told.hole.cautions[:1]]
    foot = f"{_FOOT} Mind: {'; '.join(minded)}." if minded else _FOOT
    credit = f" Map: {course.attribution}" if course.attribution else ""
    for i, line in enumerate(wrapped(f"{foot}{credit}", across, _SMALLEST, 6)):
        write(_EDGE, _EDGE + 34 - 1.3 * _SMALLEST * i, line, _SMALLEST, theme.muted)


#: Size of the text of the table, points, and from row to row in sizes.
_ROW, _APART = 8.6, 1.65

#: The columns of the back: what they are headed, where they begin as a share of the width, and how they are set.
_COLUMNS = (
    ("hole", 0.045, "right"),
    ("par", 0.085, "right"),
    ("yards", 0.14, "right"),
    ("make", 0.20, "right"),
    ("made", 0.265, "right"),
    ("so far", 0.335, "right"),
    ("chance", 0.415, "right"),
    ("off the tee", 0.44, "left"),
    ("worth most to reach", 0.72, "left"),
)


def _table(figure: Figure, target: Target, holes: list[Said], theme: Theme, y: float) -> float:
    """The budget, a row a hole; returns how far down the page it ends."""
    from matplotlib.lines import Line2D

    from wideberth.plot.figure import wrapped

    wide, high = 72 * figure.get_figwidth(), 72 * figure.get_figheight()
    across, write = wide - 2 * _EDGE, _writer(figure)

    def row(y: float, cells: list[str], colour: str, weight: str = "normal") -> None:
        for cell, (_, at, ha) in zip(cells, _COLUMNS, strict=True):
            write(_EDGE + at * across, y, cell, _ROW, colour, weight, ha)

    row(y, [head for head, _, _ in _COLUMNS], theme.muted)
    y -= _APART * _ROW
    for place, told in enumerate(holes):
        ahead = holes[place + 1].number if place + 1 < len(holes) else None
        chance = "" if ahead is None else words.share(target.chance_from(hole=ahead, strokes_so_far=told.total))
        worth = wrapped(told.worth_most, 0.28 * across, _ROW, 1)[0] if told.worth_most else ""
        way = f"; {told.way}" if told.turned else ""
        leaves = f", leaves {told.leave:.0f}" if told.leave >= 1 else ""
        tee = wrapped(f"{told.club}{leaves}{way}", 0.27 * across, _ROW)
        # What is left is on the front as well.
        club = tee[0] if len(tee) == 1 else wrapped(f"{told.club}{way}", 0.27 * across, _ROW, 1)[0]
        cells = [f"{told.number}", f"{told.par}", f"{told.hole.length:.0f}", f"{told.make}", words.share(told.made)]
        cells += [f"{told.total}", chance, club, worth]
        row(y, cells, theme.ink)
        y -= _APART * _ROW
        if place % 9 == 8 or ahead is None:
            line = Line2D([_EDGE / wide, 1 - _EDGE / wide], [(y + 2) / high] * 2, color=theme.faint, linewidth=0.6)
            figure.add_artist(line)
            y -= 3
    note = (
        "made: how often it is that or better; chance: to break the target from there on, with the strokes so far; "
        "worth most: the milestone that raises it most."
    )
    for said in wrapped(note, across, _SMALL):
        write(_EDGE, y - 2, said, _SMALL, theme.muted)
        y -= 1.35 * _SMALL
    return y


def _writer(figure: Figure) -> Any:
    """Writes at places told in points from the lower left corner of the sheet."""
    wide, high = 72 * figure.get_figwidth(), 72 * figure.get_figheight()

    def write(
        x: float, y: float, text: str, points: float, colour: str, weight: str = "normal", ha: str = "left"
    ) -> None:
        figure.text(
            x / wide,
            y / high,
            text,
            fontsize=points,
            color=colour,
            fontweight=weight,
            ha=ha,
            va="top",
            parse_math=False,
        )

    return write


def check_paper(paper: str) -> None:
    """Refuse a size of paper that there is not.

    Raises:
        InputError: it is none of those there are.
        TypeError: it is no text.

    """
    if not isinstance(paper, str):
        raise TypeError(f"paper is {shown(paper)}; it must be a str")
    if paper not in (*PAPERS, BOOKLET):
        raise core.InputError(f"paper is {shown(paper)}; it must be one of {', '.join(PAPERS)}, {BOOKLET}")
