"""How many slips are asked about before they are stored, and how many right entries.

Usage: python -m tests.accuracy.asking [--histories 60] [--first 1000]

Simulated stocks of ``tests.accuracy.histories``, whose truth is not drawn from the
book's priors; to their entries come harvests in fish and kilograms, sales in kilograms
alone, moves and counts. Each right entry is asked about by the book of those before it;
then the same entries with one slip each.

What is subtle (a count off by one in a hundred, a sample dated two weeks wrong) stands
beside the likelihood-ratio test that knows the slip and its size, at the share of right
entries of that kind which the book asks about.
"""

import argparse
import math
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Any

import numpy as np

from fishmeasure.book.asking import Ledger, Question, ask
from fishmeasure.book.asking.ask import _place
from fishmeasure.book.asking.expected import checks_of, said_of
from fishmeasure.book.entries import (
    Counted,
    Died,
    Entry,
    Feed,
    Harvested,
    Moved,
    Sample,
    Sold,
    Stocked,
)
from fishmeasure.book.order import in_order
from fishmeasure.book.replay import replay
from tests.accuracy.histories import (
    CASES,
    COMMON,
    FISH_ID,
    UNIT_ID,
    Case,
    Truth,
    entries_of,
    grown,
)
from tests.book.build import cohort, same, tank

