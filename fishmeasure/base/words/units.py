"""Units of figures: the one table, metric and US customary.

What is kept and computed is metric, and so is JSON; a voice's system of units changes
what is said, drawn, and read from people.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit; how it is written stands in the catalogue, as ``unit-…``.

    Attributes
    ----------
    name
        Of its message in the catalogue, without ``unit-``.
    us
        That of the US customary unit; empty where the metric one is used there too.
    per, plus
        US figure = per * metric figure + plus.
    finer
        Decimals that the US figure needs more than the metric one, to be as fine.
    """

    name: str
    us: str = ""
    per: float = 1.0
    plus: float = 0.0
    finer: int = 0

    def shown(self, metric: float) -> float:
        """Return the US figure."""
        return self.per * metric + self.plus

    def metric(self, shown: float) -> float:
        """Return the metric figure."""
        return (shown - self.plus) / self.per


# Exact by definition: the avoirdupois pound is 453.592 37 g, the ounce a sixteenth of
# it, the inch 25.4 mm (NIST Handbook 44, 2024, appendix C); the foot 0.3048 m, the US
# gallon 231 cubic inches or 3.785411784 l, and t/°F = 1.8 t/°C + 32 (NIST SP 811, 2008,
# appendices B.8 and B.9; from memory).
GRAMS_PER_LB = 453.592_37
LB_PER_KG = 1000.0 / GRAMS_PER_LB
_OZ_PER_G = 16.0 * LB_PER_KG / 1000.0
_GAL_PER_L = 1.0 / 3.785411784
_FT_PER_M = 1.0 / 0.3048

# By the end of the parameter's name; longest first, the first that fits is taken.
UNITS: dict[str, Unit] = {
    "_kg_per_day": Unit("kg-per-day", "lb-per-day", LB_PER_KG),
    "_m3_per_day": Unit("m3-per-day", "gal-per-day", 1000.0 * _GAL_PER_L, finer=-2),
    "_l_per_min": Unit("l-per-min", "gal-per-min", _GAL_PER_L, finer=1),
    "_kg_per_m3": Unit("kg-per-m3", "lb-per-ft3", LB_PER_KG / _FT_PER_M**3, finer=1),
    "_mg_per_l": Unit("mg-per-l"),
    "_g_per_kg": Unit("g-per-kg"),
    "_g_per_h": Unit("g-per-h"),
    "_percent": Unit("percent"),
    "sd_deg_c": Unit("deg-c", "deg-f", 1.8),  # a difference
    "_deg_c": Unit("deg-c", "deg-f", 1.8, 32.0),
    "_kg": Unit("kg", "lb", LB_PER_KG),
    "_mm": Unit("mm", "in", 1.0 / 25.4, finer=2),
    "_min": Unit("min"),
    "_m3": Unit("m3", "gal", 1000.0 * _GAL_PER_L, finer=-2),
    "_m2": Unit("m2", "ft2", _FT_PER_M**2, finer=-1),
    "_h": Unit("h"),
    "_l": Unit("l", "gal", _GAL_PER_L, finer=1),
    "_g": Unit("g", "oz", _OZ_PER_G, finer=1),
    "_m": Unit("m", "ft", _FT_PER_M),
}
US_NAMES = {unit.name: unit.us for unit in UNITS.values() if unit.us}
"""The US unit that stands where a metric one does, by their names."""
OZ_PER_LB = 16


def unit_of(name: str) -> Unit | None:
    """Return the unit that a parameter's name ends in; None for a bare number."""
    for suffix, unit in UNITS.items():
        if name.endswith(suffix):
            return unit
    return None
