"""How often the book's 90 % intervals hold the truth, on simulated stocks.

The truth is drawn here, apart from the book's code: growth from the thermal growth
coefficient's own spread, unevenness and deviation (``husbandry.growth`` states their
sources), samples with 6 % error, fish that die unseen. Truth of another make is in
``histories.py``.
"""

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest

from fishmeasure.base.estimate import Estimate
from fishmeasure.book.entries import Counted, Died, Entry, Sample, Stocked
from fishmeasure.book.replay import replay
from fishmeasure.husbandry.growth import (
    DEVIATION_DEGREE_DAYS,
    DEVIATION_SPREAD,
    STEP_SPREAD,
)
from fishmeasure.husbandry.propagation import z_score
from fishmeasure.species import farmed_species
from tests.book.build import cohort, day, same, tank

TEMP_C = 10.0
LAST = 154
UNIT = tank("A", id=same(1), monthly_temperature_deg_c=(TEMP_C,) * 12)
FISH = cohort("trout", id=same(2))
COMMON: dict[str, Any] = {"unit_id": UNIT.id, "cohort_id": FISH.id}
STOCKED, START_G, SAMPLE_SD = 1000, 40.0, 0.06
BOOK = farmed_species("rainbow-trout").growth.tgc_x1000


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """Truth and estimate on the last day, 14 days after the last sample."""

    weight_g: float
    count: float
    kg: float
    weight: Estimate
    fish: Estimate
    biomass: Estimate


def _weights(
    chance: np.random.Generator,
) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Return the true mean weight of each day."""
    tgc = chance.normal(BOOK.value, BOOK.value * BOOK.relative_sd)
    root = math.cbrt(START_G * math.exp(chance.normal(0.0, 0.05)))
    step = TEMP_C / 1000.0  # degree-days of a day, in thousands
    walk = STEP_SPREAD * BOOK.value * math.sqrt(0.4 * step)
    kept = math.exp(-TEMP_C / DEVIATION_DEGREE_DAYS)
    spread = DEVIATION_SPREAD * BOOK.value
    away = chance.normal(0.0, spread)
    roots = [root]
    for _ in range(LAST):
        root += (tgc + away) * step + chance.normal(0.0, walk)
        away = kept * away + chance.normal(0.0, spread * math.sqrt(1.0 - kept**2))
        roots.append(root)
    return np.array(roots) ** 3


def _run(seed: int) -> _Run:
    chance = np.random.default_rng(seed)
    weights = _weights(chance)
    alive = round(STOCKED * (1.0 + chance.normal(0.0, 0.064)))
    entries: list[Entry] = [
        Stocked(
            id=same(100),
            on=day(0),
            fish_count=STOCKED,
            mean_weight_g=START_G,
            mean_weight_sd_g=0.05 * START_G,
            **COMMON,
        )
    ]
    monthly_loss = abs(chance.normal(0.0, 0.01))  # of the fish, seen by nobody
    for number in range(1, LAST + 1):
        alive -= chance.binomial(alive, monthly_loss / 30.0)
        if number % 28 == 0 and number < LAST - 10:
            error = math.exp(chance.normal(0.0, SAMPLE_SD))
            mean = float(weights[number]) * error
            reach = z_score(0.9) * SAMPLE_SD * mean
            entries.append(
                Sample(
                    id=same(200 + number),
                    on=day(number),
                    mean_weight_g=mean,
                    mean_weight_low_g=mean - reach,
                    mean_weight_high_g=mean + reach,
                    **COMMON,
                )
            )
        if number % 50 == 0:
            alive -= 2
            entries.append(
                Died(id=same(400 + number), on=day(number), fish_count=2, **COMMON)
            )
        if number == 90:
            counted = round(alive * (1.0 + chance.normal(0.0, 0.02)))
            entries.append(
                Counted(
                    id=same(600),
                    on=day(number),
                    fish_count=counted,
                    fish_count_sd=0.02 * counted,
                    **COMMON,
                )
            )
    state = replay((UNIT,), (FISH,), entries, on=day(LAST)).unit(UNIT.id)
    (item,) = state.cohorts
    assert item.mean_weight_g is not None
    assert item.biomass_kg is not None
    return _Run(
        weight_g=float(weights[-1]),
        count=alive,
        kg=alive * float(weights[-1]) / 1000.0,
        weight=item.mean_weight_g,
        fish=item.fish_count,
        biomass=item.biomass_kg,
    )


@pytest.fixture(scope="module")
def runs() -> list[_Run]:
    """Return 400 simulated stocks."""
    return [_run(seed) for seed in range(400)]


def _held(pairs: list[tuple[float, Estimate]]) -> float:
    return float(np.mean([e.low <= truth <= e.high for truth, e in pairs]))


# 90 % of 400 scatter by 1.5 points; two and a half of those are allowed below.
@pytest.mark.accuracy
def test_mean_weight_interval_holds(runs: list[_Run]) -> None:
    """The mean weight two weeks after a sample lies in its interval 9 in 10 times."""
    held = _held([(run.weight_g, run.weight) for run in runs])
    print(f"mean weight: {held:.1%} of {len(runs)} in the 90 % interval")
    assert 0.86 <= held <= 0.95


@pytest.mark.accuracy
def test_count_interval_holds(runs: list[_Run]) -> None:
    """The count two months after a count lies in its interval at least as often."""
    held = _held([(run.count, run.fish) for run in runs])
    print(f"count: {held:.1%} of {len(runs)} in the 90 % interval")
    assert held >= 0.86


@pytest.mark.accuracy
def test_biomass_interval_holds_and_its_unsafe_end_is_safe(runs: list[_Run]) -> None:
    """Biomass lies in its interval, and is above the high end 1 in 20 times at most."""
    held = _held([(run.kg, run.biomass) for run in runs])
    above = float(np.mean([run.kg > run.biomass.high for run in runs]))
    print(f"biomass: {held:.1%} in the interval, {above:.1%} above its high end")
    assert held >= 0.86
    assert above <= 0.075


@pytest.mark.accuracy
def test_mean_weight_is_not_biased(runs: list[_Run]) -> None:
    """Over many stocks the mean weight is neither high nor low."""
    ratio = np.array([run.weight.value / run.weight_g for run in runs])
    print(f"mean weight: bias {np.mean(ratio) - 1.0:+.1%}, sd {np.std(ratio):.1%}")
    assert abs(float(np.mean(ratio)) - 1.0) < 0.01
