"""One marker beside the fish: id 10, or any one of the sheet's."""

from fishmeasure.markers import sheet
from fishmeasure.markers.layout import Layout

ID = 10
SIDE_MM = 60.0
CARD_MM = 80.0


def hypotheses(ids: tuple[int, ...], paper: str | None = None) -> tuple[Layout, ...]:
    """Return the layout of the one marker to go by, the largest print first.

    ``paper`` is of no matter for one marker.
    """
    del paper
    if ID in ids:
        card = Layout(
            method="single-marker",
            name="single card",
            sides_mm={ID: SIDE_MM},
            card_per_side=CARD_MM / SIDE_MM,
        )
        return (card,)
    of_sheet = sorted(set(ids) & set(sheet.IDS))[:1]
    return tuple(
        Layout(
            method="single-marker",
            name="one marker of a sheet",
            sides_mm={marker_id: sheet.SIDE_MM},
            card_per_side=1.5,
        )
        for marker_id in of_sheet
    )
