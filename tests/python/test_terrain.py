"""The shape of the ground and the day, against closed forms and SciPy's interpolation of regular grids."""

import copy
import math
import pickle
import re
import warnings

import helpers
import numpy as np
import pytest
import wideberth as wb

FOOT = 0.3048  # metres, exactly


def plain(length=400, **shape):
    return wb.Hole.sketch(par=4, length=length, **shape)


def places(length=400, count=500, seed=1):
    random = np.random.default_rng(seed)
    return np.column_stack([random.uniform(-90, 90, count), random.uniform(-80, length + 80, count)])


def on_green(hole, count=4000):
    """Places well inside the green: the cells along its edge see a little of its rim."""
    x, y = hole.pin
    at = places(count=count) / [6, 14] + [x, y - 200 / 14]
    at = at[hole.surface_at(at) == "green"]
    steps = 0.75 * np.array([[1, 0], [-1, 0], [0, 1], [0, -1], [0.7, 0.7], [-0.7, 0.7], [0.7, -0.7], [-0.7, -0.7]])
    inside = np.all([hole.surface_at(at + step) == "green" for step in steps], axis=0)
    assert inside.sum() > 100
    return at[inside]


def test_level_ground_is_level():
    hole = plain()
    assert hole.height_ft((3, 200)) == 0 and hole.slope_percent(hole.pin) == (0, 0)
    assert not hole.height_ft(places()).any() and not hole.slope_percent(places()).any()


def test_a_plane_is_a_plane():
    hole = plain(uphill_ft=25, fairway_tilt_percent=4)
    at = places()
    at = at[np.hypot(*(at - hole.pin).T) > 45]  # the green is level
    np.testing.assert_allclose(hole.height_ft(at), 25 * at[:, 1] / 400 - 0.12 * at[:, 0], atol=1e-9)
    np.testing.assert_allclose(hole.slope_percent(at), np.tile([4, -100 * 25 / 1200], (len(at), 1)), atol=1e-9)


@pytest.mark.parametrize("turn", [-80, -35, 50])
def test_a_dogleg_turns_the_tilts(turn):
    hole = plain(dogleg=(220, turn), fairway_tilt_percent=3, green_tilt_percent=(1, 2))
    leg = np.array([math.sin(math.radians(turn)), math.cos(math.radians(turn))])
    right = np.array([leg[1], -leg[0]])
    at = np.array([hole.point(wb.along(340, right=r)) for r in (-12, -3, 0, 8)])
    falls = hole.slope_percent(at)
    np.testing.assert_allclose(falls, np.tile(3 * right, (4, 1)), atol=1e-9)
    # The green falls by 1 % to its right, whatever the fairway does, and by 2 % from back to front: against the leg.
    green = on_green(hole)
    np.testing.assert_allclose(hole.slope_percent(green), np.tile(right - 2 * leg, (len(green), 1)), atol=1e-8)


@pytest.mark.parametrize("tilt", [-12, 3, 10])
def test_the_fairway_does_not_tilt_the_green(tilt):
    """The pin is never refused for it, and the middle of the green lies where the planes have it."""
    for back, right in ((0, 0), (-12, 0), (12, 0), (0, 11), (0, -11)):
        untold = plain(uphill_ft=-30, fairway_tilt_percent=tilt, pin_back=back, pin_right=right)
        assert untold.slope_percent(untold.pin) == pytest.approx((0, 0), abs=1e-8)
        assert untold.height_ft(untold.pin) == pytest.approx(-30, abs=1e-8)
    level = plain(uphill_ft=-30, fairway_tilt_percent=tilt, green_tilt_percent=(0, 0))
    at = places()
    np.testing.assert_array_equal(level.height_ft(at), plain(uphill_ft=-30, fairway_tilt_percent=tilt).height_ft(at))


def test_documents_say_whether_the_green_is_told():
    flat, level = plain(), plain(green_tilt_percent=(0, 0))
    untold, told = (plain(fairway_tilt_percent=5, green_tilt_percent=tilt) for tilt in (None, (0, 0)))
    holes = flat, level, untold, told
    for hole in holes:
        same = wb.Hole.from_json(hole.to_json())
        assert same == hole and same.to_json() == hole.to_json()
        assert [other for other in holes if other == same] == [hole]
    assert ["slopes of greens not told" in repr(hole) for hole in holes] == [False, False, True, False]


