"""``report``: what was found about a hole and a player on a page."""

from __future__ import annotations

import argparse
from pathlib import Path

import wideberth as wb
from wideberth.cli import common
from wideberth.cli.compare import add_plays, compare
from wideberth.cli.progress import progress

HELP = (
    "write what was found about a hole and a player on a page that a browser shows",
    """\
examples:
  python -m wideberth report hole.geojson --handicap 18
  python -m wideberth report hole.geojson --player robin.json -o robin.html --title "Robin on the seventh"

The page is a single file that needs no network. It ranks the plans as compare does and, unless --no-solve is given,
holds the best shot from everywhere as solve does.
""",
)


def add_arguments(p: argparse.ArgumentParser) -> None:
    """The arguments of the command."""
    common.add_hole(p)
    common.add_player(p)
    add_plays(p)
    p.add_argument(
        "-o", "--output", type=Path, default=Path("report.html"), metavar="FILE", help="the page (default report.html)"
    )
    p.add_argument("--title", help="title of the page (default: the hole and the player)")
    p.add_argument("--no-solve", action="store_true", help="leave out the best shot from everywhere")
    p.add_argument("--cell", type=float, default=4.0, help="yards between places with a value, 0.5 to 10 (default 4)")
    common.add_work(p)


def run(arguments: argparse.Namespace) -> None:
    """Play, solve and write the page."""
    common.writes_page(arguments.output)
    hole, player = common.hole(arguments), common.player(arguments)
    for warning in hole.warnings:
        common.note(warning)
    result = compare(arguments, hole, player, wb.suggest_plans(hole, player))
    solution = None
    if not arguments.no_solve:
        with progress("solving", quiet=arguments.quiet) as show:
            solution = wb.solve(hole, player, cell=arguments.cell, threads=arguments.threads, progress=show)
    title = arguments.title or f"{hole.name}, {player.name}"
    path = wb.report(result, solved=solution, path=arguments.output, title=title)
    print(f"{result.advice}\n\nReport written to {path}")
