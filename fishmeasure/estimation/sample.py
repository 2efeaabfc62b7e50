"""A sample: its nets and what they have in common, in SAMPLE.toml and in JSON.

A file has ``[[net]]`` for each of ``nets``, its weights in g, kg, lb or oz. The keys
beside those of the README's example::

    count_in_unit_sd = 5        # how unsure the count in the unit is
    level = 0.9                 # of the intervals
    ripe = true                 # ripe or spawning fish: outlines tell less of them

    [[net]]
    fish_sd = 2                 # where the count was an estimate
    gross_kg = [1.912, 1.908]   # a list is repeated readings
    lengths_mm = [250, 262]     # fork lengths from a board instead of photos
    label = "by the inlet"
    in_water = true             # in a tub of water, weighed and photographed there
    water_depth_mm = 90         # from its surface to the sheet on its bottom
    scale_division_g = 5        # step of the scale under the tub

    [scale]
    resolution_g = 1            # step of the display
    sd_g = 2                    # random error of one reading
    relative_sd = 0.002         # error of its calibration

    [drip]
    wet_tare = true             # was the net weighed wet and drained?
    fraction = 0.015            # water weighed with the fish, over their weight
    sd = 0.01                   # how unsure that is
    net_sd = 0.003              # how it varies from net to net

    [netting]
    heavier = 0.0               # netted fish over those of the unit, less 1
    relative_sd = 0.02          # how unsure that is

    [count]
    miscount_probability = 0.03 # that the count of a net is off by one

    [lengths]
    sample_relative_sd = 0.008  # error common to all lengths
    photo_relative_sd = 0.005   # common to those of one photo
    fish_relative_sd = 0.012    # of one fish
"""

import datetime as dt
import tomllib
from dataclasses import replace
from typing import Annotated, Any, ClassVar, Final

from pydantic import BeforeValidator, Field, PlainSerializer, StringConstraints

from fishmeasure.base.errors import SampleFileError
from fishmeasure.base.record import (
    Count,
    CountSd,
    Day,
    Name,
    Refusal,
    TubDepth,
    between,
    longest,
    misfit,
    read,
    record,
)
from fishmeasure.base.typed import GRAMS_PER
from fishmeasure.base.words import Message
from fishmeasure.estimation.nets import (
    DRY_TARE_DRIP,
    LEVEL,
    MISCOUNT_PROBABILITY,
    DripWater,
    FishInNet,
    Netting,
    NetWeighing,
    RelativeSd,
    SampleSettings,
    Scale,
    net_label,
    to_grams,
)

LEAST_FISH_G: Final = 1e-4
"""Of one fish in a net, the same as where fish are weighed one by one
(``species.fit.WEIGHTS_G``): lighter than a fry just hatched; less is a wrong unit.
Far below it the figures of a sample come to the ends of floating-point numbers."""
_MOST_FISH_G: Final = 200_000.0  # as in the book; more is a wrong unit
_SLIP_OF_THE_PEN: Final = 0.005  # of a length written down; likewise
_BOARD_SD_MM: Final = 1.0  # common practice, no source

# Limits that catch a wrong unit or decimal point, not an odd fish.
_Grams = Annotated[float, Field(gt=0.0, le=1e7)]


def _several(value: object) -> object:
    """Take one reading for a list of one."""
    return (value,) if isinstance(value, int | float) else value


def _one(readings: tuple[float, ...]) -> object:
    """Write a list of one as the reading."""
    return readings[0] if len(readings) == 1 else list(readings)


Readings = Annotated[
    tuple[_Grams, ...],
    Field(min_length=1, max_length=100),
    BeforeValidator(_several, json_schema_input_type=_Grams | list[_Grams]),
    PlainSerializer(_one, return_type=_Grams | list[_Grams]),
]
_Text = Annotated[
    str, StringConstraints(strip_whitespace=True, min_length=1, max_length=80)
]
_File = Annotated[str, Field(min_length=1, max_length=1000)]


