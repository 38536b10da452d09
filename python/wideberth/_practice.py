"""What practice is worth: the same rounds with one skill better, and with better choices."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any

from wideberth import _wideberth as core
from wideberth._course import Course
from wideberth._table import Cell, Columns, Kept, cells, estimate, measured, number, text

if TYPE_CHECKING:
    from matplotlib.axes import Axes

#: Parts of the game of single skills, which are ranked with each other.
_SINGLE = ("tee shots", "approaches", "around the green", "putting")
#: The part of bands of distances, which are ranked among each other.
_BY_DISTANCE = "approaches by distance"


def practice_gains(
    course: Course,
    player: core.Player,
    *,
    target: int | None = None,
    share: float = 0.1,
    then: str = "direct",
    reference: str = "men",
    plays: int = 2_000,
    seed: int = 0,
    threads: int | None = None,
    progress: Any = None,
) -> PracticeGains:
    """Find out what each skill is worth on a course, for the same effort.

    The player plays the same rounds with the same luck, each time with one skill a tenth of the way to the scratch
    golfer's, so that skills can be ranked: a tenth of the way is taken to cost about as much practice in each (common
    practice, no source). A skill that is as good as the scratch golfer's goes towards the professional's. Habits are
    given up altogether, for there is no tenth of aiming at every flag.

    Approaches are told by club and by distance as well, in the bands of published tables of strokes gained: tighter
    from 100 to 150 yards is every full stroke from there but tee shots of par 4s and 5s straighter, surer of its
    distance and less often mishit, and all others as they are. That is three skills of many clubs at once, so bands are
    ranked among each other, not with single skills.

    Args:
        course: the course.
        player: the player.
        target: a score to break; then what each skill adds to the chance of that is told, too.
        share: how much of the way is gone, above 0 and at most 1.
        then: how holes are played, ``"direct"`` or ``"steady"``, as in :func:`play_rounds`.
        reference: whose scratch golfer and levels, ``"men"`` or ``"women"``.
        plays: rounds of each, 2 to 100,000,000.
        seed: a whole number, 0 to 2**64 - 1, that fixes the luck: that of :func:`play_rounds`.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal) in rounds of each, or a tqdm bar.

    Returns:
        The gains, most strokes saved first; its ``repr`` is the table.

    Raises:
        InputError: before anything is played, naming the field, the value and what is allowed.
        TypeError: something of another type than asked for, before anything is played.
        KeyboardInterrupt: soon after Ctrl-C.

    Example:
        >>> import numpy as np
        >>> import wideberth as wb
        >>> course = wb.Course([wb.Hole.sketch(par=4, length=380)], name="One hole")
        >>> gains = wb.practice_gains(course, wb.Player.from_handicap(18), plays=500, seed=1)
        >>> saved = gains.columns()["strokes_saved"]
        >>> len(saved) > 15 and saved[0] > 0 and bool((np.diff(saved) <= 0).all())
        True

    """
    usual, gains = core.practice_gains(locals())
    return PracticeGains(course, player, target, share, then, reference, plays, seed, usual, gains)


@dataclass(frozen=True, eq=False, repr=False)
class PracticeGains(Kept):
    """What practice is worth on a course, by :func:`practice_gains`; equal when every number is; can be pickled."""

    #: The course.
    course: Course
    #: The player.
    player: core.Player
    #: The score to break, if the chance of that was asked for.
    target: int | None
    #: How much of the way to the scratch golfer's skill was gone.
    share: float
    #: How holes were played.
    then: str
    #: Whose scratch golfer and levels.
    reference: str
    #: Rounds of each.
    plays: int
    #: The seed that fixed the luck.
    seed: int
    #: The mean total as usual, and the chance of the target (NaN without one).
    usual: tuple[float, float]
    _columns: Columns

    def _parts(self) -> tuple[Any, ...]:
        return tuple(getattr(self, field.name) for field in fields(self))

    @property
    def skills(self) -> list[str]:
        """What can be practised, most strokes saved first."""
        skills: list[str] = self._columns["skill"].tolist()
        return skills

    def columns(self) -> Columns:
        """The table as named NumPy columns, most strokes saved first.

        ``skill``; ``part`` (tee shots, approaches, approaches by distance, around the green, putting or choice);
        ``strokes_saved`` a round and its paired ``_error``; ``chance_added`` (to the chance of the target, NaN without
        one) and its ``_error``;
        ``like_handicap`` (the handicap of the level whose figures in this skill are most like the player's, 0 to 54;
        NaN for choice).
        """
        return super().columns()

    def _told(self, *parts: str) -> list[tuple[str, float, float]]:
        """The skills of some parts, most strokes saved first: the name, the strokes and their error."""
        c = self._columns
        rows = zip(c["skill"].tolist(), c["part"], c["strokes_saved"], c["strokes_saved_error"], strict=True)
        return [(skill, saved, error) for skill, part, saved, error in rows if part in parts]

    @property
    def summary(self) -> str:
        """What to practise first, and what the player is good and weak at, in plain sentences."""
        known = self._told(*_SINGLE)
        told = [
            f"{skill} ({measured(saved, error)})" for skill, saved, error in known[:3] if core.stands_out(saved, error)
        ]
        first = (
            f"Worth most for the same effort: {', '.join(told)} strokes a round." if told else "No skill stands out."
        )
        band, saved, error = self._told(_BY_DISTANCE)[0]
        if core.stands_out(saved, error):
            first += f" Of approaches, those {band.removeprefix('tighter ')} ({measured(saved, error)})."
        like = zip(self._columns["like_handicap"], self.skills, strict=True)
        likes = [(handicap, skill) for handicap, skill in like if not math.isnan(handicap)]
        best, worst = min(likes), max(likes)
        if best[0] == worst[0]:
            return first
        return f"{first} Strongest: {best[1]}, like a {best[0]:.0f}; weakest: {worst[1]}, like a {worst[0]:.0f}."

    @property
    def _title(self) -> str:
        way = f"one skill better, {100 * self.share:.0f} % of the way to scratch"
        rounds = f"{self.plays:,} rounds each, seed {self.seed}"
        return f"{self.course.name}, {self.player.name}: {way}, {rounds}"

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        shown: dict[str, Cell] = {"skill": text("skill"), "part": text("part"), "saves": estimate("strokes_saved")}
        if self.target:
            shown[f"to break {self.target}"] = lambda columns, row: (
                f"{100 * columns['chance_added'][row]:+.1f} ± {100 * columns['chance_added_error'][row]:.1f} %"
            )
        return cells(self._columns, shown | {"plays like": number("like_handicap")})

    @property
    def _footer(self) -> str:
        return (
            f"{self.summary}\nStrokes saved a round; ± is one standard error, paired. Plays like: the handicap whose\n"
            "figures in the skill are most like the player's. Habits are given up altogether, all else goes the\n"
            "same share of the way. Tighter from a distance is three skills of all clubs at once."
        )

    def plot(self, *, ax: Axes | None = None, title: str | None = None, theme: str = "light") -> Axes:
        """Draw the gains as bars; ``wideberth.plot.plot_practice`` says what the arguments are."""
        from wideberth.plot.rounds import plot_practice

        return plot_practice(self, ax=ax, title=title, theme=theme)
