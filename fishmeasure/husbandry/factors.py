"""What each limit of a unit allows, and what a kilogram of fish uses of it."""

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry.ammonia_criteria import CRITERIA_NOTE
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.feed import ration
from fishmeasure.husbandry.nitrogen import (
    TAN_NOTE,
    Nitrification,
    feed_for_ammonia_kg_per_day,
)
from fishmeasure.husbandry.oxygen import oxygen_demand
from fishmeasure.husbandry.oxygen_supply import unit_supplies, unit_water
from fishmeasure.husbandry.propagation import lognormal, product, relative_sd, total
from fishmeasure.husbandry.saturation import oxygen_saturation_mg_per_l
from fishmeasure.husbandry.unit import RearingUnit, UnitLimits
from fishmeasure.species import farmed_species

LimitName = Literal["density", "density index", "flow index", "oxygen", "ammonia"]


LB_PER_KG = 2.2046226
KG_PER_M3_PER_LB_PER_FT3 = 16.018463
L_PER_GALLON = 3.785412
DENSITY_INDEX_LIMIT = 0.5  # lb/ft3 per inch, Piper et al. 1982 (SRAC 222: 0.5-1.0)
# lb/(in gpm): SRAC 222 (1990) gives 0.5-1.0 and so 2-4 lb/gpm of 4 in trout; Piper
# p. 70 gives 1.5 at 50 °F with saturated inflow. The highest that both allow.
FLOW_INDEX_LIMIT = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FishGroup:
    """Fish of one species and about one size in a unit."""

    species_key: str
    biomass_kg: Estimate
    mean_weight_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitBasis:
    """What a unit's limits are worked out from.

    Attributes
    ----------
    own
        The grower's own limits; else the strictest of the species' figures.
    ph
        None leaves ammonia out.
    condition_factor
        K, to turn weights into lengths for the two indices; None leaves them out.
    protein_percent
        None takes the species' figure.
    with_oxygen
        False leaves oxygen out, where nothing is known of what brings it.
    with_flow_index
        False leaves the flow index out: it is for new water alone that flows through.
    oxygen_use, tan_use
        Factor on what is modelled of oxygen use and of ammonia from feed, with the
        error of both together, from readings (``measured_use``); None takes the model.
    """

    own: UnitLimits = field(default_factory=UnitLimits)
    ph: float | None = None
    nitrification: Nitrification | None = None
    condition_factor: float | None = None
    protein_percent: float | None = None
    with_oxygen: bool = True
    with_flow_index: bool = True
    oxygen_use: Estimate | None = None
    tan_use: Estimate | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """What a kilogram of fish uses of a capacity, and doubts about that figure."""

    per_kg: Estimate
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor:
    """A capacity and what a kilogram of a group's fish uses of it."""

    name: LimitName
    capacity: Estimate
    use_per_kg: Callable[[FishGroup], Use]
    note: Message


def _fork_length_mm(mean_weight_g: float, condition_factor: float) -> float:
    return 10.0 * math.cbrt(100.0 * mean_weight_g / condition_factor)


def _index_factors(
    unit: RearingUnit, condition_factor: float, *, with_flow: bool
) -> tuple[Factor, ...]:
    require("condition factor", condition_factor, "", 0.3, 4.0)

    def per_kg(group: FishGroup) -> Use:
        length = _fork_length_mm(group.mean_weight_g, condition_factor) / 25.4
        # 10 % of condition is 3 % of length.
        return Use(per_kg=lognormal(1.0 / length, 0.03))

    density = Factor(
        name="density index",
        capacity=lognormal(
            DENSITY_INDEX_LIMIT * KG_PER_M3_PER_LB_PER_FT3 * unit.volume_m3, 0.0
        ),
        use_per_kg=per_kg,
        note=Message.of("note-density-index"),
    )
    if unit.inflow_l_per_min == 0.0 or not with_flow:
        return (density,)
    gallons = unit.inflow_l_per_min / L_PER_GALLON
    flow = Factor(
        name="flow index",
        capacity=lognormal(FLOW_INDEX_LIMIT * gallons / LB_PER_KG, 0.05),
        use_per_kg=per_kg,
        note=Message.of("note-flow-index"),
    )
    return (density, flow)


def _kept_oxygen(
    unit: RearingUnit,
    basis: LimitBasis,
    species: tuple[str, ...],
    temperature_deg_c: float,
) -> tuple[float, Message]:
    """Return the oxygen to keep, mg/L, and where that comes from.

    A density rule is taken with the oxygen rule that stands beside it.
    """
    kept, why = basis.own.min_do_mg_per_l, Message.of("kept-oxygen", case="own")
    if kept is None:
        kept = max(farmed_species(key).water.do_watch_mg_per_l.value for key in species)
        why = Message.of("kept-oxygen", case="caution")
    if basis.own.max_density_kg_per_m3 is not None:
        return kept, why
    rules = [farmed_species(k).limits.min_saturation_percent for k in species]
    rule = max((r for r in rules if r), key=lambda r: r.value, default=None)
    if rule is None:
        return kept, why
    full = oxygen_saturation_mg_per_l(unit_water(unit, temperature_deg_c))
    beside = rule.value / 100.0 * full
    if beside <= kept:
        return kept, why
    return beside, Message.of(
        "kept-oxygen", case="rule", saturation_percent=rule.value, source=rule.source
    )


