"""An outlook in sentences: one wording for screen and paper."""

from dataclasses import dataclass

from fishmeasure.base.words import Message, wording
from fishmeasure.husbandry.harvest import DateEstimate
from fishmeasure.husbandry.nitrogen import NitrateTrend
from fishmeasure.husbandry.outage_fall import HORIZON_MIN
from fishmeasure.husbandry.outage_words import measure_line, outage_lines
from fishmeasure.husbandry.water_case import fish_name
from fishmeasure.outlook import CohortOutlook, Feeding, HarvestDay, Limits, Outages
from fishmeasure.outlook.unit import UnitOutlook
from fishmeasure.render.now_words import waits


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One question and the lines of its answer."""

    title: str
    lines: tuple[str, ...]


def heading(outlook: UnitOutlook) -> str:
    """Return the title of the page."""
    return wording("outlook-heading", unit=outlook.unit.name, on=outlook.on)


def sections(outlook: UnitOutlook) -> tuple[Section, ...]:
    """Return the seven questions with their answers."""
    fish = outlook.cohorts
    named = len(fish) > 1
    wait = waits(outlook, "handling")
    answered = (
        ("weights", [_weights(item) for item in fish]),
        ("kilograms", _kilograms(outlook)),
        (
            "growth",
            [x for item in fish for x in _growth(item, named)] + _only(wait),
        ),
        (
            "feed",
            _feed(outlook.feeding, waits(outlook, "feeding")) + _last_fed(outlook),
        ),
        ("limits", _limits(outlook.limits, outlook)),
        ("outages", _outages(outlook.outages, outlook)),
        (
            "grading",
            [x for item in fish for x in _grading(item, named, wait)],
        ),
    )
    return tuple(
        Section(
            title=wording("outlook-section", case=part),
            lines=tuple(lines) or (wording("outlook-no-answer"),),
        )
        for part, lines in answered
    )


def _only(line: str | None) -> list[str]:
    return [] if line is None else [line]


# --- the fish ------------------------------------------------------------------


def _who(item: CohortOutlook, named: bool) -> str:  # noqa: FBT001
    return wording("of-cohort", cohort=item.cohort.name) + " " if named else ""


def _weights(item: CohortOutlook) -> str:
    mean = item.fish.mean_weight_g
    if mean is None:
        return wording("outlook-weight", case="unknown", cohort=item.cohort.name)
    low, _, high = (weight for _, weight in item.quantiles_g)
    return wording(
        "outlook-weight",
        case="usual" if item.cv_is_usual else "known",
        cohort=item.cohort.name,
        mean_g=mean,
        cv=item.cv,
        low_g=low,
        high_g=high,
        source=item.fish.weight_from.words,
    )


def _kilograms(outlook: UnitOutlook) -> list[str]:
    lines = []
    for item in outlook.cohorts:
        kg = item.fish.biomass_kg
        lines.append(
            wording(
                "outlook-biomass",
                case="unknown" if kg is None else "known",
                cohort=item.cohort.name,
                fish=item.fish.fish_count,
                biomass_kg=kg,
                source=item.fish.count_from.words,
            )
        )
    total = outlook.state.biomass_kg
    if total is not None and outlook.cohorts:
        density = total.high / outlook.unit.volume_m3
        lines.append(
            wording(
                "outlook-total",
                biomass_kg=total,
                density_kg_per_m3=density,
                volume_m3=outlook.unit.volume_m3,
            )
        )
    return lines


def _growth(item: CohortOutlook, named: bool) -> list[str]:  # noqa: FBT001
    if item.sgr_percent_per_day is None or item.plate_dates is None:
        return []
    dates = item.plate_dates
    growth = item.fish.growth
    lines = [
        _who(item, named)
        + wording(
            "outlook-growth",
            case="bare" if growth is None else "tgc",
            growth=item.sgr_percent_per_day,
            tgc=None if growth is None else growth.present_tgc_x1000,
        ),
        wording(
            "outlook-plate-size",
            size_g=dates.size_g,
            first=_when(dates.first),
            half=_when(dates.half),
            nearly_all=_when(dates.nearly_all),
        ),
    ]
    return lines + _harvests([found for found in item.harvests if found.harvest])


def _when(found: DateEstimate) -> Message:
    if found.day is None:
        return Message.of("reached-on", case="later")
    if found.earliest == found.latest:
        return Message.of("reached-on", case="now", day=found.day)
    return Message.of(
        "reached-on",
        case="open" if found.latest is None else "span",
        day=found.day,
        earliest=found.earliest,
        latest=found.latest,
    )


def _harvests(found: list[HarvestDay]) -> list[str]:
    """Return the harvests that are to choose between, and that they are."""
    if not found:
        return []
    first, *others = (_harvest(day) for day in found)
    if not others:
        return [wording("outlook-harvests", case="one", harvest=first)]
    *between, last = others
    return [
        wording("outlook-harvests", case="choice", harvest=""),
        wording("outlook-choice", case="first", harvest=first),
        *(wording("outlook-choice", case="next", harvest=one) for one in between),
        wording("outlook-choice", case="last", harvest=last),
    ]


def _harvest(found: HarvestDay) -> Message:
    ready, harvest = found.ready_count, found.harvest
    assert harvest is not None  # noqa: S101 - the caller asks
    return Message.of(
        "outlook-harvest",
        day=found.day,
        ready_low=ready.low,
        ready_high=ready.high,
        ready=ready.value,
        taken=harvest.taken_count,
        taken_kg=harvest.taken_kg,
        left=harvest.left_count.value,
        left_kg=harvest.left_kg,
    )


def _grading(
    item: CohortOutlook,
    named: bool,  # noqa: FBT001
    wait: str | None,
) -> list[str]:
    if item.grading is None:
        return []
    grading, condition = item.grading, item.condition
    advised = wording("outlook-grade", case="yes" if grading.advised else "no")
    lines = [
        _who(item, named)
        + wording(
            "outlook-grading",
            small_g=grading.small_g,
            small_mm=grading.small_mm,
            large_g=grading.large_g,
            large_mm=grading.large_mm,
            advice=advised if wait is None else wait,
        )
    ]
    if condition is None:
        return [*lines, wording("outlook-condition", case="unknown")]
    return [
        *lines,
        wording(
            "outlook-condition",
            case=condition.verdict,
            factor=condition.condition_factor,
            published=condition.published_condition_factor,
        ),
    ]


# --- the water -----------------------------------------------------------------


def _feed(feeding: Feeding | None, wait: str | None) -> list[str]:
    if feeding is None:
        return _only(wait)
    lines = [
        wording(
            "outlook-feed",
            case="ration" if wait is None else "wait",
            wait=wait,
            today_kg=feeding.today_kg,
            week_kg=feeding.week_kg,
            given_kg=feeding.given_week_kg,
        )
    ]
    if feeding.conversion is not None:
        found = feeding.conversion
        lines.append(
            wording(
                "outlook-conversion",
                since=feeding.since,
                biological=found.biological,
                economic=found.economic,
                given_kg=feeding.given_since_kg,
                gain_kg=found.gain_kg,
            )
        )
    return lines


def _last_fed(outlook: UnitOutlook) -> list[str]:
    """Return what the feed of each cohort's last period became."""
    last = [
        (item.fish.cohort.name, item.fish.fed[-1])
        for item in outlook.cohorts
        if item.fish.fed
    ]
    return [
        wording(
            "outlook-period-conversion",
            cohort=cohort,
            since=period.since,
            until=period.until,
            feed_kg=period.feed_kg,
            gain_kg=period.gain_kg,
            conversion=period.conversion,
        )
        for cohort, period in last
        if period.conversion is not None
    ]


