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
TOUCHES = ("chip", "pitch", "bunker_shot")

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
SPREAD_FLOOR = 0.3
MOST_MISHITS = 0.9
LONGEST_FRINGE_PUTT = 15.0
STATION_STEP = 6.0
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

    The three kinds of strike (solid, duffed, thin) are columns: the carry is normal about ``mean * meant``
    with the larger of ``sd * meant`` and ``sd_floor``; the lateral is ``width`` times a solid strike's. A ball not
    struck solidly rolls ``run * meant`` on the ground where runs are told.
    """

    full_carry: np.ndarray
    side_slope: np.ndarray
    side_floor: np.ndarray
    bias: np.ndarray
    correlation: np.ndarray
    duff_share: np.ndarray
    mishit_share: np.ndarray
    mean: np.ndarray
    sd: np.ndarray
    sd_floor: np.ndarray
    width: np.ndarray
    run: np.ndarray


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

    def total(self, stroke: int, carry: float) -> float:
        """Carry and run together; straight on beyond the last."""
        totals = self.totals[stroke]
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
    # Per lie and station: the point `direct` aims at when the pin is out of reach.
    targets: np.ndarray
    putting: dict[str, float]


def load(subdivide: int = 1) -> Game:
    """The game of the documents beside this file; every edge of the map cut in `subdivide` equal pieces."""
    hole, player = json.loads(hole_text(subdivide)), json.loads(player_text())
    prepared = json.loads((HERE / "prepared.json").read_text())
    patterns = _patterns(player)
    strokes = _strokes(prepared, player)
    flights = _flights(strokes, prepared["most_root"])
    full = patterns.full_carry
    full_total = np.array([flights.total(row // len(LIES), full[row]) for row in range(len(full))])
    distances, choices, counts = _reach(full_total, len(player["clubs"]))
    features = [Feature(SURFACE[f["surface"]], np.array(f["outline"], float)) for f in hole["features"]]
    farthest = distances[np.arange(len(LIES)), counts - 1]
    pin = np.array(hole["pin"], float)
    start, end = hole["line_of_play"]
    if not (start == hole["tee"] == [0, 0] and end[0] == 0):
        raise ValueError("the line of play must run straight up the plan from the tee at the origin")
    return Game(
        features=features,
        tee=np.array(hole["tee"], float),
        pin=pin,
        green_speed=hole["green_speed_ft"],
        patterns=patterns,
        flights=flights,
        turfs=_turfs(hole["green_speed_ft"]),
        grid=_grid(features),
        clubs=len(player["clubs"]),
        distances=distances,
        choices=choices,
        counts=counts,
        farthest=farthest,
        full_total=full_total,
        targets=_targets(end[1], pin, farthest),
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


def _patterns(player: dict) -> Patterns:
    longest = max(club["carry"] for club in player["clubs"])
    clubs = sorted(player["clubs"], key=lambda club: -club["carry"])
    rows = [
        _club_row(club, player["shortfall"], _effect(player["lies"][lie], club["carry"] / longest), lie)
        for club in clubs
        for lie in LIES
    ]
    rows += [
        _touch_row(touch, player["short_game"][touch], _touch_effect(player, touch, lie))
        for touch in TOUCHES
        for lie in LIES
    ]
    return Patterns(**{name: np.array([row[name] for row in rows]) for name in rows[0]})


def _effect(effect: dict, length: float) -> tuple[float, float, float]:
    """Carry, spread and mishits as multiples; a part grows with the fourth power of the club's length."""
    long = length**4
    return (
        effect["carry"] - effect["carry_long_loss"] * long,
        effect["spread"] + effect["spread_long"] * long,
        effect["mishits"] + effect["mishits_long"] * long,
    )


def _touch_effect(player: dict, touch: str, lie: str) -> tuple[float, float, float]:
    """A stroke around the green feels twice what a short club does; more in sand, but for the bunker shot."""
    if lie == "bunker":
        spread_share, mishit_share = (0.0, 0.0) if touch == "bunker_shot" else (3.0, 8.0)
    else:
        spread_share = mishit_share = 2.0
    carry, spread, mishits = _effect(player["lies"][lie], 0.0)
    if touch == "bunker_shot" and lie == "bunker":
        carry = 1.0
    return carry, max(0.0, 1 + spread_share * (spread - 1)), max(0.0, 1 + mishit_share * (mishits - 1))


