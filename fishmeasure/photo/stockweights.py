"""Weights of a sample's fish by their own stock, once its nets were weighed.

A photo knows a fish by what is published of its kind. Where the same fish were
weighed in nets, their stock weighs so many times what is published, and each fish's
weight is that much more or less; the error of the published level gives way to that
of the ratio.
"""

import math
from dataclasses import replace

from fishmeasure.base.estimate import Estimate
from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement
from fishmeasure.photo.weight import fish_weight
from fishmeasure.species import Species


def of_the_stock(
    measurement: PhotoMeasurement, species: Species, ratio: Estimate
) -> PhotoMeasurement:
    """Return the measurement with the weights of the stock.

    Parameters
    ----------
    measurement
        Of one photo, its fish weighed by what is published.
    species
        Of the sample; fish of another keep their weights.
    ratio
        The stock's weight over the published one of the same fish.
    """
    fish = tuple(
        _of_the_stock(one, species, ratio)
        if one.weight_g is not None and one.species == species.key
        else one
        for one in measurement.fish
    )
    weights = [one.weight_g for one in fish if one.complete and one.weight_g]
    if measurement.mean_weight_g is None or not weights:
        return replace(measurement, fish=fish)
    own = [(one.weight_se_g or 0.0) / (one.weight_g or 1.0) for one in fish]
    level = ratio.sd / ratio.value
    alone = sum(max(sd**2 - level**2, 0.0) for sd in own) / len(own) / len(weights)
    mean = _lognormal(
        sum(weights) / len(weights), math.sqrt(alone + level**2), ratio.level
    )
    return replace(
        measurement,
        fish=fish,
        mean_weight_g=mean.value,
        mean_weight_interval_g=(mean.low, mean.high),
    )


def _of_the_stock(
    fish: MeasuredFish, species: Species, ratio: Estimate
) -> MeasuredFish:
    found = fish_weight(fish, species, by_outline="outline-doubtful" not in fish.flags)
    own = sum(s.relative_sd**2 for s in found.sources if s.scope != "species")
    relative = math.sqrt(own + (ratio.sd / ratio.value) ** 2)
    weight = _lognormal(
        found.weight_g.value * ratio.value, relative, found.weight_g.level
    )
    return replace(
        fish,
        weight_g=weight.value,
        weight_se_g=weight.sd,
        weight_low_g=weight.low,
        weight_high_g=weight.high,
    )


def _lognormal(value: float, relative: float, level: float) -> Estimate:
    normal = Estimate.normal(0.0, math.sqrt(math.log1p(relative**2)), level)
    return Estimate(
        value=value,
        sd=value * relative,
        low=value * math.exp(normal.low),
        high=value * math.exp(normal.high),
        level=level,
    )
