"""Whatever is sent to whatever route, the answer is typed and the log has no trace.

Statuses of 500 and above are 503 and 507 alone, where the description says so.
"""

import json
import logging
import os
from collections.abc import Iterator
from functools import cache
from typing import Any
from uuid import uuid4

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from api.app import create_app
from api.limits import MAX_JSON_BYTES, MAX_JSON_VALUES
from api.settings import Settings
from tests.fuzz import documents
from tests.fuzz.bases import base_photos
from tests.fuzz.nasty import broken, with_strange_values

SAMPLE = "11111111-1111-4111-8111-111111111111"
UNIT = "22222222-2222-4222-8222-222222222222"
DEVICE = "44444444-4444-4444-8444-444444444444"
COHORT = "33333333-3333-4333-8333-333333333333"
ERROR = {"code", "message", "advice", "parameters", "details"}
MOST_ANSWER_BYTES = 100_000
# More of them for a search: FISHMEASURE_TEST_EXAMPLES=5000.
EXAMPLES = int(os.environ.get("FISHMEASURE_TEST_EXAMPLES", "250"))
Json = Any


class Traces(logging.Handler):
    """Keeps what is logged of failures."""

    def __init__(self) -> None:
        super().__init__(logging.ERROR)
        self.found: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep it."""
        self.found.append(self.format(record))

    def taken(self) -> list[str]:
        """Return the last lines of each and forget them."""
        found, self.found = self.found, []
        return [text[-300:] for text in found]


@pytest.fixture(scope="module")
def traces() -> Iterator[Traces]:
    """Return what is logged of failures while the module's tests run."""
    handler = Traces()
    logging.getLogger().addHandler(handler)
    yield handler
    logging.getLogger().removeHandler(handler)


@pytest.fixture(scope="module")
def server(
    tmp_path_factory: pytest.TempPathFactory, traces: Traces
) -> Iterator[TestClient]:
    """Return a client of a server with the spring tanks, a sample and a photo."""
    del traces
    folder = tmp_path_factory.mktemp("server")
    app = create_app(Settings(data_dir=folder, workers=1, hosts="testserver"))
    with TestClient(app, raise_server_exceptions=False) as client:
        assert client.post("/v1/demo", json={"date": "2026-05-02"}).is_success
        files = {"photos": ("a.jpg", base_photos()["net.jpg"])}
        sent = client.post("/v1/photos", files=files)
        client.headers["X-Photo"] = sent.json()["items"][0]["id"]
        for method, path, body in whole_bodies(client):
            if method == "PUT" and path.endswith((UNIT, COHORT, SAMPLE)):
                answer = client.put(path, json=body)
                assert answer.is_success, answer.text
        yield client


@cache
def whole_bodies(client: TestClient) -> tuple[tuple[str, str, Json], ...]:
    """Return method, path and a whole body of every route that takes JSON."""
    exported = client.get("/v1/export.json").json()
    kinds = {e["kind"]: e for e in exported["entries"] if "replaces" not in e}
    unit = {**exported["units"][0], "id": UNIT, "name": "Tank X", "version": 1}
    fish = {"id": COHORT, "species_key": documents.NETS["species"]}
    cohort = {**exported["cohorts"][0], **fish, "name": "Fish X", "version": 1}
    small = {
        "format": exported["format"],
        "version": exported["version"],
        "remarks": {"about": "invented"},
        "units": exported["units"][:1],
        "cohorts": exported["cohorts"][:1],
        "entries": list(kinds.values()),
    }
    photo = f"/v1/photos/{client.headers['X-Photo']}"
    where = {"unit_id": unit["id"], "cohort_id": cohort["id"]}
    return (
        ("PUT", f"/v1/units/{UNIT}", unit),
        ("PUT", f"/v1/cohorts/{COHORT}", cohort),
        ("PUT", f"/v1/samples/{SAMPLE}", {**documents.NETS, **where}),
        ("POST", f"/v1/samples/{SAMPLE}/record", where),
        ("POST", "/v1/entries", {"entries": small["entries"]}),
        ("POST", "/v1/import", small),
        ("POST", "/v1/demo", {"date": "2026-05-02"}),
        ("POST", "/v1/devices", {"code": "1234 5678", "name": "a phone"}),
        ("POST", "/v1/devices/invitations", {"role": "reader"}),
        ("PUT", f"/v1/devices/{DEVICE}", {"name": "a phone", "role": "worker"}),
        ("POST", f"/v1/cohorts/{COHORT}/fit", five_fish(client)),
        ("PUT", f"{photo}/corrections", documents.CORRECTIONS),
        ("PUT", f"{photo}/settings", documents.PHOTO_SETTINGS),
        ("PUT", "/v1/lenses/mine", documents.LENS_BODY),
        *(
            ("POST", f"/v1/calculations/{name}", body)
            for name, body in documents.CALCULATIONS.items()
        ),
    )


