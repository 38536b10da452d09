"""A target score: the best chance to break it, where to press and where to be safe, and a budget that adds up."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wideberth import _wideberth as core
from wideberth._course import Course
from wideberth._round_table import RoundTable
from wideberth._table import Shown, Whole, cells, number, percent, share, text

if TYPE_CHECKING:
    from matplotlib.axes import Axes

#: Yards between the places that are solved for a round: :func:`break_score` says why.
CELL = 8.0


def break_score(
    course: Course,
    player: core.Player,
    target: int,
    *,
    plays: int = 10_000,
    seed: int = 0,
    cell: float = CELL,
    threads: int | None = None,
    progress: Any = None,
) -> Target:
    """Find the best chance to break a score over a round, and how to play for it.

    Every hole is solved once for six ways to play it: fewest strokes, the best chance of birdie, par, bogey and double
    bogey or better, and safe (fewest strokes where three over par or worse costs one more). Each way is played, and
    over the scores it hands up the best chance is worked out exactly: for every hole and every number of strokes so
    far, the way that leaves the most. A way is taken in place of fewest strokes only where the plays show clearly (by
    two standard errors) that it is better.

    The best of several estimates looks better than it is, so the ways are chosen on one half of the plays and valued on
    the other, and the other way round: the chance told is one that was not chosen by. Most often playing for the score
    gains little on fewest strokes everywhere; how little is told.

    Args:
        course: the course. Its solutions are kept with it: asking for another score of the same player takes a moment.
        player: the player.
        target: the score to break: 90 asks for 89 or better.
        plays: plays of every way on every hole, 200 to 100,000.
        seed: a whole number, 0 to 2**64 - 1, that fixes the luck, and with it every result to the last bit.
        cell: yards between the places that are solved, 0.5 to 10, as in :func:`solve`. Closer places find better ways
            and take longer.
        threads: number of threads; None for every core. The result does not depend on it.
        progress: a callable of (done, goal), or a tqdm bar: first in steps of solving, then in plays.

    Returns:
        The chance, the ways by score so far and the plan; its ``repr`` tells it.

    Raises:
        InputError: before anything is solved, naming the field, the value and what is allowed.
        TypeError: something of another type than asked for, before anything is solved.
        KeyboardInterrupt: soon after Ctrl-C.

    Example:
        >>> import wideberth as wb
        >>> holes = [wb.Hole.sketch(par=4, length=330), wb.Hole.sketch(par=3, length=140)]
        >>> course = wb.Course(holes, name="Two holes")
        >>> target = wb.break_score(course, wb.Player.from_handicap(18), 9, plays=1_000, seed=1, cell=10)
        >>> 0 < target.chance < 1 and target.chance_from(hole=2, strokes_so_far=4) > target.chance
        True
        >>> int(sum(target.plan().columns()["score_to_make"]))
        8

    """
    return Target(core.break_score(locals()), course, player)


class Target(Shown, Whole):
    """The best chance to break a score on a course, and the plan for it, by :func:`break_score`.

    Equal when every number is; can be pickled.
    """

    def __init__(self, found: core.Target, course: Course, player: core.Player) -> None:
        """Made by :func:`break_score`."""
        self._found = found
        #: The course.
        self.course = course
        #: The player.
        self.player = player

    def _parts(self) -> tuple[Any, ...]:
        return self._found, self.course, self.player

    @property
    def target(self) -> int:
        """The score to break."""
        return self._found.to_break

    @property
    def plays(self) -> int:
        """Plays of every way on every hole."""
        return self._found.plays

    @property
    def seed(self) -> int:
        """The seed that fixed the luck."""
        return self._found.seed

    @property
    def chance(self) -> float:
        """The chance to break the score by the plan, which was not chosen by the plays that it is valued on."""
        return self._found.chance[0]

    @property
    def chance_error(self) -> float:
        """Standard error of :attr:`chance`."""
        return self._found.chance[1]

    @property
    def chance_by_fewest_strokes(self) -> float:
        """The chance by fewest strokes on every hole, on the same plays."""
        return self._found.by_fewest[0]

    @property
    def gain(self) -> float:
        """What the plan adds to the chance by fewest strokes everywhere; paired, so it is known better than either."""
        return self._found.gain[0]

    @property
    def gain_error(self) -> float:
        """Standard error of :attr:`gain`."""
        return self._found.gain[1]

    @property
    def ways(self) -> list[str]:
        """The ways to play a hole."""
        return self._found.ways

    def chance_from(self, *, hole: int, strokes_so_far: int) -> float:
        """The chance of one who stands on the tee of a hole.

        Args:
            hole: the number of the hole about to be played.
            strokes_so_far: strokes on the holes before it, penalties included.

        Raises:
            InputError: a number that no hole has, strokes below 0.

        """
        return self._found.chance_from(hole, strokes_so_far)

    def way_from(self, *, hole: int, strokes_so_far: int) -> str:
        """The way to play of one who stands on the tee of a hole after ``strokes_so_far``; see :meth:`chance_from`."""
        return self._found.way_from(hole, strokes_so_far)

    def totals(self) -> dict[int, float]:
        """How likely the plan comes to each total of at most one below the target, lowest first."""
        likely = self._found.likely(len(self.course))
        return {total: share for total, share in enumerate(likely[:-1]) if share > 0}

    def hole_distributions(self, hole: int) -> dict[str, dict[int, float]]:
        """Share of plays by score on the hole with this number, by way.

        Raises:
            KeyError: there is no such hole.

        """
        scores = self._found.hole_scores(self.course._place(hole))
        return {way: dict(of_way) for way, of_way in zip(self.ways, scores, strict=True)}

    def plan(self) -> RoundTable:
        """The plan, a row a hole.

        The columns are ``hole`` (its number), ``par``, ``length`` (yards); ``score_to_make`` (all of them add up to one
        below the target) and ``made`` (how often that or better is made); ``way`` (how it is played by one who is on
        the budget), ``mean`` (strokes by it); ``club``, ``aim``, ``leave`` (yards left after a solid tee shot) and
        ``words`` (the tee shot in a sentence); ``bogey_or_better`` (how often); ``press`` (how the way turns with the
        score, in a sentence); and how often each checkpoint is reached: ``in_play`` (the tee shot without a penalty, in
        neither sand nor trees), ``putt_for_par`` (the first putt is for par or better from within
        ``putt_for_par_ft`` feet, or none is needed) and ``putt_for_bogey`` (the same for bogey,
        ``putt_for_bogey_ft``). ``made``, ``mean``, ``bogey_or_better`` and the checkpoints have an ``_error``, the
        checkpoints a ``_worth`` too: by how much the chance of the target is higher where it is reached than where
        it is not (NaN where it always or never is); ``worth_most`` names the one that is worth most.

        The budget is the one that is kept on every hole most often, each hole played for fewest strokes.
        """
        columns = self._found.plan()
        shown = {
            "hole": text("hole"),
            "par": text("par"),
            "make": text("score_to_make"),
            "made": share("made"),
            "way": text("way"),
            "from the tee": text("words"),
            "bogey or better": share("bogey_or_better"),
            "worth most": text("worth_most"),
        }
        footer = "The scores to make add up to one below the target."
        return RoundTable(self._title, columns, *cells(columns, shown), footer)

    @property
    def turns(self) -> list[str]:
        """Where the way to play turns with the score: a sentence for each hole on which it does."""
        return [press for press in self._found.plan()["press"].tolist() if press.startswith("If ")]

    @property
    def _title(self) -> str:
        return f"{self.course.name}, {self.player.name}: breaking {self.target}"

    @property
    def summary(self) -> str:
        """The answer, in plain sentences."""
        chance = percent(self.chance, self.chance_error)
        best = f"The chance to break {self.target} is {chance} by the plan"
        # No minus before a nought.
        points, error = round(100 * self.gain, 1) + 0.0, 100 * self.gain_error
        if not core.stands_out(self.gain, self.gain_error):
            return (
                f"{best}, and as much by fewest strokes on every hole "
                f"({points:+.1f} ± {error:.1f} points): playing for the score gains nothing that can be told."
            )
        little = ": that is little" if points < 2 else ""
        return f"{best}, {points:.1f} ± {error:.1f} points more than by fewest strokes on every hole{little}."

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        shown = {
            "hole": text("hole"),
            "par": text("par"),
            "make": text("score_to_make"),
            "made": lambda columns, row: f"{100 * columns['made'][row]:.0f} %",
            "way": text("way"),
            "club": text("club"),
            "leaves": number("leave"),
        }
        return cells(self._found.plan(), shown)

    @property
    def _footer(self) -> str:
        turns = self.turns
        more = f"\n… and {len(turns) - 4} more, by turns." if len(turns) > 4 else ""
        return "\n".join([self.summary, *turns[:4]]) + more

    def plot(self, *, ax: Axes | None = None, title: str | None = None, theme: str = "light") -> Axes:
        """Draw the budget by hole; ``wideberth.plot.plot_target`` says what the arguments are."""
        from wideberth.plot.rounds import plot_target

        return plot_target(self, ax=ax, title=title, theme=theme)
