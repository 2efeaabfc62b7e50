"""The rules of a language: decimal mark, plurals, names of months."""

from functools import cache

from babel import Locale, UnknownLocaleError


@cache
def locale_of(language: str) -> Locale:
    """Return a language's rules; English ones for a language that nobody speaks."""
    try:
        return Locale.parse(language)
    except (UnknownLocaleError, ValueError):
        return Locale.parse("en")
