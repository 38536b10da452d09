"""For people who script: questions from anywhere, strokes, own strategies, changed skills, players compared."""

import threading

import helpers
import numpy as np
import pytest
import wideberth as wb

HOLE = wb.Hole.sketch(
    par=4, length=400, fairway_width=32, green_depth=28, green_width=26, water=[wb.along(365, right=14)]
)
PUPIL = wb.Player.from_handicap(18)
USUAL = wb.Plan("usual", [])
HERE = {"at": wb.along(250, left=8), "lie": "rough"}


def refused(call, *words, error=wb.InputError):
    with pytest.raises(error) as caught:
        call()
    assert all(word in str(caught.value) for word in words), str(caught.value)


def test_every_question_of_the_tee_begins_where_it_is_told():
    """All of them meet the same luck from the same place, so that they agree to the last bit."""
    asked = {"plays": 400, "seed": 5, **HERE}
    compared = wb.compare(HOLE, PUPIL, [USUAL], **asked)
    scores = wb.simulate(HOLE, PUPIL, USUAL, **asked).scores
    assert compared.best.mean == scores.mean()
    assert compared.start == ((-8.0, 250.0), "rough") and "from 150 yd, lie rough" in repr(compared)
    players = wb.compare_players(HOLE, {"p": PUPIL}, **asked)
    assert players.best.mean == scores.mean()
    direct = wb.simulate(HOLE, PUPIL, wb.Plan("direct", [], then="direct"), **asked).scores
    bold = wb.simulate(HOLE, PUPIL.with_habits(wb.Habits.none()), wb.Plan("direct", [], then="direct"), **asked).scores
    assert wb.price_of_habits(HOLE, PUPIL, **asked).all.mean == pytest.approx((direct - bold).mean(), abs=1e-12)
    sweep = wb.aim_sweep(HOLE, PUPIL, club="7-iron", aims=[-10, 0], **asked)
    assert sweep.comparison.start == compared.start and sweep.best.result.mean < 5
    even = wb.compare(HOLE, PUPIL, [USUAL], plays=6_400, seed=5, **HERE, luck="even")
    assert even["usual"].mean == pytest.approx(scores.mean(), abs=5 * scores.std() / 20)


def test_a_lie_alone_is_on_the_tee_and_a_place_alone_gives_its_lie():
    first = {
        name: column[0] for name, column in wb.simulate(HOLE, PUPIL, USUAL, plays=1, lie="fairway").columns().items()
    }
    assert (first["x"], first["y"], first["lie"]) == (*HOLE.tee, "fairway")
    for at, lie in ((wb.along(250), "fairway"), ((0.0, 399.0), "green"), (np.array([60.0, 200.0]), "rough")):
        assert wb.simulate(HOLE, PUPIL, USUAL, plays=1, at=at).columns()["lie"][0] == lie


@pytest.mark.parametrize(
    ("where", "words"),
    [
        ({"at": wb.along(365, right=14)}, ("at is (14, 365), in a penalty area", "name the lie")),
        ({"at": (0, np.nan)}, ("at is (0, NaN)",)),
        ({"at": (0, 1e7)}, ("more than 2,000 yards",)),
        ({"at": wb.along(250), "lie": "green"}, ('lie is "green" at (0, 250)',)),
        ({"at": HOLE.pin, "lie": "rough"}, ('a ball on a putting green lies on "green"',)),
        ({"lie": "mud"}, ('lie is "mud"',)),
    ],
)
def test_where_nobody_plays_from_is_refused(where, words):
    for call in (
        lambda: wb.compare(HOLE, PUPIL, [USUAL], plays=10, **where),
        lambda: wb.compare(HOLE, PUPIL, [USUAL], plays=64, **where, luck="even"),
        lambda: wb.simulate(HOLE, PUPIL, USUAL, plays=10, **where),
        lambda: wb.compare_players(HOLE, {"p": PUPIL}, plays=10, **where),
        lambda: wb.price_of_habits(HOLE, PUPIL, plays=10, **where),
        lambda: wb.strokes(HOLE, PUPIL, club="8-iron", target=HOLE.pin, n=10, **where),
    ):
        refused(call, *words)


