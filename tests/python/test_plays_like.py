"""What distance a shot plays like."""

import numpy as np
import pytest
import wideberth as wb

PUPIL = wb.Player.from_handicap(10)
HOLE = wb.Hole.sketch(par=4, length=380, fairway_width=40)


def like(hole=HOLE, at=None, **to):
    return wb.plays_like(hole, PUPIL, at=at or wb.along(230), **to)


def test_a_still_level_day_plays_like_itself():
    for yards in (6, 25, 90, 150, 180):
        told = like(at=wb.along(380 - yards))
        assert told.distance == pytest.approx(yards, abs=1e-9)
        assert told.plays_like == pytest.approx(yards, abs=0.6)
        assert told.aim_right == 0 and told.uphill_ft == 0 and told.in_reach
    assert wb.plays_like(HOLE, PUPIL).distance == 380 and not wb.plays_like(HOLE, PUPIL).in_reach


def test_wind_height_and_air_change_it():
    """Source: bands about published rules of thumb: a yard a yard of height, 10 mph of head wind 7 to 12 % of an iron
    shot, and less behind than ahead."""
    wind = {name: like(HOLE.under(wb.Conditions(wind=wb.Wind(10, deg)))) for name, deg in [("in", 0), ("behind", 180)]}
    assert 9 < wind["in"].plays_like - 150 < 20
    assert 4 < 150 - wind["behind"].plays_like < wind["in"].plays_like - 150
    hill = HOLE.with_terrain(uphill_ft=30)
    up = like(hill)
    assert 2 < up.uphill_ft < 30
    assert up.plays_like - 150 > 0.6 * up.uphill_ft / 3
    assert like(HOLE.under(wb.Conditions(altitude_ft=5000))).plays_like < 147


def test_the_aim_is_held_off_into_a_cross_wind():
    right = like(HOLE.under(wb.Conditions(wind=wb.Wind(12, 90))))
    left = like(HOLE.under(wb.Conditions(wind=wb.Wind(12, 270))))
    assert right.aim_right > 5
    assert left.aim_right == pytest.approx(-right.aim_right, abs=1e-9)
    assert "aimed" in repr(right) and "right" in repr(right)


def test_the_stroke_is_the_one_that_is_played():
    names = {club.name for club in PUPIL.clubs} | {"chip", "pitch", "lob", "bunker_shot", "punch", "putter", "putt"}
    for along in np.linspace(0, 375, 26):
        assert like(at=wb.along(float(along))).stroke in names
    assert like(at=wb.along(377)).stroke == "putt"
    told = like(at=wb.along(200), to=wb.along(330))
    assert told.distance == pytest.approx(130) and repr(told).startswith("130 yd plays like 130: ")


def test_what_cannot_be_told_is_refused():
    out = wb.Hole.sketch(par=4, length=380, out_of_bounds="left")
    for hole, at, to, words in [
        (HOLE, (float("nan"), 3), None, ("at is (NaN, 3)",)),
        (HOLE, (0, 30), (float("inf"), 3), ("to is (inf, 3)",)),
        (HOLE, (0, 30), (0, 30.5), ("to is 0.5 yards away", "1 to 1000")),
        (HOLE, (0, 30), (0, 3000), ("to is 2970.0 yards away",)),
        (out, (-200, 100), None, ("at is (-200.0, 100.0)", "out_of_bounds")),
    ]:
        with pytest.raises(wb.InputError) as caught:
            wb.plays_like(hole, PUPIL, at=at, to=to)
        assert all(word in str(caught.value) for word in words), str(caught.value)
    with pytest.raises(TypeError, match="to is of type str"):
        wb.plays_like(HOLE, PUPIL, to="the flag")
