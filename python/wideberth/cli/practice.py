"""``practice``: what each skill is worth to a player on a course."""

from __future__ import annotations

import argparse
from pathlib import Path

import wideberth as wb
from wideberth.cli import common
from wideberth.cli.formats import add_formats, to_csv
from wideberth.cli.progress import progress

HELP = (
    "tell what practice is worth: the same rounds with one skill better",
    """\
examples:
  python -m wideberth practice course.json --handicap 17
  python -m wideberth practice course.json --handicap 17 --break 90 --picture practice.png

Every skill goes a tenth of the way to the scratch golfer's, over the same rounds on the same luck, so that strokes
saved can be compared for about the same effort.
""",
)


def add_arguments(p: argparse.ArgumentParser) -> None:
    """The arguments of the command."""
    common.add_course(p)
    common.add_player(p, women="by the women's reference golfers: the player, and who it is measured against")
    p.add_argument(
        "--break", dest="target", type=int, metavar="SCORE", help="tell what each adds to the chance of breaking it"
    )
    p.add_argument("--share", type=float, default=0.1, help="how much of the way to scratch is gone (default 0.1)")
    p.add_argument("--plays", type=int, default=2_000, help="rounds of each skill (default 2,000)")
    p.add_argument("--seed", type=int, default=1, help="fixes the luck (default 1)")
    add_formats(p, "csv", "markdown")
    p.add_argument("--picture", type=Path, metavar="FILE", help="draw the gains to a file, such as practice.png")
    common.add_work(p)


def run(arguments: argparse.Namespace) -> None:
    """Tell what each skill is worth."""
    common.draws(arguments.picture)
    course, player = common.course(arguments), common.player(arguments, compared=True)
    with progress("playing", quiet=arguments.quiet) as show:
        gains = wb.practice_gains(
            course,
            player,
            target=arguments.target,
            share=arguments.share,
            reference=common.reference(arguments),
            plays=arguments.plays,
            seed=arguments.seed,
            threads=arguments.threads,
            progress=show,
        )
    written = {"csv": lambda: to_csv(gains.columns()), "markdown": gains.to_markdown}
    print(written.get(arguments.format, lambda: repr(gains))())
    common.picture(arguments, lambda: gains.plot())
