"""Signs of life come while all threads are busy and the book is locked.

What is compared is order, not time: the answer is there while the others still wait.
"""

import asyncio
import sqlite3
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor, wait
from contextlib import contextmanager
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from api.app import create_app
from api.readiness import Readiness
from api.settings import Settings
from fishmeasure.store.book import Book

THREADS = 40  # that requests share: the framework's own number


@contextmanager
def busy(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Have every thread wait for the list of cohorts."""
    go_on = threading.Event()
    waiting = threading.Semaphore(0)

    def wait_long(_: Book) -> tuple[()]:
        waiting.release()
        assert go_on.wait(60)
        return ()

    monkeypatch.setattr(Book, "cohorts", wait_long)
    with ThreadPoolExecutor(THREADS + 5) as pool:
        calls = [pool.submit(client.get, "/v1/cohorts") for _ in range(THREADS + 5)]
        try:
            for _ in range(THREADS):
                assert waiting.acquire(timeout=60)
            yield
            assert not any(call.done() for call in calls)
        finally:
            go_on.set()
    assert {call.result().status_code for call in calls} == {200}


def answered(client: TestClient, path: str) -> int:
    """Return the status, or 0 where none comes while the others wait."""
    pool = ThreadPoolExecutor(1)
    call = pool.submit(client.get, path)
    wait({call}, timeout=10)
    pool.shutdown(wait=False)
    return call.result().status_code if call.done() else 0


def test_signs_of_life_come_while_all_threads_are_busy(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Alive, and ready: the book can be read."""
    assert client.get("/ready").status_code == 200
    with busy(client, monkeypatch):
        found = [answered(client, path) for path in ("/health", "/ready")]
    assert found == [200, 200]


@pytest.fixture
def locked(tmp_path: Path) -> Iterator[TestClient]:
    """Return a client of a server whose book another program keeps to itself."""
    settings = Settings(data_dir=tmp_path, workers=1, hosts="testserver")
    with TestClient(create_app(settings)) as client:
        # A writer alone keeps no reader waiting in WAL mode, this lock does
        # (sqlite.org/pragma.html, locking_mode); it is not given to a second one.
        client.app.state.services.book.close()  # type: ignore[attr-defined]
        other = sqlite3.connect(tmp_path / "book.sqlite", isolation_level=None)
        other.execute("PRAGMA locking_mode=EXCLUSIVE")
        other.execute("BEGIN EXCLUSIVE")
        other.execute("CREATE TABLE other (x)")
        yield client
        other.execute("ROLLBACK")
        other.close()


def test_signs_of_life_come_while_the_book_is_locked(locked: TestClient) -> None:
    """Long before the database gives up waiting (BUSY_TIMEOUT_S)."""
    answer = locked.get("/ready")
    assert (answer.status_code, answer.json()["code"]) == (503, "book-busy")
    assert int(answer.headers["Retry-After"]) > 0
    assert answer.json()["parameters"]["waited_s"] < 0.1  # the reading itself: 10 s
    assert locked.get("/health").status_code == 200


def test_a_slow_reading_is_no_fault_soon_after_a_good_one() -> None:
    """A write may hold the book for some seconds."""
    go_on = threading.Event()
    go_on.set()
    readiness = Readiness(lambda: go_on.wait(60))

    async def scenario() -> None:
        await readiness.check()
        go_on.clear()
        await readiness.check()

    asyncio.run(scenario())
    go_on.set()
    readiness.close()
