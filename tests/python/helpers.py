"""What several test files need: holes, players and plans, and workers that other processes can import."""

import json
import math
from importlib.resources import files
from pathlib import Path

import numpy as np
import wideberth as wb

DATA = Path(str(files("wideberth"))) / "data"
MAPS = ("alder-bend", "plover-neck")


def read_map(name):
    """One of the package's maps as text."""
    return (DATA / f"{name}.geojson").read_text("utf-8")


def eight_irons(balls):
    """A strategy of one's own: from afar an 8-iron up the plan, then the usual way."""
    far = balls["to_pin"] > 130
    return {"club": np.where(far, "8-iron", None), "target_x": balls["x"], "target_y": balls["y"] + 120.0}


def sketch():
    """A par 4 with trouble of every kind."""
    return wb.Hole.sketch(
        name="Trial",
        par=4,
        length=392,
        number=7,
        stroke_index=3,
        dogleg=(230, 20),
        bunkers=[wb.along(236, left=18), wb.hazard(wb.along(380, right=16), 9, 6)],
        water=[wb.hazard(wb.along(190, right=22), length=70, width=30, name="the mere")],
        trees=[wb.hazard(wb.along(150, left=30), 120, 30, height_ft=50, openness=0.4)],
        out_of_bounds="left",
        out_of_bounds_offset=70,
    )


def document(features=(), *, par=4, length=400.0):
    """A wideberth document: tee at the origin, the pin `length` yards up, and features under both."""
    square = [[-1, -1], [1, -1], [1, 1], [-1, 1]]
    placed = [("tee", 0, 3), ("green", length, 14)]
    safe = [
        {"surface": surface, "outline": [[half * x, y + half * dy] for x, dy in square]} for surface, y, half in placed
    ]
    return {
        "format": "wideberth-hole",
        "version": 1,
        "name": "Drawn",
        "par": par,
        "tee": [0, 0],
        "pin": [0, length],
        "line_of_play": [[0, 0], [0, length]],
        "features": [*features, *safe],
    }


def plain_hole(length=400.0):
    """Nothing but fairway, a tee and a green."""
    box = [[-400, -100], [400, -100], [400, length + 300], [-400, length + 300]]
    return wb.Hole.from_json(json.dumps(document([{"surface": "fairway", "outline": box}], length=length)))


def star(rng, centre, radius):
    """A star-shaped ring: its corners in order round the centre, no gap as wide as a half turn."""
    n = int(rng.integers(5, 24))
    angle = 2 * math.pi * (np.arange(n) + 0.8 * rng.random(n)) / n
    reach = radius * rng.uniform(0.3, 1.0, n)
    return np.column_stack([centre[0] + reach * np.cos(angle), centre[1] + reach * np.sin(angle)])


def plans():
    """Three plans that differ in club and in how they go on."""
    return [
        wb.Plan("driver", [wb.shot("driver", wb.along(215, left=4)), wb.at_pin()], then="direct"),
        wb.Plan("iron", [wb.shot("5-iron", wb.along(160)), wb.leave(90)], then="steady"),
        wb.Plan("wood", [wb.shot("3-wood", wb.along(195, left=6), carry=180)], then="steady"),
    ]


def distributions(seed, plays=2_000, threads=None):
    """The distributions of scores of the plans on the sketch; another process can be told to do this."""
    result = wb.compare(sketch(), wb.Player.from_handicap(16), plans(), plays=plays, seed=seed, threads=threads)
    return {name: result[name].distribution for name in sorted(result.names)}
