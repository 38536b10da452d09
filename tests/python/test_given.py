"""Whatever is given, of any type and length: what cannot be taken names the field, the value and what is allowed."""

import json
import math
import subprocess
import sys

import numpy as np
import pytest
import wideberth as wb
from helpers import document, sketch

HOLE = sketch()
PLAYER = wb.Player.from_handicap(16)
PLAN = wb.Plan("one", [wb.at_pin()])
COURSE = wb.Course([HOLE], name="One hole")
CLUB = {"carry_sd": 1, "lateral_sd": 1}
STROKES = {"x": [0.0, 0.0], "y": [0.0, 55.0]}
#: More items than fit any machine.
ENDLESS = range(10**10)
#: More than Python can count.
COUNTLESS = range(10**30)


def drawn(**given):
    return wb.Hole.sketch(**{"par": 4, "length": 400, **given})


def solved():
    return wb.evaluate(wb.Hole.sketch(par=3, length=60), PLAYER, cell=10)


def compared():
    return wb.compare(HOLE, PLAYER, [PLAN, wb.Plan("two", [])], plays=10)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: wb.Club("x", carry=None, **CLUB), "carry is None; it must be a number"),
        (lambda: wb.Club("x", carry="150", **CLUB), "carry is '150'; it must be a number"),
        (lambda: wb.Club(7, carry=150, **CLUB), "name is 7; it must be text"),
        (lambda: wb.Club("x", carry=150, run=[1], **CLUB), "run is [1]; it must be a number, or None"),
        (lambda: drawn(par="4"), "par is '4'; it must be a whole number"),
        (lambda: drawn(par=4.0), "par is 4.0; it must be a whole number"),
        (lambda: drawn(length=None), "length is None; it must be a number"),
        (lambda: drawn(bunkers=3), "bunkers is 3; it must be a list of places such as along"),
        (lambda: drawn(bunkers=[3]), "bunkers is [3]; it must be a list of places such as along"),
        (lambda: drawn(bunkers="abc"), "bunkers is 'abc'; it must be a list"),
        (lambda: drawn(crossings=[3]), "crossings is [3]; it must be a list of pairs of numbers"),
        (lambda: drawn(dogleg=240), "dogleg is 240; it must be two numbers in a tuple, or None"),
        (lambda: drawn(dogleg=(240, None)), "dogleg is (240, None); it must be two numbers"),
        (lambda: drawn(two_tier_green=3), "two_tier_green is 3; it must be (feet, yards of ramp)"),
        (lambda: drawn(name=3), "name is 3; it must be text, or None"),
        (lambda: drawn(name="half \ud800"), r"name is 'half \ud800'; it must be text"),
        (lambda: HOLE.with_terrain(heights_ft=np.zeros((3, 3)), cell="x", corner=(0, 0)), "cell is 'x'; it must be"),
        (lambda: HOLE.with_terrain(heights_ft="x", cell=1, corner=(0, 0)), "heights_ft is of type"),
        (lambda: wb.Hole.read(None), "source is of the type NoneType; it must be a path"),
        (lambda: wb.Hole.from_json(3), "text is 3; it must be text"),
        (lambda: wb.Plan("a", None), "instructions is None; it must be a list of instructions"),
        (lambda: wb.Plan("a", [3]), "instructions is [3]; it must be a list of instructions"),
        (lambda: PLAYER.with_clubs(3), "clubs is 3; it must be a list of what Club() makes"),
        (lambda: wb.Player.from_handicap(5, bag=3), "bag is 3; it must be a list of names of clubs"),
        (
            lambda: wb.Player.from_handicap(18, bag={"driver": 250, "7-iron": 160}),
            "it must be a list of names of clubs, whose carries are told with carries={...}, and of what Club()",
        ),
        (lambda: drawn(water={"pond": wb.along(200, 30)}), "it must be a list of places such as along"),
        (lambda: PLAYER.with_clubs(np.array(3.0)), "clubs is array(3.); it must be a list of what Club() makes"),
        (lambda: wb.Player.from_handicap(5, carries={"driver": None}), "carries has None; it must be a dict"),
        (lambda: wb.Player.from_handicap(5, carries=[3]), "carries has [3]; it must be a dict"),
        (lambda: PLAYER.draws("x", seed=1), "n is 'x'; it must be a whole number"),
        (lambda: wb.compare(HOLE, PLAYER, 3), "plans is 3; it must be a list of plans"),
        (lambda: wb.compare(HOLE, PLAYER, [3]), "plans is [3]; it must be a list of plans"),
        (lambda: wb.compare(HOLE, PLAYER, np.array(3.0)), "plans is array(3.); it must be a list of plans"),
        (lambda: wb.compare(HOLE, PLAYER, {"one": PLAN}), "it must be a list of plans"),
        (lambda: wb.compare(HOLE, PLAYER, [PLAN], plays="x"), "plays is 'x'; it must be a whole number"),
        (lambda: wb.compare(HOLE, PLAYER, [PLAN], precision="x"), "precision is 'x'; it must be a number"),
        (lambda: wb.aim_sweep(HOLE, PLAYER, aims=["x", 1]), "aims[0] is 'x'; it must be a number"),
        (lambda: wb.aim_sweep(HOLE, PLAYER, aims=[1, None]), "aims[1] is None; it must be a number"),
        (lambda: wb.aim_sweep(HOLE, PLAYER, aims=3), "aims is 3; it must be a list"),
        (lambda: wb.aim_sweep(HOLE, PLAYER, club=3), "club is 3; it must be text"),
        (lambda: wb.safe(price="x"), "price is 'x'; it must be a number"),
        (lambda: wb.along(None), "yards is None; it must be a number"),
        (lambda: wb.Wind(mph=None, from_deg=3), "mph is None; it must be a number"),
        (lambda: wb.Conditions(firmness=[]), "firmness is []; it must be a name"),
        (lambda: wb.ball.fly(speed_mph=None, launch_deg=10, spin_rpm=2000), "speed_mph is None"),
        (lambda: wb.compare("hole", PLAYER, [PLAN]), "hole is 'hole'; it must be a Hole"),
        (lambda: wb.compare(HOLE, None, [PLAN]), "player is None; it must be a Player"),
        (
            lambda: wb.compare(HOLE, PLAYER, [PLAN], checkpoints=3),
            "checkpoints is 3; it must be a dict of what first_putt",
        ),
        (
            lambda: wb.compare(HOLE, PLAYER, [PLAN], checkpoints=np.zeros(2)),
            "checkpoints is array([0., 0.]); it must be a dict of what first_putt",
        ),
        (
            lambda: wb.compare(HOLE, PLAYER, [PLAN], checkpoints={"a": 3}),
            "checkpoints['a'] is 3; it must be what first_putt",
        ),
        (lambda: wb.compare(HOLE, PLAYER, [PLAN], lie=3), "lie is 3; it must be text, or None"),
        (lambda: wb.compare(3, PLAYER, [PLAN], luck="even"), "hole is 3; it must be a Hole"),
        (lambda: wb.compare_players(HOLE, PLAYER), "players is handicap 16"),
        (lambda: wb.compare_players(HOLE, {"a": 3}), "players['a'] is 3; it must be a Player"),
        (lambda: wb.compare_players(HOLE, {3: PLAYER}), "players has the name 3; it must be text"),
        (lambda: wb.compare_players(HOLE, {"a": PLAYER}, 3), "plan is 3; it must be a Plan"),
        (lambda: wb.simulate(HOLE, PLAYER, "driver"), "plan is 'driver'; it must be a Plan"),
        (lambda: wb.strokes(HOLE, PLAYER, club=3, target=(0, 9)), "club is 3; it must be text"),
        (lambda: wb.suggest_plans(3, PLAYER), "hole is 3; it must be a Hole"),
        (lambda: wb.plays_like(HOLE, "me"), "player is 'me'; it must be a Player"),
        (lambda: wb.around_the_green(3, PLAYER, at=(0, 9)), "hole is 3; it must be a Hole"),
        (lambda: wb.aim_sweep(3, PLAYER), "hole is 3; it must be a Hole"),
        (lambda: wb.aim_sweep(HOLE, 3), "player is 3; it must be a Player"),
        (lambda: wb.price_of_habits(HOLE, 3), "player is 3; it must be a Player"),
        (lambda: wb.solve(3, PLAYER), "hole is 3; it must be a Hole"),
        (lambda: wb.evaluate(HOLE, 3), "player is 3; it must be a Player"),
        (lambda: wb.frontier(HOLE, 3), "player is 3; it must be a Player"),
        (lambda: wb.Course(3), "holes is 3; it must be a list of holes"),
        (lambda: wb.Course([3]), "holes is [3]; it must be a list of holes"),
        (lambda: wb.Course(np.array(3.0)), "holes is array(3.); it must be a list of holes"),
        (lambda: HOLE.with_tee(3.0), "tee is 3.0; it must be the name of a tee, or (x, y) in yards"),
        (lambda: HOLE.with_tee(None), "tee is None; it must be the name of a tee"),
        (lambda: HOLE.with_tee((1, 2, 3)), "tee is (1, 2, 3); it must be the name of a tee"),
        (lambda: wb.strategy(print, name=3.5), "name is 3.5; it must be text"),
        (lambda: wb.review(COURSE, PLAYER, __file__, seed="monday"), "seed is 'monday'; it must be a whole number"),
        (lambda: solved().strokes_gained(compared()), "it must be what simulate() returned, a dict of columns"),
        (lambda: solved().strokes_gained(STROKES).by([]), "column is []; it must be text"),
        (lambda: wb.Course([HOLE], name=3), "name is 3; it must be text"),
        (lambda: wb.play_rounds([HOLE], PLAYER), "course is [No. 7, Trial"),
        (lambda: wb.play_rounds(COURSE, 3), "player is 3; it must be a Player"),
        (lambda: wb.play_rounds(COURSE, PLAYER, then=3), "then is 3; it must be text"),
        (lambda: wb.play_rounds(COURSE, PLAYER, plans=3), "plans is 3; it must be a list of plans"),
        (lambda: wb.play_rounds(COURSE, PLAYER, plans=[3]), "plans is [3]; it must be a list of plans"),
        (lambda: wb.play_rounds(COURSE, PLAYER, plays=2).index(3), "rating is 3; it must be a Rating"),
        (lambda: COURSE.rating(reference=3), "reference is 3; it must be text"),
        (lambda: wb.break_score(3, PLAYER, 9), "course is 3; it must be a Course"),
        (lambda: wb.break_score(COURSE, 3, 9), "player is 3; it must be a Player"),
        (lambda: wb.practice_gains(COURSE, 3), "player is 3; it must be a Player"),
        (lambda: wb.practice_gains(COURSE, PLAYER, share="x"), "share is 'x'; it must be a number"),
        (lambda: wb.review(3, PLAYER, "x.csv"), "course is 3; it must be a Course"),
        (lambda: wb.sweep(3, []), "function is 3; it must be a function"),
        (lambda: wb.sweep(wb.along, [3]), "cases[0] is 3; it must be a dict of keyword arguments"),
        (lambda: wb.sweep(wb.along, 3), "cases is 3; it must be a list of dicts"),
        (lambda: wb.sweep(wb.along, [], executor=3), "executor is 3; it must be an executor"),
        (lambda: HOLE.under(3), "conditions is 3; it must be what Conditions() makes"),
        (lambda: wb.Conditions(wind=15), "wind is 15; it must be what Wind() makes, or None"),
        (
            lambda: wb.Club("x", carry=100, mishit_shape=3, **CLUB),
            "mishit_shape is 3; it must be what MishitShape() makes",
        ),
        (lambda: wb.Club.like(3, name="x"), "club is 3; it must be what Club() makes"),
        (lambda: PLAYER.with_habits(3), "habits is 3; it must be what Habits() makes"),
        (lambda: PLAYER.with_changes(straighter={1: 2}), "straighter has the name 1; it must be text"),
        (lambda: PLAYER.with_changes(straighter="x"), "straighter is of type str; it must be a number, a player"),
        (lambda: wb.Player.from_shots(None, prior=3), "prior is 3; it must be a Player"),
        (lambda: wb.Player.from_average_score("90"), "average_score is '90'; it must be a number"),
        (lambda: wb.hazard(3), "place is 3; it must be a place such as along(230)"),
        (lambda: solved().strokes_gained(3), "strokes is 3; it must be"),
    ],
)
def test_wrong_types_name_the_field_the_value_and_what_is_allowed(call, words):
    with pytest.raises(TypeError) as caught:
        call()
    assert words in str(caught.value)
    assert not hasattr(caught.value, "__notes__"), "the name is told once"


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: wb.along(10**400), "yards is inf"),
        (lambda: wb.along(-(10**400)), "yards is -inf"),
        (lambda: wb.Club("x", carry=10**400, **CLUB), "carry is inf; it must be 1 to 450"),
        (lambda: drawn(length=10**400), "length of a par 4 is inf; it must be 150 to 700"),
        (lambda: wb.aim_sweep(HOLE, PLAYER, aims=[0, 10**400]), "aims holds inf"),
        (lambda: wb.aim_sweep(HOLE, PLAYER, at=(math.nan, 3)), "at is (nan, 3); it must be finite numbers of yards"),
        (lambda: wb.aim_sweep(HOLE, PLAYER, at=(3, -math.inf)), "at is (3, -inf); it must be finite"),
    ],
)
def test_numbers_too_large_for_a_float(call, words):
    with pytest.raises(wb.InputError) as caught:
        call()
    assert words in str(caught.value)


