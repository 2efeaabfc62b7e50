"""An entry's figures as they stand against the slips that may be in them."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from fishmeasure.book.asking.expected import Check, Said, checks_of
from fishmeasure.book.asking.place import Place
from fishmeasure.book.asking.slips import Change, changes_of
from fishmeasure.estimation.hypotheses import PLACE_PRIOR, Slip, Verdict, judge

# What has no name (other fish, a bad net, a slip not listed): most leaves a figure
# within a factor of two or three, some anywhere; prior and sd of ln. Common practice,
# no source.
_UNKNOWN: Final = ((0.015, 0.5), (0.001, 2.5))
_DEGREES_APART: Final = 10.0  # how far such a slip puts a reading of temperature
_ODD: Final = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What is found about an entry: the verdict, and what is odd, the oddest first.

    ``change`` or ``place`` is the likeliest slip's, where it has a name.
    """

    verdict: Verdict
    odd: tuple[Check, ...]
    change: Change | None = None
    place: Place | None = None
    chance: float = 0.0


def judged(kind: str, said: Said, place: Place, others: Iterable[Place] = ()) -> Judged:
    """Return the verdict on an entry's figures where it was made.

    Parameters
    ----------
    others
        Where else, or when, it may have been meant.
    """
    checks = checks_of(kind, said, place)
    own = sum(check.log_likelihood for check in checks)
    changes = list(changes_of(kind, said)) if checks else []
    slips = [
        Slip(
            name=change.name,
            prior=change.prior,
            log_likelihood=_likelihood(kind, _changed(kind, said, change), place)
            + change.log_scale,
            harm=_harm(said[change.field], change.right),
        )
        for change in changes
    ]
    places = list(others)
    slips += [
        Slip(
            name="other-place",
            prior=PLACE_PRIOR / len(places),
            log_likelihood=_likelihood(kind, said, there),
        )
        for there in places
        if len(checks_of(kind, said, there)) >= len(checks)
    ]
    verdict = judge(own, _unknown(checks, own), slips)
    # The oddest of each figure, the oddest figure first.
    by_figure = {c.figure: c for c in sorted(checks, key=lambda check: check.oddness)}
    odd = sorted(by_figure.values(), key=lambda check: -check.oddness)
    found = verdict.slip
    at = next((i for i, slip in enumerate(slips) if slip is found), -1)
    return Judged(
        verdict=verdict,
        odd=tuple(c for n, c in enumerate(odd) if n == 0 or c.oddness > _ODD),
        change=changes[at] if 0 <= at < len(changes) else None,
        place=places[at - len(changes)] if at >= len(changes) > -1 else None,
        chance=verdict.slip_chance,
    )


def _likelihood(kind: str, said: Said, place: Place) -> float:
    return sum(check.log_likelihood for check in checks_of(kind, said, place))


def _changed(kind: str, said: Said, change: Change) -> Said:
    other = {**said, change.field: change.right}
    if kind == "sample" and change.field == "mean_weight_g":
        factor = said.get("condition_factor")
        if factor is not None:
            times = change.right / said["mean_weight_g"]
            other["condition_factor"] = factor * times
    return other


def _harm(entered: float, right: float) -> float:
    if entered <= 0.0 or right <= 0.0:
        return 1.0
    return min(1.0, abs(math.log(entered / right)))


def _unknown(checks: list[Check], own: float) -> list[Slip]:
    """Return the slips without a name: in any one of the figures."""
    found = []
    for check in checks:
        for prior, spread in _UNKNOWN:
            broad = _DEGREES_APART if check.linear else spread
            log_broad = 0.0
            if check.side == "both":
                wide = math.hypot(broad, check.sd)
                z = check.distance / wide
                log_broad = -0.5 * z * z - math.log(wide * math.sqrt(2.0 * math.pi))
            elif spread < 1.0:  # up to a bound all is as likely
                continue
            found.append(
                Slip(
                    name="unknown",
                    prior=prior / len(checks),
                    log_likelihood=own - check.log_likelihood + log_broad,
                    harm=1.0 if check.linear else min(1.0, abs(check.distance)),
                )
            )
    return found
