"""The container's command and the service's, as api/README.md has them, are run."""

import json
import os
import re
import shlex
import stat
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx2

from tests.api.running import START_S, free_port

README = Path(__file__).parents[2] / "api" / "README.md"
HOST = {"Host": "fish.example"}


def container() -> tuple[list[str], dict[str, str]]:
    """Return the command of the container file, and its environment."""
    text = README.read_text().partition("```dockerfile\n")[2].partition("```")[0]
    found = re.findall(r"^ENV (\w+)=(.*)$", text, re.MULTILINE)
    command = re.search(r"^CMD (\[.*\])$", text, re.MULTILINE)
    assert command is not None
    return json.loads(command[1]), dict(found)


def service() -> list[str]:
    """Return the command of the systemd unit."""
    found = re.search(
        r"^ExecStart=\S*/(fishmeasure .*)$", README.read_text(), re.MULTILINE
    )
    assert found is not None
    return shlex.split(found[1])


@contextmanager
def contained(data: Path, log: Path, *more: str) -> Iterator[str]:
    """Run the container's command with its own port and folder; give its address."""
    command, environ = container()
    port = free_port()
    command[command.index("--port") + 1] = str(port)
    words = [sys.executable, "-m", *command, *more]
    environ |= {"FISHMEASURE_DATA_DIR": str(data), "FISHMEASURE_LOG_REQUESTS": "yes"}
    with log.open("w") as out:
        process = subprocess.Popen(  # noqa: S603 - no outside input
            words, stdout=out, stderr=subprocess.STDOUT, env={**os.environ, **environ}
        )
    url = f"http://127.0.0.1:{port}"
    until = time.monotonic() + START_S
    try:
        while time.monotonic() < until:
            assert process.poll() is None, log.read_text()
            try:
                if httpx2.get(f"{url}/health", headers=HOST).status_code == 200:
                    break
            except httpx2.TransportError:
                time.sleep(0.05)
        yield url
        process.terminate()
        process.wait(timeout=60)
    finally:
        process.kill()
        process.wait()


def test_the_container_is_started_as_all_else(tmp_path: Path) -> None:
    """Closed, with JSON logs, one process's metrics, and its code in a file alone."""
    data, log = tmp_path / "data", tmp_path / "log"
    with contained(data, log, "--prefix", "/fish") as url:
        assert httpx2.get(f"{url}/v1/units", headers=HOST).status_code == 401
        assert httpx2.get(f"{url}/v1/units").status_code == 421
        file = data / "pairing-code"
        assert stat.S_IMODE(file.stat().st_mode) == 0o600
        code = file.read_text().strip()
        made = httpx2.post(
            f"{url}/v1/devices", headers=HOST, json={"code": code, "name": "phone"}
        )
        assert made.status_code in {200, 201}, made.text
        token = {**HOST, "Authorization": f"Bearer {made.json()['token']}"}
        assert httpx2.get(f"{url}/v1/units", headers=token).status_code == 200
        assert file.read_text().strip() != code  # used up; the next one is there
        metrics = httpx2.get(f"{url}/metrics", headers=token).text
        assert 'route="/v1/units",status="401"' in metrics.replace(" ", "")
    lines = [json.loads(line) for line in log.read_text().splitlines()]
    assert any(line.get("route") == "/v1/units" for line in lines)
    for secret in (code, code.replace(" ", ""), made.json()["token"], "127.0.0.1"):
        assert secret not in log.read_text()


def test_service_and_container_start_one_program() -> None:
    """`fishmeasure serve`: there is no second way with other bounds."""
    assert service()[:2] == container()[0][:2] == ["fishmeasure", "serve"]
