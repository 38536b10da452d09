"""One harness that attacks every door of the package: documents, files, calls, command lines and pages.

An attack is made from a seed alone, so that a seed tells it anywhere. What cannot be taken must be refused in words
that name something; what is taken must print, travel and be played. A panic, an error of another kind, a hang or a
process that ends is a fault, and is told with its kind and seed.

`test_attacks.py` runs a short round of each kind; DEVELOPERS.md tells how to run an hour of them.
"""

from __future__ import annotations

import argparse
import contextlib
import faulthandler
import functools
import html.parser
import io
import json
import os
import pathlib
import pickle
import random
import re
import sys
import tempfile
import time
import traceback
import warnings

import helpers
import numpy as np
import wideberth as wb
from wideberth import _wideberth as core
from wideberth import cli

#: Seconds that one attack may take on a busy machine: all but pages take a fraction of one.
HANG = 120
#: Bytes of addresses that the process may have: far more than it needs, far less than a machine has.
MOST_MEMORY = 8 << 30

HOLE = helpers.sketch()
SHORT = wb.Hole.sketch(par=3, length=120, bunkers=[wb.along(110, left=12)])
PLAYER = wb.Player.from_handicap(16)
PLANS = helpers.plans()
COURSE = wb.Course([SHORT, SHORT], name="Twice")

NUMBERS = [0, -0.0, 1, -1, 3, 0.5, 1e-300, 1e300, -1e300, 2**31, 2**63, 2**64, -(2**63), 90, 180.0000001, 1e5, 255, 256]
WORDS = [
    *"format version name par tee pin holes features surface outline plays seed scores causes tallies pairs".split(),
    *"question names rounds counts plan choices chances driver green rough left right long putter 7-iron".split(),
    "",
    " ",
    "a\0b",
    "\x1b[31m",
    "\u202e",
    "\ud7ff\u2028",
    "x" * 300,
    "<script>",
    "é",
    "../../etc",
    "1e999",
    "NaN",
]


class Refused(Exception):
    """What was given was refused, in words."""


class Fault(Exception):
    """Something that must not happen, in words."""


def refusal(call, *, kinds=(wb.InputError, TypeError)):
    """What the call gives, or `Refused`; a `Fault` if it was refused without words, or in none of ours."""
    try:
        return call()
    except kinds as error:
        words = str(error)
        if not words.strip():
            raise Fault(f"{type(error).__name__} says nothing") from error
        if re.search(
            r"object is not an instance of|cannot be interpreted as|object has no attribute|not iterable", words
        ):
            raise Fault(f"told in Python's own words: {words}") from error
        if not all(core.is_plain(line) for line in words.split("\n")):
            raise Fault(f"control characters in {words!r}") from error
        raise Refused from error


# Documents


def put_in(restore, args, place, text):
    return restore(*args[:place], text, *args[place + 1 :])


def put_through(restore, args, place, inner, text):
    return put_in(restore, args, place, inner(text))


def written(thing):
    """How a thing is restored from text, and the text: what its pickle calls, with the JSON put in."""
    restore, args = thing.__reduce__()
    for place, arg in enumerate(args):
        if isinstance(arg, str) and arg.lstrip()[:1] in ("{", "["):
            return functools.partial(put_in, restore, args, place), arg
    for place, part in enumerate(args):
        if hasattr(type(part), "__reduce__") and type(part).__module__.startswith("wideberth"):
            with contextlib.suppress(LookupError):
                inner, text = written(part)
                return functools.partial(put_through, restore, args, place, inner), text
    raise LookupError(type(thing))


