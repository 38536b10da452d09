"""The hole and where balls come to rest on it, as the numbers and path data that the SVG templates put in place."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from wideberth import _wideberth as core
from wideberth._report.usual import UsualWay
from wideberth._table import Column
from wideberth.plot.figure import apart
from wideberth.plot.page import Array, Page
from wideberth.plot.shots import STROKES
from wideberth.plot.surface_labels import WORDS

#: The map is so high, or so wide if that is less high, in the picture's own units (pixels on a phone).
_HIGH, _WIDE = 600.0, 300.0
#: Yards between two arcs.
_STEP = 50
#: Fewer balls of a stroke than this get no ellipse.
_LEAST = 12
#: Between the middles of two words above each other; about the width of a letter.
_LINE, _LETTER = 15.0, 7.0
#: How far from the left edge what reaches past the map is lettered, and how far outside of it the slopes are told.
_MARGIN, _OUTSIDE = 12.0, 18.0
#: Shares of the line of play at which its slope is shown, and the percent below which ground is level.
_LOOKS, _LEVEL = (0.3, 0.5, 0.7), 0.5


@dataclass(frozen=True)
class Area:
    """One feature of the hole."""

    surface: str
    d: str


@dataclass(frozen=True)
class Arc:
    """A circle of yards around the pin, and how high beside the map it is told."""

    yards: int
    radius: float
    y: float


@dataclass(frozen=True)
class Balls:
    """Where the balls of one stroke lie: dots, and crosses for those that cost a penalty."""

    stroke: int
    dots: str
    crosses: str


@dataclass(frozen=True)
class Ring:
    """The ellipse of two thirds of a stroke's balls, and where it is told which."""

    stroke: int
    word: str
    middle: tuple[float, float]
    long: float
    short: float
    turn: float
    label: tuple[float, float, str]


@dataclass(frozen=True)
class Pattern:
    """Where the balls of a plan lie."""

    balls: list[Balls]
    rings: list[Ring]


@dataclass(frozen=True)
class AimLine:
    """The aim of a stroke of the usual way: a line from the ball to what it is aimed at."""

    stroke: int
    d: str
    at: tuple[float, float]


@dataclass(frozen=True)
class Fall:
    """Which way the ground falls, and how steeply: an arrow beside the map."""

    at: tuple[float, float]
    #: Degrees clockwise from up the page.
    turn: float
    percent: str


