"""The command line: a file for each command, and what they share.

``main`` runs it. What a command makes goes to the standard output, all else (notes, progress, errors) to the standard
error. It exits with 0, with 2 for input that cannot be used, and with 130 after Ctrl-C.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from typing import NoReturn

import wideberth as wb
from wideberth._given import plain
from wideberth.cli import compare, lesson, player, practice, report, review, rounds, solve
from wideberth.cli.compare import picture

__all__ = ["main", "parser", "picture"]

#: The commands, in the order in which they are told.
COMMANDS = {
    "compare": compare,
    "solve": solve,
    "player": player,
    "report": report,
    "round": rounds,
    "practice": practice,
    "review": review,
    "lesson": lesson,
}

#: The most faults that are told at once: a file of another kind has no end of them.
_MOST = 20

_DESCRIPTION = "What golf plans really cost: thousands of plays of a hole, stroke by stroke, for one player."
_EPILOG = """\
examples:
  python -m wideberth                                       the demo: an invented hole and an invented pupil
  python -m wideberth compare hole.geojson --handicap 18    rank plans for your hole
  python -m wideberth solve hole.geojson --handicap 18      the best shot from the tee, or from anywhere
  python -m wideberth player --handicap 18                  what a player's clubs do
  python -m wideberth report hole.geojson -o page.html      all of it on a page
  python -m wideberth round course.json --break 90          how to break a score on a whole course
  python -m wideberth practice course.json --handicap 18    what each skill is worth there
  python -m wideberth review saturday.csv course.json       what the strokes of a played round gained
  python -m wideberth lesson hole.geojson --handicap 18     drag the aim on a page in the browser

"python -m wideberth COMMAND --help" tells more. Without a command, options are those of compare.
"""


class _Parser(argparse.ArgumentParser):
    """A parser whose errors cannot act on a terminal, whatever was typed."""

    def error(self, message: str) -> NoReturn:
        super().error(plain(message))


def parser() -> argparse.ArgumentParser:
    """The command line's arguments."""
    p = _Parser(
        prog="python -m wideberth",
        description=_DESCRIPTION,
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    p.add_argument("--version", action="version", version=f"wideberth {wb.__version__}")
    commands = p.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for name, command in COMMANDS.items():
        summary, epilog = command.HELP
        sub = commands.add_parser(
            name,
            help=summary,
            description=f"{summary[0].upper()}{summary[1:]}.",
            epilog=epilog,
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )
        command.add_arguments(sub)
        sub.set_defaults(run=command.run)
    return p


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit code."""
    words = list(sys.argv[1:] if argv is None else argv)
    # Before there were commands there was compare; its options alone still mean it.
    if not words or words[0] not in (*COMMANDS, "-h", "--help", "--version"):
        words.insert(0, "compare")
    arguments = parser().parse_args(words)
    try:
        arguments.run(arguments)
        sys.stdout.flush()
    except BrokenPipeError:
        # Who reads has read enough, as "head" does. What is left must go nowhere, or Python complains at its end.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (wb.InputError, OSError, ImportError) as error:
        faults = str(error).splitlines()
        more = f"; and {len(faults) - _MOST:,} more" if len(faults) > _MOST else ""
        print(f"wideberth: {plain('; '.join(faults[:_MOST]))}{more}", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        return 130  # What a shell reports of a command that Ctrl-C has ended.
    return 0
