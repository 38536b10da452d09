"""The way from the plan of a hole to the page: turned so that the pin lies straight above the tee."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from wideberth._wideberth import Hole

Array = np.ndarray[Any, Any]

#: Yards shown to either side of what is played to, before it and behind it.
_ASIDE, _BEFORE, _BEHIND = 32.0, 18.0, 26.0
#: What is played to farther from the line of play than this, yards, belongs to other holes: it is shown where it
#: happens to be on the page.
_CORRIDOR = 60.0
#: The page is at least this part as wide as it is high.
_NARROWEST = 0.24
#: What of a hole is played to.
_PLAYED = ("tee", "fairway", "first_cut", "green", "bunker")


class Page:
    """A hole's plan turned play up the page, in yards from the tee, and the part of it that is shown."""

    def __init__(self, hole: Hole) -> None:
        """Find out how the hole lies."""
        dx, dy = np.subtract(hole.pin, hole.tee)
        #: The rotation from the plan to the page.
        self.turn: Array = np.array([[dy, -dx], [dx, dy]]) / float(np.hypot(dx, dy))
        self._tee = hole.tee
        played = [self.of(ring) for f in hole.features if f.surface in _PLAYED for ring in f.rings]
        line = self.of(hole.line_of_play)
        ring = np.concatenate(played) if played else line
        points = np.concatenate([line, ring[_far_from(line, ring) <= _CORRIDOR]])
        (left, low), (right, high) = points.min(axis=0), points.max(axis=0)
        #: The lowest and the highest y shown.
        self.y: tuple[float, float] = (float(low) - _BEFORE, float(high) + _BEHIND)
        short_of = _NARROWEST * (self.y[1] - self.y[0]) - (right - left + 2 * _ASIDE)
        aside = _ASIDE + max(float(short_of), 0.0) / 2
        #: The x farthest left and right shown.
        self.x: tuple[float, float] = (float(left) - aside, float(right) + aside)

    def of(self, points: Any) -> Array:
        """Points of the plan on the page."""
        turned: Array = (np.asarray(points, dtype=float) - self._tee) @ self.turn.T
        return turned

    def plan(self, points: Any) -> Array:
        """Points of the page on the plan."""
        back: Array = np.asarray(points, dtype=float) @ self.turn + self._tee
        return back

    @property
    def width(self) -> float:
        """Yards across what is shown."""
        return self.x[1] - self.x[0]

    @property
    def height(self) -> float:
        """Yards up what is shown."""
        return self.y[1] - self.y[0]


def _far_from(line: Array, points: Array) -> Array:
    """Yards from points to a line of play."""
    far = np.full(len(points), np.inf)
    for start, end in pairwise(line):
        way = end - start
        share = np.clip((points - start) @ way / max(float(way @ way), 1e-9), 0, 1)
        feet = start + share[:, None] * way
        far = np.minimum(far, np.hypot(*(points - feet).T))
    return far