LISTS = {
    "bunkers": lambda items: drawn(bunkers=items),
    "water": lambda items: drawn(water=items),
    "trees": lambda items: drawn(trees=items),
    "crossings": lambda items: drawn(crossings=items),
    "instructions": lambda items: wb.Plan("p", items),
    "bag": lambda items: wb.Player.from_handicap(5, bag=items),
    "clubs": lambda items: PLAYER.with_clubs(items),
    "aims": lambda items: wb.aim_sweep(HOLE, PLAYER, aims=items),
    "plans": lambda items: wb.compare(HOLE, PLAYER, items),
}


@pytest.mark.parametrize("items", [ENDLESS, COUNTLESS], ids=["endless", "countless"])
@pytest.mark.parametrize("field", LISTS)
def test_lengths_are_looked_at_before_anything_is_made(field, items):
    with pytest.raises(wb.InputError, match=rf"{field} has .* items; it must have at most [\d,]+$"):
        LISTS[field](items)


@pytest.mark.parametrize("character", ["\0", "\n", "\x1b[31m", "\x7f", "\x9b", "\u2028", "\u202e", "\u2066"], ids=ascii)
def test_what_acts_on_a_terminal_or_a_page_is_in_no_name(character, tmp_path):
    name = f"a{character}b"
    pond = wb.hazard(wb.along(200, right=20), name=name)
    feature = document([{"surface": "bunker", "outline": [[50, 50], [60, 50], [60, 60]], "name": name}])
    for call in (
        lambda: drawn(name=name),
        lambda: drawn(water=[pond]),
        lambda: wb.Hole.from_json(json.dumps(feature)),
        lambda: wb.Course([HOLE], name=name),
        lambda: wb.Course([HOLE], attribution=name),
        lambda: wb.Course.from_json(wb.Course([HOLE], name="one").to_json().replace('"one"', json.dumps(name))),
        lambda: wb.Plan(name, []),
        lambda: wb.Plan.from_json(PLAN.to_json().replace('"one"', json.dumps(name))),
        lambda: wb.Club(name, carry=100, **CLUB),
        lambda: wb.strategy(print, name=name),
        lambda: wb.compare(HOLE, PLAYER, [PLAN], plays=10, checkpoints={name: wb.first_putt(10, 2)}),
        lambda: wb.compare_players(HOLE, {name: PLAYER}, plays=10),
    ):
        with pytest.raises(wb.InputError, match="control characters") as caught:
            call()
        assert character not in str(caught.value)
    pytest.importorskip("jinja2")
    two = wb.compare(HOLE, PLAYER, [PLAN, wb.Plan("two", [])], plays=10)
    with pytest.raises(wb.InputError, match="control characters"):
        wb.report(two, path=tmp_path / "page.html", title=name)


