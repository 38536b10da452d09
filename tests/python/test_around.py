"""The strokes around the green: what the table says, where it may be asked from, and that it adds up."""

import pickle

import numpy as np
import pytest
import wideberth as wb

PUPIL = wb.Player.from_handicap(18)
HOLE = wb.Hole.sketch(
    par=4,
    length=392,
    fairway_width=32,
    green_depth=30,
    green_width=26,
    bunkers=[wb.hazard(wb.along(388, right=20), name="the pit")],
    water=[wb.hazard(wb.along(330, left=25))],
    out_of_bounds="right",
)


@pytest.fixture(scope="module")
def options():
    return wb.around_the_green(HOLE, PUPIL, at=wb.short_of_green(8), plays=6_000, seed=4)


def test_the_options_are_ranked(options):
    assert sorted(options.names) == ["lob", "pitch", "putter", "running chip"]
    means = [option.mean for option in options.options]
    assert means == sorted(means) and options.best is options.options[0]
    assert options.plays == 6_000 and options.lie == "fairway"
    assert options.at == pytest.approx((0, 392 - 15 - 8), abs=0.01)
    assert options.to_pin == pytest.approx(23, abs=0.01)
    for option in options.options:
        assert options[option.name] is option
        assert 0 < option.standard_error < 0.02
        behind = options.difference(option.name, options.best.name)
        assert behind.mean == pytest.approx(option.mean - options.best.mean, abs=1e-12)


def test_no_such_option(options):
    with pytest.raises(KeyError, match="no option 'spoon'; there are "):
        options["spoon"]
    with pytest.raises(KeyError, match='no option "spoon"'):
        options.difference("spoon", "putter")
    with pytest.raises(KeyError, match="bunker shot"):
        options["bunker shot"]


def test_shares_add_up(options):
    for option in options.options:
        distribution = option.distribution
        assert sum(distribution.values()) == pytest.approx(1)
        mean = sum(score * share for score, share in distribution.items())
        assert option.mean == pytest.approx(mean)
        for strokes in range(1, 9):
            share = sum(s for score, s in distribution.items() if score <= strokes)
            assert option.down_in(strokes) == pytest.approx(share)
            expected = (share * (1 - share) / 6_000) ** 0.5
            assert option.down_in_error(strokes) == pytest.approx(expected, abs=1e-9)
        assert option.down_in(60) == 1
        assert option.holed == option.down_in(1) == option.within_ft(0)
        assert option.on_green + option.missed_green == pytest.approx(1)
        assert 0 < option.on_green_error < 0.01
        assert 0 < option.putts < option.mean - 1 + option.missed_green
        assert option.unfinished == 0


