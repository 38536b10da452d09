"""What commands share: the hole, the day and the player asked for, notes, files and pictures."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from importlib.resources import files
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import wideberth as wb
from wideberth._day import on_the_day
from wideberth._files import file_at
from wideberth._given import plain

CAUTION = (
    "These are model estimates for learning, not rulings or guarantees: the Rules of Golf, the Committee, local rules\n"
    "and a qualified professional decide. Never play over people, roads or property; call “fore” if a ball may hit\n"
    "someone; stop for lightning."
)


def add_hole(p: argparse.ArgumentParser) -> None:
    """Arguments that say which hole, and on what day."""
    group = p.add_argument_group("hole")
    group.add_argument(
        "hole", nargs="?", type=Path, help="GeoJSON map or wideberth document; without one, an invented hole"
    )
    group.add_argument("--hole-ref", metavar="REF", help="which hole of a map that holds several")
    group.add_argument(
        "--wind",
        nargs=2,
        type=float,
        metavar=("MPH", "FROM"),
        help="wind in mph, and the bearing that it comes from, degrees clockwise from north, which is up the map",
    )
    group.add_argument("--firmness", choices=("soft", "medium", "firm", "links-firm"), help="how firm the turf is")


def add_course(p: argparse.ArgumentParser) -> None:
    """The argument that says which course."""
    group = p.add_argument_group("course")
    group.add_argument(
        "course", nargs="?", type=Path, help="map of a course or wideberth document; without one, an invented course"
    )


def add_player(p: argparse.ArgumentParser) -> argparse.ArgumentParser | argparse._ArgumentGroup:
    """Arguments that say which player."""
    group = p.add_argument_group("player")
    who = group.add_mutually_exclusive_group()
    who.add_argument("--handicap", type=handicap, help="a player of this handicap, 0 to 54; without, an invented pupil")
    who.add_argument("--player", type=Path, metavar="FILE", help="a player: wideberth document")
    return group


def handicap(text: str) -> float:
    """A handicap as it is written."""
    if text.strip().startswith("+"):
        raise argparse.ArgumentTypeError(f"{text} is a plus handicap, better than scratch; it must be 0 to 54")
    return float(text)


def add_work(p: argparse.ArgumentParser) -> None:
    """Arguments that say how to work."""
    p.add_argument("--threads", type=int, help="number of threads (default: one for every core)")
    p.add_argument("-q", "--quiet", action="store_true", help="show no progress")


def note(text: str) -> None:
    """Tell what belongs to no result."""
    print(f"note: {text}", file=sys.stderr)


def hole(arguments: argparse.Namespace) -> wb.Hole:
    """The hole asked for, on the day asked for."""
    if arguments.hole is None:
        found = wb.Hole.from_geojson(demo("alder-bend.geojson"))
    elif str(arguments.hole).isalpha() and not arguments.hole.exists():
        raise wb.InputError(f"no command and no file {str(arguments.hole)!r}; see python -m wideberth --help")
    else:
        found = wb.Hole.read(arguments.hole, hole=arguments.hole_ref)
    return on_the_day(found, arguments.wind, arguments.firmness)


def course(arguments: argparse.Namespace) -> wb.Course:
    """The course asked for."""
    if arguments.course is None:
        return wb.Course.from_json(demo("withy-fen.json"))
    return wb.Course.from_json(read(arguments.course))


def player(arguments: argparse.Namespace) -> wb.Player:
    """The player asked for."""
    if arguments.handicap is not None:
        return wb.Player.from_handicap(arguments.handicap)
    if arguments.player is None:
        return wb.Player.from_json(demo("pupil.json"))
    return wb.Player.from_json(read(arguments.player))


def demo(name: str) -> str:
    """A file of the demo."""
    return (files("wideberth") / "data" / name).read_text("utf-8")


def read(path: Path) -> str:
    """Read a text file."""
    try:
        return path.read_text("utf-8")
    except UnicodeDecodeError as error:
        raise wb.InputError(f"cannot read {plain(str(path))}: it is not UTF-8 text (byte {error.start})") from error


def draws(path: Path | None) -> None:
    """Get ready to draw to a file: no windows are opened, and whatever is missing is told before long work."""
    if path is None:
        return
    if find_spec("matplotlib") is None:
        raise ImportError("pictures need matplotlib: pip install 'wideberth[plot]'")
    import matplotlib
    from matplotlib.figure import Figure

    matplotlib.use("Agg")
    file_at(path, [f".{kind}" for kind in Figure().canvas.get_supported_filetypes()])


def writes_page(path: Path) -> None:
    """Get ready to write a page, which holds pictures: whatever is missing is told before long work."""
    if find_spec("jinja2") is None:
        raise ImportError("reports need Jinja: pip install 'wideberth[report]'")
    draws(Path("picture.png"))
    file_at(path, (".html", ".htm"))


def picture(arguments: argparse.Namespace, drawn: Callable[[], Any]) -> None:
    """Draw to the file that was asked for, if one was, and say so to a person who reads."""
    if arguments.picture is None:
        return
    from wideberth.plot import save

    save(drawn(), arguments.picture)
    if arguments.format is None:
        print(f"\nPicture written to {arguments.picture}")
