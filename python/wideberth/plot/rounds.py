"""Rounds: the distribution of totals, the budget of a target by hole, and what practice is worth."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from wideberth import _wideberth as core
from wideberth._report import words
from wideberth._table import measured, percent
from wideberth.plot import figure
from wideberth.plot.theme import theme_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._practice import PracticeGains
    from wideberth._rounds import PlayedRounds
    from wideberth._target import Target

#: Inches of a new picture: its width, and its height or what is above and below rows and the height of a row.
_WIDTH, _HEIGHT, _AROUND, _ROW = 7.4, 3.9, 1.5, 0.27
#: Totals rarer than this on both ends are left out of the axis.
_RARE = 0.001


def plot_rounds(
    played: PlayedRounds, ax: Axes | None = None, *, title: str | None = None, theme: str = "light"
) -> Axes:
    """Draw the distribution of the totals of rounds; ``PlayedRounds.plot`` does the same.

    A bar a total, the mean marked, and the totals that one round in ten does not exceed and exceeds.

    Args:
        played: the rounds.
        ax: axes to draw on; None for a new figure.
        title: title; None for the course and the player.
        theme: ``"light"`` or ``"dark"``.

    Returns:
        The axes.

    Raises:
        InputError: a theme that there is not.

    """
    colours = theme_of(theme)
    ax = figure.on(ax, (_WIDTH, _HEIGHT), colours)
    shares = {total: share for total, share in played.distribution.items() if share >= _RARE} or played.distribution
    totals = np.arange(min(shares), max(shares) + 1)
    heights = np.array([100 * played.distribution.get(int(total), 0.0) for total in totals])
    low, high = played.quantile(0.1), played.quantile(0.9)
    middle = (totals >= low) & (totals <= high)
    ax.bar(totals[middle], heights[middle], width=0.82, color=colours.plain)
    ax.bar(totals[~middle], heights[~middle], width=0.82, color=colours.faint)
    ax.axvline(played.mean, color=colours.accent, linewidth=1.4)
    figure.beside(
        ax, f"mean {measured(played.mean, played.standard_error)}", (played.mean, 1), (4, -2), figure.BODY,
        colours.accent, va="top", xycoords=("data", "axes fraction"), fontweight="bold",
        bbox={"facecolor": colours.paper, "linewidth": 0, "boxstyle": "square,pad=0.15"},
    )  # fmt: skip
    ax.set_ylim(0, 1.16 * float(heights.max()))
    ax.locator_params(axis="x", integer=True)
    ax.yaxis.set_major_formatter("{x:g}")
    ax.set_xlabel(f"strokes a round (par {played.course.par})", fontsize=figure.SMALL, color=colours.muted, labelpad=2)
    ax.set_ylabel("% of rounds", fontsize=figure.SMALL, color=colours.muted)
    subtitle = f"{played.plays:,} simulated rounds; standard deviation {played.standard_deviation:.1f} strokes"
    figure.headline(ax, colours, title or f"{played.course.name}: {played.player.name}", subtitle)
    figure.caption(ax, colours, f"Stronger bars: the eight rounds in ten from {low} to {high} strokes.", 34)
    return ax


def plot_target(target: Target, ax: Axes | None = None, *, title: str | None = None, theme: str = "light") -> Axes:
    """Draw the budget of a target, hole by hole; ``Target.plot`` does the same.

    For each hole the score to make over par, how often that or better is made, and the mean by the way it is played.

    Args:
        target: the target.
        ax: axes to draw on; None for a new figure.
        title: title; None for the course and the answer.
        theme: ``"light"`` or ``"dark"``.

    Returns:
        The axes.

    Raises:
        InputError: a theme that there is not.

    """
    colours = theme_of(theme)
    c = target.plan().columns()
    holes = np.arange(len(c["hole"]))
    ax = figure.on(ax, (max(0.43 * len(holes) + 1.2, 4.6), _HEIGHT), colours)
    over = c["score_to_make"] - c["par"]
    base = min(int(over.min()), 0) - 1
    # From par up or down to the score to make, which is a line of its own: where it is par there is no bar.
    ax.bar(holes, over, 0.78, color=colours.plain)
    ax.hlines(over, holes - 0.39, holes + 0.39, color=colours.muted, linewidth=2.6, zorder=2)
    ax.errorbar(
        holes, c["mean"] - c["par"], yerr=2 * c["mean_error"], fmt="o", markersize=4, color=colours.accent,
        elinewidth=1.4,
    )  # fmt: skip
    for hole, made in zip(holes, c["made"], strict=True):
        at = (float(hole), base)
        figure.beside(ax, words.share(made), at, (0, 3), figure.SMALL, colours.ink, "center", "bottom")
    ax.axhline(0, color=colours.ink, linewidth=0.7, zorder=1)
    top = max(int(over.max()), int(np.ceil((c["mean"] - c["par"]).max())))
    ticks = range(base + 1, top + 1)
    ax.set_yticks(ticks, ["par" if tick == 0 else f"{tick:+d}".replace("-", "−") for tick in ticks])
    ax.set_ylim(base, top + 0.35)
    ax.set_xticks(holes, [f"{number}\n{score}" for number, score in zip(c["hole"], c["score_to_make"], strict=True)])
    # What the rows of numbers are.
    for row, down in (("made", -7), ("hole", 8), ("make", 17)):
        figure.beside(ax, row, (0, 0), (-4, -down), figure.SMALL, colours.muted, "right", xycoords="axes fraction")
    chance = percent(target.chance, target.chance_error)
    name = f"{target.course.name}: breaking {target.target}, chance {chance}"
    subtitle = f"{target.player.name}; the scores to make add up to {int(c['score_to_make'].sum())}"
    figure.headline(ax, colours, title or name, subtitle)
    note = (
        "Bars: the score to make, next to par. Made: how often it is that or better. Dots: the mean by the way it is "
        "played, ± two standard errors."
    )
    figure.caption(ax, colours, note, 32)
    return ax


def plot_practice(
    gains: PracticeGains, ax: Axes | None = None, *, most: int = 14, title: str | None = None, theme: str = "light"
) -> Axes:
    """Draw what practice is worth, most strokes saved first; ``PracticeGains.plot`` does the same.

    Args:
        gains: the gains.
        ax: axes to draw on; None for a new figure.
        most: most skills shown, 1 or more.
        title: title; None for the course and the player.
        theme: ``"light"`` or ``"dark"``.

    Returns:
        The axes.

    Raises:
        InputError: a theme that there is not, or no skill to show.

    """
    colours = theme_of(theme)
    if most < 1:
        raise core.InputError(f"most is {most}; it must be 1 or more")
    c = {name: column[:most] for name, column in gains.columns().items()}
    rows = np.arange(len(c["skill"]))
    ax = figure.on(ax, (_WIDTH, _AROUND + _ROW * len(rows)), colours)
    shades = [colours.accent if part == "choice" else colours.plain for part in c["part"]]
    ax.barh(rows, c["strokes_saved"], 0.72, color=shades)
    ax.errorbar(
        c["strokes_saved"], rows, xerr=2 * c["strokes_saved_error"], fmt="none", ecolor=colours.ink, elinewidth=1.2
    )
    likes = {like for like in c["like_handicap"] if not math.isnan(like)}
    # Who is like one level in everything need not be told so for each skill.
    known = [
        f"{skill}, like {like:.0f}" if len(likes) > 1 and not math.isnan(like) else str(skill)
        for skill, like in zip(c["skill"], c["like_handicap"], strict=True)
    ]
    ax.set_yticks(rows, known)
    ax.tick_params(axis="y", labelsize=figure.BODY, labelcolor=colours.ink)
    ax.set_ylim(len(rows) - 0.4, -0.6)
    ax.axvline(0, color=colours.ink, linewidth=0.7)
    ax.set_xlabel("strokes saved a round", fontsize=figure.SMALL, color=colours.muted, labelpad=2)
    # The names have taken their room: now it is known how wide the axes are.
    figure.settle(ax)
    subtitle = (
        f"each skill {100 * gains.share:.0f} % of the way to scratch, all else the same; {gains.plays:,} rounds each"
    )
    figure.headline(
        ax, colours, title or f"{gains.course.name}: what practice is worth to {gains.player.name}", subtitle
    )
    note = "Lines: ± two standard errors, paired."
    note += " Like: the handicap of golfers whose figures are most like the player’s." if len(likes) > 1 else ""
    hidden = len(gains) - len(rows)
    note += f" {hidden} more below these." if hidden else ""
    figure.caption(ax, colours, note, 34)
    return ax