def _club_row(club: dict, shortfall: float, effect: tuple[float, float, float], lie: str) -> dict:
    carry, spread, mishits = effect
    carry *= 1.0 if lie == "tee" else club["off_ground"]
    reach = 1.0 - shortfall
    full = club["carry"] * carry / reach
    depth, side = club["carry_sd"] * spread, club["lateral_sd"] * spread
    share = min(club["mishit_share"] * mishits, MOST_MISHITS)
    shape = club["mishit_shape"]
    return {
        "full_carry": full,
        "side_slope": side / full,
        "side_floor": SPREAD_FLOOR * side,
        "bias": club["lateral_bias"] / (club["carry"] / reach),
        "correlation": club["correlation"],
        "duff_share": share * shape["duff_part"],
        "mishit_share": share,
        "mean": (reach, shape["duff_carry"] * reach, shape["wild_carry"] * reach),
        "sd": (depth / full, shape["duff_carry_sd"] * reach, shape["wild_carry_sd"] * reach),
        "sd_floor": (SPREAD_FLOOR * depth, 0.0, 0.0),
        "width": (1.0, shape["duff_side"], shape["wild_side"]),
        "run": (0.0, shape["duff_run"] * reach, shape["wild_run"] * reach),
    }


def _touch_row(touch: str, skill: dict, effect: tuple[float, float, float]) -> dict:
    carry, spread, mishits = effect
    total = 1.0 + skill["run"]
    duffs, thins = skill["duffs"] * mishits, skill["thins"] * mishits
    scale = min(1.0, MOST_MISHITS / max(duffs + thins, MOST_MISHITS))
    thin_run = 2.2 * total - 1.0 if touch == "bunker_shot" else 1.6 * total - 0.9
    return {
        "full_carry": skill["full_carry"] * carry,
        "side_slope": math.radians(skill["direction_deg"]) * spread,
        "side_floor": 0.0,
        "bias": 0.0,
        "correlation": 0.0,
        "duff_share": duffs * scale,
        "mishit_share": (duffs + thins) * scale,
        "mean": (1.0, 0.30, 0.9),
        "sd": (skill["depth"] * spread, 0.12, 0.15),
        "sd_floor": (skill["depth_floor"] * spread, 0.0, 0.0),
        "width": (1.0, 1.5, 1.5),
        "run": (0.0, 0.15 * total, thin_run),
    }


def _strokes(prepared: dict, player: dict) -> list[dict]:
    """What is prepared for the clubs, longest first, and then the touches."""
    named = {stroke["name"]: stroke for stroke in prepared["strokes"]}
    clubs = sorted(player["clubs"], key=lambda club: -club["carry"])
    return [named[name] for name in (*(club["name"] for club in clubs), *TOUCHES)]


def _flights(strokes: list[dict], most_root: float) -> Flights:
    column = {name: np.array([stroke[name] for stroke in strokes]) for name in strokes[0]}
    return Flights(
        full_carry=column["full_carry"],
        totals=column["totals"],
        green_totals=column["green_totals"],
        carry=column["flight_carry"],
        landings=column["landings"],
        most_root=most_root,
        home_slowing=ROLLING_SHARE * GRAVITY * column["home_rolling"],
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
    surface = np.full(x.size, ROUGH, np.uint8)
    for f in features:
        polygon = shapely.Polygon(f.outline)
        shapely.prepare(polygon)
        surface[shapely.contains_xy(polygon, x + 0.5 * CELL, y + 0.5 * CELL)] = f.surface
    surface[clear == 0.0] = MIXED
    return Grid(low, surface.reshape(rows, columns), clear.astype(np.float32).reshape(rows, columns))


def _reach(full_total: np.ndarray, clubs: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Per lie: the clubs, shortest first, that go farther than every shorter one."""
    distances = np.full((len(LIES), clubs), np.inf)
    choices = np.zeros((len(LIES), clubs), np.int64)
    counts = np.zeros(len(LIES), np.int64)
    for lie in range(len(LIES)):
        for club in reversed(range(clubs)):
            n, distance = counts[lie], full_total[club * len(LIES) + lie]
            if n == 0 or distance > distances[lie, n - 1]:
                distances[lie, n], choices[lie, n] = distance, club
                counts[lie] += 1
    return distances, choices, counts


def _targets(length: float, pin: np.ndarray, farthest: np.ndarray) -> np.ndarray:
    """Where to aim per lie from every 6 yards of the line of play.

    The pin if it can be reached from there, else the last place within reach, in steps of 2 yards.
    """
    stations = STATION_STEP * np.arange(math.ceil(length / STATION_STEP) + 1)
    targets = np.zeros((len(farthest), len(stations), 2))
    for lie, reach in enumerate(farthest):
        for k, start in enumerate(stations):
            steps = np.arange(start, length, 2.0)
            within = steps[steps - start <= reach]
            on_line = (0.0, within[-1] if len(within) else min(start + reach, length))
            targets[lie, k] = pin if np.hypot(*(pin - (0.0, start))) <= reach else on_line
    return targets