@record(frozen=True, slots=True, kw_only=True)
class Net:
    """One dip: counted, and weighed or photographed or both."""

    refusal: ClassVar[Refusal] = SampleFileError
    fish: Annotated[
        int,
        between(1, 1_000_000),
        Field(description="Fish in the net.", examples=[8]),
    ]
    fish_sd: Annotated[
        CountSd, Field(description="Standard error of the count, fish.")
    ] = 0.0
    gross_g: Annotated[
        Readings | None, Field(description="Net with fish, g; a list is readings.")
    ] = None
    tare_g: Annotated[
        Annotated[float, between(0.0, 1e7)] | None,
        Field(description="The wet net alone, g."),
    ] = None
    net_g: Annotated[
        Readings | None, Field(description="In place of gross and tare, g.")
    ] = None
    photos: Annotated[
        tuple[_File, ...],
        longest(100),
        Field(description="Of the same fish: in a file names, else ids."),
    ] = ()
    lengths_mm: Annotated[
        tuple[Annotated[float, between(5.0, 5000.0)], ...],
        longest(10_000),
        Field(description="Fork lengths in place of photos, mm."),
    ] = ()
    label: Annotated[_Text | None, Field(description="For messages.")] = None
    in_water: Annotated[
        bool,
        Field(
            description="Whether the fish are in a tub of water, weighed and "
            "photographed there; its tare is that of tub and water."
        ),
    ] = False
    water_depth_mm: Annotated[
        TubDepth | None,
        Field(description="From the tub's surface to the sheet on its bottom, mm."),
    ] = None
    scale_division_g: Annotated[
        Annotated[float, between(0.0, 1e5)] | None,
        Field(description="Step of the scale that weighs this net, g."),
    ] = None

    def __post_init__(self) -> None:
        self._check_weights()
        if self.water_depth_mm is not None and not self.in_water:
            raise misfit("water_depth_mm", Message.of("water-depth-alone"))
        if not (self.gross_g or self.net_g or self.photos or self.lengths_mm):
            raise misfit("fish", Message.of("net-slip", case="only-counted"))
        if len(set(self.photos)) < len(self.photos):
            raise misfit("photos", Message.of("net-slip", case="photo-twice"))
        if self.photos and self.lengths_mm:
            raise misfit(
                "lengths_mm", Message.of("net-slip", case="lengths-and-photos")
            )
        if len(self.lengths_mm) > self.fish:
            reason = Message.of(
                "net-lengths", lengths=len(self.lengths_mm), fish_count=self.fish
            )
            raise misfit("lengths_mm", reason)

    def _check_weights(self) -> None:
        gross, net, tare_g = self.gross_g or (), self.net_g or (), self.tare_g
        if gross and net:
            raise misfit("net_g", Message.of("net-slip", case="net-and-gross"))
        if tare_g is not None and not gross:
            raise misfit("tare_g", Message.of("net-slip", case="tare-alone"))
        if gross and min(gross) <= (tare_g or 0.0):
            reason = Message.of("net-tare", tare_g=tare_g, gross_g=min(gross))
            raise misfit("tare_g", reason)
        name, readings = ("gross_g", gross) if gross else ("net_g", net)
        if not readings:
            return
        most = max(readings) / self.fish
        least = (min(readings) - (tare_g or 0.0)) / self.fish
        if most > _MOST_FISH_G:
            reason = Message.of("fish-too-heavy", weight_g=most, limit_g=_MOST_FISH_G)
            raise misfit(name, reason)
        if least < LEAST_FISH_G:
            reason = Message.of("fish-too-light", weight_g=least, limit_g=LEAST_FISH_G)
            raise misfit(name, reason)


