"""What is refused before anything is played or written."""

from __future__ import annotations

from collections.abc import Sequence

from wideberth import _wideberth as core
from wideberth._compare import Comparison
from wideberth._given import shown, text
from wideberth._solution import Solution


def kept_title(title: str | None) -> str | None:
    """The title, if it says anything.

    Raises:
        InputError: an empty title, or one with control characters.
        TypeError: something else than text.

    """
    if title is None:
        return None
    if not text("title", title).strip():
        raise core.InputError(f"title is {title!r}; it must have a letter, or be None for the usual one")
    return title


def from_the_tee(comparison: Comparison) -> None:
    """Refuse a comparison whose plays began elsewhere: a sheet tells of a hole from the tee.

    Raises:
        InputError: play began elsewhere.

    """
    if comparison.start is not None:
        raise core.InputError(
            f"comparison begins at {comparison.start[0]}; it must begin on the tee, which a sheet tells the way from"
        )


def none_of(whose: str, **given: object) -> None:
    """Refuse what belongs to the page of something else.

    Raises:
        InputError: one was given.

    """
    for field, value in given.items():
        if value is not None:
            told = type(value).__name__
            raise core.InputError(f"{field} is of type {told}; it must be left out: it belongs to the page of {whose}")


def two_plans(comparison: Comparison, plans: Sequence[str] | None) -> tuple[str, str]:
    """The names of the two plans that are looked at closely: those asked for, or the best and a bold rival.

    Raises:
        InputError: fewer than two plans, another number of names than two, a name twice, or one not compared.

    """
    names = comparison.names
    if len(names) < 2:
        raise core.InputError(f"comparison has 1 plan, {names[0]!r}; a report needs at least 2 to compare")
    if plans is None:
        return names[0], rival(comparison)
    asked = [plans] if isinstance(plans, str) else list(plans)
    if len(asked) != 2 or asked[0] == asked[1]:
        raise core.InputError(f"plans is {shown(asked)}; it must be the names of 2 different plans")
    for name in asked:
        if name not in names:
            raise core.InputError(f"plans has {shown(name)}; it must be two of {', '.join(map(repr, names))}")
    return asked[0], asked[1]


def rival(comparison: Comparison) -> str:
    """The boldest plan but the best: the longest tee shot of those that then go at the pin; else the runner-up."""
    bold = [
        (longest, r.name)
        for r in comparison.plans[1:]
        if r.plan.then == "direct" and (longest := _tee_shot_yards(comparison, r.plan)) is not None
    ]
    # The first of equals is the better.
    return max(bold, key=lambda found: found[0])[1] if bold else comparison.names[1]


def _tee_shot_yards(comparison: Comparison, plan: core.Plan) -> float | None:
    """How far the club goes that the plan takes on the tee; None where no club is told."""
    from wideberth._report.words import instruction

    told = [instruction(i) for i in plan.instructions[:1]]
    if not told or told[0].club is None:
        return None
    return float(comparison.player.club(told[0].club).total)


def same_game(comparison: Comparison, solved: Solution | None) -> None:
    """Refuse a solution for another hole or another player.

    Raises:
        InputError: it is for another.

    """
    if solved is None:
        return
    if not isinstance(solved, Solution):
        raise TypeError(f"solved is {type(solved).__name__}; it must be a Solution or None")
    for what, mine, theirs in (
        ("hole", comparison.hole, solved.hole),
        ("player", comparison.player, solved.player),
    ):
        if mine != theirs:
            raise core.InputError(
                f"solved is for another {what}, {theirs.name!r}; "
                f"it must be for the {what} of the comparison, {mine.name!r}, unchanged"
            )
