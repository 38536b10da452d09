"""The picture of what a hole is worth: its scale, bands, lines, the best shots from the tee, and where words lie."""

import itertools
import json
import math

import numpy as np
import pytest
import wideberth as wb
from helpers import document, sketch

matplotlib = pytest.importorskip("matplotlib")
matplotlib.use("Agg")

import matplotlib.pyplot as plt  # noqa: E402
from matplotlib.colors import to_hex  # noqa: E402
from test_plot import HOLES, PUPIL, THEMES, VISION, assert_words_are_apart, difference, drawn, lab  # noqa: E402
from wideberth import plot  # noqa: E402


def island():
    """A short hole whose green lies in water, and whose water is drawn below it."""
    ring = [[-42, 80], [42, 80], [42, 180], [-42, 180]]
    return wb.Hole.from_json(
        json.dumps(document([{"surface": "penalty_yellow", "outline": ring}], par=3, length=130.0))
    )


@pytest.fixture(scope="module")
def solved():
    return wb.solve(sketch(), PUPIL, cell=8)


@pytest.fixture(scope="module")
def isle():
    return wb.solve(island(), PUPIL, cell=4)


@pytest.fixture(scope="module", autouse=True)
def maps_are_made_once():
    """A map takes seconds, and many pictures show the same: the numbers are held to account in `test_solve`."""
    made = {}

    def once(name):
        make = getattr(wb.Solution, name)

        def map_of(solution, **asked):
            key = (id(solution), name, *sorted(asked.items()))
            if key not in made:
                # The solution is kept, lest another one take its place in memory.
                made[key] = solution, make(solution, **asked)
            return made[key][1]

        return map_of

    with pytest.MonkeyPatch.context() as patch:
        for name in ("expected_strokes_map", "chance_map"):
            patch.setattr(wb.Solution, name, once(name))
        yield


@pytest.fixture(autouse=True)
def closed():
    yield
    plt.close("all")


# The scale.


@pytest.mark.parametrize("vision", VISION)
@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_the_scale_runs_from_light_to_dark_in_even_steps(theme, vision):
    # CIELAB is even to the usual eye; in the other kinds of vision the order must hold by lightness alone.
    lightness = [lab(colour, vision)[0] for colour in theme.scale]
    steps = -np.diff(lightness)
    assert (steps > 4).all() and steps.max() < 2 * steps.min()
    if vision == "usual":
        even = [difference(a, b, vision) for a, b in itertools.pairwise(theme.scale)]
        assert max(even) < 1.12 * min(even)
    # Of as many bands as there may be each is told from the next: 2.3 is just noticed; lines part them as well.
    scale = matplotlib.colors.LinearSegmentedColormap.from_list("", theme.scale)
    bands = [to_hex(c) for c in scale(np.linspace(0, 1, plot.values._MOST_BANDS))]
    assert min(difference(a, b, vision) for a, b in itertools.pairwise(bands)) > 1.3 * 2.3


# Levels.


@pytest.mark.parametrize("chances", [False, True])
def test_levels_are_round_and_hold_every_value(chances):
    rng = np.random.default_rng(8)
    nothing = np.zeros((2, 2))
    for _ in range(200):
        low, high = np.sort(rng.uniform(0, 1 if chances else 9, 2))
        field = plot.values._Field(nothing, nothing, nothing, (low, high), chances)
        for most in (5, 9, 16):
            levels = field.levels(most)
            assert levels[0] <= low + 1e-8 and levels[-1] >= high - 1e-8
            assert 2 <= len(levels) <= most + 1
            assert np.allclose(np.diff(levels), levels[1] - levels[0])
            assert all(len(field.word(level)) <= 6 for level in levels)
    same = plot.values._Field(nothing, nothing, nothing, (0.5, 0.5), chances)
    assert len(same.levels(9)) == 2, "a hole that is worth the same everywhere has one band"


# What is drawn.


