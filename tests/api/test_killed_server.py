"""A server killed at any instant loses nothing that it confirmed."""

import signal
import sys
import time
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pytest

from api.files import PhotoFiles
from fishmeasure.photo.image import read_photo
from fishmeasure.store.book import open_book
from tests.api.live import Client, Entries, Photos, Sender, Units
from tests.api.running import Server, family, running, starting
from tests.api.starter import Starter, ended
from tests.store.conftest import postgres_url

__all__ = ["postgres_url"]  # the fixture

END_S = 30.0
"""Until workers must have seen that their server is gone."""


@dataclass(slots=True, kw_only=True)
class Score:
    """What was sent and what was confirmed, over all rounds."""

    sent_photos: dict[str, bytes] = field(default_factory=dict)
    sent_batches: list[tuple[str, ...]] = field(default_factory=list)
    photos: set[str] = field(default_factory=set)
    units: set[str] = field(default_factory=set)
    entries: set[str] = field(default_factory=set)
    whole: set[str] = field(default_factory=set)
    """Photos whose files were found whole."""

    def add(self, clients: list[Client]) -> None:
        """Note what clients sent until their server was gone."""
        for client in clients:
            client.join()
            assert client.refused == []
            match client.sender:
                case Photos() as photos:
                    self.sent_photos |= photos.sent
                    self.photos |= set(client.confirmed)
                case Entries() as entries:
                    self.sent_batches += entries.sent
                    self.entries |= set(client.confirmed)
                case _:
                    self.units |= set(client.confirmed)


def kill_rounds(
    data: Path, rounds: int, seed: int, starter: Starter | None = None
) -> Score:
    """Kill a server during uploads and entries, again and again.

    A third of the kills comes within 2 s, mostly before a worker is ready, the rest
    soon after the first photo was confirmed. With a starter, each round also kills a
    server that has only begun to start.
    """
    chance = np.random.default_rng(seed)
    score, book = Score(), data / "book.sqlite"
    for number in range(rounds):
        if starter is not None:
            with starting(data, "--workers", "1", starter=starter) as server:
                time.sleep(chance.uniform(0.0, 0.15))
                kill(server)
        with running(data, "--workers", "1", starter=starter) as server:
            clients = [Client(server.url, sender) for sender in senders(seed + number)]
            for client in clients:
                client.start()
            if chance.random() < 1 / 3:
                time.sleep(chance.uniform(0.0, 2.0))
            else:
                wait_for_a_photo(clients)
                time.sleep(chance.uniform(0.0, 0.4))
            kill(server)
        score.add(clients)
        check(book, data, score)
    score.whole.clear()
    check(book, data, score)
    return score


def senders(number: int) -> tuple[Sender, ...]:
    """Return what sends two streams of photos, one of entries and one of units."""
    first = 1000 * number
    return Photos(first), Photos(first + 500), Entries(first), Units()


def wait_for_a_photo(clients: list[Client]) -> None:
    """Return when the first photo was confirmed."""
    while not any(client.confirmed for client in clients[:2]):
        assert clients[0].is_alive(), clients[0].refused
        time.sleep(0.005)


def kill(server: Server) -> None:
    """Kill a server; return when all that it had started has ended, too."""
    workers = family(server.process.pid)[1:]
    server.stop(signal.SIGKILL)
    until = time.monotonic() + END_S
    while not all(ended(pid) for pid in workers):
        assert time.monotonic() < until, f"still there: {workers}"
        time.sleep(0.005)


