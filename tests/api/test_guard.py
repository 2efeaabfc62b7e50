"""Who is let in: hosts, origins, paired devices."""

import secrets
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from api.app import create_app
from api.errors import TooManyTriesError, WrongCodeError
from api.pairing import (
    MAX_FAILURES,
    PAUSE_S,
    Pairing,
    Sender,
    network_of,
    token_hash,
)
from api.settings import SettingError, Settings, settings_table
from fishmeasure.store.devices import Devices

SENDER = Sender(address="192.0.2.1", lasts=timedelta(days=1))


@pytest.fixture
def codes() -> list[str]:
    """Return the list that gets each code that is announced."""
    return []


@pytest.fixture
def guarded(tmp_path: Path, codes: list[str]) -> Iterator[TestClient]:
    """Return a client of a server that wants its devices paired."""
    settings = Settings(
        data_dir=tmp_path, workers=1, hosts="testserver", require_token=True
    )
    with TestClient(create_app(settings, announce=codes.append)) as client:
        yield client


def pair(client: TestClient, code: str) -> tuple[int, str]:
    answer = client.post("/v1/devices", json={"code": code, "name": "a phone"})
    return answer.status_code, answer.json().get("token", answer.json().get("code"))


def test_an_unpaired_device_gets_nothing_but_the_way_in(guarded: TestClient) -> None:
    """Health and the pairing itself are open, all else is 401."""
    for path in ("/v1/photos", "/v1/units", "/v1/samples", "/v1/devices/list"):
        answer = guarded.get(path)
        assert (answer.status_code, answer.json()["code"]) == (401, "not-paired")
    assert guarded.get("/health").status_code == 200


def test_a_token_is_taken_from_header_and_cookie_alone(
    guarded: TestClient, codes: list[str]
) -> None:
    """One in an address would stand in logs and histories."""
    _, token = pair(guarded, codes[-1])
    guarded.cookies.clear()
    for path in (f"/v1/units?token={token}", f"/v1/units?access_token={token}"):
        assert guarded.get(path).status_code == 401
    wrong = [
        f"Bearer {token[:-1]}",
        f"Bearer {token}x",
        f"Bearer {token.swapcase()}",
        f"Bearer {token_hash(token)}",  # what a thief of the book has
        f"Basic {token}",
        token,
        "Bearer",
        "Bearer  ",
        "Bearer " + "x" * 8000,
        "Bearer ' OR 1=1 --",
    ]
    for value in wrong:
        assert (
            guarded.get("/v1/units", headers={"Authorization": value}).status_code
            == 401
        )
    assert guarded.post("/v1/entries", json={"token": token}).status_code == 401
    allowed = {"Authorization": f"bearer {token}"}  # RFC 9110, 11.1: any case
    assert guarded.get("/v1/units", headers=allowed).status_code == 200


