"""Checks of a refined fish: whether it is one, whole, and how sure that is."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from scipy.special import expit

from fishmeasure.photo.segment.learned.ends import FishEnd
from fishmeasure.photo.segment.learned.refiner import RefinedFish
from fishmeasure.photo.segment.outline import Posture

_MAX_EDGE_SHARE = 0.03
"""Of the outline along the photo's edge; a fish that only touches it has less."""
WRONG_LENGTH_WEIGHT = 2.0
"""How many times a wrong length counted in training, as its ``crops.py`` has it."""
MIN_CONFIDENCE = 0.75
"""Confidence of a fish that may be used, if its ends are known well enough. Set by the
first half of the photos without fish: outlines in them that had no other doubt had 0.55
to 0.69; whole fish of 40 rendered photos have 0.88 and more, of real ones 0.79."""
MAX_ENDS_SE_SHARE: Final[Mapping[Posture, float]] = {"side": 0.015, "upright": 0.02}
"""Standard error of both ends, in lengths, of a fish that may be used: 5 % off, the
most that a used fish may be, is 3.3 of them, which one in a thousand exceeds. No used
fish of the 54 rendered photos it was tried on has more than 0.0143. A tail on edge is
known less well, and its error is told."""
UNLIKELY_LOGIT, UNSEEN_LOGIT = 2.4, 1.1
"""At and below both a patch is no fish. In 23 rendered heaps and tubs all five such
were none or a part of another; in two crowds one of two was a fish."""
PILED_CONFIDENCE: Final[Mapping[Posture, float]] = {"side": 0.93, "upright": 0.9}
PILED_SEEN_LOGIT = 2.0
PILED_ENDS_SE_SHARE: Final[Mapping[Posture, float]] = {"side": 0.014, "upright": 0.02}
"""In place of 0.75, 0 and 0.015, where fish lie on one another: a half-hidden one may
take the tail of another for its own. Chosen on eight rendered heaps and 14 tubs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment:
    """Whether it is a fish; doubts; probability that its length is right.

    ``seen`` are the second network's logits that snout, fork and midline are seen,
    ``raised`` that it lies on others; the shares its probabilities that the back is
    seen, and that it is seen through water. ``raised_share`` is how likely it lies on
    others, where fish of the photo do; ``strict`` whether it must therefore be seen
    better than others to be used.
    """

    is_fish: bool
    confidence: float
    flags: tuple[str, ...]
    posture: Posture
    seen: tuple[float, float, float]
    upright_share: float = 0.0
    water_share: float = 0.0
    raised: float = -math.inf
    raised_share: float = 0.0
    strict: bool = False

    @property
    def covering(self) -> bool:
        """Whether it lies on another fish, or under one."""
        under = "hidden" in self.flags and "edge-cut" not in self.flags
        return under or self.raised > 0.0

    def with_ends(
        self, ends: tuple[FishEnd, FishEnd], length_mm: float
    ) -> "Assessment":
        """Return the assessment after a close look at the ends."""
        least = PILED_SEEN_LOGIT if self.strict else 0.0
        hidden = any(
            end.seen < least or mine < least
            for mine, end in zip(self.seen[:2], ends, strict=True)
        )
        limits = PILED_ENDS_SE_SHARE if self.strict else MAX_ENDS_SE_SHARE
        most = limits[self.posture]
        error_mm = float(np.hypot(ends[0].along_se_mm, ends[1].along_se_mm))
        doubts = (
            ("hidden", hidden),
            ("ends-doubtful", error_mm > most * length_mm),
            ("end-in-shadow", max(end.shadow for end in ends) > 0.0),
        )
        words = (*self.flags, *(word for word, holds in doubts if holds))
        return replace(self, flags=tuple(dict.fromkeys(words)))


def is_seen(fish_logit: float, ends: tuple[FishEnd, FishEnd]) -> bool:
    """Return whether it looks like a fish, or an end of it was seen close up."""
    return fish_logit > UNLIKELY_LOGIT or max(end.seen for end in ends) > UNSEEN_LOGIT


def verify(refined: RefinedFish) -> Assessment:
    """Return the assessment by the second network.

    The confidence is its own: it was trained to predict whether the length it draws
    is right. Wrong ones counted twice in that training, which halves the odds; here
    they are restored.
    """
    fish, snout, fork, midline, right, upright, raised, water = (
        float(logit) for logit in refined.logits
    )
    confidence = float(1.0 / (1.0 + np.exp(-right) / WRONG_LENGTH_WEIGHT))
    flags = []
    if refined.edge_share > _MAX_EDGE_SHARE:
        flags.append("edge-cut")
    if midline < 0.0:
        flags.append("hidden")
    if confidence < MIN_CONFIDENCE and not flags:
        flags.append("ends-doubtful")
    if water > 0.0:  # apart from all doubts: through water it may be as good as any
        flags.append("under-water")
    return Assessment(
        is_fish=fish > 0.0,
        confidence=confidence,
        flags=tuple(flags),
        posture="upright" if upright > 0.0 else "side",
        seen=(snout, fork, midline),
        upright_share=float(expit(upright)),
        water_share=float(expit(water)),
        raised=raised,
    )
