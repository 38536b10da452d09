"""The page of a round: the answer, the budget, how it turns with the score, where strokes go, what to practise."""

from __future__ import annotations

from typing import Any

from wideberth import _wideberth as core
from wideberth._practice import PracticeGains, practice_gains
from wideberth._report import words
from wideberth._report.sheet import Said, budget, over_par, said
from wideberth._rounds import PlayedRounds, play_rounds
from wideberth._table import measured
from wideberth._target import Target

#: Rounds played, and rounds of each skill, where none are handed in.
_ROUNDS, _PRACTICE = 5_000, 500
#: Totals rarer than this at both ends are left out of the picture.
_RARE = 0.004
#: The picture of totals is so many units wide, whatever the number of its bars.
_TOTALS = 340
#: Skills and causes told.
_SKILLS, _CAUSES = 14, 6
#: Statistics told, as ``PlayedRounds.statistics`` names them.
_KEPT = (
    "fairways",
    "greens in regulation",
    "putts",
    "three-putts",
    "up and downs",
    "sand saves",
    "penalty strokes",
)


def told(
    target: Target, played: PlayedRounds | None, practice: PracticeGains | None, title: str | None
) -> dict[str, Any]:
    """Everything the template puts in place."""
    from wideberth.plot.theme import DARK, LIGHT

    course, who = target.course, target.player
    played = played or play_rounds(course, who, plays=_ROUNDS, seed=target.seed)
    practice = practice or practice_gains(course, who, target=target.target, plays=_PRACTICE, seed=target.seed)
    holes = said(target)
    return {
        "title": title or f"{course.name}: breaking {target.target}",
        "course": course.name,
        "card": f"par {course.par}, {course.length:,.0f} yd, {len(course)} holes",
        "question": f"Can {words.player(who)} break {target.target} on {course.name}, and how?",
        "answer": target.summary,
        "budget": budget(holes),
        "nines": _nines(target, holes),
        "turns": target.turns,
        "totals": _totals(played, target.target),
        "as_usual": played.summary,
        "how_played": "unadvised and with the habits golfers have"
        if set(_plans(played)) == {"direct"}
        else "as planned",
        "chance_as_usual": _chance(played, target.target),
        "statistics": _statistics(played),
        "causes": _bars([(cause, times) for cause, times in list(played.blow_up_causes.items())[:_CAUSES]]),
        "worst": _worst(played),
        "practice": _practice(practice),
        "practised": practice.summary,
        "share": f"{100 * practice.share:.0f} %",
        "rounds": f"{played.plays:,}",
        "rounds_each": f"{practice.plays:,}",
        "assumptions": _assumptions(target),
        "attribution": course.attribution,
        "not_modelled": words.NOT_MODELLED,
        "cautions": words.CAUTIONS + _cautions(target),
        "themes": (LIGHT, DARK),
        "version": core.__version__,
    }


def check(target: Target, played: PlayedRounds | None, practice: PracticeGains | None) -> None:
    """Refuse rounds and gains of another course or another player.

    Raises:
        InputError: they are of another.
        TypeError: something else was handed in.

    """
    for field, given, kind in (("played", played, PlayedRounds), ("practice", practice, PracticeGains)):
        if given is None:
            continue
        if not isinstance(given, kind):
            raise TypeError(f"{field} is {type(given).__name__}; it must be {kind.__name__} or None")
        for what, mine, theirs in (("course", target.course, given.course), ("player", target.player, given.player)):
            if mine != theirs:
                raise core.InputError(
                    f"{field} is of another {what}, {theirs.name!r}; it must be of that of the target, {mine.name!r}"
                )


def _nines(target: Target, holes: list[Said]) -> list[dict[str, Any]]:
    """The rows of the budget, nine holes at a time."""
    from wideberth._report.strips import strips

    drawn = strips([told.hole for told in holes])
    rows: list[dict[str, Any]] = []
    for place, (told, strip) in enumerate(zip(holes, drawn, strict=True)):
        ahead = holes[place + 1].number if place + 1 < len(holes) else None
        chance = None if ahead is None else target.chance_from(hole=ahead, strokes_so_far=told.total)
        rows.append(
            {
                "said": told,
                "strip": strip,
                "name": over_par(told.make, told.par),
                "made": words.share(told.made),
                "chance": "" if chance is None else words.share(chance),
                "leaves": f"leaves {told.leave:.0f} yd" if told.leave >= 1 else "",
            }
        )
    return [
        {
            "rows": part,
            "par": sum(row["said"].par for row in part),
            "yards": f"{sum(row['said'].hole.length for row in part):,.0f}",
            "make": sum(row["said"].make for row in part),
        }
        for part in (rows[start : start + 9] for start in range(0, len(rows), 9))
    ]


