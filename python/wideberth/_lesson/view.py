"""What a tab looks at: hole, day, player, ball and shot, as it comes over the wire and is checked."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from wideberth import _wideberth as core
from wideberth._given import shown, text

Xy = tuple[float, float]
T = TypeVar("T")

#: How firm turf may be, by name.
FIRMNESS = ("soft", "medium", "firm", "links-firm")
#: Skills that may be better, as ``Player.with_changes`` names them.
SKILLS = ("straighter", "surer_distance", "fewer_mishits", "short_game", "putting")
#: Shots that have names.
LIKE = ("best", "flag")
#: The most yards from the tee that a place on the page may be.
_FARTHEST = 5_000.0
#: The longest name of a club or a lie.
_LONGEST = 60


@dataclass(frozen=True)
class Shot:
    """A shot that somebody points at: the club, the place on the page aimed over, and how far it is to go."""

    club: str
    aim: Xy
    #: True for a full swing, False for one that goes as far as the place; None for what is usual with the club.
    full: bool | None


@dataclass(frozen=True)
class Scene:
    """Hole, day and player: all that a solution is for."""

    #: Place of the hole in the course, from 0.
    hole: int = 0
    #: None for the player who was opened.
    handicap: float | None = None
    #: A skill of the player that is a fifth better than it is; None for all as they are.
    skill: str | None = None
    #: Miles an hour, and the bearing that it comes from; None for the wind that the hole was opened with.
    wind: Xy | None = None
    firmness: str | None = None
    #: Yards behind the middle of the green and to the right of it; None for where the pin was.
    pin: Xy | None = None


@dataclass(frozen=True)
class View:
    """All that a tab shows."""

    scene: Scene
    #: Where the ball lies on the page; None for the tee.
    ball: Xy | None = None
    #: How it lies; None for what the place gives.
    lie: str | None = None
    #: Strokes and penalties so far.
    played: int = 0
    #: A shot that is pointed at, or "best" or "flag" for those; None for what is first thought of.
    shot: Shot | str | None = None
    #: Another shot from the same place, kept to compare with.
    kept: Shot | str | None = None


def view_of(given: Any) -> View:
    """Read a view.

    Raises:
        InputError: something that is no view, naming the field, the value and what is allowed.

    """
    fields = _fields(
        "view", given, ("hole", "handicap", "skill", "wind", "firmness", "pin", "ball", "lie", "played", "shot", "kept")
    )
    scene = Scene(
        hole=whole("hole", fields.get("hole", 0), 0, 999),
        handicap=_maybe(fields, "handicap", lambda name, v: number(name, v, 0, 54)),
        wind=_maybe(fields, "wind", _wind),
        skill=_maybe(fields, "skill", lambda name, v: _one_of(name, v, SKILLS)),
        firmness=_maybe(fields, "firmness", lambda name, v: _one_of(name, v, FIRMNESS)),
        pin=_maybe(fields, "pin", lambda name, v: _pair(name, v, 100)),
    )
    return View(
        scene,
        ball=_maybe(fields, "ball", _place),
        lie=_maybe(fields, "lie", _name),
        played=whole("played", fields.get("played", 0), 0, 30),
        shot=_maybe(fields, "shot", _shot),
        kept=_maybe(fields, "kept", _shot),
    )


def whole(field: str, given: Any, low: int, high: int) -> int:
    """A whole number in a range.

    Raises:
        InputError: something else.

    """
    if isinstance(given, bool) or not isinstance(given, int) or not low <= given <= high:
        raise core.InputError(f"{field} is {shown(given)}; it must be a whole number, {low} to {high}")
    return given


def number(field: str, given: Any, low: float, high: float) -> float:
    """A number in a range.

    Raises:
        InputError: something else.

    """
    fits = isinstance(given, int | float) and not isinstance(given, bool)
    # Compared as it is: a whole number may be too large for a float.
    if not fits or not low <= given <= high or not math.isfinite(given):
        raise core.InputError(f"{field} is {shown(given)}; it must be a number, {low:g} to {high:g}")
    return float(given)


def _fields(name: str, given: Any, known: tuple[str, ...]) -> Mapping[str, Any]:
    """The fields of something, none of them unknown."""
    if not isinstance(given, dict):
        raise core.InputError(f"{name} is {shown(given)}; it must be an object")
    for field in given:
        if field not in known:
            raise core.InputError(f"{name} has a field {shown(field)}; known are {', '.join(known)}")
    return given


def _maybe(fields: Mapping[str, Any], name: str, read: Callable[[str, Any], T]) -> T | None:
    given = fields.get(name)
    return None if given is None else read(name, given)


def _pair(name: str, given: Any, most: float) -> Xy:
    if not isinstance(given, list) or len(given) != 2:
        raise core.InputError(f"{name} is {shown(given)}; it must be a list of two numbers")
    return number(name, given[0], -most, most), number(name, given[1], -most, most)


def _place(name: str, given: Any) -> Xy:
    return _pair(name, given, _FARTHEST)


def _wind(name: str, given: Any) -> Xy:
    mph, bearing = _pair(name, given, 360)
    return number("wind, mph", mph, 0, 60), bearing % 360


def _one_of(name: str, given: Any, known: tuple[str, ...]) -> str:
    if given not in known:
        raise core.InputError(f"{name} is {shown(given)}; it must be one of {', '.join(known)}")
    return str(given)


def _name(name: str, given: Any) -> str:
    if not isinstance(given, str) or not 0 < len(given) <= _LONGEST:
        raise core.InputError(f"{name} is {shown(given)}; it must be a name of at most {_LONGEST} letters")
    return text(name, given)


def _shot(name: str, given: Any) -> Shot | str:
    if isinstance(given, str):
        return _one_of(name, given, LIKE)
    fields = _fields(name, given, ("club", "aim", "full"))
    full = fields.get("full")
    if full is not None and not isinstance(full, bool):
        raise core.InputError(f"{name}, full is {shown(full)}; it must be true, false or null")
    return Shot(_name(f"{name}, club", fields.get("club")), _place(f"{name}, aim", fields.get("aim")), full)
