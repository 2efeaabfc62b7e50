"""How often the book's 90 % intervals hold the truth, and how wide they are.

Usage: python -m tests.accuracy.histories [--runs 100] [--first 0]
[--only "steady;winter"]

The truth is not drawn from the model's own priors: fish grow by a power of their weight
and a bell of temperature, not by a thermal growth coefficient; growth wanders from day
to day with heavy tails; weights within a stock are gamma, not lognormal; losses come
evenly or at one stroke; nets have a common bias; feed is wasted and forgotten.
Interval score: width + 20 x the miss (Gneiting & Raftery 2007, level 0.9), as a share
of the truth.
"""

import argparse
import math
import time
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from typing import Any

import numpy as np

from fishmeasure.base.estimate import Estimate
from fishmeasure.book.entries import Counted, Died, Entry, Feed, Sample, Stocked
from fishmeasure.book.replay import replay
from fishmeasure.husbandry.harvest import DateEstimate, dates_at_size
from fishmeasure.husbandry.projection import project_growth
from fishmeasure.husbandry.propagation import z_score
from fishmeasure.husbandry.temperature import MonthlyTemperature
from tests.book.build import cohort, same, tank

FloatArray = np.ndarray[Any, np.dtype[np.float64]]
UNIT_ID, FISH_ID = same(1), same(2)
COMMON: dict[str, Any] = {"unit_id": UNIT_ID, "cohort_id": FISH_ID}
SPRING_C = (9.0, 9.0, 9.5, 10.0, 11.0, 12.0, 12.5, 12.5, 12.0, 11.0, 10.0, 9.0)
LAKE_C = (3.0, 3.0, 4.5, 7.0, 10.0, 13.0, 15.0, 15.0, 12.0, 9.0, 5.5, 3.5)
PLATE_G = 300.0
AHEAD = 730
NETS, PER_NET = 4, 8
NET_VARIANCE = 0.06**2 * 1.5  # of 0.06 times Student's t of 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One kind of history."""

    name: str
    days: int = 168
    every: int = 28
    after: int = 0
    feed: bool = False
    tgc_trend: float = 0.0  # of growth, over the whole time
    loss: tuple[float, float] = (0.0, 0.015)  # a month, unseen
    cv_to: float = 1.0  # share of the CV at the end
    samples: int = 99
    temps_c: tuple[float, ...] = SPRING_C
    start: date = date(2026, 3, 1)
    counted: bool = False


CASES = (
    Case(name="steady"),
    Case(name="steady, with feed", feed=True),
    Case(name="counted", counted=True),
    Case(name="growth falling", tgc_trend=-0.4),
    Case(name="growth falling, with feed", tgc_trend=-0.4, feed=True),
    Case(name="losses 0 to 3 % a month", loss=(0.0, 0.03)),
    Case(name="CV falling", cv_to=0.6),
    Case(name="one sample only", samples=1),
    Case(name="14 days after the last sample", after=14),
    Case(name="14 days after, with feed", after=14, feed=True),
    Case(name="winter", temps_c=LAKE_C, start=date(2026, 9, 15)),
    Case(name="winter, with feed", temps_c=LAKE_C, start=date(2026, 9, 15), feed=True),
)


@dataclass(slots=True, kw_only=True)
class Truth:
    """What was, day by day, and on until a year after the end."""

    weight_g: FloatArray
    count: FloatArray
    cv: FloatArray
    gain_g: FloatArray = field(default_factory=lambda: np.zeros(0))


def temperatures(case: Case) -> FloatArray:
    """Return the water of each day: months with straight lines between them."""
    length = case.days + AHEAD + 1
    middles = np.array([15 + 30.4 * month for month in range(-1, 13)])
    months = np.array([case.temps_c[-1], *case.temps_c, case.temps_c[0]])
    of_year = [
        (case.start + timedelta(days=n)).timetuple().tm_yday for n in range(length)
    ]
    warmth: FloatArray = np.interp(of_year, middles, months)
    return warmth


