"""Plans compared: the ranked table, and the advice in a sentence."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from wideberth import _wideberth as core
from wideberth._given import listed as listed_of
from wideberth._given import shown
from wideberth._plan_result import PlanResult
from wideberth._ranked import listed, strokes
from wideberth._scores import Scores, checked
from wideberth._table import Cell, Columns, measured, percent, share, words, worth

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from wideberth._wideberth import _Theme

#: More plans than may be compared: they are not even looked at.
_MOST_PLANS = 10_000


def compare(
    hole: core.Hole,
    player: core.Player,
    plans: Sequence[core.Plan],
    *,
    luck: Literal["common", "even"] = "common",
    plays: int | None = None,
    precision: float | None = None,
    seed: core._Seed = 0,
    blow_up: int = 3,
    checkpoints: Mapping[str, core.Checkpoint] | None = None,
    maximum_score: int | None = None,
    player_draws: int | None = None,
    at: core._Place | None = None,
    lie: core._Lie | None = None,
    threads: int | None = None,
    progress: Any = None,
) -> Comparison:
    """Play every plan many times with the same luck and rank them by mean score.

    Args:
        hole: the hole.
        player: the player.
        plans: one or more plans with different names.
        luck: ``"common"``: play by play all plans meet the same luck, so that they differ in what they are and not in
            their luck. ``"even"``: luck is dealt out evenly to the plays of each plan, which takes fewer of them where
            much is asked for; see :attr:`Comparison.luck`. It takes neither ``player_draws`` nor a strategy of your
            own, and the luck is not that of ``"common"``.
        plays: plays of every plan (default 20,000). With ``precision``: the most plays allowed (default
            10,000,000). On even luck 64 to 3,200,000, rounded up to 32 sets of equal size, with ``precision`` at least
            1,024.
        precision: run until the best plan's lead over every rival is known to within this many strokes (half the
            width of its 95 % interval, all rivals together); None to play a fixed number. On even luck it is played in
            rounds, each anew with more plays than the last, and the last alone is told.
        seed: a whole number, 0 to 2**64 - 1, or what NumPy draws one of (a ``Generator``, ``BitGenerator`` or
            ``SeedSequence``); it fixes the luck, and with it every result to the last bit, whatever the number of
            threads.
        blow_up: a blow-up is this many strokes over par or worse.
        checkpoints: milestones to count by name, such as ``{"on in three": first_putt(...)}``.
        maximum_score: the score at which the ball is picked up (Maximum Score, Rule 21.2); None to hole out.
        player_draws: draw so many plausible players (2 to 1,000; 40 is usual) and let each play every plan ``plays``
            times as well (with ``precision`` at most 20,000), to see whether the advice holds though the player is not
            known exactly: for how many of them each plan is best, and what not knowing costs. They are drawn from what
            the shots of ``Player.from_shots`` leave open, or from how golfers of one level differ (common practice, no
            source). Only their clubs differ. None to take the player as known.
        at: where every play begins, (x, y) in yards or a place such as ``along(250, left=8)``; None for the tee.
        lie: the lie there, such as ``"rough"``; None for what the ground gives.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal) in plays, or a tqdm bar; where a plan goes on by ``"best"``, first in
            thousandths of a hole solved.

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

        The same on even luck, and how many times as many independent plays would tell as much:

        >>> plans = [r.plan for r in result.plans]
        >>> even = wb.compare(hole, wb.Player.from_handicap(12), plans, luck="even", plays=6_400, seed=4)
        >>> even.difference(*even.names).variance_factor > 1
        True

        Is that the advice for every golfer of handicap 12, or must more be known of this one?

        >>> advice = wb.compare(hole, wb.Player.from_handicap(12), plans, plays=300, player_draws=20)
        >>> 0 <= advice.best.chance_best <= 1 and advice.cost_of_not_knowing >= 0
        True

    """
    asked = locals()
    plans = asked["plans"] = listed_of("plans", plans, "plans", _MOST_PLANS)
    if not isinstance(luck, str) or luck not in ("common", "even"):
        raise core.InputError(f'luck is {shown(luck)}; it must be "common" or "even"')
    if luck == "even" and player_draws is not None:
        raise core.InputError(f'player_draws is {shown(player_draws)}; with luck="even" it must be None')
    asked["checkpoints"] = checked(checkpoints, "plan")
    ranking, across = core.compare(asked)
    return Comparison(ranking, hole, player, plans, across)


class Comparison(Scores[PlanResult]):
    """Plans in order of their mean score, best first."""

    _kind = "plan"

    def __init__(
        self,
        ranking: core.Ranking,
        hole: core.Hole,
        player: core.Player,
        plans: Sequence[core.Plan],
        across: core.AcrossPlayers | None = None,
    ) -> None:
        """Made by :func:`compare`."""
        super().__init__(ranking, hole)
        #: The player.
        self.player = player
        self._across = across
        by_name = {plan.name: plan for plan in plans}
        #: The results, lowest mean first.
        self.plans = [PlanResult(self, by_name[name]) for name in ranking.names]
        self._results = self.plans

    def _parts(self) -> tuple[Any, ...]:
        return *super()._parts(), self.player, [r.plan for r in self.plans], self._across

    @property
    def luck(self) -> Literal["common", "even"]:
        """``"common"`` where play by play all plans met the same luck, ``"even"`` where it was dealt out evenly.

        On even luck the plays of a plan are made side by side in 32 sets. Before every stroke the balls of a set are
        put in order, by lie and by the strokes to be expected from there, and luck is dealt out to them evenly: no set
        has much more than its share of mishits, or of good luck with putts of any one length. Every play by itself is
        as random as ever, so means and shares are unbiased; only errors even out (array-RQMC, L'Ecuyer, Lécot and
        Tuffin 2008). Standard errors are told from how far the sets differ.

        What it gains grows with the number of plays, and is reported: ``variance_factor`` of a difference says how many
        times as many independent plays would be needed. Plays are not tied to each other across plans, so that it
        cannot be told in how many plays one plan beats another.
        """
        return "even" if self._ranking.is_even else "common"

    @property
    def player_draws(self) -> int:
        """How many plausible players were drawn; 0 if the player was taken as known."""
        return 0 if self._across is None else self._across.draws

    @property
    def cost_of_not_knowing(self) -> float | None:
        """What not knowing the player exactly costs, strokes a play of the hole; None if no players were drawn.

        How much better the players drawn would score on average if each played the plan that is best for it, and not
        all the one that is best on average: the expected value of perfect information. More shots cannot save more.
        """
        return None if self._across is None else self._across.cost[0]

    @property
    def cost_of_not_knowing_error(self) -> float | None:
        """Standard error of that cost, strokes."""
        return None if self._across is None else self._across.cost[1]

    @property
    def worth_measuring(self) -> dict[str, float]:
        """The clubs that the plans use, with how much of the lead hangs on each: the first is the one to measure.

        The share (0 to 1) of the differences between the players' leads that the club's own figures explain. Clubs of
        one bag are alike, so the shares add up to more than 1. Empty with fewer than 21 players drawn.
        """
        return {} if self._across is None else dict(self._across.clubs)

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
        if self._ranking.cannot_be_finished:
            return self._no_finish
        over = self._ranking.blow_up_over_par
        risk = f"{over} over par or worse in {percent(best.blow_up, best.blow_up_error)} of plays"
        mean = worth(best.mean, best.standard_error)
        if len(self.plans) == 1:
            return f"{best._called} averages {mean} on this par {self.par}, {risk}."
        sentence = self._finding(mean, risk)
        if self._ranking.safer is not None:
            safest = self[self._ranking.safer]
            price = self.difference(safest.name, best.name)
            sentence += (
                f" The safest is “{safest.name}”: {over} over or worse in "
                f"{percent(safest.blow_up, safest.blow_up_error)}, for {strokes(price)} more on average."
            )
        if self._across is not None:
            chance, error = self._across.chance_best(best.name)
            sentence += f" “{best.name}” is best for {percent(chance, error)} of the players it may be."
            sentence += f"{self._other_choice} {self._more_shots}"
        return sentence

    def _finding(self, mean: str, risk: str) -> str:
        """Which plan to play, and by how much it is better than the next."""
        best, same = self.best.name, self._alike()
        others = [name for name in self.names[1:] if name not in same]
        if not others:
            return f"{listed(self.names)} played alike: {self._same}. They average {mean}, with {risk}."
        lead = self.difference(others[0], best)
        gap = strokes(lead)
        if self.plays > 1:
            low, high = (worth(end, lead.standard_error) for end in lead.interval)
            gap += f" (95 % interval {low} to {high})"
        ahead = f"{gap} better than “{others[0]}”" if lead.mean else f"as much as “{others[0]}”"
        who, averages, is_it = self.best._called, "averages", "it is"
        if same:
            who = f"{listed([best, *same])}, which played alike ({self._same}),"
            averages, is_it = "average", "they are"
        if not self.settled:
            return f"Too close to call: {who} {averages} {mean}, {ahead}; {is_it} {risk}. More plays would tell."
        if others[0] in self._level():
            either = " or ".join(f"“{name}”" for name in [best, *same, others[0]])
            level = "level to within the precision asked for"
            return f"Play {either}, {level}: {who} {averages} {mean}, {ahead}, with {risk}."
        if same:
            choice = " or ".join(f"“{name}”" for name in [best, *same])
            return f"Play {choice}, which played alike ({self._same}): they average {mean}, {ahead}, with {risk}."
        return f"Play {who}: it averages {mean}, {ahead}, with {risk}."

    def columns(self) -> Columns:
        """The table as named NumPy columns, one row a plan, best first.

        ``plan`` (str), ``mean`` and ``standard_error`` (strokes), ``behind`` and ``behind_error`` (paired
        difference to the best plan, strokes), ``double_bogey`` and ``blow_up`` (shares of plays) with their
        ``_error``, ``penalties`` and ``putts`` (strokes a play) with their ``_error``, one column for each checkpoint
        (share), and with players drawn ``chance_best`` (share of them) and its ``_error``. On even luck
        ``variance_factor`` of ``behind``, too (infinite for the best plan itself, and for one that came to the same in
        every set).
        """
        columns = super().columns()
        if self.luck == "even":
            columns["variance_factor"] = np.array([d.variance_factor for d in self._behind()])
        if self._across is not None:
            chances = [self._across.chance_best(r.name) for r in self.plans]
            columns["chance_best"] = np.array([chance for chance, _ in chances])
            columns["chance_best_error"] = np.array([error for _, error in chances])
        return columns

    def _shown(self) -> dict[str, Cell]:
        shown = super()._shown()
        if self.luck == "even":
            shown["worth"] = words("variance_factor", lambda factor: f"{factor:.1f}" if math.isfinite(factor) else "")
        if self._across is not None:
            shown["best for"] = share("chance_best")
        return shown

    @property
    def _same(self) -> str:
        return "the same mean score in every set of plays" if self.luck == "even" else super()._same

    @property
    def _played(self) -> str:
        return f"{super()._played} on even luck" if self.luck == "even" else super()._played

    @property
    def _error_note(self) -> str:
        if self.luck == "common":
            return super()._error_note
        note = "± is one standard error."
        if any(math.isfinite(behind.variance_factor) for behind in self._behind()):
            note += "\nWorth: how many independent plays one of these is worth, for how far a plan is behind."
        return note

    @property
    def _footer(self) -> str:
        if self._across is None:
            return super()._footer
        settled = f"For the player as given {self._settled_note[0].lower()}{self._settled_note[1:]}"
        return f"{self._error_note}\n{settled}{self._unfinished_note}{self._players_note}"

    @property
    def _players_note(self) -> str:
        """Lines of their own on what the players drawn made of the plans; nothing where none were drawn."""
        across = self._across
        if across is None:
            return ""
        cost, error = across.cost
        lines = [
            f"Best for: share of {across.draws} players drawn from {across.source}.{self._other_choice}",
            f"Not knowing the player costs {measured(cost, error)} strokes a play. {self._more_shots}",
        ]
        return "".join(f"\n{line}" for line in lines)

    @property
    def _other_choice(self) -> str:
        """Which plan is best on average over the players drawn, if it is another one."""
        choice = self.best.name if self._across is None else self._across.choice
        if choice == self.best.name:
            return ""
        return f" On average over them “{choice}” is best: the choice if no more can be known."

    @property
    def _more_shots(self) -> str:
        """Whether more shots would change the advice, in a sentence."""
        assert self._across is not None
        need, club = self._across.more_shots
        if need == "not needed":
            return "More shots would hardly change the advice."
        if need == "untold":
            return "Whether more shots would change the advice cannot be told from so few plays and players."
        if club is None:
            return "More shots could change the advice; no one club stands out."
        share = self.worth_measuring[club]
        return (
            f"More shots could change the advice, with the {club} first: {100 * share:.0f} % of the lead hangs on it."
        )
