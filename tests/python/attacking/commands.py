"""Command lines with odd words in them."""

from __future__ import annotations

import contextlib
import io

from wideberth import cli

from attacking.files import ROUND
from attacking.things import COURSE, Fault, Refused

COMMANDS = [
    ["compare", "--handicap", "18", "--plays", "20", "--quiet"],
    ["player", "--handicap", "18"],
    ["practice", "COURSE", "--handicap", "18", "--plays", "2", "--quiet"],
    ["review", "ROUND", "COURSE", "--handicap", "18", "--quiet", "--cell", "10"],
    ["round", "COURSE", "--break", "8", "--handicap", "18", "--quiet", "--cell", "10", "--plays", "200"],
]
ODD = [
    "",
    "-1",
    "0",
    "x",
    "nan",
    "1e999",
    "--",
    "--nothing",
    "a\x1b[31m",
    "../no",
    "--handicap",
    "99999999999999999999",
    "\u202e",
]


def command(dice, folder):
    (folder / "course.json").write_text(COURSE.to_json(), "utf-8")
    (folder / "round.csv").write_text(ROUND, "utf-8")
    known = {"COURSE": str(folder / "course.json"), "ROUND": str(folder / "round.csv")}
    line = [known.get(word, word) for word in dice.choice(COMMANDS)]
    for _ in range(dice.randint(1, 2)):
        line[dice.randrange(1, len(line))] = dice.choice(ODD)
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            code = cli.main(line)
        except SystemExit as end:
            code = end.code
    if code not in (None, 0):
        words = err.getvalue()
        if code != 2 or not words.strip() or "Traceback" in words or "\x1b" in words:
            raise Fault(f"{line}: ended with {code}: {words[-300:]!r}")
        raise Refused
