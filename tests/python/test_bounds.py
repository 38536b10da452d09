"""Whatever passes as a hole is prepared with little memory, however large the map around it.

The grids of ways out of the trees and of how far trees are cover the hole in play, not the box of all trees of a map.
"""

import json
import subprocess
import sys

import pytest
from helpers import document

#: MiB that preparing and playing may take beside a plain hole's.
MOST_MIB = 100


def wood(x, y, half):
    return {
        "surface": "trees",
        "outline": [[x - half, y - half], [x + half, y - half], [x + half, y + half], [x - half, y + half]],
    }


def comb(teeth):
    """A wood whose edge goes to and fro, as fine as is let through."""
    across = [[30 + 200 * i / teeth + 100 / teeth * side, 60 + 280 * side] for i in range(teeth) for side in (0, 1)]
    return {"surface": "trees", "outline": [[30, 50], *across, [231, 50]]}


MAPS = {
    "a comb of two thousand teeth": [comb(2_000)],
    # Two groves some 230 km apart: a grid over both would have 10^10 cells.
    "two groves far apart": [wood(-80_000, -80_000, 10), wood(80_000, 80_000, 10)],
    # A natural wood of 30 km that the hole is beside.
    "a wood of thirty kilometres": [wood(16_460, 200, 16_400)],
    # The same wood around the hole, which is cut out of it.
    "a hole cut out of a wood of thirty kilometres": [wood(0, 200, 16_400)],
}

SCRIPT = """
import resource, sys
import wideberth as wb

player, plan = wb.Player.from_handicap(16), wb.Plan("pin", [wb.at_pin()])
wb.compare(wb.Hole.sketch(par=4, length=400, trees=[wb.along(200, left=30)]), player, [plan], plays=50)
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
hole = wb.Hole.from_json(sys.stdin.read())
wb.compare(hole, player, [plan], plays=50)
print((resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="memory is counted in other units")
@pytest.mark.parametrize("what", MAPS)
def test_grids_are_bounded_by_the_hole_in_play(what):
    text = json.dumps(document(MAPS[what]))
    ran = subprocess.run([sys.executable, "-c", SCRIPT], input=text, capture_output=True, text=True, timeout=300)
    assert ran.returncode == 0, ran.stderr[-2_000:]
    assert float(ran.stdout) < MOST_MIB
