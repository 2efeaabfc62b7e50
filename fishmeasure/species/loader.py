r"""Reads species TOMLs, the package's and a grower's own.

Layout of a file; every key is needed, no other is allowed::

    common_name = "Rainbow trout"
    latin_name = "Oncorhynchus mykiss"

    [length_weight]          # W = a L^b
    a_g_cm = 0.0138          # W in grams, L in centimetres
    b = 3.0
    length_kind = "fork"     # "fork", "total" or "standard": which L
    min_length_mm = 80       # where a and b hold, in that same L
    max_length_mm = 450
    relative_sd = 0.25       # of the level, for an unknown stock
    residual_sd_ln = 0.10    # of ln W of single fish about their stock's line
    b_sd = 0.10              # of b between stocks
    stock = "farmed"         # or "wild": whose condition this is
    confidence = "medium"    # "high", "medium" or "low"
    status = "seen"          # "seen", "relative", "memory" or "common-practice"
    source = "..."

    [fork_per_total]         # and so [standard_per_total]
    value = 0.96
    source = "..."
    status = "seen"

    [thickness_per_depth]    # and so [depth_per_fork_length]
    value = 0.54
    sd = 0.06
    source = "..."
    status = "relative"

The file's name without ``.toml`` is the key.
"""

import difflib
import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any, Final, cast, get_args

from fishmeasure.base.errors import SpeciesFileError, UnknownSpeciesError
from fishmeasure.base.files import read_at_most
from fishmeasure.species.record import (
    Confidence,
    FigureSource,
    FigureStatus,
    LengthKind,
    LengthWeight,
    Species,
    StockKind,
)

# Limits that catch a slip of unit or decimal point, not an odd fish. a: eels
# 0.001, pufferfish 0.05 (FishBase's range, from memory); b: Froese 2006 finds
# 2.5-3.5 for most; depth: eel 0.05, bream 0.46 (Brofeldt 1917), moonfish above.
_LIMITS: Final = {
    "a_g_cm": (0.0002, 0.2),
    "b": (2.0, 4.0),
    "min_length_mm": (5.0, 5000.0),
    "max_length_mm": (5.0, 5000.0),
    "relative_sd": (0.001, 1.0),
    "residual_sd_ln": (0.001, 1.0),
    "b_sd": (0.0, 0.5),
    "fork_per_total": (0.6, 1.0),
    "standard_per_total": (0.5, 1.0),
    "thickness_per_depth": (0.05, 2.0),
    "depth_per_fork_length": (0.02, 1.0),
    "sd": (0.0, 0.5),
}
_RATIOS: Final = ("fork_per_total", "standard_per_total")
_RATIOS_WITH_SD: Final = ("thickness_per_depth", "depth_per_fork_length")
_LENGTH_WEIGHT_NUMBERS: Final = (
    "a_g_cm",
    "b",
    "min_length_mm",
    "max_length_mm",
    "relative_sd",
    "residual_sd_ln",
    "b_sd",
)


@cache
def species_keys() -> tuple[str, ...]:
    """Return the keys of the package's species, sorted."""
    names = (entry.name for entry in files(__package__).iterdir())
    return tuple(sorted(n.removesuffix(".toml") for n in names if n.endswith(".toml")))


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
            reason = getattr(error, "strerror", None) or "it is not text in UTF-8"
            raise SpeciesFileError(path.name, "", f"{reason}") from error
        return read_species(text, path.name, is_own_stock=True)
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


@cache
def _load_packaged(key: str) -> Species:
    name = f"{key}.toml"
    text = files(__package__).joinpath(name).read_text(encoding="utf-8")
    return read_species(text, name, is_own_stock=False)


def read_species(text: str, name: str, *, is_own_stock: bool) -> Species:
    """Return the species in a TOML file.

    Parameters
    ----------
    text
        Content of the file.
    name
        Of the file, for messages and the key.
    is_own_stock
        Whether a grower wrote it.

    Raises
    ------
    SpeciesFileError
        If it breaks the layout.
    """
    try:
        document = tomllib.loads(text)
    except (ValueError, RecursionError) as error:  # also numbers of 5000 digits
        raise SpeciesFileError(name, "", f"it is not valid TOML: {error}") from error
    return _species(document, name, is_own_stock=is_own_stock)


