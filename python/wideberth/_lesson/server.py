"""The page served to a browser: routes, and what they refuse."""

from __future__ import annotations

import asyncio
import contextlib
import json
import socket
from collections.abc import AsyncIterator, Callable
from concurrent.futures import ThreadPoolExecutor
from importlib.resources import files
from typing import Any

import uvicorn
from starlette.applications import Starlette
from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route, WebSocketRoute
from starlette.types import ASGIApp, Receive, Scope, Send
from starlette.websockets import WebSocket, WebSocketDisconnect

from wideberth import _wideberth as core
from wideberth._lesson import look, saved
from wideberth._lesson.guards import COOKIE, Doors, Pace, headers, in_url
from wideberth._lesson.opened import Opened
from wideberth._lesson.solving import Solving
from wideberth._lesson.tab import LONGEST, Tab
from wideberth._lesson.view import FIRMNESS, SKILLS, view_of
from wideberth._report.words import CAUTIONS, NOT_MODELLED

#: The port without another one.
PORT = 8718
#: Most tabs at a time, most connections, and most threads that wait for the core.
_TABS, _CONNECTIONS, _WORKERS = 16, 64, 6
#: Questions a second of a tab, how many at once, and how many too many until it is turned out.
_PACE, _AT_ONCE, _PATIENCE = 60.0, 120.0, 300
#: What anybody may have: the page that asks for the code.
_OPEN = ("/enter", "/lesson.css", "/look.css", "/mark.svg")
#: Kinds of files of the page.
_KINDS = {".html": "text/html", ".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}


def page_files() -> dict[str, tuple[bytes, str]]:
    """The files of the page by name with their kinds: what is served is these, so no path leads anywhere else."""
    folder = files("wideberth._lesson") / "static"
    found = {}
    for file in folder.iterdir():
        ending = "." + file.name.rpartition(".")[2]
        if ending in _KINDS:
            found[file.name] = (file.read_bytes(), f"{_KINDS[ending]}; charset=utf-8")
    found["look.css"] = (look.css().encode(), "text/css; charset=utf-8")
    return found


class Guarded:
    """Turns away whoever asks under a foreign name, or from another device without having given the code."""

    def __init__(self, app: ASGIApp, doors: Doors) -> None:
        """Stand before an application."""
        self._app, self._doors = app, doors

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let through or turn away."""
        if scope["type"] not in ("http", "websocket"):
            await self._app(scope, receive, send)
            return
        given = Headers(scope=scope)
        host, origin = given.get("host", ""), given.get("origin")
        reason = None
        if not self._doors.knows(host):
            reason = "this lesson is not served under that name"
        elif origin is not None and not Doors.own(host, origin):
            reason = "another site may not ask this lesson"
        elif origin is None and (scope["type"] == "websocket" or scope["method"] == "POST"):
            reason = "only the page of the lesson may ask"
        if reason is not None:
            await self._turn_away(scope, receive, send, reason)
            return
        client = (scope.get("client") or ("", 0))[0]
        cookie = _cookie(given.get("cookie", ""))
        if not self._doors.lets_in(client, cookie) and scope["path"] not in _OPEN:
            if scope["type"] == "http" and scope["path"] == "/":
                await RedirectResponse("/enter", 303, headers())(scope, receive, send)
            else:
                await self._turn_away(scope, receive, send, "give the code first, at /enter")
            return
        await self._app(scope, receive, send)

    @staticmethod
    async def _turn_away(scope: Scope, receive: Receive, send: Send, reason: str) -> None:
        if scope["type"] == "websocket":
            # Closed before it is accepted: the browser is answered with 403.
            await WebSocket(scope, receive, send).close(1008, reason)
        else:
            await PlainTextResponse(f"{reason}\n", 403, headers())(scope, receive, send)


def _cookie(given: str) -> str | None:
    for part in given.split(";"):
        name, _, value = part.strip().partition("=")
        if name == COOKIE:
            return value
    return None


def application(opened: Opened, doors: Doors) -> Guarded:
    """The lesson as an ASGI application."""
    served = page_files()
    solving = Solving(opened)
    workers = ThreadPoolExecutor(_WORKERS, thread_name_prefix="lesson")
    tabs: set[Tab] = set()
    saving = asyncio.Lock()
    entering = asyncio.Lock()

    @contextlib.asynccontextmanager
    async def lifespan(_: Starlette) -> AsyncIterator[None]:
        yield
        for tab in list(tabs):
            await tab.drop()
        solving.end()
        workers.shutdown(wait=False, cancel_futures=True)

    async def file(request: Request) -> Response:
        content, kind = served[request.path_params.get("name") or "lesson.html"]
        return Response(content, headers=headers([("Content-Type", kind)]))

    async def about(_: Request) -> Response:
        return JSONResponse(_about(opened), headers=headers())

    async def enter(request: Request) -> Response:
        if request.method == "GET":
            content, kind = served["enter.html"]
            return Response(content, headers=headers([("Content-Type", kind)]))
        body = (await _body(request)).decode("utf-8", "replace")
        known = doors.enter(body.partition("code=")[2])
        if known is None:
            # Whoever guesses has time; one at a time.
            async with entering:
                await asyncio.sleep(1)
            return RedirectResponse("/enter#again", 303, headers())
        answer = RedirectResponse("/", 303, headers())
        answer.set_cookie(COOKIE, known, httponly=True, samesite="strict")
        return answer

    async def save(request: Request) -> Response:
        what = request.path_params["what"]
        if what not in saved.KINDS:
            return PlainTextResponse(
                f"{what!r} cannot be saved; it must be one of {', '.join(saved.KINDS)}\n", 404, headers()
            )
        try:
            given = json.loads(await _body(request))
        except (ValueError, RecursionError):
            return PlainTextResponse("the body is not JSON, or too long\n", 400, headers())
        try:
            async with saving:
                view = view_of(given)
                job = solving.job(view.scene)
                job.waiting += 1
                try:
                    solution = await asyncio.shield(job.work)
                finally:
                    solving.leave(job)
                content, kind, name = await asyncio.get_running_loop().run_in_executor(
                    workers, saved.saved, opened, view, solution, what
                )
        except (core.InputError, ImportError) as error:
            return PlainTextResponse(f"{'; '.join(str(error).splitlines())}\n", 422, headers())
        disposition = ("Content-Disposition", f'attachment; filename="{name}"')
        return Response(content, headers=headers([("Content-Type", kind), disposition]))

    async def lesson(socket: WebSocket) -> None:
        if len(tabs) >= _TABS:
            await socket.close(1013, "too many tabs are open")
            return
        await socket.accept()
        sending = asyncio.Lock()

        async def send(message: dict[str, Any]) -> None:
            async with sending:
                with contextlib.suppress(WebSocketDisconnect, RuntimeError):  # The tab is gone.
                    await socket.send_text(json.dumps(message, separators=(",", ":"), allow_nan=False))

        tab, pace, too_many = Tab(opened, solving, workers, send), Pace(_PACE, _AT_ONCE), 0
        tabs.add(tab)
        try:
            while True:
                message = await socket.receive()
                if message["type"] == "websocket.disconnect":
                    break
                while not pace.allows():
                    # Not read on meanwhile, so whoever asks too fast is slowed down; whoever goes on is turned out.
                    too_many += 1
                    await asyncio.sleep(1 / _PACE)
                if too_many > _PATIENCE:
                    await socket.close(1008, "too many questions")
                    break
                await tab.hear(message.get("text") or "")
        finally:
            tabs.discard(tab)
            await tab.drop()

    routes = [
        Route("/", file),
        Route("/about.json", about),
        Route("/enter", enter, methods=["GET", "POST"]),
        Route("/save/{what}", save, methods=["POST"]),
        WebSocketRoute("/lesson", lesson),
        *(Route(f"/{name}", _fixed(file, name)) for name in served),
    ]
    errors: Any = {
        404: lambda *_: PlainTextResponse("there is no such page\n", 404, headers()),
        405: lambda *_: PlainTextResponse("that cannot be done here\n", 405, headers()),
        500: lambda *_: PlainTextResponse("the lesson failed to answer; its terminal tells why\n", 500, headers()),
    }
    return Guarded(Starlette(routes=routes, exception_handlers=errors, lifespan=lifespan), doors)


def _fixed(file: Callable[[Request], Any], name: str) -> Callable[[Request], Any]:
    async def one(request: Request) -> Response:
        request.path_params["name"] = name
        answer: Response = await file(request)
        return answer

    return one


async def _body(request: Request) -> bytes:
    """The body of a request, cut where it is longer than any question."""
    body = b""
    async for part in request.stream():
        body += part
        if len(body) > LONGEST:
            return b""
    return body


def _about(opened: Opened) -> dict[str, Any]:
    """What a tab needs to know before it asks."""
    return {
        "course": None if opened.course is None else opened.course.name,
        "par": None if opened.course is None else opened.course.par,
        "attribution": None if opened.course is None else opened.course.attribution,
        "holes": [
            {"name": hole.name, "number": hole.number or place, "par": hole.par}
            for place, hole in enumerate(opened.holes, start=1)
        ],
        "player": opened.player.name,
        "handicap": opened.player.handicap,
        "firmness": FIRMNESS,
        "skills": SKILLS,
        "cautions": CAUTIONS,
        "not_modelled": NOT_MODELLED,
    }


def serve(
    opened: Opened,
    *,
    port: int = PORT,
    address: str | None = None,
    told: Callable[[str, str], None],
    ready: Callable[[str], None],
) -> None:
    """Serve a lesson until Ctrl-C.

    Args:
        opened: what was opened.
        port: the port.
        address: this machine's address on a network whose other devices may ask as well, with a code; None for none.
        told: hears the address for other devices with every new code.
        ready: hears the address of the page once it is served.

    Raises:
        InputError: a port that cannot be had.
        KeyboardInterrupt: Ctrl-C.

    """
    with contextlib.ExitStack() as doors:
        sockets = [doors.enter_context(_listening("127.0.0.1", port))]
        port = sockets[0].getsockname()[1]
        if address is not None:
            sockets.append(doors.enter_context(_listening(address, port)))

        def tell(code: str) -> None:
            told(f"http://{in_url(address or '')}:{port}/", code)

        _Server(
            uvicorn.Config(
                application(opened, Doors(port, address, tell)),
                access_log=False,
                limit_concurrency=_CONNECTIONS,
                log_level="warning",
                server_header=False,
                timeout_graceful_shutdown=2,
                ws_max_size=LONGEST,
                ws_per_message_deflate=False,
            ),
            lambda: ready(f"http://127.0.0.1:{port}/"),
        ).run(sockets=sockets)


def _listening(host: str, port: int) -> socket.socket:
    """A socket that listens at an address of this machine.

    Raises:
        InputError: it cannot be had.

    """
    listening = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET)
    try:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind((host, port))
    except OSError as error:
        listening.close()
        raise core.InputError(
            f"port is {port} at {host}; it must be a free one of this machine ({error.strerror}): try --port"
        ) from error
    return listening


class _Server(uvicorn.Server):
    """A server that says when it is ready."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        self._ready()


def address_here() -> str | None:
    """This machine's address on its network, as the way to another one would begin; nothing is sent to find out."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as way, contextlib.suppress(OSError):
        way.connect(("192.0.2.1", 9))
        found: str = way.getsockname()[0]
        return found
    return None
