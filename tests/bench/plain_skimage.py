"""The photo's steps as one would write them with scikit-image alone, to compare.

Decode at full size, rectify by the markers' corners, distance in colour from the
board, Otsu's threshold, opening, labels, and ``regionprops``: the major axis of each
region is the fish's length. The markers' places are given: scikit-image reads none.
"""

import io
from dataclasses import dataclass

import numpy as np
from PIL import Image
from skimage import color, filters, measure, morphology, transform

from fishmeasure.base.arrays import FloatArray

PX_PER_MM = 2.0
"""Of the rectified picture: a fish of 200 mm has 400 pixels."""
MARGIN_MM = 400.0
SMALLEST_MM2 = 1500.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """A region: its place in the photo, and its length."""

    centre_px: FloatArray
    length_mm: float


def measure_plainly(
    data: bytes, markers_px: FloatArray, markers_mm: FloatArray
) -> list[Region]:
    """Return the regions that may be fish.

    Parameters
    ----------
    data
        A photo.
    markers_px, markers_mm
        (n, 2) corners of markers in the photo and on the plane.
    """
    with Image.open(io.BytesIO(data)) as image:
        photo = np.asarray(image.convert("RGB"))
    to_mm = transform.estimate_transform("projective", markers_px, markers_mm)
    rows, columns = photo.shape[:2]
    corners = to_mm(np.array([[0, 0], [columns, 0], [columns, rows], [0, rows]]))
    low = np.maximum(corners.min(axis=0), markers_mm.min(axis=0) - MARGIN_MM)
    high = np.minimum(corners.max(axis=0), markers_mm.max(axis=0) + MARGIN_MM)
    width, height = ((high - low) * PX_PER_MM).astype(int)
    scale = transform.AffineTransform(scale=1 / PX_PER_MM, translation=low)
    flat = transform.warp(photo, scale + to_mm.inverse, output_shape=(height, width))
    lab = color.rgb2lab(flat)
    board = np.median(lab.reshape(-1, 3), axis=0)
    far = filters.gaussian(np.linalg.norm(lab - board, axis=2), 2.0)
    mask = morphology.opening(far > filters.threshold_otsu(far), morphology.disk(3))
    regions = []
    for region in measure.regionprops(measure.label(mask)):
        if region.area < SMALLEST_MM2 * PX_PER_MM**2:
            continue
        row, column = region.centroid
        centre_mm = np.array([[column, row]]) / PX_PER_MM + low
        regions.append(
            Region(
                centre_px=to_mm.inverse(centre_mm)[0],
                length_mm=region.axis_major_length / PX_PER_MM,
            )
        )
    return regions