@pytest.mark.parametrize(
    ("call", "rule"),
    [
        (lambda text: drawn(name=text), "name is {}; it must be at most 200 characters and no control characters"),
        (lambda text: wb.Plan(text, []), "name is {}; it must be at most 200 characters and no control characters"),
        (
            lambda text: wb.Course([HOLE], name=text),
            "name is {}; it must be at most 200 characters and no control characters",
        ),
        (
            lambda text: wb.Course([HOLE], attribution=text),
            "attribution is {}; it must be at most 500 characters and no control characters",
        ),
    ],
)
def test_endless_names_and_credits_are_refused_in_few_letters(call, rule):
    for text, told in (("x" * 100_000, '"' + "x" * 59 + "…" + "x" * 27 + '";'), ("a\x1b[2J", '"a\\u{1b}[2J";')):
        with pytest.raises(wb.InputError) as caught:
            call(text)
        assert str(caught.value) == rule.replace("{};", told)


def test_numbers_are_told_in_few_digits():
    with pytest.raises(wb.InputError, match=r"^name is .*; it must be at most") as caught:
        drawn(name="many words " * 10_000)
    assert len(str(caught.value)) <= 1_000
    with pytest.raises(wb.InputError, match=r"length.* is 10+…0+; it must be") as caught:
        wb.Hole.sketch(par=4, length=1e308)
    assert len(str(caught.value)) < 200