@record(frozen=True, slots=True, kw_only=True)
class Drip:
    """Water weighed with the fish; what is not said is as usual for the tare."""

    wet_tare: Annotated[
        bool, Field(description="Whether the tare was that of a wet, drained net.")
    ] = True
    fraction: Annotated[
        RelativeSd | None,
        Field(description="Water over the weight of the fish, a fraction."),
    ] = None
    sd: Annotated[
        RelativeSd | None, Field(description="Its standard error, a fraction.")
    ] = None
    net_sd: Annotated[
        RelativeSd | None, Field(description="How far nets differ in it, a fraction.")
    ] = None

    @property
    def water(self) -> DripWater:
        """All of it in figures."""
        usual = DripWater() if self.wet_tare else DRY_TARE_DRIP
        said = {
            "fraction": self.fraction,
            "sd": self.sd,
            "net_sd": self.net_sd,
        }
        return replace(usual, **{k: v for k, v in said.items() if v is not None})


@record(frozen=True, slots=True, kw_only=True)
class Counting:
    """How nets are counted."""

    miscount_probability: Annotated[
        float,
        between(0.0, 0.5),
        Field(description="Chance that the count of a net is off by one, 0 to 1."),
    ] = MISCOUNT_PROBABILITY


@record(frozen=True, slots=True, kw_only=True)
class LengthErrors:
    """Standard errors of lengths; what is not said is as the photos tell."""

    sample_relative_sd: Annotated[
        RelativeSd | None, Field(description="Common to all lengths, a fraction.")
    ] = None
    photo_relative_sd: Annotated[
        RelativeSd | None, Field(description="Common to those of a photo, a fraction.")
    ] = None
    fish_relative_sd: Annotated[
        RelativeSd | None, Field(description="Of one fish, a fraction.")
    ] = None


@record(frozen=True, slots=True, kw_only=True)
class Sample:
    """A net sample, complete or still growing."""

    refusal: ClassVar[Refusal] = SampleFileError
    date: Annotated[
        Day | None, Field(description="Day of the sample.", examples=["2026-05-02"])
    ] = None
    unit: Annotated[Name, Field(description="Name of the unit, for messages.")] = ""
    species: Annotated[_Text | None, Field(description="Key of the species.")] = None
    count_in_unit: Annotated[
        Annotated[Count, Field(ge=1)] | None,
        Field(description="Fish in the unit, for the biomass."),
    ] = None
    count_in_unit_sd: Annotated[
        CountSd, Field(description="Standard error of the count in the unit, fish.")
    ] = 0.0
    ripe: Annotated[
        bool,
        Field(
            description="Whether fish are ripe or spawning: their outlines tell less, "
            "and nothing of them is carried to other fish."
        ),
    ] = False
    level: Annotated[float, between(0.5, 0.999)] = LEVEL
    nets: Annotated[
        tuple[Net, ...], longest(1000), Field(description="In the order of dipping.")
    ]
    scale: Annotated[Scale, Field(description="What weighed the nets.")] = Scale()
    drip: Annotated[Drip, Field(description="Water weighed with the fish.")] = Drip()
    netting: Annotated[Netting, Field(description="Which fish a net takes.")] = (
        Netting()
    )
    count: Annotated[Counting, Field(description="How nets are counted.")] = Counting()
    lengths: Annotated[
        LengthErrors, Field(description="Standard errors of lengths.")
    ] = LengthErrors()

    @property
    def photos(self) -> tuple[str, ...]:
        """The photos of all nets, each once."""
        return tuple(dict.fromkeys(name for net in self.nets for name in net.photos))

    @property
    def settings(self) -> SampleSettings:
        """What its nets have in common."""
        said = self.lengths.sample_relative_sd
        usual = SampleSettings()
        return SampleSettings(
            scale=self.scale,
            drip=self.drip.water,
            netting=self.netting,
            length_relative_sd=usual.length_relative_sd if said is None else said,
            level=self.level,
        )

    @property
    def weighings(self) -> tuple[NetWeighing, ...]:
        """Its nets with the fish of ``lengths_mm``; those of photos are not in yet."""
        return tuple(
            self._weighing(net, number) for number, net in enumerate(self.nets, 1)
        )

    def _weighing(self, net: Net, number: int) -> NetWeighing:
        gross, direct = net.gross_g or (), net.net_g or ()
        # A board is read to about a millimetre and has no photo's common error.
        fish_sd, photo_sd = self.lengths.fish_relative_sd, 0.0
        if not net.lengths_mm:
            photo_sd = NetWeighing(fish_count=1).photo_relative_sd
        if self.lengths.photo_relative_sd is not None:
            photo_sd = self.lengths.photo_relative_sd
        return NetWeighing(
            fish_count=net.fish,
            gross_g=gross[0] if gross else None,
            tare_g=net.tare_g,
            net_g=direct[0] if direct else None,
            repeats_g=(gross or direct)[1:],
            count_sd=net.fish_sd,
            miscount_probability=self.count.miscount_probability,
            fish=tuple(
                FishInNet(
                    fork_length_mm=length,
                    relative_sd=_BOARD_SD_MM / length if fish_sd is None else fish_sd,
                    gross_probability=_SLIP_OF_THE_PEN,
                )
                for length in net.lengths_mm
            ),
            photo_relative_sd=photo_sd,
            label=net_label(number, net.label),
            in_water=net.in_water,
            scale_division_g=net.scale_division_g,
        )

    def net_of(self, photo: str) -> Net | None:
        """Return the first net that a photo shows."""
        return next((net for net in self.nets if photo in net.photos), None)


