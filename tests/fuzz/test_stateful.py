"""Any sequence of requests leaves the book as the answers said.

What was answered as written is there, once and unchanged, after anything that follows:
repeats, conflicts, corrections of corrections, dates out of order, nonsense between,
a restart. Every figure that can be asked for has an answer or a typed refusal.
"""

import logging
import os
import tempfile
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any, ClassVar
from uuid import uuid4

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    Bundle,
    RuleBasedStateMachine,
    consumes,
    initialize,
    invariant,
    rule,
    run_state_machine_as_test,
)
from sqlalchemy import text
from starlette.testclient import TestClient

from api.app import create_app
from api.settings import Settings
from fishmeasure.base.record import plain
from fishmeasure.book.entries import entry_to_plain
from fishmeasure.book.units import Unit
from fishmeasure.store.book import open_book
from fishmeasure.store.engine import open_engine
from fishmeasure.store.tables import metadata
from tests.book.strategies import entries, records
from tests.fuzz.documents import NETS
from tests.fuzz.nasty import with_strange_values
from tests.fuzz.test_routes import Traces, check, sent
from tests.store.conftest import postgres_url

__all__ = ["postgres_url"]  # the fixture
Json = dict[str, Any]
# More of them for a search: FISHMEASURE_TEST_EXAMPLES=200.
EXAMPLES = int(os.environ.get("FISHMEASURE_TEST_EXAMPLES", "6"))
PARTS = ("state", "outlook", "outlook.pdf", "growth.svg", "distribution.svg")
DAYS = st.dates(min_value=date(1950, 1, 1), max_value=date(2200, 1, 1))


