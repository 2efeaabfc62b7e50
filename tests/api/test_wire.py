"""Requests that no browser sends, byte by byte, to a real server.

Each is answered with a refusal or the connection is closed; the server lives on and
its log holds no trace.
"""

import contextlib
import socket
from collections.abc import Iterator
from pathlib import Path

import httpx2
import pytest

from tests.api.running import Server, running

FORM = b"Content-Type: multipart/form-data; boundary=x\r\n"
JSON = b"Content-Type: application/json\r\n"
HOST = b"Host: 127.0.0.1\r\n"
MOST_MB = 400.0
"""Of a server that has been asked to keep what it should not; at rest it has 250."""


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """Return a real server that gives a body two seconds."""
    data = tmp_path_factory.mktemp("wire") / "data"
    with running(data, upload_timeout_s=2, workers=1, log_requests=1) as started:
        yield started


def said(server: Server, request: bytes) -> bytes:
    """Return all that comes back for the bytes."""
    port = int(server.url.rpartition(":")[2])
    answer = b""
    with socket.create_connection(("127.0.0.1", port), timeout=20) as connection:
        with contextlib.suppress(OSError):  # closed while we are still sending
            connection.sendall(request)
            connection.shutdown(socket.SHUT_WR)
        with contextlib.suppress(OSError):
            while part := connection.recv(65536):
                answer += part
    return answer


def post(headers: bytes, body: bytes = b"", path: bytes = b"/v1/entries") -> bytes:
    return b"POST " + path + b" HTTP/1.1\r\n" + HOST + headers + b"\r\n" + body


WRONG = {
    "two lengths": post(JSON + b"Content-Length: 2\r\nContent-Length: 40\r\n", b"{}"),
    "a list of lengths": post(JSON + b"Content-Length: 2, 40\r\n", b"{}"),
    "length and chunks": post(
        JSON + b"Content-Length: 2\r\nTransfer-Encoding: chunked\r\n",
        b"0\r\n\r\nGET /v1/units HTTP/1.1\r\n" + HOST + b"\r\n",
    ),
    "length below 0": post(JSON + b"Content-Length: -1\r\n", b"{}"),
    "length with a sign": post(JSON + b"Content-Length: +2\r\n", b"{}"),
    "length in words": post(JSON + b"Content-Length: two\r\n", b"{}"),
    "length of 400 digits": post(JSON + b"Content-Length: " + b"9" * 400 + b"\r\n"),
    "length too large": post(JSON + b"Content-Length: 900\r\n", b"{}"),
    "coding unknown": post(JSON + b"Transfer-Encoding: gzip, x\r\n", b"{}"),
    "coding hidden": post(JSON + b"Transfer-Encoding:\x0bchunked\r\n", b"0\r\n\r\n"),
    "chunk no number": post(JSON + b"Transfer-Encoding: chunked\r\n", b"zz\r\n{}"),
    "chunk of 2^70": post(
        JSON + b"Transfer-Encoding: chunked\r\n", b"4" + b"0" * 18 + b"\r\n{}"
    ),
    "chunk cut off": post(JSON + b"Transfer-Encoding: chunked\r\n", b"ff\r\n{}"),
    "form cut off": post(FORM + b"Content-Length: 5\r\n", b"--x\r\n", b"/v1/photos"),
    "no host": b"GET /v1/units HTTP/1.1\r\n\r\n",
    "two hosts": b"GET /v1/units HTTP/1.1\r\n" + HOST + b"Host: evil.example\r\n\r\n",
    "other host": b"GET /v1/units HTTP/1.1\r\nHost: evil.example\r\n\r\n",
    "host in the address": (
        b"GET http://evil.example/v1/units HTTP/1.1\r\nHost: evil.example\r\n\r\n"
    ),
    "header without end": b"GET / HTTP/1.1\r\n" + HOST + b"A: " + b"x" * 300_000,
    "header with NUL": b"GET / HTTP/1.1\r\n" + HOST + b"A: \0\r\n\r\n",
    "header folded": b"GET / HTTP/1.1\r\n" + HOST + b" folded: \0\r\n\r\n",
    "very many headers": (
        b"GET / HTTP/1.1\r\n" + HOST + b"A: b\r\n" * 50_000 + b"\r\n"
    ),
    "address of 1 MB": b"GET /" + b"a" * 1_000_000 + b" HTTP/1.1\r\n" + HOST + b"\r\n",
    "address with spaces": b"GET /v1/ units HTTP/1.1\r\n" + HOST + b"\r\n",
    "no address": b"GET HTTP/1.1\r\n\r\n",
    "version 9": b"GET / HTTP/9.9\r\n" + HOST + b"\r\n",
    "no version": b"GET /v1/units\r\n\r\n",
    "tunnel": b"CONNECT evil.example:443 HTTP/1.1\r\n" + HOST + b"\r\n",
    "trace": b"TRACE /v1/units HTTP/1.1\r\n" + HOST + b"\r\n",
    "other protocol": b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + bytes(300),
    "noise": bytes(range(256)) * 40,
    "nothing": b"",
}


@pytest.mark.parametrize("name", WRONG)
def test_what_is_no_request_is_refused(server: Server, name: str) -> None:
    """RFC 9112: 400 where the framing is wrong, and the connection is closed."""
    answer = said(server, WRONG[name])
    status = answer.split(b" ")[1] if answer.startswith(b"HTTP/1.") else b""
    assert status == b"" or 400 <= int(status) < 500 or status == b"501", answer[:200]
    assert b"HTTP/1.1 200" not in answer  # no second request came through
    assert httpx2.get(f"{server.url}/health").status_code == 200


def test_upgrades_and_ranges_are_not_followed(server: Server) -> None:
    """No WebSocket is offered; an answer is whole whatever range is asked for."""
    upgrade = {"Connection": "Upgrade", "Upgrade": "websocket"}
    upgrade |= {"Sec-WebSocket-Key": "AAAAAAAAAAAAAAAAAAAAAA==", "Host": "127.0.0.1"}
    upgrade["Sec-WebSocket-Version"] = "13"
    answer = httpx2.get(f"{server.url}/v1/units", headers=upgrade)
    assert answer.status_code != 101
    for wanted in ("bytes=0-1", "bytes=5-2", "bytes=" + "0-0," * 2000 + "0-0"):
        answer = httpx2.get(f"{server.url}/", headers={"Range": wanted})
        assert answer.status_code == 200
        assert len(answer.content) == int(answer.headers["Content-Length"])


def test_many_half_requests_keep_nobody_out(server: Server) -> None:
    """200 connections that never finish their first line."""
    port = int(server.url.rpartition(":")[2])
    with contextlib.ExitStack() as opened:
        for _ in range(200):
            connection = socket.create_connection(("127.0.0.1", port), timeout=20)
            opened.enter_context(connection)
            connection.sendall(b"GET /v1/un")
        assert httpx2.get(f"{server.url}/v1/units").status_code == 200


def test_the_log_has_no_trace_and_memory_is_bounded(server: Server) -> None:
    """After all of the above."""
    assert httpx2.get(f"{server.url}/v1/units").status_code == 200
    assert server.memory_mb() < MOST_MB
    log = Path(server.log).read_text("utf-8")
    assert "Traceback" not in log
    assert "evil.example" not in log
