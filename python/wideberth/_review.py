"""A round as it was written down: what each stroke gained, by its choice and by how it was played."""

from __future__ import annotations

from os import PathLike
from pathlib import Path
from typing import Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._course import Course
from wideberth._given import of_kind, plain
from wideberth._round_table import RoundTable
from wideberth._table import Columns, Shown, Whole, cells, number, text
from wideberth._target import CELL

#: The longest file that is read, bytes.
_LONGEST = 1_000_000
#: What strokes may be added up by.
_BY = "part", "hole", "club"


def review(
    course: Course,
    player: core.Player,
    card: str | PathLike[str],
    *,
    seed: int = 0,
    cell: float = CELL,
    threads: int | None = None,
    progress: Any = None,
) -> Review:
    """Tell what the strokes of a round gained against what the player was to expect, and why.

    Strokes gained are told against the player's own expectation on each hole, played as well as the player can choose.
    Each is split in two: *choice*, the stroke that was played (at its best aim, for nobody knows what was aimed at)
    against the best stroke there is, and *execution*, what came of it against what was to be expected of that stroke.
    Both add up to what was gained, and all strokes of a hole to what was to be expected from its tee, less its score.

    The table is CSV (commas, semicolons or tabs), a row a stroke, the last of each hole holed. Blank lines are passed
    over.

    ======== =================================================================================================
    column   what stands there
    ======== =================================================================================================
    hole     the number of the hole
    stroke   1, 2, 3, ...; penalty strokes count
    club     a club of the bag, ``chip``, ``pitch``, ``lob``, ``bunker shot``, ``punch`` or ``putter``
    lie      ``tee``, ``fairway``, ``first cut``, ``rough``, ``deep rough``, ``fringe``, ``green``, ``bunker``
             (or ``sand``), ``trees``
    to_pin   yards to the pin, on the green feet
    side     if wanted, yards from the line of play: ``left 12``, ``right 9``; ``long`` for beyond the flag;
             without it the ball lies on the line, on the green straight before the flag
    x, y     the place on the hole's plan in yards, in place of to_pin and side
    penalty  if there were any, penalty strokes that the stroke cost
    ======== =================================================================================================

    Args:
        course: the course.
        player: the player.
        card: the path of the CSV file.
        seed: changes nothing, for strokes are valued over a fixed, even set of luck; taken as every question takes one.
        cell: yards between the places that are solved, as in :func:`break_score`, whose solutions are used if they are
            kept.
        threads: number of threads; None for every core.
        progress: a callable of (done, goal), or a tqdm bar.

    Returns:
        The strokes with what each gained; its ``repr`` tells the parts of the game.

    Raises:
        InputError: a file that cannot be read, or every fault of the table at once, each with the line of its row.
        TypeError: something of another type than asked for.
        KeyboardInterrupt: soon after Ctrl-C.

    Example:
        >>> import pathlib, tempfile
        >>> import wideberth as wb
        >>> course = wb.Course([wb.Hole.sketch(par=3, length=150)], name="One hole")
        >>> card = pathlib.Path(tempfile.mkdtemp()) / "card.csv"
        >>> _ = card.write_text('''hole,stroke,club,lie,to_pin,side
        ... 1,1,7-iron,tee,150,
        ... 1,2,chip,rough,15,left 9
        ... 1,3,putter,green,6,
        ... ''')
        >>> reviewed = wb.review(course, wb.Player.from_handicap(18), card, cell=10)
        >>> c = reviewed.strokes().columns()
        >>> bool(abs(sum(c["choice"] + c["execution"]) - (c["before"][0] - 3)) < 1e-9)
        True

    """
    asked = locals()
    of_kind("course", course, Course, "a Course")
    return Review(course, player, *core.review(asked, _read(Path(card))))


def _read(path: Path) -> str:
    """The text of a table that is not absurdly long."""
    try:
        size = path.stat().st_size
        if size > _LONGEST:
            raise core.InputError(f"{plain(str(path))} has {size:,} bytes; a round has at most {_LONGEST:,}")
        return path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise core.InputError(f"cannot read {plain(str(path))}: {error.strerror}") from error
    except UnicodeDecodeError as error:
        raise core.InputError(f"cannot read {plain(str(path))}: it is not UTF-8 text (byte {error.start})") from error


