"""What one of the plans compared came to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wideberth import _wideberth as core
from wideberth._ranked import percent, said
from wideberth._table import worth

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._compare import Comparison
    from wideberth._wideberth import _Theme


class PlanResult:
    """What one plan came to over all its plays."""

    def __init__(self, comparison: Comparison, plan: core.Plan) -> None:
        """Made by ``compare``."""
        self._ranking = comparison._ranking
        self._comparison = comparison
        #: The plan.
        self.plan = plan

    @property
    def name(self) -> str:
        """The plan's name."""
        return self.plan.name

    @property
    def _called(self) -> str:
        """The name, and where a solution plays what that is."""
        name, solution = f"“{self.name}”", self.plan.then
        if isinstance(solution, str):
            return name
        if self.plan.instructions:
            return f"{name} (then the best shot from everywhere, for {solution._plays_for})"
        off_the_tee = solution.shot_from(solution.hole.tee).words
        return f"{name} (the best shot from everywhere, for {solution._plays_for}; off the tee: {off_the_tee})"

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
        return self._ranking.penalties(self.name)[0]

    @property
    def penalties_error(self) -> float:
        """Standard error of that mean, strokes."""
        return self._ranking.penalties(self.name)[1]

    @property
    def putts(self) -> float:
        """Mean strokes a play made from the putting green."""
        return self._ranking.putts(self.name)[0]

    @property
    def putts_error(self) -> float:
        """Standard error of that mean, strokes."""
        return self._ranking.putts(self.name)[1]

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
    def chance_best(self) -> float | None:
        """Share of the players drawn for whom this plan has the lowest mean; None if none were drawn.

        Players for whom several plans do equally well are shared out among them. Each player's means are known to
        the error of ``plays`` plays: where plans are closer than that, chance moves the shares towards equal ones.
        """
        return self._chance_best[0]

    @property
    def chance_best_error(self) -> float | None:
        """Binomial standard error of that share."""
        return self._chance_best[1]

    @property
    def _chance_best(self) -> tuple[float | None, float | None]:
        across = self._comparison._across
        return (None, None) if across is None else across.chance_best(self.name)

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
            seed: a whole number that fixes the luck; None for that of the comparison.
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
                f"mean {worth(self.mean, self.standard_error)}, {self._ranking.blow_up_over_par} over par or worse in "
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
            f"{self.name}: {said(self.mean, self.standard_error)}, blow-up {percent(self.blow_up, self.blow_up_error)}"
        )
