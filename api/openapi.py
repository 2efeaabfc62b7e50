"""The API's description: what every route may answer, and examples to try.

Examples are the invented spring tanks.
"""

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from fastapi.routing import APIRoute
from starlette.routing import BaseRoute

from api.access import access_of
from api.errors import ErrorBody
from fishmeasure.base.field_words import description
from fishmeasure.base.record import plain
from fishmeasure.book.entries import entry_to_plain
from fishmeasure.store.demo import demo_book
from fishmeasure.store.devices import Role

Json = dict[str, Any]
DEMO_DAY = dt.date(2026, 5, 2)
READS = frozenset({"get", "head"})
PHOTOS = frozenset({"/v1/photos", "/v1/uploads/{upload_id}/photo"})
"""Where photos come in."""
Roles = Mapping[tuple[str, str], Role | None]
WHO: dict[Role, str] = {
    "reader": "every paired device",
    "worker": "workers and the owner",
    "owner": "the owner",
}
TAGS = (
    ("photos", "Upload, measurement, corrections, pictures."),
    ("samples", "Nets, weighings and photos to mean weight and spread."),
    ("book", "Units, cohorts and entries that are never overwritten."),
    ("stocks", "What own fish, photographed and weighed, tell of their stock."),
    ("outlook", "What is in a unit on a day, and what follows."),
    ("exchange", "Everything out and in again; the demo."),
    ("calculations", "The stocking calculations without a book."),
    ("reference", "Species, calibration pages, lens profiles."),
    ("devices", "Pairing of phones and programs."),
    ("server", "Signs of life."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """A route as the rules below see it."""

    method: str
    path: str
    least: Role | None
    """Whom it is for; None is anyone."""

    @property
    def writes(self) -> bool:
        """Whether it changes something."""
        return self.method not in READS

    @property
    def guarded(self) -> bool:
        """Whether a device must be paired first."""
        return self.least is not None

    @property
    def named(self) -> bool:
        """Whether its path names something that may not be there."""
        return "{" in self.path

    def under(self, *starts: str) -> bool:
        """Return whether its path begins so."""
        return self.path.startswith(starts)


def _has_body(route: Route) -> bool:
    return route.method in {"post", "put", "patch"}


# Which error a route may answer, with its codes (see api/errors.py).
ERRORS: tuple[tuple[int, str, Callable[[Route], bool]], ...] = (
    (
        304,
        "The client has this state already (If-None-Match); no body.",
        lambda r: (
            r.method == "get" and r.named and not r.under("/v1/export", "/v1/sheets")
        ),
    ),
    (400, "The body cannot be taken apart (bad-request).", _has_body),
    (401, "The device is not paired (not-paired).", lambda r: r.guarded),
    (
        403,
        (
            "Sent by a page of another address (foreign-origin), a wrong pairing code "
            "(wrong-code), or more than the device may do (not-allowed)."
        ),
        lambda r: r.writes or r.least not in {None, "reader"},
    ),
    (
        404,
        "Nothing of that name is here (not-found, unknown-record).",
        lambda r: r.named or r.under("/v1/samples", "/v1/entries", "/v1/photos"),
    ),
    (408, "The body came too slowly (too-slow-upload).", _has_body),
    (
        409,
        (
            "Changed meanwhile or in conflict (conflict, version-conflict, "
            "entry-conflict, already-replaced, name-taken, book-not-empty)."
        ),
        lambda r: (
            r.writes and not r.under("/v1/calculations", "/v1/devices", "/v1/lenses")
        ),
    ),
    (
        410,
        (
            "The photo's file is gone or damaged (photo-lost), and is whole once it is "
            "sent again; or it was deleted (photo-deleted)."
        ),
        lambda r: (
            (r.writes and r.path in PHOTOS)
            or (
                r.path.startswith("/v1/photos/{photo_id}/")
                and not r.path.endswith("/corrections")
            )
        ),
    ),
    (413, "Too much at once (too-large, too-many-photos).", _has_body),
    (415, "The file is no photo (not-an-image).", lambda r: r.path in PHOTOS),
    (421, "The server does not go by that name (unknown-host).", lambda _: True),
    (
        422,
        (
            "The request is wrong (invalid-request), or what it holds cannot be used; "
            "the code says why."
        ),
        lambda r: r.path not in {"/health", "/ready"},
    ),
    (
        429,
        "Too many wrong codes (too-many-tries); see Retry-After.",
        lambda r: r.writes and r.path == "/v1/devices",
    ),
    (
        503,
        (
            "Busy or without workers (busy, book-busy, workers-lost), or the disk or "
            "the book cannot be used (storage-failed, book-write, book-unreadable, "
            "book-damaged, book-newer); see Retry-After."
        ),
        lambda r: r.path != "/health",
    ),
    (507, "The disk is full (disk-full, book-full).", lambda r: r.writes),
)


def install_description(app: FastAPI, routes: Iterable[BaseRoute]) -> None:
    """Have the application describe itself in full, by its routes."""
    roles = {
        (method.lower(), route.path): access_of(route).least
        for route in routes
        if isinstance(route, APIRoute)
        for method in route.methods or ()
    }

    def describe() -> Json:
        if app.openapi_schema is None:
            app.openapi_schema = _described(app, roles)
        return app.openapi_schema

    app.openapi = describe  # type: ignore[method-assign]


def _described(app: FastAPI, roles: Roles) -> Json:
    document = get_openapi(
        title=app.title,
        version=app.version,
        description=app.description,
        routes=app.routes,
        tags=[{"name": name, "description": words} for name, words in TAGS],
    )
    schemas = document["components"]["schemas"]
    for unused in ("HTTPValidationError", "ValidationError", "ProblemWire"):
        schemas.pop(unused, None)
    template = "#/components/schemas/{model}"
    schemas["ErrorBody"] = ErrorBody.model_json_schema(ref_template=template)
    for path, method, operation in _operations(document):
        least = roles[method, path]
        _add_errors(Route(method=method, path=path, least=least), operation)
        if least is not None:
            told = operation.get("description", operation["summary"])
            operation["description"] = f"{told}\n\nFor: {WHO[least]}."
    for schema in schemas.values():
        _describe_fields(schema)
    for name, example in _examples().items():
        if name in schemas:
            schemas[name]["examples"] = [example]
    return document


def _operations(document: Json) -> Iterator[tuple[str, str, Json]]:
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            yield path, method, operation


def _add_errors(route: Route, operation: Json) -> None:
    answers = operation["responses"]
    answers.pop("422", None)
    content = {
        "application/json": {"schema": {"$ref": "#/components/schemas/ErrorBody"}}
    }
    for status, words, applies in ERRORS:
        if applies(route):
            answer: Json = {"description": words}
            if status != 304:
                answer["content"] = content
            answers[str(status)] = answer
    for parameter in operation.get("parameters", ()):
        parameter.setdefault("description", description(parameter["name"]))


def _describe_fields(schema: Json) -> None:
    for name, field in schema.get("properties", {}).items():
        field.setdefault("description", description(name))


def _examples() -> dict[str, Json]:
    """Return an example for each model of the book, and for a sample."""
    demo = demo_book(DEMO_DAY)
    unit, cohort = demo.units[0], demo.cohorts[0]
    found: dict[str, Json] = {
        "Unit": plain(unit, sparse=True),
        "Cohort": plain(cohort, sparse=True),
    }
    for entry in demo.entries:
        found.setdefault(type(entry).__name__, entry_to_plain(entry))
    found["SampleIn"] = {
        "date": str(DEMO_DAY),
        "unit": unit.name,
        "unit_id": str(unit.id),
        "cohort_id": str(cohort.id),
        "species": cohort.species_key,
        "count_in_unit": 240,
        "nets": [
            {"fish": 8, "gross_g": 1912, "tare_g": 640},
            {"fish": 9, "net_g": 1431},
        ],
    }
    found["RecordIn"] = {"unit_id": str(unit.id), "cohort_id": str(cohort.id)}
    found["EntriesIn"] = {"entries": [found["Died"], found["Feed"]]}
    found["CorrectionsIn"] = {
        "corrections": [
            {"kind": "drop", "fish": 3},
            {"kind": "move", "fish": 0, "snout_px": [812, 640], "fork_px": [1390, 655]},
        ]
    }
    found["PhotoChoices"] = {"species": cohort.species_key, "print_scale": 0.97}
    found["ErrorBody"] = {
        "code": "not-an-image",
        "message": "net_1.txt is not a picture that can be read.",
        "advice": "Send the photo as the phone saved it: JPEG, PNG, WebP or HEIC.",
        "parameters": {"case": "plain", "name": "net_1.txt", "reason": ""},
        "details": [],
    }
    return found
