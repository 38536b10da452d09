"""Documents of any shape: what cannot be read is an InputError, never anything else, and what can be read works.

A panic of the core would come out as `pyo3_runtime.PanicException`, which is no Exception, and fail these tests.
"""

import contextlib
import copy
import json

import helpers
import wideberth as wb
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

READERS = {
    "hole": wb.Hole.from_json,
    "map": wb.Hole.from_geojson,
    "player": wb.Player.from_json,
    "plan": wb.Plan.from_json,
    "club": wb.Club.from_json,
    "instruction": wb.Instruction.from_json,
}
PLAYER = wb.Player.from_handicap(20)
PLAN = helpers.plans()[0]
GOOD = {
    "hole": json.loads(helpers.sketch().to_json()),
    "map": json.loads(helpers.read_map("alder-bend")),
    "player": json.loads(PLAYER.to_json()),
    "plan": json.loads(PLAN.to_json()),
    "club": json.loads(PLAYER.clubs[0].to_json()),
    "instruction": json.loads(PLAN.instructions[0].to_json()),
}

FEW = settings(max_examples=60, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))

numbers = st.one_of(
    st.integers(-3, 10),
    st.integers(),
    st.floats(-1e3, 1e3),
    st.floats(),
    st.sampled_from([0, -1, 1e-300, 1e300, -1e300, 2**63, 2**64, 1e5, 90, 180.0000001]),
)
#: Words that mean something to the readers, beside any other text.
words = st.one_of(
    st.sampled_from(
        [
            *"format version name par tee pin features surface outline holes canopy boundaries line out".split(),
            *"left type".split(),
            *"wideberth-hole wideberth-player wideberth-plan FeatureCollection Feature Polygon MultiPolygon".split(),
            *"LineString MultiLineString Point properties geometry coordinates golf hole green bunker natural".split(),
            *"water wood waterway stream role width height shot leave advance at_pin".split(),
            *"carry over by along at club clubs then habits mishit_shape".split(),
        ]
    ),
    st.text(max_size=8),
)
values = st.recursive(
    st.one_of(st.none(), st.booleans(), numbers, words),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(words, inner, max_size=4)),
    max_leaves=12,
)


