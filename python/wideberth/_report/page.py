"""The report: one HTML file that needs no network, to be read on a phone or printed on two sheets."""

from __future__ import annotations

from collections.abc import Sequence
from importlib.resources import files
from os import PathLike
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wideberth import _wideberth as core
from wideberth._advice import Advice, Alternative
from wideberth._compare import Comparison
from wideberth._files import file_at, write_whole
from wideberth._plan_result import PlanResult
from wideberth._plays import simulate
from wideberth._practice import PracticeGains
from wideberth._report import checks, round_page, words
from wideberth._report.usual import UsualWay, usual_way
from wideberth._rounds import PlayedRounds
from wideberth._solution import Solution
from wideberth._table import percent
from wideberth._target import Target

if TYPE_CHECKING:
    import jinja2

#: Plays whose balls are drawn, and those of which the clubs are told.
_DRAWN, _COUNTED = 200, 2_000
#: Most rows of the ranked table; the two plans looked at closely are always there.
_ROWS = 12
#: Plays of each task of the expectations.
_TASKS = 10_000
#: Scores above, seen in a smaller share of all plays than this, are told together with the last that is not.
_RARE = 0.006
#: What of the expectations is told.
_APPROACHES, _PUTTS = (75.0, 125.0, 175.0), (3.0, 6.0, 10.0, 30.0)


def report(
    of: Comparison | Target,
    *,
    solved: Solution | None = None,
    plans: Sequence[str] | None = None,
    played: PlayedRounds | None = None,
    practice: PracticeGains | None = None,
    path: str | PathLike[str],
    title: str | None = None,
) -> Path:
    """Write a comparison or a target for a round as one HTML file for a phone or for print; needs the extra ``report``.

    Of a comparison the page holds the question and the answer in words with its uncertainty, the ranked table, the hole
    with where the balls of two plans come to rest (one at a time on a screen, side by side in print), the distributions
    of their scores, what began their blow-ups, what is good enough for each shot, assumptions and cautions. Of a target
    it holds the answer, the budget with every hole to one scale, how the way to play turns with the score, the rounds
    as they are played now, where big numbers begin, and what practice is worth. It needs no network and no scripts,
    follows the reader's choice of light or dark, and is the same file for the same arguments.

    Args:
        of: what :func:`compare` returned, of two plans or more, or what :func:`break_score` returned.
        solved: a solution for the same hole and player, to tell the best there is: strokes from the tee, the best tee
            shot, the next best, and what the usual mistakes cost. None to leave that out.
        plans: names of the two plans to look at closely. None for the best and a bold one: of the others, that with the
            longest tee shot of those that then go at the pin, or else the runner-up.
        played: rounds of the course of a target by its player, to tell how it is played now. None to play 5,000,
            unadvised.
        practice: what practice is worth there. None to work it out over 500 rounds of each skill.
        path: the file, ending in ``.html`` or ``.htm``; one that is there is written over.
        title: the heading; None for the name of the hole, or of the course and the score to break.

    Returns:
        The path.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed: fewer than two plans, a
            plan that was not compared, a solution for another hole or player, rounds of another course, an argument
            that is of the other kind of page, a path of another ending or in a directory that there is not, an empty
            title.
        TypeError: something of another type than asked for.
        ImportError: Jinja or Matplotlib is not installed.

    Example:
        >>> import tempfile, pathlib
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=4, length=380, water=[wb.along(200, right=20)])
        >>> player = wb.Player.from_handicap(14)
        >>> result = wb.compare(hole, player, wb.suggest_plans(hole, player)[:3], plays=500, seed=1)
        >>> with tempfile.TemporaryDirectory() as folder:
        ...     page = wb.report(result, path=pathlib.Path(folder) / "report.html")
        ...     result.best.name in page.read_text("utf-8")
        True

    """
    if not isinstance(of, Comparison | Target):
        raise TypeError(f"of is {type(of).__name__}; it must be what compare() or break_score() returned")
    path = file_at(path, (".html", ".htm"))
    title = checks.kept_title(title)
    if isinstance(of, Target):
        checks.none_of("a comparison", solved=solved, plans=plans)
        round_page.check(of, played, practice)
        html = _environment().get_template("round.html.j2").render(round_page.told(of, played, practice, title))
    else:
        checks.none_of("a target", played=played, practice=practice)
        checks.from_the_tee(of)
        chosen = checks.two_plans(of, plans)
        checks.same_game(of, solved)
        html = _environment().get_template("report.html.j2").render(_told(of, solved, chosen, title))
    write_whole(path, html.encode("utf-8"))
    return path


