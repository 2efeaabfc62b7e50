"""An entry as it stands against the slips that could have made it.

Each slip is a hypothesis: had it been made, the right figure would be another one, and
how likely that one is, times how often the slip is made, is held against the figure as
it stands (Bayes' rule). What is far out and explained by no known slip is held against
an unknown one.
"""

import math
from dataclasses import dataclass
from typing import Final

# Tails of what is expected, by Student's t. None of 390 simulated right samples, counts
# and harvests lay beyond 2.8 of the book's standard deviations
# (``tests.accuracy.asking``); real stocks stray farther: common practice, no source.
DEGREES: Final = 8.0
_LN_T: Final = (
    math.lgamma((DEGREES + 1.0) / 2.0)
    - math.lgamma(DEGREES / 2.0)
    - 0.5 * math.log(DEGREES * math.pi)
)
# Of 17,988 fields keyed in once 0.65 % were wrong (J. Innovation in Health Informatics
# 1999, single against dual entry; abstract seen). Divided among the slips, with those
# of the scale beside, by common practice, no source.
TENFOLD_PRIOR: Final = 0.001
UNIT_PRIOR: Final = 0.002
POUND_PRIOR: Final = 0.001
TARE_PRIOR: Final = 0.004
OFF_BY_TEN_PRIOR: Final = 0.001
PLACE_PRIOR: Final = 0.004
DAY_PRIOR: Final = 0.003
MIXED_PRIOR: Final = 0.004
"""That a net's photo is of another net."""
MIXED_HARM: Final = 0.3
"""Of that slip: the weights stay, so the mean moves by a part of its interval."""
NEARBY: Final = 4
"""Nets one after the other among which photos are mixed up. Common practice, no source,
as the two before."""
# A question costs a grower some seconds, a slip that is believed a wrong ration or
# harvest: a thirtieth, common practice, no source.
_MOST_LOSS: Final = 0.03
# A slip is named where it is a fifth or more of what may be wrong.
_NAMED_SHARE: Final = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """A slip and what speaks for it.

    ``harm`` is ln of the figure as entered over the right one, at most 1: what it
    costs to believe it.
    """

    name: str
    prior: float
    log_likelihood: float
    harm: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """How likely a figure is right, and the likeliest slip if it is not.

    ``slip`` is None where no known slip explains it better than an unknown one.
    """

    right: float
    loss: float
    slip: Slip | None
    slip_chance: float = 0.0

    @property
    def asks(self) -> bool:
        """Whether believing it costs more than asking."""
        return self.loss > _MOST_LOSS


def log_density(distance: float, sd: float) -> float:
    """Return ln of the density of a figure that lies so far from what is expected."""
    z = distance / sd
    tail = -0.5 * (DEGREES + 1.0) * math.log1p(z * z / DEGREES)
    return _LN_T + tail - math.log(sd)


def log_below(distance: float, sd: float) -> float:
    """Return ln of the likelihood of a figure that a bound limits, so far over it.

    That of the likeliest bound that allows it: to take all there is is as usual as to
    take some.
    """
    return -0.5 * max(0.0, distance / sd) ** 2


def judge(as_entered: float, unknown: list[Slip], known: list[Slip]) -> Verdict:
    """Return the verdict on a figure.

    Parameters
    ----------
    as_entered
        Ln of the likelihood of the figure as it stands.
    unknown, known
        The slips it is held against.
    """
    slips = [*unknown, *known]
    right = 1.0 - sum(slip.prior for slip in slips)
    logs = [math.log(slip.prior) + slip.log_likelihood for slip in slips]
    top = max([as_entered, *logs])
    weights = [math.exp(each - top) for each in logs]
    own = right * math.exp(as_entered - top)
    total = own + sum(weights)
    loss = sum(w * s.harm for w, s in zip(weights, slips, strict=True)) / total
    # Some slips have several right figures: what speaks for one speaks for the name.
    known_weights = list(zip(weights[len(unknown) :], known, strict=True))
    by_name: dict[str, float] = {}
    for weight, slip in known_weights:
        by_name[slip.name] = by_name.get(slip.name, 0.0) + weight * slip.harm
    name = max(by_name, key=lambda each: by_name[each], default="")
    all_harm = sum(w * s.harm for w, s in zip(weights, slips, strict=True))
    if by_name.get(name, 0.0) <= _NAMED_SHARE * all_harm:
        return Verdict(right=own / total, loss=loss, slip=None)
    of_name = [pair for pair in known_weights if pair[1].name == name]
    return Verdict(
        right=own / total,
        loss=loss,
        slip=max(of_name, key=lambda pair: pair[0])[1],
        slip_chance=sum(weight for weight, _ in of_name) / total,
    )
