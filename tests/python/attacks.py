"""One harness that attacks every door of the package: documents, files, calls, command lines and pages.

An attack is made from a seed alone, so that a seed tells it anywhere. What cannot be taken must be refused in words
that name something; what is taken must print, travel and be played. A panic, an error of another kind, a hang or a
process that ends is a fault, and is told with its kind and seed.

`test_attacks.py` runs a short round of each kind; DEVELOPERS.md tells how to run an hour of them.
"""

from __future__ import annotations

import argparse
import faulthandler
import json
import os
import pathlib
import random
import sys
import tempfile
import time
import traceback
import warnings

from attacking import calls, commands, documents, files, pages
from attacking.things import Fault, Refused

#: Seconds that one attack may take on a busy machine: all but pages take a fraction of one.
HANG = 120
#: Bytes of addresses that the process may have: far more than it needs, far less than a machine has.
MOST_MEMORY = 8 << 30


#: The kinds of attacks, with how many of them a short round makes.
KINDS = {"document": 500, "file": 100, "call": 900, "command": 40, "page": 3}


def attack(kind, seed, folder):
    """Makes one attack; raises `Refused` or `Fault`."""
    dice = random.Random(f"{kind} {seed}")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        match kind:
            case "document":
                documents.document(dice)
            case "file":
                files.table_file(dice, folder)
            case "call":
                calls.call(dice)
            case "command":
                commands.command(dice, folder)
            case "page":
                pages.page(dice, folder)


def run(kinds, first, seconds, at):
    """Attacks by the kinds' counts, or for so many seconds; tells what came. `at` is a file that holds the last."""
    resource = __import__("resource") if sys.platform != "win32" else None
    if resource:
        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    counts = {kind: {"made": 0, "refused": 0, "slowest_s": 0.0, "slowest": None} for kind in kinds}
    faults, began = [], time.monotonic()
    documents.documents(), calls.calls()  # What all attacks need is made beforehand, or the first would be slow.
    with tempfile.TemporaryDirectory() as folder:
        round_of = 0
        while not round_of or time.monotonic() - began < seconds:
            for kind, many in kinds.items():
                for seed in range(first + round_of * many, first + (round_of + 1) * many):
                    if seconds and time.monotonic() - began > seconds:
                        break
                    os.pwrite(at, f"{kind} {seed}".encode().ljust(60), 0)
                    faulthandler.dump_traceback_later(HANG, exit=True)
                    start = time.monotonic()
                    try:
                        attack(kind, seed, pathlib.Path(folder))
                    except Refused:
                        counts[kind]["refused"] += 1
                    except Fault as fault:
                        faults.append(f"{kind} {seed}: {fault}")
                    except KeyboardInterrupt:
                        raise
                    except BaseException as error:  # A panic is no Exception.
                        where = traceback.format_exc().strip().splitlines()
                        faults.append(f"{kind} {seed}: {type(error).__name__}: {' | '.join(where[-7:])[-900:]}")
                    faulthandler.cancel_dump_traceback_later()
                    took = time.monotonic() - start
                    counts[kind]["made"] += 1
                    if took > counts[kind]["slowest_s"]:
                        counts[kind].update(slowest_s=round(took, 3), slowest=seed)
            round_of += 1
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024 if resource else None
    return {"counts": counts, "faults": faults, "seconds": round(time.monotonic() - began, 1), "peak_mib": peak}


def main():
    p = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    p.add_argument("--seconds", type=float, default=0, help="attack for so long; 0 for one short round")
    p.add_argument("--kind", choices=KINDS, help="one kind alone")
    p.add_argument("--seed", type=int, help="one attack alone, of a kind")
    p.add_argument("--first", type=int, default=0, help="the first seed")
    p.add_argument("--last", help="a file that holds the attack under way, for when the process ends in it")
    told = p.parse_args()
    if told.seed is not None:
        with tempfile.TemporaryDirectory() as folder:
            attack(told.kind, told.seed, pathlib.Path(folder))
        return
    kinds = {told.kind: KINDS[told.kind]} if told.kind else KINDS
    at = os.open(told.last or os.devnull, os.O_WRONLY)
    print(json.dumps(run(kinds, told.first, told.seconds, at), indent=1))


if __name__ == "__main__":
    main()
