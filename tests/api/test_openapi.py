"""The API's description is complete, and true of what the server answers."""

import re
from collections.abc import Iterator
from typing import Any

import jsonschema_rs
import pytest
from starlette.testclient import TestClient

from api.openapi import TAGS

Json = dict[str, Any]
# A figure's unit is in its name (the project's rule), or its description says it.
UNIT_IN_NAME = re.compile(
    r"[._](px|mm|g|kg|m|m2|m3|w|hpa|min|days|hours|percent|fraction|c|deg|deg_c|g_cm|"
    r"l_per_min|mg_per_l|mg_per_l_h|kg_per_m3|g_per_kg|g_per_h|kg_per_h|m_per_s|"
    r"x1000|mb|minutes|g_per_day|percent_per_day|mg_per_kg_h)$"
)
UNIT_IN_WORDS = re.compile(
    r"%|\b(mm|g|kg|m2|m3|px|pixels|cm|cm\^b|0 to 1|a fraction|unit|[Dd]ays|[Hh]ours|"
    r"minutes|degrees|[Ff]ish|standard errors|[Ee]xponent|times|litres?|Wh|pH)\b"
)


@pytest.fixture(scope="module")
def document(client: TestClient) -> Json:
    answer: Json = client.get("/v1/openapi.json").json()
    return answer


def operations(document: Json) -> Iterator[tuple[str, str, Json]]:
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            yield method, path, operation


def fields(document: Json) -> Iterator[tuple[str, Json]]:
    for name, schema in document["components"]["schemas"].items():
        for field, what in schema.get("properties", {}).items():
            yield f"{name}.{field}", what


def test_every_field_and_parameter_is_described(document: Json) -> None:
    """A field without a sentence is a riddle."""
    missing = [name for name, what in fields(document) if not what.get("description")]
    for method, path, operation in operations(document):
        missing += [
            f"{method} {path} {parameter['name']}"
            for parameter in operation.get("parameters", ())
            if not parameter.get("description")
        ]
    assert missing == []


def test_every_number_has_its_unit(document: Json) -> None:
    """In its name or in its description."""
    riddles = [
        name
        for name, what in fields(document)
        if "number" in {part.get("type") for part in (what, *what.get("anyOf", ()))}
        and not UNIT_IN_NAME.search(name)
        and not UNIT_IN_WORDS.search(what["description"])
    ]
    assert riddles == []


def test_operations_are_named_and_sorted(document: Json) -> None:
    """OpenAPI 3.1, 4.8.10: operationId is unique; every tag is declared."""
    found = list(operations(document))
    names = [operation["operationId"] for _, _, operation in found]
    assert len(set(names)) == len(names)
    declared = [tag["name"] for tag in document["tags"]]
    assert declared == [name for name, _ in TAGS]
    for method, path, operation in found:
        assert operation["summary"], (method, path)
        assert len(operation["tags"]) == 1, (method, path)
        assert operation["tags"][0] in declared


def test_every_error_has_the_one_body(document: Json) -> None:
    """On each route that can answer it."""
    for method, path, operation in operations(document):
        errors = {s for s in operation["responses"] if s >= "400"}
        assert "421" in errors, (method, path)
        for status in errors:
            content = operation["responses"][status]["content"]
            assert content["application/json"]["schema"] == {
                "$ref": "#/components/schemas/ErrorBody"
            }


def test_schemas_have_readable_names(document: Json) -> None:
    """Two records of one name would be told apart by their modules."""
    names = document["components"]["schemas"]
    assert [name for name in names if "__" in name] == []


def test_examples_are_what_the_schemas_take(document: Json) -> None:
    """JSON Schema 2020-12, which OpenAPI 3.1 uses."""
    count = 0
    for schema in document["components"]["schemas"].values():
        for example in schema.get("examples", ()):
            rule = {**schema, "components": document["components"]}
            jsonschema_rs.validator_for(rule).validate(example)
            count += 1
    assert count >= 15


def test_the_examples_can_be_tried(client: TestClient, document: Json) -> None:
    """Unit, cohort and entries of the description go into an empty book in order."""
    schemas = document["components"]["schemas"]
    unit, cohort = schemas["Unit"]["examples"][0], schemas["Cohort"]["examples"][0]
    assert client.put(f"/v1/units/{unit['id']}", json=unit).status_code == 200
    assert client.put(f"/v1/cohorts/{cohort['id']}", json=cohort).status_code == 200
    sample = schemas["SampleIn"]["examples"][0]
    url = "/v1/samples/11111111-1111-4111-8111-111111111111"
    assert client.put(url, json=sample).json()["estimate"]["mean_weight_g"] > 0
    entries = schemas["EntriesIn"]["examples"][0]
    assert client.post("/v1/entries", json=entries).status_code == 200