class Book(RuleBasedStateMachine):
    """A server and what its answers say that it holds."""

    address: ClassVar[str | None] = None
    """Of a database server; None for a file."""
    units: Bundle[str] = Bundle("units")
    cohorts: Bundle[str] = Bundle("cohorts")
    written: Bundle[Json] = Bundle("written")
    free: Bundle[Json] = Bundle("free")
    samples: Bundle[str] = Bundle("samples")

    def __init__(self) -> None:
        super().__init__()
        self._folder = tempfile.TemporaryDirectory()
        self._traces = Traces()
        logging.getLogger().addHandler(self._traces)
        self._confirmed: dict[str, Json] = {}
        if self.address is not None:
            _empty(self.address)
        self._start()

    def _start(self) -> None:
        folder = Path(self._folder.name)
        settings = Settings(data_dir=folder, workers=1, hosts="testserver")
        app = create_app(replace(settings, book=self.address or settings.book))
        self._client = TestClient(app, raise_server_exceptions=False)
        self._client.__enter__()

    def teardown(self) -> None:
        """End the server."""
        self._client.__exit__(None, None, None)
        logging.getLogger().removeHandler(self._traces)
        self._folder.cleanup()

    # --- what is written ----------------------------------------------------------

    @initialize(target=units, unit=records(Unit))
    def first_unit(self, unit: Unit) -> str:
        """Write a unit so that there is one."""
        return self._keep_unit(plain(unit, sparse=True), "first")

    @initialize(target=cohorts)
    def first_cohort(self) -> str:
        """Write a cohort so that there is one."""
        identity = str(uuid4())
        body = {"id": identity, "name": identity[:8], "species_key": "rainbow-trout"}
        assert self._client.put(f"/v1/cohorts/{identity}", json=body).is_success
        return identity

    @rule(target=units, unit=records(Unit))
    def add_unit(self, unit: Unit) -> str:
        """Write another unit."""
        return self._keep_unit(plain(unit, sparse=True), "another")

    def _keep_unit(self, body: Json, name: str) -> str:
        identity = str(uuid4())
        whole = {**body, "id": identity, "name": f"{name} {identity[:8]}", "version": 1}
        answer = self._client.put(f"/v1/units/{identity}", json=whole)
        assert answer.is_success, answer.text
        return identity

    @rule(target=free, unit=units, cohort=cohorts, entry=entries())
    def write(self, unit: str, cohort: str, entry: Any) -> Json:
        """Write any entry, on any day."""
        body: Json = {**entry_to_plain(entry), "id": str(uuid4())}
        body.pop("replaces", None)
        for field in ("unit_id", "to_unit_id"):
            if field in body:
                body[field] = unit
        if "cohort_id" in body:
            body["cohort_id"] = cohort
        return self._post(body)

    def _post(self, body: Json) -> Json:
        answer = self._client.post("/v1/entries", json={"entries": [body]})
        check(answer)
        if answer.is_success:
            assert answer.json()["added"] == [body["id"]]
            self._confirmed[body["id"]] = body
        return body

    @rule(target=written, entry=consumes(free), feed_kg=st.floats(0, 1e3))
    def correct(self, entry: Json, feed_kg: float) -> Json:
        """Replace an entry by another."""
        where = self._client.get("/v1/units").json()["items"][0]["id"]
        body = {"id": str(uuid4()), "kind": "feed", "on": entry["on"], "unit_id": where}
        return self._post({**body, "feed_kg": feed_kg, "replaces": entry["id"]})

    @rule(entry=written)
    def correct_again(self, entry: Json) -> None:
        """Replace what was replaced: at most one of them is taken."""
        self._post({**entry, "id": str(uuid4())})

    @rule(entry=free)
    def repeat(self, entry: Json) -> None:
        """Send the same again, as a queue does."""
        answer = self._client.post("/v1/entries", json={"entries": [entry]})
        check(answer)
        if entry["id"] in self._confirmed:
            assert answer.json() == {"added": [], "repeated": [entry["id"]]}

    @rule(entry=free)
    def alter(self, entry: Json) -> None:
        """Send other content under the same id."""
        altered = {**entry, "note": f"{entry.get('note', '')[:20]}x"}
        answer = self._client.post("/v1/entries", json={"entries": [altered]})
        check(answer)
        if entry["id"] in self._confirmed:
            assert answer.json()["code"] == "entry-conflict"
        elif answer.is_success:
            self._confirmed[entry["id"]] = altered

    @rule(entry=free, data=st.data())
    def nonsense(self, entry: Json, data: st.DataObject) -> None:
        """Send an entry with strange values; all or nothing is written."""
        good = {**entry, "id": str(uuid4())}
        strange = data.draw(with_strange_values({**entry, "id": str(uuid4())}))
        answer = sent(self._client, "POST", "/v1/entries", {"entries": [good, strange]})
        check(answer)
        if answer.is_success:
            both = (good, strange)
            assert answer.json()["added"] == [body["id"] for body in both]
            self._confirmed |= {body["id"]: body for body in both}

    # --- samples ------------------------------------------------------------------

    @rule(target=samples, data=st.data())
    def sample(self, data: st.DataObject) -> str:
        """Save a sample, some of its values strange."""
        identity = str(uuid4())
        body = data.draw(st.just(NETS) | with_strange_values(NETS))
        check(sent(self._client, "PUT", f"/v1/samples/{identity}", body))
        return identity

    @rule(sample=samples, unit=units, cohort=cohorts)
    def record(self, sample: str, unit: str, cohort: str) -> None:
        """Enter a sample in the book."""
        where = {"unit_id": unit, "cohort_id": cohort}
        answer = self._client.post(f"/v1/samples/{sample}/record", json=where)
        check(answer)
        if answer.is_success:
            self._confirmed.setdefault(sample, {})

    # --- what is asked ------------------------------------------------------------

    @rule(unit=units, part=st.sampled_from(PARTS), day=DAYS)
    def ask(self, unit: str, part: str, day: date) -> None:
        """Ask for figures on any day, before and after anything happened."""
        check(self._client.get(f"/v1/units/{unit}/{part}", params={"date": str(day)}))

    @rule()
    def export_and_import(self) -> None:
        """What comes out goes in and adds nothing."""
        document = self._client.get("/v1/export.json").json()
        answer = self._client.post("/v1/import", json=document)
        assert answer.is_success, answer.text
        assert answer.json()["added"] == []

    @rule()
    def restart(self) -> None:
        """End the server and start another on the same folder."""
        self._client.__exit__(None, None, None)
        self._start()

    @invariant()
    def all_is_there(self) -> None:
        """Everything that was confirmed, nothing that was not, and no failure."""
        listed = self._client.get("/v1/entries", params={"limit": 1000}).json()["items"]
        found = {entry["id"]: entry for entry in listed}
        assert found.keys() == self._confirmed.keys()
        for identity, body in self._confirmed.items():
            kept = found[identity]
            for field in ("kind", "on", "feed_kg", "fish_count", "replaces"):
                if body.get(field) is not None:
                    assert kept[field] == body[field], field
        assert self._traces.taken() == []


class BookOnPostgres(Book):
    """The same on a database server, emptied before each run."""


def _empty(address: str) -> None:
    open_book(address).close()  # makes the tables
    engine = open_engine(address)
    names = ", ".join(metadata.tables)
    with engine.begin() as connection:
        connection.execute(text(f"TRUNCATE {names}"))
    engine.dispose()


@pytest.mark.parametrize("database", ["sqlite", "postgres"])
def test_any_sequence_of_requests_leaves_the_book_as_it_was_said(
    database: str, request: pytest.FixtureRequest
) -> None:
    """Some hundred steps; half as many on the database server."""
    machine, examples = Book, EXAMPLES
    if database == "postgres":
        BookOnPostgres.address = request.getfixturevalue("postgres_url")
        machine, examples = BookOnPostgres, max(1, EXAMPLES // 2)
    run_state_machine_as_test(
        machine,
        settings=settings(
            max_examples=examples,
            stateful_step_count=25,
            deadline=None,
            derandomize=True,
            suppress_health_check=list(HealthCheck),
        ),
    )
