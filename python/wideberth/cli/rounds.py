"""``round``: what a course comes to for a player, and how to break a score on it."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

import wideberth as wb
from wideberth._files import file_at
from wideberth._report.sheet import check_paper
from wideberth.cli import common
from wideberth.cli.formats import add_formats, rows, to_csv, to_json
from wideberth.cli.progress import progress

HELP = (
    "play rounds of a course, and find out how to break a score",
    """\
examples:
  python -m wideberth round course.json --handicap 17
  python -m wideberth round course.json --handicap 17 --break 90
  python -m wideberth round course.json --handicap 24 --women --wind 15 270
  python -m wideberth round course.json --handicap 17 --break 90 --card sheet.pdf -o round.html

Without --break it tells what rounds come to as the player plays now: totals, every hole and the statistics golfers
keep. With it every hole is solved, which takes a minute, and the plan is told: the score to make on each hole, the tee
shot, and how the way to play turns with the score. The card is one sheet for all holes, folding to pocket size.
""",
)


def add_arguments(p: argparse.ArgumentParser) -> None:
    """The arguments of the command."""
    common.add_course(p)
    common.add_player(p)
    p.add_argument(
        "--break", dest="target", type=int, metavar="SCORE", help="the score to break: 90 asks for 89 or better"
    )
    p.add_argument(
        "--plays", type=int, default=10_000, help="rounds, and plays of each way on each hole (default 10,000)"
    )
    p.add_argument("--seed", type=int, default=1, help="fixes the luck (default 1)")
    p.add_argument(
        "--cell", type=float, default=8.0, help="yards between places that are solved, 0.5 to 10 (default 8)"
    )
    out = p.add_argument_group("with --break")
    out.add_argument(
        "-o", "--output", type=Path, metavar="FILE", help="write the page of the round, such as round.html"
    )
    out.add_argument("--card", type=Path, metavar="FILE", help="write the sheet to be carried, such as sheet.pdf")
    out.add_argument("--paper", help="with --card: a4, letter or booklet (default a4)")
    out.add_argument("--title", help="with --output: title of the page (default: the course and the score)")
    add_formats(p, "json", "csv", "markdown", document="holes and statistics, or the plan, as JSON")
    common.add_work(p)


def run(arguments: argparse.Namespace) -> None:
    """Play rounds, or find the plan and write it down."""
    for option, path in {"--output": arguments.output, "--card": arguments.card}.items():
        if path is not None and arguments.target is None:
            raise wb.InputError(f"{option} needs --break: the score that the plan is for")
    if arguments.title is not None and arguments.output is None:
        raise wb.InputError("--title needs --output: the page that has it")
    if arguments.paper is not None and arguments.card is None:
        raise wb.InputError("--paper needs --card: the sheet that is of it")
    paper = "a4" if arguments.paper is None else arguments.paper
    if arguments.output is not None:
        common.writes_page(arguments.output)
    if arguments.card is not None:
        common.draws(Path("picture.png"))
        file_at(arguments.card, (".pdf",))
        check_paper(paper)
    course, player = common.course(arguments), common.player(arguments)
    if arguments.target is None:
        print(played(arguments, course, player))
        return
    with progress("solving and playing", quiet=arguments.quiet) as show:
        target = wb.break_score(
            course,
            player,
            arguments.target,
            plays=arguments.plays,
            seed=arguments.seed,
            cell=arguments.cell,
            threads=arguments.threads,
            progress=show,
        )
    plan = target.plan()
    written: dict[str, Callable[[], str]] = {
        "csv": lambda: to_csv(plan.columns()),
        "markdown": target.to_markdown,
        "json": lambda: to_json(
            {
                "course": course.name,
                "player": player.name,
                "target": target.target,
                "chance": target.chance,
                "chance_error": target.chance_error,
                "chance_by_fewest_strokes": target.chance_by_fewest_strokes,
                "plan": rows(plan.columns()),
                "turns": target.turns,
            }
        ),
    }
    if arguments.format is None:
        print(f"{target}\n\n{common.CAUTION}")
    else:
        print(written[arguments.format]())
    told = []
    if arguments.card is not None:
        told.append(f"Card written to {wb.pocket_card(target, path=arguments.card, paper=paper)}")
    if arguments.output is not None:
        told.append(f"Page written to {wb.report(target, path=arguments.output, title=arguments.title)}")
    if told and arguments.format is None:
        print("\n" + "\n".join(told))


def played(arguments: argparse.Namespace, course: wb.Course, player: wb.Player) -> str:
    """What rounds come to, as asked for."""
    with progress("playing", quiet=arguments.quiet) as show:
        rounds = wb.play_rounds(
            course, player, plays=arguments.plays, seed=arguments.seed, threads=arguments.threads, progress=show
        )
    holes, statistics = rounds.by_hole(), rounds.statistics()
    written: dict[str, Callable[[], str]] = {
        "csv": lambda: to_csv(holes.columns()),
        "markdown": lambda: f"{rounds.to_markdown()}\n\n{holes.to_markdown()}\n\n{statistics.to_markdown()}",
        "json": lambda: to_json(
            {
                "course": course.name,
                "player": player.name,
                "plays": rounds.plays,
                "mean": rounds.mean,
                "standard_error": rounds.standard_error,
                "standard_deviation": rounds.standard_deviation,
                "distribution": rounds.distribution,
                "holes": rows(holes.columns()),
                "statistics": rows(statistics.columns()),
            }
        ),
    }
    if arguments.format is not None:
        return written[arguments.format]()
    return f"{rounds}\n\n{holes}\n\n{statistics}\n\n{common.CAUTION}"
