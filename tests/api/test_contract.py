"""Whatever is sent, the server answers as its description says, and never fails.

Cases are made from the description by schemathesis, the same ones at every run.
"""

import os
from collections.abc import Iterator
from contextlib import suppress
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis.errors import Unsatisfiable
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)
from starlette.testclient import TestClient

from api.app import create_app
from api.settings import Settings

SAMPLE_ID = "11111111-1111-4111-8111-111111111111"
CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]
# More of them for a search: FISHMEASURE_TEST_EXAMPLES=200.
EXAMPLES = int(os.environ.get("FISHMEASURE_TEST_EXAMPLES", "6"))
KNOWN: dict[str, str] = {}


@pytest.fixture(scope="module")
def described(
    tmp_path_factory: pytest.TempPathFactory, net_photo: bytes
) -> Iterator[Any]:
    """Return the description of a server with the spring tanks and a photo."""
    folder = tmp_path_factory.mktemp("server")
    app = create_app(Settings(data_dir=folder, workers=1, hosts="testserver,localhost"))
    with TestClient(app) as client:
        client.post("/v1/demo", json={"date": "2026-05-02"})
        sent = client.post("/v1/photos", files={"photos": ("a.jpg", net_photo)})
        KNOWN["photo_id"] = sent.json()["items"][0]["id"]
        for name in ("unit", "cohort"):
            found = client.get(f"/v1/{name}s").json()["items"]
            KNOWN[f"{name}_id"] = found[0]["id"]
        nets = [{"fish": 8, "net_g": 1900}, {"fish": 9, "net_g": 2100}]
        body = {"date": "2026-05-02", "nets": nets}
        client.put(f"/v1/samples/{SAMPLE_ID}", json=body)
        KNOWN["sample_id"] = SAMPLE_ID
        listed = client.get("/v1/entries").json()["items"]
        KNOWN["entry_id"] = listed[0]["id"]
        yield schemathesis.openapi.from_asgi("/v1/openapi.json", app)


def routes() -> list[tuple[str, str]]:
    """Return (method, path) of everything that the description has."""
    paths = create_app(Settings()).openapi()["paths"]
    return [(method, path) for path, methods in paths.items() for method in methods]


@pytest.mark.parametrize("mode", list(GenerationMode))
@pytest.mark.parametrize(("method", "path"), routes())
def test_answers_are_as_described(
    described: Any, method: str, path: str, mode: GenerationMode
) -> None:
    """What is right and what is wrong, with ids that are there for every other case."""
    cases = described[path][method].as_strategy(generation_mode=mode)

    @settings(
        max_examples=EXAMPLES,
        derandomize=True,
        deadline=None,
        database=None,
        phases=(Phase.explicit, Phase.generate),
        suppress_health_check=list(HealthCheck),
    )
    @given(case=cases)
    def answers_as_described(case: Any) -> None:
        named = case.path_parameters or {}
        for name in set(named) & set(KNOWN):
            if len(str(case.body)) % 2 == 0:
                named[name] = KNOWN[name]
        case.validate_response(case.call(), checks=CHECKS)

    # Nothing wrong can be sent to a route that takes nothing.
    takes_nothing = method in {"get", "delete"} and mode is GenerationMode.NEGATIVE
    with suppress(*([Unsatisfiable] if takes_nothing else [])):
        answers_as_described()