class Sketch:
    """A hole as it is drawn, play up the page."""

    def __init__(self, hole: core.Hole) -> None:
        """Measure the page and draw what never changes."""
        self._page = Page(hole)
        self._scale = min(_HIGH / self._page.height, _WIDE / self._page.width)
        #: Width and height of the map, without the words around it.
        self.width, self.height = round(self._page.width * self._scale, 1), round(self._page.height * self._scale, 1)
        #: The features, lowest first.
        self.areas = self._areas(hole.features)
        #: The trees that stand above all that ground.
        self.crowns = self._areas(hole.standing_trees)
        #: The line of play.
        self.line = self._ring(hole.line_of_play).removesuffix("Z")
        #: The places of the tee and of the pin.
        self.tee, self.pin = self.at(hole.tee), self.at(hole.pin)
        #: Which way the ground falls.
        self.falls = self._falls(hole)
        #: Room on the left of the map.
        self.left = 2 * _OUTSIDE if self.falls else 4.0
        #: Arcs of yards to the pin.
        self.arcs = self._arcs()
        #: What fifty yards are in the picture.
        self.fifty = round(50 * self._scale, 1)
        #: Degrees clockwise from up the page to north; None where north is not known.
        north = self._page.turn @ np.array([0.0, 1.0])
        self.north = round(float(np.degrees(np.arctan2(north[0], north[1]))), 1) if hole.north_up else None
        shown = {area.surface for area in self.areas}
        #: The surfaces drawn that are worth telling, with their words.
        self.kinds = [(kind, word) for kind, word in WORDS.items() if kind in shown]

    def at(self, point: tuple[float, float]) -> tuple[float, float]:
        """A place of the hole in the picture."""
        x, y = self._to_picture(np.array([point]))[0]
        return round(float(x), 1), round(float(y), 1)

    def aims(self, usual: UsualWay) -> list[AimLine]:
        """The aims of the strokes of the usual way that are on the map."""
        lines = []
        for stroke, leg in enumerate(usual.legs, start=1):
            start, end = self.at(leg.start), self.at(leg.aim)
            if len(self._on(np.array([end]))):
                lines.append(AimLine(stroke, f"M{start[0]} {start[1]}L{end[0]} {end[1]}", end))
        return lines

    def letter(self, feature: core.Feature) -> tuple[float, float]:
        """Where a feature is lettered: in its middle, or near the left edge if it reaches past the map."""
        ring = self._to_picture(feature.rings[0])
        (left, top), (right, bottom) = ring.min(axis=0), ring.max(axis=0)
        x, y = (left + right) / 2, (top + bottom) / 2
        if left < 0 and right > self.width:
            x = _MARGIN
            # Half way between its first and its last edge there.
            ends = np.roll(ring, -1, axis=0)
            over = (ring[:, 0] < x) != (ends[:, 0] < x)
            (ax, ay), (bx, by) = ring[over].T, ends[over].T
            heights = ay + (x - ax) / (bx - ax) * (by - ay)
            y = (heights.min() + heights.max()) / 2
        inside = [min(max(float(v), 8.0), most - 8.0) for v, most in ((x, self.width), (y, self.height))]
        return round(inside[0], 1), round(inside[1], 1)

    def _falls(self, hole: core.Hole) -> list[Fall]:
        """Arrows down the slope at some places of the line of play and at the pin, where it is not level there."""
        yards = [share * hole.length for share in _LOOKS]
        places = [*(hole.point(core.along(y)) for y in yards), hole.pin]
        falls = []
        for place in places:
            down = np.array(hole.slope_percent(place))
            percent = float(np.hypot(*down))
            if percent < _LEVEL:
                continue
            x, y = self._page.turn @ down
            height = self.at(place)[1]
            turn = round(float(np.degrees(np.arctan2(x, y))), 1)
            falls.append(Fall((-_OUTSIDE, height), turn, f"{percent:.0f} %" if percent >= 1 else f"{percent:.1f} %"))
        return falls

    def pattern(self, strokes: dict[str, Column]) -> Pattern:
        """Where the balls of some plays come to rest, putts left out."""
        full = strokes["club"] != "putt"
        rest = self._to_picture(np.column_stack([strokes["rest_x"], strokes["rest_y"]]))
        number = np.minimum(strokes["stroke"], len(STROKES))
        punished = strokes["penalty"] > 0
        balls, rings = [], []
        for k in range(1, len(STROKES) + 1):
            mine = full & (number == k)
            dots = "".join(f"M{x:.1f} {y:.1f}h0" for x, y in self._on(rest[mine & ~punished]))
            lost = self._on(rest[mine & punished])
            crosses = "".join(f"M{x - 2.6:.1f} {y - 2.6:.1f}l5.2 5.2m-5.2 0l5.2-5.2" for x, y in lost)
            balls.append(Balls(k, dots, crosses))
            found = core.two_thirds_ellipse(rest[mine]) if mine.sum() >= _LEAST else None
            if found is not None:
                rings.append((k, found))
        return Pattern(balls, self._told(rings))

    def _told(self, rings: list[tuple[int, tuple[float, float, float, float, float]]]) -> list[Ring]:
        """Ellipses with their words beside them, words apart from each other."""
        wanted = [found[1] for _, found in rings]
        heights = apart(wanted, _LINE)
        told = []
        for (k, (x, y, long, short, degrees)), height in zip(rings, heights, strict=True):
            turn = np.radians(degrees)
            aside = float(np.hypot(long * np.cos(turn), short * np.sin(turn))) + 6
            word = STROKES[k - 1]
            fits = x + aside + _LETTER * len(word) < self.width
            place = (x + aside, "start") if fits else (max(x - aside, _LETTER * len(word) + 2), "end")
            label = (round(place[0], 1), round(min(max(height, 10.0), self.height - 6), 1), place[1])
            middle = (round(x, 1), round(y, 1))
            told.append(Ring(k, word, middle, round(long, 1), round(short, 1), round(degrees, 1), label))
        return told

    def _to_picture(self, points: Array) -> Array:
        """Places of the plan in the picture: x to the right, y down."""
        on_page = self._page.of(points)
        moved: Array = (on_page - [self._page.x[0], self._page.y[1]]) * [self._scale, -self._scale]
        return moved

    def _on(self, points: Array) -> Array:
        """Those of some places of the picture that are on the map."""
        x, y = points.T
        on: Array = points[(x >= 0) & (x <= self.width) & (y >= 0) & (y <= self.height)]
        return on

    def _areas(self, features: list[core.Feature]) -> list[Area]:
        """Those of some features that are on the map."""
        return [
            Area(f.surface, " ".join(self._ring(ring) for ring in f.rings)) for f in features if self._seen(f.rings[0])
        ]

    def _seen(self, ring: Array) -> bool:
        """True where the box around a ring meets the map."""
        points = self._to_picture(ring)
        (left, top), (right, bottom) = points.min(axis=0), points.max(axis=0)
        return bool(right > 0 and left < self.width and bottom > 0 and top < self.height)

    def _ring(self, ring: Array) -> str:
        """A closed line as path data."""
        return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in self._to_picture(ring)) + "Z"

    def _arcs(self) -> list[Arc]:
        """Circles of yards around the pin that leave the map on the right, below the pin."""
        x, y = self.pin
        found = []
        for yards in range(_STEP, 1000, _STEP):
            radius = yards * self._scale
            away = self.width - x
            leaves = y + float(np.sqrt(max(radius**2 - away**2, 0.0)))
            if radius > away and leaves < self.height - 4:
                found.append(Arc(yards, round(radius, 1), round(leaves, 1)))
        return found
