"""What readings of the water say of the fish's use, weighed with the model's figure.

In water that is in balance, what the fish use is what comes in less what goes out.
Reading and model are two figures of one quantity: they are weighed by their errors,
as logarithms.
"""

import math
from dataclasses import dataclass
from typing import Final

from fishmeasure.base.estimate import Estimate
from fishmeasure.husbandry.oxygen_supply import (
    INFLOW_SATURATION,
    unit_supplies,
    unit_water,
)
from fishmeasure.husbandry.propagation import lognormal, relative_sd
from fishmeasure.husbandry.saturation import oxygen_saturation_mg_per_l
from fishmeasure.husbandry.sources import running
from fishmeasure.husbandry.unit import RearingUnit

INFLOW_DO_SD_MG_PER_L: Final = 0.3  # of a DO meter; common practice, no source
# Of the share of saturation where the inflow was not read; common practice, no source.
INFLOW_SATURATION_SD: Final = 0.05
# A reading is one moment, use changes with hour and meal; an allowance, no source.
MOMENT_RELATIVE_SD: Final = 0.15
TAN_MOMENT_RELATIVE_SD: Final = 0.25
FLOW_RELATIVE_SD: Final = 0.05  # as ``inflow_supply`` takes it
DIFFERS_SD: Final = 2.0  # from here on the two figures are told apart
_USELESS: Final = 1.0  # a measured figure with a relative sd above says nothing


@dataclass(frozen=True, slots=True, kw_only=True)
class CombinedUse:
    """A use as modelled and as measured, and both together.

    ``factor`` is both together over the model, its error that of both together.
    ``in_sd`` is how far they lie apart, in standard deviations of the difference.
    """

    modelled: Estimate
    measured: Estimate
    combined: Estimate
    factor: Estimate
    in_sd: float

    @property
    def differs(self) -> bool:
        """Whether the two cannot well be of one quantity."""
        return abs(self.in_sd) > DIFFERS_SD


def combine(modelled: Estimate, measured: Estimate | None) -> CombinedUse | None:
    """Return both figures combined, each by 1 / sd^2 of their logarithms.

    Where they lie further apart than their errors allow, the error of the result
    grows in proportion (Birge 1932, Phys Rev 40:207-227; from memory). None where
    the measured one is nil or says nothing.
    """
    if measured is None or measured.value <= 0.0 or modelled.value <= 0.0:
        return None
    if relative_sd(measured) > _USELESS:
        return None
    variances = [
        max(math.log1p(relative_sd(figure) ** 2), 1e-6)
        for figure in (modelled, measured)
    ]
    apart = math.log(measured.value / modelled.value)
    in_sd = apart / math.sqrt(sum(variances))
    weight = variances[0] / sum(variances)
    sigma2 = variances[0] * variances[1] / sum(variances) * max(1.0, in_sd**2)
    spread = math.sqrt(math.expm1(sigma2))
    shift = math.exp(weight * apart)
    return CombinedUse(
        modelled=modelled,
        measured=measured,
        combined=lognormal(modelled.value * shift, spread, modelled.level),
        factor=lognormal(shift, spread, modelled.level),
        in_sd=in_sd,
    )


def measured_oxygen_g_per_h(
    *, unit: RearingUnit, temperature_deg_c: float, do_mg_per_l: Estimate
) -> Estimate | None:
    """Return the oxygen that the fish use, from what the water lost on its way.

    Every supply at the oxygen read, less what the water itself uses: for an inflow
    alone, flow x (oxygen of the inflow - oxygen read). Aerators are taken to have run
    at the time and to bring what is entered, so with them it is an upper figure. None
    where neither is entered.
    """
    if unit.inflow_l_per_min <= 0.0 and not running(unit):
        return None
    supplies = unit_supplies(unit, temperature_deg_c)
    flow_m3_per_h = unit.inflow_l_per_min * 0.06
    inflow_sd = INFLOW_DO_SD_MG_PER_L
    if unit.inflow_do_mg_per_l is None:
        saturation = oxygen_saturation_mg_per_l(unit_water(unit, temperature_deg_c))
        inflow_sd = INFLOW_SATURATION_SD / INFLOW_SATURATION * saturation
    brought = [
        supply.base_g_per_h - supply.exchange_m3_per_h * do_mg_per_l.value
        for supply in supplies
    ]
    used = sum(brought) - unit.water_respiration_mg_per_l_h * unit.volume_m3
    exchange = sum(supply.exchange_m3_per_h for supply in supplies)
    sd = math.hypot(
        *(
            value * supply.relative_sd
            for value, supply in zip(brought, supplies, strict=True)
        ),
        exchange * do_mg_per_l.sd,
        flow_m3_per_h * inflow_sd,
        MOMENT_RELATIVE_SD * used,
    )
    return lognormal(used, sd / used, do_mg_per_l.level) if used > 0.0 else None


def measured_tan_g_per_day(
    *, exchange_m3_per_day: float, tan_mg_per_l: Estimate
) -> Estimate | None:
    """Return the ammonia nitrogen that leaves with the water, none in the inflow."""
    if exchange_m3_per_day <= 0.0 or tan_mg_per_l.value <= 0.0:
        return None
    spread = math.hypot(
        relative_sd(tan_mg_per_l), FLOW_RELATIVE_SD, TAN_MOMENT_RELATIVE_SD
    )
    return lognormal(exchange_m3_per_day * tan_mg_per_l.value, spread)
