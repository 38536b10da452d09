"""Pictures: what is drawn, in which colours, where words lie, and that the same picture is the same file."""

import itertools
import math
import pickle
import subprocess
import sys
from types import SimpleNamespace

import numpy as np
import pytest
import wideberth as wb
from helpers import DATA, plans, read_map, sketch
from wideberth import _wideberth as core
from wideberth._table import percent

matplotlib = pytest.importorskip("matplotlib")
matplotlib.use("Agg")

import matplotlib.pyplot as plt  # noqa: E402
from matplotlib.axes import Axes  # noqa: E402
from matplotlib.colors import to_hex, to_rgb  # noqa: E402
from matplotlib.patches import Ellipse  # noqa: E402
from wideberth import plot  # noqa: E402

PUPIL = wb.Player.from_json((DATA / "pupil.json").read_text("utf-8"))
SURFACES = (
    "tee fairway first_cut rough deep_rough fringe green bunker penalty_red penalty_yellow out_of_bounds trees".split()
)
THEMES = (plot.LIGHT, plot.DARK)


def par_3():
    return wb.Hole.sketch(
        name="Well",
        par=3,
        length=158,
        bunkers=[wb.along(140, left=12), wb.along(150, right=16)],
        crossings=[(110, 20)],
        trees=[wb.along(60, left=30)],
    )


def par_5():
    return wb.Hole.sketch(
        name="The long way round by the old mill",
        par=5,
        length=540,
        dogleg=(260, -35),
        water=[wb.hazard(wb.along(300, right=25), length=120, width=30, name="mill pond")],
        bunkers=[wb.along(500, left=14), wb.along(240, right=20)],
        out_of_bounds="both",
        out_of_bounds_offset=55,
    )


HOLES = {
    "alder-bend": lambda: wb.Hole.from_geojson(read_map("alder-bend")),
    "plover-neck": lambda: wb.Hole.from_geojson(read_map("plover-neck")),
    "sketch": sketch,
    "par 3": par_3,
    "par 5": par_5,
}


@pytest.fixture(scope="module")
def result():
    return wb.compare(sketch(), PUPIL, plans(), plays=2_000, seed=3)


@pytest.fixture(scope="module")
def sweep():
    return wb.aim_sweep(sketch(), PUPIL, aims=range(-20, 21, 10), plays=1_000, seed=3)


@pytest.fixture(autouse=True)
def closed():
    yield
    plt.close("all")


# Colours.

# What people with a kind of colour vision see of linear red, green and blue: Machado, Oliveira and Fernandes 2009, "A
# physiologically-based model for simulation of color vision deficiency", IEEE TVCG 15:1291, severity 1 (published;
# equal to the matrices of the library colorspacious to the last digit).
VISION = {
    "usual": np.eye(3),
    "protanopia": np.array(
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]
    ),
    "deuteranopia": np.array(
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]
    ),
    "tritanopia": np.array(
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]
    ),
}
# The most that tells one colour from its neighbour at a glance is taken as 20 units of CIELAB (1976); a difference
# that is just noticed is 2.3 (Mahy, Van Eycken and Oosterlinck 1994; from memory).
AT_A_GLANCE, NOTICED = 20.0, 2.3


def lab(colour, vision):
    """CIELAB of a colour as seen under D65 (IEC 61966-2-1 and CIE 15)."""
    c = np.array(to_rgb(colour))
    linear = np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4)
    seen = np.clip(VISION[vision] @ linear, 0, 1)
    to_xyz = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
    t = to_xyz @ seen / [0.95047, 1.0, 1.08883]
    f = np.where(t > 216 / 24389, np.cbrt(t), (24389 / 27 * t + 16) / 116)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def difference(one, other, vision):
    return float(np.linalg.norm(lab(one, vision) - lab(other, vision)))


def test_the_simulated_colours_are_right():
    for vision, matrix in VISION.items():
        # Greys are seen as they are.
        assert np.allclose(matrix.sum(axis=1), 1, atol=3e-6)
        assert lab("white", vision) == pytest.approx([100, 0, 0], abs=0.05)
    # CIELAB of the sRGB primaries under D65, as published in many tables: red and blue.
    assert lab("#ff0000", "usual") == pytest.approx([53.24, 80.09, 67.20], abs=0.1)
    assert lab("#0000ff", "usual") == pytest.approx([32.30, 79.19, -107.86], abs=0.1)
    # Red and green of a traffic light come close together for those who cannot tell them apart.
    assert difference("#c00000", "#607000", "deuteranopia") < 0.4 * difference("#c00000", "#607000", "usual")


