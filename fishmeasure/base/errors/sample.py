"""The weighings, the sample file or single fish cannot be used."""

import re
from datetime import date

from fishmeasure.base.errors.base import FishMeasureError, sentence


class SampleError(FishMeasureError):
    """The weighings or the sample file cannot be used."""


class SampleFileError(SampleError):
    """A sample cannot be read or breaks its layout.

    ``field`` says where, such as ``nets[2].gross_g``: it is told as "net 3, gross_g".
    """

    code = "sample-file"

    def __init__(self, *, reason: str, field: str = "") -> None:
        place = _NET.sub(lambda net: f"net {int(net[1]) + 1}, ", field.strip("'"))
        place = _SECTION.sub(r"[\1], ", _READING.sub("", place)).removesuffix(", ")
        super().__init__(
            sentence(f"The sample cannot be used: {place} {reason}".replace("  ", " ")),
            "Correct that; the README shows a whole file.",
        )


_NET = re.compile(r"^nets\[(\d+)\]\.?")
_SECTION = re.compile(r"^(scale|drip|count|lengths)\.")
_READING = re.compile(r"\[\d+\]$")


class EmptySampleError(SampleError):
    """No net has a weight or a measured fish."""

    code = "empty-sample"

    def __init__(self) -> None:
        super().__init__(
            "No net has a weight or a fish whose length can be used.",
            "Weigh at least one counted net, or photograph its fish.",
        )


class LengthWeightDataError(SampleError):
    """Single lengths and weights cannot be fitted."""

    code = "length-weight-data"

    def __init__(self, reason: str) -> None:
        super().__init__(
            f"No length-weight line can be fitted: {reason}.",
            "Weigh and measure 20 to 30 fish one by one, small and large ones.",
        )


class PlanError(SampleError):
    """No sampling plan gives what was asked."""

    code = "plan"

    @classmethod
    def out_of_range(cls, half_width: float, fish_per_net: int) -> "PlanError":
        """Return the error for figures that cannot be."""
        return cls(
            f"The mean cannot be planned to within {100 * half_width:g} % with "
            f"{fish_per_net} fish a net.",
            "Give a width above 0 and below 100 %, and at least one fish a net.",
        )

    @classmethod
    def out_of_reach(cls, half_width: float, nets: int, reached: float) -> "PlanError":
        """Return the error for a width that no number of nets gives."""
        return cls(
            f"± {100 * half_width:g} % cannot be had: {nets} nets would still leave "
            f"± {100 * reached:.1f} %.",
            "Ask for a wider interval, or take the drip water and the scale's error "
            "down first.",
        )


class SampleNotEnteredError(SampleError):
    """A sample whose weights and lengths are not of the same fish is not entered."""

    code = "sample-not-entered"

    def __init__(self) -> None:
        super().__init__(
            "The sample is not entered in the book: its weights and lengths cannot be "
            "of the same fish.",
            "Correct it first.",
        )


class OtherSpeciesError(SampleError):
    """A sample of one species is not entered for a cohort of another."""

    code = "other-species"

    def __init__(self, species: str, cohort: str, of_cohort: str) -> None:
        super().__init__(
            f"The sample is of {species}, the cohort {cohort} of {of_cohort}. "
            "Not entered.",
            f'If the fish are {of_cohort}, write species = "{of_cohort}" in the '
            "sample and have it measured again; else name another cohort.",
        )


class SampleElsewhereError(SampleError):
    """The book has the sample, on another day or in another unit."""

    code = "sample-elsewhere"

    def __init__(self, *, day: date, unit: str, identity: str, change: str) -> None:
        super().__init__(
            f"The book has this sample already, of {day} in {unit}. Nothing was "
            "changed.",
            f"If that is wrong: fishmeasure book correct {identity} {change}",
        )


class SampleJsonError(SampleError):
    """A file that should hold a sample's JSON does not."""

    code = "sample-json"

    def __init__(self, name: str) -> None:
        super().__init__(
            f"{name} does not hold the JSON of a sample.",
            "Make it with: fishmeasure sample SAMPLE.toml --json FILE.",
        )
