"""What is known of a fish's shape beforehand, and the lengths of one fish."""

from dataclasses import dataclass

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import Estimate, UncertaintySource
from fishmeasure.species.record import Species


@dataclass(frozen=True, slots=True, kw_only=True)
class FishShape:
    """Proportions of a kind of fish; the fields are those of ``Species``.

    The defaults are for a fish of unknown kind, between a trout and a carp, with
    a wide spread; they are guesses and carry no source.
    """

    fork_per_total: float = 0.95
    standard_per_total: float = 0.84
    thickness_per_depth: float = 0.5
    depth_per_fork_length: float = 0.27
    depth_per_fork_length_sd: float = 0.08


def shape_of(species: Species) -> FishShape:
    """Return the proportions of a species."""
    return FishShape(
        fork_per_total=species.fork_per_total,
        standard_per_total=species.standard_per_total,
        thickness_per_depth=species.thickness_per_depth,
        depth_per_fork_length=species.depth_per_fork_length,
        depth_per_fork_length_sd=species.depth_per_fork_length_sd,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FishLength:
    """The size of one fish, parallax removed.

    Attributes
    ----------
    fork_length_mm, total_length_mm, standard_length_mm, body_depth_mm
        Along the midline (depth: greatest, across it, fins left out).
    thickness_mm
        Assumed side-to-side thickness; half of it is the height of the midline.
    contour_px
        (n, 2) the outline it came from, photo pixels.
    midline_px
        (m, 2) from snout to fork, photo pixels.
    snout_px, fork_px
        (2,) photo pixels.
    area_mm2
        Of the outline on the plane of the midline, tail included.
    bend_deg
        Turn of the midline from head to tail.
    flags, complete
        See ``fishmeasure.base.flags``.
    confidence
        0 to 1.
    sources
        Causes of error of the fork length.
    """

    fork_length_mm: Estimate
    total_length_mm: Estimate
    standard_length_mm: Estimate
    body_depth_mm: Estimate
    thickness_mm: float
    area_mm2: float
    bend_deg: float
    contour_px: FloatArray
    midline_px: FloatArray
    snout_px: FloatArray
    fork_px: FloatArray
    confidence: float
    complete: bool
    flags: tuple[str, ...] = ()
    sources: tuple[UncertaintySource, ...] = ()

    @property
    def seen_depth_per_length(self) -> float | None:
        """Body depth over fork length; None where only two points were given."""
        if not len(self.contour_px):
            return None
        return self.body_depth_mm.value / self.fork_length_mm.value
