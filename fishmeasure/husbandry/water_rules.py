"""One rule for each quantity of the water: good, or why not."""

from collections.abc import Callable
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
from fishmeasure.husbandry.water_case import (
    ALL_STOPS,
    BUFFER,
    COOLER,
    EXCHANGE,
    LESS_GAS,
    MEASURE,
    MORE_AIR,
    NO_FEED,
    NO_HANDLING,
    PROFESSIONAL,
    WARMER,
    Bound,
    Case,
    Quantity,
    Reading,
    Reason,
    Stop,
    Verdict,
)

Rule = Callable[[Case], Reason | None]

_ALL_AT_ONCE: Final = (MORE_AIR, NO_FEED, NO_HANDLING, EXCHANGE, MEASURE, PROFESSIONAL)
_SPARE: Final[tuple[Stop, ...]] = ("handling", "adding")


def _act(bound: Bound | None, own: float | None, *, upper: bool) -> Bound | None:
    """Return the act limit; a unit's own one counts where it is the stricter."""
    if own is None:
        return bound
    mine = Bound(
        value=own,
        source=Message.of("own-limit"),
        whose=Message.of("fish", case="own"),
    )
    if bound is None:
        return mine
    return (min if upper else max)((mine, bound), key=lambda one: one.value)


def oxygen_low(case: Case) -> Reason | None:
    """Return why there is too little oxygen."""
    read = case.readings.do_mg_per_l
    if read is None:
        return None
    own = case.setting.own
    critical = _act(
        case.highest(lambda b: b.do_act_mg_per_l),
        own.critical_do_mg_per_l,
        upper=False,
    )
    caution = case.highest(lambda b: b.do_watch_mg_per_l)
    if own.min_do_mg_per_l is not None:
        caution = _act(None, own.min_do_mg_per_l, upper=False)
    for verdict, bound in (("act", critical), ("watch", caution)):
        if bound is None or read.value >= bound.value:
            continue
        danger = verdict == "act"
        return Reason(
            code="oxygen-low",
            about="oxygen",
            verdict="act" if danger else "watch",
            message=Message.of(
                "oxygen-low",
                case="act" if danger else "watch",
                read_mg_per_l=read.value,
                when=read.when,
                limit_mg_per_l=bound.value,
                whose=bound.whose,
            ),
            value=read.value,
            limit=bound.value,
            unit="mg/L",
            source=bound.source,
            do_now=_ALL_AT_ONCE if danger else (MORE_AIR, NO_HANDLING, MEASURE),
            stops=ALL_STOPS if danger else _SPARE,
        )
    return None


def oxygen_high(case: Case) -> Reason | None:
    """Return why there is too much gas in the water."""
    read, percent = case.readings.do_mg_per_l, saturation_percent(case)
    if read is None or percent is None:
        return None
    act = case.lowest(lambda b: b.saturation_act_percent)
    watch = case.lowest(lambda b: b.saturation_watch_percent)
    for verdict, bound in (("act", act), ("watch", watch)):
        if bound is None or percent <= bound.value:
            continue
        danger = verdict == "act"
        return Reason(
            code="oxygen-supersaturated",
            about="oxygen",
            verdict="act" if danger else "watch",
            message=Message.of(
                "oxygen-supersaturated",
                read_mg_per_l=read.value,
                when=read.when,
                saturation_percent=percent,
                limit_percent=bound.value,
            ),
            value=percent,
            limit=bound.value,
            unit="%",
            source=bound.source,
            do_now=(
                (LESS_GAS, NO_FEED, NO_HANDLING, MEASURE, PROFESSIONAL)
                if danger
                else (LESS_GAS, MEASURE)
            ),
            stops=ALL_STOPS if danger else (),
        )
    return None


