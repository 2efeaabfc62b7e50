"""Firefox and WebKitGTK, driven without a library: both speak W3C WebDriver's words.

Firefox itself listens for them (Marionette, the protocol under its driver);
WebKitGTK's driver takes them by HTTP. Only what one test needs is here; the tests
of the page's every corner run in Chromium.
"""

import base64
import contextlib
import json
import os
import shutil
import signal
import socket
import subprocess
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Protocol

import httpx2

from tests.browser.server import PLAIN_HOST, free_port

MINI_BROWSER = next(
    Path("/usr/lib").glob("*/webkit2gtk-4.1/MiniBrowser"), Path("/none")
)
PATIENCE_S = 90
START_S = 60
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # W3C WebDriver, 12.2

# Firefox's preferences: no dialogs, no calls home, one name for plain HTTP.
PREFERENCES = {
    "browser.aboutwelcome.enabled": False,
    "browser.shell.checkDefaultBrowser": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "dom.w3c_touch_events.enabled": 1,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "network.dns.localDomains": PLAIN_HOST,
    "remote.prefs.recommended": True,
    "toolkit.telemetry.reportingpolicy.firstRun": False,
}


class Engine(Protocol):
    """A browser that takes WebDriver's commands."""

    def send(self, command: str, values: dict[str, Any]) -> Any:
        """Send a command and return its value."""


class EngineError(AssertionError):
    """The browser could not do what it was told."""

    def __init__(self, command: str, error: dict[str, str]) -> None:
        super().__init__(f"{command}: {error['error']}: {error['message']}")


@dataclass
class Firefox:
    """Commands by Firefox's own socket: a length, a colon, JSON."""

    port: int
    number: int = 0
    connection: socket.socket = field(init=False)

    def __post_init__(self) -> None:
        deadline = time.monotonic() + START_S
        while True:
            try:
                self.connection = socket.create_connection(
                    ("127.0.0.1", self.port), timeout=PATIENCE_S
                )
                break
            except OSError:
                assert time.monotonic() < deadline, "Firefox did not start"
                time.sleep(0.2)
        self._receive()  # what it is

    def send(self, command: str, values: dict[str, Any]) -> Any:
        """Send a command and return its value."""
        self.number += 1
        text = json.dumps([0, self.number, f"WebDriver:{command}", values])
        self.connection.sendall(f"{len(text)}:{text}".encode("ascii"))
        _, _, error, result = self._receive()
        if error:
            raise EngineError(command, error)
        if isinstance(result, dict) and set(result) == {"value"}:
            return result["value"]
        return result

    def _receive(self) -> Any:
        size = b""
        while not size.endswith(b":"):
            size += self._bytes(1)
        return json.loads(self._bytes(int(size[:-1])))

    def _bytes(self, count: int) -> bytes:
        parts = b""
        while len(parts) < count:
            part = self.connection.recv(count - len(parts))
            assert part, "Firefox closed its socket"
            parts += part
        return parts


@dataclass
class WebKit:
    """Commands by HTTP to WebKitGTK's driver."""

    url: str
    session: str = ""

    _PATHS = {  # noqa: RUF012 - one fixed table
        "Navigate": "url",
        "ExecuteScript": "execute/sync",
        "ExecuteAsyncScript": "execute/async",
        "PerformActions": "actions",
        "SetTimeouts": "timeouts",
        "SetWindowRect": "window/rect",
    }

    def send(self, command: str, values: dict[str, Any]) -> Any:
        """Send a command and return its value."""
        method, path = "POST", f"/session/{self.session}/"
        if command == "NewSession":
            path = "/session"
        elif command == "TakeScreenshot":
            method, path = "GET", f"{path}screenshot"
        elif command in {"ElementClick", "ElementSendKeys"}:
            what = "click" if command == "ElementClick" else "value"
            path = f"{path}element/{values.pop('id')}/{what}"
        elif command == "DeleteSession":
            method, path = "DELETE", path.rstrip("/")
        else:
            path += self._PATHS[command]
        answer = httpx2.request(
            method,
            f"{self.url}{path}",
            json=values if method == "POST" else None,
            timeout=PATIENCE_S,
        ).json()["value"]
        if isinstance(answer, dict) and "error" in answer:
            raise EngineError(command, answer)
        if command == "NewSession":
            self.session = answer["sessionId"]
        return answer