@functools.cache
def documents():
    """Every kind of document: how it is read, a good one, and what is done with what was read."""
    shots = {"club": ["7-iron"] * 6, "carry": [131, 127, 124, 74, 130, 137], "lateral": [4, -9, 11, -15, 2, 14]}
    checkpoints = {"early": wb.first_putt(20, 2)}
    card = pathlib.Path(tempfile.mkdtemp()) / "card.csv"
    card.write_text("hole,stroke,club,lie,to_pin\n1,1,7-iron,tee,120\n1,2,putter,green,9\n", "utf-8")
    played = wb.play_rounds(COURSE, PLAYER, plays=40, seed=2)
    things = {
        "hole": (HOLE, play_hole),
        "course": (COURSE, lambda c: wb.play_rounds(c, PLAYER, plays=2, threads=1)),
        "player": (PLAYER, play_player),
        "fitted player": (wb.Player.from_shots(shots, prior=PLAYER), play_player),
        "plan": (PLANS[0], lambda plan: play(HOLE, PLAYER, plan)),
        "instruction": (PLANS[0].instructions[0], lambda i: play(HOLE, PLAYER, wb.Plan("one", [i]))),
        "club": (PLAYER.clubs[0], lambda club: PLAYER.with_clubs([club]) and club.flight),
        "habits": (PLAYER.habits, lambda habits: PLAYER.with_habits(habits)),
        "mishit shape": (PLAYER.clubs[0].mishit_shape, repr),
        "ranking": (wb.compare(HOLE, PLAYER, PLANS, plays=60, seed=2, checkpoints=checkpoints), tables),
        "even ranking": (wb.compare_evenly(HOLE, PLAYER, PLANS[:2], plays=64, seed=2), tables),
        "ranking of players": (wb.compare(HOLE, PLAYER, PLANS[:2], plays=20, player_draws=3), tables),
        "around the green": (wb.around_the_green(HOLE, PLAYER, at=wb.short_of_green(9), plays=60), tables),
        "rounds": (played, lambda p: (p.by_hole(), p.statistics(), p.summary, p.quantile(0.5))),
        "rating": (COURSE.rating(plays=40), repr),
        "target": (wb.break_score(COURSE, PLAYER, 8, plays=200, cell=10), told),
    }
    read = {name: (*written(thing), use) for name, (thing, use) in things.items()}
    for name in helpers.MAPS:
        read[f"map {name}"] = (wb.Hole.from_geojson, helpers.read_map(name), play_hole)
    return read


def play(hole, player, plan):
    with contextlib.suppress(wb.InputError):  # A plan may ask for a club that the player has not got.
        plays = wb.simulate(hole, player, plan, plays=4, threads=1)
        if not ((plays.scores >= 1).all() and (plays.scores <= 60).all()):
            raise Fault(f"scores {plays.scores}")


def play_hole(hole):
    play(hole, PLAYER, wb.Plan("steady", []))


def play_player(player):
    with contextlib.suppress(wb.InputError):
        player.tee_shot()
    play(HOLE, player, wb.Plan("steady", []))


def tables(result):
    return result.to_markdown(), getattr(result, "advice", None), getattr(result, "columns", dict)()


def told(target):
    return target.plan(), target.summary, target.turns, target.chance_from(hole=1, strokes_so_far=0)


def places(value):
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, item in inner:
        yield value, key
        yield from places(item)


def any_value(dice, depth=2):
    kind = dice.randrange(8 if depth else 5)
    if kind < 5:
        return [None, True, dice.choice(NUMBERS), dice.choice(WORDS), dice.choice(NUMBERS)][kind]
    if kind < 7:
        return [any_value(dice, depth - 1) for _ in range(dice.randrange(4))]
    return {dice.choice(WORDS): any_value(dice, depth - 1) for _ in range(dice.randrange(4))}


