"""A server killed at any instant loses nothing that it confirmed."""

import signal
import time
from pathlib import Path

import numpy as np
import pytest

from api.files import PhotoFiles
from fishmeasure.ledger.archive import Page
from fishmeasure.ledger.store import open_book
from fishmeasure.photo import read_photo
from tests.api.live import Client
from tests.api.running import _family, running


def kill_rounds(data: Path, rounds: int, seed: int) -> tuple[int, int]:
    """Kill a server in the midst of uploads and entries, again and again.

    Returns how many photos and units were confirmed in all.
    """
    chance = np.random.default_rng(seed)
    photos: set[str] = set()
    units: set[str] = set()
    for number in range(rounds):
        with running(data, "--workers", "1") as server:
            clients = [
                Client(server.url, 1000 * (seed + number)),
                Client(server.url, None),
            ]
            for client in clients:
                client.start()
            while not any(client.confirmed for client in clients):
                assert any(client.is_alive() for client in clients)
                time.sleep(0.01)
            time.sleep(chance.uniform(0.0, 0.4))
            workers = _family(server.process.pid)[1:]
            server.stop(signal.SIGKILL)
        wait_for_end(workers)
        for client in clients:
            client.join()
            assert client.refused == []
        photos |= set(clients[0].confirmed)
        units |= set(clients[1].confirmed)
        check(data, photos, units)
    return len(photos), len(units)


def wait_for_end(workers: list[int]) -> None:
    """Return when none is left waiting, holding memory, for a server that is gone."""
    for _ in range(600):
        if not any(Path(f"/proc/{pid}").exists() for pid in workers):
            return
        time.sleep(0.05)
    pytest.fail(f"still there: {workers}")


def check(data: Path, photos: set[str], units: set[str]) -> None:
    """Hold what was confirmed against book and files, and these to each other."""
    files = PhotoFiles(data / "photos")
    with open_book(data / "book.sqlite") as book:
        assert units <= {str(unit.id) for unit in book.units()}
        known = set()
        page = book.archive.photos(Page(limit=200))
        while page:
            known |= {photo.id for photo in page}
            page = book.archive.photos(Page(limit=200, before=page[-1].seq))
    assert photos <= known
    for name in known:  # no photo of the book without its file, whole
        assert read_photo(files.read(name), name).width_px == 48
    kept = [path for path in (data / "photos").rglob("*") if len(path.name) == 64]
    for path in kept:  # and no half file under a photo's name
        assert read_photo(path.read_bytes(), path.name).width_px == 48


def test_killed_server_loses_nothing_that_it_confirmed(tmp_path: Path) -> None:
    """kill -9 during uploads and entries, 3 rounds; no worker outlives it."""
    photos, units = kill_rounds(tmp_path / "data", rounds=3, seed=1)
    assert photos + units >= 3


@pytest.mark.slow
def test_killed_server_loses_nothing_often(tmp_path: Path) -> None:
    """The same, 200 rounds."""
    photos, units = kill_rounds(tmp_path / "data", rounds=200, seed=2)
    assert photos + units >= 200
