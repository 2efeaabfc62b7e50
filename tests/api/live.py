"""A client that sends until the server is gone, and keeps score."""

import io
import json
import threading
from pathlib import Path
from typing import Any
from uuid import uuid4

import httpx2 as httpx
import numpy as np
from PIL import Image

ROOT = Path(__file__).resolve().parents[2]


def small_photo(seed: int) -> bytes:
    """Return a photo of nothing, each seed another."""
    noise = np.random.default_rng(seed).integers(0, 255, (40, 48, 3), np.uint8)
    out = io.BytesIO()
    Image.fromarray(noise).save(out, "JPEG")
    return out.getvalue()


def unit_body() -> tuple[str, dict[str, Any]]:
    """Return a path and what is sent there."""
    name = str(uuid4())
    unit = {"id": name, "name": name, "kind": "tank", "volume_m3": 6.0, "depth_m": 1.0}
    return f"/v1/units/{name}", unit


class Client(threading.Thread):
    """Sends photos or units until the server is gone; remembers what it confirmed."""

    def __init__(self, url: str, first_seed: int | None) -> None:
        super().__init__()
        self._url = url
        self._seed = first_seed
        self.confirmed: list[str] = []
        self.refused: list[str] = []

    def run(self) -> None:
        """Send one after the other."""
        with httpx.Client(base_url=self._url, timeout=120) as client:
            try:
                while True:
                    self._send(client)
            except (httpx.HTTPError, OSError, json.JSONDecodeError):
                return

    def _send(self, client: httpx.Client) -> None:
        if self._seed is None:
            path, unit = unit_body()
            answer = client.put(path, json=unit)
            name = unit["id"]
        else:
            photo = small_photo(self._seed)
            self._seed += 1
            answer = client.post("/v1/photos", files={"photos": ("a.jpg", photo)})
            name = ""
            if answer.status_code == 200:
                name = answer.json()["items"][0]["id"]
        if answer.status_code == 200:
            self.confirmed.append(name)
        else:
            self.refused.append(answer.text)
