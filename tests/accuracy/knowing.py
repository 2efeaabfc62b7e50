"""A sampler that knows how a simulated history was made, beside the book's intervals.

Usage: python -m tests.accuracy.knowing [--runs 60] [--first 0] [--only "steady;winter"]

A particle filter over the very process of ``histories.grown`` and ``entries_of``: its
growth, losses, nets and waste of feed, the case's own trend among them. Only the number
of fish at the start is unknown to it, as to any grower. No estimate that has to serve
all stocks can be narrower and as honest. Printed are cover and width of both, and the
ratio of their mean interval scores (1.1 is wanted at most).

8,000 particles, with feed 32,000, are moved when resampled (Liu & West 2001, kernel
shrinkage). Feed is weighed in by the week, its days' errors together as normal.
"""

import argparse
import math
from dataclasses import dataclass
from datetime import timedelta

import numpy as np

from fishmeasure.book.entries import Counted, Died, Entry, Feed, Sample, Stocked
from tests.accuracy.histories import (
    AHEAD,
    CASES,
    NET_VARIANCE,
    NETS,
    PER_NET,
    PLATE_G,
    Case,
    FloatArray,
    Held,
    entries_of,
    grown,
    one,
    temperatures,
)

PARTICLES, FED_PARTICLES, AHEAD_PARTICLES = 8000, 32_000, 1500
ENDS = 0.05, 0.95
_MOVE = 0.15  # of the kernel by which statics are moved
# Of 32 fish in four nets the sample variance has 24/31 of what nets differ by.
_NETS_UNSEEN = 7.0 / 31.0


@dataclass(slots=True, kw_only=True)
class Cloud:
    """Particles: what changes, and in ``fixed`` what does not, a row each."""

    weight_g: FloatArray
    count: FloatArray
    wander: FloatArray
    stroke: FloatArray
    fixed: FloatArray
    log_weight: FloatArray

    @property
    def size(self) -> int:
        """Return the number of particles."""
        return len(self.weight_g)

    def choose(self, chosen: np.ndarray[tuple[int], np.dtype[np.int64]]) -> "Cloud":
        """Return those particles, equally likely."""
        return Cloud(
            weight_g=self.weight_g[chosen],
            count=self.count[chosen],
            wander=self.wander[chosen],
            stroke=self.stroke[:, chosen],
            fixed=self.fixed[:, chosen],
            log_weight=np.zeros(len(chosen)),
        )


def _moved_of(cloud: Cloud) -> FloatArray:
    """Return what is moved when particles are resampled, a row each."""
    return np.vstack([cloud.fixed, np.log(cloud.count), np.log(cloud.weight_g)])


