"""Clubs told in full, bags made of them, clubs more and places carried, and habits: what is told is what is played."""

import json

import helpers
import numpy as np
import pytest
import wideberth as wb

PUPIL = wb.Player.from_handicap(18)
#: Everything a club is made of besides its name.
FIGURES = (
    "carry carry_sd lateral_sd lateral_bias correlation mishit_share mishit_shape run off_ground launch_deg spin_rpm"
).split()
SHAPE = (
    "duff_part duff_carry duff_carry_sd duff_side duff_run wild_carry wild_carry_sd wild_side wild_run mildness"
).split()
ODD = wb.Club(
    "odd",
    carry=151.7,
    carry_sd=7.3,
    lateral_sd=9.1,
    lateral_bias=-4.4,
    correlation=-0.3,
    mishit_share=0.17,
    mishit_shape=wb.MishitShape(**{name: 0.31 + 0.01 * i for i, name in enumerate(SHAPE)}),
    run=0.061,
    off_ground=0.93,
    launch_deg=15.5,
    spin_rpm=6100,
)


def figures(club):
    return {name: getattr(club, name) for name in FIGURES}


def scores(player, plan, hole=None, plays=400):
    return wb.simulate(hole or helpers.sketch(), player, plan, plays=plays, seed=5).scores


def first(player, instruction, hole, **more):
    """The first stroke of a plan of one instruction, as a dict."""
    columns = wb.simulate(hole, player, wb.Plan("one", [instruction]), plays=1, **more).columns()
    return {name: column[0] for name, column in columns.items()}


# --- Clubs and bags


@pytest.mark.parametrize("club", [ODD, *PUPIL.clubs, wb.Player.professional().clubs[0]], ids=lambda c: c.name)
def test_a_club_is_what_it_says_it_is(club):
    assert wb.Club(club.name, **figures(club)) == club
    assert wb.Club.like(club) == club
    shape = club.mishit_shape
    assert wb.MishitShape(**{name: getattr(shape, name) for name in SHAPE}) == shape
    # No figure is left out: the document has the same ones.
    told = json.loads(club.to_json())
    assert set(told) - {"launch_deg", "spin_rpm"} == {"name", *FIGURES} - {"launch_deg", "spin_rpm"}
    assert set(told["mishit_shape"]) == set(SHAPE)


def test_the_defaults_are_those_of_the_core():
    assert wb.Club("c", carry=150, carry_sd=7, lateral_sd=8).mishit_shape == wb.MishitShape()


def test_a_club_like_another_differs_in_what_was_changed():
    changes = {"carry": 140, "off_ground": 0.5, "mishit_shape": wb.MishitShape(mildness=1), "launch_deg": None}
    other = wb.Club.like(ODD, name="7-iron", **changes)
    assert other.name == "7-iron" and figures(other) == {**figures(ODD), **changes}
    assert wb.Club.like(ODD, run=None).run == wb.Club("c", carry=ODD.carry, carry_sd=0, lateral_sd=0).run
    with pytest.raises(TypeError, match="loft"):
        wb.Club.like(ODD, loft=34)
    with pytest.raises(wb.InputError, match="carry is 500"):
        wb.Club.like(ODD, carry=500)


@pytest.mark.parametrize("reference", ["men", "women"])
def test_a_bag_told_in_full_plays_to_the_last_bit_like_the_one_it_tells(reference):
    pupil = wb.Player.from_handicap(18, reference=reference)
    bags = [
        [wb.Club.like(club) for club in pupil.clubs],
        [wb.Club.like(club) if i % 2 else club.name for i, club in enumerate(pupil.clubs)],
    ]
    for bag in bags:
        told = wb.Player.from_handicap(18, reference=reference, bag=bag)
        assert told == pupil
        for plan in helpers.plans():
            assert np.array_equal(scores(told, plan), scores(pupil, plan))


