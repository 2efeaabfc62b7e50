"""Units of figures: the one table, and the place for another system than the metric."""

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
    """

    name: str
    us: str = ""
    per: float = 1.0
    plus: float = 0.0


# Exact by definition (NIST SP 811, 2008, appendix B.8; from memory): the pound is
# 0.45359237 kg, the foot 0.3048 m, the US gallon 3.785411784 l.
_LB_PER_KG = 1.0 / 0.45359237
_GAL_PER_L = 1.0 / 3.785411784

# By the end of the parameter's name; longest first, the first that fits is taken.
UNITS: dict[str, Unit] = {
    "_kg_per_day": Unit("kg-per-day", "lb-per-day", _LB_PER_KG),
    "_l_per_min": Unit("l-per-min", "gal-per-min", _GAL_PER_L),
    "_kg_per_m3": Unit("kg-per-m3"),
    "_mg_per_l": Unit("mg-per-l"),
    "_g_per_kg": Unit("g-per-kg"),
    "_g_per_h": Unit("g-per-h"),
    "_percent": Unit("percent"),
    "sd_deg_c": Unit("deg-c", "deg-f", 1.8),  # a difference
    "_deg_c": Unit("deg-c", "deg-f", 1.8, 32.0),
    "_kg": Unit("kg", "lb", _LB_PER_KG),
    "_mm": Unit("mm", "in", 1.0 / 25.4),
    "_min": Unit("min"),
    "_m3": Unit("m3"),
    "_m2": Unit("m2"),
    "_h": Unit("h"),
    "_l": Unit("l", "gal", _GAL_PER_L),
    "_g": Unit("g", "oz", _LB_PER_KG * 16.0 / 1000.0),
    "_m": Unit("m", "ft", 1.0 / 0.3048),
}


def unit_of(name: str) -> Unit | None:
    """Return the unit that a parameter's name ends in; None for a bare number."""
    for suffix, unit in UNITS.items():
        if name.endswith(suffix):
            return unit
    return None
