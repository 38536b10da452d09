"""The yardstick's game in numbers, worked out of the documents of the hole and the player."""

import json
import math
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import shapely

HERE = Path(__file__).parent

# Places a ball can lie, which are also the surfaces but for the last.
TEE, FAIRWAY, FIRST_CUT, ROUGH, FRINGE, GREEN, BUNKER, OUT = range(8)
LIES = ("tee", "fairway", "first_cut", "rough", "fringe", "green", "bunker")
SURFACE = {"tee": FAIRWAY, "out_of_bounds": OUT} | {name: i for i, name in enumerate(LIES) if i}
TOUCHES = ("chip", "pitch", "lob", "bunker_shot")
# Grass under which a lob gets, and what a touch is to come down on.
GRASS = (FAIRWAY, FIRST_CUT, ROUGH, FRINGE)
PUTTABLE = (GREEN, FRINGE)

# What turf is like, by surface: how it gives at a blow, rolling resistance (a green's: over its speed in feet), and how
# high, m, a ball must rise to clear it.
GIVE = np.array([1.0, 1.0, 1.05, 1.15, 1.0, 1.0, 1.8, 1.15])
ROLLING = np.array([0.20, 0.20, 0.32, 0.50, 0.20, 0.783, 2.40, 0.50])
CLEARANCE = np.array([0.020, 0.020, 0.035, 0.060, 0.020, 0.020, 0.250, 0.060])

GRAVITY = 9.80665
BALL_RADIUS = 0.021335
ROLLING_SHARE = 5.0 / 7.0
FRICTION = 0.40
# Angle by which turf gives, per m/s and radian from the vertical, and the most it gives.
TILT = 15.4 / (18.6 * 44.4)
MOST_OF_ANGLE = 0.85
MOST_TILT = math.pi / 4.0
# Twice gravity times the height, m, of hops from which a ball that all but rolls skips on.
LOW_HOP = 2.0 * GRAVITY * 0.30
MOST_HOPS = 12
# A skipping ball: speed lost a metre over the give times gravity, and the rebound over give times speed squared.
SKIP_LOSS = 0.0196
SKIP_REBOUND = 0.0785
LONGEST_ROLL = 500.0

FEET_PER_YARD = 3.0
METRES_PER_YARD = 0.9144
HOLE_RADIUS = 0.054 / METRES_PER_YARD
# Yards a second squared on a level green, times the Stimpmeter reading in feet.
ROLL_DECELERATION = 1.8288**2 / (2 * 0.3048) / METRES_PER_YARD
MISREAD_HALF = 20.0 / FEET_PER_YARD
LEAST_ROLL = 0.05
LEAST_CARRY = 0.02
# Luck in depth is bent, less of it beyond the middle than short of it, over so many standard deviations.
TURN = 0.25
# The severity, of 0 to 1, from which a miss is a mishit and rolls as it is told.
MISHIT = 0.5
LONGEST_FRINGE_PUTT = 15.0
LONGEST_CHIP = 20.0
# Shares of a club's full distance: a touch takes its place below the first, it is enough up to the second.
LEAST_SWING = 0.75
ENOUGH = 1.025
# So many times its reach a ball is aimed at the pin.
NEARLY = 1.1
STATION_STEP = 10.0
STROKE_CAP = 60

# Offset of a putt's path from the middle of the hole, mm, and the fastest ball that drops, m/s.
CAPTURE = np.array(
    [
        (0.0, 1.63), (2.5, 1.62), (5.0, 1.60), (7.5, 1.56), (10.0, 1.52), (15.0, 1.41), (20.0, 1.30),
        (25.0, 1.19), (30.0, 1.06), (35.0, 0.90), (40.0, 0.66), (45.0, 0.49), (50.0, 0.35), (52.0, 0.25),
        (53.5, 0.13), (54.0, 0.0),
    ]
)  # fmt: skip
CAPTURE_STEPS = 108
CAPTURE_SPEED = np.interp(np.linspace(0.0, 54.0, CAPTURE_STEPS + 1), *CAPTURE.T) / METRES_PER_YARD


