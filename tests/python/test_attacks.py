"""A short round of attacks on every door, from fixed seeds; `WIDEBERTH_ATTACK=3600` attacks for an hour instead.

`attacks.py` says what is attacked and what counts as a fault. A fault is told with its kind and seed: `python
tests/python/attacks.py --kind call --seed 7` makes that attack alone.
"""

import json
import os
import pathlib
import subprocess
import sys

import attacks
import pytest
import wideberth as wb
from attacking.pages import elements
from attacking.things import Fault, Refused, refusal

pytest.importorskip("matplotlib")
pytest.importorskip("jinja2")

#: Seconds to attack; 0 for a short round.
SECONDS = float(os.environ.get("WIDEBERTH_ATTACK", 0))
#: MiB that the process may come to have: it holds what is attacked, and nothing that was made of it.
MOST_MIB = 1_500


@pytest.mark.skipif(sys.platform == "win32", reason="memory is bounded and counted otherwise there")
@pytest.mark.parametrize("kind", attacks.KINDS)
def test_attacks(kind, tmp_path):
    last = tmp_path / "last"
    last.touch()
    harness = pathlib.Path(attacks.__file__)
    line = [sys.executable, harness, "--kind", kind, "--last", last, "--seconds", str(SECONDS / len(attacks.KINDS))]
    ran = subprocess.run([*map(str, line)], capture_output=True, text=True, timeout=SECONDS + 1_200, cwd=tmp_path)
    assert ran.returncode == 0, f"ended in {last.read_text()}: {ran.stderr[-2_000:]}"
    told = json.loads(ran.stdout)
    print(json.dumps(told))  # Shown by -s, as after an hour.
    assert not told["faults"], "\n".join(told["faults"])
    assert told["peak_mib"] < MOST_MIB
    made = told["counts"][kind]
    if kind != "page":
        # Most of what is spoilt is refused, and some is not: both doors were tried.
        assert 0 < made["refused"] < made["made"]


def test_a_fault_is_one():
    """What must be noticed is: words of Python's own, none at all, and what acts on a terminal."""
    for error in (
        TypeError("'int' object is not an instance of 'Hole'"),
        wb.InputError(" "),
        wb.InputError("a\x1b[31m"),
    ):

        def refuses(error=error):
            raise error

        with pytest.raises(Fault):
            refusal(refuses)
    with pytest.raises(Refused):
        refusal(lambda: wb.along("x"))
    plain, marked = (elements(f"<p title='{name}'>{name}</p>") for name in ("a", "' onclick='b"))
    assert plain.elements != marked.elements