def grown(case: Case, chance: np.random.Generator) -> Truth:
    """Return a stock's true course."""
    warmth = temperatures(case)
    # About what trout do: 1.4 g a day at 100 g and 12 °C; a bell about 14.5 °C.
    bell = np.exp(-0.5 * ((warmth - 14.5) / 5.0) ** 2) / math.exp(-0.5 * 0.25)
    pace = 0.054 * math.exp(0.18 * chance.standard_t(5))
    power = chance.uniform(0.62, 0.75)
    pace *= 100.0 ** (0.7 - power)
    trend = 1.0 + case.tgc_trend * np.arange(len(warmth)) / case.days
    wander, weights = 0.0, [40.0 * math.exp(0.25 * chance.standard_normal())]
    gains = []
    for day in range(len(warmth) - 1):
        wander = 0.975 * wander + 0.045 * chance.standard_t(4)
        drive = max(0.2, trend[min(day, case.days)]) * max(0.0, 1.0 + wander)
        gain = pace * weights[-1] ** power * bell[day] * drive
        if warmth[day] < 5.0:
            gain -= 0.0004 * weights[-1] * chance.uniform(0.0, 2.0)
        gains.append(gain)
        weights.append(weights[-1] + gain)
    rate = chance.uniform(*case.loss)
    count = np.zeros(len(weights))
    count[0] = 1000.0
    stroke = chance.integers(20, case.days) if chance.random() < 0.2 else -1
    for day in range(1, len(count)):
        lost = chance.binomial(int(count[day - 1]), rate / 30.0)
        if day == stroke:
            lost += round(chance.uniform(0.0, 2.0) * rate * count[day - 1])
        count[day] = count[day - 1] - lost if day <= case.days else count[day - 1]
    cv = chance.uniform(0.2, 0.34)
    course = np.linspace(1.0, case.cv_to, case.days + 1)
    return Truth(
        weight_g=np.array(weights),
        count=count,
        cv=cv * np.concatenate([course, np.full(AHEAD, course[-1])]),
        gain_g=np.array(gains),
    )


def entries_of(case: Case, truth: Truth, chance: np.random.Generator) -> list[Entry]:
    """Return what a grower entered of a stock."""
    # Lots against their first inventory: -11.5 to +10.3 % (Wyoming Game and Fish 1982).
    stated = round(truth.count[0] * chance.uniform(0.897, 1.115))
    kg = truth.count[0] * truth.weight_g[0] / 1000.0
    weighed = kg * (1.0 + 0.01 * chance.standard_normal())
    ids = iter(range(100, 100_000))
    found: list[Entry] = [
        Stocked(
            id=same(next(ids)),
            on=case.start,
            fish_count=stated,
            bulk_weight_kg=round(weighed, 2),
            **COMMON,
        )
    ]
    bias = 0.02 * chance.standard_normal()
    last = case.days - case.after
    sampled = list(range(last, case.every - 1, -case.every))[: case.samples]
    for day in range(1, case.days + 1):
        on = case.start + timedelta(days=day)
        if day in sampled:
            found.append(_sample(truth, day, on, next(ids), bias, chance))
        if case.counted and day == case.days // 2:
            counted = round(truth.count[day] * (1.0 + 0.03 * chance.standard_normal()))
            found.append(
                Counted(id=same(next(ids)), on=on, fish_count=counted, **COMMON)
            )
        if day % 40 == 0:
            truth.count[day:] -= 1
            found.append(Died(id=same(next(ids)), on=on, fish_count=1, **COMMON))
    return found + (_feed(case, truth, chance) if case.feed else [])


def _sample(
    truth: Truth,
    day: int,
    on: date,
    number: int,
    bias: float,
    chance: np.random.Generator,
) -> Sample:
    cv = float(truth.cv[day])
    nets = 1.0 + bias + 0.06 * chance.standard_t(6, NETS)
    # Fish of one place are alike; what nets differ by is part of the stock's own CV.
    shape = (1.0 + NET_VARIANCE) / (cv**2 - NET_VARIANCE)
    fish = chance.gamma(shape, 1.0 / shape, (NETS, PER_NET)) * nets[:, None]
    fish *= truth.weight_g[day]
    mean, seen = float(fish.mean()), float(fish.std(ddof=1) / fish.mean())
    # As the single sample's estimate has it: fish and nets, 6.6 % at 4 x 8.
    sd = math.sqrt(seen**2 / (NETS * PER_NET) + 0.09**2 / NETS)
    reach = z_score(0.9) * sd
    return Sample(
        id=same(number),
        on=on,
        mean_weight_g=mean,
        mean_weight_low_g=mean * math.exp(-reach),
        mean_weight_high_g=mean * math.exp(reach),
        cv=seen,
        fish_measured=NETS * PER_NET,
        fish_weighed=NETS * PER_NET,
        **COMMON,
    )