@dataclass
class Feature:
    """A part of the map: its surface and its outline."""

    surface: int
    outline: np.ndarray  # (vertices, 2), not closed


@dataclass
class Patterns:
    """What strokes do: one entry for every stroke and lie, the clubs and then the touches.

    A flush strike carries about ``flush * meant``, with a spread of ``depth_floor + depth_slope * meant``, of which
    there is the share ``beyond`` past the middle. What the others are at their worst stands in three columns: flush
    (never asked for), duffed and thin.
    """

    full_carry: np.ndarray
    flush: np.ndarray
    depth_floor: np.ndarray
    depth_slope: np.ndarray
    beyond: np.ndarray
    side_slope: np.ndarray
    bias: np.ndarray
    correlation: np.ndarray
    run: np.ndarray
    # Share of all strikes that are missed in some way, however little.
    share: np.ndarray
    # Of the worst: carry, its spread and run as shares of a flush strike's carry, and how much wider it is than one.
    carry: np.ndarray
    carry_sd: np.ndarray
    side: np.ndarray
    worst_run: np.ndarray


@dataclass
class Flights:
    """What the library prepares, by stroke: the clubs and then the touches."""

    # The longest carry that `totals` tells of: carry and run together at every eighth of it.
    full_carry: np.ndarray
    totals: np.ndarray
    # The same where the ball is to end on the green.
    green_totals: np.ndarray
    # How a ball comes down, evenly over the root of its share of `carry` up to `most_root`: m/s forward and down, and
    # backspin, rad/s.
    carry: np.ndarray
    landings: np.ndarray
    most_root: float
    # m/s^2: how the ground slows a rolling ball where runs are told.
    home_slowing: np.ndarray
    # The usual miss that is allowed for: yards to the right per yard of way.
    aim_off: np.ndarray

    def total(self, stroke: int, carry: float, totals: np.ndarray) -> float:
        """Carry and run together; straight on beyond the last."""
        totals = totals[stroke]
        at = carry / self.full_carry[stroke] * (len(totals) - 1)
        k = min(int(at), len(totals) - 2)
        return totals[k] + (at - k) * (totals[k + 1] - totals[k])


@dataclass
class Turfs:
    """What a ball meets, by surface."""

    give: np.ndarray
    # Speed lost a metre by a ball that skips, 1/s, and the speed at which it ceases to, m/s.
    skip_loss: np.ndarray
    skip_end: np.ndarray
    # How it slows a rolling ball, m/s^2, and the least square of the speed of a rebound that clears it.
    slowing: np.ndarray
    clears: np.ndarray


@dataclass
class Grid:
    """The map in cells: what lies on top, or MIXED, and how far, yards, the nearest edge of the map is at least."""

    corner: np.ndarray
    surface: np.ndarray  # (rows, columns)
    clear: np.ndarray


# Side of a cell, yards; cells around the map; and the surface of a cell with an edge in it.
CELL = 1.0
MARGIN = 20
MIXED = 255


@dataclass
class Game:
    """Everything the programs look up."""

    features: list[Feature]
    tee: np.ndarray
    pin: np.ndarray
    green_speed: float
    patterns: Patterns
    flights: Flights
    turfs: Turfs
    grid: Grid
    clubs: int
    # Per lie: the clubs worth swinging, shortest first: full distances (padded with infinity), which, count.
    distances: np.ndarray
    choices: np.ndarray
    counts: np.ndarray
    # Per lie: the full distance of the longest club.
    farthest: np.ndarray
    # Per stroke and lie, in rows as the patterns: carry and run of a full swing.
    full_total: np.ndarray
    # Per lie and station: the point `direct` aims at when the pin is out of reach, and 1 if that is on the green.
    targets: np.ndarray
    target_on_green: np.ndarray
    # The share of the way that a swing at the pin is chosen too short by habit.
    too_little_club: float
    putting: dict[str, float]


