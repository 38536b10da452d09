"""What a lesson was opened with, and the holes solved in it."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal

import numpy as np

import wideberth as wb
from wideberth import _wideberth as core
from wideberth._day import on_the_day
from wideberth._lesson.view import Scene, Xy
from wideberth.plot.page import Page

#: Solutions that are kept, those asked for last: a solved hole takes about ten megabytes.
_KEPT = 12
#: The errors left of a skill that is a fifth better.
_BETTER = 0.8
#: Places whose best shots are remembered.
_PLACES = 64


class Stale(Exception):
    """What is worked out is no longer asked for."""


@dataclass(frozen=True)
class Ground:
    """A hole on its day, with the player and the way from its plan to the page."""

    hole: core.Hole
    player: core.Player
    page: Page

    def to_page(self, points: Any) -> list[list[float]]:
        """Places of the plan on the page, rounded to what a screen shows."""
        rows: list[list[float]] = np.round(self.page.of(np.asarray(points, float).reshape(-1, 2)), 2).tolist()
        return rows

    def at(self, place: Xy) -> list[float]:
        """One place of the plan on the page."""
        return self.to_page(place)[0]

    def plan(self, place: Xy) -> Xy:
        """A place of the page on the plan."""
        x, y = self.page.plan(place)
        return float(x), float(y)


class Opened:
    """What a lesson was opened with: holes, a player, and maybe the course that the holes make."""

    def __init__(
        self,
        holes: list[core.Hole],
        player: core.Player,
        *,
        course: wb.Course | None = None,
        reference: Literal["men", "women"] = "men",
        seed: int = 1,
        cell: float = 6.0,
        threads: int | None = None,
    ) -> None:
        """Keep it."""
        self.holes, self.player, self.course = holes, player, course
        self.reference = reference
        self.seed, self.cell, self.threads = seed, cell, threads
        self._solved: OrderedDict[Scene, wb.Solution] = OrderedDict()
        self._named: OrderedDict[tuple[Scene, Xy, str | None], dict[str, dict[str, Any]]] = OrderedDict()
        self._lock = threading.Lock()
        self.ground = lru_cache(64)(self._ground)
        # While the aim is dragged, the best shot and the kept one stay what they are.
        self.strokes = lru_cache(64)(self._strokes)

    def player_of(self, scene: Scene) -> core.Player:
        """The player of a scene."""
        player = self.player
        if scene.handicap is not None:
            player = core.Player.from_handicap(scene.handicap, reference=self.reference)
        better: dict[str, Any] = {} if scene.skill is None else {scene.skill: _BETTER}
        return player.with_changes(**better) if better else player

    def _ground(self, scene: Scene) -> Ground:
        if scene.hole >= len(self.holes):
            last = len(self.holes) - 1
            raise core.InputError(f"hole is {scene.hole}; it must be 0 to {last}, its place among those opened")
        hole = on_the_day(self.holes[scene.hole], scene.wind, scene.firmness)
        # The page stays as it is wherever the pin is: a link tells places on it.
        page = Page(hole)
        if scene.pin is not None:
            hole = hole.with_pin(back=scene.pin[0], right=scene.pin[1])
        return Ground(hole, self.player_of(scene), page)

    def _strokes(
        self, scene: Scene, start: tuple[Xy | None, Any], club: str, target: Xy, carry: float, count: int
    ) -> dict[str, Any]:
        """Many strokes of one shot, from a place (None for the tee) and a lie."""
        ground, (at, lie) = self.ground(scene), start
        return wb.strokes(
            ground.hole,
            ground.player,
            club=club,
            target=target,
            carry=carry,
            at=at,
            lie=lie,
            n=count,
            seed=self.seed,
            threads=self.threads,
        )

    def named(self, scene: Scene, at: Xy, lie: str | None, solution: wb.Solution) -> dict[str, dict[str, Any]]:
        """The best shot from a place, and the one at the flag."""
        key = scene, at, lie
        with self._lock:
            found = self._named.get(key)
        if found is None:
            solved = solution._solution
            found = {"best": solved.best_shot(at, lie), "flag": solved.flag_shot(at, lie)}
            with self._lock:
                self._named[key] = found
                while len(self._named) > _PLACES:
                    self._named.popitem(last=False)
        return {name: dict(shot) for name, shot in found.items()}

    def solution(self, scene: Scene) -> wb.Solution | None:
        """The scene solved, if it is by now."""
        with self._lock:
            found = self._solved.get(scene)
            if found is not None:
                self._solved.move_to_end(scene)
            return found

    def solve(self, scene: Scene, progress: Callable[[int, int], object]) -> wb.Solution:
        """Solve a scene, and keep the solution."""
        found = self.solution(scene)
        if found is None:
            ground = self.ground(scene)
            found = wb.solve(ground.hole, ground.player, cell=self.cell, threads=self.threads, progress=progress)
            with self._lock:
                self._solved[scene] = found
                while len(self._solved) > _KEPT:
                    self._solved.popitem(last=False)
        return found
