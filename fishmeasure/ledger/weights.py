"""The mean weight of one group of fish through time.

The cube root of the weight grows in proportion to degree-days (thermal growth
coefficient, Iwama & Tautz 1981). Level and growth rate are followed by a Kalman
filter: between samples the interval widens by the error of the rate and by how
unevenly fish grow, a sample narrows it, and several samples teach the rate of
this very cohort.
"""

import math
from dataclasses import dataclass, field
from typing import Self
from uuid import UUID

from fishmeasure.uncertainty import Estimate

# How far growth in one month strays from the rate: an allowance, no source. In a
# published series (Davidson et al. 2014, J Aquac Res Dev 5:4, 37 g to 1.8 kg) the
# monthly coefficients scatter by 0.38, the error of reading its figure included.
GROWTH_SCATTER_PER_MONTH = 0.25
_MONTH_DAYS = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthPrior:
    """What is known of growth before any sample: the thermal growth coefficient."""

    tgc_x1000: float
    tgc_sd_x1000: float


@dataclass(slots=True, kw_only=True)
class WeightTrack:
    """Level and rate, with their errors, on one day.

    ``root`` is the cube root of the mean weight in grams, ``rate`` its growth per
    degree-day (the coefficient over 1000).
    """

    root: float
    rate: float
    root_var: float
    rate_var: float
    cov: float = 0.0
    from_ids: list[UUID] = field(default_factory=list)

    @classmethod
    def start(cls, weight_g: float, sd_g: float, prior: GrowthPrior) -> Self:
        """Return the track of fish of a known weight."""
        root = math.cbrt(weight_g)
        return cls(
            root=root,
            rate=prior.tgc_x1000 / 1000.0,
            root_var=_root_var(weight_g, sd_g),
            rate_var=(prior.tgc_sd_x1000 / 1000.0) ** 2,
        )

    def copy(self) -> Self:
        """Return a track of its own for fish that part from these."""
        return type(self)(
            root=self.root,
            rate=self.rate,
            root_var=self.root_var,
            rate_var=self.rate_var,
            cov=self.cov,
            from_ids=list(self.from_ids),
        )

    def advance(self, degree_days: float, days: float) -> None:
        """Let the fish grow."""
        if days <= 0.0:
            return
        self.root += self.rate * degree_days
        monthly = self.rate * degree_days / days * _MONTH_DAYS
        scatter = (GROWTH_SCATTER_PER_MONTH * monthly) ** 2 * days / _MONTH_DAYS
        self.root_var += (
            2.0 * degree_days * self.cov + degree_days**2 * self.rate_var + scatter
        )
        self.cov += degree_days * self.rate_var

    def observe(self, weight_g: float, sd_g: float) -> float:
        """Take in a sample; return how many sd it lay from what was expected."""
        error_var = self.root_var + _root_var(weight_g, sd_g)
        surprise = math.cbrt(weight_g) - self.root
        if error_var <= 0.0:
            return 0.0
        gain, rate_gain = self.root_var / error_var, self.cov / error_var
        self.root += gain * surprise
        self.rate += rate_gain * surprise
        self.rate_var -= rate_gain * self.cov
        self.cov -= gain * self.cov
        self.root_var -= gain * self.root_var
        return surprise / math.sqrt(error_var)

    def set_weight(self, weight_g: float, sd_g: float) -> None:
        """Change the level alone, as when large fish were taken out."""
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
        return 3.0 * self.root**2 * math.sqrt(max(0.0, self.root_var))

    def estimate(self, level: float, z: float) -> Estimate:
        """Return the mean weight in grams with its interval."""
        half = z * math.sqrt(max(0.0, self.root_var))
        return Estimate(
            value=self.weight_g,
            sd=self.weight_sd_g,
            low=max(0.0, self.root - half) ** 3,
            high=(self.root + half) ** 3,
            level=level,
        )


def _root_var(weight_g: float, sd_g: float) -> float:
    """Return the variance of the cube root."""
    return (sd_g / (3.0 * math.cbrt(weight_g) ** 2)) ** 2
