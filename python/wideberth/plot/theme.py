"""The colours and textures of every picture, light and dark.

Strokes, surfaces, marks and the scale keep apart under protanopia, deuteranopia and tritanopia as simulated by Machado,
Oliveira and Fernandes 2009 (IEEE TVCG 15:1291); ``tests/python/test_plot.py`` computes the differences, and
``test_plot_values.py`` those of the scale.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from wideberth import _wideberth as core
from wideberth._given import shown

#: Attribute of axes that remembers the theme of the hole drawn on them, and how many points below it words may begin.
_MARK = "_wideberth_hole"


@dataclass(frozen=True)
class Look:
    """How one surface is drawn."""

    #: Colour of the area.
    fill: str
    #: Colour of its outline and of its texture.
    edge: str
    #: Matplotlib's name of the texture; "" for none.
    hatch: str = ""
    #: Width of the outline, points.
    width: float = 0.6
    #: Dashes of the outline, as Matplotlib names them.
    dashes: str = "-"


@dataclass(frozen=True)
class Theme:
    """The colours of a picture."""

    #: What it is called.
    name: str
    #: The paper.
    paper: str
    #: Text and lines that matter.
    ink: str
    #: Text and lines that explain.
    muted: str
    #: Lines that guide the eye.
    faint: str
    #: One colour a stroke from the first on; the last is that of all later strokes.
    strokes: tuple[str, str, str, str]
    #: What is good, or the thing looked at.
    accent: str
    #: The blow-up part.
    blow_up: str
    #: What of a distribution is no blow-up.
    plain: str
    #: A scale in even steps of CIELAB, from the best value to the worst: from light to dark, from sand to blue.
    scale: tuple[str, ...]
    #: How each surface looks, by its name.
    surfaces: dict[str, Look]


LIGHT = Theme(
    name="light",
    paper="#fbfaf6",
    ink="#22252b",
    muted="#63666b",
    faint="#d6d3c8",
    strokes=("#16449a", "#b9430e", "#745173", "#101015"),
    accent="#16449a",
    blow_up="#b9430e",
    plain="#b7c3cf",
    scale=("#fef0ca", "#e1dec3", "#c5ccbb", "#aabab4", "#91a8ad", "#7896a6", "#60849f", "#467399", "#286292"),
    surfaces={
        "tee": Look("#a5bd9c", "#4f6b4b", width=0.9),
        "fairway": Look("#cfdcb2", "#92a86f"),
        "first_cut": Look("#d6dbb8", "#a9b487", dashes=":"),
        "rough": Look("#dedcc3", "#c3bf9e", width=0.0),
        "deep_rough": Look("#c7bf98", "#94895c", "||", dashes="--"),
        "fringe": Look("#b3d0b0", "#6a956e", width=0.8, dashes="--"),
        "green": Look("#8fc3ae", "#2f6b55", width=1.1),
        "bunker": Look("#f6e8c0", "#a8853d", "....", width=0.8),
        "penalty_red": Look("#a3c1dc", "#a8301c", "---", width=1.1),
        "penalty_yellow": Look("#a3c1dc", "#8f6d00", "---", width=1.1, dashes="--"),
        "out_of_bounds": Look("#efedea", "#8b8984", "////", width=1.0, dashes="-."),
        "trees": Look("#9caa8b", "#5b6d4c", "oo"),
    },
)

DARK = Theme(
    name="dark",
    paper="#17191c",
    ink="#f1eee6",
    muted="#a5a6a4",
    faint="#3c3f42",
    strokes=("#6dacf9", "#f39d50", "#dfaad0", "#fff9ec"),
    accent="#6dacf9",
    blow_up="#f39d50",
    plain="#4d5966",
    scale=("#d5bf89", "#b8af85", "#9c9d80", "#818b7a", "#687974", "#51666e", "#3c5367", "#264260", "#0c3159"),
    surfaces={
        "tee": Look("#4c6350", "#93ad92", width=0.9),
        "fairway": Look("#43583f", "#6c8561"),
        "first_cut": Look("#3b4d38", "#5a6f52", dashes=":"),
        "rough": Look("#313b33", "#475247", width=0.0),
        "deep_rough": Look("#3d3b28", "#6d6740", "||", dashes="--"),
        "fringe": Look("#40665a", "#7ba393", width=0.8, dashes="--"),
        "green": Look("#4f8273", "#a7d6c4", width=1.1),
        "bunker": Look("#8c7c50", "#cfbd86", "....", width=0.8),
        "penalty_red": Look("#2f5273", "#e2705a", "---", width=1.1),
        "penalty_yellow": Look("#2f5273", "#e0bb4a", "---", width=1.1, dashes="--"),
        "out_of_bounds": Look("#26272a", "#7d7f82", "////", width=1.0, dashes="-."),
        "trees": Look("#25352a", "#567058", "oo"),
    },
)

THEMES = {theme.name: theme for theme in (LIGHT, DARK)}


def theme_of(name: str) -> Theme:
    """The theme called so.

    Raises:
        InputError: a name that there is not.

    """
    if name not in THEMES:
        raise core.InputError(f"theme is {shown(name)}; it must be one of {', '.join(THEMES)}")
    return THEMES[name]


def remember(ax: Any, theme: Theme, foot: float) -> None:
    """Note that a hole was drawn on the axes, and how many points below it words may begin."""
    setattr(ax, _MARK, (theme.name, foot))


def remembered(ax: Any) -> tuple[Theme, float] | None:
    """The theme of the hole drawn on the axes and where words below it may begin; None where there is none."""
    noted = getattr(ax, _MARK, None)
    return None if noted is None else (THEMES[noted[0]], noted[1])
