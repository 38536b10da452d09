"""The yardstick's game as loops over plays, compiled by Numba."""

import math

import numba as nb
import numpy as np
from game import (
    BUNKER,
    CAPTURE_SPEED,
    CAPTURE_STEPS,
    FEET_PER_YARD,
    FRINGE,
    GREEN,
    HOLE_RADIUS,
    LEAST_CARRY,
    LEAST_ROLL,
    LIES,
    LONGEST_FRINGE_PUTT,
    MISREAD_HALF,
    OUT,
    ROLL_DECELERATION,
    ROUGH,
    STATION_STEP,
    STROKE_CAP,
    TEE,
    TOLL,
    Game,
)

LIE_COUNT = len(LIES)
MOST_CROSSINGS = 64

# Inlined by Numba itself: across calls it would count references to every array, at half the speed.
inlined = nb.njit(error_model="numpy", fastmath=True, inline="always")


class NumbaGame:
    """The game prepared: flat arrays for compiled code."""

    def __init__(self, game: Game) -> None:
        """Flattens the tables; nothing is compiled yet."""
        p = game.patterns
        self._map = _flat_map(game)
        # One row a stroke and lie, so that a stroke reads neighbouring memory.
        single = [p.run, p.full_carry, p.side_slope, p.side_floor, p.bias, p.correlation]
        single += [p.duff_share, p.mishit_share]
        triple = [p.mean, p.sd, p.sd_floor, p.width, p.run_of_carry, p.run_of_meant]
        self._strokes = np.ascontiguousarray(np.column_stack(single + triple))
        self._choice = (
            game.clubs,
            game.distances,
            game.choices,
            game.counts,
            game.farthest,
            game.targets,
        )
        putting = game.putting
        self._putting = (
            math.radians(putting["direction_deg"]),
            math.radians(putting["misread_deg"]),
            putting["pace"],
            putting["past_ft"] / FEET_PER_YARD,
        )
        self._ground = (game.tee, game.pin, game.green_speed)

    def play(self, plays: int, seed: int, threads: int = 1) -> np.ndarray:
        """Counts of scores 0 to 60 over `plays` plays."""
        nb.set_num_threads(threads)
        # One generator a thread: NumPy's are several times faster inside Numba than Numba's own.
        rngs = tuple(np.random.Generator(np.random.SFC64([seed, thread])) for thread in range(threads))
        scores = _play_all(plays, rngs, self._map, self._strokes, self._choice, self._putting, self._ground)
        return np.bincount(scores, minlength=STROKE_CAP + 1)


# Columns of the table of strokes.
RUN, FULL_CARRY, SIDE_SLOPE, SIDE_FLOOR, BIAS, CORRELATION, DUFF_SHARE, MISHIT_SHARE = range(8)
MEAN, SD, SD_FLOOR, WIDTH, RUN_OF_CARRY, RUN_OF_MEANT = range(8, 26, 3)


def _flat_map(game: Game) -> tuple[np.ndarray, ...]:
    """Surfaces, boxes, first edges, and the edges as (x0, y0, x1, y1, dx/dy), the topmost feature first."""
    features = game.features[::-1]
    edges, starts = [], [0]
    for f in features:
        a, b = f.outline, np.roll(f.outline, -1, axis=0)
        rise = b[:, 1] - a[:, 1]
        # A level edge is never asked for its slope.
        slope = np.divide(b[:, 0] - a[:, 0], rise, out=np.zeros(len(a)), where=rise != 0.0)
        edges.append(np.column_stack([a, b, slope]))
        starts.append(starts[-1] + len(a))
    boxes = np.array([[*f.outline.min(axis=0), *f.outline.max(axis=0)] for f in features])
    return np.array([f.surface for f in features]), boxes, np.array(starts), np.concatenate(edges)


