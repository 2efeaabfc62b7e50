"""Numbers and weights as people type them, in any country's way.

A number may have a point or a comma before its decimals, spaces, points, commas or
apostrophes between its thousands. One mark with three digits after it can mean either
("1.250"): where it is not the reader's own decimal mark it is asked, not guessed.
"""

import re
from typing import Final

from babel import Locale
from babel.numbers import get_decimal_symbol

from fishmeasure.base.errors import NoNumberError, UnclearNumberError
from fishmeasure.base.words import voice
from fishmeasure.base.words.units import GRAMS_PER_LB

GRAMS_PER: Final = {
    "g": 1.0,
    "kg": 1000.0,
    "lb": GRAMS_PER_LB,
    "oz": GRAMS_PER_LB / 16.0,
}

# Spaces (\s has the narrow and the fixed ones too) and apostrophes part thousands.
_SPACES: Final = re.compile(r"(?<=\d)[\s'\u2019](?=\d{3}(?!\d))")
_NUMBER: Final = re.compile(r"[-+]?(\d+[.,]?\d*|[.,]\d+)")
_THOUSANDS: Final = re.compile(r"[-+]?[1-9]\d{0,2}([.,])\d{3}")
_MANY: Final = re.compile(r"[-+]?[1-9]\d{0,2}(?:([.,])\d{3})(?:\1\d{3})*(?:([.,])\d*)?")
_UNITS: Final = {
    "g": "g",
    "gr": "g",
    "gram": "g",
    "grams": "g",
    "kg": "kg",
    "lb": "lb",
    "lbs": "lb",
    "pound": "lb",
    "pounds": "lb",
    "#": "lb",
    "oz": "oz",
    "ounce": "oz",
    "ounces": "oz",
}
_PART: Final = re.compile(r"([-+]?[\d.,\s'\u2019]*\d[.,]?)\s*([^\W\d_]+|#)?\.?\s*")


def decimal_mark() -> str:
    """Return the decimal mark of the language that is spoken, a point or a comma."""
    return str(get_decimal_symbol(Locale.parse(voice().language)))


def typed_number(text: str, mark: str | None = None) -> float:
    """Return the number that a person typed.

    Parameters
    ----------
    text
        Such as ``1912``, ``1 912``, ``1,912.5`` or ``1.912,5``.
    mark
        The decimal mark that is usual where it was typed; else the language's.

    Raises
    ------
    NoNumberError
        If it is none.
    UnclearNumberError
        If it can be read in two ways.
    """
    bare = _SPACES.sub("", text.strip())
    point = mark or decimal_mark()
    one = _THOUSANDS.fullmatch(bare)
    if one is not None and one[1] != point:
        figure = re.sub("[.,]", "", bare)
        raise UnclearNumberError(
            given=text.strip(), whole=figure, decimal=bare.replace(one[1], point)
        )
    many = _MANY.fullmatch(bare)
    if many is not None and one is None and many[1] != many[2]:
        return float(bare.replace(many[1], "").replace(",", "."))
    if _NUMBER.fullmatch(bare) is None:
        raise NoNumberError(given=text.strip()[:60])
    return float(bare.replace(",", "."))


def typed_weight_g(text: str, unit: str = "g", mark: str | None = None) -> float:
    """Return a weight in grams that a person typed, such as ``4 lb 3.5 oz``.

    Parameters
    ----------
    text
        One number, or several with their units, which are added.
    unit
        Of a number alone: a key of ``GRAMS_PER``.
    mark
        As ``typed_number``.

    Raises
    ------
    NoNumberError, UnclearNumberError
        As ``typed_number``; also where the unit is not known.
    """
    parts = list(_PART.finditer(text.strip()))
    if not parts or "".join(part[0] for part in parts) != text.strip():
        raise NoNumberError(given=text.strip()[:60])
    total_g = 0.0
    for part in parts:
        word = part[2].lower() if part[2] else unit if len(parts) == 1 else ""
        if word not in _UNITS:
            raise NoNumberError(given=text.strip()[:60])
        total_g += typed_number(part[1], mark) * GRAMS_PER[_UNITS[word]]
    return total_g
