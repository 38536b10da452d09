"""Draw the invented course of the guide "my course", with the habits of real mappers.

    python docs/invented_course.py > python/wideberth/data/sandpiper-links.json

The file has the form of an Overpass answer (``[out:json]; ... out geom;``). Nothing in it exists. The habits: numbers
as ``09``, holes without par, lines of play that run the wrong way or stop a yard short, tees with and without the
number of
their hole and with several colours, a missing green and a missing fairway, outlines that cross themselves, widths and
heights
that are no numbers, woods of several ways, a second course with the same numbers, a shore, roads and houses.
"""

import json
import math
import random
from itertools import pairwise

LONGITUDE, LATITUDE = 1.9, 54.62
#: Degrees in a yard east and north at that latitude (near enough: the course is invented).
EAST, NORTH = 0.9144 / 64_500, 0.9144 / 111_330
PARS = [4, 5, 3, 4, 4, 4, 3, 5, 4, 4, 3, 4, 5, 4, 4, 3, 4, 5]
LENGTHS = [372, 508, 158, 401, 345, 420, 176, 531, 388, 395, 142, 362, 497, 411, 334, 187, 428, 522]
INDEXES = [9, 5, 17, 3, 13, 1, 15, 7, 11, 10, 18, 12, 6, 2, 14, 16, 4, 8]
#: Yards from one hole to the next beside it.
APART = 130


class Answer:
    """The elements of an answer as they are drawn; places are yards east and north."""

    def __init__(self) -> None:
        """Begin with none."""
        self.elements: list[dict] = []
        self._id = 1000

    def _next(self) -> int:
        self._id += 1
        return self._id

    def way(self, points, tags=None) -> dict:
        """Draw a way and return it as the member of a relation."""
        geometry = [place(p) for p in points]
        way = {"type": "way", "id": self._next(), "geometry": geometry}
        if tags:
            way["tags"] = tags
        self.elements.append(way)
        return {"type": "way", "ref": way["id"], "geometry": geometry}

    def area(self, points, tags) -> dict:
        """Draw a closed way."""
        return self.way([*points, points[0]], tags)

    def node(self, point, tags) -> None:
        """Draw a node."""
        self.elements.append({"type": "node", "id": self._next(), **place(point), "tags": tags})

    def relation(self, members, tags) -> None:
        """Draw a relation of (role, member)."""
        listed = [{**member, "role": role} for role, member in members]
        self.elements.append({"type": "relation", "id": self._next(), "members": listed, "tags": tags})


def place(point) -> dict:
    """Longitude and latitude of a place."""
    return {"lat": round(LATITUDE + point[1] * NORTH, 7), "lon": round(LONGITUDE + point[0] * EAST, 7)}


def blob(middle, length, width, wobble=0.12, turn=0.0, corners=18) -> list:
    """An area as one clicks it around a green or a bunker."""
    ring = []
    for i in range(corners):
        angle = 2 * math.pi * i / corners
        grow = 1 + wobble * math.sin(3 * angle + middle[0])
        x, y = 0.5 * width * grow * math.cos(angle), 0.5 * length * grow * math.sin(angle)
        ring.append(
            (middle[0] + x * math.cos(turn) - y * math.sin(turn), middle[1] + x * math.sin(turn) + y * math.cos(turn))
        )
    return ring


def band(line, width) -> list:
    """A fairway along a line."""
    left, right = [], []
    for i, (x, y) in enumerate(line):
        ax, ay = line[max(i - 1, 0)]
        bx, by = line[min(i + 1, len(line) - 1)]
        long = math.hypot(bx - ax, by - ay)
        nx, ny = (by - ay) / long, -(bx - ax) / long
        left.append((x - nx * width / 2, y - ny * width / 2))
        right.append((x + nx * width / 2, y + ny * width / 2))
    return left + right[::-1]


def along(line, yards) -> tuple:
    """The place so far along a line."""
    for (ax, ay), (bx, by) in pairwise(line):
        long = math.hypot(bx - ax, by - ay)
        if yards <= long:
            return ax + (bx - ax) * yards / long, ay + (by - ay) * yards / long
        yards -= long
    return line[-1]


def hole(answer: Answer, number: int) -> None:
    """Draw one hole with its tees, green, fairway and bunkers."""
    rng = random.Random(number)
    par, length = PARS[number - 1], LENGTHS[number - 1]
    up = 1 if number % 2 else -1
    x, start = (number - 1) * APART, 0 if number % 2 else 540
    bend = rng.uniform(-35, 35)
    turn = 0.62 * length
    line = [(x, start)]
    if par > 3:
        line.append((x + bend, start + up * turn))
    first = math.hypot(bend, turn) if par > 3 else 0.0
    rest = math.sqrt((length - first) ** 2 - (bend**2 if par > 3 else 0.0))
    line.append((x, line[-1][1] + up * rest))
    green = line[-1]
    drawn = list(line)
    tags = {"golf": "hole", "ref": f"{number:02d}" if number < 10 else str(number), "par": str(par)}
    tags["handicap"] = str(INDEXES[number - 1])
    if number == 9:
        del tags["par"]  # nobody knew
    if number == 4:
        drawn.reverse()
    if number == 7:
        drawn[-1] = (green[0], green[1] - up * 14)  # ends a yard short of the green
    if number == 12:
        tags["dist"] = str(length)
    answer.way(drawn, tags)
    if number != 14:
        own = {"golf": "green", "ref": str(number)} if number % 3 == 0 else {"golf": "green"}
        answer.area(blob(green, 27, 25, 0.06), own)
    if number % 4 == 1:
        answer.node((green[0] + 3, green[1] - 2), {"golf": "pin"})
    tees(answer, number, line, up)
    if par > 3 and number != 11 and number != 15:
        from_, to = 0.3 * length, length - 18
        middle = [along(line, from_ + (to - from_) * i / 12) for i in range(13)]
        answer.area(band(middle, rng.uniform(30, 40)), {"golf": "fairway"})
    for _ in range(3):
        side, angle = rng.choice((-1, 1)), rng.uniform(-0.4, 0.4)
        spot = (green[0] + side * 20, green[1] - up * rng.uniform(-8, 14))
        answer.area(blob(spot, 12, 7, 0.1, angle, 10), {"golf": "bunker"})
    if number == 10:
        a, b = green[0] - 30, green[1] + up * 20
        answer.area([(a, b), (a + 8, b + 6), (a + 8, b), (a, b + 6)], {"golf": "bunker"})  # clicked in the wrong order


