"""Which fish of a heap are seen whole, by size, and the mean weight they then tell.

``python -m tests.accuracy.heap_sizes [--heaps N]`` drops flat fish at random on a tray
of 600 by 420 mm. The first table is what ``estimation.heaped`` has its slope from; the
second is the mean weight of the net's fish as told by those seen, on other heaps.
"""

import argparse
import sys
from dataclasses import replace

import cv2
import numpy as np
from scipy.optimize import minimize

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.model import estimate_population
from fishmeasure.estimation.nets import FishInNet, NetWeighing
from fishmeasure.species import load_species

TRAY_MM = (600.0, 420.0)
MM_PER_CELL = 2.0
MEAN_MM = 170.0
SEEN = 0.95
"""Share of a fish that must be uncovered."""
OWN_SD = 0.016
"""Of ln length: how single fish of rendered heaps were off."""
FAT_SD = 0.08
DRIP = 1.015
DESIGNS = ((10, 0.1), (10, 0.2), (20, 0.1), (20, 0.2), (45, 0.1), (45, 0.2))


def outline(length_mm: float) -> FloatArray:
    """Return the outline of a fish about its middle, (n, 2)."""
    s = np.linspace(0.0, 1.0, 24)
    half = 0.12 * np.sin(np.pi * np.clip(s / 0.9, 0.0, 1.0)) ** 0.7 * (1.0 - 0.35 * s)
    half = np.maximum(half, 0.03)
    half[-2:] = 0.07, 0.10
    along = np.concatenate([s, s[::-1]]) - 0.5
    points: FloatArray = length_mm * np.column_stack(
        [along, np.concatenate([half, -half[::-1]])]
    )
    return points


def dropped(rng: np.random.Generator, count: int, cv: float) -> tuple[FloatArray, ...]:
    """Return lengths of fish that fell one after another, and how much is seen."""
    lengths = MEAN_MM * np.exp(rng.normal(0.0, cv, count))
    cells = np.array(TRAY_MM[::-1]) / MM_PER_CELL
    top = np.full(cells.astype(int), -1, np.int32)
    masks = []
    for at, length in enumerate(lengths):
        turn = rng.uniform(0.0, 2.0 * np.pi)
        turned = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
        place = rng.uniform([60.0, 60.0], np.array(TRAY_MM) - 60.0)
        points = np.round((outline(length) @ turned + place) / MM_PER_CELL)
        mask = np.zeros(top.shape, np.uint8)
        cv2.fillPoly(mask, [points.astype(np.int32)], (1,))
        masks.append(mask > 0)
        top[mask > 0] = at
    seen = [float((top[mask] == at).mean()) for at, mask in enumerate(masks)]
    return lengths, np.array(seen)


def slope_of(x: FloatArray, seen: FloatArray) -> float:
    """Return k of p = exp(-c exp(k x)) by maximum likelihood."""

    def loss(c_and_k: FloatArray) -> float:
        rate = np.exp(c_and_k[0] + c_and_k[1] * x)
        hidden = np.log(-np.expm1(-rate) + 1e-12)
        return -float(np.where(seen > SEEN, -rate, hidden).sum())

    return float(minimize(loss, [0.0, 0.5], method="Nelder-Mead").x[1])


def told(rng: np.random.Generator, count: int, cv: float) -> dict[str, float] | None:
    """Return the error of a net's mean weight by photo alone, with and without it."""
    line = load_species("rainbow-trout").on_fork_length()
    lengths, seen = dropped(rng, count, cv)
    fat = np.exp(rng.normal(0.0, FAT_SD, count))
    weights = line.a_g_cm * (lengths / 10.0) ** line.b * fat
    read = lengths * np.exp(rng.normal(0.0, OWN_SD, count))
    fish = tuple(
        FishInNet(fork_length_mm=float(mm), relative_sd=OWN_SD)
        for mm in read[seen > SEEN]
    )
    if len(fish) < 3:
        return None
    net = NetWeighing(fish_count=count, fish=fish)
    found = {}
    for name, one in (("plain", net), ("heap", replace(net, heap=True))):
        mean = estimate_population((one,), published=line).handled_mean_weight_g
        found[name] = mean.value / weights.mean() - 1.0
        found[f"{name} held"] = float(mean.low <= weights.mean() <= mean.high)
    return found


def main() -> None:
    """Print both tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--heaps", type=int, default=250, help="of each design")
    options = parser.parse_args()
    rng = np.random.default_rng(1)
    for count, cv in DESIGNS:
        heaps = [dropped(rng, count, cv) for _ in range(options.heaps)]
        x = np.log(np.concatenate([lengths for lengths, _ in heaps]) / MEAN_MM)
        seen = np.concatenate([seen for _, seen in heaps])
        sys.stdout.write(
            f"{count} fish, sd of ln length {cv}: seen {(seen > SEEN).mean():.2f}, "
            f"k {slope_of(x, seen):+.2f}\n"
        )
    rng = np.random.default_rng(2)
    for count, cv in DESIGNS:
        tried = [told(rng, count, cv) for _ in range(options.heaps // 5)]
        errors = [one for one in tried if one is not None]
        means = {name: np.mean([one[name] for one in errors]) for name in errors[0]}
        sys.stdout.write(
            f"{count} fish, {cv}: mean weight by photo, {len(errors)} heaps: "
            f"plain {100 * means['plain']:+.1f} %, heap {100 * means['heap']:+.1f} %, "
            f"intervals hold {100 * means['heap held']:.0f} %\n"
        )


if __name__ == "__main__":
    main()