def load(subdivide: int = 1) -> Game:
    """The game of the documents beside this file; every edge of the map cut in `subdivide` equal pieces."""
    hole, player = json.loads(hole_text(subdivide)), json.loads(player_text())
    prepared = json.loads((HERE / "prepared.json").read_text())
    clubs = len(player["clubs"])
    strokes = _strokes(prepared, player)
    patterns = _patterns(strokes)
    flights = _flights(strokes, prepared["most_root"])
    if prepared["lies"] != list(LIES):
        raise ValueError(f"prepared.json must tell of the lies {LIES}")
    if not player["habits"]["every_flag"]:
        raise ValueError("the programs know a player who aims at every flag")
    told, on_green = _full_totals(patterns, flights)
    distances, choices, counts = _reach(patterns.full_carry, np.maximum(told, on_green), clubs)
    features = [Feature(SURFACE[f["surface"]], np.array(f["outline"], float)) for f in hole["features"]]
    farthest = distances[np.arange(len(LIES)), counts - 1]
    pin = np.array(hole["pin"], float)
    start, end = hole["line_of_play"]
    if not (start == hole["tee"] == [0, 0] and end[0] == 0):
        raise ValueError("the line of play must run straight up the plan from the tee at the origin")
    targets = _targets(end[1], pin, farthest)
    return Game(
        features=features,
        tee=np.array(hole["tee"], float),
        pin=pin,
        green_speed=hole["green_speed_ft"],
        patterns=patterns,
        flights=flights,
        turfs=_turfs(hole["green_speed_ft"]),
        grid=_grid(features),
        clubs=clubs,
        distances=distances,
        choices=choices,
        counts=counts,
        farthest=farthest,
        full_total=told,
        targets=targets,
        target_on_green=(_tops(features, targets[..., 0], targets[..., 1]) == GREEN).astype(np.int64),
        too_little_club=player["habits"]["too_little_club"],
        putting=player["putting"],
    )


def player_text() -> str:
    """The player's document."""
    return (HERE / "player.json").read_text()


def hole_text(subdivide: int = 1) -> str:
    """The hole's document, every edge cut in `subdivide` equal pieces."""
    text = (HERE / "hole.json").read_text()
    if subdivide == 1:
        return text
    hole = json.loads(text)
    steps = np.arange(subdivide)[:, None] / subdivide
    for feature in hole["features"]:
        ring = np.array(feature["outline"], float)
        pieces = [a + steps * (b - a) for a, b in zip(ring, np.roll(ring, -1, axis=0), strict=True)]
        feature["outline"] = np.concatenate(pieces).tolist()
    return json.dumps(hole)


def _patterns(strokes: list[dict]) -> Patterns:
    swings = [swing for stroke in strokes for swing in stroke["swings"]]
    misses = [(swing["duff"], swing["thin"]) for swing in swings]
    if any(way["mildness"] != 2.0 for pair in misses for way in pair):
        raise ValueError("the programs know misses of mildness 2")

    def column(name: str) -> np.ndarray:
        return np.array([swing[name] for swing in swings])

    def worst(name: str) -> np.ndarray:
        return np.array([(0.0, duff[name], thin[name]) for duff, thin in misses])

    return Patterns(
        full_carry=column("full_carry"),
        flush=column("flush"),
        depth_floor=column("depth_floor"),
        depth_slope=column("depth_slope"),
        beyond=column("beyond"),
        side_slope=column("side_slope"),
        bias=column("bias_slope"),
        correlation=column("correlation"),
        run=column("run"),
        share=worst("share") / MISHIT,
        carry=worst("carry"),
        carry_sd=worst("carry_sd"),
        side=worst("side"),
        worst_run=worst("run"),
    )


def _strokes(prepared: dict, player: dict) -> list[dict]:
    """What is prepared for the clubs, longest first, and then the touches."""
    named = {stroke["name"]: stroke for stroke in prepared["strokes"]}
    clubs = sorted(player["clubs"], key=lambda club: -club["carry"])
    return [named[name] for name in (*(club["name"] for club in clubs), *TOUCHES)]


def _flights(strokes: list[dict], most_root: float) -> Flights:
    column = {name: np.array([s[name] for s in strokes]) for name in strokes[0] if name != "swings"}
    return Flights(
        full_carry=column["full_carry"],
        totals=column["totals"],
        green_totals=column["green_totals"],
        carry=column["flight_carry"],
        landings=column["landings"],
        most_root=most_root,
        home_slowing=ROLLING_SHARE * GRAVITY * column["home_rolling"],
        aim_off=column["aim_off"],
    )