def kill_in_turn(url: str, data: Path, rounds: int, seed: int) -> Score:
    """Kill one of two servers on one book while the other goes on; then the other."""
    score, options = Score(), (data, "--workers", "1")
    chance = np.random.default_rng(seed)
    with Starter() as starter, ExitStack() as open_:
        servers = [
            open_.enter_context(running(*options, starter=starter, book=url))
            for _ in range(2)
        ]
        for number in range(rounds):
            clients = [
                [Client(server.url, sender) for sender in senders(10 * number + part)]
                for part, server in enumerate(servers)
            ]
            for client in (*clients[0], *clients[1]):
                client.start()
            wait_for_a_photo(clients[0])
            wait_for_a_photo(clients[1])
            time.sleep(chance.uniform(0.0, 0.4))
            kill(servers[0])
            before = [len(client.confirmed) for client in clients[1]]
            while any(
                len(client.confirmed) <= count
                for client, count in zip(clients[1], before, strict=True)
            ):
                assert all(client.is_alive() for client in clients[1])
                time.sleep(0.01)
            for client in clients[1]:
                client.end()
            score.add([*clients[0], *clients[1]])
            check(url, data, score)
            # The next to be killed is the other one.
            again = running(*options, starter=starter, book=url)
            servers = [servers[1], open_.enter_context(again)]
    return score


def check(address: str | Path, data: Path, score: Score) -> None:
    """Hold what was confirmed against book and files, and these to each other."""
    with open_book(address) as book:
        assert score.units <= {str(unit.id) for unit in book.units()}
        written = {str(entry.id) for entry in book.entries()}
        known = set(book.archive.newest_photo_ids(1_000_000))
    assert score.entries <= written <= {n for b in score.sent_batches for n in b}
    for batch in score.sent_batches:  # as a whole, or not at all
        assert len(written.intersection(batch)) in {0, len(batch)}
    assert score.photos <= known <= set(score.sent_photos)
    kept = {path.name for path in (data / "photos").rglob("*") if len(path.name) == 64}
    assert known <= kept  # no photo of the book without its file
    files = PhotoFiles(data / "photos")
    for name in kept - score.whole:  # and no half file under a photo's name
        found = read_photo(files.read(name), name)
        sent = read_photo(score.sent_photos[name], name)
        assert np.array_equal(found.rgb, sent.rgb)
        score.whole.add(name)


def test_killed_server_loses_nothing_that_it_confirmed(tmp_path: Path) -> None:
    """kill -9 during uploads and entries, 3 rounds; no worker outlives it."""
    score = kill_rounds(tmp_path / "data", rounds=3, seed=1)
    assert len(score.entries) >= 3


def test_two_servers_killed_in_turn_lose_nothing(
    postgres_url: str, tmp_path: Path
) -> None:
    """One book on PostgreSQL, one folder: the other goes on, unharmed, each time."""
    score = kill_in_turn(postgres_url, tmp_path / "data", rounds=3, seed=4)
    assert min(len(score.photos), len(score.entries), len(score.units)) >= 6


@pytest.mark.slow
def test_two_servers_killed_in_turn_lose_nothing_often(
    postgres_url: str, tmp_path: Path
) -> None:
    """The same, 50 rounds."""
    start = time.monotonic()
    score = kill_in_turn(postgres_url, tmp_path / "data", rounds=50, seed=5)
    assert min(len(score.photos), len(score.entries), len(score.units)) >= 100
    report(50, start, score)


@pytest.mark.slow
def test_killed_server_loses_nothing_often(tmp_path: Path) -> None:
    """The same, 200 rounds, and 200 times while it starts."""
    start = time.monotonic()
    with Starter() as starter:
        score = kill_rounds(tmp_path / "data", rounds=200, seed=2, starter=starter)
    assert min(len(score.photos), len(score.entries), len(score.units)) >= 200
    report(400, start, score)


def report(kills: int, start: float, score: Score) -> None:
    """Say on stdout (pytest -s) what was done."""
    sys.stdout.write(
        f"{kills} kills in {time.monotonic() - start:.0f} s: {len(score.photos)} "
        f"photos, {len(score.entries)} entries and {len(score.units)} units "
        f"confirmed; {len(score.whole - score.photos)} photos kept without being "
        "confirmed; none lost\n"
    )
