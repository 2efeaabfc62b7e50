"""What the page's own look through the camera goes by: markers and limits, as JSON.

The page searches the live picture for the printed markers before the photo is taken.
What they look like, where they lie on a sheet and from where on the server will find
fault with the photo stand in ``fishmeasure/photo`` alone.
"""

from typing import Any

from fishmeasure.photo import quality
from fishmeasure.photo.image import DEFAULT_LIMITS, FILM_DIAGONAL_MM
from fishmeasure.photo.markers import IDS, sheet, single
from fishmeasure.photo.markers.camera import (
    TYPICAL_FOCAL_35MM,
    TYPICAL_FOCAL_RELATIVE_SD,
)
from fishmeasure.photo.markers.pattern import marker_cells
from fishmeasure.photo.markers.scale import FITS_MM


def camera_table() -> dict[str, Any]:
    """Return markers, sheets and limits by the page's names for them."""
    return {
        "codes": {marker_id: code_of(marker_id) for marker_id in sorted(IDS)},
        "sheets": [_sheet(paper) for paper in sheet.PAPERS_MM],
        "single": {"id": single.ID, "side_mm": single.SIDE_MM},
        "fits_mm": FITS_MM,
        "focal_over_diagonal": TYPICAL_FOCAL_35MM / FILM_DIAGONAL_MM,
        "limits": {
            # A guessed focal length makes the tilt as uncertain as it is itself.
            "tilt_deg": quality.TILT_WARN_DEG / (1.0 + TYPICAL_FOCAL_RELATIVE_SD),
            "side_px": quality.SIDE_WARN_PX,
            "blur_cells": quality.BLUR_WARN_CELLS,
            "blur_mm": quality.BLUR_WARN_MM,
            "contrast": quality.CONTRAST_WARN,
            "clipped_code": quality.CLIPPED_CODE,
            "clipped_share": quality.CLIPPED_WARN_FRACTION,
            "dark_light": quality.DARK_LIGHT,
            "halved_from_px": DEFAULT_LIMITS.reduce_from_pixels,
        },
    }


def code_of(marker_id: int) -> str:
    """Return the four rows of a marker's code, a 1 for a white cell."""
    inner = marker_cells(marker_id)[1:-1, 1:-1]
    return "".join("1" if white else "0" for white in inner.ravel())


def _sheet(paper: str) -> dict[str, Any]:
    layout = sheet.sheet_layout(paper)
    return {
        "paper": paper,
        "side_mm": sheet.SIDE_MM,
        "centres_mm": {str(i): list(place) for i, place in layout.centres_mm.items()},
    }