def test_a_green_of_two_tiers():
    hole = plain(two_tier_green=(2, 4, 3))
    x, y = hole.pin
    assert hole.height_ft((x, y - 6)) == pytest.approx(-1, abs=1e-9)
    assert hole.height_ft((x, y + 3)) == pytest.approx(0, abs=1e-9)
    assert hole.height_ft((x, y + 10)) == pytest.approx(1, abs=1e-9)
    # A smooth ramp of 2 ft over 4 yards is half as steep again in its middle as on average.
    assert hole.slope_percent((x, y + 3))[1] == pytest.approx(-100 * 1.5 * 2 / 12, abs=0.3)


def survey(at=lambda x, y: 0 * x, cell=(2, 2), corner=(-160, -160), shape=(361, 161)):
    x, y = (corner[axis] + cell[axis] * np.arange(shape[1 - axis]) for axis in (0, 1))
    return x, y, at(*np.meshgrid(x, y))


def hills(x, y):
    return 300 + 8 * np.sin(x / 31) * np.cos(y / 47) + 0.05 * y


def away_from_green(hole):
    """Places that no rim around the green reaches."""
    at = places()
    return at[np.hypot(*(at - hole.pin).T) > 45]


def test_bilinear_between_the_heights():
    """The nodes of the survey and of the prepared grid fall together, so both are one bilinear surface."""
    interpolate = pytest.importorskip("scipy.interpolate")
    x, y, heights = survey(hills, corner=(-163, -150))
    hole = plain().with_terrain(heights_ft=heights, cell=2, corner=(-163, -150))
    exact = interpolate.RegularGridInterpolator((y, x), heights, method="linear")
    at = away_from_green(hole)
    np.testing.assert_allclose(hole.height_ft(at), exact(at[:, ::-1]), atol=1e-9)
    # A survey that tells the green: the nodes there are finer and lie on the same surface, whose nodes they include.
    x, y, heights = survey(hills, (1, 1), (-163, -150), (722, 322))
    hole = plain().with_terrain(heights_ft=heights, cell=1, corner=(-163, -150))
    exact = interpolate.RegularGridInterpolator((y, x), heights, method="linear")
    at = on_green(hole)
    np.testing.assert_allclose(hole.height_ft(at), exact(at[:, ::-1]), atol=1e-9)


def test_an_oblong_survey_laid_askew_of_the_grid():
    """Bound: cell² (|h_xx| + |h_yy|) / 8 of the survey and of the grid, with h_xx = 8 / 31² and h_yy = 8 / 47²."""
    cell, corner = (1.7, 2.9), (-163.3, -171.9)
    _, _, heights = survey(hills, cell, corner, (260, 195))
    hole = plain().with_terrain(heights_ft=heights, cell=cell, corner=corner)
    at = away_from_green(hole)
    curved = np.array([8 / 31**2, 8 / 47**2])
    bound = (np.square(cell) @ curved + 4 * curved.sum()) / 8
    np.testing.assert_allclose(hole.height_ft(at), hills(*at.T), atol=bound)
    rise = np.column_stack(
        [
            8 / 31 * np.cos(at[:, 0] / 31) * np.cos(at[:, 1] / 47),
            -8 / 47 * np.sin(at[:, 0] / 31) * np.sin(at[:, 1] / 47) + 0.05,
        ]
    )
    np.testing.assert_allclose(hole.slope_percent(at), -100 * rise / 3, atol=0.25)


def test_slopes_are_those_of_fitted_planes():
    """At a node the slope is that of the plane fitted to nine heights (NumPy's least squares), here of rough ground."""
    random = np.random.default_rng(7)
    x, y, heights = survey(lambda x, y: random.normal(0, 0.1, x.shape), corner=(-163, -150))
    hole = plain().with_terrain(heights_ft=heights, cell=2, corner=(-163, -150))
    for row, column in random.integers(20, 120, (20, 2)):
        dx, dy = np.meshgrid([-2, 0, 2], [-2, 0, 2])
        nine = heights[row - 1 : row + 2, column - 1 : column + 2].ravel()
        design = np.column_stack([dx.ravel(), dy.ravel(), np.ones(9)])
        rise = np.linalg.lstsq(design, nine, rcond=None)[0][:2]
        at = (x[column], y[row])
        np.testing.assert_allclose(hole.slope_percent(at), -100 * rise / 3, atol=1e-8)


