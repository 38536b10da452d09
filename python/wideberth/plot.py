"""Pictures of holes and shots, on matplotlib (the extra ``plot``).

Surfaces are told apart by tone and texture as well as by hue, so that the pictures read without colour
vision and in grey print.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

try:
    import matplotlib.pyplot as plt
    from matplotlib.axes import Axes
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path
except ImportError as error:
    raise ImportError("pictures need matplotlib: pip install 'wideberth[plot]'") from error

from wideberth._plays import simulate

if TYPE_CHECKING:
    from wideberth._wideberth import Hole, Plan, Player

#: Ground that no feature covers.
ROUGH = "#dfe3cf"
INK = "#2b2b33"

#: Fill, edge and texture of each surface.
SURFACES: dict[str, dict[str, Any]] = {
    "tee": {"facecolor": "#a9c29a", "edgecolor": "#5d7a55"},
    "fairway": {"facecolor": "#bcd1a6", "edgecolor": "#8fa97c"},
    "first_cut": {"facecolor": "#cddab9", "edgecolor": "#b3c39c"},
    "rough": {"facecolor": ROUGH, "edgecolor": "#c4cab0"},
    "deep_rough": {"facecolor": "#c6c79e", "edgecolor": "#9b9d6f", "hatch": "''"},
    "fringe": {"facecolor": "#a5c6a0", "edgecolor": "#7fa67c"},
    "green": {"facecolor": "#7fb59a", "edgecolor": "#35705a"},
    "bunker": {"facecolor": "#f3e3b5", "edgecolor": "#b3914a", "hatch": ".."},
    "penalty_red": {"facecolor": "#a9c4de", "edgecolor": "#c1442e", "hatch": "~~"},
    "penalty_yellow": {"facecolor": "#a9c4de", "edgecolor": "#d9a400", "hatch": "~~"},
    "out_of_bounds": {"facecolor": "#eceae7", "edgecolor": "#aaa59f", "hatch": "//"},
    "trees": {"facecolor": "#94a582", "edgecolor": "#6d7d5c", "hatch": "oo"},
}
# Matplotlib has no waves: ponds get thin level lines.
for _water in ("penalty_red", "penalty_yellow"):
    SURFACES[_water]["hatch"] = "--"

#: One colour a stroke, from the first on: a sequence in lightness and hue that all kinds of colour vision
#: keep apart (after Okabe and Ito 2008).
STROKES = ("#0f4c75", "#c8553d", "#7a4b94", "#2b2b33")

Array = np.ndarray[Any, Any]


def _turn(hole: Hole) -> Array:
    """The rotation that turns the way from tee to pin up the page."""
    dx, dy = np.subtract(hole.pin, hole.tee)
    length = float(np.hypot(dx, dy))
    return np.array([[dy, -dx], [dx, dy]]) / length


def _on_page(hole: Hole, points: Any) -> Array:
    """Points of the plan on the page: tee at the bottom, pin straight above."""
    turned: Array = (np.asarray(points, dtype=float) - hole.tee) @ _turn(hole).T
    return turned


def plot_hole(hole: Hole, ax: Axes | None = None, *, title: str | None = None) -> Axes:
    """Draw a hole to scale, play up the page.

    Args:
        hole: the hole.
        ax: axes to draw on; None for a new figure.
        title: title; None for name, par and length.

    Returns:
        The axes, in yards from the tee: across the page to the right, up the page to the pin.

    """
    if ax is None:
        _, ax = plt.subplots(figsize=(5.2, 9), layout="constrained")
    line = _on_page(hole, hole.line_of_play)
    near = _frame(hole)
    ax.set_facecolor(ROUGH)
    for feature in hole.features:
        rings = [_on_page(hole, ring) for ring in feature.rings]
        ax.add_patch(PathPatch(_path(rings), linewidth=0.8, **SURFACES[feature.surface]))
    ax.plot(*line.T, color=INK, linewidth=0.7, linestyle=(0, (6, 5)), alpha=0.6)
    _arcs(hole, ax, near)
    pin = _on_page(hole, hole.pin)
    ax.plot(*pin, marker="P", markersize=8, color="white", markeredgecolor=INK, zorder=6)
    (x0, x1), (y0, y1) = near
    ax.set_xlim(x0, x1)
    ax.set_ylim(y0, y1)
    ax.set_aspect("equal")
    ax.set_xticks([])
    ax.set_yticks([])
    _scale(ax, x0, y0)
    ax.set_title(title or f"{hole.name}, par {hole.par}, {hole.length:.0f} yd", fontsize=10)
    return ax


def _frame(hole: Hole) -> tuple[tuple[float, float], tuple[float, float]]:
    """What of the plan is worth showing: the line of play and what is played to, with a margin."""
    played = [
        _on_page(hole, ring)
        for feature in hole.features
        if feature.surface in ("tee", "fairway", "green", "bunker")
        for ring in feature.rings
    ]
    points = np.concatenate([_on_page(hole, hole.line_of_play), *played])
    low, high = points.min(axis=0), points.max(axis=0)
    return (float(low[0]) - 45, float(high[0]) + 45), (float(low[1]) - 20, float(high[1]) + 30)


def _path(rings: list[Array]) -> Path:
    """A filled path with holes: rings wound opposite ways leave holes open."""
    vertices, codes = [], []
    for i, ring in enumerate(rings):
        ring = ring if i == 0 else ring[::-1]
        closed = np.vstack([ring, ring[:1]])
        vertices.append(closed)
        codes += [Path.MOVETO, *[Path.LINETO] * (len(ring) - 1), Path.CLOSEPOLY]
    return Path(np.concatenate(vertices), codes)


def _arcs(hole: Hole, ax: Axes, near: tuple[tuple[float, float], tuple[float, float]]) -> None:
    """Arcs of yards to the pin, labelled at the right edge of the page."""
    px, py = _on_page(hole, hole.pin)
    (_, x1), (y0, _) = near
    angle = np.linspace(-np.pi, 0, 181)
    for yards in range(100, int(py - y0), 50):
        x, y = px + yards * np.cos(angle), py + yards * np.sin(angle)
        ax.plot(x, y, color=INK, linewidth=0.4, alpha=0.25)
        across = x1 - 3 - px
        if across < yards:
            ax.text(
                x1 - 3,
                py - np.sqrt(yards**2 - across**2),
                f"{yards}",
                fontsize=6.5,
                color=INK,
                ha="right",
                va="bottom",
                clip_on=True,
            )


def _scale(ax: Axes, x0: float, y0: float) -> None:
    ax.plot([x0 + 8, x0 + 58], [y0 + 9, y0 + 9], color=INK, linewidth=1.6, solid_capstyle="butt")
    ax.text(x0 + 33, y0 + 11, "50 yd", fontsize=7, color=INK, ha="center", va="bottom")


def plot_shots(
    hole: Hole,
    player: Player,
    plan: Plan,
    *,
    ax: Axes | None = None,
    plays: int = 200,
    seed: int = 0,
    title: str | None = None,
) -> Axes:
    """Draw where the strokes of some plays come to rest.

    A dot is a ball at rest before any relief, in the colour of its stroke; a cross is one that cost a
    penalty. Putts are left out.

    Args:
        hole: the hole.
        player: the player.
        plan: the plan played.
        ax: axes to draw on; None for a new picture of the hole.
        plays: number of plays drawn.
        seed: fixes the luck.
        title: title; None for the plan's name and its mean score over these plays.

    Returns:
        The axes, in yards as in :func:`plot_hole`.

    """
    played = simulate(hole, player, plan, plays=plays, seed=seed)
    strokes = played.columns()
    if title is None:
        title = f"{plan.name}\nmean {played.scores.mean():.2f} over the {plays} plays shown"
    ax = plot_hole(hole, ax, title=title) if ax is None or not ax.patches else ax
    ax.set_title(title, fontsize=10)
    full = strokes["club"] != "putt"
    rest = _on_page(hole, np.column_stack([strokes["rest_x"], strokes["rest_y"]]))
    number = np.minimum(strokes["stroke"], len(STROKES))
    for k, colour in enumerate(STROKES, start=1):
        mine = full & (number == k)
        safe, punished = mine & (strokes["penalty"] == 0), mine & (strokes["penalty"] > 0)
        label = f"stroke {k}" + (" and later" if k == len(STROKES) else "")
        ax.scatter(rest[safe, 0], rest[safe, 1], s=7, color=colour, alpha=0.65, linewidth=0, label=label, zorder=4)
        ax.scatter(rest[punished, 0], rest[punished, 1], s=22, color=colour, marker="x", linewidth=1.1, zorder=5)
    ax.legend(
        fontsize=7,
        loc="upper center",
        bbox_to_anchor=(0.5, -0.005),
        ncols=2,
        frameon=False,
        title="balls at rest; × cost a penalty",
        title_fontsize=7,
        markerscale=2,
    )
    return ax
