"""Draw Withy Fen, the invented course of the round.

    python docs/withy_fen.py > python/wideberth/data/withy-fen.json

It has what an ordinary parkland course has: sand by every green and where drives end, willows along most holes, water
on seven, a boundary on three, and pins as they are cut. Nothing of it exists.
"""

import math
from typing import NamedTuple

import wideberth as wb
from wideberth import along

#: How far from the middle of the green to its edge pins are cut at most.
OUT = 0.6


class Drawn(NamedTuple):
    """A hole as it is drawn; places are yards along the line of play and to its right."""

    name: str
    par: int
    length: float
    index: int
    #: Yards across the fairway; depth and width of the green.
    wide: float
    green: tuple[float, float]
    #: Sand by the fairway.
    bunkers: tuple[tuple[float, float], ...] = ()
    ponds: tuple[tuple[float, float], ...] = ()
    willows: tuple[tuple[float, float], ...] = ()
    dogleg: tuple[float, float] | None = None
    bounds: str | None = None


HOLES = [
    Drawn("Sallow Hide", 4, 362, 9, 30, (26, 22), ((219, 20),), willows=((90, -24), (150, -26))),
    Drawn("Alder Carr", 4, 389, 3, 36, (30, 28), ((222, 22),), ponds=((185, -24),), willows=((250, 26), (310, 26))),
    Drawn("Reedcutter", 3, 152, 17, 32, (32, 28)),
    Drawn("Long Dyke", 5, 497, 5, 32, (26, 24), ((224, -22), (390, -18)), ponds=((365, 18),), willows=((120, 26),)),
    Drawn("Osier Bed", 4, 336, 13, 36, (28, 24), ((211, -12),), dogleg=(195, 20), willows=((120, 26),)),
    Drawn("Marsh Gate", 4, 408, 1, 34, (32, 30), ((234, -21), (205, 19)), bounds="right"),
    Drawn("Otter Pool", 3, 181, 15, 32, (28, 28), ponds=((130, 16),)),
    Drawn("Sedge Bank", 4, 351, 11, 30, (30, 26), ((209, -20),), willows=((150, 34), (215, 32), (120, -27))),
    Drawn("Fen Corner", 5, 471, 7, 36, (26, 24), ((199, 20), (372, 20)), willows=((260, 27),), bounds="left"),
    Drawn("Eel Trap", 4, 377, 8, 32, (30, 22), ((226, 19),), ponds=((320, -20),), willows=((140, -27), (200, -28))),
    Drawn("Little Willow", 3, 138, 18, 32, (32, 28), willows=((70, -24),)),
    Drawn("Drover", 4, 395, 4, 36, (27, 27), ((208, 19),), dogleg=(225, -25), willows=((170, -32), (130, 28))),
    Drawn("Twin Meres", 5, 512, 2, 34, (30, 24), ((228, -20),), ponds=((235, 24), (420, -19))),
    Drawn("Thatcher", 4, 328, 14, 32, (32, 24), ((177, -18), (199, 20)), willows=((220, -27), (110, 27))),
    Drawn("Flood Wall", 4, 415, 6, 30, (28, 30), ((215, -18),), willows=((140, -26), (250, -26)), bounds="right"),
    Drawn("Kingfisher", 3, 167, 16, 36, (30, 28), ponds=((120, -13),)),
    Drawn("Peat Stack", 4, 369, 12, 32, (26, 26), ((216, 18),), willows=((120, -26), (180, -27), (150, 28))),
    Drawn("Homeward", 5, 484, 10, 32, (28, 24), ((208, -21), (232, 19)), ponds=((410, 15),), willows=((300, -36),)),
]  # fmt: skip


def side(right: float) -> dict[str, float]:
    """Yards to the right as the side is named."""
    return {"right": right} if right > 0 else {"left": -right}


def hole(number: int, drawn: Drawn) -> wb.Hole:
    """Draw one."""
    depth, width = drawn.green
    turn = 2.4 * number
    out = OUT * math.sqrt((7 * number + 0.5) / 18 % 1)
    hand = 1 if number % 2 else -1
    by_the_green = [(drawn.length - 7, hand * (width / 2 + 3)), (drawn.length - 3, -hand * (width / 2 + 3))]
    if drawn.par > 3 and number % 3:
        by_the_green.append((drawn.length - depth / 2 - 11, hand * 8))
    return wb.Hole.sketch(
        name=drawn.name,
        number=number,
        par=drawn.par,
        length=drawn.length,
        stroke_index=drawn.index,
        fairway_width=drawn.wide,
        green_depth=depth,
        green_width=width,
        pin_back=round(out * depth / 2 * math.cos(turn), 1),
        pin_right=round(out * width / 2 * math.sin(turn), 1),
        bunkers=[along(yards, **side(right)) for yards, right in (*drawn.bunkers, *by_the_green)],
        water=[along(yards, **side(right)) for yards, right in drawn.ponds],
        trees=[along(yards, **side(right)) for yards, right in drawn.willows],
        dogleg=drawn.dogleg,
        out_of_bounds=drawn.bounds,
    )


if __name__ == "__main__":
    holes = [hole(number, drawn) for number, drawn in enumerate(HOLES, 1)]
    print(wb.Course(holes, name="Withy Fen").to_json())
