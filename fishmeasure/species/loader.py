"""Reads species TOMLs, the package's and a grower's own; ``record`` has the layout.

A file holds one ``Species``: its names, ``[length_weight]`` and ``[shape]``; the
package's also ``[water]`` and, for a species with growth figures, ``[growth]``,
``[feed]``, ``[oxygen]`` and ``[limits]``. The file's name without ``.toml`` is the key.
What a species' ``[water]``, ``[shape]`` and ``[body]`` lack is that of food fish in
general, ``generic.toml``.
"""

import difflib
import tomllib
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any, Final

from fishmeasure.base.errors import (
    SpeciesFileError,
    UnknownSpeciesError,
    UnknownStockSpeciesError,
)
from fishmeasure.base.files import read_at_most
from fishmeasure.base.record import plain, read
from fishmeasure.base.words import Message, system_reason
from fishmeasure.species.record import FarmedSpecies, Species
from fishmeasure.species.water import WaterFigures

_FILES = files(__package__)
_GENERIC: Final = "generic.toml"
_HUSBANDRY: Final = ("growth", "feed", "oxygen", "limits")
_OWN: Final = (
    "common_name",
    "latin_name",
    "family",
    "length_weight",
    "shape",
    "body",
)
_INHERITED: Final = (*_HUSBANDRY, "family", "water", "photos")
# Proportions of the first layout, with the spread between fish of those that had none:
# of 86 lake trout (Arctic LTER) and 56 perch (Brofeldt 1917) 0.8 and 1.5 % for the fork
# and 1.7 % for the perch's standard length.
_FIRST_RATIOS: Final = {
    "fork_per_total": 0.015,
    "standard_per_total": 0.017,
    "thickness_per_depth": None,
    "depth_per_fork_length": None,
}


@cache
def species_keys() -> tuple[str, ...]:
    """Return the keys of the package's species, sorted."""
    names = (entry.name for entry in _FILES.iterdir())
    return tuple(
        sorted(
            name.removesuffix(".toml")
            for name in names
            if name.endswith(".toml") and name != _GENERIC
        )
    )


@cache
def farmed_keys() -> tuple[str, ...]:
    """Return the keys of the species with growth, feed and oxygen figures, sorted."""
    found = (packaged_species(key) for key in species_keys())
    return tuple(one.key for one in found if isinstance(one, FarmedSpecies))


def load_species(key: str) -> Species:
    """Return a species by its key, or a stock from a TOML file of one's own.

    Parameters
    ----------
    key
        Such as "rainbow-trout" (spaces, underscores and capitals are forgiven),
        or a path that ends in ``.toml``; a stock so read is an own stock.

    Raises
    ------
    UnknownSpeciesError
        If there is no such species.
    SpeciesFileError
        If the file can't be read or breaks the layout.
    """
    if key.endswith(".toml"):
        path = Path(key)
        try:
            text = read_at_most(path).decode("utf-8")
        except (OSError, UnicodeDecodeError) as error:
            reason = (
                system_reason(error)
                if isinstance(error, OSError)
                else Message.of("file-reason", case="not-text")
            )
            raise SpeciesFileError(path.name, "", reason) from error
        return read_own_stock(text, path.name)
    return packaged_species(key)


def packaged_species(key: str) -> Species:
    """Return a species by its key; never opens a path, so the key may be anyone's.

    Raises
    ------
    UnknownSpeciesError
        If there is no such species.
    """
    known = "-".join(key.lower().replace("_", " ").replace("-", " ").split())
    if known not in species_keys():
        # "trout" is part of several names; a slip of the finger is near one.
        close = tuple(k for k in species_keys() if known and known in k.split("-"))
        if not close:
            near = difflib.get_close_matches(known, species_keys(), n=3, cutoff=0.5)
            close = tuple(near)
        raise UnknownSpeciesError(key, close, species_keys())
    return _load_packaged(known)


def farmed_species(key: str) -> FarmedSpecies:
    """Return a species with its figures of growth, feed, oxygen and limits.

    Raises
    ------
    UnknownStockSpeciesError
        If there are none; its message lists the species that have them.
    """
    if key in species_keys():
        found = _load_packaged(key)
        if isinstance(found, FarmedSpecies):
            return found
    raise UnknownStockSpeciesError(key, farmed_keys())


def water_of(key: str) -> WaterFigures:
    """Return what a species can bear, one that is not known as food fish."""
    return _load_packaged(key).water if key in species_keys() else food_fish_water()


@cache
def _load_packaged(key: str) -> Species:
    name = f"{key}.toml"
    return _species(_parsed(_FILES.joinpath(name).read_text(encoding="utf-8"), name))


