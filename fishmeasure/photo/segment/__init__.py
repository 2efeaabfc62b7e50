"""Photo and plane to outlines of fish: the table of methods.

A method is one module that meets ``Segmenter``, and one line in ``SEGMENTERS``.
Segmenters know no species.
"""

from fishmeasure.photo.segment.learned import LearnedSegmenter
from fishmeasure.photo.segment.outline import (
    FishOutline,
    Posture,
    Segmentation,
    Segmenter,
)

SEGMENTERS: dict[str, Segmenter] = {"learned": LearnedSegmenter()}
"""Every method by its name; the first is the default."""


def default_segmenter() -> Segmenter:
    """Return the method that is used where none is asked for."""
    return next(iter(SEGMENTERS.values()))


__all__ = [
    "SEGMENTERS",
    "FishOutline",
    "LearnedSegmenter",
    "Posture",
    "Segmentation",
    "Segmenter",
    "default_segmenter",
]
