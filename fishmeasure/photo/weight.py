"""Length and outline to weight: W = a L^b, and W = c V."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import fmean
from typing import Final, Literal

from scipy.special import ndtri

from fishmeasure.base.estimate import (
    DEFAULT_LEVEL,
    Estimate,
    Scope,
    UncertaintySource,
)
from fishmeasure.photo.length import FishLength, squared_depth_sources
from fishmeasure.species import Species
from fishmeasure.species.likeness import UNLIKE_SD, depth_score

WeightFrom = Literal["outline", "length", "stock"]
"""What a weight was made from: outline and length by the species' constants, length by
its published line alone, or the stock's own line and constant."""

CONDITION_OVER_PUBLISHED: Final = (0.5, 2.2)
"""Of the condition that an outline means, over that of the published line: farmed
trout reach 1.9 times (Davidson et al. 2014 against K 1.15 in tables). Beyond it the
outline is wrong."""


OF_THE_FISH: Final = "condition of the single fish"
"""Cause of error that is no error of measurement: fish differ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FishWeight:
    """The weight of one fish from its length and, where it was seen, its outline.

    ``median_g`` is the weight that half of such fish have, ``share`` what the outline
    counts beside the length, ``over_line`` the median over that by length alone.
    ``sources`` keep the fish's own error (condition, length)
    apart from what all fish share (scale, a, b).
    """

    weight_g: Estimate
    median_g: float
    share: float = 0.0
    over_line: float = 1.0
    weight_from: WeightFrom = "length"
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cause:
    """One cause of error, and what it does to either way of weighing a fish.

    ``by_length`` and ``by_outline`` are relative standard errors of the weight; both go
    the same way.
    """

    name: str
    by_length: float
    by_outline: float
    scope: Scope

    def at(self, share: float) -> float:
        """Return its error where the outline counts with a share."""
        return abs((1.0 - share) * self.by_length + share * self.by_outline)


def fish_weight(
    length: FishLength | Estimate,
    species: Species,
    *,
    correction: WeightCorrection | None = None,
    by_outline: bool = True,
    level: float = DEFAULT_LEVEL,
) -> FishWeight:
    """Return the weight of a fish from its fork length and, if seen, its body's depth.

    Two predictors are joined, ln W = (1 - g) (ln a + b ln L) + g (ln c + ln V), with V
    the squared depth along the body and g such that the variance of the sum is least:
    each cause of error counts once, whatever it does to either. Where no fish of the
    species were weighed beside their outlines, c is that at which the species' usual
    shape has the weight of its line, so V still tells fat from thin.

    The weight of such a fish is taken as lognormal about that. The value given is the
    *mean* over fish of one stock, the median times exp(s^2 / 2) with s the spread of
    ln W of single fish about it, so that adding fish gives biomass; the median alone is
    0.5 % low at s = 0.1 (Beauchamp & Olson 1973; Sprugel 1983). The error of the level
    does not enter the value: it is shared by all fish and may go either way. The
    interval is that of the lognormal about the median, all errors together, so it is
    longer upwards; the sd is that of the same lognormal.

    Parameters
    ----------
    length
        A measured fish, or its fork length in millimetres, whose sd is then taken
        as the fish's own.
    species
        Species or own stock.
    correction
        Replaces the species' level and b where a sample was weighed.
    by_outline
        Whether the outline may be used.
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
    by_length_ln = math.log(a_g_cm) + b * math.log(fork.value / 10.0)
    seen = None if isinstance(length, Estimate) or not by_outline else length
    outline = None if seen is None else _by_outline(seen, species, by_length_ln)
    condition, fish_sd = _fish_causes(species)
    causes = (
        *_measured_causes(length_sources, seen if outline else None, b),
        *condition,
        *_level_causes(fork.value, species, correction),
    )
    share = 0.0 if outline is None else _best_share(causes)
    sources = _sources(causes, share)
    by_outline_ln = by_length_ln if outline is None else outline
    median_g = math.exp((1.0 - share) * by_length_ln + share * by_outline_ln)
    own_sd = math.hypot((1.0 - share) * fish_sd[0], fish_sd[1])
    own_stock = correction is not None or species.is_own_stock
    weight_from: WeightFrom = "outline" if share > 0.0 else "length"
    return FishWeight(
        weight_g=_lognormal(median_g, own_sd, sources, level),
        median_g=median_g,
        share=share,
        over_line=median_g / math.exp(by_length_ln),
        weight_from="stock" if own_stock else weight_from,
        flags=(
            *_flags(fork.value, species, correction, weight_from),
            *_shape_flags(length, species),
        ),
        sources=sources,
    )


