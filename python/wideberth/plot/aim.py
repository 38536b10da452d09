"""Score against aim: what a few yards to the left or to the right cost."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from wideberth._table import percent
from wideberth.plot import figure
from wideberth.plot.theme import Theme, theme_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._aim import AimSweep

#: Inches of a new picture.
_SIZE = (6.6, 5.4)
#: Where the panels of the score and of the blow-ups lie up the axes, as (bottom, height).
_SCORE, _BLOW_UP = (0.38, 0.56), (0.0, 0.27)


def plot_aim(sweep: AimSweep, ax: Axes | None = None, *, title: str | None = None, theme: str = "light") -> Axes:
    """Draw an aim sweep; ``AimSweep.plot`` does the same.

    Above, the mean score by aim within a band of one standard error to either side, the best aim marked; below, the
    share of plays that blew up, with the same band.

    Args:
        sweep: the sweep.
        ax: axes to draw on; None for a new figure.
        title: title; None for the hole and the club.
        theme: ``"light"`` or ``"dark"``.

    Returns:
        The axes given or made, as the frame of the picture; its ``child_axes`` are the panel of the score and that of
        the blow-ups.

    Raises:
        InputError: a theme that there is not.

    """
    colours = theme_of(theme)
    ax = figure.on(ax, _SIZE, colours)
    ax.set(xticks=[], yticks=[])
    columns = sweep.columns()
    aim = columns["aim_right"]
    score = ax.inset_axes((0.0, _SCORE[0], 1.0, _SCORE[1]))
    risk = ax.inset_axes((0.0, _BLOW_UP[0], 1.0, _BLOW_UP[1]), sharex=score)
    for panel in (score, risk):
        figure.paper(panel, colours)
        panel.grid(axis="y", color=colours.faint, linewidth=0.6)
        panel.set_axisbelow(True)
    _band(score, aim, columns["mean"], columns["standard_error"], colours.accent)
    _band(risk, aim, 100 * columns["blow_up"], 100 * columns["blow_up_error"], colours.blow_up)
    _best(score, risk, sweep, colours)
    over = sweep.comparison._ranking.blow_up_over_par
    _words(score, colours, "mean score")
    safest = percent(sweep.best.result.blow_up, sweep.best.result.blow_up_error)
    _words(risk, colours, f"{over} over par or worse, % of plays: {safest} at the best aim")
    risk.set_ylim(bottom=0)
    risk.locator_params(axis="y", nbins=3)
    score.locator_params(axis="y", nbins=6)
    _sides(score, risk, aim, colours)
    hole = sweep.comparison.hole
    figure.headline(
        ax,
        colours,
        title or f"{hole.name}: where to aim the {sweep.club}",
        f"par {hole.par}, {hole.length:.0f} yd; {sweep.comparison.plays:,} plays of each aim on the same luck",
    )
    figure.caption(ax, colours, "Bands: one standard error to either side.", 36)
    return ax


def _band(panel: Axes, x: figure.Numbers, y: figure.Numbers, error: figure.Numbers, colour: str) -> None:
    panel.fill_between(x, y - error, y + error, color=colour, alpha=0.22, linewidth=0, zorder=2)
    panel.plot(x, y, color=colour, linewidth=1.6, marker="o", markersize=3.2, markeredgewidth=0, zorder=3)


def _words(panel: Axes, theme: Theme, text: str) -> None:
    panel.set_title(text, loc="left", fontsize=figure.BODY, color=theme.ink, pad=5)


def _best(score: Axes, risk: Axes, sweep: AimSweep, theme: Theme) -> None:
    best = sweep.best
    at, plan = best.aim_right, best.result
    for panel in (score, risk):
        panel.axvline(at, color=theme.ink, linewidth=0.8, linestyle=(0, (4, 3)), zorder=1)
    score.plot(at, plan.mean, marker="o", markersize=8, color=theme.paper, markeredgecolor=theme.ink, zorder=4)
    score.plot(at, plan.mean, marker="o", markersize=3.6, color=theme.ink, zorder=5)
    low, high = score.get_ylim()
    score.set_ylim(low - 0.18 * (high - low), high)
    left, right = min(a.aim_right for a in sweep.aims), max(a.aim_right for a in sweep.aims)
    to_left = at > (left + right) / 2
    figure.beside(
        score, f"best: {best.words}, {plan.mean:.2f}", (at, plan.mean), (-8 if to_left else 8, -11), figure.BODY,
        theme.ink, "right" if to_left else "left", "top", fontweight="bold", zorder=6,
    )  # fmt: skip


def _sides(score: Axes, risk: Axes, aim: figure.Numbers, theme: Theme) -> None:
    """Yards below the lower panel, told as a coach does: left and right of the line of play."""
    ticks = [t for t in risk.get_xticks() if aim.min() - 1e-9 <= t <= aim.max() + 1e-9]
    risk.set_xticks(ticks, ["line" if abs(t) < 1e-9 else f"{abs(t):g} {'right' if t > 0 else 'left'}" for t in ticks])
    score.tick_params(labelbottom=False)
    risk.set_xlabel("aim, yards off the line of play", fontsize=figure.SMALL, color=theme.muted, labelpad=2)
    pad = 0.03 * float(np.ptp(aim))
    score.set_xlim(float(aim.min()) - pad, float(aim.max()) + pad)
