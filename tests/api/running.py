"""A server of its own, as a grower starts it, for tests that need the real thing."""

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import httpx2

from tests.api.starter import Forked, Starter

START_S = 120.0  # on a machine that is busy with other tests


@dataclass(frozen=True, slots=True, kw_only=True)
class Server:
    """A running server."""

    url: str
    process: subprocess.Popen[str] | Forked
    log: Path

    def stop(self, how: signal.Signals = signal.SIGTERM) -> int:
        """End it and return its exit status."""
        self.process.send_signal(how)
        return self.process.wait(timeout=60)

    def memory_mb(self) -> float:
        """Return the memory of the server and its workers, shared pages once each."""
        return sum(pss_kb(pid) for pid in family(self.process.pid)) / 1024.0


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def running(
    data: Path,
    *options: str,
    port: int | None = None,
    starter: Starter | None = None,
    log: Path | None = None,
    **settings: object,
) -> Iterator[Server]:
    """Start `fishmeasure serve` and give it once it answers."""
    with starting(
        data, *options, port=port, starter=starter, log=log, **settings
    ) as server:
        _wait(server)
        yield server


@contextmanager
def starting(
    data: Path,
    *options: str,
    port: int | None = None,
    starter: Starter | None = None,
    log: Path | None = None,
    **settings: object,
) -> Iterator[Server]:
    """Start `fishmeasure serve` and give it at once.

    `starter` saves its imports; `log` is the folder for its output, by default that
    of the data.
    """
    port = port or free_port()
    log = (log or data.parent) / f"server-{port}.log"
    environ = {**os.environ, "PYTHONUNBUFFERED": "1"}
    environ |= {f"FISHMEASURE_{k.upper()}": str(v) for k, v in settings.items()}
    arguments = ["serve", "--port", str(port), "--data", str(data), *options]
    own = "--lan" in options and "--plain" not in options
    scheme = "https" if own or "--cert" in options else "http"
    url = f"{scheme}://127.0.0.1:{port}"
    process: subprocess.Popen[str] | Forked
    if starter is None:
        with log.open("w") as out:
            process = subprocess.Popen(  # noqa: S603 - no outside input
                [sys.executable, "-m", "fishmeasure", *arguments],
                stdout=out,
                stderr=subprocess.STDOUT,
                text=True,
                env=environ,
            )
    else:
        process = starter.start(["fishmeasure", *arguments], environ, log)
    try:
        yield Server(url=url, process=process, log=log)
    finally:
        if process.poll() is None:
            process.kill()
            process.wait()


def _wait(server: Server) -> None:
    until = time.monotonic() + START_S
    while time.monotonic() < until:
        assert server.process.poll() is None, server.log.read_text()
        try:
            # A self-made certificate is no other test's matter.
            if httpx2.get(f"{server.url}/health", verify=False).status_code == 200:
                return
        except httpx2.TransportError:
            time.sleep(0.02)
    raise TimeoutError(server.log.read_text())


def family(pid: int) -> list[int]:
    """Return a process and all that came from it."""
    children = Path(f"/proc/{pid}/task/{pid}/children")
    try:
        found = [int(child) for child in children.read_text().split()]
    except FileNotFoundError:
        return []
    return [pid, *(one for child in found for one in family(child))]


def pss_kb(pid: int) -> int:
    """Return the proportional set size (proc(5), smaps_rollup)."""
    try:
        text = Path(f"/proc/{pid}/smaps_rollup").read_text()
    except (FileNotFoundError, ProcessLookupError):
        return 0
    line = next(line for line in text.splitlines() if line.startswith("Pss:"))
    return int(line.split()[1])