def test_the_longest_name_of_a_strategy():
    assert wb.strategy(print, name="x" * 200).name == "x" * 200
    with pytest.raises(wb.InputError, match=r"name is 'x+… \(str\); it must have at most 200 characters"):
        wb.strategy(print, name="x" * 201)


@pytest.mark.parametrize("name", ["", "  "])
def test_nothing_is_no_name(name):
    empty = f"is {name!r}; it must be text that is not empty"
    for call, told in (
        (lambda: wb.strategy(print, name=name), f"name {empty}"),
        (lambda: wb.compare_players(HOLE, {name: PLAYER}, plays=10), f"name in players {empty}"),
        (
            lambda: wb.compare(HOLE, PLAYER, [PLAN], plays=10, checkpoints={name: wb.first_putt(10, 2)}),
            f"name in checkpoints {empty}",
        ),
        (lambda: wb.Plan(name, []), "name is empty"),
        (lambda: drawn(name=name), "it must be text that is not empty"),
        (lambda: wb.Course([HOLE], name=name), "it must be text that is not empty"),
    ):
        with pytest.raises(wb.InputError) as caught:
            call()
        assert told in str(caught.value)


def test_a_name_of_any_language_is_a_name():
    for name in ("Möwenbucht", "海辺", "حفرة", "👩‍🦳 7°"):
        assert drawn(name=name).name == wb.Plan(name, []).name == name


