"""Loose markers: the sheet's four on 60 mm cards, anywhere on the plane."""

from fishmeasure.markers.layout import Layout
from fishmeasure.markers.sheet import IDS, SIDE_MM

CARD_MM = 60.0


def hypotheses(ids: tuple[int, ...], paper: str | None = None) -> tuple[Layout, ...]:
    """Return the loose layout where two or more of its markers are seen.

    A sheet that was named leaves no room for loose cards.
    """
    if len(set(ids) & set(IDS)) < 2 or paper is not None:
        return ()
    layout = Layout(
        method="loose-markers",
        name="loose cards",
        sides_mm=dict.fromkeys(IDS, SIDE_MM),
        card_per_side=CARD_MM / SIDE_MM,
    )
    return (layout,)