@pytest.mark.parametrize("vision", VISION)
@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_colours_keep_apart_in_every_kind_of_vision(theme, vision):
    ground = [look.fill for look in theme.surfaces.values()]
    for one, other in itertools.combinations(theme.strokes, 2):
        assert difference(one, other, vision) > AT_A_GLANCE, (one, other)
    for stroke, fill in itertools.product(theme.strokes, ground):
        assert difference(stroke, fill, vision) > AT_A_GLANCE, (stroke, fill)
    assert difference(theme.blow_up, theme.plain, vision) > AT_A_GLANCE
    assert difference(theme.blow_up, theme.accent, vision) > AT_A_GLANCE
    # Where a fill is not told from another, texture, dashes or the weight of the outline tell it.
    for one, other in itertools.combinations(theme.surfaces.values(), 2):
        told = (one.hatch, one.dashes, one.width) != (other.hatch, other.dashes, other.width)
        assert told or difference(one.fill, other.fill, vision) > 3 * NOTICED, (one, other)
    # Water is told apart by its edge: red or yellow, whole or dashed.
    red, yellow = theme.surfaces["penalty_red"], theme.surfaces["penalty_yellow"]
    assert red.dashes != yellow.dashes and difference(red.edge, yellow.edge, vision) > 3 * NOTICED


def contrast(one, other):
    """The contrast ratio of WCAG 2."""

    def luminance(colour):
        c = np.array(to_rgb(colour))
        return np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4) @ [0.2126, 0.7152, 0.0722]

    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_words_can_be_read(theme):
    # 4.5 to 1 is what WCAG 2.2 (1.4.3) asks of text.
    for words in (theme.ink, theme.muted, theme.blow_up, theme.accent, *theme.strokes):
        assert contrast(words, theme.paper) >= 4.5, words
    for surface, look in theme.surfaces.items():
        assert contrast(theme.ink, look.fill) >= 4.5 or surface in ("green", "bunker"), surface


def test_every_surface_has_its_own_look():
    for theme in THEMES:
        assert list(theme.surfaces) == list(SURFACES)
        looks = list(theme.surfaces.values())
        assert len(set(looks)) == len(looks)


# Words.


def drawn(ax):
    """The figure with everything laid out."""
    figure = ax.figure
    while figure.figure is not figure:
        figure = figure.figure
    figure.draw_without_rendering()
    return figure


def words(figure):
    """Every text shown, with its box in pixels."""
    renderer = figure.canvas.get_renderer()
    found = []
    for text in figure.findobj(matplotlib.text.Text):
        if text.get_visible() and text.get_text().strip():
            box = text.get_window_extent(renderer)
            # A place outside the view has ticks but no words.
            if box.width and box.height:
                found.append((text.get_text(), box))
    return [(text, box) for text, box in found if not hidden_tick(figure, text, box)]


def hidden_tick(figure, text, box):
    """Ticks beyond the limits are made but not shown."""
    for ax in figure.findobj(Axes):
        for axis in (ax.xaxis, ax.yaxis):
            low, high = sorted(axis.get_view_interval())
            shown = {id(t.label1) for t in axis.get_major_ticks() if low - 1e-9 <= t.get_loc() <= high + 1e-9}
            for tick in axis.get_major_ticks():
                same = tick.label1.get_text() == text and tick.label1.get_window_extent().bounds == box.bounds
                if same and (id(tick.label1) not in shown or not tick.label1.get_visible()):
                    return True
    return False


def assert_words_are_apart(figure):
    shown = words(figure)
    assert shown
    page = figure.bbox
    for text, box in shown:
        assert page.x0 - 1 <= box.x0 and box.x1 <= page.x1 + 1, f"{text!r} leaves the page"
        assert page.y0 - 1 <= box.y0 and box.y1 <= page.y1 + 1, f"{text!r} leaves the page"
    for (one, a), (other, b) in itertools.combinations(shown, 2):
        across = min(a.x1, b.x1) - max(a.x0, b.x0)
        up = min(a.y1, b.y1) - max(a.y0, b.y0)
        # A pixel of the boxes is empty.
        assert across <= 1 or up <= 1, f"{one!r} lies on {other!r}"


def test_words_that_lie_on_each_other_are_found():
    _, ax = plt.subplots()
    ax.text(0.5, 0.5, "one")
    ax.text(0.51, 0.5, "other")
    with pytest.raises(AssertionError, match="lies on"):
        assert_words_are_apart(drawn(ax))


