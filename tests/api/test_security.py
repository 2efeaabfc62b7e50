"""What is sent cannot lead elsewhere, and cannot become a page."""

import csv
import io
import json
from pathlib import Path
from urllib.parse import quote
from uuid import uuid4

import pytest
from PIL import Image
from starlette.testclient import TestClient

from api.app import create_app
from api.headers import HEADERS
from api.settings import Settings
from fishmeasure.store.backup import make_backup
from fishmeasure.store.book import Book
from fishmeasure.store.engine import open_engine
from tests.fuzz.bases import exif

SCRIPT = "<script>alert(1)</script>"
SVG = (
    "<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'>"
    "<script>alert(1)</script></svg>"
)


def jpeg(seed: int) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (64, 48), (seed, 90, 90)).save(out, "JPEG")
    return out.getvalue()


PATHS = [
    "../../../../etc/passwd",
    "..%2f..%2f..%2fetc%2fpasswd",
    "%2e%2e/%2e%2e/etc/passwd",
    "....//....//etc/passwd",
    "/etc/passwd",
    "..\\..\\windows\\win.ini",
    "\0",
    "a" * 5000,
]


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize(
    "route",
    [
        "/v1/photos/{}",
        "/v1/photos/{}/picture",
        "/v1/lenses/{}",
        "/v1/species/{}",
        "/v1/sheets/{}.pdf",
        "/v1/export/{}.csv",
        "/page/x/{}",
        "/v1/samples/{}",
        "/v1/units/{}/state",
    ],
)
def test_no_address_leads_to_a_file_elsewhere(
    client: TestClient, route: str, path: str
) -> None:
    """Each is refused by name, or not found; never a file, never a crash."""
    for text in (quote(path, safe="%/"), quote(quote(path, safe=""), safe="")):
        answer = client.get(route.format(text))
        assert answer.status_code in {400, 404, 405, 422}
        assert "root:" not in answer.text
        assert answer.json()["code"]


def test_a_species_is_no_path(client: TestClient, tmp_path: Path) -> None:
    """A TOML file of the server's machine is neither read nor told apart."""
    secret = tmp_path / "secret.toml"
    secret.write_text('password_of_the_database = "hunter2"\n', encoding="utf-8")
    said = set()
    for name in (str(secret)[-60:], str(tmp_path / "none.toml")[-60:]):
        files = {"photos": ("a.jpg", jpeg(1))}
        answers = [
            client.post("/v1/photos", files=files, data={"species": name}),
            client.get(f"/v1/species/{quote(name, safe='')}"),
            client.put(
                f"/v1/samples/{uuid4()}",
                json={
                    "date": "2026-05-02",
                    "species": name,
                    "nets": [{"fish": 3, "net_g": 500}],
                },
            ),
        ]
        for answer in answers:
            assert "password" not in answer.text
            said.add(answer.text.replace(name, "NAME"))
    assert not any("TOML" in text or "key" in text for text in said)


@pytest.mark.parametrize(
    "content", [SVG, f"<!doctype html>{SCRIPT}", "GIF89a" + SCRIPT]
)
@pytest.mark.parametrize("kind", ["image/jpeg", "image/svg+xml", "text/html"])
def test_markup_is_no_photo(client: TestClient, content: str, kind: str) -> None:
    """Whatever it says that it is."""
    files = {"photos": ("a.jpg", content.encode(), kind)}
    answer = client.post("/v1/photos", files=files)
    assert (answer.status_code, answer.json()["code"]) == (415, "not-an-image")


def test_a_photo_with_markup_behind_it_comes_back_without(
    client: TestClient, settings: Settings
) -> None:
    """A polyglot is kept up to the end of its picture, and answered as a JPEG."""
    sent = jpeg(2) + SVG.encode()
    files = {"photos": (f"{SCRIPT}.html", sent, "text/html")}
    photo = client.post("/v1/photos", files=files).json()["items"][0]
    path = settings.data_dir / "photos" / photo["id"][:2] / photo["id"]
    assert b"<s" not in path.read_bytes()
    for link in photo["links"].values():
        answer = client.get(link)
        assert answer.headers["Content-Type"] == "image/jpeg"
        assert b"<script" not in answer.content


