"""Times the library against the same game written in NumPy and in Numba, and checks that all three agree.

    python benches/yardstick/run.py [--rounds 5] [--plays 400000]
    python benches/yardstick/run.py --small      # whether they agree and nothing else

Exit code 1 if the programs do not agree.
"""

from __future__ import annotations

import argparse
import multiprocessing
import os
import platform
import subprocess
import sys
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from importlib.metadata import version
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    import wideberth as wb

# Before NumPy is first imported: unset so that OpenBLAS picks its kernel, and one thread in each process.
for _name in ("OPENBLAS_CORETYPE", "OPENBLAS_L2_SIZE"):
    os.environ.pop(_name, None)
os.environ["OPENBLAS_NUM_THREADS"] = "1"

NUMPY_SHARE = 4  # NumPy gets this many times fewer plays: it takes longer, and its time a play is the same.
SMALL_PLAYS = 400_000  # Of each program where nothing is timed.
ERRORS = 4.0  # Programs agree within this many standard errors.
DOUBLE_BOGEY = 6
VERTEX_FACTOR = 10

HERE = Path(__file__).resolve().parent
PROGRAMS = ("wideberth", "Numba", "NumPy")
# (plays, seed, threads) -> plays by score, 0 to 60, and seconds of processor time
Program = Callable[[int, int, int], tuple["np.ndarray", float]]


def main() -> int:
    """Runs everything; the exit code."""
    options = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    options.add_argument("--rounds", type=int, default=5, help="interleaved rounds; the best of them counts")
    options.add_argument("--plays", type=int, default=400_000, help="plays a timing (NumPy: a quarter)")
    options.add_argument("--small", action="store_true", help="only look whether the programs agree, and time nothing")
    given = options.parse_args()
    if given.small:
        return 0 if print_agreement(play_each(SMALL_PLAYS)) else 1
    # First, while this process is small: a child's peak starts from that of the process it was forked from.
    memory = [(plays, peak_memory(plays)) for plays in (0, 20_000, 200_000, 2_000_000)]

    print_machine()
    with Contenders(1).warm_up() as contenders:
        programs = contenders.programs | {"(bare loop)": contenders.bare_loop}
        times, counts = race(programs, given.plays, given.rounds, (1, 2))
    print_times(times)
    print_memory(memory)
    print_vertices(given.plays, given.rounds)
    print_common_luck(given.plays)
    return 0 if print_agreement({name: counts[name] for name in PROGRAMS}) else 1


