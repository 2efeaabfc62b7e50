"""The one record of a rearing unit: its water, what brings oxygen, its own limits."""

from typing import Annotated, Literal

from fishmeasure.base.record import (
    LPerMin,
    MgPerL,
    Name,
    between,
    longest,
    misfit,
    record,
)
from fishmeasure.base.words import Message

Bubbles = Literal["fine", "medium", "coarse"]


@record(frozen=True, slots=True, kw_only=True)
class Aerator:
    """A blower or air pump with its diffuser, a paddlewheel, or an oxygen feed.

    ``standard_transfer_g_per_h`` is its standard oxygen transfer rate, from a data
    sheet: clean water, 20 degrees C, 1 atm, no oxygen in it. Where it is 0, it follows
    from ``gas_l_per_min``, the litres of air (of oxygen, for an oxygen feed) through a
    diffuser at ``diffuser_depth_m`` with ``bubbles`` of a size, or for a paddlewheel
    from its ``power_w``.

    ``alpha`` and ``beta`` are transfer and saturation in this water over those in clean
    water; 0.8 and 0.95 are common practice for fish water, no source.

    ``on_backup`` says that it goes on when the mains power stops, ``standby`` that it
    runs only when something has stopped. How long: ``backup_hours``, or
    ``capacity_wh`` of its battery with its ``power_w``, or ``cylinder_l`` of oxygen
    (litres of gas: the cylinder's water volume times its bar) with
    ``gas_l_per_min``. Without any of them nobody knows.
    """

    name: Name
    standard_transfer_g_per_h: Annotated[float, between(0.0, 1e6)] = 0.0
    kind: Literal["air", "paddlewheel", "oxygen"] = "air"
    gas_l_per_min: LPerMin = 0.0
    diffuser_depth_m: Annotated[float, between(0.0, 10.0)] = 0.0
    bubbles: Bubbles = "coarse"
    power_w: Annotated[float, between(0.0, 1e6)] = 0.0
    alpha: Annotated[float, between(0.1, 1.5)] = 0.8
    beta: Annotated[float, between(0.5, 1.2)] = 0.95
    on_backup: bool = False
    standby: bool = False
    backup_hours: Annotated[float, between(0.0, 1000.0)] | None = None
    capacity_wh: Annotated[float, between(0.0, 1e7)] | None = None
    cylinder_l: Annotated[float, between(0.0, 1e7)] | None = None

    def __post_init__(self) -> None:
        if self.gas_l_per_min > 0.0 and self._needs_depth():
            raise misfit(
                "diffuser_depth_m",
                Message.of("aerator-needs", case="gas", name=self.name),
            )
        if self.capacity_wh is not None and self.power_w <= 0.0:
            raise misfit(
                "power_w",
                Message.of("aerator-needs", case="battery", name=self.name),
            )
        if self.cylinder_l is not None and self.gas_l_per_min <= 0.0:
            raise misfit(
                "gas_l_per_min",
                Message.of("aerator-needs", case="cylinder", name=self.name),
            )

    def _needs_depth(self) -> bool:
        return self.standard_transfer_g_per_h == 0.0 and self.diffuser_depth_m == 0.0


@record(frozen=True, slots=True, kw_only=True)
class UnitLimits:
    """The grower's own limits; None means the species' or the published ones."""

    max_density_kg_per_m3: Annotated[float, between(0.1, 1000.0)] | None = None
    min_do_mg_per_l: Annotated[float, between(0.5, 20.0)] | None = None
    critical_do_mg_per_l: Annotated[float, between(0.2, 20.0)] | None = None
    max_unionised_ammonia_mg_per_l: Annotated[float, between(1e-4, 5.0)] | None = None
    max_nitrate_n_mg_per_l: MgPerL | None = None


@record(frozen=True, slots=True, kw_only=True)
class RearingUnit:
    """The water of a pond, tank, raceway section or cage, and what brings it oxygen.

    ``depth_m`` is the mean depth; None leaves exchange with the air out.
    ``pressure_hpa`` is the air's, where it was read; else it follows from
    ``altitude_m``. ``inflow_l_per_min`` is new water, ``inflow_by_gravity`` says that
    it flows on without power; who does not say so gets none in a power cut: the safe
    side. ``inflow_do_mg_per_l`` None takes 95 % of saturation.
    ``recirculated_l_per_min`` is what a pump sends round through filter and plant bed.
    ``water_respiration_mg_per_l_h`` is the oxygen that water, sludge and bottom use:
    next to nothing in a clean tank, in an earthen pond far more than the fish use
    (Madenjian et al. 1987, Aquac Eng 6:191-208: water column 42 %, sediment 50 % of the
    night's respiration).
    """

    volume_m3: Annotated[float, between(0.001, 1e7)]
    depth_m: Annotated[float, between(0.05, 100.0)] | None = None
    altitude_m: Annotated[float, between(-430.0, 6000.0)] = 0.0
    pressure_hpa: Annotated[float, between(450.0, 1100.0)] | None = None
    salinity_g_per_kg: Annotated[float, between(0.0, 45.0)] = 0.0
    inflow_l_per_min: LPerMin = 0.0
    # 40 is about pure oxygen over cold water; more is a wrong unit.
    inflow_do_mg_per_l: Annotated[float, between(0.0, 40.0)] | None = None
    inflow_by_gravity: bool = False
    water_respiration_mg_per_l_h: Annotated[float, between(0.0, 10.0)] = 0.0
    recirculated_l_per_min: LPerMin = 0.0
    aeration: Annotated[tuple[Aerator, ...], longest(50)] = ()

    @property
    def surface_m2(self) -> float:
        """What is open to the air; 0 where nobody knows."""
        return 0.0 if self.depth_m is None else self.volume_m3 / self.depth_m
