"""Growth: what the samples say, and weights and dates ahead."""

from datetime import timedelta
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.words import span
from fishmeasure.cli.groups import grouped
from fishmeasure.cli.options import JsonTo
from fishmeasure.cli.output import data_only, write_lines
from fishmeasure.cli.stock import options as opt

if TYPE_CHECKING:
    from fishmeasure.husbandry.growth import WeightSample


@grouped
def growth_command(
    cohort: opt.CohortOptions,
    days: Annotated[int, typer.Option(help="Days ahead.")] = 180,
    size: opt.PlateSize = None,
    json_to: JsonTo = None,
) -> None:
    """Fit growth to a cohort's samples; weights and plate-size dates ahead."""
    from fishmeasure.husbandry.harvest import DateEstimate, dates_at_size
    from fishmeasure.husbandry.projection import project_growth
    from fishmeasure.species import farmed_species

    water, samples = cohort.water(), cohort.samples()
    fit = cohort.fit()
    ahead = project_growth(fit=fit, temperature=water, days=days)
    plate = farmed_species(cohort.species).growth.plate_size_g
    dates = dates_at_size(
        projection=ahead,
        cv=cohort.spread(),
        size_g=plate.value if size is None else size,
    )
    if data_only(json_to, {"fit": fit, "dates": dates, "projection": ahead}):
        return

    def when(found: DateEstimate) -> str:
        if found.day is None:
            return f"after {ahead.start + timedelta(days=days)}"
        if found.earliest == found.latest == ahead.start:
            return f"now, {found.day}"
        return f"{found.day} ({found.earliest} to {found.latest or 'later'})"

    course = [
        f"  {day}  {span(ahead.mean_weight_g(day))} g"
        for day in (
            ahead.start + timedelta(days=step) for step in range(0, days + 1, 30)
        )
    ]
    from fishmeasure.base.words import Message

    notes = fit.notes
    if size is None:
        notes += (plate.note(Message.of("note-plate-size", plate_g=plate.value)),)
    write_lines(
        (
            f"Thermal growth coefficient x 1000: {span(fit.tgc_x1000)}",
            *_growth_rate(samples),
            f"Mean weight on {fit.last_day}: {span(fit.mean_weight_g)} g",
            *course,
            f"At {dates.size_g:g} g: first (5 %) {when(dates.first)}",
            f"  half {when(dates.half)}",
            f"  nearly all (95 %) {when(dates.nearly_all)}",
        ),
        problems=ahead.problems,
        notes=notes,
    )


def _growth_rate(samples: "tuple[WeightSample, ...]") -> tuple[str, ...]:
    from fishmeasure.husbandry.growth_rates import specific_growth_rate

    first, last = samples[0], samples[-1]
    if last.day == first.day:
        return ()
    rate = specific_growth_rate(
        start_weight_g=first.mean_weight_g,
        end_weight_g=last.mean_weight_g,
        days=(last.day - first.day).days,
    )
    return (f"Specific growth rate, first to last sample: {span(rate)} %/day",)
