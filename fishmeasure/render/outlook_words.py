"""An outlook in sentences: one wording for screen and paper."""

from dataclasses import dataclass

from fishmeasure.base.words import cautious, number, share_used, span
from fishmeasure.husbandry.harvest import DateEstimate
from fishmeasure.husbandry.nitrogen import NitrateTrend
from fishmeasure.husbandry.outage_fall import HORIZON_MIN
from fishmeasure.husbandry.outage_words import measure_line, outage_lines
from fishmeasure.husbandry.water_case import fish_name
from fishmeasure.outlook import CohortOutlook, Feeding, HarvestDay, Limits, Outages
from fishmeasure.outlook.unit import UnitOutlook
from fishmeasure.render.now_words import waits

NO_ANSWER = "No answer yet; see the warnings."


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One question and the lines of its answer."""

    title: str
    lines: tuple[str, ...]


def heading(outlook: UnitOutlook) -> str:
    """Return the title of the page."""
    return f"{outlook.unit.name}: outlook on {outlook.on}"


def sections(outlook: UnitOutlook) -> tuple[Section, ...]:
    """Return the seven questions with their answers."""
    fish = outlook.cohorts
    named = len(fish) > 1
    wait = waits(outlook, "handling")
    answered = (
        ("1  How heavy, how far apart", [_weights(item) for item in fish]),
        ("2  How many kilograms", _kilograms(outlook)),
        (
            "3  Growth and harvest",
            [x for item in fish for x in _growth(item, named)] + _only(wait),
        ),
        ("4  Feed", _feed(outlook.feeding, waits(outlook, "feeding"))),
        ("5  Limits and room", _limits(outlook.limits, outlook)),
        ("6  If something stops tonight", _outages(outlook.outages, outlook)),
        (
            "7  Grading and condition",
            [x for item in fish for x in _grading(item, named, wait)],
        ),
    )
    return tuple(
        Section(title=title, lines=tuple(lines) or (NO_ANSWER,))
        for title, lines in answered
    )


def _only(line: str | None) -> list[str]:
    return [] if line is None else [line]


# --- the fish ------------------------------------------------------------------


def _who(item: CohortOutlook, named: bool) -> str:  # noqa: FBT001
    return f"{item.cohort.name}: " if named else ""


def _weights(item: CohortOutlook) -> str:
    mean = item.fish.mean_weight_g
    if mean is None:
        return f"{item.cohort.name}: weight not known. Take a net sample."
    low, _, high = (weight for _, weight in item.quantiles_g)
    usual = ", usual figure" if item.cv_is_usual else ""
    return (
        f"{item.cohort.name}: mean {span(mean)} g; CV {span(item.cv, 2)}{usual}: "
        f"nine in ten between {number(low)} and {number(high)} g. "
        f"{_sentence(item.fish.weight_from.words)}"
    )


def _kilograms(outlook: UnitOutlook) -> list[str]:
    lines = []
    for item in outlook.cohorts:
        kg = item.fish.biomass_kg
        weight = "weight not known" if kg is None else f"{span(kg)} kg"
        lines.append(
            f"{item.cohort.name}: {_count(item)} fish, {weight}. "
            f"{_sentence(item.fish.count_from.words)}"
        )
    total = outlook.state.biomass_kg
    if total is not None and outlook.cohorts:
        density = total.high / outlook.unit.volume_m3
        lines.append(
            f"In all {span(total)} kg; at most {number(density)} kg/m³ in "
            f"{number(outlook.unit.volume_m3)} m³."
        )
    return lines


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."


def _count(item: CohortOutlook) -> str:
    count = item.fish.fish_count
    return f"{count.value:.0f} ({count.low:.0f} to {count.high:.0f})"


def _growth(item: CohortOutlook, named: bool) -> list[str]:  # noqa: FBT001
    if item.sgr_percent_per_day is None or item.plate_dates is None:
        return []
    dates = item.plate_dates
    growth = item.fish.growth
    tgc = "" if growth is None else f" (TGC {span(growth.tgc_x1000)})"
    lines = [
        (
            f"{_who(item, named)}{span(item.sgr_percent_per_day, 2)} % a day over the "
            f"next 30 days{tgc}."
        ),
        (
            f"At plate size, {number(dates.size_g)} g: the first {_when(dates.first)}; "
            f"half {_when(dates.half)}; nearly all {_when(dates.nearly_all)}."
        ),
    ]
    return lines + _harvests([found for found in item.harvests if found.harvest])


def _when(found: DateEstimate) -> str:
    if found.day is None:
        return "later than a year from now"
    latest = "later than a year" if found.latest is None else str(found.latest)
    if found.earliest == found.latest:
        return f"now ({found.day})"
    return f"{found.day} ({found.earliest} to {latest})"


def _harvests(found: list[HarvestDay]) -> list[str]:
    """Return the harvests that are to choose between, and that they are."""
    if not found:
        return []
    taken = (
        "taken are the largest, as many as are at plate size at the low end of what is "
        "known"
    )
    if len(found) == 1:
        return [f"If fish are harvested, {taken}: {_harvest(found[0])}."]
    return [
        f"To choose between, no schedule: each line is the only harvest; {taken}.",
        *(
            f"{'or' if n else 'Either'} {_harvest(day)}{_ending(n, found)}"
            for n, day in enumerate(found)
        ),
    ]


def _ending(n: int, found: list[HarvestDay]) -> str:
    return "." if n == len(found) - 1 else ","


def _harvest(found: HarvestDay) -> str:
    ready, harvest = found.ready_count, found.harvest
    assert harvest is not None  # noqa: S101 - the caller asks
    return (
        f"on {found.day}: {ready.low:.0f} to {ready.high:.0f} fish at plate size "
        f"(likely {ready.value:.0f}); the {harvest.taken_count} largest are "
        f"{span(harvest.taken_kg)} kg and leave {harvest.left_count.value:.0f} fish, "
        f"{span(harvest.left_kg)} kg"
    )


def _grading(
    item: CohortOutlook,
    named: bool,  # noqa: FBT001
    wait: str | None,
) -> list[str]:
    if item.grading is None:
        return []
    grading, condition = item.grading, item.condition
    lines = [
        f"{_who(item, named)}The smallest tenth is under {number(grading.small_g)} g "
        f"(about {grading.small_mm:.0f} mm fork length), the largest tenth over "
        f"{number(grading.large_g)} g ({grading.large_mm:.0f} mm). "
        + (
            wait
            if wait is not None
            else "They spread as unsorted fish do: grading is worth while."
            if grading.advised
            else "They are close together: grading can wait."
        )
    ]
    if condition is not None:
        verdict = {
            "low": "low. Look at feed, disease and crowding",
            "normal": "normal",
            "high": "high. A lower ration may do",
        }[condition.verdict]
        lines.append(
            f"Condition factor {span(condition.condition_factor)}, published "
            f"{condition.published_condition_factor:.2f} at this length: {verdict}."
        )
    else:
        lines.append("Condition factor: no sample gave one.")
    return lines


# --- the water -----------------------------------------------------------------


def _feed(feeding: Feeding | None, wait: str | None) -> list[str]:
    if feeding is None:
        return _only(wait)
    lines = [
        f"{wait} Given in the last seven days {number(feeding.given_week_kg, 2)} kg."
        if wait is not None
        else (
            f"Today {span(feeding.today_kg, 2)} kg, the week ahead "
            f"{span(feeding.week_kg, 2)} kg; given in the last seven days "
            f"{number(feeding.given_week_kg, 2)} kg."
        )
    ]
    if feeding.conversion is not None:
        found = feeding.conversion
        lines.append(
            f"Feed conversion since {feeding.since}: {span(found.biological)} "
            f"biological, {span(found.economic)} economic "
            f"({number(feeding.given_since_kg)} kg fed, {span(found.gain_kg)} kg "
            "gained)."
        )
    return lines


def _limits(limits: Limits | None, outlook: UnitOutlook) -> list[str]:
    wait = waits(outlook, "adding")
    if limits is None:
        return _only(wait)
    load, ahead = limits.load, limits.ahead
    used = "; ".join(
        f"{limit.name} {share_used(limit.used_fraction)}" for limit in load.limits
    )
    room = (
        f"room for {number(load.room_kg, 2)} kg more"
        if load.room_kg > 0.0
        else f"{number(-load.room_kg, 2)} kg too much at the unsafe end"
    )
    if not limits.room_known and load.room_kg >= 0.0:
        room = "what room there is for more is not known"
    if wait is not None:
        room = "no room while the water is as it is"
    lines = [f"Used: {used}.", f"First reached: {load.limiting.name}; {room}."]
    lines += _only(wait)
    if ahead.fish_to_take_out > 0 and "handling" in outlook.now.stops:
        lines.append(
            f"By these limits {ahead.fish_to_take_out} fish are too many until "
            f"{limits.until}; take none out before the water is better."
        )
    elif ahead.fish_to_take_out > 0:
        lines.append(_too_many(limits))
    elif wait is None and limits.room_known:
        first = (
            "; add none before temperature and oxygen were read"
            if outlook.now.verdict == "unknown"
            else ""
        )
        lines.append(
            f"Until {limits.until}, {ahead.fingerlings} fingerlings of "
            f"{fish_name(limits.fingerling_species_key)} of "
            f"{number(limits.fingerling_weight_g)} g may be added "
            f"({number(ahead.fingerlings_kg, 2)} kg){first}."
        )
    lines += _nitrogen(limits)
    return lines


def _too_many(limits: Limits) -> str:
    """Return how many fish are too many; surely so where the likely figures say it."""
    ahead = limits.ahead
    limit = next(d.limiting for d in ahead.days if d.used_fraction.high > 1.0)
    if any(d.used_fraction.value > 1.0 for d in ahead.days):
        return (
            f"By {limits.until}, {ahead.fish_to_take_out} fish must have gone, the "
            f"first by {ahead.first_day_over} ({limit}, at the unsafe end)."
        )
    return (
        f"From {ahead.first_day_over} on the limit of {limit} may be passed, at the "
        f"unsafe end: up to {ahead.fish_to_take_out} fish would have to go by "
        f"{limits.until}. Take a net sample before that, to know it better."
    )


def _nitrogen(limits: Limits) -> list[str]:
    parts = []
    if limits.ammonia is not None:
        parts.append(
            "un-ionised ammonia up to "
            f"{cautious(limits.ammonia.unionised_n_mg_per_l, 'high', 2)} mg/L as N, "
            f"limit {limits.ammonia.limit_n_mg_per_l:g} mg/L"
        )
    else:
        parts.append("ammonia not read this week (TAN and pH)")
    if limits.nitrate is not None:
        when = limits.nitrate.days_to_limit
        trend = limits.nitrate
        reach = "not reached" if when is None else f"may be reached in {when} days"
        parts.append(
            f"nitrate {_nitrate_course(trend)} mg/L as N in 60 days, "
            f"limit of {trend.limit_n_mg_per_l:g} mg/L {reach}"
        )
    if limits.bed is not None:
        parts.append(
            f"the feed carries {span(limits.bed.bed_needed_m2, 2)} m² of "
            f"{limits.bed.crop} bed"
        )
    text = "; ".join(parts)
    return [text[0].upper() + text[1:] + "."]


def _nitrate_course(trend: NitrateTrend) -> str:
    now, then = (float(trend.nitrate_n_mg_per_l[at]) for at in (0, -1))
    high = float(trend.high_mg_per_l[-1])
    begun, likely, most = (number(value, 2) for value in (now, then, high))
    if high <= now:
        return f"{begun}, falling to {most} at most (likely {likely})"
    if then <= now:
        return f"{begun}, likely falling to {likely} (at most {most})"
    return f"{begun}, rising to {most} at most (likely {likely})"


def _outages(outages: Outages | None, outlook: UnitOutlook) -> list[str]:
    if outages is None:
        return []
    worst = outages.worst
    start = worst.case.start_do_mg_per_l
    lines = [
        (
            f"Begins at {number(start.value, 2)} mg/L ({outages.start_from}) and "
            f"{number(outlook.water.temperature_deg_c, 2)} °C "
            f"({outlook.water.temperature_from})."
        )
    ]
    if outages.inflow_taken_as_pumped:
        lines.append(
            "New water is taken as pumped, so none comes in a power cut. If it flows "
            "in by itself, say so of the unit."
        )
    lines += outage_lines(outages.results)
    if worst.to_critical.minutes.low < HORIZON_MIN:
        air_g_per_h = worst.holding_air_standard_transfer_g_per_h.high
        bought = "; ".join(measure_line(measure) for measure in worst.measures)
        lines.append(f"{worst.name}: what buys time at least: {bought}.")
        lines.append(
            f"To last {outages.hours:g} hours there could be no more than "
            f"{number(outages.hours_biomass_kg.low)} kg of fish; to hold the caution "
            f"level it takes {number(air_g_per_h, 2)} g/h of backup air (standard "
            f"rate) or "
            f"{number(worst.holding_water_l_per_min.high, 2)} L/min of fresh water."
        )
    return lines
