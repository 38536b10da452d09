"""Plans compared: the ranked table, each plan's result, and the advice in a sentence."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._progress import reporter
from wideberth._ranked import Ranked, percent, plays_or_usual

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._wideberth import _Theme

#: Columns of every table of a comparison; a checkpoint of such a name would hide one.
COLUMNS = (
    "plan",
    "mean",
    "standard_error",
    "behind",
    "behind_error",
    "double_bogey",
    "double_bogey_error",
    "blow_up",
    "blow_up_error",
    "penalties",
    "putts",
)


def compare(
    hole: core.Hole,
    player: core.Player,
    plans: Sequence[core.Plan],
    *,
    plays: int | None = None,
    precision: float | None = None,
    seed: int = 0,
    blow_up: int = 3,
    checkpoints: Mapping[str, core.Checkpoint] | None = None,
    maximum_score: int | None = None,
    threads: int | None = None,
    progress: Any = None,
) -> Comparison:
    """Play every plan many times with the same luck and rank them by mean score.

    Args:
        hole: the hole.
        player: the player.
        plans: one or more plans with different names.
        plays: plays of every plan (default 20,000). With ``precision``: the most plays allowed (default
            10,000,000).
        precision: run until the best plan's lead over every rival is known to within this many
            strokes (half the width of its 95 % interval, all rivals together); None to play a fixed number.
        seed: fixes the luck, and with it every result to the last bit, whatever the number of threads.
        blow_up: a blow-up is this many strokes over par or worse.
        checkpoints: milestones to count by name, such as ``{"on in three": first_putt(...)}``.
        maximum_score: the score at which the ball is picked up (Maximum Score, Rule 21.2); None to hole
            out.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal) in plays, or a tqdm bar.

    Returns:
        The comparison; its ``repr`` is the ranked table.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed.
        TypeError: something of another type than asked for, before anything is played.
        KeyboardInterrupt: within a fifth of a second of Ctrl-C.

    Example:
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=4, length=360, water=[wb.along(190, right=12)])
        >>> result = wb.compare(
        ...     hole,
        ...     wb.Player.from_handicap(12),
        ...     [
        ...         wb.Plan("driver", [wb.shot("driver", wb.along(220, left=8))], then="direct"),
        ...         wb.Plan("7-iron", [wb.shot("7-iron", wb.along(145))], then="direct"),
        ...     ],
        ...     plays=2_000,
        ...     seed=4,
        ... )
        >>> result.plays, sorted(result.names)
        (2000, ['7-iron', 'driver'])
        >>> abs(sum(result.best.distribution.values()) - 1) < 1e-12
        True
        >>> result.difference(result.best.name, result.names[1]).mean <= 0
        True

    """
    plans = list(plans)
    checkpoints = dict(checkpoints or {})
    for name in checkpoints:
        if name in COLUMNS:
            raise core.InputError(
                f"checkpoint {name!r} has the name of a column of the table; it must not be one of {', '.join(COLUMNS)}"
            )
    ranking = core.compare(
        hole,
        player,
        plans,
        plays=plays_or_usual(plays, precision),
        precision=precision,
        seed=seed,
        blow_up=blow_up,
        checkpoints=list(checkpoints.items()),
        maximum_score=maximum_score,
        threads=threads,
        progress=reporter(progress),
    )
    return Comparison(ranking, hole, player, plans)


class PlanResult:
    """What one plan came to over all its plays."""

    def __init__(self, comparison: Comparison, plan: core.Plan) -> None:
        """Made by :func:`compare`."""
        self._ranking = comparison._ranking
        self._comparison = comparison
        #: The plan.
        self.plan = plan

    @property
    def name(self) -> str:
        """The plan's name."""
        return self.plan.name

    @property
    def mean(self) -> float:
        """Mean score, strokes."""
        return self._ranking.mean(self.name)[0]

    @property
    def standard_error(self) -> float:
        """Standard error of the mean score, strokes."""
        return self._ranking.mean(self.name)[1]

    @property
    def distribution(self) -> dict[int, float]:
        """Share of plays by score, lowest score first; the shares add up to 1."""
        return self._ranking.distribution(self.name)

    def probability(self, *, at_least: int) -> float:
        """Share of plays that scored ``at_least`` strokes or more.

        Raises:
            InputError: a score outside 0 to 255.

        """
        return self._at_least(at_least)[0]

    def _at_least(self, score: int) -> tuple[float, float]:
        if not 0 <= score <= 255:
            raise core.InputError(f"at_least is {score}; it must be a score of 0 to 255")
        return self._ranking.at_least(self.name, score)

    def quantile(self, share: float) -> int:
        """The smallest score that a share (0 to 1) of plays do not exceed.

        Raises:
            InputError: a share outside 0 to 1.

        """
        return self._ranking.quantile(self.name, share)

    @property
    def blow_up(self) -> float:
        """Share of plays that blew up: so many over par or worse, as asked."""
        return self._at_least(self._blow_up_score)[0]

    @property
    def blow_up_error(self) -> float:
        """Standard error of the blow-up share."""
        return self._at_least(self._blow_up_score)[1]

    @property
    def _blow_up_score(self) -> int:
        return self._ranking.par + self._ranking.blow_up_over_par

    @property
    def double_bogey(self) -> float:
        """Share of plays that scored double bogey or worse."""
        return self._at_least(self._ranking.par + 2)[0]

    @property
    def double_bogey_error(self) -> float:
        """Standard error of the share of double bogeys or worse."""
        return self._at_least(self._ranking.par + 2)[1]

    @property
    def penalties(self) -> float:
        """Mean penalty strokes a play."""
        return self._ranking.penalties(self.name)

    @property
    def putts(self) -> float:
        """Mean strokes a play made from the putting green."""
        return self._ranking.putts(self.name)

    @property
    def checkpoints(self) -> dict[str, float]:
        """Share of plays that reached each checkpoint."""
        return {name: share for name, (share, _) in self._ranking.checkpoints(self.name).items()}

    @property
    def checkpoint_errors(self) -> dict[str, float]:
        """Standard errors of the checkpoint shares."""
        return {name: error for name, (_, error) in self._ranking.checkpoints(self.name).items()}

    @property
    def blow_up_causes(self) -> dict[str, float]:
        """What began the blow-ups: the first thing that went wrong, as shares of all blow-ups.

        Most frequent first; empty when nothing blew up. A penalty outranks the mishit that led to it.
        """
        return self._ranking.blow_up_causes(self.name)

    @property
    def unfinished(self) -> int:
        """Plays broken off at the stroke cap because the hole could not be finished."""
        return self._ranking.unfinished(self.name)

    def plot_shots(
        self,
        ax: Axes | None = None,
        *,
        plays: int = 200,
        seed: int | None = None,
        title: str | None = None,
        theme: _Theme | None = None,
    ) -> Axes:
        """Draw where the shots of some plays finish on the hole; needs the extra ``plot``.

        A dot is a ball at rest before any relief, in the colour of its stroke; a cross is one that cost a penalty. An
        ellipse is where two thirds of the balls of a stroke lie closest together. Putts are left out.

        Args:
            ax: axes to draw on, such as ``hole.plot()`` returns; None for a new picture of the hole.
            plays: number of plays drawn.
            seed: fixes the luck; None for that of the comparison.
            title: title; None for the plan's name.
            theme: ``"light"`` or ``"dark"``; None for that of the picture of the hole, or else light.

        Returns:
            The axes, in yards from the tee: across the page to the right, and up the page towards the pin.

        """
        from wideberth import plot

        comparison = self._comparison
        return plot.plot_shots(
            comparison.hole,
            comparison.player,
            self.plan,
            ax=ax,
            plays=plays,
            seed=self._ranking.seed if seed is None else seed,
            title=title,
            subtitle=(
                f"mean {self.mean:.2f}, {self._ranking.blow_up_over_par} over par or worse in "
                f"{percent(self.blow_up, self.blow_up_error)}; {plays:,} plays shown"
            ),
            theme=theme,
        )

    def __eq__(self, other: object) -> bool:
        """Equal when plan and comparison are."""
        if not isinstance(other, PlanResult):
            return NotImplemented
        return self.plan == other.plan and self._comparison == other._comparison

    __hash__ = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        """One line with the mean, its error and the blow-up share."""
        return (
            f"{self.name}: mean {self.mean:.3f} (standard error {self.standard_error:.3f}), "
            f"blow-up {percent(self.blow_up, self.blow_up_error)}"
        )


