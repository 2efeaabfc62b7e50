"""Draws fish of a cohort: length, weight and build hang together."""

from dataclasses import dataclass, replace

import numpy as np

from sample_images.generator.fish import FishSpec, Posture, Tail, depth_ratio_for
from sample_images.generator.kinds import shape_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Cohort:
    """Invented stock: W = a L^b (g, cm fork length) with a log-normal spread.

    The coefficients are those of well-fed farm fish in shape and size, not taken
    from any table. ``thickness`` is the range over the depth where it is not the
    family's.
    """

    skins: tuple[str, ...]
    family: str = "trout"
    length_mm: float
    length_cv: float
    a_g_cm: float = 0.0112
    b: float = 3.03
    condition_sd: float = 0.07
    thickness: tuple[float, float] | None = None


def draw(cohort: Cohort, rng: np.random.Generator, count: int) -> list[FishSpec]:
    """Return ``count`` unplaced, straight fish."""
    family = shape_of(cohort.family)
    fish = []
    for _ in range(count):
        length = cohort.length_mm * float(np.exp(rng.normal(0, cohort.length_cv)))
        length = round(length, 1)
        mean = cohort.a_g_cm * (length / 10) ** cohort.b
        weight = round(mean * float(np.exp(rng.normal(0, cohort.condition_sd))), 1)
        thickness = float(rng.uniform(*(cohort.thickness or family.thickness)))
        fish.append(
            FishSpec(
                fork_length_mm=length,
                weight_g=weight,
                depth_ratio=depth_ratio_for(length, weight, thickness, cohort.family),
                thickness_ratio=thickness,
                skin=str(rng.choice(cohort.skins)),
                family=cohort.family,
                seed=int(rng.integers(1 << 31)),
                dorsal_left=bool(rng.integers(2)),
                droop=float(rng.uniform(0.6, 1.0)),
                fork_depth=float(rng.uniform(*family.fork_depth)),
                tail_spread=float(rng.uniform(*family.tail_spread)),
                fins_raised=float(rng.uniform(0.1, 0.9)),
            )
        )
    return fish


def held(fish: list[FishSpec], rng: np.random.Generator) -> list[FishSpec]:
    """Return the fish of one photo with postures, tails and mouths.

    From limp to stiff is drawn once a photo and the fish scatter about it: heights
    are 0.4 to 1.0 (snout) and 0.1 to 0.45 (fork) of half the greatest thickness.
    """
    stiff = float(rng.uniform(0, 1))
    opacity = float(rng.uniform(0.3, 1.0))
    out = []
    for each in fish:
        snout, fork = np.clip(stiff + rng.normal(0, 0.12, 2), 0, 1)
        frayed = rng.uniform() < 0.4
        tail = Tail(
            opacity=round(float(np.clip(opacity + rng.normal(0, 0.1), 0.3, 1)), 3),
            splits=int(rng.integers(2, 8)) if frayed else 0,
            split_depth=round(float(rng.uniform(0.15, 0.6)), 3) if frayed else 0.0,
        )
        gape = float(rng.uniform(8, 32)) if rng.uniform() < 0.3 else 0.0
        out.append(
            replace(
                each,
                posture=Posture(
                    snout=round(0.4 + 0.6 * float(snout), 3),
                    fork=round(0.1 + 0.35 * float(fork), 3),
                ),
                tail=tail,
                gape_deg=round(gape, 1),
            )
        )
    return out
