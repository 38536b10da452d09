"""One tab: it asks, and is answered; a newer question takes the place of an older one."""

from __future__ import annotations

import asyncio
import json
import threading
import traceback
from collections.abc import Awaitable, Callable
from concurrent.futures import Executor
from functools import partial
from typing import Any, TypeVar

import wideberth as wb
from wideberth import _wideberth as core
from wideberth._given import shown
from wideberth._lesson import answers, played, rounds
from wideberth._lesson.opened import Opened, Stale
from wideberth._lesson.solving import Solving
from wideberth._lesson.view import View, view_of, whole

T = TypeVar("T")
Send = Callable[[dict[str, Any]], Awaitable[None]]
Tell = Callable[[str, Any], Awaitable[None]]

#: Plays of the quick answer and of the sharp one.
QUICK, SHARP = 2_000, 20_000
#: While the hand moves no sharp answer is begun: seconds without a newer question.
_REST = 0.12
#: Between two tellings of how far a solution is, seconds.
_TELL = 0.1
#: The longest message, bytes.
LONGEST = 8_192
_KINDS = ("ask", "play", "round")


class Tab:
    """What one tab asks, one question at a time."""

    def __init__(self, opened: Opened, solving: Solving, workers: Executor, send: Send) -> None:
        """Listen to a tab."""
        self._opened, self._solving, self._workers, self._send = opened, solving, workers, send
        #: What is being answered: a plan of a round takes minutes, so it is worked on beside all other questions.
        self._answers: dict[bool, tuple[asyncio.Task[None], threading.Event]] = {}
        self._shown: Any = None

    async def hear(self, text: str) -> None:
        """Take up a message: what was being worked out of its kind (a round's plan, anything else) is dropped.

        Of a message that cannot be used the tab is told why.
        """
        number: Any = None
        try:
            message = _message(text)
            number = message.get("id")
            kind, number = message.get("kind"), whole("id", number, 0, 2**53)
            if kind not in _KINDS:
                raise core.InputError(f"kind is {shown(kind)}; it must be one of {', '.join(_KINDS)}")
            view = view_of(message.get("view"))
        except core.InputError as error:
            await self._refuse(number if isinstance(number, int) else None, error)
            return
        beside = kind == "round"
        await self._drop(beside)
        stop = threading.Event()
        self._answers[beside] = asyncio.create_task(self._answer(kind, number, view, message, stop)), stop

    async def drop(self) -> None:
        """Let go of all that is being answered."""
        for beside in list(self._answers):
            await self._drop(beside)

    async def _drop(self, beside: bool) -> None:
        if beside in self._answers:
            task, stop = self._answers.pop(beside)
            stop.set()
            task.cancel()
            await asyncio.wait([task])

    async def _answer(self, kind: str, number: int, view: View, message: dict[str, Any], stop: threading.Event) -> None:
        async def tell(what: str, told: Any) -> None:
            await self._send({"id": number, "kind": what, what: told})

        try:
            if kind == "round":
                await self._round(view, message, stop, tell)
                return
            await self._map(view, tell)
            solution = await self._solved(view, stop, tell)
            now = await self._work(stop, lambda _: answers.situation(self._opened, view, solution))
            if kind == "play":
                balls = whole("balls", message.get("balls", 1), 1, 100)
                ball = whole("ball", message.get("ball", 1), 1, 1_000_000)
                way = message.get("then", "best")
                found = await self._work(
                    stop, lambda report: played.played(self._opened, now, balls, ball, way, report)
                )
                await tell("played", found)
                return
            await tell("shown", await self._work(stop, lambda _: answers.shown(self._opened, now)))
            for plays in (QUICK, SHARP):
                result = await self._work(stop, partial(answers.compared, self._opened, now, plays))
                await tell("figures", {**answers.figures(now, result), "sharp": plays == SHARP})
                if plays == QUICK:
                    await asyncio.sleep(_REST)
        except Stale:
            return
        except core.InputError as error:
            await self._refuse(number, error)
        except Exception:
            # A fault of ours: whoever runs the lesson can tell of it, a pupil cannot.
            traceback.print_exc()
            await self._refuse(number, RuntimeError("the lesson failed to answer; its terminal tells why"))

    async def _map(self, view: View, tell: Tell) -> None:
        """Send the hole, if it is another one than is shown."""
        if self._shown != view.scene:
            ground = await self._work(threading.Event(), lambda _: self._opened.ground(view.scene))
            await tell("map", answers.hole_map(self._opened, ground))
            self._shown = view.scene

    async def _solved(self, view: View, stop: threading.Event, tell: Tell) -> wb.Solution:
        """The hole solved; while that takes, how far it is, and where the balls of a full swing end."""
        found = self._opened.solution(view.scene)
        if found is not None:
            return found
        job = self._solving.job(view.scene)
        job.waiting += 1
        try:
            first = await self._work(stop, lambda _: answers.first_look(self._opened, view))
            if first is not None:
                await tell("shown", first)
            while not job.work.done():
                await tell("working", round(job.share, 3))
                await asyncio.wait([job.work], timeout=_TELL)
            return await asyncio.shield(job.work)
        finally:
            self._solving.leave(job)

    async def _round(self, view: View, message: dict[str, Any], stop: threading.Event, tell: Tell) -> None:
        """Find the plan of a round."""
        target = whole("target", message.get("target"), 1, 400)
        far = [0, 1]

        def report(done: int, goal: int) -> None:
            far[:] = done, goal

        work = asyncio.ensure_future(
            self._work(stop, lambda check: rounds.planned(self._opened, view, target, _both(check, report)))
        )
        while not work.done():
            await tell("planning", far)
            await asyncio.wait([work], timeout=5 * _TELL)
        await tell("round", await work)

    async def _work(self, stop: threading.Event, work: Callable[[answers.Progress], T]) -> T:
        """Work in a thread of its own, until it is done or dropped."""

        def check(done: int, goal: int) -> None:
            if stop.is_set():
                raise Stale

        def run() -> T:
            check(0, 1)
            return work(check)

        return await asyncio.get_running_loop().run_in_executor(self._workers, run)

    async def _refuse(self, number: int | None, error: Exception) -> None:
        await self._send({"id": number, "kind": "refused", "refused": "; ".join(str(error).splitlines())[:500]})


def _both(first: answers.Progress, second: answers.Progress) -> answers.Progress:
    def report(done: int, goal: int) -> None:
        first(done, goal)
        second(done, goal)

    return report


def _message(text: str) -> dict[str, Any]:
    """The object of a message.

    Raises:
        InputError: something else.

    """
    try:
        message = json.loads(text)
    except (ValueError, RecursionError):
        raise core.InputError("the message is not JSON; it must be an object") from None
    if not isinstance(message, dict):
        raise core.InputError(f"the message is {shown(message)}; it must be an object")
    return message