def _turfs(green_speed: float) -> Turfs:
    rolling = ROLLING.copy()
    rolling[GREEN] /= green_speed
    clears = 2.0 * GRAVITY * CLEARANCE
    return Turfs(
        give=GIVE,
        skip_loss=SKIP_LOSS * GRAVITY * GIVE,
        skip_end=np.sqrt(np.sqrt(clears) / (SKIP_REBOUND * GIVE)),
        slowing=ROLLING_SHARE * GRAVITY * rolling,
        clears=clears,
    )


def _grid(features: list[Feature]) -> Grid:
    """Lays cells over the map and a margin around it."""
    corners = np.concatenate([f.outline for f in features])
    low = corners.min(axis=0) - MARGIN * CELL
    columns, rows = (int(n) for n in np.ceil((corners.max(axis=0) - low) / CELL + MARGIN))
    x, y = (side.ravel() for side in np.meshgrid(low[0] + CELL * np.arange(columns), low[1] + CELL * np.arange(rows)))
    edges = shapely.MultiLineString([shapely.LinearRing(f.outline) for f in features])
    # A little wider and nearer, for what rounding does.
    cells = shapely.box(x - 1e-6, y - 1e-6, x + CELL + 1e-6, y + CELL + 1e-6)
    clear = np.maximum(shapely.distance(cells, edges) - 1e-4, 0.0)
    surface = _tops(features, x + 0.5 * CELL, y + 0.5 * CELL)
    surface[clear == 0.0] = MIXED
    return Grid(low, surface.reshape(rows, columns), clear.astype(np.float32).reshape(rows, columns))


def _tops(features: list[Feature], x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """The surface on top at each point."""
    surface = np.full(x.shape, ROUGH, np.uint8)
    for f in features:
        polygon = shapely.Polygon(f.outline)
        shapely.prepare(polygon)
        surface[shapely.contains_xy(polygon, x, y)] = f.surface
    return surface


def _full_totals(patterns: Patterns, flights: Flights) -> tuple[np.ndarray, np.ndarray]:
    """Carry and run of a full swing by stroke and lie, where runs are told and on the green."""
    rows = range(len(patterns.full_carry))
    told, on_green = (
        np.array([flights.total(row // len(LIES), patterns.full_carry[row], totals) for row in rows])
        for totals in (flights.totals, flights.green_totals)
    )
    return told, on_green


def _reach(full_carry: np.ndarray, full_total: np.ndarray, clubs: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Per lie: the clubs, shortest first, that carry and go farther than every shorter one."""
    distances = np.full((len(LIES), clubs), np.inf)
    choices = np.zeros((len(LIES), clubs), np.int64)
    counts = np.zeros(len(LIES), np.int64)
    for lie in range(len(LIES)):
        carried = 0.0
        for club in reversed(range(clubs)):
            n, row = counts[lie], club * len(LIES) + lie
            if full_carry[row] > carried and (n == 0 or full_total[row] > distances[lie, n - 1]):
                carried = full_carry[row]
                distances[lie, n], choices[lie, n] = full_total[row], club
                counts[lie] += 1
    return distances, choices, counts


def _targets(length: float, pin: np.ndarray, farthest: np.ndarray) -> np.ndarray:
    """Where to aim per lie from every 10 yards of the line of play.

    The pin if it can nearly be reached from there, else the last place within reach, in steps of 2 yards. Short grass
    is planned for as fairway.
    """
    stations = STATION_STEP * np.arange(math.ceil(length / STATION_STEP) + 1)
    targets = np.zeros((len(farthest), len(stations), 2))
    for lie in range(len(farthest)):
        reach = farthest[lie if lie in (TEE, ROUGH, BUNKER) else FAIRWAY]
        for k, start in enumerate(stations):
            steps = np.arange(start, length, 2.0)
            within = steps[steps - start <= reach]
            on_line = (0.0, within[-1] if len(within) else min(start + reach, length))
            targets[lie, k] = pin if np.hypot(*(pin - (0.0, start))) < NEARLY * reach else on_line
    return targets