def test_what_the_first_stroke_leaves(options):
    for option in options.options:
        assert option.left_quantile_ft(0) <= option.left_ft <= option.left_quantile_ft(0.9)
        assert option.within_ft(option.left_ft) >= 0.5 > option.within_ft(option.left_ft - 0.5)
        assert option.within_ft(300) == 1
    putter, chip, lob = (options[name] for name in ("putter", "running chip", "lob"))
    assert putter.carry == 0 and 20 < putter.run < 26
    assert chip.run > chip.carry and lob.carry > 4 * lob.run
    # What can fly can be thinned; a putt can only be stubbed.
    assert putter.thinned == 0 < putter.chunked < chip.chunked < lob.chunked
    assert lob.thinned > chip.thinned


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda o: o.best.down_in(0), "strokes is 0; it must be 1 to 60"),
        (lambda o: o.best.down_in(61), "strokes is 61; it must be 1 to 60"),
        (lambda o: o.best.left_quantile_ft(1.5), "share is 1.5; it must be 0 to 1"),
        (lambda o: o.best.left_quantile_ft(float("nan")), "share is NaN; it must be 0 to 1"),
        (lambda o: o.best.within_ft(2.25), "feet is 2.25; it must be a multiple of 0.5 from 0 to 300"),
        (lambda o: o.best.within_ft(float("nan")), "feet is NaN"),
        (lambda o: o.best.within_ft(-1), "feet is -1"),
    ],
)
def test_absurd_questions_of_a_result(options, ask, words):
    with pytest.raises(wb.InputError, match=words):
        ask(options)


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"at": (0, 392)}, r"at is \(0.0, 392.0\), which is on a putting green; it must be a place off the green"),
        ({"at": wb.along(330, left=25)}, "in a penalty area"),
        ({"at": (400, 380)}, "out of bounds"),
        ({"at": wb.along(0)}, "377 yards from the green; it must be at most 100"),
        ({"at": wb.short_of_green(100.5)}, "yards from the green; it must be at most 100"),
        ({"at": (float("nan"), 3)}, "at is .*both must be finite"),
        ({"at": np.array([0, np.inf])}, "at is .*both must be finite"),
        ({"plays": 0}, "plays is 0; it must be 1 to"),
        ({"plays": 10**30}, "plays is 1000000000000000000000000000000; it must be 1 to"),
        ({"seed": -1}, "seed is -1"),
        ({"precision": 0.0}, "precision is 0"),
        ({"then": "hope"}, 'then is "hope"'),
        ({"threads": 0}, "threads is 0"),
    ],
)
def test_what_is_refused(given, words):
    arguments = {"at": wb.short_of_green(8), "plays": 50} | given
    with pytest.raises(wb.InputError, match=words):
        wb.around_the_green(HOLE, PUPIL, **arguments)


@pytest.mark.parametrize("at", ["the pit", None, 3, (1, 2, 3), np.zeros((2, 2)), {"x": 1}])
def test_places_that_are_none(at):
    with pytest.raises(TypeError, match=r"at is of type .*; it must be"):
        wb.around_the_green(HOLE, PUPIL, at=at, plays=10)


def test_every_way_to_say_where():
    place = wb.short_of_green(8, right=3)
    x, y = 3.0, 392 - 15 - 8.0
    first, *others = [
        wb.around_the_green(HOLE, PUPIL, at=at, plays=200)
        for at in ((x, y), [x, y], np.array([x, y]), wb.at(x, y), wb.along(y, right=3))
    ]
    assert all(other == first for other in others)
    found = wb.around_the_green(HOLE, PUPIL, at=place, plays=200)
    assert found.at == pytest.approx((x, y), abs=1e-6)


def test_the_lie_is_that_of_the_place():
    sand = wb.around_the_green(HOLE, PUPIL, at=wb.along(388, right=20), plays=2_000)
    assert sand.lie == "bunker" and sand.best.name == "bunker shot"
    assert set(sand.names) == {"bunker shot", "running chip", "pitch"}
    rough = wb.around_the_green(HOLE, PUPIL, at=wb.along(380, left=24), plays=500)
    assert rough.lie == "rough" and "putter" not in rough.names
    # All of the same luck, nearer is better: 2,000 plays, a difference of more than ten standard errors.
    near, far = (wb.around_the_green(HOLE, PUPIL, at=wb.short_of_green(y), plays=2_000) for y in (3, 30))
    assert near.best.mean < far.best.mean - 0.1


def test_short_of_green_is_a_place_like_any_other():
    assert wb.short_of_green(8, right=2) == wb.short_of_green(8, 2) != wb.short_of_green(8, left=2)
    assert HOLE.surface_at(wb.short_of_green(-5)) == "green"
    shot = wb.shot("sand wedge", wb.short_of_green(4.5, left=1))
    assert repr(shot) == 'shot("sand wedge", short_of_green(4.5, left=1))'
    plan = wb.Plan("short", [shot])
    assert wb.Plan.from_json(plan.to_json()) == plan
    assert wb.simulate(HOLE, PUPIL, plan, plays=20).scores.min() > 1
    with pytest.raises(wb.InputError, match="give left or right, not both"):
        wb.short_of_green(8, 1, left=1)
    with pytest.raises(wb.InputError, match="short_of_green: yards is NaN"):
        wb.short_of_green(float("nan"))
    with pytest.raises(wb.InputError, match="short_of_green is 3000; it must be -500 to 2000 yards"):
        wb.shot("driver", wb.short_of_green(3_000))
    pond = wb.hazard(wb.short_of_green(20, right=6), 10, 8)
    assert repr(pond) == "hazard(short_of_green(20, right=6), length=10, width=8)"
    assert pickle.loads(pickle.dumps(pond)) == pond != wb.hazard(wb.along(20, right=6), 10, 8)
    hole = wb.Hole.sketch(par=4, length=380, water=[pond])
    # The green is 28 yards deep.
    assert hole == wb.Hole.sketch(par=4, length=380, water=[wb.hazard(wb.along(346, right=6), 10, 8)])
    assert hole.surface_at(wb.short_of_green(20, right=10)) == "penalty_red"


