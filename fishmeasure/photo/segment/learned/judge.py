"""What is thought of a drawn fish: is it one, is it whole, how sure is that."""

from dataclasses import dataclass

import numpy as np

from fishmeasure.photo.segment.learned.portrait import Drawn

_LEAST_HEAT = 0.2
"""An end that is seen has a peak of 0.6 to 0.9; below this there is none."""
_CUT_SHARE = 0.03
"""Of the outline along the photo's edge; a fish that only touches it has less."""
WARY = 2.0
"""How many times a wrong length counts in training, which takes it from here."""
USABLE = 0.85
"""Of 698 outlines in 200 drawn scenes that were not trained on, those of 0.5 to 0.8
were wrong by more than 5 % in 29 of 100 cases, those of 0.8 to 0.85 in 16, those of
0.85 to 0.9 in 15, those above in 4; of those with no other doubt, which are used, 2 of
30 from 0.85 to 0.9 and 1 of 137 above."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """Whether it is a fish; doubts; probability that its length is right."""

    is_fish: bool
    confidence: float
    flags: tuple[str, ...]


def judge(drawn: Drawn) -> Verdict:
    """Return the verdict.

    The confidence is the second network's own: it was trained to foretell whether
    the length it draws is right. Wrong ones counted twice in that training, which
    halves the odds; here they are made whole again.
    """
    fish, snout, fork, midline, right = (float(logit) for logit in drawn.judge)
    confidence = float(1.0 / (1.0 + np.exp(-right) / WARY))
    flags = []
    if drawn.cut > _CUT_SHARE:
        flags.append("edge-cut")
    if min(snout, fork, midline) < 0.0 or drawn.heat.min() < _LEAST_HEAT:
        flags.append("hidden")
    if confidence < USABLE and not flags:
        flags.append("ends-doubtful")
    return Verdict(is_fish=fish > 0.0, confidence=confidence, flags=tuple(flags))
