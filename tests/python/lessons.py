"""A lesson served in a process of its own, for tests."""

import contextlib
import re
import signal
import subprocess
import sys

#: A short hole, solved coarsely: tests of the page need an answer, not the best one.
SKETCH = ("--sketch", "3", "140", "--handicap", "18", "--cell", "10")


@contextlib.contextmanager
def served(*arguments):
    """Serve a lesson; gives its address and its process, whose ``told`` is what it printed by then."""
    words = [sys.executable, "-m", "wideberth", "lesson", "--no-browser", "--port", "0", *(arguments or SKETCH)]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    try:
        found, process.told = None, ""
        for line in process.stdout:
            process.told += line
            found = re.search(r"http://127\.0\.0\.1:\d+/", line)
            if found:
                break
        assert found, process.stderr.read()
        yield found.group(), process
    finally:
        if process.poll() is None:
            process.send_signal(signal.SIGINT)
        try:
            process.communicate(timeout=30)
        except subprocess.TimeoutExpired:
            process.kill()
            raise
