"""The outlook of a unit, with or without a sample that is not in the book yet."""

import datetime as dt
from dataclasses import asdict
from typing import Any
from uuid import UUID

from api import outlook_schemas as out
from api.estimates import SampleIn
from api.services import Services
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.words import Message
from fishmeasure.book.entries import Sample
from fishmeasure.book.entry_of_sample import sample_entry as ledger_entry
from fishmeasure.outlook import CohortOutlook
from fishmeasure.outlook.unit import UnitOutlook, unit_outlook
from fishmeasure.store.rows import newest

Json = dict[str, Any]
WEEK_DAYS = 7


def today() -> dt.date:
    """Return the day where the server stands, which is where the fish are."""
    return dt.date.today()  # noqa: DTZ011 - the grower's own day is wanted


def sample_entry(
    identity: UUID, sample: SampleIn, where: tuple[UUID, UUID], estimate: Json
) -> Sample:
    """Return the entry that a sample of a unit and a cohort makes.

    Raises
    ------
    BadEntryError
        If a figure is beyond what the book takes.
    """
    return ledger_entry(
        identity=identity,
        on=sample.date,
        unit_id=where[0],
        cohort_id=where[1],
        estimate=estimate,
        photos=tuple(photo for net in sample.nets for photo in net.photos),
    )


def outlook_with(services: Services, sample: Sample) -> UnitOutlook | None:
    """Return the outlook as if the sample were in the book; nothing is written.

    None where the book has no such unit or cohort.
    """
    content = services.book.content()
    units, cohorts = newest(content.units), newest(content.cohorts)
    if sample.unit_id not in {unit.id for unit in units}:
        return None
    if sample.cohort_id not in {cohort.id for cohort in cohorts}:
        return None
    entries = [entry for entry in content.entries if entry.id != sample.id]
    return unit_outlook(
        units,
        cohorts,
        [*entries, sample],
        unit_id=sample.unit_id,
        on=sample.on,
        about=dict(content.remarks).get("about", ""),
    )


# --- records to schemas ---------------------------------------------------------


def advice_of(found: UnitOutlook, cohort_id: UUID | None = None) -> out.AdviceOut:
    """Return the few figures that matter most; of one cohort where it is named."""
    oxygen = outage = None
    if found.limits is not None:
        by_name = {limit.name: limit for limit in found.limits.load.limits}
        if "oxygen" in by_name:
            oxygen = _figure(by_name["oxygen"].used_fraction, "%", times=100.0)
    if found.outages is not None:
        worst = found.outages.worst
        minutes = _figure(worst.to_critical.minutes, "minutes")
        outage = out.OutageFigureOut(
            **minutes.model_dump(),
            cause=worst.case.cause,
            name=str(worst.name),
            inflow_taken_as_pumped=found.outages.inflow_taken_as_pumped,
        )
    biomass = found.state.biomass_kg
    plates = [
        _plate(item, found.on)
        for item in found.cohorts
        if cohort_id is None or item.cohort.id == cohort_id
    ]
    return out.AdviceOut(
        on=found.on,
        now=out.NowOut.model_validate(found.now),
        feed=None if found.feeding is None else _figure(found.feeding.today_kg, "kg"),
        plate=next((plate for plate in plates if plate is not None), None),
        oxygen=oxygen,
        outage=outage,
        biomass=None if biomass is None else _figure(biomass, "kg"),
        problems=list(found.problems),
        cautions=list(found.cautions),
    )


def outlook_out(found: UnitOutlook) -> out.OutlookOut:
    """Return the whole outlook."""
    return out.OutlookOut(
        **dict(advice_of(found)),
        ration_kg=_estimate(found.ration_kg),
        room_kg=_estimate(found.room_kg),
        biomass_kg=_estimate(found.biomass_kg),
        fish_count=out.EstimateOut(**asdict(found.fish_count)),
        unit_id=found.unit.id,
        about=found.about,
        water=_water(found),
        cohorts=[_cohort(item, found.on) for item in found.cohorts],
        feeding=_feeding(found),
        limits=_limits(found),
        outages=[
            out.StopOut.model_validate(
                {
                    **_shallow(result),
                    "cause": result.case.cause,
                    "device": result.case.device,
                },
                from_attributes=True,
            )
            for result in (found.outages.results if found.outages else ())
        ],
        notes=list(found.notes),
    )


