"""A hole that cannot be finished is told so, instead of a mean that says how high the stroke cap is."""

import json

import numpy as np
import pytest
import wideberth as wb
from helpers import document
from wideberth.cli import main

PLAYER = wb.Player.from_handicap(16)
PLANS = [wb.Plan("pin", [wb.at_pin()]), wb.Plan("steady", [])]


def box(x0, y0, x1, y1):
    return {"surface": "out_of_bounds", "outline": [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]}


def islands():
    """A tee and a green with nothing but out of bounds between them, farther apart than anybody plays."""
    around = [box(-300, 20, 300, 380), box(-300, -100, 300, -15), box(-300, -15, -15, 20), box(15, -15, 300, 20)]
    return wb.Hole.from_json(json.dumps(document([*around, box(-300, 380, 300, 700)])))


def hillside():
    """The ground falls 60 % to one side, and no ball comes to rest."""
    heights = np.tile(np.arange(-400, 401, 10) * 3 * 0.6, (90, 1))
    return wb.Hole.sketch(par=3, length=150).with_terrain(heights_ft=heights, cell=10, corner=(-400, -300))


@pytest.mark.parametrize("hole", [islands, hillside])
def test_a_comparison_says_that_there_is_no_answer(hole):
    result = wb.compare(hole(), PLAYER, PLANS, plays=60)
    assert result.best.unfinished >= 30
    assert result.advice.startswith("The hole cannot be finished as it is: ")
    assert "average" not in result.advice and result.best.name in result.advice
    assert "The hole cannot be finished as it is" in repr(result)


def test_so_do_plays_on_even_luck_and_a_solution(tmp_path, capsys):
    hole = islands()
    assert "The hole cannot be finished as it is" in repr(wb.compare(hole, PLAYER, PLANS, plays=64, luck="even"))
    assert "cannot be finished" in repr(wb.solve(hole, PLAYER, cell=10))
    (tmp_path / "islands.json").write_text(hole.to_json())
    assert main(["solve", str(tmp_path / "islands.json"), "--cell", "10", "-q"]) == 0
    assert "The hole cannot be finished as it is" in capsys.readouterr().out


def test_other_holes_are_advised_as_ever():
    hole = wb.Hole.sketch(par=3, length=150)
    result = wb.compare(hole, PLAYER, PLANS, plays=200)
    assert "cannot be finished" not in result.advice + repr(result) + repr(wb.evaluate(hole, PLAYER, cell=10))