def test_dollars_in_names_are_dollars():
    named = r"bet $5 or $6 on \x$"
    _, ax = plt.subplots()
    plot.figure.headline(ax, plot.LIGHT, named, named)
    plan = SimpleNamespace(name=named, mean=4.0, standard_error=0.1)
    plot.scores._names(ax, [plan], plot.LIGHT, 40.0)
    room = np.arange(200.0)
    free = np.ones((200, 200), dtype=bool)
    assert plot.surface_labels._write(ax, plot.LIGHT, "trees", named, free, ~free, room, room, 0.5)
    table = {"club": [named], "total": [1.0], "depth": [1.0], "width": [1.0]}
    plot.bag._columns(ax, plot.LIGHT, table, [(0.0, 0.0)], 1.0, 1.0)
    texts = [t for t in drawn(ax).findobj(matplotlib.text.Text) if "bet" in t.get_text()]
    assert len(texts) == 5 and not any(t.get_parse_math() for t in texts)


SIZES = [None, (4, 9), (7, 7), (10, 6)]


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("name", HOLES)
def test_words_on_a_hole_are_apart(name, size):
    ax = None if size is None else plt.subplots(figsize=size, layout="constrained")[1]
    assert_words_are_apart(drawn(HOLES[name]().plot(ax)))


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("name", HOLES)
def test_words_on_shots_are_apart(name, size):
    hole = HOLES[name]()
    ax = None if size is None else plt.subplots(figsize=size, layout="constrained")[1]
    assert_words_are_apart(drawn(plot.plot_shots(hole, PUPIL, wb.suggest_plans(hole, PUPIL)[0], ax=ax, plays=150)))


@pytest.mark.parametrize("size", [None, (7, 5), (10, 7)], ids=str)
def test_words_on_scores_and_aims_are_apart(result, sweep, size):
    for draw in (result.plot, sweep.plot):
        ax = None if size is None else plt.subplots(figsize=size, layout="constrained")[1]
        assert_words_are_apart(drawn(draw(ax)))


@pytest.mark.parametrize("handicap", [0, 18, 54, None])
@pytest.mark.parametrize("size", [None, (7, 9), (5.5, 7), (12, 7)], ids=str)
def test_words_on_a_bag_are_apart(handicap, size):
    ax = None if size is None else plt.subplots(figsize=size, layout="constrained")[1]
    player = PUPIL if handicap is None else wb.Player.from_handicap(handicap)
    assert_words_are_apart(drawn(player.plot(ax)))


def test_odd_bags_are_drawn():
    club = {"carry_sd": 0, "lateral_sd": 0, "mishit_share": 0}
    machine = PUPIL.with_clubs([wb.Club(c.name, carry=c.carry, **club) for c in PUPIL.clubs])
    ax = machine.plot()
    # Without any spread there is nothing as deep or as wide as a yard.
    assert all(max(p.width, p.height) < 1 for p in ax.patches if isinstance(p, Ellipse))
    assert "driver" in [t.get_text() for t in ax.texts]
    drawn(ax)


def test_words_on_two_pictures_side_by_side_are_apart(result):
    _, axes = plt.subplots(1, 2, figsize=(7.6, 9.6), layout="constrained")
    for ax, plan in zip(axes, result.plans, strict=False):
        plan.plot_shots(ax)
    assert_words_are_apart(drawn(axes[0]))


def test_labels_are_spread_as_little_as_need_be():
    assert plot.figure.apart([0, 10, 20], 5) == [0, 10, 20]
    assert plot.figure.apart([10, 0, 10], 4) == [8, 0, 12]
    assert plot.figure.apart([5, 5, 5], 2) == [3, 5, 7]
    rng = np.random.default_rng(1)
    for _ in range(50):
        wanted = rng.uniform(0, 20, 12)
        found = np.array(plot.figure.apart(list(wanted), 3))
        order = np.argsort(wanted, kind="stable")
        assert (np.diff(found[order]) >= 3 - 1e-9).all()
        # The least squares of places at a distance: no shift of any run of labels makes them better (checked by force).
        moved = np.linspace(-0.5, 0.5, 5)
        best = np.sum((found - wanted) ** 2)
        for shift in itertools.product(moved, repeat=2):
            half = found.copy()
            half[order[:6]] += shift[0]
            half[order[6:]] += shift[1]
            if (np.diff(half[order]) >= 3 - 1e-9).all():
                assert np.sum((half - wanted) ** 2) >= best - 1e-9


# The hole.


