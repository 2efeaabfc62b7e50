"""The files of the catalogue, a language each, taken apart only where needed.

Reading all of a file's Fluent takes a third of a second; a command says few sentences.
So a file is cut into its entries, and an entry is parsed when it is said.
"""

import re
from collections.abc import Callable
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

ENGLISH = "en"
FOLDER: Traversable = files(__package__)
_BEGIN = re.compile(r"(-?[a-zA-Z][\w-]*) *=")


@cache
def languages() -> tuple[str, ...]:
    """Return the languages of the catalogue."""
    names = (item.name for item in FOLDER.iterdir())
    return tuple(
        sorted(name.removesuffix(".ftl") for name in names if name.endswith(".ftl"))
    )


@cache
def entries(language: str) -> dict[str, str]:
    """Return the text of each entry of a language, by its id; terms have their dash."""
    found: dict[str, list[str]] = {}
    lines: list[str] | None = None
    text = (FOLDER / f"{language}.ftl").read_text(encoding="utf-8")
    for line in text.splitlines():
        if begin := _BEGIN.match(line):
            lines = found.setdefault(begin[1], [])
        elif line.startswith("#"):
            lines = None
        if lines is not None:
            lines.append(line)
    return {name: "\n".join(part) + "\n" for name, part in found.items()}


def plain_text(
    name: str, language: str, other: Callable[[str], str] = lambda name: name
) -> str:
    """Return an entry without figures and choices, read without Fluent.

    ``other`` gives the unit that stands where one is named in it.

    Raises
    ------
    KeyError
        If English has no such entry.
    """
    text = entries(language).get(name) or entries(ENGLISH)[name]
    value = text.partition("=")[2]
    found = " ".join(line.strip() for line in value.splitlines()).strip()
    return _UNIT.sub(lambda unit: plain_text(other(unit[1]), language), found)


_UNIT = re.compile(r"\{ (unit-[a-z0-9-]+) \}")
