"""The command against what is said; told at the command line alone."""

from typing import TYPE_CHECKING, Final
from uuid import UUID

from fishmeasure.base.errors import FishMeasureError, UnknownRecordError
from fishmeasure.base.words import shell_word

if TYPE_CHECKING:
    from fishmeasure.outlook.unit import UnitOutlook

_PUMP = '[{"name": "air pump", "gas_l_per_min": …, "diffuser_depth_m": …}]'


def command_hints(outlook: "UnitOutlook") -> list[str]:
    """Return the commands for the problems of an outlook, in their order."""
    unit = shell_word(outlook.unit.name)
    change = f"fishmeasure book change unit {unit}"
    hints = {
        "no-fish": f"fishmeasure book add stocked unit={unit} cohort=… fish_count=… "
        "mean_weight_g=… on=…",
        "no-oxygen-supply": f"{change} inflow_l_per_min=… or {change} "
        f"aeration='{_PUMP}'",
        "pond-use-unknown": f"{change} water_respiration_mg_per_l_h=…",
    }
    codes = dict.fromkeys(problem.code for problem in outlook.problems)
    return [f"To enter it: {hints[code]}" for code in codes if code in hints]


# What a new one needs beside its name; the dots are for the grower to fill in.
_FIELDS: Final = {
    "unit": "kind=… volume_m3=… depth_m=…",
    "cohort": "species_key=…",
}
_OF_ERRORS: Final = {
    "no-book": "See --book and FISHMEASURE_BOOK; 'fishmeasure book add unit' adds one.",
    "book-damaged": "See 'fishmeasure restore' and 'fishmeasure book export'.",
    "book-in-use": "Stop 'fishmeasure serve', or wait for 'fishmeasure restore'.",
    "no-backup": "'fishmeasure backup' makes one.",
    "lens-file": "'fishmeasure lens' makes one.",
}


def error_hint(error: FishMeasureError) -> str:
    """Return the command against an error; empty where there is none."""
    if isinstance(error, UnknownRecordError):
        return _adding(error.what, error.name)
    return _OF_ERRORS.get(error.code, "")


def _adding(what: str, name: str) -> str:
    """Return how a unit or cohort of a name is added; nothing for an identifier."""
    try:
        UUID(name)
    except ValueError:
        fields = _FIELDS.get(what)
        if fields is None:
            return ""
        named = shell_word(f"name={name}")
        return f"To add it: fishmeasure book add {what} {named} {fields}"
    return ""
