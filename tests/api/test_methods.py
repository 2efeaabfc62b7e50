"""HEAD, OPTIONS and refused methods, by RFC 9110; yes and no are no numbers."""

import re
from collections.abc import Iterator
from typing import Any

import pytest
from starlette.testclient import TestClient

NO_ID = "11111111-1111-4111-8111-111111111111"


def addresses(client: TestClient) -> Iterator[tuple[str, set[str]]]:
    """Return each address of the description, names filled in, and its methods."""
    paths = client.get("/v1/openapi.json").json()["paths"]
    for path, methods in paths.items():
        yield path, {method.upper() for method in methods}


@pytest.mark.parametrize(
    "path",
    ["/", "/health", "/ready", "/v1/about", "/v1/units", "/v1/species", "/v1/nothing"],
)
def test_head_is_get_without_its_body(client: TestClient, path: str) -> None:
    """Same status and headers, its length too (RFC 9110, 9.3.2)."""
    full, head = client.get(path), client.head(path)
    assert head.status_code == full.status_code
    assert head.content == b""
    for name in ("content-type", "content-length", "etag", "cache-control"):
        assert head.headers.get(name) == full.headers.get(name), name


def test_every_address_tells_its_methods(client: TestClient) -> None:
    """To OPTIONS, and where another method is refused; as the description has them."""
    seen = 0
    for path, methods in addresses(client):
        wanted = methods | {"OPTIONS"} | ({"HEAD"} if "GET" in methods else set())
        refused = next(m for m in ("PATCH", "PUT", "DELETE") if m not in methods)
        for method, status in (("OPTIONS", 204), (refused, 405)):
            answer = client.request(method, path)
            assert answer.status_code == status, path
            told = set(answer.headers["Allow"].split(", "))
            assert told >= wanted, path
            # A name may stand where another route has a word.
            assert told == wanted or "{" in path or path.count("/") > 2, path
        seen += 1
    assert seen > 50
    assert client.options("/v1/nothing").status_code == 404


def numbers(schema: Any) -> bool:
    """Return whether a field takes a number."""
    kinds = {option.get("type") for option in schema.get("anyOf", [schema])}
    return bool(kinds & {"number", "integer"}) and "boolean" not in kinds


def test_yes_and_no_are_no_numbers(client: TestClient) -> None:
    """In no field of no request: the answer names the field."""
    document = client.get("/v1/openapi.json").json()
    asked = 0
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            body = operation.get("requestBody", {}).get("content", {})
            sent = body.get("application/json", {}).get("schema", {}).get("$ref", "")
            schema = document["components"]["schemas"].get(sent.rpartition("/")[2], {})
            for name, field in schema.get("properties", {}).items():
                if not numbers(field):
                    continue
                address = re.sub(r"{[a-z_]+}", NO_ID, path)
                answer = client.request(method, address, json={name: False})
                assert answer.status_code == 422, (path, name)
                faults = [item["where"] for item in answer.json()["details"]]
                assert f"body.{name}" in faults, (path, name)
                asked += 1
    assert asked > 60
