"""The type stub is the compiled module, and the package and a user's script type-check against it."""

import subprocess
import sys

import pytest

pytest.importorskip("mypy")

SCRIPT = """
from collections.abc import Hashable

import numpy as np
import wideberth as wb

hole = wb.Hole.sketch(par=4, length=392.0, bunkers=[wb.along(230, right=18), wb.hazard(wb.along(240, left=18), 9)])
reveal_type(hole)
name: str = hole.surface_at((0, 0))
reveal_type(hole.surface_at([(0, 0), (0, 100.5)]))
many = hole.surface_at(np.zeros((3, 2)))
name = hole.surface_at(wb.along(30))
plan = wb.Plan("one", [wb.shot("driver", wb.along(200)), wb.leave(90)], then="direct")
result = wb.compare(hole, wb.Player.from_handicap(9), [plan], plays=10, progress=lambda done, goal: None)
reveal_type(result.best.distribution)
reveal_type(wb.simulate(hole, wb.Player.from_handicap(9), plan).scores)
wb.Plan("two", [], then="reckless")
hole.name = "another"
key: Hashable = hole
wb.Hole.sketch(par=4)
"""


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    """What mypy knows of NumPy and the rest: the second to ask need not read it again."""
    return tmp_path_factory.mktemp("mypy")


def mypy(folder, *arguments):
    # From a folder of its own: run inside site-packages mypy takes all packages there for the user's.
    return subprocess.run([sys.executable, "-m", *arguments], capture_output=True, text=True, timeout=300, cwd=folder)


def test_the_stub_is_the_module(tmp_path):
    # Drawing, frames and servers are no part of the module: they are read once, below.
    others = ("matplotlib", "pandas", "polars", "starlette", "uvicorn", "jinja2")
    config = tmp_path / "mypy.ini"
    config.write_text(
        "[mypy]\n[mypy-" + ",".join(f"{name}.*" for name in others) + "]\nfollow_imports = skip\n", "utf-8"
    )
    done = mypy(tmp_path, "mypy.stubtest", "wideberth._wideberth", "--mypy-config-file", str(config))
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_package_is_strictly_typed(tmp_path, cache):
    done = mypy(tmp_path, "mypy", "--strict", f"--cache-dir={cache}", "-p", "wideberth")
    assert done.returncode == 0, done.stdout + done.stderr


def test_a_script_is_checked(tmp_path, cache):
    script = tmp_path / "script.py"
    script.write_text(SCRIPT, "utf-8")
    done = mypy(tmp_path, "mypy", "--strict", f"--cache-dir={cache}", str(script))
    lines = [line.split(": ", 1)[1] for line in done.stdout.splitlines() if ": " in line]
    revealed = [line for line in lines if line.startswith("note: Revealed")]
    errors = [line for line in lines if line.startswith("error")]
    for part, line in zip(("Hole", "str_", "dict[", "ndarray"), revealed, strict=True):
        assert part in line
    for part, line in zip(('"then"', "name", "Hashable", "length"), errors, strict=True):
        assert part in line