def ascii_grid(heights, corner, cell, header="xllcorner {x}\nyllcorner {y}\n", no_data=-9999):
    lines = [f"NCOLS {heights.shape[1]}", f"nrows {heights.shape[0]}"]
    lines += header.format(x=corner[0], y=corner[1]).split("\n")
    lines += [f"cellsize {cell}", f"nodata_value {no_data}"]
    return "\n".join(lines + [" ".join(map(repr, row.tolist())) for row in heights[::-1]])


@pytest.mark.parametrize("units", ["metres", "feet"])
def test_ascii_grids_are_arrays(tmp_path, units):
    """A grid of cells whose centres are the places of an array gives the same ground."""
    scale = FOOT if units == "metres" else 1.0
    x, y, heights = survey(hills, cell=(6, 6), corner=(-160, -160), shape=(121, 55))
    cell = 6 * 3 * scale
    corner = (5000 + 3 * scale * x[0] - cell / 2, 7000 + 3 * scale * y[0] - cell / 2)
    path = tmp_path / "ground.asc"
    path.write_text(ascii_grid(heights * scale, corner, cell), "ascii")
    hole = plain()
    read = hole.with_survey(path, origin=(5000, 7000), plan=units, heights=units)
    given = hole.with_terrain(heights_ft=heights, cell=6, corner=(x[0], y[0]))
    np.testing.assert_allclose(read.height_ft(places()), given.height_ft(places()), atol=1e-8)
    centred = ascii_grid(heights * scale, np.add(corner, cell / 2), cell, "XLLCENTER {x}\nYLLCENTER {y}")
    path.write_text(centred, "ascii")
    same = hole.with_survey(path, origin=(5000, 7000), plan=units, heights=units)
    np.testing.assert_allclose(same.height_ft(places()), read.height_ft(places()), atol=1e-8)


