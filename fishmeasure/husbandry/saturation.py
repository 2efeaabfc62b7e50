"""How much oxygen water holds."""

import math
from dataclasses import dataclass

from fishmeasure.husbandry.checks import require, require_temperature

HPA_PER_ATM = 1013.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """The water that oxygen dissolves in.

    ``pressure_hpa`` is that of the place, not reduced to sea level; None takes the
    standard atmosphere at ``altitude_m``.
    """

    temperature_deg_c: float
    salinity_g_per_kg: float = 0.0
    altitude_m: float = 0.0
    pressure_hpa: float | None = None

    def pressure_atm(self) -> float:
        """Return the pressure in atmospheres."""
        if self.pressure_hpa is not None:
            return self.pressure_hpa / HPA_PER_ATM
        return standard_pressure_atm(self.altitude_m)


def standard_pressure_atm(altitude_m: float) -> float:
    """Return the ICAO standard atmosphere's pressure, up to 11 km.

    Raises
    ------
    StockRangeError
        Outside -500 to 5000 m.
    """
    require("altitude", altitude_m, "m", -500.0, 5000.0)
    return math.pow(1.0 - 2.25577e-5 * altitude_m, 5.25588)


def oxygen_saturation_mg_per_l(water: Water) -> float:
    """Return the oxygen that water holds in balance with moist air, mg/L.

    Benson & Krause 1984, Limnol Oceanogr 29:620-632, for 0-40 °C, 0-40 g/kg and
    0.5-1.1 atm; vapour pressure as in APHA Standard Methods 4500-O. Agrees with
    EN 25814 to its printed digits (tests/husbandry/test_oxygen.py).

    Raises
    ------
    StockRangeError
        Outside those ranges.
    """
    require_temperature(water.temperature_deg_c)
    require("salinity", water.salinity_g_per_kg, "g/kg", 0.0, 40.0)
    pressure = water.pressure_atm()
    require("air pressure", pressure * HPA_PER_ATM, "hPa", 506.0, 1115.0)
    kelvin = water.temperature_deg_c + 273.15
    log_fresh = (
        -139.34411
        + 1.575701e5 / kelvin
        - 6.642308e7 / kelvin**2
        + 1.243800e10 / kelvin**3
        - 8.621949e11 / kelvin**4
    )
    log_salt = water.salinity_g_per_kg * (
        0.017674 - 10.754 / kelvin + 2140.7 / kelvin**2
    )
    vapour = math.exp(11.8571 - 3840.70 / kelvin - 216961.0 / kelvin**2)
    theta = (
        0.000975
        - 1.426e-5 * water.temperature_deg_c
        + 6.436e-8 * water.temperature_deg_c**2
    )
    at_pressure = (
        pressure
        * (1.0 - vapour / pressure)
        * (1.0 - theta * pressure)
        / ((1.0 - vapour) * (1.0 - theta))
    )
    return math.exp(log_fresh - log_salt) * at_pressure