# --- SAMPLE.toml --------------------------------------------------------------


def _slip(case: str, **told: Any) -> Message:
    return Message.of("sample-slip", case=case, **told)


def read_sample(text: str, *, begun: bool = False) -> Sample:
    """Return what the text of a sample file says; one only begun may have no net.

    Raises
    ------
    SampleFileError
        If it is not valid TOML, or a key is unknown, missing, of the wrong type or
        outside what can be; the message names the net and the key.
    """
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise SampleFileError(reason=_slip("not-toml", told=str(error))) from error
    except RecursionError as error:
        raise SampleFileError(reason=_slip("nested")) from error
    except ValueError as error:  # Python reads no number of more than 4300 digits
        raise SampleFileError(reason=_slip("digits")) from error
    return sample_from_document(document, begun=begun)


def sample_from_document(document: dict[str, Any], *, begun: bool = False) -> Sample:
    """Return what a sample file says that was taken apart already.

    Raises
    ------
    SampleFileError
        As ``read_sample``.
    """
    values = {key: value for key, value in document.items() if key != "net"}
    if "nets" in values:
        raise SampleFileError(field="nets", reason=_slip("nets"))
    if isinstance(values.get("date"), dt.datetime):
        values["date"] = values["date"].date()
    nets = document.get("net", [])
    if isinstance(nets, list):
        nets = [
            _in_grams(net, number) if isinstance(net, dict) else net
            for number, net in enumerate(nets)
        ]
    sample = read(Sample, values | {"nets": nets})
    if not sample.nets and not begun:
        raise SampleFileError(field="net", reason=_slip("no-net"))
    return sample


def _in_grams(net: dict[str, Any], number: int) -> dict[str, Any]:
    """Return a net's table with its weights in grams."""
    result = dict(net)
    for what in ("gross", "tare", "net"):
        given = [unit for unit in GRAMS_PER if f"{what}_{unit}" in net]
        if len(given) > 1:
            reason = _slip("units", names=tuple(given))
            raise SampleFileError(field=f"nets[{number}].{what}", reason=reason)
        for unit in given:
            value = result.pop(f"{what}_{unit}")
            several = isinstance(value, list)
            readings = [_grams(one, unit) for one in (value if several else [value])]
            result[f"{what}_g"] = readings if several else readings[0]
    return result


def _grams(value: object, unit: str) -> object:
    """Return a reading in grams; what is no number is left to be refused."""
    if unit == "g" or isinstance(value, bool) or not isinstance(value, int | float):
        return value
    return to_grams(value, unit) if abs(value) < 1e300 else value
