"""What one of the plans compared came to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wideberth import _wideberth as core
from wideberth._result import Result
from wideberth._strategy import Strategy
from wideberth._table import percent, worth

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._compare import Comparison
    from wideberth._wideberth import _Theme


class PlanResult(Result):
    """What one plan came to over all its plays."""

    def __init__(self, comparison: Comparison, plan: core.Plan) -> None:
        """Made by ``compare``."""
        super().__init__(comparison, plan.name)
        self._comparison = comparison
        #: The plan.
        self.plan = plan

    @property
    def _called(self) -> str:
        """The name, and where a solution plays what that is."""
        name, solution = f"“{self.name}”", self.plan.then
        if isinstance(solution, str | Strategy):
            return name
        if self.plan.instructions:
            return f"{name} (then the best shot from everywhere, for {solution._plays_for})"
        if self._ranking.start is not None:
            return f"{name} (the best shot from everywhere, for {solution._plays_for})"
        off_the_tee = solution.shot_from(solution.hole.tee).words
        return f"{name} (the best shot from everywhere, for {solution._plays_for}; off the tee: {off_the_tee})"

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
        at, lie = self._ranking.start or (None, None)
        return plot.plot_shots(
            comparison.hole,
            comparison.player,
            self.plan,
            ax=ax,
            plays=plays,
            seed=self._ranking.seed if seed is None else seed,
            at=at,
            lie=lie,
            title=title,
            subtitle=(
                f"mean {worth(self.mean, self.standard_error)}, {self._ranking.blow_up_over_par} over par or worse in "
                f"{percent(self.blow_up, self.blow_up_error)}; {plays:,} plays shown"
            ),
            theme=theme,
        )
