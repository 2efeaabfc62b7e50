"""The page's shell and files, without a browser."""

import json
import posixpath
import re
from collections.abc import Iterator
from typing import Any

import pytest
from fastapi import FastAPI
from starlette.testclient import TestClient

from api.errors import install_error_handlers
from api.forms import form_schemas
from api.routes import page
from fishmeasure.base.words.sources import entries, languages


@pytest.fixture
def client() -> TestClient:
    """Return a client of an application that serves the page alone."""
    app = FastAPI()
    app.include_router(page.router)
    install_error_handlers(app)
    return TestClient(app)


def test_the_shell_names_only_files_that_are_there(client: TestClient) -> None:
    """Every address in the shell is served."""
    shell = client.get("/")
    addresses = re.findall(r'(?:href|src)="(/[^"]*)"', shell.text)
    assert len(addresses) > 5
    assert {client.get(address).status_code for address in addresses} == {200}
    assert "{page}" not in shell.text


def test_the_shell_has_no_inline_script_or_style(client: TestClient) -> None:
    """The content security policy would forbid it (CSP level 3, script-src)."""
    shell = client.get("/").text
    assert not re.search(r"<style|<script(?![^>]*\bsrc=)| on\w+=| style=", shell)


def test_files_may_be_kept_for_ever_under_their_version_alone(
    client: TestClient,
) -> None:
    """RFC 8246: immutable only for an address whose content never changes."""
    version = client.get("/page-version.json").json()["version"]
    mine = client.get(f"/page/{version}/js/app.js")
    assert mine.headers["content-type"].startswith("text/javascript")
    assert "immutable" in mine.headers["cache-control"]
    other = client.get("/page/000000000000/js/app.js")
    assert other.content == mine.content
    assert other.headers["cache-control"] == "no-store"


def test_every_module_that_is_imported_is_served(client: TestClient) -> None:
    """A relative import that leads nowhere would leave a blank page."""
    served = page.page_files().files
    for name, content in served.items():
        if not name.endswith(".js"):
            continue
        # Comments name types, which no browser loads.
        code = re.sub(r"/\*\*.*?\*/", "", content.decode(), flags=re.DOTALL)
        for target in re.findall(r'(?:from |import\()"(\.[^"]+)"', code):
            folder = name.rpartition("/")[0]
            path = client.get(f"/page/x/{folder}/{target}")
            assert path.status_code == 200, f"{name} imports {target}"


FIRST_VIEW_BYTES = 100_000
"""What the first screen may weigh, compressed: 4 s at 200 kbit/s."""


def first_view(client: TestClient) -> Iterator[str]:
    """Yield what a browser reads before the first screen is there."""
    shell = client.get("/").text
    yield from re.findall(r'<link rel="stylesheet" href="/page/\w+/([^"]*)"', shell)
    yield from ("schemas.json", "texts/en.json")
    served, found = page.page_files().files, ["js/app.js"]
    for name in found:
        code = served[name].decode()
        code = re.sub(r"/\*\*.*?\*/", "", code, flags=re.DOTALL)
        for target in re.findall(r'from "(\.[^"]+)"', code):
            path = posixpath.normpath(posixpath.join(posixpath.dirname(name), target))
            if path not in found:
                found.append(path)
    yield from found


def test_the_first_view_is_small(client: TestClient) -> None:
    """By gzip, as it is sent; the other screens are read after it."""
    names = list(first_view(client))
    assert "js/screens/home.js" in names
    assert "js/screens/photo.js" not in names
    packed = page.page_files().packed
    assert sum(len(packed[name]) for name in names) <= FIRST_VIEW_BYTES


def test_files_come_compressed_to_whom_takes_them_so(client: TestClient) -> None:
    """RFC 9110, 8.4.1 and 12.5.3: as the request allows, and caches are told."""
    version = page.page_files().version
    for wish, coding in (("gzip", "gzip"), ("identity", None)):
        answer = client.get(
            f"/page/{version}/js/app.js", headers={"Accept-Encoding": wish}
        )
        assert answer.headers.get("content-encoding") == coding
        assert answer.headers["vary"] == "Accept-Encoding"
        assert answer.content == page.page_files().files["js/app.js"]


@pytest.mark.parametrize(
    "name", ["index.html", "worker.js", "../page.py", "..%2f..%2fapp.py", "js/none.js"]
)
def test_nothing_but_the_files_of_the_page_is_served(
    client: TestClient, name: str
) -> None:
    """A path cannot leave the folder."""
    answer = client.get(f"/page/x/{name}")
    assert answer.status_code == 404
    error = {"code", "message", "advice", "parameters", "details"}
    assert set(answer.json()) == error


