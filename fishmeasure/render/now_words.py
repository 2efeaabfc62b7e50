"""What the water says now, in sentences: the head of an outlook on screen and paper."""

from dataclasses import dataclass

from fishmeasure.base.words import Message, wording
from fishmeasure.husbandry.water_case import Stop, Verdict
from fishmeasure.outlook import now_problems
from fishmeasure.outlook.unit import UnitOutlook


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """What stands first: one sentence, what to do, the rest, and all warnings."""

    verdict: Verdict
    headline: str
    do_now: str
    lines: tuple[str, ...]
    warnings: tuple[str, ...]


def head(outlook: UnitOutlook) -> Head:
    """Return the head of the page; nothing in it is said twice."""
    now = outlook.now
    said = now_problems(now)
    return Head(
        verdict=now.verdict,
        headline=str(now.headline),
        do_now=str(now.do_now),
        lines=tuple(
            str(said)
            for said in (*(one.message for one in now.reasons[1:]), *now.not_judged)
        ),
        warnings=tuple(p.message for p in outlook.problems if p not in said),
    )


def waits(outlook: UnitOutlook, stop: Stop) -> str | None:
    """Return that something must wait and for what; None where it need not."""
    reason = outlook.now.stopped_by(stop)
    if reason is None:
        return None
    about = Message.of("water-figure", case=reason.about)
    return wording("must-wait", case=stop, about=about)
