"""What a message of the catalogue needs: its parameters, and examples of them."""

from collections.abc import Iterator
from typing import Any

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.words.compiled import Entry, Pattern, entry_of
from fishmeasure.base.words.units import unit_of

SPOKEN = ("advice", "cli", "page")
PLURALS = {"zero", "one", "two", "few", "many", "other"}


def patterns(code: str, language: str, *, told: bool) -> Iterator[Pattern]:
    """Yield the value of a message and, where it is told, what to do."""
    entry: Entry = entry_of(code, language)
    yield entry.get("value", [])
    for name in SPOKEN if told else ():
        yield entry.get("attributes", {}).get(name, [])


def needed(
    pattern: Pattern, language: str, case: str | None
) -> Iterator[tuple[str, str]]:
    """Yield the parameters that a pattern takes in a case, each with what takes it."""
    for part in pattern:
        if isinstance(part, str):
            continue
        if "var" in part:
            yield part["var"], ""
        elif "call" in part:
            for item in part["args"]:
                yield item["var"], part["call"]
        elif "message" in part:
            entry = entry_of(part["message"], language)
            name = part.get("attribute")
            inner = entry["attributes"][name] if name else entry["value"]
            yield from needed(inner, language, case)
        else:
            yield from _selected(part, language, case)


def _selected(
    part: Entry, language: str, case: str | None
) -> Iterator[tuple[str, str]]:
    variants = part["variants"]
    name = part["select"].get("var", "")
    if name == "case":
        yield name, "word"
        chosen = [variants.get(case, variants[part["default"]])]
    else:
        counted = set(variants) <= PLURALS and "one" in variants
        yield from (
            needed([part["select"]], language, case)
            if not name
            else [(name, "count" if counted else "word")]
        )
        chosen = list(variants.values())
    for variant in chosen:
        yield from needed(variant, language, case)


def needs(
    code: str, language: str, case: str | None, *, told: bool = True
) -> dict[str, str]:
    """Return all parameters of a message in a case, with what takes them."""
    found: dict[str, str] = {}
    for pattern in patterns(code, language, told=told):
        for name, taker in needed(pattern, language, case):
            found[name] = taker or found.get(name, "")
    return found


NAMES = ("first", "second", "third")
SPAN = Estimate(value=212.0, sd=8.0, low=199.0, high=225.0)


def examples(wanted: dict[str, str], case: str | None) -> Iterator[dict[str, Any]]:
    """Yield parameters of the kinds that a message takes: few and many, with a span."""
    for count, figure in ((1, 1.5), (3, 212.0), (3, SPAN)):
        values = {
            name: _example(name, taker, count, figure) for name, taker in wanted.items()
        }
        yield values | ({"case": case} if case is not None else {})


def _example(name: str, taker: str, count: int, figure: Any) -> Any:
    if taker == "" and unit_of(name):
        return 1.5
    kinds = {
        "SHARE": SPAN,
        "DAY": "2026-05-02",
        "count": count,
        **dict.fromkeys(("LIST", "STEPS", "ALTERNATIVES", "ASKED"), NAMES),
        **dict.fromkeys(("NUMBER", "AMOUNT", "PERCENT"), figure),
        "WEIGHT": 212.0,
        "FINGERLINGS": 5.0,
    }
    return kinds.get(taker, "word")
