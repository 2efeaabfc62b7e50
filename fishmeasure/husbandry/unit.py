"""What a rearing unit is to the calculations."""

from dataclasses import dataclass
from typing import Literal

from fishmeasure.husbandry.checks import require

Drive = Literal["air", "pump", "oxygen"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Aerator:
    """One aeration device.

    Attributes
    ----------
    sotr_kg_per_h
        Standard oxygen transfer rate: clean water, 20 °C, 1 atm, no oxygen in it.
    alpha, beta
        Transfer and saturation in this water over those in clean water. The
        defaults (0.8, 0.95) are common practice for fish water, no source.
    theta
        Factor of the transfer for each °C; 1.024 (SWAT+ page; Chin 2006 has 1.025),
        1 for a flow of water, which temperature does not change.
    relative_sd
        Error of all of it together; 0.25 is an allowance, no source.
    drive
        What it stops with: "air" is moved by a blower or motor of its own, "pump" is
        recirculated water, "oxygen" is fed with pure oxygen.
    on_backup
        Whether it goes on when the mains power stops, and then for ``runtime_h`` hours
        at most and ``runtime_least_h`` at least; None where nobody knows how long.
    note
        Where its rate comes from, for the screen; empty for a data sheet's.
    """

    name: str
    sotr_kg_per_h: float
    alpha: float = 0.8
    beta: float = 0.95
    theta: float = 1.024
    relative_sd: float = 0.25
    drive: Drive = "air"
    on_backup: bool = False
    runtime_h: float | None = None
    runtime_least_h: float | None = None
    note: str = ""

    def __post_init__(self) -> None:
        if self.runtime_h is not None:
            require("hours of backup", self.runtime_h, "h", 0.0)
            if self.runtime_least_h is not None:
                least = self.runtime_least_h
                require("least hours of backup", least, "h", 0.0, self.runtime_h)


@dataclass(frozen=True, slots=True, kw_only=True)
class RearingUnit:
    """A pond, tank or raceway section.

    Attributes
    ----------
    surface_m2
        Open to the air; 0 where unknown, which leaves surface exchange out.
    inflow_pumped
        Whether the inflow stops with the power; False for a spring that runs by
        itself.
    inflow_do_mg_per_l
        Oxygen of the water that flows in; None takes 95 % of saturation.
    standby
        Devices that run only when something has stopped.
    water_respiration_mg_per_l_h
        Oxygen used by water, sludge and bottom. Near 0 in a clean tank; in an
        earthen pond far more than the fish use (Madenjian et al. 1987, Aquac Eng
        6:191-208: water column 42 %, sediment 50 % of the night's respiration).

    Raises
    ------
    StockRangeError
        If a size or a flow is below 0, or there is no water.
    """

    volume_m3: float
    surface_m2: float = 0.0
    altitude_m: float = 0.0
    salinity_g_per_kg: float = 0.0
    inflow_l_per_min: float = 0.0
    inflow_pumped: bool = True
    inflow_do_mg_per_l: float | None = None
    aerators: tuple[Aerator, ...] = ()
    standby: tuple[Aerator, ...] = ()
    plant_bed_m2: float = 0.0
    water_respiration_mg_per_l_h: float = 0.0

    def __post_init__(self) -> None:
        require("water volume", self.volume_m3, "m³", 0.01)
        require("surface", self.surface_m2, "m²", 0.0)
        require("inflow", self.inflow_l_per_min, "L/min", 0.0)
        if self.inflow_do_mg_per_l is not None:
            # 40 is about pure oxygen over cold water; more is a slip of units
            require("oxygen of the inflow", self.inflow_do_mg_per_l, "mg/L", 0.0, 40.0)
        require("plant bed", self.plant_bed_m2, "m²", 0.0)
        require("oxygen use of the water", self.water_respiration_mg_per_l_h, "", 0.0)
