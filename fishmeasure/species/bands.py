"""What the fish can bear: bands of temperature, gases, pH and nitrogen by species.

A species' own figures stand as ``[water]`` in its TOML in ``fishmeasure/species``;
oxygen, un-ionised ammonia and nitrate of the species with stocking figures are
taken from those, so that each is known once; what is still missing is that of food
fish in general, ``husbandry/data/generic/food-fish.toml``.
"""

from dataclasses import dataclass, fields, replace
from functools import cache
from typing import Literal

import numpy as np

from fishmeasure.base.flags import Problem
from fishmeasure.species.figures import (
    Figure,
    generic_water_figures,
    load_stock_figures,
    stock_species,
    water_figures,
)

Standing = Literal["good", "watch", "act"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterBands:
    """Where a species is well, where to watch and where to act.

    Attributes
    ----------
    feeding_low_deg_c, feeding_high_deg_c
        Outside: no feeding, no growth, no handling, no stocking.
    act_low_deg_c, act_high_deg_c
        At or beyond: published deaths or loss of balance near there.
    do_watch_mg_per_l, do_act_mg_per_l
        Below.
    saturation_watch_percent, saturation_act_percent
        Of oxygen, above; gas bubble disease.
    ph_act_low, ph_watch_low, ph_watch_high, ph_act_high
        Outside.
    unionised_ammonia_n_act_mg_per_l
        Above; the species' own limit, beside the criteria in
        ``ammonia_criteria``.
    nitrite_n_watch_mg_per_l, nitrite_n_act_mg_per_l
        Above, at 10 mg/L chloride, which keeps nitrite out of the gills; see
        ``at_chloride``. Nitrite makes the blood brown and carry no oxygen.
    nitrate_n_watch_mg_per_l
        Above.
    generic
        Names of the fields that are those of food fish in general.
    """

    species_key: str
    feeding_low_deg_c: Figure
    feeding_high_deg_c: Figure
    act_low_deg_c: Figure
    act_high_deg_c: Figure
    do_watch_mg_per_l: Figure
    do_act_mg_per_l: Figure
    saturation_watch_percent: Figure
    saturation_act_percent: Figure
    ph_act_low: Figure
    ph_watch_low: Figure
    ph_watch_high: Figure
    ph_act_high: Figure
    unionised_ammonia_n_act_mg_per_l: Figure
    nitrite_n_watch_mg_per_l: Figure
    nitrite_n_act_mg_per_l: Figure
    nitrate_n_watch_mg_per_l: Figure
    generic: tuple[str, ...] = ()

    def feeds_at(self, temperature_deg_c: float) -> bool:
        """Return whether fish are fed at a temperature."""
        return (
            self.feeding_low_deg_c.value
            <= temperature_deg_c
            <= self.feeding_high_deg_c.value
        )

    def temperature_standing(self, temperature_deg_c: float) -> Standing:
        """Return how a temperature is borne."""
        if not self.act_low_deg_c.value < temperature_deg_c < self.act_high_deg_c.value:
            return "act"
        return "good" if self.feeds_at(temperature_deg_c) else "watch"


# Nitrite that salmonids bear by chloride, mg/L, over that at 10 mg/L: 0.01, 0.05, 0.09,
# 0.12 and 0.15 mg/L as N, EIFAC 1984 criteria on nitrite (from memory). More chloride
# protects more; held at 40 for want of figures.
_CHLORIDE_MG_PER_L = (1.0, 5.0, 10.0, 20.0, 40.0)
_NITRITE_BORNE = (0.11, 0.56, 1.0, 1.33, 1.67)


def at_chloride(nitrite: Figure, chloride_mg_per_l: float | None) -> Figure:
    """Return a limit of nitrite for water with this chloride; None leaves it."""
    if chloride_mg_per_l is None:
        return nitrite
    factor = float(np.interp(chloride_mg_per_l, _CHLORIDE_MG_PER_L, _NITRITE_BORNE))
    return replace(
        nitrite,
        value=nitrite.value * factor,
        source=(
            f"{nitrite.source}; for {chloride_mg_per_l:g} mg/L chloride by EIFAC 1984, "
            "from memory"
        ),
    )


BAND_FIGURES: tuple[str, ...] = tuple(
    field.name for field in fields(WaterBands) if field.type is Figure
)


def _from_stocking_figures(species_key: str) -> dict[str, Figure]:
    if species_key not in stock_species():
        return {}
    figures = load_stock_figures(species_key)
    return {
        "do_watch_mg_per_l": figures.oxygen.caution_mg_per_l,
        "do_act_mg_per_l": figures.oxygen.critical_mg_per_l,
        "unionised_ammonia_n_act_mg_per_l": figures.limits.unionised_ammonia_mg_per_l,
        "nitrate_n_watch_mg_per_l": figures.limits.nitrate_n_mg_per_l,
    }


def feeding_problems(species_key: str, temperature_deg_c: float) -> tuple[Problem, ...]:
    """Return why fish are fed nothing at a temperature; none where they are."""
    bands = water_bands(species_key)
    if bands.feeds_at(temperature_deg_c):
        return ()
    low, high = bands.feeding_low_deg_c.value, bands.feeding_high_deg_c.value
    deadly = ""
    if bands.temperature_standing(temperature_deg_c) == "act":
        deadly = " Fish of this species have died in such water."
    if temperature_deg_c > high:
        return (
            Problem(
                code="too-warm-to-feed",
                message=(
                    f"At {temperature_deg_c:.1f} °C no ration is given for this "
                    f"species, which is fed up to {high:g} °C.{deadly} Stop feeding, "
                    "watch the oxygen and feed again when the water has cooled."
                ),
            ),
        )
    return (
        Problem(
            code="too-cold-to-feed",
            message=(
                f"At {temperature_deg_c:.1f} °C no ration is given for this species, "
                f"which is fed from {low:g} °C.{deadly} Stop feeding and leave the "
                "fish in peace until the water is warmer."
            ),
        ),
    )


@cache
def water_bands(species_key: str) -> WaterBands:
    """Return what a species can bear, a species that is not known as food fish."""
    own = _from_stocking_figures(species_key) | water_figures(species_key)
    return WaterBands(
        species_key=species_key,
        generic=tuple(name for name in BAND_FIGURES if name not in own),
        **(generic_water_figures() | own),
    )
