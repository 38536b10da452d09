"""Which surface is where, against the polygons of shapely (GEOS)."""

import json

import helpers
import numpy as np
import pytest
import wideberth as wb

shapely = pytest.importorskip("shapely")

#: Surfaces of the random features: every one there is.
SURFACES = np.array(
    "tee fairway first_cut rough deep_rough fringe green bunker penalty_red penalty_yellow out_of_bounds trees".split()
)


def random_document(rng):
    """Up to nine stars on top of each other, most with a hole in them, between a tee and a green."""
    features = []
    for _ in range(rng.integers(1, 10)):
        centre = rng.uniform([-120, 20], [120, 380])
        outline = helpers.star(rng, centre, rng.uniform(5, 120))
        feature = {"surface": str(rng.choice(SURFACES)), "outline": outline.tolist()}
        if rng.random() < 0.7:
            feature["holes"] = [(centre + rng.uniform(0.2, 0.7) * (outline - centre)).tolist()]
        features.append(feature)
    return helpers.document(features)


def outline_of(feature):
    return shapely.Polygon(feature["outline"], feature.get("holes", []))


def expected(document, points):
    """The surface at each point by shapely: the last feature that contains it, else rough."""
    names = np.full(len(points), "rough", dtype="U14")
    for feature in document["features"]:
        names[shapely.contains_xy(outline_of(feature), points[:, 0], points[:, 1])] = feature["surface"]
    return names


def beside_edges(rng, document):
    """Points a thousandth and a millionth of a yard to either side of the middle of edges."""
    points = []
    for feature in document["features"]:
        for ring in [feature["outline"], *feature.get("holes", [])]:
            a, b = np.array(ring), np.roll(ring, -1, axis=0)
            across = (b - a)[:, ::-1] * [1, -1] / np.linalg.norm(b - a, axis=1, keepdims=True)
            step = rng.choice([-1e-3, 1e-3, -1e-6, 1e-6], (len(a), 1))
            points.append(a + rng.uniform(0.05, 0.95, (len(a), 1)) * (b - a) + step * across)
    return np.concatenate(points)


def test_surfaces_are_those_of_shapely():
    rng = np.random.default_rng(20)
    checked = pairs = 0
    for _ in range(60):
        document = random_document(rng)
        hole = wb.Hole.from_json(json.dumps(document))
        points = np.concatenate([rng.uniform([-200, -50], [200, 450], (250, 2)), beside_edges(rng, document)])
        found = hole.surface_at(points)
        wanted = expected(document, points)
        different = np.flatnonzero(found != wanted)
        assert not len(different), (
            points[different[0]],
            found[different[0]],
            wanted[different[0]],
            json.dumps(document),
        )
        checked += len(points)
        pairs += len(points) * len(document["features"])
    assert checked >= 15_000 and pairs >= 10_000


def test_one_place_and_many_places_agree():
    rng = np.random.default_rng(21)
    hole = wb.Hole.from_json(json.dumps(random_document(rng)))
    points = rng.uniform([-200, -50], [200, 450], (300, 2))
    many = hole.surface_at(points)
    assert many.shape == (300,) and many.dtype.kind == "U"
    assert [hole.surface_at((x, y)) for x, y in points] == many.tolist()
    assert [hole.surface_at(wb.at(x, y)) for x, y in points[:20]] == many[:20].tolist()
    assert hole.surface_at(points[0]) == many[0], "a row of an array is a place"
    assert hole.surface_at(points.tolist()).tolist() == many.tolist()
    assert hole.surface_at(points[::2]).tolist() == many[::2].tolist(), "strided views"
    assert hole.surface_at(np.asfortranarray(points)).tolist() == many.tolist()
    assert hole.surface_at(np.array([[0, 400]], dtype=np.int32)).tolist() == ["green"]
    assert hole.surface_at(np.empty((0, 2))).shape == (0,)


def test_areas_are_those_of_shapely():
    rng = np.random.default_rng(22)
    for _ in range(40):
        document = random_document(rng)
        hole = wb.Hole.from_json(json.dumps(document))
        assert len(hole.features) == len(document["features"])
        for mine, given in zip(hole.features, document["features"], strict=True):
            assert mine.surface == given["surface"]
            # The relative bound is generous to the rounding of sums of some dozen products.
            assert mine.area == pytest.approx(outline_of(given).area, rel=1e-9)
            rebuilt = shapely.Polygon(mine.rings[0], mine.rings[1:])
            assert rebuilt.symmetric_difference(outline_of(given)).area < 1e-9 * mine.area