def pixels(ax):
    """The picture as numbers, and a function from the page to its pixels."""
    figure = drawn(ax)
    figure.canvas.draw()
    image = np.asarray(figure.canvas.buffer_rgba())[..., :3]

    def at(places):
        x, y = np.rint(ax.transData.transform(places)).astype(int).T
        return image[np.clip(image.shape[0] - 1 - y, 0, image.shape[0] - 1), np.clip(x, 0, image.shape[1] - 1)]

    return at


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
@pytest.mark.parametrize("at_most", [None, 3])
def test_bands_show_what_each_place_is_worth(isle, theme, at_most):
    page = plot.page.Page(isle.hole)
    ax = isle.plot(lie="rough", at_most=at_most, theme=theme.name, cell=3)
    ax.figure.set_dpi(220)
    if at_most is None:
        grid = isle.expected_strokes_map(lie="rough", cell=3)
    else:
        grid = isle.chance_map(lie="rough", at_most=at_most, cell=3)
    x, y = np.meshgrid(grid.x, grid.y)
    places, worth = page.of(np.column_stack([x.ravel(), y.ravel()])), grid.values.ravel()
    inside = (np.abs(places - [np.mean(page.x), np.mean(page.y)]) < 0.49 * np.array([page.width, page.height])).all(
        axis=1
    )
    places, worth = places[inside & np.isfinite(worth)], worth[inside & np.isfinite(worth)]
    levels, colours = shown_bands(ax)
    wanted = np.array([matplotlib.colors.to_rgb(c) for c in colours])[np.searchsorted(levels, worth) - 1]
    right = (np.abs(pixels(ax)(places) - 255 * wanted) <= 3).all(axis=1)
    # The rest lies under words, lines, the flag and the route.
    assert len(places) > 1_000 and right.mean() > 0.85
    # Best is lightest.
    lightest = lab(colours[-1 if at_most else 0], "usual")[0]
    assert lightest == max(lab(colour, "usual")[0] for colour in colours)


def shown_bands(ax):
    """The levels and the colours of the lowest bands."""
    bands = min((c for c in ax.collections if c.filled), key=lambda c: c.get_zorder())
    return bands.levels, [to_hex(c) for c in bands.get_facecolor()]


def test_an_island_green_is_seen_and_the_water_hides_the_bands(isle):
    hole, page = isle.hole, plot.page.Page(isle.hole)
    ax = isle.plot()
    _, colours = shown_bands(ax)
    at = pixels(ax)
    rng = np.random.default_rng(5)
    places = np.column_stack([rng.uniform(*page.x, 3_000), rng.uniform(*page.y, 3_000)])
    there = hole.surface_at(page.plan(places))
    water = at(places[np.isin(there, ["penalty_red", "penalty_yellow"])])
    fill = 255 * np.array(matplotlib.colors.to_rgb(plot.LIGHT.surfaces["penalty_yellow"].fill))
    assert len(water) > 300 and (np.abs(water - fill) <= 3).all(axis=1).mean() > 0.7
    green = at(places[there == "green"])
    known = 255 * np.array([matplotlib.colors.to_rgb(c) for c in colours])
    banded = (np.abs(green[:, None] - known) <= 3).all(axis=2).any(axis=1)
    assert len(green) > 30 and banded.mean() > 0.5


def test_where_there_is_no_value_there_is_paper(isle, monkeypatch):
    grid = isle.expected_strokes_map(lie="fairway", cell=4)
    x, y = np.meshgrid(grid.x, grid.y)
    hole = (x < -12) & (y > 20) & (y < 60)
    holed = wb.ValueMap(np.where(hole, np.nan, grid.values), grid.x, grid.y)
    monkeypatch.setattr(wb.Solution, "expected_strokes_map", lambda *_, **__: holed)
    page = plot.page.Page(isle.hole)
    at = pixels(isle.plot())
    rng = np.random.default_rng(6)
    places = np.column_stack([rng.uniform(page.x[0] + 1, -17, 300), rng.uniform(25, 55, 300)])
    paper = 255 * np.array(matplotlib.colors.to_rgb(plot.LIGHT.paper))
    assert set(isle.hole.surface_at(page.plan(places))) == {"rough"}
    assert (np.abs(at(places) - paper) <= 2).all()
    assert not (np.abs(at(places * [-1, 1]) - paper) <= 2).all(axis=1).any()


def test_lines_are_worth_what_they_say(solved):
    page = plot.page.Page(solved.hole)
    ax = solved.plot(cell=4)
    grid = solved.expected_strokes_map(lie="fairway", cell=4)
    drawn(ax)
    told = 0
    for text in ax.texts:
        word = text.get_text()
        if text.get_zorder() == plot.values._WORDS - 1:
            place = tuple(page.plan([text.get_position()])[0])
            row, column = np.abs(grid.y - place[1]).argmin(), np.abs(grid.x - place[0]).argmin()
            near = grid.values[max(row - 1, 0) : row + 2, max(column - 1, 0) : column + 2]
            assert np.nanmin(near) <= float(word) <= np.nanmax(near)
            told += 1
    assert told >= 4


