"""Documents of every kind, spoilt: read, printed, taken on a journey and played."""

from __future__ import annotations

import contextlib
import functools
import json
import pathlib
import pickle
import tempfile

import helpers
import wideberth as wb

from attacking.things import COURSE, HOLE, NUMBERS, PLANS, PLAYER, WORDS, Fault, refusal


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
        "even ranking": (wb.compare(HOLE, PLAYER, PLANS[:2], plays=64, seed=2, luck="even"), tables),
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
