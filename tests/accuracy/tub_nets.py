"""Whether four nets in a tub tell the mean as well as four laid apart on a board.

``python -m tests.accuracy.tub_nets [--samples N]`` draws stocks of known mean, dips
four nets of eight, and gives the estimate what a board or a tub would: lengths and
weights with their errors (MEASUREMENT's simulations for the board; for the tub those
that ``tests.accuracy.tub`` shows and that its nets are taken to have).
"""

import argparse
import sys
from dataclasses import dataclass

import numpy as np

from fishmeasure.estimation.model import estimate_population
from fishmeasure.estimation.nets import FishInNet, NetWeighing, SampleSettings
from fishmeasure.species import load_species

NETS, FISH = 4, 8
LINE = load_species("rainbow-trout").on_fork_length()


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How fish are measured: relative errors of lengths, and of the weighing in g."""

    name: str
    in_water: bool
    fish_sd: float
    photo_sd: float
    sample_sd: float
    seen: float


BOARD = Way(
    name="laid apart",
    in_water=False,
    fish_sd=0.012,
    photo_sd=0.005,
    sample_sd=0.008,
    seen=1.0,
)
TUB = Way(
    name="in the tub",
    in_water=True,
    fish_sd=0.018,
    photo_sd=0.012,
    sample_sd=0.018,
    seen=0.6,
)


def answer(way: Way, seed: int) -> tuple[float, float, bool]:
    """Return error and width of the mean, as fractions, and whether it is covered."""
    rng = np.random.default_rng(seed)
    level = LINE.a_g_cm * np.exp(rng.normal(0, 0.12))
    middle, sigma = np.log(23.0), 0.085

    def weight_g(ln_cm: np.ndarray) -> np.ndarray:
        condition = rng.normal(0, 0.07, ln_cm.shape)
        grams: np.ndarray = level * np.exp(LINE.b * ln_cm + condition)
        return grams

    true_g = float(weight_g(middle + rng.normal(0, sigma, 200_000)).mean())
    # Both ways meet the same fish: what differs is drawn apart.
    nets_ln = middle + rng.normal(0, 0.01, NETS)[:, None]
    fish_ln = nets_ln + rng.normal(0, sigma, (NETS, FISH))
    grams = weight_g(fish_ln).sum(axis=1) * 1.015
    own = np.random.default_rng([seed, int(way.in_water)])
    shared = own.normal(0, way.sample_sd)
    settings = SampleSettings(length_relative_sd=way.sample_sd)
    nets = []
    for row, net_g in zip(fish_ln, grams, strict=True):
        net = NetWeighing(
            fish_count=FISH,
            net_g=float(net_g),
            photo_relative_sd=way.photo_sd,
            in_water=way.in_water,
            scale_division_g=5.0 if way.in_water else None,
        )
        error = shared + own.normal(0, way.photo_sd) + own.normal(0, way.fish_sd, FISH)
        seen = own.random(FISH) < way.seen
        fish = tuple(
            FishInNet(fork_length_mm=float(mm), relative_sd=way.fish_sd)
            for mm in 10.0 * np.exp(row + error)[seen]
        )
        read_g = net_g + own.normal(0, net.weight_sd_g(settings.scale))
        nets.append(
            NetWeighing(
                fish_count=FISH,
                net_g=float(read_g),
                fish=fish,
                photo_relative_sd=way.photo_sd,
                in_water=way.in_water,
                scale_division_g=5.0 if way.in_water else None,
            )
        )
    mean = estimate_population(
        tuple(nets), published=LINE, settings=settings
    ).mean_weight_g
    covered = mean.low <= true_g <= mean.high
    return mean.value / true_g - 1.0, (mean.high - mean.low) / mean.value, covered


def main() -> None:
    """Print a line for each way."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--samples", type=int, default=60)
    options = parser.parse_args()
    for way in (BOARD, TUB):
        told = [answer(way, seed) for seed in range(options.samples)]
        error, width, covered = (np.array(column) for column in zip(*told, strict=True))
        sys.stdout.write(
            f"{way.name}: bias {100 * error.mean():+.1f} %, "
            f"rms {100 * np.sqrt((error**2).mean()):.1f} %, "
            f"90 % intervals {100 * np.mean(width):.1f} % wide, "
            f"hold {100 * covered.mean():.0f} %\n"
        )


if __name__ == "__main__":
    main()
