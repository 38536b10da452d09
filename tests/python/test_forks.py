"""Forks under load: a child never waits for what another thread of its parent was in the middle of.

Threads work out what is worked out once (the chances of a solution) and start pools of threads while the process forks,
over and over. A child that hangs is one that waits for a thread that is not there.
`WIDEBERTH_LONG=1` forks thousands of times instead of dozens of times.
"""

import os
import subprocess
import sys

import pytest

FORKS = 5_000 if os.environ.get("WIDEBERTH_LONG") else 45
#: Forks while one thing is worked out for the first time; their children work side by side.
BURST = 9
#: Seconds that a child may take on a busy machine. It takes hundredths.
WAIT = 60

SCRIPT = """
import os, signal, sys, threading, time, warnings
import wideberth as wb

warnings.simplefilter("ignore", DeprecationWarning)
hole, player = wb.Hole.sketch(par=3, length=60), wb.Player.from_handicap(16)
shared, at_it, over = [], threading.Event(), threading.Event()

def first_chances():
    while not over.is_set():
        fresh = wb.evaluate(hole, player, cell=10)
        shared[:] = [fresh]
        at_it.set()
        fresh.chance(hole.tee, at_most=4)

def pools():
    while not over.is_set():
        for threads in range(1, 6):
            wb.compare(hole, player, [wb.Plan("pin", [wb.at_pin()])], plays=20, threads=threads)
            time.sleep(0.01)

for work in (first_chances, pools):
    threading.Thread(target=work, daemon=True).start()

def wait(children):
    for number, made in children:
        _, status = os.waitpid(made, 0)
        if status:
            sys.exit(f"child {{number}} ended with {{status}}")
    children.clear()

children = []
for number in range({forks}):
    # In the middle of the work, or shortly before or after it: the chances take some 80 ms.
    if number % {burst} == 0:
        wait(children)
        at_it.clear()
        at_it.wait()
    time.sleep(0.002 * (number % {burst}))
    made = os.fork()
    if made == 0:
        code = 1
        try:
            signal.alarm({wait})  # Ends a child that hangs: it is then told as killed.
            shared[0].chance(hole.tee, at_most=4)
            if number % 4 == 0:
                wb.plays_like(hole, player)
            code = 0
        finally:
            os._exit(code)
    children.append((number, made))
wait(children)
over.set()
print("all", number + 1)
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork there")
def test_forks_while_other_threads_work():
    script = SCRIPT.format(forks=FORKS, burst=BURST, wait=WAIT)
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, timeout=7_200)
    assert ran.returncode == 0, ran.stderr
    assert ran.stdout == f"all {FORKS}\n"


#: A callback that forks in the middle of a run: both go on and come to the same.
CALLBACK = """
import os, sys, warnings
import wideberth as wb

warnings.simplefilter("ignore", DeprecationWarning)
hole, player = wb.Hole.sketch(par=3, length=140), wb.Player.from_handicap(16)
plan = wb.Plan("pin", [wb.at_pin()])
children = []

def fork_once(done, goal):
    if not children:
        children.append(os.fork())

result = wb.compare(hole, player, [plan], plays=3_000, seed=4, progress=fork_once)
found = sorted(result["pin"].distribution.items())
if children == [0]:
    again = wb.compare(hole, player, [plan], plays=3_000, seed=4)
    os._exit(found != sorted(again["pin"].distribution.items()))
sys.exit(os.waitpid(children[0], 0)[1] != 0 or sum(share for _, share in found) < 0.99)
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork there")
def test_a_callback_that_forks():
    ran = subprocess.run([sys.executable, "-c", CALLBACK], capture_output=True, text=True, timeout=WAIT)
    assert ran.returncode == 0, ran.stderr


#: Threads that are there after work on pools of many sizes; those that are told to end take a moment.
ENDED = """
import os, time
import wideberth as wb

hole, player = wb.Hole.sketch(par=3, length=140), wb.Player.from_handicap(16)
for threads in (1024, *range(1, 60)):
    wb.compare(hole, player, [wb.Plan("pin", [wb.at_pin()])], plays=20, threads=threads)
until = time.monotonic() + 30
while (there := len(os.listdir("/proc/self/task"))) > 160 and time.monotonic() < until:
    time.sleep(0.05)
print(there)
"""


@pytest.mark.skipif(not os.path.isdir("/proc/self/task"), reason="threads are not listed there")
def test_threads_end_with_their_work():
    ran = subprocess.run([sys.executable, "-c", ENDED], capture_output=True, text=True, timeout=120)
    assert ran.returncode == 0, ran.stderr
    # Two pools are kept, of 58 and 59 threads; the array library may have a few of its own. Had none ended, there
    # would be 2,794.
    assert 117 <= int(ran.stdout) <= 160