def _shallow(record: Any) -> Json:
    return {name: getattr(record, name) for name in record.__dataclass_fields__}


def _figure(estimate: Estimate, unit: str, times: float = 1.0) -> out.FigureOut:
    return out.FigureOut(
        value=estimate.value * times,
        sd=estimate.sd * times,
        low=estimate.low * times,
        high=estimate.high * times,
        level=estimate.level,
        unit=unit,
    )


def _estimate(estimate: Estimate | None) -> out.EstimateOut | None:
    return None if estimate is None else out.EstimateOut(**asdict(estimate))


def _water(found: UnitOutlook) -> dict[str, str | float | None]:
    water: dict[str, str | float | None] = {
        name: str(value) if isinstance(value, Message) else value
        for name, value in _shallow(found.water).items()
        if value is None or isinstance(value, Message | str | float | int)
    }
    do = found.water.do_mg_per_l
    return water | {"do_mg_per_l": None if do is None else do.value}


def _plate(item: CohortOutlook, on: dt.date) -> out.PlateOut | None:
    dates = item.plate_dates
    if dates is None:
        return None
    half = dates.half.day
    return out.PlateOut(
        cohort_id=item.cohort.id,
        size_g=dates.size_g,
        first_on=dates.first.day,
        half_on=half,
        nearly_all_on=dates.nearly_all.day,
        days_to_half=None if half is None else (half - on).days,
        half=out.DateOut.model_validate(dates.half),
    )


def _cohort(item: CohortOutlook, on: dt.date) -> out.CohortOutlookOut:
    return out.CohortOutlookOut.model_validate(
        {
            **_shallow(item),
            "cohort_id": item.cohort.id,
            "name": item.cohort.name,
            "quantiles_g": {str(rank): weight for rank, weight in item.quantiles_g},
            "plate": _plate(item, on),
            "course": _course(item),
        },
        from_attributes=True,
    )


def _course(item: CohortOutlook) -> list[out.WeightOnOut]:
    ahead = item.projection
    if ahead is None:
        return []
    days = (
        ahead.start + dt.timedelta(days=n) for n in range(0, ahead.days + 1, WEEK_DAYS)
    )
    return [
        out.WeightOnOut(
            on=day,
            mean_weight_g=out.EstimateOut(**asdict(ahead.mean_weight_g(day))),
        )
        for day in days
    ]


def _feeding(found: UnitOutlook) -> out.FeedingOut | None:
    if found.feeding is None:
        return None
    daily: dict[dt.date, float] = {}
    for planned in found.feeding.plans:
        for day in planned.days:
            daily[day.day] = daily.get(day.day, 0.0) + day.feed_kg.value
    answer = out.FeedingOut.model_validate(found.feeding)
    days = [out.FeedDayOut(on=day, feed_kg=kg) for day, kg in daily.items()]
    return answer.model_copy(update={"days": days})


def _limits(found: UnitOutlook) -> out.LimitsOut | None:
    if found.limits is None:
        return None
    limits, load, ahead = found.limits, found.limits.load, found.limits.ahead
    ammonia, nitrate, bed = limits.ammonia, limits.nitrate, limits.bed
    return out.LimitsOut.model_validate(
        {
            "density_kg_per_m3": load.density_kg_per_m3,
            "limits": load.limits,
            "room_kg": load.room_kg,
            "until": limits.until,
            "first_day_over": ahead.first_day_over,
            "fish_to_take_out": ahead.fish_to_take_out,
            "fingerlings": ahead.fingerlings,
            "fingerling_weight_g": limits.fingerling_weight_g,
            "fingerling_species_key": limits.fingerling_species_key,
            "unionised_ammonia_n_mg_per_l": _estimate(
                None if ammonia is None else ammonia.unionised_n_mg_per_l
            ),
            "nitrate_days_to_limit": nitrate and nitrate.days_to_limit,
            "bed_needed_m2": _estimate(None if bed is None else bed.bed_needed_m2),
        },
        from_attributes=True,
    )