def test_neither_threads_nor_waves_change_a_result(options):
    alone = wb.around_the_green(HOLE, PUPIL, at=wb.short_of_green(8), plays=6_000, seed=4, threads=1)
    assert alone == options and repr(alone) == repr(options)
    other = wb.around_the_green(HOLE, PUPIL, at=wb.short_of_green(8), plays=6_000, seed=5)
    assert other != options
    # What is meant does not depend on the luck.
    assert [other[n].carry for n in options.names] == [options[n].carry for n in options.names]


def test_progress_and_precision():
    heard = []
    found = wb.around_the_green(
        HOLE,
        PUPIL,
        at=wb.short_of_green(8),
        precision=0.05,
        then="direct",
        progress=lambda done, goal: heard.append((done, goal)),
    )
    assert heard[-1] == (found.plays, found.plays) and 1_000 <= found.plays < 100_000
    assert all(0 < done <= goal for done, goal in heard)
    assert found.settled
    with pytest.raises(TypeError, match="progress is str"):
        wb.around_the_green(HOLE, PUPIL, at=wb.short_of_green(8), progress="loud")


def test_tables(options):
    text = repr(options)
    for part in (
        "strokes",
        "down in two",
        "in three or fewer",
        "1 " + options.best.name,
        "23 yd from the pin",
        "fairway",
    ):
        assert part in text
    assert all(len(line) <= 160 for line in text.splitlines())
    html = options._repr_html_()
    assert html.startswith("<table>") and all(name in html for name in options.names)
    shown = f"{options.best.mean:.4f}".rstrip("0")[:5]
    assert shown in text and shown in html
    columns = options.columns()
    assert columns["option"].tolist() == options.names
    assert {len(column) for column in columns.values()} == {4}
    for i, option in enumerate(options.options):
        assert columns["mean"][i] == option.mean
        assert columns["down_in_three"][i] == option.down_in(3)
        assert columns["down_in_two_error"][i] == option.down_in_error(2)
        assert columns["left_ft"][i] == option.left_ft
        assert columns["missed_green"][i] == option.missed_green
    assert columns["behind"][0] == 0 and (columns["behind"][1:] >= 0).all()
    pandas = pytest.importorskip("pandas")
    assert isinstance(options.to_pandas(), pandas.DataFrame)
    assert list(options.to_pandas()) == list(columns)
    assert pytest.importorskip("polars").DataFrame(columns).equals(options.to_polars())
    assert repr(options.best).startswith(options.best.name + ": mean ")


def test_results_that_came_back_still_answer(options):
    again = pickle.loads(pickle.dumps(options))
    assert again == options and again.best.left_ft == options.best.left_ft
    assert again.difference("lob", "putter") == options.difference("lob", "putter")


def test_a_green_that_slopes_away_is_harder():
    level = wb.around_the_green(HOLE, PUPIL, at=wb.short_of_green(8), plays=3_000)
    sloped = HOLE.with_terrain(green_tilt_percent=(0, -3))
    away = wb.around_the_green(sloped, PUPIL, at=wb.short_of_green(8), plays=3_000)
    # 3,000 plays: standard errors near 0.01; the difference is above five of them.
    assert away.best.mean > level.best.mean + 0.06
    # What runs is played shorter where the ball runs away.
    assert away["pitch"].carry < level["pitch"].carry
