"""A player explained: the bag club by club, and what a good-enough shot looks like."""

from __future__ import annotations

import html
import re
from typing import Any

import numpy as np

from wideberth import _wideberth as core
from wideberth._table import Cell, Columns, Frames, Kept, Whole, cells, markdown, number, words

#: What the parts of a player's game are called.
_TITLES = {
    "approaches": "Approach from the fairway, pin in the middle of a green 25 yd across",
    "around_the_green": "Around the green: yards to the pin, feet left, strokes to hole out",
    "putts": "Putts on an ordinary green",
}

#: Longest name of a club that a table shows in full.
_NAME = 20


def table(player: core.Player) -> BagTable:
    """Work out what ``Player.table`` returns."""
    return BagTable(player, core.bag_table(player))


def expectations(
    player: core.Player, *, plays: int = 10_000, seed: int = 0, threads: int | None = None, progress: Any = None
) -> Expectations:
    """Work out what ``Player.expectations`` returns."""
    return Expectations(player, plays, seed, *core.expectations(locals()))


def titled(player: core.Player) -> str:
    """The name, and the handicap unless the name tells it."""
    if player.handicap is None:
        return player.name
    handicap = f"handicap {player.handicap:g}"
    told = re.search(rf"\b{re.escape(handicap)}(?![\d.])", player.name) is not None
    return player.name if told else f"{player.name}, {handicap}"


def _short(name: str) -> str:
    return name if len(name) <= _NAME else f"{name[: _NAME - 1]}…"


class _Told(Kept):
    """Named columns that can be shown and handed on."""

    def __init__(self, player: core.Player, columns: Columns) -> None:
        #: The player.
        self.player = player
        self._columns = columns

    def _parts(self) -> tuple[Any, ...]:
        return self.player, self._columns


class BagTable(_Told):
    """A player's bag, one row a club: how far it goes, and within what two thirds of its shots finish.

    Made by ``Player.table``, which says what the columns are.
    """

    @property
    def _title(self) -> str:
        return titled(self.player)

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        middle = self._columns["middle"]
        shown: dict[str, Cell] = {
            "club": lambda c, row: _short(str(c["club"][row])),
            "carry": number("carry"),
            "total": number("total"),
            "average": number("average"),
            "finish": lambda c, row: f"{c['short_end'][row]:.0f}-{c['long_end'][row]:.0f}",
            "depth": number("depth"),
            "width": number("width"),
        }
        if bool((np.abs(middle) >= 0.5).any()):
            shown["about"] = lambda _, row: _offset(float(middle[row]))
        shown["mishits"] = lambda c, row: f"{100 * c['mishit_share'][row]:.0f} %"
        return cells(self._columns, shown)

    @property
    def _footer(self) -> str:
        about = "" if "about" not in self._rows()[0] else ".\nAbout: where the middle of the width lies from the aim"
        return (
            "Yards, full swings from a good lie on level medium ground in still air.\n"
            "Carry and total: solid strikes; average: the total of all shots, mishits too.\n"
            "Two thirds of all shots finish within the depth, a sixth shorter and a sixth\n"
            f"longer, and two thirds within the width, a sixth to either side of it{about}."
        )


def _offset(yards: float) -> str:
    """Where the middle of a pattern lies from the aim."""
    if abs(yards) < 0.5:
        return "0"
    return f"{abs(yards):.0f} {'right' if yards > 0 else 'left'}"