class Knowing:
    """The filter of one history."""

    def __init__(
        self, case: Case, entries: list[Entry], chance: np.random.Generator
    ) -> None:
        self._case, self._chance = case, chance
        self._number = FED_PARTICLES if case.feed else PARTICLES
        self._warmth = temperatures(case)
        # Ranges of log pace (none), power, loss, bias (none), CV, partial, waste.
        far = math.inf
        self._least = np.array([-far, 0.62, case.loss[0], -far, 0.2, 0.85, 1.0])
        self._most = np.array([far, 0.75, case.loss[1], far, 0.34, 1.15, 1.12])
        first = next(entry for entry in entries if isinstance(entry, Stocked))
        self._cloud = self._begin(first)
        self._by_day: dict[int, list[Entry]] = {}
        for entry in entries:
            day = (entry.on - case.start).days
            self._by_day.setdefault(day, []).append(entry)

    def _begin(self, stocked: Stocked) -> Cloud:
        chance, number = self._chance, self._number
        stated, kg = float(stocked.fish_count or 0), float(stocked.bulk_weight_kg or 0)
        count = stated / chance.uniform(0.897, 1.115, number)
        weight_g = kg * 1000.0 / count / (1 + 0.01 * chance.standard_normal(number))
        fixed = np.array(
            [
                np.log(0.054) + 0.18 * chance.standard_t(5, number),
                chance.uniform(0.62, 0.75, number),
                chance.uniform(*self._case.loss, number),
                0.02 * chance.standard_normal(number),
                chance.uniform(0.2, 0.34, number),
                chance.uniform(0.85, 1.15, number),
                chance.uniform(1.0, 1.12, number),
            ]
        )
        struck = chance.random(number) < 0.2
        day = np.where(struck, chance.integers(20, self._case.days, number), -1)
        return Cloud(
            weight_g=weight_g,
            count=count,
            wander=np.zeros(number),
            stroke=np.array([day, chance.uniform(0.0, 2.0, number)]),
            fixed=fixed,
            log_weight=-0.5 * (np.log(weight_g / 40.0) / 0.25) ** 2,
        )

    def today(self) -> Cloud:
        """Return the particles of the last day, equally likely."""
        case = self._case
        eaten = np.zeros((2, self._number))
        given = 0.0
        for day in range(case.days + 1):
            if day:
                self._lose(day)
            for entry in self._by_day.get(day, []):
                if isinstance(entry, Sample):
                    self._sample(entry, day)
                elif isinstance(entry, Counted):
                    self._observe(entry.fish_count, self._cloud.count, 0.03)
                elif isinstance(entry, Died):
                    self._cloud.count = self._cloud.count - 1.0
            gain = self._gain(self._cloud, day)
            for entry in self._by_day.get(day, []):
                if isinstance(entry, Feed):
                    wanted = self._wanted(day, gain)
                    eaten += np.array([wanted, wanted**2])
                    given += entry.feed_kg
            if given and (day % 7 == 6 or day == case.days):
                spread = np.sqrt(0.03 * eaten[1])  # of the range 0.7 to 1.3: 0.6^2/12
                miss = (given - eaten[0]) / spread
                self._cloud.log_weight += -0.5 * miss**2 - np.log(spread)
                eaten, given = np.zeros((2, self._number)), 0.0
            if day < case.days:
                self._cloud.weight_g = self._cloud.weight_g + gain
            if day % 7 == 6:
                self._resample()
        self._resample(always=True)
        return self._cloud

    def _lose(self, day: int) -> None:
        cloud, chance = self._cloud, self._chance
        rate = cloud.fixed[2]
        mean = cloud.count * rate / 30.0
        scatter = np.sqrt(np.maximum(mean, 0.0)) * chance.standard_normal(cloud.size)
        stroke = (cloud.stroke[0] == day) * cloud.stroke[1] * rate * cloud.count
        cloud.count = np.maximum(
            cloud.count - np.maximum(mean + scatter, 0) - stroke, 1
        )

    def _gain(self, cloud: Cloud, day: int) -> FloatArray:
        """Return a day's gain, as ``histories.grown`` has it."""
        chance, warm = self._chance, float(self._warmth[day])
        bell = math.exp(-0.5 * ((warm - 14.5) / 5.0) ** 2) / math.exp(-0.125)
        days = self._case.days
        trend = max(0.2, 1.0 + self._case.tgc_trend * min(day, days) / days)
        cloud.wander = 0.975 * cloud.wander + 0.045 * chance.standard_t(4, cloud.size)
        drive = trend * np.maximum(0.0, 1.0 + cloud.wander)
        pace = np.exp(cloud.fixed[0]) * 100.0 ** (0.7 - cloud.fixed[1])
        weight_g = np.maximum(cloud.weight_g, 1.0)
        gain: FloatArray = pace * weight_g ** cloud.fixed[1] * bell * drive
        if warm < 5.0:
            gain = gain - 0.0004 * weight_g * chance.uniform(0.0, 2.0, cloud.size)
        return gain

    def _wanted(self, day: int, gain: FloatArray) -> FloatArray:
        cloud = self._cloud
        kept = 0.0018 * 2.0 ** ((self._warmth[day] - 10.0) / 10.0) * cloud.weight_g
        each = kept + cloud.fixed[5] * np.maximum(0.0, gain)
        wanted: FloatArray = cloud.count * each / 1000.0 * cloud.fixed[6]
        return wanted

    def _sample(self, entry: Sample, day: int) -> None:
        cloud, number = self._cloud, NETS * PER_NET
        course = 1.0 + (self._case.cv_to - 1.0) * day / self._case.days
        cv = cloud.fixed[4] * course
        spread = np.sqrt((cv**2 - NET_VARIANCE) / number + NET_VARIANCE / NETS)
        self._observe(
            entry.mean_weight_g, cloud.weight_g * (1.0 + cloud.fixed[3]), spread
        )
        seen = math.log(entry.cv or 0.25)
        among = np.log(np.sqrt(cv**2 - _NETS_UNSEEN * NET_VARIANCE))
        sd = np.sqrt(0.5 / (number - 1) + 1.5 * cv**2 / number)
        cloud.log_weight += -0.5 * ((seen - among) / sd) ** 2 - np.log(sd)

    def _observe(
        self, seen: float, true: FloatArray, spread: FloatArray | float
    ) -> None:
        miss = (seen / true - 1.0) / spread
        self._cloud.log_weight += -0.5 * miss**2 - np.log(spread * true)

    def _resample(self, *, always: bool = False) -> None:
        cloud, chance = self._cloud, self._chance
        share = np.exp(cloud.log_weight - cloud.log_weight.max())
        share /= share.sum()
        if not always and 1.0 / np.sum(share**2) > cloud.size / 3:
            return
        at = (np.arange(cloud.size) + chance.random()) / cloud.size
        chosen = np.minimum(np.searchsorted(np.cumsum(share), at), cloud.size - 1)
        before = _moved_of(cloud)
        mean = before @ share
        apart = before - mean[:, None]
        spread = np.linalg.cholesky((apart * share) @ apart.T + 1e-12 * np.eye(9))
        self._cloud = kept = cloud.choose(chosen)
        pulled = mean[:, None] + math.sqrt(1.0 - _MOVE**2) * apart[:, chosen]
        moved = pulled + _MOVE * spread @ chance.standard_normal(pulled.shape)
        outside = np.any(
            (moved[:7] < self._least[:, None]) | (moved[:7] > self._most[:, None]),
            axis=0,
        )
        moved = np.where(outside, before[:, chosen], moved)
        kept.fixed, (log_count, log_weight) = moved[:7], moved[7:]
        kept.count, kept.weight_g = np.exp(log_count), np.exp(log_weight)

    def plate_days(self, cloud: Cloud) -> FloatArray:
        """Return the days until half are at plate size; twice ``AHEAD`` where later."""
        few = cloud.choose(self._chance.integers(0, cloud.size, AHEAD_PARTICLES))
        share = 1.0 - (few.fixed[4] * self._case.cv_to) ** 2 / 3.0
        found = np.full(few.size, 2.0 * AHEAD)
        for ahead in range(AHEAD + 1):
            now = (few.weight_g * share >= PLATE_G) & (found > AHEAD)
            found[now] = ahead
            if ahead < AHEAD:
                few.weight_g = few.weight_g + self._gain(few, self._case.days + ahead)
        return found