def read_own_stock(text: str, name: str) -> Species:
    """Return the stock in a grower's TOML file.

    All but its own line and shape is that of the species with the same Latin name; so
    is the line where it has none, and its fish are then weighed as that species.

    Parameters
    ----------
    text
        Content of the file.
    name
        Of the file, for messages and the key.

    Raises
    ------
    SpeciesFileError
        If it breaks the layout.
    """
    return _own_stock(_parsed(text, name))


def _own_stock(document: dict[str, Any]) -> Species:
    name = f"{document['key']}.toml"
    document = _of_first_layout(document)
    for key in document:
        if key not in (*_OWN, "key"):
            close = difflib.get_close_matches(key, _OWN, n=1)
            case = "near" if close else "far"
            if key in _INHERITED:
                case = "inherited"
            reason = Message.of("no-such-key", case=case, near="".join(close))
            raise SpeciesFileError(name, key, reason)
    packaged = map(_load_packaged, species_keys())
    latin = document.get("latin_name")
    kin = next((one for one in packaged if one.latin_name == latin), None)
    inherited = {} if kin is None else {part: getattr(kin, part) for part in _INHERITED}
    own_shape = document.get("shape")
    if isinstance(own_shape, dict) and kin is not None:
        usual = {key: plain(getattr(kin.shape, key)) for key in _generic("shape")}
        document = document | {"shape": usual | own_shape}
    own_body = document.get("body")
    if isinstance(own_body, dict) and kin is not None:
        known = {k: v for k, v in plain(kin.body).items() if v is not None}
        document = document | {"body": known | own_body}
    elif own_body is None and kin is not None:
        inherited["body"] = kin.body
    if kin is not None and "length_weight" not in document:
        return _species(inherited | {"length_weight": kin.length_weight} | document)
    return _species(inherited | document | {"is_own_stock": True})


def _parsed(text: str, name: str) -> dict[str, Any]:
    try:
        document = tomllib.loads(text)
    except (ValueError, RecursionError) as error:  # also numbers of 5000 digits
        reason = Message.of("file-reason", case="not-toml", told=str(error))
        raise SpeciesFileError(name, "", reason) from error
    return document | {"key": name.removesuffix(".toml")}


def _of_first_layout(document: dict[str, Any]) -> dict[str, Any]:
    """Return a grower's file in today's layout.

    The first one had a table for each proportion, with an ``sd`` or without, and
    other words for two of the statuses.
    """
    new = {key: value for key, value in document.items() if key not in _FIRST_RATIOS}
    found = {key: document[key] for key in _FIRST_RATIOS if key in document}
    if found and isinstance(new.get("shape", {}), dict):
        shape = {key: _first_figure(table, key) for key, table in found.items()}
        new["shape"] = new.get("shape", {}) | shape
    line = new.get("length_weight")
    if isinstance(line, dict):
        new["length_weight"] = line | _first_status(line)
    return new


def _first_figure(table: Any, key: str) -> Any:
    if not isinstance(table, dict):
        return table
    figure = {name: item for name, item in table.items() if name != "sd"}
    value, sd, usual = table.get("value"), table.get("sd"), _FIRST_RATIOS[key]
    if isinstance(value, float) and isinstance(sd, float | int) and value > 0.0:
        figure["relative_sd"] = float(min(sd, 1e9)) / value
    elif sd is None and usual is not None:
        figure["relative_sd"] = usual
    return figure | _first_status(table)


def _first_status(table: dict[str, Any]) -> dict[str, str]:
    words = {"relative": "stand-in", "common-practice": "practice"}
    status = table.get("status")
    return (
        {"status": words[status]} if status in ("relative", "common-practice") else {}
    )


def _species(document: dict[str, Any]) -> Species:
    name = f"{document['key']}.toml"

    def refusal(*, field: str, reason: Message) -> SpeciesFileError:
        return SpeciesFileError(name, field, reason)

    water = document.get("water", {})
    if not isinstance(water, WaterFigures):
        usual = _generic("water")
        lacking = tuple(key for key in usual if key not in water)
        water = usual | water | {"generic": lacking}
    shape, body = document.get("shape"), document.get("body", {})
    if isinstance(shape, dict):
        document = document | {"shape": _generic("shape") | shape}
    if isinstance(body, dict):
        body = _generic("body") | body
    kind = FarmedSpecies if any(document.get(one) for one in _HUSBANDRY) else Species
    return read(kind, document | {"water": water, "body": body}, refusal)


@cache
def _generic(part: str) -> dict[str, Any]:
    text = _FILES.joinpath(_GENERIC).read_text(encoding="utf-8")
    table: dict[str, Any] = tomllib.loads(text)[part]
    return table


@cache
def food_fish_water() -> WaterFigures:
    """Return what food fish in general can bear."""
    return read(WaterFigures, _generic("water") | {"generic": tuple(_generic("water"))})
