"""What the page and the card say: shots, conditions and expectations in sentences."""

from __future__ import annotations

import json
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from wideberth import _wideberth as core
from wideberth._table import Column

#: An aim within this many yards of the line of play is on it.
_ON_IT = 0.75

CAUTIONS = (
    "These are model estimates for learning, made of averages that need not be yours: neither rulings nor guarantees. "
    "The Rules of Golf, the Committee, local rules and a qualified professional decide. Advice tools may be barred in "
    "competition (Rule 4.3).",
    "Model figures assume a clear course. Never play over people, roads, houses or traffic. Wait until the group ahead "
    "is out of range, make sure that nobody stands near your swing, and shout “fore” at once if a ball may hit "
    "someone.",
    "From under trees a ball comes back: take the safe line or a drop.",
    "At a sign of lightning stop, away from trees, poles and open high ground.",
)


def cautions(hole: core.Hole) -> tuple[str, ...]:
    """What to mind on any hole, and who and what is near this one as far as its map tells."""
    return CAUTIONS + tuple(f"{caution[:1].upper()}{caution[1:]}: never play over it." for caution in hole.cautions)


NOT_MODELLED = (
    "Gusts, grain and moisture: the wind is steady, and all turf of a kind is alike.",
    "Hills in the way: a ball comes down where its path meets the ground at the landing.",
    "Nerves and learning: every stroke is drawn from the same patterns.",
)


@dataclass(frozen=True)
class Told:
    """An instruction taken apart."""

    #: "shot", "leave", "advance", "at_pin" or "carry".
    kind: str
    #: The club of a shot.
    club: str | None = None
    #: Yards to leave or to advance.
    yards: float | None = None


def instruction(given: core.Instruction) -> Told:
    """What an instruction says."""
    kind, fields = next(iter(json.loads(given.to_json()).items()))
    return Told(kind, fields.get("club"), fields.get("yards"))


def share(of: float) -> str:
    """A share in whole percent: no nought and no hundred that it is not."""
    whole = f"{100 * of:.0f} %"
    if whole == "0 %" and of > 0:
        return "<1 %"
    return ">99 %" if whole == "100 %" and of < 1 else whole


def player(who: core.Player) -> str:
    """Who plays, in a few words."""
    handicap = "" if who.handicap is None else f"handicap {who.handicap:g}"
    if handicap and handicap in who.name:
        return f"a player of {who.name}"
    if not handicap:
        return who.name
    return f"{who.name} ({handicap})"


def on_the_card(hole: core.Hole) -> str:
    """Number, par, length and stroke index."""
    parts = [f"No. {hole.number}"] if hole.number is not None else []
    parts += [f"par {hole.par}", f"{hole.length:.0f} yd"]
    parts += [f"stroke index {hole.stroke_index}"] if hole.stroke_index is not None else []
    return ", ".join(parts)


def day(hole: core.Hole) -> str:
    """The conditions of the day, in a sentence."""
    c = hole.conditions
    wind = "still air" if c.wind.mph == 0 else f"wind of {c.wind.mph:g} mph from {c.wind.from_deg:g}°"
    firm = c.firmness if isinstance(c.firmness, str) else f"of firmness {c.firmness:g}"
    speed = hole.green_speed if c.green_speed is None else c.green_speed
    sentence = f"{wind[0].upper()}{wind[1:]}, {firm} ground, green speed {speed:g} ft, {c.temperature_f:g} °F, "
    sentence += "sea level" if c.altitude_ft == 0 else f"{c.altitude_ft:,.0f} ft above the sea"
    if c.hole_diameter_in != 4.25:
        sentence += f", a hole {c.hole_diameter_in:g} in wide"
    return f"{sentence}."


def from_the_line(hole: core.Hole, point: tuple[float, float]) -> str:
    """How far a place lies to the side of the line of play, as a coach tells it."""
    right = sideways(hole.line_of_play, np.array([point]))[0]
    if abs(right) < _ON_IT:
        return "on the line of play"
    return f"{abs(right):.0f} {'right' if right > 0 else 'left'} of the line of play"


def sideways(line: Column, points: Column) -> Column:
    """Yards to the right of the nearest part of a line."""
    best, right = np.full(len(points), np.inf), np.zeros(len(points))
    for a, b in pairwise(line):
        way = (b - a) / np.hypot(*(b - a))
        off = points - a
        along = np.clip(off @ way, 0.0, np.hypot(*(b - a)))
        apart = np.hypot(*(off - along[:, None] * way).T)
        nearer = apart < best
        right[nearer] = (off @ np.array([way[1], -way[0]]))[nearer]
        best[nearer] = apart[nearer]
    return right


def most_played(strokes: dict[str, Column], stroke: int) -> tuple[str, float] | None:
    """The club played most often for a stroke, and in what share of the plays that had that stroke."""
    mine = strokes["club"][strokes["stroke"] == stroke]
    if not len(mine):
        return None
    clubs, counts = np.unique(mine, return_counts=True)
    place = int(counts.argmax())
    return str(clubs[place]), float(counts[place] / len(mine))


def bands(who: core.Player) -> dict[str, dict[str, float]]:
    """For each club, the figures of ``Player.table``."""
    columns = who.table().columns()
    names = [name for name in columns if name != "club"]
    return {str(club): {n: float(columns[n][i]) for n in names} for i, club in enumerate(columns["club"])}


def aside(band: dict[str, float]) -> str:
    """Within what width two thirds finish, seen from the aim."""
    left, right = -band["left_end"], band["right_end"]
    if abs(left - right) < 1.5:
        return f"{max(left, right):.0f} yd of the aim line"
    return f"{_side(-left)} to {_side(right)} of the aim line"


def _side(right: float) -> str:
    return f"{abs(right):.0f} yd {'right' if right > 0 else 'left'}"


ORDINALS = ("Tee shot", "2nd stroke", "3rd stroke", "4th stroke")


def good_enough(who: core.Player, par: int, strokes: dict[str, Column]) -> list[tuple[str, str, str]]:
    """For each stroke to the green of a plan: which, with which club mostly, and what is good enough."""
    table, rows = bands(who), []
    for stroke in range(1, max(par - 1, 2)):
        played = most_played(strokes, stroke)
        if played is None or played[0] not in table:
            continue
        club, share = played
        band = table[club]
        told = f"within {aside(band)}, {band['short_end']:.0f} to {band['long_end']:.0f} yd long"
        how = club if share > 0.995 else f"{club} ({100 * share:.0f} % of plays)"
        rows.append((ORDINALS[stroke - 1], how, told))
    return rows


def feet(value: float) -> str:
    """A distance in feet with as many digits as it deserves."""
    return f"{value:.1f} ft" if value < 10 else f"{value:.0f} ft"