def spoilt(dice, document):
    """A document after a few blows: values replaced, left out, doubled or swapped."""
    for _ in range(dice.randint(1, 3)):
        everywhere = list(places(document))
        if not everywhere:
            return any_value(dice)
        container, key = dice.choice(everywhere)
        blow = dice.randrange(6)
        if blow == 0:
            container[key] = any_value(dice)
        elif blow == 1:
            container[key] = dice.choice(NUMBERS)
        elif blow == 2 and isinstance(container[key], int | float) and not isinstance(container[key], bool):
            container[key] *= dice.choice([-1, 0.5, 2, 1.001, 3])
        elif blow == 3:
            del container[key]
        elif blow == 4 and isinstance(container, list):
            container.insert(key, json.loads(json.dumps(container[key])))
        elif isinstance(container, list):
            other = dice.randrange(len(container))
            container[key], container[other] = container[other], container[key]
    return document


def garbled(dice, text):
    """A text with some of its characters changed, cut out or repeated."""
    for _ in range(dice.randint(1, 4)):
        i = dice.randrange(len(text) + 1)
        j = min(len(text), i + dice.randint(1, 12))
        put = dice.choice(
            ["", text[i:j] * 3, dice.choice(WORDS), str(dice.choice(NUMBERS)), dice.choice('9-.e{]",\0\n;')]
        )
        text = text[:i] + put + text[j:]
    return text


def document(dice):
    kind = dice.choice(sorted(documents()))
    read, good, use = documents()[kind]
    text = json.dumps(spoilt(dice, json.loads(good)))
    if dice.randrange(5) == 0:
        text = garbled(dice, text)
    try:
        thing = refusal(lambda: read(text))
        if not repr(thing):
            raise Fault("prints nothing")
        if not kind.startswith("map") and not same(pickle.loads(pickle.dumps(thing)), thing):
            raise Fault("is another thing after a journey")
        use(thing)
    except Fault as fault:
        raise Fault(f"{kind}: {fault}") from fault


def same(a, b):
    return a == b or repr(a) == repr(b)


# Files


ROUND = """hole,stroke,club,lie,to_pin,side,penalty
1,1,7-iron,tee,120,,
1,2,chip,rough,18,left 9,1
1,4,putter,green,7,,
2,1,8-iron,tee,120,,
2,2,putter,green,30,right 1,
2,3,putter,green,3,,
"""
SHOTS = "club,carry,lateral\n" + "".join(f"7-iron,{125 + 3 * i % 11},{7 * i % 13 - 6}\n" for i in range(12))


def table_file(dice, folder):
    """A round or a table of shots as a file, with cells and bytes changed."""
    good, use = dice.choice(
        [
            (ROUND, lambda path: wb.review(COURSE, PLAYER, path, cell=10)),
            (SHOTS, lambda path: wb.Player.from_shots(path, prior=PLAYER)),
        ]
    )
    rows = [line.split(",") for line in good.splitlines()]
    for _ in range(dice.randint(1, 3)):
        row = dice.choice(rows)
        blow = dice.randrange(4)
        if blow < 2 and row:
            row[dice.randrange(len(row))] = dice.choice([str(dice.choice(NUMBERS)), dice.choice(WORDS), '"', "'"])
        elif blow == 2:
            rows.insert(dice.randrange(len(rows)), list(row))
        else:
            row[dice.randrange(len(row) + 1) :] = []
    data = "\n".join(",".join(row) for row in rows).encode("utf-8", "surrogatepass")
    if dice.randrange(3) == 0:
        spoilt_bytes = bytearray(data)
        for _ in range(dice.randint(1, 5)):
            spoilt_bytes[dice.randrange(len(spoilt_bytes))] = dice.randrange(256)
        data = (
            bytes(spoilt_bytes[: dice.randrange(len(spoilt_bytes) + 1)])
            if dice.randrange(4) == 0
            else bytes(spoilt_bytes)
        )
    path = folder / "table.csv"
    path.write_bytes(data)
    found = refusal(lambda: use(path))
    if not repr(found):
        raise Fault("prints nothing")


# Calls


class Odd:
    """Something that answers to nothing as it should."""

    def __repr__(self):
        raise RuntimeError("no words")

    def __len__(self):
        return 10**12

    def __getitem__(self, key):
        return self


