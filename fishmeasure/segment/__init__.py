"""Photo and plane to outlines of fish: the table of methods.

A method is one module that meets ``Segmenter``, and one line in ``SEGMENTERS``.
Segmenters know no species.
"""

from fishmeasure.segment.outline import FishOutline, Segmenter

__all__ = ["FishOutline", "Segmenter"]
