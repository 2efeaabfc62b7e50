"""Who may ask for what: every route, every role, behind prefixes, in odd spellings."""

import asyncio
import json
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from urllib.parse import unquote
from uuid import UUID, uuid4

import pytest
from fastapi import APIRouter, Request
from starlette.testclient import TestClient

from api import access
from api.access import COOKIE, READER, WORKER, check_all_closed, closed_router
from api.app import ROUTERS, create_app
from api.pairing import token_hash
from api.settings import Settings
from fishmeasure.base.errors import BookWriteError
from fishmeasure.store.devices import ROLES, Device, Devices, Role

PREFIXES = ["", "/fish", "/v1", "/health"]
ANYONE = {
    ("GET", "/"),
    ("GET", "/worker.js"),
    ("GET", "/manifest.webmanifest"),
    ("GET", "/page-version.json"),
    ("GET", "/page/{page_version}/{name:path}"),
    ("GET", "/health"),
    ("GET", "/ready"),
    ("POST", "/v1/devices"),
}
ENTERS = {
    ("POST", "/v1/entries"),
    ("POST", "/v1/cohorts/{cohort_id}/fit"),
    ("POST", "/v1/photos"),
    ("GET", "/v1/uploads/{upload_id}"),
    ("PATCH", "/v1/uploads/{upload_id}"),
    ("POST", "/v1/uploads/{upload_id}/photo"),
    ("PUT", "/v1/photos/{photo_id}/corrections"),
    ("PUT", "/v1/photos/{photo_id}/settings"),
    ("PUT", "/v1/samples/{sample_id}"),
    ("DELETE", "/v1/samples/{sample_id}"),
    ("POST", "/v1/samples/{sample_id}/record"),
}
OWNS = {
    ("PUT", "/v1/units/{unit_id}"),
    ("PUT", "/v1/cohorts/{cohort_id}"),
    ("PUT", "/v1/lenses/{name}"),
    ("POST", "/v1/import"),
    ("POST", "/v1/demo"),
    ("DELETE", "/v1/photos/{photo_id}"),
    ("GET", "/v1/devices/list"),
    ("POST", "/v1/devices/invitations"),
    ("PUT", "/v1/devices/{device_id}"),
    ("DELETE", "/v1/devices/{device_id}"),
}
"""What changes nothing is for every paired device, the calculations among it."""


def all_routes() -> list[tuple[str, str]]:
    """Return method and path of each route, also of those that are not described."""
    found: list[Any] = [route for router in ROUTERS for route in router.routes]
    return sorted((m, route.path) for route in found for m in route.methods or ())


def least(method: str, path: str) -> Role | None:
    """Return who may ask for a route, by the tables above."""
    if (method, path) in ANYONE:
        return None
    if (method, path) in ENTERS:
        return "worker"
    if (method, path) in OWNS:
        return "owner"
    assert method == "GET" or path.startswith("/v1/calculations/"), (method, path)
    return "reader"


def add(client: TestClient, role: Role, **more: Any) -> str:
    """Pair a device of a role; return its token."""
    token = uuid4().hex
    device = Device(
        id=uuid4(), name=f"{role}'s", paired_at=datetime.now(UTC), role=role, **more
    )
    devices_of(client).add(device, token_hash(token))
    return token


def devices_of(client: TestClient) -> Devices:
    app: Any = client.app
    devices: Devices = app.state.services.book.devices
    return devices


@contextmanager
def serving(folder: Path, prefix: str = "") -> Iterator[TestClient]:
    """Give a client of a server that wants its devices paired."""
    settings = Settings(
        data_dir=folder, workers=1, hosts="testserver", require_token=True
    )
    app = create_app(settings, announce=lambda _: None)
    with TestClient(app, root_path=prefix, follow_redirects=False) as client:
        yield client


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    """Return such a client."""
    with serving(tmp_path) as client:
        yield client


