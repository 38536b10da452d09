"""Holes laid on their side, small and all to one scale, as path data for the page of a round."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from wideberth import _wideberth as core
from wideberth.plot.page import Array, Page

#: The longest hole is so many units of the picture long.
_LONG = 300.0
#: Yards shown to either side of the line of play: at least, and at most, for the sake of what lies there.
_ASIDE, _FARTHEST = 26.0, 58.0
#: Yards beyond what is shown whole.
_ROOM = 3.0
#: Units free before the tee and behind the green.
_ENDS = 6.0


@dataclass(frozen=True)
class Strip:
    """A hole on its side, the tee on the left."""

    width: float
    height: float
    #: The features on it, lowest first: the surface, and the outline as path data.
    areas: list[tuple[str, str]]
    #: The line of play, as path data.
    line: str
    tee: tuple[float, float]
    pin: tuple[float, float]


def strips(holes: Sequence[core.Hole]) -> list[Strip]:
    """All holes to one scale."""
    pages = [Page(hole) for hole in holes]
    longest = max(page.y[1] - page.y[0] for page in pages)
    scale = (_LONG - 2 * _ENDS) / longest
    return [_strip(hole, page, scale) for hole, page in zip(holes, pages, strict=True)]


def _strip(hole: core.Hole, page: Page, scale: float) -> Strip:
    """One hole at so many units a yard."""
    across = page.of(hole.line_of_play)[:, 0]
    features = [*hole.features, *hole.standing_trees]
    # Boundaries and the like go on for ever: what ends nearby is shown whole.
    beside = np.concatenate([page.of(feature.rings[0])[:, 0] for feature in features] or [across])
    near = beside[(beside > across.min() - _FARTHEST) & (beside < across.max() + _FARTHEST)]
    left = min(float(across.min()) - _ASIDE, float(near.min(initial=across.min())) - _ROOM)
    right = max(float(across.max()) + _ASIDE, float(near.max(initial=across.max())) + _ROOM)
    height = round((right - left) * scale, 1)

    def laid(points: Array) -> Array:
        """Places of the plan in the picture: along the hole to the right, its right side down."""
        x, y = page.of(points).T
        return np.column_stack([(y - page.y[0]) * scale, (x - left) * scale])

    width = round((page.y[1] - page.y[0]) * scale, 1)
    areas: list[tuple[str, str]] = []
    for feature in features:
        rings = [laid(ring) for ring in feature.rings]
        (begins, top), (ends, bottom) = rings[0].min(axis=0), rings[0].max(axis=0)
        if ends > 0 and begins < width and bottom > 0 and top < height:
            areas.append((feature.surface, " ".join(_path(ring) for ring in rings)))
    tee, pin = (laid(np.array([place]))[0] for place in (hole.tee, hole.pin))
    line = _path(laid(hole.line_of_play)).removesuffix("Z")
    return Strip(width, height, areas, line, _rounded(tee), _rounded(pin))


def _path(ring: Array) -> str:
    """A closed line."""
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in ring) + "Z"


def _rounded(place: Array) -> tuple[float, float]:
    return round(float(place[0]), 1), round(float(place[1]), 1)
