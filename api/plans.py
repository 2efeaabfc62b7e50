"""How many nets a sample would need, and whether one more is worth it."""

import contextlib
from collections.abc import Mapping, Sequence
from typing import Any, Literal

from pydantic import Field

from api import schemas
from fishmeasure.base.errors import PlanError
from fishmeasure.base.record import plain
from fishmeasure.estimation.plan import (
    FAIR_NETTING,
    Spread,
    next_net,
    plan_nets,
    taken_of_answer,
)
from fishmeasure.estimation.strata import Stratum, best_fish_per_net, plan_strata

NET_SIZES = (5, 8, 10, 15, 20, 30)


class PlannedNets(schemas.Out):
    """A number of nets and what it would give."""

    nets: int = Field(description="Nets to dip.")
    fish_per_net: int = Field(description="Fish in each.")
    half_width_percent: float = Field(description="Expected half width, %.")
    level: float = Field(description="Chance that it covers, 0 to 1.")


class NextNet(schemas.Out):
    """Whether one more net is worth it."""

    verdict: Literal["enough", "worth-it", "out-of-reach"] = Field(
        description="Precise enough; more nets bring it; so many more that they "
        "hardly do."
    )
    half_width_percent: float = Field(description="Half width now, %.")
    nets_more: int | None = Field(
        description="Nets expected to bring it; null where they hardly do."
    )
    one_more: PlannedNets = Field(description="All nets, if one more is taken.")


class PlannedParts(schemas.Out):
    """Nets shared out among the parts of a unit."""

    nets: list[int] = Field(description="Of each part, in their order.")
    fish_per_net: int = Field(description="Fish in each.")
    half_width_percent: float = Field(
        description="Expected half width of the mean of all, each part by its fish, %."
    )
    level: float = Field(description="Chance that it covers, 0 to 1.")


class PlanOut(schemas.Out):
    """Ways to reach the wanted precision."""

    plans: list[PlannedNets] = Field(description="Empty where none does.")
    next_net: NextNet = Field(description="After the nets that were taken.")
    parts: PlannedParts | None = Field(
        default=None, description="null without parts, or where no nets do."
    )
    advice: list[str] = Field(description="How to net fairly.")


def planned(
    estimate: Mapping[str, Any],
    *,
    precision_percent: float,
    net_per_fish: float | None,
    fish_in_parts: Sequence[int],
) -> PlanOut:
    """Return nets for a mean within so many per cent, by a sample's spread."""
    sample = taken_of_answer(estimate)
    aim = precision_percent / 100.0
    sizes: tuple[int, ...] = NET_SIZES
    if net_per_fish is not None:
        best = best_fish_per_net(
            sample.spread, minutes_per_net=net_per_fish, minutes_per_fish=1.0
        )
        sizes = (best,)
    plans = []
    for fish in sizes:
        with contextlib.suppress(PlanError):  # out of reach with nets of that size
            plans.append(
                plan_nets(
                    sample.spread,
                    half_width=aim,
                    fish_per_net=fish,
                    level=sample.level,
                    count_in_unit=sample.count_in_unit,
                )
            )
    found = next_net(sample, aim=aim)
    each = sizes[0] if len(sizes) == 1 else found.one_more.fish_per_net
    return PlanOut(
        plans=[PlannedNets(**plain(one)) for one in plans],
        next_net=NextNet(
            verdict=found.verdict,
            half_width_percent=sample.half_width_percent,
            nets_more=found.nets_more,
            one_more=PlannedNets(**plain(found.one_more)),
        ),
        parts=_parts(sample.spread, fish_in_parts, each, (aim, sample.level)),
        advice=[str(sentence) for sentence in FAIR_NETTING],
    )


def _parts(
    spread: Spread, fish: Sequence[int], fish_per_net: int, wanted: tuple[float, float]
) -> PlannedParts | None:
    if not fish:
        return None
    strata = [
        Stratum(
            share=count / sum(fish),
            spread=spread,
            nets=1,
            fish_per_net=fish_per_net,
        )
        for count in fish
    ]
    try:
        found = plan_strata(strata, half_width=wanted[0], level=wanted[1])
    except PlanError:
        return None
    return PlannedParts(
        nets=list(found.nets),
        fish_per_net=fish_per_net,
        half_width_percent=found.half_width_percent,
        level=found.level,
    )