def known(case: Case, seed: int) -> dict[str, tuple[float, float]]:
    """Return the ends of each figure's 90 % interval of one history."""
    chance = np.random.default_rng(seed)
    truth = grown(case, chance)
    entries = entries_of(case, truth, chance)
    assert entries[-1].on <= case.start + timedelta(days=case.days)
    knowing = Knowing(case, entries, np.random.default_rng(90_000 + seed))
    cloud = knowing.today()
    figures = {
        "weight": cloud.weight_g,
        "count": cloud.count,
        "biomass": cloud.count * cloud.weight_g / 1000.0,
        "CV": cloud.fixed[4] * case.cv_to,
        "date": knowing.plate_days(cloud),
    }
    return {
        name: tuple(map(float, np.quantile(drawn, ENDS)))  # type: ignore[misc]
        for name, drawn in figures.items()
    }


def compared(case: Case, seeds: range) -> dict[str, list[tuple[Held, Held]]]:
    """Return what the book says beside what is knowable, by figure."""
    found: dict[str, list[tuple[Held, Held]]] = {}
    for seed in seeds:
        ends = known(case, seed)
        for held in one(case, seed)[0]:
            low, high = ends[held.name]
            best = Held(name=held.name, truth=held.truth, low=low, high=high)
            found.setdefault(held.name, []).append((held, best))
    return found


def told(name: str, pairs: list[tuple[Held, Held]]) -> str:
    """Return a line of the table."""
    words = []
    scores = []
    for which in (0, 1):
        all_ = [pair[which] for pair in pairs]
        width = [(h.high - h.low) / (1.0 if name == "date" else h.truth) for h in all_]
        size = float(np.median(width))
        wide = f"{size:.0f} days" if name == "date" else f"{100 * size:.0f} %"
        cover = 100.0 * float(np.mean([h.inside for h in all_]))
        words.append(f"{cover:3.0f} %, {wide:>8}")
        scores.append(float(np.mean([h.score for h in all_])))
    return f"  {name:8} {words[0]}   knowing {words[1]}   x {scores[0] / scores[1]:.2f}"


def main() -> None:
    """Compare and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=60)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--only", default="")
    options = parser.parse_args()
    wanted = [word for word in options.only.split(";") if word]
    for case in CASES:
        if wanted and case.name not in wanted:
            continue
        print(case.name, flush=True)
        seeds = range(options.first, options.first + options.runs)
        for name, pairs in compared(case, seeds).items():
            print(told(name, pairs), flush=True)


if __name__ == "__main__":
    main()
