"""Units and cohorts of the book, and what its figures may be."""

from dataclasses import field
from datetime import datetime
from typing import Annotated, ClassVar, Literal
from uuid import UUID

from fishmeasure.base.errors import BadEntryError
from fishmeasure.base.record import (
    DegC,
    Grams,
    LPerMin,
    MgPerL,
    Name,
    Refusal,
    Text,
    between,
    longest,
    record,
)

UnitKind = Literal["tank", "pond", "raceway", "cage"]
WaterSystem = Literal["flow-through", "pond", "closed-loop", "bed-loop"]
MONTHS = 12


@record(frozen=True, slots=True, kw_only=True)
class AerationDevice:
    """A blower or air pump with its diffuser, a paddlewheel, or an oxygen feed.

    ``standard_transfer_g_per_h`` is its standard oxygen transfer rate, from a data
    sheet: clean water, 20 degrees C, no oxygen in it. Where it is 0, it follows from
    ``gas_l_per_min``, the litres of air (of oxygen, for an oxygen feed) through a
    diffuser at ``diffuser_depth_m`` with ``bubbles`` of a size, or for a paddlewheel
    from its ``power_w``.

    ``on_backup`` says that it goes on when the mains power stops, ``standby`` that it
    runs only when something has stopped. How long: ``backup_hours``, or
    ``capacity_wh`` of its battery with its ``power_w``, or ``cylinder_l`` of oxygen
    (litres of gas: the cylinder's water volume times its bar) with
    ``gas_l_per_min``. Without any of them nobody knows.
    """

    refusal: ClassVar[Refusal] = BadEntryError
    name: Name
    standard_transfer_g_per_h: Annotated[float, between(0.0, 1e6)] = 0.0
    kind: Literal["air", "paddlewheel", "oxygen"] = "air"
    gas_l_per_min: LPerMin = 0.0
    diffuser_depth_m: Annotated[float, between(0.0, 10.0)] = 0.0
    bubbles: Literal["fine", "medium", "coarse"] = "coarse"
    power_w: Annotated[float, between(0.0, 1e6)] = 0.0
    on_backup: bool = False
    standby: bool = False
    backup_hours: Annotated[float, between(0.0, 1000.0)] | None = None
    capacity_wh: Annotated[float, between(0.0, 1e7)] | None = None
    cylinder_l: Annotated[float, between(0.0, 1e7)] | None = None

    def __post_init__(self) -> None:
        if self.gas_l_per_min > 0.0 and self._needs_depth():
            raise BadEntryError(
                field="diffuser_depth_m",
                reason=f"of {self.name} must be above 0 to say what its gas brings",
            )
        if self.capacity_wh is not None and self.power_w <= 0.0:
            raise BadEntryError(
                field="power_w",
                reason=f"of {self.name} must be above 0 to say how long its battery "
                "lasts",
            )
        if self.cylinder_l is not None and self.gas_l_per_min <= 0.0:
            raise BadEntryError(
                field="gas_l_per_min",
                reason=f"of {self.name} must be above 0 to say how long its cylinder "
                "lasts",
            )

    def _needs_depth(self) -> bool:
        return self.standard_transfer_g_per_h == 0.0 and self.diffuser_depth_m == 0.0


@record(frozen=True, slots=True, kw_only=True)
class UnitLimits:
    """The grower's own limits; None means the species' or the handbook's."""

    refusal: ClassVar[Refusal] = BadEntryError
    max_density_kg_per_m3: Annotated[float, between(0.1, 1000.0)] | None = None
    min_do_mg_per_l: Annotated[float, between(0.5, 20.0)] | None = None
    critical_do_mg_per_l: Annotated[float, between(0.2, 20.0)] | None = None
    max_unionised_ammonia_mg_per_l: Annotated[float, between(1e-4, 5.0)] | None = None
    max_nitrate_n_mg_per_l: MgPerL | None = None


@record(frozen=True, slots=True, kw_only=True)
class Unit:
    """A pond, tank, raceway section or cage.

    A change is a new version; ``version`` is the one that this record is.
    ``inflow_l_per_min`` is new water, ``inflow_by_gravity`` says that it flows on
    without power; who does not say so gets none in a power cut: the safe side.
    ``recirculated_l_per_min`` what a pump sends
    round through filter and plant bed, ``water_respiration_mg_per_l_h`` the oxygen
    that water and bottom use, next to nothing in a clean tank.
    ``monthly_temperature_deg_c`` has twelve values, January first, or none; one
    value, as of a spring, is taken for all twelve.
    ``water_system`` says how the water is kept clean and so which limits apply; None
    is worked out from inflow, recirculation and bed (``system.py``).
    ``biofilter_feed_kg_per_day`` is the daily feed that the filter was sized for.
    """

    refusal: ClassVar[Refusal] = BadEntryError
    id: UUID
    name: Name
    kind: UnitKind
    volume_m3: Annotated[float, between(0.001, 1e7)]
    depth_m: Annotated[float, between(0.05, 100.0)]
    version: Annotated[int, between(1, 1_000_000)] = 1
    altitude_m: Annotated[float, between(-430.0, 6000.0)] = 0.0
    pressure_hpa: Annotated[float, between(450.0, 1100.0)] | None = None
    salinity_g_per_kg: Annotated[float, between(0.0, 45.0)] = 0.0
    inflow_l_per_min: LPerMin = 0.0
    inflow_do_mg_per_l: Annotated[float, between(0.0, 40.0)] | None = None
    inflow_by_gravity: bool = False
    water_respiration_mg_per_l_h: Annotated[float, between(0.0, 10.0)] = 0.0
    recirculated_l_per_min: LPerMin = 0.0
    aeration: Annotated[tuple[AerationDevice, ...], longest(50)] = ()
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
            raise BadEntryError(field="name", reason="of the unit is empty")
        if len(self.monthly_temperature_deg_c) == 1:
            # Set once, as the record is made; from here on it is frozen.
            year = self.monthly_temperature_deg_c * MONTHS
            object.__setattr__(self, "monthly_temperature_deg_c", year)
        if len(self.monthly_temperature_deg_c) not in {0, MONTHS}:
            raise BadEntryError(
                field="monthly_temperature_deg_c",
                reason="must have 12 values, one for all the year, or none",
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
            raise BadEntryError(field="name", reason="of the cohort is empty")
