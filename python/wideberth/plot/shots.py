"""Where the shots of some plays come to rest: dots, and the ellipse of two thirds of each stroke."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.patches import Ellipse
from matplotlib.patheffects import withStroke

from wideberth import _wideberth as core
from wideberth._plays import simulate
from wideberth.plot import figure
from wideberth.plot.hole import KEY, key, map_of, shown_width
from wideberth.plot.page import Array, Page
from wideberth.plot.surface_labels import kinds_shown
from wideberth.plot.theme import Theme, remembered, theme_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._wideberth import Hole, Plan, Player, _Lie, _Place, _Seed

#: What the strokes are called.
STROKES = ("tee shot", "2nd stroke", "3rd stroke", "4th and later")
#: Fewer balls of a stroke than this get no ellipse.
_LEAST = 12
#: Heights above the map.
_DOTS, _RINGS, _WORDS = 4.0, 5.0, 7.0


def plot_shots(
    hole: Hole,
    player: Player,
    plan: Plan,
    *,
    ax: Axes | None = None,
    plays: int = 200,
    seed: _Seed = 0,
    at: _Place | None = None,
    lie: _Lie | None = None,
    title: str | None = None,
    subtitle: str | None = None,
    theme: str | None = None,
) -> Axes:
    """Draw where the strokes of some plays come to rest; ``PlanResult.plot_shots`` does the same.

    A dot is a ball at rest before any relief, in the colour of its stroke; a cross is one that cost a penalty. An
    ellipse is where two thirds of the balls of a stroke lie closest together. Putts are left out.

    Args:
        hole: the hole.
        player: the player.
        plan: the plan played.
        ax: axes to draw on, with a picture of the hole or without; None for a new picture of the hole.
        plays: number of plays drawn.
        seed: a whole number that fixes the luck.
        at: where every play begins, as in :func:`wideberth.compare`; None for the tee.
        lie: the lie there.
        title: title; None for the plan's name.
        subtitle: the line below it; None for the hole and the number of plays.
        theme: ``"light"`` or ``"dark"``; None for that of the picture of the hole, or else light.

    Returns:
        The axes, in yards as in :func:`plot_hole`.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed.

    """
    before = None if ax is None else remembered(ax)
    colours = theme_of(theme) if theme is not None else before[0] if before else theme_of("light")
    strokes = simulate(hole, player, plan, plays=plays, seed=seed, at=at, lie=lie).columns()
    page = Page(hole)
    if before is None or ax is None:
        ax = map_of(hole, ax, colours, yards_from="both")
        key(ax, colours, kinds_shown(hole, page), shown_width(ax, page))
    full = strokes["club"] != "putt"
    rest = page.of(np.column_stack([strokes["rest_x"], strokes["rest_y"]]))
    number = np.minimum(strokes["stroke"], len(STROKES))
    first = STROKES[0] if at is None and lie is None else "1st stroke"
    rings = []
    for k, (colour, word) in enumerate(zip(colours.strokes, (first, *STROKES[1:]), strict=True), start=1):
        mine = full & (number == k)
        _dots(ax, rest[mine], strokes["penalty"][mine] > 0, colour)
        ring = _ring(ax, colours, rest[mine], colour)
        if ring is not None:
            rings.append((ring, colour, word))
    told = f"{hole.name}, par {hole.par}, {hole.length:.0f} yd: {plays:,} plays" if subtitle is None else subtitle
    width = shown_width(ax, page)
    figure.headline(ax, colours, plan.name if title is None else title, told, width)
    noted = remembered(ax)
    foot = KEY if noted is None else noted[1]
    figure.caption(
        ax,
        colours,
        "Dots: balls at rest, putts left out. ×: cost a penalty. Ellipses: two thirds of a stroke’s balls.",
        foot - 3,
        width,
    )
    figure.settle(ax)
    for ring, colour, word in rings:
        _tell(ax, colours, page, ring, colour, word)
    return ax


def _dots(ax: Axes, rest: Array, punished: Array, colour: str) -> None:
    safe = rest[~punished]
    ax.scatter(safe[:, 0], safe[:, 1], s=5.5, color=colour, alpha=0.55, linewidth=0, zorder=_DOTS)
    lost = rest[punished]
    ax.scatter(lost[:, 0], lost[:, 1], s=15, color=colour, marker="x", linewidth=1.0, alpha=0.9, zorder=_DOTS)


def _ring(ax: Axes, theme: Theme, rest: Array, colour: str) -> Ellipse | None:
    """The ellipse of two thirds, unless there are too few balls for one."""
    found = core.two_thirds_ellipse(rest) if len(rest) >= _LEAST else None
    if found is None:
        return None
    x, y, long, short, degrees = found
    ring = Ellipse((x, y), 2 * long, 2 * short, angle=degrees, facecolor="none", edgecolor=colour, linewidth=1.6)
    ring.set_zorder(_RINGS)
    # A rim of paper lifts the line off the dots.
    ring.set_path_effects([withStroke(linewidth=3.0, foreground=theme.paper, alpha=0.75)])
    ax.add_patch(ring)
    return ring


def _tell(ax: Axes, theme: Theme, page: Page, ring: Ellipse, colour: str, word: str) -> None:
    """Write which stroke an ellipse is of beside it, on a patch of paper, where no other word is."""
    outline = ring.get_patch_transform().transform(ring.get_path().vertices)
    gap = 0.008 * page.height
    label = ax.text(0, 0, word, fontsize=figure.SMALL, color=colour, fontweight="bold", zorder=_WORDS)
    label.set_bbox({"facecolor": theme.paper, "alpha": 0.82, "linewidth": 0, "boxstyle": "round,pad=0.22"})
    places = []
    for away in (1.0, 3.5, 7.0, 11.0):
        # To the right first, then to the left, then aslant, then above and below.
        for degrees in (0, 180, 30, -30, 150, -150, 60, -60, 120, -120, 90, -90):
            turn = np.radians(degrees)
            way = np.array([np.cos(turn), np.sin(turn)])
            x, y = outline[int((outline @ way).argmax())] + away * gap * way
            ha = "center" if abs(way[0]) < 0.3 else "left" if way[0] > 0 else "right"
            va = "center" if abs(way[1]) < 0.3 else "bottom" if way[1] > 0 else "top"
            places.append((float(x), float(y), ha, va))
    figure.free_place(ax, label, places)