def test_plans_are_held_to_where_play_begins(tmp_path):
    driver = wb.Plan("driver", [wb.shot("driver", wb.along(220))])
    refused(lambda: wb.compare(HOLE, PUPIL, [driver], plays=10, **HERE), "it must be more than 270 yards")
    here = wb.compare(HOLE, PUPIL, [USUAL, wb.Plan("direct", [], then="direct")], plays=100, **HERE)
    refused(lambda: wb.report(here, path=tmp_path / "x.html"), "on the tee")
    refused(lambda: wb.pocket_card([here], path=tmp_path / "x.pdf"), "on the tee")


def test_strokes_are_the_first_strokes_of_plays():
    asked = {"at": wb.along(270), "lie": "fairway", "seed": 7}
    balls = wb.strokes(HOLE, PUPIL, club="8-iron", target=HOLE.pin, n=300, threads=2, **asked)
    plan = wb.Plan("p", [wb.exactly("8-iron", wb.at(*HOLE.pin))])
    rows = wb.simulate(HOLE, PUPIL, plan, plays=300, **asked).columns()
    first = rows["stroke"] == 1
    for name in set(balls) & set(rows) - {"to_pin"}:
        assert np.array_equal(balls[name], rows[name][first]), name
    away = np.hypot(balls["rest_x"] - HOLE.pin[0], balls["rest_y"] - HOLE.pin[1])
    assert np.allclose(balls["to_pin"], away, rtol=0, atol=1e-9)
    assert all(column.shape == (300,) for column in balls.values())
    short = wb.strokes(HOLE, PUPIL, club="8-iron", target=HOLE.pin, carry=60, n=300, **asked)
    assert short["to_pin"].mean() > balls["to_pin"].mean() + 30
    refused(lambda: wb.strokes(HOLE, PUPIL, club="cleek", target=HOLE.pin), 'club is "cleek"')
    refused(lambda: wb.strokes(HOLE, PUPIL, club="putt", target=HOLE.pin), 'a putt cannot be played from the lie "tee"')
    refused(lambda: wb.strokes(HOLE, PUPIL, club="8-iron", target=HOLE.pin, n=0), "n is 0")
    refused(lambda: wb.strokes(HOLE, PUPIL, club="8-iron", target=HOLE.pin, n=10**12), "n is 1000000000000")
    refused(lambda: wb.strokes(HOLE, PUPIL, club="8-iron", target=(0, np.inf)), "the distance to the target is inf")
    refused(lambda: wb.strokes(HOLE, PUPIL, club="8-iron", target=HOLE.pin, carry=-5), "carry is -5")


def test_seeds_as_numpy_gives_them():
    """A generator moves on by a draw, a sequence does not; each stands for a whole number."""
    mean = lambda seed: wb.compare(HOLE, PUPIL, [USUAL], plays=200, seed=seed).best.mean  # noqa: E731
    raw = int(np.random.default_rng(7).bit_generator.random_raw())
    assert mean(np.random.default_rng(7)) == mean(raw) == mean(np.random.PCG64(7))
    moving = np.random.default_rng(7)
    assert [mean(moving), mean(moving)] == [mean(raw), mean(moving.bit_generator.__class__(7).advance(1).random_raw())]
    sequence = np.random.SeedSequence(3)
    assert mean(sequence) == mean(sequence) == mean(int(sequence.generate_state(1, np.uint64)[0]))
    price = wb.price_of_habits(HOLE, PUPIL, plays=10, seed=np.random.default_rng(7))
    assert price.seed == raw
    assert PUPIL.draws(1, seed=np.random.default_rng(7)) == PUPIL.draws(1, seed=raw)