@pytest.mark.parametrize("name", HOLES)
def test_a_hole_is_to_scale_and_play_goes_up_the_page(name):
    hole = HOLES[name]()
    ax = hole.plot()
    figure = drawn(ax)
    assert ax.get_aspect() == 1
    across, up = (np.diff(ax.transData.transform([[0, 0], [100, 100]]), axis=0))[0]
    assert across == pytest.approx(up, rel=1e-6)
    page = plot.page.Page(hole)
    tee, pin = page.of(hole.tee), page.of(hole.pin)
    assert tee == pytest.approx([0, 0], abs=1e-9)
    assert pin == pytest.approx([0, math.dist(hole.tee, hole.pin)], abs=1e-9)
    (x0, x1), (y0, y1) = ax.get_xlim(), ax.get_ylim()
    line = page.of(hole.line_of_play)
    assert (line[:, 0] > x0).all() and (line[:, 0] < x1).all() and (line[:, 1] > y0).all() and (line[:, 1] < y1).all()
    assert page.plan(page.of([[3.0, 4.0]]))[0] == pytest.approx([3, 4])
    # The bar is as long as it says, on the page.
    bar = next(one for one in ax.lines if one.get_linewidth() == 3.6)
    ends = bar.get_transform().transform(np.column_stack(bar.get_data()))
    assert np.ptp(ends[:, 0]) == pytest.approx(across / 2, rel=1e-6) and np.ptp(ends[:, 1]) < 1e-6
    assert figure is ax.figure


@pytest.mark.parametrize("name", HOLES)
def test_arcs_are_as_far_away_as_they_say(name):
    hole = HOLES[name]()
    ax = hole.plot()
    page = plot.page.Page(hole)
    starts = {"right": page.of(hole.tee), "left": page.of(hole.pin)}
    told = 0
    for text in ax.texts:
        if text.get_text().isdigit():
            start = starts[text.get_ha()]
            yards = math.dist(text.xy, start)
            assert yards == pytest.approx(int(text.get_text()), abs=1e-6)
            told += 1
    assert told >= 2


def test_north_is_told_where_the_map_knows_it():
    mapped, drawn_by_hand = HOLES["alder-bend"](), sketch()
    assert mapped.north_up and not drawn_by_hand.north_up
    texts = [t.get_text() for t in mapped.plot().texts]
    assert "north" in texts and "play up the page" not in texts
    texts = [t.get_text() for t in drawn_by_hand.plot().texts]
    assert "play up the page" in texts and "north" not in texts
    # It is kept wherever the hole goes.
    for hole in (
        mapped.with_pin(back=1),
        mapped.under(wb.Conditions(firmness="firm")),
        mapped.with_terrain(uphill_ft=3),
    ):
        assert hole.north_up
    assert wb.Hole.from_json(mapped.to_json()).north_up and pickle.loads(pickle.dumps(mapped)) == mapped
    assert wb.Hole.from_json(mapped.to_json().replace('"north_up":true', '"north_up":false')) != mapped
    with pytest.raises(wb.InputError, match="north_up"):
        wb.Hole.from_json(mapped.to_json().replace('"north_up":true', '"north_up":1'))


def test_the_arrow_points_north():
    hole = HOLES["plover-neck"]()
    ax = hole.plot()
    arrow = next(p for p in ax.patches if isinstance(p, matplotlib.patches.FancyArrowPatch))
    (x0, y0), (x1, y1) = arrow._posA_posB
    north = plot.page.Page(hole).of([hole.tee, np.add(hole.tee, (0, 10))])[1]
    assert math.atan2(y1 - y0, x1 - x0) == pytest.approx(math.atan2(north[1], north[0]), abs=1e-9)


def test_every_feature_is_drawn_in_its_look():
    hole = sketch()
    for theme in THEMES:
        ax = hole.plot(theme=theme.name)
        fills = {to_hex(p.get_facecolor()) for p in ax.patches}
        edges = {to_hex(p.get_edgecolor()) for p in ax.patches}
        hatches = {p.get_hatch() for p in ax.patches}
        for surface in {feature.surface for feature in hole.features}:
            look = theme.surfaces[surface]
            assert look.fill in fills
            if look.width:
                assert look.edge in edges
            if look.hatch:
                assert look.hatch in hatches
        assert to_hex(ax.figure.get_facecolor()) == theme.paper


def test_names_lie_on_what_they_name():
    for make in HOLES.values():
        hole = make()
        ax, page = hole.plot(), plot.page.Page(hole)
        names = {f.name: f.surface for f in hole.features if f.name}
        words_of = {word: kind for kind, word in plot.surface_labels.WORDS.items()}
        found = 0
        drawn(ax)
        for text in ax.texts:
            kind = names.get(text.get_text(), words_of.get(text.get_text()))
            # Words of the key lie below the map.
            if kind is not None and text.get_bbox_patch() is not None:
                box = text.get_window_extent().transformed(ax.transData.inverted())
                corners = [(x, y) for x in (box.x0, box.x1) for y in (box.y0, box.y1)]
                assert set(hole.surface_at(page.plan(corners))) == {kind}, text.get_text()
                found += 1
        assert found


# Shots.