def test_a_bag_of_names_and_clubs():
    own = wb.Club.like(ODD, name="7-iron")
    bag = wb.Player.from_handicap(18, bag=["driver", own, ODD, "sand wedge", "2-iron"], carries={"2-iron": 165})
    assert sorted(club.name for club in bag.clubs) == ["2-iron", "7-iron", "driver", "odd", "sand wedge"]
    assert bag.club("7-iron") == own and bag.club("odd") == ODD and bag.club("2-iron").carry == 165
    assert wb.Player.from_handicap(18, bag=["driver", own]).club("driver") == PUPIL.club("driver")
    # The rest is the level's.
    assert bag.habits == PUPIL.habits and bag.handicap == 18


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ({"bag": ["7-iron", ODD], "carries": {"odd": 150}}, r'carries: "odd" is 150.*these are 7-iron'),
        ({"bag": [ODD], "lateral_biases": {"odd": 5}}, r'lateral_biases: "odd" is 5.*holds none'),
        ({"bag": ["7-iron", wb.Club.like(ODD, name="7-iron")]}, '"7-iron" appears twice'),
        ({"bag": ["2-iron", ODD]}, "2-iron"),
        ({"bag": [wb.Club.like(ODD, name=f"club {i}") for i in range(14)]}, "there are 14"),
        ({"bag": []}, "there are 0"),
    ],
)
def test_bags_that_cannot_be(arguments, words):
    with pytest.raises(wb.InputError, match=words):
        wb.Player.from_handicap(18, **arguments)


@pytest.mark.parametrize("bag", [[3], [None], "driver", [b"driver"], [["driver"]]])
def test_bags_of_other_things(bag):
    with pytest.raises(TypeError):
        wb.Player.from_handicap(18, bag=bag)


# --- Clubs more, and places carried


@pytest.mark.parametrize("left", [100, 125, 150])
def test_a_club_more_is_the_next_longer_one(left):
    hole = wb.Hole.sketch(par=3, length=left)
    names = [club.name for club in PUPIL.clubs]
    usual = names.index(str(first(PUPIL, wb.at_pin(), hole)["club"]))
    assert 0 < usual < len(names) - 1
    for clubs in (-1, 0, 1, 2):
        there = min(usual - clubs, len(names) - 1)
        assert first(PUPIL, wb.at_pin(clubs=clubs), hole)["club"] == names[there]
    assert first(PUPIL, wb.at_pin(clubs=6), hole)["club"] == names[max(usual - 6, 0)]
    # The same luck, and the same share of the swing: it lands farther by what lies between the clubs.
    near, far = (first(PUPIL, wb.at_pin(clubs=clubs), hole)["landed_y"] for clubs in (0, 1))
    carries = [PUPIL.clubs[usual - clubs].carry for clubs in (0, 1)]
    assert far / near == pytest.approx(carries[1] / carries[0], abs=0.02)


def test_what_is_no_swing_stays_as_it_is():
    hole = wb.Hole.sketch(par=4, length=250)
    plans = [wb.Plan("p", [wb.shot("driver", wb.along(210)), wb.at_pin(clubs=n)]) for n in (0, 3)]
    columns = [wb.simulate(hole, PUPIL, plan, plays=300, seed=2).columns() for plan in plans]
    usual, more = (column["club"][column["stroke"] == 2] for column in columns)
    swung = np.isin(usual, [club.name for club in PUPIL.clubs])
    assert "pitch" in usual and np.array_equal(usual[~swung], more[~swung])


@pytest.mark.parametrize("over", [100, 130, 160])
def test_a_place_is_carried_by_the_middle_of_the_pattern(over):
    hole = wb.Hole.sketch(par=5, length=500)
    plays = 4_000

    def landed(instruction):
        columns = wb.simulate(hole, PUPIL, wb.Plan("p", [instruction]), plays=plays, seed=3).columns()
        tee = columns["stroke"] == 1
        return str(columns["club"][tee][0]), columns["landed_y"][tee] - hole.tee[1]

    club, carries = landed(wb.carry_over(wb.along(over)))
    # A share of one half is known to 0.008; four and a half times that is a false-alarm rate of 7e-6.
    assert np.mean(carries >= over + 10) > 0.5 - 4.5 * 0.008
    # The next shorter club does not.
    names = [c.name for c in PUPIL.clubs]
    shorter = names[names.index(club) + 1]
    _, carries = landed(wb.shot(shorter, wb.along(over)))
    assert np.mean(carries >= over + 10) < 0.5 + 4.5 * 0.008
    # Where more is asked for, the club is no shorter.
    more, _ = landed(wb.carry_over(wb.along(over), by=30))
    assert names.index(more) < names.index(club)


def test_what_no_club_carries_is_tried_with_the_longest():
    hole = wb.Hole.sketch(par=5, length=500)
    assert first(PUPIL, wb.carry_over(wb.along(280)), hole)["club"] == "driver"


