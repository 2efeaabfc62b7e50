"""Bodies over the limit in bytes or seconds are refused with the reason."""

import asyncio
from typing import Any

import pytest
from starlette.types import Message, Receive, Scope, Send

from api.limits import BodyLimits


async def reads_all(scope: Scope, receive: Receive, send: Send) -> None:
    """An application that reads the body and hides what goes wrong in it."""
    del scope
    status = 200
    try:
        while (await receive()).get("more_body"):
            pass
    except Exception:  # noqa: BLE001 - as frameworks do
        status = 400
    await send({"type": "http.response.start", "status": status, "headers": []})
    await send({"type": "http.response.body", "body": b""})


def answer(
    chunks: list[bytes], headers: list[tuple[bytes, bytes]], wait_s: float = 0.0
) -> int:
    async def scenario() -> int:
        pending = list(chunks)
        sent: list[Message] = []

        async def receive() -> Message:
            await asyncio.sleep(wait_s)
            chunk = pending.pop(0)
            more = bool(pending)
            return {"type": "http.request", "body": chunk, "more_body": more}

        async def send(message: Message) -> None:
            sent.append(message)

        scope: dict[str, Any] = {"type": "http", "path": "/", "headers": headers}
        app = BodyLimits(reads_all, max_bytes=10, seconds=0.2, most_large=1)
        await app(scope, receive, send)
        assert [m["type"] for m in sent].count("http.response.start") == 1
        return int(sent[0]["status"])

    return asyncio.run(scenario())


@pytest.mark.parametrize(
    ("chunks", "headers", "wait_s", "status"),
    [
        ([b"12345", b"12345"], [], 0.0, 200),
        ([b"12345", b"123456"], [], 0.0, 413),
        ([b"1"], [(b"content-length", b"11")], 0.0, 413),
        ([b"1"], [(b"content-length", b"-1")], 0.0, 413),
        ([b"1", b"2"], [], 0.15, 408),
    ],
)
def test_bodies_are_limited(
    chunks: list[bytes],
    headers: list[tuple[bytes, bytes]],
    wait_s: float,
    status: int,
) -> None:
    """Told or not, a length over the limit is 413; a slow body is 408."""
    assert answer(chunks, headers, wait_s) == status
