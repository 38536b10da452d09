"""Bad input gets an InputError that names the field, the value and what is allowed, before anything is played."""

import json
import math
import time

import helpers
import numpy as np
import pytest
import wideberth as wb

HOLE = helpers.sketch()
PLAYER = wb.Player.from_handicap(12)
PLAN = wb.Plan("one", [wb.shot("driver", wb.along(200))])
NAN, INF = math.nan, math.inf
ONE_PUTT = {"one putt": wb.first_putt(10, 3)}


def refused(call, *words):
    with pytest.raises(wb.InputError) as caught:
        call()
    text = str(caught.value)
    assert isinstance(caught.value, ValueError)
    missing = [word for word in words if word not in text]
    assert not missing, f"{text!r} does not name {missing}"


def compare(**changes):
    arguments = {"hole": HOLE, "player": PLAYER, "plans": [PLAN], "plays": 1_000_000_000, **changes}
    return lambda: wb.compare(**arguments)


def simulate(**changes):
    arguments = {"hole": HOLE, "player": PLAYER, "plan": PLAN, "plays": 1_000_000_000, **changes}
    return lambda: wb.simulate(**arguments)


#: Numbers that compare and simulate share.
SHARED = [
    ({"plays": 0}, "plays is 0", "1,000,000,000"),
    ({"plays": -5}, "plays is -5", "1,000,000,000"),
    ({"plays": 1_000_000_001}, "plays is 1000000001", "1,000,000,000"),
    ({"plays": 10**40}, f"plays is {10**40}", "1,000,000,000"),
    ({"seed": -1}, "seed is -1", "0 to"),
    ({"seed": 2**64}, f"seed is {2**64}", "18,446,744,073,709,551,615"),
    ({"seed": -(2**200)}, f"seed is {-(2**200)}"),
    ({"threads": 0}, "threads is 0", "None"),
    ({"threads": -1}, "threads is -1"),
    ({"threads": 5_000}, "threads is 5000", "1024"),
    ({"maximum_score": 4}, "maximum_score is 4", "above par"),
    ({"maximum_score": 0}, "maximum_score is 0"),
    ({"maximum_score": -1}, "maximum_score is -1"),
    ({"maximum_score": 61}, "maximum_score is 61", "60"),
    ({"maximum_score": 300}, "maximum_score is 300", "60"),
]


@pytest.mark.parametrize("run", [compare, simulate])
@pytest.mark.parametrize(("changes", "words"), [(c, w) for c, *w in SHARED], ids=lambda v: str(v)[:40])
def test_numbers_of_a_run(run, changes, words):
    start = time.monotonic()
    refused(run(**changes), *words)
    # A thousand million plays would take hours.
    assert time.monotonic() - start < 5


@pytest.mark.parametrize("run", [compare, simulate])
def test_a_number_that_python_does_not_print(run):
    refused(run(plays=10**5000), "plays is enormous", "1,000,000,000")


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"plans": []}, ["plans"]),
        ({"plans": [PLAN, PLAN]}, ["two named", "one"]),
        ({"plans": [wb.Plan(str(i), []) for i in range(501)]}, ["plans has 501", "500"]),
        (
            {"plans": [wb.Plan("p", [wb.shot("2-iron", wb.along(200))])]},
            ["2-iron", "driver", "instruction 1"],
        ),
        ({"blow_up": 0}, ["blow_up is 0", "1 to 20"]),
        ({"blow_up": 21}, ["blow_up is 21", "1 to 20"]),
        ({"blow_up": -3}, ["blow_up is -3", "1 to 20"]),
        ({"blow_up": 999}, ["blow_up is 999", "1 to 20"]),
        ({"precision": 0.0}, ["precision is 0", "0.0005"]),
        ({"precision": -0.1}, ["precision is -0.1"]),
        ({"precision": 6}, ["precision is 6", "5"]),
        ({"precision": NAN}, ["precision is NaN"]),
        ({"precision": INF}, ["precision is inf"]),
        ({"precision": 0.1, "plays": 999}, ["plays is 999", "1,000"]),
        ({"checkpoints": {"mean": wb.first_putt(10, 3)}}, ["'mean'", "column"]),
    ],
    ids=lambda v: str(v)[:40],
)
def test_numbers_of_a_comparison(changes, words):
    refused(compare(**changes), *words)


