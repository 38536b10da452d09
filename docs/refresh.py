"""Run every Python block of the pages and write what it prints below it: ``python docs/refresh.py [PAGE ...]``.

A block marked ``text`` right below a Python block is what that block prints. Pictures that a page writes go to
``docs/assets/``. Needs the extra ``plot``. To be run after a change that shifts numbers; ``tests/python/test_site.py``
runs the same blocks and compares.
"""

import contextlib
import io
import re
import shutil
import sys
import tempfile
from dataclasses import dataclass
from itertools import zip_longest
from pathlib import Path

import matplotlib as mpl

mpl.use("Agg")

import matplotlib.pyplot as plt

DOCS = Path(__file__).parent
ASSETS = DOCS / "assets"
#: Written by programs of their own.
GENERATED = ("calibration.md", "figures.md")
FENCE = re.compile(r"^```(\w*)[^\n]*\n(.*?)^```$", re.M | re.S)
NUMBER = re.compile(r"\d+(?:,\d{3})*(?:\.\d+)?")


@dataclass
class Block:
    """A Python block of a page, and where what it prints is shown, if it is."""

    code: str
    line: int
    shown: str | None
    start: int
    end: int


def pages() -> list[Path]:
    """Every page written by hand."""
    return sorted(path for path in DOCS.rglob("*.md") if path.name not in GENERATED)


def blocks(text: str) -> list[Block]:
    """The Python blocks of a page, in order."""
    found = list(FENCE.finditer(text))
    result = []
    for fence, after in zip_longest(found, found[1:]):
        if fence[1] != "python":
            continue
        below = after is not None and after[1] == "text" and not text[fence.end() : after.start()].strip()
        line = text.count("\n", 0, fence.start()) + 2
        shown, start, end = (after[2], after.start(2), after.end(2)) if below else (None, 0, 0)
        result.append(Block(fence[2], line, shown, start, end))
    return result


def printed(path: Path, found: list[Block], folder: Path) -> list[str]:
    """What each block prints when they run one after the other in a folder."""
    names = {"__name__": "page"}
    result = []
    with contextlib.chdir(folder):
        for block in found:
            out = io.StringIO()
            code = compile("\n" * (block.line - 1) + block.code, str(path), "exec")
            with contextlib.redirect_stdout(out):
                exec(code, names)
            result.append("".join(f"{line.rstrip()}\n" for line in out.getvalue().splitlines()))
    plt.close("all")
    return result


def same(shown: str, now: str) -> bool:
    """True when two outputs agree but for two units in the last digit of a number: another processor may round."""
    if NUMBER.sub("#", " ".join(shown.split())) != NUMBER.sub("#", " ".join(now.split())):
        return False
    return all(close(a, b) for a, b in zip(NUMBER.findall(shown), NUMBER.findall(now), strict=True))


def close(shown: str, now: str) -> bool:
    """True when two numbers as printed have as many decimals and agree but for two units in the last."""
    digits = [len(number.partition(".")[2]) for number in (shown, now)]
    a, b = (round(float(number.replace(",", "")) * 10 ** digits[0]) for number in (shown, now))
    return digits[0] == digits[1] and abs(a - b) <= 2


def refresh(path: Path) -> bool:
    """Write what the blocks of a page print, and the pictures they make; True when the page has changed."""
    text = path.read_text("utf-8")
    found = blocks(text)
    with tempfile.TemporaryDirectory() as folder:
        outputs = printed(path, found, Path(folder))
        for picture in sorted(Path(folder).glob("*.png")):
            shutil.copy(picture, ASSETS / picture.name)
    new = text
    for block, output in reversed(list(zip(found, outputs, strict=True))):
        if block.shown is not None:
            new = new[: block.start] + output + new[block.end :]
    path.write_text(new, "utf-8")
    return new != text


if __name__ == "__main__":
    for page in [Path(name).resolve() for name in sys.argv[1:]] or pages():
        print(f"{page.relative_to(DOCS)}: {'changed' if refresh(page) else 'as it was'}")