class Comparison(Ranked):
    """Plans in order of their mean score, best first."""

    _kind = "plan"
    _ranking: core.Ranking

    def __init__(self, ranking: core.Ranking, hole: core.Hole, player: core.Player, plans: Sequence[core.Plan]) -> None:
        """Made by :func:`compare`."""
        super().__init__(ranking, hole, player)
        by_name = {plan.name: plan for plan in plans}
        #: The results, lowest mean first.
        self.plans = [PlanResult(self, by_name[name]) for name in ranking.names]

    def _parts(self) -> tuple[Any, ...]:
        return *super()._parts(), [r.plan for r in self.plans]

    @property
    def names(self) -> list[str]:
        """Names of the plans, best first."""
        return [r.name for r in self.plans]

    @property
    def best(self) -> PlanResult:
        """The plan with the lowest mean score."""
        return self.plans[0]

    @property
    def plays(self) -> int:
        """Plays of every plan."""
        return self._ranking.plays

    @property
    def par(self) -> int:
        """Par of the hole."""
        return self._ranking.par

    @property
    def settled(self) -> bool:
        """True when the best plan's lead over every rival is more than chance explains.

        All 95 % intervals are taken to hold together (Bonferroni). In a run to a precision, a rival that is
        level with the best to within the precision counts as settled, too.
        """
        return self._ranking.settled

    def __getitem__(self, name: str) -> PlanResult:
        """The result of the plan called ``name``."""
        return self.plans[self._place(name)]

    def difference(self, first: str, second: str) -> core.Difference:
        """Paired difference in strokes, first minus second: negative means that the first is better.

        Raises:
            KeyError: a plan that was not compared; the message lists those that were.

        """
        return self._ranking.difference(first, second)

    def plot(self, ax: Axes | None = None, *, most: int = 8, title: str | None = None, theme: _Theme = "light") -> Axes:
        """Draw the plans best first: score distributions, blow-ups, differences to the best; needs the extra ``plot``.

        Args:
            ax: axes to draw on; None for a new figure.
            most: most plans shown, from the best down.
            title: title; None for the hole.
            theme: ``"light"`` or ``"dark"``.

        Returns:
            The axes given or made, as the frame of the picture; its ``child_axes`` are the panel of the scores and,
            where there are several plans, that of the differences.

        Raises:
            InputError: a theme that there is not, or no plan to show.
            ImportError: Matplotlib is not installed.

        """
        from wideberth import plot

        return plot.plot_scores(self, ax, most=most, title=title, theme=theme)

    @property
    def advice(self) -> str:
        """The finding in a plain sentence or two."""
        best = self.best
        over = self._ranking.blow_up_over_par
        risk = f"{over} over par or worse in {percent(best.blow_up, best.blow_up_error)} of plays"
        if len(self.plans) == 1:
            return f"“{best.name}” averages {best.mean:.2f} on this par {self.par}, {risk}."
        rival = self.plans[1]
        lead = self.difference(rival.name, best.name)
        gap = f"{lead.mean:.2f} strokes (95 % interval {lead.interval[0]:.2f} to {lead.interval[1]:.2f})"
        sentence = f"Play “{best.name}”: it averages {best.mean:.2f}, {gap} better than “{rival.name}”, with {risk}."
        if not self.settled:
            sentence = (
                f"Too close to call: “{best.name}” averages {best.mean:.2f}, {gap} better than “{rival.name}”; "
                f"it is {risk}. More plays would tell."
            )
        safest = min(self.plans, key=lambda r: r.blow_up)
        if safest.blow_up < best.blow_up - 2 * (safest.blow_up_error**2 + best.blow_up_error**2) ** 0.5:
            price = self.difference(safest.name, best.name)
            sentence += (
                f" The safest is “{safest.name}”: {over} over or worse in "
                f"{percent(safest.blow_up, safest.blow_up_error)}, for {price.mean:.2f} strokes more on average."
            )
        return sentence

    def columns(self) -> dict[str, np.ndarray[Any, Any]]:
        """The table as named NumPy columns, one row a plan, best first.

        ``plan`` (str), ``mean`` and ``standard_error`` (strokes), ``behind`` and ``behind_error`` (paired
        difference to the best plan, strokes), ``double_bogey`` and ``blow_up`` (shares of plays) with their
        ``_error``, ``penalties`` and ``putts`` (strokes a play), and one column for each checkpoint (share).
        """
        columns = {
            **self._first_columns(),
            "double_bogey": np.array([r.double_bogey for r in self.plans]),
            "double_bogey_error": np.array([r.double_bogey_error for r in self.plans]),
            "blow_up": np.array([r.blow_up for r in self.plans]),
            "blow_up_error": np.array([r.blow_up_error for r in self.plans]),
            "penalties": np.array([r.penalties for r in self.plans]),
            "putts": np.array([r.putts for r in self.plans]),
        }
        for name in self.best.checkpoints:
            columns[name] = np.array([r.checkpoints[name] for r in self.plans])
        return columns

    @property
    def _title(self) -> str:
        hole = self.hole
        plans = "1 plan" if len(self.plans) == 1 else f"{len(self.plans)} plans"
        return (
            f"{hole.name}, par {hole.par}, {hole.length:.0f} yd: {plans}, {self.plays:,} plays each, "
            f"seed {self._ranking.seed}"
        )

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        over = self._ranking.blow_up_over_par
        header = ["plan", "mean", "behind", "double+", f"{over} over+", "penalties", "putts"]
        rows = [
            [
                *first,
                percent(r.double_bogey, r.double_bogey_error),
                percent(r.blow_up, r.blow_up_error),
                f"{r.penalties:.2f}",
                f"{r.putts:.2f}",
            ]
            for first, r in zip(self._first_cells(), self.plans, strict=True)
        ]
        return header, rows

    @property
    def _footer(self) -> str:
        return f"± is one standard error; behind is paired.\n{self._settled_note}{self._unfinished_note}"