def places(value):
    """Every place in a JSON value: its container and the key or index in it."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, item in inner:
        yield value, key
        yield from places(item)


@st.composite
def spoilt(draw, kind):
    """A good document after a few blows: values replaced, left out, doubled or swapped."""
    document = copy.deepcopy(GOOD[kind])
    for _ in range(draw(st.integers(1, 3))):
        all_places = list(places(document))
        if not all_places:
            break
        container, key = draw(st.sampled_from(all_places))
        blow = draw(st.sampled_from(["replace", "number", "nudge", "drop", "double", "swap"]))
        if blow == "replace":
            container[key] = draw(values)
        elif blow == "number":
            container[key] = draw(numbers)
        elif blow == "nudge" and isinstance(container[key], int | float):
            container[key] *= draw(st.sampled_from([-1, 0.5, 1 + 1e-9, 1.001, 1.1, 3]))
        elif blow == "drop":
            del container[key]
        elif blow == "double" and isinstance(container, list):
            container.insert(key, copy.deepcopy(container[key]))
        elif blow == "swap" and isinstance(container, list):
            other = draw(st.integers(0, len(container) - 1))
            container[key], container[other] = container[other], container[key]
    return document


def read(kind, text):
    """The thing, or None if it was refused with a message."""
    try:
        return READERS[kind](text)
    except wb.InputError as error:
        message = str(error)
    assert message.strip()
    return None


def use(kind, thing):
    """What was accepted is whole: it is equal to itself after a round trip, prints, and can be played."""
    assert type(thing).from_json(thing.to_json()) == thing
    assert repr(thing)
    hole, player, plan = helpers.sketch(), PLAYER, PLAN
    if kind in ("hole", "map"):
        hole = thing
    elif kind == "player":
        player = thing
        assert thing.tee_shot().carry > 0
    elif kind == "plan":
        plan = thing
    elif kind == "club":
        player = PLAYER.with_clubs([thing]) if thing.name in {c.name for c in PLAYER.clubs} else PLAYER
    elif kind == "instruction":
        plan = wb.Plan("fuzzed", [thing])
    with contextlib.suppress(wb.InputError):  # A plan may ask for a club that the player has not got.
        plays = wb.simulate(hole, player, plan, plays=8, threads=1)
        assert (plays.scores >= 1).all() and (plays.scores <= 60).all()
        columns = plays.columns()
        for name in ("x", "y", "to_pin", "landed_x", "landed_y", "rest_x", "rest_y"):
            assert (abs(columns[name]) < 1e6).all(), name


def check(kind, document):
    # allow_nan: NaN and Infinity are no JSON, and are refused as such.
    thing = read(kind, json.dumps(document, allow_nan=True))
    if thing is not None:
        use(kind, thing)


@FEW
@given(st.data())
def test_any_json(data):
    kind = data.draw(st.sampled_from(sorted(READERS)))
    check(kind, data.draw(values))


@FEW
@given(st.sampled_from(sorted(READERS)), st.text(max_size=60))
def test_any_text(kind, text):
    read(kind, text)


@FEW
@given(st.data())
def test_cut_and_flipped_text(data):
    kind = data.draw(st.sampled_from(sorted(READERS)))
    text = json.dumps(GOOD[kind])
    i = data.draw(st.integers(0, len(text) - 1))
    replaced = data.draw(st.one_of(st.just(""), st.characters(codec="utf-8"), st.just(text[i] * 40)))
    tail = "" if data.draw(st.booleans()) else text[i + 1 :]
    thing = read(kind, text[:i] + replaced + tail)
    if thing is not None:
        use(kind, thing)


@FEW
@given(spoilt("hole"))
def test_spoilt_holes(document):
    check("hole", document)


@FEW
@given(spoilt("map"))
def test_spoilt_maps(document):
    check("map", document)


@FEW
@given(spoilt("player"))
def test_spoilt_players(document):
    check("player", document)


@FEW
@given(spoilt("plan"))
def test_spoilt_plans(document):
    check("plan", document)


@FEW
@given(spoilt("club"))
def test_spoilt_clubs(document):
    check("club", document)


@FEW
@given(spoilt("instruction"))
def test_spoilt_instructions(document):
    check("instruction", document)


def test_deep_nesting_is_refused():
    for kind in READERS:
        for text in ("[" * 100_000, '{"a":' * 100_000, json.dumps(GOOD[kind])[:-1] + ',"x":' + "[" * 5_000):
            assert read(kind, text) is None


@FEW
@given(
    st.fixed_dictionaries(
        {"par": st.integers(2, 7), "length": numbers},
        optional={
            "fairway_width": numbers,
            "fairway_from": numbers,
            "fairway_to": numbers,
            "green_depth": numbers,
            "green_width": numbers,
            "first_cut_width": numbers,
            "fringe_width": numbers,
            "pin_back": numbers,
            "pin_right": numbers,
            "green_speed": numbers,
            "out_of_bounds_offset": numbers,
            "dogleg": st.tuples(numbers, numbers),
            "crossings": st.lists(st.tuples(numbers, numbers), max_size=2),
            "out_of_bounds": st.sampled_from(["left", "right", "both"]),
        },
    )
)
def test_sketches_of_any_numbers(arguments):
    try:
        hole = wb.Hole.sketch(**arguments)
    except wb.InputError:
        return
    use("hole", hole)


@settings(FEW, max_examples=40)
@given(st.data())
def test_sensible_sketches_are_drawn_and_can_be_played(data):
    """Sketches within wide limits are accepted or refused for a reason, and the accepted ones can be played."""
    draw = data.draw
    par = draw(st.sampled_from([3, 4, 5]))
    length = draw(st.floats(*{3: (90, 250), 4: (260, 480), 5: (450, 620)}[par]))
    side = st.floats(-60, 60)
    aims = st.builds(wb.along, st.floats(20, length), side)
    some = st.lists(
        st.one_of(aims, st.builds(wb.hazard, aims, st.floats(3, 80), st.floats(3, 40))),
        max_size=3,
    )
    try:
        hole = wb.Hole.sketch(
            par=par,
            length=length,
            dogleg=draw(st.one_of(st.none(), st.tuples(st.floats(150, 300), st.floats(-60, 60)))),
            bunkers=draw(some),
            water=draw(some),
            trees=draw(some),
            out_of_bounds=draw(st.sampled_from([None, "left", "right", "both"])),
            out_of_bounds_offset=draw(st.floats(20, 80)),
        )
    except wb.InputError:
        return
    use("hole", hole)
    plans = wb.suggest_plans(hole, PLAYER)
    assert plans and len({p.name for p in plans}) == len(plans)
    result = wb.compare(hole, PLAYER, plans, plays=4)
    assert result.best.mean >= 1