@pytest.mark.parametrize("title", [3, ["a"]], ids=repr)
def test_what_is_no_title_of_a_picture(title):
    pytest.importorskip("matplotlib").use("Agg")
    with pytest.raises(TypeError, match=r"title is .*; it must be text"):
        HOLE.plot(title=title)


def test_masks_are_not_lost():
    places = np.ma.masked_array([[0.0, 0.0], [1.0, 1.0]], mask=[[0, 1], [0, 0]])
    heights = np.ma.masked_array(np.zeros((300, 300)), mask=np.eye(300, dtype=bool))
    shots = {
        "club": ["7-iron"] * 3,
        "carry": np.ma.masked_array([130.0, 131.0, 129.0], mask=[0, 0, 1]),
        "lateral": [1.0, 2.0, 3.0],
    }
    solution = solved()
    strokes = {"x": np.ma.masked_array([0.0], mask=[1]), "y": [0.0]}
    for call, field in (
        (lambda: HOLE.surface_at(places), "place"),
        (lambda: HOLE.height_ft(places), "place"),
        (lambda: HOLE.with_terrain(heights_ft=heights, cell=3, corner=(-300, -100)), "heights_ft"),
        (lambda: wb.Player.from_shots(shots, prior=PLAYER), "shots: carry"),
        (lambda: solution.strokes_gained(strokes), "x"),
    ):
        with pytest.raises(wb.InputError, match=f"{field} has .* masked values; it must have none"):
            call()
    # A mask that hides nothing is none.
    assert HOLE.surface_at(np.ma.masked_array([[0.0, 0.0]], mask=False)).tolist() == ["tee"]