def test_shots_are_drawn_where_they_stopped(result):
    hole, best = result.hole, result.best
    ax = best.plot_shots(plays=80)
    strokes = wb.simulate(hole, result.player, best.plan, plays=80, seed=3).columns()
    full = strokes["club"] != "putt"
    rest = plot.page.Page(hole).of(np.column_stack([strokes["rest_x"], strokes["rest_y"]]))[full]
    dots = np.concatenate([c.get_offsets() for c in ax.collections])
    assert len(dots) == len(rest)
    assert np.allclose(np.sort(dots.ravel()), np.sort(rest.ravel()))
    # The tee shots' ellipse holds two thirds of them.
    first = rest[strokes["stroke"][full] == 1]
    ring = next(p for p in ax.patches if isinstance(p, Ellipse))
    assert sum(inside(ring, first, 1 + 1e-9)) == math.ceil(80 * 2 / 3)


def inside(ring, points, edge=1.0):
    turn = math.radians(ring.angle)
    away = points - np.array(ring.center)
    along = away @ [math.cos(turn), math.sin(turn)] / (ring.width / 2)
    across = away @ [-math.sin(turn), math.cos(turn)] / (ring.height / 2)
    return along**2 + across**2 <= edge


def test_shots_go_on_the_axes_given_in_their_theme(result):
    ax = result.hole.plot(theme="dark")
    areas = len(ax.patches)
    assert result.best.plot_shots(ax=ax, plays=40) is ax
    rings = [p for p in ax.patches[areas:] if isinstance(p, Ellipse)]
    assert len(ax.patches) == areas + len(rings) and rings, "the hole is not drawn again"
    assert to_hex(rings[0].get_edgecolor()) == plot.DARK.strokes[0]
    assert_words_are_apart(drawn(ax))
    # Axes with something else on them get the hole first.
    _, other = plt.subplots()
    other.plot([0, 1], [0, 1])
    result.best.plot_shots(ax=other, plays=20)
    assert len(other.patches) > 5


# The ellipse of two thirds.


def test_an_ellipse_holds_two_thirds_and_knows_its_normal():
    # Of a normal the tightest ellipse of two thirds is the contour at which 1 - exp(-r^2 / 2) is two thirds: half axes
    # of sqrt(2 ln 3) = 1.4823 standard deviations (computed independently). 40,000 points settle them to less than a
    # percent, so that a tolerance of 3 % is more than three errors.
    rng = np.random.default_rng(5)
    sd = np.array([9.0, 4.0])
    turn = math.radians(30)
    rotate = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    points = rng.standard_normal((40_000, 2)) * sd @ rotate + [100, -7]
    x, y, long, short, degrees = core.two_thirds_ellipse(points)
    assert (x, y) == (pytest.approx(100, abs=0.3), pytest.approx(-7, abs=0.3))
    assert [long, short] == pytest.approx(math.sqrt(2 * math.log(3)) * sd, rel=0.03)
    assert degrees == pytest.approx(30, abs=2)
    # Shots that stray do not stretch it: with 15 % of them far off it is the contour of 2/3 / 0.85 of the rest.
    stray = rng.random(40_000) < 0.15
    points[stray] = rng.uniform(-400, 40, (stray.sum(), 2))
    share = 2 / 3 / (1 - stray.mean())
    found = core.two_thirds_ellipse(points)
    assert list(found[2:4]) == pytest.approx(math.sqrt(-2 * math.log(1 - share)) * sd, rel=0.04)
    # Moving, turning and stretching the points does the same to the ellipse.
    few = rng.standard_normal((90, 2)) * [5, 2]
    one, moved = core.two_thirds_ellipse(few), core.two_thirds_ellipse(3 * few @ rotate + [1, 2])
    assert moved[2:4] == pytest.approx([3 * one[2], 3 * one[3]])
    assert (moved[4] - one[4] - 30) % 180 == pytest.approx(0, abs=1e-6) or (
        moved[4] - one[4] - 30
    ) % 180 == pytest.approx(180, abs=1e-6)
    for n in (3, 4, 5, 20, 89):
        ring = core.two_thirds_ellipse(few[:n])
        if ring is not None:
            shape = Ellipse(ring[:2], 2 * ring[2], 2 * ring[3], angle=ring[4])
            assert sum(inside(shape, few[:n], 1 + 1e-9)) >= math.ceil(2 * n / 3)


@pytest.mark.parametrize(
    "points",
    [
        np.empty((0, 2)),
        [[1, 2]],
        [[1, 2], [3, 4]],
        [[0, 0], [1, 1], [2, 2], [5, 5]],
        [[3, 3]] * 50,
        [[0, 0], [1, 0], [0, math.nan]],
        [[0, 0], [1, 0], [0, math.inf]],
        [[1, 2, 3]] * 9,
    ],
    ids=str,
)
def test_no_ellipse_where_there_is_no_area(points):
    assert core.two_thirds_ellipse(points) is None


