"""The page's shell and files, without a browser."""

import json
import re

import pytest
from fastapi import FastAPI
from starlette.testclient import TestClient

from api.errors import install_error_handlers
from api.routes import page


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
        for target in re.findall(r'from "(\.[^"]+)"', code):
            folder = name.rpartition("/")[0]
            path = client.get(f"/page/x/{folder}/{target}")
            assert path.status_code == 200, f"{name} imports {target}"


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


def test_every_text_that_a_module_asks_for_exists() -> None:
    """A missing text would show its key."""
    files = page.page_files().files
    table = files["texts.en.js"].decode()
    texts = set(re.findall(r'^  "?([\w.-]+)"?:', table, re.MULTILINE))
    for name, content in files.items():
        if not name.startswith("js/"):
            continue
        asked = set(re.findall(r'\bt\("([\w.-]+)"', content.decode()))
        assert asked <= texts, f"{name} asks for {asked - texts}"