def junk(dice):
    return dice.choice(
        [
            *(
                None,
                True,
                "",
                "x",
                "a\0b",
                b"x",
                [],
                {},
                (),
                [1],
                {"a": 1},
                (1, 2),
                [None],
                {1: 2},
                object(),
                Odd(),
                int,
            ),
            *(
                float("nan"),
                float("inf"),
                -1,
                0,
                3,
                2.5,
                1e308,
                10**40,
                -(10**40),
                2**64,
                np.float64("nan"),
                np.int64(3),
            ),
            *(
                np.zeros(0),
                np.zeros((2, 2)),
                np.array(["a"]),
                np.ma.masked_array([1.0], [True]),
                range(10**9),
                iter([1]),
            ),
            *(HOLE, PLAYER, PLANS[0], COURSE, wb.along(100), wb.Wind(mph=3, from_deg=4), lambda *a, **k: None, max),
        ]
    )


@functools.cache
def calls():
    """Public functions and methods with arguments that are good and quickly answered."""
    plan = {"plays": 20, "seed": 1, "threads": 1}
    one = {"hole": HOLE, "player": PLAYER}
    course = {"course": COURSE, "player": PLAYER}
    solution = wb.evaluate(SHORT, PLAYER, cell=10)
    result = wb.compare(HOLE, PLAYER, PLANS, plays=20)
    heights = {"heights_ft": np.zeros((8, 8)), "cell": 100, "corner": (-300, -100)}
    return {
        "compare": (
            wb.compare,
            {**one, "plans": PLANS, **plan, "blow_up": 3, "at": None, "lie": None, "checkpoints": None},
        ),
        "compare to a precision": (wb.compare, {**one, "plans": PLANS[:1], "precision": 0.5, "maximum_score": 9}),
        "compare draws": (wb.compare, {**one, "plans": PLANS[:1], "plays": 5, "player_draws": 2}),
        "compare_evenly": (wb.compare_evenly, {**one, "plans": PLANS[:1], "plays": 64, "seed": 1, "threads": 1}),
        "compare_players": (wb.compare_players, {"hole": HOLE, "players": {"a": PLAYER}, "plan": PLANS[0], **plan}),
        "simulate": (wb.simulate, {**one, "plan": PLANS[0], **plan, "at": None, "lie": None}),
        "strokes": (wb.strokes, {**one, "club": "7-iron", "target": wb.along(100), "carry": 90, "n": 9, "seed": 1}),
        "suggest_plans": (wb.suggest_plans, one),
        "plays_like": (wb.plays_like, {**one, "at": wb.along(100), "to": None}),
        "around_the_green": (wb.around_the_green, {**one, "at": wb.short_of_green(8), **plan}),
        "aim_sweep": (wb.aim_sweep, {**one, "club": "driver", "aims": [0, 5], **plan}),
        "price_of_habits": (wb.price_of_habits, {**one, **plan}),
        "evaluate": (wb.evaluate, {"hole": SHORT, "player": PLAYER, "cell": 10, "threads": 1}),
        "play_rounds": (wb.play_rounds, {**course, "then": "direct", "plans": None, **plan}),
        "break_score": (wb.break_score, {**course, "target": 8, "plays": 200, "cell": 10, "seed": 1}),
        "practice_gains": (wb.practice_gains, {**course, "target": 8, "share": 0.1, "plays": 2, "then": "direct"}),
        "review": (wb.review, {**course, "round": "nowhere.csv"}),
        "sweep": (wb.sweep, {"function": wb.along, "cases": [{"yards": 3}], "executor": None, "progress": None}),
        "Course": (wb.Course, {"holes": [SHORT], "name": "One", "attribution": None}),
        "rating": (COURSE.rating, {"plays": 3, "seed": 1, "reference": "men"}),
        "Hole.sketch": (
            wb.Hole.sketch,
            {"par": 4, "length": 400, "bunkers": [], "water": [], "trees": [], "name": "a", "dogleg": (230, 20)},
        ),
        "Hole.under": (HOLE.under, {"conditions": wb.Conditions()}),
        "Hole.with_pin": (HOLE.with_pin, {"back": 3, "right": 2}),
        "Hole.with_terrain": (
            HOLE.with_terrain,
            {"uphill_ft": 3, "fairway_tilt_percent": 1, "green_tilt_percent": (1, 1)},
        ),
        "Hole.with_terrain heights": (HOLE.with_terrain, heights),
        "Hole.surface_at": (HOLE.surface_at, {"place": (0, 100)}),
        "Hole.height_ft": (HOLE.height_ft, {"place": [[0, 100]]}),
        "Conditions": (wb.Conditions, {"wind": wb.Wind(mph=3, from_deg=1), "firmness": "firm", "green_speed": 9}),
        "Wind": (wb.Wind, {"mph": 3, "from_deg": 9}),
        "hazard": (wb.hazard, {"place": wb.along(100), "length": 9, "width": 9, "name": "a"}),
        "along": (wb.along, {"yards": 100, "right": 3}),
        "Plan": (wb.Plan, {"name": "p", "instructions": [wb.at_pin()], "then": "steady"}),
        "shot": (wb.shot, {"club": "driver", "target": wb.along(200), "carry": 190}),
        "carry_over": (wb.carry_over, {"target": wb.along(200), "by": 5}),
        "leave": (wb.leave, {"yards": 90}),
        "first_putt": (wb.first_putt, {"within_ft": 10, "after_strokes": 2}),
        "Club": (
            wb.Club,
            {"name": "x", "carry": 150, "carry_sd": 5, "lateral_sd": 5, "mishit_shape": None, "run": 0.1},
        ),
        "MishitShape": (wb.MishitShape, {"duff_part": 0.5, "mildness": 2}),
        "Habits": (wb.Habits, {"every_flag": True, "too_little_club": 0.1}),
        "from_handicap": (wb.Player.from_handicap, {"handicap": 9, "carries": {"driver": 200}, "bag": None}),
        "from_average_score": (wb.Player.from_average_score, {"average_score": 90, "course_rating": 71}),
        "from_shots": (
            wb.Player.from_shots,
            {"shots": {"club": ["7-iron"] * 3, "carry": [130, 131, 128], "lateral": [0, 2, 5]}, "prior": PLAYER},
        ),
        "with_changes": (PLAYER.with_changes, {"straighter": 0.9, "putting": {"line": 0.9}}),
        "with_clubs": (PLAYER.with_clubs, {"clubs": [PLAYER.clubs[0]]}),
        "draws": (PLAYER.draws, {"n": 2, "seed": 1}),
        "expectations": (PLAYER.expectations, {"plays": 100, "seed": 1}),
        "fly": (wb.ball.fly, {"speed_mph": 120, "launch_deg": 12, "spin_rpm": 2500, "wind": None}),
        "run": (
            wb.ball.run,
            {"landing_speed_mph": 50, "landing_deg": 40, "landing_spin_rpm": 4000, "firmness": "firm"},
        ),
        "shot_from": (solution.shot_from, {"place": (0, 20), "lie": "rough"}),
        "expected_strokes": (solution.expected_strokes, {"place": (0, 20), "lie": None}),
        "chance": (solution.chance, {"place": (0, 20), "at_most": 4}),
        "strokes_gained": (solution.strokes_gained, {"strokes": {"x": [0.0], "y": [0.0]}}),
        "result[]": (result.__getitem__, {"name": "driver"}),
        "difference": (result.difference, {"first": "driver", "second": "iron"}),
        "quantile": (result.best.quantile, {"share": 0.5}),
    }