@pytest.mark.parametrize(
    "changes",
    [
        {"plays": 10.0},
        {"plays": "many"},
        {"seed": 1.5},
        {"seed": None},
        {"threads": 1.0},
        {"maximum_score": 7.5},
        {"hole": "a hole"},
        {"player": None},
        {"progress": 7},
    ],
    ids=str,
)
@pytest.mark.parametrize("run", [compare, simulate])
def test_wrong_types_of_a_run(run, changes):
    with pytest.raises(TypeError):
        run(**changes)()


@pytest.mark.parametrize(
    "changes",
    [
        {"plans": PLAN},
        {"plans": ["driver"]},
        {"plans": None},
        {"plans": [PLAN, None]},
        {"blow_up": 2.5},
        {"blow_up": "two"},
        {"precision": "fine"},
        {"checkpoints": {"x": 3}},
        {"checkpoints": {3: wb.first_putt(10, 3)}},
    ],
    ids=str,
)
def test_wrong_types_of_a_comparison(changes):
    with pytest.raises(TypeError):
        compare(**changes)()


def test_numbers_of_numpy_are_numbers():
    result = compare(plays=np.int64(5), seed=np.uint32(1), blow_up=np.int8(2), maximum_score=np.int64(9))()
    assert result == compare(plays=5, seed=1, blow_up=2, maximum_score=9)()


@pytest.mark.parametrize(
    ("within_ft", "after_strokes", "words"),
    [
        (0, 2, ["within_ft is 0"]),
        (-1, 2, ["within_ft is -1"]),
        (NAN, 2, ["within_ft is NaN"]),
        (INF, 2, ["within_ft is inf"]),
        (10, 0, ["after_strokes is 0"]),
        (10, -1, ["after_strokes is -1"]),
        (10, 256, ["after_strokes is 256"]),
        (10, 10**40, ["after_strokes is 1000"]),
    ],
)
def test_checkpoints(within_ft, after_strokes, words):
    refused(lambda: wb.first_putt(within_ft, after_strokes), *words)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: wb.along(NAN), ["along", "yards is NaN"]),
        (lambda: wb.along(10, NAN), ["right is NaN"]),
        (lambda: wb.along(10, left=INF), ["right is -inf"]),
        (lambda: wb.along(10, 3, left=3), ["left or right"]),
        (lambda: wb.at(NAN, 0), ["x is NaN"]),
        (lambda: wb.at(0, -INF), ["y is -inf"]),
        (lambda: wb.leave(NAN), ["leave is NaN", "1 to 1000"]),
        (lambda: wb.leave(0), ["leave is 0", "1 to 1000"]),
        (lambda: wb.leave(1001), ["leave is 1001"]),
        (lambda: wb.advance(NAN), ["advance is NaN", "1 to 450"]),
        (lambda: wb.advance(-20), ["advance is -20"]),
        (lambda: wb.at_pin(clubs=7), ["clubs is 7", "-6 to 6"]),
        (lambda: wb.at_pin(clubs=-7), ["clubs is -7"]),
        (lambda: wb.at_pin(clubs=10**30), ["clubs is 1000", "-6 to 6"]),
        (lambda: wb.carry_over(wb.along(180), by=NAN), ["by is NaN", "0 to 100"]),
        (lambda: wb.carry_over(wb.along(180), by=-1), ["by is -1"]),
        (lambda: wb.carry_over(wb.along(180), by=101), ["by is 101"]),
        (lambda: wb.carry_over(wb.along(2001)), ["along is 2001", "0 to 2000"]),
        (lambda: wb.exactly("chip", wb.along(180), carry=-1), ["carry is -1", "0 to 450"]),
        (lambda: wb.exactly("chip", wb.at(NAN, 1)), ["x is NaN"]),
        (lambda: wb.shot("driver", wb.along(-1)), ["along is -1", "0 to 2000"]),
        (lambda: wb.shot("driver", wb.along(100, 501)), ["501", "-500 to 500"]),
        (lambda: wb.shot("driver", wb.at(2e5, 0)), ["x is 200000"]),
        (lambda: wb.shot("driver", wb.along(200), carry=NAN), ["carry is NaN", "1 to 450"]),
        (lambda: wb.shot("driver", wb.along(200), carry=0), ["carry is 0"]),
        (lambda: wb.Plan("", []), ["name", "empty"]),
        (lambda: wb.Plan(" \t", []), ["name", "empty"]),
        (lambda: wb.Plan("p", [], then="reckless"), ["then", "reckless", "steady"]),
        (lambda: wb.Plan("p", [], then=""), ["then", "direct"]),
        (lambda: wb.Plan.from_json("{}"), ["JSON"]),
        (lambda: wb.Plan.from_json("no JSON"), ["JSON"]),
        (
            lambda: wb.Plan.from_json(PLAN.to_json().replace("200.0", "2000.5")),
            ["one", "instruction 1", "along is 2000.5"],
        ),
        (lambda: wb.Instruction.from_json('{"leave": {"yards": 0.5}}'), ["leave is 0.5"]),
        (lambda: wb.Instruction.from_json('{"jump": 3}'), ["jump"]),
        (lambda: wb.Instruction.from_json('{"at_pin": {"clubs": 9}}'), ["clubs is 9"]),
    ],
    ids=lambda v: str(v)[:40] if isinstance(v, list) else "",
)
def test_aims_instructions_and_plans(call, words):
    refused(call, *words)