def _totals(played: PlayedRounds, to_break: int) -> dict[str, Any]:
    """The bars of the distribution of totals."""
    shares = played.distribution
    seen = [total for total, share in shares.items() if share >= _RARE]
    first, last = min(*seen, to_break - 1), max(*seen, to_break)
    step = _TOTALS / (last + 1 - first)
    highest = max(shares.values())
    bars = []
    for total in range(first, last + 1):
        share = shares.get(total, 0.0)
        bars.append(
            {
                "x": round((total - first + 0.1) * step, 2),
                "middle": round((total - first + 0.5) * step, 2),
                "height": round(100 * share / highest, 1),
                "good": total < to_break,
                "label": str(total) if total % 5 == 0 else "",
                "told": f"{total}: {100 * share:.1f} %",
            }
        )
    return {
        "bars": bars,
        "wide": _TOTALS,
        "bar": round(0.8 * step, 2),
        "at": round((to_break - first) * step, 2),
        "met": f"{to_break - 1} or fewer",
    }


def _chance(played: PlayedRounds, to_break: int) -> str:
    share, error = played.at_most(to_break - 1)
    return f"{100 * share:.1f} ± {100 * error:.1f} %"


def _plans(played: PlayedRounds) -> list[str]:
    return [str(name) for name in played.by_hole().columns()["plan"]]


def _statistics(played: PlayedRounds) -> list[tuple[str, str, str]]:
    """What golfers count, a round, and of how many chances."""
    c = played.statistics().columns()
    rows = []
    for i, name in enumerate(c["statistic"]):
        if name in _KEPT:
            share = c["share"][i]
            of = "" if share != share else f"{100 * share:.0f} % of {c['chances'][i]:.1f}"
            rows.append((str(name), measured(float(c["a_round"][i]), float(c["a_round_error"][i])), of))
    return rows


def _bars(rows: list[tuple[str, float]]) -> list[tuple[str, str, int]]:
    """Names, figures and lengths of bars in percent of the longest."""
    longest = max((value for _, value in rows), default=1.0)
    return [(name, f"{value:.2f} a round", round(100 * value / longest)) for name, value in rows]


def _worst(played: PlayedRounds) -> list[tuple[str, str, str]]:
    """The holes with most scores of two over par or worse, and what began most of these."""
    c = played.by_hole().columns()
    order = sorted(range(len(c["hole"])), key=lambda i: -c["double_or_worse"][i])[:5]
    return [(f"{c['hole'][i]}", f"{100 * c['double_or_worse'][i]:.0f} %", str(c["went_wrong"][i])) for i in order]


def _practice(gains: PracticeGains) -> list[dict[str, Any]]:
    """A bar a skill, most strokes first."""
    c = gains.columns()
    most = max(float(c["strokes_saved"][0]), 1e-9)
    rows = []
    for i in range(min(len(gains), _SKILLS)):
        saved, error = float(c["strokes_saved"][i]), float(c["strokes_saved_error"][i])
        like = float(c["like_handicap"][i])
        rows.append(
            {
                "skill": str(c["skill"][i]),
                "part": str(c["part"][i]),
                "saved": measured(saved, error),
                "width": max(round(100 * saved / most), 0),
                "like": "" if like != like else f"{like:.0f}",
            }
        )
    return rows


def _cautions(target: Target) -> tuple[str, ...]:
    """What there is near each hole that nobody plays over."""
    holes = zip(target.course.numbers, target.course.holes, strict=True)
    return tuple(f"On hole {n}, {caution}: never play over it." for n, hole in holes for caution in hole.cautions)


def _assumptions(target: Target) -> list[str]:
    """What the numbers rest on."""
    who = target.player
    longest = who.tee_shot()
    told = [
        f"{target.plays:,} plays of each way on each hole, seed {target.seed}; the chance of the total is worked "
        "out from them.",
        f"Player: {words.player(who)}. Usual tee shot: {longest.club}, on average {longest.carry:.0f} yd of carry and "
        f"{longest.total:.0f} in all, mishits included.",
        "Holes are independent of each other: a bad hole makes the next no worse.",
    ]
    days = {words.day(hole) for hole in target.course.holes}
    told += sorted(days) if len(days) == 1 else ["The conditions differ from hole to hole."]
    told += [
        f"Of hole {n}: {w}" for n, h in zip(target.course.numbers, target.course.holes, strict=True) for w in h.warnings
    ]
    told += [f"Of the player: {doubt}" for doubt in who.doubts]
    return told
