"""A figure with its interval, and where its error comes from."""

from dataclasses import dataclass
from statistics import NormalDist
from typing import Literal

from pydantic import FiniteFloat

from fishmeasure.base.record import record

Scope = Literal["fish", "photo", "net", "sample", "species"]
"""Whose error it is. Averaging n fish shrinks only what has the scope 'fish'."""

DEFAULT_LEVEL = 0.9


@record(frozen=True, slots=True, kw_only=True)
class UncertaintySource:
    """One cause of error of a figure.

    Attributes
    ----------
    name
        In words for people, such as "corner noise".
    relative_sd
        Standard deviation as a fraction of the figure.
    scope
        What shares the error.
    """

    name: str
    relative_sd: float
    scope: Scope


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A figure, its standard deviation and a central interval.

    The unit is that of the field which holds the estimate.
    """

    value: float
    sd: float
    low: float
    high: float
    level: FiniteFloat = DEFAULT_LEVEL

    @classmethod
    def normal(
        cls, value: float, sd: float, level: float = DEFAULT_LEVEL
    ) -> "Estimate":
        """Return an estimate whose interval is the normal one."""
        z = NormalDist().inv_cdf(0.5 + level / 2.0)
        return cls(
            value=value, sd=sd, low=value - z * sd, high=value + z * sd, level=level
        )
