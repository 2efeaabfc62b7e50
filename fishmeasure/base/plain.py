"""Records as what JSON knows."""

import dataclasses
import math
from datetime import date, time
from typing import Any
from uuid import UUID


def plain(value: Any) -> Any:
    """Return a record as objects, lists, numbers and words; no figure is null.

    Functions are left out: some records carry one beside their figures.
    """
    if hasattr(value, "as_plain"):
        value = value.as_plain()
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = ((f.name, getattr(value, f.name)) for f in dataclasses.fields(value))
        value = {name: item for name, item in fields if not callable(item)}
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, date | time | UUID):
        return str(value)
    if hasattr(
        value, "tolist"
    ):  # numpy's, whose import the command line can't wait for
        value = value.tolist()
    if isinstance(value, tuple | list):
        return [plain(item) for item in value]
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value