#: Fields that a refusal may name in place of the argument: what the argument holds.
HOLDS = {
    "no plan",
    "lie",
    "place",
    "at",
    "name",
    "club",
    "carry",
    "x",
    "y",
    "aims",
    "cell",
    "heights",
    "extent",
    "terrain",
    "argument",
}


def call(dice):
    name = dice.choice(sorted(calls()))
    function, good = calls()[name]
    changed = dice.sample(sorted(good), min(len(good), dice.randint(1, 2)))
    arguments = {**good, **{field: junk(dice) for field in changed}}
    if name in ("result[]",):
        asked = functools.partial(function, *arguments.values())
    else:
        asked = functools.partial(function, **arguments)
    try:
        found = refusal(asked, kinds=(wb.InputError, TypeError, KeyError))
        if not isinstance(found, type(None)):
            repr(found)
    except Fault as fault:
        raise Fault(f"{name}({', '.join(changed)}): {fault}") from fault
    except Refused as refused:
        words = str(refused.__cause__)
        if not any(field in words for field in changed) and not any(word in words for word in HOLDS):
            raise Fault(f"{name}: names none of {changed}: {words}") from refused
        raise


# Command lines


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


# Pages


MARKUP = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "\"><svg onload='alert(1)'>",
    "' onmouseover='alert(1)",
    "</title></style><script>1</script>",
    "{{ 7*7 }}{% raw %}",
    "]]><!-- -->&amp;&lt;",
    "javascript:alert(1)",
    "$\\alpha$ _{x",
]


