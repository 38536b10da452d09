"""Names written on the surfaces of a map where they fit."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from matplotlib.path import Path

from wideberth.plot import figure
from wideberth.plot.page import Array, Page

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._wideberth import Feature, Hole
    from wideberth.plot.theme import Theme

#: What is worth telling, and in which words; the tee and the green tell themselves by their markers.
WORDS = {
    "fairway": "fairway",
    "bunker": "bunker",
    "penalty_red": "red penalty area",
    "penalty_yellow": "yellow penalty area",
    "trees": "trees",
    "deep_rough": "deep rough",
    "out_of_bounds": "out of bounds",
}
#: Yards between two places at which the surface is looked up.
_CELL = 1.5
#: A name needs this many times its own size to be written.
_ROOM = 1.25


def kinds_shown(hole: Hole, page: Page) -> list[str]:
    """Which of the surfaces worth telling are on the page, fairway aside."""
    there = set(np.unique(_looked_up(hole, page)[2]))
    return [kind for kind in WORDS if kind in there and kind != "fairway"]


def _looked_up(hole: Hole, page: Page) -> tuple[Array, Array, Array]:
    """The places of a grid over the page, across and up, and what is seen there from above: trees, or the surface."""
    columns = np.arange(page.x[0] + _CELL / 2, page.x[1], _CELL)
    rows = np.arange(page.y[0] + _CELL / 2, page.y[1], _CELL)
    grid = page.plan(np.stack(np.meshgrid(columns, rows), axis=-1).reshape(-1, 2))
    seen = hole.surface_at(grid)
    for stand in hole.standing_trees:
        seen[_covered(stand, grid)] = "trees"
    return columns, rows, seen.reshape(len(rows), len(columns))


def _covered(feature: Feature, points: Array) -> Array:
    """Which of some places of the plan a feature covers."""
    outline, *holes = (Path(ring).contains_points(points) for ring in feature.rings)
    covered: Array = outline & ~np.any(holes, axis=0) if holes else outline
    return covered


def label_surfaces(hole: Hole, page: Page, ax: Axes, theme: Theme) -> list[str]:
    """Write the names of the surfaces on the map, each once, and every feature's own name; returns what found no room.

    A name is written along the page or up it, in the middle of the roomiest place that it fits.
    """
    columns, rows, seen = _looked_up(hole, page)
    wide, high = figure.inches(ax)
    yards_a_point = max(page.width / (72 * wide), page.height / (72 * high)) * 1.04
    taken = np.zeros(seen.shape, dtype=bool)
    left_over = []
    for kind, word in WORDS.items():
        mask = seen == kind
        named = [f for f in hole.features if f.surface == kind and f.name]
        placed = False
        for feature in named:
            own = mask & _within(page, feature, columns, rows)
            placed |= _write(ax, theme, kind, str(feature.name), own, taken, columns, rows, yards_a_point)
        if not placed and mask.any():
            placed = _write(ax, theme, kind, word, mask, taken, columns, rows, yards_a_point)
        if not placed and mask.any():
            left_over.append(kind)
    return left_over


def _within(page: Page, feature: Feature, columns: Array, rows: Array) -> Array:
    """The places inside the box around a feature."""
    ring = page.of(feature.rings[0])
    (x0, y0), (x1, y1) = ring.min(axis=0), ring.max(axis=0)
    inside: Array = ((rows >= y0) & (rows <= y1))[:, None] & ((columns >= x0) & (columns <= x1))[None, :]
    return inside


def _write(
    ax: Axes,
    theme: Theme,
    kind: str,
    word: str,
    mask: Array,
    taken: Array,
    columns: Array,
    rows: Array,
    yards_a_point: float,
) -> bool:
    """Write a word in the middle of the roomiest place; False where there is none."""
    size = figure.SMALL
    long, tall = (len(word) * figure.LETTER + 0.6) * size * yards_a_point, 1.35 * size * yards_a_point
    free = mask & ~taken
    for across, up, turned in ((long, tall, 0), (tall, long, 90)):
        at = _roomiest(free, across / _CELL, up / _CELL)
        if at is None:
            continue
        row, column = at
        x, y = float(columns[column]), float(rows[row])
        label = ax.text(
            x,
            y,
            word,
            fontsize=size,
            color=theme.ink,
            rotation=turned,
            ha="center",
            va="center",
            zorder=2.4,
            parse_math=False,
        )
        # The ground without its texture, so that the word can be read.
        label.set_bbox({"facecolor": theme.surfaces[kind].fill, "linewidth": 0, "boxstyle": "round,pad=0.25"})
        near_x, near_y = np.abs(columns - x) <= across / 2, np.abs(rows - y) <= up / 2
        taken |= near_y[:, None] & near_x[None, :]
        return True
    return False


def _roomiest(free: Array, across: float, up: float) -> tuple[int, int] | None:
    """The middle (row, column) of the largest box of a shape that is free all over; None where not even one fits."""
    sums = np.pad(free.astype(np.int64).cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
    best = None
    scale = _ROOM
    while True:
        h, w = max(int(np.ceil(up * scale)), 1), max(int(np.ceil(across * scale)), 1)
        if h > free.shape[0] or w > free.shape[1]:
            return best
        full = sums[h:, w:] - sums[:-h, w:] - sums[h:, :-w] + sums[:-h, :-w]
        where = np.argwhere(full == h * w)
        if not len(where):
            return best
        row, column = where[len(where) // 2]
        best = (int(row) + h // 2, int(column) + w // 2)
        scale *= 1.25
