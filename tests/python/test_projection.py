"""Longitude and latitude to yards, against geodesics on the WGS 84 ellipsoid (pyproj, PROJ's Geod)."""

import json
import math

import helpers
import numpy as np
import pytest
import wideberth as wb

pyproj = pytest.importorskip("pyproj")
WGS84 = pyproj.Geod(ellps="WGS84")
YARD = 0.9144  # metres, exactly


def tagged(document, *kinds):
    """The features of a map that are of one of these kinds, in whichever way it tags them."""
    tags = ("golf", "role", "surface")
    return [f for f in document["features"] if any(f["properties"].get(tag) in kinds for tag in tags)]


@pytest.mark.parametrize("name", helpers.MAPS)
def test_distances_of_the_maps(name):
    document = json.loads(helpers.read_map(name))
    hole = wb.Hole.from_geojson(json.dumps(document))
    tee = tagged(document, "hole", "line_of_play")[0]["geometry"]["coordinates"][0]
    pin = tagged(document, "pin")[0]["geometry"]["coordinates"]
    azimuth, _, metres = WGS84.inv(*tee, *pin)
    dx, dy = np.subtract(hole.pin, hole.tee)
    # A tangent plane at 65 degrees is wrong by 0.048 m at 500 m and 0.192 m at 1 km (compared with geodesics):
    # that is the bound at these lengths, and less further from the pole.
    assert math.hypot(dx, dy) * YARD == pytest.approx(metres, abs=0.192 * (metres / 1000) ** 2 + 1e-6)
    turned = (math.degrees(math.atan2(dx, dy)) - azimuth + 180) % 360 - 180
    assert abs(turned) < 0.02


@pytest.mark.parametrize("name", helpers.MAPS)
def test_areas_of_the_maps(name):
    document = json.loads(helpers.read_map(name))
    hole = wb.Hole.from_geojson(json.dumps(document))
    compared = 0
    for kind in ("fairway", "green", "bunker"):
        mapped = tagged(document, kind)
        areas = []
        for feature in mapped:
            rings = feature["geometry"]["coordinates"]
            whole, *gaps = (abs(WGS84.polygon_area_perimeter(*np.transpose(ring))[0]) for ring in rings)
            areas.append((whole - sum(gaps)) / YARD**2)
        found = sorted(f.area for f in hole.features if f.surface == kind)
        # Half a kilometre from the tee the scale is wrong by 2 parts in 10,000, so an area by 4.
        assert found == pytest.approx(sorted(areas), rel=4e-4)
        compared += len(found)
    assert compared >= 3


@pytest.mark.parametrize(
    ("latitude", "at_500", "at_1000"),
    # The worst errors in metres of this projection at these distances, computed against geodesics beforehand.
    [(0, 0.002, 0.005), (35, 0.016, 0.063), (-35, 0.016, 0.063), (56, 0.034, 0.135), (65, 0.048, 0.192)],
)
@pytest.mark.parametrize("azimuth", [0, 45, 90, 135, 200, 300])
def test_drawn_with_geodesics(latitude, at_500, at_1000, azimuth):
    """A pin so many metres away along a geodesic lies so many yards away on the plan."""
    for metres, bound in ((500.0, at_500), (1000.0, at_1000)):
        tee = (12.5, float(latitude))
        longitude, pin_latitude, _ = WGS84.fwd(*tee, azimuth, metres)
        corners = [WGS84.fwd(longitude, pin_latitude, angle, 15)[:2] for angle in (0, 90, 180, 270, 0)]
        features = [
            (
                {"golf": "hole", "par": 5},
                {"type": "LineString", "coordinates": [tee, (longitude, pin_latitude)]},
            ),
            ({"golf": "green"}, {"type": "Polygon", "coordinates": [corners]}),
            ({"golf": "pin"}, {"type": "Point", "coordinates": (longitude, pin_latitude)}),
        ]
        document = {
            "type": "FeatureCollection",
            "features": [{"type": "Feature", "properties": p, "geometry": g} for p, g in features],
        }
        hole = wb.Hole.from_geojson(json.dumps(document))
        wanted = metres / YARD * np.array([math.sin(math.radians(azimuth)), math.cos(math.radians(azimuth))])
        distance = math.dist(hole.pin, hole.tee) * YARD
        # The bounds are of distances, rounded to a millimetre; a place is off by the turn of the meridians too.
        assert abs(distance - metres) <= bound + 0.001
        turn = abs(math.tan(math.radians(latitude))) * metres / 6.37e6
        assert np.linalg.norm(np.subtract(hole.pin, wanted)) * YARD <= bound + 0.001 + turn * metres
