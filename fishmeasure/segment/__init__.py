"""Photo and plane to outlines of fish: the table of methods.

A method is one module that meets ``Segmenter``, and one line in ``SEGMENTERS``.
Segmenters know no species.
"""

from fishmeasure.segment.boards import BoardSegmenter
from fishmeasure.segment.outline import FishOutline, Segmenter

SEGMENTERS: dict[str, Segmenter] = {"boards": BoardSegmenter()}

__all__ = ["SEGMENTERS", "BoardSegmenter", "FishOutline", "Segmenter"]