def _oxygen_factor(
    unit: RearingUnit,
    basis: LimitBasis,
    species: tuple[str, ...],
    temperature_deg_c: float,
) -> Factor:
    kept, why = _kept_oxygen(unit, basis, species, temperature_deg_c)
    supply = total(
        *(s.at_g_per_h(kept) for s in unit_supplies(unit, temperature_deg_c))
    )
    water_use = unit.water_respiration_mg_per_l_h * unit.volume_m3
    for_fish = max(supply.value - water_use, 0.0)

    def per_kg(group: FishGroup) -> Use:
        demand = oxygen_demand(
            species_key=group.species_key,
            mean_weight_g=group.mean_weight_g,
            temperature_deg_c=temperature_deg_c,
        )
        rate, known = demand.rate_mg_per_kg_h, basis.oxygen_use
        per_kg = product(rate, scale=1e-3)
        if known is not None:
            per_kg = lognormal(rate.value * known.value * 1e-3, relative_sd(known))
        return Use(per_kg=per_kg, problems=demand.problems)

    return Factor(
        name="oxygen",
        capacity=lognormal(for_fish, supply.sd / for_fish if for_fish else 0.0),
        use_per_kg=per_kg,
        note=Message.of(
            "note-oxygen-supply",
            case="published" if basis.oxygen_use is None else "read",
            kept_mg_per_l=kept,
            why=why,
        ),
    )


def _feed_factors(
    unit: RearingUnit,
    basis: LimitBasis,
    species: tuple[str, ...],
    temperature_deg_c: float,
) -> tuple[Factor, ...]:
    """Return what limits the feed: ammonia. A plant bed takes it up and limits none."""

    def per_kg(group: FishGroup) -> Use:
        found = ration(
            species_key=group.species_key,
            mean_weight_g=group.mean_weight_g,
            temperature_deg_c=temperature_deg_c,
        )
        return Use(
            per_kg=product(found.percent_per_day, scale=0.01), problems=found.problems
        )

    if basis.ph is None:
        return ()
    exchange = unit.inflow_l_per_min * 1.44
    carried = min(
        (
            feed_for_ammonia_kg_per_day(
                species_key=key,
                ph=basis.ph,
                temperature_deg_c=temperature_deg_c,
                exchange_m3_per_day=exchange,
                protein_percent=basis.protein_percent
                or farmed_species(key).feed.protein_percent.value,
                nitrification=basis.nitrification,
                own_limit_mg_per_l=basis.own.max_unionised_ammonia_mg_per_l,
                tan_use=basis.tan_use,
            )
            for key in species
        ),
        key=lambda feed: feed.value,
    )
    return (
        Factor(
            name="ammonia",
            capacity=carried,
            use_per_kg=per_kg,
            note=Message.of(
                "note-feed-for-ammonia",
                ph=basis.ph,
                criteria=CRITERIA_NOTE,
                nitrogen=TAN_NOTE,
            ),
        ),
    )


def factors_of(
    unit: RearingUnit,
    basis: LimitBasis,
    species: tuple[str, ...],
    temperature_deg_c: float,
) -> tuple[Factor, ...]:
    """Return all that limits the fish of these species in a unit.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
    """
    kept = basis.own.max_density_kg_per_m3
    note, spread = Message.of("note-own-density"), 0.0
    if kept is None:
        strictest = min(
            (farmed_species(key).limits.density_kg_per_m3 for key in species),
            key=lambda figure: lognormal(figure.value, figure.relative_sd).low,
        )
        kept, spread = strictest.value, strictest.relative_sd
        note = strictest.note(Message.of("note-density-limit", limit_kg_per_m3=kept))
    density = Factor(
        name="density",
        capacity=lognormal(kept * unit.volume_m3, spread),
        use_per_kg=lambda _group: Use(per_kg=lognormal(1.0, 0.0)),
        note=note,
    )
    indices: tuple[Factor, ...] = ()
    if basis.condition_factor is not None:
        indices = _index_factors(
            unit, basis.condition_factor, with_flow=basis.with_flow_index
        )
    oxygen: tuple[Factor, ...] = ()
    if basis.with_oxygen:
        oxygen = (_oxygen_factor(unit, basis, species, temperature_deg_c),)
    return (
        density,
        *indices,
        *oxygen,
        *_feed_factors(unit, basis, species, temperature_deg_c),
    )
