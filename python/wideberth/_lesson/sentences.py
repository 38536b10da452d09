"""The answer in a sentence."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import wideberth as wb
from wideberth import _wideberth as core
from wideberth._ranked import alike
from wideberth._table import worth

if TYPE_CHECKING:
    from wideberth._lesson.answers import Situation

#: A difference of fewer standard errors than this is not told as one.
_CLEAR = 2.0


def error_told(error: float, places: int) -> str:
    """A standard error as a screen shows it; nothing where none is known, or where all plays came to the same."""
    if not error > 0:
        return ""
    told = f"{error:.{places}f}"
    return told if float(told) > 0 else f"{error:.1g}"


def gap(difference: core.Difference) -> str:
    """How much better or worse a shot is than another, or that the plays do not tell."""
    mean, error = difference.mean, difference.standard_error
    if alike(difference):
        return "the same in every play"
    if not abs(mean) > _CLEAR * error:
        within = worth(_CLEAR * error, error)
        return f"level to within {within}" if float(within) > 0 else "level"
    told = worth(abs(mean), error)
    if float(told) == 0:
        return "next to level"
    return f"{told}\u00a0±\u00a0{error_told(error, 2)} {'better' if mean < 0 else 'worse'}"


def answer(now: Situation, result: wb.Comparison, against: Mapping[str, core.Difference]) -> dict[str, str]:
    """What a shot comes to (``lead``), and how that is next to others (``than``)."""
    from wideberth._lesson.answers import BEST, FLAG, KEPT, MINE

    mean, error = result._ranking.mean(MINE)
    words = now.shots[MINE]["words"].partition(", finishing")[0]
    parts = []
    for name in (BEST, FLAG, KEPT):
        if name in against:
            told = gap(against[name])
            parts.append(f"{told} {'than' if told.endswith(('better', 'worse')) else 'with'} {name}")
        elif name == BEST:
            parts.append("the best there is")
    # "Level with the best shot", "the same in every play as at the flag".
    than = "; ".join(part.replace("every play with", "every play as") for part in parts)
    return {
        "lead": f"{words[:1].upper()}{words[1:]}: {worth(mean + now.view.played, error)} strokes",
        "than": f"{than[:1].upper()}{than[1:]}." if than else "",
    }