@contextlib.contextmanager
def firefox(folder: Path) -> Iterator[Engine]:
    """Start Firefox with a profile of its own."""
    port = free_port()
    preferences = PREFERENCES | {"marionette.port": port}
    lines = [
        f"user_pref({json.dumps(k)}, {json.dumps(v)});" for k, v in preferences.items()
    ]
    folder.mkdir()
    (folder / "user.js").write_text("\n".join(lines))
    program = shutil.which("firefox-esr") or shutil.which("firefox")
    assert program is not None
    command = [program, "--headless", "--marionette", "--no-remote", "--profile"]
    with _running([*command, str(folder)], folder):
        engine = Firefox(port)
        wanted = {"unhandledPromptBehavior": "accept"}
        engine.send("NewSession", {"capabilities": {"alwaysMatch": wanted}})
        yield engine
        engine.connection.close()


@contextlib.contextmanager
def webkit(folder: Path) -> Iterator[Engine]:
    """Start WebKitGTK's small browser on a screen that nobody sees."""
    folder.mkdir()
    port = free_port()
    driver = ["xvfb-run", "--auto-servernum", "--server-args=-screen 0 900x1400x24"]
    driver += ["WebKitWebDriver", f"--port={port}"]
    with _running(driver, folder):
        engine = WebKit(f"http://127.0.0.1:{port}")
        options = {"binary": str(MINI_BROWSER), "args": ["--automation"]}
        wanted = {
            "browserName": "MiniBrowser",
            "unhandledPromptBehavior": "accept",
            "webkitgtk:browserOptions": options,
        }
        deadline = time.monotonic() + START_S
        while not engine.session:
            try:
                engine.send("NewSession", {"capabilities": {"alwaysMatch": wanted}})
            except httpx2.TransportError:
                assert time.monotonic() < deadline, "WebKitGTK's driver did not start"
                time.sleep(0.2)
        yield engine
        engine.send("DeleteSession", {})


@contextlib.contextmanager
def _running(command: list[str], folder: Path) -> Iterator[None]:
    """Run a program in a home of its own; end it and what it started."""
    environment = {**os.environ, "HOME": str(folder), "XDG_DATA_HOME": str(folder)}
    with (folder / "log").open("wb") as log:
        process = subprocess.Popen(  # noqa: S603 - a browser and fixed words
            command, env=environment, stdout=log, stderr=log, start_new_session=True
        )
        try:
            yield
        finally:
            with contextlib.suppress(ProcessLookupError):
                os.killpg(process.pid, signal.SIGTERM)
            with contextlib.suppress(subprocess.TimeoutExpired):
                process.wait(timeout=10)
            with contextlib.suppress(ProcessLookupError):
                os.killpg(process.pid, signal.SIGKILL)


def missing(name: str) -> str | None:
    """Return which Debian packages an engine needs and are not there."""
    if name == "firefox":
        found = shutil.which("firefox-esr") or shutil.which("firefox")
        return None if found else "firefox-esr"
    needed = {
        "webkit2gtk-driver": shutil.which("WebKitWebDriver") and MINI_BROWSER.exists(),
        "xvfb": shutil.which("xvfb-run"),
    }
    return " ".join(name for name, found in needed.items() if not found) or None


ENGINES = {"firefox": firefox, "webkit": webkit}


# --- a phone in a person's hand ---------------------------------------------------

_FIND = """
const [what, name] = arguments;
const shown = (e) => e.getClientRects().length > 0;
const plain = (text) => text.replace(/\\s+/g, " ").trim();
const named = (e) => e.getAttribute("aria-label") ?? plain(e.innerText);
if (what === "css") return [...document.querySelectorAll(name)].at(0) ?? null;
if (what === "field") {
  const label = [...document.querySelectorAll("label")].find(
    (e) => shown(e) && plain(e.innerText).startsWith(name));
  return label ? document.getElementById(label.htmlFor) : null;
}
return [...document.querySelectorAll("a, button, label.button")].find(
  (e) => shown(e) && named(e).startsWith(name)) ?? null;
"""


