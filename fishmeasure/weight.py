"""Length to weight: W = a L^b."""

from dataclasses import dataclass

from fishmeasure.uncertainty import Estimate, UncertaintySource


@dataclass(frozen=True, slots=True, kw_only=True)
class FishWeight:
    """The weight of one fish from its length.

    ``sources`` keep the fish's own error (condition, length) apart from what all
    fish share (scale, a, b).
    """

    weight_g: Estimate
    species_key: str
    flags: tuple[str, ...] = ()
    sources: tuple[UncertaintySource, ...] = ()
