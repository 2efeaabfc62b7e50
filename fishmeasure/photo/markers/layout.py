"""What a marker set fixes: sides always, places on a sheet only."""

from dataclasses import dataclass, field

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.plane import ScaleMethod

UNIT_SQUARE: FloatArray = np.array([[-0.5, -0.5], [0.5, -0.5], [0.5, 0.5], [-0.5, 0.5]])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Layout:
    """One way in which the markers seen may lie on the plane.

    Attributes
    ----------
    method
        What it is called in the result.
    name
        For messages, such as "A4 sheet".
    sides_mm
        Marker side by id.
    centres_mm
        Marker centre by id, all markers upright; empty where the places are
        unknown (loose cards).
    paper_mm
        Width and height of the sheet, or None for cards.
    cards_mm
        Card side by id, for cards.
    """

    method: ScaleMethod
    name: str
    sides_mm: dict[int, float]
    centres_mm: dict[int, tuple[float, float]] = field(default_factory=dict)
    paper_mm: tuple[float, float] | None = None
    cards_mm: dict[int, float] = field(default_factory=dict)

    @property
    def is_fixed(self) -> bool:
        """Whether the places of the markers are known."""
        return bool(self.centres_mm)

    def corners_mm(self, marker_id: int) -> FloatArray:
        """Return (4, 2) corners on the sheet, or about the marker's own middle."""
        centre = np.array(self.centres_mm.get(marker_id, (0.0, 0.0)))
        corners: FloatArray = UNIT_SQUARE * self.sides_mm[marker_id] + centre
        return corners
