"""Bounds on connections, before there is a request: time for its head, and how many.

uvicorn ends a connection that is idle after an answer (5 s), and can refuse requests
beyond a number; a connection that never sends a whole head it keeps for ever, and a
thousand of them leave no room for others (``test_connections.py``). Bodies have their
own bounds (``limits.py``).
"""

import asyncio
import ipaddress
import sys
from typing import Any, Final

from uvicorn.protocols.http.h11_impl import H11Protocol

from api.pairing import network_of

HEAD_S: Final = 10.0
"""For the whole head of a request, from when its connection is there or from its first
byte; a phone on a bad network sends its kilobyte in less."""
MOST_OPEN: Final = 1000
MOST_OF_ADDRESS: Final = 100
"""A browser opens 6 to a server (common practice, no source): 16 phones behind one
address of a network. A proxy has one address for all, see ``_is_proxy``."""
OWN_FILES: Final = 300
"""Kept from connections for the book, photos, workers and the page's files."""
_TOO_SLOW: Final = b"HTTP/1.1 408 Request Timeout\r\nConnection: close\r\n\r\n"
_FULL: Final = (
    b"HTTP/1.1 503 Service Unavailable\r\nRetry-After: 2\r\n"
    b"Content-Length: 0\r\nConnection: close\r\n\r\n"
)


class BoundedProtocol(H11Protocol):
    """A connection that ends when no request comes, or when there are too many.

    Where one too many comes, the one that has waited longest for a request goes; where
    all others have a request under way, the new one.
    """

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.network = ""
        self.since_s = 0.0
        self._has_sent = False
        self._head_timer: asyncio.TimerHandle | None = None

    @property
    def is_waiting(self) -> bool:
        """Whether no request is under way."""
        cycle: Any = self.cycle  # None before the first request, whatever its type says
        return cycle is None or bool(cycle.response_complete)

    def connection_made(  # type: ignore[override] # as in uvicorn
        self, transport: asyncio.Transport
    ) -> None:
        """Count the connection, and wait for a request."""
        super().connection_made(transport)
        self.network = network_of(self.client[0]) if self.client else ""
        self.since_s = self.loop.time()
        self._wait_for_head()
        self._make_room()

    def data_received(self, data: bytes) -> None:
        """Stop waiting once a head is whole."""
        super().data_received(data)
        self._has_sent = True
        if not self.is_waiting:
            self._stop_waiting()
        elif self._head_timer is None:
            self._wait_for_head()

    def connection_lost(self, exc: Exception | None) -> None:
        """Wait no longer."""
        self._stop_waiting()
        super().connection_lost(exc)

    def give_way(self) -> None:
        """Close, for another connection."""
        self.transport.close()

    def _wait_for_head(self) -> None:
        self._head_timer = self.loop.call_later(HEAD_S, self._too_slow)

    def _stop_waiting(self) -> None:
        if self._head_timer is not None:
            self._head_timer.cancel()
            self._head_timer = None

    def _too_slow(self) -> None:
        self._head_timer = None
        if self.is_waiting and not self.transport.is_closing():
            if self._has_sent:
                self.transport.write(_TOO_SLOW)
            self.transport.close()

    def _make_room(self) -> None:
        crowd = [
            one
            for one in self.connections
            if isinstance(one, BoundedProtocol) and not one.transport.is_closing()
        ]
        if len(crowd) <= most_open():
            if self._is_proxy():
                return
            crowd = [one for one in crowd if one.network == self.network]
            if len(crowd) <= MOST_OF_ADDRESS:
                return
        others = [one for one in crowd if one.is_waiting and one is not self]
        if others:
            min(others, key=lambda one: one.since_s).give_way()
        else:
            self.transport.write(_FULL)
            self.transport.close()

    def _is_proxy(self) -> bool:
        """Return whether the address speaks for others (``FORWARDED_ALLOW_IPS``)."""
        named = self.config.forwarded_allow_ips
        told = named if isinstance(named, str) else ",".join(named)
        names = [name.strip() for name in told.split(",") if name.strip()]
        return any(name == "*" or _is_in(self.network, name) for name in names)


def _is_in(address: str, name: str) -> bool:
    try:
        return ipaddress.ip_address(address) in ipaddress.ip_network(name, strict=False)
    except ValueError:
        return address == name


def most_open() -> int:
    """Return how many connections this process can have beside its own files."""
    if sys.platform == "win32":
        return MOST_OPEN
    import resource  # noqa: PLC0415 - not on Windows

    soft, _ = resource.getrlimit(resource.RLIMIT_NOFILE)
    if soft == resource.RLIM_INFINITY:
        return MOST_OPEN
    return max(10, min(MOST_OPEN, soft - OWN_FILES))


def allow_connections() -> None:
    """Let this process open as many files as it has connections, where it may."""
    if sys.platform == "win32":
        return
    import resource  # noqa: PLC0415 - not on Windows

    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = MOST_OPEN + OWN_FILES
    if hard != resource.RLIM_INFINITY:
        wanted = min(wanted, hard)
    if soft != resource.RLIM_INFINITY and soft < wanted:
        resource.setrlimit(resource.RLIMIT_NOFILE, (wanted, hard))
