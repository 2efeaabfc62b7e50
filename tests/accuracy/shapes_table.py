"""Samples of fish of other shapes than the estimate supposes: a table.

Run ``nice python -m tests.accuracy.shapes_table [REPLICATES[:SEED]] [WORDS]``; WORDS
picks scenarios whose name contains one of them. One process, seeds fixed from SEED on.

Nothing of the truth is drawn from the estimate's own priors: sizes are skewed, in two
groups, cut by grading, with runts or with heavy tails; nets differ by an intraclass
correlation; gross errors of length come with a doubt as good as a photo's own. How good
that is, is said by ``DOUBT``: the doubt is the probability by Bayes from a score whose
mean is 2 sd higher for gross errors (area under the curve 0.92), at a supposed share of
5 % whatever the true one is.
"""

import sys
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.model import PopulationEstimate, estimate_population
from fishmeasure.estimation.nets import FishInNet, NetWeighing
from tests.estimation.makers import published_line

DOUBT = 2.0
SUPPOSED = 0.05
Sizes = Callable[[np.random.Generator, int], FloatArray]


def _normal(rng: np.random.Generator, n: int) -> FloatArray:
    return 0.085 * rng.standard_normal(n)


def _skewed(rng: np.random.Generator, n: int, skewness: float = 1.3) -> FloatArray:
    """Return gamma distributed departures: ln length itself has the skewness."""
    shape = 4.0 / skewness**2
    z = (rng.gamma(shape, size=n) - shape) / np.sqrt(shape)
    return np.asarray(0.085 * np.sign(skewness) * z)


def _groups(
    rng: np.random.Generator, n: int, share: float, apart: float, sd: float = 0.06
) -> FloatArray:
    return np.asarray(
        rng.normal(0.0, sd, n) + np.where(rng.random(n) < share, apart, 0.0)
    )


def _graded(rng: np.random.Generator, n: int) -> FloatArray:
    """Return what two bars leave of a batch: both tails cut, weight CV 0.12."""
    z = rng.standard_normal(4 * n + 40)
    kept: FloatArray = 0.06 * z[np.abs(z) < 1.0][:n]
    return kept


def _heavy(rng: np.random.Generator, n: int) -> FloatArray:
    return np.asarray(0.085 * rng.standard_t(5.0, n) / np.sqrt(5.0 / 3.0))


