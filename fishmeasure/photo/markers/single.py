"""One marker beside the fish: id 10, or any one of the sheet's."""

from fishmeasure.photo.markers import sheet
from fishmeasure.photo.markers.layout import Layout

ID = 10
SIDE_MM = 60.0
CARD_MM = 80.0
_MARGIN = 1.5  # white around a marker of the sheet, over its side


def hypotheses(ids: tuple[int, ...], paper: str | None = None) -> tuple[Layout, ...]:
    """Return the layout of a marker that is seen alone, on whatever paper.

    Where there are more they must agree: going by one of them would hide that they
    do not.
    """
    del paper
    if len(ids) != 1:
        return ()
    (marker_id,) = ids
    side_mm = SIDE_MM if marker_id == ID else sheet.SIDE_MM
    card_mm = CARD_MM if marker_id == ID else _MARGIN * side_mm
    layout = Layout(
        method="single-marker",
        name="one marker",
        sides_mm={marker_id: side_mm},
        cards_mm={marker_id: card_mm},
    )
    return (layout,)
