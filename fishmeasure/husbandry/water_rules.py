"""One rule for each quantity of the water: good, or why not."""

from collections.abc import Callable
from operator import ge, gt, le, lt
from typing import Final

from fishmeasure.base.errors import StockRangeError
from fishmeasure.base.words import Message
from fishmeasure.husbandry.ammonia_criteria import (
    CRITERIA_NOTE,
    acute_tan_n_mg_per_l,
    any_salmonid,
    chronic_tan_n_mg_per_l,
)
from fishmeasure.husbandry.nitrite import at_chloride
from fishmeasure.husbandry.nitrogen import unionised_fraction
from fishmeasure.husbandry.saturation import Water, oxygen_saturation_mg_per_l
from fishmeasure.husbandry.water_answers import passed_limit, reason_of, strictest
from fishmeasure.husbandry.water_case import Case, Reason

Rule = Callable[[Case], Reason | None]


def oxygen_low(case: Case) -> Reason | None:
    """Return why there is too little oxygen."""
    read = case.readings.do_mg_per_l
    if read is None:
        return None
    own = case.setting.own
    critical = case.highest(lambda b: b.do_act_mg_per_l)
    critical = strictest(critical, own.critical_do_mg_per_l, upper=False)
    caution = case.highest(lambda b: b.do_watch_mg_per_l)
    if own.min_do_mg_per_l is not None:
        caution = strictest(None, own.min_do_mg_per_l, upper=False)
    passed = passed_limit(read.value, ("act", critical, lt), ("watch", caution, lt))
    if passed is None:
        return None
    return passed.reason(
        Message.of(
            "oxygen-low",
            case="act" if passed.acts else "watch",
            read_mg_per_l=read.value,
            when=read.when,
            limit_mg_per_l=passed.bound.value,
            whose=passed.bound.whose,
        )
    )


def oxygen_high(case: Case) -> Reason | None:
    """Return why there is too much gas in the water."""
    read, percent = case.readings.do_mg_per_l, saturation_percent(case)
    if read is None or percent is None:
        return None
    passed = passed_limit(
        percent,
        ("act", case.lowest(lambda b: b.saturation_act_percent), gt),
        ("watch", case.lowest(lambda b: b.saturation_watch_percent), gt),
    )
    if passed is None:
        return None
    return passed.reason(
        Message.of(
            "oxygen-supersaturated",
            read_mg_per_l=read.value,
            when=read.when,
            saturation_percent=percent,
            limit_percent=passed.bound.value,
        )
    )


def saturation_percent(case: Case) -> float | None:
    """Return oxygen over saturation; None where it cannot be told."""
    read, temperature_deg_c = case.readings.do_mg_per_l, case.temperature_deg_c()
    if read is None or temperature_deg_c is None:
        return None
    place = case.setting
    water = Water(
        # Water that is colder still is not fresh.
        temperature_deg_c=max(temperature_deg_c, 0.0),
        salinity_g_per_kg=place.salinity_g_per_kg,
        altitude_m=place.altitude_m,
        pressure_hpa=place.pressure_hpa,
    )
    try:
        return 100.0 * read.value / oxygen_saturation_mg_per_l(water)
    except StockRangeError:
        return None


def temperature(case: Case) -> Reason | None:
    """Return why the water is too cold or too warm."""
    read = case.readings.temperature_deg_c
    if read is None:
        return None
    passed = passed_limit(
        read.value,
        ("act", case.lowest(lambda b: b.act_high_deg_c), ge),
        ("act", case.highest(lambda b: b.act_low_deg_c), le),
        ("watch", case.lowest(lambda b: b.feeding_high_deg_c), gt),
        ("watch", case.highest(lambda b: b.feeding_low_deg_c), lt),
    )
    if passed is None:
        return None
    return passed.reason(
        Message.of(
            "temperature-high" if passed.upper else "temperature-low",
            case="act" if passed.acts else "watch",
            water_deg_c=read.value,
            when=read.when,
            limit_deg_c=passed.bound.value,
            whose=passed.bound.whose,
        )
    )


def ammonia(case: Case) -> Reason | None:
    """Return why there is too much ammonia: the worst of three measures.

    The species' own limit of un-ionised ammonia and the acute criterion mean act, the
    chronic criterion watch. A unit's own limit stands for the species'.
    """
    tan, ph, temperature_deg_c = (
        case.readings.tan_mg_per_l,
        case.readings.ph,
        case.temperature_deg_c(),
    )
    if tan is None or ph is None or temperature_deg_c is None:
        return None
    water_deg_c = min(max(temperature_deg_c, 0.0), 40.0)
    within = min(max(ph.value, 4.0), 11.0)  # where the formulas hold
    base = Message.of(
        "ammonia-read",
        tan_mg_per_l=tan.value,
        ph=ph.value,
        water_deg_c=water_deg_c,
        when=max(tan, ph, key=lambda read: read.age_days).when,
    )
    fraction = unionised_fraction(ph=within, temperature_deg_c=water_deg_c)
    return _unionised(case, tan.value * fraction, base) or _by_criteria(
        case, tan.value, within, water_deg_c, base
    )