def test_a_lay_up_longer_than_the_hole():
    plan = wb.Plan("far", [wb.shot("driver", wb.along(200)), wb.leave(HOLE.length)])
    words = "far", "instruction 2", "leave is", "must be below"
    refused(lambda: wb.simulate(HOLE, PLAYER, plan, plays=10, seed=1), *words)
    refused(lambda: wb.compare(HOLE, PLAYER, [plan], plays=10, seed=1), *words)


@pytest.mark.parametrize(
    "call",
    [
        lambda: wb.along("far"),
        lambda: wb.along(),
        lambda: wb.leave(None),
        lambda: wb.at_pin(1),
        lambda: wb.at_pin(clubs=1.5),
        lambda: wb.at_pin(clubs=None),
        lambda: wb.carry_over(180),
        lambda: wb.carry_over(wb.along(180), 10),
        lambda: wb.Habits(0.1),
        lambda: wb.Habits(every_flag=1),
        lambda: wb.MishitShape(0.5),
        lambda: wb.Club.like("driver"),
        lambda: wb.Club("driver", carry=200, carry_sd=10, lateral_sd=10, mishit_shape={"duff_part": 0.5}),
        lambda: PLAYER.with_habits(None),
        lambda: wb.shot("driver", (0, 200)),
        lambda: wb.shot(7, wb.along(200)),
        lambda: wb.Plan("p", [wb.along(200)]),
        lambda: wb.Plan("p", wb.at_pin()),
        lambda: wb.Plan("p", [], then=None),
        lambda: wb.Plan(None, []),
        lambda: wb.first_putt(10, 2.5),
        lambda: wb.first_putt("near", 2),
        lambda: wb.Player.from_handicap("good"),
        lambda: wb.Player.from_handicap(20, "women"),
        lambda: wb.Player.from_handicap(20, reference=None),
        lambda: wb.Club("driver", 200, 10, 10),
        lambda: wb.Aim(),
        lambda: wb.Hole(),
        lambda: wb.Player(),
        lambda: PLAYER.with_clubs(["driver"]),
        lambda: HOLE.surface_at(None),
        lambda: HOLE.surface_at(3.0),
        lambda: HOLE.surface_at("here"),
        lambda: HOLE.surface_at([["a", "b"]]),
        lambda: HOLE.surface_at({"x": 1}),
        lambda: HOLE.point((1, 2)),
        lambda: wb.hazard((1, 2)),
        lambda: wb.Hole.from_json(b"{}"),
        lambda: wb.Hole.read(7),
        lambda: PLAN < PLAN,
        lambda: wb.leave(3) < wb.leave(4),
    ],
)
def test_wrong_types(call):
    with pytest.raises(TypeError):
        call()