@pytest.mark.parametrize("prefix", PREFIXES)
def test_every_route_lets_in_whom_it_is_for(prefix: str, tmp_path: Path) -> None:
    """Nobody without a token, and no role below its own; before the body is read."""
    routes = all_routes()
    assert len(routes) > 60
    with serving(tmp_path, prefix) as client:
        tokens = {role: add(client, role) for role in ROLES}
        # Behind a prefix the roles are told apart as they are without one.
        roles: tuple[Role | None, ...] = (None, *ROLES) if prefix == "" else (None,)
        for method, path in routes:
            for role in roles:
                token = "" if role is None else tokens[role]
                sent = (prefix + path, token)
                status, body = asyncio.run(asked(client.app, prefix, method, *sent))
                told = outcome(least(method, path), role)
                assert (status, code_of(body)) == told or (
                    told is None and status not in {401, 403}
                ), (method, path, role)


def outcome(wanted: Role | None, role: Role | None) -> tuple[int, str] | None:
    """Return status and code of a refusal, None where the request is let in."""
    if wanted is None:
        return None
    if role is None:
        return 401, "not-paired"
    return (403, "not-allowed") if ROLES.index(role) < ROLES.index(wanted) else None


def code_of(body: bytes) -> str:
    """Return the code of an error."""
    try:
        return str(json.loads(body)["code"])
    except (ValueError, KeyError, TypeError):
        return ""


def test_a_route_that_names_nobody_stops_the_program() -> None:
    """When it is declared, and again when the server starts."""
    router = closed_router("/v1/secret")
    for dependencies in ([], [READER, WORKER]):
        with pytest.raises(ValueError, match="does not say who may ask"):
            router.get("", dependencies=dependencies)(lambda: "secret")
    careless = APIRouter()
    careless.get("/v1/secret", dependencies=[READER])(lambda: "secret")
    with pytest.raises(ValueError, match="/v1/secret does not say"):
        check_all_closed(careless.routes)


SPELLINGS = (
    *("//v1/units", "/v1//units", "/v1/units/", "/v1/./units", "/./v1/units"),
    *("/V1/units", "/v1/Units", "/v1/UNITS", "/v1/units;x=1", "/v1/units%00"),
    *("/%76%31/units", "/v1/%75nits", "/v1%2funits", "/v1/%2e/units"),
    *("/health/../v1/units", "/health/%2e%2e/v1/units", "/page/../v1/units"),
    *("/page/x/%2e%2e/%2e%2e/v1/units", "/v1/about/../units", "/v1/about%2f"),
    *("/nothing", "/fish", "/fish/fish/v1/units", "/v1", "/metrics/"),
    *("//metrics", "/fish//v1/units", "/v1/units?x=/health", "/fish/v1/units"),
    *("/v1/units%2f", "/v1/units%20", "/v1/units?", "/v1/units#", "/v1\\units"),
)


METHODS = ("GET", "HEAD", "OPTIONS", "POST", "get", "PATCH")


@pytest.mark.parametrize("prefix", ["", "/fish"])
def test_another_spelling_is_no_way_in(prefix: str, tmp_path: Path) -> None:
    """It is another address, or the same that asks for a token; never what is kept."""
    written = {*SPELLINGS, *(prefix + one for one in SPELLINGS)}
    with serving(tmp_path, prefix) as client:
        for path in sorted(written):
            for method in METHODS:
                status, body = asyncio.run(asked(client.app, prefix, method, path))
                told = {204} if method == "OPTIONS" else {401, 404, 405}
                assert status in told | {404}, (method, path)
                assert b"items" not in body
                assert not body or method != "HEAD"