# The bag.


def test_the_shots_of_a_bag_are_those_of_its_table():
    # Of n shots the share within strays by sqrt(p (1 - p) / n); five of those for 26 shares: false alarm 2e-5.
    shots = 20_000
    table = PUPIL.table().columns()
    clubs = core.club_shots(PUPIL, shots=shots, seed=11)
    assert [name for name, _ in clubs] == list(table["club"])
    for i, (_, rest) in enumerate(clubs):
        assert rest.shape == (shots, 2)
        for axis, low, high in ((1, "short_end", "long_end"), (0, "left_end", "right_end")):
            within = np.mean((rest[:, axis] >= table[low][i]) & (rest[:, axis] <= table[high][i]))
            assert within == pytest.approx(2 / 3, abs=5 * math.sqrt(2 / 9 / shots))
        error = rest[:, 1].std() / math.sqrt(shots)
        assert rest[:, 1].mean() == pytest.approx(table["average"][i], abs=5 * error + 0.05)


def test_a_bag_is_to_scale_with_every_club():
    ax = PUPIL.plot()
    drawn(ax)
    across, up = (np.diff(ax.transData.transform([[0, 0], [100, 100]]), axis=0))[0]
    assert across == pytest.approx(up, rel=1e-6)
    rings = [p for p in ax.patches if isinstance(p, Ellipse)]
    table = PUPIL.table().columns()
    texts = [t.get_text() for t in ax.texts]
    for i, club in enumerate(table["club"]):
        assert club in texts
        assert f"{table['total'][i]:.0f}" in texts and f"{table['width'][i]:.0f}" in texts
    # A fill and a line each.
    assert len(rings) == 2 * len(table["club"])
    # As deep and as wide as the table says, about the middles of what it says, and told so.
    for i, ring in enumerate(rings[::2]):
        ends = [table[end][i] for end in ("left_end", "right_end", "short_end", "long_end")]
        assert (ring.width, ring.height) == pytest.approx((table["width"][i], table["depth"][i]), abs=1e-6)
        assert ring.center == pytest.approx(((ends[0] + ends[1]) / 2, (ends[2] + ends[3]) / 2))
        assert f"{ring.width:.0f}" in texts and f"{ring.height:.0f}" in texts
    assert "as deep and as wide as the columns say" in " ".join(texts).replace("\n", " ")


def test_a_bag_has_as_many_dots_as_asked_for():
    few = PUPIL.plot(shots=3, seed=4)
    dots = [c.get_offsets() for c in few.collections]
    clubs = core.club_shots(PUPIL, shots=3, seed=4)
    shown = np.concatenate([rest[np.abs(rest[:, 0]) < few.get_xlim()[0] * -1] for _, rest in clubs])
    assert np.allclose(np.concatenate(dots), shown) and len(shown) > 2 * len(clubs)
    assert "Dots: 3 shots of each club" in " ".join(t.get_text() for t in few.texts).replace("\n", " ")


# Scores and aims.


def test_scores_are_those_of_the_comparison(result):
    ax = result.plot()
    bars, behind = ax.child_axes
    heights = {}
    for bar in bars.patches:
        score, row = round(bar.get_x() + 0.41), int(bar.get_y() + bar.get_height())
        heights[row, score] = (bar.get_height(), bar.get_hatch())
    tallest = max(max(plan.distribution.values()) for plan in result.plans)
    unit = max(height for height, _ in heights.values()) / tallest
    last = max(score for _, score in heights)
    for row, plan in enumerate(result.plans):
        for score, share in plan.distribution.items():
            if score < last:
                assert heights[row, score][0] == pytest.approx(share * unit, abs=1e-9)
        assert heights[row, last][0] == pytest.approx(plan.probability(at_least=last) * unit, abs=1e-9)
        hatched = {score for (r, score), (height, hatch) in heights.items() if r == row and hatch}
        assert min(hatched) == result.par + 3
        assert bars.texts[row].get_text().startswith(percent(plan.blow_up, plan.blow_up_error))
    intervals = [tuple(line.get_xdata()) for line in behind.lines if line.get_linewidth() == 2.4]
    wanted = [result.difference(plan.name, result.best.name).interval for plan in result.plans[1:]]
    assert intervals == [pytest.approx(pair) for pair in wanted]


def test_one_play_is_drawn():
    one = wb.compare(sketch(), PUPIL, plans(), plays=1)
    figure = drawn(one.plot())
    drawn(wb.aim_sweep(sketch(), PUPIL, aims=[0, 10], plays=1).plot())
    assert not [text for text, _ in words(figure) if "nan" in text.lower() or "\u00b1" in text.partition(".")[0]]