@pytest.mark.parametrize("path", ["a\0b", "x" * 5_000], ids=["NUL", "overlong"])
def test_paths_that_no_file_can_have(path):
    for call in (
        lambda: wb.Hole.read(path),
        lambda: HOLE.with_survey(path, origin=(0, 0)),
        lambda: wb.Player.from_shots(path, prior=PLAYER),
    ):
        with pytest.raises(wb.InputError) as caught:
            call()
        assert "\0" not in str(caught.value)


def test_a_broken_geotiff_is_bad_input(tmp_path):
    rasterio = pytest.importorskip("rasterio")
    from rasterio.transform import from_origin

    good = tmp_path / "good.tif"
    profile = {"driver": "GTiff", "count": 1, "dtype": "float32", "width": 64, "height": 64, "compress": "deflate"}
    with rasterio.open(good, "w", **profile, transform=from_origin(-100, 500, 10, 10), crs="EPSG:32633") as file:
        file.write(np.random.default_rng(1).random((1, 64, 64), np.float32))
    whole, random = good.read_bytes(), np.random.default_rng(7)
    refused = 0
    for number in range(150):
        spoilt = bytearray(whole)
        for at in random.integers(0, len(whole) if number % 2 else 400, 6):
            spoilt[at] = random.integers(256)
        bad = tmp_path / "bad.tif"
        bad.write_bytes(spoilt[: random.integers(8, len(spoilt))] if number % 5 == 0 else spoilt)
        try:
            HOLE.with_survey(bad, origin=(0, 0))
        except wb.InputError:
            refused += 1
    assert refused > 50


def test_a_carry_that_no_ball_has_is_refused_at_once():
    with pytest.raises(wb.InputError, match=r"driver: carry is 400 yd; .* the most a ball can leave with"):
        wb.Club("driver", carry=400, carry_sd=10, lateral_sd=10)
    text = PLAYER.clubs[0].to_json()
    far = text.replace(f'"carry":{json.loads(text)["carry"]}', '"carry":400.0')
    assert far != text
    with pytest.raises(wb.InputError, match="carry is 400 yd"):
        wb.Club.from_json(far)