async def asked(
    app: Any, prefix: str, method: str, written: str, token: str = ""
) -> tuple[int, bytes]:
    """Ask as uvicorn does: the path unquoted, not tidied, and the prefix beside it.

    What is sent is no JSON: an answer that says so has read it.
    """
    raw, _, query = written.partition("?")
    sent: list[dict[str, Any]] = []

    messages = [{"type": "http.request", "body": b"{", "more_body": False}]

    async def receive() -> dict[str, Any]:
        if messages:
            return messages.pop()
        await asyncio.sleep(60)
        return {"type": "http.disconnect"}

    async def send(message: Any) -> None:
        sent.append(message)

    scope = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": method,
        "scheme": "http",
        "path": unquote(raw),
        "raw_path": raw.encode(),
        "query_string": query.encode(),
        "root_path": prefix,
        "headers": [
            (b"host", b"testserver"),
            (b"content-length", b"1"),
            *([(b"authorization", f"Bearer {token}".encode())] if token else []),
        ],
        "client": ("192.0.2.7", 5),
        "server": ("testserver", 80),
    }
    await app(scope, receive, send)
    return sent[0]["status"], b"".join(part.get("body", b"") for part in sent)


def test_a_body_is_not_read_for_somebody_who_may_not(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nor put on disk: else anybody could fill memory with what is then refused."""
    reader = {"Authorization": f"Bearer {add(client, 'reader')}"}

    kind = {"Content-Type": "multipart/form-data; boundary=x"}

    def refused(*_: Any, **__: Any) -> None:
        msg = "the body was read"
        raise AssertionError(msg)

    monkeypatch.setattr(Request, "form", refused)
    nobody: dict[str, str] = {}
    for headers, status in ((nobody, 401), (reader, 403)):
        answer = client.post("/v1/photos", content=b"--x", headers=kind | headers)
        assert answer.status_code == status


def test_a_device_that_nobody_uses_is_shut_out(client: TestClient) -> None:
    """Its token ends; one that is used is let in for as long again."""
    now = datetime.now(UTC)
    ended = add(client, "owner", ends_at=now - timedelta(seconds=1))
    used = add(client, "owner", ends_at=now + timedelta(days=1))
    old = add(client, "owner")  # paired by an older program
    for token, status in ((ended, 401), (used, 200), (old, 200)):
        headers = {"Authorization": f"Bearer {token}"}
        assert client.get("/v1/units", headers=headers).status_code == status
    for token in (used, old):
        device = devices_of(client).of_token(token_hash(token))
        assert device is not None
        assert device.last_seen_at is not None
        assert device.ends_at is not None
        assert timedelta(days=179) < device.ends_at - now < timedelta(days=181)


def test_the_browsers_cookie_is_renewed_with_its_token(client: TestClient) -> None:
    """Once in a while, not at each request; what sends a header gets none."""
    token = add(client, "reader")
    first = client.get("/v1/units", headers={"Cookie": f"{COOKIE}={token}"})
    second = client.get("/v1/units", headers={"Cookie": f"{COOKIE}={token}"})
    other = add(client, "reader")
    third = client.get("/v1/units", headers={"Authorization": f"Bearer {other}"})
    assert f"{COOKIE}={token}" in first.headers["Set-Cookie"]
    assert f"Max-Age={180 * 86400}" in first.headers["Set-Cookie"]
    assert "Set-Cookie" not in second.headers
    assert "Set-Cookie" not in third.headers


def test_a_book_that_takes_no_writes_turns_nobody_away(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When a device was seen is not noted then, and not tried at each request."""
    tried: list[UUID] = []

    def full(_: Devices, identity: UUID, *__: Any) -> None:
        tried.append(identity)
        raise BookWriteError("full")

    monkeypatch.setattr(Devices, "seen", full)
    headers = {"Authorization": f"Bearer {add(client, 'reader')}"}
    for _ in range(5):
        assert client.get("/v1/units", headers=headers).status_code == 200
    assert len(tried) == 1


def test_where_nobody_is_paired_whoever_asks_is_the_owner(tmp_path: Path) -> None:
    """A server for this machine alone; what is entered there names nobody."""
    settings = Settings(data_dir=tmp_path, workers=1, hosts="testserver")
    with TestClient(create_app(settings)) as client:
        me = client.get("/v1/devices/me").json()
    assert me == {"role": "owner", "device": None}
    assert access.Caller().author.name == ""
