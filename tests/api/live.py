"""A client that sends until the server is gone, and keeps score."""

import hashlib
import io
import json
import threading
from collections.abc import Sequence
from itertools import count
from typing import Any, Protocol
from uuid import UUID, uuid4

import httpx2 as httpx
import numpy as np
from PIL import Image

BATCH = 3
UNIT, COHORT = UUID(int=1), UUID(int=2)


def small_photo(seed: int) -> bytes:
    """Return a photo of nothing, each seed another."""
    noise = np.random.default_rng(seed).integers(0, 255, (40, 48, 3), np.uint8)
    out = io.BytesIO()
    Image.fromarray(noise).save(out, "JPEG")
    return out.getvalue()


def unit_body(identity: UUID | None = None) -> tuple[str, dict[str, Any]]:
    """Return a path and what is sent there."""
    name = str(identity or uuid4())
    unit = {"id": name, "name": name, "kind": "tank", "volume_m3": 6.0, "depth_m": 1.0}
    return f"/v1/units/{name}", unit


class Sender(Protocol):
    """Something to be sent again and again, each time another."""

    def send(self, client: httpx.Client) -> tuple[httpx.Response, Sequence[str]]:
        """Send the next one; return the answer and the ids that a 200 confirms."""
        ...


class Photos:
    """Photos of nothing, and what was sent under each id."""

    def __init__(self, first_seed: int) -> None:
        self._seeds = count(first_seed)
        self.sent: dict[str, bytes] = {}

    def photo(self) -> tuple[bytes, str]:
        """Return the next photo and its id."""
        photo = small_photo(next(self._seeds))
        name = hashlib.sha256(photo).hexdigest()
        self.sent[name] = photo
        return photo, name

    def send(self, client: httpx.Client) -> tuple[httpx.Response, Sequence[str]]:
        """Send one photo."""
        photo, name = self.photo()
        return client.post("/v1/photos", files={"photos": ("a.jpg", photo)}), [name]


class Units:
    """New units."""

    def send(self, client: httpx.Client) -> tuple[httpx.Response, Sequence[str]]:
        """Send one unit."""
        path, unit = unit_body()
        return client.put(path, json=unit), [unit["id"]]


class Entries:
    """Batches of deaths; a batch is written as a whole, or not at all."""

    def __init__(self, first: int) -> None:
        self._numbers = count(first)
        self._ready = False
        self.sent: list[tuple[str, ...]] = []

    def send(self, client: httpx.Client) -> tuple[httpx.Response, Sequence[str]]:
        """Send a batch, and before the first the unit and cohort that it names."""
        if not self._ready:
            path, unit = unit_body(UNIT)
            assert client.put(path, json=unit).status_code == 200
            fish = {"id": str(COHORT), "name": "fish", "species_key": "rainbow-trout"}
            answer = client.put(f"/v1/cohorts/{COHORT}", json=fish)
            assert answer.status_code == 200
            self._ready = True
        names = tuple(str(UUID(int=next(self._numbers))) for _ in range(BATCH))
        self.sent.append(names)
        where = {"unit_id": str(UNIT), "cohort_id": str(COHORT), "on": "2026-03-01"}
        died = [{"kind": "died", "id": n, "fish_count": 1, **where} for n in names]
        return client.post("/v1/entries", json={"entries": died}), names


class Client(threading.Thread):
    """Sends until the server is gone; remembers what it confirmed."""

    def __init__(self, url: str, sender: Sender) -> None:
        super().__init__()
        self._url = url
        self.sender = sender
        self.confirmed: list[str] = []
        self.refused: list[str] = []
        self._ending = threading.Event()

    def end(self) -> None:
        """Have it end after what it is sending, and wait for that."""
        self._ending.set()
        self.join()

    def run(self) -> None:
        """Send one after the other."""
        with httpx.Client(base_url=self._url, timeout=120) as client:
            try:
                while not self._ending.is_set():
                    answer, names = self.sender.send(client)
                    if answer.status_code == 200:
                        answer.json()  # whole
                        self.confirmed.extend(names)
                    else:
                        self.refused.append(answer.text)
            except (httpx.HTTPError, OSError, json.JSONDecodeError):
                return