CLUB = {"carry": 160, "carry_sd": 9, "lateral_sd": 12}


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"carry_sd": -3}, ["carry_sd", "-3"]),
        ({"carry_sd": 100}, ["carry_sd", "100", "half"]),
        ({"carry_sd": NAN}, ["carry_sd", "NaN"]),
        ({"lateral_sd": INF}, ["lateral_sd", "inf"]),
        ({"lateral_sd": -1}, ["lateral_sd", "-1"]),
        ({"correlation": 1.4}, ["correlation", "1.4"]),
        ({"correlation": NAN}, ["correlation", "NaN"]),
        ({"carry": NAN}, ["carry", "NaN"]),
        ({"carry": 0}, ["carry", "0", "450"]),
        ({"carry": 451}, ["carry", "451"]),
        ({"lateral_bias": 41}, ["lateral_bias", "41"]),
        ({"mishit_share": 0.46}, ["mishit_share", "0.46", "0.45"]),
        ({"mishit_share": -0.1}, ["mishit_share", "-0.1"]),
        ({"run": -0.1}, ["run", "-0.1"]),
        ({"run": NAN}, ["run", "NaN"]),
        ({"off_ground": 0.29}, ["off_ground", "0.29", "0.3 to 1"]),
        ({"off_ground": 1.01}, ["off_ground", "1.01"]),
        ({"off_ground": NAN}, ["off_ground", "NaN"]),
    ],
    ids=str,
)
def test_clubs(changes, words):
    refused(lambda: wb.Club("5-iron", **{**CLUB, **changes}), "5-iron", *words)


@pytest.mark.parametrize(
    ("field", "values"),
    [
        ("duff_part", (-0.1, 1.1, NAN)),
        ("duff_carry", (0.04, 1.6, NAN)),
        ("wild_carry", (0.04, 1.6, INF)),
        ("duff_carry_sd", (-0.1, 0.6, NAN)),
        ("wild_carry_sd", (-0.1, 0.6, NAN)),
        ("duff_side", (-0.1, 10.1, NAN)),
        ("wild_side", (-0.1, 10.1, NAN)),
        ("duff_run", (-0.1, 2.1, NAN)),
        ("wild_run", (-0.1, 2.1, NAN)),
        ("mildness", (-0.1, 10.1, INF)),
    ],
)
def test_shapes_of_mishits(field, values):
    for value in values:
        given = "NaN" if value != value else f"{value:g}"
        refused(lambda value=value: wb.MishitShape(**{field: value}), f"{field} is {given}; it must be")


def test_habits():
    for value in (-0.1, 0.31, NAN):
        refused(lambda value=value: wb.Habits(too_little_club=value), "too_little_club is", "0 to 0.3")
    refused(lambda: wb.Habits.from_json("{}"), "too_little_club")
    for plays in (0, -1, 10**30):
        refused(lambda plays=plays: wb.price_of_habits(HOLE, PLAYER, plays=plays), f"plays is {plays}", "1,000,000,000")
    refused(lambda: wb.price_of_habits(HOLE, PLAYER, seed=-1), "seed is -1")
    refused(lambda: wb.price_of_habits(HOLE, PLAYER, threads=0), "threads is 0")


@pytest.mark.parametrize("text", ["[]", "", "3", "no JSON"])
@pytest.mark.parametrize(
    ("kind", "what"),
    [
        (wb.Club, "a club"),
        (wb.Habits, "habits"),
        (wb.MishitShape, "a shape of mishits"),
        (wb.Instruction, "an instruction"),
        (wb.Plan, "a plan"),
        (wb.Player, "a player"),
    ],
)
def test_what_is_no_document(kind, what, text):
    with pytest.raises(wb.InputError) as caught:
        kind.from_json(text)
    assert str(caught.value) == f'text is "{text}"; it must be the JSON of {what}, as to_json writes it'


@pytest.mark.parametrize(("moves", "words"), [({"back": NAN}, "back is NaN"), ({"right": -INF}, "right is -inf")])
def test_where_no_pin_can_be(moves, words):
    refused(lambda: HOLE.with_pin(**moves), f"{words}; it must be yards from the middle of the green")


@pytest.mark.parametrize("name", ["", " ", "putter", "Putter", "x" * 61, "two\nlines"])
def test_names_of_clubs(name):
    refused(lambda: wb.Club(name, **CLUB), json.dumps(name)[1:20])