def saturation_percent(case: Case) -> float | None:
    """Return oxygen over saturation; None where it cannot be told."""
    read, temperature_deg_c, place = (
        case.readings.do_mg_per_l,
        case.temperature_deg_c(),
        case.setting,
    )
    if read is None or temperature_deg_c is None:
        return None
    water = Water(
        temperature_deg_c=max(
            temperature_deg_c, 0.0
        ),  # water that is colder still is not fresh
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
    act_low, act_high, feed_low, feed_high = (
        case.highest(lambda b: b.act_low_deg_c),
        case.lowest(lambda b: b.act_high_deg_c),
        case.highest(lambda b: b.feeding_low_deg_c),
        case.lowest(lambda b: b.feeding_high_deg_c),
    )
    if act_high is not None and read.value >= act_high.value:
        return _temperature(read, act_high, "act", warm=True)
    if act_low is not None and read.value <= act_low.value:
        return _temperature(read, act_low, "act", warm=False)
    if feed_high is not None and read.value > feed_high.value:
        return _temperature(read, feed_high, "watch", warm=True)
    if feed_low is not None and read.value < feed_low.value:
        return _temperature(read, feed_low, "watch", warm=False)
    return None


def _temperature(
    read: Reading, bound: Bound, verdict: Verdict, *, warm: bool
) -> Reason:
    if warm:
        steps = (MORE_AIR, NO_FEED, NO_HANDLING, COOLER, MEASURE)
    else:
        steps = (NO_FEED, NO_HANDLING, *((WARMER,) if verdict == "act" else ()))
    return Reason(
        code="temperature-high" if warm else "temperature-low",
        about="temperature",
        verdict=verdict,
        message=Message.of(
            "temperature-high" if warm else "temperature-low",
            case="act" if verdict == "act" else "watch",
            water_deg_c=read.value,
            when=read.when,
            limit_deg_c=bound.value,
            whose=bound.whose,
        ),
        value=read.value,
        limit=bound.value,
        unit="°C",
        source=bound.source,
        do_now=(*steps, PROFESSIONAL) if verdict == "act" else steps,
        stops=ALL_STOPS,
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
    temperature_deg_c = min(max(temperature_deg_c, 0.0), 40.0)
    older = max(tan, ph, key=lambda read: read.age_days)
    base = Message.of(
        "ammonia-read",
        tan_mg_per_l=tan.value,
        ph=ph.value,
        water_deg_c=temperature_deg_c,
        when=older.when,
    )
    limit = case.lowest(lambda b: b.unionised_ammonia_n_act_mg_per_l)
    own = case.setting.own.max_unionised_ammonia_mg_per_l
    if own is not None:
        limit = _act(None, own, upper=True)
    within = min(max(ph.value, 4.0), 11.0)  # where the formulas hold
    unionised = tan.value * unionised_fraction(
        ph=within, temperature_deg_c=temperature_deg_c
    )
    keys = case.setting.species_keys
    acute = acute_tan_n_mg_per_l(
        ph=within,
        temperature_deg_c=temperature_deg_c,
        salmonids=not keys or any_salmonid(keys),
    )
    chronic = chronic_tan_n_mg_per_l(ph=within, temperature_deg_c=temperature_deg_c)
    if limit is not None and unionised > limit.value:
        return _ammonia(
            Message.of(
                "ammonia-high",
                case="unionised",
                base=base,
                unionised_mg_per_l=unionised,
                limit_mg_per_l=limit.value,
                whose=limit.whose,
            ),
            unionised,
            limit,
            "act",
        )
    if tan.value > acute:
        return _ammonia(
            Message.of("ammonia-high", case="acute", base=base, limit_mg_per_l=acute),
            tan.value,
            _criterion(acute),
            "act",
        )
    if tan.value > chronic:
        return _ammonia(
            Message.of(
                "ammonia-high", case="chronic", base=base, limit_mg_per_l=chronic
            ),
            tan.value,
            _criterion(chronic),
            "watch",
        )
    return None


def _criterion(value: float) -> Bound:
    return Bound(
        value=value, source=CRITERIA_NOTE, whose=Message.of("fish", case="food")
    )


def _ammonia(message: Message, value: float, bound: Bound, verdict: Verdict) -> Reason:
    danger = verdict == "act"
    return Reason(
        code="ammonia-high",
        about="ammonia",
        verdict=verdict,
        message=message,
        value=value,
        limit=bound.value,
        unit="mg/L as N",
        source=bound.source,
        do_now=_ALL_AT_ONCE if danger else (EXCHANGE, MEASURE),
        stops=ALL_STOPS if danger else ("adding",),
    )


def nitrite(case: Case) -> Reason | None:
    """Return why there is too much nitrite, at the chloride that was read."""
    read = case.readings.chloride_mg_per_l
    chloride = None if read is None else read.value
    return _above(
        "nitrite",
        case.readings.nitrite_n_mg_per_l,
        act=case.lowest(lambda b: at_chloride(b.nitrite_n_act_mg_per_l, chloride)),
        watch=case.lowest(lambda b: at_chloride(b.nitrite_n_watch_mg_per_l, chloride)),
        chloride=read,
    )


def nitrate(case: Case) -> Reason | None:
    """Return why there is too much nitrate; it is slow, so never more than watch."""
    own = case.setting.own.max_nitrate_n_mg_per_l
    watch = case.lowest(lambda b: b.nitrate_n_watch_mg_per_l)
    return _above(
        "nitrate",
        case.readings.nitrate_n_mg_per_l,
        act=None,
        watch=watch if own is None else _act(None, own, upper=True),
    )


def _above(
    about: Quantity,
    read: Reading | None,
    *,
    act: Bound | None,
    watch: Bound | None,
    chloride: Reading | None = None,
) -> Reason | None:
    if read is None:
        return None
    for verdict, bound in (("act", act), ("watch", watch)):
        if bound is None or read.value <= bound.value:
            continue
        danger = verdict == "act"
        return Reason(
            code="nitrite-high" if about == "nitrite" else "nitrate-high",
            about=about,
            verdict="act" if danger else "watch",
            message=_nitrogen_high(about, read, bound, chloride),
            value=read.value,
            limit=bound.value,
            unit="mg/L as N",
            source=bound.source,
            do_now=_ALL_AT_ONCE if danger else (EXCHANGE, MEASURE),
            stops=ALL_STOPS if danger else ("adding",),
        )
    return None


def _nitrogen_high(
    about: Quantity, read: Reading, bound: Bound, chloride: Reading | None
) -> Message:
    if about != "nitrite":
        return Message.of(
            "nitrate-high",
            read_mg_per_l=read.value,
            when=read.when,
            limit_mg_per_l=bound.value,
            whose=bound.whose,
        )
    return Message.of(
        "nitrite-high",
        case="guessed" if chloride is None else "read",
        read_mg_per_l=read.value,
        when=read.when,
        limit_mg_per_l=bound.value,
        whose=bound.whose,
        chloride_mg_per_l=None if chloride is None else chloride.value,
        chloride_when=None if chloride is None else chloride.when,
    )


# Below this the acid of nitrification outruns the buffer; see the note.
LOW_ALKALINITY_MG_PER_L: Final = 20.0
_ALKALINITY_NOTE: Final = Message.of("note-alkalinity")


def alkalinity(case: Case) -> Reason | None:
    """Return why a biofilter's water has too little buffer; elsewhere None."""
    read = case.readings.alkalinity_mg_per_l
    if read is None or not case.setting.loops:
        return None
    if read.value >= LOW_ALKALINITY_MG_PER_L:
        return None
    return Reason(
        code="alkalinity-low",
        about="alkalinity",
        verdict="watch",
        message=Message.of(
            "alkalinity-low",
            read_mg_per_l=read.value,
            when=read.when,
            limit_mg_per_l=LOW_ALKALINITY_MG_PER_L,
        ),
        value=read.value,
        limit=LOW_ALKALINITY_MG_PER_L,
        unit="mg/L as CaCO3",
        source=_ALKALINITY_NOTE,
        do_now=(BUFFER, MEASURE),
        stops=("adding",),
    )


def ph(case: Case) -> Reason | None:
    """Return why the water is too acid or too alkaline."""
    read = case.readings.ph
    if read is None:
        return None
    bounds: tuple[tuple[Verdict, Bound | None, bool], ...] = (
        ("act", case.highest(lambda b: b.ph_act_low), False),
        ("act", case.lowest(lambda b: b.ph_act_high), True),
        ("watch", case.highest(lambda b: b.ph_watch_low), False),
        ("watch", case.lowest(lambda b: b.ph_watch_high), True),
    )
    for verdict, bound, upper in bounds:
        if bound is None:
            continue
        if read.value <= bound.value if upper else read.value >= bound.value:
            continue
        danger = verdict == "act"
        return Reason(
            code="ph-high" if upper else "ph-low",
            about="ph",
            verdict=verdict,
            message=Message.of(
                "ph-high" if upper else "ph-low",
                case="act" if danger else "watch",
                ph=read.value,
                when=read.when,
                limit=bound.value,
                whose=bound.whose,
            ),
            value=read.value,
            limit=bound.value,
            unit="",
            source=bound.source,
            do_now=(
                (NO_FEED, NO_HANDLING, EXCHANGE, MEASURE, PROFESSIONAL)
                if danger
                else (MEASURE,)
            ),
            stops=ALL_STOPS if danger else (),
        )
    return None


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
