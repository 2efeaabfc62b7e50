"""Loose markers: cards anywhere on the plane, at unknown distances.

The sheet's four markers on 60 mm cards, and the single marker's card where it lies
among them.
"""

from fishmeasure.photo.markers import single
from fishmeasure.photo.markers.layout import Layout
from fishmeasure.photo.markers.sheet import IDS, SIDE_MM

CARD_MM = 60.0


def hypotheses(ids: tuple[int, ...], paper: str | None = None) -> tuple[Layout, ...]:
    """Return the loose layout where two or more cards are seen, on whatever paper."""
    del paper
    if len(ids) < 2:
        return ()
    layout = Layout(
        method="loose-markers",
        name="loose cards",
        sides_mm={**dict.fromkeys(IDS, SIDE_MM), single.ID: single.SIDE_MM},
        cards_mm={**dict.fromkeys(IDS, CARD_MM), single.ID: single.CARD_MM},
    )
    return (layout,)
