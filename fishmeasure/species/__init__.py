"""Species as data: one TOML a species, read by ``load_species``."""

from fishmeasure.species.loader import load_species, packaged_species, species_keys
from fishmeasure.species.record import (
    FigureSource,
    FigureStatus,
    LengthKind,
    LengthWeight,
    Species,
)

__all__ = [
    "FigureSource",
    "FigureStatus",
    "LengthKind",
    "LengthWeight",
    "Species",
    "load_species",
    "packaged_species",
    "species_keys",
]