def five_fish(client: TestClient) -> Json:
    """Return fish of the photo with weights that a condition factor of 1.2 gives."""
    photo = client.headers["X-Photo"]
    measured = client.get(f"/v1/photos/{photo}").json()["measurement"]["fish"]
    whole = [(n, f) for n, f in enumerate(measured, 1) if f["complete"]][:5]
    fish = [
        {
            "photo": photo,
            "fish": n,
            "weight_g": 1.2e-5 * f["fork_length_mm"] ** 3,
        }
        for n, f in whole
    ]
    return {"unit_id": UNIT, "on": "2026-05-02", "fish": fish}


def check(answer: Any) -> None:
    """Find what every answer must have."""
    assert answer.status_code < 500, answer.text[:500]
    if answer.status_code >= 400:
        asked = {"confirm"} if answer.json()["code"] == "doubtful-entry" else set()
        assert set(answer.json()) == ERROR | asked
        assert answer.json()["message"]
        assert len(answer.content) < MOST_ANSWER_BYTES


def test_every_route_that_takes_json_is_here(server: TestClient) -> None:
    """A route that is added later is attacked too."""
    paths = server.get("/v1/openapi.json").json()["paths"]
    described = {
        (method.upper(), path)
        for path, methods in paths.items()
        for method, operation in methods.items()
        if "application/json" in operation.get("requestBody", {}).get("content", {})
    }
    assert len(described) == len(whole_bodies(server))


def test_each_value_of_each_body_is_replaced(
    server: TestClient, traces: Traces
) -> None:
    """One of the nasty values in each place, in turn; some thousands of requests."""
    tried = 0
    for number, (method, path, body) in enumerate(whole_bodies(server)):
        assert server.request(method, path, json=body).status_code != 422, path
        slow = path.endswith("/settings")  # measures the photo anew
        for at, (_, document) in enumerate(broken(body)):
            if (at + number) % (97 if slow else 11) == 0:
                check(sent(server, method, path, document))
                tried += 1
    assert tried > 1500
    assert traces.taken() == []


def sent(client: TestClient, method: str, path: str, document: Json) -> Any:
    """Return the answer to a document, with what JSON has no words for as it comes."""
    if isinstance(document, dict) and isinstance(document.get("entries"), list):
        for entry in document["entries"]:
            if isinstance(entry, dict) and isinstance(entry.get("id"), str):
                # Not the ids that are in the book: another content is a conflict.
                entry["id"] = entry["id"][:24] + uuid4().hex[:12]
    content = json.dumps(document).encode()  # NaN and Infinity as JavaScript has them
    kind = {"Content-Type": "application/json"}
    return client.request(method, path, content=content, headers=kind)


@settings(
    max_examples=EXAMPLES,
    deadline=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
)
@given(data=st.data())
def test_strange_bodies_have_an_answer(
    server: TestClient, traces: Traces, data: st.DataObject
) -> None:
    """Up to three places of any body changed to anything."""
    method, path, body = data.draw(st.sampled_from(whole_bodies(server)))
    if not path.endswith("/settings"):
        check(sent(server, method, path, data.draw(with_strange_values(body))))
        assert traces.taken() == []


BROKEN_BODIES = [
    b"",
    b"\0",
    b"\xff\xfe",
    b"null",
    b"[]",
    b'"text"',
    b"NaN",
    b"-Infinity",
    b"1e999",
    b"9" * 5000,
    b"{",
    b'{"a":1,}',
    b"{'a':1}",
    b'{"a":1}{"a":1}',
    b"[" * 100_000,
    b'{"a":' * 100_000,
    b'{"entries":' + b"[" * 900 + b"]" * 900 + b"}",
    b'{"\\ud800":1}',
    b'{"name":"\\ud800","name":"\\udfff"}',
    b'{"id":1,"id":2}',
    b'{"' + b"x" * 900_000 + b'":1}',
    b'{"name":"' + b"x" * 900_000 + b'"}',
    b"{" + b",".join(b'"%d":1' % n for n in range(19_000)) + b"}",
    b'{"entries":[' + b",".join([b"{}"] * 19_000) + b"]}",
    b'{"nets":[' + b",".join([b"{}"] * 19_000) + b"]}",
    b'{"unit":{"volume_m3":1,"aerators":[' + b",".join([b"{}"] * 19_000) + b"]}}",
]


