"""Files are written whole or not at all: disks that are full, Ctrl-C, the end of the process, and paths of any kind."""

import contextlib
import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest
import wideberth as wb
from helpers import plans, sketch
from wideberth._files import write_whole
from wideberth._report import card

pytest.importorskip("jinja2")
plt = pytest.importorskip("matplotlib.pyplot")
plt.switch_backend("Agg")
save = pytest.importorskip("wideberth.plot").save

HOLE = sketch()
POSIX = pytest.mark.skipif(os.name != "posix", reason="limits, links and permissions of another kind")


@pytest.fixture(scope="module")
def result():
    return wb.compare(HOLE, wb.Player.from_handicap(16), plans(), plays=300, seed=3, blow_up=2)


def picture(path):
    figure, ax = plt.subplots()
    try:
        return save(ax, path)
    finally:
        plt.close(figure)


#: All that writes files, with an ending.
WRITERS = {
    "report": (lambda result, path: wb.report(result, path=path), ".html"),
    "pocket card": (lambda result, path: wb.pocket_card(result, path=path), ".pdf"),
    "picture": (lambda _, path: picture(path), ".png"),
    "vector picture": (lambda _, path: picture(path), ".svg"),
}


@contextlib.contextmanager
def a_disk_of(size):
    """A disk on which no file has room for more than so many bytes."""
    import resource

    old = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, old[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, old)


@POSIX
@pytest.mark.parametrize("what", WRITERS)
def test_a_full_disk_leaves_what_was_there(what, result, tmp_path):
    write, ending = WRITERS[what]
    path = tmp_path / f"old{ending}"
    path.write_text("old")
    with a_disk_of(2_000), pytest.raises(OSError, match="too large") as caught:
        write(result, path)
    assert caught.value.filename == str(path)
    assert path.read_text() == "old"
    assert [p.name for p in tmp_path.iterdir()] == [path.name], "nothing is left beside it"
    assert write(result, path) == path
    assert path.stat().st_size > 2_000


@pytest.mark.parametrize("signalled", [KeyboardInterrupt, MemoryError])
def test_a_card_that_is_broken_off_leaves_what_was_there(signalled, result, tmp_path, monkeypatch):
    path = tmp_path / "cards.pdf"
    path.write_text("old")
    draw, drawn = card._draw, []

    def broken_off(*sheet):
        draw(*sheet)
        drawn.append(sheet)
        if len(drawn) == 2:
            raise signalled

    monkeypatch.setattr(card, "_draw", broken_off)
    with pytest.raises(signalled):
        wb.pocket_card([result, result, result], path=path)
    assert path.read_text() == "old"
    assert [p.name for p in tmp_path.iterdir()] == [path.name]


#: A process that ends while it draws the second of three cards, or while it writes.
ENDED = """
import os, signal, sys
import wideberth as wb
from wideberth import _files
from wideberth._report import card

hole, player = wb.Hole.sketch(par=3, length=150), wb.Player.from_handicap(16)
result = wb.compare(hole, player, wb.suggest_plans(hole, player)[:2], plays=300, seed=1)
end, calls = {call}, []

def ended(*given):
    calls.append(given)
    if len(calls) == {count}:
        os.kill(os.getpid(), signal.{signal})
    return end(*given)

{call} = ended
wb.pocket_card([result] * 3, path=sys.argv[1])
"""


@POSIX
@pytest.mark.parametrize(("call", "count"), [("card._draw", 2), ("_files.os.fsync", 1), ("_files.os.replace", 1)])
@pytest.mark.parametrize("ending", ["SIGTERM", "SIGKILL"])
def test_the_end_of_the_process_leaves_what_was_there(call, count, ending, tmp_path):
    path = tmp_path / "cards.pdf"
    path.write_text("old")
    script = ENDED.format(call=call, count=count, signal=ending)
    ran = subprocess.run([sys.executable, "-c", script, path], capture_output=True, text=True, timeout=120)
    assert ran.returncode == -getattr(signal, ending), ran.stderr
    assert path.read_text() == "old"


@POSIX
def test_a_link_stays_a_link_and_permissions_stay(tmp_path):
    real, link = tmp_path / "real", tmp_path / "link"
    real.write_text("old")
    real.chmod(0o640)
    link.symlink_to(real)
    write_whole(link, b"new")
    assert link.is_symlink() and real.read_bytes() == b"new"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


@POSIX
def test_a_new_file_has_the_usual_permissions(tmp_path):
    old = os.umask(0o027)
    try:
        write_whole(tmp_path / "new", b"new")
    finally:
        os.umask(old)
    assert stat.S_IMODE((tmp_path / "new").stat().st_mode) == 0o640


@POSIX
def test_what_is_no_file_but_takes_bytes_is_written_to():
    write_whole(Path("/dev/null"), b"gone")
    assert stat.S_ISCHR(os.stat("/dev/null").st_mode)


@pytest.mark.parametrize("what", WRITERS)
@pytest.mark.parametrize(
    ("stem", "words"),
    [
        ("a\0b", "free of NUL"),
        ("x" * 5_000, "one that a file can have"),
        ("no/such/folder", "there is no directory"),
        ("dots.", "it must end in"),
    ],
    ids=["NUL", "overlong", "no folder", "no ending"],
)
def test_paths_that_no_file_can_have(what, stem, words, result, tmp_path):
    write, ending = WRITERS[what]
    with pytest.raises(wb.InputError, match=words):
        write(result, f"{tmp_path}/{stem}{'' if stem == 'dots.' else ending}")
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("what", WRITERS)
@pytest.mark.parametrize("path", [None, 3, b"bytes.pdf", ["page.html"]], ids=repr)
def test_what_is_no_path(what, path, result):
    with pytest.raises(TypeError, match=r"path is .*; it must be a str or a Path"):
        WRITERS[what][0](result, path)


@pytest.mark.parametrize("title", [3, b"bytes", ["a"]], ids=repr)
def test_what_is_no_title(title, result, tmp_path):
    with pytest.raises(TypeError, match=r"title is .*; it must be text"):
        wb.report(result, path=tmp_path / "page.html", title=title)
