"""``solve``: the best shot from the tee or from anywhere on a hole."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

import wideberth as wb
from wideberth.cli import common
from wideberth.cli.formats import add_formats, to_json
from wideberth.cli.progress import progress

HELP = (
    "find the best shot from the tee, or from anywhere on a hole",
    """\
examples:
  python -m wideberth solve hole.geojson --handicap 18
  python -m wideberth solve hole.geojson --handicap 18 --along 230 --right 15 --lie rough
  python -m wideberth solve hole.geojson --handicap 18 --at-most 5 --picture chances.png

Nothing is played: what every shot is worth is worked out, so there is no sampling error. The picture shows strokes to
hole out from everywhere on the hole, or with --at-most the chance of a score, and the best shots from the tee.
""",
)


_LIES = ("tee", "fairway", "first_cut", "rough", "deep_rough", "fringe", "green", "bunker", "trees")
#: Surfaces that no ball is played from.
_NO_PLAY = ("penalty_red", "penalty_yellow", "out_of_bounds")
#: What is told of the shot to another program.
_OF_A_SHOT = "where", "lie", "club", "target", "carry", "finish", "words", "expected_strokes", "chance"


def add_arguments(p: argparse.ArgumentParser) -> None:
    """The arguments of the command."""
    common.add_hole(p)
    common.add_player(p)
    aim = p.add_argument_group("played for", "Without one of these: fewest strokes.").add_mutually_exclusive_group()
    aim.add_argument("--at-most", type=int, metavar="SCORE", help="the best chance of this score or better")
    aim.add_argument("--safe", type=float, metavar="STROKES", help="fewer blow-ups, each at a price of so many strokes")
    p.add_argument(
        "--blow-up", type=int, metavar="OVER", help="with --safe: a blow-up is this many over par (default 3)"
    )
    place = p.add_argument_group("from", "Without these: from the tee.")
    place.add_argument("--along", type=float, metavar="YARDS", help="so far along the line of play")
    side = place.add_mutually_exclusive_group()
    side.add_argument("--left", type=float, metavar="YARDS", help="and so far left of it")
    side.add_argument("--right", type=float, metavar="YARDS", help="or right of it")
    place.add_argument("--lie", choices=_LIES, metavar="LIE", help=f"{', '.join(_LIES)} (default: as the place gives)")
    p.add_argument("--cell", type=float, default=4.0, help="yards between places with a value, 0.5 to 10 (default 4)")
    add_formats(p, "json")
    p.add_argument("--picture", type=Path, metavar="FILE", help="draw it to a file, such as values.png")
    common.add_work(p)


def run(arguments: argparse.Namespace) -> None:
    """Solve the hole and say what is best."""
    common.draws(arguments.picture)
    if arguments.blow_up is not None and arguments.safe is None:
        raise wb.InputError("--blow-up needs --safe: the price of one")
    hole, player = common.hole(arguments), common.player(arguments)
    for warning in hole.warnings:
        common.note(warning)
    where = place(arguments, hole)
    solution = solved(arguments, hole, player)
    advice = solution.shot_from(where, arguments.lie)
    if arguments.format == "json":
        print(to_json(document(solution, advice)))
    else:
        print(f"{told(solution)}\n\n{start(arguments)}: {advice}\n\n{common.CAUTION}")
    common.picture(arguments, lambda: solution.plot(lie=arguments.lie or "fairway", at_most=arguments.at_most))


def place(arguments: argparse.Namespace, hole: wb.Hole) -> tuple[float, float] | wb.Aim:
    """Where the ball lies."""
    if arguments.along is None:
        if arguments.left is not None or arguments.right is not None:
            raise wb.InputError("--left and --right need --along: yards along the line of play")
        return hole.tee
    where = (
        wb.along(arguments.along, right=arguments.right or 0.0)
        if arguments.left is None
        else wb.along(arguments.along, left=arguments.left)
    )
    # Told before the hole is solved, which takes a while.
    surface = hole.surface_at(where)
    if surface in _NO_PLAY:
        raise wb.InputError(f"{start(arguments)} lies {surface.replace('_', ' ')}; it must be a place to play from")
    return where


def start(arguments: argparse.Namespace) -> str:
    """Where the ball lies, in words."""
    if arguments.along is None:
        return "Off the tee"
    side = next((f", {v:g} {n}" for n in ("left", "right") if (v := getattr(arguments, n))), "")
    return f"From {arguments.along:g} along the line of play{side}"


def solved(arguments: argparse.Namespace, hole: wb.Hole, player: wb.Player) -> wb.Solution:
    """Solve the hole for what is played for."""
    objective = None
    if arguments.at_most is not None:
        objective = wb.at_most(arguments.at_most)
    elif arguments.safe is not None:
        objective = wb.safe(blow_up=3 if arguments.blow_up is None else arguments.blow_up, price=arguments.safe)
    with progress("solving", quiet=arguments.quiet) as show:
        return wb.solve(
            hole, player, objective=objective, cell=arguments.cell, threads=arguments.threads, progress=show
        )


def told(solution: wb.Solution) -> str:
    """What the hole is worth from the tee, in words."""
    hole, objective = solution.hole, solution.objective
    aim = "fewest strokes" if objective is None else repr(objective)
    lines = [
        f"{hole.name}, par {hole.par}, {hole.length:.0f} yd, {solution.player.name}; played for {aim}",
        f"{solution.expected_strokes(hole.tee):.2f} strokes from the tee",
    ]
    if objective is not None and objective.kind == "at_most":
        lines[-1] += f", {100 * solution.chance(hole.tee):.1f} % in {objective.strokes} or fewer"
    if solution._solution.cannot_be_finished():
        lines.append("The hole cannot be finished as it is: 60 strokes is the most that is told.")
    shares = solution.distribution
    scores = [f"{score}: {100 * share:.1f} %" for score, share in shares.items() if share >= 0.0005]
    return "\n".join([*lines, f"Scores: {', '.join(scores)}"])


def document(solution: wb.Solution, advice: wb.Advice) -> dict[str, Any]:
    """What was found, for another program."""
    hole, objective = solution.hole, solution.objective
    others = [advice.runner_up, *advice.mistakes] if advice.runner_up else [*advice.mistakes]
    return {
        "hole": hole.name,
        "par": hole.par,
        "length": hole.length,
        "player": solution.player.name,
        "objective": "fewest strokes" if objective is None else repr(objective),
        "cell": solution.cell,
        "expected_strokes": solution.expected_strokes(hole.tee),
        "distribution": solution.distribution,
        "shot": {name: getattr(advice, name) for name in _OF_A_SHOT},
        "costs_are_in": advice.costs_are_in,
        "others": [vars(other) for other in others],
    }
