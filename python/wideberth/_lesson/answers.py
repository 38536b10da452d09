"""What a tab is told: every number of it comes from the core, here it is only gathered."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

import wideberth as wb
from wideberth import _wideberth as core
from wideberth._lesson import sentences
from wideberth._lesson.opened import Ground, Opened
from wideberth._lesson.view import Shot, View
from wideberth._ranked import percent
from wideberth._table import measured

Progress = Callable[[int, int], object]
Told = dict[str, Any]

#: Balls drawn of a shot that is looked at, and of one beside it.
_BALLS, _FAINT = 260, 140
#: Where a ball costs a penalty, or is not found.
_PUNISHED = ("penalty_red", "penalty_yellow", "out_of_bounds")
#: A blow-up is so many over par or worse.
BLOW_UP = 3
#: What shots are called in a comparison.
MINE, BEST, FLAG, KEPT = "this shot", "the best shot", "at the flag", "the kept shot"


@dataclass(frozen=True)
class Situation:
    """A view with the hole solved: where the ball is, and the shots that are looked at."""

    view: View
    ground: Ground
    solution: wb.Solution
    at: tuple[float, float]
    lie: str
    clubs: list[str]
    #: By what they are called: mine, the best and that at the flag, and the kept one if there is one.
    shots: dict[str, Told]

    @property
    def solved(self) -> core.Solution:
        """The solution of the core."""
        return self.solution._solution


def ball_at(ground: Ground, view: View) -> tuple[float, float]:
    """Where the ball of a view lies on the plan."""
    return ground.hole.tee if view.ball is None else ground.plan(view.ball)


def situation(opened: Opened, view: View, solution: wb.Solution) -> Situation:
    """Find the shots that a view looks at.

    Raises:
        InputError: a ball that lies nowhere, a club that there is not, or one that does not suit the lie.

    """
    ground = opened.ground(view.scene)
    at = ball_at(ground, view)
    solved = solution._solution
    lie, strokes = solved.strokes_from(at, view.lie)
    most = dict(strokes)
    bag = {club.name for club in ground.player.clubs}
    named = {"best": solved.best_shot(at, view.lie), "flag": solved.flag_shot(at, view.lie)}

    def pointed(shot: Shot | str) -> Told:
        if isinstance(shot, str):
            return named[shot]
        full = shot.club in bag if shot.full is None else shot.full
        told = solved.pointed_shot(shot.club, ground.plan(shot.aim), full, at, view.lie)
        if told is None:
            raise core.InputError(
                f"club is {shot.club!r}; from {lie.replace('_', ' ')} it must be one of {', '.join(most)}"
            )
        return told

    shots = {
        MINE: first_thought(ground, named["flag"], at, pointed) if view.shot is None else pointed(view.shot),
        BEST: named["best"],
        FLAG: named["flag"],
    }
    if view.kept is not None:
        shots[KEPT] = pointed(view.kept)
    for shot in shots.values():
        # A putt, and a roll with the putter, goes as far as it must.
        shot["full"] = shot["club"] in bag and shot["carry"] >= most[shot["club"]]
    return Situation(view, ground, solution, at, lie, list(most), shots)


def first_thought(ground: Ground, flag: Told, at: tuple[float, float], pointed: Callable[[Shot | str], Told]) -> Told:
    """What is first thought of: at the flag where that is in reach, else the longest club down the line of play."""
    hole, player = ground.hole, ground.player
    club = next((club for club in player.clubs if club.name == flag["club"]), None)
    if club is None or core.plays_like(hole, player, at=at, to=hole.pin).in_reach:
        return flag
    along = min(core.along_line(hole, at) + club.total, hole.length)
    x, y = ground.at(hole.point(core.along(along)))
    return pointed(Shot(club.name, (x, y), None))


def shown(opened: Opened, now: Situation, progress: Progress) -> Told:
    """The shots of a view with where their balls end, for the map."""
    return {
        "lie": now.lie,
        "ball": now.ground.at(now.at),
        "clubs": now.clubs,
        "to_pin": round(float(np.hypot(*np.subtract(now.ground.hole.pin, now.at))), 1),
        "shots": {
            name: {
                "club": shot["club"],
                "aim": now.ground.at(shot["target"]),
                "carry": round(shot["carry"], 1),
                "full": shot["full"],
                "finish": now.ground.at(shot["finish"]),
                "words": shot["words"],
                **balls(opened, now.ground, shot, now.at, now.view.lie, _BALLS if name == MINE else _FAINT, progress),
            }
            for name, shot in now.shots.items()
        },
    }


def balls(
    opened: Opened,
    ground: Ground,
    shot: Told,
    at: tuple[float, float],
    lie: str | None,
    count: int,
    progress: Progress | None,
) -> Told:
    """Where balls of a shot end, which of them cost a penalty, and the ellipse of two thirds of them."""
    columns = core_strokes(opened, ground, shot, at, lie, count, progress)
    rest = np.column_stack([columns["rest_x"], columns["rest_y"]])
    lost = np.isin(columns["rest_on"], _PUNISHED) | columns["lost"] | columns["unplayable"]
    page = ground.to_page(rest)
    ring = core.two_thirds_ellipse(np.array(page))
    return {
        "balls": page,
        "lost": np.flatnonzero(lost).tolist(),
        "ring": None if ring is None else [round(v, 2) for v in ring],
    }


def core_strokes(
    opened: Opened,
    ground: Ground,
    shot: Told,
    at: tuple[float, float],
    lie: Any,
    count: int,
    progress: Progress | None,
) -> dict[str, Any]:
    """Many strokes of one shot."""
    return wb.strokes(
        ground.hole,
        ground.player,
        club=shot["club"],
        target=shot["target"],
        carry=shot["carry"],
        at=None if at == ground.hole.tee and lie is None else at,
        lie=lie,
        n=count,
        seed=opened.seed,
        threads=opened.threads,
        progress=progress,
    )


def plans(now: Situation) -> list[core.Plan]:
    """The shots as plans, each followed by the best there is."""
    return [core.Plan(name, [shot["instruction"]], then=now.solution) for name, shot in now.shots.items()]


def compared(opened: Opened, now: Situation, plays: int, progress: Progress | None) -> wb.Comparison:
    """Play the shots of a view on common luck."""
    lie: Any = now.view.lie
    return wb.compare(
        now.ground.hole,
        now.ground.player,
        plans(now),
        plays=plays,
        seed=opened.seed,
        blow_up=BLOW_UP,
        at=None if now.view.ball is None and lie is None else now.at,
        lie=lie,
        threads=opened.threads,
        progress=progress,
    )


def figures(now: Situation, result: wb.Comparison) -> Told:
    """What the shots of a view come to, and the paired differences."""
    against = {
        name: result.difference(MINE, name)
        for name in now.shots
        if name != MINE and now.shots[name]["instruction"] != now.shots[MINE]["instruction"]
    }
    return {
        "plays": result.plays,
        "shots": {name: _figures(now, result, name) for name in now.shots},
        "against": {
            name: {
                "told": sentences.gap(difference),
                "mean": difference.mean,
                "error": difference.standard_error,
            }
            for name, difference in against.items()
        },
        "sentence": sentences.answer(now, result, against),
        "unfinished": bool(result._ranking.cannot_be_finished),
    }


def _figures(now: Situation, result: wb.Comparison, name: str) -> Told:
    ranking, played = result._ranking, now.view.played
    mean, error = ranking.mean(name)
    par = now.ground.hole.par

    def share(score: int) -> tuple[float, float]:
        # So much or more with the strokes that were played before.
        return ranking.at_least(name, max(score - played, 1))

    over, over_error = share(par + 1)
    blown, blown_error = share(par + BLOW_UP)
    penalties = ranking.penalties(name)
    return {
        "mean": measured(mean + played, error),
        "par": _share(1 - over, over_error),
        "blow_up": _share(blown, blown_error),
        "penalties": measured(*penalties),
        "scores": [[score + played, round(part, 4)] for score, part in ranking.distribution(name).items()],
    }


def _share(share: float, error: float) -> str:
    """A share in percent with its standard error."""
    told = percent(share, error)
    return told if not error > 0 else f"{told.removesuffix(' %')} ± {max(100 * error, 0.1):.1f} %"


def hole_map(opened: Opened, ground: Ground) -> Told:
    """All that is drawn of a hole and never moves while it is shown, as path data on the page, play up."""
    hole, page = ground.hole, ground.page
    frame = _green_frame(ground)
    wind = hole.conditions.wind
    return {
        "name": hole.name,
        "par": hole.par,
        "length": round(hole.length),
        "stroke_index": hole.stroke_index,
        "areas": [[f.surface, f.name, _path(ground, f.rings)] for f in hole.features],
        "crowns": [_path(ground, f.rings) for f in hole.standing_trees],
        "line": ground.to_page(hole.line_of_play),
        "tee": ground.at(hole.tee),
        "pin": ground.at(hole.pin),
        "x": page.x,
        "y": page.y,
        # The bearing that is up the page.
        "up": round(float(np.degrees(np.arctan2(page.turn[1, 0], page.turn[1, 1]))), 2) % 360,
        "north": hole.north_up,
        "green": frame,
        "wind": [wind.mph, wind.from_deg],
        "firmness": hole.conditions.firmness,
        "slopes": hole.slopes_in_words,
        "cautions": [f"{caution[:1].upper()}{caution[1:]}: never play over it." for caution in hole.cautions],
        "attribution": hole.attribution,
        "warnings": list(hole.warnings),
        "player": ground.player.name,
    }


def _green_frame(ground: Ground) -> list[list[float]] | None:
    """The middle of the green, and where a pin a yard behind it and a yard to its right would be, on the page."""
    try:
        pins = [ground.hole.with_pin(back=back, right=right).pin for back, right in ((0, 0), (1, 0), (0, 1))]
    except core.InputError:  # A green without a middle, or one too steep there.
        return None
    return ground.to_page(pins)


def _path(ground: Ground, rings: list[Any]) -> str:
    """Closed lines as path data: y goes down, as on a screen."""
    return "".join(
        "M" + "L".join(f"{x:.1f} {-y:.1f}" for x, y in ground.page.of(ring)) + "Z" for ring in rings
    ).replace(".0", "")