def test_few_of_many_plans_are_shown(result):
    ax = result.plot(most=2)
    assert any("1 more plan" in t.get_text() for t in ax.texts)
    assert len(result.plot(most=1).child_axes) == 1
    with pytest.raises(wb.InputError, match="most is 0"):
        result.plot(most=0)


def test_a_sweep_is_a_comparison_of_aims(sweep):
    columns = sweep.columns()
    assert columns["aim_right"].tolist() == [-20, -10, 0, 10, 20]
    assert len({len(column) for column in columns.values()}) == 1
    hole, far = sketch(), PUPIL.club("driver").total
    by_hand = [wb.Plan(f"{y}", [wb.shot("driver", wb.along(far, right=y))], then="steady") for y in range(-20, 21, 10)]
    other = wb.compare(hole, PUPIL, by_hand, plays=1_000, seed=3)
    for i, plan in enumerate(by_hand):
        r = other[plan.name]
        assert (columns["mean"][i], columns["standard_error"][i]) == (r.mean, r.standard_error)
        assert (columns["blow_up"][i], columns["blow_up_error"][i]) == (r.blow_up, r.blow_up_error)
        lag = other.difference(plan.name, other.best.name)
        assert (columns["behind"][i], columns["behind_error"][i]) == (lag.mean, lag.standard_error)
    assert columns["behind"][[a.aim_right == sweep.best.aim_right for a in sweep.aims]] == 0
    assert f"{sweep.best.words}" in repr(sweep) and "best" in repr(sweep)
    assert sweep._repr_html_().startswith("<table")
    assert pickle.loads(pickle.dumps(sweep)) == sweep
    assert sweep != wb.aim_sweep(hole, PUPIL, aims=[0, 10], plays=100, seed=3)
    frame = pytest.importorskip("pandas").DataFrame(columns)
    assert sweep.to_pandas().equals(frame)


def test_the_picture_of_a_sweep_shows_it(sweep):
    ax = sweep.plot()
    score, risk = ax.child_axes
    columns = sweep.columns()
    line = next(one for one in score.lines if len(one.get_xdata()) == 5)
    assert np.array_equal(line.get_xdata(), columns["aim_right"]) and np.array_equal(line.get_ydata(), columns["mean"])
    band = score.collections[0].get_paths()[0].vertices
    for x, mean, error in zip(columns["aim_right"], columns["mean"], columns["standard_error"], strict=True):
        edge = band[np.isclose(band[:, 0], x)][:, 1]
        assert (edge.min(), edge.max()) == (pytest.approx(mean - error), pytest.approx(mean + error))
    line = next(one for one in risk.lines if len(one.get_xdata()) == 5)
    assert line.get_ydata() == pytest.approx(100 * columns["blow_up"])
    assert any(t.get_text().startswith(f"best: {sweep.best.words}") for t in score.texts)


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"aims": []}, "aims holds 0"),
        ({"aims": [3]}, "aims holds 1"),
        ({"aims": [3, 3.04]}, "twice"),
        ({"aims": [0, math.nan]}, "aims holds nan"),
        ({"aims": [0, 151]}, "aims holds 151; each must be -150 to 150"),
        ({"club": "spoon"}, "spoon"),
        ({"plays": 0}, "plays"),
        ({"blow_up": 0}, "blow_up"),
        ({"seed": -1}, "seed"),
    ],
    ids=str,
)
def test_bad_input_to_a_sweep_is_told(given, told):
    with pytest.raises(wb.InputError, match=told):
        wb.aim_sweep(sketch(), PUPIL, progress=lambda done, goal: pytest.fail("something was played"), **given)


def test_a_sweep_reports_progress():
    seen = []
    wb.aim_sweep(par_3(), PUPIL, club="5-iron", aims=[0, 5], plays=300, progress=lambda *at: seen.append(at))
    assert seen[-1] == (300, 300)


# All of them.


def pictures(result, sweep):
    return {
        "hole": result.hole.plot,
        "shots": result.best.plot_shots,
        "scores": result.plot,
        "bag": PUPIL.plot,
        "aim": sweep.plot,
    }


def test_every_picture_goes_on_the_axes_given_and_takes_a_theme(result, sweep):
    for name, draw in pictures(result, sweep).items():
        for theme in THEMES:
            figure, (first, second) = plt.subplots(1, 2, figsize=(13, 9), layout="constrained")
            assert draw(ax=second, theme=theme.name, title="Told") is second, name
            assert not first.texts and not first.patches and second.get_title(loc="left") == "Told"
            assert to_hex(figure.get_facecolor()) == theme.paper
        with pytest.raises(wb.InputError, match="theme is 'sepia'; it must be one of light, dark"):
            draw(theme="sepia")
        before = plt.get_fignums()
        ax = draw()
        assert isinstance(ax, Axes) and len(plt.get_fignums()) == len(before) + 1


