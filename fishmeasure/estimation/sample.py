"""SAMPLE.toml: the text to a ``SampleFile``.

The keys beside those of the README's example::

    count_in_unit_sd = 5        # how unsure the count in the unit is
    level = 0.9                 # of the intervals

    [[net]]
    fish_sd = 2                 # where the count was an estimate
    gross_kg = [1.912, 1.908]   # any weight in g, kg, lb or oz; a list is repeats
    lengths_mm = [250, 262]     # fork lengths from a board instead of photos
    label = "by the inlet"

    [scale]
    resolution_g = 1            # step of the display
    sd_g = 2                    # random error of one reading
    relative_sd = 0.002         # error of its calibration

    [drip]
    wet_tare = true             # was the net weighed wet and drained?
    fraction = 0.015            # water weighed with the fish, over their weight
    sd = 0.01                   # how unsure that is
    net_sd = 0.003              # how it varies from net to net

    [count]
    miscount_probability = 0.03 # that the count of a net is off by one

    [lengths]
    sample_relative_sd = 0.008  # error common to all lengths
    photo_relative_sd = 0.005   # common to those of one photo
    fish_relative_sd = 0.012    # of one fish
"""

import datetime as dt
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from fishmeasure.base.errors import SampleFileError
from fishmeasure.base.tomltable import TomlTable
from fishmeasure.estimation.nets import (
    DRY_TARE_DRIP,
    GRAMS_PER,
    DripWater,
    FishInNet,
    NetWeighing,
    SampleSettings,
    Scale,
    to_grams,
)

# Limits that catch a slip of unit or decimal point, not an odd fish.
_MOST_FISH: Final = 1_000_000
_MOST_GRAMS: Final = 1e7
_MOST_FISH_G: Final = 200_000.0  # as in the book; more is a slip of units
_SHORTEST_MM: Final = 5.0
_LONGEST_MM: Final = 5000.0

_TOP: Final = (
    "date",
    "unit",
    "species",
    "count_in_unit",
    "count_in_unit_sd",
    "level",
    "net",
    "scale",
    "drip",
    "count",
    "lengths",
)
_WEIGHTS: Final = ("gross", "tare", "net")
_NET: Final = (
    "fish",
    "fish_sd",
    *(f"{what}_{unit}" for what in _WEIGHTS for unit in GRAMS_PER),
    "photos",
    "lengths_mm",
    "label",
)
_PERCENT_HINT: Final = "Give a fraction: 1 % is 0.01."


@dataclass(frozen=True, slots=True, kw_only=True)
class NetEntry:
    """One ``[[net]]``: its weighing, and the photos still to be measured.

    ``weighing`` holds the fish of ``lengths_mm``; where there are photos instead,
    put their fish in with ``dataclasses.replace(entry.weighing, fish=...)``.
    """

    weighing: NetWeighing
    photos: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SampleFile:
    """What a sample file says.

    ``species`` is None where it names none; ``photo_relative_sd`` and
    ``fish_relative_sd`` are None where the file leaves them to the photos.
    """

    nets: tuple[NetEntry, ...]
    date: dt.date | None = None
    unit: str = ""
    species: str | None = None
    count_in_unit: int | None = None
    count_in_unit_sd: float = 0.0
    settings: SampleSettings
    sets_length_relative_sd: bool = False
    photo_relative_sd: float | None = None
    fish_relative_sd: float | None = None


def read_sample(text: str) -> SampleFile:
    """Return what the text of a sample file says.

    Raises
    ------
    SampleFileError
        If it is not valid TOML, or a key is unknown, missing, of the wrong type or
        outside what can be; the message names the net and the key.
    """
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        place, reason = "", f"it is not valid TOML: {error}"
        raise SampleFileError(place, reason) from error
    except RecursionError as error:
        place, reason = "", "its lists are nested too deeply"
        raise SampleFileError(place, reason) from error
    except ValueError as error:  # Python reads no number of more than 4300 digits
        place, reason = "", "a number in it has thousands of digits"
        raise SampleFileError(place, reason) from error
    return sample_from_document(document)


