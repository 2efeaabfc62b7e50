"""Connections that send no request, byte by byte, to a real server."""

import contextlib
import resource
import socket
from collections.abc import Iterator

import httpx2
import pytest

from api.connections import HEAD_S, MOST_OF_ADDRESS
from tests.api.running import Server, running

HALF = b"GET /v1/units HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: "
ATTACKER = "127.0.0.2"
"""Another address of this machine (RFC 1122, 3.2.1.3), which is no proxy's."""


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    with running(tmp_path_factory.mktemp("connections") / "data", workers=1) as started:
        yield started


@contextlib.contextmanager
def half_open(server: Server, count: int, source: str) -> Iterator[list[socket.socket]]:
    """Give connections that have each sent half a head."""
    port = int(server.url.rpartition(":")[2])
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    resource.setrlimit(resource.RLIMIT_NOFILE, (min(hard, 4096), hard))
    with contextlib.ExitStack() as stack:
        opened = []
        for _ in range(count):
            one = socket.create_connection(
                ("127.0.0.1", port), timeout=60, source_address=(source, 0)
            )
            opened.append(stack.enter_context(contextlib.closing(one)))
            with contextlib.suppress(OSError):  # it was closed for another one
                one.sendall(HALF)
        yield opened
    resource.setrlimit(resource.RLIMIT_NOFILE, (soft, hard))


def is_open(one: socket.socket) -> bool:
    """Return whether the server has neither answered nor closed."""
    one.settimeout(0.0)
    try:
        one.recv(1)
    except BlockingIOError:
        return True
    except OSError:
        return False
    return False


@pytest.mark.parametrize("source", [ATTACKER, "127.0.0.1"])
def test_half_open_requests_do_not_deafen_it(server: Server, source: str) -> None:
    """1,100 from one address, and from that of a proxy, which has none of its own."""
    with half_open(server, 1100, source) as opened:
        for _ in range(3):
            answer = httpx2.get(f"{server.url}/health", timeout=30)
            assert answer.status_code == 200
        still = sum(map(is_open, opened))
        assert still <= (MOST_OF_ADDRESS if source == ATTACKER else 1000)
    assert httpx2.get(f"{server.url}/v1/units", timeout=30).status_code == 200


def test_a_head_that_never_ends_is_ended(server: Server) -> None:
    """A connection that sends nothing is closed, half a head is told why."""
    port = int(server.url.rpartition(":")[2])
    with (
        socket.create_connection(("127.0.0.1", port), timeout=4 * HEAD_S) as silent,
        socket.create_connection(("127.0.0.1", port), timeout=4 * HEAD_S) as slow,
    ):
        slow.sendall(HALF)
        assert slow.recv(100).startswith(b"HTTP/1.1 408 ")
        assert silent.recv(100) == b""


def test_a_connection_serves_many_requests(server: Server) -> None:
    """Each next head is waited for anew."""
    with httpx2.Client(base_url=server.url) as client:
        for _ in range(3):
            assert client.get("/health").status_code == 200
