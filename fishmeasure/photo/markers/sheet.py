"""The calibration sheet: four 40 mm markers near the corners of one paper."""

from fishmeasure.photo.markers.layout import Layout

SIDE_MM = 40.0
MARGIN_MM = 15.0
IDS = (0, 1, 2, 3)

PAPERS_MM: dict[str, tuple[float, float]] = {
    # ISO 216 trimmed sizes, landscape.
    "A4": (297.0, 210.0),
    "A3": (420.0, 297.0),
    # ANSI/ASME Y14.1 size A, 11 x 8.5 in.
    "Letter": (279.4, 215.9),
}


def sheet_layout(paper: str) -> Layout:
    """Return the sheet on this paper; ids clockwise from the top-left.

    Raises
    ------
    KeyError
        If the paper is not in ``PAPERS_MM``.
    """
    width, height = PAPERS_MM[paper]
    inset = MARGIN_MM + SIDE_MM / 2.0
    places = (
        (inset, inset),
        (width - inset, inset),
        (width - inset, height - inset),
        (inset, height - inset),
    )
    return Layout(
        method="sheet",
        name=f"{paper} sheet",
        sides_mm=dict.fromkeys(IDS, SIDE_MM),
        centres_mm=dict(zip(IDS, places, strict=True)),
        paper_mm=(width, height),
    )


def hypotheses(ids: tuple[int, ...], paper: str | None = None) -> tuple[Layout, ...]:
    """Return the sheets that markers with these ids may be from."""
    if len(set(ids) & set(IDS)) < 2:
        return ()
    papers = tuple(PAPERS_MM) if paper is None else (paper,)
    return tuple(sheet_layout(name) for name in papers)
