"""What a segmentation method gives."""

from dataclasses import dataclass
from typing import Protocol

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.image import Photo
from fishmeasure.photo.plane import PlaneScale


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FishOutline:
    """The outline of one thing taken for a fish.

    Attributes
    ----------
    contour_px
        (n, 2) closed polygon, photo pixels as displayed, sub-pixel, not repeated
        at the end.
    confidence
        0 to 1 that this is one whole fish with a right outline.
    snout_px, fork_px
        (2,) where the method finds the end points itself, else None. They tell which
        end is the tail; the outline then places them more finely.
    ends_by_hand
        Whether a person put them: then they are used as they are.
    flags
        Words of ``fishmeasure.base.flags``.
    """

    contour_px: FloatArray
    confidence: float
    snout_px: FloatArray | None = None
    fork_px: FloatArray | None = None
    ends_by_hand: bool = False
    flags: tuple[str, ...] = ()


class Segmenter(Protocol):
    """A method that finds fish."""

    @property
    def name(self) -> str:
        """Its key in the table."""
        ...

    def find(self, photo: Photo, plane: PlaneScale) -> tuple[FishOutline, ...]:
        """Return the outlines, in reading order; empty if there is no fish."""
        ...
