"""What an entered sample says of the fish beside their mean weight, with errors."""

import math
from typing import Final

from fishmeasure.base.estimate import Estimate
from fishmeasure.book.entries import Sample
from fishmeasure.estimation.nets import SampleSettings
from fishmeasure.husbandry.propagation import lognormal, z_score

# Fish behind a figure whose sample does not say: common practice, no source.
USUAL_FISH: Final = 20
# Scatter of ln K of single fish: cutthroat trout, Gregory & Arismendi 2020, n = 4200.
FISH_CONDITION_SD: Final = 0.10
# What the lengths of one sample have in common, as where photos are measured.
LENGTH_SD: Final = SampleSettings().length_relative_sd
# Scale and drip water of a bulk weighing: common practice, no source.
WEIGHT_SD: Final = 0.01


def weight_cv(entry: Sample) -> Estimate | None:
    """Return a sample's CV with its error: cv sqrt((1 + 2 cv^2) / 2n).

    The delta method for a normal sample. At 32 fish and a CV of 0.25 it gives 13 %,
    which is what simulated samples of four nets of eight scatter by.
    """
    cv = entry.cv
    if cv is None:
        return None
    fish = entry.fish_measured or USUAL_FISH
    return Estimate.normal(cv, cv * math.sqrt((1.0 + 2.0 * cv**2) / (2.0 * fish)))


def condition_factor(entry: Sample) -> Estimate | None:
    """Return a sample's K with its interval, as stated or else propagated.

    K = 100 W / L^3 of the mean weight and the mean length of the same fish, so
    (sd K / K)^2 = (sd W / W)^2 + 9 (sd L / L)^2. Which fish happened to be netted
    moves W and L together and is no error of K; what is left is the scatter of
    single fish, shrunk by their number, and what all weights and all lengths of the
    sample have in common.
    """
    factor = entry.condition_factor
    if factor is None:
        return None
    low, high = entry.condition_factor_low, entry.condition_factor_high
    if low is not None and high is not None:
        sd = (high - low) / (2.0 * z_score(entry.level))
        return Estimate(value=factor, sd=sd, low=low, high=high, level=entry.level)
    fish = entry.fish_measured or USUAL_FISH
    variance = FISH_CONDITION_SD**2 / fish + WEIGHT_SD**2 + 9.0 * LENGTH_SD**2
    return lognormal(factor, math.sqrt(variance))
