"""How the catalogue's sentences write figures, days and lists: Fluent's functions.

``NUMBER($x, digits: 3)``, ``NUMBER($x, decimals: 1)``
    A number to some significant digits, never a power of ten, or to some decimals;
    with ``atMost: 3`` to so many digits, without zeros at its end.
``AMOUNT($weight_g, decimals: 0)``
    The same with its unit, which the parameter's name ends in.
``WEIGHT($weight_g)``
    A fish's weight to about three figures, in grams or kilograms.
``PERCENT($share)``
    A fraction in per cent; ``decimals`` as above.
``SHARE($used)``
    How much of a limit is used, the unsafe end first.
``DAY($on)``
    A day, as the language writes it.
``LIST($names)``, ``LIST($names, last: "or")``
    Names one after another.
``ALTERNATIVES($names)``
    One thing or another that begins a sentence: "A; or b".
``ASKED($names)``
    ": A or b?" at the end of a sentence; its full stop where there is no name.
``STEPS($steps)``, ``CAPITAL($text)``, ``LOWER($text)``
    What to do, one step after another, as a sentence; a text that begins one, or not.
``QUOTED($text)``
    What somebody typed, in quotes, with what cannot be printed made visible.
``STOP($text)``
    A text with the full stop that it lacks.
``SHELL($name)``, ``SHELL($name, key: "name")``
    A name, or name=…, as one word of a command line.

``FINGERLINGS($each_g)``
    How fingerlings of a weight are sold: "200 a kg, 5 kg a thousand".

In US customary units a weight of fish is written in pounds and ounces together, with
its unit, by NUMBER too; ``bare: 1`` gives ounces alone, for a table.

A figure with an interval is written "value (low to high)" by each of them, or by
``end: "low"`` and ``end: "high"`` as the end to act on first: "low (likely value)".
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from babel import Locale
from babel.dates import format_date
from babel.numbers import get_decimal_symbol
from fluent.runtime import FluentBundle
from fluent.runtime.resolver import CurrentEnvironment, ResolverEnvironment
from fluent.runtime.types import FluentFloat, FluentInt, FluentNone, FluentType

from fishmeasure.base.words.figures import shell_word
from fishmeasure.base.words.message import Interval, Value
from fishmeasure.base.words.units import LB_PER_KG, OZ_PER_LB, Unit, unit_of
from fishmeasure.base.words.voice import Units

Lookup = Callable[..., str]
"""Says a message of the catalogue by its id and parameters."""
_PAST_ALL = 9.995  # more of a limit is only said to be past all use
_KILOGRAM_G = 1000.0
_LARGE_G = 20.0  # from here on a gram is fine enough
_OUNCE = "oz"
_US_DIGITS = 4  # of a figure that has no form: what a conversion adds is no figure
_LONGEST = 2000  # Fluent refuses a longer text inside a sentence


class Whole(FluentInt):
    """A whole number inside a sentence, which a plural may depend on."""

    unit: Unit | None = None

    def format(self, locale: Locale) -> str:
        """Return it without marks between thousands."""
        del locale
        return str(int(self))


class Number(FluentFloat):
    """A number inside a sentence."""

    unit: Unit | None = None

    def format(self, locale: Locale) -> str:
        """Return it as short as six digits allow."""
        return _marked(_short(float(self)), locale)


class Span(FluentType):
    """A figure with its interval inside a sentence."""

    def __init__(self, figure: Interval, unit: Unit | None) -> None:
        self.figure = figure
        self.unit = unit


@dataclass(frozen=True, slots=True)
class _Way:
    """How a figure is put into the system of units, and written."""

    turned: Callable[[float], float]
    written: Callable[[float, dict[str, Any]], str]


class Names(FluentType):
    """Several names inside a sentence."""

    def __init__(self, items: tuple[str, ...]) -> None:
        self.items = items


class Bundle(FluentBundle):
    """Entries of a language, which take the figures above as they are.

    Fluent's own bundle makes a plain number of each, without its unit.
    """

    def format_pattern(
        self, pattern: Any, args: dict[str, Any] | None = None
    ) -> tuple[str | FluentNone, list[Exception]]:
        """Return a pattern with its parameters put in, and what went wrong."""
        errors: list[Exception] = []
        current = CurrentEnvironment(args=args or {})
        try:
            text = pattern(ResolverEnvironment(self, errors, current=current))
        except ValueError as error:  # a text too long, entries in a circle
            return FluentNone(), [*errors, error]
        return text, errors


def argument(name: str, value: Value, say: Callable[[Any], str]) -> Any:
    """Return a parameter as Fluent takes it; ``say`` says a message inside it."""
    found: Any
    if value is None or isinstance(value, bool):
        found = {True: "yes", False: "no", None: "?"}[value]
    elif isinstance(value, int | float):
        found = Whole(value) if isinstance(value, int) else Number(value)
        found.unit = unit_of(name)
    elif isinstance(value, str):
        found = value if len(value) <= _LONGEST else f"{value[:_LONGEST]}…"
    elif isinstance(value, tuple):
        found = Names(tuple(_name(name, item, say) for item in value))
    elif isinstance(value, Interval):
        found = Span(value, unit_of(name))
    else:
        found = say(value)
    return found


def _name(name: str, item: Value, say: Callable[[Any], str]) -> str:
    found = argument(name, item, say)
    return found if isinstance(found, str) else str(item)


class Functions:
    """The functions of one language and system of units."""

    def __init__(self, locale: Locale, units: Units, lookup: Lookup) -> None:
        self._locale = locale
        self._us = units == "us"
        self._lookup = lookup

    def table(self) -> dict[str, Callable[[Any], Any]]:
        """Return them by the names that they have in the catalogue."""
        return {
            "NUMBER": self.number,
            "AMOUNT": self.amount,
            "WEIGHT": self.weight,
            "FINGERLINGS": self.fingerlings,
            "PERCENT": self.percent,
            "SHARE": self.share,
            "DAY": self.day,
            "LIST": self.listing,
            "ALTERNATIVES": self.alternatives,
            "ASKED": self.asked,
            "STEPS": _steps,
            "CAPITAL": _capital,
            "LOWER": _lower,
            "QUOTED": _quoted,
            "STOP": _stop,
            "SHELL": _shell,
        }

    def number(self, figure: Any, **form: Any) -> str:
        """Return a number or an interval, in the system of units, without the unit."""
        unit = getattr(_given(figure), "unit", None)
        known = _known(form)
        bare = known.pop("bare", 0)
        if unit is None or not self._us or not unit.us:
            return self._figure(figure, known, _Way(lambda value: value, self._fixed))
        if "decimals" in known:
            known["decimals"] = max(known["decimals"] + unit.finer, 0)
        elif not known and not isinstance(figure, Span):
            known["atMost"] = _US_DIGITS
        together = unit.us == _OUNCE and not bare
        write = self._ounces if together else self._fixed
        return self._figure(figure, known, _Way(unit.shown, write))

    def amount(self, figure: Any, **form: Any) -> str:
        """Return a number or an interval with its unit."""
        unit = _given(figure).unit
        if unit is None:
            message = "the parameter's name ends in no unit"
            raise ValueError(message)
        text = self.number(figure, **form)
        name = unit.us if self._us and unit.us else unit.name
        return text if name == _OUNCE else f"{text} {self._lookup(f'unit-{name}')}"

    def weight(self, figure: Any) -> str:
        """Return a fish's weight to about three figures, in the unit that fits it."""
        grams = float(_given(figure))
        if self._us:
            return self.amount(figure, decimals=0)
        if grams >= _KILOGRAM_G:
            text = self._fixed(grams / _KILOGRAM_G, {"decimals": 2})
            return f"{text} {self._lookup('unit-kg')}"
        text = self._fixed(grams, {"decimals": 0 if grams >= _LARGE_G else 1})
        return f"{text} {self._lookup('unit-g')}"

    def percent(self, share: Any, **form: Any) -> str:
        """Return a fraction in per cent; past all use it is only said to be past it."""
        form = _known({"decimals": 0, **form})
        if isinstance(share, Span):
            return self._span(share, form, _Way(lambda value: value, self._share))
        return self._share(float(_given(share)), form)

    def share(self, share: Any) -> str:
        """Return how much of a limit is used, the unsafe end first."""
        figure, form = _given(share).figure, {"decimals": 0}
        high, middle = self._share(figure.high, form), self._share(figure.value, form)
        past = figure.high > _PAST_ALL
        most = high if past else self._lookup("share-up-to", high=high)
        if high == middle:
            return most
        return self._lookup("share-likely", high=most, value=middle)

    def day(self, day: Any) -> str:
        """Return a day that is given in ISO 8601."""
        form = self._lookup("day-format")
        return str(format_date(date.fromisoformat(_given(day)), form, self._locale))

    def alternatives(self, names: Any) -> str:
        """Return sentences' beginnings as one: "A; or b"."""
        first, *rest = _given(names).items
        for item in rest:
            first = self._lookup("alternatives", first=first, other=item)
        return _capital(first)

    def asked(self, names: Any) -> str:
        """Return the question which of some names is meant, or the full stop."""
        items = _given(names).items
        return self._lookup("asked", names=names) if items else "."

    def listing(self, names: Any, last: str = "", between: str = ", ") -> str:
        """Return names with commas between them; the last after "or" or "and"."""
        items = _given(names).items
        if not last or len(items) < 2:
            return between.join(items)
        first, end = ", ".join(items[:-1]), items[-1]
        return self._lookup(f"list-{last}", first=first, last=end)

    def fingerlings(self, each: Any) -> str:
        """Return how many go into a weight, and what a thousand weigh."""
        case = "us" if self._us else "metric"
        each_kg = float(_given(each)) / _KILOGRAM_G
        each_unit = each_kg * LB_PER_KG if self._us else each_kg
        if each_unit <= 0.0:
            message = "fish of no weight are not sold by weight"
            raise ValueError(message)
        form = {"digits": 3}
        same = _Way(lambda value: value, self._fixed)
        return self._lookup(
            "fingerlings-sold",
            case=case,
            count=self._figure(1.0 / each_unit, form, same),
            thousand=self._figure(1000.0 * each_unit, form, same),
        )

    def _ounces(self, ounces: float, form: dict[str, Any]) -> str:
        """Return ounces, or pounds and ounces from a pound on."""
        places = form.get("decimals", 1)
        places = 2 if abs(ounces) < 1.0 else min(max(places, 1), 2)
        rounded = round(abs(ounces), places)
        pounds, rest = divmod(rounded, OZ_PER_LB)
        text = f"{self._fixed(rest, {'decimals': places})} {self._lookup('unit-oz')}"
        if pounds:
            text = f"{pounds:.0f} {self._lookup('unit-lb')} {text}"
        return f"-{text}" if ounces < 0.0 and rounded else text

    def _figure(self, figure: Any, form: dict[str, Any], way: "_Way") -> str:
        if isinstance(_given(figure), Span):
            return self._span(figure, form, way)
        value = way.turned(figure if isinstance(figure, int) else float(figure))
        if "decimals" in form or "atMost" in form:
            return way.written(value, form)
        if "digits" in form:
            return way.written(value, {"decimals": _places(abs(value), form["digits"])})
        short = str(value) if isinstance(value, int) else _short(value)
        return _marked(short, self._locale)

    def _span(
        self,
        span: Span,
        form: dict[str, Any],
        way: "_Way",
    ) -> str:
        written = way.written
        value, low, high = (
            way.turned(end)
            for end in (span.figure.value, span.figure.low, span.figure.high)
        )
        if "decimals" not in form and "atMost" not in form:
            largest = max(abs(value), abs(high) / 10.0)
            form = {**form, "decimals": _places(largest, form.get("digits", 3))}
        texts = {
            "value": written(value, form),
            "low": written(low, form),
            "high": written(high, form),
        }
        if low == high and "all" not in form:
            return texts["value"]
        if end := form.get("end"):
            return self._lookup(f"span-{end}", **texts)
        return self._lookup("span", **texts)

    def _fixed(self, value: float, form: dict[str, Any]) -> str:
        if "decimals" not in form:
            return _marked(_short(value, form["atMost"]), self._locale)
        places = form["decimals"]
        text = f"{round(value, places) + 0.0:.{max(places, 0)}f}"
        return _marked(text, self._locale)

    def _share(self, share: float, form: dict[str, Any]) -> str:
        if share > _PAST_ALL:
            return self._lookup("percent-past-all")
        return self._lookup("percent", value=self._fixed(100.0 * share, form))


