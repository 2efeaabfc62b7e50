"""What asking costs as a book grows: processor time and statements of each request.

Usage: python -m tests.bench.bench_costs [--sizes 1000 10000 100000] [--rounds 3]
           [--without-farm]

A hatchery of 100 units over ten years, its fish moved between neighbours, 2,000 photos
and 200 samples. One unit has 200 entries of its own in each book; the rest is spread
over the others. ``anew`` is asked after an entry in that unit, else nothing is new.
Processor time of the whole process, its best round; ratios are to the smallest book.
"""

import argparse
import itertools
import json
import math
import random
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any
from uuid import UUID, uuid4

from sqlalchemy import Engine, event, insert
from starlette.testclient import TestClient

from api.app import create_app
from api.settings import Settings
from fishmeasure.book.entries import (
    Counted,
    Died,
    Entry,
    Feed,
    FeedBought,
    Moved,
    Sample,
    Stocked,
    WaterReading,
)
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.pipeline import measure_photo
from fishmeasure.store import tables
from fishmeasure.store.book import Book, BookContent, open_book
from fishmeasure.store.engine import open_engine, writing
from tests.bench.bench_book import MONTHS_C
from tests.fuzz.documents import NETS

UNITS = 100
PHOTOS = 2000
SAMPLES = 200
OWN = 200
YEARS = 10
LAST = date(2026, 6, 30)
FIRST = LAST - timedelta(days=365 * YEARS)
CYCLE_DAYS = 540
PHOTO = Path(__file__).resolve().parents[2] / "sample_images" / "tank_a_net2.jpg"