def with_condition_of(
    length: FishLength,
    species: Species,
    others: Sequence[FishWeight],
    *,
    level: float = DEFAULT_LEVEL,
) -> FishWeight:
    """Return the weight of a fish by its length, as fat as others of its photo.

    What the others share it shares; beside it errs as one of a length does, and by how
    little so many others tell.

    Parameters
    ----------
    length
        The fish, whose outline may not be used.
    species
        Of all of them.
    others
        Weighed by their outlines.
    level
        Of the interval.
    """
    alone = fish_weight(length, species, by_outline=False)
    fat = math.exp(fmean(math.log(one.over_line) for one in others))
    own = tuple(source for source in alone.sources if source.scope == "fish")
    single = math.sqrt(
        sum(s.relative_sd**2 for s in others[0].sources if s.scope == "fish")
    )
    told = UncertaintySource(
        name="how fat the others are",
        relative_sd=single / math.sqrt(len(others)),
        scope="photo",
    )
    shared = (source for source in others[0].sources if source.scope != "fish")
    sources = (*own, *shared, told)
    median_g = alone.median_g * fat
    return replace(
        alone,
        weight_g=_lognormal(
            median_g, species.on_fork_length().residual_sd_ln, sources, level
        ),
        median_g=median_g,
        over_line=fat,
        flags=tuple(word for word in alone.flags if word != "published-weight"),
        sources=sources,
    )


def _lognormal(
    median_g: float,
    own_sd: float,
    sources: tuple[UncertaintySource, ...],
    level: float,
) -> Estimate:
    """Return the mean over fish of one stock and the interval of all errors."""
    spread_ln = math.sqrt(sum(_sd_ln(source.relative_sd) ** 2 for source in sources))
    z = float(ndtri(0.5 + level / 2.0))
    return Estimate(
        value=median_g * math.exp(own_sd**2 / 2.0),
        sd=median_g * math.exp(spread_ln**2 / 2.0) * _relative_sd(spread_ln),
        low=median_g * math.exp(-z * spread_ln),
        high=median_g * math.exp(z * spread_ln),
        level=level,
    )


# --- the two predictors ---------------------------------------------------------


def _by_outline(
    length: FishLength, species: Species, by_length_ln: float
) -> float | None:
    """Return ln of the weight in g from the outline; None where it tells nothing.

    A weight far off what the species can have at that length is a wrong outline.
    """
    squared_depth_mm3 = length.squared_depth_mm3
    if squared_depth_mm3 is None or not squared_depth_mm3 > 0.0:
        return None
    constant = _constant(species)
    if constant is None:
        return None
    weight_ln = math.log(constant[0] * squared_depth_mm3 / 1000.0)
    least, most = CONDITION_OVER_PUBLISHED
    published = least <= math.exp(weight_ln - by_length_ln) <= most
    return weight_ln if published else None


def _constant(species: Species) -> tuple[float, float] | None:
    """Return c in g/cm3 and its relative error for the species; None if not known.

    Of an own stock whose c was not learned, the species' usual shape says nothing.
    """
    body = species.body
    if body.c_g_per_cm3 is not None:
        return body.c_g_per_cm3.value, body.c_g_per_cm3.relative_sd
    if species.is_own_stock:
        return None
    line = species.on_fork_length()
    usual, sd = body.usual_squared_depth(species.shape.depth_per_fork_length)
    cubed = line.a_g_cm * (line.reference_length_mm / 10.0) ** (line.b - 3.0)
    return cubed / usual, sd


# --- where the error comes from -------------------------------------------------


