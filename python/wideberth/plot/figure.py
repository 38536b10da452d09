"""What every picture needs: paper, headlines, captions, places told in points, labels that keep apart, files."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from io import BytesIO
from os import PathLike
from pathlib import Path
from typing import TYPE_CHECKING, Any

import matplotlib as mpl
import matplotlib.pyplot as plt
import numpy as np
from matplotlib.backend_bases import FigureCanvasBase
from matplotlib.font_manager import FontProperties
from matplotlib.layout_engine import ConstrainedLayoutEngine
from matplotlib.textpath import TextToPath
from matplotlib.transforms import Affine2D, ScaledTranslation, Transform

from wideberth._files import file_at, write_whole
from wideberth._given import text

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.text import Text

    from wideberth.plot.theme import Theme

#: Numbers to draw.
Numbers = np.ndarray[Any, Any]
#: Sizes of text, points.
TITLE, BODY, SMALL = 10.5, 8.0, 6.8
#: Mean width of a letter in sizes of text, a little on the safe side.
LETTER = 0.56
#: Letters that are drawn dot by dot stand on whole dots, which makes a line so many times as long.
_DOTS = 1.04
#: Between a number and what it counts no line is broken, and the space that stands there meanwhile.
_COUNTED, _HARD = re.compile(r"(?<=[0-9]) (?=%|±|(?:yd|ft|mph)\b)|(?<=±) |(?<=\bpar) (?=[0-9])"), "\u00a0"
#: What the line below a title and the explanation below a picture are marked with, so that a later one replaces them.
SUBTITLE, CAPTION = "wideberth-subtitle", "wideberth-caption"
#: What fixes the names inside an SVG file, so that the same picture is the same file.
_SALT = "wideberth"


def new_axes(size: tuple[float, float]) -> Axes:
    """Axes of a new figure of a size in inches."""
    _, ax = plt.subplots(figsize=size, layout=layout())
    settle(ax)
    return ax


def layout(between: float = 0.02) -> ConstrainedLayoutEngine:
    """The layout of a figure, with a margin around it and so much of its width between two pictures."""
    return ConstrainedLayoutEngine(w_pad=0.12, h_pad=0.12, wspace=between)


def on(ax: Axes | None, size: tuple[float, float], theme: Theme) -> Axes:
    """The axes given, else those of a new figure of a size in inches, with the theme's paper below."""
    if ax is None:
        ax = new_axes(size)
    else:
        settle(ax)
    paper(ax, theme)
    return ax


def settle(ax: Axes) -> None:
    """Let the layout of the figure, if it has one, tell how large the axes will be."""
    root: Any = ax.figure
    while root.figure is not root:  # A figure within a figure.
        root = root.figure
    if root.get_layout_engine() is not None:
        root.draw_without_rendering()


def paper(ax: Axes, theme: Theme) -> None:
    """Lay the theme's paper under the axes and their figure, and hide the frame."""
    ax.figure.set_facecolor(theme.paper)
    ax.set_facecolor("none")
    ax.tick_params(colors=theme.muted, labelsize=SMALL, length=0)
    for spine in ax.spines.values():
        spine.set_visible(False)


def inches(ax: Axes) -> tuple[float, float]:
    """Width and height of the axes, as far as the layout knows them."""
    box = ax.get_window_extent()
    return box.width / ax.figure.dpi, box.height / ax.figure.dpi


def points_around(ax: Axes, x: float, y: float, anchor: Transform | None = None) -> Transform:
    """The transform of places told in points around (x, y) of the axes, or of another transform."""
    # It moves by where the anchor puts (x, y), whatever kind of transform that is.
    anchored = ScaledTranslation(x, y, ax.transAxes if anchor is None else anchor)  # type: ignore[arg-type]
    return Affine2D().scale(1 / 72) + ax.figure.dpi_scale_trans + anchored


def down(ax: Axes, points: float) -> Transform:
    """The transform that goes so many points down the page."""
    return ScaledTranslation(0, -points / 72, ax.figure.dpi_scale_trans)


def headline(ax: Axes, theme: Theme, title: str, subtitle: str = "", width: float | None = None) -> None:
    """Write a title, and below it a quieter line, above the axes; both are wrapped to the width in inches."""
    title = text("title", title)
    across = 72 * (inches(ax)[0] if width is None else width)
    below = wrapped(subtitle, max(across, 18 * BODY * LETTER), BODY) if subtitle else []
    above = wrapped(title, max(across, 14 * TITLE * LETTER), TITLE, weight="bold")
    ax.set_title(
        "\n".join(above),
        loc="left",
        fontsize=TITLE,
        fontweight="bold",
        color=theme.ink,
        pad=9 + 1.42 * BODY * len(below),
        parse_math=False,  # Names are the user's: a dollar in one is a dollar.
    )
    _remove(ax, SUBTITLE)
    if below:
        beside(
            ax, "\n".join(below), (0, 1), (0, 6), BODY, theme.muted, va="bottom", xycoords="axes fraction",
            linespacing=1.25, gid=SUBTITLE, parse_math=False,
        )  # fmt: skip


def caption(ax: Axes, theme: Theme, text: str, down: float, width: float | None = None) -> None:
    """Write an explanation so many points below the axes, wrapped to the width in inches."""
    # Where a caption stuck out the layout would make all of the picture narrower: it has room to spare.
    across = 72 * (inches(ax)[0] if width is None else width)
    _remove(ax, CAPTION)
    told = "\n".join(wrapped(text, max(across / _DOTS, 24 * SMALL * LETTER), SMALL))
    beside(
        ax, told, (0, 0), (0, -down), SMALL, theme.muted, va="top", xycoords="axes fraction", linespacing=1.3,
        gid=CAPTION,
    )  # fmt: skip