def test_players():
    for handicap in (80, -1, 54.1, NAN, INF):
        refused(lambda handicap=handicap: wb.Player.from_handicap(handicap), "handicap", "54")
    for reference in ("", "Men", "juniors"):
        words = [f'reference is "{reference}"', "men", "women"]
        refused(lambda reference=reference: wb.Player.from_handicap(20, reference=reference), *words)
    refused(lambda: wb.Player.from_handicap(60, reference="women"), "handicap is 60", "0 to 54")
    refused(lambda: PLAYER.club("2-iron"), "2-iron", "driver")
    refused(lambda: PLAYER.with_clubs([wb.Club("1-iron", **CLUB)]), "14", "13")
    refused(lambda: wb.Player.from_json("["), "JSON")
    refused(lambda: wb.Player.from_json("{}"), "format")
    refused(lambda: wb.Player.from_json(PLAYER.to_json().replace("wideberth-player", "x")), "format", "x")


def test_questions_about_results(result):
    best = result.best
    refused(lambda: best.probability(at_least=-1), "at_least", "-1")
    refused(lambda: best.probability(at_least=256), "at_least", "256")
    for share in (-0.1, 1.1, NAN):
        refused(lambda share=share: best.quantile(share), "share")
    with pytest.raises(KeyError, match="driver"):
        result["nobody"]
    with pytest.raises(KeyError, match="driver"):
        result.difference("driver", "nobody")
    with pytest.raises(TypeError):
        best.probability(at_least=4.5)


@pytest.mark.parametrize(
    ("place", "words"),
    [
        ((NAN, 0), ["NaN"]),
        ((0, INF), ["inf"]),
        (np.array([[0, 0], [1, NAN]]), ["place[1]", "NaN"]),
        (np.array([[INF, 0]]), ["place[0]", "inf"]),
        (np.array([NAN, 1.0]), ["NaN"]),
        (np.zeros((3, 3)), ["[3, 3]", "(n, 2)"]),
        (np.zeros((2, 3, 2)), ["[2, 3, 2]", "(n, 2)"]),
        (np.zeros(3), ["[3]", "(n, 2)"]),
        ((1, 2, 3), ["[3]"]),
        ([], ["[0]"]),
        ([[]], ["[1, 0]"]),
    ],
    ids=str,
)
def test_places(place, words):
    refused(lambda: HOLE.surface_at(place), *words)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"par": 2}, ["par is 2", "3 to 6"]),
        ({"par": 7}, ["par is 7", "3 to 6"]),
        ({"par": -4}, ["par is -4", "3 to 6"]),
        ({"par": 10**30}, ["par is 1000", "3 to 6"]),
        ({"length": 3}, ["length of a par 4 is 3", "150"]),
        ({"length": NAN}, ["length", "NaN"]),
        ({"number": 0}, ["number", "0"]),
        ({"number": 1000}, ["number", "1000", "99"]),
        ({"stroke_index": 19}, ["stroke_index", "19", "18"]),
        ({"name": ""}, ["name"]),
        ({"fairway_width": 2}, ["fairway_width", "2"]),
        ({"fairway_from": 500}, ["fairway_from", "500"]),
        ({"fairway_to": -5}, ["fairway_to", "-5"]),
        ({"green_depth": NAN}, ["green_depth", "NaN"]),
        ({"green_width": 300}, ["green_width", "300", "80"]),
        ({"first_cut_width": -1}, ["first_cut_width", "-1"]),
        ({"fringe_width": 11}, ["fringe_width", "11"]),
        ({"pin_back": 20}, ["pin_back", "20"]),
        ({"pin_right": -INF}, ["pin_right", "inf"]),
        ({"dogleg": (200, 120)}, ["dogleg.turn_deg", "120"]),
        ({"dogleg": (5, 20)}, ["dogleg.at", "5"]),
        ({"green_speed": 30}, ["green_speed", "30"]),
        ({"out_of_bounds": "up"}, ["out_of_bounds", "up", "left"]),
        ({"out_of_bounds": "left", "out_of_bounds_offset": 1}, ["out_of_bounds_offset", "1"]),
        ({"out_of_bounds_offset": -5}, ["out_of_bounds_offset is -5; it must be 8 to 300"]),
        ({"out_of_bounds_offset": NAN}, ["out_of_bounds_offset is NaN; it must be 8 to 300"]),
        ({"out_of_bounds_offset": 40}, ["out_of_bounds_offset is 40; it must be left out", "without out_of_bounds"]),
        ({"two_tier_green": (NAN, 1)}, ["two_tier_green.step_ft is NaN; it must be -1.2 to 1.2 feet"]),
        ({"two_tier_green": (1, NAN)}, ["two_tier_green.ramp is NaN; it must be 0.5 to 200 yards"]),
        ({"two_tier_green": (1, 5, INF)}, ["two_tier_green.back is inf; it must be"]),
        ({"green_tilt_percent": (20, 1)}, ["green_tilt_percent is (20, 1); it must be at most 15 percent steep"]),
        ({"green_tilt_percent": (NAN, 1), "uphill_ft": NAN}, ["green_tilt_percent is (NaN, 1)", "uphill_ft) is NaN"]),
        ({"bunkers": [wb.along(999)]}, ["bunkers[0].along", "999"]),
        ({"bunkers": [wb.along(200, 9), wb.hazard(wb.along(250, 9), length=0)]}, ["bunkers[1].length", "0"]),
        ({"bunkers": [wb.hazard(wb.along(200, 9), width=NAN)]}, ["bunkers[0].width", "NaN"]),
        ({"bunkers": [wb.hazard(wb.along(200, 9), height_ft=3)]}, ["bunkers[0].canopy", "trees"]),
        ({"bunkers": [wb.at(3, 4)]}, ["bunkers", "along"]),
        ({"water": [wb.along(0)]}, ["water[0]", "tee"]),
        ({"water": [wb.at(0, 0)]}, ["water", "along"]),
        ({"trees": [wb.hazard(wb.along(200, 30), openness=2)]}, ["trees", "openness", "2"]),
        ({"trees": [wb.hazard(wb.along(200, 30), height_ft=-2)]}, ["trees", "height", "-2"]),
        ({"crossings": [(900, 10)]}, ["crossings[0].at", "900"]),
        ({"crossings": [(200, 0)]}, ["crossings[0].width", "0"]),
    ],
    ids=str,
)
def test_sketches(changes, words):
    refused(lambda: wb.Hole.sketch(**{"par": 4, "length": 400, **changes}), *words)


