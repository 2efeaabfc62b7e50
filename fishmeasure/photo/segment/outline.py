"""What a segmentation method gives."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, Protocol

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.image import Photo
from fishmeasure.photo.plane import PlaneScale

Posture = Literal["side", "upright"]
"""Whether a fish lies on its side, or its back is seen."""


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
    ends_se_mm
        Standard errors of snout and fork along the fish, where the method knows them:
        then the ends are used as they are.
    ends_by_hand
        Whether a person put them: then they are used as they are.
    body_px
        (m, 2) outline of the body without fins; None where the method gives none.
    upright_share, water_share
        Probabilities that its back is seen, and that it is seen through water; None
        where the method does not say.
    raised_share
        Probability that it lies on other fish.
    flags
        Words of ``fishmeasure.base.flags``.
    """

    contour_px: FloatArray
    confidence: float
    snout_px: FloatArray | None = None
    fork_px: FloatArray | None = None
    ends_se_mm: tuple[float, float] | None = None
    ends_by_hand: bool = False
    body_px: FloatArray | None = None
    posture: Posture = "side"
    upright_share: float | None = None
    water_share: float | None = None
    raised_share: float = 0.0
    flags: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Segmentation:
    """What a method found in a photo; iterates over the outlines.

    Attributes
    ----------
    outlines
        In reading order.
    too_small
        Fish that are seen and too small in the photo to be measured.
    smallest_mm
        The shortest length that can be measured in it.
    """

    outlines: tuple[FishOutline, ...]
    too_small: int = 0
    smallest_mm: float = 0.0

    def __iter__(self) -> Iterator[FishOutline]:
        """Iterate over the outlines."""
        return iter(self.outlines)

    @property
    def piled(self) -> bool:
        """Whether fish lie on one another."""
        return any(one.raised_share > 0.0 for one in self.outlines)

    def __len__(self) -> int:
        """Return the number of outlines."""
        return len(self.outlines)


class Segmenter(Protocol):
    """A method that finds fish."""

    @property
    def name(self) -> str:
        """Its key in the table."""
        ...

    def find(self, photo: Photo, plane: PlaneScale) -> Segmentation:
        """Return what is found; no outlines if there is no fish."""
        ...
