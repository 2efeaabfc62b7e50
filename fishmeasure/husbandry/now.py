"""What the water says now: good, watch, act, or not known, and what to do."""

from dataclasses import dataclass
from datetime import time
from typing import Annotated, Any, Final

from pydantic import Field

from fishmeasure.base.words import NOTHING, Message
from fishmeasure.husbandry.water_case import (
    KEEPS,
    MEASURE,
    Case,
    OwnLimits,
    Quantity,
    Reading,
    Readings,
    Reason,
    Setting,
    Stop,
    Verdict,
    do_now,
    fish_name,
)
from fishmeasure.husbandry.water_rules import RULES, saturation_percent

__all__ = [
    "Now",
    "OwnLimits",
    "Reading",
    "Readings",
    "Reason",
    "Setting",
    "judge_water",
]

_WORST_FIRST: Final[tuple[Verdict, ...]] = ("act", "watch", "unknown", "good")
# From here on the criteria for fresh water do not hold; common practice, no source.
_SALT_G_PER_KG: Final = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Now:
    """The judgement of a unit's water on a day.

    ``headline`` is the one sentence to read first and ``do_now`` what follows from
    it. ``reasons`` are the worst first; ``not_judged`` says what else nothing is known
    of. ``stops`` is what must wait: feeding, handling, adding fish.
    """

    verdict: Verdict
    headline: Annotated[Message, Field(description="The one sentence to read first.")]
    do_now: Annotated[
        Message, Field(description="What to do now, in order; empty for nothing.")
    ]
    reasons: Annotated[tuple[Reason, ...], Field(description="The worst first.")]
    not_judged: Annotated[
        tuple[Message, ...], Field(description="What else nothing is known of.")
    ]
    stops: Annotated[
        tuple[Stop, ...],
        Field(
            description="What must wait for better water; feed, room and grading are "
            "taken out of the answers accordingly."
        ),
    ]

    def stopped_by(self, stop: Stop) -> Reason | None:
        """Return the worst reason why something must wait, None where it need not."""
        return next((one for one in self.reasons if stop in one.stops), None)


def judge_water(readings: Readings, setting: Setting) -> Now:
    """Return what the newest readings say of the water.

    The strictest of the species decides by each figure. "good" takes a temperature
    and an oxygen that are fresh, and where the water comes back to the fish ammonia
    too. What is bad stays so until a newer reading or for as long as ``KEEPS`` says.
    """
    case = Case.of(readings, setting)
    reasons = [one for rule in RULES if (one := rule(case)) is not None]
    reasons += _missing(readings, case)
    reasons.sort(key=lambda one: _WORST_FIRST.index(one.verdict))
    verdict = reasons[0].verdict if reasons else "good"
    steps = [step for one in reasons for step in one.do_now]
    stops = {stop for one in reasons for stop in one.stops}
    return Now(
        verdict=verdict,
        headline=_headline(reasons, setting),
        do_now=(do_now(steps) if verdict != "unknown" else None) or NOTHING,
        reasons=tuple(reasons),
        not_judged=_not_judged(case, {one.about for one in reasons}),
        stops=tuple(one for one in ("feeding", "handling", "adding") if one in stops),
    )


def _headline(reasons: list[Reason], setting: Setting) -> Message:
    if not reasons:
        fish = tuple(fish_name(key) for key in setting.species_keys)
        whose = fish or (Message.of("fish", case="any"),)
        return Message.of("now", case="good", fish=whose, reason="")
    first = reasons[0]
    return Message.of("now", case=first.verdict, fish=(), reason=first.message)


# --- what is not known ------------------------------------------------------------


