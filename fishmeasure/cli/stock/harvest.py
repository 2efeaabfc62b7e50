"""Harvests of the largest fish: what they yield and leave, on a day or every week."""

import re
from datetime import date
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.errors import BadOptionError, OptionFormatError
from fishmeasure.base.words import Message, wording
from fishmeasure.cli.groups import grouped
from fishmeasure.cli.options import JsonTo, read_day
from fishmeasure.cli.output import data_only, write_lines
from fishmeasure.cli.stock import options as opt

if TYPE_CHECKING:
    from fishmeasure.base.estimate import Estimate
    from fishmeasure.husbandry.growth import GrowthFit
    from fishmeasure.husbandry.harvest import Harvest, HarvestPlan
    from fishmeasure.husbandry.projection import GrowthProjection
    from fishmeasure.husbandry.weekly import WeeklyHarvest

_WEEKLY = re.compile(r"(\d+)|(\d+(?:\.\d+)?) ?kg|(size)")


@grouped
def harvest_command(
    cohort: opt.CohortOptions,
    count: Annotated[int, typer.Option(help="help-harvest-count")],
    take: Annotated[
        list[str] | None,
        typer.Option(help="help-take"),
    ] = None,
    weekly: Annotated[
        str | None,
        typer.Option(help="help-weekly"),
    ] = None,
    from_: Annotated[
        str | None,
        typer.Option("--from", help="help-from"),
    ] = None,
    until: Annotated[str | None, typer.Option(help="help-until")] = None,
    size: opt.PlateSize = None,
    count_error: Annotated[float, typer.Option(help="help-count-error")] = 2.0,
    json_to: JsonTo = None,
) -> None:
    """Show what harvests of the largest fish yield and leave, on days or weekly."""
    from fishmeasure.husbandry import cautions
    from fishmeasure.species import farmed_species

    fit = cohort.fit()
    fish = opt.with_percent(count, count_error, "number of fish", "")
    plate = farmed_species(cohort.species).growth.plate_size_g
    plate_g = plate.value if size is None else size
    if take and weekly:
        beside = Message.of("cli-beside", other="--weekly")
        one_of_two = Message.of("cli-wanted", case="one-of-two")
        raise BadOptionError("--take", beside, one_of_two)
    if weekly is not None:
        wanted = _read_weekly(weekly, plate_g, _first(from_, fit), _last(until))
        ahead, plan = _every_week(cohort, fit, fish, wanted)
    else:
        ahead, plan = _on_days(cohort, fit, fish, take or [])
    if data_only(json_to, plan):
        return
    lines = [_line(harvest) for harvest in plan.harvests]
    if weekly == "size" and plan.harvests:
        left, day = plan.harvests[-1].left_count.value, plan.harvests[-1].day
        told = wording("cli-harvest-small", fish=round(left), plate_g=plate_g, on=day)
        lines.append(told)
    write_lines(
        (*lines, *_in_all(plan, plate_g)),
        problems=ahead.problems,
        cautions=cautions.HARVEST,
        notes=plan.notes,
    )


def _on_days(
    cohort: opt.CohortOptions,
    fit: "GrowthFit",
    fish: "Estimate",
    given: list[str],
) -> "tuple[GrowthProjection, HarvestPlan]":
    from fishmeasure.husbandry.harvest import harvest_plan

    if not given:
        example = Message.of("cli-example", case="take")
        raise OptionFormatError("--take", "", example)
    takes = opt.read_takes(given)
    first, last = min(takes)[0], max(takes)[0]
    if first < fit.last_day:
        raise OptionFormatError(
            "--take",
            str(first),
            Message.of("cli-example", case="not-before", example=f"{fit.last_day}=60"),
        )
    ahead = _ahead(cohort, fit, last)
    return ahead, harvest_plan(
        projection=ahead, fish_count=fish, cv=cohort.spread(), takes=takes
    )


def _every_week(
    cohort: opt.CohortOptions,
    fit: "GrowthFit",
    fish: "Estimate",
    weekly: "WeeklyHarvest",
) -> "tuple[GrowthProjection, HarvestPlan]":
    from fishmeasure.husbandry.weekly import weekly_plan

    ahead = _ahead(cohort, fit, weekly.until)
    return ahead, weekly_plan(
        projection=ahead, fish_count=fish, cv=cohort.spread(), weekly=weekly
    )


def _ahead(
    cohort: opt.CohortOptions, fit: "GrowthFit", last: date
) -> "GrowthProjection":
    from fishmeasure.husbandry.projection import project_growth

    days = max((last - fit.last_day).days, 0)
    return project_growth(fit=fit, temperature=cohort.water(), days=days)


def _first(given: str | None, fit: "GrowthFit") -> date:
    """Return the first day of a weekly harvest: none before the last sample."""
    first = read_day("--from", given)
    if first >= fit.last_day:
        return first
    if given is None:
        return fit.last_day
    raise OptionFormatError(
        "--from",
        given,
        Message.of("cli-example", case="not-before", example=str(fit.last_day)),
    )


def _last(given: str | None) -> date:
    if given is None:
        raise OptionFormatError("--until", "", "--until 2026-10-31")
    return read_day("--until", given)


def _read_weekly(
    given: str, plate_g: float, first: date, last: date
) -> "WeeklyHarvest":
    """Return what "60", "20kg" or "size" stands for.

    Raises
    ------
    OptionFormatError, StockRangeError
    """
    from fishmeasure.husbandry.weekly import WeeklyHarvest

    match = _WEEKLY.fullmatch(given.strip())
    if match is None:
        example = Message.of("cli-example", case="weekly")
        raise OptionFormatError("--weekly", given, example)
    if last < first:
        example = Message.of("cli-example", case="from-on", first_on=first)
        raise OptionFormatError("--until", str(last), example)
    fish, kilograms, size = match.groups()
    return WeeklyHarvest(
        start=first,
        until=last,
        fish_count=int(fish) if fish else None,
        biomass_kg=float(kilograms) if kilograms else None,
        size_g=plate_g if size else None,
    )


def _line(harvest: "Harvest") -> str:
    smallest = harvest.smallest_taken_g
    return wording(
        "cli-harvest",
        on=harvest.day,
        fish=harvest.taken_count,
        size="over" if smallest > 0.0 else "any",
        smallest_g=smallest,
        taken_kg=harvest.taken_kg,
        left="some" if harvest.left_count.value >= 1.0 else "none",
        left_fish=round(harvest.left_count.value),
        left_kg=harvest.left_kg,
    )


def _in_all(plan: "HarvestPlan", plate_g: float) -> tuple[str, ...]:
    """Return what the harvests come to, and what is not as one would wish."""
    if not plan.harvests:
        return (wording("cli-harvest-none"),)
    lines = []
    if len(plan.harvests) > 1:
        lines.append(
            wording("cli-harvest-all", fish=plan.taken_count, taken_kg=plan.taken_kg)
        )
    small = [h.day for h in plan.harvests if h.smallest_taken_g < plate_g]
    if small:
        lines.append(wording("cli-harvest-under", first_on=small[0], plate_g=plate_g))
    if plan.shortfall_count:
        lines.append(wording("cli-harvest-short", fish=plan.shortfall_count))
    return tuple(lines)