def _species(document: dict[str, Any], name: str, *, is_own_stock: bool) -> Species:
    sections = ("length_weight", *_RATIOS, *_RATIOS_WITH_SD)
    top = _Table(name, "", document)
    # [water], what the fish can bear, is read by stock/bands.py; of the package only.
    water = () if is_own_stock else ("water",)
    top.check_keys(("common_name", "latin_name", *sections), optional=water)
    ratios = {key: top.table(key) for key in (*_RATIOS, *_RATIOS_WITH_SD)}
    for key, table in ratios.items():
        with_sd = ("sd",) if key in _RATIOS_WITH_SD else ()
        table.check_keys(("value", "source", "status", *with_sd))
    value = {k: t.number("value", limits=k) for k, t in ratios.items()}
    if value["standard_per_total"] > value["fork_per_total"]:
        raise SpeciesFileError(
            name,
            "standard_per_total.value",
            "standard length cannot be over fork length",
        )
    return Species(
        key=name.removesuffix(".toml"),
        common_name=top.text("common_name"),
        latin_name=top.text("latin_name"),
        length_weight=_length_weight(top.table("length_weight")),
        fork_per_total=value["fork_per_total"],
        standard_per_total=value["standard_per_total"],
        thickness_per_depth=value["thickness_per_depth"],
        thickness_per_depth_sd=ratios["thickness_per_depth"].number("sd"),
        depth_per_fork_length=value["depth_per_fork_length"],
        depth_per_fork_length_sd=ratios["depth_per_fork_length"].number("sd"),
        figure_sources=tuple(
            FigureSource(
                figure=key,
                source=table.text("source"),
                status=cast(
                    "FigureStatus", table.choice("status", get_args(FigureStatus))
                ),
            )
            for key, table in ratios.items()
        ),
        is_own_stock=is_own_stock,
    )


def _length_weight(table: "_Table") -> LengthWeight:
    words = ("length_kind", "stock", "confidence", "status", "source")
    table.check_keys((*_LENGTH_WEIGHT_NUMBERS, *words))
    numbers = {key: table.number(key) for key in _LENGTH_WEIGHT_NUMBERS}
    if numbers["min_length_mm"] >= numbers["max_length_mm"]:
        raise SpeciesFileError(
            table.file_name,
            "length_weight.max_length_mm",
            "it must be over min_length_mm",
        )
    return LengthWeight(
        **numbers,
        length_kind=cast(
            "LengthKind", table.choice("length_kind", get_args(LengthKind))
        ),
        stock=cast("StockKind", table.choice("stock", get_args(StockKind))),
        confidence=cast("Confidence", table.choice("confidence", get_args(Confidence))),
        status=cast("FigureStatus", table.choice("status", get_args(FigureStatus))),
        source=" ".join(table.text("source").split()),
    )


class _Table:
    """One TOML table whose values are checked as they are taken."""

    def __init__(self, file_name: str, path: str, values: Mapping[str, Any]) -> None:
        self.file_name = file_name
        self._path = path
        self._values = values

    def _error(self, key: str, reason: str) -> SpeciesFileError:
        return SpeciesFileError(self.file_name, self._path + key, reason)

    def check_keys(
        self, keys: tuple[str, ...], *, optional: tuple[str, ...] = ()
    ) -> None:
        for key in keys:
            if key not in self._values:
                raise self._error(key, "it is missing")
        for key in self._values:
            if key not in (*keys, *optional):
                close = difflib.get_close_matches(key, keys, n=1)
                hint = f"; is {close[0]} meant?" if close else ""
                raise self._error(key, f"there is no such key{hint}")

    def table(self, key: str) -> "_Table":
        value = self._values[key]
        if not isinstance(value, dict):
            raise self._error(key, f"it must be a table, [{key}]")
        return _Table(self.file_name, f"{key}.", value)

    def text(self, key: str) -> str:
        value = self._values[key]
        if not isinstance(value, str) or not value.strip():
            raise self._error(key, "it must be text")
        return value

    def choice(self, key: str, allowed: tuple[str, ...]) -> str:
        value = self.text(key)
        if value not in allowed:
            raise self._error(key, f'"{value}" is not one of {", ".join(allowed)}')
        return value

    def number(self, key: str, *, limits: str | None = None) -> float:
        value = self._values[key]
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self._error(key, "it must be a number")
        low, high = _LIMITS[limits or key]
        if not low <= value <= high:
            # A whole number may be too large for a float.
            shown = "that number" if abs(value) > 1e300 else f"{value:g}"
            raise self._error(key, f"{shown} is outside {low:g} to {high:g}")
        return float(value)
