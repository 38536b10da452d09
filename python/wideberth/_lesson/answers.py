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
from wideberth._table import percent

Progress = Callable[[int, int], object]
Told = dict[str, Any]

#: Balls drawn of a shot that is looked at, and of one beside it.
_BALLS, _FAINT = 260, 140
#: Where no ball is played from, in words.
_NOT_PLAYED = {
    "penalty_red": "in a red penalty area",
    "penalty_yellow": "in a yellow penalty area",
    "out_of_bounds": "out of bounds",
}
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


def from_the_tee(view: View) -> bool:
    """True where play begins as the hole does."""
    return view.ball is None and view.lie is None


def ball_at(ground: Ground, view: View) -> tuple[float, float]:
    """Where the ball of a view lies on the plan.

    Raises:
        InputError: where no ball is played from, told without the coordinates that the core would tell.

    """
    if view.ball is None:
        return ground.hole.tee
    at = ground.plan(view.ball)
    surface = ground.hole.surface_at(at)
    if surface in _NOT_PLAYED:
        raise core.InputError(f"the ball lies {_NOT_PLAYED[surface]}; it must lie where it can be played from")
    return at


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
    named = opened.named(view.scene, at, view.lie, solution)

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


def shown(opened: Opened, now: Situation) -> Told:
    """The shots of a view with where their balls end, for the map."""
    mine = now.shots[MINE]
    same = {name: shot["instruction"] == mine["instruction"] for name, shot in now.shots.items()}
    return {
        "lie": now.lie,
        "ball": now.ground.at(now.at),
        "clubs": now.clubs,
        "shots": {
            name: {
                "club": shot["club"],
                "aim": now.ground.at(shot["target"]),
                "carry": round(shot["carry"], 1),
                "full": shot["full"],
                "words": shot["words"],
                "same": name != MINE and same[name],
                # Of the shot at the flag the figures are enough: it is seldom one to look at. Equals look equal.
                **({} if name == FLAG else balls(opened, now.ground, now.view, shot, MINE if same[name] else name)),
            }
            for name, shot in now.shots.items()
        },
    }


def first_look(opened: Opened, view: View) -> Told | None:
    """Where the balls end of a full swing that is pointed at, before the hole is solved; None for any other shot."""
    ground, shot = opened.ground(view.scene), view.shot
    if not isinstance(shot, Shot) or shot.full is False or shot.club not in {c.name for c in ground.player.clubs}:
        return None
    told = {"club": shot.club, "target": ground.plan(shot.aim), "carry": None}
    seen = {"club": shot.club, "aim": shot.aim, **balls(opened, ground, view, told, MINE)}
    return {"ball": ground.at(ball_at(ground, view)), "shots": {MINE: seen}}


def balls(opened: Opened, ground: Ground, view: View, shot: Told, name: str) -> Told:
    """Where balls of a shot end, which of them cost a penalty, and the ellipse of two thirds of them."""
    start = (None if from_the_tee(view) else ball_at(ground, view), view.lie)
    count = _BALLS if name == MINE else _FAINT
    columns = opened.strokes(view.scene, start, shot["club"], shot["target"], shot["carry"], count)
    lost = np.isin(columns["rest_on"], list(_NOT_PLAYED)) | columns["lost"] | columns["unplayable"]
    page = ground.to_page(np.column_stack([columns["rest_x"], columns["rest_y"]]))
    ring = core.two_thirds_ellipse(np.array(page))
    return {
        "balls": page,
        "lost": np.flatnonzero(lost).tolist(),
        "ring": None if ring is None else [round(v, 2) for v in ring],
    }


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
        at=None if from_the_tee(now.view) else now.at,
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
        "mean": _number(mean + played, error),
        "par": _share(1 - over, over_error),
        "blow_up": _share(blown, blown_error),
        "penalties": _number(*penalties),
    }


def _number(mean: float, error: float) -> list[str]:
    """A mean and its standard error, with two digits: more are not read from a screen."""
    return [f"{mean:.2f}", sentences.error_told(error, 2)]


def _share(share: float, error: float) -> list[str]:
    """A share in percent and its standard error."""
    return [percent(share, error), sentences.error_told(100 * error, 1)]


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
