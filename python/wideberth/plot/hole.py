"""A hole to scale, with its hazards, yardages, a scale and north."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import matplotlib as mpl
import numpy as np
from matplotlib.lines import Line2D
from matplotlib.patches import FancyArrowPatch, PathPatch, Rectangle
from matplotlib.path import Path

from wideberth import _wideberth as core
from wideberth._given import shown
from wideberth.plot import figure
from wideberth.plot.page import Array, Page
from wideberth.plot.surface_labels import WORDS, label_surfaces
from wideberth.plot.theme import Theme, remember, remembered, theme_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._wideberth import Hole

#: What may be asked for as ``yards_from``.
YARDS_FROM = ("tee", "green", "both", "neither")
#: Yards between two arcs.
_STEP = 50
#: Yards an inch of a new picture shows at least, and the largest it may be, inches.
_FINEST, _WIDEST, _HIGHEST = 26.0, 5.6, 8.0
#: What is left free for words around the map of a new picture, inches.
_MARGIN = (1.0, 1.35)
#: Points below the map at which the scale lies.
_FOOT = 9
#: Points below the map at which the key begins, from row to row of it, and of its samples.
KEY, _KEY_ROW, _SAMPLE = 27.0, 12.0, (15.0, 7.5)
#: How opaque crowns of trees are, as two digits after a colour.
_SHEER = "66"
#: Heights from the lowest layer up.
_GROUND, _GUIDES, _PIN = 1.0, 2.0, 6.0


def plot_hole(
    hole: Hole,
    ax: Axes | None = None,
    *,
    title: str | None = None,
    theme: str = "light",
    yards_from: str = "both",
) -> Axes:
    """Draw a hole to scale, play up the page; ``Hole.plot`` does the same.

    Args:
        hole: the hole.
        ax: axes to draw on; None for a new figure.
        title: title; None for name, par and length.
        theme: ``"light"`` or ``"dark"``.
        yards_from: arcs of yards from the ``"tee"``, to the ``"green"`` (to the pin), ``"both"`` or ``"neither"``.

    Returns:
        The axes, in yards from the tee: across the page to the right, and up the page towards the pin.

    Raises:
        InputError: a theme or a ``yards_from`` that there is not.

    """
    colours = theme_of(theme)
    if yards_from not in YARDS_FROM:
        raise core.InputError(f"yards_from is {shown(yards_from)}; it must be one of {', '.join(YARDS_FROM)}")
    ax = map_of(hole, ax, colours, yards_from=yards_from)
    card = f"par {hole.par}, {hole.length:.0f} yd"
    page = Page(hole)
    width = shown_width(ax, page)
    figure.headline(ax, colours, title or hole.name, "" if title else card, width)
    key(ax, colours, label_surfaces(hole, page, ax, colours), width)
    return ax


def map_of(hole: Hole, ax: Axes | None, theme: Theme, *, yards_from: str) -> Axes:
    """Draw the map alone, without words about it."""
    page = Page(hole)
    finest = max(_FINEST, page.height / _HIGHEST, page.width / _WIDEST)
    wide, high = page.width / finest + _MARGIN[0], page.height / finest + _MARGIN[1]
    ax = figure.on(ax, (max(wide, 3.1), high), theme)
    ax.set(xlim=page.x, ylim=page.y, aspect="equal", xticks=[], yticks=[])
    rough = theme.surfaces["rough"].fill
    ax.add_patch(Rectangle((page.x[0], page.y[0]), page.width, page.height, color=rough, linewidth=0, zorder=_GROUND))
    for feature in hole.features:
        area(ax, theme, feature.surface, [page.of(ring) for ring in feature.rings])
    # Trees stand above whatever ground is drawn on them, which is seen through their crowns.
    trees = theme.surfaces["trees"]
    crowns = replace(theme, surfaces={"trees": replace(trees, fill=trees.fill + _SHEER)})
    for stand in hole.standing_trees:
        area(ax, crowns, "trees", [page.of(ring) for ring in stand.rings])
    line = page.of(hole.line_of_play)
    ax.plot(*line.T, color=theme.ink, linewidth=0.8, linestyle=(0, (5, 5)), alpha=0.5, zorder=_GUIDES)
    if yards_from in ("tee", "both"):
        _arcs(ax, theme, page, line, line[0], "left", "from tee")
    if yards_from in ("green", "both"):
        _arcs(ax, theme, page, line[::-1], page.of(hole.pin), "right", "to pin")
    _tee_and_pin(ax, theme, page.of(hole.tee), page.of(hole.pin))
    _scale(ax, theme, page)
    lower = _north(ax, theme, page, hole.north_up)
    remember(ax, theme, KEY + lower)
    return ax


def shown_width(ax: Axes, page: Page) -> float:
    """Inches across the map once it is to scale, or across all of a new figure that holds nothing else."""
    wide, high = figure.inches(ax)
    to_scale = min(wide, high * page.width / page.height)
    alone = len(ax.figure.axes) == 1
    return max(ax.figure.get_figwidth() - 0.9, to_scale) if alone else max(to_scale, 1.6)  # type: ignore[union-attr]


def area(ax: Axes, theme: Theme, surface: str, rings: list[Array], height: float = _GROUND) -> None:
    """One feature: its ground, its texture and its outline, at a height above the lowest layer."""
    look, path = theme.surfaces[surface], ringed(rings)
    with mpl.rc_context({"hatch.linewidth": 0.45}):
        patch = PathPatch(path, facecolor=look.fill, edgecolor=look.edge, linewidth=0, zorder=height)
        patch.set_hatch(look.hatch)
        ax.add_patch(patch)
    if look.width:
        line: Any = {"edgecolor": look.edge, "linewidth": look.width, "linestyle": look.dashes}
        ax.add_patch(PathPatch(path, facecolor="none", zorder=height, **line))


def ringed(rings: list[Array]) -> Path:
    """A filled path with holes: rings wound opposite ways leave holes open."""
    vertices, codes = [], []
    for i, ring in enumerate(rings):
        ring = ring if i == 0 else ring[::-1]
        closed = np.vstack([ring, ring[:1]])
        vertices.append(closed)
        codes += [Path.MOVETO, *[Path.LINETO] * (len(ring) - 1), Path.CLOSEPOLY]
    return Path(np.concatenate(vertices), codes)


def _arcs(ax: Axes, theme: Theme, page: Page, line: Array, start: Array, side: str, what: str) -> None:
    """Arcs of yards around a start from the line of play to one edge of the page, told in the margin beyond it."""
    edge = page.x[0] if side == "left" else page.x[1]
    away = edge - start[0]
    up = 1.0 if side == "left" else -1.0
    told: list[float] = []
    for yards in range(_STEP, int(page.height + page.width), _STEP):
        if yards <= abs(away):
            continue
        at_edge = start[1] + up * np.sqrt(yards**2 - away**2)
        inside = page.y[0] + 3 < at_edge < page.y[1] - 3
        first = _angle(_first_at(line, start, yards), start)
        last = _angle(np.array([edge, at_edge]), start)
        if first is None or last is None or not inside:
            continue
        sweep = np.linspace(first, last, 60)
        x, y = start[0] + yards * np.cos(sweep), start[1] + yards * np.sin(sweep)
        ax.plot(x, y, color=theme.ink, linewidth=0.5, alpha=0.42, zorder=_GUIDES)
        told.append(float(at_edge))
        _in_margin(ax, theme, edge, float(at_edge), f"{yards}", side)
    if told:
        top, low = max(told), min(told)
        # As far as two lines need.
        wide, high = figure.inches(ax)
        away = 15.0 / 72 * max(page.height / high, page.width / wide)
        beyond = top + away if top + away < page.y[1] else low - away
        _in_margin(ax, theme, edge, beyond, what, side, bold=True)


def _in_margin(ax: Axes, theme: Theme, edge: float, y: float, text: str, side: str, *, bold: bool = False) -> None:
    by, ha = ((-4, 0), "right") if side == "left" else ((4, 0), "left")
    colour = theme.ink if bold else theme.muted
    figure.beside(ax, text.replace(" ", "\n"), (edge, y), by, figure.SMALL, colour, ha, linespacing=1.05)


def _first_at(line: Array, start: Array, yards: float) -> Array | None:
    """Where a line first is so far from a start."""
    for a, b in pairwise(line):
        steps = a + np.linspace(0, 1, 200)[:, None] * (b - a)
        far = np.hypot(*(steps - start).T) >= yards
        if far.any():
            found: Array = steps[int(far.argmax())]
            return found
    return None


def _angle(at: Array | None, start: Array) -> float | None:
    """Direction of a place from a start, radians, measured so that no arc across the page jumps."""
    if at is None:
        return None
    dx, dy = at - start
    # Up the page from the left edge the angles lie about a quarter turn, down it about three.
    return float(np.arctan2(dy, dx)) % (2 * np.pi)


def _tee_and_pin(ax: Axes, theme: Theme, tee: Array, pin: Array) -> None:
    """Two tee markers and a flag, in points, so that they are as large on every map."""
    around_tee = figure.points_around(ax, float(tee[0]), float(tee[1]), ax.transData)
    ax.add_line(
        Line2D(
            [-4.5, 4.5], [0, 0], linestyle="none", marker="s", markersize=2.6, color=theme.ink, transform=around_tee,
            zorder=_PIN,
        )
    )  # fmt: skip
    around_pin = figure.points_around(ax, float(pin[0]), float(pin[1]), ax.transData)
    staff = Line2D([0, 0], [0, 15], color=theme.ink, linewidth=1.1, transform=around_pin, zorder=_PIN)
    staff.set_solid_capstyle("round")
    ax.add_line(staff)
    pennant = Path([(0.4, 15.2), (9.5, 12.2), (0.4, 9.2), (0.4, 15.2)], closed=True)
    ax.add_patch(PathPatch(pennant, color=theme.strokes[1], linewidth=0, transform=around_pin, zorder=_PIN))
    ax.add_line(
        Line2D([0], [0], marker="o", markersize=2.6, color=theme.ink, transform=around_pin, zorder=_PIN, linestyle="")
    )


def _scale(ax: Axes, theme: Theme, page: Page) -> None:
    """A bar of fifty yards below the map, in two halves: its ends are yards across and points down."""
    below = ax.get_xaxis_transform() + figure.down(ax, _FOOT)
    for start, end, colour, width in ((0, 50, theme.ink, 3.6), (25.4, 49.6, theme.paper, 2.2)):
        bar = Line2D([page.x[0] + start, page.x[0] + end], [0, 0], color=colour, linewidth=width, zorder=_PIN)
        bar.set(transform=below, clip_on=False, solid_capstyle="butt")
        ax.add_line(bar)
    at, across = (page.x[0] + 50, 0), ax.get_xaxis_transform()
    figure.beside(ax, "50 yd", at, (4, -_FOOT), figure.SMALL, theme.ink, xycoords=across)


def _north(ax: Axes, theme: Theme, page: Page, known: bool) -> float:
    """An arrow to the north below the map, or the words that play goes up the page where north is not known.

    Returns by how many points they lie below the scale, for want of room beside it.
    """
    wide, high = figure.inches(ax)
    # Titles and keys will take some of the height.
    a_yard = 72 * min(wide / page.width, 0.8 * high / page.height)
    word = "north" if known else "play up the page"
    taken = 50 * a_yard + (6 + len(word)) * figure.LETTER * figure.SMALL + (32 if known else 12)
    lower = _KEY_ROW if taken > page.width * a_yard else 0.0
    if not known:
        by = (0, -_FOOT - lower)
        figure.beside(ax, word, (1, 0), by, figure.SMALL, theme.muted, "right", xycoords="axes fraction")
        return lower
    north = page.turn @ np.array([0.0, 1.0])
    middle = np.array([-9.0, -_FOOT - 4 - lower])
    around = figure.points_around(ax, 1, 0)
    tail, head = middle - 8.5 * north, middle + 5.5 * north
    ax.add_patch(
        FancyArrowPatch(
            tuple(tail),
            tuple(head),
            arrowstyle="-|>,head_length=4.4,head_width=2.2",
            mutation_scale=1,
            shrinkA=0,
            shrinkB=0,
            linewidth=1.0,
            color=theme.ink,
            transform=around,
            clip_on=False,
            zorder=_PIN,
        )
    )
    x, y = float(middle[0]) - 13.5, float(middle[1])
    ax.text(x, y, word, transform=around, fontsize=figure.SMALL, color=theme.ink, ha="right", va="center")
    return lower


def key(ax: Axes, theme: Theme, kinds: list[str], width: float) -> None:
    """Samples of surfaces below the map, in rows as wide as so many inches."""
    noted = remembered(ax)
    x, y = 0.0, -(KEY if noted is None else noted[1])
    for kind in kinds:
        look, word = theme.surfaces[kind], WORDS[kind]
        wide = _SAMPLE[0] + 4 + len(word) * figure.LETTER * figure.SMALL + 7
        if x and x + wide > 72 * width:
            x, y = 0.0, y - _KEY_ROW
        around = figure.points_around(ax, 0, 0)
        with mpl.rc_context({"hatch.linewidth": 0.45}):
            sample = Rectangle((x, y - _SAMPLE[1] / 2), *_SAMPLE, facecolor=look.fill, edgecolor=look.edge)
            sample.set(transform=around, clip_on=False, linewidth=max(look.width, 0.5), hatch=look.hatch)
            ax.add_patch(sample)
        ax.text(
            x + _SAMPLE[0] + 4, y, word, transform=around, fontsize=figure.SMALL, color=theme.ink, ha="left",
            va="center", clip_on=False,
        )  # fmt: skip
        x += wide
    remember(ax, theme, (_KEY_ROW if kinds else 0.0) - y)
