"""Every error that the API's description names can be met, with the one body."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from starlette.testclient import TestClient

from api.app import create_app
from api.errors import ApiError, status_of
from api.openapi import ERRORS
from api.settings import Settings
from fishmeasure.base.errors import (
    BookBusyError,
    BookNewerError,
    BookUnreadableError,
    BookWriteError,
    FishMeasureError,
)
from fishmeasure.store.book import Book

BODY = {"code", "message", "advice", "parameters", "details"}


@pytest.fixture
def blunt(settings: Settings) -> Iterator[TestClient]:
    """Return a client that is answered 500 where another test would see the error."""
    app = create_app(settings)
    with TestClient(app, raise_server_exceptions=False) as client:
        yield client


def unit(client: TestClient, name: str = "") -> str:
    identity = str(uuid4())
    sent = {
        "id": identity,
        "name": name or identity[:8],
        "kind": "tank",
        "volume_m3": 6.0,
        "depth_m": 1.0,
    }
    answer = client.put(f"/v1/units/{identity}", json=sent)
    assert answer.status_code == 200, answer.text
    return identity


def refused(answer: Any) -> tuple[int, str]:
    body = answer.json()
    assert set(body) == BODY
    assert body["message"]
    return answer.status_code, body["code"]


def test_two_units_cannot_have_one_name(client: TestClient) -> None:
    """Whatever its case."""
    unit(client, "Spring tank")
    other: dict[str, Any] = {"id": str(uuid4()), "name": "SPRING TANK", "kind": "tank"}
    other |= {"volume_m3": 2.0, "depth_m": 1.0}
    answer = client.put(f"/v1/units/{other['id']}", json=other)
    assert refused(answer) == (409, "name-taken")


def test_an_entry_is_replaced_once(client: TestClient) -> None:
    """The second correction of one entry is told."""
    where = {"unit_id": unit(client), "on": "2026-05-02", "kind": "feed"}
    first = {**where, "id": str(uuid4()), "feed_kg": 10.0}
    second = {**where, "id": str(uuid4()), "feed_kg": 1.0, "replaces": first["id"]}
    late = {**second, "id": str(uuid4()), "feed_kg": 2.0}
    sent = client.post("/v1/entries", json={"entries": [first, second]})
    assert sent.status_code == 200
    answer = client.post("/v1/entries", json={"entries": [late]})
    assert refused(answer) == (409, "already-replaced")


def test_an_entry_that_contradicts_itself_is_refused(client: TestClient) -> None:
    """A reading without a figure has the right fields and says nothing."""
    entry = {"kind": "water", "id": str(uuid4()), "on": "2026-05-02"}
    entry["unit_id"] = unit(client)
    answer = client.post("/v1/entries", json={"entries": [entry]})
    assert refused(answer) == (422, "bad-entry")


@pytest.mark.parametrize(
    ("error", "status", "code"),
    [
        (BookBusyError(10.0), 503, "book-busy"),
        (BookWriteError("disk I/O error"), 503, "book-write"),
        (BookUnreadableError("book.sqlite", "no such file"), 503, "book-unreadable"),
        (BookNewerError("r9999"), 503, "book-newer"),
    ],
)
def test_a_book_in_trouble_is_said(
    client: TestClient,
    monkeypatch: pytest.MonkeyPatch,
    error: FishMeasureError,
    status: int,
    code: str,
) -> None:
    """With the time after which to come again; the server is not ready meanwhile."""

    def fails(_: Book) -> None:
        raise error

    with monkeypatch.context() as broken:
        broken.setattr(Book, "units", fails)
        for path in ("/v1/units", "/ready"):
            answer = client.get(path)
            assert refused(answer) == (status, code)
            assert int(answer.headers["Retry-After"]) > 0
    assert client.get("/ready").status_code == 200


def test_a_full_pool_says_when_to_come_again(
    client: TestClient, net_photo: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    """503 with Retry-After (RFC 9110, 10.2.3); nothing is kept, and later it works."""
    pool = client.app.state.services.pool  # type: ignore[attr-defined]
    files = {"photos": ("a.jpg", net_photo)}
    with monkeypatch.context() as full:
        full.setattr(pool, "_limit", 0)
        answer = client.post("/v1/photos", files=files)
        assert refused(answer) == (503, "busy")
        assert int(answer.headers["Retry-After"]) > 0
        assert client.get("/v1/photos").json()["items"] == []
    assert client.post("/v1/photos", files=files).status_code == 200


def test_what_was_not_foreseen_tells_nothing_of_the_inside(
    blunt: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """500 with the one body; the trace is in the log alone."""

    def fails(_: Book) -> None:
        message = "secret of the inside"
        raise RuntimeError(message)

    monkeypatch.setattr(Book, "units", fails)
    answer = blunt.get("/v1/units")
    assert refused(answer) == (500, "internal")
    assert "secret" not in answer.text


@pytest.mark.parametrize(
    ("method", "path", "status", "code"),
    [
        ("DELETE", "/v1/units", 405, "wrong-method"),
        ("GET", "/v1/nothing", 404, "not-found"),
        ("POST", "/v1/photos", 422, "invalid-request"),
    ],
)
def test_a_wrong_request_has_the_one_body(
    client: TestClient, method: str, path: str, status: int, code: str
) -> None:
    """RFC 9110: 405 with the methods allowed, 404 for no such path."""
    answer = client.request(method, path)
    assert refused(answer) == (status, code)
    assert (status == 405) == ("Allow" in answer.headers)


def test_a_body_that_is_no_form_is_refused(client: TestClient) -> None:
    """RFC 7578: a multipart body needs its boundary."""
    answer = client.post(
        "/v1/photos",
        content=b"--x\r\nbroken",
        headers={"Content-Type": "multipart/form-data"},
    )
    assert refused(answer)[1] in {"bad-request", "invalid-request"}


def test_every_error_of_the_description_is_met_by_a_test() -> None:
    """A code in the description that no test of the API names is a promise only."""
    documented = {
        code
        for status, words, _ in ERRORS
        if status != 304
        for inside in re.findall(r"\(([a-z, -]+)\)", words)
        for code in inside.split(", ")
    }
    assert len(documented) > 20
    texts = "".join(p.read_text() for p in Path(__file__).parent.glob("test_*.py"))
    untested = {code for code in documented if f'"{code}"' not in texts}
    assert untested == set()


def test_every_error_class_has_a_status_of_its_family() -> None:
    """An error of the server's own is in the description under its status."""
    by_status = {status: words for status, words, _ in ERRORS}
    for kind in ApiError.__subclasses__():
        if "code" not in vars(kind):
            continue  # its code is given by what it carries
        assert kind.status in by_status, kind
        if kind.status != 422:
            assert kind.code in by_status[kind.status], kind
    assert status_of(FishMeasureError()) == 422