def _environment() -> jinja2.Environment:
    """Templates that escape whatever they are given."""
    try:
        import jinja2
    except ImportError as error:
        raise ImportError("reports need Jinja: pip install 'wideberth[report]'") from error
    folder = files("wideberth._report") / "templates"
    return jinja2.Environment(
        loader=jinja2.FunctionLoader(lambda name: (folder / name).read_text("utf-8")),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _told(
    comparison: Comparison, solved: Solution | None, chosen: tuple[str, str], title: str | None
) -> dict[str, Any]:
    """Everything the template puts in place."""
    from wideberth._report.drawing import Sketch
    from wideberth.plot.theme import DARK, LIGHT

    hole, who = comparison.hole, comparison.player
    sketch = Sketch(hole)
    two = [comparison[name] for name in chosen]
    usual = [usual_way(hole, who, result.plan, plays=_COUNTED, seed=comparison._ranking.seed) for result in two]
    letters = _letters(usual)
    looked = [
        _looked_at(comparison, result, sketch)
        | {"scores": _scores(two, result), "aims": sketch.aims(way), "in_the_way": _in_the_way(way, letters)}
        for result, way in zip(two, usual, strict=True)
    ]
    header, rows, hidden = _ranked(comparison, chosen)
    return {
        "title": title or hole.name,
        "card": words.on_the_card(hole),
        "hole": hole.name,
        "question": _question(comparison),
        "answer": comparison.advice,
        "header": header,
        "rows": rows,
        "hidden": hidden,
        "footer": comparison._footer.split("\n"),
        "sketch": sketch,
        "letters": [(letter, sketch.letter(hole.features[number])) for number, letter in letters.items()],
        "looked": looked,
        "causes": _causes(looked),
        "over": comparison._ranking.blow_up_over_par,
        "drawn": _DRAWN,
        "solved": None if solved is None else _best_there_is(solved),
        "expectations": _expectations(who, comparison._ranking.seed),
        "assumptions": _assumptions(comparison),
        "not_modelled": words.NOT_MODELLED,
        "cautions": words.cautions(hole),
        "attribution": hole.attribution,
        "themes": (LIGHT, DARK),
        "version": core.__version__,
    }


def _question(comparison: Comparison) -> str:
    hole = comparison.hole
    return (
        f"Which of {len(comparison.plans)} plans should {words.player(comparison.player)} choose on {hole.name}, "
        f"a par {hole.par} of {hole.length:.0f} yards?"
    )


def _ranked(comparison: Comparison, chosen: tuple[str, str]) -> tuple[list[str], list[list[Any]], int]:
    """The header and the best rows of the ranked table with the two plans looked at, and how many rows are left out."""
    header, rows = comparison._rows()
    names = comparison.names
    cells = [[str(i), names[i - 1], *(_apart(cell) for cell in row[1:])] for i, row in enumerate(rows, start=1)]
    late = [row for row in cells[_ROWS:] if row[1] in chosen]
    kept = cells[: _ROWS - len(late)] + late
    return header, kept, len(cells) - len(kept)


def _apart(cell: str) -> tuple[str, str]:
    """A figure and its error, which goes below it where there is little room."""
    figure, _, error = cell.partition(" ± ")
    return figure, error


def _looked_at(comparison: Comparison, result: PlanResult, sketch: Any) -> dict[str, Any]:
    """One of the two plans looked at closely."""
    seed = comparison._ranking.seed
    strokes = simulate(comparison.hole, comparison.player, result.plan, plays=_COUNTED, seed=seed).columns()
    drawn = {name: column[strokes["play"] < _DRAWN] for name, column in strokes.items()}
    return {
        "name": result.name,
        "mean": f"{result.mean:.2f} ± {result.standard_error:.2f}",
        "blow_up": percent(result.blow_up, result.blow_up_error).replace(" ", "\N{NO-BREAK SPACE}"),
        "pattern": sketch.pattern(drawn),
        "causes": result.blow_up_causes,
        "good_enough": words.good_enough(comparison.player, comparison.par, strokes),
    }


def _letters(ways: list[UsualWay]) -> dict[int, str]:
    """A letter for whatever lies in the way of a stroke, by its place among the features, from the tee on."""
    seen = dict.fromkeys(way.number for usual in ways for leg in usual.legs for way in leg.in_the_way)
    return {number: chr(ord("A") + i % 26) + (f"{i // 26}" if i >= 26 else "") for i, number in enumerate(seen)}


def _in_the_way(usual: UsualWay, letters: dict[int, str]) -> list[tuple[str, list[tuple[str, str, str]]]]:
    """For each stroke with something in its way: where from; and letter, words and yards of what there is."""
    return [
        (leg.where, [(letters[way.number], way.words, way.yards) for way in leg.in_the_way])
        for leg in usual.legs
        if leg.in_the_way
    ]


def _scores(plans: list[PlanResult], result: PlanResult) -> list[dict[str, Any]]:
    """The bars of a distribution, over the same scores for some plans; the last one holds all above."""
    blow_up = result._blow_up_score
    first = min(min(plan.distribution) for plan in plans)
    last = max(max((s for s, share in p.distribution.items() if share >= _RARE), default=blow_up) for p in plans)
    last = max(last, blow_up)
    highest = max(max(*plan.distribution.values(), plan.probability(at_least=last)) for plan in plans)
    bars = []
    for score in range(first, last + 1):
        share = result.distribution.get(score, 0.0) if score < last else result.probability(at_least=last)
        bars.append(
            {
                "score": f"{score}" if score < last else f"{score}+",
                "percent": _whole_percent(share),
                "height": round(100 * share / highest, 1),
                "bad": score >= blow_up,
            }
        )
    return bars


def _whole_percent(share: float) -> str:
    """A share in whole percent; a trace of it is not nothing."""
    if 0.995 < share < 1:
        return ">99"
    return "<1" if 0 < share < 0.005 else f"{100 * share:.0f}"


def _causes(looked: list[dict[str, Any]]) -> list[tuple[str, list[tuple[str, int]]]]:
    """What began blow-ups, with the share of each plan as text and in whole percent for a bar."""
    names = sorted(
        {cause for plan in looked for cause in plan["causes"]},
        key=lambda cause: (-max(plan["causes"].get(cause, 0.0) for plan in looked), cause),
    )
    shares = [[plan["causes"].get(name, 0.0) for plan in looked] for name in names]
    return [
        (name, [(f"{_whole_percent(share)} %", round(100 * share)) for share in row])
        for name, row in zip(names, shares, strict=True)
    ]


def _best_there_is(solved: Solution) -> dict[str, Any]:
    """What a solution says of the tee shot."""
    advice = solved.shot_from(solved.hole.tee)
    return {
        "plays_for": solved._plays_for,
        "strokes": f"{advice.expected_strokes:.2f}",
        "chance": None if advice.chance is None else _chance(solved, advice.chance),
        "words": advice.words,
        "runner_up": None if advice.runner_up is None else (advice.runner_up.words, _cost(advice, advice.runner_up)),
        "mistakes": [(m.name, m.words, _cost(advice, m)) for m in advice.mistakes],
    }


def _chance(solved: Solution, chance: float) -> str:
    """The chance of what is played for, in words."""
    what, par = solved.objective, solved.hole.par
    most = 0 if what is None or what.strokes is None else what.strokes
    score = most if what is None or what.kind == "at_most" else par + most - 1
    return f"a score of {score} or better has a chance of {100 * chance:.1f} %"


def _cost(advice: Advice, other: Alternative) -> str:
    """What another shot costs, in words."""
    if advice.costs_are_in == "chance":
        points = 100 * other.cost
        return "costs next to no chance" if abs(points) < 0.05 else f"{points:.1f} points of chance lost"
    if abs(other.cost) < 0.005:
        return "costs next to nothing"
    return f"costs {other.cost:.2f} strokes"


def _expectations(who: core.Player, seed: int) -> list[tuple[str, str]]:
    """What a good-enough approach, stroke around the green and putt look like."""
    told = who.expectations(plays=_TASKS, seed=seed)
    approaches, around, putts = (t.columns() for t in (told.approaches, told.around_the_green, told.putts))
    rows = [
        (
            f"Approach from {approaches['yards'][i]:.0f} yd ({approaches['stroke'][i]})",
            f"within {words.feet(approaches['good_enough_ft'][i])} of the pin",
        )
        for i in range(len(approaches["yards"]))
        if approaches["yards"][i] in _APPROACHES
    ]
    rows += [
        (
            f"From {around['lie'][i]} at {around['yards'][i]:.0f} yd ({around['stroke'][i]})",
            f"within {words.feet(around['good_enough_ft'][i])} of the pin",
        )
        for i in range(len(around["yards"]))
        if around["yards"][i] == 20
    ]
    rows += [
        (
            f"Putt of {putts['feet'][i]:.0f} ft",
            f"{_whole_percent(putts['holed'][i])} % holed, {_whole_percent(putts['down_in_two'][i])} % in two or fewer",
        )
        for i in range(len(putts["feet"]))
        if putts["feet"][i] in _PUTTS
    ]
    return rows


def _assumptions(comparison: Comparison) -> list[str]:
    """What the numbers rest on."""
    hole, who, ranking = comparison.hole, comparison.player, comparison._ranking
    longest = who.tee_shot()
    band = words.bands(who).get(longest.club)
    width = "" if band is None else f"; two thirds of all shots finish within {words.aside(band)}"
    told = [
        f"{comparison.plays:,} plays of each plan on the same luck, seed {ranking.seed}.",
        f"Player: {words.player(who)}. Usual tee shot: {longest.club}, on average {longest.carry:.0f} yd of carry and "
        f"{longest.total:.0f} in all, mishits included{width}.",
        words.day(hole),
        f"{hole.slopes_in_words}.",
        f"A blow-up is {ranking.blow_up_over_par} over par or worse.",
    ]
    if comparison.player_draws:
        told.append(f"{comparison.player_draws} plausible players played every plan as well.")
    told += [f"Of the hole: {warning}" for warning in hole.warnings]
    told += [f"Of the player: {doubt}" for doubt in who.doubts]
    return told
