"""A player's bag: every club's pattern on one yardage picture, to scale."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.patches import Ellipse

from wideberth import _explain
from wideberth import _wideberth as core
from wideberth.plot import figure
from wideberth.plot.page import Array
from wideberth.plot.theme import Theme, theme_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._wideberth import Player

#: Inches of a new picture, at most so high, and of those what is around the pattern and its columns.
_SIZE, _ROUND = (6.4, 8.6), (0.5, 1.6)
#: Points from the picture to the columns beside it, and where they begin: club, carry and run, depth, width;
#: and where the last ends.
_LEADER, _COLUMNS, _WIDE = 16.0, (18.0, 122.0, 156.0, 190.0), 194.0
#: Points between two rows of the columns.
_ROW = 12.5
#: Within what two thirds finish: to the left and the right of the aim, and along it, yards.
Box = tuple[float, float, float, float]
#: Yards between two arcs.
_STEP = 25


def plot_bag(
    player: Player,
    ax: Axes | None = None,
    *,
    title: str | None = None,
    theme: str = "light",
    shots: int = 60,
    seed: int = 0,
) -> Axes:
    """Draw every club of a player on one picture; ``Player.plot`` does the same and says what is drawn.

    Args:
        player: the player.
        ax: axes to draw on; None for a new figure.
        title: title; None for the player's name and handicap.
        theme: ``"light"`` or ``"dark"``.
        shots: dots of every club, 1 to 100,000.
        seed: a whole number that fixes the luck of the dots.

    Returns:
        The axes, in yards: across the page to the right of the aim, and up the page along it.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed.

    """
    colours = theme_of(theme)
    clubs = core.club_shots(player, shots=shots, seed=seed)
    table = player.table().columns()
    boxes: list[Box] = list(
        zip(*(table[end].tolist() for end in ("left_end", "right_end", "short_end", "long_end")), strict=True)
    )
    aside, low, high = _extent(boxes)
    # Wide patterns of short hitters need less height than there is.
    to_scale = (high - low) * (_SIZE[0] - _ROUND[0] - _WIDE / 72) / (2 * aside)
    ax = figure.on(ax, (_SIZE[0], min(_SIZE[1], to_scale + _ROUND[1])), colours)
    ax.set(xticks=[], yticks=[])
    figure.headline(
        ax,
        colours,
        title or f"{_explain.titled(player)}: the bag",
        "full shots from a good lie, level medium ground, still air",
    )
    below = f"; those that end short of {low:.0f} yd lie below the picture" if low > 0 else ""
    figure.caption(
        ax,
        colours,
        f"Yards to scale. Dots: {'1 shot' if shots == 1 else f'{shots} shots'} of each club, mishits included{below}. "
        "Ellipses: as deep and as wide as the columns say; two "
        "thirds of a club’s shots finish within the depth, two thirds within the width, and fewer within both.",
        10,
    )
    a_point = _scale(ax, aside, low, high)
    _arcs(ax, colours, aside)
    for i, ((_, rest), box) in enumerate(zip(clubs, boxes, strict=True)):
        _pattern(ax, rest, box, aside, colours.strokes[i % 3])
    ends = [(right, (short + long) / 2) for _, right, short, long in boxes]
    _columns(ax, colours, table, ends, aside, a_point)
    return ax


def _extent(boxes: list[Box]) -> tuple[float, float, float]:
    """Yards to either side, and the lowest and the highest y, that show every club with some room around it."""
    low = max(min(short for _, _, short, _ in boxes) - 18, -5.0)
    high = max(long for _, _, _, long in boxes) + 20
    aside = max(max(-left, right) + 0.5 * (right - left) for left, right, _, _ in boxes)
    return max(aside, 20.0) + 6, low, high


def _scale(ax: Axes, aside: float, low: float, high: float) -> float:
    """Set the limits so that the pattern and the columns beside it fit; returns yards a point."""
    figure.settle(ax)
    wide, high_points = (72 * inches for inches in figure.inches(ax))
    a_point = max((high - low) / high_points, 2 * aside / max(wide - _WIDE, 30.0)) * 1.02
    ax.set_xlim(-aside, aside + _WIDE * a_point)
    ax.set_ylim(low, high)
    ax.set_aspect("equal", anchor="NW")
    return a_point


def _arcs(ax: Axes, theme: Theme, aside: float) -> None:
    """Arcs of yards around the player, told at the left edge, and the line of the aim."""
    left, right, (low, high) = -aside, aside, ax.get_ylim()
    ax.plot([0, 0], [low, high], color=theme.faint, linewidth=0.9, zorder=1)
    across = np.linspace(left, right, 120)
    for yards in range(_STEP, int(high + right), _STEP):
        if yards <= right:
            continue
        y = np.sqrt(yards**2 - across**2)
        if not low + 2 < y[0] < high - 2:
            continue
        ax.plot(across, y, color=theme.faint, linewidth=0.9 if yards % 50 == 0 else 0.5, zorder=1)
        figure.beside(ax, f"{yards}", (left, float(y[0])), (-4, 0), figure.SMALL, theme.muted, "right")


def _pattern(ax: Axes, rest: Array, box: Box, aside: float, colour: str) -> None:
    shown = rest[np.abs(rest[:, 0]) < aside]
    ax.scatter(shown[:, 0], shown[:, 1], s=4, color=colour, alpha=0.4, linewidth=0, zorder=2)
    left, right, short, long = box
    middle = ((left + right) / 2, (short + long) / 2)
    for fill, edge, alpha, z in ((colour, "none", 0.10, 3), ("none", colour, 1.0, 4)):
        ring = Ellipse(middle, right - left, long - short, facecolor=fill, edgecolor=edge, alpha=alpha)
        ring.set(linewidth=1.4, zorder=z)
        ax.add_patch(ring)


def _columns(
    ax: Axes,
    theme: Theme,
    table: dict[str, Array],
    ends: list[tuple[float, float]],
    right: float,
    a_point: float,
) -> None:
    """The clubs in a column beside the picture, each level with its pattern or nearly, with figures from the table."""
    rows = figure.apart([end[1] for end in ends], _ROW * a_point)
    edge = ax.transData
    for i, (end, y) in enumerate(zip(ends, rows, strict=True)):
        colour = theme.strokes[i % 3]
        around = figure.points_around(ax, right, y, edge)
        ax.plot([end[0], right], [end[1], y], color=colour, linewidth=0.7, alpha=0.8, zorder=1.5, clip_on=False)
        ax.plot([0, _LEADER - 2], [0, 0], color=colour, linewidth=0.7, alpha=0.8, transform=around, clip_on=False)
        name = figure.wrapped(str(table["club"][i]), _COLUMNS[1] - _COLUMNS[0] - 14, figure.BODY, 1)[0]
        cells = [name, *(f"{table[key][i]:.0f}" for key in ("total", "depth", "width"))]
        for k, (x, cell) in enumerate(zip(_COLUMNS, cells, strict=True)):
            ax.text(
                x, 0, cell, transform=around, fontsize=figure.BODY, color=colour if k == 0 else theme.ink,
                fontweight="bold" if k == 0 else "normal", ha="left" if k == 0 else "right", va="center",
                clip_on=False, parse_math=False,
            )  # fmt: skip
    head = figure.points_around(ax, right, max(rows), edge)
    for x, word, ha in zip(_COLUMNS, ("", "total", "depth", "width"), ("left", *["right"] * 3), strict=True):
        ax.text(
            x, _ROW + 2, word, transform=head, fontsize=figure.SMALL, color=theme.muted, ha=ha, va="center",
            clip_on=False,
        )  # fmt: skip
