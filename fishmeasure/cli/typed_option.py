"""Numbers of options, as people type them and in the unit that the help names."""

import re
from typing import Any, Final

from fishmeasure.base.words import voice
from fishmeasure.base.words.sources import ENGLISH, entries
from fishmeasure.base.words.units import UNITS, Unit

_NAMED: Final = re.compile(r"\{ unit-([a-z0-9-]+) \}")
_WORD: Final = re.compile(r"[+-]?(nan|inf|infinity)|.*\de[+-]?\d+", re.IGNORECASE)
_PER_WEIGHT: Final = re.compile(r"(.+)/ *(kg|lb)", re.IGNORECASE)
_GRAMS: Final = {"g": 1.0, "kg": 1000.0}
_BY_NAME: Final = {unit.name: unit for unit in UNITS.values()}


def take_numbers_as_typed(parameters: list[Any]) -> None:
    """Have the options that take a number read it so.

    12,5 is understood, 1.250 in a language with a decimal comma is asked; a weight may
    be 4 lb 3 oz, or of fingerlings 200/kg.
    """
    for parameter in parameters:
        kind = getattr(parameter, "type_descriptor", None)
        if kind is not None and kind.annotation is float and not parameter.multiple:
            _take(parameter, _unit_of(parameter.help or ""))


def _take(parameter: Any, unit: Unit | None) -> None:
    checked = type(parameter).process_value

    def process_value(context: Any, value: Any) -> Any:
        if isinstance(value, str) and not _WORD.fullmatch(value.strip()):
            value = _number(value, unit)
        return checked(parameter, context, value)

    parameter.process_value = process_value


def _unit_of(help_id: str) -> Unit | None:
    """Return the unit that an option's help names: what is shown is what is read."""
    named = _NAMED.search(entries(ENGLISH).get(help_id.partition("  [")[0], ""))
    return _BY_NAME.get(named[1]) if named else None


def _number(text: str, unit: Unit | None) -> float | str:
    """Return the metric figure; the text itself where it is no number."""
    # slow to import, and --help needs none
    from fishmeasure.base.errors import NoNumberError
    from fishmeasure.base.typed import typed_number, typed_weight_g

    us = voice().units == "us" and unit is not None and unit.us != ""
    try:
        if unit is not None and unit.name in _GRAMS:
            if sold := _PER_WEIGHT.fullmatch(text.strip()):
                each_g = typed_weight_g(f"1 {sold[2]}") / typed_number(sold[1])
            else:
                each_g = typed_weight_g(text, unit.us if us else unit.name)
            return each_g / _GRAMS[unit.name]
        figure = typed_number(text)
    except (NoNumberError, ZeroDivisionError):
        return text
    return unit.metric(figure) if us and unit is not None else figure
