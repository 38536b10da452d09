"""A hole solved: the best shot from everywhere, and what every place and stroke is worth."""

from __future__ import annotations

import weakref
from typing import TYPE_CHECKING, Any, Literal

from wideberth import _wideberth as core
from wideberth._advice import Advice, Alternative
from wideberth._objective import Objective
from wideberth._value_map import ValueMap

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._gained import BlowUpLosses, StrokesGained
    from wideberth._plan_result import PlanResult
    from wideberth._plays import Plays
    from wideberth._wideberth import _Theme

Place = tuple[float, float] | core.Aim


#: The solutions there are in this process.
_LIVE: list[weakref.ref[Solution]] = []


class Solution:
    """A hole solved for a player: a strategy to be played like any other, and what it is worth from everywhere.

    Made by :func:`solve`, :func:`evaluate` and :func:`frontier`; goes into a plan as its ``then``. It is for the hole
    and the player it was solved for alone. Equal when it was made in the same way. A pickle holds how it was made, not
    the tables: a process that reads it back and has no such solution solves the hole again, with the same result to the
    last bit.
    """

    def __init__(self, solution: core.Solution, objective: Objective | None = None) -> None:
        """Made by :func:`solve`."""
        self._solution = solution
        #: What it is best at; None for fewest strokes on average.
        self.objective = objective
        _, _, _, cell, then = solution.made
        #: Yards between places with a value.
        self.cell = cell
        #: The name of the strategy that was valued; None where the hole was solved.
        self.then = then
        _LIVE[:] = [live for live in _LIVE if live() is not None]
        _LIVE.append(weakref.ref(self))

    @classmethod
    def _of(cls, solution: core.Solution) -> Solution:
        """Wrap what comes out of a plan."""
        kind, strokes, price, _, _ = solution.made
        return cls(solution, None if kind == "fewest" else Objective(kind, strokes, price))

    @property
    def hole(self) -> core.Hole:
        """The hole."""
        return self._solution.hole

    @property
    def player(self) -> core.Player:
        """The player."""
        return self._solution.player

    @property
    def _plays_for(self) -> str:
        """What it plays for, in words."""
        what = self.objective
        if self.then is not None:
            return f"nothing but what the strategy “{self.then}” does"
        if what is None:
            return "fewest strokes on average"
        if what.kind == "at_most":
            return f"a score of {what.strokes} or better"
        return f"few strokes where a score of {what.strokes} over par or worse counts {what.price:g} more"

    def expected_strokes(self, where: Place, lie: str | None = None) -> float:
        """Strokes to hole out by the shot that is played there, penalties included.

        Args:
            where: (x, y) in yards or an aim such as ``along(230)``.
            lie: how the ball lies, such as ``"rough"``; None for what the place gives (teed up on the tee itself).

        Raises:
            InputError: a place off the hole, out of bounds or in a penalty area; an unknown lie.

        """
        return self._solution.expected_strokes(where, lie)

    def chance(self, where: Place, lie: str | None = None, *, at_most: int | None = None) -> float:
        """Chance of holing out from a place in ``at_most`` strokes or fewer, penalties included; no sampling error.

        Of a solution that plays for a score it is the best chance there is with so many strokes left. Of any other it
        is the chance that it happens to have.

        Args:
            where: (x, y) in yards or an aim.
            lie: how the ball lies; None for what the place gives.
            at_most: strokes from there; None for as many as the solution plays for from the tee.

        Raises:
            InputError: as for :meth:`expected_strokes`; fewer than 1 stroke, or more than the solution tells of; no
                ``at_most`` for a solution that plays for no score.

        """
        if at_most is None and self.objective is None:
            raise core.InputError("at_most is None; this solution plays for no score, so it must be 1 to 24 strokes")
        return self._solution.chance(where, lie, at_most)

    @property
    def distribution(self) -> dict[int, float]:
        """Shares of plays from the tee by score, worked out, not played; the last score stands for more, too."""
        shares = self._solution.distribution()
        return {score: float(share) for score, share in enumerate(shares) if share > 0}

    def shot_from(self, where: Place, lie: str | None = None, *, at_most: int | None = None) -> Advice:
        """The shot that is played from a place, with the runner-up and what the usual mistakes cost.

        It is the choice that the solution plays when it is the ``then`` of a plan. For a lie that no ball of the hole
        can have there, such as sand on the fairway, it is the best that a long look finds.

        Args:
            where: (x, y) in yards or an aim.
            lie: how the ball lies; None for what the place gives.
            at_most: strokes left, of a solution that plays for a score; None for all it plays for.

        Raises:
            InputError: as for :meth:`chance`.

        """
        told = self._solution.shot_from(where, lie, at_most)
        runner_up = told["runner_up"]
        told["runner_up"] = Alternative(*runner_up) if runner_up else None
        told["mistakes"] = tuple(Alternative(*mistake) for mistake in told["mistakes"])
        return Advice(**told, costs_are_in=self._solution.costs_are_in)

    def expected_strokes_map(self, *, lie: str, cell: float = 4.0) -> ValueMap:
        """Strokes to hole out from everywhere, for a ball that lies so.

        Where a ball may lie so it is what the solution's own choice is worth, as in :meth:`expected_strokes`; elsewhere
        a ball is only thought to lie so, and the map is a shorter look.

        Args:
            lie: such as ``"fairway"``.
            cell: yards between values, 0.5 to 50.

        Raises:
            InputError: an unknown lie, a cell out of range.

        """
        x, y, values = self._solution.map(lie, cell, None)
        return ValueMap(values, x, y)

    def chance_map(self, *, lie: str, at_most: int, cell: float = 4.0) -> ValueMap:
        """The chance of holing out in ``at_most`` strokes or fewer from everywhere, for a ball that lies so.

        Args:
            lie: such as ``"fairway"``.
            at_most: strokes left.
            cell: yards between values, 0.5 to 50.

        Raises:
            InputError: an unknown lie, a number out of range.

        """
        if at_most is None:
            raise core.InputError("at_most is None; it must be a number of strokes, at least 1")
        x, y, values = self._solution.map(lie, cell, at_most)
        return ValueMap(values, x, y)

    def plot(
        self,
        ax: Axes | None = None,
        *,
        lie: str = "fairway",
        at_most: int | None = None,
        cell: float = 4.0,
        title: str | None = None,
        theme: _Theme = "light",
    ) -> Axes:
        """Draw what the hole is worth from everywhere, with the shots from the tee on; needs the extra ``plot``.

        Bands and labelled lines of equal strokes to hole out, or of equal chance, over the hole to scale. The dashed
        line goes through where the shots from the tee on end, each a solid strike without luck, with the clubs. Where a
        ball ends aside of the aim, for the player's usual miss or the wind, a cross marks the aim as far out.

        Args:
            ax: axes to draw on; None for a new figure.
            lie: how the ball is thought to lie everywhere, such as ``"rough"``.
            at_most: draw the chance of holing out in so many strokes or fewer; None for strokes.
            cell: yards between values, 0.5 to 50.
            title: title; None for the hole's name.
            theme: ``"light"`` or ``"dark"``.

        Returns:
            The axes, in yards from the tee: across the page to the right, and up the page towards the pin.

        Raises:
            InputError: a theme that there is not; as for :meth:`expected_strokes_map` and :meth:`chance_map`.
            ImportError: Matplotlib is not installed.

        """
        from wideberth import plot

        return plot.plot_values(self, ax, lie=lie, at_most=at_most, cell=cell, title=title, theme=theme)

    def gain_over(self, then: Literal["steady", "direct"]) -> float:
        """Strokes a play from the tee gained on a strategy that is not solved; both are worked out, not played."""
        from wideberth._solve import evaluate

        other = evaluate(self.hole, self.player, then, cell=self.cell)
        return self._solution.gain_over(other._solution)

    def strokes_gained(self, strokes: Plays | Any, *, split: bool = False) -> StrokesGained:
        """Value strokes that were played: strokes gained against the player's own expectation.

        What was to be expected before a stroke, less what is to be expected after it, less the strokes it took,
        penalties included. What is expected is what the solution's strategy takes from there; a dropped ball is worth
        what its drop is, a stroke that is played again what it was. Over a play the gains add up to what was to be
        expected from the first stroke, less the score. On average a player who plays the strategy gains nothing at any
        stroke.

        Args:
            strokes: plays of :func:`simulate`; or strokes that somebody wrote down, in the order in which they were
                played: a dict of columns or a data frame with ``x`` and ``y`` (where each was played from, yards in the
                plan of the hole) and, if need be, ``lie`` (a name; None for what the place gives, as in
                :meth:`expected_strokes`), ``penalty`` (penalty strokes it cost, 0 without the column), ``play``
                (which play it belongs to; one play without the column) and ``holed`` (True for the last stroke of every
                play, as is taken for granted without the column).
            split: True to tell of every stroke of :func:`simulate` besides what its *choice* gained (the shot that was
                played, as it was aimed, against the best shot from there; 0 for the best) and what its *execution* did
                (what came of it against what was to be expected of that shot), which add up to what it gained, and how
                far ``luck`` alone takes the execution of such a shot (a standard deviation). It takes about a
                millisecond a stroke. Of strokes that somebody wrote down nobody knows the aim: see :func:`review`.

        Raises:
            InputError: a row that is no stroke: the message names the row and the column; ``split`` for strokes that
                somebody wrote down.

        Example:
            >>> import wideberth as wb
            >>> hole = wb.Hole.sketch(par=3, length=150)
            >>> best = wb.solve(hole, wb.Player.from_handicap(15), cell=4)
            >>> strokes = {"x": [0, 6, 1], "y": [0, 141, 149], "lie": ["tee", "green", "green"]}
            >>> table = best.strokes_gained(strokes)
            >>> bool(abs(table.gained.sum() - (best.expected_strokes(hole.tee) - 3)) < 1e-9)
            True

        """
        from wideberth import _gained
        from wideberth._plays import Plays

        if isinstance(strokes, Plays):
            return _gained.of_plays(self._solution, strokes, split)
        if split:
            raise core.InputError("split is True; it must be False for strokes that are not plays of simulate()")
        return _gained.of_table(self._solution, strokes)

    def blow_up_losses(
        self,
        result: PlanResult,
        *,
        by: Literal["cause", "club", "stroke", "surface"] = "cause",
        plays: int | None = None,
        threads: int | None = None,
        progress: Any = None,
    ) -> BlowUpLosses:
        """Where the blow-ups of a plan lose their strokes.

        The plays of the comparison are played again, every stroke of a blow-up is valued as by :meth:`strokes_gained`,
        and what is lost is added up by kind of stroke. :attr:`PlanResult.blow_up_causes` tells what blow-ups begin
        with; this tells what it costs, and what is lost besides.

        Args:
            result: a plan of a comparison, such as ``comparison.best``.
            by: how strokes are told apart. ``"cause"``: by what went wrong with the stroke itself; ``"club"``: by the
                club, or the stroke around the green; ``"stroke"``: tee shots, approaches (all other full and partial
                swings), around the green, putts; ``"surface"``: by where the ball stopped, before any relief.
            plays: plays to look through, those of the comparison first; None for as many as it has.
            threads: number of threads; None for every core. The result does not depend on it.
            progress: as in :func:`compare`.

        Raises:
            InputError: before anything is played: a comparison of another hole or player than the solution's; a name or
                a number out of range.

        """
        from wideberth import _gained

        return _gained.blow_up_losses(self._solution, result, by, plays, threads, progress)

    def _made(self) -> tuple[Any, ...]:
        return (self.hole, self.player, self.objective, self.cell, self.then)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Solution):
            return NotImplemented
        return self._made() == other._made()

    __hash__ = None  # type: ignore[assignment]

    def __reduce__(self) -> tuple[Any, ...]:
        return (_again, self._made())

    def __copy__(self) -> Solution:
        return self

    def __deepcopy__(self, memo: dict[int, Any]) -> Solution:
        return self

    def __repr__(self) -> str:
        if self.then is not None:
            aim = f"{self.then}, valued"
        elif self.objective is None:
            aim = "fewest strokes"
        else:
            aim = repr(self.objective)
        tee = self.hole.tee
        worth = f"{self.expected_strokes(tee):.2f} strokes from the tee"
        if self.objective is not None and self.objective.kind == "at_most":
            worth += f", {100 * self.chance(tee):.1f} % in {self.objective.strokes} or fewer"
        if self._solution.cannot_be_finished():
            worth += "; the hole cannot be finished as it is, values tell no more"
        return f"<Solution of {self.hole.name}: {aim}; {worth}>"


def _again(
    hole: core.Hole, player: core.Player, objective: Objective | None, cell: float, then: str | None
) -> Solution:
    """Find the solution of which a pickle tells, or make it again."""
    # Solving makes solutions, so it cannot be known before they are.
    from wideberth._solve import evaluate, solve

    made = (hole, player, objective, cell, then)
    for live in _LIVE:
        solution = live()
        if solution is not None and solution._made() == made:
            return solution
    if then is not None:
        return evaluate(hole, player, then, cell=cell)
    return solve(hole, player, objective=objective, cell=cell)