@pytest.mark.parametrize(
    "make",
    [
        lambda: wb.Player.from_handicap(5, carries={"driver": 400}),
        lambda: wb.Player.from_json(told(lambda p: p["clubs"][0].update(carry=400.0))),
        lambda: wb.Player.from_json(told(lambda p: p["clubs"][0].update(launch_deg=84.9))),
        lambda: wb.Player.from_json(told(lambda p: p["clubs"][0].update(carry=300.0, spin_rpm=15_000.0))),
        lambda: wb.Player.from_handicap(0).with_changes(longer={"driver": 150}),
    ],
)
def test_a_player_whose_ball_cannot_go_so_far_is_refused_when_it_is_made(make):
    with pytest.raises(wb.InputError, match=r"driver: carry is .* yd; launched at .* the most a ball can leave with"):
        make()


def test_the_farthest_player_there_is_can_be_played():
    """What is let through can be prepared on a hole: the check is that of the hole, at its edge too."""
    low, high = 230.0, 450.0
    for _ in range(20):
        carry = 0.5 * (low + high)
        try:
            farthest = wb.Player.from_json(told(lambda p: p["clubs"][0].update(carry=carry)))  # noqa: B023
            low = carry
        except wb.InputError:
            high = carry
    wb.plays_like(HOLE, farthest)
    assert 300 < low < 420


def told(change):
    document = json.loads(wb.Player.from_handicap(5).to_json())
    change(document)
    return json.dumps(document)


def test_counts_that_overflow_when_added_up_are_no_ranking():
    ranking = json.loads(wb.compare(HOLE, PLAYER, [PLAN, wb.Plan("two", [])], plays=50)._ranking.to_json())
    kind = type(wb.compare(HOLE, PLAYER, [PLAN], plays=5)._ranking)
    assert kind.from_json(json.dumps(ranking)).plays == 50
    spoilt = []
    for spoil in (
        lambda r: r["tallies"][0].update(scores=[[4, 2**64 - 1], [4, 51]]),
        lambda r: r["tallies"][0].update(scores=[[4, 25], [200, 25]]),
        lambda r: r["tallies"][0].update(unfinished=51),
        lambda r: r["tallies"][0].update(causes=[2**63, 2**63, *r["tallies"][0]["causes"][2:]]),
        lambda r: r.update(par=250),
        lambda r: r["question"].update(blow_up=255),
        lambda r: r["pairs"][0]["scores"].update(sum=-(2**63)),
        lambda r: r["pairs"][0]["scores"].update(plays=49),
        lambda r: r["pairs"][0]["blow_ups"].update(lower=2**64 - 1, higher=2),
    ):
        document = json.loads(json.dumps(ranking))
        spoil(document)
        spoilt.append(json.dumps(document))
    for text in spoilt:
        with pytest.raises(wb.InputError):
            kind.from_json(text)


@pytest.mark.parametrize("line", [["compare", "no\x1b[31m.json"], ["review", "no\x1b[31m.csv"]])
def test_an_error_is_one_line_in_a_terminal(line, tmp_path):
    """What is refused is told without letting it act on the terminal."""
    ran = subprocess.run([sys.executable, "-m", "wideberth", *line], capture_output=True, text=True, cwd=tmp_path)
    assert ran.returncode == 2 and "\x1b" not in ran.stderr and ran.stderr.count("\n") == 1


def test_what_is_no_argument_is_told_without_letting_it_act_on_the_terminal():
    ran = subprocess.run([sys.executable, "-m", "wideberth", "player", "a\x1b[31m"], capture_output=True, text=True)
    assert ran.returncode == 2 and "\x1b" not in ran.stderr and "unrecognized arguments" in ran.stderr


def test_what_a_document_holds_is_quoted_without_letting_it_act_on_the_terminal():
    """An unknown field is told by its name, whatever is in that."""
    for name in ("\0", "\x1b[31m", "\u2028", "\u202e"):
        spoilt = json.loads(PLAN.to_json())
        spoilt["instructions"][0][name] = 3
        with pytest.raises(wb.InputError) as caught:
            wb.Plan.from_json(json.dumps(spoilt))
        assert name not in str(caught.value)
