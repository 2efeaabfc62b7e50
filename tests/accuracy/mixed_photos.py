"""Photos of a sample mixed up among its nets: how many are asked about, a table.

Run ``nice python -m tests.accuracy.mixed_photos [REPLICATES] [RIGHT]``: so many samples
of each kind of slip, and so many right ones. One process, seeds fixed.

The samples are those of ``tests.accuracy.shapes_table``: skewed sizes, two groups,
runts and graded fish, nets that differ, with 4 % of lengths grossly wrong of which the
photo knows nothing. Fish of one length differ by 8 % in weight; outlines see most of
it, with an error of 6 % a fish and 2 % a photo. One fish in twenty is not usable.
"""

import sys
from dataclasses import dataclass

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.exchanged import exchanged_photos
from fishmeasure.estimation.nets import FishInNet, NetWeighing, SampleSettings
from fishmeasure.estimation.same_fish import same_fish
from tests.accuracy.shapes_table import SHAPES
from tests.estimation.makers import published_line

SLIPS = ("right", "another photo", "saved twice", "exchanged")
GROSS = 0.04
UNUSABLE = 0.05
COPY_SD = 0.0007


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """Nets, their fish, and how well a photo tells a length."""

    nets: int = 4
    fish: int = 8
    sizes: str = "lognormal"
    length_sd: float = 0.012
    outlines: bool = True

    @property
    def name(self) -> str:
        """What the table calls it."""
        how = "outlines" if self.outlines else "lengths"
        error = f"{100.0 * self.length_sd:.1f} %"
        return f"{self.nets} x {self.fish}, {self.sizes}, {how} to {error}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fish:
    """The fish of a net: departure of ln length, of ln weight at it, weight."""

    x: FloatArray
    fat: FloatArray
    weight_g: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """A photo: lengths, which of them are usable, and ln shapes."""

    mm: FloatArray
    usable: np.ndarray
    shape: FloatArray


DESIGNS = (
    Design(nets=2),
    Design(),
    Design(length_sd=0.006),
    Design(sizes="graded"),
    Design(fish=15, sizes="groups 50:50"),
    Design(fish=15, sizes="skew 1.3", outlines=False),
    Design(nets=6, fish=20, sizes="runts 6 %"),
    Design(nets=6, fish=20, length_sd=0.006, outlines=False),
)


def asked(design: Design, slip: str, seed: int) -> tuple[bool, bool]:
    """Return whether a sample is asked about as the same fish, and as exchanged."""
    rng = np.random.default_rng([seed, *design.name.encode(), *slip.encode()])
    level = np.exp(rng.normal(0.0, 0.12))
    of_day = rng.normal(0.0, 0.008)
    nets = [_fish(design, rng, level) for _ in range(design.nets)]
    shots = [_shot(design, rng, fish, of_day) for fish in nets]
    if slip == "another photo":
        shots[1] = _shot(design, rng, nets[0], of_day)
    elif slip == "saved twice":
        again = shots[0].mm * np.exp(rng.normal(0.0, COPY_SD, design.fish))
        shots[1] = Shot(mm=again, usable=shots[0].usable, shape=shots[0].shape)
    elif slip == "exchanged":
        shots[0], shots[1] = shots[1], shots[0]
    weighings = tuple(
        _weighing(design, rng, fish, shot, f"net {number}")
        for number, (fish, shot) in enumerate(zip(nets, shots, strict=True), 1)
    )
    shapes = {
        (at, place): (float(shot.shape[place]), 0.065)
        for at, shot in enumerate(shots)
        for place in np.flatnonzero(shot.usable).tolist()
        if design.outlines
    }
    same = bool(same_fish(weighings, shapes))
    found = exchanged_photos(weighings, published_line(), SampleSettings())
    return same, bool(found)


def _fish(design: Design, rng: np.random.Generator, level: float) -> Fish:
    x = SHAPES[design.sizes](rng, design.fish)[: design.fish] + rng.normal(0.0, 0.03)
    fat = rng.normal(0.0, 0.08, len(x))
    return Fish(x=x, fat=fat, weight_g=level * 215.6 * np.exp(3.0 * x + fat))


def _shot(design: Design, rng: np.random.Generator, fish: Fish, of_day: float) -> Shot:
    n = len(fish.x)
    error = rng.normal(of_day + rng.normal(0.0, 0.005), design.length_sd, n)
    wrong = np.where(rng.random(n) < 0.5, -0.2, 0.2) + rng.normal(0.0, 0.1, n)
    error = error + np.where(rng.random(n) < GROSS, wrong, 0.0)
    seen = fish.fat + rng.normal(0.0, 0.06, n) + rng.normal(0.0, 0.02)
    return Shot(
        mm=250.0 * np.exp(fish.x + error),
        usable=rng.random(n) > UNUSABLE,
        shape=seen,
    )


def _weighing(
    design: Design, rng: np.random.Generator, fish: Fish, shot: Shot, label: str
) -> NetWeighing:
    wet = fish.weight_g.sum() * (1.01 + rng.normal(0.0, 0.003)) + rng.normal(0.0, 2.0)
    return NetWeighing(
        fish_count=len(fish.x),
        net_g=float(round(wet)),
        fish=tuple(
            FishInNet(
                fork_length_mm=float(mm),
                relative_sd=design.length_sd,
                complete=bool(usable),
            )
            for mm, usable in zip(shot.mm, shot.usable, strict=True)
        ),
        label=label,
    )


def share(
    design: Design, slip: str, replicates: int, first_seed: int = 0
) -> FloatArray:
    """Return the shares asked as same fish, as exchanged, and as either."""
    found = np.array(
        [asked(design, slip, first_seed + seed) for seed in range(replicates)]
    )
    return np.array([*found.mean(axis=0), found.any(axis=1).mean()])


def main() -> None:
    """Print the table: per cent asked at all, and as what."""
    replicates = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    right = int(sys.argv[2]) if len(sys.argv) > 2 else 2000
    print("| sample | " + " | ".join(SLIPS) + " |")
    print("| --- " * (len(SLIPS) + 1) + "|")
    for design in DESIGNS:
        cells = []
        for slip in SLIPS:
            count = right // len(DESIGNS) if slip == "right" else replicates
            same, exchanged, either = 100.0 * share(design, slip, count)
            cells.append(f"{either:.1f} ({same:.1f}, {exchanged:.1f})")
        print(f"| {design.name} | {' | '.join(cells)} |", flush=True)


if __name__ == "__main__":
    main()
