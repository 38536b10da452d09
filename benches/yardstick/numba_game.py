"""The yardstick's game as loops over plays, compiled by Numba."""

import math

import numba as nb
import numpy as np
from game import (
    BALL_RADIUS,
    BUNKER,
    CAPTURE_SPEED,
    CAPTURE_STEPS,
    CELL,
    ENOUGH,
    FEET_PER_YARD,
    FRICTION,
    FRINGE,
    GRASS,
    GRAVITY,
    GREEN,
    HOLE_RADIUS,
    LEAST_CARRY,
    LEAST_ROLL,
    LEAST_SWING,
    LIES,
    LONGEST_CHIP,
    LONGEST_FRINGE_PUTT,
    LONGEST_ROLL,
    LOW_HOP,
    METRES_PER_YARD,
    MISHIT,
    MISREAD_HALF,
    MIXED,
    MOST_HOPS,
    MOST_OF_ANGLE,
    MOST_TILT,
    OUT,
    PUTTABLE,
    ROLL_DECELERATION,
    ROUGH,
    STATION_STEP,
    STROKE_CAP,
    TEE,
    TILT,
    TURN,
    Game,
)

LIE_COUNT = len(LIES)
MOST_CROSSINGS = 64

# Inlined by Numba itself: across calls it would count references to every array, at half the speed.
inlined = nb.njit(error_model="numpy", fastmath=True, inline="always")
# Of numbers alone: LLVM inlines them by itself.
scalar = nb.njit(error_model="numpy", fastmath=True)


