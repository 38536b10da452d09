"""``player``: what a player's clubs do, and players from measured shots."""

from __future__ import annotations

import argparse
import warnings
from pathlib import Path

import wideberth as wb
from wideberth.cli import common
from wideberth.cli.formats import add_formats, to_csv
from wideberth.cli.progress import progress

HELP = (
    "tell what a player's clubs do, and make players from measured shots",
    """\
examples:
  python -m wideberth player --handicap 18
  python -m wideberth player --handicap 18 --expectations
  python -m wideberth player --handicap 18 --shots shots.csv --json > robin.json
  python -m wideberth compare hole.geojson --player robin.json

Measured shots are a CSV file with the columns club, carry and lateral (yards, to the right of the aim). The handicap
says what golfers of that level do; the more shots there are of a club, the less it weighs.
""",
)


def add_arguments(p: argparse.ArgumentParser) -> None:
    """The arguments of the command."""
    group = common.add_player(p)
    group.add_argument("--shots", type=Path, metavar="FILE", help="measured shots: a CSV file, with --handicap")
    p.add_argument("--expectations", action="store_true", help="tell what a good-enough shot looks like instead")
    p.add_argument("--plays", type=int, default=10_000, help="plays of each expectation (default 10,000)")
    p.add_argument("--seed", type=int, default=1, help="fixes the luck (default 1)")
    add_formats(p, "json", "csv", "markdown", document="the player as a document, to be read with --player")
    p.add_argument("--picture", type=Path, metavar="FILE", help="draw the bag to a file, such as bag.png")
    common.add_work(p)


def run(arguments: argparse.Namespace) -> None:
    """Tell what the player's clubs do."""
    if arguments.expectations and arguments.format == "json":
        raise wb.InputError("--json writes the player; with --expectations there are --csv and --markdown")
    common.draws(arguments.picture)
    player = who(arguments)
    for doubt in player.doubts:
        common.note(doubt)
    if arguments.format == "json":
        print(player.to_json())
    elif arguments.expectations:
        with progress("playing", quiet=arguments.quiet) as show:
            expected = player.expectations(
                plays=arguments.plays, seed=arguments.seed, threads=arguments.threads, progress=show
            )
        written = {"csv": lambda: to_csv(expected.columns()), "markdown": expected.to_markdown}
        print(written.get(arguments.format, lambda: repr(expected))())
    else:
        table = player.table()
        written = {"csv": lambda: to_csv(table.columns()), "markdown": table.to_markdown}
        print(written.get(arguments.format, lambda: repr(table))())
    common.picture(arguments, lambda: player.plot(seed=arguments.seed))


def who(arguments: argparse.Namespace) -> wb.Player:
    """The player asked for, fitted to shots if there are some."""
    player = common.player(arguments)
    if arguments.shots is None:
        return player
    if arguments.handicap is None:
        raise wb.InputError("--shots needs --handicap: the level that the player is of")
    shots = common.file(arguments.shots, "a CSV file with the columns club, carry and lateral")
    with warnings.catch_warnings():
        # What looks odd is told as notes.
        warnings.simplefilter("ignore", UserWarning)
        return wb.Player.from_shots(shots, prior=player)
