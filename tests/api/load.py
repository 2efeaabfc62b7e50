"""Many clients at once, and what became of what they sent."""

import hashlib
import ssl
import threading
import time
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Self

import httpx2

from tests.api.running import Server

COMMENT = b"\xff\xfe"  # JPEG marker of a comment (ITU-T T.81, B.2.4.5)
MOST_BYTES = 65_000


def stamped(jpeg: bytes, number: int, extra_bytes: int = 0) -> bytes:
    """Return the same picture as another file: comments after its start."""
    comments = b""
    left = extra_bytes
    while True:
        text = f"{number} {left} ".encode().ljust(min(left, MOST_BYTES) or 16, b".")
        comments += COMMENT + (len(text) + 2).to_bytes(2, "big") + text
        left -= len(text)
        if left <= 0:
            return jpeg[:2] + comments + jpeg[2:]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a load gave.

    ``acknowledged`` are the ids that were answered 200, ``answers`` how many of each
    status there were (0 for a connection that broke).
    """

    acknowledged: frozenset[str]
    answers: Counter[int]
    without_retry_after: int
    seconds: float
    peak_mb: float


def upload_at_once(
    server: Server, photos: Sequence[bytes], *, tries: int = 1, timeout_s: float = 300.0
) -> Outcome:
    """Send each photo by a client of its own, all at the same moment.

    A client that is told to come again does so after the time told, ``tries`` times.
    """
    answers: Counter[int] = Counter()
    acknowledged: set[str] = set()
    unsaid = 0
    lock = threading.Lock()
    start = threading.Barrier(len(photos))
    # Each client would read the list of authorities for itself, and take longer over
    # it than over its photo.
    trust = ssl.create_default_context()

    def client(photo: bytes) -> None:
        nonlocal unsaid
        with httpx2.Client(
            base_url=server.url, timeout=timeout_s, verify=trust
        ) as http:
            start.wait()
            for _ in range(tries):
                status, wait_s = _send(http, photo)
                with lock:
                    answers[status] += 1
                    unsaid += status == 503 and wait_s is None
                    if status == 200:
                        acknowledged.add(hashlib.sha256(photo).hexdigest())
                if status != 503:
                    return
                time.sleep(wait_s or 1.0)

    begun = time.perf_counter()
    with _Peak(server) as peak, ThreadPoolExecutor(len(photos)) as pool:
        list(pool.map(client, photos))
    return Outcome(
        acknowledged=frozenset(acknowledged),
        answers=answers,
        without_retry_after=unsaid,
        seconds=time.perf_counter() - begun,
        peak_mb=peak.mb,
    )


def _send(http: httpx2.Client, photo: bytes) -> tuple[int, float | None]:
    try:
        answer = http.post("/v1/photos", files={"photos": ("net.jpg", photo)})
    except httpx2.TransportError:
        return 0, None
    told = answer.headers.get("Retry-After")
    return answer.status_code, None if told is None else float(told)


def listed(server: Server) -> set[str]:
    """Return the ids of all photos that the server lists."""
    found: set[str] = set()
    cursor: int | None = None
    while True:
        query = {"limit": 200} | ({} if cursor is None else {"cursor": cursor})
        page = httpx2.get(f"{server.url}/v1/photos", params=query, timeout=60).json()
        found |= {photo["id"] for photo in page["items"]}
        cursor = page["next"]
        if cursor is None:
            return found


class _Peak:
    """The most memory that the server had, looked at several times a second."""

    def __init__(self, server: Server) -> None:
        self._server = server
        self._done = threading.Event()
        self._thread = threading.Thread(target=self._watch)
        self.mb = 0.0

    def _watch(self) -> None:
        while not self._done.wait(0.2):
            self.mb = max(self.mb, self._server.memory_mb())

    def __enter__(self) -> Self:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._done.set()
        self._thread.join()