@pytest.mark.parametrize("objective", [None, wb.at_most(4)], ids=repr)
def test_the_route_is_the_best_shots(objective):
    hole = wb.Hole.sketch(par=4, length=300)
    solution = wb.solve(hole, PUPIL, objective=objective, cell=8)
    page = plot.page.Page(hole)
    ax = solution.plot()
    route = next(line for line in ax.lines if line.get_linewidth() == 1.3)
    corners = page.plan(np.column_stack(route.get_data()))
    assert tuple(corners[0]) == pytest.approx(hole.tee)
    left, where = 4, hole.tee
    names = [text.get_text() for text in ax.texts if text.get_zorder() == plot.values._WORDS]
    clubs = []
    for corner in corners[1:]:
        advice = solution.shot_from(where, at_most=None if objective is None else left)
        end = hole.pin if advice.club == "putt" else advice.finish
        assert tuple(corner) == pytest.approx(end, abs=1e-6)
        clubs += [advice.club] * (advice.club != "putt")
        left, where = left - 1, advice.finish
    assert names == clubs and clubs[0] == solution.shot_from(hole.tee).club
    assert math.dist(corners[-1], hole.pin) < 1e-6


def test_a_cross_marks_an_aim_where_the_ball_ends_aside():
    hole = wb.Hole.sketch(par=4, length=300)
    slicer = wb.Player.from_handicap(18, lateral_biases={"driver": 14})
    solution = wb.solve(hole, slicer, cell=8)
    advice = solution.shot_from(hole.tee)
    crosses = [line for line in solution.plot().lines if line.get_marker() == "x"]
    place = plot.page.Page(hole).plan(np.column_stack(crosses[-1].get_data()))[0]
    # On the way to the aim, as far out as the ball ends.
    assert math.dist(place, hole.tee) == pytest.approx(math.dist(advice.finish, hole.tee))
    (x, y), (over_x, over_y) = place, advice.target
    assert x / y == pytest.approx(over_x / over_y) and x < -5


def test_what_is_told(solved):
    def texts(ax):
        return " ".join(" ".join(t.get_text().split()) for t in [*ax.texts, ax.title])

    told = texts(solved.plot(cell=8))
    assert "strokes to hole out, lie fairway" in told and "Lines: equal strokes" in told and PUPIL.name in told
    assert f"{solved.expected_strokes(solved.hole.tee):.2f} strokes from the tee" in told
    told = texts(solved.plot(at_most=3, lie="deep_rough", cell=8))
    assert "chance to hole out in 3 or fewer, lie deep rough" in told and "Lines: equal chance" in told and "%" in told
    steady = wb.evaluate(solved.hole, PUPIL, "steady", cell=8)
    told = texts(steady.plot(cell=8))
    assert "playing “steady”" in told and "best shots" not in told
    three = wb.solve(wb.Hole.sketch(par=3, length=140), PUPIL, objective=wb.at_most(3), cell=10)
    assert "playing for 3 or better: strokes" in texts(three.plot(cell=8))


SIZES = [None, (3, 5), (10, 8)]


@pytest.mark.parametrize("name", HOLES)
def test_words_are_apart(name):
    solution = wb.solve(HOLES[name](), PUPIL, cell=10)
    for i, size in enumerate(SIZES):
        ax = None if size is None else plt.subplots(figsize=size, layout="constrained")[1]
        ax = solution.plot(ax, at_most=3 if i % 2 else None, cell=10)
        assert_words_are_apart(drawn(ax))
        plt.close("all")


def test_it_goes_on_the_axes_given_and_takes_a_theme(solved):
    for theme in THEMES:
        figure, (first, second) = plt.subplots(1, 2, figsize=(13, 9), layout="constrained")
        assert solved.plot(second, theme=theme.name, title="Told", cell=8) is second
        assert not first.texts and not first.patches and second.get_title(loc="left") == "Told"
        assert to_hex(figure.get_facecolor()) == theme.paper
    # Shots can be drawn on it, in its theme.
    before = len(second.patches)
    plan = wb.Plan("solved", [], then=solved)
    assert plot.plot_shots(solved.hole, PUPIL, plan, ax=second, plays=40) is second
    assert len(second.patches) < before + 6


def test_the_same_picture_is_the_same_file(solved, tmp_path):
    def made(i):
        ax = solved.plot(cell=8)
        return [plot.save(ax, tmp_path / f"{i}.{ending}").read_bytes() for ending in ("svg", "png")]

    assert made(1) == made(2)


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"theme": "sepia"}, "theme is 'sepia'; it must be one of light, dark"),
        ({"lie": "water"}, "lie"),
        ({"cell": 0.4}, "cell is 0.4"),
        ({"cell": math.nan}, "cell is NaN"),
        ({"at_most": 0}, "at_most is 0"),
        ({"at_most": 99}, "at_most is 99"),
    ],
    ids=str,
)
def test_bad_input_is_told_before_anything_is_drawn(solved, given, told):
    with pytest.raises(wb.InputError, match=told):
        solved.plot(**given)
    assert not plt.get_fignums()
