"""Coverage and error of the population estimate on drawn samples: a table.

Run ``python -m tests.accuracy.population_table [REPLICATES] [WORDS]``; WORDS picks
scenarios whose name contains one of them. Seeds are fixed.
"""

import sys
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace

import numpy as np

from fishmeasure.estimation.model import estimate_population
from tests.estimation.makers import Dip, Drawn, Truth, draw, published_line

DESIGNS = {
    "4x8": [Dip(fish=8)] * 4,
    "2x15": [Dip(fish=15)] * 2,
    "4x8+3w+2p": [Dip(fish=8)] * 4
    + [Dip(fish=8, photographed=False)] * 3
    + [Dip(fish=8, weighed=False)] * 2,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Scenario:
    """Nets, and how their truth is drawn.

    With ``unseen_nets`` the unit is finite: the nets and that many more like the
    first, and its true mean is that of the very fish in it.
    """

    name: str
    dips: list[Dip]
    truth: Callable[[np.random.Generator], Truth]
    unseen_nets: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One replicate: relative errors, and whether the interval held the truth."""

    mean_error: float
    mean_held: bool
    mean_width: float
    floor_error: float
    cv_error: float
    cv_held: bool
    a_error: float
    a_held: bool
    handled_error: float
    handled_held: bool
    flagged_right: bool
    flagged_wrong: bool


def usual(rng: np.random.Generator, **changes: float) -> Truth:
    """Return a stock about 12 % off the book, and 1 % of drip water."""
    return replace(
        Truth(
            level=float(np.exp(rng.normal(0.0, 0.12))),
            b=float(3.0 + rng.normal(0.0, 0.08)),
            drip=float(rng.normal(0.01, 0.004)),
        ),
        **changes,
    )


def from_priors(rng: np.random.Generator) -> Truth:
    """Return a truth drawn from the estimate's own priors."""
    return Truth(
        sigma=float(0.08 * np.exp(0.5 * rng.normal())),
        tau=float(min(0.03 * abs(rng.standard_t(4.0)), 0.19)),
        kappa=float(0.08 * np.exp(0.35 * rng.normal())),
        level=float(np.exp(rng.normal(0.0, 0.25))),
        b=float(3.0 + rng.normal(0.0, 0.08)),
        drip=float(rng.normal(0.01, 0.008)),
    )


def _scenarios() -> list[Scenario]:
    result = [
        Scenario(name=f"{name} usual", dips=dips, truth=usual)
        for name, dips in DESIGNS.items()
    ]
    result += [
        Scenario(name=f"{name} priors", dips=dips, truth=from_priors)
        for name, dips in DESIGNS.items()
    ]
    off = {
        "level -18 %": {"level": 0.82},
        "drip 3 %": {"drip": 0.03},
        "8 % gross": {"gross_fraction": 0.08},
        "nets alike": {"tau": 0.0},
        "nets differ": {"tau": 0.06},
        "wide": {"sigma": 0.13},
        "narrow": {"sigma": 0.05},
    }
    for word, changes in off.items():

        def truth(
            rng: np.random.Generator, changes: dict[str, float] = changes
        ) -> Truth:
            return usual(rng, **changes)

        result += [
            Scenario(name=f"{name} {word}", dips=dips, truth=truth)
            for name, dips in DESIGNS.items()
            if name == "4x8" or word in ("level -18 %", "8 % gross")
        ]
    for name, dips in DESIGNS.items():
        for error in (-1, 1):
            wrong = [replace(dips[0], count_error=error), *dips[1:]]
            result.append(
                Scenario(name=f"{name} count {error:+d}", dips=wrong, truth=usual)
            )
    result.append(
        Scenario(
            name="4x8 photo only", dips=[Dip(fish=8, weighed=False)] * 4, truth=usual
        )
    )
    result.append(
        Scenario(
            name="4x8 bulk only",
            dips=[Dip(fish=8, photographed=False)] * 4,
            truth=usual,
        )
    )
    result.append(Scenario(name="20x30 usual", dips=[Dip(fish=30)] * 20, truth=usual))
    result.append(
        Scenario(
            name="20x30 8 % gross",
            dips=[Dip(fish=30)] * 20,
            truth=lambda rng: usual(rng, gross_fraction=0.08),
        )
    )
    result.append(
        Scenario(
            name="4x8 of 96 fish", dips=[Dip(fish=8)] * 4, truth=usual, unseen_nets=8
        )
    )
    for name in ("4x8", "4x8+3w+2p"):
        result.append(
            Scenario(
                name=f"{name} two groups",
                dips=DESIGNS[name],
                truth=lambda rng: usual(rng, small_fraction=0.3),
            )
        )
    return result


SCENARIOS = {scenario.name: scenario for scenario in _scenarios()}


def replicate(name: str, seed: int) -> Row:
    """Return one replicate of a scenario."""
    scenario = SCENARIOS[name]
    rng = np.random.default_rng([seed, *name.encode()])
    truth = scenario.truth(rng)
    unseen = [scenario.dips[0]] * scenario.unseen_nets
    drawn = draw(truth, scenario.dips + unseen, rng)
    return measure(truth, drawn, scenario)


def measure(truth: Truth, drawn: Drawn, scenario: Scenario) -> Row:
    """Return how the estimate compares with the truth."""
    dips = scenario.dips
    everyone = np.concatenate(drawn.weights_g)
    finite = scenario.unseen_nets > 0
    true_mean = float(everyone.mean()) if finite else truth.mean_weight_g
    true_cv = float(everyone.std() / everyone.mean()) if finite else truth.cv
    estimate = estimate_population(
        drawn.nets[: len(dips)],
        published=published_line(),
        count_in_unit=len(everyone) if finite else None,
    )
    mean, cv = estimate.mean_weight_g, estimate.cv
    ratio = estimate.line.level_ratio
    at = estimate.line.at_length_mm
    true_ratio = truth.weight_at(at) / (0.0138 * (at / 10.0) ** 3)
    handled, true_handled = estimate.handled_mean_weight_g, _handled(drawn, dips)
    wrong = {i for i, dip in enumerate(dips) if dip.count_error}
    flagged = {i for i, report in enumerate(estimate.nets) if report.flag}
    return Row(
        mean_error=mean.value / true_mean - 1.0,
        mean_held=mean.low <= true_mean <= mean.high,
        mean_width=(mean.high - mean.low) / true_mean,
        floor_error=true_handled / true_mean - 1.0,
        cv_error=cv.value / true_cv - 1.0,
        cv_held=cv.low <= true_cv <= cv.high,
        a_error=ratio.value / true_ratio - 1.0,
        a_held=ratio.low <= true_ratio <= ratio.high,
        handled_error=handled.value / true_handled - 1.0,
        handled_held=handled.low <= true_handled <= handled.high,
        flagged_right=bool(wrong) and wrong <= flagged,
        flagged_wrong=bool(flagged - wrong),
    )


def _handled(drawn: Drawn, dips: list[Dip]) -> float:
    return float(np.mean(np.concatenate(drawn.weights_g[: len(dips)])))


def summarise(rows: list[Row]) -> dict[str, float]:
    """Return per cent figures of a scenario."""

    def mean(name: str) -> float:
        return 100.0 * float(np.mean([getattr(row, name) for row in rows]))

    def rmse(name: str) -> float:
        values = np.array([getattr(row, name) for row in rows])
        return 100.0 * float(np.sqrt(np.mean(values**2)))

    return {
        "bias": mean("mean_error"),
        "rmse": rmse("mean_error"),
        "/floor": rmse("mean_error") / rmse("floor_error"),
        "cover": mean("mean_held"),
        "width": mean("mean_width"),
        "cv bias": mean("cv_error"),
        "cv rmse": rmse("cv_error"),
        "cv cover": mean("cv_held"),
        "a rmse": rmse("a_error"),
        "a cover": mean("a_held"),
        "hand rmse": rmse("handled_error"),
        "hand cover": mean("handled_held"),
        "found": mean("flagged_right"),
        "false": mean("flagged_wrong"),
    }


def simulate(name: str, replicates: int, first_seed: int = 0) -> dict[str, float]:
    """Return the summary of a scenario."""
    return summarise([replicate(name, first_seed + seed) for seed in range(replicates)])


def main() -> None:
    """Print the table."""
    replicates = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    words = sys.argv[2:] or [""]
    names = [name for name in SCENARIOS if any(word in name for word in words)]
    header = ""
    with ProcessPoolExecutor(2) as pool:
        pending = {name: pool.submit(simulate, name, replicates) for name in names}
        for name, future in pending.items():
            summary = future.result()
            if not header:
                header = " | ".join(summary)
                print(f"{replicates} replicates; per cent but /floor")
                print(f"| scenario | {header} |")
                print("| --- " * (len(summary) + 1) + "|")
            cells = " | ".join(
                f"{value:.2f}" if key == "/floor" else f"{value:.1f}"
                for key, value in summary.items()
            )
            print(f"| {name} | {cells} |", flush=True)


if __name__ == "__main__":
    main()
