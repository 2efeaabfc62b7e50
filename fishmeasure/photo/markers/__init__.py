"""Printed markers to the plane on which the fish lie.

One module for each printed set, listed in ``MARKERS``: which layouts may explain
the ids that are seen. ``find_plane`` fits them and keeps the best.
"""

from collections import Counter
from collections.abc import Callable
from dataclasses import replace

from fishmeasure.base.errors import NoMarkerError, SeveralSheetsError
from fishmeasure.photo.image import Photo
from fishmeasure.photo.lens import LensProfile
from fishmeasure.photo.markers import loose, sheet, single
from fishmeasure.photo.markers.camera import camera_prior
from fishmeasure.photo.markers.detect import find_markers
from fishmeasure.photo.markers.edges import FittedMarker, fit_marker
from fishmeasure.photo.markers.known import KnownDistance, plane_from_distance
from fishmeasure.photo.markers.layout import Layout
from fishmeasure.photo.markers.scale import choose, plane_scale
from fishmeasure.photo.markers.under_water import as_in_air, rippled, under_water
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.quality import refuse_unusable
from fishmeasure.photo.water import Water

Hypotheses = Callable[[tuple[int, ...], str | None], tuple[Layout, ...]]

MARKERS: dict[str, Hypotheses] = {
    "sheet": sheet.hypotheses,
    "loose-markers": loose.hypotheses,
    "single-marker": single.hypotheses,
}
"""In the order of trust: one is used where those above it do not explain the photo."""
IDS = frozenset({*sheet.IDS, single.ID})
"""Of all that are printed; a marker with another id is somebody else's."""


def find_plane(
    photo: Photo,
    *,
    print_scale: float = 1.0,
    lens: LensProfile | None = None,
    known: KnownDistance | None = None,
    paper: str | None = None,
    water: Water | None = None,
) -> PlaneScale:
    """Return the plane on which the markers lie, with its scale.

    Parameters
    ----------
    photo
        With one calibration sheet, some of its markers, loose cards or a single
        marker in view.
    print_scale
        Printed over nominal size, from the printed check line. Exactly 1 means
        that nobody measured it.
    lens
        Profile of the camera; used where it fits the photo.
    known
        Two points in the photo, that far apart on the plane; used in place of
        markers.
    paper
        Of the sheet ("A4", "A3", "Letter"), where it is known.
    water
        What stands over the markers, if they lie on the bottom of a tub.

    Raises
    ------
    MarkerError
        If no honest scale can be had; the subclass says why.
    """
    prior = camera_prior(photo, lens)
    if known is not None:
        plane = plane_from_distance(photo, prior, known)
        return plane if water is None else under_water(photo, plane, water)
    markers = observed_markers(photo)
    if water is not None:
        markers = tuple(rippled(marker) for marker in markers)
    ids = tuple(marker.marker_id for marker in markers)
    layouts = tuple(
        layout for guess in MARKERS.values() for layout in guess(ids, paper)
    )
    if not layouts:
        raise NoMarkerError(photo.name)
    choice = choose(photo.name, markers, layouts, prior, print_scale)
    plane = plane_scale(photo, choice, prior, print_scale)
    if water is not None:
        # How far Snell's law is from a pinhole's, which the fit knows, follows from a
        # first pose; it changes little with it.
        level = as_in_air(markers, replace(plane, water=water))
        choice = choose(photo.name, level, layouts, prior, print_scale)
        plane = plane_scale(photo, choice, prior, print_scale)
        plane = under_water(photo, plane, water, markers)
    refuse_unusable(photo, plane)
    return plane


def observed_markers(photo: Photo) -> tuple[FittedMarker, ...]:
    """Return the project's markers in the photo, corners refined.

    Raises
    ------
    SeveralSheetsError
        If a marker is there twice.
    """
    fits = [
        fit_marker(photo, rough)
        for rough in find_markers(photo)
        if rough.marker_id in IDS
    ]
    markers = tuple(marker for marker in fits if marker is not None)
    counts = Counter(marker.marker_id for marker in markers)
    twice = tuple(marker_id for marker_id, count in counts.items() if count > 1)
    if twice:
        raise SeveralSheetsError(photo.name, twice)
    return markers


__all__ = [
    "IDS",
    "MARKERS",
    "Hypotheses",
    "KnownDistance",
    "find_plane",
    "observed_markers",
]
