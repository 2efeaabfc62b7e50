"""Backup air or oxygen that runs out: the fall of the oxygen, phase by phase."""

from dataclasses import dataclass, replace

import numpy as np
from scipy.special import ndtr

from fishmeasure.base.arrays import FloatArray
from fishmeasure.husbandry.outage_fall import (
    HORIZON_MIN,
    Fall,
    OutageCase,
    fall_of,
    with_centre,
)
from fishmeasure.husbandry.oxygen import OxygenDemand
from fishmeasure.husbandry.oxygen_supply import OxygenSupply, aerator_supply, unit_water
from fishmeasure.husbandry.propagation import normal_scores
from fishmeasure.husbandry.sources import OxygenSource


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Phase:
    """A stretch of the outage with the same supplies; ``end_min`` for each draw."""

    fall: Fall
    end_min: FloatArray


def minutes_with_backup(
    case: OutageCase,
    demand: OxygenDemand,
    supplies: tuple[OxygenSupply, ...],
    devices: tuple[OxygenSource, ...],
    level_mg_per_l: float,
) -> FloatArray:
    """Return minutes to a level with devices that run until they are spent.

    The time after that is calculated on, without them. Each runtime lies anywhere
    between its least and its most hours, all of them as high in that span as the
    others.

    Raises
    ------
    ValueError
        If nobody knows how long a device runs.
    """
    phases = _phases(case, demand, supplies, devices)
    start = phases[0].fall.start_do
    begun = np.zeros_like(start)
    found = np.full_like(start, HORIZON_MIN)
    for phase in phases:
        fall = replace(phase.fall, start_do=start)
        minutes = fall.minutes_to(level_mg_per_l)
        reached = (minutes < HORIZON_MIN) & (begun + minutes <= phase.end_min)
        found = np.where(
            reached & (found == HORIZON_MIN),
            np.minimum(begun + minutes, HORIZON_MIN),
            found,
        )
        ends = np.minimum(phase.end_min, HORIZON_MIN)
        start = fall.do_at(np.maximum(ends - begun, 0.0))
        begun = ends
    return found


def _phases(
    case: OutageCase,
    demand: OxygenDemand,
    supplies: tuple[OxygenSupply, ...],
    devices: tuple[OxygenSource, ...],
) -> list[_Phase]:
    if any(device.runtime_h is None for device in devices):
        message = "a device of unknown runtime bounds nothing"
        raise ValueError(message)
    ordered = sorted(devices, key=lambda device: device.runtime_h or 0.0)
    ends = [_runtime_min(device) for device in ordered]
    for index in range(len(ends) - 2, -1, -1):  # a later one may be spent earlier
        ends[index] = np.minimum(ends[index], ends[index + 1])
    water = unit_water(case.unit, case.temperature_deg_c)
    air = [aerator_supply(device, water) for device in ordered]
    phases = [
        _Phase(fall=fall_of(case, demand, (*supplies, *air[index:])), end_min=end)
        for index, end in enumerate(ends)
    ]
    last = fall_of(case, demand, supplies)
    return [*phases, _Phase(fall=last, end_min=np.full_like(last.start_do, np.inf))]


def _runtime_min(device: OxygenSource) -> FloatArray:
    most = device.runtime_h or 0.0
    least = most if device.runtime_least_h is None else device.runtime_least_h
    share: FloatArray = ndtr(normal_scores(6)[:, 5])
    return with_centre(60.0 * (least + (most - least) * share), 30.0 * (least + most))
