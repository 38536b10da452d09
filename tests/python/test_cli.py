"""The command line, run the way a person runs it."""

import os
import struct
import subprocess
import sys

import helpers
import pytest
import wideberth as wb


def run(*arguments, cwd=None):
    return subprocess.run(
        [sys.executable, "-m", "wideberth", *map(str, arguments)],
        capture_output=True,
        encoding="utf-8",
        env={**os.environ, "PYTHONUTF8": "1"},
        cwd=cwd,
        timeout=120,
    )


def test_demo(tmp_path):
    done = run("--no-picture", "--plays", 500, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "500 plays each, seed 1" in done.stdout and "±" in done.stdout
    assert "invented" in done.stdout and "not rulings or guarantees" in done.stdout
    assert max(map(len, done.stdout.split("\n\n")[3].splitlines())) <= 100
    assert not list(tmp_path.iterdir()), "no picture was asked for"


def test_the_same_twice():
    once, again = (run("--no-picture", "--plays", 300, "--seed", 5).stdout for _ in range(2))
    assert once == again and "seed 5" in once


@pytest.mark.parametrize("name", helpers.MAPS)
def test_a_map_and_a_handicap(name):
    done = run(helpers.DATA / f"{name}.geojson", "--handicap", 9, "--no-picture", "--plays", 300, "--blow-up", 4)
    assert done.returncode == 0, done.stderr
    assert wb.Hole.from_geojson(helpers.read_map(name)).name in done.stdout
    assert "handicap 9" in done.stdout and "4 over+" in done.stdout and "invented" not in done.stdout


def test_documents(tmp_path):
    (tmp_path / "hole.json").write_text(helpers.sketch().to_json(), "utf-8")
    (tmp_path / "player.json").write_text(wb.Player.from_handicap(31).to_json(), "utf-8")
    arguments = [tmp_path / "hole.json", "--player", tmp_path / "player.json", "--no-picture", "--plays", 200]
    done = run(*arguments)
    assert done.returncode == 0, done.stderr
    assert "Trial" in done.stdout and "handicap 31" in done.stdout


def test_picture(tmp_path):
    image = pytest.importorskip("matplotlib.image")
    path = tmp_path / "shots.png"
    done = run("--plays", 200, "--picture", path, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert str(path) in done.stdout
    data = path.read_bytes()
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    width, height = struct.unpack(">II", data[16:24])
    assert width > 800 and height > 800
    pixels = image.imread(path)[..., :3]
    # A picture has many colours, in both of its halves.
    for half in (pixels[:, : width // 2], pixels[:, width // 2 :]):
        colours = {tuple(c) for c in (half[::7, ::7].reshape(-1, 3) * 255).astype(int)}
        assert len(colours) > 30


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["no-such-file.geojson"], "no-such-file"),
        (["--handicap", "80"], "handicap is 80"),
        (["--plays", "0"], "plays is 0"),
        (["--plays", "-3"], "plays is -3"),
        (["--seed", "-1"], "seed is -1"),
        (["--blow-up", "0"], "blow_up is 0"),
        (["--player", "nobody.json"], "nobody.json"),
        (["--picture", "no-such-folder/x.png", "--plays", "100"], "no-such-folder"),
    ],
    ids=str,
)
def test_bad_input_is_one_line(arguments, words, tmp_path):
    if "--picture" not in arguments:
        arguments = [*arguments, "--no-picture"]
    else:
        pytest.importorskip("matplotlib")
    done = run(*arguments, cwd=tmp_path)
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1 and done.stderr.startswith("wideberth: ")
    assert words in done.stderr and "Traceback" not in done.stderr


def test_a_bad_file(tmp_path):
    bad = tmp_path / "bad.geojson"
    bad.write_text("{", "utf-8")
    done = run(bad, "--no-picture")
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)
    assert "JSON" in done.stderr
    bad.write_bytes(b"\xff\xfe\x00")
    done = run("--player", bad, "--no-picture")
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)


@pytest.mark.parametrize(
    "arguments", [["--handicap", "low"], ["--no-such-option"], ["--handicap", "3", "--player", "x"]]
)
def test_bad_usage(arguments):
    done = run(*arguments)
    assert done.returncode == 2 and "usage:" in done.stderr


def test_help():
    done = run("--help")
    assert done.returncode == 0 and not done.stderr
    for option in (
        "--handicap",
        "--player",
        "--plays",
        "--seed",
        "--blow-up",
        "--picture",
        "--no-picture",
        "--hole-ref",
    ):
        assert option in done.stdout


def test_main_can_be_called(capsys):
    from wideberth.__main__ import main

    assert main(["--no-picture", "--plays", "100", "--handicap", "20"]) == 0
    assert "handicap 20" in capsys.readouterr().out
    assert main(["--no-picture", "--handicap", "-4"]) == 2
    assert "handicap is -4" in capsys.readouterr().err