def sample_from_document(document: dict[str, Any]) -> SampleFile:
    """Return what a sample says that was read already, from TOML or JSON.

    Raises
    ------
    SampleFileError
        As ``read_sample``.
    """
    top = TomlTable("", document, _TOP)
    lengths = TomlTable.section(top, "lengths", _LENGTH_KEYS)
    fish_sd = lengths.number("fish_relative_sd", 0.0, 0.5, hint=_PERCENT_HINT)
    photo_sd = lengths.number("photo_relative_sd", 0.0, 0.5, hint=_PERCENT_HINT)
    sample_sd = lengths.number("sample_relative_sd", 0.0, 0.5, hint=_PERCENT_HINT)
    count = TomlTable.section(top, "count", ("miscount_probability",))
    defaults = _NetDefaults(
        miscount_probability=count.number("miscount_probability", 0.0, 0.5),
        photo_relative_sd=photo_sd,
        fish_relative_sd=fish_sd,
    )
    return SampleFile(
        nets=_nets(top, defaults),
        date=top.date("date"),
        unit=top.text("unit") or "",
        species=top.text("species"),
        count_in_unit=top.whole("count_in_unit", 1, _MOST_FISH),
        count_in_unit_sd=top.number("count_in_unit_sd", 0.0, _MOST_FISH) or 0.0,
        settings=_settings(top, sample_sd),
        sets_length_relative_sd=sample_sd is not None,
        photo_relative_sd=photo_sd,
        fish_relative_sd=fish_sd,
    )


_LENGTH_KEYS: Final = ("sample_relative_sd", "photo_relative_sd", "fish_relative_sd")


@dataclass(frozen=True, slots=True, kw_only=True)
class _NetDefaults:
    miscount_probability: float | None
    photo_relative_sd: float | None
    fish_relative_sd: float | None


def _settings(top: "TomlTable", sample_sd: float | None) -> SampleSettings:
    scale = TomlTable.section(top, "scale", ("resolution_g", "sd_g", "relative_sd"))
    drip = TomlTable.section(top, "drip", ("wet_tare", "fraction", "sd", "net_sd"))
    base = DRY_TARE_DRIP if drip.flag("wet_tare") is False else DripWater()
    usual = SampleSettings()
    return SampleSettings(
        scale=Scale(
            resolution_g=_or(
                scale.number("resolution_g", 0.0, 1e5), usual.scale.resolution_g
            ),
            sd_g=_or(scale.number("sd_g", 0.0, 1e5), usual.scale.sd_g),
            relative_sd=_or(
                scale.number("relative_sd", 0.0, 0.5, hint=_PERCENT_HINT),
                usual.scale.relative_sd,
            ),
        ),
        drip=DripWater(
            fraction=_or(
                drip.number("fraction", 0.0, 0.5, hint=_PERCENT_HINT), base.fraction
            ),
            sd=_or(drip.number("sd", 0.0, 0.5, hint=_PERCENT_HINT), base.sd),
            net_sd=_or(
                drip.number("net_sd", 0.0, 0.5, hint=_PERCENT_HINT), base.net_sd
            ),
        ),
        length_relative_sd=_or(sample_sd, usual.length_relative_sd),
        level=_or(top.number("level", 0.5, 0.999), usual.level),
    )


def _nets(top: "TomlTable", defaults: _NetDefaults) -> tuple[NetEntry, ...]:
    tables = top.values.get("net")
    if tables is None:
        top.fail("net", "there is no [[net]] in it")
    if not isinstance(tables, list) or not all(isinstance(t, dict) for t in tables):
        top.fail("net", "nets are written as [[net]], one for each dip")
    if not tables:
        top.fail("net", "there is no [[net]] in it")
    return tuple(
        _net(TomlTable(f"net {number}", values, _NET), defaults)
        for number, values in enumerate(tables, 1)
    )


