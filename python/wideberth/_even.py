"""Plans compared on even luck: better odds from fewer plays."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._ranked import Ranked
from wideberth._table import Cell, Columns, share, words


class EvenComparison(Ranked[core.EvenDifference]):
    """Plans in order of their mean score, best first, from plays on even luck: what ``compare(luck="even")`` gives.

    The plays of a plan are made side by side in 32 sets. Before every stroke the balls of a set are put in order, by
    lie and by the strokes to be expected from there, and luck is dealt out to them evenly: no set has much more than
    its share of mishits, or of good luck with putts of any one length. Every play by itself is as random as ever, so
    means and shares are unbiased; only errors even out (array-RQMC, L'Ecuyer, Lécot and Tuffin 2008). Standard errors
    are told from how far the sets differ.

    What it gains grows with the number of plays, and is reported: ``variance_factor`` of a difference says how many
    times as many independent plays would be needed. Plays are not tied to each other across plans, so that it cannot
    be told in how many plays one plan beats another.

    Example:
        >>> import wideberth as wb
        >>> hole = wb.Hole.sketch(par=4, length=360, water=[wb.along(190, right=12)])
        >>> driver = wb.Plan("driver", [wb.shot("driver", wb.along(220))])
        >>> iron = wb.Plan("7-iron", [wb.shot("7-iron", wb.along(145))])
        >>> plans = [driver, iron]
        >>> result = wb.compare(hole, wb.Player.from_handicap(12), plans, luck="even", plays=6_400, seed=4)
        >>> lead = result.difference(result.names[1], result.names[0])
        >>> lead.mean >= 0 and lead.variance_factor > 1
        True

    """

    _kind = "plan"
    _same = "the same mean score in every set of plays"
    _ranking: core.EvenRanking

    def __init__(
        self, ranking: core.EvenRanking, hole: core.Hole, player: core.Player, plans: Sequence[core.Plan]
    ) -> None:
        """Made by :func:`compare`."""
        super().__init__(ranking, hole)
        #: The player.
        self.player = player
        by_name = {plan.name: plan for plan in plans}
        #: The plans, lowest mean first.
        self.plans = [by_name[name] for name in ranking.names]

    def _parts(self) -> tuple[Any, ...]:
        return *super()._parts(), self.player, self.plans

    @property
    def par(self) -> int:
        """Par of the hole."""
        return self._ranking.par

    @property
    def strokes(self) -> dict[str, int]:
        """Strokes of each plan that were simulated, penalties not counted: what the comparison cost."""
        return {name: self._ranking.strokes(name) for name in self.names}

    def mean(self, name: str) -> tuple[float, float]:
        """Mean score of a plan and its standard error, strokes.

        Raises:
            KeyError: a plan that was not compared; the message lists those that were.

        """
        return self._ranking.mean(name)

    def probability(self, name: str, *, at_least: int) -> tuple[float, float]:
        """Share of a plan's plays that scored ``at_least`` strokes or more, and its standard error.

        Raises:
            KeyError: a plan that was not compared.
            InputError: a score outside 0 to 255.

        """
        if not 0 <= at_least <= 255:
            raise core.InputError(f"at_least is {at_least}; it must be a score of 0 to 255")
        return self._ranking.at_least(name, at_least)

    def blow_up(self, name: str) -> tuple[float, float]:
        """Share of a plan's plays that blew up, and its standard error."""
        return self._ranking.at_least(name, self.par + self._ranking.blow_up_over_par)

    def distribution(self, name: str) -> dict[int, float]:
        """Share of a plan's plays by score, lowest score first; the shares add up to 1."""
        return self._ranking.distribution(name)

    def columns(self) -> Columns:
        """The table as named NumPy columns, one row a plan, best first.

        ``plan`` (str), ``mean`` and ``standard_error`` (strokes), ``behind`` and ``behind_error`` (difference to the
        best plan, strokes), ``double_bogey`` and ``blow_up`` (shares of plays) with their ``_error``, and
        ``variance_factor`` of ``behind`` (infinite for the best plan itself, and for one that came to
        the same in every set).
        """
        doubles = [self._ranking.at_least(name, self.par + 2) for name in self.names]
        blow_ups = [self.blow_up(name) for name in self.names]
        return {
            **self._first_columns(),
            "double_bogey": np.array([share for share, _ in doubles]),
            "double_bogey_error": np.array([error for _, error in doubles]),
            "blow_up": np.array([share for share, _ in blow_ups]),
            "blow_up_error": np.array([error for _, error in blow_ups]),
            "variance_factor": np.array([self.difference(name, self.names[0]).variance_factor for name in self.names]),
        }

    @property
    def _title(self) -> str:
        hole = self.hole
        plans = "1 plan" if len(self.plans) == 1 else f"{len(self.plans)} plans"
        return (
            f"{hole.name}, par {hole.par}, {hole.length:.0f} yd: {plans}{self._from}, "
            f"{self.plays:,} plays each on even luck, seed {self._ranking.seed}"
        )

    def _shown(self) -> dict[str, Cell]:
        return {
            "double+": share("double_bogey"),
            f"{self._ranking.blow_up_over_par} over+": share("blow_up"),
            "worth": words("variance_factor", lambda factor: f"{factor:.1f}" if math.isfinite(factor) else ""),
        }

    @property
    def _footer(self) -> str:
        worth = ""
        if any(row[-1] for row in self._rows()[1]):
            worth = "\nWorth: how many independent plays one of these is worth, for how far a plan is behind."
        return f"± is one standard error.{worth}\n{self._settled_note}{self._unfinished_note}"