class ExpectationTable(_Told):
    """What shots of one part of a player's game look like, one row a task; a share or a distance has an ``_error``.

    Made by ``Player.expectations``; the class ``Expectations`` says what the columns are.
    """

    def __init__(self, player: core.Player, part: str, columns: Columns) -> None:
        """Keep the columns of a part, named as in ``Expectations``."""
        super().__init__(player, columns)
        #: Name of the part: ``tee_shot``, ``approaches``, ``around_the_green`` or ``putts``.
        self.part = part

    def _parts(self) -> tuple[Any, ...]:
        return self.player, self.part, self._columns

    @property
    def _title(self) -> str:
        if self.part == "tee_shot":
            return f"Tee shot: {_short(str(self._columns['stroke'][0]))}"
        return _TITLES[self.part]

    def _rows(self) -> tuple[list[str], list[list[str]]]:
        return {
            "tee_shot": self._tee_rows,
            "approaches": self._approach_rows,
            "around_the_green": self._around_rows,
            "putts": self._putt_rows,
        }[self.part]()

    def _tee_rows(self) -> tuple[list[str], list[list[str]]]:
        c = self._columns
        header = ["", "at least", "off line at most", "on a fairway 35 yd wide"]
        fairway = _of_ten(c["on_fairway"][0])
        rows = [
            [words, f"{c[f'{band}_total'][0]:.0f} yd", f"{c[f'{band}_side'][0]:.0f} yd", cell]
            for words, band, cell in (("2 of 3 go", "good_enough", fairway), ("half go", "usual", ""))
        ]
        return header, rows

    def _approach_rows(self) -> tuple[list[str], list[list[str]]]:
        shown = {
            "from, with": lambda c, row: f"{c['yards'][row]:3.0f} yd, {_short(str(c['stroke'][row]))}",
            "half within": words("usual_ft", _feet),
            "2 of 3 within": words("good_enough_ft", _feet),
            "on the green": words("on_green", _of_ten),
        }
        return cells(self._columns, shown)

    def _around_rows(self) -> tuple[list[str], list[list[str]]]:
        c = self._columns
        shown = {
            "from": lambda c, row: f"  {c['yards'][row]:.0f} yd",
            "half in": words("usual_ft", _feet),
            "2 of 3 in": words("good_enough_ft", _feet),
            "on the green": words("on_green", _of_ten),
            "in two": words("down_in_two", _of_ten),
            "three or fewer": words("down_in_three", _of_ten),
        }
        header, told = cells(c, shown)
        rows: list[list[str]] = []
        for i, row in enumerate(told):
            if i == 0 or c["lie"][i] != c["lie"][i - 1]:
                rows.append([str(c["lie"][i]), *[""] * 5])
            rows.append(row)
        return header, rows

    def _putt_rows(self) -> tuple[list[str], list[list[str]]]:
        shown = {
            "length": lambda c, row: f"{c['feet'][row]:2.0f} ft",
            "holed": words("holed", _of_ten),
            "two or fewer": words("down_in_two", _of_ten),
            "2 of 3 misses stop within": words("leave_ft", _feet),
        }
        return cells(self._columns, shown)

    def __repr__(self) -> str:
        """The table, to be read in a terminal."""
        return super().__repr__() if len(self) else f"{self._title}\nNone in reach."


def _feet(feet: float) -> str:
    """A distance to the hole: to the half foot where that matters."""
    return f"{feet:.1f} ft" if feet < 9.95 else f"{feet:.0f} ft"


def _of_ten(share: float) -> str:
    """A share the way a coach says it, and in percent."""
    tenths = round(10 * share)
    if tenths == 0:
        words = "none" if share == 0 else "<1 of 10"
    elif tenths == 10:
        words = "all" if share == 1 else ">9 of 10"
    else:
        words = f"{tenths} of 10"
    percent = f"{100 * share:.0f}"
    if percent == "100" and share < 1:
        percent = ">99"
    elif percent == "0" and share > 0:
        percent = "<1"
    return f"{words} ({percent} %)"