def test_a_grid_in_degrees_lies_on_the_map(tmp_path):
    """Heights proportional to geodesic distance north and east of the start of the line of play (pyproj's Geod)."""
    pyproj = pytest.importorskip("pyproj")
    hole = wb.Hole.from_geojson(helpers.read_map("plover-neck"))
    geod = pyproj.Geod(ellps="WGS84")
    import json

    features = json.loads(helpers.read_map("plover-neck"))["features"]
    kinds = ("hole", "line_of_play")
    line = next(f for f in features if {f["properties"].get("golf"), f["properties"].get("role")} & set(kinds))
    longitude, latitude = line["geometry"]["coordinates"][0][:2]
    cell, count = 2e-4, 81
    west, south = longitude - cell * (count // 2), latitude - cell * (count // 2)
    rows = [geod.inv(longitude, latitude, longitude, south + cell * i) for i in range(count)]
    north = np.array([metres if abs(azimuth) < 90 else -metres for azimuth, _, metres in rows])
    path = tmp_path / "ground.asc"
    heights = np.repeat(0.02 * north[:, None], count, axis=1)
    path.write_text(ascii_grid(heights, (west, south), cell, "xllcenter {x}\nyllcenter {y}"), "ascii")
    shaped = hole.with_survey(path, origin=(longitude, latitude), plan="degrees")
    # A height of 2 % of the way north is a slope of 2 % and, in feet, 0.06 of the yards up the plan.
    at = hole.point(wb.along(300))
    assert shaped.height_ft(at) == pytest.approx(0.06 * at[1], abs=0.01)
    np.testing.assert_allclose(shaped.slope_percent(at), (0, -2), atol=0.002)


def geotiff(path, heights, corner, cell, **kind):
    """Write heights in rows from the south as rasterio does; the corner is that of the lower left cell."""
    rasterio = pytest.importorskip("rasterio")
    rows, columns = heights.shape
    transform = rasterio.Affine(cell[0], 0, corner[0], 0, -cell[1], corner[1] + rows * cell[1])
    profile = {"driver": "GTiff", "height": rows, "width": columns, "count": 1, "dtype": "float64", "crs": "EPSG:25832"}
    with rasterio.open(path, "w", **profile | {"transform": transform} | kind) as file:
        for band in range(file.count):
            file.write(heights[::-1].astype(file.dtypes[0]), band + 1)
    return path


def test_geotiffs_are_ascii_grids(tmp_path):
    _, _, heights = survey(hills, cell=(6, 6), corner=(-160, -160), shape=(121, 55))
    heights = heights * FOOT
    cell, corner = 6 * 3 * FOOT, (4850.0, 6850.0)
    (tmp_path / "ground.asc").write_text(ascii_grid(heights, corner, cell), "ascii")
    hole, origin = plain(), (5000, 7000)
    want = hole.with_survey(tmp_path / "ground.asc", origin=origin).height_ft(places())
    for name in ("ground.tif", "GROUND.TIFF"):
        path = geotiff(tmp_path / name, heights, corner, (cell, cell))
        np.testing.assert_allclose(hole.with_survey(path, origin=origin).height_ft(places()), want, atol=1e-9)
    # Without a word on its coordinates the caller's word is taken; a foot of heights is a foot.
    path = geotiff(tmp_path / "bare.tif", heights, corner, (cell, cell), crs=None)
    feet = hole.with_survey(path, origin=origin, heights="feet").height_ft(places())
    np.testing.assert_allclose(feet, np.asarray(want) * FOOT, atol=1e-9)


def test_oblong_cells_of_a_geotiff_keep_their_sides(tmp_path):
    """Heights that rise 1 m in 50 m to the east and 1 in 25 to the north."""
    columns, rows, cell = 120, 200, (4.0, 3.0)
    x, y = (np.arange(columns) + 0.5) * cell[0], (np.arange(rows) + 0.5) * cell[1]
    heights = 0.02 * x + 0.04 * y[:, None]
    path = geotiff(tmp_path / "ground.tif", heights, (0, 0), cell)
    shaped = plain().with_survey(path, origin=(200, 150))
    np.testing.assert_allclose(shaped.slope_percent((10, 200)), (-2, -4), atol=1e-6)
    assert shaped.height_ft((0, 0)) == pytest.approx((0.02 * 200 + 0.04 * 150) / FOOT, abs=1e-6)


def test_a_geotiff_that_cannot_be_laid_is_refused_in_words(tmp_path):
    rasterio = pytest.importorskip("rasterio")
    _, _, heights = survey(hills, cell=(6, 6), corner=(-160, -160), shape=(121, 55))
    heights = heights * FOOT
    corner, cell = (4850.0, 6850.0), (5.5, 5.5)
    turned = rasterio.Affine(5, 1, 4850, 1, -5, 8000)
    for name, kind, words in [
        ("two", {"count": 2}, ("number of bands is 2",)),
        ("turned", {"transform": turned}, ("north up",)),
        ("nowhere", {"transform": rasterio.Affine.identity(), "crs": None}, ("its place is not told",)),
        ("degrees", {"crs": "EPSG:4326"}, ("plan is 'metres'", "'degrees'")),
    ]:
        path = geotiff(tmp_path / f"{name}.tif", heights, corner, cell, **kind)
        with pytest.raises(wb.InputError) as caught:
            plain().with_survey(path, origin=(5000, 7000))
        assert all(word in str(caught.value) for word in (f"{name}.tif", *words)), str(caught.value)
    (tmp_path / "words.tif").write_text("not a picture")
    for name in ("words.tif", "none.tif"):
        with pytest.raises(wb.InputError, match=name):
            plain().with_survey(tmp_path / name, origin=(0, 0))


def whole():
    return helpers.sketch().with_terrain(
        **dict(
            zip(("corner", "cell", "heights_ft"), ((-300, -200), 50.0, np.arange(300.0).reshape(20, 15)), strict=True)
        ),
        green_tilt_percent=(1, 1.5),
    )


DAY = {"wind": wb.Wind(12.5, 270), "firmness": 0.9, "green_speed": 10.5, "temperature_f": 80, "altitude_ft": 3000}


def test_copies_are_equal():
    hole = whole().under(wb.Conditions(**DAY))
    for value in (hole, wb.Wind(3, -90), wb.Conditions(), wb.Conditions(**DAY), wb.Conditions(firmness="soft")):
        for same in (pickle.loads(pickle.dumps(value)), copy.deepcopy(value), copy.copy(value)):
            assert same == value and repr(same) == repr(value)
    assert wb.Hole.from_json(hole.to_json()) == hole != whole() != helpers.sketch()
    assert wb.Conditions(**DAY) != wb.Conditions(**{**DAY, "wind": wb.Wind(12.5, 271)})
    assert eval(repr(wb.Conditions(**DAY)), vars(wb)) == wb.Conditions(**DAY)
    assert wb.Hole.from_json(hole.to_json()).height_ft(hole.pin) == hole.height_ft(hole.pin)


def test_the_day_is_kept():
    hole = helpers.sketch()
    day = wb.Conditions(**DAY)
    windy = hole.under(day)
    assert windy.conditions == day and hole.conditions == wb.Conditions()
    assert (hole.green_speed, windy.green_speed) == (9, 10.5)
    assert windy.with_pin(back=3).conditions == day
    assert windy.with_pin(back=3).pin != windy.pin
    assert "wind 12.5 mph from 270" in repr(windy) and windy.conditions.firmness == 0.9
    assert wb.Conditions(firmness="firm").firmness == "firm" == wb.Conditions(firmness=0.75).firmness


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda h: wb.Wind(300, 0), ("mph", "300", "0 to 60")),
        (lambda h: wb.Wind(3, math.nan), ("from_deg", "NaN")),
        (lambda h: wb.Conditions(firmness="rock"), ("firmness", "rock", "links-firm")),
        (lambda h: wb.Conditions(firmness=9), ("firmness", "9", "0.5")),
        (lambda h: wb.Conditions(altitude_ft=1e9, green_speed=40), ("altitude_ft", "green_speed_ft is 40", "4 to 16")),
        (lambda h: h.with_pin(back=40), ("pin", "green")),
        (lambda h: h.with_terrain(fairway_tilt_percent=80), ("80", "-60 to 60")),
        (lambda h: h.with_terrain(green_tilt_percent=(0, 20)), ("(0, 20)", "15 percent")),
        (lambda h: h.with_terrain(two_tier_green=(20, 4)), ("20", "ramp of 4.0 yards")),
        (lambda h: plain(uphill_ft=math.inf), ("rise_ft", "inf")),
        (lambda h: h.with_terrain(cell=2), ("heights_ft", "missing")),
        (lambda h: h.with_terrain(heights_ft=np.zeros((3, 3)), cell=2), ("corner", "missing")),
        (
            lambda h: h.with_terrain(heights_ft=np.zeros(3), cell=2, corner=(0, 0)),
            ("heights_ft", "[3]", "(rows, columns)"),
        ),
        (lambda h: h.with_terrain(heights_ft=np.zeros((3, 1)), cell=2, corner=(0, 0)), ("3 rows and 1 columns",)),
        (lambda h: h.with_terrain(heights_ft=np.zeros((9, 9)), cell=0, corner=(0, 0)), ("cell is 0 by 0",)),
        (
            lambda h: h.with_terrain(heights_ft=[[0, 1], [math.nan, 2]], cell=900, corner=(-400, -400)),
            ("row 1, column 0", "NaN"),
        ),
        (
            lambda h: h.with_terrain(heights_ft=np.zeros((9, 9)), cell=10, corner=(-40, -40)),
            ("cover the pin", "360.0 yards"),
        ),
        (
            lambda h: h.with_terrain(heights_ft=[[0, 0], [-9999, 0]], cell=900, corner=(-400, -400)),
            ("row 1, column 0", "-9999"),
        ),
        (lambda h: h.with_survey("no-such-file.asc", origin=(0, 0)), ("no-such-file.asc",)),
        (lambda h: h.with_survey("x.asc", origin=(0, 0), plan="miles"), ("plan", "miles", "degrees")),
        (lambda h: h.with_survey("x.asc", origin=(0, 99), plan="degrees"), ("origin", "99")),
        (lambda h: h.height_ft((0, math.nan)), ("NaN",)),
        (lambda h: h.slope_percent(np.zeros((2, 3))), ("[2, 3]", "(n, 2)")),
    ],
)
def test_what_is_refused(call, words):
    with pytest.raises(wb.InputError) as refused:
        call(plain())
    for word in words:
        assert word in str(refused.value)