class Elements(html.parser.HTMLParser):
    """What a browser would make of a page: its elements with their attributes, and its text."""

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.elements, self.words = [], []

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, tuple(sorted(name for name, _ in attrs))))

    def handle_data(self, data):
        self.words.append(data)


def pages_of(name, folder):
    """Every page and picture of things that bear a name, as (what, text)."""
    bunker = wb.hazard(wb.along(110, left=12), name=name[:50])
    holes = [wb.Hole.sketch(par=3, length=length, name=name, water=[bunker]) for length in (120, 130)]
    player = wb.Player.from_json(json.dumps({**json.loads(PLAYER.to_json()), "name": name[:60]}))
    course = wb.Course(holes, name=name, attribution=name)
    plans = [wb.Plan(name[:60], [wb.at_pin()]), wb.Plan("other", [wb.leave(30)])]
    result = wb.compare(holes[0], player, plans, plays=40, seed=1)
    target = wb.break_score(course, player, 8, plays=200, cell=10)
    played = wb.play_rounds(course, player, plays=40)
    practice = wb.practice_gains(course, player, target=8, plays=2)
    report = wb.report(result, path=folder / "a.html", title=name)
    round_page = wb.report(target, path=folder / "b.html", title=name, played=played, practice=practice)
    for what, page in (("report", report), ("round", round_page)):
        yield what, page.read_text("utf-8")
    for what, axes in (
        ("picture of the hole", holes[0].plot(title=name)),
        ("picture of scores", result.plot(title=name)),
        ("picture of rounds", practice.plot(title=name)),
    ):
        wb.plot.save(axes, folder / "d.svg")
        yield what, (folder / "d.svg").read_text("utf-8")
    for what, shown in (("notebook", result), ("notebook", course), ("notebook", holes[0]), ("notebook", player)):
        yield what, shown._repr_html_()
    wb.pocket_card(target, path=folder / "sheet.pdf")
    wb.pocket_card(result, path=folder / "card.pdf")


@functools.cache
def plain_elements():
    with tempfile.TemporaryDirectory() as folder:
        return [elements(text) for _, text in pages_of("plain", pathlib.Path(folder))]


def elements(text):
    parser = Elements()
    parser.feed(text)
    return parser