def test_bad_input_to_pictures_is_told(result):
    with pytest.raises(wb.InputError, match="yards_from is 'moon'; it must be one of tee, green, both, neither"):
        sketch().plot(yards_from="moon")
    with pytest.raises(wb.InputError, match="shots is 0; it must be 1 to 100000"):
        PUPIL.plot(shots=0)
    with pytest.raises(wb.InputError, match="shots is 100001"):
        PUPIL.plot(shots=100_001)
    with pytest.raises(wb.InputError, match="plays"):
        result.best.plot_shots(plays=0)


def test_the_same_picture_is_the_same_file(result, sweep, tmp_path):
    for name, draw in pictures(result, sweep).items():
        made = []
        for i in (1, 2):
            ax = draw()
            files = [tmp_path / f"{name}-{i}.{ending}" for ending in ("svg", "png")]
            assert [plot.save(ax, file) for file in files] == files
            made.append([file.read_bytes() for file in files])
        assert made[0] == made[1], name
        text = (tmp_path / f"{name}-1.svg").read_text("utf-8")
        assert text.rstrip().endswith("</svg>") and "dc:date" not in text


def test_without_matplotlib_the_extra_is_named():
    code = (
        "import sys; sys.modules['matplotlib'] = None\n"
        "import wideberth as wb\n"
        "for thing in (wb.Hole.sketch(par=3, length=150), wb.Player.from_handicap(5)):\n"
        "    try: thing.plot()\n"
        "    except ImportError as error: print(error)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.count("pip install 'wideberth[plot]'") == 2, done


def wooded():
    """A hole with a stand across its fairway."""
    return wb.Hole.sketch(par=4, length=360, fairway_width=40, trees=[wb.hazard(wb.along(270), length=40, width=36)])


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_trees_over_the_fairway_are_seen(theme):
    """Their texture is drawn after the fairway, whose colour shows through; their name is written there."""
    ax = wooded().plot(theme=theme.name)
    texts = {text.get_text() for text in ax.texts}
    assert {"trees", "fairway"} <= texts
    ax.texts[[text.get_text() for text in ax.texts].index("trees")].remove()
    pixels = figure_pixels(ax, [(0, 255), (0, 262), (0, 285), (0, 150)])
    under, fairway = pixels[:-1].reshape(-1, 3), pixels[-1].reshape(-1, 3)
    plain = np.array(to_rgb(theme.surfaces["fairway"].fill))
    trees = np.array(to_rgb(theme.surfaces["trees"].fill))
    np.testing.assert_allclose(np.median(fairway, axis=0), plain, atol=0.01)
    np.testing.assert_allclose(np.median(under, axis=0), 0.6 * plain + 0.4 * trees, atol=0.03)
    hatched = np.array(to_rgb(theme.surfaces["trees"].edge))
    assert np.abs(under - hatched).sum(axis=1).min() < 0.2


def figure_pixels(ax, places):
    """What is drawn in squares of 31 pixels around some places, from 0 to 1: shape (n, 31, 31, 3)."""
    ax.figure.set_dpi(200)
    ax.figure.canvas.draw()
    drawn = np.asarray(ax.figure.canvas.buffer_rgba())[..., :3] / 255
    across, down = (ax.transData.transform(places) * [1, -1] + [0, drawn.shape[0]]).round().astype(int).T
    return np.array([drawn[y - 15 : y + 16, x - 15 : x + 16] for x, y in zip(across, down, strict=True)])


def test_lines_are_as_long_as_their_letters_and_keep_a_number_with_its_unit():
    from wideberth.plot import figure

    told = "1st putt for bogey ≤ 15 ft 50 %"
    for points in range(30, 160, 7):
        lines = figure.wrapped(told, points, 8)
        assert " ".join(lines) == told
        assert all(figure.width(line, 8) <= max(points, 4 * 8 * figure.LETTER) for line in lines)
        assert not any(line.startswith(("%", "ft")) for line in lines)
    assert "".join(figure.wrapped("i" * 90, 60, 8)) == "i" * 90
    assert figure.wrapped("driver, then a long way home", 70, 8, 1)[0].endswith("…")


def test_long_names_that_begin_alike_are_told_apart():
    from wideberth.plot import figure

    names = [f"the long way round to the left of everything, plan {i}" for i in range(3)]
    told = [figure.two_lines(name, 100, 8) for name in names]
    assert all(len(lines) == 2 for lines in told) and len({tuple(lines) for lines in told}) == 3