class Expectations(Frames, Whole):
    """What a good-enough tee shot, approach, chip and putt of a player look like, from the player's own shots.

    A *good-enough* shot is one as good as two in three of the player's own shots; a *usual* one is as good as half of
    them. All are played on level ground of medium firmness in still air, aimed down the middle or at the pin, with the
    stroke the player would choose; the green is 25 yards across and reads 9 feet. Every figure has a standard error, in
    the column of the same name with ``_error`` after it.
    """

    def __init__(
        self, player: core.Player, plays: int, seed: int, parts: dict[str, Columns], share_error: float
    ) -> None:
        """Made by ``Player.expectations``."""
        #: The player.
        self.player = player
        #: Plays of every task.
        self.plays = plays
        #: The seed that fixed the luck.
        self.seed = seed
        self._by_part = {part: ExpectationTable(player, part, columns) for part, columns in parts.items()}
        self._share_error = share_error

    def _parts(self) -> tuple[Any, ...]:
        parts = {part: told.columns() for part, told in self._by_part.items()}
        return self.player, self.plays, self.seed, parts, self._share_error

    @property
    def tee_shot(self) -> ExpectationTable:
        """The tee shot with the longest club, one row.

        ``stroke`` (str); ``usual_total`` and ``good_enough_total`` (yards along the line, at least); ``usual_side`` and
        ``good_enough_side`` (yards from the line, at most): so many shots meet both, and either is met by as many;
        ``on_fairway`` (share on a fairway 35 yards wide).
        """
        return self._by_part["tee_shot"]

    @property
    def approaches(self) -> ExpectationTable:
        """Approaches from the fairway at a pin in the middle of the green, as far as the player reaches.

        ``yards`` (to the pin), ``stroke`` (str), ``usual_ft`` and ``good_enough_ft`` (feet from the pin within which
        half and two thirds finish), ``on_green`` (share).
        """
        return self._by_part["approaches"]

    @property
    def around_the_green(self) -> ExpectationTable:
        """Strokes around the green from fairway, rough and bunker.

        ``yards`` (to the pin; six tenths of them are green, at most 12.5), ``lie`` and ``stroke`` (str), ``usual_ft``
        and ``good_enough_ft`` (feet left by half and two thirds, at most), ``on_green`` (share of first strokes),
        ``down_in_two`` and ``down_in_three`` (share holed out in so many strokes or fewer).
        """
        return self._by_part["around_the_green"]

    @property
    def putts(self) -> ExpectationTable:
        """Putts on an ordinary green.

        ``feet`` (length), ``holed`` and ``down_in_two`` (shares, the latter in two or fewer), ``leave_ft`` (feet from
        the hole within which two thirds of the misses stop; NaN where no putt missed).
        """
        return self._by_part["putts"]

    def columns(self) -> Columns:
        """All figures, one a row, as named NumPy columns.

        ``part`` (``tee_shot``, ``approaches``, ``around_the_green`` or ``putts``), ``yards`` (to the pin; NaN for the
        tee shot), ``lie``, ``stroke``, ``figure`` (the name of the column in that part), ``value`` and
        ``standard_error``.
        """
        rows = [row for part in self._by_part.values() for row in _long(part)]
        names = ("part", "yards", "lie", "stroke", "figure", "value", "standard_error")
        return {name: np.array([row[i] for row in rows]) for i, name in enumerate(names)}

    @property
    def _title(self) -> str:
        return (
            f"{titled(self.player)}\nWhat a good-enough shot looks like; {self.plays:,} plays of each, seed {self.seed}"
        )

    @property
    def _footer(self) -> str:
        return (
            "Good enough is what 2 of 3 of this player's own shots are, on level medium\n"
            "ground in still air. Standard errors are in columns(); that of a share is\n"
            f"at most {100 * self._share_error:.1f} %."
        )

    def __repr__(self) -> str:
        """Every part, to be read in a terminal."""
        return "\n\n".join([self._title, *map(repr, self._by_part.values()), self._footer])

    def to_markdown(self) -> str:
        """Every part in Markdown, with captions and notes."""
        parts = [part.to_markdown() for part in self._by_part.values()]
        return "\n\n".join([markdown(self._title), *parts, markdown(self._footer)])

    def _repr_html_(self) -> str:
        tables = "".join(part._repr_html_() for part in self._by_part.values())
        title, footer = html.escape(self._title), html.escape(self._footer)
        return f"<p>{title}</p>{tables}<p>{footer}</p>"


def _long(table: ExpectationTable) -> list[tuple[str, float, str, str, str, float, float]]:
    """The figures of a part, one a row."""
    columns = table.columns()
    nothing = np.full(len(table), np.nan)
    yards = columns["feet"] / 3 if "feet" in columns else columns.get("yards", nothing)
    lies = columns.get("lie", [{"tee_shot": "tee", "approaches": "fairway"}.get(table.part, "green")] * len(table))
    strokes = columns.get("stroke", ["putt"] * len(table))
    figures = [name for name in columns if f"{name}_error" in columns]
    return [
        (table.part, float(yards[i]), str(lies[i]), str(strokes[i]), name, float(columns[name][i]), float(error))
        for i in range(len(table))
        for name in figures
        for error in [columns[f"{name}_error"][i]]
    ]
