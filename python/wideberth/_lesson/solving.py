"""Solutions in the making: each is made once, whoever waits for it, and dropped when nobody does any more."""

from __future__ import annotations

import asyncio
import threading
from concurrent.futures import ThreadPoolExecutor

import wideberth as wb
from wideberth._lesson.opened import Opened, Stale
from wideberth._lesson.view import Scene

#: Seconds for which a solution is worked on though nobody waits: a hand that moves asks again at once.
_PATIENCE = 2.0


class Job:
    """A scene that is being solved."""

    def __init__(self) -> None:
        """Begin with nobody waiting."""
        self.waiting = 0
        self.share = 0.0
        self.stop = threading.Event()
        self.work: asyncio.Future[wb.Solution]

    def report(self, done: int, goal: int) -> None:
        """Hear how far it is, and end it if it is dropped."""
        if self.stop.is_set():
            raise Stale
        self.share = done / max(goal, 1)


class Solving:
    """All scenes that are being solved, one after another."""

    def __init__(self, opened: Opened) -> None:
        """Solve what was opened."""
        self._opened = opened
        self._worker = ThreadPoolExecutor(1, thread_name_prefix="lesson-solving")
        self._jobs: dict[Scene, Job] = {}

    def job(self, scene: Scene) -> Job:
        """The making of a scene's solution, begun if need be."""
        job = self._jobs.get(scene)
        if job is None or job.stop.is_set():
            job = self._jobs[scene] = Job()
            loop = asyncio.get_running_loop()
            job.work = loop.run_in_executor(self._worker, self._opened.solve, scene, job.report)
            job.work.add_done_callback(lambda _: self._done(scene, job))
        return job

    def _done(self, scene: Scene, job: Job) -> None:
        if self._jobs.get(scene) is job:
            del self._jobs[scene]
        if not job.work.cancelled():
            # Told to those who wait; where nobody does it is no news.
            job.work.exception()

    def leave(self, job: Job) -> None:
        """Note that one does not wait any more."""
        job.waiting -= 1

        def drop() -> None:
            if job.waiting == 0:
                job.stop.set()

        asyncio.get_running_loop().call_later(_PATIENCE, drop)

    def end(self) -> None:
        """Drop everything."""
        for job in self._jobs.values():
            job.stop.set()
        self._worker.shutdown(wait=False, cancel_futures=True)
