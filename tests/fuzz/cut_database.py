"""Cut a server's PostgreSQL off while requests go on, and start it again.

``python -m tests.fuzz.cut_database`` as a user who may start PostgreSQL (or root);
see ``tests/fuzz/README.md``. Prints what was answered before, while and after.
"""

import argparse
import os
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

import httpx2

from fishmeasure.store.book import open_book
from tests.api.live import small_photo, unit_body
from tests.api.running import running

ROOT = Path(__file__).resolve().parents[2]
HEALTHY_S = 60.0
PAUSE_S = 5.0


@dataclass(slots=True, kw_only=True)
class Heard:
    """What a server answered, by phase, kind of request and status."""

    phase: str = "before"
    answers: Counter[tuple[str, str, int]] = field(default_factory=Counter)
    without_wait: list[str] = field(default_factory=list)
    verdicts: list[str] = field(default_factory=list)
    units: list[str] = field(default_factory=list)
    photos: list[str] = field(default_factory=list)
    slowest_s: float = 0.0

    def note(self, what: str, answer: httpx2.Response, seconds: float) -> None:
        """Count an answer; keep one that should not have been."""
        self.answers[self.phase, what, answer.status_code] += 1
        self.slowest_s = max(self.slowest_s, seconds)
        if answer.status_code == 503 and not answer.headers.get("Retry-After"):
            self.without_wait.append(f"{what}: {answer.text[:200]}")
        if what == "photo" and 400 <= answer.status_code < 500:
            self.verdicts.append(answer.text[:200])


def postgres(action: str, folder: Path) -> None:
    """Stop the server at once, as a crash would, or start it again."""
    (bin_,) = sorted(Path("/usr/lib/postgresql").glob("*/bin"))[-1:]
    words = [str(bin_ / "pg_ctl"), "--silent", f"--pgdata={folder}/data"]
    if action == "stop":
        words += ["--mode=immediate", "stop"]
    else:
        options = f"-c listen_addresses= -c unix_socket_directories={folder}"
        words += ["--wait", f"--log={folder}/log", f"--options={options}", "start"]
    as_server = ["runuser", "-u", "postgres", "--"] if os.getuid() == 0 else []
    # The server refuses to run as root; its own output goes to its log.
    subprocess.run([*as_server, *words], check=True, cwd=folder)  # noqa: S603


def ask(url: str, heard: Heard, end: threading.Event, first: int) -> None:
    """Send photos, units and questions until told to end."""
    number = first
    with httpx2.Client(base_url=url, timeout=120) as client:
        while not end.is_set():
            number += 1
            path, unit = unit_body()
            files = {"photos": ("a.jpg", small_photo(number))}
            for what in ("photo", "unit", "v1/units", "ready", "health"):
                start = time.monotonic()
                if what == "photo":
                    answer = client.post("/v1/photos", files=files)
                elif what == "unit":
                    answer = client.put(path, json=unit)
                else:
                    answer = client.get(f"/{what}")
                heard.note(what, answer, time.monotonic() - start)
                if answer.is_success and what == "unit":
                    heard.units.append(unit["id"])
                if answer.is_success and what == "photo":
                    items = answer.json()["items"]
                    heard.photos += [item["id"] for item in items if "id" in item]
                    heard.verdicts += [str(i)[:200] for i in items if "id" not in i]


def wait_until_ready(url: str) -> float:
    """Return after how many seconds the server says that it is ready."""
    start = time.monotonic()
    while httpx2.get(f"{url}/ready", timeout=60).status_code != 200:
        if time.monotonic() - start > HEALTHY_S:
            message = "not ready again"
            raise TimeoutError(message)
        time.sleep(0.1)
    return time.monotonic() - start


def cut(folder: Path, book: str, rounds: int) -> Heard:
    """Cut the database off so many times; return what was heard meanwhile."""
    heard, end = Heard(), threading.Event()
    with tempfile.TemporaryDirectory() as data:
        with running(Path(data) / "data", "--workers", "1", book=book) as server:
            threads = [
                threading.Thread(target=ask, args=(server.url, heard, end, 1000 * n))
                for n in (1, 2)
            ]
            for thread in threads:
                thread.start()
            for _ in range(rounds):
                time.sleep(PAUSE_S)
                heard.phase = "cut off"
                postgres("stop", folder)
                time.sleep(PAUSE_S)
                heard.phase = "starting"
                postgres("start", folder)
                sys.stdout.write(f"ready after {wait_until_ready(server.url):.1f} s\n")
                heard.phase = "after"
            time.sleep(PAUSE_S)
            end.set()
            for thread in threads:
                thread.join()
        with open_book(book) as kept:
            assert set(heard.units) <= {str(unit.id) for unit in kept.units()}
            assert set(heard.photos) <= set(kept.archive.newest_photo_ids(1_000_000))
    return heard


def main() -> None:
    """Cut and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=3)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as beside:
        Path(beside).chmod(0o755)
        folder = Path(beside) / "postgres"
        words = [str(ROOT / ".ci/postgres.sh"), "start", str(folder)]
        started = subprocess.run(words, check=True, capture_output=True, text=True)  # noqa: S603
        try:
            heard = cut(folder, started.stdout.strip(), options.rounds)
        finally:
            postgres("stop", folder)
    for (phase, what, status), count in sorted(heard.answers.items()):
        sys.stdout.write(f"{phase:9} {what:9} {status} {count}\n")
    sys.stdout.write(
        f"confirmed, all there: {len(heard.units)} units, {len(heard.photos)} photos; "
        f"slowest answer {heard.slowest_s:.1f} s; 503 without Retry-After: "
        f"{heard.without_wait[:3]}; verdicts on photos: {heard.verdicts[:3]}\n"
    )
    sys.exit(bool(heard.without_wait or heard.verdicts))


if __name__ == "__main__":
    main()
