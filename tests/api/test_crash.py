"""A decoder that crashes costs one photo, whatever the server was asked for."""

import ctypes
import io
import os
import signal
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageFile
from starlette.testclient import TestClient

from api import worker
from api.app import create_app
from api.settings import Settings
from fishmeasure.base.words import Voice
from tests.api.load import stamped

MARK = b"CRASH"


def _load(image: Any) -> Any:
    """Stand in for the decoder: read from address 0, as a broken decoder does."""
    del image
    return ctypes.string_at(0)


def _break_decoder() -> None:
    for kind in (Image.Image, ImageFile.ImageFile):
        kind.load = _load  # type: ignore[method-assign, assignment]  # it ends soon


def take_in(upload: Path, name: str, how: Any, folder: Path) -> Any:
    if MARK in upload.read_bytes():
        _break_decoder()
    return worker.take_in(upload, name, how, folder)


def killed(upload: Path, name: str, how: Any, folder: Path) -> Any:
    """End as a process does for which there is no memory."""
    del upload, name, how, folder
    os.kill(os.getpid(), signal.SIGKILL)


def shrink(path: Path, width_px: int) -> bytes:
    _break_decoder()
    return worker.shrink(path, width_px)


def draw(path: Path, measurement: Any, in_voice: Voice) -> bytes:
    _break_decoder()
    return worker.draw(path, measurement, in_voice)


def measure_again(path: Path, name: str, how: Any) -> Any:
    _break_decoder()
    return worker.measure_again(path, name, how)


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """Return a client of a server with one worker."""
    settings = Settings(
        data_dir=tmp_path_factory.mktemp("crash"), workers=1, hosts="testserver"
    )
    with TestClient(create_app(settings), raise_server_exceptions=False) as fresh:
        yield fresh


def photo(number: int, comment: bytes = b"") -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (320, 240), "grey").save(out, "JPEG", comment=comment)
    return stamped(out.getvalue(), number)


def failed(answer: Any) -> bool:
    body = answer.json()
    assert set(body) == {"code", "message", "advice", "parameters", "details"}
    assert body["advice"]
    return (answer.status_code, body["code"]) == (422, "measuring-failed")


def test_a_crash_amid_decoding_costs_one_photo_of_an_upload(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """SIGSEGV in the worker: its photo is refused, those around it are kept."""
    monkeypatch.setattr("api.routes.photos.worker.take_in", take_in)
    files = [
        ("photos", ("first.jpg", photo(1))),
        ("photos", ("crash.jpg", photo(2, MARK))),
        ("photos", ("last.jpg", photo(3))),
    ]
    answer = client.post("/v1/photos", files=files)
    assert answer.status_code == 200, answer.text
    first, crashed, last = answer.json()["items"]
    assert crashed["error"]["code"] == "measuring-failed"
    assert first["id"] != last["id"]
    assert failed(client.post("/v1/photos", files=files[1:2]))
    monkeypatch.undo()
    kept = {item["id"] for item in client.get("/v1/photos").json()["items"]}
    assert kept == {first["id"], last["id"]}
    # The photo is not remembered as broken: a decoder that is mended takes it.
    assert client.post("/v1/photos", files=files[1:2]).status_code == 200


@pytest.mark.parametrize(
    ("name", "broken", "method", "path"),
    [
        ("shrink", shrink, "GET", "/thumbnail.jpg"),
        ("shrink", shrink, "GET", "/picture"),
        ("draw", draw, "GET", "/overlay.jpg"),
        ("measure_again", measure_again, "PUT", "/settings"),
    ],
)
def test_a_crash_of_a_kept_photo_is_told(
    client: TestClient,
    monkeypatch: pytest.MonkeyPatch,
    name: str,
    broken: Any,
    method: str,
    path: str,
) -> None:
    """For its pictures and a new measurement; the next request is answered."""
    sent = client.post("/v1/photos", files={"photos": ("a.jpg", photo(4))}).json()
    before = sent["items"][0]
    address = f"/v1/photos/{before['id']}{path}"
    body = {"print_scale": 0.97} if method == "PUT" else None
    with monkeypatch.context() as patched:
        patched.setattr(f"api.routes.photos.worker.{name}", broken)
        assert failed(client.request(method, address, json=body))
        assert client.get("/health").status_code == 200
    assert client.get(f"/v1/photos/{before['id']}").json() == before
    assert client.request(method, address, json=body).status_code == 200
    client.put(f"/v1/photos/{before['id']}/settings", json={})


def test_a_photo_whose_workers_are_killed_is_not_judged(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A phone keeps what is answered 503, and sends it later (RFC 9110, 15.6.4)."""
    files = {"photos": ("a.jpg", photo(5))}
    with monkeypatch.context() as patched:
        patched.setattr("api.routes.photos.worker.take_in", killed)
        answer = client.post("/v1/photos", files=files)
    assert (answer.status_code, answer.json()["code"]) == (503, "workers-lost")
    assert int(answer.headers["Retry-After"]) > 0
    assert client.post("/v1/photos", files=files).status_code == 200
