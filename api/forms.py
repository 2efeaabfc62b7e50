"""What the page's forms are made of: the schemas of the records that people fill in.

Ranges, choices and what is required stand in the records alone; the page knows the
order of its fields and, from its texts, their labels.
"""

from typing import Any

from pydantic import TypeAdapter

from api.routes.devices import PairIn
from fishmeasure.base.record import json_schema
from fishmeasure.book.entries import ENTRY_KINDS
from fishmeasure.book.posterior.fish import MOST_WEIGHT_CHANGE
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.photo.lens import LensProfile
from fishmeasure.photo.settings import PhotoChoices


def form_schemas() -> dict[str, Any]:
    """Return the JSON Schema of each record by the page's name for it."""
    return {
        "entries": {kind: json_schema(made) for kind, made in ENTRY_KINDS.items()},
        "unit": json_schema(Unit),
        "cohort": json_schema(Cohort),
        "photo": json_schema(PhotoChoices),
        "lens": json_schema(LensProfile),
        "device": TypeAdapter(PairIn).json_schema(),
        "most_weight_change": MOST_WEIGHT_CHANGE,
    }