@nb.njit(parallel=True, fastmath=True, error_model="numpy")
def _play_all(plays, rngs, ground_map, strokes, choice, putting, ground):
    scores = np.empty(plays, np.uint8)
    threads = len(rngs)
    for thread in nb.prange(threads):
        rng = rngs[thread]
        crossings = np.empty(MOST_CROSSINGS)
        for i in range(thread * plays // threads, (thread + 1) * plays // threads):
            scores[i] = _play(rng, crossings, ground_map, strokes, choice, putting, ground)
    return scores


@inlined
def _play(rng, crossings, ground_map, strokes, choice, putting, ground):
    tee, pin, green_speed = ground
    x, y, lie, score = tee[0], tee[1], TEE, 0
    while score < STROKE_CAP:
        score += 1
        distance = math.hypot(pin[0] - x, pin[1] - y)
        if lie == GREEN or (lie == FRINGE and distance <= LONGEST_FRINGE_PUTT):
            holed, to_x, to_y = _putt(rng, x, y, distance, pin, green_speed, putting)
            surface = GREEN if holed else _surface(to_x, to_y, ground_map)
        else:
            holed, to_x, to_y, surface = _swing(
                rng, x, y, lie, distance, crossings, ground_map, strokes, choice, pin, green_speed
            )
        if holed:
            return score
        if surface == OUT:
            score += 1
        else:
            x, y, lie = to_x, to_y, surface
    return STROKE_CAP


@inlined
def _putt(rng, x, y, distance, pin, green_speed, putting):
    direction, misread, pace, past = putting
    angle = (direction + misread * distance / (distance + MISREAD_HALF)) * rng.standard_normal()
    square = angle * angle
    sine = angle * (1.0 - square * (1.0 / 6.0) * (1.0 - square * (1.0 / 20.0)))
    cosine = 1.0 - 0.5 * square * (1.0 - square * (1.0 / 12.0))
    roll = (distance + past) * max(1.0 + pace * rng.standard_normal(), LEAST_ROLL)
    offset = abs(distance * sine)
    if offset < HOLE_RADIUS and cosine > 0.0:
        left = roll - (distance * cosine - math.sqrt(HOLE_RADIUS * HOLE_RADIUS - offset * offset))
        if left >= 0.0 and 2.0 * ROLL_DECELERATION * left <= _capture(offset) ** 2 * green_speed:
            return True, x, y
    forward_x, forward_y = (pin[0] - x) / distance, (pin[1] - y) / distance
    along, right = roll * cosine, roll * sine
    return False, x + forward_x * along + forward_y * right, y + forward_y * along - forward_x * right


@inlined
def _capture(offset):
    at = offset * (CAPTURE_STEPS / HOLE_RADIUS)
    cell = min(int(at), CAPTURE_STEPS - 1)
    return CAPTURE_SPEED[cell] + (at - cell) * (CAPTURE_SPEED[cell + 1] - CAPTURE_SPEED[cell])


@inlined
def _swing(rng, x, y, lie, to_pin, crossings, ground_map, strokes, choice, pin, green_speed):
    target_x, target_y, distance = _aim(x, y, lie, to_pin, choice, pin)
    stroke = _touch(x, y, lie, target_x, target_y, distance, ground_map, strokes, choice)
    row = stroke * LIE_COUNT + lie
    meant = min(distance / (1.0 + strokes[row, RUN]), strokes[row, FULL_CARRY])

    luck = rng.random()
    kind = 1 if luck < strokes[row, DUFF_SHARE] else 2 if luck < strokes[row, MISHIT_SHARE] else 0
    depth, side = rng.standard_normal(), rng.standard_normal()
    sd = max(strokes[row, SD + kind] * meant, strokes[row, SD_FLOOR + kind])
    carry = max(strokes[row, MEAN + kind] * meant + sd * depth, LEAST_CARRY * meant)
    correlation = strokes[row, CORRELATION]
    side = correlation * depth + math.sqrt(1.0 - correlation * correlation) * side
    width = strokes[row, WIDTH + kind] * max(strokes[row, SIDE_SLOPE] * meant, strokes[row, SIDE_FLOOR])
    lateral = strokes[row, BIAS] * meant + width * side
    run = strokes[row, RUN_OF_CARRY + kind] * carry + strokes[row, RUN_OF_MEANT + kind] * meant

    forward_x, forward_y = (target_x - x) / distance, (target_y - y) / distance
    flown_x = forward_x * carry + forward_y * lateral
    flown_y = forward_y * carry - forward_x * lateral
    flown = math.hypot(flown_x, flown_y)
    along_x, along_y = flown_x / flown, flown_y / flown
    return _run(x + flown_x, y + flown_y, along_x, along_y, run, crossings, ground_map, pin, green_speed)


@inlined
def _aim(x, y, lie, to_pin, choice, pin):
    _, _, _, _, farthest, targets = choice
    if to_pin <= farthest[lie]:
        return pin[0], pin[1], to_pin
    station = min(int(max(y, 0.0) / STATION_STEP + 0.5), targets.shape[1] - 1)
    target_x, target_y = targets[lie, station, 0], targets[lie, station, 1]
    return target_x, target_y, math.hypot(target_x - x, target_y - y)


@inlined
def _touch(x, y, lie, target_x, target_y, distance, ground_map, strokes, choice):
    """The stroke for a distance: a touch if one covers it, else the shortest club that does."""
    clubs, distances, choices, counts, _, _ = choice
    if lie == BUNKER:
        if _covers(strokes, (clubs + 2) * LIE_COUNT + lie, distance):
            return clubs + 2
    elif lie != TEE and _covers(strokes, (clubs + 1) * LIE_COUNT + lie, distance):
        chip = clubs * LIE_COUNT + lie
        if _covers(strokes, chip, distance):
            share = 1.0 / (1.0 + strokes[chip, RUN])
            landing = _surface(x + share * (target_x - x), y + share * (target_y - y), ground_map)
            if landing in (GREEN, FRINGE):
                return clubs
        return clubs + 1
    k = 0
    while k < counts[lie] - 1 and distances[lie, k] < distance:
        k += 1
    return choices[lie, k]


@inlined
def _covers(strokes, row, distance):
    return distance <= strokes[row, FULL_CARRY] * (1.0 + strokes[row, RUN])


@inlined
def _run(x, y, along_x, along_y, run, crossings, ground_map, pin, green_speed):
    """Rolls the ball across the map, each surface taking its toll; the last one is where it lies."""
    count = _crossings(x, y, x + along_x * run, y + along_y * run, crossings, ground_map)
    start, left, surface = 0.0, run, ROUGH
    for k in range(count + 1):
        end = (crossings[k] if k < count else 1.0) * run
        middle = 0.5 * (start + end)
        surface = _surface(x + along_x * middle, y + along_y * middle, ground_map)
        toll = TOLL[surface]
        reach = min(end - start, left / toll)
        if surface == GREEN and _falls_in(
            x + along_x * start, y + along_y * start, along_x, along_y, reach, left, pin, green_speed
        ):
            return True, x, y, surface
        left -= (end - start) * toll
        if left <= 0.0:
            return False, x + along_x * (start + reach), y + along_y * (start + reach), surface
        start = end
    return False, x + along_x * run, y + along_y * run, surface


@inlined
def _crossings(x0, y0, x1, y1, crossings, ground_map):
    """Shares of a path at which it crosses an edge of the map, in order; returns how many."""
    _, boxes, starts, edges = ground_map
    low_x, high_x, low_y, high_y = min(x0, x1), max(x0, x1), min(y0, y1), max(y0, y1)
    dx, dy = x1 - x0, y1 - y0
    count = 0
    for f in range(len(boxes)):
        if high_x < boxes[f, 0] or low_x > boxes[f, 2] or high_y < boxes[f, 1] or low_y > boxes[f, 3]:
            continue
        for e in range(starts[f], starts[f + 1]):
            ax, ay, bx, by = edges[e, 0], edges[e, 1], edges[e, 2], edges[e, 3]
            side_a = dx * (ay - y0) - dy * (ax - x0)
            side_b = dx * (by - y0) - dy * (bx - x0)
            if (side_a > 0.0) == (side_b > 0.0):
                continue
            share = ((ax - x0) * (by - ay) - (ay - y0) * (bx - ax)) / (dx * (by - ay) - dy * (bx - ax))
            if 0.0 < share < 1.0 and count < MOST_CROSSINGS:
                k = count
                while k > 0 and crossings[k - 1] > share:
                    crossings[k] = crossings[k - 1]
                    k -= 1
                crossings[k] = share
                count += 1
    return count


@inlined
def _falls_in(x, y, along_x, along_y, reach, left, pin, green_speed):
    to_x, to_y = pin[0] - x, pin[1] - y
    ahead = to_x * along_x + to_y * along_y
    offset = abs(to_x * along_y - to_y * along_x)
    if not (0.0 < ahead <= reach) or offset >= HOLE_RADIUS:
        return False
    return 2.0 * ROLL_DECELERATION * (left - ahead) <= _capture(offset) ** 2 * green_speed


@inlined
def _surface(x, y, ground_map):
    """The surface of the topmost feature whose edges a ray to the right crosses an odd number of times."""
    surfaces, boxes, starts, edges = ground_map
    for f in range(len(boxes)):
        if x < boxes[f, 0] or x > boxes[f, 2] or y < boxes[f, 1] or y > boxes[f, 3]:
            continue
        inside = False
        for e in range(starts[f], starts[f + 1]):
            y0 = edges[e, 1]
            if (y0 > y) != (edges[e, 3] > y) and x < edges[e, 0] + (y - y0) * edges[e, 4]:
                inside = not inside
        if inside:
            return surfaces[f]
    return ROUGH