def test_every_fault_of_a_sketch_at_once():
    refused(
        lambda: wb.Hole.sketch(par=4, length=400, green_width=300, fringe_width=-1, pin_back=NAN, number=100),
        "green_width",
        "fringe_width",
        "number",
    )


@pytest.mark.parametrize(
    "changes",
    [
        {"par": 4.5},
        {"par": "four"},
        {"bunkers": [200]},
        {"crossings": [200]},
        {"dogleg": 200},
        {"bunkers": wb.along(200)},
    ],
    ids=str,
)
def test_sketches_of_wrong_types(changes):
    with pytest.raises(TypeError):
        wb.Hole.sketch(**{"par": 4, "length": 400, **changes})


# Maps: one with OpenStreetMap's tags, spoilt in one way after the other.


def edited(change):
    document = json.loads(helpers.read_map("alder-bend"))
    change(document)
    return lambda: wb.Hole.from_geojson(json.dumps(document))


def feature(document, **tags):
    return next(f for f in document["features"] if all(f["properties"].get(k) == v for k, v in tags.items()))


def drop(**tags):
    return lambda document: document["features"].remove(feature(document, **tags))


def bow_tie(document):
    ring = feature(document, golf="green")["geometry"]["coordinates"][0]
    ring[1], ring[len(ring) // 2] = ring[len(ring) // 2], ring[1]


def pin_on_the_tee(document):
    tee = feature(document, golf="hole")["geometry"]["coordinates"][0]
    feature(document, golf="pin")["geometry"]["coordinates"] = tee


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (drop(golf="hole"), ["golf=hole"]),
        (drop(golf="green"), ["green"]),
        (bow_tie, ["green", "crosses itself"]),
        (lambda d: feature(d, golf="green")["geometry"]["coordinates"][0].pop(), ["green", "closed"]),
        (lambda d: feature(d, golf="hole")["properties"].update(par="banana"), ["par", "banana"]),
        (pin_on_the_tee, ["pin", "off the green"]),
        (lambda d: feature(d, golf="tee")["geometry"]["coordinates"][0][1].__setitem__(1, 154.0), ["154"]),
        (lambda d: d.update(type="Feature"), ["type", "FeatureCollection"]),
        (lambda d: d.update(features=None), ["features"]),
    ],
)
def test_maps(change, words):
    refused(edited(change), *words)


