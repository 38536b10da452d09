"""Players compared: what practice would be worth, or who plays a hole better."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from wideberth import _wideberth as core
from wideberth._given import named
from wideberth._ranked import listed, strokes
from wideberth._result import Result
from wideberth._scores import Scores, checked
from wideberth._table import worth


def compare_players(
    hole: core.Hole,
    players: Mapping[str, core.Player],
    plan: core.Plan | None = None,
    *,
    plays: int | None = None,
    precision: float | None = None,
    seed: core._Seed = 0,
    blow_up: int = 3,
    checkpoints: Mapping[str, core.Checkpoint] | None = None,
    maximum_score: int | None = None,
    at: core._Place | None = None,
    lie: core._Lie | None = None,
    threads: int | None = None,
    progress: Any = None,
) -> PlayersComparison:
    """Let players play a hole many times with the same luck, and rank them by mean score.

    The luck of a stroke is the same for all: what is struck well by one is struck well by the others, each by their own
    measure. So a small change of one skill shows, which it would not in rounds played one after the other.

    Args:
        hole: the hole.
        players: one or more players by name, such as ``{"now": pupil, "after": pupil.with_changes(straighter=0.9)}``.
        plan: what all of them play; None for the whole hole by ``"steady"``, each by the own pattern. A solution is for
            one player, and refused for others.
        plays: plays of every player (default 20,000), or with ``precision`` the most plays.
        precision: as in :func:`compare`.
        seed: as in :func:`compare`.
        blow_up: a blow-up is this many strokes over par or worse.
        checkpoints: milestones to count by name, such as ``{"on in three": first_putt(...)}``.
        maximum_score: the score at which the ball is picked up (Maximum Score, Rule 21.2); None to hole out.
        at: where every play begins, (x, y) in yards or a place such as ``along(250)``; None for the tee.
        lie: the lie there; None for what the ground gives.
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
        >>> hole = wb.Hole.sketch(par=4, length=380)
        >>> now = wb.Player.from_handicap(18)
        >>> after = now.with_changes(longer={"driver": 15}, putting=wb.Player.from_handicap(10))
        >>> result = wb.compare_players(hole, {"now": now, "after": after}, plays=4_000, seed=1)
        >>> result.difference("after", "now").mean < 0
        True
        >>> result["after"].player == after
        True

    """
    asked = locals()
    players = named("players", players, core.Player, "a Player")
    if plan is None:
        plan = core.Plan("steady", [])
    asked |= {"players": list(players.items()), "plan": plan, "checkpoints": checked(checkpoints, "player")}
    return PlayersComparison(core.compare_players(asked), hole, players, plan)


class PlayerResult(Result):
    """What one of the players compared came to over all plays."""

    def __init__(self, comparison: PlayersComparison, name: str, player: core.Player) -> None:
        """Made by ``compare_players``."""
        super().__init__(comparison, name)
        #: The player.
        self.player = player


class PlayersComparison(Scores[PlayerResult]):
    """Players in order of their mean score, best first, by :func:`compare_players`."""

    _kind = "player"

    def __init__(
        self, ranking: core.Ranking, hole: core.Hole, players: Mapping[str, core.Player], plan: core.Plan
    ) -> None:
        """Made by :func:`compare_players`."""
        super().__init__(ranking, hole)
        #: What all of them played.
        self.plan = plan
        #: The results, lowest mean first.
        self.players = [PlayerResult(self, name, players[name]) for name in ranking.names]
        self._results = self.players

    def _parts(self) -> tuple[Any, ...]:
        return *super()._parts(), {r.name: r.player for r in self.players}, self.plan

    @property
    def advice(self) -> str:
        """The finding in a plain sentence."""
        best, same = self.best, self._alike()
        mean = worth(best.mean, best.standard_error)
        others = [name for name in self.names[1:] if name not in same]
        if not others:
            if same:
                return f"{listed(self.names)} played alike: {self._same}. They average {mean}."
            return f"{best._called} averages {mean} on this par {self.par}."
        who = listed([best.name, *same]) if same else best._called
        averages = "average" if same else "averages"
        lead = self.difference(others[0], best.name)
        if not self.settled:
            return f"Too close to call: {who} {averages} {mean}, {strokes(lead)} better than “{others[0]}”."
        return f"{who} {averages} {mean}, {strokes(lead)} better than “{others[0]}”."