def test_secrets_are_compared_in_a_time_that_tells_nothing(
    guarded: TestClient, codes: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Codes by compare_digest; of a token only its hash, which nobody can steer, is
    looked for."""
    compared: list[bytes] = []
    looked_for: list[str] = []
    services = guarded.app.state.services  # type: ignore[attr-defined]
    compare, find = secrets.compare_digest, services.book.devices.of_token

    def spy(left: bytes, right: bytes) -> bool:
        compared.append(left)
        return compare(left, right)

    def find_spy(_: Devices, digest: str) -> Any:
        looked_for.append(digest)
        return find(digest)

    monkeypatch.setattr("api.pairing.secrets.compare_digest", spy)
    monkeypatch.setattr(Devices, "of_token", find_spy)
    assert pair(guarded, "12345678")[0] == 403
    _, token = pair(guarded, codes[-1])
    assert compared[0] == b"12345678"
    assert len(compared) == 2
    assert guarded.get("/v1/units").status_code == 200
    assert looked_for == [token_hash(token)]
    assert len(token) >= 43  # 256 bits in base64


def test_guesses_at_once_are_counted_one_by_one(guarded: TestClient) -> None:
    """Forty threads do not get forty guesses."""
    with ThreadPoolExecutor(40) as pool:
        answers = list(pool.map(lambda n: pair(guarded, f"{n:08d}")[0], range(40)))
    assert answers.count(403) <= MAX_FAILURES
    assert answers.count(429) >= 40 - MAX_FAILURES


@pytest.mark.parametrize("https", [True, False])
def test_the_cookie_is_out_of_reach_of_scripts_and_other_pages(
    tmp_path: Path, *, https: bool
) -> None:
    """HttpOnly, SameSite=Strict, and Secure over HTTPS (RFC 6265bis, 4.1.2)."""
    codes: list[str] = []
    settings = Settings(
        data_dir=tmp_path,
        workers=1,
        hosts="testserver",
        require_token=True,
        secure_cookies=https,
    )
    with TestClient(create_app(settings, announce=codes.append)) as client:
        body = {"code": codes[-1], "name": "a phone"}
        cookie = client.post("/v1/devices", json=body).headers["Set-Cookie"].lower()
    assert {"httponly", "samesite=strict", "path=/"} <= set(cookie.split("; "))
    assert ("secure" in cookie.split("; ")) == https
    assert "domain=" not in cookie


def test_the_code_pairs_one_device(guarded: TestClient, codes: list[str]) -> None:
    """The token works as a header and as a cookie; the code is then used up."""
    used = codes[-1]
    status, token = pair(guarded, f"{used[:4]} {used[4:]}")
    assert status == 201
    assert guarded.get("/v1/units").status_code == 200  # the cookie
    guarded.cookies.clear()
    assert guarded.get("/v1/units").status_code == 401
    bearer = {"Authorization": f"Bearer {token}"}
    assert guarded.get("/v1/units", headers=bearer).status_code == 200
    assert pair(guarded, used)[0] == 403
    assert len(codes) == 2


def test_an_unpaired_token_is_worth_nothing(
    guarded: TestClient, codes: list[str]
) -> None:
    """A lost phone is shut out."""
    _, token = pair(guarded, codes[-1])
    bearer = {"Authorization": f"Bearer {token}"}
    device = guarded.get("/v1/devices/list", headers=bearer).json()["items"][0]
    gone = guarded.delete(f"/v1/devices/{device['id']}", headers=bearer)
    assert gone.status_code == 204
    guarded.cookies.clear()
    assert guarded.get("/v1/units", headers=bearer).status_code == 401


def test_guessing_codes_is_stopped(guarded: TestClient, codes: list[str]) -> None:
    """After some wrong codes even the right one from there must wait."""
    for _ in range(MAX_FAILURES):
        assert pair(guarded, "0")[0] == 403
    answer = guarded.post("/v1/devices", json={"code": codes[-1], "name": "x"})
    assert (answer.status_code, answer.json()["code"]) == (429, "too-many-tries")
    assert 0 < int(answer.headers["Retry-After"]) <= PAUSE_S + 1


def test_a_guesser_shuts_out_nobody_else(guarded: TestClient, codes: list[str]) -> None:
    """The code shown stays good, and the owner's phone is paired by it at once."""
    for number in range(20):
        assert pair(guarded, f"{number}")[0] in {403, 429}
    assert len(codes) == 1
    phone = TestClient(guarded.app, client=("192.0.2.9", 50000))
    assert pair(phone, codes[0])[0] == 201
    assert pair(guarded, codes[-1]) == (429, "too-many-tries")


def test_one_network_guesses_as_often_as_one_address() -> None:
    """A device has 2^64 addresses of IPv6, and each of IPv4 in another spelling."""
    assert len({network_of(f"2001:db8::{n:x}") for n in range(9)}) == 1
    assert network_of("2001:db8:0:1::1") != network_of("2001:db8:0:2::1")
    assert network_of("::ffff:192.0.2.7") == network_of("192.0.2.7") == "192.0.2.7"
    assert network_of("fe80::1%eth0") == network_of("fe80::2")


def test_guesses_from_one_address_become_rare(client: TestClient) -> None:
    """Nine in the ten minutes of a code, and one an hour in the end."""
    now = [0.0]
    pairing = Pairing(minutes=1e6, announce=lambda _: None, clock=lambda: now[0])
    pairing.renew()
    devices = client.app.state.services.book.devices  # type: ignore[attr-defined]
    guesses, waits = [], set()
    for second in range(24 * 3600):
        now[0] = float(second)
        try:
            pairing.pair("x", "a phone", devices, SENDER)
        except WrongCodeError:
            guesses.append(second)
        except TooManyTriesError as error:
            waits.add(int((error.headers or {})["Retry-After"]))
    assert sum(second < 600 for second in guesses) == 9
    assert sum(second >= 20 * 3600 for second in guesses) == 4
    assert max(waits) <= 3601


def test_an_old_code_is_void(guarded: TestClient, codes: list[str]) -> None:
    """A code expires; a new one is shown."""
    pairing: Pairing = guarded.app.state.pairing  # type: ignore[attr-defined]
    now = pairing.clock()
    pairing.clock = lambda: now + 60 * pairing.minutes + 1
    assert pair(guarded, codes[-1]) == (403, "wrong-code")
    assert pair(guarded, codes[-1])[0] == 201


@pytest.mark.parametrize(
    ("headers", "status", "code"),
    [
        ({"Host": "rebound.example"}, 421, "unknown-host"),
        ({"Origin": "http://elsewhere.example"}, 403, "foreign-origin"),
        ({"Origin": "null"}, 403, "foreign-origin"),
        ({"Sec-Fetch-Site": "cross-site"}, 403, "foreign-origin"),
        ({"Origin": "http://testserver"}, 422, "invalid-request"),
        ({}, 422, "invalid-request"),
    ],
)
def test_other_sites_cannot_write(
    client: TestClient, headers: dict[str, str], status: int, code: str
) -> None:
    """The request's own headers give a foreign page or name away."""
    answer = client.post("/v1/entries", json={}, headers=headers)
    assert (answer.status_code, answer.json()["code"]) == (status, code)


def test_every_answer_has_the_secure_headers(client: TestClient) -> None:
    """Errors too."""
    for path in ("/health", "/nowhere"):
        headers = client.get(path).headers
        assert "default-src 'self'" in headers["Content-Security-Policy"]
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert headers["Referrer-Policy"] == "no-referrer"


def test_settings_come_from_the_environment() -> None:
    """What is given by the caller wins; what cannot be read is named."""
    environ = {"FISHMEASURE_WORKERS": "3", "FISHMEASURE_REQUIRE_TOKEN": "yes"}
    found = Settings.from_environment(environ, queue=1)
    assert (found.workers, found.require_token, found.queue) == (3, True, 1)
    for name, text in (("WORKERS", "many"), ("REQUIRE_TOKEN", "perhaps")):
        with pytest.raises(SettingError, match=f"FISHMEASURE_{name}"):
            Settings.from_environment({f"FISHMEASURE_{name}": text})
    assert all(help_text for _, _, help_text in settings_table())


def test_before_a_code_is_made_nobody_is_paired(client: TestClient) -> None:
    """Soon after a computer's start its clock makes no code too old."""
    services = client.app.state.services  # type: ignore[attr-defined]
    shown: list[str] = []
    pairing = Pairing(minutes=10, announce=shown.append, clock=lambda: 5.0)
    with pytest.raises(WrongCodeError):
        pairing.pair("", "a phone", services.book.devices, SENDER)
    assert len(shown) == 1
