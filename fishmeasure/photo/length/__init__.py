"""Outline to lengths: midline, snout, fork, tail, parallax."""

from fishmeasure.photo.length.budget import squared_depth_sources
from fishmeasure.photo.length.heights import ruled_fish
from fishmeasure.photo.length.measure import measure_between, measure_length
from fishmeasure.photo.length.record import FishLength, FishShape, shape_of

__all__ = [
    "FishLength",
    "FishShape",
    "measure_between",
    "measure_length",
    "ruled_fish",
    "shape_of",
    "squared_depth_sources",
]