def _missing(readings: Readings, case: Case) -> list[Reason]:
    """Return why the water cannot be called good."""
    found = [
        _unknown(about, readings)
        for about in _NEEDED
        if not readings.makes_good(_NEEDED[about].name)
    ]
    if case.setting.loops and not _ammonia_fresh(readings):
        found.append(
            Reason(
                code="ammonia-unknown",
                about="ammonia",
                verdict="unknown",
                message=Message.of("ammonia-unknown"),
                value=None,
                limit=None,
                unit="mg/L as N",
                source=_practice("tan_mg_per_l"),
                do_now=(MEASURE,),
            )
        )
    return found


def _ammonia_fresh(readings: Readings) -> bool:
    return all(readings.makes_good(name) for name in ("tan_mg_per_l", "ph"))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Needed:
    """A reading without which no water is good."""

    code: str
    name: str
    unit: str


_NEEDED: Final[dict[Quantity, _Needed]] = {
    "oxygen": _Needed(code="oxygen-unknown", name="do_mg_per_l", unit="mg/L"),
    "temperature": _Needed(
        code="temperature-unknown",
        name="temperature_deg_c",
        unit="°C",
    ),
}


def _unknown(about: Quantity, readings: Readings) -> Reason:
    needed = _NEEDED[about]
    read: Reading | None = getattr(readings, needed.name)
    known = {} if read is None else {"when": read.when, needed.name: read.value}
    return Reason(
        code=needed.code,
        about=about,
        verdict="unknown",
        message=Message.of(
            needed.code, case="never" if read is None else "old", **known
        ),
        value=None,
        limit=None,
        unit=needed.unit,
        source=_practice(needed.name),
        do_now=(MEASURE,),
    )


def _practice(name: str) -> Message:
    days = KEEPS[name].good_days
    case = {0: "its-day", 1: "next-day"}.get(days, "days")
    return Message.of("reading-keeps", case=case, days=days)


# Oxygen read before is near the night's lowest; common practice, no source.
_DAWN: Final = time(8)


def _not_judged(case: Case, judged: set[Quantity]) -> tuple[Message, ...]:
    """Return what nothing is known of, where it does not decide."""
    found: list[Message] = []
    read, place = case.readings, case.setting
    if read.tan_mg_per_l is None or read.ph is None:
        lacking = tuple(
            name
            for name, value in (("TAN", read.tan_mg_per_l), ("pH", read.ph))
            if value is None
        )
        found.append(_not("ammonia-reading", lacking=lacking))
    elif case.temperature_deg_c() is None:
        found.append(_not("ammonia-temperature"))
    elif place.salinity_g_per_kg >= _SALT_G_PER_KG:
        found.append(_not("ammonia-salt"))
    if place.salinity_g_per_kg >= _SALT_G_PER_KG:
        found.append(_not("salt", salinity_g_per_kg=place.salinity_g_per_kg))
    found += _loop_not_judged(case)
    if read.do_mg_per_l is not None and saturation_percent(case) is None:
        found.append(_not("gas"))
    if "nitrite" not in judged:  # else its reason says so
        found += _nitrite_guessed(read)
    if place.still and read.do_mg_per_l is not None and not _at_dawn(read.do_mg_per_l):
        found.append(_not("dawn"))
    return tuple(found)


def _not(case: str, **parameters: Any) -> Message:
    return Message.of("not-judged", case=case, **parameters)


def _at_dawn(read: Reading) -> bool:
    return read.at is not None and read.at < _DAWN


def _nitrite_guessed(read: Readings) -> list[Message]:
    if read.nitrite_n_mg_per_l is None or read.chloride_mg_per_l is not None:
        return []
    return [_not("chloride")]


def _loop_not_judged(case: Case) -> list[Message]:
    """Return what is not known of a filter's water; alkalinity matters there alone."""
    found: list[Message] = []
    read = case.readings
    if case.setting.loops:
        found += [
            _not(name)
            for name, value in (
                ("nitrite", read.nitrite_n_mg_per_l),
                ("alkalinity", read.alkalinity_mg_per_l),
            )
            if value is None
        ]
    elif read.alkalinity_mg_per_l is not None:
        found.append(_not("alkalinity-elsewhere"))
    return found