def test_own_strategies_are_asked_by_waves():
    asked = []

    def nothing(balls):
        asked.append((threading.active_count(), {name: column.copy() for name, column in balls.items()}))

    own = wb.Plan("own", [], then=wb.strategy(nothing))
    result = wb.compare(HOLE, PUPIL, [own, USUAL], plays=5_000, seed=1)
    same = result.difference("own", "usual")
    assert (same.better, same.worse) == (0, 0)
    first = asked[0][1]
    assert list(first) == ["play", "x", "y", "lie", "to_pin", "score"] and {len(c) for c in first.values()} == {4_096}
    assert set(first["lie"]) == {"tee"} and set(first["score"]) == {0} and np.allclose(first["to_pin"], 400)
    assert np.array_equal(first["play"], np.arange(4_096))
    second = asked[1][1]
    assert "green" not in set(second["lie"]) or (second["to_pin"][second["lie"] == "green"] < 40).all()
    assert len(asked) < 40
    again, before = [], asked
    own = wb.Plan("own", [], then=wb.strategy(lambda balls: again.append(balls["play"].copy())))
    wb.compare(HOLE, PUPIL, [own], plays=5_000, seed=1, threads=1, progress=lambda done, goal: None)
    assert all(np.array_equal(one, other["play"]) for one, (_, other) in zip(again, before, strict=True))


def test_own_strategies_play_what_they_answer():
    own = wb.Plan("eights", [], then=wb.strategy(helpers.eight_irons))
    rows = wb.simulate(HOLE, PUPIL, own, plays=200, seed=3).columns()
    far = rows["to_pin"] > 130
    assert set(rows["club"][far]) == {"8-iron"} and np.allclose((rows["target_y"] - rows["y"])[far], 120)
    assert (rows["club"] == "putt").any()
    # The same strokes however many threads there are, and in a comparison.
    assert np.array_equal(
        rows["rest_x"], wb.simulate(HOLE, PUPIL, own, plays=200, seed=3, threads=1).columns()["rest_x"]
    )
    scores = wb.simulate(HOLE, PUPIL, own, plays=200, seed=3).scores
    assert wb.compare(HOLE, PUPIL, [own], plays=200, seed=3).best.mean == scores.mean()
    # Instructions come first, and are not asked for.
    driver = wb.Plan("p", [wb.shot("driver", wb.along(200))], then=wb.strategy(helpers.eight_irons))
    rows = wb.simulate(HOLE, PUPIL, driver, plays=50, seed=3).columns()
    assert set(rows["club"][rows["stroke"] == 1]) == {"driver"}
    assert wb.compare_players(HOLE, {"a": PUPIL}, own, plays=200, seed=3).best.mean == scores.mean()


def answer(balls, **changed):
    count = len(balls["x"])
    told = {"club": np.full(count, "8-iron", object), "target_x": np.zeros(count), "target_y": np.full(count, 400.0)}
    return {**told, **changed}


@pytest.mark.parametrize(
    ("function", "error", "words"),
    [
        (lambda b: 1 / 0, ZeroDivisionError, ("division",)),
        (lambda b: 7, TypeError, ("strategy 'own' answered with int",)),
        (lambda b: {"club": []}, wb.InputError, ("no column 'target_x'",)),
        (lambda b: answer(b, aim=1), wb.InputError, ("a column 'aim'",)),
        (lambda b: answer(b, club=["8-iron"]), wb.InputError, ("club has the shape (1,)", "(50,)")),
        (lambda b: answer(b, club=np.full(50, "cleek")), wb.InputError, ("club is 'cleek'", "8-iron")),
        (lambda b: answer(b, club=np.full(50, 8)), wb.InputError, ("club is 8",)),
        (lambda b: answer(b, target_x=np.full(50, np.nan)), wb.InputError, ("target_x of ball 0 is nan",)),
        (lambda b: answer(b, target_y=["far"] * 50), wb.InputError, ("target_y holds",)),
        (lambda b: answer(b, target_y=np.full(50, 1e9)), wb.InputError, ("the distance to the target is",)),
        (lambda b: answer(b, carry=np.full(50, -1.0)), wb.InputError, ("carry of ball 0 is -1",)),
        (lambda b: answer(b, club=np.full(50, "putt", object)), wb.InputError, ("a putt cannot be played", "tee")),
    ],
)
def test_what_goes_wrong_in_a_strategy_is_told(function, error, words):
    own = wb.Plan("p", [], then=wb.strategy(function, name="own"))
    for call in (
        lambda: wb.compare(HOLE, PUPIL, [USUAL, own], plays=50),
        lambda: wb.simulate(HOLE, PUPIL, own, plays=50),
        lambda: wb.compare_players(HOLE, {"a": PUPIL}, own, plays=50),
    ):
        refused(call, *words, error=error)