def two_holes(change):
    """The map with a second hole half a mile off, and a change."""

    def both(document):
        change(document)
        line = json.loads(json.dumps(feature(document, golf="hole")))
        line["properties"]["ref"] = "99"
        for position in line["geometry"]["coordinates"]:
            position[1] += 0.008
        document["features"].append(line)

    return both


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (pin_on_the_tee, ["pin", "off the green", "left out"]),
        (lambda d: feature(d, golf="tee")["geometry"]["coordinates"][0][1].__setitem__(1, 154.0), ["154", "left out"]),
    ],
)
def test_on_a_map_of_several_holes_what_a_hole_can_do_without_is_left_out_with_a_note(change, words):
    document = json.loads(helpers.read_map("alder-bend"))
    number = feature(document, golf="hole")["properties"].get("ref")
    two_holes(change)(document)
    notes = wb.Hole.from_geojson(json.dumps(document), hole=number or 1).notes
    assert any(all(word in note for word in words) for note in notes), notes


def test_files(tmp_path):
    refused(lambda: wb.Hole.read(tmp_path / "no-such-file.geojson"), "no-such-file")
    refused(lambda: wb.Hole.read(tmp_path), tmp_path.name)
    (tmp_path / "latin.json").write_bytes('{"name": "Gr\xfcn"}'.encode("latin-1"))
    refused(lambda: wb.Hole.read(tmp_path / "latin.json"), "latin.json", "UTF-8")
    (tmp_path / "empty.json").write_text("")
    refused(lambda: wb.Hole.read(tmp_path / "empty.json"), "JSON")
    (tmp_path / "other.json").write_text("{}")
    refused(lambda: wb.Hole.read(str(tmp_path / "other.json")), "wideberth")
    refused(lambda: wb.Hole.from_geojson(helpers.read_map("alder-bend"), hole="99"), "99")
    refused(lambda: wb.Hole.from_geojson("{"), "JSON")


def test_the_very_maps_are_good():
    """What the tests above spoil is accepted unspoilt."""
    for name in helpers.MAPS:
        assert wb.Hole.read(helpers.DATA / f"{name}.geojson") == wb.Hole.from_geojson(helpers.read_map(name))


@pytest.mark.parametrize(
    ("seed", "words"),
    [
        (None, "seed is None; it must be a whole number, 0 to 18,446,744,073,709,551,615, or a NumPy Generator"),
        (1.5, "seed is 1.5; it must be a whole number"),
        ("7", "seed is '7'; it must be a whole number"),
        (np.random.RandomState(3), r"seed is RandomState\(MT19937\).*; it must be .*, or a NumPy Generator"),
    ],
    ids=["None", "float", "text", "RandomState"],
)
def test_what_is_no_seed_is_refused_by_name(seed, words):
    wanted = PLAYER.clubs[0].name
    for call in (
        lambda: wb.compare(HOLE, PLAYER, [PLAN], plays=10, seed=seed),
        lambda: wb.compare(HOLE, PLAYER, [PLAN], plays=64, seed=seed, luck="even"),
        lambda: wb.simulate(HOLE, PLAYER, PLAN, plays=10, seed=seed),
        lambda: wb.aim_sweep(HOLE, PLAYER, club=wanted, plays=10, seed=seed),
        lambda: wb.around_the_green(HOLE, PLAYER, at=wb.short_of_green(8), plays=10, seed=seed),
        lambda: wb.price_of_habits(HOLE, PLAYER, plays=10, seed=seed),
        lambda: PLAYER.draws(2, seed=seed),
        lambda: PLAYER.expectations(plays=100, seed=seed),
        lambda: PLAYER.plot(seed=seed),
    ):
        with pytest.raises(TypeError, match=words):
            call()


def test_a_seed_of_numpy_is_a_whole_number():
    one, other = (wb.simulate(HOLE, PLAYER, PLAN, plays=5, seed=seed) for seed in (np.uint64(7), 7))
    assert one == other


def test_a_place_on_the_plan_is_no_place_of_a_sketch():
    refused(lambda: wb.hazard(wb.at(3, 200)), "hazard: place is at(3, 200); it must be told along the line of play")
    refused(
        lambda: wb.Hole.sketch(par=4, length=380, water=[wb.at(3, 200)]), "water has at(3, 200)", "short_of_green(...)"
    )
    refused(
        lambda: wb.Hole.sketch(par=4, length=380, trees=[wb.short_of_green(1e3, left=30)]),
        "trees[0].short_of_green is 1000; it must be -164 to 466",
    )