@pytest.mark.parametrize("number", range(len(BROKEN_BODIES)))
def test_bodies_that_are_no_document_are_refused(
    server: TestClient, traces: Traces, number: int
) -> None:
    """By every route, in a short answer."""
    for method, path, _ in whole_bodies(server):
        kind = {"Content-Type": "application/json"}
        content = BROKEN_BODIES[number]
        answer = server.request(method, path, content=content, headers=kind)
        assert 400 <= answer.status_code < 500, path
        check(answer)
    assert traces.taken() == []


@pytest.mark.parametrize(
    "kind",
    [
        "",
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data",
        "multipart/form-data; boundary=",
        "multipart/form-data; boundary=" + "x" * 5000,
        "application/json; charset=utf-16",
        "application/jsonx",
        "image/jpeg",
        "\xff",
    ],
)
def test_bodies_of_a_wrong_type_are_refused(server: TestClient, kind: str) -> None:
    """By every route; the type is that of RFC 9110, 8.3, or none."""
    for method, path, body in whole_bodies(server):
        content = json.dumps(body).encode()
        headers = {b"Content-Type": kind.encode("latin-1")}
        answer = server.request(method, path, content=content, headers=headers)
        check(answer)
        if "json" not in kind:
            assert answer.status_code in {400, 415, 422}


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b'{"a":"' + b"x" * MAX_JSON_BYTES + b'"}', "too-large"),
        (b"[" + b"1," * MAX_JSON_VALUES + b"1]", "too-large"),
    ],
)
def test_a_body_of_very_many_values_is_refused_unread(
    server: TestClient, content: bytes, code: str
) -> None:
    """Each wrong value is listed with its place: a million of them took gigabytes."""
    for method, path, _ in whole_bodies(server):
        if path != "/v1/import":
            answer = server.request(method, path, content=content)
            assert (answer.status_code, answer.json()["code"]) == (413, code)


ODD_PARTS = [
    b"",
    b"--x",
    b"--x--",
    b"--x\r\n\r\n\r\n--x--\r\n",
    b"--x\r\nContent-Disposition: form-data\r\n\r\na\r\n--x--\r\n",
    b'--x\r\nContent-Disposition: form-data; name="photos"\r\n\r\na\r\n--x--\r\n',
    b'--x\r\nContent-Disposition: form-data; name="photos"; filename="',
    (
        b'--x\r\nContent-Disposition: form-data; name="photos"; filename=""\r\n\r\n\r\n'
        b"--x--\r\n"
    ),
    (
        b'--x\r\nContent-Disposition: form-data; name="photos"; '
        b"filename*=utf-8''%00%ff%2f..%2f\r\n\r\nGIF89a\r\n--x--\r\n"
    ),
    b'--x\r\nContent-Disposition: form-data; name="photos"; filename="'
    + b"y" * 70_000
    + b'"\r\n\r\na\r\n--x--\r\n',
    b"--x\r\n" + b"A: b\r\n" * 20_000 + b"\r\na\r\n--x--\r\n",
    b'--x\r\nContent-Disposition: form-data; name="species"\r\n\r\n'
    + b"z" * 2_000_000
    + b"\r\n--x--\r\n",
    b'--x\r\nContent-Disposition: form-data; name="species"\r\n\r\na\r\n' * 2000
    + b"--x--\r\n",
    b'--x\r\nContent-Disposition: form-data; name="photos"; filename="a"\r\n\r\na\r\n'
    * 2000
    + b"--x--\r\n",
    (
        b'--x\r\nContent-Disposition: form-data; name="print_scale"\r\n\r\nnan\r\n'
        b"--x--\r\n"
    ),
    b"--x\nContent-Disposition: form-data\n\na\n--x--\n",
    b"\xff" * 5000,
]


@pytest.mark.parametrize("number", range(len(ODD_PARTS)))
def test_broken_forms_are_refused(
    server: TestClient, traces: Traces, number: int
) -> None:
    """What RFC 7578 does not allow, or too much of what it does."""
    kind = {"Content-Type": "multipart/form-data; boundary=x"}
    answer = server.post("/v1/photos", content=ODD_PARTS[number], headers=kind)
    check(answer)
    assert answer.status_code >= 400
    assert traces.taken() == []


