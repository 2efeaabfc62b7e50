"""Species as data: one TOML and one record a species, read by ``load_species``."""

from fishmeasure.species.figure import Figure, LengthKind
from fishmeasure.species.loader import (
    farmed_keys,
    farmed_species,
    load_species,
    packaged_species,
    species_keys,
    water_of,
)
from fishmeasure.species.record import FarmedSpecies, Species
from fishmeasure.species.size import LengthWeight
from fishmeasure.species.water import WaterFigures

__all__ = [
    "FarmedSpecies",
    "Figure",
    "LengthKind",
    "LengthWeight",
    "Species",
    "WaterFigures",
    "farmed_keys",
    "farmed_species",
    "load_species",
    "packaged_species",
    "species_keys",
    "water_of",
]