def _feed(case: Case, truth: Truth, chance: np.random.Generator) -> list[Entry]:
    """Feed as given: what was gained and burned, with waste; days are forgotten."""
    partial = chance.uniform(0.85, 1.15)
    waste = chance.uniform(1.0, 1.12)
    warmth = temperatures(case)
    found: list[Entry] = []
    for day in range(case.days):
        kept = 0.0018 * 2.0 ** ((warmth[day] - 10.0) / 10.0) * truth.weight_g[day]
        each = kept + partial * max(0.0, truth.gain_g[day])
        kg = truth.count[day] * each / 1000.0 * waste * chance.uniform(0.7, 1.3)
        if chance.random() < 0.03 or kg < 0.01:
            continue
        on = case.start + timedelta(days=day)
        found.append(
            Feed(id=same(200_000 + day), on=on, unit_id=UNIT_ID, feed_kg=round(kg, 2))
        )
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """One figure: truth, ends and the time it took."""

    name: str
    truth: float
    low: float
    high: float

    @property
    def inside(self) -> bool:
        """Whether the interval holds the truth."""
        return self.low <= self.truth <= self.high

    @property
    def score(self) -> float:
        """The interval score, as a share of the truth where that is no date."""
        miss = max(0.0, self.low - self.truth, self.truth - self.high)
        scale = 1.0 if self.name == "date" else self.truth
        return (self.high - self.low + 20.0 * miss) / scale


def one(case: Case, seed: int) -> tuple[list[Held], float]:
    """Return what the book says of one history beside the truth, and the seconds."""
    chance = np.random.default_rng(seed)
    truth = grown(case, chance)
    entries = entries_of(case, truth, chance)
    unit = tank("A", id=UNIT_ID, monthly_temperature_deg_c=case.temps_c)
    fish = cohort("trout", id=FISH_ID)
    on = case.start + timedelta(days=case.days)
    begun = time.process_time()
    (item,) = replay((unit,), (fish,), entries, on=on).unit(UNIT_ID).cohorts
    spent = time.process_time() - begun
    weight, count = float(truth.weight_g[case.days]), float(truth.count[case.days])
    found = [
        _held("weight", weight, item.mean_weight_g),
        _held("count", count, item.fish_count),
        _held("biomass", count * weight / 1000.0, item.biomass_kg),
        _held("CV", float(truth.cv[case.days]), item.cv),
    ]
    if item.growth is not None and item.cv is not None:
        water = MonthlyTemperature(temperatures_deg_c=case.temps_c)
        ahead = project_growth(fit=item.growth, temperature=water, days=AHEAD)
        dates = dates_at_size(projection=ahead, cv=item.cv, size_g=PLATE_G)
        found += _dates(case, truth, dates.half, on)
    return found, spent


def _dates(case: Case, truth: Truth, half: DateEstimate, on: date) -> list[Held]:
    # Half of a gamma stock are above its median: mean (1 - cv^2 / 3), nearly.
    medians = truth.weight_g * (1.0 - truth.cv**2 / 3.0)
    when = np.flatnonzero(medians[case.days :] >= PLATE_G)
    if not when.size or when[0] == 0 or half.earliest is None:
        return []
    latest = AHEAD * 2.0 if half.latest is None else (half.latest - on).days
    early = (half.earliest - on).days
    return [Held(name="date", truth=float(when[0]), low=early, high=latest)]


def _held(name: str, truth: float, found: Estimate | None) -> Held:
    if found is None:
        return Held(name=name, truth=truth, low=math.nan, high=math.nan)
    return Held(name=name, truth=truth, low=found.low, high=found.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Cover, median width and mean score of a figure; share of dates without an end."""

    cover: float
    width: float
    score: float
    endless: float


def table(case: Case, runs: int, first: int = 0) -> dict[str, Row]:
    """Return what is found of each figure."""
    by_name: dict[str, list[Held]] = {}
    for seed in range(first, first + runs):
        for held in one(case, seed)[0]:
            by_name.setdefault(held.name, []).append(held)
    return {name: _row(name, all_) for name, all_ in by_name.items()}


def _row(name: str, all_: list[Held]) -> Row:
    width = [(h.high - h.low) / (1.0 if name == "date" else h.truth) for h in all_]
    return Row(
        cover=float(np.mean([h.inside for h in all_])),
        width=float(np.median(width)),
        score=float(np.mean([h.score for h in all_])),
        endless=float(np.mean([name == "date" and h.high > AHEAD for h in all_])),
    )


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=100)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--only", default="")
    options = parser.parse_args()
    wanted = [word for word in options.only.split(";") if word]
    spent = one(replace(CASES[1], name=""), 0)[1]
    print(f"processor time of one unit with feed: {spent:.2f} s; {options.runs} runs")
    for case in CASES:
        if wanted and case.name not in wanted:
            continue
        print(case.name)
        for name, row in table(case, options.runs, options.first).items():
            date_ = name == "date"
            size = f"{row.width:.0f} days" if date_ else f"{100 * row.width:.0f} %"
            print(
                f"  {name:8} cover {100 * row.cover:3.0f} %  width {size:>9}  "
                f"score {row.score:.2f}"
                + (f"  without an end {100 * row.endless:.0f} %" if date_ else ""),
                flush=True,
            )


if __name__ == "__main__":
    main()
