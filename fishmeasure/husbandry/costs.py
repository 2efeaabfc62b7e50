"""What a kilogram of fish cost, from three prices in the grower's own money."""

from dataclasses import dataclass
from typing import Annotated, ClassVar

from pydantic import Field

from fishmeasure.base.errors import BadFieldError
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.record import Refusal, between, record

_MOST = 1e9  # more is a typing error in any money
_Price = Annotated[float, between(0.0, _MOST)]


@record(frozen=True, slots=True, kw_only=True)
class Prices:
    """Prices in one and the same money."""

    refusal: ClassVar[Refusal] = BadFieldError
    fingerling: Annotated[_Price, Field(description="Of a stocked fish.")] = 0.0
    feed_per_kg: Annotated[_Price, Field(description="Of a kilogram of feed.")] = 0.0
    other_per_month: Annotated[
        _Price, Field(description="Of all else: power, water, oxygen, wages.")
    ] = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Costs:
    """What the fish cost that are alive or were taken.

    Attributes
    ----------
    fish_kg
        Kilograms alive and taken.
    per_kg
        Price of one of them; None where there is none yet.
    """

    fingerlings: float
    feed: float
    other: float
    total: float
    fish_kg: Estimate
    per_kg: Estimate | None


def costs(
    prices: Prices,
    *,
    fish_stocked: float,
    feed_kg: float,
    months: float,
    fish_kg: Estimate,
) -> Costs:
    """Return the cost of a kilogram: all money spent over all kilograms.

    The interval is that of the kilograms; what was spent is taken as known.
    """
    fingerlings = prices.fingerling * fish_stocked
    feed = prices.feed_per_kg * feed_kg
    other = prices.other_per_month * months
    spent = fingerlings + feed + other
    per_kg = None
    if fish_kg.low > 0.0:
        value = spent / fish_kg.value
        per_kg = Estimate(
            value=value,
            sd=value * fish_kg.sd / fish_kg.value,
            low=spent / fish_kg.high,
            high=spent / fish_kg.low,
            level=fish_kg.level,
        )
    return Costs(
        fingerlings=fingerlings,
        feed=feed,
        other=other,
        total=spent,
        fish_kg=fish_kg,
        per_kg=per_kg,
    )
