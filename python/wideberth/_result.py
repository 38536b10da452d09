"""What one of those compared came to: the figures that every table of scores is made of."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wideberth import _wideberth as core
from wideberth._ranked import said
from wideberth._table import percent

if TYPE_CHECKING:
    from wideberth._scores import Results


class Counted:
    """What one of those compared came to over all its plays."""

    #: What was counted, by name.
    _ranking: core.Ranking | core.AroundRanking

    def __init__(self, of: Results[Any], name: str) -> None:
        """Made by the comparison."""
        self._of, self._ranking = of, of._ranking
        #: Its name.
        self.name = name

    @property
    def mean(self) -> float:
        """Mean score, strokes: those to hole out from where play begins, penalties included."""
        return self._ranking.mean(self.name)[0]

    @property
    def standard_error(self) -> float:
        """Standard error of the mean, strokes."""
        return self._ranking.mean(self.name)[1]

    @property
    def distribution(self) -> dict[int, float]:
        """Share of plays by score, lowest score first; the shares add up to 1."""
        return self._ranking.distribution(self.name)

    @property
    def putts(self) -> float:
        """Mean strokes a play made from the putting green."""
        return self._ranking.putts(self.name)[0]

    @property
    def putts_error(self) -> float:
        """Standard error of that mean, strokes."""
        return self._ranking.putts(self.name)[1]

    @property
    def unfinished(self) -> int:
        """Plays broken off at the stroke cap because the hole could not be finished."""
        return self._ranking.unfinished(self.name)

    def __eq__(self, other: object) -> bool:
        """Equal when the name and what it was compared with are."""
        if not isinstance(other, type(self)):
            return NotImplemented
        return self.name == other.name and self._of == other._of

    __hash__ = None  # type: ignore[assignment]


class Result(Counted):
    """What one of those compared by their scores came to over all its plays."""

    _ranking: core.Ranking

    @property
    def _called(self) -> str:
        """What it is called in a sentence."""
        return f"“{self.name}”"

    def probability(self, *, at_least: int) -> float:
        """Share of plays that scored ``at_least`` strokes or more.

        Raises:
            InputError: a score outside 0 to 255.

        """
        if not 0 <= at_least <= 255:
            raise core.InputError(f"at_least is {at_least}; it must be a score of 0 to 255")
        return self._ranking.at_least(self.name, at_least)[0]

    def quantile(self, share: float) -> int:
        """The smallest score that a share (0 to 1) of plays do not exceed.

        Raises:
            InputError: a share outside 0 to 1.

        """
        return self._ranking.quantile(self.name, share)

    @property
    def blow_up(self) -> float:
        """Share of plays that blew up: so many over par or worse, as asked."""
        return self._ranking.blow_up(self.name)[0]

    @property
    def blow_up_error(self) -> float:
        """Standard error of the blow-up share."""
        return self._ranking.blow_up(self.name)[1]

    @property
    def _blow_up_score(self) -> int:
        return self._ranking.par + self._ranking.blow_up_over_par

    @property
    def double_bogey(self) -> float:
        """Share of plays that scored double bogey or worse."""
        return self._ranking.double_bogey(self.name)[0]

    @property
    def double_bogey_error(self) -> float:
        """Standard error of the share of double bogeys or worse."""
        return self._ranking.double_bogey(self.name)[1]

    @property
    def penalties(self) -> float:
        """Mean penalty strokes a play."""
        return self._ranking.penalties(self.name)[0]

    @property
    def penalties_error(self) -> float:
        """Standard error of that mean, strokes."""
        return self._ranking.penalties(self.name)[1]

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

    def __repr__(self) -> str:
        """One line with the mean, its error and the blow-up share."""
        return (
            f"{self.name}: {said(self.mean, self.standard_error)}, blow-up {percent(self.blow_up, self.blow_up_error)}"
        )
