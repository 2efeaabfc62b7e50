"""The likeliest slip behind a net that lies far from the others.

A net whose mean weight chance does not explain is held against each slip that is made
with scales and counts. One that puts it back among the others is named, with the figure
it would have been; nothing is corrected.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from statistics import median
from typing import Final

from fishmeasure.base.flags import Problem
from fishmeasure.base.typed import GRAMS_PER
from fishmeasure.estimation.nets import NetWeighing

# Of single fish and of nets, where few nets tell: unsorted fish have a CV of 0.28
# (geometric mean of six published), nets of one unit differ by 0.09 in weight (0.03 in
# length, MEASUREMENT's simulations); both as sd of ln.
_FISH_SD: Final = 0.28
_NET_SD: Final = 0.10
_OWN_NETS: Final = 3  # with fewer nobody knows which one is wrong
# Farther than this no chance puts a net in 10,000; nearer than that it is one of them.
_FAR_SD: Final = 4.0
_NEAR_SD: Final = 2.0
_TENFOLD: Final = 10
# Of ln count: a grower dips about as many fish each time; common practice, no source.
_COUNT_SD: Final = 0.7
# By how much a weight is to be multiplied to be right.
_ON_A_WEIGHT: Final = (
    ("grams-for-kilograms", 1000.0),
    ("kilograms-for-grams", 1e-3),
    ("pounds-for-kilograms", GRAMS_PER["kg"] / GRAMS_PER["lb"]),
    ("kilograms-for-pounds", GRAMS_PER["lb"] / GRAMS_PER["kg"]),
    ("weight-tenfold", 1.0 / _TENFOLD),
    ("weight-tenth", float(_TENFOLD)),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """A slip, by its name, and the count and weight that would be right.

    ``gross_g`` is the right reading where the slip was made on it, before the tare.
    """

    name: str
    fish_count: int
    weight_g: float
    gross_g: float | None = None


def likely_slips(nets: tuple[NetWeighing, ...]) -> list[Problem]:
    """Return a problem for each net that a slip explains and chance does not."""
    weighed = [net for net in nets if net.weight_g and net.fish_count]
    if len(weighed) < _OWN_NETS:
        return []
    found = []
    for net in weighed:
        others = [_log_mean(other) for other in weighed if other is not net]
        slip = _likeliest(net, weighed, median(others))
        if slip is not None:
            found.append(
                Problem.of(
                    "likely-slip",
                    slip=slip.name,
                    net=net.label,
                    fish=net.fish_count,
                    weight_g=net.weight_g,
                    right_fish=slip.fish_count,
                    right_weight_g=slip.weight_g,
                    gross_g=(net.weight_g or 0.0) + (net.tare_g or 0.0),
                    right_gross_g=slip.gross_g or 0.0,
                    others_g=math.exp(median(others)),
                )
            )
    return found


def _likeliest(
    net: NetWeighing, weighed: list[NetWeighing], middle: float
) -> Slip | None:
    as_entered = Slip(
        name="none", fish_count=net.fish_count, weight_g=net.weight_g or 0.0
    )
    if _away(as_entered, middle) < _FAR_SD:
        return None
    usual = median(math.log(other.fish_count) for other in weighed)

    def unlike(slip: Slip) -> float:
        """Return how far from the others in weight and, less surely, in number."""
        count = (math.log(slip.fish_count) - usual) / _COUNT_SD
        return math.hypot(_away(slip, middle), count)

    near = [s for s in _slips(net, weighed) if _away(s, middle) < _NEAR_SD]
    return min(near, key=unlike, default=None)


def _slips(net: NetWeighing, weighed: list[NetWeighing]) -> Iterator[Slip]:
    """Yield what would be right after each slip."""
    count, weight_g = net.fish_count, net.weight_g or 0.0
    if count % _TENFOLD == 0:
        yield Slip(
            name="count-tenfold", fish_count=count // _TENFOLD, weight_g=weight_g
        )
    yield Slip(name="count-tenth", fish_count=count * _TENFOLD, weight_g=weight_g)
    for name, factor in _ON_A_WEIGHT:
        yield Slip(name=name, fish_count=count, weight_g=weight_g * factor)
        if net.net_g is None and net.tare_g:
            # The scale shows fish and net: such a slip comes before the tare goes off.
            gross_g = (weight_g + net.tare_g) * factor
            yield Slip(
                name="gross",
                fish_count=count,
                weight_g=gross_g - net.tare_g,
                gross_g=gross_g,
            )
    tares = [other.tare_g for other in weighed if other.tare_g]
    if tares and not net.tare_g and weight_g > median(tares):
        yield Slip(
            name="tare-forgotten",
            fish_count=count,
            weight_g=weight_g - median(tares),
        )


def _log_mean(net: NetWeighing) -> float:
    return math.log((net.weight_g or 0.0) / net.fish_count)


def _away(slip: Slip, middle: float) -> float:
    """Return how far a net's mean weight lies from the others', in sd."""
    if slip.fish_count < 1 or slip.weight_g <= 0.0:
        return math.inf
    sd = math.hypot(_NET_SD, _FISH_SD / math.sqrt(slip.fish_count))
    return abs(math.log(slip.weight_g / slip.fish_count) - middle) / sd
