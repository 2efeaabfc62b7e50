"""A pydantic model for a record of the book, so that the API describes each field."""

import types
from collections.abc import Iterable
from dataclasses import MISSING, fields, is_dataclass
from datetime import time
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel, ConfigDict, Field, WithJsonSchema, create_model

from fishmeasure.book.values import MaxLength, Within

# Longest first: the first that fits is taken.
_UNITS = (
    ("_percent_per_day", "% a day"),
    ("_mg_per_l_h", "mg per litre and hour"),
    ("_mg_per_kg_h", "mg per kg and hour"),
    ("_g_per_m2_day", "g per m2 and day"),
    ("_n_mg_per_l", "mg of nitrogen per litre"),
    ("_kg_per_m3", "kg per m3"),
    ("_kg_per_day", "kg a day"),
    ("_m3_per_day", "m3 a day"),
    ("_g_per_day", "g a day"),
    ("_m_per_day", "m a day"),
    ("_kg_per_h", "kg per hour"),
    ("_mg_per_l", "mg per litre"),
    ("_l_per_min", "litres per minute"),
    ("_g_per_kg", "g per kg"),
    ("_g_per_h", "g per hour"),
    ("_m_per_s", "m per second"),
    ("_deg_c", "degrees Celsius"),
    ("_g_cm", "g per cm^b"),
    ("_fraction", "0 to 1"),
    ("_percent", "%"),
    ("_x1000", "times 1000, g^(1/3) per degree-day"),
    ("_hpa", "hPa"),
    ("_deg", "degrees"),
    ("_days", "days"),
    ("_hours", "hours"),
    ("_min", "minutes"),
    ("_sd_ln", "a fraction, standard deviation of the logarithm"),
    ("_kg", "kg"),
    ("_m3", "m3"),
    ("_m2", "m2"),
    ("_mm", "mm"),
    ("_px", "pixels"),
    ("_sd", "a fraction, standard error"),
    ("_m", "m"),
    ("_g", "g"),
    ("_wh", "Wh"),
    ("_w", "W"),
    ("_l", "litres"),
    ("_h", "hours"),
    ("_c", "degrees Celsius"),
)
_WORDS = {
    "id": "UUID made by whoever writes it; sent twice, it is one record.",
    "on": "Day on which it happened.",
    "at": "Time of day, local.",
    "replaces": "Entry that this one corrects or takes back.",
    "note": "Anything worth keeping.",
    "version": "1 for a new record, one more for each change.",
    "recorded_at": "Written by the server.",
    "unit_id": "Unit in which it happened.",
    "to_unit_id": "Unit that the fish went to.",
    "cohort_id": "Cohort that it is about.",
    "species_key": "Key of the species.",
    "level": "Chance that the interval covers, 0 to 1.",
    "cv": "Standard deviation over mean of single weights, a fraction.",
    "ph": "pH.",
    "alkalinity_mg_per_l": "Alkalinity as calcium carbonate, mg per litre.",
    "ammonia_as_nh4_mg_per_l": "Total ammonia as NH4, mg per litre; kept as nitrogen.",
    "ammonia_as_nh3_mg_per_l": "Total ammonia as NH3, mg per litre; kept as nitrogen.",
    "nitrite_as_no2_mg_per_l": "Nitrite as NO2, mg per litre; kept as nitrogen.",
    "nitrate_as_no3_mg_per_l": "Nitrate as NO3, mg per litre; kept as nitrogen.",
    "water_system": "How the water is kept clean; null is worked out from its flows.",
    "biofilter_feed_kg_per_day": "Daily feed that the biofilter was sized for, kg.",
    "b": "Exponent of W = a L^b.",
    "value": "Best figure, in the unit of the field.",
    "sd": "Standard error, in the unit of the field.",
    "low": "Low end of the interval, in the unit of the field.",
    "high": "High end of the interval, in the unit of the field.",
    "alpha": "Oxygen transfer in this water over that in clean water, a fraction.",
    "beta": "Oxygen saturation of this water over that of clean water, a fraction.",
    "theta": "Growth of the transfer rate per degree, times.",
    "capacity_wh": "What its battery holds by its label, Wh.",
    "cylinder_l": "Oxygen in the full cylinder, litres of gas: volume times bar.",
    "gas_l_per_min": "Air, or oxygen of an oxygen feed, litres per minute.",
    "backup_hours": "How long it goes on without mains, as tried out, hours.",
    "on_backup": "Whether it goes on when the mains power stops.",
    "standby": "What runs only when something has stopped.",
    "runtime_h": "How long its battery or cylinder lasts at most, hours.",
    "runtime_least_h": "How long its battery or cylinder lasts at least, hours.",
    "condition_factor": "100 W / L^3 in g and cm.",
    "condition_factor_low": "Low end of its interval, in g and cm.",
    "condition_factor_high": "High end of its interval, in g and cm.",
    "print_scale": "Printed over nominal size: the check line in mm / 100.",
    "species": "Key of the species; empty is the default.",
    "paper": "Paper of the sheet, where it cannot be seen.",
    "lens": "Name of a lens profile.",
    "known": "Scale by hand: X1,Y1,X2,Y2=MM, pixels and mm.",
    "left_cv": "Spread of the weights that are left, a fraction.",
    "fork_per_total": "Fork length over total length, a fraction.",
    "standard_per_total": "Standard length over total length, a fraction.",
    "thickness_per_depth": "Thickness over depth, a fraction.",
    "depth_per_fork_length": "Depth over fork length, a fraction.",
    "days": "Days.",
    "hours": "Hours.",
    "minutes": "Minutes.",
    "date": "The day.",
    "limit": "Most items in the answer.",
    "cursor": "`next` of the page before.",
    "degree_days": "Degrees Celsius times days.",
    "fish_count_sd": "Standard error of the count, fish.",
}


