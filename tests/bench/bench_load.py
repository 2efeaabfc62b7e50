"""Many clients that read and write at once: answers, their times, and memory.

Usage: python -m tests.bench.bench_load [--clients 64] [--seconds 60]

A server of its own with the demo's book. Of ten requests one writes a reading of the
water, the others ask for what the page asks for. A client that is told to come again
(503) waits as long as it is told.
"""

import argparse
import collections
import os
import statistics
import tempfile
import threading
import time
from datetime import date, timedelta
from pathlib import Path
from uuid import uuid4

import httpx2

from tests.api.running import Server, running

DAY = date(2026, 8, 1)


class Load:
    """What the clients have seen."""

    def __init__(self, server: Server, units: list[str], seconds: float) -> None:
        self._server, self._units = server, units
        self._end = time.monotonic() + seconds
        self._lock = threading.Lock()
        self.reads_s: list[float] = []
        self.writes_s: list[float] = []
        self.answers: collections.Counter[int] = collections.Counter()
        self.unsaid = 0

    def client(self, number: int) -> None:
        """Ask until the time is over."""
        unit = self._units[number % len(self._units)]
        asks = (
            f"/v1/farm?date={DAY}",
            f"/v1/units/{unit}/outlook?date={DAY}",
            "/v1/entries?limit=50",
            f"/v1/entries?limit=50&unit_id={unit}",
            "/v1/photos?light=true",
            "/v1/samples",
            "/v1/units",
            "/",
            "/ready",
        )
        turn = number
        with httpx2.Client(base_url=self._server.url, timeout=120) as http:
            while time.monotonic() < self._end:
                turn += 1
                if turn % 10 == 0:
                    self._ask(http, "POST", "/v1/entries", unit)
                else:
                    self._ask(http, "GET", asks[turn % 10 - 1], unit)

    def _ask(self, http: httpx2.Client, method: str, path: str, unit: str) -> None:
        about = {"id": str(uuid4()), "kind": "water", "on": str(DAY - timedelta(1))}
        reading = about | {"unit_id": unit, "do_mg_per_l": 8.0}
        body = {"entries": [reading]} if method == "POST" else None
        begun = time.monotonic()
        try:
            answer = http.request(method, path, json=body)
        except httpx2.TransportError:
            with self._lock:
                self.answers[0] += 1
            return
        taken_s = time.monotonic() - begun
        later = answer.headers.get("Retry-After")
        with self._lock:
            self.answers[answer.status_code] += 1
            (self.writes_s if method == "POST" else self.reads_s).append(taken_s)
            self.unsaid += answer.status_code == 503 and later is None
        if answer.status_code == 503:
            time.sleep(float(later or 1))


def main() -> None:
    """Load a server and print what it did."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--clients", type=int, default=64)
    parser.add_argument("--seconds", type=float, default=60.0)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder, running(Path(folder) / "d") as server:
        demo = httpx2.post(f"{server.url}/v1/demo", json={"date": str(DAY)}, timeout=60)
        assert demo.is_success, demo.text
        found = httpx2.get(f"{server.url}/v1/units", timeout=60).json()["items"]
        load = Load(server, [unit["id"] for unit in found], given.seconds)
        threads = [
            threading.Thread(target=load.client, args=(number,))
            for number in range(given.clients)
        ]
        memory = [server.memory_mb()]
        for thread in threads:
            thread.start()
        while any(thread.is_alive() for thread in threads):
            time.sleep(max(1.0, given.seconds / 12.0))
            memory.append(server.memory_mb())
        for thread in threads:
            thread.join()
        server.stop()
        log = server.log.read_text("utf-8", "replace")
    loads = " ".join(f"{one:.0f}" for one in os.getloadavg())
    print(f"{given.clients} clients, {given.seconds:g} s; load of the machine {loads}")
    print(f"answers {dict(load.answers)}, 503 without Retry-After {load.unsaid}")
    for name, times in (("reads", load.reads_s), ("writes", load.writes_s)):
        if len(times) > 1:
            p99 = statistics.quantiles(times, n=100)[98]
            middle = statistics.median(times)
            print(f"{name}: {len(times)}, middle {middle:.2f} s, p99 {p99:.2f} s")
    failures = [line for line in log.splitlines() if "Error" in line]
    print(f"errors in the log: {len(failures)} {failures[:3]}")
    print("memory, MB: " + " ".join(f"{mb:.0f}" for mb in memory))


if __name__ == "__main__":
    main()
