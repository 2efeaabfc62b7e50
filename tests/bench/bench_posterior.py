"""The book's normal approximation beside a sampler of the same posterior.

Usage: python -m tests.bench.bench_posterior [--histories 30] [--sweeps 300]

Elliptical slice sampling (Murray, Adams & MacKay 2010): the unknowns are standard
normal beforehand, so it has nothing to tune. 48 chains in columns, started at draws of
the approximation; the first third of the sweeps is left out. Printed are the widths of
the 90 % intervals of weight, count and biomass, and how far their middles lie apart, as
shares of the sampler's width.
"""

import argparse
from datetime import timedelta
from typing import Any

import numpy as np

from fishmeasure.book.posterior.follow import Follower
from fishmeasure.book.posterior.history import History
from fishmeasure.book.posterior.solve import Peak, climb, posterior
from fishmeasure.book.replay import histories
from tests.accuracy.histories import CASES, FISH_ID, UNIT_ID, Case, entries_of, grown
from tests.book.build import cohort, tank

FloatArray = np.ndarray[Any, np.dtype[np.float64]]
CHAINS = 48


def log_likelihood(
    history: History, peak: Peak, values: FloatArray
) -> tuple[FloatArray, Follower]:
    """Return the log likelihood of each column of unknowns, and what follows."""
    peak.unknown.at(values)
    followed = Follower(history, peak.unknown, whole=True).run()
    misfits = np.array([seen.misfit for seen in followed.observations])
    found = -0.5 * np.sum(np.nan_to_num(misfits, nan=1e9) ** 2, axis=0)
    return found, followed


def sampled(
    history: History, peak: Peak, sweeps: int, chance: np.random.Generator
) -> FloatArray:
    """Return (draws, 3): weight, count and biomass."""
    spread = np.linalg.cholesky(np.linalg.inv(peak.lower @ peak.lower.T))
    values = peak.best[:, None] + spread @ chance.standard_normal(
        (len(peak.best), CHAINS)
    )
    heights, _ = log_likelihood(history, peak, values)
    kept = []
    for sweep in range(sweeps):
        away = chance.standard_normal(values.shape)
        floor = heights + np.log(chance.random(CHAINS))
        angle = chance.uniform(0.0, 2.0 * np.pi, CHAINS)
        low, high = angle - 2.0 * np.pi, angle.copy()
        moved, waiting = values.copy(), np.ones(CHAINS, dtype=bool)
        while waiting.any():
            tried = values * np.cos(angle) + away * np.sin(angle)
            moved = np.where(waiting, tried, moved)
            found, followed = log_likelihood(history, peak, moved)
            heights = np.where(waiting, found, heights)
            waiting &= found <= floor
            low = np.where(waiting & (angle < 0.0), angle, low)
            high = np.where(waiting & (angle >= 0.0), angle, high)
            angle = np.where(waiting, chance.uniform(low, high), angle)
        values = moved
        if sweep >= sweeps // 3:
            kept.append(_figures(followed))
    return np.concatenate(kept)


def _figures(followed: Follower) -> FloatArray:
    (group,) = followed.groups.values()
    weight_g = group.weight_g
    if weight_g is None:
        msg = "the fish were weighed"
        raise ValueError(msg)
    return np.column_stack([weight_g, group.count, group.count * weight_g / 1000.0])


def compared(case: Case, seed: int, sweeps: int) -> FloatArray:
    """Return (3, 2): width over the sampler's, and middles apart over its width."""
    chance = np.random.default_rng(seed)
    entries = entries_of(case, grown(case, chance), chance)
    unit = tank("A", id=UNIT_ID, monthly_temperature_deg_c=case.temps_c)
    fish = cohort("trout", id=FISH_ID)
    on = case.start + timedelta(days=case.days)
    (history,) = histories((unit,), (fish,), entries, on=on).values()
    own = np.quantile(_figures(posterior(history).drawn)[1:], (0.05, 0.5, 0.95), axis=0)
    draws = sampled(history, climb(history), sweeps, chance)
    low, middle, high = np.quantile(draws, (0.05, 0.5, 0.95), axis=0)
    width = high - low
    return np.column_stack([(own[2] - own[0]) / width, (own[1] - middle) / width])


def main() -> None:
    """Compare and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--histories", type=int, default=30)
    parser.add_argument("--sweeps", type=int, default=300)
    options = parser.parse_args()
    found = []
    for number in range(options.histories):
        case = CASES[number % len(CASES)]
        found.append(compared(case, 1000 + number, options.sweeps))
        width, apart = found[-1][:, 0], found[-1][:, 1]
        print(
            f"{case.name:32} width over the sampler's: weight {width[0]:.2f} "
            f"count {width[1]:.2f} biomass {width[2]:.2f}; middles apart "
            f"{apart[0]:+.2f} {apart[1]:+.2f} {apart[2]:+.2f}",
            flush=True,
        )
    every = np.array(found)
    print("median width", np.round(np.median(every[:, :, 0], axis=0), 3))
    print("median distance", np.round(np.median(np.abs(every[:, :, 1]), axis=0), 3))


if __name__ == "__main__":
    main()
