"""What a sample says of the fish in the unit."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Annotated

from pydantic import Field

from fishmeasure.base.estimate import Estimate, UncertaintySource
from fishmeasure.base.flags import Problem
from fishmeasure.base.record import record
from fishmeasure.base.words import Message, Reason
from fishmeasure.base.written import rounded


@dataclass(frozen=True, slots=True, kw_only=True)
class NetReport:
    """How one net agrees with the rest.

    Attributes
    ----------
    label, fish_count, fish_measured, weight_g
        As given; ``weight_g`` is None where not weighed.
    mean_weight_g
        Of this net's fish, from its weight where weighed, else from its lengths.
    residual_percent
        Weight over what the other nets and its own lengths say, less 1; for a net
        that was only photographed, of the weight its mean length stands for; None
        where there is no other net to compare with.
    residual_z
        The same in standard deviations of what chance explains.
    fault_probability
        That something is wrong with the net.
    flag
        "", "count", "weight" or "other-fish".
    reason
        What is wrong and what to do, for people; None without a flag.
    """

    label: Reason
    fish_count: int
    fish_measured: int
    weight_g: float | None
    mean_weight_g: float | None
    residual_percent: float | None
    residual_z: float | None
    fault_probability: float
    flag: str = ""
    reason: Message | None = None


@record(frozen=True, slots=True, kw_only=True)
class DoubtfulLength:
    """A fish whose length is more likely a gross error than a real size."""

    net: Annotated[str, Field(description="Its net.")]
    fork_length_mm: Annotated[float, rounded(2)]
    probability: Annotated[
        float, rounded(4), Field(description="Chance that it is wrong, 0 to 1.")
    ]


@record(frozen=True, slots=True, kw_only=True)
class SizeGroups:
    """Two groups of sizes in one sample."""

    small_fraction: Annotated[
        float, rounded(4), Field(description="Share of small fish, 0 to 1.")
    ]
    small_mean_weight_g: Annotated[float, rounded(2)]
    large_mean_weight_g: Annotated[float, rounded(2)]


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightQuantile:
    """The weight that a fraction of the fish stay below."""

    below_fraction: float
    weight_g: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLine:
    """W = a L^b of this stock beside the published one (g, cm of fork length).

    Attributes
    ----------
    a_g_cm
        With b held at its own fitted value, as a and b are a pair: alone, a says
        nothing.
    b
        Mostly the published one, unless the sample's sizes differ widely.
    level_ratio
        This stock's weight over the published one at ``at_length_mm``, the middle of
        the sample: what the weighings settle.
    """

    a_g_cm: Estimate
    b: Estimate
    published_a_g_cm: float
    published_b: float
    level_ratio: Estimate
    at_length_mm: float


@record(frozen=True, slots=True, kw_only=True)
class Allowance:
    """What was taken off the figures as read, so that a calculator agrees with them."""

    name: Annotated[
        str,
        Field(
            description="``drip``: water weighed; ``doubt``: nets that may be wrong "
            "count less; ``netting``: which were netted."
        ),
    ]
    fraction: Annotated[
        float, Field(description="Of what is left, a fraction; below 0 is added.")
    ]
    taken_off_g: Annotated[
        float,
        Field(
            description="From all weighed nets (drip), from the netted fish's mean "
            "(doubt), from the unit's mean (netting)."
        ),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class JointSize:
    """Mean weight and CV of the unit together, for what joins samples.

    Attributes
    ----------
    log_mean_weight_g, log_cv
        Means of their natural logarithms.
    mean_variance, cv_variance, covariance
        Of those two.
    """

    log_mean_weight_g: float
    log_cv: float
    mean_variance: float
    cv_variance: float
    covariance: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PopulationEstimate:
    """The fish in the unit, with intervals that say what is not known.

    Attributes
    ----------
    mode
        "both", "bulk-only" or "photo-only".
    mean_weight_g
        Of all fish in the unit, mostly limited by how few were netted.
    handled_mean_weight_g
        Of the netted fish alone.
    cv
        Standard deviation over mean of single weights in the unit.
    joint
        ln mean weight and ln CV with their covariance.
    fork_length_mean_mm
        None where no length was measured.
    condition_factor
        100 W / L^3 (g, cm, fork length), mean of the fish; None likewise.
    weight_quantiles_g
        At 5, 10, 25, 50, 75, 90 and 95 %.
    weight_share_above
        Function of a weight in grams: the fraction of the fish above it.
    between_net_cv, within_net_cv, condition_sd
        How far the nets' mean weights differ beyond chance, how far single fish
        within a net do, and ln W of single fish about the stock's line. Medians.
    fish_measured, fish_weighed, fish_handled
        Complete lengths used, fish in weighed nets, and in all nets.
    biomass_kg
        None where no count is given.
    corrections
        What was taken off the figures as read.
    sources
        What the error of ``mean_weight_g`` is made of, by scope.
    """

    mode: str
    level: float
    mean_weight_g: Estimate
    handled_mean_weight_g: Estimate
    cv: Estimate
    joint: JointSize
    fork_length_mean_mm: Estimate | None
    condition_factor: Estimate | None
    line: StockLine
    weight_quantiles_g: tuple[WeightQuantile, ...]
    weight_share_above: Callable[[float], Estimate]
    between_net_cv: float
    within_net_cv: float
    condition_sd: float
    fish_measured: int
    fish_weighed: int
    fish_handled: int
    count_in_unit: int | None
    biomass_kg: Estimate | None
    nets: tuple[NetReport, ...]
    corrections: tuple[Allowance, ...] = ()
    doubtful_lengths: tuple[DoubtfulLength, ...] = ()
    size_groups: SizeGroups | None = None
    sources: tuple[UncertaintySource, ...] = ()
    problems: tuple[Problem, ...] = field(default=())

    @property
    def spread_is_measured(self) -> bool:
        """Whether single fish were measured.

        Without it CV, quantiles and line are what is typical, not a result: nothing
        prints them.
        """
        return self.mode != "bulk-only"

    @property
    def level_is_measured(self) -> bool:
        """Whether weights at a length, or outlines, told how fat the fish are.

        Without them K and the line are those that were published: nothing prints them.
        """
        return self.condition_factor is not None
