"""A sample's estimate, as `fishmeasure sample --json` gives it."""

from pydantic import ConfigDict, Field

from api.schemas import Out
from fishmeasure.base.flags import Problem

Interval = list[float | None] | None


class NetOut(Out):
    """One net beside what all nets say."""

    net: str = Field(description="Its label or number.", examples=["net 1"])
    fish: float = Field(description="Fish in it.")
    fish_measured: int = Field(description="Fish of it that photos measured.")
    weight_g: float | None = Field(description="Net weight without drip water, g.")
    mean_weight_g: float | None = Field(description="Weight over count, g.")
    residual_percent: float | None = Field(
        description="How far it lies from what the rest foretells, %."
    )
    residual_z: float | None = Field(description="The same, in standard errors.")
    fault_probability: float | None = Field(
        description="Chance that something is wrong with it, 0 to 1."
    )
    flag: str | None = Field(description="A word where it does not agree.")
    reason: str | None = Field(description="The same as a sentence.")


class DoubtfulLengthOut(Out):
    """A length that is far from the others of its sample."""

    net: str = Field(description="Its net.")
    fork_length_mm: float | None = Field(description="Fork length, mm.")
    probability: float | None = Field(description="Chance that it is wrong, 0 to 1.")


class SizeGroupsOut(Out):
    """Two size groups in one unit."""

    small_fraction: float | None = Field(description="Share of small fish, 0 to 1.")
    small_mean_weight_g: float | None = Field(description="Their mean weight, g.")
    large_mean_weight_g: float | None = Field(description="Of the large ones, g.")


class SourceOut(Out):
    """One source of uncertainty."""

    name: str = Field(description="What it is.")
    relative_sd: float | None = Field(description="Its share, a fraction of the mean.")
    scope: str = Field(description="What it is common to: fish, photo, sample, ...")


class SampleEstimateOut(Out):
    """Mean weight and spread of the fish in the unit, each with its interval."""

    model_config = ConfigDict(extra="allow")

    mode: str = Field(description="What it rests on: weighings, lengths or both.")
    level: float = Field(description="Chance that the intervals cover, 0 to 1.")
    mean_weight_g: float = Field(
        description="Of the fish in the unit, g.", examples=[163.0]
    )
    mean_weight_interval_g: list[float] = Field(
        description="[low, high], g.", examples=[[151.0, 176.0]]
    )
    handled_mean_weight_g: float | None = Field(description="Of the netted fish, g.")
    handled_mean_weight_interval_g: Interval = Field(description="[low, high], g.")
    cv: float | None = Field(description="Spread of single weights, a fraction.")
    cv_interval: Interval = Field(description="[low, high], a fraction.")
    fork_length_mean_mm: float | None = Field(description="Mean fork length, mm.")
    fork_length_mean_interval_mm: Interval = Field(description="[low, high], mm.")
    condition_factor: float | None = Field(description="100 W / L^3 in g and cm.")
    condition_factor_interval: Interval = Field(description="[low, high], g and cm.")
    a: float | None = Field(description="Of W = a L^b, this stock's, g per cm^b.")
    b: float | None = Field(description="Exponent of W = a L^b, this stock's.")
    published_a: float | None = Field(description="The published a, g per cm^b.")
    published_b: float | None = Field(description="The published exponent.")
    weight_quantiles_g: dict[str, float | None] = Field(
        description="Weight, g, by the share of fish that are lighter."
    )
    weight_quantile_intervals_g: dict[str, list[float | None]] = Field(
        description="[low, high] of each, g."
    )
    between_net_cv: float | None = Field(description="Of nets' means, a fraction.")
    within_net_cv: float | None = Field(description="Within a net, a fraction.")
    fish_measured: int = Field(description="Fish that photos measured.")
    fish_weighed: int = Field(description="Fish weighed.")
    count_in_unit: int | None = Field(description="Fish in the unit, as sent.")
    biomass_kg: float | None = Field(description="Fish in the unit, kg.")
    biomass_interval_kg: Interval = Field(description="[low, high], kg.")
    nets: list[NetOut] = Field(description="In the order sent.")
    doubtful_lengths: list[DoubtfulLengthOut] = Field(description="To look at again.")
    size_groups: SizeGroupsOut | None = Field(description="Where there are two.")
    sources: list[SourceOut] = Field(description="What the interval is made of.")
    problems: list[Problem] = Field(default=[], description="Told beside the estimate.")
