"""Starts many servers from one process that has their imports done.

Run as a program it reads a line of JSON for each server (where its output goes, its
environment, its arguments), forks, and prints the process's id. What is forked is
``fishmeasure serve`` from its first line on; only loading its modules, three
seconds of a processor each time, is done once for all.
"""

import json
import os
import signal
import subprocess
import sys
import time
import traceback
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import TracebackType
from typing import Self


def ended(pid: int) -> bool:
    """Return whether a process is over.

    One that only waits for its parent, or for the machine's first process, to be
    told so (state Z, proc(5)) holds neither memory nor files.
    """
    try:
        state = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0]
    except (FileNotFoundError, ProcessLookupError):
        return True
    return state in {"Z", "X"}


class Forked:
    """A process that another one started; as far as needed like ``Popen``."""

    def __init__(self, pid: int) -> None:
        self.pid = pid

    def poll(self) -> int | None:
        """Return None while it runs; how it ended is not known."""
        return 0 if ended(self.pid) else None

    def send_signal(self, number: int) -> None:
        """Send a signal."""
        os.kill(self.pid, number)

    def kill(self) -> None:
        """End it at once."""
        self.send_signal(signal.SIGKILL)

    def wait(self, timeout: float = 60.0) -> int:
        """Return when it has ended."""
        until = time.monotonic() + timeout
        while not ended(self.pid):
            if time.monotonic() > until:
                raise TimeoutError(self.pid)
            time.sleep(0.002)
        return 0


class Starter:
    """The process that starts servers, for as long as the ``with`` lasts."""

    def __enter__(self) -> Self:
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.api.starter"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            cwd=Path(__file__).resolve().parents[2],
        )
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._process.communicate()

    def start(
        self, arguments: Sequence[str], environ: Mapping[str, str], log: Path
    ) -> Forked:
        """Start a server; it has done nothing yet when this returns."""
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        order = {"log": str(log), "environ": dict(environ), "argv": list(arguments)}
        self._process.stdin.write(json.dumps(order) + "\n")
        self._process.stdin.flush()
        return Forked(int(self._process.stdout.readline()))


def _serve(order: dict[str, object]) -> None:
    """Run the command as a process of its own would."""
    from fishmeasure import cli

    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    log = os.open(str(order["log"]), os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
    nothing = os.open(os.devnull, os.O_RDONLY)
    for number, target in ((nothing, 0), (log, 1), (log, 2)):
        os.dup2(number, target)
    os.environ.clear()
    os.environ.update(order["environ"])  # type: ignore[call-overload]
    sys.argv = order["argv"]  # type: ignore[assignment]
    try:
        cli.main()
    except SystemExit as end:
        sys.stdout.flush()
        os._exit(int(end.code or 0))


def main() -> None:
    """Load what a server loads, then start one for each line."""
    import alembic.command
    import uvicorn.protocols.http.auto

    import api.app  # noqa: F401 - to have it loaded
    import fishmeasure.cli  # noqa: F401 - the same

    del alembic, uvicorn
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # the system forgets those that end
    for line in sys.stdin:
        pid = os.fork()
        if pid == 0:
            try:
                _serve(json.loads(line))
            except BaseException:  # noqa: BLE001 - for the log; nobody is above
                traceback.print_exc()
            finally:
                os._exit(1)
        sys.stdout.write(f"{pid}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
