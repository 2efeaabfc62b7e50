"""Sentences of the catalogue, said in a voice."""

import logging
import threading
from functools import cache
from typing import Any

from fishmeasure.base.words.message import Message
from fishmeasure.base.words.sources import ENGLISH, entries
from fishmeasure.base.words.units import US_NAMES
from fishmeasure.base.words.voice import Units, Voice, voice

_UNIT = "unit-"
log = logging.getLogger(__name__)


def fault(message: Message, errors: list[Exception]) -> None:
    """Note a sentence that the catalogue lacks or cannot fill; a test makes it fail."""
    told = ", ".join(sorted(message.parameters))
    log.error("no sentence for %s (%s): %s", message.code, told, errors)


def say(message: Message, in_voice: Voice | None = None) -> str:
    """Return what is wrong, then what to do now."""
    return f"{what(message, in_voice)} {advice(message, in_voice)}".strip()


def what(message: Message, in_voice: Voice | None = None) -> str:
    """Return what is wrong, with the figures.

    A sentence that a language lacks is said in English; one that English lacks is
    noted, and its code stands for it.
    """
    errors: list[Exception] = []
    for said_by in _voices(in_voice):
        text = _part(message, None, said_by, errors)
        if text is not None:
            return text
    fault(message, errors)
    return message.code


def advice(message: Message, in_voice: Voice | None = None) -> str:
    """Return what to do now, in the terms of who tells it; empty where nothing is."""
    errors: list[Exception] = []
    for said_by in _voices(in_voice):
        if message.code not in entries(said_by.language):
            continue
        for name in (said_by.teller, "advice"):
            text = name and _part(message, name, said_by, errors)
            if text:
                return text
    if errors:
        fault(message, errors)
    return ""


def can_say(message: Message) -> bool:
    """Return whether the catalogue has the sentence, and all that stands in it."""
    return _part(message, None, Voice(), []) is not None


def meaning(code: str, in_voice: Voice | None = None) -> str:
    """Return what a code means, in a line."""
    message = Message.of(code)
    for said_by in _voices(in_voice):
        text = _part(message, "meaning", said_by, [])
        if text is not None:
            return text
    return ""


def wording(code: str, /, **parameters: Any) -> str:
    """Return a piece of text of the catalogue in the present voice."""
    return what(Message.of(code, **parameters))


def _voices(in_voice: Voice | None) -> tuple[Voice, ...]:
    """Return the voice asked for, and English for what its language lacks."""
    wanted = in_voice or voice()
    if wanted.language == ENGLISH:
        return (wanted,)
    english = Voice(language=ENGLISH, teller=wanted.teller, units=wanted.units)
    return wanted, english


def _part(
    message: Message, attribute: str | None, said_by: Voice, errors: list[Exception]
) -> str | None:
    """Return a message's value or attribute; None where it is missing or not whole."""
    speaker = _speaker(said_by.language, said_by.units)
    return speaker.part(message, attribute, said_by, errors)


@cache
def _speaker(language: str, units: Units) -> "_Speaker":
    return _Speaker(language, units)


class _Speaker:
    """The entries of one language that were said so far, ready to be said again."""

    def __init__(self, language: str, units: Units) -> None:
        # Fluent and its calendars take long to import: --help needs none.
        from fishmeasure.base.words.functions import Bundle, Functions  # noqa: PLC0415
        from fishmeasure.base.words.locales import locale_of  # noqa: PLC0415

        self._language = language
        self._units = units
        self._entries = entries(language)
        self._parsed: set[str] = set()
        self._ready: set[str] = set()
        self._parsing = threading.RLock()
        functions = Functions(locale_of(language), units, self._lookup)
        self._bundle = Bundle(
            [language], functions=functions.table(), use_isolating=False
        )

    def part(
        self,
        message: Message,
        attribute: str | None,
        said_by: Voice,
        errors: list[Exception],
    ) -> str | None:
        from fishmeasure.base.words.functions import argument  # noqa: PLC0415

        def inside(inner: Message) -> str:
            return what(inner, said_by)

        arguments = {
            name: argument(name, value, inside)
            for name, value in message.parameters.items()
        }
        return self._formatted(message.code, attribute, arguments, errors)

    def _lookup(self, name: str, **texts: Any) -> str:
        errors: list[Exception] = []
        found = self._formatted(name, None, texts, errors)
        if found is None:
            raise errors[0] if errors else LookupError(name)
        return found

    def _formatted(
        self,
        name: str,
        attribute: str | None,
        arguments: dict[str, Any],
        errors: list[Exception],
    ) -> str | None:
        if not self._has(name):
            return None
        entry = self._bundle.get_message(name)
        pattern = entry.attributes.get(attribute) if attribute else entry.value
        if pattern is None:
            return None
        text, found = self._bundle.format_pattern(pattern, arguments)
        errors += found
        return None if found else str(text)

    def _has(self, name: str) -> bool:
        """Return whether an entry is there, and all that it refers to is parsed."""
        if name not in self._entries:
            return False
        if name not in self._ready:
            with self._parsing:  # another thread waits until all of it is there
                if name not in self._parsed:
                    self._parsed.add(name)
                    self._parse(name)
                self._ready.add(name)
        return True

    def _shown(self, name: str) -> str:
        """Return the unit that stands where a metric one does; else the same name."""
        unit = name.removeprefix(_UNIT)
        us = US_NAMES.get(unit) if self._units == "us" and unit != name else None
        return f"{_UNIT}{us}" if us else name

    def _parse(self, name: str) -> None:
        from fluent.syntax import ast  # noqa: PLC0415

        from fishmeasure.base.words.compiled import parsed, references  # noqa: PLC0415

        entry = parsed(self._shown(name), self._language)
        if entry.id.name != name and not name.startswith("-"):
            entry = ast.Message(ast.Identifier(name), entry.value)
        resource = ast.Resource([entry])
        self._bundle.add_resource(resource)
        for other in references(resource):
            self._has(other)
