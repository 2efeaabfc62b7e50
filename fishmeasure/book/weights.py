"""The mean weight of one group of fish through time.

The model is ``fishmeasure.husbandry.growth``'s, taken one entry at a time: the cube
root of the weight grows by the thermal growth coefficient (TGC) times the
degree-days, and a Kalman filter follows both. Between samples the interval widens
by the error of the TGC and by how unevenly fish grow; a sample narrows it, and
several samples teach the TGC of these very fish.
"""

import math
from dataclasses import dataclass, field
from typing import Self
from uuid import UUID

from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate
from fishmeasure.husbandry.growth import (
    STEP_SPREAD,
    cubed,
    drift_per_step,
    noise_per_step,
)
from fishmeasure.species import FarmedSpecies


@dataclass(slots=True, kw_only=True)
class WeightTrack:
    """Cube root of the mean weight in g, TGC x 1000, and their errors, on one day.

    ``noise`` and ``drift`` are the variances that uneven growth adds to the root,
    and drift to the TGC, per 1000 degree-days.
    """

    root: float
    root_var: float
    tgc: float = 0.0
    tgc_var: float = 0.0
    cov: float = 0.0
    noise: float = 0.0
    drift: float = 0.0
    samples: int = 0
    from_ids: list[UUID] = field(default_factory=list)

    @classmethod
    def start(cls, weight_g: float, sd_g: float, figures: FarmedSpecies | None) -> Self:
        """Return the track of fish of a known weight.

        Without figures for the species the weight stands still.
        """
        root, var = math.cbrt(weight_g), _root_var(weight_g, sd_g)
        if figures is None:
            return cls(root=root, root_var=var)
        book = figures.growth.tgc_x1000
        return cls(
            root=root,
            root_var=var,
            tgc=book.value,
            tgc_var=(book.value * book.relative_sd) ** 2,
            noise=noise_per_step(STEP_SPREAD, book.value),
            drift=drift_per_step(book.value),
        )

    def copy(self) -> Self:
        """Return a track of its own for fish that part from these."""
        return type(self)(
            root=self.root,
            root_var=self.root_var,
            tgc=self.tgc,
            tgc_var=self.tgc_var,
            cov=self.cov,
            noise=self.noise,
            drift=self.drift,
            samples=self.samples,
            from_ids=list(self.from_ids),
        )

    def advance(self, degree_days: float) -> None:
        """Let the fish grow."""
        step = degree_days / 1000.0
        self.root += self.tgc * step
        self.root_var += (
            2.0 * step * self.cov
            + step**2 * self.tgc_var
            + self.noise * step
            + self.drift * step**3 / 3.0
        )
        self.cov += step * self.tgc_var + self.drift * step**2 / 2.0
        self.tgc_var += self.drift * step

    def observe(self, weight_g: float, sd_g: float) -> float:
        """Take in a sample; return how many sd it lay from what was expected."""
        error_var = self.root_var + _root_var(weight_g, sd_g)
        surprise = math.cbrt(weight_g) - self.root
        self.samples += 1
        if error_var <= 0.0:
            return 0.0
        gain, tgc_gain = self.root_var / error_var, self.cov / error_var
        self.root += gain * surprise
        self.tgc += tgc_gain * surprise
        self.tgc_var -= tgc_gain * self.cov
        self.cov -= gain * self.cov
        self.root_var -= gain * self.root_var
        return surprise / math.sqrt(error_var)

    def set_weight(self, weight_g: float, sd_g: float) -> None:
        """Change the weight alone, as when large fish were taken out."""
        self.root = math.cbrt(weight_g)
        self.root_var = _root_var(weight_g, sd_g)
        self.cov = 0.0

    @property
    def weight_g(self) -> float:
        """The mean weight."""
        return self.root**3

    @property
    def weight_sd_g(self) -> float:
        """Its standard deviation."""
        return 3.0 * self.root**2 * self.root_sd

    @property
    def root_sd(self) -> float:
        """Standard deviation of the cube root."""
        return math.sqrt(max(0.0, self.root_var))

    @property
    def tgc_x1000(self) -> Estimate:
        """The coefficient as it is known for these fish."""
        return Estimate.normal(self.tgc, math.sqrt(max(0.0, self.tgc_var)))

    def mean_weight_g(self) -> Estimate:
        """Return the mean weight with its interval."""
        return cubed(self.root, self.root_sd, DEFAULT_LEVEL)


def _root_var(weight_g: float, sd_g: float) -> float:
    """Return the variance of the cube root."""
    return (sd_g / (3.0 * math.cbrt(weight_g) ** 2)) ** 2