@dataclass
class EnginePhone:
    """The page in a browser of another make."""

    engine: Engine
    url: str
    shots: Path | None = None

    def open(self, path: str = "") -> None:
        """Open a screen by its address."""
        self.engine.send("Navigate", {"url": f"{self.url}#/{path}"})

    def script(self, text: str, *values: Any) -> Any:
        """Run a script that returns something."""
        return self.engine.send("ExecuteScript", {"script": text, "args": [*values]})

    def wait(self, script: str, what: str = "") -> Any:
        """Wait until a script returns what counts as true; return that."""
        deadline = time.monotonic() + PATIENCE_S
        while not (found := self.script(script)):
            text = self.script("return document.body.innerText.slice(0, 600)")
            assert time.monotonic() < deadline, f"{what or script}; shown is: {text}"
            time.sleep(0.1)
        return found

    def find(self, what: str, name: str) -> str:
        """Return the identifier of a "css", "field" or "press" element."""
        deadline = time.monotonic() + PATIENCE_S
        while True:
            found = self.script(_FIND, what, name)
            if found is not None:
                return str(found[ELEMENT])
            text = self.script("return document.body.innerText")
            assert time.monotonic() < deadline, f"no {what} {name!r} in: {text}"
            time.sleep(0.1)

    def press(self, name: str) -> None:
        """Press a button or link whose name begins so."""
        self.click("press", name)

    def click(self, what: str, name: str) -> None:
        """Press an element."""
        self._do("ElementClick", what, name)

    def _do(self, command: str, what: str, name: str, **values: str) -> None:
        """Do something to an element that may be laid anew meanwhile."""
        deadline = time.monotonic() + PATIENCE_S
        while True:
            try:
                self.engine.send(command, {"id": self.find(what, name), **values})
            except EngineError as error:
                passing = ("stale", "intercepted", "interactable", "no such element")
                known = any(word in str(error) for word in passing)
                if not known or time.monotonic() > deadline:
                    raise
                time.sleep(0.2)
            else:
                return

    def come_back(self) -> None:
        """Load the page anew; without a service worker open it, as from a tab."""
        if self.script("return isSecureContext"):
            # The driver's own way would ask neither cache nor service worker.
            self.script("window.old = true; setTimeout(() => location.reload(), 10)")
            self.wait("return !window.old")
            return
        address = self.script("return location.href")
        self.engine.send("Navigate", {"url": "about:blank"})
        self.engine.send("Navigate", {"url": address})

    def type(self, field_name: str, text: str, *, what: str = "field") -> None:
        """Type into a field, by its label; a path into a file chooser."""
        self._do("ElementSendKeys", what, field_name, text=text)

    def title(self, text: str) -> None:
        """Wait for a screen."""
        script = f"return document.getElementById('title').innerText.includes({text!r})"
        self.wait(script, f"the screen {text!r} did not come")

    def shows(self, text: str) -> None:
        """Wait for words on the screen."""
        words = json.dumps(text)
        shown = "document.body.innerText.replaceAll('\\u00a0', ' ')"
        self.wait(f"return {shown}.includes({words})", text)

    def sent(self) -> None:
        """Wait until nothing waits to be sent."""
        deadline = time.monotonic() + PATIENCE_S
        while not self.engine.send(
            "ExecuteAsyncScript", {"script": _NOTHING_WAITS, "args": []}
        ):
            assert time.monotonic() < deadline, "something is still waiting"
            time.sleep(0.2)

    def slide(self, start: list[float], end: list[float], finger: str) -> None:
        """Put a finger (or where there is none a mouse) down, slide it, lift it."""

        def move(point: list[float]) -> dict[str, Any]:
            x, y = round(point[0]), round(point[1])
            return {"type": "pointerMove", "duration": 50, "x": x, "y": y}

        way = [
            [s + (e - s) * k / 5 for s, e in zip(start, end, strict=True)]
            for k in range(1, 6)
        ]
        actions = [move(start), {"type": "pointerDown", "button": 0}]
        actions += [move(point) for point in way]
        actions.append({"type": "pointerUp", "button": 0})
        pointer = {
            "type": "pointer",
            "id": "finger",
            "parameters": {"pointerType": finger},
            "actions": actions,
        }
        self.engine.send("PerformActions", {"actions": [pointer]})

    def picture(self, name: str) -> None:
        """Keep a picture of the screen where somebody wants to look at it."""
        if self.shots is not None:
            found = self.engine.send("TakeScreenshot", {"full": False})
            self.shots.mkdir(parents=True, exist_ok=True)
            (self.shots / f"{name}.png").write_bytes(base64.b64decode(found))


_NOTHING_WAITS = """
const answer = arguments[arguments.length - 1];
const request = indexedDB.open("fishmeasure");
request.onerror = () => answer(false);
request.onsuccess = async () => {
  const all = (store) => new Promise((done) => {
    const found = request.result.transaction(store).objectStore(store).getAll();
    found.onsuccess = () => done(found.result);
  });
  const stores = await Promise.all(["photos", "samples", "writes"].map(all));
  request.result.close();
  const done = ["measured", "saved", "refused"];
  answer(stores.flat().every((record) => done.includes(record.state)));
};
"""