def _limits(limits: Limits | None, outlook: UnitOutlook) -> list[str]:
    wait = waits(outlook, "adding")
    if limits is None:
        return _only(wait)
    load, ahead = limits.load, limits.ahead
    used = tuple(
        Message.of("outlook-used", limit=_limit(limit.name), share=limit.used_fraction)
        for limit in load.limits
    )
    if wait is not None:
        case = "wait"
    elif not limits.room_known and load.room_kg >= 0.0:
        case = "unknown"
    else:
        case = "room" if load.room_kg > 0.0 else "too-much"
    room = Message.of("outlook-room", case=case, room_kg=abs(load.room_kg))
    lines = [
        wording("outlook-all-used", used=used),
        wording("outlook-first", limit=_limit(load.limiting.name), room=room),
    ]
    lines += _only(wait)
    if ahead.fish_to_take_out > 0 and "handling" in outlook.now.stops:
        lines.append(
            wording(
                "outlook-too-many",
                case="wait",
                fish=ahead.fish_to_take_out,
                until=limits.until,
            )
        )
    elif ahead.fish_to_take_out > 0:
        lines.append(_too_many(limits))
    elif wait is None and limits.room_known:
        lines.append(
            wording(
                "outlook-fingerlings",
                case="read-first" if outlook.now.verdict == "unknown" else "now",
                until=limits.until,
                fish=ahead.fingerlings,
                species=fish_name(limits.fingerling_species_key),
                each_g=limits.fingerling_weight_g,
                in_all_kg=ahead.fingerlings_kg,
            )
        )
    lines += _nitrogen(limits)
    return lines