# --- Habits


def habitual(**habits):
    return PUPIL.with_habits(wb.Habits(**habits))


def test_direct_alone_follows_habits():
    hole = wb.Hole.sketch(par=4, length=360).with_pin(back=8, right=8)
    none = PUPIL.with_habits(wb.Habits.none())
    habits = [{"too_little_club": 0.1}, {"every_flag": True}, {"always_chips": True}]
    players = [PUPIL, *(habitual(**habit) for habit in habits), none]
    for then, differ in (("direct", True), ("steady", False)):
        plan = wb.Plan("p", [], then=then)
        played = [scores(player, plan, hole=hole, plays=2_000) for player in players]
        for other in played[:-1]:
            assert np.array_equal(other, played[-1]) is not differ
    plan = wb.Plan("p", [wb.shot("driver", wb.along(200)), wb.at_pin()])
    assert np.array_equal(scores(PUPIL, plan), scores(none, plan))


def test_habits_are_the_players():
    assert PUPIL.habits.every_flag and 0 < PUPIL.habits.too_little_club < 0.2
    habits = wb.Habits(too_little_club=0.07)
    other = PUPIL.with_habits(habits)
    assert other.habits == habits and other != PUPIL and other.with_habits(PUPIL.habits) == PUPIL
    assert wb.Player.from_json(other.to_json()).habits == habits
    assert other.clubs == PUPIL.clubs


def test_the_price_of_habits_is_what_plays_with_and_without_differ_by():
    hole = wb.Hole.sketch(par=4, length=370, bunkers=[wb.along(352, left=5)]).with_pin(right=7)
    player = habitual(too_little_club=0.08, every_flag=True, always_chips=True)
    price = wb.price_of_habits(hole, player, plays=2_000, seed=5)
    direct = wb.Plan("p", [], then="direct")
    own = scores(player, direct, hole=hole, plays=2_000).astype(int)
    without = {
        "too_little_club": wb.Habits(every_flag=True, always_chips=True),
        "every_flag": wb.Habits(too_little_club=0.08, always_chips=True),
        "always_chips": wb.Habits(too_little_club=0.08, every_flag=True),
        "all": wb.Habits.none(),
    }
    for name, habits in without.items():
        gap = own - scores(player.with_habits(habits), direct, hole=hole, plays=2_000)
        told = getattr(price, name)
        assert told.mean == pytest.approx(gap.mean(), abs=1e-12)
        assert told.standard_error == pytest.approx(gap.std(ddof=1) / np.sqrt(2_000), rel=1e-9)
        assert (told.worse, told.better) == ((gap > 0).mean(), (gap < 0).mean())
    assert price == wb.price_of_habits(hole, player, plays=2_000, seed=5, threads=1)
    assert price != wb.price_of_habits(hole, player, plays=2_000, seed=6)


def test_the_price_of_habits_reads_well():
    hole, heard = wb.Hole.sketch(par=4, length=360), []
    price = wb.price_of_habits(hole, PUPIL, plays=3_000, progress=lambda *report: heard.append(report))
    assert heard[-1] == (3_000, 3_000)
    assert "Taking the right club" in price.advice and "Aiming at the middle" in price.advice
    assert "Putting where a putt does" in price.advice and "Doing all three" in price.advice
    for text in (repr(price), price.to_markdown(), price._repr_html_()):
        assert "too little club" in text and "every flag" in text and "nan" not in text
        assert all(sentence in text for sentence in price.advice.split(". ")[:1])
    assert max(map(len, repr(price).splitlines())) <= 80
    columns = price.columns()
    assert columns["habit"].tolist() == ["too_little_club", "every_flag", "always_chips", "all"]
    assert columns["price"].tolist() == [getattr(price, habit).mean for habit in columns["habit"]]
    assert len(price.to_pandas()) == len(price.to_polars()) == 4
    alone = wb.price_of_habits(hole, habitual(every_flag=True), plays=100)
    assert "right club" not in alone.advice and "both" not in alone.advice and alone.every_flag == alone.all
    nothing = wb.price_of_habits(hole, habitual(), plays=100)
    assert nothing.advice == "There are no habits to give up." and repr(nothing).count("nothing") == 4
    assert "no error" in repr(wb.price_of_habits(hole, PUPIL, plays=1))