def test_a_gap_is_named_by_the_files_row(tmp_path):
    """Cells of 5 yards from (-160, -160): row 112 from the bottom and column 32, counted from 0, are the
    middle of the green at (0, 400)."""
    _, _, heights = survey(hills, cell=(5, 5), shape=(150, 70))
    heights[112, 32] = -9999
    path = tmp_path / "gap.asc"
    cell = 5 * 3 * FOOT
    path.write_text(ascii_grid(heights, (-162.5 * 3 * FOOT, -162.5 * 3 * FOOT), cell), "ascii")
    with pytest.raises(wb.InputError, match=r"row 38, column 33 \(from the top left\) is a gap.*on the green"):
        plain().with_survey(path, origin=(0, 0))


def cost(hole, plays=600):
    """Strokes a hole costs more than the flat one on a usual day, by common luck, and the standard error."""
    player, plan = wb.Player.from_handicap(14), wb.Plan("one", [wb.shot("driver", wb.along(210))])
    scores = [wb.simulate(on, player, plan, plays=plays, seed=5).scores for on in (hole, plain())]
    more = np.subtract(*scores)
    return more.mean(), more.std(ddof=1) / math.sqrt(plays)


@pytest.mark.parametrize(
    "hole",
    [
        pytest.param(plain(uphill_ft=30), id="uphill"),
        pytest.param(plain().under(wb.Conditions(wind=wb.Wind(20, 0))), id="headwind"),
        pytest.param(plain(fairway_tilt_percent=8), id="sidehill"),
    ],
)
def test_ground_and_day_cost_strokes(hole):
    """They cost 0.2 to 0.3 strokes, 9 standard errors and more: false-alarm rate below 1e-4 (5 errors are asked).

    Plays that do not see them cost exactly nothing.
    """
    more, error = cost(hole)
    assert more > 5 * error > 0