OTHER_ID = same(3)
POUND_KG = 0.45359237
Slip = Callable[[Any, np.random.Generator], Entry | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """A simulated history: the book's units and fish, and right entries in order."""

    book: Ledger
    entries: tuple[Entry, ...]
    truth: Truth
    case: Case


def stock(case: Case, seed: int) -> Stock:
    """Return a history with all kinds of entries."""
    chance = np.random.default_rng(seed)
    truth = grown(case, chance)
    found = entries_of(case, truth, chance)
    found += list(_more(case, truth, chance))
    units = (
        tank("A", id=UNIT_ID, monthly_temperature_deg_c=case.temps_c, volume_m3=20.0),
        tank("B", id=OTHER_ID, monthly_temperature_deg_c=case.temps_c),
    )
    book = Ledger(units=units, cohorts=(cohort("trout", id=FISH_ID),), entries=())
    return Stock(book=book, entries=in_order(found), truth=truth, case=case)


def _more(case: Case, truth: Truth, chance: np.random.Generator) -> Iterator[Entry]:
    """Yield counts, harvests, sales, moves and deaths; the truth loses the fish."""
    ids = iter(range(500_000, 600_000))
    for day in (37, 65, 93, 121, 149):
        on = case.start + timedelta(days=day)
        each = truth.weight_g[day]
        fish = int(chance.integers(15, 90))
        # The larger are taken first: a mean between all and 15 % above, as they come.
        mean_g = each * (1.0 + chance.uniform(-0.02, 0.15))
        own = {"id": same(next(ids)), "on": on, **COMMON}
        kind = int(chance.integers(0, 4))
        kg = round(fish * mean_g / 1000.0 * (1.0 + 0.01 * chance.standard_normal()), 1)
        if kind == 0:
            yield Sold(weight_kg=kg, **own)
        elif kind == 1:
            yield Moved(fish_count=fish, to_unit_id=OTHER_ID, **own)
        else:
            yield Harvested(fish_count=fish, weight_kg=kg, **own)
        truth.count[day:] -= fish
    for day in (50, 110, 160):
        on = case.start + timedelta(days=day)
        counted = round(truth.count[day] * (1.0 + 0.03 * chance.standard_normal()))
        yield Counted(id=same(next(ids)), on=on, fish_count=counted, **COMMON)
    for day in range(5, case.days, 11):
        on = case.start + timedelta(days=day)
        dead = int(chance.negative_binomial(1.0, 0.3)) + 1
        truth.count[day:] -= dead
        yield Died(id=same(next(ids)), on=on, fish_count=dead, **COMMON)


# --- slips ------------------------------------------------------------------------


def _times(field: str, factor: float) -> Slip:
    def slip(entry: Any, _: np.random.Generator) -> Entry | None:
        value = getattr(entry, field, None)
        if not value:
            return None
        if isinstance(entry, Sample):
            names = ("mean_weight_g", "mean_weight_low_g", "mean_weight_high_g")
            return _made(entry, {n: getattr(entry, n) * factor for n in names})
        if field == "fish_count":
            return _made(entry, {field: round(value * factor)})
        return _made(entry, {field: value * factor})

    return slip


def _tare(entry: Any, chance: np.random.Generator) -> Entry | None:
    """A bucket of water, 6 to 12 kg beside 3 to 10 kg of fish, not taken off."""
    if isinstance(entry, Feed | Counted | Died | Moved):
        return None
    share = chance.uniform(6.0, 12.0) / chance.uniform(3.0, 10.0)
    field = "mean_weight_g" if isinstance(entry, Sample) else "weight_kg"
    if isinstance(entry, Stocked):
        field = "bulk_weight_kg"
    return _times(field, 1.0 + share)(entry, chance)


def _more_out(entry: Any, chance: np.random.Generator) -> Entry | None:
    """More fish go than came in: another tank's, or another cohort's."""
    if not isinstance(entry, Harvested | Died | Moved) or entry.fish_count is None:
        return None
    times = 1000.0 * chance.uniform(1.25, 5.0) / entry.fish_count
    made = _times("fish_count", times)(entry, chance)
    if isinstance(made, Harvested) and made.weight_kg:
        return _made(made, {"weight_kg": made.weight_kg * times})
    return made


def _made(entry: Any, values: dict[str, Any]) -> Entry | None:
    try:
        return replace(entry, **values)  # type: ignore[no-any-return]
    except Exception:  # noqa: BLE001 - what the book refuses is no question
        return None


GROSS: tuple[tuple[str, type[Entry], Slip], ...] = (
    *(
        (f"ten times, {kind.__name__.lower()} {field}", kind, _times(field, factor))
        for kind, field in (
            (Sample, "mean_weight_g"),
            (Counted, "fish_count"),
            (Harvested, "fish_count"),
            (Harvested, "weight_kg"),
            (Feed, "feed_kg"),
        )
        for factor in (10.0,)
    ),
    ("a tenth, sample", Sample, _times("mean_weight_g", 0.1)),
    ("a tenth, counted", Counted, _times("fish_count", 0.1)),
    ("grams for kilograms, sample", Sample, _times("mean_weight_g", 1e-3)),
    ("grams for kilograms, harvested", Harvested, _times("weight_kg", 1e3)),
    ("grams for kilograms, sold", Sold, _times("weight_kg", 1e3)),
    ("grams for kilograms, feed", Feed, _times("feed_kg", 1e3)),
    ("pounds for kilograms, sample", Sample, _times("mean_weight_g", 1 / POUND_KG)),
    ("pounds for kilograms, harvested", Harvested, _times("weight_kg", 1 / POUND_KG)),
    ("kilograms for pounds, sample", Sample, _times("mean_weight_g", POUND_KG)),
    ("tare forgotten, sample", Sample, _tare),
    ("tare forgotten, harvested", Harvested, _tare),
    ("more out than in, harvested", Harvested, _more_out),
    ("more out than in, died", Died, _more_out),
    ("more out than in, moved", Moved, _more_out),
)
NOT_TOLD: tuple[tuple[str, type[Entry], Slip], ...] = (
    ("ten times, died", Died, _times("fish_count", 10.0)),
    ("ten times, moved", Moved, _times("fish_count", 10.0)),
    ("ten times, sold", Sold, _times("weight_kg", 10.0)),
    ("ten times, stocked kilograms", Stocked, _times("bulk_weight_kg", 10.0)),
    ("pounds for kilograms, sold", Sold, _times("weight_kg", 1 / POUND_KG)),
    ("pounds for kilograms, feed", Feed, _times("feed_kg", 1 / POUND_KG)),
)


def _later(days: int) -> Slip:
    return lambda entry, _: _made(entry, {"on": entry.on + timedelta(days=days)})


def _off(fish: int) -> Slip:
    return lambda entry, _: _made(entry, {"fish_count": entry.fish_count + fish})


SUBTLE: tuple[tuple[str, type[Entry], Slip], ...] = (
    ("count off by one", Counted, _off(1)),
    ("count off by ten", Counted, _off(10)),
    ("count off by a hundred", Counted, _off(100)),
    ("sample dated 14 days late", Sample, _later(14)),
    ("sample dated 30 days late", Sample, _later(30)),
    ("sample 25 % too heavy", Sample, _times("mean_weight_g", 1.25)),
)


# --- asking -----------------------------------------------------------------------


def asked(one: Stock, place: int, entry: Entry) -> Question | None:
    """Return what is asked about an entry in the place of another of the history."""
    before = one.entries[:place]
    return ask(replace(one.book, entries=before), entry, today=entry.on)


def oddness(one: Stock, place: int, entry: Entry) -> float:
    """Return ln likelihood of an entry's figures by the book before it."""
    before = one.entries[:place]
    unit = one.book.units[0]
    found = _place(replace(one.book, entries=before), before, entry, unit)
    return sum(c.log_likelihood for c in checks_of(entry.kind, said_of(entry), found))


def right_ones(histories: list[Stock], most: int) -> tuple[Counter[str], Counter[str]]:
    """Return how many right entries there are and how many are asked about, by kind."""
    chance = np.random.default_rng(5)
    places = [(one, n) for one in histories for n in range(1, len(one.entries))]
    chance.shuffle(places)
    meals = [p for p in places if p[0].entries[p[1]].kind == "feed"]
    others = [p for p in places if p[0].entries[p[1]].kind != "feed"]
    chosen = others[: (3 * most) // 4] + meals[: most // 4]
    seen: Counter[str] = Counter()
    doubted: Counter[str] = Counter()
    for one, n in chosen:
        entry = one.entries[n]
        seen[entry.kind] += 1
        doubted[entry.kind] += asked(one, n, entry) is not None
    return seen, doubted


def slipped(
    histories: list[Stock], kind: type[Entry], slip: Slip, most: int
) -> tuple[int, int, int]:
    """Return how many slips were made, were asked about, and were put right."""
    chance = np.random.default_rng(7)
    made = found = righted = 0
    for one in histories:
        places = [n for n, e in enumerate(one.entries) if type(e) is kind]
        if not places or made >= most:
            continue
        n = places[int(chance.integers(0, len(places)))]
        wrong = slip(one.entries[n], chance)
        if wrong is None:
            continue
        made += 1
        question = asked(one, n, wrong)
        found += question is not None
        righted += question is not None and _same(question.corrected, one.entries[n])
    return made, found, righted


def _same(corrected: Entry | None, right: Entry) -> bool:
    if corrected is None:
        return False
    return all(
        math.isclose(said_of(corrected).get(name, math.nan), value, rel_tol=0.02)
        for name, value in said_of(right).items()
        if not name.endswith("sd")
    )


def power(
    histories: list[Stock], kind: type[Entry], slip: Slip, false: float
) -> tuple[int, float, float]:
    """Return slips made, the share asked about, and that of the best test.

    The best test knows the slip: the ratio of the likelihoods with and without it, its
    limit set on right entries so that the same share of them is asked about.
    """
    chance = np.random.default_rng(9)
    right, wrong, found = [], [], []
    for one in histories:
        places = [n for n, e in enumerate(one.entries) if type(e) is kind]
        for n in places:
            entry = one.entries[n]
            other = slip(entry, chance)
            if other is None:
                continue
            right.append(_ratio(one, n, entry, slip, chance))
            wrong.append(_ratio(one, n, other, slip, chance))
            found.append(asked(one, n, other) is not None)
    limit = float(np.quantile(right, 1.0 - max(false, 1.0 / len(right))))
    best = float(np.mean(np.array(wrong) > limit))
    return len(wrong), float(np.mean(found)), best


def _ratio(
    one: Stock, n: int, entry: Entry, slip: Slip, chance: np.random.Generator
) -> float:
    """Return ln likelihood with the slip taken out over that as entered."""
    undone = _undone(entry, slip, chance)
    return oddness(one, n, undone) - oddness(one, n, entry)


def _undone(entry: Any, slip: Slip, chance: np.random.Generator) -> Entry:
    slipped_once = slip(entry, chance)
    if isinstance(slipped_once, Counted):
        off = slipped_once.fish_count - entry.fish_count
        return replace(entry, fish_count=entry.fish_count - off)  # type: ignore[no-any-return]
    if isinstance(slipped_once, Sample) and slipped_once.on != entry.on:
        return replace(entry, on=entry.on - (slipped_once.on - entry.on))  # type: ignore[no-any-return]
    if isinstance(slipped_once, Sample):
        times = entry.mean_weight_g / slipped_once.mean_weight_g
        names = ("mean_weight_g", "mean_weight_low_g", "mean_weight_high_g")
        return replace(entry, **{n: getattr(entry, n) * times for n in names})  # type: ignore[no-any-return]
    msg = "no such slip"
    raise ValueError(msg)


def cost(one: Stock) -> tuple[float, float]:
    """Return processor seconds of one question and of one balance of the book."""
    last = len(one.entries) - 1
    entry = replace(one.entries[last], id=same(9))
    sample = next(e for e in reversed(one.entries) if isinstance(e, Sample))
    wanted = replace(
        sample, id=same(9), on=entry.on, mean_weight_g=sample.mean_weight_g
    )
    book = replace(one.book, entries=one.entries)
    begun = time.process_time()
    for _ in range(5):
        replay(book.units, book.cohorts, book.entries, on=entry.on)
    between = time.process_time()
    for _ in range(5):
        ask(book, wanted, today=entry.on)
    return (time.process_time() - between) / 5.0, (between - begun) / 5.0


def histories_of(number: int, first: int) -> list[Stock]:
    """Return that many histories, of all kinds in turn."""
    kinds = [replace(case, counted=False) for case in CASES]
    return [stock(kinds[n % len(kinds)], first + n) for n in range(number)]


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--histories", type=int, default=60)
    parser.add_argument("--first", type=int, default=1000)
    parser.add_argument("--right", type=int, default=2000)
    options = parser.parse_args()
    histories = histories_of(options.histories, options.first)
    question, balance = cost(histories[1])
    print(f"processor time: question {question:.3f} s, balance {balance:.3f} s")
    seen, doubted = right_ones(histories, options.right)
    all_, of_them = sum(seen.values()), sum(doubted.values())
    print(
        f"right entries: {all_}, asked about {of_them} ({100 * of_them / all_:.1f} %)"
    )
    for kind, number in sorted(seen.items()):
        print(f"  {kind:10} {number:5}  {100 * doubted[kind] / number:5.1f} %")
    for title, slips in (
        ("gross slips", GROSS),
        ("slips that the book cannot tell from what is usual", NOT_TOLD),
    ):
        totals = np.zeros(3, dtype=int)
        print(title)
        for name, made_of, slip in slips:
            counted = slipped(histories, made_of, slip, options.histories)
            totals += counted
            made, found, righted = counted
            print(f"  {name:36} {made:4}  {found:4}  {righted:4}")
        share = 100.0 * totals[1] / totals[0]
        print(
            f"  {'all':36} {totals[0]:4}  {totals[1]:4}  {totals[2]:4}  {share:.0f} %"
        )
    print("subtle: slips, share asked, best test at the same share of right entries")
    for name, made_of, slip in SUBTLE:
        false = doubted[made_of.__name__.lower()] / max(
            1, seen[made_of.__name__.lower()]
        )
        number, own, best = power(histories[:24], made_of, slip, false)
        print(f"  {name:36} {number:4}  {100 * own:4.0f} %  {100 * best:4.0f} %")


if __name__ == "__main__":
    main()