def description(name: str) -> str:
    """Return what a field means, with its unit, from its name."""
    if name in _WORDS:
        return _WORDS[name]
    for suffix, unit in _UNITS:
        if name.endswith(suffix):
            return (
                f"{name.removesuffix(suffix).replace('_', ' ').capitalize()}, {unit}."
            )
    return f"{name.replace('_', ' ').capitalize()}."


# Local time of day; the format "time" of RFC 3339 would need a zone.
LocalTime = Annotated[
    time,
    WithJsonSchema(
        {
            "type": "string",
            "pattern": r"^[0-2]\d:[0-5]\d(:[0-5]\d(\.\d{1,6})?)?$",
            "examples": ["06:30"],
        }
    ),
]


def _type_of(hint: Any) -> tuple[Any, dict[str, Any]]:
    """Return the pydantic type of an annotation, and the limits of its field."""
    origin, args = get_origin(hint), get_args(hint)
    if hint is time:
        return LocalTime, {}
    if origin is Annotated:
        kind, limits = _type_of(args[0])
        for rule in args[1:]:
            if isinstance(rule, Within):
                limits |= {"ge": rule.low, "le": rule.high}
            elif isinstance(rule, MaxLength):
                limits |= {"max_length": rule.length}
        return Annotated[kind, Field(**limits)] if limits else kind, {}
    if origin in {Union, types.UnionType}:
        inner = next(arg for arg in args if arg is not types.NoneType)
        return _type_of(inner)[0] | None, {}
    if origin is tuple:
        return list[_type_of(args[0])[0]], {}  # type: ignore[misc]
    if is_dataclass(hint) and isinstance(hint, type):
        return model_of(hint), {}
    return hint, {}


def model_of(kind: Any, *, tag: str = "") -> type[BaseModel]:
    """Return a model with the fields of a record; ``tag`` adds its ``kind``."""
    hints = get_type_hints(kind, include_extras=True)
    definitions: dict[str, Any] = {}
    if tag:
        definitions["kind"] = (Literal[tag], Field(description="Kind of the entry."))
    for item in fields(kind):
        has_default = item.default is not MISSING or item.default_factory is not MISSING
        default: Any = ...
        if item.default is not MISSING:
            is_list = isinstance(item.default, tuple)
            default = list(item.default) if is_list else item.default
        elif has_default:
            default = None
        field_type = _type_of(hints[item.name])[0]
        if default is None:
            field_type |= None
        definitions[item.name] = (
            field_type,
            Field(default=default, description=description(item.name)),
        )
    return create_model(
        kind.__name__,
        __config__=ConfigDict(extra="forbid", from_attributes=True),
        **definitions,
    )


def union_of(models: Iterable[type[BaseModel]]) -> Any:
    """Return the union of models told apart by their ``kind``."""
    return Annotated[Union[tuple(models)], Field(discriminator="kind")]  # noqa: UP007


def plain(model: BaseModel) -> dict[str, Any]:
    """Return what was sent, as the book's own reader takes it."""
    return model.model_dump(mode="json", exclude_unset=True, exclude_none=True)
