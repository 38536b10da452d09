"""Who may have the page: hosts, origins, the code of a phone on the same network, and how much anybody may ask."""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable, Iterable
from ipaddress import ip_address

#: Letters and digits that nobody takes for others, and how many a code has.
_SIGNS, _LENGTH = "23456789ABCDEFGHJKMNPQRSTUVWXYZ", 8
#: Wrong tries until there is another code.
_TRIES = 5
#: Most devices that are let in by codes.
_MOST_LET_IN = 20
COOKIE = "wideberth_lesson"


class Doors:
    """Names under which the page may be asked for, and devices that were let in."""

    def __init__(self, port: int, address: str | None, tell: Callable[[str], None]) -> None:
        """Open the door of this machine, and with an address that of its network; ``tell`` hears every new code."""
        names = ["localhost", "127.0.0.1"]
        if address is not None:
            names.append(in_url(address))
        #: The hosts that may stand in a request.
        self.hosts = {f"{name}:{port}" for name in names}
        if port == 80:  # Which is not told.
            self.hosts.update(names)
        self._open = address is not None
        self._tell = tell
        self._let_in: set[str] = set()
        self._tries = 0
        self._code = ""
        if self._open:
            self._new_code()

    def knows(self, host: str) -> bool:
        """True of a host that this page is served under: a foreign name may lead here, too, and must not."""
        return host.lower() in self.hosts

    @staticmethod
    def own(host: str, origin: str) -> bool:
        """True where a request was made by the page itself."""
        return origin.lower() == f"http://{host.lower()}"

    def lets_in(self, client: str, cookie: str | None) -> bool:
        """True of this machine, and of a device that gave a code."""
        try:
            if ip_address(client).is_loopback:
                return True
        except ValueError:
            return False
        return self._open and cookie is not None and cookie in self._let_in

    def enter(self, code: str) -> str | None:
        """What a device that gives the code is known by from then on; None for a wrong one. A code is good once."""
        given = "".join(sign for sign in code.upper() if sign.isalnum())[:_LENGTH].encode()
        if not self._open or len(self._let_in) >= _MOST_LET_IN:
            return None
        if not secrets.compare_digest(given, self._code.encode()):
            self._tries += 1
            if self._tries >= _TRIES:
                self._new_code()
            return None
        known = secrets.token_urlsafe(32)
        self._let_in.add(known)
        self._new_code()
        return known

    def _new_code(self) -> None:
        self._code = "".join(secrets.choice(_SIGNS) for _ in range(_LENGTH))
        self._tries = 0
        self._tell(f"{self._code[: _LENGTH // 2]}-{self._code[_LENGTH // 2 :]}")


class Pace:
    """So many a second, and so many at once."""

    def __init__(self, second: float, burst: float, clock: Callable[[], float] = time.monotonic) -> None:
        """Begin with all that is allowed at once."""
        self._second, self._burst, self._clock = second, burst, clock
        self._left, self._last = burst, clock()

    def allows(self) -> bool:
        """True where one more is not too many."""
        now = self._clock()
        self._left = min(self._burst, self._left + (now - self._last) * self._second)
        self._last = now
        if self._left < 1:
            return False
        self._left -= 1
        return True


def in_url(address: str) -> str:
    """An address as it stands in that of a page."""
    return f"[{address}]" if ":" in address else address


def headers(names: Iterable[tuple[str, str]] = ()) -> dict[str, str]:
    """What every answer says of itself: nothing from elsewhere, nothing kept, no frame around it."""
    return {
        "Content-Security-Policy": (
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
            "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
        ),
        "Cache-Control": "no-store",
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Referrer-Policy": "no-referrer",
        "X-Content-Type-Options": "nosniff",
        **dict(names),
    }