def _measured_causes(
    length_sources: tuple[UncertaintySource, ...], seen: FishLength | None, b: float
) -> tuple[_Cause, ...]:
    """Return the errors of length, b times as large, and of squared depth."""
    if seen is None:
        return tuple(
            _Cause(
                name=source.name,
                by_length=b * source.relative_sd,
                by_outline=0.0,
                scope=source.scope,
            )
            for source in length_sources
        )
    return tuple(
        _Cause(
            name=source.name,
            by_length=b * of_length,
            by_outline=source.relative_sd,
            scope=source.scope,
        )
        for source, of_length in squared_depth_sources(seen)
    )


def _fish_causes(species: Species) -> tuple[tuple[_Cause, ...], tuple[float, float]]:
    """Return how single fish differ, and the sds in ln: of depth, and of thickness.

    A fish is heavier than its line says for its depth, which the outline sees, and for
    its thickness, which neither sees. Within stocks ln K rises with ln(V / L^3) with
    slope 0.99 (standard error 0.04, 242 fish of four species; private sets).
    """
    all_of_it = species.on_fork_length().residual_sd_ln
    thickness = min(species.body.fish_relative_sd.value, all_of_it)
    depth = math.sqrt(all_of_it**2 - thickness**2)
    causes = (
        _Cause(
            name=OF_THE_FISH,
            by_length=_relative_sd(depth),
            by_outline=0.0,
            scope="fish",
        ),
        _Cause(
            name=OF_THE_FISH,
            by_length=_relative_sd(thickness),
            by_outline=_relative_sd(thickness),
            scope="fish",
        ),
    )
    return causes, (depth, thickness)


def _level_causes(
    fork_mm: float, species: Species, correction: WeightCorrection | None
) -> tuple[_Cause, ...]:
    """Return how little the level of the stock is known, either way."""
    line = species.on_fork_length()
    known = line if correction is None else correction
    distance = abs(math.log(fork_mm / known.reference_length_mm))
    own = correction is not None or species.is_own_stock
    constant = _constant(species)
    constant_sd = 0.0 if constant is None else constant[1]
    stock_sd = species.body.stock_relative_sd.value
    name = "level of this stock" if own else "published level"
    scope: Scope = "species" if correction is None else "sample"
    # A published line errs by a stock's depth, and by its thickness as c does; a
    # stock's own line was weighed and errs by itself.
    both = 0.0 if own else min(stock_sd, known.relative_sd)
    line_sd = math.sqrt(known.relative_sd**2 - both**2)
    return (
        _Cause(name=name, by_length=line_sd, by_outline=0.0, scope=scope),
        _Cause(
            name="thickness of the stock" if own else name,
            by_length=both,
            by_outline=stock_sd,
            scope="species",
        ),
        _Cause(
            name="squared depth to weight",
            by_length=0.0,
            by_outline=constant_sd,
            scope="species",
        ),
        _Cause(
            name="exponent b",
            by_length=_relative_sd(line.b_sd * distance),
            by_outline=0.0,
            scope="species",
        ),
    )


def _best_share(causes: tuple[_Cause, ...]) -> float:
    """Return the share of the outline at which the variance is least, 0 to 1."""
    apart = [cause.by_length - cause.by_outline for cause in causes]
    variance = sum(gap**2 for gap in apart)
    if variance == 0.0:
        return 0.0
    covered = sum(
        cause.by_length * gap for cause, gap in zip(causes, apart, strict=True)
    )
    return min(max(covered / variance, 0.0), 1.0)


def _sources(causes: tuple[_Cause, ...], share: float) -> tuple[UncertaintySource, ...]:
    """Return the causes as they are in the weight, those of one name as one."""
    merged: dict[tuple[str, Scope], float] = {}
    for cause in causes:
        key = cause.name, cause.scope
        before, here = merged.get(key, 0.0), cause.at(share)
        merged[key] = math.hypot(before, here) if before else here
    return tuple(
        UncertaintySource(name=name, relative_sd=sd, scope=scope)
        for (name, scope), sd in merged.items()
        if sd > 0.0
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


def _flags(
    fork_mm: float,
    species: Species,
    correction: WeightCorrection | None,
    weight_from: WeightFrom,
) -> tuple[str, ...]:
    line = species.on_fork_length()
    flags = []
    own_stock = correction is not None or species.is_own_stock
    if weight_from == "length" and not own_stock:
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