class Contenders:
    """The three programs on one map, ready to be timed."""

    def __init__(self, subdivide: int) -> None:
        """Prepares them; Numba compiles on its first call for a number of threads."""
        import game
        from numba_game import NumbaGame

        self._plan = library_plan("direct", [])
        self._hole, self._player = library_documents(game.hole_text(subdivide), game.player_text())
        self._workers = ProcessPoolExecutor(
            2, multiprocessing.get_context("spawn"), initializer=prepare_numpy, initargs=(subdivide,)
        )
        self._numba_game = NumbaGame(game.load(subdivide))
        programs: list[Program] = [self._library, self._numba, self._numpy]
        self.programs = dict(zip(PROGRAMS, programs, strict=True))

    def warm_up(self) -> Contenders:
        """Compiles and loads all there is, so that it is not timed."""
        for program in self.programs.values():
            for threads in (1, 2):
                program(20_000, 0, threads)
        return self

    def _library(self, plays: int, seed: int, threads: int) -> tuple[np.ndarray, float]:
        import numpy as np
        import wideberth as wb

        start = time.process_time()
        ran = wb.compare(self._hole, self._player, [self._plan], plays=plays, seed=seed, threads=threads)
        took = time.process_time() - start
        counts = np.zeros(61, np.int64)
        for score, share in ran.best.distribution.items():
            counts[score] = round(share * plays)
        return counts, took

    def _numba(self, plays: int, seed: int, threads: int) -> tuple[np.ndarray, float]:
        start = time.process_time()
        counts = self._numba_game.play(plays, seed, threads)
        return counts, time.process_time() - start

    def _numpy(self, plays: int, seed: int, threads: int) -> tuple[np.ndarray, float]:
        seeds = [[seed, worker] for worker in range(threads)]
        counts, took = zip(*self._workers.map(play_numpy, [plays // threads] * threads, seeds), strict=True)
        return sum(counts), sum(took)

    def bare_loop(self, plays: int, seed: int, threads: int) -> tuple[np.ndarray, float]:
        """Adds numbers in one process or two: what a second thread is worth on this machine just now."""
        import numpy as np

        took = self._workers.map(add_up, [10 * plays // threads] * threads)
        return np.zeros(61, np.int64), sum(took)

    def __enter__(self) -> Contenders:
        """Starts nothing more."""
        return self

    def __exit__(self, *_: object) -> None:
        """Ends the processes."""
        self._workers.shutdown()


def prepare_numpy(subdivide: int) -> None:
    """In a worker process: makes the game once."""
    global numpy_game
    import game
    from numpy_game import NumpyGame

    numpy_game = NumpyGame(game.load(subdivide))


def play_numpy(plays: int, seed: list[int]) -> tuple[np.ndarray, float]:
    """In a worker process: plays."""
    start = time.process_time()
    counts = numpy_game.play(plays, seed)
    return counts, time.process_time() - start


def add_up(numbers: int) -> float:
    """In a worker process: something to do that shares nothing; the seconds of processor time."""
    start = time.process_time()
    sum(range(numbers))
    return time.process_time() - start


def library_documents(hole: str, player: str) -> tuple[wb.Hole, wb.Player]:
    """The library's hole and player of the two documents."""
    import wideberth as wb

    return wb.Hole.from_json(hole), wb.Player.from_json(player)


def library_plan(name: str, instructions: list[wb.Instruction]) -> wb.Plan:
    """A plan that goes on directly."""
    import wideberth as wb

    return wb.Plan(name, instructions, then="direct")


class Times:
    """The best seconds a play of each program and number of threads: by the clock, and of processor time."""

    def __init__(self) -> None:
        """Nothing timed yet."""
        self.clock: dict[tuple[str, int], float] = {}
        self.processor: dict[tuple[str, int], float] = {}

    def add(self, key: tuple[str, int], clock: float, processor: float) -> None:
        """Keeps the better of this and the best so far."""
        self.clock[key] = min(clock, self.clock.get(key, clock))
        self.processor[key] = min(processor, self.processor.get(key, processor))


def race(
    programs: dict[str, Program], plays: int, rounds: int, threads: tuple[int, ...]
) -> tuple[Times, dict[str, np.ndarray]]:
    """Runs the programs in turn, round after round: their times, and all scores made."""
    times = Times()
    counts = dict.fromkeys(programs, 0)
    for turn in range(rounds):
        for count in threads:
            for name, program in programs.items():
                n = plays // NUMPY_SHARE if "NumPy" in name else plays
                start = time.perf_counter()
                scores, processor = program(n, 100 * turn + count, count)
                times.add((name, count), (time.perf_counter() - start) / n, processor / n)
                counts[name] = counts[name] + scores
    return times, counts


def play_each(plays: int) -> dict[str, np.ndarray]:
    """The scores that each program makes, played at the same time: two play while Numba compiles."""
    with Contenders(1) as contenders, ThreadPoolExecutor() as pool:
        played = {name: pool.submit(program, plays, 1, 1) for name, program in contenders.programs.items()}
        return {name: playing.result()[0] for name, playing in played.items()}


def peak_memory(plays: int) -> float:
    """Peak memory, MiB, of an interpreter with NumPy that makes so many plays with the library (0: bare)."""
    code = """
import sys, resource, numpy
plays = int(sys.argv[1])
if plays:
    import wideberth as wb
    hole = wb.Hole.from_json(open("hole.json").read())
    player = wb.Player.from_json(open("player.json").read())
    wb.compare(hole, player, [wb.Plan("direct", [], then="direct")], plays=plays, seed=1, threads=2)
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""
    command = [sys.executable, "-c", code, str(plays)]
    ran = subprocess.run(command, check=True, capture_output=True, text=True, cwd=HERE)
    return int(ran.stdout) / (2**20 if sys.platform == "darwin" else 2**10)


def print_machine() -> None:
    """Where and with what."""
    packages = ", ".join(f"{p} {version(p)}" for p in ("wideberth", "numba", "numpy", "shapely"))
    print(f"{platform.machine()}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f} at the start")
    print(f"Python {platform.python_version()}, {packages}\n")


def print_times(times: Times) -> None:
    """The table of times."""
    columns = {
        "1 thread": {name: times.clock[name, 1] for name in PROGRAMS},
        "2 threads": {name: times.clock[name, 2] for name in PROGRAMS},
        "processor": {name: times.processor[name, 1] for name in PROGRAMS},
    }
    print("one plan, ns a play, and in brackets as a multiple of the library's: best of the interleaved rounds")
    print(f"{'':12}" + "".join(f"{title:>18}" for title in columns) + f"{'1 -> 2 threads':>18}")
    for name in PROGRAMS:
        cells = [f"{c[name] * 1e9:,.0f} ({c[name] / c[PROGRAMS[0]]:.2f}x)" for c in columns.values()]
        gain = f"{times.clock[name, 1] / times.clock[name, 2]:.2f}x"
        print(f"{name:12}" + "".join(f"{cell:>18}" for cell in (*cells, gain)))
    loop = times.clock["(bare loop)", 1] / times.clock["(bare loop)", 2]
    print(f"{'(bare loop)':12}{f'{loop:.2f}x':>72}")
    print("Processor: processor time on 1 thread, which other work on the machine disturbs least. NumPy's")
    print("threads are processes. The bare loop shows what a second core was worth meanwhile.\n")


def print_memory(memory: list[tuple[int, float]]) -> None:
    """Peak memory over the bare interpreter."""
    (_, bare), *runs = memory
    print(f"peak memory of the library over a bare interpreter with NumPy ({bare:.1f} MiB)")
    for plays, peak in runs:
        print(f"{plays:>12,} plays {peak - bare:>6.1f} MiB")
    print()


def print_vertices(plays: int, rounds: int) -> None:
    """What a map with ten times the vertices costs."""
    with Contenders(1).warm_up() as once, Contenders(VERTEX_FACTOR).warm_up() as cut:
        maps = {"plain": once.programs, "fine": cut.programs}
        both = {f"{name} {which}": maps[which][name] for name in PROGRAMS for which in maps}
        times, _ = race(both, plays // NUMPY_SHARE, rounds, (1,))
    print(f"the same hole with {VERTEX_FACTOR} times the vertices, 1 thread: processor time a play is")
    for name in PROGRAMS:
        plain, fine = (times.processor[f"{name} {which}", 1] for which in maps)
        print(f"{name:12}{fine / plain:>8.2f}x")
    print()


def print_common_luck(plays: int) -> None:
    """How much less a paired difference varies than one of independent plays."""
    import game
    import wideberth as wb

    hole, player = library_documents(game.hole_text(), game.player_text())
    driver = library_plan("driver", [wb.shot("driver", wb.along(200))])
    rivals = [
        library_plan("driver, 8 yards farther left", [wb.shot("driver", wb.along(200, left=8))]),
        library_plan("4-hybrid", [wb.shot("4-hybrid", wb.along(180))]),
    ]
    print(f"variance of a difference to “driver”, independent plays over common luck ({plays:,} plays)")
    for k, rival in enumerate(rivals):
        paired = wb.compare(hole, player, [driver, rival], plays=plays, seed=1)
        alone = [
            wb.compare(hole, player, [plan], plays=plays, seed=2 + 2 * k + i).best
            for i, plan in enumerate((driver, rival))
        ]
        independent = sum(result.standard_error**2 for result in alone)
        factor = independent / paired.difference("driver", rival.name).standard_error ** 2
        print(f"  {rival.name:32}{factor:>6.2f}x")
    print()


def print_agreement(counts: dict[str, np.ndarray]) -> bool:
    """Compares every two programs; True if all agree."""
    import numpy as np

    score = np.arange(61.0)
    measures = {"mean score": score, "double bogey or worse": 1.0 * (score >= DOUBLE_BOGEY)}
    names, agree = list(counts), True
    pairs = [(a, b) for i, a in enumerate(names) for b in names[i + 1 :]]
    for measure, worth in measures.items():
        estimates = {name: mean_and_error(counts[name], worth) for name in names}
        print(f"{measure}: " + ", ".join(f"{n} {m:.5f} ± {e:.5f}" for n, (m, e) in estimates.items()))
        for a, b in pairs:
            error = float(np.hypot(estimates[a][1], estimates[b][1]))
            gap = estimates[a][0] - estimates[b][0]
            ok = abs(gap) <= ERRORS * error
            agree &= ok
            verdict = "agree" if ok else "DISAGREE"
            print(f"  {a} - {b}: {gap:+.5f}, {gap / error:+.1f} standard errors of {ERRORS:.0f}: {verdict}")
    # Two-sided normal tail beyond four standard errors: 6.3e-5 a comparison.
    made = len(pairs) * len(measures)
    print(f"False-alarm rate of the {made} comparisons together: at most {made * 6.3e-5:.1e}.")
    return agree


def mean_and_error(counts: np.ndarray, worth: np.ndarray) -> tuple[float, float]:
    """Mean of what scores are worth, and its standard error."""
    plays = counts.sum()
    mean = (counts * worth).sum() / plays
    return float(mean), float(((counts * (worth - mean) ** 2).sum() / (plays - 1) / plays) ** 0.5)


if __name__ == "__main__":
    sys.exit(main())