SHAPES: dict[str, Sizes] = {
    "lognormal": _normal,
    "skew 1.3": _skewed,
    "skew -0.8": lambda rng, n: _skewed(rng, n, -0.8),
    "groups 50:50": lambda rng, n: _groups(rng, n, 0.5, -0.35),
    "groups 88:12": lambda rng, n: _groups(rng, n, 0.12, 0.3),
    "runts 6 %": lambda rng, n: _groups(rng, n, 0.06, -0.5, 0.075),
    "graded": _graded,
    "heavy tails": _heavy,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Scenario:
    """Nets of a stock, and what is wrong with them."""

    name: str
    sizes: Sizes = _normal
    nets: int = 4
    fish: int = 8
    icc: float = 0.11
    b: float = 3.0
    kappa: float = 0.07
    gross: float = 0.0
    drip: tuple[float, float] = (0.005, 0.015)
    escape: float = 0.0
    weighed: bool = True
    photographed: bool = True
    count: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Relative errors and widths of one replicate, and what was held."""

    mean_error: float
    mean_held: bool
    mean_width: float
    cv_error: float
    cv_held: bool
    cv_width: float
    handled_error: float


def _scenarios() -> list[Scenario]:
    found = []
    for nets, fish in ((4, 8), (12, 25)):
        size = f"{nets}x{fish}"
        for name, sizes in SHAPES.items():
            for gross in (0.0, 0.08):
                word = " gross" if gross else ""
                found.append(
                    Scenario(
                        name=f"{size} {name}{word}",
                        sizes=sizes,
                        nets=nets,
                        fish=fish,
                        gross=gross,
                    )
                )
        usual = Scenario(name=size, nets=nets, fish=fish)
        found += [
            replace(usual, name=f"{size} condition rises", b=3.3),
            replace(usual, name=f"{size} drip 0-8 %", drip=(0.0, 0.08)),
            replace(usual, name=f"{size} small escape", escape=0.5),
            replace(usual, name=f"{size} weighed only", photographed=False),
            replace(usual, name=f"{size} photo only", weighed=False),
        ]
    for nets in (2, 3, 4):
        found += [
            Scenario(name=f"{nets} nets x 15, ICC {icc}", nets=nets, fish=15, icc=icc)
            for icc in (0.0, 0.1, 0.2, 0.3)
        ]
    found += [
        Scenario(name="census 1x3", nets=1, fish=3, count=3),
        Scenario(name="census 1x3 photo only", nets=1, fish=3, count=3, weighed=False),
        Scenario(name="census 4x8", count=32),
        Scenario(name="4x8 of 40", count=40),
        Scenario(name="4x8 of 96", count=96),
        Scenario(name="4x8 of 40 skew 1.3", sizes=_skewed, count=40),
    ]
    return found


SCENARIOS = {scenario.name: scenario for scenario in _scenarios()}


def _doubts(rng: np.random.Generator, gross: np.ndarray) -> FloatArray:
    score = rng.standard_normal(len(gross)) + DOUBT * gross
    odds = SUPPOSED / (1.0 - SUPPOSED) * np.exp(DOUBT * score - 0.5 * DOUBT**2)
    return np.asarray(odds / (1.0 + odds))


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """The fish of the tank: ln length within nets, and what a net adds."""

    x: FloatArray
    weight_g: FloatArray
    net_of_fish: np.ndarray


def _stock(scenario: Scenario, rng: np.random.Generator, fish: int) -> Stock:
    """Return fish in the order of their nets, those left in the tank last."""
    x = scenario.sizes(rng, fish)
    variance = float(np.var(scenario.sizes(np.random.default_rng(1), 100_000)))
    tau = np.sqrt(variance * scenario.icc / (1.0 - scenario.icc))
    # Nets from which small fish escape are dipped where three times as many stand.
    standing = scenario.fish * (3 if scenario.escape else 1)
    net = np.arange(fish) // standing
    x = x + rng.normal(0.0, tau, net[-1] + 1)[net]
    level = np.exp(rng.normal(0.0, 0.12))
    return Stock(x=x, weight_g=level * _weights(scenario, rng, x), net_of_fish=net)


def _weights(scenario: Scenario, rng: np.random.Generator, x: FloatArray) -> FloatArray:
    line = 0.0138 * 25.0**3 * np.exp(scenario.b * x)
    return np.asarray(line * np.exp(rng.normal(0.0, scenario.kappa, len(x))))


def replicate(scenario: Scenario, seed: int) -> Row:
    """Return one sample's errors."""
    rng = np.random.default_rng([seed, *scenario.name.encode()])
    dipped = scenario.nets * scenario.fish
    # An endless stock is one of many nets like those that were taken.
    total = scenario.count or 1000 * scenario.fish
    stock = _stock(scenario, rng, total)
    everyone = np.arange(total)
    taken = everyone[:dipped]
    if scenario.escape:
        # Fish under the middle escape so often; the net takes the next ones.
        kept = (stock.x > np.median(stock.x)) | (rng.random(total) > scenario.escape)
        taken = np.concatenate(
            [
                everyone[(stock.net_of_fish == 10 * n) & kept][: scenario.fish]
                for n in range(scenario.nets)
            ]
        )
    nets = _nets(scenario, rng, stock, taken)
    estimate = estimate_population(
        nets, published=published_line(), count_in_unit=scenario.count
    )
    return _row(estimate, stock.weight_g, float(stock.weight_g[taken].mean()))


def _nets(
    scenario: Scenario, rng: np.random.Generator, stock: Stock, taken: np.ndarray
) -> tuple[NetWeighing, ...]:
    session = rng.normal(0.0, 0.008)
    drip = rng.uniform(*scenario.drip)
    nets: list[NetWeighing] = []
    owners = stock.net_of_fish[taken]
    for number in dict.fromkeys(owners.tolist()):
        of_net = taken[owners == number]
        n = len(of_net)
        gross = rng.random(n) < scenario.gross
        error = rng.normal(session + rng.normal(0.0, 0.005), 0.012, n)
        # Half lose a part of the body, half take in a neighbour's.
        wrong = np.where(rng.random(n) < 0.5, -0.2, 0.2) + rng.normal(0.0, 0.1, n)
        seen = 250.0 * np.exp(stock.x[of_net] + error + np.where(gross, wrong, 0.0))
        wet = stock.weight_g[of_net].sum() * (1.0 + drip + rng.normal(0.0, 0.003))
        nets.append(
            NetWeighing(
                fish_count=n,
                net_g=float(round(wet + rng.normal(0.0, 2.0)))
                if scenario.weighed
                else None,
                fish=_fish(seen, _doubts(rng, gross)) if scenario.photographed else (),
                label=f"net {len(nets) + 1}",
            )
        )
    return tuple(nets)


def _fish(seen: FloatArray, doubts: FloatArray) -> tuple[FishInNet, ...]:
    return tuple(
        FishInNet(fork_length_mm=float(mm), gross_probability=float(doubt))
        for mm, doubt in zip(seen, doubts, strict=True)
    )


def _row(estimate: PopulationEstimate, weights: FloatArray, handled: float) -> Row:
    mean, cv = estimate.mean_weight_g, estimate.cv
    true_mean = float(weights.mean())
    true_cv = float(weights.std() / true_mean)
    return Row(
        mean_error=mean.value / true_mean - 1.0,
        mean_held=mean.low <= true_mean <= mean.high,
        mean_width=(mean.high - mean.low) / true_mean,
        cv_error=cv.value / true_cv - 1.0,
        cv_held=cv.low <= true_cv <= cv.high,
        cv_width=(cv.high - cv.low) / true_cv,
        handled_error=handled / true_mean - 1.0,
    )


def summarise(rows: list[Row]) -> dict[str, float]:
    """Return per cent figures; "needed" is 3.29 sd of the handled fish's own mean."""

    def of(name: str) -> FloatArray:
        return np.array([float(getattr(row, name)) for row in rows])

    return {
        "mean bias": 100.0 * of("mean_error").mean(),
        "cover": 100.0 * of("mean_held").mean(),
        "width": 100.0 * of("mean_width").mean(),
        "needed": 329.0 * float(np.sqrt(np.mean(of("handled_error") ** 2))),
        "CV bias": 100.0 * of("cv_error").mean(),
        "CV rmse": 100.0 * float(np.sqrt(np.mean(of("cv_error") ** 2))),
        "CV cover": 100.0 * of("cv_held").mean(),
        "CV width": 100.0 * of("cv_width").mean(),
    }


def simulate(name: str, replicates: int, first_seed: int = 0) -> dict[str, float]:
    """Return the summary of a scenario."""
    scenario = SCENARIOS[name]
    return summarise([replicate(scenario, first_seed + s) for s in range(replicates)])


def main() -> None:
    """Print the table."""
    asked = sys.argv[1] if len(sys.argv) > 1 else "200"
    replicates, first = (int(part) for part in f"{asked}:0".split(":")[:2])
    words = sys.argv[2:] or [""]
    header = ""
    for name in SCENARIOS:
        if not any(word in name for word in words):
            continue
        summary = simulate(name, replicates, first)
        if not header:
            header = " | ".join(summary)
            print(f"{replicates} replicates; per cent")
            print(f"| sample | {header} |")
            print("| --- " * (len(summary) + 1) + "|")
        cells = " | ".join(f"{value:.1f}" for value in summary.values())
        print(f"| {name} | {cells} |", flush=True)


if __name__ == "__main__":
    main()
