"""The water of the day."""

from dataclasses import dataclass
from typing import Final

from fishmeasure.base.estimate import Estimate
from fishmeasure.book.state import UnitState

# A reading older than this says little of tonight; common practice, no source.
FRESH_DAYS: Final = 7
METER_SD_MG_PER_L: Final = 0.3  # of a DO meter; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """The water of the day: readings of the last week, else what is to be expected.

    ``from_words`` says where temperature and oxygen come from. ``do_mg_per_l`` is
    None where nobody measured; the outage then starts from the balance.
    """

    temperature_deg_c: float
    temperature_from: str
    do_mg_per_l: Estimate | None
    do_from: str
    ph: float | None
    tan_mg_per_l: float | None
    nitrate_n_mg_per_l: float | None


def water_now(state: UnitState) -> Water:
    """Return the water on the day of the state."""

    def fresh(name: str) -> float | None:
        latest = state.water.get(name)
        if latest is None or (state.on - latest.on).days > FRESH_DAYS:
            return None
        return latest.value

    def read_on(name: str) -> str:
        return f"read on {state.water[name].on}"

    temperature_deg_c, do = fresh("temperature_deg_c"), fresh("do_mg_per_l")
    return Water(
        temperature_deg_c=state.temperature.on(state.on)
        if temperature_deg_c is None
        else temperature_deg_c,
        temperature_from="expected"
        if temperature_deg_c is None
        else read_on("temperature_deg_c"),
        do_mg_per_l=None if do is None else Estimate.normal(do, METER_SD_MG_PER_L),
        do_from="worked out" if do is None else read_on("do_mg_per_l"),
        ph=fresh("ph"),
        tan_mg_per_l=fresh("tan_mg_per_l"),
        nitrate_n_mg_per_l=fresh("nitrate_n_mg_per_l"),
    )
