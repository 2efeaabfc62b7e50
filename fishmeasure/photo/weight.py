"""Length to weight: W = a L^b."""

import math
from dataclasses import dataclass

from scipy.special import ndtri

from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate, UncertaintySource
from fishmeasure.photo.length import FishLength
from fishmeasure.species import Species
from fishmeasure.species.likeness import UNLIKE_SD, depth_score


@dataclass(frozen=True, slots=True, kw_only=True)
class FishWeight:
    """The weight of one fish from its length.

    ``sources`` keep the fish's own error (condition, length) apart from what all
    fish share (scale, a, b).
    """

    weight_g: Estimate
    flags: tuple[str, ...] = ()
    sources: tuple[UncertaintySource, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightCorrection:
    """A stock's own line, from bulk weighings of a sample.

    ``a_g_cm`` and ``b`` are for fork length in centimetres; ``relative_sd`` is
    the error of the level at ``reference_length_mm``, about the mean fork length
    of the fish weighed.
    """

    a_g_cm: float
    b: float
    relative_sd: float
    reference_length_mm: float


def condition_factor(weight_g: float, length_mm: float) -> float:
    """Return K = 100 W / L^3 with W in grams and L in centimetres."""
    return 100.0 * weight_g / (length_mm / 10.0) ** 3


def fish_weight(
    length: FishLength | Estimate,
    species: Species,
    *,
    correction: WeightCorrection | None = None,
    level: float = DEFAULT_LEVEL,
) -> FishWeight:
    """Return the weight of a fish from its fork length.

    The weight of such a fish is taken as lognormal about a L^b. The value given
    is the *mean* over fish of one stock, a L^b exp(s^2 / 2) with s the spread of
    ln W of single fish about their line, so that adding fish gives biomass; a L^b
    alone is the median and 0.5 % low at s = 0.1 (Beauchamp & Olson 1973; Sprugel
    1983). The error of the level does not enter the value: it is shared by all
    fish and may go either way. The interval is that of the lognormal about the
    median, all errors together, so it is longer upwards; the sd is that of the same
    lognormal.

    Parameters
    ----------
    length
        A measured fish, or its fork length in millimetres, whose sd is then taken
        as the fish's own.
    species
        Species or own stock.
    correction
        Replaces the species' level and b where a sample was weighed.
    level
        Of the interval.

    Raises
    ------
    ValueError
        If the length is not over zero.
    """
    fork, length_sources = _fork_length(length)
    if fork.value <= 0.0:
        message = f"fork length must be over zero, not {fork.value}"
        raise ValueError(message)
    line = species.on_fork_length()
    a_g_cm, b = (
        (line.a_g_cm, line.b)
        if correction is None
        else (correction.a_g_cm, correction.b)
    )
    sources = (
        *(_scaled(source, b) for source in length_sources),
        UncertaintySource(
            name="condition of the single fish",
            relative_sd=_relative_sd(line.residual_sd_ln),
            scope="fish",
        ),
        *_level_sources(fork.value, species, correction),
    )
    spread_ln = math.sqrt(sum(_sd_ln(source.relative_sd) ** 2 for source in sources))
    median_g = a_g_cm * (fork.value / 10.0) ** b
    mean_g = median_g * math.exp(line.residual_sd_ln**2 / 2.0)
    z = float(ndtri(0.5 + level / 2.0))
    estimate = Estimate(
        value=mean_g,
        sd=median_g * math.exp(spread_ln**2 / 2.0) * _relative_sd(spread_ln),
        low=median_g * math.exp(-z * spread_ln),
        high=median_g * math.exp(z * spread_ln),
        level=level,
    )
    return FishWeight(
        weight_g=estimate,
        flags=(
            *_flags(fork.value, species, correction),
            *_shape_flags(length, species),
        ),
        sources=sources,
    )


def _fork_length(
    length: FishLength | Estimate,
) -> tuple[Estimate, tuple[UncertaintySource, ...]]:
    if isinstance(length, Estimate):
        fork = length
    else:
        fork = Estimate.normal(length.fork_length_mm, length.fork_length_se_mm)
        if length.sources:
            return fork, length.sources
    if fork.sd == 0.0:
        return fork, ()
    own = UncertaintySource(
        name="length", relative_sd=fork.sd / fork.value, scope="fish"
    )
    return fork, (own,)


def _scaled(source: UncertaintySource, b: float) -> UncertaintySource:
    """Return what an error of length does to weight: d ln W = b d ln L."""
    return UncertaintySource(
        name=source.name, relative_sd=b * source.relative_sd, scope=source.scope
    )


def _level_sources(
    fork_mm: float, species: Species, correction: WeightCorrection | None
) -> tuple[UncertaintySource, ...]:
    line = species.on_fork_length()
    known = line if correction is None else correction
    distance = abs(math.log(fork_mm / known.reference_length_mm))
    own = correction is not None or species.is_own_stock
    return (
        UncertaintySource(
            name="level of this stock" if own else "published level",
            relative_sd=known.relative_sd,
            scope="species" if correction is None else "sample",
        ),
        UncertaintySource(
            name="exponent b",
            relative_sd=_relative_sd(line.b_sd * distance),
            scope="species",
        ),
    )


def _flags(
    fork_mm: float, species: Species, correction: WeightCorrection | None
) -> tuple[str, ...]:
    line = species.on_fork_length()
    flags = []
    if correction is None and not species.is_own_stock:
        flags.append("published-weight")
    if not line.min_length_mm <= fork_mm <= line.max_length_mm:
        flags.append("outside-species-range")
    return tuple(flags)


def _shape_flags(length: FishLength | Estimate, species: Species) -> tuple[str, ...]:
    """Return whether an outline is too deep or too slim for the species."""
    depth = None if isinstance(length, Estimate) else length.seen_depth_per_length
    unlike = depth is not None and abs(depth_score(depth, species)) > UNLIKE_SD
    return ("other-species",) if unlike else ()


def _sd_ln(relative_sd: float) -> float:
    """Return the sd of the logarithm of a lognormal of that relative sd."""
    return math.sqrt(math.log1p(relative_sd**2))


def _relative_sd(sd_ln: float) -> float:
    """Return the relative sd of a lognormal whose logarithm has that sd."""
    return math.sqrt(math.expm1(sd_ln**2))