def _unionised(case: Case, unionised: float, base: Message) -> Reason | None:
    limit = case.lowest(lambda b: b.unionised_ammonia_n_act_mg_per_l)
    own = case.setting.own.max_unionised_ammonia_mg_per_l
    if own is not None:
        limit = strictest(None, own, upper=True)
    passed = passed_limit(unionised, ("act", limit, gt))
    if passed is None:
        return None
    return passed.reason(
        Message.of(
            "ammonia-high",
            case="unionised",
            base=base,
            unionised_mg_per_l=unionised,
            limit_mg_per_l=passed.bound.value,
            whose=passed.bound.whose,
        )
    )


def _by_criteria(
    case: Case, tan: float, ph: float, temperature_deg_c: float, base: Message
) -> Reason | None:
    keys = case.setting.species_keys
    acute = acute_tan_n_mg_per_l(
        ph=ph,
        temperature_deg_c=temperature_deg_c,
        salmonids=not keys or any_salmonid(keys),
    )
    chronic = chronic_tan_n_mg_per_l(ph=ph, temperature_deg_c=temperature_deg_c)
    if tan <= min(acute, chronic):
        return None
    acts = tan > acute
    limit = acute if acts else chronic
    message = Message.of(
        "ammonia-high",
        case="acute" if acts else "chronic",
        base=base,
        limit_mg_per_l=limit,
    )
    return reason_of(message, "act" if acts else "watch", tan, limit, CRITERIA_NOTE)


def nitrite(case: Case) -> Reason | None:
    """Return why there is too much nitrite, at the chloride that was read."""
    read, chloride = case.readings.nitrite_n_mg_per_l, case.readings.chloride_mg_per_l
    if read is None:
        return None
    level = None if chloride is None else chloride.value
    passed = passed_limit(
        read.value,
        (
            "act",
            case.lowest(lambda b: at_chloride(b.nitrite_n_act_mg_per_l, level)),
            gt,
        ),
        (
            "watch",
            case.lowest(lambda b: at_chloride(b.nitrite_n_watch_mg_per_l, level)),
            gt,
        ),
    )
    if passed is None:
        return None
    return passed.reason(
        Message.of(
            "nitrite-high",
            case="guessed" if chloride is None else "read",
            read_mg_per_l=read.value,
            when=read.when,
            limit_mg_per_l=passed.bound.value,
            whose=passed.bound.whose,
            chloride_mg_per_l=level,
            chloride_when=None if chloride is None else chloride.when,
        )
    )


def nitrate(case: Case) -> Reason | None:
    """Return why there is too much nitrate."""
    read = case.readings.nitrate_n_mg_per_l
    if read is None:
        return None
    own = case.setting.own.max_nitrate_n_mg_per_l
    limit = case.lowest(lambda b: b.nitrate_n_watch_mg_per_l)
    if own is not None:
        limit = strictest(None, own, upper=True)
    passed = passed_limit(read.value, ("watch", limit, gt))
    if passed is None:
        return None
    return passed.reason(
        Message.of(
            "nitrate-high",
            read_mg_per_l=read.value,
            when=read.when,
            limit_mg_per_l=passed.bound.value,
            whose=passed.bound.whose,
        )
    )


# Below this the acid of nitrification outruns the buffer; see the note.
LOW_ALKALINITY_MG_PER_L: Final = 20.0
_ALKALINITY_NOTE: Final = Message.of("note-alkalinity")


def alkalinity(case: Case) -> Reason | None:
    """Return why a biofilter's water has too little buffer; elsewhere None."""
    read, low = case.readings.alkalinity_mg_per_l, LOW_ALKALINITY_MG_PER_L
    if read is None or not case.setting.loops or read.value >= low:
        return None
    message = Message.of(
        "alkalinity-low",
        read_mg_per_l=read.value,
        when=read.when,
        limit_mg_per_l=low,
    )
    return reason_of(message, "watch", read.value, low, _ALKALINITY_NOTE)


def ph(case: Case) -> Reason | None:
    """Return why the water is too acid or too alkaline."""
    read = case.readings.ph
    if read is None:
        return None
    passed = passed_limit(
        read.value,
        ("act", case.highest(lambda b: b.ph_act_low), lt),
        ("act", case.lowest(lambda b: b.ph_act_high), gt),
        ("watch", case.highest(lambda b: b.ph_watch_low), lt),
        ("watch", case.lowest(lambda b: b.ph_watch_high), gt),
    )
    if passed is None:
        return None
    return passed.reason(
        Message.of(
            "ph-high" if passed.upper else "ph-low",
            case="act" if passed.acts else "watch",
            ph=read.value,
            when=read.when,
            limit=passed.bound.value,
            whose=passed.bound.whose,
        )
    )


RULES: Final[tuple[Rule, ...]] = (
    oxygen_low,
    oxygen_high,
    temperature,
    ammonia,
    nitrite,
    ph,
    alkalinity,
    nitrate,
)
"""Of water that is as bad by several, the first is said first."""
