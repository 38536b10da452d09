"""Players by level: published lengths, better players better all along the scale, and the professional."""

import itertools

import pytest
import wideberth as wb

#: Course Rating System (published): handicap, whose reference golfers, tee shot in yards.
TEE_SHOTS = [(0, "men", 250), (20, "men", 200), (0, "women", 210), (24, "women", 150)]


@pytest.mark.parametrize(("handicap", "reference", "yards"), TEE_SHOTS)
def test_tee_shots_of_the_reference_golfers(handicap, reference, yards):
    shot = wb.Player.from_handicap(handicap, reference=reference).tee_shot()
    assert shot.club == "driver"
    assert shot.total == pytest.approx(yards, abs=1)
    assert shot.carry + shot.run == pytest.approx(shot.total)
    assert 10 < shot.run < 25


def test_men_are_the_usual_reference():
    assert wb.Player.from_handicap(12) == wb.Player.from_handicap(12, reference="men")
    assert wb.Player.from_handicap(12) != wb.Player.from_handicap(12, reference="women")


@pytest.mark.parametrize(("reference", "length"), [("men", 380), ("women", 330)])
def test_better_players_are_better_all_along_the_scale(reference, length):
    # 20,000 plays: the standard error of a mean is below 0.015 strokes and handicaps differ by 0.4 and more, so that a
    # false alarm would be a miss by more than ten standard errors.
    hole = wb.Hole.sketch(par=4, length=length, fairway_width=34, green_depth=30, green_width=26)
    plan = wb.Plan("normal", [], then="steady")

    def mean(handicap):
        player = wb.Player.from_handicap(handicap, reference=reference)
        return wb.compare(hole, player, [plan], plays=20_000, seed=1).best.mean

    means = [mean(handicap) for handicap in (0, 9, 18, 27, 36, 45, 54)]
    assert all(b > a + 0.2 for a, b in itertools.pairwise(means)), means


def test_a_professional_is_better_than_scratch():
    professional, scratch = wb.Player.professional(), wb.Player.from_handicap(0)
    assert professional.handicap is None
    assert professional.tee_shot().total > scratch.tee_shot().total + 20
    hole = wb.Hole.sketch(par=4, length=400, green_speed=11)
    plan = wb.Plan("normal", [])
    means = [wb.compare(hole, player, [plan], plays=5_000, seed=3).best.mean for player in (professional, scratch)]
    assert means[0] < means[1] - 0.1
