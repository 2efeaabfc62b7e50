"""A server killed at any instant loses nothing that it confirmed."""

import signal
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pytest

from api.files import PhotoFiles
from fishmeasure.ledger.archive import Page
from fishmeasure.ledger.store import open_book
from fishmeasure.photo import read_photo
from tests.api.live import Client, Entries, Photos, Units
from tests.api.running import Server, family, running, starting
from tests.api.starter import Starter, ended

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
    """Kill a server in the midst of uploads and entries, again and again.

    A third of the kills comes within 2 s, mostly before a worker is ready, the rest
    soon after the first photo was confirmed. With a starter, each round also kills a
    server that has only begun to start.
    """
    chance = np.random.default_rng(seed)
    score = Score()
    for number in range(rounds):
        if starter is not None:
            with starting(data, "--workers", "1", starter=starter) as server:
                time.sleep(chance.uniform(0.0, 0.15))
                kill(server)
        with running(data, "--workers", "1", starter=starter) as server:
            first = 1000 * (seed + number)
            senders = (Photos(first), Photos(first + 500), Entries(first), Units())
            clients = [Client(server.url, sender) for sender in senders]
            for client in clients:
                client.start()
            if chance.random() < 1 / 3:
                time.sleep(chance.uniform(0.0, 2.0))
            else:
                wait_for_a_photo(clients)
                time.sleep(chance.uniform(0.0, 0.4))
            kill(server)
        score.add(clients)
        check(data, score)
    score.whole.clear()
    check(data, score)
    return score


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


def check(data: Path, score: Score) -> None:
    """Hold what was confirmed against book and files, and these to each other."""
    with open_book(data / "book.sqlite") as book:
        assert score.units <= {str(unit.id) for unit in book.units()}
        written = {str(entry.id) for entry in book.entries()}
        known = set()
        page = book.archive.photos(Page(limit=200))
        while page:
            known |= {photo.id for photo in page}
            page = book.archive.photos(Page(limit=200, before=page[-1].seq))
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


@pytest.mark.slow
def test_killed_server_loses_nothing_often(tmp_path: Path) -> None:
    """The same, 200 rounds, and 200 times while it starts."""
    start = time.monotonic()
    with Starter() as starter:
        score = kill_rounds(tmp_path / "data", rounds=200, seed=2, starter=starter)
    assert min(len(score.photos), len(score.entries), len(score.units)) >= 200
    sys.stdout.write(
        f"400 kills in {time.monotonic() - start:.0f} s: {len(score.photos)} photos, "
        f"{len(score.entries)} entries and {len(score.units)} units confirmed; "
        f"{len(score.whole) - len(score.photos)} photos kept without being confirmed; "
        "none lost\n"
    )