class NumbaGame:
    """The game prepared: flat arrays for compiled code."""

    def __init__(self, game: Game) -> None:
        """Flattens the tables; nothing is compiled yet."""
        p = game.patterns
        self._map = _flat_map(game)
        # One row a stroke and lie, so that a stroke reads neighbouring memory.
        single = [game.full_total, p.full_carry, p.flush, p.depth_floor, p.depth_slope, p.beyond, p.side_slope, p.bias]
        single += [p.correlation, p.run]
        triple = [p.share, p.carry, p.carry_sd, p.side, p.worst_run]
        strokes = np.ascontiguousarray(np.column_stack(single + triple))
        f = game.flights
        steps = f.full_carry / (f.totals.shape[1] - 1)
        roots = (f.landings.shape[1] - 1) / f.most_root / np.sqrt(f.carry)
        by_stroke = np.column_stack([steps, roots, f.home_slowing, f.aim_off])
        self._strokes = (strokes, by_stroke, np.stack([f.totals, f.green_totals]), np.ascontiguousarray(f.landings))
        t = game.turfs
        turfs = [t.give, t.clears, t.skip_loss, t.skip_end, t.slowing]
        self._turfs = (np.ascontiguousarray(np.column_stack(turfs)), float(t.slowing.min()), float(t.skip_loss.min()))
        self._choice = (
            game.clubs,
            game.distances,
            game.choices,
            game.counts,
            game.farthest,
            game.targets,
            game.target_on_green,
            game.too_little_club,
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
        scores = _play_all(
            plays, rngs, self._map, self._strokes, self._turfs, self._choice, self._putting, self._ground
        )
        return np.bincount(scores, minlength=STROKE_CAP + 1)


# Columns of the table of strokes and lies.
FULL_TOTAL, FULL_CARRY, FLUSH, DEPTH_FLOOR, DEPTH_SLOPE, BEYOND, SIDE_SLOPE, BIAS, CORRELATION, RUN = range(10)
# Of its last columns the first of three each: flush (of no use), duffed, thin.
SHARE, CARRY, CARRY_SD, SIDE, WORST_RUN = range(10, 25, 3)
# Of the table of strokes, and of that of surfaces.
STEP, ROOT, HOME_SLOWING, AIM_OFF = range(4)
GIVE, CLEARS, SKIP_LOSS, SKIP_END, SLOWING = range(5)


def _flat_map(game: Game) -> tuple[np.ndarray, ...]:
    """Surfaces, boxes, first edges, edges as (x0, y0, x1, y1, dx/dy), the topmost feature first; and the grid."""
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
    surfaces = np.array([f.surface for f in features], np.uint8)
    grid = game.grid
    return surfaces, boxes, np.array(starts), np.concatenate(edges), grid.surface, grid.clear, *grid.corner


@nb.njit(parallel=True, fastmath=True, error_model="numpy")
def _play_all(plays, rngs, ground_map, strokes, turfs, choice, putting, ground):
    scores = np.empty(plays, np.uint8)
    threads = len(rngs)
    for thread in nb.prange(threads):
        rng = rngs[thread]
        crossings = np.empty(MOST_CROSSINGS)
        for i in range(thread * plays // threads, (thread + 1) * plays // threads):
            scores[i] = _play(rng, crossings, ground_map, strokes, turfs, choice, putting, ground)
    return scores


@inlined
def _play(rng, crossings, ground_map, strokes, turfs, choice, putting, ground):
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
                rng, x, y, lie, distance, crossings, ground_map, strokes, turfs, choice, pin
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
def _swing(rng, x, y, lie, to_pin, crossings, ground_map, all_strokes, turfs, choice, pin):
    strokes, by_stroke, _, landings = all_strokes
    stroke, meant, way_x, way_y = _choose(x, y, lie, to_pin, ground_map, all_strokes, choice, pin)
    row = stroke * LIE_COUNT + lie
    meant = min(meant, strokes[row, FULL_CARRY])

    # The lower the luck within a kind of miss, the worse.
    luck = rng.random()
    duffs, thins = strokes[row, SHARE + 1], strokes[row, SHARE + 2]
    kind, severity = 0, 0.0
    if luck < duffs:
        kind, severity = 1, 1.0 - luck / duffs
    elif luck < duffs + thins:
        kind, severity = 2, 1.0 - (luck - duffs) / thins
    mishit = severity >= MISHIT
    depth, side = rng.standard_normal(), rng.standard_normal()
    flush = strokes[row, FLUSH] * meant
    sd = strokes[row, DEPTH_FLOOR] + strokes[row, DEPTH_SLOPE] * meant
    beyond = strokes[row, BEYOND]
    bent = 0.5 * ((1.0 + beyond) * depth - (1.0 - beyond) * (math.sqrt(depth * depth + TURN * TURN) - TURN))
    off = sd * bent
    correlation = strokes[row, CORRELATION]
    side = correlation * depth + math.sqrt(1.0 - correlation * correlation) * side
    side *= strokes[row, SIDE_SLOPE] * meant
    mean = flush
    if kind:
        worst = severity * severity
        mean *= 1.0 + worst * (strokes[row, CARRY + kind] - 1.0)
        off += worst * (strokes[row, CARRY_SD + kind] * flush * depth - off)
        side *= 1.0 + worst * (strokes[row, SIDE + kind] - 1.0)
    carry = max(mean + off, LEAST_CARRY * meant)
    lateral = strokes[row, BIAS] * meant + side

    # What is aimed over is held off by the usual miss.
    off = by_stroke[stroke, AIM_OFF]
    aim_x, aim_y = way_x - off * way_y, way_y + off * way_x
    length = math.hypot(aim_x, aim_y)
    forward_x, forward_y = aim_x / length, aim_y / length
    flown_x = forward_x * carry + forward_y * lateral
    flown_y = forward_y * carry - forward_x * lateral
    flown = math.hypot(flown_x, flown_y)
    along_x, along_y = flown_x / flown, flown_y / flown
    x, y = x + flown_x, y + flown_y
    surface = _surface(x, y, ground_map)
    if mishit:
        rolled = ((severity - MISHIT) / (1.0 - MISHIT)) ** 2
        run = flush * (strokes[row, RUN] + rolled * (strokes[row, WORST_RUN + kind] - strokes[row, RUN]))
        speed, skips = math.sqrt(2.0 * METRES_PER_YARD * by_stroke[stroke, HOME_SLOWING] * run), False
    else:
        at = min(math.sqrt(carry) * by_stroke[stroke, ROOT], landings.shape[1] - 1.0)
        k = min(int(at), landings.shape[1] - 2)
        u = at - k
        speed = landings[stroke, k, 0] + u * (landings[stroke, k + 1, 0] - landings[stroke, k, 0])
        down = landings[stroke, k, 1] + u * (landings[stroke, k + 1, 1] - landings[stroke, k, 1])
        spin = BALL_RADIUS * (landings[stroke, k, 2] + u * (landings[stroke, k + 1, 2] - landings[stroke, k, 2]))
        skips = False
        turf = turfs[0]
        # Speed along the way, speed downwards and rim speed of the backspin: on level ground a ball keeps its plane.
        for hops in range(MOST_HOPS + 1):
            slip = speed + spin
            if down * down < LOW_HOP and slip * slip < 0.01 * speed * speed:
                speed -= 2.0 / 7.0 * slip
                skips = True
                break
            speed, up, spin = _bounce(speed, down, spin, turf[surface, GIVE])
            if not (up > 0.0 and up * up > turf[surface, CLEARS]):
                speed -= 2.0 / 7.0 * (speed + spin)
                break
            if hops == MOST_HOPS:
                skips = True
                break
            moved = speed * up * (2.0 / GRAVITY / METRES_PER_YARD)
            x += along_x * moved
            y += along_y * moved
            down = up
            surface = _surface(x, y, ground_map)
        if speed < 0.0:
            along_x, along_y, speed = -along_x, -along_y, -speed
    return _roll(x, y, along_x, along_y, surface, speed, skips, crossings, ground_map, turfs, pin)


@scalar
def _bounce(speed, down, spin, give):
    """One blow: speed along, speed up and rim speed of the backspin after it."""
    level = abs(speed)
    fast = math.sqrt(speed * speed + down * down)
    # Arc tangent and sine by their series, as close as turf is known.
    x = level / (fast + down)
    s = x * x
    angle = 2.0 * x * (0.9998660 + s * (-0.3302995 + s * (0.1801410 + s * (-0.0851330 + s * 0.0208351))))
    tilt = min(angle * min(TILT * fast * give, MOST_OF_ANGLE), MOST_TILT)
    s = tilt * tilt
    sine = tilt * (1.0 - s / 6.0 * (1.0 - s / 20.0 * (1.0 - s / 42.0)))
    cosine = math.sqrt(1.0 - sine * sine)
    against = sine if speed < 0.0 else -sine
    into = down * cosine - speed * against
    along = speed * cosine + down * against
    restitution = 0.120 if into > 20.0 else 0.510 - into * (0.0375 - 0.000903 * into)
    slip = along + spin
    most = FRICTION * (1.0 + restitution) * into
    change = min(max(2.0 / 7.0 * slip, -most), most)
    along -= change
    away = restitution * into
    return along * cosine + away * against, away * cosine - along * against, spin - 2.5 * change


@inlined
def _carry_for(stroke, total, by_stroke, totals):
    """The carry to mean so that carry and run come to so much."""
    k = 1
    while k < totals.shape[1] - 1 and totals[stroke, k] < total:
        k += 1
    low, high = totals[stroke, k - 1], totals[stroke, k]
    return by_stroke[stroke, STEP] * (k - 1 + (total - low) / (high - low))


@inlined
def _choose(x, y, lie, to_pin, ground_map, all_strokes, choice, pin):
    """The stroke, the carry meant and the way to where it is to end."""
    _, by_stroke, totals, _ = all_strokes
    _, _, _, _, farthest, targets, target_on_green, too_little_club = choice
    if to_pin <= farthest[lie]:
        way_x, way_y, distance, on_green, short = pin[0] - x, pin[1] - y, to_pin, 1, too_little_club
    else:
        station = min(int(max(y, 0.0) / STATION_STEP + 0.5), targets.shape[1] - 1)
        way_x, way_y = targets[lie, station, 0] - x, targets[lie, station, 1] - y
        distance, on_green, short = math.hypot(way_x, way_y), target_on_green[lie, station], 0.0
    touch = _touch(x, y, lie, way_x, way_y, distance, ground_map, all_strokes, choice)
    if touch >= 0:
        return touch, _carry_for(touch, distance, by_stroke, totals[on_green]), way_x, way_y
    if short > 0.0:
        way_x, way_y, distance = (1.0 - short) * way_x, (1.0 - short) * way_y, (1.0 - short) * distance
        on_green = 1 if _surface(x + way_x, y + way_y, ground_map) == GREEN else 0
    club, carry = _club(lie, distance, on_green, all_strokes, choice)
    return club, carry, way_x, way_y


@inlined
def _club(lie, distance, on_green, all_strokes, choice):
    """The shortest club that gets so far, or very nearly, and the carry to mean with it."""
    strokes, by_stroke, totals, _ = all_strokes
    _, distances, choices, counts, _, _, _, _ = choice
    k = 0
    while k < counts[lie] - 1 and distances[lie, k] < distance / ENOUGH:
        k += 1
    while True:
        club = choices[lie, k]
        carry = _carry_for(club, distance, by_stroke, totals[on_green])
        if k == counts[lie] - 1 or carry <= ENOUGH * strokes[club * LIE_COUNT + lie, FULL_CARRY]:
            return club, carry
        k += 1


@inlined
def _touch(x, y, lie, way_x, way_y, distance, ground_map, all_strokes, choice):
    """The touch for a distance too short for most of a swing; -1 if a club is swung."""
    strokes = all_strokes[0]
    clubs, distances = choice[0], choice[1]
    chip, pitch, lob, bunker_shot = clubs, clubs + 1, clubs + 2, clubs + 3
    if lie == BUNKER:
        return bunker_shot if _covers(strokes, bunker_shot, lie, distance) else -1
    if lie == TEE or distance >= LEAST_SWING * distances[lie, 0] or not _covers(strokes, pitch, lie, distance):
        return -1
    near = distance <= LONGEST_CHIP
    chip_lands, pitch_lands, lob_lands = False, False, False
    # One after the other, so that the look-ups are compiled once.
    for touch in range(chip, bunker_shot):
        carry = _carry_for(touch, distance, all_strokes[1], all_strokes[2][0])
        own = strokes[touch * LIE_COUNT + lie]
        lands = True
        for shorter in range(2 if near else 1):
            share = (carry - shorter * (own[DEPTH_FLOOR] + own[DEPTH_SLOPE] * carry)) / distance
            lands &= _surface(x + share * way_x, y + share * way_y, ground_map) in PUTTABLE
        chip_lands |= lands and touch == chip
        pitch_lands |= lands and touch == pitch
        lob_lands |= lands and touch == lob
    if near and chip_lands and _covers(strokes, chip, lie, distance):
        return chip
    if lob_lands and not pitch_lands and lie in GRASS and _covers(strokes, lob, lie, distance):
        return lob
    return pitch


@inlined
def _covers(strokes, touch, lie, distance):
    return distance <= strokes[touch * LIE_COUNT + lie, FULL_TOTAL]


@inlined
def _roll(x, y, along_x, along_y, surface, speed, skips, crossings, ground_map, all_turfs, pin):
    """Rolls, or skips, the ball across the map, each surface slowing it; the last one is where it lies."""
    turfs, least_slowing, least_loss = all_turfs
    loss, ceases = turfs[surface, SKIP_LOSS], turfs[surface, SKIP_END]
    slowing = turfs[surface, SLOWING]
    length, after, skips_on = _slow(speed, skips, LONGEST_ROLL * METRES_PER_YARD, loss, ceases, slowing)
    yards = length / METRES_PER_YARD
    # In leaps from one clear cell to the next: most balls meet no edge of the map.
    leapt, clear = 0.0, 1.0
    while leapt < yards and clear > 0.0:
        clear = _clear(x + along_x * leapt, y + along_y * leapt, ground_map)
        leapt += clear
    if leapt >= yards:
        holed = surface == GREEN and _falls_in(x, y, along_x, along_y, yards, speed, skips, loss, ceases, slowing, pin)
        return holed, x + along_x * yards, y + along_y * yards, surface
    # Farther no ball goes: at each speed it loses the least that rolling or skipping takes.
    slow = min(speed, least_slowing / least_loss) if skips else 0.0
    farthest = slow / least_loss + (speed * speed - slow * slow) / (2.0 * least_slowing)
    farthest = min(1.001 * farthest / METRES_PER_YARD, LONGEST_ROLL)
    count = _crossings(x, y, x + along_x * farthest, y + along_y * farthest, crossings, ground_map)
    start = 0.0
    for k in range(count + 1):
        end = (crossings[k] if k < count else 1.0) * farthest
        if k:
            middle = 0.5 * (start + end)
            surface = _surface(x + along_x * middle, y + along_y * middle, ground_map)
            loss, ceases = turfs[surface, SKIP_LOSS], turfs[surface, SKIP_END]
            slowing = turfs[surface, SLOWING]
        most = (end - start) * METRES_PER_YARD
        length, after, skips_on = _slow(speed, skips, most, loss, ceases, slowing)
        yards = length / METRES_PER_YARD
        from_x, from_y = x + along_x * start, y + along_y * start
        if surface == GREEN and _falls_in(
            from_x, from_y, along_x, along_y, yards, speed, skips, loss, ceases, slowing, pin
        ):
            return True, x, y, surface
        if after == 0.0:
            return False, x + along_x * (start + yards), y + along_y * (start + yards), surface
        start, speed, skips = end, after, skips_on
    return False, x + along_x * farthest, y + along_y * farthest, surface


@scalar
def _slow(speed, skips, most, loss, end, slowing):
    """The metres a ball goes over one surface, `most` at most, its speed after them, and whether it still skips."""
    length = 0.0
    if skips and speed > end:
        length = (speed - end) / loss
        if length > most:
            return most, speed - loss * most, True
        speed = end
    stop = length + speed * speed / (2.0 * slowing)
    if stop <= most:
        return stop, 0.0, False
    return most, math.sqrt(max(speed * speed - 2.0 * slowing * (most - length), 0.0)), False


@inlined
def _crossings(x0, y0, x1, y1, crossings, ground_map):
    """Shares of a path at which it crosses an edge of the map, in order; returns how many."""
    _, boxes, starts, edges, _, _, _, _ = ground_map
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
def _falls_in(x, y, along_x, along_y, reach, speed, skips, loss, ceases, slowing, pin):
    to_x, to_y = pin[0] - x, pin[1] - y
    ahead = to_x * along_x + to_y * along_y
    offset = abs(to_x * along_y - to_y * along_x)
    if not (0.0 < ahead <= reach) or offset >= HOLE_RADIUS:
        return False
    _, there, _ = _slow(speed, skips, ahead * METRES_PER_YARD, loss, ceases, slowing)
    return there <= _capture(offset) * METRES_PER_YARD


@inlined
def _clear(x, y, ground_map):
    """Yards that no edge of the map is nearer than."""
    _, _, _, _, _, clear, corner_x, corner_y = ground_map
    column, row = int((x - corner_x) * (1.0 / CELL)), int((y - corner_y) * (1.0 / CELL))
    if x >= corner_x and y >= corner_y and row < clear.shape[0] and column < clear.shape[1]:
        return clear[row, column]
    return 0.0


@inlined
def _surface(x, y, ground_map):
    """What lies on top; near edges the first feature whose edges a ray to the right crosses an odd number of times."""
    surfaces, boxes, starts, edges, cells, _, corner_x, corner_y = ground_map
    column, row = int((x - corner_x) * (1.0 / CELL)), int((y - corner_y) * (1.0 / CELL))
    if not (x >= corner_x and y >= corner_y and row < cells.shape[0] and column < cells.shape[1]):
        return np.uint8(ROUGH)
    if cells[row, column] != MIXED:
        return cells[row, column]
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
    return np.uint8(ROUGH)