def test_downhill_saves_strokes():
    """60 ft save 0.15 strokes, 8 standard errors of 1,200 plays: false-alarm rate below 1e-4 (4 errors are asked)."""
    more, error = cost(plain(uphill_ft=-60), plays=1_200)
    assert more < -4 * error < 0


def putts_from_above(**shape):
    """Mean putts after a tee shot that ends on the green 10 to 40 ft away, above a hole cut at the front."""
    hole = wb.Hole.sketch(par=3, length=130, pin_back=-9, green_depth=36, green_speed=10, **shape)
    plan = wb.Plan("one", [wb.shot("8-iron", wb.along(133))])
    plays = wb.simulate(hole, wb.Player.from_handicap(14), plan, plays=2_500, seed=5)
    rows = plays.columns()
    feet, above = 3 * rows["to_pin"], rows["y"] - hole.pin[1]
    first = (rows["stroke"] == 2) & (rows["lie"] == "green") & (feet > 10) & (feet < 40) & (above > 2)
    putts = plays.putts[rows["play"][first]]
    assert len(putts) > 500
    return putts.mean(), putts.std(ddof=1) / math.sqrt(len(putts))


def test_a_steep_green_above_the_hole_costs_putts():
    """A green known to fall by 4 % costs 0.57 putts from there more than one known to be level, though the putts are
    shorter; the standard error is 0.03: the false-alarm rate of half of that is below 1e-12.
    """
    (steep, one), (level, other) = (putts_from_above(green_tilt_percent=(0, fall)) for fall in (4, 0))
    assert math.hypot(one, other) < 0.04
    assert steep - level > 0.28


