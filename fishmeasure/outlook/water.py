"""The water of the day."""

from dataclasses import dataclass
from typing import Final

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.words import Message
from fishmeasure.book.state import UnitState
from fishmeasure.husbandry.water_case import KEEPS

METER_SD_MG_PER_L: Final = 0.3  # of a DO meter; common practice, no source

WORKED_OUT: Final = Message.of("figure-from", case="worked-out")


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """The water of the day: readings that still count, else what is to be expected.

    How long a reading counts is what ``KEEPS`` says, as for the judgement of the water.
    ``fresh`` names those that are young enough to call water good by; the others may
    warn, but add no room. ``temperature_from`` and ``do_from`` say where these come
    from; ``do_mg_per_l`` is None where nobody measured.
    """

    temperature_deg_c: float
    temperature_from: Message
    do_mg_per_l: Estimate | None
    do_from: Message
    ph: float | None
    tan_mg_per_l: float | None
    nitrate_n_mg_per_l: float | None
    fresh: tuple[str, ...] = ()


def water_now(state: UnitState) -> Water:
    """Return the water on the day of the state."""
    ages = {name: (state.on - read.on).days for name, read in state.water.items()}

    def counting(name: str) -> float | None:
        counts = name in ages and ages[name] <= KEEPS[name].counts_days
        return state.water[name].value if counts else None

    def read_on(name: str) -> Message:
        return Message.of("figure-from", case="read-on", on=state.water[name].on)

    temperature_deg_c, do = counting("temperature_deg_c"), counting("do_mg_per_l")
    return Water(
        temperature_deg_c=state.temperature.on(state.on)
        if temperature_deg_c is None
        else temperature_deg_c,
        temperature_from=Message.of("figure-from", case="expected")
        if temperature_deg_c is None
        else read_on("temperature_deg_c"),
        do_mg_per_l=None if do is None else Estimate.normal(do, METER_SD_MG_PER_L),
        do_from=WORKED_OUT if do is None else read_on("do_mg_per_l"),
        ph=counting("ph"),
        tan_mg_per_l=counting("tan_mg_per_l"),
        nitrate_n_mg_per_l=counting("nitrate_n_mg_per_l"),
        fresh=tuple(name for name, age in ages.items() if age <= KEEPS[name].good_days),
    )
