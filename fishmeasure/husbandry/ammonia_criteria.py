"""US EPA 2013 criteria for ammonia in fresh water, by pH and temperature.

EPA 822-R-13-001, Aquatic Life Ambient Water Quality Criteria for Ammonia -
Freshwater. Total ammonia nitrogen, mg N/L. The chronic one is for a 30-day mean and
protects mussels and snails too, which bear less than fish, so it stands for "watch";
the acute ones are for an hour. The coefficients were seen in a published translation
of Oregon's tables 30 (a) to (c), which are the report's; they give every printed value
that was seen (tests/husbandry/test_ammonia_criteria.py).
"""

import math
from collections.abc import Iterable

from fishmeasure.base.words import Message
from fishmeasure.husbandry.checks import require, require_temperature
from fishmeasure.species import packaged_species, species_keys

CRITERIA_NOTE = Message.of("note-ammonia-criteria")


def any_salmonid(keys: Iterable[str]) -> bool:
    """Return whether one of the species is a salmonid."""
    return any(
        key in species_keys() and packaged_species(key).is_salmonid for key in keys
    )


def _by_ph(ph: float, at: float, high: float, low: float) -> float:
    """Return a sigmoid in pH about ``at``: of the two forms of ammonia."""
    return high / (1.0 + math.pow(10.0, at - ph)) + low / (
        1.0 + math.pow(10.0, ph - at)
    )


def _acute_by_temp(temperature_deg_c: float) -> float:
    """Return the acute value of the most sensitive invertebrates, pH 8's scale."""
    return 23.12 * math.pow(10.0, 0.036 * (20.0 - temperature_deg_c))


def _require(ph: float, temperature_deg_c: float) -> None:
    require("pH", ph, "", 4.0, 11.0)
    require_temperature(temperature_deg_c)


def acute_tan_n_mg_per_l(
    *, ph: float, temperature_deg_c: float, salmonids: bool
) -> float:
    """Return the acute criterion, for waters with salmonids or without.

    The report's tables go from pH 6.5 to 9.0 and 0 to 30 °C.

    Raises
    ------
    StockRangeError
        Outside pH 4-11 or 0-40 °C.
    """
    _require(ph, temperature_deg_c)
    by_ph = 0.7249 * _by_ph(ph, 7.204, 0.0114, 1.6181)
    if salmonids:
        of_salmonids = _by_ph(ph, 7.204, 0.275, 39.0)
        return min(of_salmonids, by_ph * _acute_by_temp(temperature_deg_c))
    return by_ph * min(51.93, _acute_by_temp(temperature_deg_c))


def chronic_tan_n_mg_per_l(*, ph: float, temperature_deg_c: float) -> float:
    """Return the chronic criterion; it protects mussels and early fish stages too.

    Raises
    ------
    StockRangeError
        Outside pH 4-11 or 0-40 °C.
    """
    _require(ph, temperature_deg_c)
    by_temp = 2.126 * math.pow(10.0, 0.028 * (20.0 - max(temperature_deg_c, 7.0)))
    return 0.8876 * _by_ph(ph, 7.688, 0.0278, 1.1994) * by_temp
