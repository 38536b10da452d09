"""The usual way of the ball under a plan, as the core reads it off plays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from wideberth import _wideberth as core

Xy = tuple[float, float]

#: Most of what lies in the way of one stroke that is told, nearest first.
_MOST = 6


@dataclass(frozen=True)
class InTheWay:
    """A bunker or penalty area that a stroke may find."""

    #: Its place in ``Hole.features``.
    number: int
    feature: core.Feature
    #: "left" or "right" of the aim; None where the aim leads over it.
    side: str | None
    #: Yards to where it begins and to where it ends.
    reach: float
    carry: float

    @property
    def words(self) -> str:
        """What it is, and on which side."""
        kind = "bunker" if self.feature.surface == "bunker" else "penalty area"
        return f"{self.feature.name or kind}, {self.side or 'across'}"

    @property
    def yards(self) -> str:
        """The yards that reach it and those that carry it."""
        return f"{self.reach:.0f} – {self.carry:.0f}"


@dataclass(frozen=True)
class Leg:
    """A stroke of the usual way: what is played, and the medians of where from and at what."""

    stroke: str
    start: Xy
    aim: Xy
    in_the_way: list[InTheWay]
    #: Yards from where it is played to the pin; where that is, in words.
    to_pin: float
    where: str


@dataclass(frozen=True)
class UsualWay:
    """What usually becomes of a plan."""

    #: The strokes to the green, in their order.
    legs: list[Leg]
    #: Yards to the pin from where the second stroke is played.
    left: float
    #: How much more a tee shot missed far to the right costs than one missed far to the left, strokes; its error.
    right_costs: tuple[float, float]
    #: The side to miss on, if one is better by more than two errors.
    better_side: str | None
    #: The score that two of three plays do not exceed.
    good_enough: int


def usual_way(hole: core.Hole, player: core.Player, plan: core.Plan, *, plays: int, seed: int) -> UsualWay:
    """Play a plan and read its usual way off the plays."""
    legs, left, right_costs, better_side, good_enough = core.usual_way(locals())
    features = hole.features

    def leg(stroke: str, start: Xy, aim: Xy, in_the_way: list[tuple[Any, ...]]) -> Leg:
        to_pin = float(np.hypot(*np.subtract(start, hole.pin)))
        where = "Off the tee" if start == hole.tee else f"From {to_pin:.0f} yd"
        ways = [InTheWay(way[0], features[way[0]], *way[1:]) for way in in_the_way[:_MOST]]
        return Leg(stroke, start, aim, ways, to_pin, where)

    return UsualWay([leg(*told) for told in legs], left, right_costs, better_side, good_enough)
