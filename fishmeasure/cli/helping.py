"""The help of commands and options, in the language of whoever reads it.

A command's or an option's help is the id of its text in the catalogue, ``help-…``.
"""

from collections.abc import Iterable
from typing import Any, Final

import typer

from fishmeasure.base.words import voice
from fishmeasure.base.words.sources import plain_text
from fishmeasure.base.words.units import US_NAMES

PREFIX: Final = "help-"
_EXTRA: Final = "  ["  # what the parser adds: default, required
# The parser's own words, which stand in the catalogue as ``help-words-…``.
_SECTIONS: Final = {"Options", "Arguments", "Commands"}
_EXTRAS: Final = ("default", "required")
_HELP: Final = "--help"
_Formatter: Any = typer.Context.formatter_class


def help_of(text: str) -> str:
    """Return the help that stands in the catalogue under an id."""
    if not text.startswith(PREFIX):
        return text
    name, more, extra = text.partition(_EXTRA)
    for word in _EXTRAS if extra else ():
        extra = extra.replace(word, _word(word), 1)
    return plain_text(name, voice().language, _unit) + more + extra


def _unit(name: str) -> str:
    """Return the unit that stands where a metric one does."""
    us = US_NAMES.get(name.removeprefix("unit-")) if voice().units == "us" else None
    return f"unit-{us}" if us else name


def _word(name: str) -> str:
    return plain_text(f"{PREFIX}words-{name}", voice().language)


class Formatter(_Formatter):  # type: ignore[misc]
    """Writes the parser's help with the catalogue's words."""

    def write_usage(self, prog: str, args: str = "", prefix: str | None = None) -> None:
        """Write how the command is called."""
        for known, name in (
            ("[OPTIONS]", "options-metavar"),
            ("COMMAND [ARGS]...", "command-metavar"),
        ):
            args = args.replace(known, _word(name))
        super().write_usage(prog, args, prefix or f"{_word('usage')} ")

    def section(self, name: str) -> Any:
        """Begin a part of the help."""
        return super().section(_word(name.lower()) if name in _SECTIONS else name)

    def write_text(self, text: str) -> None:
        """Write a paragraph."""
        super().write_text(help_of(text))

    def write_dl(self, rows: Iterable[tuple[str, str]], *more: Any, **how: Any) -> None:
        """Write names with what they mean."""
        said = [
            (name, _word("help") if name == _HELP else help_of(text))
            for name, text in rows
        ]
        super().write_dl(said, *more, **how)


class Context(typer.Context):
    """What a command is called with; its help is written as above."""

    formatter_class = Formatter