class Review(Shown, Whole):
    """A round, judged stroke by stroke, by :func:`review`; equal when every number is; can be pickled."""

    def __init__(
        self,
        course: Course,
        player: core.Player,
        strokes: Columns,
        outcomes: dict[str, list[Any]],
        notes: list[str],
        sums: dict[str, Columns],
        score: tuple[int, float, float],
    ) -> None:
        """Made by :func:`review`."""
        #: The course.
        self.course = course
        #: The player.
        self.player = player
        #: What should be known of the table, one sentence each: such as a lie that the map does not have there.
        self.notes = list(notes)
        self._strokes = strokes
        self._outcomes = outcomes
        self._sums = sums
        self._score = score

    def _parts(self) -> tuple[Any, ...]:
        return self.course, self.player, self._strokes, self._outcomes, self.notes, self._sums, self._score

    def strokes(self) -> RoundTable:
        """Every stroke, in the order of the table.

        The columns are ``row`` (of the file, whose header is row 1), ``hole``, ``stroke``, ``club``, ``part`` (tee
        shots, approaches, around the green or putting), ``lie``, ``x``, ``y`` and ``to_pin`` (yards); ``before`` and
        ``after`` (strokes to be expected), ``used`` (strokes it took, penalties included), ``gained``; ``choice``
        and ``execution``, which add up to it; ``luck`` (how far luck alone takes the execution of such a stroke: a
        standard deviation); ``best`` (the best stroke in words) and ``judged`` (False where the stroke suits no such
        lie, so that its choice is told as 0).
        """
        shown = {
            "hole": text("hole"),
            "stroke": text("stroke"),
            "club": text("club"),
            "lie": lambda columns, row: str(columns["lie"][row]).replace("_", " "),
            "to pin": _to_pin,
            "gained": number("gained", "+.2f"),
            "choice": number("choice", "+.2f"),
            "execution": number("execution", "+.2f"),
            "luck": number("luck", ".2f"),
            "best": text("best"),
        }
        return RoundTable(self._title, self._strokes, *cells(self._strokes, shown), _LUCK)

    def by(self, what: str = "part") -> RoundTable:
        """What strokes gained, added up by part of the game, hole or club.

        The columns are the part, hole or club; ``strokes``; ``gained``, ``choice`` and ``execution``; ``luck`` (a
        standard deviation of what luck alone does to the execution of these strokes) and ``beyond_luck`` (the execution
        in such deviations: one round says little below two). They add up to the strokes to be expected from all tees,
        less the score.

        Args:
            what: ``"part"``, ``"hole"`` or ``"club"``.

        Raises:
            InputError: another word.

        """
        if what not in _BY:
            raise core.InputError(f"what is {what!r}; it must be one of {', '.join(_BY)}")
        columns = self._sums[what]
        shown = {
            "strokes": text("strokes"),
            "gained": number("gained", "+.2f"),
            "choice": number("choice", "+.2f"),
            "execution": number("execution", "+.2f"),
            "luck": number("luck", ".2f"),
        }
        header, rows = cells(columns, {what: text(what), **shown})
        _, in_all = cells(self._sums["all"], {"all": text("all"), **shown})
        return RoundTable(self._title, columns, header, rows + in_all, _LUCK)

    @property
    def score(self) -> int:
        """Strokes and penalties of the holes that were written down."""
        return self._score[0]

    @property
    def expected(self) -> float:
        """Strokes to be expected from the tees of those holes."""
        return self._score[1]

    def outcomes(self) -> dict[str, list[Any]]:
        """Full shots of which it is known whether they hit the fairway or green they were for, as columns.

        What ``Player.from_shots(outcomes=...)`` reads: ``club``, ``finish``, ``width``, ``depth`` and ``lie``. So a
        player is better known after each round; tee shots off the fairway count only where their side was written down.

        For example ``wb.Player.from_shots(None, prior=pupil, outcomes=reviewed.outcomes())``.

        """
        return {name: list(column) for name, column in self._outcomes.items()}

    @property
    def summary(self) -> str:
        """What the round lost, in plain sentences."""
        parts, in_all = self._sums["part"], self._sums["all"]
        score, expected, off = self._score
        lead = (
            f"{score} stroke{'' if score == 1 else 's'} where {expected:.1f} were to be expected of the best choices: "
            f"{_signed(-off)} gained, {_signed(in_all['choice'][0])} by choice, "
            f"{_signed(in_all['execution'][0])} by execution."
        )
        worst = int(np.argmin(parts["gained"]))
        least = (
            f" Most was lost by {parts['part'][worst]} ({parts['gained'][worst]:+.1f})."
            if parts["gained"][worst] < 0
            else ""
        )
        costly = int(np.argmin(self._strokes["choice"]))
        hole, stroke, club, choice, best = (
            self._strokes[name][costly] for name in ("hole", "stroke", "club", "choice", "best")
        )
        dear = ""
        if choice < -0.05:
            dear = f" The dearest choice: hole {hole}, stroke {stroke}, {club} ({choice:+.2f}); better: {best}."
        return lead + least + dear

    @property
    def _title(self) -> str:
        holes = len(self._sums["hole"]["hole"])
        return f"{self.course.name}, {self.player.name}: {holes} hole{'' if holes == 1 else 's'} as played"

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        return self.by()._rows()

    @property
    def _footer(self) -> str:
        return "\n".join([self.summary, _LUCK, *self.notes])


def _signed(strokes: float) -> str:
    """Strokes gained or lost, to a tenth; nothing is neither."""
    return f"{round(strokes, 1) + 0.0:+.1f}"


def _to_pin(columns: Columns, row: int) -> str:
    """How far a stroke is from the pin: on the green in feet."""
    yards = columns["to_pin"][row]
    return f"{3 * yards:.0f} ft" if columns["lie"][row] == "green" else f"{yards:.0f} yd"


#: What the columns of luck mean.
_LUCK = "Luck: how far chance alone takes the execution, one standard deviation; less than twice that says little."