def _too_many(limits: Limits) -> str:
    """Return how many fish are too many; surely so where the likely figures say it."""
    ahead = limits.ahead
    limit = next(d.limiting for d in ahead.days if d.used_fraction.high > 1.0)
    sure = any(d.used_fraction.value > 1.0 for d in ahead.days)
    return wording(
        "outlook-too-many",
        case="sure" if sure else "unsafe-end",
        fish=ahead.fish_to_take_out,
        until=limits.until,
        first_on=ahead.first_day_over,
        limit=_limit(limit),
    )


def _limit(name: str) -> Message:
    """Return a limit's name, as within a sentence."""
    return Message.of("limit-within", case=name.replace(" ", "-"))


def _nitrogen(limits: Limits) -> list[str]:
    parts = []
    if limits.ammonia is not None:
        parts.append(
            Message.of(
                "outlook-ammonia",
                case="read",
                unionised_mg_per_l=limits.ammonia.unionised_n_mg_per_l,
                limit_mg_per_l=limits.ammonia.limit_n_mg_per_l,
            )
        )
    else:
        parts.append(Message.of("outlook-ammonia", case="unread"))
    if limits.nitrate is not None:
        when = limits.nitrate.days_to_limit
        parts.append(
            Message.of(
                "outlook-nitrate",
                case="not-reached" if when is None else "reached",
                course=_nitrate_course(limits.nitrate),
                limit_mg_per_l=limits.nitrate.limit_n_mg_per_l,
                days=when,
            )
        )
    if limits.bed is not None:
        crop = Message.of("crop-bed", case=limits.bed.crop)
        parts.append(
            Message.of("outlook-bed", area_m2=limits.bed.bed_needed_m2, bed=crop)
        )
    return [wording("do-now", steps=tuple(parts))]


def _nitrate_course(trend: NitrateTrend) -> Message:
    now, then = (float(trend.nitrate_n_mg_per_l[at]) for at in (0, -1))
    high = float(trend.high_mg_per_l[-1])
    case = "falling" if high <= now else "likely-falling" if then <= now else "rising"
    return Message.of(
        "nitrate-course",
        case=case,
        begun_mg_per_l=now,
        likely_mg_per_l=then,
        most_mg_per_l=high,
    )


def _outages(outages: Outages | None, outlook: UnitOutlook) -> list[str]:
    if outages is None:
        return []
    worst = outages.worst
    start = worst.case.start_do_mg_per_l
    lines = [
        wording(
            "outlook-outage-begins",
            start_mg_per_l=start.value,
            start_from=outages.start_from,
            water_deg_c=outlook.water.temperature_deg_c,
            water_from=outlook.water.temperature_from,
        )
    ]
    if outages.inflow_taken_as_pumped:
        lines.append(wording("outlook-taken-as-pumped"))
    lines += outage_lines(outages.results)
    if worst.to_critical.minutes.low < HORIZON_MIN:
        air_g_per_h = worst.holding_air_standard_transfer_g_per_h.high
        bought = tuple(measure_line(measure) for measure in worst.measures)
        lines.append(wording("outlook-bought", name=worst.name, bought=bought))
        lines.append(
            wording(
                "outlook-hold",
                hours=outages.hours,
                fish_kg=outages.hours_biomass_kg.low,
                air_g_per_h=air_g_per_h,
                water_l_per_min=worst.holding_water_l_per_min.high,
            )
        )
    return lines