def _remove(ax: Axes, mark: str) -> None:
    """Take a text with a mark away."""
    for old in [told for told in ax.texts if told.get_gid() == mark]:
        old.remove()


@lru_cache(maxsize=4096)
def width(text: str, size: float, weight: str = "normal") -> float:
    """How long a line of text is, points."""
    font = FontProperties(size=size, weight=weight)
    return float(TextToPath().get_text_width_height_descent(text, font, False)[0])


def wrapped(text: str, points: float, size: float, lines: int | None = None, weight: str = "normal") -> list[str]:
    """The text in lines of so many points each, at most so many, cut with an ellipsis where it is longer."""
    points = max(points, 4 * size * LETTER)

    def fits(line: str) -> bool:
        return _DOTS * width(line, size, weight) <= points

    found = [""]
    for word in re.split(r"[ \t\n]+", _COUNTED.sub(_HARD, text.strip())):
        line = f"{found[-1]} {word}".lstrip(" ")
        if fits(line):
            found[-1] = line
            continue
        found += [""] if found[-1] else []
        for letter in word:  # A word that is longer than a line goes over several.
            found += [] if fits(found[-1] + letter) else [""]
            found[-1] += letter
    if lines is not None and len(found) > lines:
        last = found[lines - 1]
        while not fits(f"{last}…"):
            last = last.rpartition(" ")[0] or last[:-1]
        found[lines - 1 :] = [f"{last.rstrip(' ,;:')}…"]
    return [line.replace(_HARD, " ") for line in found]


def two_lines(text: str, points: float, size: float, weight: str = "normal") -> list[str]:
    """The text in at most two lines; of a longer one the beginning and the end, where names often differ."""
    whole = wrapped(text, points, size, weight=weight)
    if len(whole) <= 2:
        return whole
    parts = text.split(" ")
    for start in range(1, len(parts)):
        end = wrapped(f"… {' '.join(parts[start:])}", points, size, weight=weight)
        if len(end) == 1:
            return [whole[0], *end]
    return wrapped(text, points, size, 2, weight)


def beside(
    ax: Axes,
    text: str,
    at: tuple[float, float],
    by: tuple[float, float],
    size: float,
    colour: str,
    ha: str = "left",
    va: str = "center",
    **more: Any,
) -> None:
    """Write a text so many points to the right of a place of the axes and above it."""
    look: dict[str, Any] = {"fontsize": size, "color": colour, "ha": ha, "va": va, **more}
    ax.annotate(text, at, by, textcoords="offset points", annotation_clip=False, **look)


def apart(wanted: Sequence[float], gap: float) -> list[float]:
    """Places as near as possible to those wanted, in the same order and at least a gap apart."""
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    # Runs of labels that touch share their mean place: (sum of what each wants, less its place in the run; count).
    runs: list[tuple[float, int]] = []
    for place, i in enumerate(order):
        run = (wanted[i] - gap * place, 1)
        while runs and runs[-1][0] / runs[-1][1] > run[0] / run[1]:
            last = runs.pop()
            run = (last[0] + run[0], last[1] + run[1])
        runs.append(run)
    found = [0.0] * len(wanted)
    place = 0
    for total, count in runs:
        for _ in range(count):
            found[order[place]] = total / count + gap * place
            place += 1
    return found


def free_place(ax: Axes, label: Text, places: Sequence[tuple[float, float, str, str]]) -> None:
    """Move a label to the first of some places (x, y, ha, va) where it covers no other text and stays on the axes."""
    renderer = ax.figure.canvas.get_renderer()  # type: ignore[attr-defined]
    others = [t.get_window_extent(renderer).padded(1.5) for t in ax.texts if t is not label and t.get_text()]
    # The layout may still move a little.
    on = ax.get_window_extent(renderer).padded(-4.0)
    best: tuple[float, tuple[float, float, str, str]] | None = None
    for x, y, ha, va in places:
        label.set(position=(x, y), ha=ha, va=va)
        box = label.get_window_extent(renderer)
        outside = not (on.x0 <= box.x0 and box.x1 <= on.x1 and on.y0 <= box.y0 and box.y1 <= on.y1)
        hidden = sum(box.overlaps(other) for other in others) + 2 * outside
        if best is None or hidden < best[0]:
            best = (hidden, (x, y, ha, va))
        if not hidden:
            break
    if best is not None:
        x, y, ha, va = best[1]
        label.set(position=(x, y), ha=ha, va=va)


def save(ax: Axes, path: str | PathLike[str], *, dpi: float = 140) -> Path:
    """Write the figure of some axes as PNG, SVG or whatever else the path ends in.

    The same picture gives the same file: an SVG carries no date and no chance names.

    Args:
        ax: the axes that a plot returned.
        path: the file.
        dpi: dots an inch.

    Returns:
        The path.

    Raises:
        InputError: before anything is drawn, a path with an ending that no picture has, or in a directory that there is
            not.
        OSError: the disk is full, or nothing may be written there; a file that was there is as it was.

    """
    path = file_at(path, [f".{kind}" for kind in sorted(FigureCanvasBase.get_supported_filetypes())])
    kind = path.suffix[1:].lower()
    metadata: dict[str, Any] = {"Date": None} if kind in ("svg", "svgz") else {}
    content = BytesIO()
    with mpl.rc_context({"svg.hashsalt": _SALT}):
        ax.figure.savefig(content, format=kind, dpi=dpi, metadata=metadata)  # type: ignore[union-attr]
    write_whole(path, content.getvalue())
    return path
