"""A blob's border moved to where colours part best, by graph cut."""

import cv2
import numpy as np

from fishmeasure.arrays import BoolArray, ByteArray, FloatArray

CUT_PX_PER_MM = 0.8
"""Resolution of the cut, whose time grows with the area: some 10 ms a fish."""
SURE_OUTSIDE_MM = 8.0
SURE_INSIDE_MM = 4.0
MARGIN_MM = 14.0


def cut_out(
    rgb: ByteArray, blob: FloatArray, sure: BoolArray, px_per_mm: float
) -> FloatArray | None:
    """Return the contour (n, 2) of what the blob's colours hold together.

    GrabCut (Rother, Kolmogorov and Blake 2004, ACM Trans. Graph. 23, 309-314), one
    round: colour models of inside and outside from the blob, and a border that
    follows edges.

    Parameters
    ----------
    rgb
        The picture.
    blob
        (k, 2) closed polygon in its pixels.
    sure
        (rows, columns) where the picture is clearly not background.
    px_per_mm
        The picture's scale.
    """
    margin = MARGIN_MM * px_per_mm
    size = np.array([rgb.shape[1], rgb.shape[0]])
    low = np.maximum(blob.min(axis=0) - margin, 0).astype(int)
    high = np.minimum(blob.max(axis=0) + margin + 1, size).astype(int)
    window = (slice(low[1], high[1]), slice(low[0], high[0]))
    inside = np.zeros((high[1] - low[1], high[0] - low[0]), np.uint8)
    cv2.fillPoly(inside, [np.round(blob - low).astype(np.int32)], (1,))
    depth = cv2.distanceTransform(inside, cv2.DIST_L2, 3)
    height = cv2.distanceTransform(1 - inside, cv2.DIST_L2, 3)
    labels = np.where(inside > 0, cv2.GC_PR_FGD, cv2.GC_PR_BGD)
    labels[height > SURE_OUTSIDE_MM * px_per_mm] = cv2.GC_BGD
    labels[(depth > SURE_INSIDE_MM * px_per_mm) & sure[window]] = cv2.GC_FGD
    factor = min(1.0, CUT_PX_PER_MM / px_per_mm)
    shape = (
        max(8, round(inside.shape[1] * factor)),
        max(8, round(inside.shape[0] * factor)),
    )
    picture = cv2.resize(rgb[window], shape, interpolation=cv2.INTER_AREA)
    mask = cv2.resize(labels.astype(np.uint8), shape, interpolation=cv2.INTER_NEAREST)
    if not (np.any(mask == cv2.GC_FGD) and np.any(mask == cv2.GC_BGD)):
        return None
    colours = [np.zeros((1, 65)) for _ in range(2)]  # filled, not used again
    whole = (0, 0, 0, 0)
    mode = cv2.GC_INIT_WITH_MASK
    cv2.grabCut(picture, mask, whole, colours[0], colours[1], 1, mode)
    kept = np.isin(mask, (cv2.GC_FGD, cv2.GC_PR_FGD)).astype(np.uint8) * 255
    fine = cv2.resize(kept, inside.shape[::-1], interpolation=cv2.INTER_LINEAR)
    contours, _ = cv2.findContours(
        (fine > 127).astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE
    )
    if not contours:
        return None
    largest = max(contours, key=cv2.contourArea)
    contour: FloatArray = largest.reshape(-1, 2).astype(np.float64) + low
    return contour