def test_the_manifest_has_what_makes_a_page_installable(client: TestClient) -> None:
    """W3C Web Application Manifest: name, start_url, display and icons."""
    answer = client.get("/manifest.webmanifest")
    manifest = json.loads(answer.text)
    assert answer.headers["content-type"].startswith("application/manifest+json")
    assert {"name", "start_url", "display", "icons"} <= set(manifest)
    sizes = {icon["sizes"] for icon in manifest["icons"]}
    assert {"192x192", "512x512"} <= sizes
    for icon in manifest["icons"]:
        assert client.get(icon["src"]).headers["content-type"] == icon["type"]


def test_the_service_worker_knows_every_file(client: TestClient) -> None:
    """Installed once, the page needs no network."""
    worker = client.get("/worker.js").text
    files = page.page_files()
    assert files.version in worker
    assert all(f"/page/{files.version}/{name}" in worker for name in files.files)


def texts() -> set[str]:
    """Return the keys of all that the page says."""
    return {
        name.removeprefix("page-") for name in entries("en") if name.startswith("page-")
    }


LITERAL = re.compile(r'"([a-z][\w-]*)"')
TEMPLATE = re.compile(r"`([^`]*\$\{[^`]*)`")


def modules() -> Iterator[tuple[str, str]]:
    for name, content in page.page_files().files.items():
        if name.startswith("js/"):
            yield name, content.decode()


def test_every_text_that_a_module_asks_for_exists() -> None:
    """A missing text would show its key."""
    for name, code in modules():
        asked = set(re.findall(r'\bt\(\s*"([\w-]+)"', code))
        assert asked <= texts(), f"{name} asks for {asked - texts()}"


def test_every_text_is_asked_for() -> None:
    """What nothing says is taken out of the catalogue."""
    code = "\n".join(code for _, code in modules())
    said = set(LITERAL.findall(code))
    parts = [re.split(r"\$\{[^}]*\}", one) for one in TEMPLATE.findall(code)]
    made = [
        re.compile("[\\w-]+".join(map(re.escape, part)))
        for part in parts
        if re.search(r"[a-z]", "".join(part))
    ]
    # Labels and choices of fields: made of the schemas' own names.
    fields = re.compile("|".join(sorted(field_texts())))
    unused = {
        key
        for key in texts() - said
        if not any(one.fullmatch(key) for one in (*made, fields))
    }
    assert unused == set()


def field_texts() -> set[str]:
    """Return what labels, hints and choices of fields may be called."""
    schemas = form_schemas()
    shown = [*schemas["entries"].values()]
    shown += [one for one in schemas.values() if isinstance(one, dict)]
    shown += [one for whole in shown for one in whole.get("$defs", {}).values()]
    names = {name for one in shown for name in one.get("properties", {})}
    words = "(field|unit|aerator|grading|stocking|pair)"
    return {f"{words}-{name}(-hint)?|{name}-[a-z-]+" for name in names}


def asked_of(schema: dict[str, Any]) -> set[str]:
    """Return the fields of a kind of entry that the page's form asks for."""
    own = re.compile(
        r"(kind|id|version|replaces|recorded_at|recorded_by|device_id|confirmed|unit_id|at|groups)$|(.*_)?sd(_|$)"
    )
    return {name for name in schema["properties"] if not own.match(name)}


def test_every_kind_of_entry_has_its_words() -> None:
    """And each field of its form: else the page shows the server's description."""
    for kind, schema in form_schemas()["entries"].items():
        assert f"entry-{kind}" in texts()
        if kind not in {"sample", "stock-measured", "cancelled"}:  # no form
            labels = {f"field-{name}" for name in asked_of(schema)}
            assert labels <= texts(), f"{kind}: {labels - texts()}"


def test_every_choice_has_its_words() -> None:
    """A choice of a form is a word of the catalogue, in every language."""
    for schema in form_schemas()["entries"].values():
        for name, field in schema["properties"].items():
            for value in field.get("enum", ()):
                assert f"{name}-{value}" in texts()
    unit = form_schemas()["unit"]
    for value in unit["properties"]["kind"]["enum"]:
        assert f"kind-{value}" in texts()
    for value in unit["properties"]["water_system"]["anyOf"][0]["enum"]:
        assert f"water_system-{value}" in texts()
    for value in unit["$defs"]["Aerator"]["properties"]["bubbles"]["enum"]:
        assert f"bubbles-{value}" in texts()


def test_the_page_takes_figures_as_they_are_written() -> None:
    """Its texts call no function: weights are in the phone's units already."""
    assert '"call"' not in page.page_files().files["texts/en.json"].decode()


def test_the_shell_names_the_languages_of_the_catalogue(client: TestClient) -> None:
    """A second language is one file: the page finds it by itself."""
    assert f'data-languages="{" ".join(languages())}"' in client.get("/").text
    version = page.page_files().version
    for language in languages():
        answer = client.get(f"/page/{version}/texts/{language}.json")
        assert set(answer.json()) >= {f"page-{key}" for key in texts()}