def test_odd_queries_and_headers_have_an_answer(
    server: TestClient, traces: Traces
) -> None:
    """Every route that is read, with each parameter wrong, and odd headers."""
    document = server.get("/v1/openapi.json").json()
    nasty = ["", "nan", "-1", "1e999", "9" * 400, "%00", "%ff", "9999-99-99", "\u202e"]
    nasty += ["0001-01-01", "9999-12-31", "%ED%A0%80", "x" * 20_000, "[]", "null"]
    known = {"unit_id": UNIT, "cohort_id": COHORT, "sample_id": SAMPLE}
    known |= {"photo_id": server.headers["X-Photo"], "key": "rainbow-trout"}
    known |= {"name": "sheet", "table": "entries", "entry_id": SAMPLE}
    for path, methods in document["paths"].items():
        for parameter in methods.get("get", {}).get("parameters", ()):
            full = path
            for name, value in known.items():
                if parameter["in"] != "path" or parameter["name"] != name:
                    full = full.replace(f"{{{name}}}", value)
            for value in nasty:
                if parameter["in"] == "path":
                    answer = server.get(full.replace(f"{{{parameter['name']}}}", value))
                else:
                    answer = server.get(f"{full}?{parameter['name']}={value}")
                check(answer)
    odd = [
        {"Range": "bytes=-1,5-2,0-999999999999999999999"},
        {"Range": "bytes=" + "0-0," * 5000 + "0-0"},
        {"If-None-Match": "W/" * 5000},
        {"If-None-Match": '"' + "," * 20_000},
        {"If-Modified-Since": "yesterday"},
        {"Accept": "text/html;q=nan"},
        {"Accept-Encoding": "x" * 9000},
        {"Authorization": "Bearer"},
        {"Authorization": "\xff " * 3000},
        {"Cookie": "fishmeasure_device=" + "=;" * 5000},
        {"Sec-Fetch-Site": "same-origin"},
        {"X-Request-ID": "\x7f"},
        {"Expect": "100-continue"},
        {"Transfer-Encoding": "chunked"},
    ]
    for headers in odd:
        raw = {k.encode(): value.encode("latin-1") for k, value in headers.items()}
        for path in ("/", "/v1/units", f"/v1/photos/{known['photo_id']}", "/health"):
            check(server.get(path, headers=raw))
    assert traces.taken() == []


def test_after_all_of_it_everything_can_be_read(
    server: TestClient, traces: Traces
) -> None:
    """What was taken is answered and exported, and makes figures without a failure."""
    listed = [f"/v1/{name}" for name in ("cohorts", "entries", "samples", "photos")]
    tables = ("units", "cohorts", "entries", "remarks", "photos", "samples")
    exports = [f"/v1/export/{name}.csv" for name in tables]
    units = server.get("/v1/units").json()["items"]
    parts = ("state", "outlook", "outlook.pdf", "growth.svg", "distribution.svg")
    figures = [f"/v1/units/{unit['id']}/{part}" for unit in units for part in parts]
    for path in (*listed, "/v1/lenses", "/v1/export.json", *exports, *figures):
        answer = server.get(path)
        assert answer.status_code == 200, (path, answer.text[:300])
    assert traces.taken() == []


EXTREMES = (5e-324, 1e-200, 1e-30, 1e-12, 1e12, 1e300)
"""Below and above all that is weighed or measured, the first of them subnormal."""


def numbers_in(value: Json) -> Iterator[tuple[Json, Json]]:
    """Give each place of a number in a body: its container and key."""
    places = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in list(places):
        if isinstance(inner, dict | list):
            yield from numbers_in(inner)
        elif isinstance(inner, int | float) and not isinstance(inner, bool):
            yield value, key


@pytest.mark.parametrize("net_g", [5e-324, 1e-200, 1e-30, 1e-9, 7e-4])
def test_a_net_lighter_than_any_fish_is_refused(
    server: TestClient, net_g: float
) -> None:
    """Eight fry just hatched weigh more than 0.8 mg; it was a 500 far below it."""
    for weighing in ({"net_g": net_g}, {"gross_g": [640, 640 + net_g], "tare_g": 639}):
        document = {**documents.NETS, "nets": [{"fish": 8, **weighing}]}
        answer = server.put(f"/v1/samples/{SAMPLE}", json=document)
        if "net_g" in weighing:
            assert (answer.status_code, answer.json()["code"]) == (
                422,
                "invalid-request",
            )
        assert answer.status_code < 500


@pytest.mark.slow
def test_numbers_near_the_ends_of_floats_are_answered(
    server: TestClient, traces: Traces
) -> None:
    """Whatever can be calculated with is, and the rest refused; nothing is a 500."""
    lone = {**documents.NETS, "nets": [{"fish": 8, "net_g": 1272.5}]}
    weighed = ("PUT", f"/v1/samples/{SAMPLE}", lone)
    tried, failed = 0, []
    for method, path, whole in (*whole_bodies(server), weighed):
        body = json.loads(json.dumps(whole))
        if path.endswith("/settings"):  # measures a photo anew, each time
            continue
        for holder, key in numbers_in(body):
            before = holder[key]
            for value in EXTREMES:
                holder[key] = value
                answer = server.request(method, path, json=body)
                tried += 1
                if answer.status_code >= 500:
                    failed.append((path, key, value, traces.taken()[-1][-80:]))
            holder[key] = before
    assert tried > 1000
    assert failed == []
