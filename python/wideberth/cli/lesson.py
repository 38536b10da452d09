"""``lesson``: a hole that answers while the aim is dragged, in the browser, served from this machine."""

from __future__ import annotations

import argparse
import sys
import webbrowser
from importlib import import_module
from ipaddress import ip_address
from pathlib import Path

import wideberth as wb
from wideberth._wideberth import whole_seed
from wideberth.cli import common

HELP = (
    "open a lesson in the browser: drag the aim, and see what it costs",
    """\
examples:
  python -m wideberth lesson hole.geojson --handicap 18
  python -m wideberth lesson hole.geojson --player robin.json --wind 12 270
  python -m wideberth lesson --sketch 4 360 --handicap 18
  python -m wideberth lesson --course course.json --player robin.json
  python -m wideberth lesson hole.geojson --network

It serves one page from this machine, to this machine, until Ctrl-C. With --network a phone or tablet on the same
network may open it too, with a code that is good once. Without a hole and a player it opens the demo, with --course
alone the invented course. Nothing is written but what is saved on the page.
""",
)


#: What the extra installs; the server speaks through the third.
NEEDED = ("starlette", "uvicorn", "websockets", "jinja2", "matplotlib")


def add_arguments(p: argparse.ArgumentParser) -> None:
    """The arguments of the command."""
    common.add_hole(p)
    group = p.add_argument_group("in place of a hole")
    other = group.add_mutually_exclusive_group()
    other.add_argument(
        "--course", nargs="?", type=Path, const=Path(), metavar="FILE", help="a course: its holes, and a round's plan"
    )
    other.add_argument("--sketch", nargs=2, type=float, metavar=("PAR", "YARDS"), help="a plain hole of that length")
    common.add_course_name(group)
    common.add_player(p, women="by the women's reference golfers: the player, and handicaps told on the page")
    p.add_argument("--seed", type=int, default=1, help="fixes the luck (default 1)")
    p.add_argument("--cell", type=float, default=6.0, help="yards between solved places, 0.5 to 10 (default 6)")
    page = p.add_argument_group("page")
    page.add_argument("--port", type=int, default=8718, help="where to serve it (default 8718; 0 for any free one)")
    page.add_argument(
        "--network",
        nargs="?",
        const="",
        metavar="ADDRESS",
        help="let devices of this machine's network in, with a code; its address there is found or given",
    )
    page.add_argument("--no-browser", action="store_true", help="open no browser, only tell the address")
    p.add_argument("--threads", type=int, help="number of threads (default: one for every core)")


def run(arguments: argparse.Namespace) -> None:
    """Serve the lesson until Ctrl-C."""
    needed()
    from wideberth._lesson.opened import Opened
    from wideberth._lesson.server import address_here, serve

    if not 0 <= arguments.port <= 65_535:
        raise wb.InputError(f"port is {arguments.port}; it must be 0 to 65,535")
    checked(arguments)
    address = None
    if arguments.network is not None:
        address = arguments.network or address_here()
        if address is None:
            raise wb.InputError("--network found no address of this machine; give it: --network 192.168.1.20")
        try:
            ip_address(address)
        except ValueError as error:
            raise wb.InputError(f"--network: {error}; it must be one such as 192.168.1.20") from error
    course, holes = opened(arguments)
    if course is None:
        for warning in holes[0].warnings:
            common.note(warning)

    def told(url: str, code: str) -> None:
        print(f"A device of this network may open {url} with the code {code}", flush=True)

    if arguments.hole is None and arguments.sketch is None and course is None:
        print("Demo: what is opened is invented.\n")

    def ready(url: str) -> None:
        print(f"Lesson at {url}\nCtrl-C ends it.\n\n{common.CAUTION}", flush=True)
        if not arguments.no_browser:
            webbrowser.open(url)

    serve(
        Opened(
            holes,
            common.player(arguments, compared=True),
            course=course,
            reference=common.reference(arguments),
            seed=arguments.seed,
            cell=arguments.cell,
            threads=arguments.threads,
        ),
        port=arguments.port,
        address=address,
        told=told,
        ready=ready,
    )
    sys.stdout.flush()


def needed() -> None:
    """Refuse to begin without a package of the extra, told by its name."""
    for name in NEEDED:
        try:
            import_module(name)
        except ImportError as error:
            raise ImportError(f"a lesson needs {name}: pip install 'wideberth[lesson]'") from error


def checked(arguments: argparse.Namespace) -> None:
    """Refuse what would be refused only when the first question is asked."""
    if not 0.5 <= arguments.cell <= 10:
        raise wb.InputError(f"cell is {arguments.cell:g}; it must be 0.5 to 10 yards")
    whole_seed(arguments.seed)
    if arguments.threads is not None and not 1 <= arguments.threads <= 1024:
        raise wb.InputError(f"threads is {arguments.threads}; it must be 1 to 1024")


def opened(arguments: argparse.Namespace) -> tuple[wb.Course | None, list[wb.Hole]]:
    """What was asked for: the holes, and the course that they make if it is one."""
    if arguments.hole is not None and (arguments.course is not None or arguments.sketch is not None):
        raise wb.InputError(f"hole is {str(arguments.hole)!r}; give a hole, --course or --sketch, one of them")
    if arguments.hole_ref is not None and arguments.hole is None:
        raise wb.InputError("--hole-ref needs a hole: the map that holds several")
    if arguments.course_name is not None and arguments.course is None:
        raise wb.InputError("--course-name needs --course: the map that holds several")
    if arguments.course is not None:
        # The option alone asks for the demo.
        named = arguments.course if arguments.course != Path() else None
        course = common.course(argparse.Namespace(**{**vars(arguments), "course": named}))
        return course, course.holes
    if arguments.sketch is not None:
        par, length = arguments.sketch
        if par not in (3, 4, 5):
            raise wb.InputError(f"--sketch: par is {par:g}; it must be 3, 4 or 5")
        return None, common.on_days(arguments, [wb.Hole.sketch(par=int(par), length=length)])
    return None, [common.hole(arguments)]
