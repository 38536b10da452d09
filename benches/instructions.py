"""Counts the instructions of a play, and of preparing a player on a hole, and compares them with those written down.

    python benches/instructions.py             # exit code 1 if one has grown by more than 5 %
    python benches/instructions.py --write     # writes down what is counted now; say in the table why it grew

The same program executes the same instructions on every run, however busy the machine is, so that a slow-down cannot
hide in the noise of a clock. Counted by callgrind; what is counted stands in `benches/count.rs`. Twice as many
plays less as many leave out what happens once. Where valgrind is not installed nothing is counted.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
TABLE = ROOT / "benches" / "instructions.md"
# Where cargo builds.
FOLDER = ROOT / os.environ.get("CARGO_TARGET_DIR", "target")
MOST_GROWTH = 1.05
# What is counted, and how many of it.
CASES = {
    "yardstick": 2000,
    "open": 2000,
    "wind": 2000,
    "slopes": 1000,
    "wind and slopes": 1000,
    "woods": 2000,
    "alder-bend": 2000,
    "alder-bend steady": 1000,
    "plover-neck": 2000,
    "prepare still": 1,
    "prepare windy": 1,
    "solve open": 1,
}


def main() -> int:
    """Counts and compares; the exit code."""
    options = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    options.add_argument("--write", action="store_true", help="write down what is counted now")
    write = options.parse_args().write
    if shutil.which("valgrind") is None:
        print("valgrind is not installed: no instructions are counted")
        return 0
    # With the binding named, too, the core is built as for it: once for both.
    build = ["cargo", "build", "--release", "--locked", "--package", "wideberth"]
    build += ["--package", "wideberth-python", "--bin", "count"]
    subprocess.run(build, check=True, cwd=ROOT)
    with ThreadPoolExecutor(2) as pool:
        counted = dict(zip(CASES, pool.map(per_unit, CASES, CASES.values()), strict=True))
    before = written()
    grown = [case for case, count in counted.items() if count > MOST_GROWTH * before.get(case, 0)]
    print(f"{'':20}{'written':>14}{'counted':>14}")
    for case, count in counted.items():
        print(f"{case:20}{before.get(case, 0):>14,}{count:>14,}{'  GREW' if case in grown else ''}")
    if write:
        write_down(counted)
    elif grown:
        print(f"more than 5 % above {TABLE.relative_to(ROOT)}: find out why, or write the new count there and why")
    return 1 if grown and not write else 0


def per_unit(case: str, count: int) -> int:
    """Instructions of one play, or of preparing or solving once."""
    return (instructions(case, 2 * count) - instructions(case, count)) // count


def instructions(case: str, count: int) -> int:
    """Instructions of a whole run."""
    program = FOLDER / "release" / "count"
    command = ["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", str(program), case, str(count)]
    ran = subprocess.run(command, check=True, capture_output=True, text=True)
    found = re.search(r"Collected : (\d+)", ran.stderr)
    if found is None:
        raise ValueError(f"valgrind did not tell how many instructions it counted: {ran.stderr}")
    return int(found[1])


def written() -> dict[str, int]:
    """The counts of the table."""
    rows = re.findall(r"^\| ([a-z -]+?) +\| ([0-9,]+) ", TABLE.read_text(), re.MULTILINE)
    return {case: int(count.replace(",", "")) for case, count in rows}


def write_down(counted: dict[str, int]) -> None:
    """Puts the counts into the table and leaves everything else."""
    text = TABLE.read_text()
    for case, count in counted.items():
        text = re.sub(rf"^(\| {case} +\| )[0-9,]+ ", rf"\g<1>{count:,} ", text, flags=re.MULTILINE)
    TABLE.write_text(text)


if __name__ == "__main__":
    sys.exit(main())
