"""What is installed with the program may be used by anybody for anything.

The licences are those that the packages' own metadata name; what their wheels carry
inside is told in DEVELOPERS.md.
"""

import re
import tomllib
from importlib import metadata
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[2]
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
# Licences that ask for no more than that their text is kept (SPDX, "permissive").
FREE = re.compile(
    r"MIT|BSD|Apache|ISC|PSF|Python Software Foundation|Zlib|CC0|0BSD|HPND",
    re.IGNORECASE,
)
# Those that ask for more of whoever changes or ships them: named in DEVELOPERS.md.
NAMED = {"psycopg": "LGPL", "psycopg-binary": "LGPL"}


def licence(name: str) -> str:
    """Return what a distribution says of its licence."""
    said = metadata.metadata(name)
    words = said.get_all("Classifier") or []
    listed = [word for word in words if word.startswith("License ::")]
    fields = [said[key] for key in ("License-Expression", "License") if key in said]
    return "; ".join([*fields, *listed])


def installed_with(project: dict[str, list[str]]) -> set[str]:
    """Return the names of everything that the requirements bring, once each."""
    waiting = [Requirement(line) for lines in project.values() for line in lines]
    found: set[str] = set()
    while waiting:
        wanted = waiting.pop()
        name = canonicalize_name(wanted.name)
        extras = {"", *wanted.extras}
        marker = wanted.marker
        if marker and not any(marker.evaluate({"extra": extra}) for extra in extras):
            continue
        if name in found:
            continue
        found.add(name)
        for line in metadata.requires(name) or ():
            need = Requirement(line)
            fits = need.marker is None or any(
                need.marker.evaluate({"extra": extra}) for extra in extras
            )
            if fits:
                need.marker = None
                waiting.append(need)
    return found


def test_licences_of_what_is_installed_are_known() -> None:
    """A dependency with another licence is looked at before it is added."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    extras = project["optional-dependencies"]
    names = installed_with(
        {
            "needed": project["dependencies"],
            "postgres": extras["postgres"],
            "cluster": extras["cluster"],
        }
    )
    assert len(names) > 40
    others = {name for name in names if not FREE.search(licence(name))}
    assert others <= NAMED.keys()
    for name in others:
        assert NAMED[name] in licence(name)


def test_the_developers_page_names_the_others() -> None:
    """Each with its licence."""
    for name, short in NAMED.items():
        assert re.search(rf"`{name.removesuffix('-binary')}` \({short}", TEXT), name
