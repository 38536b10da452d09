"""Rounds and tables of shots as files, with cells and bytes changed."""

from __future__ import annotations

import wideberth as wb

from attacking.things import COURSE, NUMBERS, PLAYER, WORDS, Fault, refusal

ROUND = """hole,stroke,club,lie,to_pin,side,penalty
1,1,7-iron,tee,120,,
1,2,chip,rough,18,left 9,1
1,4,putter,green,7,,
2,1,8-iron,tee,120,,
2,2,putter,green,30,right 1,
2,3,putter,green,3,,
"""
SHOTS = "club,carry,lateral\n" + "".join(f"7-iron,{125 + 3 * i % 11},{7 * i % 13 - 6}\n" for i in range(12))


def table_file(dice, folder):
    """A round or a table of shots as a file, with cells and bytes changed."""
    good, use = dice.choice(
        [
            (ROUND, lambda path: wb.review(COURSE, PLAYER, path, cell=10)),
            (SHOTS, lambda path: wb.Player.from_shots(path, prior=PLAYER)),
        ]
    )
    rows = [line.split(",") for line in good.splitlines()]
    for _ in range(dice.randint(1, 3)):
        row = dice.choice(rows)
        blow = dice.randrange(4)
        if blow < 2 and row:
            row[dice.randrange(len(row))] = dice.choice([str(dice.choice(NUMBERS)), dice.choice(WORDS), '"', "'"])
        elif blow == 2:
            rows.insert(dice.randrange(len(rows)), list(row))
        else:
            row[dice.randrange(len(row) + 1) :] = []
    data = "\n".join(",".join(row) for row in rows).encode("utf-8", "surrogatepass")
    if dice.randrange(3) == 0:
        spoilt_bytes = bytearray(data)
        for _ in range(dice.randint(1, 5)):
            spoilt_bytes[dice.randrange(len(spoilt_bytes))] = dice.randrange(256)
        data = (
            bytes(spoilt_bytes[: dice.randrange(len(spoilt_bytes) + 1)])
            if dice.randrange(4) == 0
            else bytes(spoilt_bytes)
        )
    path = folder / "table.csv"
    path.write_bytes(data)
    found = refusal(lambda: use(path))
    if not repr(found):
        raise Fault("prints nothing")
