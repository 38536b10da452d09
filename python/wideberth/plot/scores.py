"""Plans compared: the distribution of scores of each, its blow-up part, and how far it is behind the best."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from matplotlib.patches import Rectangle

from wideberth import _wideberth as core
from wideberth._table import measured, percent
from wideberth.plot import figure
from wideberth.plot.theme import Theme, theme_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._compare import Comparison
    from wideberth._plan_result import PlanResult

#: Inches of a new picture: its width, what is above and below the rows, and a row.
_WIDTH, _AROUND, _ROW = 8.2, 1.5, 0.66
#: Scores seen in a smaller share of all plays than this end the axis; the last bar holds them and all above.
_RARE = 0.002
#: The part of a row that the highest bar fills.
_BAR = 0.7
#: Where names, scores and differences lie across the axes, as (left, width).
_NAMES, _SCORES, _BEHIND = (0.0, 0.245), (0.25, 0.44), (0.745, 0.255)


def plot_scores(
    comparison: Comparison, ax: Axes | None = None, *, most: int = 8, title: str | None = None, theme: str = "light"
) -> Axes:
    """Draw the plans of a comparison, best first; ``Comparison.plot`` does the same.

    Each row is a plan: its mean, the share of plays by score with the blow-up part marked and told, and the difference
    to the best plan with its 95 % interval.

    Args:
        comparison: the comparison.
        ax: axes to draw on; None for a new figure.
        most: most plans shown, from the best down; 1 or more.
        title: title; None for the hole.
        theme: ``"light"`` or ``"dark"``.

    Returns:
        The axes given or made, as the frame of the picture; its ``child_axes`` are the panel of the scores and, where
        there are several plans, that of the differences.

    Raises:
        InputError: a theme that there is not, or no plan to show.

    """
    colours = theme_of(theme)
    if most < 1:
        raise core.InputError(f"most is {most}; it must be 1 or more")
    plans = comparison.plans[:most]
    rows = len(plans)
    ax = figure.on(ax, (_WIDTH, _AROUND + _ROW * rows), colours)
    ax.set(xlim=(0, 1), ylim=(rows, 0), xticks=[], yticks=[])
    inches = figure.inches(ax)[0]
    _names(ax, plans, colours, inches)
    several = rows > 1
    scores = _panel(ax, colours, (_SCORES[0], _SCORES[1] if several else 1 - _SCORES[0]), rows)
    _bars(scores, plans, comparison._ranking.blow_up_over_par, colours)
    if several:
        _behind(_panel(ax, colours, _BEHIND, rows), comparison, plans, colours)
    hole, over = comparison.hole, comparison._ranking.blow_up_over_par
    luck, paired = ("even", "") if comparison.luck == "even" else ("the same", "paired ")
    card = f"par {hole.par}, {hole.length:.0f} yd; {comparison.plays:,} plays of each plan on {luck} luck"
    figure.headline(ax, colours, title or f"{hole.name}: plans by mean score", card)
    note = f"Hatched: {over} over par or worse. Triangles: means. ± is one standard error."
    if several:
        note += f" Lines on the right: 95 % intervals of the {paired}differences."
        note += "" if comparison.settled else " Which plan is best is not settled."
    hidden = len(comparison.plans) - rows
    if hidden:
        note += f" {hidden} more plan{'s' if hidden > 1 else ''} behind these."
    figure.caption(ax, colours, note, 34)
    return ax


def _panel(ax: Axes, theme: Theme, across: tuple[float, float], rows: int) -> Axes:
    panel = ax.inset_axes((across[0], 0, across[1], 1))
    figure.paper(panel, theme)
    panel.set_ylim(rows, 0)
    panel.set_yticks([])
    return panel


def _names(ax: Axes, plans: list[PlanResult], theme: Theme, inches: float) -> None:
    points = 72 * inches * _NAMES[1]
    for row, plan in enumerate(plans):
        weight = "normal" if row else "bold"
        lines = figure.two_lines(plan.name, points, figure.BODY, weight)
        # A name of two lines leaves less room below it.
        middle = row + 0.5
        ax.text(
            0, middle, "\n".join(lines), fontsize=figure.BODY, color=theme.ink, va="bottom", ha="left", linespacing=1.1,
            fontweight=weight, parse_math=False,
        )  # fmt: skip
        mean = measured(plan.mean, plan.standard_error)
        figure.beside(ax, mean, (0, middle), (0, -2), figure.SMALL, theme.muted, va="top")
    for row in range(1, len(plans)):
        ax.axhline(row, color=theme.faint, linewidth=0.6, zorder=0)


def _last_score(plans: list[PlanResult]) -> int:
    """The score that the last bar begins with."""
    return max(
        max((s for s, share in plan.distribution.items() if share >= _RARE), default=max(plan.distribution))
        for plan in plans
    )


def _bars(panel: Axes, plans: list[PlanResult], over: int, theme: Theme) -> None:
    blow_up = plans[0]._blow_up_score
    first, last = min(min(plan.distribution) for plan in plans), max(_last_score(plans), blow_up)
    highest = max(max(plan.distribution.values()) for plan in plans)
    for row, plan in enumerate(plans):
        floor = row + 0.86
        for score in range(first, last + 1):
            share = plan.distribution.get(score, 0.0) if score < last else plan.probability(at_least=last)
            height = _BAR * share / highest
            bad = score >= blow_up
            bar = Rectangle((score - 0.41, floor - height), 0.82, height, zorder=2)
            bar.set(facecolor=theme.blow_up if bad else theme.plain, edgecolor=theme.paper, linewidth=0)
            if bad and height:
                bar.set(hatch="////", linewidth=0)
            panel.add_patch(bar)
        panel.plot([first - 0.5, last + 0.5], [floor, floor], color=theme.muted, linewidth=0.6, zorder=3)
        panel.plot(
            plan.mean, floor + 0.055, marker="^", markersize=4, color=theme.ink, linestyle="none", clip_on=False,
            markeredgewidth=0, zorder=4,
        )  # fmt: skip
        tallest = max(plan.distribution.get(score, 0.0) for score in range(blow_up, last + 1))
        told = percent(plan.blow_up, plan.blow_up_error)
        told = told if row else f"{told} are {over} over or worse"
        at = (blow_up - 0.41, floor - _BAR * tallest / highest)
        figure.beside(panel, told, at, (0, 3), figure.BODY, theme.blow_up, va="bottom", fontweight="bold", zorder=5)
    panel.set_xlim(first - 0.6, last + 0.6)
    panel.set_xticks(range(first, last + 1), [*(f"{s}" for s in range(first, last)), f"{last}+"])
    panel.set_xlabel("score", fontsize=figure.SMALL, color=theme.muted, labelpad=2)


def _behind(panel: Axes, comparison: Comparison, plans: list[PlanResult], theme: Theme) -> None:
    best = comparison.best.name
    ends = [0.0]
    for row, plan in enumerate(plans[1:], start=1):
        lead = comparison.difference(plan.name, best)
        low, high = lead.interval
        # One play of each tells no interval.
        ends += [lead.mean] if math.isnan(low) else [low, high]
        panel.plot([low, high], [row + 0.62] * 2, color=theme.ink, linewidth=2.4, solid_capstyle="butt", zorder=3)
        panel.plot(
            lead.mean, row + 0.62, marker="o", markersize=4, color=theme.paper, zorder=4, markeredgecolor=theme.ink
        )
        figure.beside(
            panel, f"{lead.mean:+.2f}", (lead.mean, row + 0.62), (0, 6), figure.SMALL, theme.ink, "center", "bottom",
            bbox={"facecolor": theme.paper, "linewidth": 0, "boxstyle": "square,pad=0.1"},
        )  # fmt: skip
    panel.axvline(0, color=theme.accent, linewidth=1.2, zorder=1)
    low, high = min(ends), max(ends)
    room = max(high - low, 0.02)
    panel.set_xlim(low - 0.14 * room, high + 0.2 * room)
    figure.beside(panel, " best", (0, 0.5), (0, 9), figure.BODY, theme.accent, va="top", fontweight="bold")
    panel.locator_params(axis="x", nbins=4)
    panel.set_xlabel("strokes behind the best", fontsize=figure.SMALL, color=theme.muted, labelpad=2)
