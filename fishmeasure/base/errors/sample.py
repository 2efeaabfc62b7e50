"""The weighings, the sample file or single fish cannot be used."""

import re
from datetime import date

from fishmeasure.base.errors.base import FishMeasureError
from fishmeasure.base.words import Reason, wording


class SampleError(FishMeasureError):
    """The weighings or the sample file cannot be used."""


class SampleFileError(SampleError):
    """A sample cannot be read or breaks its layout.

    ``field`` says where, such as ``nets[2].gross_g``: it is told as "net 3, gross_g".
    """

    code = "sample-file"

    def __init__(self, *, reason: Reason, field: str = "") -> None:
        place = _NET.sub(lambda net: f"{_net(net)}, ", field.strip("'"))
        place = _SECTION.sub(r"[\1], ", _READING.sub("", place)).removesuffix(", ")
        super().__init__(case="place" if place else "whole", place=place, reason=reason)


def _net(found: re.Match[str]) -> str:
    return wording("net-label", number=int(found[1]) + 1)


_NET = re.compile(r"^nets\[(\d+)\]\.?")
_SECTION = re.compile(r"^(scale|drip|count|lengths)\.")
_READING = re.compile(r"\[\d+\]$")


class EmptySampleError(SampleError):
    """No net has a weight or a measured fish."""

    code = "empty-sample"

    def __init__(self) -> None:
        super().__init__()


class LengthWeightDataError(SampleError):
    """Single lengths and weights cannot be fitted."""

    code = "length-weight-data"

    def __init__(self, reason: Reason) -> None:
        super().__init__(reason=reason)


class HeightsError(SampleError):
    """Lengths on a ruler do not tell how high snouts and forks lie."""

    code = "heights"

    @classmethod
    def too_few(cls, fish: int, needed: int) -> "HeightsError":
        """Return the error for a handful of fish."""
        return cls(case="few", fish=fish, needed=needed)

    @classmethod
    def far_off(
        cls, fish: int, photo: str, ruler_mm: float, length_mm: float
    ) -> "HeightsError":
        """Return the error for a length that no height explains."""
        return cls(
            case="off", fish=fish, photo=photo, ruler_mm=ruler_mm, length_mm=length_mm
        )

    @classmethod
    def untold(
        cls, fish: int, thickness_mm: float, camera_mm: float, share: float
    ) -> "HeightsError":
        """Return the error for heights that change the lengths too little."""
        return cls(
            case="untold",
            fish=fish,
            thickness_mm=thickness_mm,
            camera_mm=camera_mm,
            share=share,
        )


class PlanError(SampleError):
    """No sampling plan gives what was asked."""

    code = "plan"

    @classmethod
    def out_of_range(cls, half_width: float, fish_per_net: int) -> "PlanError":
        """Return the error for figures that cannot be."""
        return cls(
            case="range",
            half_width_percent=100 * half_width,
            fish_per_net=fish_per_net,
        )

    @classmethod
    def out_of_reach(cls, half_width: float, nets: int, reached: float) -> "PlanError":
        """Return the error for a width that no number of nets gives."""
        return cls(
            case="reach",
            half_width_percent=100 * half_width,
            nets=nets,
            reached_percent=100 * reached,
        )


class SampleNotEnteredError(SampleError):
    """A sample whose weights and lengths are not of the same fish is not entered."""

    code = "sample-not-entered"

    def __init__(self) -> None:
        super().__init__()


class OtherSpeciesError(SampleError):
    """A sample of one species is not entered for a cohort of another."""

    code = "other-species"

    def __init__(self, species: str, cohort: str, of_cohort: str) -> None:
        super().__init__(
            case="cohort", species=species, cohort=cohort, of_cohort=of_cohort
        )


class SampleElsewhereError(SampleError):
    """The book has the sample, on another day or in another unit."""

    code = "sample-elsewhere"

    def __init__(self, *, day: date, unit: str, identity: str, change: str) -> None:
        super().__init__(day=day, unit=unit, identity=identity, change=change)


class SampleJsonError(SampleError):
    """A file that should hold a sample's JSON does not."""

    code = "sample-json"

    def __init__(self, name: str) -> None:
        super().__init__(name=name)
