"""The command line: plans for a hole and a player, ranked, with a picture."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path

import wideberth as wb

CAUTION = (
    "These are model estimates for learning, not rulings or guarantees: the Rules of Golf, the Committee, local rules\n"
    "and a qualified professional decide. Never play over people, roads or property; call “fore” if a ball may hit\n"
    "someone; stop for lightning."
)


def parser() -> argparse.ArgumentParser:
    """The command line's arguments."""
    p = argparse.ArgumentParser(
        prog="python -m wideberth",
        description="Propose plans for a hole and a player, play each many times, and rank them.",
        epilog="Without arguments it plays the demo: an invented hole and an invented pupil.",
    )
    p.add_argument("hole", nargs="?", type=Path, help="a hole: GeoJSON map or wideberth document")
    p.add_argument("--hole-ref", help="which hole of a map that holds several")
    who = p.add_mutually_exclusive_group()
    who.add_argument("--handicap", type=float, help="a player of this handicap, 0 to 54, instead of the demo's pupil")
    who.add_argument("--player", type=Path, help="a player: wideberth document")
    p.add_argument("--plays", type=int, default=20_000, help="plays of every plan (default 20,000)")
    p.add_argument("--seed", type=int, default=1, help="fixes the luck (default 1)")
    p.add_argument("--blow-up", type=int, default=3, metavar="OVER", help="a blow-up is this many over par (default 3)")
    p.add_argument(
        "--picture",
        type=Path,
        default=Path("wideberth.png"),
        help="where to write it (default wideberth.png)",
    )
    p.add_argument("--no-picture", action="store_true", help="write no picture")
    return p


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit code: 0, 2 for input that cannot be used, 130 after Ctrl-C."""
    arguments = parser().parse_args(argv)
    try:
        run(arguments)
    except (wb.InputError, OSError) as error:
        print(f"wideberth: {error}", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        return 130  # What a shell reports of a command that Ctrl-C has ended.
    return 0


def run(arguments: argparse.Namespace) -> None:
    """Rank the plans, say what was found and draw it."""
    data = files("wideberth") / "data"
    if arguments.hole is None:
        hole = wb.Hole.from_geojson((data / "alder-bend.geojson").read_text("utf-8"))
        print("Demo: the hole and the pupil are invented.\n")
    else:
        hole = wb.Hole.read(arguments.hole, hole=arguments.hole_ref)
    if arguments.handicap is not None:
        player = wb.Player.from_handicap(arguments.handicap)
    elif arguments.player is not None:
        player = read_player(arguments.player)
    else:
        player = wb.Player.from_json((data / "pupil.json").read_text("utf-8"))
    for warning in hole.warnings:
        print(f"note: {warning}")
    print(f"{hole}\n\n{player}\n")
    plans = wb.suggest_plans(hole, player)
    result = wb.compare(hole, player, plans, plays=arguments.plays, seed=arguments.seed, blow_up=arguments.blow_up)
    print(f"{result}\n\n{result.advice}\n\n{CAUTION}")
    if not arguments.no_picture:
        picture(result, plans[0], arguments.picture)


def read_player(path: Path) -> wb.Player:
    """Read a player document."""
    try:
        text = path.read_text("utf-8")
    except UnicodeDecodeError as error:
        raise wb.InputError(f"cannot read {path}: it is not UTF-8 text (byte {error.start})") from error
    return wb.Player.from_json(text)


def picture(result: wb.Comparison, boldest: wb.Plan, path: Path) -> None:
    """Draw 200 plays of the best and of the boldest plan (the longest club, at the pin) side by side."""
    try:
        import matplotlib
    except ImportError:
        print("\nNo picture: that needs matplotlib, pip install 'wideberth[plot]'")
        return
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
    print(f"\nPicture written to {path}")


if __name__ == "__main__":
    sys.exit(main())