def tees(answer: Answer, number: int, line, up: int) -> None:
    """Draw the tees: some with the number of their hole, some without, some for two colours, one as a node."""
    x, start = line[0]
    box = [(x - 5, start - 5), (x + 5, start - 5), (x + 5, start + 5), (x - 5, start + 5)]
    numbered = {"ref": str(number)} if number % 2 else {}
    answer.area(box, {"golf": "tee", "tee": "white", **numbered})
    yellow, red = along(line, 24), along(line, 52)
    if number == 6:
        answer.node(yellow, {"golf": "tee", "tee": "yellow;red", **numbered})
        return
    for spot, colour in ((yellow, "yellow"), (red, "red")):
        square = [(spot[0] + dx, spot[1] + dy) for dx, dy in ((-4, -4), (4, -4), (4, 4), (-4, 4))]
        answer.area(square, {"golf": "tee", "tee": colour, **numbered})


def surroundings(answer: Answer) -> None:
    """Draw what lies around the holes: the outline, water, woods, the shore, roads and houses."""
    wide = 17 * APART
    outline = [(-90, -60), (wide + 90, -60), (wide + 90, 610), (-90, 610)]
    answer.area(outline, {"leisure": "golf_course", "name": "Sandpiper Links"})
    answer.area(blob((1.5 * APART, 300), 90, 40), {"natural": "water", "water": "pond", "name": "Old Pond"})
    answer.area(blob((7.5 * APART, 180), 60, 46), {"golf": "lateral_water_hazard", "name": "Dipping Pool"})
    brook = [(12.5 * APART, -40), (12.45 * APART, 200), (12.55 * APART, 380), (12.5 * APART, 580)]
    answer.way(brook, {"waterway": "stream", "width": "2-3", "name": "Whin Burn"})
    answer.way([(4.5 * APART, 100), (4.5 * APART, 400)], {"waterway": "ditch", "width": "narrow"})
    # A wood of three ways with a clearing; one of the ways says once more that it is a wood.
    x = 9.5 * APART
    south = answer.way([(x - 22, 40), (x + 22, 40), (x + 24, 260)], {"natural": "wood"})
    north = answer.way([(x + 24, 260), (x + 18, 520), (x - 20, 520)])
    west = answer.way([(x - 22, 40), (x - 20, 520)])
    clearing = answer.area(blob((x, 150), 40, 20, 0), {})
    members = [("outer", south), ("outer", north), ("outer", west), ("inner", clearing)]
    answer.relation(members, {"type": "multipolygon", "natural": "wood", "name": "Rook Wood"})
    rng = random.Random(5)
    for i in range(40):
        spot = ((3.5 + rng.uniform(-0.12, 0.12)) * APART, rng.uniform(30, 520))
        answer.node(spot, {"natural": "tree", "height": "~15"} if i % 3 else {"natural": "tree"})
    answer.way([(-75, -900), (-80, 250), (-75, 1400)][::-1], {"natural": "coastline"})
    answer.way([(-200, -52), (wide + 300, -52)], {"highway": "tertiary", "name": "Shore Lane"})
    for x in (200, 330, 610):
        answer.area([(x, -75), (x + 14, -75), (x + 14, -64), (x, -64)], {"building": "house"})
    answer.area([(880, -40), (915, -40), (915, -20), (880, -20)], {"building": "yes", "golf": "clubhouse"})
    answer.way([(60, 0), (62, 300), (66, 560)], {"golf": "cartpath", "highway": "path"})
    answer.way([(wide + 60, -50), (wide + 62, 600)], {"barrier": "fence"})
    answer.area([(9000, 9000), (9500, 9500), (9500, 9000), (9000, 9500)], {"natural": "wood", "height": "very"})
    answer.area([(-30000, 700), (40000, 700), (40000, 30000), (-30000, 30000)], {"landuse": "forest"})


def short_course(answer: Answer) -> None:
    """Draw a second course, whose holes have the same numbers."""
    x0, y0 = 200, -700
    answer.area([(x0 - 60, y0 - 60), (x0 + 260, y0 - 60), (x0 + 260, y0 + 160), (x0 - 60, y0 + 160)],
                {"leisure": "golf_course", "name": "Sandpiper Short Course"})  # fmt: skip
    for number in (1, 2, 3):
        x = x0 + (number - 1) * 90
        answer.way([(x, y0), (x, y0 + 90)], {"golf": "hole", "ref": str(number), "par": "3"})
        answer.area(blob((x, y0 + 90), 18, 16, 0.05), {"golf": "green"})


def course() -> dict:
    """Draw it all."""
    answer = Answer()
    for number in range(1, 19):
        hole(answer, number)
    surroundings(answer)
    short_course(answer)
    credit = "Invented for wideberth: no such course exists."
    return {
        "version": 0.6,
        "generator": "docs/invented_course.py",
        "osm3s": {"copyright": credit},
        "elements": answer.elements,
    }


if __name__ == "__main__":
    print(json.dumps(course(), separators=(",", ":")))
