"""``review``: what the strokes of a round that was played gained and lost."""

from __future__ import annotations

import argparse
from pathlib import Path

import wideberth as wb
from wideberth.cli import common
from wideberth.cli.formats import add_formats, to_csv
from wideberth.cli.progress import progress

HELP = (
    "tell what the strokes of a round gained: by choice, and by how they were played",
    """\
examples:
  python -m wideberth review saturday.csv course.json --handicap 17
  python -m wideberth review saturday.csv course.json --handicap 17 --by hole

The round is a CSV file, a row a stroke, with the columns hole, stroke, club, lie, to_pin (yards, on the green feet) and
side (such as "left 12", may be empty). The last stroke of a hole is the one that was holed.
""",
)


def add_arguments(p: argparse.ArgumentParser) -> None:
    """The arguments of the command."""
    p.add_argument("round", type=Path, metavar="ROUND", help="the round as it was written down: a CSV file")
    common.add_course(p)
    common.add_player(p)
    p.add_argument(
        "--by", choices=("part", "hole", "club"), default="part", help="what strokes are added up by (default part)"
    )
    p.add_argument("--strokes", action="store_true", help="tell every stroke")
    p.add_argument(
        "--cell", type=float, default=8.0, help="yards between places that are solved, 0.5 to 10 (default 8)"
    )
    add_formats(p, "csv", "markdown")
    common.add_work(p)


def run(arguments: argparse.Namespace) -> None:
    """Tell what the strokes gained."""
    card = common.file(arguments.round, "a CSV file, a row a stroke; see python -m wideberth review --help")
    course, player = common.course(arguments), common.player(arguments)
    with progress("solving", quiet=arguments.quiet) as show:
        review = wb.review(course, player, card, cell=arguments.cell, threads=arguments.threads, progress=show)
    table = review.strokes() if arguments.strokes else review.by(arguments.by)
    written = {"csv": lambda: to_csv(table.columns()), "markdown": table.to_markdown}
    usual = not arguments.strokes and arguments.by == "part"
    print(written.get(arguments.format, lambda: repr(review) if usual else repr(table))())
