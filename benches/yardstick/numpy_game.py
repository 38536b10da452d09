"""The yardstick's game as whole-array operations: NumPy, with Shapely to tell what lies under a ball."""

import numpy as np
import shapely
from game import (
    BALL_RADIUS,
    BUNKER,
    CAPTURE,
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

# Plays taken together: enough to make calls cheap, few enough for the arrays to stay in the cache.
BLOCK = 32768
# Leaps in which it is looked whether a ball can meet an edge of the map before its path is cut at all of them.
MOST_LEAPS = 6


class NumpyGame:
    """The game prepared: polygons made ready for many questions, tables flattened."""

    def __init__(self, game: Game) -> None:
        """Prepares the map and the tables."""
        self._game = game
        self._pin_x, self._pin_y = game.pin
        self._layers = [_Layer(f.surface, f.outline) for f in reversed(game.features)]
        p = game.patterns
        self._p = p
        f = game.flights
        self._step = f.full_carry / (f.totals.shape[1] - 1)
        self._totals = np.concatenate([f.totals, f.green_totals])
        self._root = (f.landings.shape[1] - 1) / f.most_root / np.sqrt(f.carry)
        self._landings = np.ascontiguousarray(f.landings.reshape(-1, 3).T)
        self._places = f.landings.shape[1]
        t = game.turfs
        self._give, self._skip_loss, self._skip_end, self._slowing = t.give, t.skip_loss, t.skip_end, t.slowing
        self._least_slowing, self._least_loss = t.slowing.min(), t.skip_loss.min()
        self._cells, self._clears = game.grid.surface.ravel(), game.grid.clear.ravel()
        self._independence = np.sqrt(1.0 - p.correlation**2)
        putting = game.putting
        self._direction = np.radians(putting["direction_deg"])
        self._misread = np.radians(putting["misread_deg"])
        self._pace = putting["pace"]
        self._past = putting["past_ft"] / FEET_PER_YARD
        self._capture_at = CAPTURE[:, 0] / 1000.0 / METRES_PER_YARD
        self._capture_speed = CAPTURE[:, 1] / METRES_PER_YARD

    def play(self, plays: int, seed: int) -> np.ndarray:
        """Counts of scores 0 to 60 over `plays` plays."""
        rng = np.random.Generator(np.random.SFC64(seed))
        counts = np.zeros(STROKE_CAP + 1, np.int64)
        for start in range(0, plays, BLOCK):
            counts += self._play_block(min(BLOCK, plays - start), rng)
        return counts

    def _play_block(self, plays: int, rng: np.random.Generator) -> np.ndarray:
        """All plays of a block stroke by stroke; the holed ones drop out."""
        counts = np.zeros(STROKE_CAP + 1, np.int64)
        x, y = np.full(plays, self._game.tee[0]), np.full(plays, self._game.tee[1])
        lie, score = np.full(plays, TEE), np.zeros(plays, np.int64)
        while x.size:
            score += 1
            to_pin = np.hypot(self._pin_x - x, self._pin_y - y)
            putts = (lie == GREEN) | ((lie == FRINGE) & (to_pin <= LONGEST_FRINGE_PUTT))
            to_x, to_y, surface = x.copy(), y.copy(), lie.copy()
            holed = np.zeros(x.size, bool)
            for which, stroke in ((np.flatnonzero(putts), self._putt), (np.flatnonzero(~putts), self._swing)):
                if which.size:
                    to_x[which], to_y[which], surface[which], holed[which] = stroke(
                        x[which], y[which], lie[which], to_pin[which], rng
                    )
            # Stroke and distance: the ball stays where it was, for a penalty stroke.
            out = surface == OUT
            score += out
            x, y, lie = np.where(out, x, to_x), np.where(out, y, to_y), np.where(out, lie, surface)
            ended = holed | (score >= STROKE_CAP)
            counts += np.bincount(np.minimum(score[ended], STROKE_CAP), minlength=STROKE_CAP + 1)
            going = np.flatnonzero(~ended)
            x, y, lie, score = x[going], y[going], lie[going], score[going]
        return counts

    def _putt(self, x, y, lie, distance, rng):
        angle = rng.standard_normal(x.size)
        angle *= self._direction + self._misread * distance / (distance + MISREAD_HALF)
        square = angle * angle
        sine = angle * (1.0 - square * (1.0 / 6.0) * (1.0 - square * (1.0 / 20.0)))
        cosine = 1.0 - 0.5 * square * (1.0 - square * (1.0 / 12.0))
        pace = np.maximum(1.0 + self._pace * rng.standard_normal(x.size), LEAST_ROLL)
        roll = pace * (distance + self._past)
        offset = np.abs(distance * sine)
        met = np.flatnonzero((offset < HOLE_RADIUS) & (cosine > 0.0))
        offset = offset[met]
        left = roll[met] - distance[met] * cosine[met] + np.sqrt(HOLE_RADIUS**2 - offset**2)
        holed = np.zeros(x.size, bool)
        holed[met] = (left >= 0.0) & self._drops(left, offset)

        surface = np.full(x.size, GREEN)
        missed = np.flatnonzero(~holed)
        along, right = roll * cosine / distance, roll * sine / distance
        ahead_x, ahead_y = self._pin_x - x, self._pin_y - y
        to_x, to_y = x + ahead_x * along + ahead_y * right, y + ahead_y * along - ahead_x * right
        surface[missed] = self._surface(to_x[missed], to_y[missed])
        return to_x, to_y, surface, holed

    def _drops(self, left, offset):
        """Where a ball drops that would roll `left` past the hole on a path `offset` off its middle."""
        most = np.interp(offset, self._capture_at, self._capture_speed)
        return 2.0 * ROLL_DECELERATION * left <= most * most * self._game.green_speed

    def _swing(self, x, y, lie, to_pin, rng):
        p = self._p
        stroke, meant, way_x, way_y = self._choose(x, y, lie, to_pin)
        row = stroke * len(LIES) + lie
        meant = np.minimum(meant, p.full_carry[row])

        luck = rng.random(x.size)
        duffs, thins = p.share[row, 1], p.share[row, 2]
        # 0 flush, 1 duffed, 2 thin; the lower the luck within a kind of miss, the worse.
        kind = np.where(luck < duffs, 1, np.where(luck < duffs + thins, 2, 0))
        missed = np.flatnonzero(kind)
        into = luck[missed] - np.where(kind[missed] == 2, duffs[missed], 0.0)
        severity = np.zeros(x.size)
        severity[missed] = 1.0 - into / p.share[row[missed], kind[missed]]
        depth, side = rng.standard_normal(x.size), rng.standard_normal(x.size)
        flush = p.flush[row] * meant
        hollow = np.sqrt(depth * depth + TURN * TURN) - TURN
        beyond = p.beyond[row]
        off = (p.depth_floor[row] + p.depth_slope[row] * meant) * 0.5
        off *= (1.0 + beyond) * depth - (1.0 - beyond) * hollow
        side = p.side_slope[row] * meant * (p.correlation[row] * depth + self._independence[row] * side)
        mean = flush.copy()
        which, worst, of = (row[missed], kind[missed]), severity[missed] ** 2, flush[missed]
        mean[missed] *= 1.0 + worst * (p.carry[which] - 1.0)
        off[missed] += worst * (p.carry_sd[which] * of * depth[missed] - off[missed])
        side[missed] *= 1.0 + worst * (p.side[which] - 1.0)
        carry = np.maximum(mean + off, LEAST_CARRY * meant)
        lateral = p.bias[row] * meant + side

        # What is aimed over is held off by the usual miss.
        off = self._game.flights.aim_off[stroke]
        aim_x, aim_y = way_x - off * way_y, way_y + off * way_x
        length = np.hypot(aim_x, aim_y)
        forward_x, forward_y = aim_x / length, aim_y / length
        flown_x, flown_y = forward_x * carry + forward_y * lateral, forward_y * carry - forward_x * lateral
        flown = np.hypot(flown_x, flown_y)
        x, y, along_x, along_y = x + flown_x, y + flown_y, flown_x / flown, flown_y / flown
        surface = self._surface(x, y)
        # What a ball does that was not struck solidly is told by how far it runs.
        mishit = severity >= MISHIT
        rolled = np.where(mishit, (severity - MISHIT) / (1.0 - MISHIT), 0.0) ** 2
        run = flush * (p.run[row] + rolled * (p.worst_run[row, kind] - p.run[row]))
        speed = np.sqrt(2.0 * METRES_PER_YARD * self._game.flights.home_slowing[stroke] * run)
        skips = np.zeros(x.size, bool)
        solid = np.flatnonzero(~mishit)
        self._hop(solid, x, y, along_x, along_y, surface, speed, skips, stroke, carry)
        back = np.where(speed < 0.0, -1.0, 1.0)
        return self._roll(x, y, along_x * back, along_y * back, surface, np.abs(speed), skips)

    def _carry_for(self, stroke, total, on_green):
        """The carry to mean so that carry and run, on the green or elsewhere, come to so much."""
        totals = self._totals
        row = stroke + on_green * self._step.size
        k = (totals[:, 1:-1].T[:, row] < total).sum(axis=0)
        low, high = totals[row, k], totals[row, k + 1]
        return self._step[stroke] * (k + (total - low) / (high - low))

    def _hop(self, balls, x, y, along_x, along_y, surface, speed, skips, stroke, carry):
        """Lets balls come down and hop until they roll or skip; changes the arrays in place.

        Speeds are along the way and down, and that of the rim of the backspin: on level ground a ball keeps its plane.
        """
        clears = self._game.turfs.clears
        at = np.minimum(np.sqrt(carry[balls]) * self._root[stroke[balls]], self._places - 1.0)
        k = np.minimum(at.astype(np.int64), self._places - 2)
        at -= k
        k += stroke[balls] * self._places
        here, next_ = self._landings[:, k], self._landings[:, k + 1]
        along, down, spin = here + at * (next_ - here)
        spin *= BALL_RADIUS
        for hops in range(MOST_HOPS + 1):
            slip = along + spin
            skipping = (down * down < LOW_HOP) & (slip * slip < 0.01 * along * along)
            if skipping.any():
                which = np.flatnonzero(skipping)
                speed[balls[which]] = along[which] - 2.0 / 7.0 * slip[which]
                skips[balls[which]] = True
                on = np.flatnonzero(~skipping)
                balls, along, down, spin = balls[on], along[on], down[on], spin[on]
            under = surface[balls]
            along, up, spin = _bounce(along, down, spin, self._give[under])
            rises = (up > 0.0) & (up * up > clears[under])
            which = np.flatnonzero(~rises)
            speed[balls[which]] = along[which] - 2.0 / 7.0 * (along[which] + spin[which])
            on = np.flatnonzero(rises)
            balls, along, down, spin = balls[on], along[on], up[on], spin[on]
            if hops == MOST_HOPS:
                speed[balls], skips[balls] = along, True
            if not balls.size or hops == MOST_HOPS:
                return
            moved = along * down * (2.0 / GRAVITY / METRES_PER_YARD)
            to_x, to_y = x[balls] + along_x[balls] * moved, y[balls] + along_y[balls] * moved
            x[balls], y[balls] = to_x, to_y
            surface[balls] = self._surface(to_x, to_y)

    def _choose(self, x, y, lie, to_pin):
        """The stroke, the carry meant and the way to where it is to end."""
        game, (way_x, way_y, distance) = self._game, self._aim(x, y, lie, to_pin)
        at_pin = to_pin <= game.farthest[lie]
        station = self._station(y)
        on_green = np.where(at_pin, 1, game.target_on_green[lie, station])
        stroke = self._touch(x, y, lie, way_x, way_y, distance)
        touches, swings = np.flatnonzero(stroke >= 0), np.flatnonzero(stroke < 0)
        carry = np.empty(x.size)
        carry[touches] = self._carry_for(stroke[touches], distance[touches], on_green[touches])
        # A swing at the pin is chosen for a shorter way.
        which = np.flatnonzero((stroke < 0) & at_pin)
        for way in (way_x, way_y, distance):
            way[which] *= 1.0 - game.too_little_club
        on_green[which] = self._surface(x[which] + way_x[which], y[which] + way_y[which]) == GREEN
        stroke[swings], carry[swings] = self._club(lie[swings], distance[swings], on_green[swings])
        return stroke, carry, way_x, way_y

    def _aim(self, x, y, lie, to_pin):
        """The way to the pin where it can be reached, else to the target of the nearest station; and its length."""
        targets = self._game.targets[lie, self._station(y)]
        reached = to_pin <= self._game.farthest[lie]
        way_x = np.where(reached, self._pin_x, targets[:, 0]) - x
        way_y = np.where(reached, self._pin_y, targets[:, 1]) - y
        return way_x, way_y, np.hypot(way_x, way_y)

    def _station(self, y):
        last = self._game.targets.shape[1] - 1
        return np.minimum((np.maximum(y, 0.0) / STATION_STEP + 0.5).astype(np.int64), last)

    def _club(self, lie, distance, on_green):
        """The shortest club that gets so far, or very nearly, and the carry to mean with it."""
        game = self._game
        last = game.counts[lie] - 1
        k = np.minimum((game.distances[lie] < (distance / ENOUGH)[:, None]).sum(axis=1), last)
        club = game.choices[lie, k]
        carry = self._carry_for(club, distance, on_green)
        while True:
            full = self._p.full_carry[club * len(LIES) + lie]
            longer = np.flatnonzero((carry > ENOUGH * full) & (k < last))
            if not longer.size:
                return club, carry
            k[longer] += 1
            club[longer] = game.choices[lie[longer], k[longer]]
            carry[longer] = self._carry_for(club[longer], distance[longer], on_green[longer])

    def _touch(self, x, y, lie, way_x, way_y, distance):
        """The touches for distances too short for most of a swing; -1 where a club is swung."""
        game = self._game
        chip, pitch, lob, bunker_shot = (game.clubs + touch for touch in range(4))
        stroke = np.full(x.size, -1)

        def covers(balls, touch):
            return distance[balls] <= game.full_total[touch * len(LIES) + lie[balls]]

        near = distance <= LONGEST_CHIP

        def lands_on_mown(balls, touch):
            of = distance[balls]
            carry = self._carry_for(np.full(balls.size, touch), of, np.zeros(balls.size, np.int64))
            own = touch * len(LIES) + lie[balls]
            spare = np.where(near[balls], self._p.depth_floor[own] + self._p.depth_slope[own] * carry, 0.0)
            lands = np.ones(balls.size, bool)
            for share in (carry / of, (carry - spare) / of):
                landing = self._surface(x[balls] + share * way_x[balls], y[balls] + share * way_y[balls])
                lands &= _one_of(landing, PUTTABLE)
            return lands

        sand = np.flatnonzero(lie == BUNKER)
        stroke[sand[covers(sand, bunker_shot)]] = bunker_shot
        short = np.flatnonzero((lie != BUNKER) & (lie != TEE) & (distance < LEAST_SWING * game.distances[lie, 0]))
        short = short[covers(short, pitch)]
        stroke[short] = pitch
        chips = short[near[short] & covers(short, chip)]
        stroke[chips[lands_on_mown(chips, chip)]] = chip
        lobs = short[(stroke[short] == pitch) & _one_of(lie[short], GRASS) & covers(short, lob)]
        lobs = lobs[~lands_on_mown(lobs, pitch)]
        stroke[lobs[lands_on_mown(lobs, lob)]] = lob
        return stroke

    def _roll(self, x, y, along_x, along_y, surface, speed, skips):
        """Rolls, or skips, balls across the map, each surface slowing them."""
        length, _, _ = self._slow(speed, skips, LONGEST_ROLL * METRES_PER_YARD, surface)
        rolled = length / METRES_PER_YARD
        holed = np.zeros(x.size, bool)
        stays = self._stays(x, y, along_x, along_y, rolled)
        green = np.flatnonzero(stays & (surface == GREEN))
        holed[green] = self._falls_in(
            x[green],
            y[green],
            along_x[green],
            along_y[green],
            rolled[green],
            speed[green],
            skips[green],
            surface[green],
        )
        balls = np.flatnonzero(~stays)
        if balls.size:
            rolled[balls], surface[balls], holed[balls] = self._roll_across(
                x[balls],
                y[balls],
                along_x[balls],
                along_y[balls],
                surface[balls],
                speed[balls],
                skips[balls],
            )
        return x + along_x * rolled, y + along_y * rolled, surface, holed

    def _roll_across(self, x, y, along_x, along_y, surface, speed, skips):
        """The same for balls that may meet edges: their paths are cut there. How far, on to what, and whether holed."""
        # Farther no ball goes: at each speed it loses the least that rolling or skipping takes.
        loss = self._least_loss
        slow = np.where(skips, np.minimum(speed, self._least_slowing / loss), 0.0)
        run = slow / loss + (speed * speed - slow * slow) / (2.0 * self._least_slowing)
        run = np.minimum(1.001 * run / METRES_PER_YARD, LONGEST_ROLL)
        ends, crossings = self._crossings(x, y, along_x * run, along_y * run)
        ends *= run[:, None]
        holed = np.zeros(x.size, bool)
        start, rolled = np.zeros(x.size), run.copy()
        # All balls still running, one piece of their paths after another.
        going = np.arange(x.size)
        for k in range(ends.shape[1] + 1):
            from_, end = start[going], run[going]
            if k < ends.shape[1]:
                end = np.where(k < crossings[going], ends[going, k], end)
            if k:
                middle = 0.5 * (from_ + end)
                at_x, at_y = x[going] + along_x[going] * middle, y[going] + along_y[going] * middle
                surface[going] = self._surface(at_x, at_y)
            turf = surface[going]
            fast, hops = speed[going], skips[going]
            length, after, hops_on = self._slow(fast, hops, (end - from_) * METRES_PER_YARD, turf)
            reach = length / METRES_PER_YARD
            on_green = np.flatnonzero(surface[going] == GREEN)
            balls = going[on_green]
            holed[balls] = self._falls_in(
                x[balls] + along_x[balls] * from_[on_green],
                y[balls] + along_y[balls] * from_[on_green],
                along_x[balls],
                along_y[balls],
                reach[on_green],
                fast[on_green],
                hops[on_green],
                turf[on_green],
            )
            rolled[going] = from_ + reach
            start[going], speed[going], skips[going] = end, after, hops_on
            going = going[(after > 0.0) & (k < crossings[going]) & ~holed[going]]
            if not going.size:
                break
        return rolled, surface, holed

    def _slow(self, speed, skips, most, turf):
        """The metres balls go over one surface, `most` at most, their speeds after them, and whether they skip on."""
        loss, end = self._skip_loss[turf], self._skip_end[turf]
        slowing = self._slowing[turf]
        skips = skips & (speed > end)
        skipped = np.where(skips, np.minimum((speed - end) / loss, most), 0.0)
        speed = speed - loss * skipped
        skips = skips & (skipped >= most)
        stop = speed * speed / (2.0 * slowing)
        left = np.where(skips, 0.0, most - skipped)
        after = np.sqrt(np.maximum(speed * speed - 2.0 * slowing * left, 0.0))
        return skipped + np.minimum(stop, left), after, skips

    def _crossings(self, x, y, dx, dy):
        """The shares of each path at which it crosses edges, in order along the row, and how many."""
        low_x, high_x = np.minimum(x, x + dx), np.maximum(x, x + dx)
        low_y, high_y = np.minimum(y, y + dy), np.maximum(y, y + dy)
        paths, shares = [], []
        for layer in self._layers:
            left, bottom, right, top = layer.box
            near = np.flatnonzero((high_x >= left) & (low_x <= right) & (high_y >= bottom) & (low_y <= top))
            path, share = layer.crossings(x[near], y[near], dx[near], dy[near])
            paths.append(near[path])
            shares.append(share)
        path, share = np.concatenate(paths), np.concatenate(shares)
        count = np.bincount(path, minlength=x.size)
        order = np.lexsort((share, path))
        rank = np.arange(path.size) - np.repeat(np.cumsum(count) - count, count)
        table = np.zeros((x.size, int(count.max(initial=0))))
        table[path[order], rank] = share[order]
        return table, count

    def _falls_in(self, x, y, along_x, along_y, reach, speed, skips, turf):
        to_x, to_y = self._pin_x - x, self._pin_y - y
        ahead = to_x * along_x + to_y * along_y
        offset = np.abs(to_x * along_y - to_y * along_x)
        holed = (ahead > 0.0) & (ahead <= reach) & (offset < HOLE_RADIUS)
        met = np.flatnonzero(holed)
        if met.size:
            _, there, _ = self._slow(speed[met], skips[met], ahead[met] * METRES_PER_YARD, turf[met])
            most = np.interp(offset[met], self._capture_at, self._capture_speed)
            holed[met] = there <= most * METRES_PER_YARD
        return holed

    def _cell(self, x, y):
        """The cell of each point, and 0, where edges are far, for points outside the grid."""
        (low_x, low_y), (rows, columns) = self._game.grid.corner, self._game.grid.surface.shape
        column, row = np.floor((x - low_x) * (1.0 / CELL)), np.floor((y - low_y) * (1.0 / CELL))
        within = (column >= 0.0) & (row >= 0.0) & (column < columns) & (row < rows)
        return np.where(within, row * columns + column, 0.0).astype(np.int64), within

    def _stays(self, x, y, along_x, along_y, yards):
        """Where no edge of the map can be met on the way, seen in leaps from one clear cell to the next."""
        stays = np.zeros(x.size, bool)
        going, leapt = np.arange(x.size), np.zeros(x.size)
        for _ in range(MOST_LEAPS):
            cell, within = self._cell(x[going] + along_x[going] * leapt, y[going] + along_y[going] * leapt)
            clear = np.where(within, self._clears[cell], 0.0)
            leapt = leapt + clear
            there = leapt >= yards[going]
            stays[going[there]] = True
            on = np.flatnonzero(~there & (clear > 0.0))
            going, leapt = going[on], leapt[on]
            if not going.size:
                break
        return stays

    def _surface(self, x, y):
        """The surface on top: by the grid, and where edges are near the topmost features asked first."""
        cell, _ = self._cell(x, y)
        surface = self._cells[cell].astype(np.int64)
        mixed = np.flatnonzero(surface == MIXED)
        if mixed.size:
            surface[mixed] = self._top(x[mixed], y[mixed])
        return surface

    def _top(self, x, y):
        surface = np.full(x.size, ROUGH)
        open_ = np.ones(x.size, bool)
        for layer in self._layers:
            left, bottom, right, top = layer.box
            near = np.flatnonzero(open_ & (x >= left) & (x <= right) & (y >= bottom) & (y <= top))
            if near.size:
                inside = near[shapely.contains_xy(layer.polygon, x[near], y[near])]
                surface[inside] = layer.surface
                open_[inside] = False
        return surface


def _one_of(values, few):
    """Where a value is one of a few."""
    found = values == few[0]
    for value in few[1:]:
        found |= values == value
    return found


def _bounce(speed, down, spin, give):
    """One blow each: speed along, speed up and rim speed of the backspin after it."""
    fast = np.sqrt(speed * speed + down * down)
    angle = np.arctan2(np.abs(speed), down)
    tilt = np.minimum(angle * np.minimum(TILT * fast * give, MOST_OF_ANGLE), MOST_TILT)
    against = -np.copysign(np.sin(tilt), speed)
    cosine = np.sqrt(1.0 - against * against)
    into = down * cosine - speed * against
    along = speed * cosine + down * against
    restitution = np.where(into > 20.0, 0.120, 0.510 - into * (0.0375 - 0.000903 * into))
    most = FRICTION * (1.0 + restitution) * into
    change = np.clip(2.0 / 7.0 * (along + spin), -most, most)
    along -= change
    away = restitution * into
    return along * cosine + away * against, away * cosine - along * against, spin - 2.5 * change


class _Layer:
    """A feature made ready."""

    def __init__(self, surface: int, outline: np.ndarray) -> None:
        self.surface = surface
        self.polygon = shapely.Polygon(outline)
        shapely.prepare(self.polygon)
        self.box = (*outline.min(axis=0), *outline.max(axis=0))
        self._ring = np.vstack([outline, outline[:1]])
        self._edges = np.diff(self._ring, axis=0)
        self._turned = np.vstack([self._ring[:, 1], -self._ring[:, 0]])

    def crossings(self, x, y, dx, dy):
        """The paths that cross the outline, and at which share of their length; one entry a crossing."""
        # On which side of the path each vertex lies: an edge whose ends differ crosses its line.
        above = np.column_stack([dx, dy]) @ self._turned > (dx * y - dy * x)[:, None]
        path, edge = np.divmod(np.flatnonzero(above[:, 1:] != above[:, :-1]), len(self._edges))
        to_x, to_y = (self._ring[edge] - np.column_stack([x, y])[path]).T
        edge_x, edge_y = self._edges[edge].T
        share = (to_x * edge_y - to_y * edge_x) / (dx[path] * edge_y - dy[path] * edge_x)
        on = (share > 0.0) & (share < 1.0)
        return path[on], share[on]
