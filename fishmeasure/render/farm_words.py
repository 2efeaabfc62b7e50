"""The farm in words: its units, its store of feed, the register, the costs."""

from collections.abc import Iterator

from fishmeasure.base.words import Message, what, wording
from fishmeasure.book.register import Register, RegisterRow
from fishmeasure.husbandry.costs import Costs
from fishmeasure.outlook.farm import FarmOutlook, FarmUnit

NONE = "-"
MOST_WRONG = 3
"""Problems that are told of a unit here; its outlook tells all."""


def unit_row(unit: FarmUnit) -> tuple[str, ...]:
    """Return name, fish, mean weights, kilograms, ration, plate size, fullest limit."""
    sizes = [one.mean_weight_g for one in unit.fish if one.mean_weight_g is not None]
    halves = [one.half_at_plate_size for one in unit.fish if one.half_at_plate_size]
    days = [half.day for half in halves if half.day is not None]
    limit = unit.fullest_limit
    return (
        unit.name,
        wording("farm-cell", case="fish", fish_count=unit.fish_count),
        ", ".join(wording("farm-cell", case="weight", mean_g=size) for size in sizes)
        or NONE,
        NONE
        if unit.biomass_kg is None
        else wording("farm-cell", case="biomass", biomass_kg=unit.biomass_kg),
        NONE
        if unit.ration_kg is None
        else wording("farm-cell", case="feed", ration_kg=unit.ration_kg.value),
        ", ".join(wording("farm-cell", case="day", on=day) for day in days) or NONE,
        NONE
        if limit is None
        else wording(
            "farm-cell",
            case="limit",
            limit=Message.of("limit-within", case=limit.name.replace(" ", "-")),
            used=limit.used_fraction.value,
        ),
    )


def unit_lines(unit: FarmUnit) -> Iterator[str]:
    """Yield what the water says now, what is due, and what is wrong in short."""
    if unit.fish_count.high <= 0.0:
        return
    head = ""
    if unit.now.verdict != "good":
        head = str(unit.now.headline)
        yield " ".join(filter(None, [head, str(unit.now.do_now)]))
    yield from (str(due.message) for due in unit.due)
    told = [what(problem.said) for problem in unit.problems if problem.said is not None]
    yield from [line for line in told if line not in head][:MOST_WRONG]


def sum_lines(farm: FarmOutlook) -> Iterator[str]:
    """Yield what the whole farm has, and how long its feed lasts."""
    yield wording(
        "farm-sum",
        units=len(farm.units),
        fish_count=farm.fish_count,
        biomass_kg=farm.biomass_kg,
        ration_kg=farm.ration_kg,
    )
    if farm.units_unknown:
        yield wording("farm-unknown", units=farm.units_unknown)
    store = farm.feed
    if store is None:
        return
    yield wording(
        "farm-feed",
        case="short" if store.left_kg < 0.0 else "left",
        left_kg=abs(store.left_kg),
        bought_kg=store.bought_kg,
        since_on=store.counted_since,
    )
    for lot in store.lots:
        yield wording(
            "farm-feed-lot",
            feed=lot.feed_name,
            size="none" if lot.pellet_mm is None else "known",
            pellet_mm=lot.pellet_mm or 0.0,
            left_kg=lot.left_kg,
        )
    if store.days_left is not None and store.left_kg >= 0.0:
        yield wording("farm-feed-days", days=int(store.days_left))
    if store.to_buy_kg is not None and store.to_buy_kg.high > 0.0:
        yield wording("farm-feed-buy", buy_kg=store.to_buy_kg)


def register_cells(row: RegisterRow) -> tuple[str, ...]:
    """Return day, unit, cohort, kind, fish, kilograms, whither and remark."""
    return (
        row.on.isoformat(),
        row.unit,
        row.cohort,
        wording("register-kind", kind=row.kind),
        "" if row.fish_count is None else str(row.fish_count),
        "" if row.weight_kg is None else f"{row.weight_kg:.2f}",
        row.to_unit,
        row.remark,
    )


def total_lines(register: Register) -> Iterator[str]:
    """Yield the totals of each kind of entry."""
    for total in register.totals:
        if total.kind == "treated":
            continue
        yield wording(
            "register-total",
            kind=wording("register-kind", kind=total.kind),
            lines=total.lines,
            fish_count=total.fish_count,
            weight_kg=total.weight_kg,
            without=total.without_weight,
        )


def cost_lines(costs: Costs) -> Iterator[str]:
    """Yield what was spent, and what a kilogram cost."""
    yield wording(
        "farm-spent",
        total=costs.total,
        fingerlings=costs.fingerlings,
        feed=costs.feed,
        other=costs.other,
    )
    if costs.per_kg is not None:
        yield wording("farm-per-kg", per_kg=costs.per_kg, fish_kg=costs.fish_kg)