def _net(table: "TomlTable", defaults: _NetDefaults) -> NetEntry:
    if "fish" not in table.values:
        table.fail("fish", "it is missing; count the fish in the dip")
    count = table.whole("fish", 1, _MOST_FISH) or 1
    readings = {what: _weight(table, what) for what in _WEIGHTS}
    if readings["gross"] and readings["net"]:
        table.fail("net", "give either gross and tare, or net, not both")
    if readings["tare"] and not readings["gross"]:
        table.fail("tare", "there is a tare but no gross weight")
    if len(readings["tare"]) > 1:
        table.fail("tare", "give one tare, not a list")
    photos = table.texts("photos")
    lengths = table.numbers("lengths_mm", _SHORTEST_MM, _LONGEST_MM)
    if photos and lengths:
        table.fail("lengths_mm", "give either photos or lengths_mm, not both")
    if len(lengths) > count:
        table.fail("lengths_mm", f"there are {len(lengths)} lengths but {count} fish")
    if not (readings["gross"] or readings["net"] or photos or lengths):
        table.fail("", "it has no weight, no photos and no lengths")
    number = table.name
    label = table.text("label")
    return NetEntry(
        weighing=_weighing(
            count,
            readings,
            tuple(lengths),
            defaults,
            count_sd=table.number("fish_sd", 0.0, _MOST_FISH) or 0.0,
            label=f"{number} ({label})" if label else number,
        ),
        photos=photos,
    )


def _weighing(
    count: int,
    readings: Mapping[str, tuple[float, ...]],
    lengths: tuple[float, ...],
    defaults: _NetDefaults,
    *,
    count_sd: float,
    label: str,
) -> NetWeighing:
    gross, tare, net = (readings[what] for what in _WEIGHTS)
    if gross and min(gross) <= (tare[0] if tare else 0.0):
        raise SampleFileError(
            label,
            f"gross {min(gross):g} g is not above the tare {tare[0]:g} g",
        )
    each_g = max((*gross, *net), default=0.0) / count
    if each_g > _MOST_FISH_G:
        raise SampleFileError(
            label,
            f"{each_g:.0f} g a fish is more than {_MOST_FISH_G:.0f}; look at the unit",
        )
    # A board is read to about a millimetre and has no photo's common error.
    fish_sd = defaults.fish_relative_sd
    fish = tuple(
        FishInNet(
            fork_length_mm=length,
            relative_sd=_BOARD_SD_MM / length if fish_sd is None else fish_sd,
        )
        for length in lengths
    )
    photo_sd = 0.0 if lengths else NetWeighing(fish_count=1).photo_relative_sd
    usual = NetWeighing(fish_count=1)
    return NetWeighing(
        fish_count=count,
        gross_g=gross[0] if gross else None,
        tare_g=tare[0] if tare else None,
        net_g=net[0] if net else None,
        repeats_g=(gross or net)[1:],
        count_sd=count_sd,
        miscount_probability=_or(
            defaults.miscount_probability, usual.miscount_probability
        ),
        fish=fish,
        photo_relative_sd=_or(defaults.photo_relative_sd, photo_sd),
        label=label,
    )


_BOARD_SD_MM: Final = 1.0  # common practice, no source


def _weight(table: "TomlTable", what: str) -> tuple[float, ...]:
    """Return the readings in grams, empty where there are none."""
    given = [unit for unit in GRAMS_PER if f"{what}_{unit}" in table.values]
    if not given:
        return ()
    if len(given) > 1:
        table.fail(what, f"it is given in {' and '.join(given)}")
    unit = given[0]
    key = f"{what}_{unit}"
    most = _MOST_GRAMS / GRAMS_PER[unit]
    least = 0.0 if what == "tare" else -most  # of fish 0 is refused too, below
    value = table.values[key]
    if isinstance(value, list):
        readings = table.numbers(key, least, most)
        if not readings:
            table.fail(key, "the list is empty")
    else:
        readings = (_or(table.number(key, least, most), 0.0),)
    if what != "tare" and min(readings) <= 0.0:
        table.fail(key, "it must be above 0")
    return tuple(to_grams(reading, unit) for reading in readings)


def _or(value: float | None, default: float) -> float:
    return default if value is None else value
