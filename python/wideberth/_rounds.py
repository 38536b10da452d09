"""Rounds played: totals, holes, the statistics golfers keep, and the index they make."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from wideberth import _wideberth as core
from wideberth._course import Course
from wideberth._given import listed, of_kind
from wideberth._rating import Rating
from wideberth._round_table import RoundTable
from wideberth._table import Column, Shown, Whole, cells, estimate, measured, number, share, text, worth

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
        progress: a callable of (done, goal) in rounds, or a tqdm bar; where a plan goes on by ``"best"``, first in
            thousandths of a hole solved.

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
    asked = locals()
    if plans is not None:
        asked["plans"] = listed("plans", plans, "plans", _MOST_HOLES)
    return PlayedRounds(core.play_rounds(asked), course, player)


class PlayedRounds(Shown, Whole):
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

    def _parts(self) -> tuple[Any, ...]:
        return self._played, self.course, self.player

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
        return self._played.distribution()

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
        columns = self._played.by_hole()
        shown = {
            "hole": text("hole"),
            "par": text("par"),
            "yards": number("length"),
            "mean": estimate("mean"),
            "par or better": share("par_or_better"),
            "double or worse": share("double_or_worse"),
            "fairway": share("fairway"),
            "green": share("green"),
            "putts": number("putts", ".2f"),
            "mostly": text("went_wrong"),
        }
        footer = "± is one standard error. Mostly: what began most of the scores two over par or worse."
        return RoundTable(self._title, columns, *cells(columns, shown), footer)

    def statistics(self) -> RoundTable:
        """The statistics golfers keep, each with its standard error.

        The columns are ``statistic``; ``a_round`` (how often a round) and ``a_round_error``; ``chances`` (a round, NaN
        where all that counts is how often), ``share`` (of the chances) and ``share_error``.

        Fairways are those of par 4 and longer, the ball at rest on fairway or green without a penalty. A green is hit
        in regulation where the ball lies on it, or in the hole, two strokes under par. Up and down is down in two or
        fewer from the first stroke off the green within 50 yards of the pin (common practice, no source), a sand save
        the same from sand.
        """
        columns = self._played.statistics()
        shown = {
            "statistic": text("statistic"),
            "a round": estimate("a_round"),
            "chances": number("chances", ".1f"),
            "made": share("share"),
        }
        return RoundTable(self._title, columns, *cells(columns, shown), "± is one standard error.")

    @property
    def _title(self) -> str:
        rounds = "1 round" if self.plays == 1 else f"{self.plays:,} rounds"
        return f"{self.course.name}, {self.player.name}: {rounds}, seed {self.seed}"

    @property
    def summary(self) -> str:
        """What a round comes to, in plain sentences."""
        low, middle, high = (self.quantile(share) for share in _SHARES)
        mean = worth(self.mean, self.standard_error, 1)
        over = self._played.over_par
        return (
            f"A round comes to {mean} strokes on average, {abs(over):.1f} {'over' if over >= 0 else 'under'} par; "
            f"half of them to {middle} or fewer, one in ten to {low} or fewer, one in ten to more than {high}."
        )

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        wanted = "fairways", "greens in regulation", "putts", "three-putts", "up and downs", "penalty strokes"
        statistics = self._played.statistics()
        _, told = cells(statistics, {"a round": text("statistic"), "": estimate("a_round"), "made": share("share")})
        by_name = {row[0]: row for row in told}
        rows = [["strokes", measured(self.mean, self.standard_error), ""], *(by_name[name] for name in wanted)]
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