def test_every_answer_has_its_type_and_a_policy(client: TestClient) -> None:
    """No sniffing, no script but the page's own files, no framing."""
    for path in ("/", "/v1/photos", "/nowhere", "/v1/openapi.json", "/worker.js"):
        headers = client.get(path).headers
        assert headers["X-Content-Type-Options"] == "nosniff"
        policy = headers["Content-Security-Policy"]
        assert "default-src 'self'" in policy
        assert "frame-ancestors 'none'" in policy
        assert "unsafe-inline" not in policy.replace("style-src", "")
        assert "unsafe-eval" not in policy


def test_answers_that_refuse_or_fail_have_the_headers_too(
    settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each family of statuses; a failure is answered outside the other parts."""

    def fails(_: Book) -> None:
        raise RuntimeError

    with TestClient(create_app(settings), raise_server_exceptions=False) as client:
        monkeypatch.setattr(Book, "units", fails)
        answers = {
            200: client.get("/v1/about"),
            403: client.post("/v1/demo", headers={"Origin": "null"}),
            404: client.get("/v1/nowhere"),
            405: client.delete("/v1/units"),
            413: client.post("/v1/entries", content=b" " * 1_000_001),
            421: client.get("/health", headers={"Host": "evil.example"}),
            422: client.post("/v1/entries", json={}),
            500: client.get("/v1/units"),
        }
    for status, answer in answers.items():
        assert answer.status_code == status
        for name, value in HEADERS.items():
            assert answer.headers[name] == value, (status, name)


def test_a_drawing_opened_by_itself_may_do_nothing(client: TestClient) -> None:
    """No script, no other file, and an origin of its own (CSP 3, sandbox)."""
    sample = f"/v1/samples/{uuid4()}"
    nets = [{"fish": 8, "net_g": 1500}, {"fish": 9, "net_g": 1600}]
    assert client.put(sample, json={"date": "2026-05-02", "nets": nets}).is_success
    answer = client.get(f"{sample}/distribution.svg")
    assert answer.headers["Content-Type"] == "image/svg+xml"
    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "sandbox" in policy.split("; ")
    assert "script-src" not in policy


SECRET = b"SECRET"


def private_jpeg() -> bytes:
    """Return a photo with a name, a place and a preview in every part for them."""
    out = io.BytesIO()
    picture = Image.effect_noise((640, 480), 40).convert("RGB")
    xmp = b"<x:xmpmeta>" + SECRET + b"</x:xmpmeta>"
    tags = exif(6)
    picture.save(out, "JPEG", exif=tags, comment=SECRET, xmp=xmp)
    assert out.getvalue().count(SECRET) > 5
    return out.getvalue() + b"PK" + SECRET


def test_what_is_private_in_a_photo_is_nowhere(
    client: TestClient, settings: Settings, tmp_path: Path
) -> None:
    """Not in the folder or the book, an answer, an export, a log or a backup."""
    sent = client.post("/v1/photos", files={"photos": ("a.jpg", private_jpeg())})
    photo = sent.json()["items"][0]
    again = client.put(f"/v1/photos/{photo['id']}/settings", json={"print_scale": 0.9})
    paths = [*photo["links"].values(), "/v1/export.json", "/v1/export/photos.csv"]
    paths += ["/metrics", "/v1/photos"]
    answers = [sent, again, *(client.get(path) for path in paths)]
    assert all(answer.status_code == 200 for answer in answers)
    assert not any(SECRET in answer.content for answer in answers)
    target = tmp_path / "backup.tar"
    engine = open_engine(str(settings.data_dir / "book.sqlite"))
    assert make_backup(engine, settings.data_dir, target).photo_count > 0
    engine.dispose()
    files = [path for path in settings.data_dir.rglob("*") if path.is_file()]
    assert not any(SECRET in path.read_bytes() for path in (*files, target))


def test_no_cell_of_a_table_is_a_formula(client: TestClient) -> None:
    """Names of units, notes and photos, opened in a spreadsheet, are texts."""
    formula = '=HYPERLINK("http://evil.example";"look")'
    name = str(uuid4())
    unit = {"id": name, "name": f"{formula}{name}", "kind": "tank"}
    size = {"volume_m3": 6.0, "depth_m": 1.0}
    assert client.put(f"/v1/units/{name}", json={**unit, **size}).is_success
    for start in "=+-@":
        entry = {"id": str(uuid4()), "kind": "feed", "on": "2026-05-02"}
        more = {"unit_id": name, "feed_kg": 1.0, "note": f"{start}1+1"}
        sent = client.post("/v1/entries", json={"entries": [{**entry, **more}]})
        assert sent.is_success, sent.text
    sample = {"date": "2026-05-02", "unit": formula, "nets": []}
    assert client.put(f"/v1/samples/{uuid4()}", json=sample).is_success
    files = {"photos": (f"{formula[:9]}.jpg", jpeg(77))}
    assert client.post("/v1/photos", files=files).is_success
    for table in ("units", "cohorts", "entries", "remarks", "photos", "samples"):
        text = client.get(f"/v1/export/{table}.csv").text
        for row in csv.reader(io.StringIO(text, newline="")):
            for cell in row:
                number = cell.lstrip("-").replace(".", "", 1).isdecimal()
                assert number or not cell.startswith(("=", "+", "-", "@", "\t"))


def test_names_of_people_are_no_markup_in_drawings(client: TestClient) -> None:
    """A unit's name and a net's label are text in SVG, CSV and JSON."""
    name = str(uuid4())
    unit = {
        "id": name,
        "name": f"{SCRIPT}{name}",
        "kind": "tank",
        "volume_m3": 6.0,
        "depth_m": 1.0,
    }
    assert client.put(f"/v1/units/{name}", json=unit).status_code == 200
    sample = str(uuid4())
    nets = [
        {"fish": 8, "net_g": 1500, "label": SCRIPT},
        {"fish": 9, "net_g": 1600, "label": SCRIPT},
    ]
    body = {"date": "2026-05-02", "species": "rainbow-trout", "nets": nets}
    saved = client.put(f"/v1/samples/{sample}", json=body)
    assert saved.status_code == 200, saved.text
    for path in (
        f"/v1/samples/{sample}/distribution.svg",
        f"/v1/samples/{sample}/length-weight.svg",
        f"/v1/units/{name}/growth.svg",
        f"/v1/units/{name}/distribution.svg",
    ):
        answer = client.get(path)
        assert "<script" not in answer.text or "json" in answer.headers["Content-Type"]


def test_an_export_is_a_download(client: TestClient) -> None:
    """An export is offered as a file, not shown in the page's place."""
    answer = client.get("/v1/export/units.csv")
    assert answer.headers["Content-Type"].startswith("text/csv")
    assert answer.headers["Content-Disposition"].startswith("attachment")


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "https://evil.example"},
        {"Origin": "null"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
    ],
)
def test_other_pages_write_nothing(client: TestClient, headers: dict[str, str]) -> None:
    """A form or script of another page is refused on every route that writes."""
    paths = json.loads(client.get("/v1/openapi.json").text)["paths"]
    tried = 0
    for path, operations in paths.items():
        for method in set(operations) & {"post", "put", "delete", "patch"}:
            answer = client.request(method, path, headers=headers)
            assert (answer.status_code, answer.json()["code"]) == (
                403,
                "foreign-origin",
            )
            tried += 1
    assert tried > 20
