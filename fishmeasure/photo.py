"""Bytes to a photo: decoding, orientation, size limits.

Coordinates: a point is (x, y) in pixels of the photo *as displayed*, after the
EXIF orientation, at full size; (0, 0) is the centre of the top-left pixel, x to
the right, y down. Arrays are indexed [row, column]. The decoded raster may be
smaller than the photo by the whole factor ``reduction``; ``to_raster`` and
``to_display`` convert points, half-pixel shift included.
"""

from dataclasses import dataclass

from fishmeasure.arrays import ByteArray, FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Photo:
    """A decoded photo.

    Attributes
    ----------
    name
        File name, for messages.
    rgb
        (rows, columns, 3) uint8, read-only, sRGB, oriented as displayed.
    width_px, height_px
        Size as displayed at full resolution.
    reduction
        Full-size pixels per raster pixel along each side (1, 2 or 4).
    focal_length_px
        From the EXIF 35 mm-equivalent focal length, in full-size pixels of the
        longer image side's geometry; None where EXIF has none.
    camera_model
        EXIF make and model, for the choice of a lens profile; "" if none.
    """

    name: str
    rgb: ByteArray
    width_px: int
    height_px: int
    reduction: int = 1
    focal_length_px: float | None = None
    camera_model: str = ""

    def to_raster(self, points_px: FloatArray) -> FloatArray:
        """Return (n, 2) display points as coordinates of ``rgb``."""
        return (points_px + 0.5) / self.reduction - 0.5

    def to_display(self, points_raster: FloatArray) -> FloatArray:
        """Return (n, 2) coordinates of ``rgb`` as display points."""
        return (points_raster + 0.5) * self.reduction - 0.5
