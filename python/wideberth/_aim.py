"""An aim sweep: the same tee shot aimed a little more to the left or to the right, all on the same luck."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Any, SupportsFloat

import numpy as np

from wideberth import _wideberth as core
from wideberth._compare import Comparison, compare
from wideberth._given import listed, number, of_kind, shown
from wideberth._plan_result import PlanResult
from wideberth._strategy import Strategy
from wideberth._table import Columns, Table, Whole, percent

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._wideberth import _Theme

#: Aims that are played when none are given, yards to the right.
USUAL_AIMS = tuple(range(-30, 31, 5))
#: The most aims of one sweep, each of which is a plan.
_MOST_AIMS = 500
#: Yards off the line of play beyond which no aim is taken.
FARTHEST = 150.0


def aim_sweep(
    hole: core.Hole,
    player: core.Player,
    *,
    club: str = "driver",
    aims: Sequence[SupportsFloat] | None = None,
    plays: int | None = None,
    precision: float | None = None,
    seed: core._Seed = 0,
    blow_up: int = 3,
    maximum_score: int | None = None,
    then: core._Then | Strategy = "steady",
    at: core._Place | None = None,
    lie: core._Lie | None = None,
    threads: int | None = None,
    progress: Any = None,
) -> AimSweep:
    """Play the tee shot at one aim after another, all on the same luck, and rank the aims by mean score.

    The club is swung in full over a point as far along the line of play as it usually goes, so many yards to the right
    of that line or to the left; the rest of the hole is played by ``then``. With ``at`` it is the stroke from there.

    Args:
        hole: the hole.
        player: the player.
        club: the club of the tee shot.
        aims: two or more different aims, yards to the right of the line of play (negative: to the left), -150 to 150;
            None for every 5 yards from 30 left to 30 right.
        plays: plays of every aim (default 20,000), or with ``precision`` the most plays.
        precision: as in :func:`compare`.
        seed: as in :func:`compare`.
        blow_up: a blow-up is this many strokes over par or worse.
        maximum_score: the score at which the ball is picked up (Maximum Score, Rule 21.2); None to hole out.
        then: what plays the rest of the hole, as in a ``Plan``.
        at: where the stroke is played from, as in :func:`compare`; None for the tee.
        lie: the lie there.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal) in plays, or a tqdm bar.

    Returns:
        The sweep; its ``repr`` is a table in the order of the aims, and ``plot`` draws it.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed.
        TypeError: something of another type than asked for, before anything is played.
        KeyboardInterrupt: within a fifth of a second of Ctrl-C.

    Example:
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=4, length=360, water=[wb.along(190, right=12)])
        >>> sweep = wb.aim_sweep(hole, wb.Player.from_handicap(12), aims=[-20, 0, 20], plays=2_000, seed=4)
        >>> [float(yards) for yards in sweep.columns()["aim_right"]]
        [-20.0, 0.0, 20.0]
        >>> sweep.best.aim_right < 20
        True

    """
    of_kind("hole", hole, core.Hole, "a Hole")
    of_kind("player", player, core.Player, "a Player")
    of_kind("club", club, str, "text")
    yards = _checked(aims)
    behind = 0.0 if at is None else core.along_line(hole, at)
    if not math.isfinite(behind):
        raise core.InputError(f"at is {shown(at)}; it must be finite numbers of yards")
    far = min(behind + player.club(club).total, hole.length)
    plans = [core.Plan(_words(y), [core.shot(club, core.along(far, right=y))], then=then) for y in yards]
    comparison = compare(
        hole,
        player,
        plans,
        plays=plays,
        precision=precision,
        seed=seed,
        blow_up=blow_up,
        maximum_score=maximum_score,
        at=at,
        lie=lie,
        threads=threads,
        progress=progress,
    )
    return AimSweep(comparison, club, yards)


def _checked(aims: Sequence[SupportsFloat] | None) -> list[float]:
    """The aims in order, or what is wrong with them."""
    given = listed("aims", USUAL_AIMS if aims is None else aims, "yards to the right", _MOST_AIMS)
    yards = sorted(number(f"aims[{i}]", aim) for i, aim in enumerate(given))
    if len(yards) < 2:
        raise core.InputError(f"aims holds {len(yards)}; it must hold two or more")
    for aim in yards:
        if not -FARTHEST <= aim <= FARTHEST:
            raise core.InputError(f"aims holds {aim:g}; each must be -{FARTHEST:g} to {FARTHEST:g} yards to the right")
    for one, next_one in pairwise(yards):
        if _words(one) == _words(next_one):
            raise core.InputError(f"aims holds {one:g} twice; aims must differ by a tenth of a yard or more")
    return yards


def _words(yards: float) -> str:
    """An aim as a coach says it."""
    told = round(abs(yards), 1)
    if not told:
        return "on the line"
    return f"{told:g} {'right' if yards > 0 else 'left'}"


class SweptAim(Whole):
    """One aim of a sweep."""

    def __init__(self, aim_right: float, result: PlanResult) -> None:
        """Made by :func:`aim_sweep`."""
        #: Yards to the right of the line of play; negative to the left.
        self.aim_right = aim_right
        #: What it came to.
        self.result = result

    @property
    def words(self) -> str:
        """The aim in words, such as ``10 left``."""
        return _words(self.aim_right)

    def _parts(self) -> tuple[Any, ...]:
        return self.aim_right, self.result

    def __repr__(self) -> str:
        """The aim, and what it came to."""
        return repr(self.result)


class AimSweep(Table, Whole):
    """Aims of the same tee shot on the same luck, from the left to the right."""

    def __init__(self, comparison: Comparison, club: str, aims: Sequence[float]) -> None:
        """Made by :func:`aim_sweep`."""
        #: The aims as plans compared, each called by its aim in words.
        self.comparison = comparison
        #: The club of the tee shot.
        self.club = club
        #: The aims, from the left to the right.
        self.aims = [SweptAim(yards, comparison[_words(yards)]) for yards in aims]

    @property
    def best(self) -> SweptAim:
        """The aim with the lowest mean score."""
        name = self.comparison.best.name
        return next(aim for aim in self.aims if aim.result.name == name)

    @property
    def settled(self) -> bool:
        """True when the best aim's lead over every other is more than chance explains."""
        return self.comparison.settled

    def columns(self) -> Columns:
        """The sweep as named NumPy columns, one row an aim, from the left to the right.

        ``aim_right`` (yards), ``mean`` and ``standard_error`` (strokes), ``behind`` and ``behind_error`` (paired
        difference to the best aim, strokes), ``blow_up`` (share of plays) and ``blow_up_error``.
        """
        compared, names = self.comparison.columns(), self.comparison.names
        rows = [names.index(aim.result.name) for aim in self.aims]
        told = ("mean", "standard_error", "behind", "behind_error", "blow_up", "blow_up_error")
        aims = np.array([aim.aim_right for aim in self.aims])
        return {"aim_right": aims, **{name: compared[name][rows] for name in told}}

    def plot(self, ax: Axes | None = None, *, title: str | None = None, theme: _Theme = "light") -> Axes:
        """Draw the mean score and the share of blow-ups by aim; needs the extra ``plot``.

        Args:
            ax: axes to draw on; None for a new figure.
            title: title; None for the hole and the club.
            theme: ``"light"`` or ``"dark"``.

        Returns:
            The axes given or made, as the frame of the picture; its ``child_axes`` are the panels of the score and of
            the blow-ups.

        Raises:
            InputError: a theme that there is not.
            ImportError: Matplotlib is not installed.

        """
        from wideberth import plot

        return plot.plot_aim(self, ax, title=title, theme=theme)

    def _parts(self) -> tuple[Any, ...]:
        return self.comparison, self.club, [aim.aim_right for aim in self.aims]

    @property
    def _title(self) -> str:
        hole, comparison = self.comparison.hole, self.comparison
        return (
            f"{hole.name}, par {hole.par}, {hole.length:.0f} yd: aims of the {self.club}{comparison._from}, "
            f"{comparison._played}, seed {comparison._ranking.seed}"
        )

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        over = self.comparison._ranking.blow_up_over_par
        compared = dict(zip(self.comparison.names, self.comparison._first_cells(), strict=True))
        rows = []
        for aim in self.aims:
            _, mean, behind = compared[aim.result.name]
            rows.append([aim.words, mean, behind or "best", percent(aim.result.blow_up, aim.result.blow_up_error)])
        return ["aim", "mean", "behind", f"{over} over+"], rows

    @property
    def _footer(self) -> str:
        settled = self.comparison._settled_words("aim")
        return (
            f"Aims are yards off the line of play. {self.comparison._error_note}\n"
            f"{settled}{self.comparison._unfinished_note}"
        )
