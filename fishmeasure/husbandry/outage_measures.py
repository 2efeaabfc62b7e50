"""What buys time in an outage."""

from dataclasses import dataclass, replace

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.words import NOTHING, Message
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.outage_backup import minutes_with_backup
from fishmeasure.husbandry.outage_fall import (
    HORIZON_MIN,
    Fall,
    OutageCase,
    backup_devices,
    fall_of,
    remaining_supplies,
)
from fishmeasure.husbandry.oxygen import Feeding, OxygenDemand, oxygen_demand
from fishmeasure.husbandry.oxygen_supply import flow_supply, unit_water
from fishmeasure.husbandry.propagation import from_draws, lognormal, relative_sd, scaled
from fishmeasure.husbandry.sources import OxygenSource
from fishmeasure.species import farmed_species


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeToLevel:
    """Minutes until the oxygen is down to a level, at most 24 h.

    ``reached_fraction`` is the share of draws that reach it within 24 h; the
    others count as 24 h, so an end of the interval at 1440 means "24 h or more".
    """

    level_mg_per_l: float
    minutes: Estimate
    reached_fraction: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """Something that buys time, and how much until the critical level.

    ``to_critical`` and ``gained_min`` are None where nobody knows how long it runs;
    ``note`` says for how long it does.
    """

    name: Message
    to_critical: TimeToLevel | None
    gained_min: Estimate | None
    note: Message = NOTHING

    @property
    def sure_min(self) -> float:
        """Minutes gained at the unsafe end; 0 where nobody knows."""
        return 0.0 if self.gained_min is None else self.gained_min.low


def time_to(fall: Fall, level_mg_per_l: float, level: float) -> TimeToLevel:
    """Return how long a fall takes to a level of oxygen."""
    return time_of(fall.minutes_to(level_mg_per_l), level_mg_per_l, level)


def time_of(minutes: FloatArray, level_mg_per_l: float, level: float) -> TimeToLevel:
    """Return the time that its draws describe."""
    return TimeToLevel(
        level_mg_per_l=level_mg_per_l,
        minutes=from_draws(float(minutes[0]), minutes[1:], level),
        reached_fraction=float(np.mean(minutes[1:] < HORIZON_MIN)),
    )


def levels_of(case: OutageCase) -> tuple[float, float]:
    """Return the caution and the critical level, the unit's own before the species'.

    Caution never comes after critical, whichever of them a unit sets.
    """
    water = farmed_species(case.species_key).water
    caution = case.caution_mg_per_l
    critical = case.critical_mg_per_l
    if caution is None:
        caution = water.do_watch_mg_per_l.value
    if critical is None:
        critical = water.do_act_mg_per_l.value
    return max(caution, critical), critical


def demand_of(case: OutageCase, feeding: Feeding) -> OxygenDemand:
    """Return what a kilogram of the fish uses, by readings too where there are any."""
    demand = oxygen_demand(
        species_key=case.species_key,
        mean_weight_g=case.mean_weight_g,
        temperature_deg_c=case.temperature_deg_c,
        feeding=feeding,
        level=case.biomass_kg.level,
    )
    known = case.oxygen_use
    if known is None:
        return demand
    rate = demand.rate_mg_per_kg_h
    return replace(
        demand,
        rate_mg_per_kg_h=lognormal(
            rate.value * known.value, relative_sd(known), rate.level
        ),
    )


def measures_of(
    case: OutageCase,
    fall: Fall,
    exchange_l_per_min: float | None,
    fewer_fraction: float,
) -> tuple[Measure, ...]:
    """Return what buys time until the critical level, the surest first."""
    level = case.biomass_kg.level
    critical_level = levels_of(case)[1]
    demand = demand_of(case, case.feeding)
    supplies = remaining_supplies(case)
    require("share of fish taken out", fewer_fraction, "", 0.0, 0.99)
    flow = exchange_l_per_min
    if flow is None:
        flow = case.unit.volume_m3 * 1000.0 / 10.0 / 60.0
    fresh = flow_supply(flow, None, unit_water(case.unit, case.temperature_deg_c))
    fewer = replace(case, biomass_kg=scaled(case.biomass_kg, 1.0 - fewer_fraction))
    trials: dict[Message, Fall] = {
        Message.of("measure", case="fresh-water", flow_l_per_min=flow): fall_of(
            case, demand, (*supplies, fresh)
        ),
        Message.of("measure", case="fewer-fish", share=fewer_fraction): fall_of(
            fewer, demand, supplies
        ),
    }
    if case.feeding == "fed":
        trials[Message.of("measure", case="fasted")] = fall_of(
            case, demand_of(case, "fasted"), supplies
        )
    before = fall.minutes_to(critical_level)
    reached = {name: trial.minutes_to(critical_level) for name, trial in trials.items()}
    found = [
        _gained(name, minutes, before, critical_level, level)
        for name, minutes in reached.items()
    ]
    found += _backup(case, demand, before, critical_level)
    return tuple(sorted(found, key=lambda m: m.sure_min, reverse=True))


def _gained(
    name: Message,
    minutes: FloatArray,
    before: FloatArray,
    critical_level: float,
    level: float,
    *,
    note: Message = NOTHING,
) -> Measure:
    # Where the level is not reached within 24 h anyway, nothing can be gained: of
    # that no draw says how long a measure would help.
    falls = before < HORIZON_MIN
    gain = (minutes - before)[1:][falls[1:]] if np.any(falls[1:]) else np.zeros(1)
    middle = float(minutes[0] - before[0]) if falls[0] else float(np.median(gain))
    return Measure(
        name=name,
        to_critical=time_of(minutes, critical_level, level),
        gained_min=from_draws(middle, gain, level),
        note=note,
    )


def _backup(
    case: OutageCase, demand: OxygenDemand, before: FloatArray, critical_level: float
) -> list[Measure]:
    """Return what each backup buys until it is spent, and all of them together."""
    devices = backup_devices(case)
    known = tuple(d for d in devices if d.runtime_h is not None)
    found = [
        Measure(
            name=Message.of("measure", case="backup", devices=(device.name,)),
            to_critical=None,
            gained_min=None,
            note=Message.of("backup-unknown", store=_store(device)),
        )
        for device in devices
        if device.runtime_h is None
    ]
    together: list[tuple[OxygenSource, ...]] = [(device,) for device in known]
    if len(known) > 1:
        together.append(known)
    for these in together:
        minutes = minutes_with_backup(
            case, demand, remaining_supplies(case), these, critical_level
        )
        found.append(
            _gained(
                Message.of(
                    "measure",
                    case="backup",
                    devices=tuple(device.name for device in these),
                ),
                minutes,
                before,
                critical_level,
                case.biomass_kg.level,
                note=Message.of(
                    "backup-lasting", lasting=tuple(_lasts(device) for device in these)
                ),
            )
        )
    return found


def _store(device: OxygenSource) -> str:
    return "cylinder" if device.drive == "oxygen" else "battery"


def _lasts(device: OxygenSource) -> Message:
    most = device.runtime_h or 0.0
    least = most if device.runtime_least_h is None else device.runtime_least_h
    return Message.of(
        "backup-lasts",
        case="span" if least < most else "one",
        store=_store(device),
        least_h=least,
        most_h=most,
    )
