"""The book's normal approximation beside a sampler of the same posterior.

Usage: python -m tests.accuracy.sampler [--histories 36] [--draws 20000]

Importance sampling: draws of a wide-tailed distribution about the maximum, weighed by
the posterior itself, which knows of no approximation. How many independent draws they
are worth is printed (Kish's number); where it is small, the sampler proves nothing.
Printed are, for weight, count, biomass and growth, how far the book's mean lies from
the sampler's, in the sampler's standard deviations, and its own over the sampler's.
"""

import argparse
from dataclasses import dataclass
from datetime import timedelta
from typing import Any

import numpy as np
from scipy.linalg import solve_triangular

from fishmeasure.book.posterior.follow import Follower
from fishmeasure.book.posterior.history import History
from fishmeasure.book.posterior.solve import Peak, climb, posterior
from fishmeasure.book.replay import histories
from tests.accuracy.histories import CASES, FISH_ID, UNIT_ID, Case, entries_of, grown
from tests.book.build import cohort, tank

FloatArray = np.ndarray[Any, np.dtype[np.float64]]
FIGURES = "weight", "count", "biomass", "growth"
DEGREES = 30.0  # of freedom of Student's t, from which is drawn


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """What the book says beside the sampler, a figure each."""

    apart_sd: FloatArray
    sd_ratio: FloatArray
    worth: float


def sampled(
    history: History, peak: Peak, draws: int, chance: np.random.Generator
) -> tuple[FloatArray, FloatArray]:
    """Return (draws, 4) figures, and the share of each draw."""
    size = len(peak.best)
    tails = np.sqrt(chance.chisquare(DEGREES, draws) / DEGREES)
    away = chance.standard_normal((size, draws)) / tails
    away[:, 0] = 0.0  # the model takes its errors' sizes from the first column
    values = peak.best[:, None] + solve_triangular(peak.lower.T, away, lower=False)
    peak.unknown.at(values)
    followed = Follower(history, peak.unknown, whole=True).run()
    misfits = np.array([seen.misfit for seen in followed.observations])
    log_posterior = -0.5 * np.sum(np.nan_to_num(misfits, nan=1e9) ** 2, axis=0)
    log_posterior = log_posterior - 0.5 * np.sum(values**2, axis=0)
    square = np.sum(away**2, axis=0)
    log_drawn = -0.5 * (DEGREES + size) * np.log1p(square / DEGREES)
    log_share = log_posterior - log_drawn
    log_share[0] = -np.inf
    share = np.exp(log_share - log_share.max())
    return _figures(followed), share / share.sum()


def _figures(followed: Follower) -> FloatArray:
    (group,) = followed.groups.values()
    weight_g = group.weight_g
    if weight_g is None:
        msg = "the fish were weighed"
        raise ValueError(msg)
    last = followed.history.course.piece(followed.history.on.toordinal())
    growth = followed.growing.tgc + followed.growing.deviation(last)
    kg = group.count * weight_g / 1000.0
    return np.column_stack([weight_g, group.count, kg, growth])


def compared(case: Case, seed: int, draws: int) -> Compared:
    """Return the book's figures of a simulated history beside the sampler's."""
    chance = np.random.default_rng(seed)
    entries = entries_of(case, grown(case, chance), chance)
    unit = tank("A", id=UNIT_ID, monthly_temperature_deg_c=case.temps_c)
    fish = cohort("trout", id=FISH_ID)
    on = case.start + timedelta(days=case.days)
    (history,) = histories((unit,), (fish,), entries, on=on).values()
    drawn = posterior(history).drawn
    own = _figures(drawn)[1:]
    history = drawn.history  # with the counts that break with all else
    figures, share = sampled(history, climb(history), draws, chance)
    mean = share @ figures
    sd = np.sqrt(share @ (figures - mean) ** 2)
    return Compared(
        apart_sd=(np.mean(own, axis=0) - mean) / sd,
        sd_ratio=np.std(own, axis=0) / sd,
        worth=float(1.0 / np.sum(share**2)),
    )


def main() -> None:
    """Compare and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--histories", type=int, default=36)
    parser.add_argument("--draws", type=int, default=20_000)
    options = parser.parse_args()
    found = []
    print(f"{'':32}" + " ".join(f"{name:>14}" for name in FIGURES))
    for number in range(options.histories):
        case = CASES[number % len(CASES)]
        found.append(compared(case, 1000 + number, options.draws))
        told = zip(found[-1].apart_sd, found[-1].sd_ratio, strict=True)
        words = " ".join(f"{apart:+.2f} sd, {ratio:.2f}" for apart, ratio in told)
        print(f"{case.name:32}{words}  worth {found[-1].worth:.0f}", flush=True)
    apart = np.abs([one.apart_sd for one in found])
    ratio = np.array([one.sd_ratio for one in found])
    for name, column in zip(FIGURES, range(len(FIGURES)), strict=True):
        print(
            f"{name:8} means apart: median {np.median(apart[:, column]):.2f} sd, most "
            f"{apart[:, column].max():.2f}; sd over the sampler's: "
            f"{ratio[:, column].min():.2f} to {ratio[:, column].max():.2f}"
        )
    print(f"least worth {min(one.worth for one in found):.0f} of {options.draws} draws")


if __name__ == "__main__":
    main()
