"""Units and cohorts of the book, and what its figures may be."""

from dataclasses import field
from datetime import datetime
from typing import Annotated, ClassVar, Literal
from uuid import UUID

from fishmeasure.base.errors import BadEntryError
from fishmeasure.base.record import (
    DegC,
    Grams,
    Name,
    Refusal,
    Text,
    between,
    record,
)
from fishmeasure.base.words import Message
from fishmeasure.husbandry.unit import RearingUnit, UnitLimits

UnitKind = Literal["tank", "pond", "raceway", "cage"]
WaterSystem = Literal["flow-through", "pond", "closed-loop", "bed-loop"]
MONTHS = 12


@record(frozen=True, slots=True, kw_only=True)
class Unit(RearingUnit):
    """A pond, tank, raceway section or cage of the book.

    A change is a new version; ``version`` is the one that this record is.
    ``monthly_temperature_deg_c`` has twelve values, January first, or none; one
    value, as of a spring, is taken for all twelve.
    ``water_system`` says how the water is kept clean and so which limits apply; None
    is worked out from inflow, recirculation and bed.
    ``biofilter_feed_kg_per_day`` is the daily feed that the filter was sized for.
    """

    refusal: ClassVar[Refusal] = BadEntryError
    id: UUID
    name: Name
    kind: UnitKind
    depth_m: Annotated[float, between(0.05, 100.0)]
    version: Annotated[int, between(1, 1_000_000)] = 1
    plant_bed_area_m2: Annotated[float, between(0.0, 1e6)] = 0.0
    plant_bed_kind: Literal["leafy", "fruiting"] = "leafy"
    monthly_temperature_deg_c: tuple[DegC, ...] = ()
    water_system: WaterSystem | None = None
    biofilter_feed_kg_per_day: Annotated[float, between(0.001, 1e5)] | None = None
    limits: UnitLimits = field(default_factory=UnitLimits)
    note: Text = ""
    recorded_at: datetime | None = field(default=None, compare=False)

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise BadEntryError(
                field="name", reason=Message.of("entry-slip", case="unit-empty")
            )
        if len(self.monthly_temperature_deg_c) == 1:
            # Set once, as the record is made; from here on it is frozen.
            year = self.monthly_temperature_deg_c * MONTHS
            object.__setattr__(self, "monthly_temperature_deg_c", year)
        if len(self.monthly_temperature_deg_c) not in {0, MONTHS}:
            raise BadEntryError(
                field="monthly_temperature_deg_c",
                reason=Message.of("entry-slip", case="months"),
            )


@record(frozen=True, slots=True, kw_only=True)
class Cohort:
    """Fish stocked together, of one origin. A change is a new version."""

    refusal: ClassVar[Refusal] = BadEntryError
    id: UUID
    name: Name
    species_key: Name
    version: Annotated[int, between(1, 1_000_000)] = 1
    origin: Text = ""
    plate_weight_g: Grams | None = None
    note: Text = ""
    recorded_at: datetime | None = field(default=None, compare=False)

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise BadEntryError(
                field="name", reason=Message.of("entry-slip", case="cohort-empty")
            )
