"""``compare``: plans for a hole and a player, ranked, with a picture."""

from __future__ import annotations

import argparse
from pathlib import Path

import wideberth as wb
from wideberth.cli import common
from wideberth.cli.formats import add_formats, rows, to_csv, to_json
from wideberth.cli.progress import progress

HELP = (
    "propose plans for a hole and a player, play each many times, and rank them",
    """\
examples:
  python -m wideberth compare hole.geojson --handicap 18
  python -m wideberth compare hole.geojson --player robin.json --wind 15 270 --precision 0.02
  python -m wideberth compare hole.geojson --handicap 9 --csv > plans.csv

Without a hole and a player it plays the demo. All plans meet the same luck, which the seed fixes, so that their
differences are sharp: "behind" is how many strokes a plan costs next to the best one. The picture shows where 200 plays
go of the best plan and of the boldest (the longest club, then at the pin).
""",
)


def add_arguments(p: argparse.ArgumentParser) -> None:
    """The arguments of the command."""
    common.add_hole(p)
    common.add_player(p)
    add_plays(p)
    add_formats(p, "json", "csv", "markdown")
    p.add_argument("--picture", type=Path, metavar="FILE", help="where to draw it (default wideberth.png)")
    p.add_argument("--no-picture", action="store_true", help="draw no picture; none is drawn with --json and the like")
    common.add_work(p)


def add_plays(p: argparse.ArgumentParser) -> None:
    """Arguments that say what is played."""
    p.add_argument("--plays", type=int, help="plays of every plan (default 20,000), with --precision at most")
    p.add_argument("--precision", type=float, metavar="STROKES", help="play until the lead is known to so many strokes")
    p.add_argument("--seed", type=int, default=1, help="fixes the luck (default 1)")
    p.add_argument("--blow-up", type=int, default=3, metavar="OVER", help="a blow-up is this many over par (default 3)")
    p.add_argument("--maximum-score", type=int, metavar="SCORE", help="the score at which the ball is picked up")
    p.add_argument(
        "--player-draws", type=int, metavar="N", help="does it hold for N players that this one may be, such as 40"
    )


def run(arguments: argparse.Namespace) -> None:
    """Rank the plans, say what was found and draw it."""
    told = arguments.format is None
    path = picture_path(arguments)
    # That there is no picture for want of matplotlib is no fault of who did not ask for one.
    if arguments.picture is not None:
        common.draws(path)
    hole, player = common.hole(arguments), common.player(arguments)
    if told and arguments.hole is None:
        demo = arguments.handicap is None and arguments.player is None
        print(f"Demo: {'the hole and the pupil are' if demo else 'the hole is'} invented.\n")
    for warning in hole.warnings:
        if told:
            print(f"note: {warning}")
        else:
            common.note(warning)
    if told:
        print(f"{hole}\n\n{player}\n", flush=True)
    plans = wb.suggest_plans(hole, player)
    result = compare(arguments, hole, player, plans)
    if arguments.format == "json":
        print(to_json(document(result)))
    elif arguments.format == "csv":
        print(to_csv(result.columns()))
    elif arguments.format == "markdown":
        print(result.to_markdown())
    else:
        print(f"{result}\n\n{result.advice}\n\n{common.CAUTION}")
    if path is not None:
        draw(result, plans[0], path, told)


def picture_path(arguments: argparse.Namespace) -> Path | None:
    """Where to draw: where asked, or in the usual place when a person reads."""
    if arguments.no_picture:
        return None
    if arguments.picture is None and arguments.format is None:
        return Path("wideberth.png")
    path: Path | None = arguments.picture
    return path


def compare(arguments: argparse.Namespace, hole: wb.Hole, player: wb.Player, plans: list[wb.Plan]) -> wb.Comparison:
    """Play what was asked for."""
    with progress("playing", quiet=arguments.quiet) as show:
        return wb.compare(
            hole,
            player,
            plans,
            plays=arguments.plays,
            precision=arguments.precision,
            seed=arguments.seed,
            blow_up=arguments.blow_up,
            maximum_score=arguments.maximum_score,
            player_draws=arguments.player_draws,
            threads=arguments.threads,
            progress=show,
        )


def document(result: wb.Comparison) -> dict[str, object]:
    """What was found, for another program."""
    plans = rows(result.columns())
    for row, plan in zip(plans, result.plans, strict=True):
        row["distribution"] = plan.distribution
        row["blow_up_causes"] = plan.blow_up_causes
    return {
        "hole": result.hole.name,
        "par": result.par,
        "length": result.hole.length,
        "player": result.player.name,
        "plays": result.plays,
        "seed": result._ranking.seed,
        "blow_up_over_par": result._ranking.blow_up_over_par,
        "settled": result.settled,
        "advice": result.advice,
        "plans": plans,
    }


def draw(result: wb.Comparison, boldest: wb.Plan, path: Path, told: bool) -> None:
    """Draw, if there is anything to draw with, and say so."""
    try:
        picture(result, boldest, path)
    except ImportError:
        print("\nNo picture: that needs matplotlib, pip install 'wideberth[plot]'")
        return
    if told:
        print(f"\nPicture written to {path}")
    else:
        common.note(f"picture written to {path}")


def picture(result: wb.Comparison, boldest: wb.Plan, path: Path) -> None:
    """Draw 200 plays of the best and of the boldest plan (the longest club, at the pin) side by side."""
    import matplotlib

    matplotlib.use("Agg")
    import matplotlib.pyplot as plt

    from wideberth.plot import LIGHT, save
    from wideberth.plot.figure import layout

    figure, axes = plt.subplots(1, 2, figsize=(7.6, 9.8), layout=layout(between=0.03))
    hole = result.hole
    figure.suptitle(
        f"{hole.name}, par {result.par}, {hole.length:.0f} yd: where 200 plays go",
        fontsize=12,
        fontweight="bold",
        color=LIGHT.ink,
        parse_math=False,
    )
    for ax, what, shown in zip(axes, ("best", "boldest"), (result.best, result[boldest.name]), strict=True):
        shown.plot_shots(ax, title=f"The {what} plan: {shown.name}")
    save(axes[0], path)
    plt.close(figure)
