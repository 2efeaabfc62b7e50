"""Who is let in: hosts, origins, paired devices."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from api.app import create_app
from api.errors import WrongCodeError
from api.pairing import MAX_FAILURES, PAUSE_S, Pairing
from api.settings import SettingError, Settings, settings_table


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
    assert guarded.get("/v1/about").json()["require_token"] is True


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
    """After some wrong codes even the right one must wait."""
    for _ in range(MAX_FAILURES):
        assert pair(guarded, "0")[0] == 403
    answer = guarded.post("/v1/devices", json={"code": codes[-1], "name": "x"})
    assert (answer.status_code, answer.json()["code"]) == (429, "too-many-tries")
    assert 0 < int(answer.headers["Retry-After"]) <= PAUSE_S + 1


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
        pairing.pair("", "a phone", services.archive)
    assert len(shown) == 1
