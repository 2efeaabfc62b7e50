"""What is thought of a drawn fish: is it one, is it whole, how sure is that."""

from dataclasses import dataclass

import numpy as np

from fishmeasure.arrays import FloatArray
from fishmeasure.segment.learned.group import Instance
from fishmeasure.segment.learned.portrait import Drawn

_FISH_LOGIT = 0.0
_SEEN_LOGIT = 0.0
_CUT_SHARE = 0.03


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """Whether it is a fish; doubts; probability that its length is right."""

    is_fish: bool
    confidence: float
    flags: tuple[str, ...]


def features(drawn: Drawn, instance: Instance) -> FloatArray:
    """Return what the confidence is computed from."""
    fish, snout, fork, middle, right = (float(x) for x in np.clip(drawn.judge, -8, 8))
    hot = np.clip(drawn.heat, 0.01, 0.99)
    return np.array(
        [
            right,
            fish,
            min(snout, fork),
            middle,
            float(np.log(hot.min() / (1 - hot.min()))),
            -np.log(drawn.moved + 0.003),
            -np.log(instance.vote_spread + 0.01),
        ]
    )


def judge(drawn: Drawn, instance: Instance) -> Verdict:
    """Return the verdict."""
    x = features(drawn, instance)
    flags = []
    if drawn.cut > _CUT_SHARE:
        flags.append("edge-cut")
    if drawn.judge[1:4].min() < _SEEN_LOGIT or drawn.heat.min() < 0.2:
        flags.append("hidden")
    return Verdict(
        is_fish=bool(drawn.judge[0] > _FISH_LOGIT),
        confidence=float(1 / (1 + np.exp(-x[0]))),
        flags=tuple(flags),
    )
