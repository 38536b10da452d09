"""What a hole is worth from everywhere: bands and lines of equal strokes or chance, and the best shots from the tee."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np
from matplotlib.colors import LinearSegmentedColormap, to_hex
from matplotlib.patches import Rectangle
from matplotlib.path import Path
from matplotlib.transforms import Bbox

from wideberth.plot import figure
from wideberth.plot.hole import KEY, area, key, map_of, ringed, shown_width
from wideberth.plot.page import Array, Page
from wideberth.plot.surface_labels import kinds_shown
from wideberth.plot.theme import Theme, remembered, theme_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.contour import QuadContourSet

    from wideberth._advice import Advice
    from wideberth._solve import Solution
    from wideberth._wideberth import Hole

#: Nobody plays from these: they hide the bands.
_HIDDEN = ("penalty_red", "penalty_yellow", "out_of_bounds")
#: Steps between two lines that read well: of strokes, and of chance.
_STROKES, _CHANCES = (0.02, 0.05, 0.1, 0.2, 0.25, 0.5, 1.0, 2.0), (0.005, 0.01, 0.02, 0.05, 0.1, 0.2)
#: Most bands for an inch of map, and at all; fewest.
_BANDS_AN_INCH, _MOST_BANDS, _FEWEST_BANDS = 2.2, 16, 5
#: Most strokes shown of the shots from the tee on.
_LONGEST = 9
#: A ball that ends so many yards from where it is aimed has its aim marked.
_ASIDE = 2.5
#: Heights: blank paper, bands, what lies on them, the best shots and words.
_BLANK, _BANDS, _SURFACES, _ROUTE, _WORDS = 1.1, 1.2, 1.3, 5.0, 7.0


def plot_values(
    solution: Solution,
    ax: Axes | None = None,
    *,
    lie: str = "fairway",
    at_most: int | None = None,
    cell: float = 4.0,
    title: str | None = None,
    theme: str = "light",
) -> Axes:
    """Draw what a hole is worth from everywhere; ``Solution.plot`` does the same.

    Args:
        solution: the hole solved.
        ax: axes to draw on; None for a new figure.
        lie: how the ball is thought to lie everywhere.
        at_most: draw the chance of holing out in so many strokes or fewer; None for strokes.
        cell: yards between values, 0.5 to 50.
        title: title; None for the hole's name.
        theme: ``"light"`` or ``"dark"``.

    Returns:
        The axes, in yards as in :func:`plot_hole`.

    Raises:
        InputError: a theme that there is not, an unknown lie, a number out of range.

    """
    colours = theme_of(theme)
    hole, page = solution.hole, Page(solution.hole)
    field = _field(solution, page, lie, cell, at_most)
    ax = map_of(hole, ax, colours, yards_from="neither")
    width = _room(ax, page)
    key(ax, see_through(colours), kinds_shown(hole, page), width)
    figure.headline(ax, colours, title or hole.name, _told(solution, lie, at_most), width)
    noted = remembered(ax)
    foot = KEY if noted is None else noted[1]
    shots = _shots(solution)
    figure.caption(ax, colours, _explained(solution, at_most, bool(shots.aims)), foot - 3, width)
    figure.settle(ax)
    drawn = _Map(ax, colours, page, hole, field)
    route = _route(ax, colours, shots, page)
    _name_clubs(ax, colours, route, shots.clubs)
    _tell_lines(ax, colours, page, hole, drawn, route)
    return ax


def _room(ax: Axes, page: Page) -> float:
    """Inches for words from the left edge of the map, which stands in the middle of its axes."""
    wide, high = figure.inches(ax)
    to_scale = min(wide, high * page.width / page.height)
    return min(shown_width(ax, page), max(0.5 * (wide + to_scale), 1.6))


def _told(solution: Solution, lie: str, at_most: int | None) -> str:
    """What is drawn, in a line below the title."""
    what = "strokes to hole out" if at_most is None else f"chance to hole out in {at_most} or fewer"
    tee = solution.expected_strokes(solution.hole.tee)
    objective = solution.objective
    aim = "" if objective is None else f", playing for {objective!r}"
    if objective is not None and objective.kind == "at_most":
        aim = f", playing for {objective.strokes} or better"
    if solution.then is not None:
        aim = f", playing “{solution.then}”"
    return f"{solution.player.name}{aim}: {what}, lie {lie.replace('_', ' ')}; {tee:.2f} strokes from the tee"


def _explained(solution: Solution, at_most: int | None, has_crosses: bool) -> str:
    """How to read it, in a line below the picture."""
    equal = "strokes" if at_most is None else "chance"
    best = "best shots" if solution.then is None else "shots"
    ends = "dots: where a solid strike without luck ends"
    if has_crosses:
        ends = "crosses: aims; dots: ends of solid strikes"
    return f"Lines: equal {equal}. Dashed: the {best} from the tee; {ends}."


@dataclass(frozen=True)
class _Field:
    """Values to draw, on the page."""

    #: Places on the page, of the shape of the values.
    x: Array
    y: Array
    values: Array
    #: The lowest and the highest value on the page.
    ends: tuple[float, float]
    #: Chances, of which more is better, or strokes.
    chances: bool

    def levels(self, most: int) -> Array:
        """Round numbers from below the lowest value to above the highest, for no more bands than asked for."""
        low, high = self.ends
        steps = _CHANCES if self.chances else _STROKES
        # A little play, so that no band is opened by rounding.
        fits = (step for step in steps if np.ceil(high / step - 1e-9) - np.floor(low / step + 1e-9) <= most)
        step = next(fits, steps[-1])
        first = np.floor(low / step + 1e-9)
        numbers: Array = step * np.arange(first, max(np.ceil(high / step - 1e-9), first + 1) + 1)
        return numbers

    def word(self, level: float) -> str:
        """A level in words."""
        return f"{100 * level:.4g} %" if self.chances else f"{level:.4g}"


def _field(solution: Solution, page: Page, lie: str, cell: float, at_most: int | None) -> _Field:
    if at_most is None:
        grid = solution.expected_strokes_map(lie=lie, cell=cell)
    else:
        grid = solution.chance_map(lie=lie, at_most=at_most, cell=cell)
    # The outermost places stand for the ground around them, up to the edge of the map.
    values = np.pad(grid.values, 1, mode="edge")
    places = np.stack(np.meshgrid(_longer(grid.x), _longer(grid.y)), axis=-1).reshape(-1, 2)
    shape = values.shape
    x, y = (axis.reshape(shape) for axis in page.of(places).T)
    on_page = (x > page.x[0]) & (x < page.x[1]) & (y > page.y[0]) & (y < page.y[1])
    seen = values[on_page & np.isfinite(values)]
    hidden = np.isin(solution.hole.surface_at(places), _HIDDEN).reshape(shape)
    return _Field(x, y, _under(values, hidden), (float(seen.min()), float(seen.max())), at_most is not None)


def _longer(axis: Array) -> Array:
    """An even axis with a step more at each end."""
    step = axis[1] - axis[0]
    return np.concatenate([[axis[0] - step], axis, [axis[-1] + step]])


def _under(values: Array, hidden: Array) -> Array:
    """The values, carried on a little below what hides them, so that bands reach its edge."""
    filled = values.copy()
    rows, columns = values.shape
    for _ in range(3):
        padded = np.pad(filled, 1, constant_values=np.nan)
        near = np.stack([padded[i : i + rows, j : j + columns] for i in range(3) for j in range(3)])
        known = np.isfinite(near)
        count = known.sum(axis=0)
        mean = np.where(known, near, 0.0).sum(axis=0) / np.maximum(count, 1)
        filled = np.where(np.isnan(filled) & hidden & (count > 0), mean, filled)
    return filled


class _Map:
    """The bands and their lines, drawn where nothing hides them."""

    def __init__(self, ax: Axes, theme: Theme, page: Page, hole: Hole, field: _Field) -> None:
        """Draw them."""
        self.field = field
        high = figure.inches(ax)[1]
        self.levels = field.levels(int(np.clip(_BANDS_AN_INCH * high, _FEWEST_BANDS, _MOST_BANDS)))
        scale = LinearSegmentedColormap.from_list("wideberth", theme.scale)
        at = np.linspace(0, 1, len(self.levels) - 1) if len(self.levels) > 2 else np.array([0.5])
        self._colours = [to_hex(scale(1 - t if field.chances else t)) for t in at]
        self._ax, self._theme, self._page, self._hole = ax, theme, page, hole
        # Off the map there is no value: paper, since rough has a colour of the scale.
        blank = Rectangle((page.x[0], page.y[0]), page.width, page.height, color=theme.paper, linewidth=0)
        blank.set_zorder(_BLANK)
        ax.add_patch(blank)
        self.lines = self._draw(_BANDS)
        self._surfaces()

    def _draw(self, height: float, within: Path | None = None) -> QuadContourSet:
        """Draw bands and lines at a height, all over or within an outline."""
        field, ax = self.field, self._ax
        values = np.ma.masked_invalid(field.values)
        bands = ax.contourf(field.x, field.y, values, levels=self.levels, colors=self._colours, zorder=height)
        lines = ax.contour(
            field.x, field.y, values, levels=self.levels, colors=[self._theme.ink], linewidths=0.7, alpha=0.6,
            zorder=height,
        )  # fmt: skip
        if within is not None:
            for drawn in (bands, lines):
                drawn.set_clip_path(within, ax.transData)
        return lines

    def _surfaces(self) -> None:
        """Lay the surfaces over the bands in their order: whole where nobody plays from them, as outlines elsewhere."""
        # Where bands are seen through a surface it has an outline and a texture alone.
        sheer = see_through(self._theme)
        hiding: list[list[Array]] = []
        for i, feature in enumerate(self._hole.features):
            height = _SURFACES + 1e-3 * i
            rings = [self._page.of(ring) for ring in feature.rings]
            if feature.surface in _HIDDEN:
                area(self._ax, self._theme, feature.surface, rings, height)
                hiding.append(rings)
                continue
            if any(_meet(rings[0], other) for other in hiding):
                # It lies on something that hides the bands, as an island green does.
                self._draw(height, ringed(rings))
            area(self._ax, sheer, feature.surface, rings, height)


def _meet(ring: Array, other: list[Array]) -> bool:
    """Whether what a ring encloses shares ground with another area, given as its outline and its holes."""
    mine, outline = Path(ring, closed=False), Path(other[0], closed=False)
    if not outline.intersects_path(mine, filled=True):
        return False
    holes = (Path(hole, closed=False) for hole in other[1:])
    return not any(hole.contains_points(ring).all() for hole in holes)


def see_through(theme: Theme) -> Theme:
    """The theme with no fill but on surfaces that nobody plays from."""
    looks = {n: replace(k, fill="none", edge=_edge(theme, n)) for n, k in theme.surfaces.items() if n not in _HIDDEN}
    return replace(theme, surfaces={**theme.surfaces, **looks})


def _edge(theme: Theme, surface: str) -> str:
    """The outline of a surface that bands are seen through: grey for grass, which is drawn green elsewhere."""
    own = surface in ("green", "bunker", "trees")
    return theme.surfaces[surface].edge if own else theme.muted


def _route(ax: Axes, theme: Theme, shots: _Shots, page: Page) -> Array:
    """Draw the shots from the tee on; returns the corners of the line, on the page."""
    line, clubs = page.of(shots.places), shots.clubs
    if shots.aims:
        x, y = page.of(shots.aims).T
        for size, edge, colour in ((5.0, 2.8, theme.paper), (4.4, 1.3, theme.ink)):
            ax.plot(x, y, "x", markersize=size, markeredgewidth=edge, color=colour, zorder=_ROUTE)
    # A band of paper below lifts the dashes off dark and light alike.
    ax.plot(*line.T, color=theme.paper, linewidth=2.6, alpha=0.55, solid_capstyle="round", zorder=_ROUTE)
    ax.plot(*line.T, color=theme.ink, linewidth=1.3, linestyle=(0, (4, 2)), zorder=_ROUTE)
    ends = line[1:] if clubs and clubs[-1] != "putt" else line[1:-1]
    ax.plot(
        *ends.T, linestyle="none", marker="o", markersize=4.2, color=theme.ink, markeredgecolor=theme.paper,
        markeredgewidth=0.8, zorder=_ROUTE,
    )  # fmt: skip
    return line


@dataclass(frozen=True)
class _Shots:
    """The shots from the tee on."""

    #: The tee, and where each ends; a putt at the pin.
    places: list[tuple[float, float]]
    clubs: list[str]
    #: The aims as far out, where a ball ends aside of them.
    aims: list[tuple[float, float]]


def _shots(solution: Solution) -> _Shots:
    """Follow the shots from the tee on, each struck solidly and without luck."""
    hole, objective = solution.hole, solution.objective
    left = objective.strokes if objective is not None and objective.kind == "at_most" else None
    places, clubs, aims = [hole.tee], [], []
    for played in range(_LONGEST):
        if left is not None and left <= played:
            break
        advice = solution.shot_from(places[-1], at_most=None if left is None else left - played)
        clubs.append(advice.club)
        if advice.club == "putt":
            places.append(hole.pin)
            break
        places.append(advice.finish)
        aim = _as_far_out(advice)
        if np.hypot(*np.subtract(aim, advice.finish)) > _ASIDE:
            aims.append(aim)
        if hole.surface_at(advice.finish) in _HIDDEN:
            break
    return _Shots(places, clubs, aims)


def _as_far_out(advice: Advice) -> tuple[float, float]:
    """The point of the aim that is as far away as a solid ball ends."""
    start = np.array(advice.where)
    way = np.array(advice.target) - start
    x, y = start + way / np.hypot(*way) * np.hypot(*(np.array(advice.finish) - start))
    return float(x), float(y)


def _name_clubs(ax: Axes, theme: Theme, line: Array, clubs: list[str]) -> None:
    """Write the clubs beside the line, where no other word is."""
    for club, start, end in zip(clubs, line, line[1:], strict=False):
        if club == "putt":
            continue
        label = ax.text(
            0, 0, club, fontsize=figure.SMALL, color=theme.ink, fontweight="bold", zorder=_WORDS, parse_math=False
        )
        label.set_bbox({"facecolor": theme.paper, "alpha": 0.85, "linewidth": 0, "boxstyle": "round,pad=0.2"})
        aside = _yards_a_point(ax) * 7
        places = [
            (float(x + side * aside), float(y), "left" if side > 0 else "right", "center")
            for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
            for side in (1, -1)
            for x, y in [start + share * (end - start)]
        ]
        figure.free_place(ax, label, places)


def _yards_a_point(ax: Axes) -> float:
    """Yards that a point spans on the map."""
    (x0, _), (x1, _) = ax.transData.inverted().transform([(0, 0), (ax.figure.dpi / 72, 0)])
    return float(x1 - x0)


def _tell_lines(ax: Axes, theme: Theme, page: Page, hole: Hole, drawn: _Map, route: Array) -> None:
    """Write on each line what it is worth: near the best shots, where it covers no other word, nor them."""
    renderer: Any = ax.figure.canvas.get_renderer()  # type: ignore[attr-defined]
    yards = _yards_a_point(ax)
    size = figure.SMALL - 0.4
    taken = [
        text.get_window_extent(renderer).padded(2).transformed(ax.transData.inverted())
        for text in ax.texts
        if text.get_text()
    ]
    # The flag, and the markers of the tee.
    (x, y), tee = page.of(hole.pin), page.of(hole.tee)
    taken += [Bbox([(x - 4 * yards, y - 4 * yards), (x + 11 * yards, y + 17 * yards)])]
    taken += [Bbox([tee - 7 * yards, tee + 7 * yards])]
    way = np.concatenate([a + np.linspace(0, 1, 200)[:, None] * (b - a) for a, b in pairwise(route)])
    for level, path in zip(drawn.levels, drawn.lines.get_paths(), strict=True):
        word = drawn.field.word(float(level))
        half = 0.5 * yards * np.array([(len(word) * figure.LETTER + 0.5) * size, 1.3 * size])
        for ring in map(np.asarray, path.to_polygons(closed_only=False)):
            if np.hypot(*np.diff(ring, axis=0).T).sum() < 5 * half[0]:
                continue
            at = _free(ring, half, page, hole, way, taken)
            if at is None:
                continue
            label = ax.text(
                float(at[0]),
                float(at[1]),
                word,
                fontsize=size,
                color=theme.ink,
                ha="center",
                va="center",
                zorder=_WORDS - 1,
            )
            label.set_bbox({"facecolor": theme.paper, "alpha": 0.8, "linewidth": 0, "boxstyle": "round,pad=0.12"})
            taken.append(Bbox([at - half, at + half]))


def _free(ring: Array, half: Array, page: Page, hole: Hole, way: Array, taken: list[Bbox]) -> Array | None:
    """The place on a line nearest the best shots that has room for a word; None where there is none."""
    steps = max(int(np.hypot(*np.diff(ring, axis=0).T).sum() / half[1]), 2)
    along = np.linspace(0, len(ring) - 1, steps)
    places = np.column_stack([np.interp(along, np.arange(len(ring)), ring[:, k]) for k in range(2)])
    inside = (
        (places[:, 0] - half[0] > page.x[0])
        & (places[:, 0] + half[0] < page.x[1])
        & (places[:, 1] - half[1] > page.y[0])
        & (places[:, 1] + half[1] < page.y[1])
    )
    places = places[inside]
    if not len(places):
        return None
    away = np.abs(places[:, None, :] - way[None, :, :])
    clear = ~(away < half + 0.4 * half[1]).all(axis=2).any(axis=1)
    corners = places[:, None, :] + half * np.array([(0, 0), (-1, -1), (1, -1), (-1, 1), (1, 1)])
    seen = ~np.isin(hole.surface_at(page.plan(corners.reshape(-1, 2))), _HIDDEN).reshape(-1, 5).any(axis=1)
    places, away = places[clear & seen], away[clear & seen]
    for place in places[np.argsort(np.hypot(*np.moveaxis(away, 2, 0)).min(axis=1), kind="stable")]:
        box = Bbox([place - half, place + half])
        if not any(box.overlaps(other) for other in taken):
            found: Array = place
            return found
    return None
