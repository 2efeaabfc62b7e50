"""What is done about bad water, and which of its limits a reading is beyond."""

from collections.abc import Callable
from dataclasses import dataclass
from operator import ge, gt
from typing import Final, cast

from fishmeasure.base.words import Message
from fishmeasure.husbandry.water_case import (
    ALL_STOPS,
    BUFFER,
    COOLER,
    EXCHANGE,
    LESS_GAS,
    MEASURE,
    MORE_AIR,
    NO_FEED,
    NO_HANDLING,
    PROFESSIONAL,
    WARMER,
    Bound,
    Quantity,
    Reason,
    Stop,
    Verdict,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What is done about a reason, and what waits; ``unit`` is that of its figures."""

    code: str
    unit: str
    act: tuple[Message, ...] = ()
    watch: tuple[Message, ...]
    act_stops: tuple[Stop, ...] = ALL_STOPS
    watch_stops: tuple[Stop, ...] = ()


_ALL_AT_ONCE: Final = (MORE_AIR, NO_FEED, NO_HANDLING, EXCHANGE, MEASURE, PROFESSIONAL)
_ACIDITY: Final = (NO_FEED, NO_HANDLING, EXCHANGE, MEASURE, PROFESSIONAL)
_COOLING: Final = (MORE_AIR, NO_FEED, NO_HANDLING, COOLER, MEASURE)
_OF_NITROGEN: Final[tuple[Stop, ...]] = ("adding",)
_AS_N: Final = "mg/L as N"

_ANSWERS: Final = {
    answer.code: answer
    for answer in (
        Answer(
            code="oxygen-low",
            unit="mg/L",
            act=_ALL_AT_ONCE,
            watch=(MORE_AIR, NO_HANDLING, MEASURE),
            watch_stops=("handling", "adding"),
        ),
        Answer(
            code="oxygen-supersaturated",
            unit="%",
            act=(LESS_GAS, NO_FEED, NO_HANDLING, MEASURE, PROFESSIONAL),
            watch=(LESS_GAS, MEASURE),
        ),
        Answer(
            code="temperature-high",
            unit="°C",
            act=(*_COOLING, PROFESSIONAL),
            watch=_COOLING,
            watch_stops=ALL_STOPS,
        ),
        Answer(
            code="temperature-low",
            unit="°C",
            act=(NO_FEED, NO_HANDLING, WARMER, PROFESSIONAL),
            watch=(NO_FEED, NO_HANDLING),
            watch_stops=ALL_STOPS,
        ),
        Answer(
            code="ammonia-high",
            unit=_AS_N,
            act=_ALL_AT_ONCE,
            watch=(EXCHANGE, MEASURE),
            watch_stops=_OF_NITROGEN,
        ),
        Answer(
            code="nitrite-high",
            unit=_AS_N,
            act=_ALL_AT_ONCE,
            watch=(EXCHANGE, MEASURE),
            watch_stops=_OF_NITROGEN,
        ),
        # It is slow, so never more than watch.
        Answer(
            code="nitrate-high",
            unit=_AS_N,
            watch=(EXCHANGE, MEASURE),
            watch_stops=_OF_NITROGEN,
        ),
        Answer(code="ph-low", unit="", act=_ACIDITY, watch=(MEASURE,)),
        Answer(code="ph-high", unit="", act=_ACIDITY, watch=(MEASURE,)),
        Answer(
            code="alkalinity-low",
            unit="mg/L as CaCO3",
            watch=(BUFFER, MEASURE),
            watch_stops=_OF_NITROGEN,
        ),
    )
}


def reason_of(
    message: Message, verdict: Verdict, value: float, limit: float, source: Message
) -> Reason:
    """Return the reason that a message tells, with what is done about it."""
    answer = _ANSWERS[message.code]
    acts = verdict == "act"
    return Reason(
        code=answer.code,
        about=cast("Quantity", answer.code.partition("-")[0]),
        verdict=verdict,
        message=message,
        value=value,
        limit=limit,
        unit=answer.unit,
        source=source,
        do_now=answer.act if acts else answer.watch,
        stops=answer.act_stops if acts else answer.watch_stops,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """A limit that a reading is beyond."""

    verdict: Verdict
    bound: Bound
    upper: bool
    value: float

    @property
    def acts(self) -> bool:
        """Whether something is to be done at once."""
        return self.verdict == "act"

    def reason(self, message: Message) -> Reason:
        """Return the reason that a message tells of it."""
        bound = self.bound
        return reason_of(message, self.verdict, self.value, bound.value, bound.source)


_Beyond = Callable[[float, float], bool]


def passed_limit(
    value: float, *limits: tuple[Verdict, Bound | None, _Beyond]
) -> Passed | None:
    """Return the first limit that a value is beyond; None where it is within all."""
    for verdict, bound, beyond in limits:
        if bound is not None and beyond(value, bound.value):
            upper = beyond in {gt, ge}
            return Passed(verdict=verdict, bound=bound, upper=upper, value=value)
    return None


def strictest(bound: Bound | None, own: float | None, *, upper: bool) -> Bound | None:
    """Return the act limit; a unit's own one counts where it is the stricter."""
    if own is None:
        return bound
    mine = Bound(
        value=own,
        source=Message.of("own-limit"),
        whose=Message.of("fish", case="own"),
    )
    if bound is None:
        return mine
    return (min if upper else max)((mine, bound), key=lambda one: one.value)