def _given(value: Any) -> Any:
    """Return what is there; a parameter that is not is a bug."""
    if isinstance(value, FluentNone):
        message = "a parameter is missing"
        raise ValueError(message)  # noqa: TRY004 - it is not of a wrong type
    return value


def _known(form: dict[str, Any]) -> dict[str, Any]:
    """Return the options of a figure as Python's own."""
    known = {"decimals": int, "digits": int, "atMost": int, "end": str}
    known |= {"all": int, "bare": int}
    return {name: known[name](value) for name, value in form.items()}


def _quoted(text: Any) -> str:
    return repr(_given(text))


def _stop(text: Any) -> str:
    return text if _given(text).endswith(("?", "!", ".")) else f"{text}."


def _steps(steps: Any) -> str:
    return _stop(_capital("; ".join(_given(steps).items)))


def _lower(text: Any) -> str:
    return f"{_given(text)[:1].lower()}{text[1:]}"


def _capital(text: Any) -> str:
    return f"{_given(text)[:1].upper()}{text[1:]}"


def _shell(text: Any, key: str = "") -> str:
    return shell_word(f"{key}={_given(text)}" if key else _given(text))


def _places(size: float, digits: int) -> int:
    return digits - 1 - math.floor(math.log10(size)) if size > 0.0 else 0


def _short(value: float, digits: int = 6) -> str:
    """Return a number to so many digits at most, never as a power of ten."""
    text = f"{value:.{digits}g}"
    if "e" not in text:
        return text
    fixed = f"{value:.{max(_places(abs(value), digits), 0)}f}"
    return fixed.rstrip("0").rstrip(".") if "." in fixed else fixed


def _marked(text: str, locale: Locale) -> str:
    return text.replace(".", get_decimal_symbol(locale))