def hatchery(entry_count: int) -> BookContent:
    """Return a book of so many entries; the first unit's are the same in each."""
    units = tuple(
        Unit(
            id=UUID(int=number),
            name=f"Tank {number:03}",
            kind="tank",
            volume_m3=30.0,
            depth_m=1.2,
            inflow_l_per_min=60.0,
            monthly_temperature_deg_c=MONTHS_C,
        )
        for number in range(1, UNITS + 1)
    )
    diary = _Diary()
    diary.cycle(units[0], units[0], LAST - timedelta(days=CYCLE_DAYS), OWN)
    pairs = [
        (units[n], units[n + 1] if n + 1 < UNITS else units[n])
        for n in range(1, UNITS, 2)
    ]
    # A new cohort every 18 months; of small books only the last.
    cycles = max(1, min(365 * YEARS // CYCLE_DAYS, entry_count // 9000))
    share = (entry_count - OWN) / (len(pairs) * cycles)
    for (number, pair), cycle in itertools.product(enumerate(pairs), range(cycles)):
        done = (number * cycles + cycle) * share
        wanted = round(done + share) - round(done)
        start = LAST - timedelta(days=CYCLE_DAYS * (cycle + 1) + 3 * number)
        diary.cycle(*pair, start, wanted)
    return BookContent(
        units=units, cohorts=tuple(diary.cohorts), entries=tuple(diary.entries)
    )


class _Diary:
    """What is entered of one cohort after another."""

    def __init__(self) -> None:
        self.cohorts: list[Cohort] = []
        self.entries: list[Entry] = []
        self._chance = random.Random(20261128)  # noqa: S311 - no secret

    def cycle(self, unit: Unit, other: Unit, start: date, wanted: int) -> None:
        """Write so many entries of one cohort, from stocking to its end."""
        fish = Cohort(
            id=UUID(int=10_000 + len(self.cohorts)),
            name=f"Cohort {len(self.cohorts)}",
            species_key="rainbow-trout",
        )
        self.cohorts.append(fish)
        for number in range(wanted):
            days = number * CYCLE_DAYS // max(1, wanted)
            about = {
                "id": UUID(int=1_000_000 + len(self.entries)),
                "on": min(LAST, start + timedelta(days=days)),
                "unit_id": unit.id,
            }
            self.entries.append(self._entry(number, wanted, about, (fish, other)))

    def _entry(  # noqa: PLR0911 - one for each kind
        self, number: int, wanted: int, about: Any, with_what: tuple[Cohort, Unit]
    ) -> Entry:
        fish, other = with_what
        of_fish = about | {"cohort_id": fish.id}
        each_days = CYCLE_DAYS / max(1, wanted)
        mean_g = (30.0 ** (1 / 3) + 0.0105 * number * each_days) ** 3
        if number == 0:
            return Stocked(**of_fish, fish_count=3000, mean_weight_g=30.0)
        if number == wanted - 1 and about["on"] < LAST - timedelta(days=CYCLE_DAYS):
            return Counted(**of_fish, fish_count=0, fish_count_sd=0.0)  # all harvested
        if number % 200 == 7:
            bought = {key: about[key] for key in ("id", "on")}
            return FeedBought(**bought, feed_kg=500.0, feed_name="pellets")
        if number % 25 == 9:
            low, high = 0.95 * mean_g, 1.05 * mean_g
            weighed: Any = {"mean_weight_low_g": low, "mean_weight_high_g": high}
            return Sample(**of_fish, mean_weight_g=mean_g, **weighed)
        if number % 100 == 50 and other.id != about["unit_id"]:
            return Moved(**of_fish, to_unit_id=other.id, fish_count=50)
        if number % 100 == 80:
            return Counted(**of_fish, fish_count=2700)
        if number % 5 == 1:
            return Died(**of_fish, fish_count=1)
        if number % 5 == 2:
            month_c = MONTHS_C[about["on"].month - 1]
            read_c = month_c + self._chance.gauss(0.0, 0.4)
            return WaterReading(**about, temperature_deg_c=read_c, do_mg_per_l=8.0)
        # 2,900 fish, 1.1 kg for a kilogram put on, until the next one is entered: of
        # five entries 2.6 are feed.
        gain_kg = 2.9 * 3.0 * mean_g ** (2 / 3) * 0.0105 * each_days * 5.0 / 2.6
        feed_kg = 1.1 * gain_kg * self._chance.uniform(0.9, 1.1)
        return Feed(**about, feed_kg=round(feed_kg, 2))


def fill(folder: Path, entry_count: int) -> None:
    """Make a data folder with such a book, photos and samples."""
    where = str(folder / "book.sqlite")
    with open_book(where) as book:
        book.add_content(hatchery(entry_count))
    measured = json.dumps(measure_photo(PHOTO.read_bytes(), PHOTO.name).to_json())
    now = datetime.now(UTC)
    engine = open_engine(where)
    with writing(engine) as connection:
        photo = {"revision": 1, "received_at": now, "name": "net.jpg", "settings": "{}"}
        photo |= {"measured": measured, "measurement": measured, "corrections": "[]"}
        photos = [photo | {"id": f"{number:064x}"} for number in range(PHOTOS)]
        connection.execute(insert(tables.photos), photos)
        sample = {"revision": 1, "received_at": now, "body": json.dumps(NETS)}
        sample |= {"result": json.dumps({"estimate": None, "problems": []})}
        samples = [sample | {"id": UUID(int=number)} for number in range(SAMPLES)]
        connection.execute(insert(tables.samples), samples)
    engine.dispose()


class Asker:
    """A client that counts what its requests cost."""

    def __init__(self, client: TestClient, rounds: int) -> None:
        self._client, self._rounds = client, rounds
        self._statements = 0
        event.listen(Engine, "before_cursor_execute", self._count)

    def close(self) -> None:
        """Count no more."""
        event.remove(Engine, "before_cursor_execute", self._count)

    def _count(self, *_: Any) -> None:
        self._statements += 1

    def get(self, path: str) -> None:
        """Ask for something."""
        answer = self._client.get(path)
        assert answer.is_success, answer.text

    def post(self, entries: list[dict[str, Any]]) -> None:
        """Write entries."""
        answer = self._client.post("/v1/entries", json={"entries": entries})
        assert answer.is_success, answer.text

    def cost(
        self, work: Callable[[], None], before: Callable[[], None] | None = None
    ) -> tuple[float, int]:
        """Return milliseconds of processor time and statements of the best round."""
        found = []
        for _ in range(self._rounds):
            if before is not None:
                before()
            self._statements, begun = 0, time.process_time()
            work()
            spent_ms = 1000.0 * (time.process_time() - begun)
            found.append((spent_ms, self._statements))
        return min(found)


def _died(unit: UUID, cohort: UUID, on: date) -> dict[str, Any]:
    about = {"id": str(uuid4()), "kind": "died", "on": str(on), "fish_count": 1}
    return about | {"unit_id": str(unit), "cohort_id": str(cohort)}


def _read(unit: UUID, on: date) -> dict[str, Any]:
    about = {
        "id": str(uuid4()),
        "kind": "water",
        "on": str(on),
        "temperature_deg_c": 11.0,
    }
    return about | {"unit_id": str(unit)}


def costs(asker: Asker, book: Book, *, with_farm: bool) -> dict[str, tuple[float, int]]:
    """Return what each question costs."""
    unit, fish, on = UUID(int=1), UUID(int=10_000), LAST
    path, day = f"/v1/units/{unit}", f"?date={on}"
    asks = {
        "a unit": path,
        "its outlook": f"{path}/outlook{day}",
        "its state": f"{path}/state{day}",
        "the farm (Today)": f"/v1/farm{day}",
        "units": "/v1/units",
        "entries": "/v1/entries?limit=50",
        "entries of a unit": f"/v1/entries?limit=50&unit_id={unit}",
        "entries in force": "/v1/entries?limit=50&only_in_force=true",
        "photos": "/v1/photos",
        "samples": "/v1/samples",
        "register of a year": f"/v1/farm/register{day}",
    }
    found: dict[str, tuple[float, int]] = {}
    begun = time.process_time()
    if with_farm:
        asker.get(asks["the farm (Today)"])
        found["the farm, the first time"] = (1000.0 * (time.process_time() - begun), 0)
    else:
        del asks["the farm (Today)"]
    for name, address in asks.items():
        asker.get(address)
        found[name] = asker.cost(lambda a=address: asker.get(a))  # type: ignore[misc]
        print(name, found[name], file=sys.stderr, flush=True)

    def one_more() -> None:
        asker.post([_read(unit, on)])

    for name in [one for one in ("its outlook", "the farm (Today)") if one in asks]:
        ask = asks[name]
        found[f"{name}, anew"] = asker.cost(
            lambda a=ask: asker.get(a),  # type: ignore[misc]
            one_more,
        )
    found["one reading entered"] = asker.cost(one_more)
    found["one death entered"] = asker.cost(lambda: asker.post([_died(unit, fish, on)]))
    newest = {
        e.unit_id: e.cohort_id
        for e in book.entries(only_in_force=True)
        if isinstance(e, Stocked)
    }
    day_of_all = [(fish, unit) for unit, fish in newest.items()][:10]
    found["10 units' deaths and readings, in one request"] = asker.cost(
        lambda: asker.post(
            [_died(u, c, on) for c, u in day_of_all]
            + [_read(u, on) for _, u in day_of_all]
        )
    )
    return found


def measured(
    entry_count: int, rounds: int, *, with_farm: bool = True
) -> dict[str, tuple[float, int]]:
    """Return what each question costs in a book of so many entries."""
    with tempfile.TemporaryDirectory() as folder:
        fill(Path(folder), entry_count)
        settings = Settings(data_dir=Path(folder), workers=1, hosts="testserver")
        app = create_app(settings)
        with TestClient(app) as client:
            asker = Asker(client, rounds)
            try:
                book = app.state.services.book
                return costs(asker, book, with_farm=with_farm)
            finally:
                asker.close()


def main() -> None:
    """Measure and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sizes", type=int, nargs="+", default=[1000, 10_000, 100_000])
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--without-farm", action="store_true")
    given = parser.parse_args()
    found = {
        size: measured(size, given.rounds, with_farm=not given.without_farm)
        for size in given.sizes
    }
    first, last = found[given.sizes[0]], found[given.sizes[-1]]
    grown = math.log(given.sizes[-1] / given.sizes[0]) if len(found) > 1 else 1.0
    heads = [f"{size:,}" for size in given.sizes]
    print("| asked | " + " | ".join(heads) + " | statements | exponent |")
    print("| --- |" + " ---: |" * (len(heads) + 2))
    for name in first:
        cells = []
        for size in given.sizes:
            ms = found[size][name][0]
            cells.append(f"{ms:.1f} ms ({ms / first[name][0]:.2f})")
        exponent = math.log(last[name][0] / first[name][0]) / grown
        counts = "/".join(str(found[size][name][1]) for size in given.sizes)
        print(f"| {name} | {' | '.join(cells)} | {counts} | {exponent:.2f} |")


if __name__ == "__main__":
    main()
