"""Nets of fish: bulk weighings, counts, and the fish photographed in them.

Weights are net of the tare but as weighed, with the water that drips and clings;
``fishmeasure.estimation.model`` takes the water off, because its error is shared by all
nets of a sample.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Annotated, Final

from pydantic import Field

from fishmeasure.base.record import between, record
from fishmeasure.base.typed import GRAMS_PER
from fishmeasure.base.words import Message, Reason

if TYPE_CHECKING:
    from fishmeasure.photo.length import FishLength

LEVEL: Final = 0.9
"""Of the intervals, where none is asked for."""

MISCOUNT_PROBABILITY: Final = 0.03
"""That a count by hand is off by one; common practice, no source."""

# One reading rounded to a step r is off by a rectangular error of +-r/2, whose sd
# is r/sqrt(12) (JCGM 100:2008, 4.3.7).
_ROUNDING: Final = 1.0 / math.sqrt(12.0)


def net_label(number: int, own: str | None = None) -> Message:
    """Return what messages call a net: "net 3", with the label that it was given."""
    if own:
        return Message.of("net-labelled", number=number, label=own)
    return Message.of("net-label", number=number)


RelativeSd = Annotated[
    float, between(0.0, 0.5), Field(description="A fraction: 1 % is 0.01.")
]
CARRIED_RELATIVE_SD: Final = 0.01
"""Of the fish's weight: water that a net carries into the weighed tub beyond what
clings to fish as it does in a net. Common practice, no source."""
SPLASHED_SD_G: Final = 10.0
"""Water that fish splash out of the tub. Common practice, no source."""
TUB_DIVISION_G: Final = 10.0
"""Of a scale that carries a full tub, where nobody said it. Common practice, no
source."""

_Step = Annotated[float, between(0.0, 1e5)]


def to_grams(value: float, unit: str) -> float:
    """Return a weight in grams from ``g``, ``kg``, ``lb`` or ``oz``.

    Raises
    ------
    ValueError
        If the unit is none of these.
    """
    if unit not in GRAMS_PER:
        raise ValueError(unit)
    return value * GRAMS_PER[unit]


@record(frozen=True, slots=True, kw_only=True)
class Scale:
    """What is known of the scale.

    Attributes
    ----------
    resolution_g
        Step of the display.
    sd_g
        Random error of one reading beside the rounding: swinging, wind, a wet pan.
    relative_sd
        Error of the scale's calibration, the same for all weighings of a sample.
    """

    resolution_g: Annotated[_Step, Field(description="Step of the display, g.")] = 1.0
    sd_g: Annotated[
        _Step, Field(description="Random error of one reading beside the rounding, g.")
    ] = 2.0
    relative_sd: RelativeSd = 0.002

    def reading_sd_g(self) -> float:
        """Return the random error of one reading."""
        return math.hypot(self.sd_g, self.resolution_g * _ROUNDING)


@dataclass(frozen=True, slots=True, kw_only=True)
class DripWater:
    """Water weighed with the fish, as a fraction of their weight.

    No published figure was found; the defaults are common practice without a
    source, wide enough for a net drained for some seconds. ``net_sd`` is how far it
    varies from net to net, ``sd`` how little its mean is known.
    """

    fraction: float = 0.015
    sd: float = 0.01
    net_sd: float = 0.003


# A dry tare leaves the water held by the netting in the weight; common practice,
# no source.
DRY_TARE_DRIP: Final = DripWater(fraction=0.025, sd=0.015, net_sd=0.005)


@record(frozen=True, slots=True, kw_only=True)
class Netting:
    """How much heavier the netted fish are than those of the unit, on average.

    No figure for tanks was found: 2 % either way is common practice without a source,
    for fish crowded first and netted from several places. A pond is worse: first and
    second seine hauls differ by -40 to +75 % (Arkansas catfish verification 2004), and
    fish over 11 in outrun a seine (Piper et al. 1982, p. 83). The book learns it from
    harvests weighed and counted (``book.posterior``) and takes it off there.
    """

    heavier: Annotated[
        float,
        between(-0.5, 1.0),
        Field(description="Netted fish over those of the unit, less 1, a fraction."),
    ] = 0.0
    relative_sd: RelativeSd = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class FishInNet:
    """A fish seen in a photo of a net's fish.

    Attributes
    ----------
    fork_length_mm
        As measured.
    relative_sd
        This fish's own random error of length, as a fraction: what is left when
        the errors common to its photo and to the sample are taken out.
    complete
        Whether the length may be used.
    photo
        Index of the photo within the net; fish of one photo share its error.
    gross_probability
        How doubtful the photo holds the length to be: that it is grossly wrong, as
        by a neighbour's tail taken in. Common practice, no source.
    """

    fork_length_mm: float
    relative_sd: float = 0.012
    complete: bool = True
    photo: int = 0
    gross_probability: float = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class NetWeighing:
    """One dip: counted, and weighed or photographed or both.

    Attributes
    ----------
    fish_count
        As counted by hand.
    gross_g, tare_g
        As read; the tare is 0 where the scale was zeroed with the net.
    net_g
        Instead of the two.
    repeats_g
        Further readings of the same net, gross where ``gross_g`` is given, else
        net; their mean counts.
    count_sd
        For a count that was an estimate ("about fifty").
    miscount_probability
        That a count by hand is off by one.
    fish
        Those seen in this net's photos, which may be fewer than the count or none.
    photo_relative_sd
        Error of length common to the fish of one photo.
    label
        For messages, such as "net 3".
    in_water
        Whether the fish were weighed in a tub of water, of which the tare is that of
        tub and water.
    scale_division_g
        Step of the scale that weighed this net, where it is not the sample's.
    heap
        Whether its fish lay on one another in the photo.
    """

    fish_count: int
    gross_g: float | None = None
    tare_g: float | None = None
    net_g: float | None = None
    repeats_g: tuple[float, ...] = ()
    count_sd: float = 0.0
    miscount_probability: float = MISCOUNT_PROBABILITY
    fish: tuple[FishInNet, ...] = ()
    photo_relative_sd: float = 0.005
    label: Reason = ""
    in_water: bool = False
    scale_division_g: float | None = None
    heap: bool = False

    @property
    def weighed(self) -> bool:
        """Whether there is a weight."""
        return self.net_g is not None or self.gross_g is not None

    @property
    def complete_fish(self) -> tuple[FishInNet, ...]:
        """The fish whose length may be used."""
        return tuple(fish for fish in self.fish if fish.complete)

    @property
    def readings_g(self) -> tuple[float, ...]:
        """All readings less the tare; empty where the net was not weighed."""
        first = self.net_g if self.net_g is not None else self.gross_g
        if first is None:
            return ()
        tare = self.tare_g or 0.0 if self.net_g is None else 0.0
        return tuple(reading - tare for reading in (first, *self.repeats_g))

    @property
    def weight_g(self) -> float | None:
        """Mean of the readings less the tare; None where not weighed."""
        readings = self.readings_g
        return sum(readings) / len(readings) if readings else None

    def weight_sd_g(self, scale: Scale) -> float:
        """Return the random error of ``weight_g`` from reading the scale."""
        reading = self.reading_sd_g(scale)
        variance = reading**2 / max(len(self.readings_g), 1)
        if self.net_g is None and self.tare_g:
            variance += reading**2  # the tare was read once
        if self.in_water:
            carried_g = CARRIED_RELATIVE_SD * (self.weight_g or 0.0)
            variance += carried_g**2 + SPLASHED_SD_G**2
        return math.sqrt(variance)

    def reading_sd_g(self, scale: Scale) -> float:
        """Return the random error of one reading of this net."""
        return replace(scale, resolution_g=self.division_g(scale)).reading_sd_g()

    def division_g(self, scale: Scale) -> float:
        """Return the step of the scale: a tub's is coarser if nobody said it."""
        if self.scale_division_g is not None:
            return self.scale_division_g
        return max(scale.resolution_g, TUB_DIVISION_G if self.in_water else 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SampleSettings:
    """What the sample's nets have in common.

    Attributes
    ----------
    scale, drip
        Of the weighings.
    netting
        Which fish come into a net.
    length_relative_sd
        Error of length common to the whole sample, such as the print's scale.
    level
        Of the intervals.
    """

    scale: Scale = field(default_factory=Scale)
    drip: DripWater = field(default_factory=DripWater)
    netting: Netting = field(default_factory=Netting)
    length_relative_sd: float = 0.008
    level: float = LEVEL


def fish_in_net(
    lengths: Sequence["FishLength"], *, photo: int = 0
) -> tuple[FishInNet, ...]:
    """Return the measured fish of one photo as fish in a net.

    Only sources of scope "fish" go into the fish's own error.
    """
    return tuple(
        FishInNet(
            fork_length_mm=length.fork_length_mm,
            relative_sd=_scope_sd(length, "fish"),
            complete=length.complete,
            photo=photo,
            gross_probability=gross_probability(length.confidence),
        )
        for length in lengths
    )


def gross_probability(confidence: float) -> float:
    """Return how likely a length is grossly wrong, from the photo's confidence.

    The confidence is that it is one whole fish; what it does not say (a snout in a
    shadow) is never below 1 in 100, and no fish is condemned beforehand. Common
    practice, no source.
    """
    return min(max(1.0 - confidence, 0.01), 0.5)


def shared_length_sd(lengths: Sequence["FishLength"], scope: str) -> float | None:
    """Return the median common error, as a fraction, of scope "photo" or "sample".

    None where no fish tells.
    """
    values = sorted(sd for length in lengths if (sd := _scope_sd(length, scope)) > 0.0)
    return values[len(values) // 2] if values else None


def _scope_sd(length: "FishLength", scope: str) -> float:
    return math.sqrt(sum(s.relative_sd**2 for s in length.sources if s.scope == scope))
