"""``fishmeasure plan``: how many nets of how many fish."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.errors import BadOptionError
from fishmeasure.base.words import Message, wording
from fishmeasure.cli.options import read_text
from fishmeasure.cli.output import columns

if TYPE_CHECKING:
    from fishmeasure.estimation.plan import Plan, Spread, Taken
    from fishmeasure.estimation.strata import Stratum

SIZES = (5, 8, 10, 15, 20, 30)
"""Fish a net that are shown where none is asked for."""
# Where parts of the unit are planned and no size of net is said.
_USUAL_SIZE = 10
_MOST_PARTS = 20
_ROUNDED = 1.5  # per cent: three shares of 33 are all


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
    net_minutes: Annotated[
        float | None, typer.Option(min=0.01, help="help-net-minutes")
    ] = None,
    fish_minutes: Annotated[
        float | None, typer.Option(min=0.01, help="help-fish-minutes")
    ] = None,
    strata: Annotated[str | None, typer.Option(help="help-strata")] = None,
) -> None:
    """Say how many nets give the mean weight to within so many per cent."""
    from fishmeasure.estimation.plan import TYPICAL, taken_from_json
    from fishmeasure.estimation.strata import best_fish_per_net

    last = None if sample is None else taken_from_json(read_text(sample), sample.name)
    known = TYPICAL if last is None else last.spread
    if cv is not None:
        known = replace(known, within_net_cv=cv)
    spread = known if between is None else replace(known, between_net_cv=between)
    minutes = _minutes(net_minutes, fish_minutes)
    size = fish_per_net
    if size is None and minutes is not None:
        size = best_fish_per_net(
            spread, minutes_per_net=minutes[0], minutes_per_fish=minutes[1]
        )
    sizes = SIZES if size is None else (size,)
    parts = None if strata is None else _parts(strata, spread)
    plans = _plans(spread, sizes, within=within, level=level, count=count)
    title = wording("cli-plan-title", within=within, level=level)
    origin = wording("cli-plan-typical") if sample is None else sample.name
    lines = []
    if minutes is not None:
        lines += _time(plans[0], minutes)
    if parts is not None:
        best = plans[0].fish_per_net if size else _USUAL_SIZE
        lines += _shared_out(parts, best, within=within, level=level)
    _show(plans, title, lines + _about(spread, origin, last, fish_per_net))


def _minutes(net: float | None, fish: float | None) -> tuple[float, float] | None:
    """Return the minutes of a net and of a fish, None where neither is said.

    Raises
    ------
    BadOptionError
        If only one is: it is their ratio that counts.
    """
    if net is None and fish is None:
        return None
    if net is None or fish is None:
        name, given = (
            ("--fish-minutes", fish) if net is None else ("--net-minutes", net)
        )
        raise BadOptionError(
            name, f"{given:g}", Message.of("cli-wanted", case="both-minutes")
        )
    return net, fish


def _time(plan: "Plan", minutes: tuple[float, float]) -> list[str]:
    """Return what the plan takes of a grower's time."""
    per_net, per_fish = minutes
    return [
        wording(
            "cli-plan-time",
            fish=plan.fish_per_net,
            net_minutes=per_net,
            fish_minutes=per_fish,
            nets=plan.nets,
            all_minutes=plan.nets * (per_net + per_fish * plan.fish_per_net),
        )
    ]


def _parts(text: str, spread: "Spread") -> "list[Stratum]":
    """Return the parts of a unit: 50/30/20, or 50:180/50:220 with mean weights in g.

    Raises
    ------
    BadOptionError
        If it cannot be read, or the shares are not of one whole.
    """
    from fishmeasure.base.errors import FishMeasureError
    from fishmeasure.base.typed import typed_number
    from fishmeasure.estimation.strata import Stratum

    bad = BadOptionError("--strata", text, Message.of("cli-wanted", case="strata"))
    shares, grams = [], []
    for part in text.split("/"):
        share, _, weight = part.partition(":")
        try:
            shares.append(typed_number(share))
            grams.append(typed_number(weight) if weight else None)
        except FishMeasureError:
            raise bad from None
    known = [g for g in grams if g is not None]
    whole = sum(shares)
    if (
        not 2 <= len(shares) <= _MOST_PARTS
        or min(shares) <= 0.0
        or abs(whole - 100.0) > _ROUNDED
        or len(known) not in {0, len(shares)}
        or min(known, default=1.0) <= 0.0
    ):
        raise bad
    weights_g = known or [1.0] * len(shares)
    mean_g = sum(s * g for s, g in zip(shares, weights_g, strict=True)) / whole
    return [
        Stratum(
            share=share / whole,
            mean=weight_g / mean_g,
            spread=spread,
            nets=1,
            fish_per_net=_USUAL_SIZE,
        )
        for share, weight_g in zip(shares, weights_g, strict=True)
    ]


def _shared_out(
    parts: "list[Stratum]", fish_per_net: int, *, within: float, level: float
) -> list[str]:
    """Return how the nets are shared out among the parts of the unit."""
    from fishmeasure.estimation.strata import plan_strata

    strata = [replace(part, fish_per_net=fish_per_net) for part in parts]
    found = plan_strata(strata, half_width=within / 100.0, level=level)
    return [
        wording(
            "cli-plan-strata",
            nets=tuple(str(nets) for nets in found.nets),
            fish=fish_per_net,
            half_width=found.half_width_percent / 100.0,
        )
    ]


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
