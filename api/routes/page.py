"""The phone page: its shell, its files, and what makes it installable.

Files carry the version of the whole page in their path and never change under it,
so a browser may keep them; the shell is kept for a week and asks by itself
whether there is a newer page. Over plain HTTP, where there can be no service
worker, that is what opens the page without a network. The schemas of what people
fill in (see ``api/forms.py``) and what the page says in each language of the catalogue
are among the files, and so is what the camera's live picture is searched for: forms,
texts and camera need no network either.
"""

import gzip
import hashlib
import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Annotated

from fastapi import Header, Response

from api.access import ANYONE, closed_router
from api.camera import camera_table
from api.errors import NotFoundError
from api.forms import form_schemas
from fishmeasure.base.words.compiled import compiled
from fishmeasure.base.words.sources import languages

FOLDER = Path(__file__).resolve().parents[1] / "page"
FILES_UNDER = "/page/"
SHELL_CACHE = "max-age=604800"
FILE_CACHE = "max-age=31536000, immutable"
# Python's own table of types depends on the machine.
TYPES = {
    ".js": "text/javascript",
    ".json": "application/json",
    ".css": "text/css",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".html": "text/html",
}

router = closed_router(include_in_schema=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class PageFiles:
    """The page's files, read once: no path of a request ever reaches the disk."""

    version: str
    shell: bytes
    worker: bytes
    manifest: bytes
    files: dict[str, bytes]
    packed: dict[str, bytes]
    """The same by gzip, where that makes them smaller."""


@cache
def page_files(folder: Path = FOLDER) -> PageFiles:
    """Return the page with its version, a hash of all its files, filled in."""
    found = {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.suffix in TYPES
    }
    found["schemas.json"] = json.dumps(form_schemas()).encode()
    found["camera.json"] = json.dumps(camera_table()).encode()
    for language in languages():
        texts = json.dumps(compiled("page-", language), ensure_ascii=False)
        found[f"texts/{language}.json"] = texts.encode()
    digest = hashlib.sha256()
    for name, content in found.items():
        digest.update(f"{name}\0{len(content)}\0".encode() + content)
    version = digest.hexdigest()[:12]
    base = f"{FILES_UNDER}{version}"
    kept = {n: c for n, c in found.items() if n not in {"index.html", "worker.js"}}
    addresses = json.dumps([f"{base}/{name}" for name in kept])
    worker = found["worker.js"].decode()
    return PageFiles(
        version=version,
        shell=found["index.html"]
        .replace(b"{page}", base.encode())
        .replace(b"{languages}", " ".join(languages()).encode()),
        worker=worker.replace("{version}", version)
        .replace('["{files}"]', addresses)
        .encode(),
        manifest=json.dumps(_manifest(base)).encode(),
        files=kept,
        packed={name: _packed(one) for name, one in kept.items() if _is_text(name)},
    )


def _is_text(name: str) -> bool:
    return Path(name).suffix != ".png"


def _packed(content: bytes) -> bytes:
    return gzip.compress(content, mtime=0)


def _manifest(base: str) -> dict[str, object]:
    def picture(name: str, size: str, kind: str, purpose: str) -> dict[str, str]:
        source = f"{base}/icons/{name}"
        return {"src": source, "sizes": size, "type": kind, "purpose": purpose}

    return {
        "id": "/",
        "name": "fishmeasure",
        "short_name": "fishmeasure",
        "description": "Mean weight, spread and biomass from photos and net weighings.",
        "start_url": "/",
        "scope": "/",
        "display": "standalone",
        "background_color": "#f3f5ef",
        "theme_color": "#0b4f4a",
        "icons": [
            picture("icon.svg", "any", "image/svg+xml", "any"),
            picture("icon-192.png", "192x192", "image/png", "any"),
            picture("icon-512.png", "512x512", "image/png", "any"),
            picture("icon-512.png", "512x512", "image/png", "maskable"),
        ],
    }


def _answer(content: bytes, kind: str, cache_control: str) -> Response:
    return Response(content, media_type=kind, headers={"Cache-Control": cache_control})


@router.get("/", dependencies=[ANYONE])
def shell() -> Response:
    """Return the page itself."""
    return _answer(page_files().shell, "text/html", SHELL_CACHE)


@router.get("/worker.js", dependencies=[ANYONE])
def service_worker() -> Response:
    """Return the service worker, from the root so that it serves the whole page."""
    return _answer(page_files().worker, "text/javascript", "no-cache")


@router.get("/manifest.webmanifest", dependencies=[ANYONE])
def manifest() -> Response:
    """Return what makes the page installable."""
    return _answer(page_files().manifest, "application/manifest+json", "no-cache")


@router.get("/page-version.json", dependencies=[ANYONE])
def version() -> Response:
    """Return the version of the page that this server has."""
    body = json.dumps({"version": page_files().version}).encode()
    return _answer(body, "application/json", "no-store")


@router.get("/page/{page_version}/{name:path}", dependencies=[ANYONE])
def page_file(
    page_version: str,
    name: str,
    accept_encoding: Annotated[str, Header()] = "",
) -> Response:
    """Return a file of the page; an older version's address gives the present one.

    Only the present version's answer may be kept.
    """
    page = page_files()
    content = page.files.get(name)
    if content is None:
        raise NotFoundError("file", name[:80])
    kind = TYPES[Path(name).suffix]
    mine = page_version == page.version
    kept = FILE_CACHE if mine else "no-store"
    packed = page.packed.get(name)
    if packed is None:
        return _answer(content, kind, kept)
    wants = "gzip" in accept_encoding
    answer = _answer(packed if wants else content, kind, kept)
    answer.headers["Vary"] = "Accept-Encoding"
    if wants:
        answer.headers["Content-Encoding"] = "gzip"
    return answer
