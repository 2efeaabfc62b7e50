"""``fishmeasure plan``: how many nets of how many fish."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.words import wording
from fishmeasure.cli.options import read_text
from fishmeasure.cli.output import columns

if TYPE_CHECKING:
    from fishmeasure.estimation.plan import Plan, Spread, Taken

SIZES = (5, 8, 10, 15, 20, 30)
"""Fish a net that are shown where none is asked for."""


def plan_command(
    within: Annotated[
        float,
        typer.Option(help="help-within"),
    ] = 10.0,
    level: Annotated[
        float,
        typer.Option(min=0.5, max=0.99, help="help-level"),
    ] = 0.9,
    fish_per_net: Annotated[
        int | None, typer.Option(min=1, help="help-fish-per-net")
    ] = None,
    count: Annotated[int | None, typer.Option(min=1, help="help-count")] = None,
    sample: Annotated[
        Path | None,
        typer.Option(help="help-sample"),
    ] = None,
    cv: Annotated[
        float | None,
        typer.Option(min=0.01, max=1.5, help="help-cv"),
    ] = None,
    between: Annotated[
        float | None,
        typer.Option(min=0.0, max=1.0, help="help-between"),
    ] = None,
) -> None:
    """Say how many nets give the mean weight to within so many per cent."""
    from fishmeasure.estimation.plan import TYPICAL, taken_from_json

    last = None if sample is None else taken_from_json(read_text(sample), sample.name)
    known = TYPICAL if last is None else last.spread
    if cv is not None:
        known = replace(known, within_net_cv=cv)
    spread = known if between is None else replace(known, between_net_cv=between)
    sizes = SIZES if fish_per_net is None else (fish_per_net,)
    plans = _plans(spread, sizes, within=within, level=level, count=count)
    title = wording("cli-plan-title", within=within, level=level)
    origin = wording("cli-plan-typical") if sample is None else sample.name
    _show(plans, title, _about(spread, origin, last, fish_per_net))


def _plans(
    spread: "Spread",
    sizes: tuple[int, ...],
    *,
    within: float,
    level: float,
    count: int | None,
) -> "list[Plan]":
    """Return a plan for each size of net that can give what is wanted.

    Raises
    ------
    PlanError
        If none can.
    """
    from fishmeasure.base.errors import PlanError
    from fishmeasure.estimation.plan import plan_nets

    plans, reasons = [], []
    for size in sizes:
        try:
            plan = plan_nets(
                spread,
                half_width=within / 100.0,
                fish_per_net=size,
                level=level,
                count_in_unit=count,
            )
        except PlanError as error:
            reasons.append(error)
        else:
            plans.append(plan)
    if not plans:
        raise reasons[0]
    return plans


def _about(
    spread: "Spread", origin: str, last: "Taken | None", fish_per_net: int | None
) -> list[str]:
    """Return what the plans follow from, and what one more net would give."""
    from fishmeasure.estimation.plan import FAIR_NETTING, one_more_net

    follows = wording(
        "cli-plan-from",
        origin=origin,
        within_cv=spread.within_net_cv,
        between_cv=spread.between_net_cv,
    )
    if spread.pilot_nets is not None:
        follows += " " + wording("cli-plan-pilot", nets=spread.pilot_nets)
    lines = [follows]
    if last is not None:
        more = one_more_net(last, fish_per_net=fish_per_net)
        lines.append(
            wording(
                "cli-plan-more",
                now=last.half_width_percent / 100.0,
                fish_count=more.fish_per_net,
                then=more.half_width_percent / 100.0,
            )
        )
    return [*lines, *(f"- {sentence}" for sentence in FAIR_NETTING)]


def _show(plans: "list[Plan]", title: str, lines: list[str]) -> None:
    from rich.console import Console
    from rich.table import Table

    table = Table(title=title)
    for name in columns(wording("cli-columns", case="plan")):
        table.add_column(name, justify="right")
    for plan in plans:
        table.add_row(
            f"{plan.fish_per_net}",
            f"{plan.nets}",
            f"{plan.fish_count}",
            f"{plan.half_width_percent:.1f}",
        )
    console = Console()
    console.print(table)
    for line in lines:
        console.print(line, highlight=False)
