"""Growth: what the samples say, and weights and dates ahead."""

from datetime import timedelta
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.words import Message, wording
from fishmeasure.cli.groups import grouped
from fishmeasure.cli.options import JsonTo
from fishmeasure.cli.output import data_only, write_lines
from fishmeasure.cli.stock import options as opt

if TYPE_CHECKING:
    from fishmeasure.husbandry.growth import WeightSample


@grouped
def growth_command(
    cohort: opt.CohortOptions,
    days: Annotated[int, typer.Option(help="help-growth-days")] = 180,
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

    def when(found: DateEstimate) -> Message:
        if found.day is None:
            return Message.of("cli-day", case="after", on=ahead.start + timedelta(days))
        if found.earliest == found.latest == ahead.start:
            return Message.of("cli-day", case="now", on=found.day)
        days_of = {"on": found.day, "first_on": found.earliest}
        if found.latest is None:
            return Message.of("cli-day", case="or-later", **days_of)
        return Message.of("cli-day", case="from-to", last_on=found.latest, **days_of)

    course = [
        "  " + wording("cli-weight-on", on=day, weight_g=ahead.mean_weight_g(day))
        for day in (
            ahead.start + timedelta(days=step) for step in range(0, days + 1, 30)
        )
    ]
    notes = fit.notes
    if size is None:
        notes += (plate.note(Message.of("note-plate-size", plate_g=plate.value)),)
    write_lines(
        (
            wording("cli-growth-coefficient", tgc_x1000=fit.tgc_x1000),
            *_growth_rate(samples),
            wording("cli-mean-weight", on=fit.last_day, weight_g=fit.mean_weight_g),
            *course,
            wording("cli-at-size", size_g=dates.size_g, first=when(dates.first)),
            "  " + wording("cli-at-size-half", half=when(dates.half)),
            "  " + wording("cli-at-size-all", nearly_all=when(dates.nearly_all)),
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
    return (wording("cli-growth-rate", rate=rate),)
