"""Species as data: one TOML a species, read by ``load_species``."""

from fishmeasure.species.record import LengthKind, LengthWeight, Species

__all__ = ["LengthKind", "LengthWeight", "Species"]