def test_where_own_strategies_do_not_go_is_told():
    own = wb.Plan("own", [], then=wb.strategy(helpers.eight_irons))
    refused(lambda: wb.compare(HOLE, PUPIL, [own], plays=64, luck="even"), "own", "common luck")
    refused(lambda: wb.compare(HOLE, PUPIL, [own], plays=64, player_draws=3), "own", "player_draws")
    refused(lambda: own.to_json(), "cannot be written")
    refused(lambda: wb.strategy(3), "function is of type int", error=TypeError)
    refused(lambda: wb.strategy(len, otherwise=wb.strategy(len)), "otherwise", error=TypeError)
    refused(lambda: wb.strategy(len, otherwise="boldly"), "boldly")
    refused(lambda: wb.Plan("p", [], then=3), "a strategy of your own", error=TypeError)
    assert repr(own) == "Plan(\"own\", [], then=strategy('eight_irons'))"


def test_players_are_compared_on_the_same_luck():
    better = PUPIL.with_changes(putting=wb.Player.from_handicap(5))
    result = wb.compare_players(HOLE, {"now": PUPIL, "putts": better, "twin": PUPIL}, plays=4_000, seed=2)
    assert result.names[0] == "putts" and result["putts"].player == better
    gain = result.difference("putts", "now")
    assert gain.interval[1] < 0
    independent = np.hypot(result["putts"].standard_error, result["now"].standard_error)
    assert gain.standard_error < 0.8 * independent
    twins = result.difference("now", "twin")
    assert (twins.better, twins.worse) == (0, 0)
    assert result["putts"].putts < result["now"].putts
    assert next(iter(result.columns())) == "player" and "better than" in result.advice
    refused(lambda: wb.compare_players(HOLE, {}, plays=10), "players is empty")
    solved = wb.Plan("solved", [], then=wb.solve(HOLE, PUPIL, cell=10))
    refused(lambda: wb.compare_players(HOLE, {"a": PUPIL, "b": better}, solved, plays=10), 'player "b"', "solution")


def test_one_skill_changes_and_the_rest_stays():
    ten = wb.Player.from_handicap(10)
    longer = PUPIL.with_changes(longer={"driver": 15})
    assert longer.club("driver").carry == pytest.approx(PUPIL.club("driver").carry + 15)
    assert longer.clubs[1:] == PUPIL.clubs[1:]
    half = PUPIL.with_changes(fewer_mishits=(ten, 0.5)).club("7-iron").mishit_share
    assert half == pytest.approx((PUPIL.club("7-iron").mishit_share + ten.club("7-iron").mishit_share) / 2)
    every = PUPIL.with_changes(
        longer=ten, straighter=ten, surer_distance=ten, fewer_mishits=ten, bad_lies=ten, short_game=ten, putting=ten
    )
    scores = wb.compare_players(HOLE, {"changed": every, "ten": ten}, plays=500, seed=1)
    assert abs(scores.difference("changed", "ten").mean) < 0.01
    refused(lambda: PUPIL.with_changes(longer=15), "longer is 15; it must be yards of carry by club")
    refused(lambda: PUPIL.with_changes(short_game={"flop": ten}), 'short_game has "flop"', "bunker_shot")
    refused(lambda: PUPIL.with_changes(putting=(ten, 1.5)), "share is 1.5")
    refused(lambda: PUPIL.with_changes(straighter="more"), "straighter is of type str", error=TypeError)


def test_averages_are_those_of_handicaps():
    """By the Rules of Handicapping; `tests/rust/player_changes.rs` draws the rounds."""
    for score, handicap in ((80, 7.4), (90, 17.1), (100, 26.5)):
        player = wb.Player.from_average_score(score)
        assert player == wb.Player.from_handicap(handicap)
    assert wb.Player.from_average_score(95, reference="women") == wb.Player.from_handicap(
        wb.Player.from_average_score(95).handicap, reference="women"
    )
    refused(lambda: wb.Player.from_average_score(60), "average_score is 60; it must be 72.5 to")
    refused(lambda: wb.Player.from_average_score(90, slope_rating=10), "slope_rating is 10; it must be 55 to 155")
