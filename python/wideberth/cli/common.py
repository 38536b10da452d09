"""What commands share: the hole, the day and the player asked for, notes, files and pictures."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Iterable
from importlib.resources import files
from importlib.util import find_spec
from pathlib import Path
from typing import Any, Literal, TypeVar

import wideberth as wb
from wideberth._day import on_the_day
from wideberth._files import file_at
from wideberth._given import plain

_Read = TypeVar("_Read")

CAUTION = (
    "These are model estimates for learning, not rulings or guarantees: the Rules of Golf, the Committee, local rules\n"
    "and a qualified professional decide. Never play over people, roads or property; call “fore” if a ball may hit\n"
    "someone; stop for lightning."
)


def add_hole(p: argparse.ArgumentParser) -> None:
    """Arguments that say which hole, and on what day."""
    group = p.add_argument_group("hole")
    group.add_argument(
        "hole",
        nargs="?",
        type=Path,
        help="map of a hole (such as GeoJSON) or wideberth document; without, an invented one",
    )
    group.add_argument("--hole-ref", metavar="REF", help="which hole of a map that holds several")
    add_day(p)


def add_course(p: argparse.ArgumentParser) -> None:
    """Arguments that say which course, and on what day."""
    group = p.add_argument_group("course")
    group.add_argument(
        "course",
        nargs="?",
        type=Path,
        help="map of a course (such as GeoJSON) or wideberth document; without, an invented one",
    )
    add_course_name(group)
    add_day(p)


def add_course_name(group: argparse._ArgumentGroup) -> None:
    """The argument that says which course of several."""
    group.add_argument("--course-name", metavar="NAME", help="which course of a map that holds several")


def add_day(p: argparse.ArgumentParser) -> None:
    """Arguments that say what day it is on the hole, or on every hole."""
    group = p.add_argument_group("day")
    group.add_argument(
        "--wind",
        nargs=2,
        type=float,
        metavar=("MPH", "FROM"),
        help="wind in mph, and the bearing that it comes from: degrees clockwise from north, which is up the map; on a "
        "hole that knows no north, as a sketched one, from up its own map, where 0 is in the face of a tee shot "
        "straight up",
    )
    group.add_argument("--firmness", choices=("soft", "medium", "firm", "links-firm"), help="how firm the turf is")


def add_player(
    p: argparse.ArgumentParser, women: str = "by the women's reference golfers, with --handicap"
) -> argparse._ArgumentGroup:
    """Arguments that say which player, and what --women asks for."""
    group = p.add_argument_group("player")
    who = group.add_mutually_exclusive_group()
    who.add_argument("--handicap", type=handicap, help="a player of this handicap, 0 to 54; without, an invented pupil")
    who.add_argument("--player", type=Path, metavar="FILE", help="a player: wideberth document")
    group.add_argument("--women", action="store_true", help=women)
    return group


def handicap(text: str) -> float:
    """A handicap as it is written."""
    if text.strip().startswith("+"):
        raise argparse.ArgumentTypeError(f"{text} is a plus handicap, better than scratch; it must be 0 to 54")
    try:
        return float(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no number; it must be 0 to 54") from None


def add_work(p: argparse.ArgumentParser) -> None:
    """Arguments that say how to work."""
    p.add_argument("--threads", type=int, help="number of threads (default: one for every core)")
    p.add_argument("-q", "--quiet", action="store_true", help="show no progress")


def note(text: str) -> None:
    """Tell what belongs to no result."""
    print(f"note: {text}", file=sys.stderr)


def hole(arguments: argparse.Namespace) -> wb.Hole:
    """The hole asked for, on the day asked for."""
    path = arguments.hole
    if path is None:
        if arguments.hole_ref is not None:
            raise wb.InputError("--hole-ref needs a map: the one that holds several holes")
        found = wb.Hole.from_geojson(demo("alder-bend.geojson"))
    elif str(path).isalpha() and not path.exists():
        raise wb.InputError(f"no command and no file {str(path)!r}; see python -m wideberth --help")
    else:
        found = reading(
            path, "a map of a hole or a wideberth document", lambda: wb.Hole.read(path, hole=arguments.hole_ref)
        )
    return on_days(arguments, [found])[0]


def course(arguments: argparse.Namespace) -> wb.Course:
    """The course asked for, on the day asked for."""
    path = arguments.course
    if path is None:
        if arguments.course_name is not None:
            raise wb.InputError("--course-name needs a map: the one that holds several courses")
        found = wb.Course.from_json(demo("withy-fen.json"))
        note(f"no course was given: {found.name} is an invented one")
    else:
        found = reading(
            path,
            "a map of a course or a wideberth document",
            lambda: wb.Course.read(path, course=arguments.course_name),
        )
    asked = wb.Course(on_days(arguments, found), name=found.name, attribution=found.attribution)
    for hole in asked:
        for warning in hole.warnings:
            note(f"{hole.name}: {warning}")
    return asked


def on_days(arguments: argparse.Namespace, holes: Iterable[wb.Hole]) -> list[wb.Hole]:
    """The holes on the day asked for, and what should be known of its wind."""
    asked = [on_the_day(hole, arguments.wind, arguments.firmness) for hole in holes]
    lost = sum(not hole.north_up for hole in asked)
    if arguments.wind is not None and lost:
        where = "the hole" if len(asked) == 1 else f"{lost} of {len(asked)} holes"
        note(f"north is not known on {where}: there FROM counts from straight up the hole's own map")
    return asked


def reference(arguments: argparse.Namespace) -> Literal["men", "women"]:
    """Whose reference golfers were asked for."""
    return "women" if arguments.women else "men"


def player(arguments: argparse.Namespace, *, compared: bool = False) -> wb.Player:
    """The player asked for; --women alone is refused unless the player is also compared with others."""
    if arguments.handicap is not None:
        return wb.Player.from_handicap(arguments.handicap, reference=reference(arguments))
    if arguments.women and not compared:
        raise wb.InputError("--women needs --handicap: the level that the player is of")
    path = arguments.player
    if path is None:
        return wb.Player.from_json(demo("pupil.json"))
    return reading(path, "a player as a wideberth document", lambda: wb.Player.from_json(read(path)))


def demo(name: str) -> str:
    """A file of the demo."""
    return (files("wideberth") / "data" / name).read_text("utf-8")


def file(path: Path, allowed: str) -> Path:
    """A file that was named, if there is one that can be read.

    Raises:
        InputError: there is none; it names the file and what is allowed.

    """
    # It is not opened to see: what comes through a pipe comes once.
    if not os.path.exists(path):
        fault = "there is no such file"
    elif os.path.isdir(path):
        fault = "it is a directory"
    elif not os.access(path, os.R_OK):
        fault = "it may not be read"
    else:
        return path
    raise wb.InputError(f"cannot read {plain(str(path))}: {fault}; it must be {allowed}")


def reading(path: Path, allowed: str, read: Callable[[], _Read]) -> _Read:
    """What a file that was named holds; where it holds something else, the message names the file.

    Raises:
        InputError: no file, or one that holds something else.

    """
    name = plain(str(file(path, allowed)))
    try:
        return read()
    except wb.InputError as error:
        if name in str(error):
            raise
        raise wb.InputError(f"{name}: {error}") from error


def read(path: Path) -> str:
    """Read a text file."""
    try:
        return path.read_text("utf-8-sig")
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
