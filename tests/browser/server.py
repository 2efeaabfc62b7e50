"""A real server process with a folder of its own."""

import os
import re
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import httpx2

ROOT = Path(__file__).resolve().parents[2]
PLAIN_HOST = "tank.test"  # .test never leads anywhere, RFC 6761; mapped in conftest
READY_S = 120


class Server:
    """`fishmeasure serve` on a free port; may be stopped and started again."""

    def __init__(self, data: Path, **settings: str) -> None:
        self.data = data
        self.settings = settings
        self.port = free_port()
        self.log = data.parent / f"{data.name}.log"
        self.process: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        """Address at which a browser takes the page for safe, as with HTTPS."""
        return f"http://localhost:{self.port}/"

    @property
    def plain_url(self) -> str:
        """Address by plain HTTP, as phones on a local network have it."""
        return f"http://{PLAIN_HOST}:{self.port}/"

    def start(self) -> "Server":
        """Start and wait until it works."""
        environment = {
            **os.environ,
            "PYTHONPATH": str(ROOT),
            "PYTHONUNBUFFERED": "1",
            "FISHMEASURE_HOSTS": f"localhost,127.0.0.1,{PLAIN_HOST}",
            "FISHMEASURE_WORKERS": "1",
            **{f"FISHMEASURE_{k.upper()}": v for k, v in self.settings.items()},
        }
        command = [sys.executable, "-m", "fishmeasure", "serve"]
        command += ["--port", str(self.port), "--data", str(self.data)]
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(  # noqa: S603 - our own command
                command,
                env=environment,
                stdout=log,
                stderr=log,
                cwd=ROOT,
                start_new_session=True,
            )
        deadline = time.monotonic() + READY_S
        while time.monotonic() < deadline:
            try:
                httpx2.get(f"{self.url}ready", timeout=5).raise_for_status()
            except httpx2.HTTPError:
                assert self.process.poll() is None, self.log.read_text()
                time.sleep(0.2)
            else:
                return self
        raise AssertionError(self.log.read_text())

    def stop(self) -> None:
        """End it at once, as a power cut would."""
        if self.process is None:
            return
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait(timeout=20)
        self.process = None

    def get(self, path: str) -> Any:
        """Return the JSON of a path."""
        answer = httpx2.get(f"{self.url}{path}", timeout=30)
        answer.raise_for_status()
        return answer.json()

    def items(self, path: str) -> list[Any]:
        """Return the items of a list."""
        found: list[Any] = self.get(path)["items"]
        return found

    def fill_demo(self) -> None:
        """Have the book filled with the invented tanks."""
        headers = {"X-Requested-With": "fishmeasure"}
        path = f"{self.url}v1/demo"
        httpx2.post(path, json={}, headers=headers, timeout=60).raise_for_status()

    def pairing_code(self) -> str:
        """Return the code that the server shows."""
        codes = re.findall(r"\b\d{4} \d{4}\b", self.log.read_text())
        return str(codes[-1])


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])
