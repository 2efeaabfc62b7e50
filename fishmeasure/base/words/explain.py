"""The table of codes: what each means, made from the catalogue."""

from dataclasses import dataclass

from fishmeasure.base.words.catalogue import meaning
from fishmeasure.base.words.compiled import Pattern, entry_of, outlines
from fishmeasure.base.words.sources import ENGLISH, entries
from fishmeasure.base.words.voice import voice


@dataclass(frozen=True, slots=True)
class Explanation:
    """What a code means.

    Attributes
    ----------
    code
        The code.
    meaning
        A line.
    says, advice
        The sentences that go with it and what to do, the names of the figures in
        braces.
    """

    code: str
    meaning: str
    says: tuple[str, ...]
    advice: tuple[str, ...]


def codes() -> tuple[str, ...]:
    """Return all codes of errors and problems, sorted."""
    return tuple(
        sorted(name for name, text in entries(ENGLISH).items() if ".meaning =" in text)
    )


def explained(code: str) -> Explanation:
    """Return what a code means, in the present voice."""
    now = voice()
    entry = entry_of(code, now.language)
    attributes: dict[str, Pattern] = entry.get("attributes", {})
    advice = attributes.get(now.teller or "advice", attributes.get("advice", []))
    return Explanation(
        code=code,
        meaning=meaning(code),
        says=outlines(entry.get("value", [])),
        advice=outlines(advice),
    )