def page(dice, folder):
    """A page whose names are markup has the elements of one whose names are plain, and shows the markup as text."""
    name = dice.choice(MARKUP) + dice.choice(["", " 1", "é"])
    try:
        found = refusal(lambda: list(pages_of(name, folder)))
    finally:
        sys.modules["matplotlib.pyplot"].close("all") if "matplotlib.pyplot" in sys.modules else None
    for plain, (what, text) in zip(plain_elements(), found, strict=True):
        made = elements(text)
        tags = {tag for tag, _ in made.elements} - {tag for tag, _ in plain.elements}
        odd = {at for _, names in made.elements for at in names} - {at for _, names in plain.elements for at in names}
        if (
            tags
            or any(at.startswith("on") for at in odd)
            or made.elements.count(("script", ())) != plain.elements.count(("script", ()))
        ):
            raise Fault(f"{what}: elements {tags}, attributes {odd} of the name {name!r}")


#: The kinds of attacks, with how many of them a short round makes.
KINDS = {"document": 500, "file": 100, "call": 900, "command": 40, "page": 3}


def attack(kind, seed, folder):
    """Makes one attack; raises `Refused` or `Fault`."""
    dice = random.Random(f"{kind} {seed}")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        match kind:
            case "document":
                document(dice)
            case "file":
                table_file(dice, folder)
            case "call":
                call(dice)
            case "command":
                command(dice, folder)
            case "page":
                page(dice, folder)


def run(kinds, first, seconds, at):
    """Attacks by the kinds' counts, or for so many seconds; tells what came. `at` is a file that holds the last."""
    resource = __import__("resource") if sys.platform != "win32" else None
    if resource:
        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    counts = {kind: {"made": 0, "refused": 0, "slowest_s": 0.0, "slowest": None} for kind in kinds}
    faults, began = [], time.monotonic()
    documents(), calls()  # What all attacks need is made beforehand, or the first would be slow.
    with tempfile.TemporaryDirectory() as folder:
        round_of = 0
        while not round_of or time.monotonic() - began < seconds:
            for kind, many in kinds.items():
                for seed in range(first + round_of * many, first + (round_of + 1) * many):
                    if seconds and time.monotonic() - began > seconds:
                        break
                    os.pwrite(at, f"{kind} {seed}".encode().ljust(60), 0)
                    faulthandler.dump_traceback_later(HANG, exit=True)
                    start = time.monotonic()
                    try:
                        attack(kind, seed, pathlib.Path(folder))
                    except Refused:
                        counts[kind]["refused"] += 1
                    except Fault as fault:
                        faults.append(f"{kind} {seed}: {fault}")
                    except KeyboardInterrupt:
                        raise
                    except BaseException as error:  # A panic is no Exception.
                        where = traceback.format_exc().strip().splitlines()
                        faults.append(f"{kind} {seed}: {type(error).__name__}: {' | '.join(where[-7:])[-900:]}")
                    faulthandler.cancel_dump_traceback_later()
                    took = time.monotonic() - start
                    counts[kind]["made"] += 1
                    if took > counts[kind]["slowest_s"]:
                        counts[kind].update(slowest_s=round(took, 3), slowest=seed)
            round_of += 1
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024 if resource else None
    return {"counts": counts, "faults": faults, "seconds": round(time.monotonic() - began, 1), "peak_mib": peak}


def main():
    p = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    p.add_argument("--seconds", type=float, default=0, help="attack for so long; 0 for one short round")
    p.add_argument("--kind", choices=KINDS, help="one kind alone")
    p.add_argument("--seed", type=int, help="one attack alone, of a kind")
    p.add_argument("--first", type=int, default=0, help="the first seed")
    p.add_argument("--last", help="a file that holds the attack under way, for when the process ends in it")
    told = p.parse_args()
    if told.seed is not None:
        with tempfile.TemporaryDirectory() as folder:
            attack(told.kind, told.seed, pathlib.Path(folder))
        return
    kinds = {told.kind: KINDS[told.kind]} if told.kind else KINDS
    at = os.open(told.last or os.devnull, os.O_WRONLY)
    print(json.dumps(run(kinds, told.first, told.seconds, at), indent=1))


if __name__ == "__main__":
    main()
