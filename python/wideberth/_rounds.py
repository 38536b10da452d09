"""Rounds played: totals, holes, the statistics golfers keep, and the index they make."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._course import Course
from wideberth._given import listed, of_kind
from wideberth._progress import reporter
from wideberth._ranked import percent
from wideberth._rating import Rating
from wideberth._round_table import Column, RoundTable
from wideberth._table import Shown, measured, worth

if TYPE_CHECKING:
    from matplotlib.axes import Axes

#: Shares of rounds whose totals are told.
_SHARES = 0.1, 0.5, 0.9
#: More holes than any course has: whoever knows tells how many it must be.
_MOST_HOLES = 1_000


def play_rounds(
    course: Course,
    player: core.Player,
    *,
    then: str = "direct",
    plans: Sequence[core.Plan] | None = None,
    plays: int = 10_000,
    seed: int = 0,
    threads: int | None = None,
    progress: Any = None,
) -> PlayedRounds:
    """Play whole rounds of a course, and count what golfers count.

    A round is one play of every hole; nothing ties its holes together. The luck of a hole is its own: a hole played by
    the same seed meets the same luck whoever plays it, so that players and plans are compared on common luck.

    Args:
        course: the course.
        player: the player.
        then: how every hole is played: ``"direct"``, unadvised and with the player's habits, which is how golfers play,
            ``"steady"``, sensibly, or ``"best"``, every hole solved for the player first (a second or two each).
        plans: a plan for each hole in the order of play, in place of ``then``.
        plays: rounds, 1 to 100,000,000. Memory does not grow with them.
        seed: a whole number, 0 to 2**64 - 1, that fixes the luck, and with it every result to the last bit, whatever
            the number of threads.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal) in rounds, or a tqdm bar.

    Returns:
        What the rounds came to; its ``repr`` tells it.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed.
        TypeError: something of another type than asked for, before anything is played.
        KeyboardInterrupt: soon after Ctrl-C.

    Example:
        >>> import wideberth as wb
        >>> holes = [wb.Hole.sketch(par=4, length=360), wb.Hole.sketch(par=3, length=150)]
        >>> course = wb.Course(holes, name="Two holes")
        >>> played = wb.play_rounds(course, wb.Player.from_handicap(18), plays=2_000, seed=1)
        >>> 7.5 < played.mean < 9.5
        True
        >>> played.by_hole().columns()["hole"].tolist()
        [1, 2]

    """
    of_kind("course", course, Course, "a Course")
    played = core.play_rounds(
        course._course,
        player,
        then=then,
        plans=None if plans is None else listed("plans", plans, "plans", _MOST_HOLES),
        plays=plays,
        seed=seed,
        threads=threads,
        progress=reporter(progress),
    )
    return PlayedRounds(played, course, player)


class PlayedRounds(Shown):
    """What rounds of a course came to, by :func:`play_rounds`.

    Scores are whole strokes, penalties included, with every hole holed out. Equal when the counts and what they are
    about are; can be pickled.
    """

    def __init__(self, played: core.PlayedRounds, course: Course, player: core.Player) -> None:
        """Made by :func:`play_rounds`."""
        self._played = played
        #: The course.
        self.course = course
        #: The player.
        self.player = player

    @property
    def plays(self) -> int:
        """Rounds played."""
        return self._played.plays

    @property
    def seed(self) -> int:
        """The seed that fixed the luck."""
        return self._played.seed

    @property
    def mean(self) -> float:
        """The mean total, strokes."""
        return self._played.mean()[0]

    @property
    def standard_error(self) -> float:
        """Standard error of the mean total, strokes; NaN after a single round."""
        return self._played.mean()[1]

    @property
    def standard_deviation(self) -> float:
        """Standard deviation of the total from round to round, strokes; NaN after a single round."""
        return self._played.mean()[2]

    @property
    def distribution(self) -> dict[int, float]:
        """Share of rounds by total, lowest first."""
        return {total: rounds / self.plays for total, rounds in self._played.totals()}

    def at_most(self, total: int) -> tuple[float, float]:
        """The share of rounds of at most ``total`` strokes, and its binomial standard error."""
        return self._played.at_most(total)

    def quantile(self, share: float) -> int:
        """The smallest total that a share (0 to 1) of rounds do not exceed.

        Raises:
            InputError: a share outside 0 to 1.

        """
        return self._played.quantile(share)

    @property
    def unfinished(self) -> int:
        """Plays of holes that were broken off at 60 strokes, and count as that."""
        return self._played.unfinished

    @property
    def blow_up_causes(self) -> dict[str, float]:
        """What began the holes of two over par or worse: how often a round each thing did, most often first."""
        causes = sorted(self._played.blow_up_causes(), key=lambda cause: -cause[1])
        return {name: times for name, times in causes if times > 0}

    def scores(self) -> Column:
        """Scores of the first 20,000 rounds at most: shape (rounds, holes), uint8, in the order of play."""
        return self._played.scores()

    def hole_distribution(self, hole: int) -> dict[int, float]:
        """Share of rounds by score on the hole with this number, lowest first.

        Raises:
            KeyError: there is no such hole.

        """
        return dict(self._played.hole_scores(self.course._place(hole)))

    def index(self, rating: Rating) -> float:
        """The Handicap Index that rounds like these make.

        Of every twenty rounds the mean of the lowest eight differentials, a hole counting no more than net double bogey
        (Rules of Handicapping, Rules 3.1 and 5.2), averaged over the first 20,000 rounds at most. The strokes received
        follow from the index itself.

        Args:
            rating: the rating of this course, by :meth:`Course.rating`.

        Raises:
            InputError: a rating of another course, a course of another number of holes than 18, fewer than 20 rounds.

        """
        return self._index(rating)[0]

    def index_error(self, rating: Rating) -> float:
        """Standard error of :meth:`index`, from how far twenties differ; NaN of fewer than 40 rounds."""
        return self._index(rating)[1]

    def _index(self, rating: Rating) -> tuple[float, float]:
        of_kind("rating", rating, Rating, "a Rating, by course.rating()")
        return self._played.index(rating._rating)

    def by_hole(self) -> RoundTable:
        """What each hole came to, in the order of play.

        The columns are ``hole`` (its number), ``par``, ``length`` (yards), ``plan`` (how it was played), ``mean``
        (strokes), ``par_or_better`` and ``double_or_worse`` (shares of rounds; two over par or worse), ``putts``,
        ``penalties`` (strokes a round), ``fairway`` (share of tee shots, NaN on a par 3) and ``green`` (share in
        regulation), each of these with its ``_error``; and ``went_wrong``, what began most of the scores two over par
        or worse.
        """
        told = self._played.holes()
        holes = self.course.holes
        columns: dict[str, Column] = {
            "hole": np.array(self.course.numbers),
            "par": np.array([hole.par for hole in holes]),
            "length": np.array([hole.length for hole in holes]),
            "plan": np.array(self._played.plans),
        }
        for name in ("mean", "par_or_better", "double_or_worse", "putts", "penalties", "fairway", "green"):
            columns[name] = np.array([row[name][0] for row in told])
            columns[f"{name}_error"] = np.array([row[name][1] for row in told])
        columns["went_wrong"] = np.array([row["cause"] for row in told])
        rows = [
            [
                str(number),
                str(hole.par),
                f"{hole.length:.0f}",
                measured(*row["mean"]),
                percent(*row["par_or_better"]),
                percent(*row["double_or_worse"]),
                "" if hole.par == 3 else percent(*row["fairway"]),
                percent(*row["green"]),
                f"{row['putts'][0]:.2f}",
                str(row["cause"]),
            ]
            for number, hole, row in zip(self.course.numbers, holes, told, strict=True)
        ]
        header = (
            "hole",
            "par",
            "yards",
            "mean",
            "par or better",
            "double or worse",
            "fairway",
            "green",
            "putts",
            "mostly",
        )
        footer = "± is one standard error. Mostly: what began most of the scores two over par or worse."
        return RoundTable(self._title, columns, header, rows, footer)

    def statistics(self) -> RoundTable:
        """The statistics golfers keep, each with its standard error.

        The columns are ``statistic``; ``a_round`` (how often a round) and ``a_round_error``; ``chances`` (a round, NaN
        where all that counts is how often), ``share`` (of the chances) and ``share_error``.

        Fairways are those of par 4 and longer, the ball at rest on fairway or green without a penalty. A green is hit
        in regulation where the ball lies on it, or in the hole, two strokes under par. Up and down is down in two or
        fewer from the first stroke off the green within 50 yards of the pin (common practice, no source), a sand save
        the same from sand.
        """
        told = self._played.statistics()
        columns: dict[str, Column] = {
            "statistic": np.array([name for name, *_ in told]),
            "a_round": np.array([times for _, (times, _), _, _ in told]),
            "a_round_error": np.array([error for _, (_, error), _, _ in told]),
            "chances": np.array([chances for _, _, chances, _ in told]),
            "share": np.array([share for *_, (share, _) in told]),
            "share_error": np.array([error for *_, (_, error) in told]),
        }
        rows = [
            [
                name,
                measured(*times),
                "" if math.isnan(chances) else f"{chances:.1f}",
                "" if math.isnan(share[0]) else percent(*share),
            ]
            for name, times, chances, share in told
        ]
        return RoundTable(
            self._title, columns, ["statistic", "a round", "chances", "made"], rows, "± is one standard error."
        )

    @property
    def _title(self) -> str:
        rounds = "1 round" if self.plays == 1 else f"{self.plays:,} rounds"
        return f"{self.course.name}, {self.player.name}: {rounds}, seed {self.seed}"

    @property
    def summary(self) -> str:
        """What a round comes to, in plain sentences."""
        low, middle, high = (self.quantile(share) for share in _SHARES)
        mean = worth(self.mean, self.standard_error, 1)
        over = self.mean - self.course.par
        return (
            f"A round comes to {mean} strokes on average, {abs(over):.1f} {'over' if over >= 0 else 'under'} par; "
            f"half of them to {middle} or fewer, one in ten to {low} or fewer, one in ten to more than {high}."
        )

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        wanted = "fairways", "greens in regulation", "putts", "three-putts", "up and downs", "penalty strokes"
        told = {name: (times, share) for name, times, _, share in self._played.statistics()}
        rows = [["strokes", measured(self.mean, self.standard_error), ""]]
        for name in wanted:
            times, share = told[name]
            rows.append([name, measured(*times), "" if math.isnan(share[0]) else percent(*share)])
        return ["a round", "", "made"], rows

    @property
    def _footer(self) -> str:
        broken = f" {self.unfinished:,} holes were broken off at 60 strokes." if self.unfinished else ""
        more = "± is one standard error. More: by_hole(), statistics(), distribution, index(rating)."
        return f"{self.summary}{broken}\n{more}"

    def plot(self, *, ax: Axes | None = None, title: str | None = None, theme: str = "light") -> Axes:
        """Draw the distribution of totals; ``wideberth.plot.plot_rounds`` says what the arguments are."""
        from wideberth.plot.rounds import plot_rounds

        return plot_rounds(self, ax=ax, title=title, theme=theme)

    def __eq__(self, other: object) -> bool:
        """Equal when the counts and what they are about are."""
        if not isinstance(other, PlayedRounds):
            return NotImplemented
        return (self._played, self.course, self.player) == (other._played, other.course, other.player)

    __hash__ = None  # type: ignore[assignment]

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle as the counts and what they are about."""
        return type(self), (self._played, self.course, self.player)