def test_an_untold_green_is_an_ordinary_one():
    """On a fairway that slopes a green of which nothing is told costs the putts of a green on a flat hole.

    The standard error of the difference of the means is 0.023, so the false-alarm rate of a limit of 0.1 is 2e-5. A
    green known to be level costs 0.19 putts less: one taken for it would pass with a chance of 1e-4. Putt by putt, and
    to the bit, the same is asked of single strokes in tests/rust/terrain_greens.rs.
    """
    untold, flat = putts_from_above(uphill_ft=10, fairway_tilt_percent=6), putts_from_above()
    assert math.hypot(untold[1], flat[1]) < 0.026
    assert abs(untold[0] - flat[0]) < 0.1


def country(cell=33.0):
    """Hills of 10 m, up to 11 % steep, told at every `cell` yards: feet, and where they begin."""
    x, y = np.arange(-200, 260, cell), np.arange(-200, 700, cell)
    return {"heights_ft": 8 * (np.sin(x / 37) + np.cos(y[:, None] / 29)), "cell": cell, "corner": (-200, -200)}


def test_a_coarse_survey_leaves_greens_ordinary():
    """Putts on it are those of the flat hole, and no score is one that a golfer would not recognise.

    The standard error of the difference is 0.03, so the false-alarm rate of a limit of 0.15 is 6e-7.
    """
    player, plan = wb.Player.from_handicap(14), wb.Plan("one", [wb.shot("driver", wb.along(210))])
    hole = plain().with_terrain(**country())
    assert hole.slope_percent(hole.pin) == (0, 0)
    assert any("33.0 yards apart" in warning for warning in hole.warnings)
    assert "note: the heights of the survey are 33.0 yards apart" in repr(hole)
    hilly, flat = (wb.simulate(on, player, plan, plays=2_000, seed=5) for on in (hole, plain()))
    assert abs(hilly.putts.mean() - flat.putts.mean()) < 0.15
    assert hilly.scores.max() < 20


def test_a_fine_survey_tells_the_green():
    exact = country(0.5)
    centimetres = exact | {"heights_ft": np.round(exact["heights_ft"] * FOOT, 2) / FOOT}
    with pytest.warns(UserWarning, match=r"falls 11\.\d % at the pin"):
        hole = plain().with_terrain(**centimetres)
    x, y = hole.pin
    want = (-800 / 3 / 37 * np.cos(x / 37), 800 / 3 / 29 * np.sin(y / 29))
    np.testing.assert_allclose(hole.slope_percent(hole.pin), want, atol=0.7)
    assert [warning for warning in hole.warnings if "survey" in warning] == []


def test_the_green_can_be_told_with_a_survey(tmp_path):
    ground = country()
    path = tmp_path / "country.asc"
    cell = 33 * 3 * FOOT
    corner = (5000 - 200 * 3 * FOOT - cell / 2, 7000 - 200 * 3 * FOOT - cell / 2)
    path.write_text(ascii_grid(ground["heights_ft"] * FOOT, corner, cell), "ascii")
    place = {"origin": (5000, 7000)}
    bare = plain().with_survey(path, **place)
    assert "33.0 yards apart" in "".join(bare.warnings)
    told = plain().with_survey(path, **place, green_tilt_percent=(1, 2))
    np.testing.assert_allclose(told.slope_percent(told.pin), (1, -2), atol=1e-6)
    assert len(told.warnings) == 1 and "smoothed over 1.5 cells" in told.warnings[0]
    assert told.height_ft((0, 200)) == pytest.approx(bare.height_ft((0, 200)))
    tiers = plain().with_survey(path, **place, two_tier_green=(2, 6, -6))
    assert tiers.height_ft((0, 400)) - tiers.height_ft((0, 389)) == pytest.approx(2, abs=1e-6)


def test_a_steep_green_is_warned_of():
    """Whoever makes the green steep at the pin hears of it; a copy and a document do not warn again, but tell it."""
    words = r"falls 6\.0 % at the pin"
    with pytest.warns(UserWarning, match=words):
        hole = plain(green_tilt_percent=(0, 6))
    with pytest.warns(UserWarning, match=words):
        plain().with_terrain(green_tilt_percent=(0, 6))
    with pytest.warns(UserWarning, match=words):
        hole.with_pin(back=2)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        same = pickle.loads(pickle.dumps(hole))
        plain(green_tilt_percent=(3, 3.9))
    assert re.search(words, "".join(same.warnings)) and re.search(words, repr(same))
