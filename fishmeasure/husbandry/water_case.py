"""What the judgement of the water is made of: readings with their age, and reasons."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, fields, replace
from datetime import time
from typing import Annotated, Final, Literal

from pydantic import Field

from fishmeasure.base.words import Message
from fishmeasure.species import (
    Figure,
    WaterFigures,
    packaged_species,
    species_keys,
    water_of,
)

Verdict = Literal["good", "watch", "act", "unknown"]
Quantity = Literal[
    "oxygen", "temperature", "ammonia", "nitrite", "ph", "alkalinity", "nitrate"
]
Stop = Literal["feeding", "handling", "adding"]

ALL_STOPS: Final[tuple[Stop, ...]] = ("feeding", "handling", "adding")

# What is done at once, in this order; common practice, no source.
MORE_AIR: Final = Message.of("step", case="more-air")
LESS_GAS: Final = Message.of("step", case="less-gas")
COOLER: Final = Message.of("step", case="cooler")
WARMER: Final = Message.of("step", case="warmer")
NO_FEED: Final = Message.of("step", case="no-feed")
NO_HANDLING: Final = Message.of("step", case="no-handling")
EXCHANGE: Final = Message.of("step", case="exchange")
BUFFER: Final = Message.of("step", case="buffer")
MEASURE: Final = Message.of("step", case="measure")
PROFESSIONAL: Final = Message.of("step", case="professional")
STEPS: Final = (
    MORE_AIR,
    LESS_GAS,
    NO_FEED,
    NO_HANDLING,
    COOLER,
    WARMER,
    EXCHANGE,
    BUFFER,
    MEASURE,
    PROFESSIONAL,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Keeps:
    """How many days a reading counts: to call water good, and to call it bad.

    A bad reading stays until a newer one is entered or its days are over.
    """

    good_days: int
    counts_days: int


# Common practice, no source: oxygen changes within hours, and is lowest before
# sunrise, so that a reading makes no other day good; ammonia and nitrite change within
# days, alkalinity with them, nitrate and chloride within weeks.
KEEPS: Final[dict[str, Keeps]] = {
    "temperature_deg_c": Keeps(good_days=1, counts_days=7),
    "do_mg_per_l": Keeps(good_days=0, counts_days=7),
    "ph": Keeps(good_days=7, counts_days=14),
    "tan_mg_per_l": Keeps(good_days=7, counts_days=14),
    "nitrite_n_mg_per_l": Keeps(good_days=7, counts_days=14),
    "nitrate_n_mg_per_l": Keeps(good_days=30, counts_days=60),
    "alkalinity_mg_per_l": Keeps(good_days=7, counts_days=14),
    "chloride_mg_per_l": Keeps(good_days=30, counts_days=60),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A reading and the whole days since it was made; ``at`` where it is known."""

    value: float
    age_days: int
    at: time | None = None

    @property
    def when(self) -> Message:
        """Its age in words."""
        if self.age_days > 1:
            return Message.of("read-when", case="days", days=self.age_days)
        yesterday = self.age_days == 1
        if self.at is None:
            return Message.of("read-when", case="yesterday" if yesterday else "today")
        return Message.of(
            "read-when",
            case="yesterday-at" if yesterday else "today-at",
            at=f"{self.at:%H:%M}",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """The newest reading of each quantity; None where there is none."""

    temperature_deg_c: Reading | None = None
    do_mg_per_l: Reading | None = None
    ph: Reading | None = None
    tan_mg_per_l: Reading | None = None
    nitrite_n_mg_per_l: Reading | None = None
    nitrate_n_mg_per_l: Reading | None = None
    alkalinity_mg_per_l: Reading | None = None
    chloride_mg_per_l: Reading | None = None

    def counting(self) -> "Readings":
        """Return those that are not too old to count."""
        too_old = {
            field.name: None
            for field in fields(self)
            if (found := getattr(self, field.name)) is not None
            and found.age_days > KEEPS[field.name].counts_days
        }
        return replace(self, **too_old)

    def makes_good(self, name: str) -> bool:
        """Return whether a reading is there, fresh enough to call water good."""
        found: Reading | None = getattr(self, name)
        return found is not None and found.age_days <= KEEPS[name].good_days


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnLimits:
    """A unit's own limits; None where the species' figures decide."""

    min_do_mg_per_l: float | None = None
    critical_do_mg_per_l: float | None = None
    max_unionised_ammonia_mg_per_l: float | None = None
    max_nitrate_n_mg_per_l: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """Whose water it is.

    ``loops`` says that the same water comes back to the fish, so that ammonia must be
    known; ``still`` that it lies open in a pond, where oxygen swings with the day.
    ``expected_temperature_deg_c`` is the unit's own table of the year, None without
    one; it serves oxygen and ammonia where no thermometer was read.
    """

    species_keys: tuple[str, ...]
    loops: bool = False
    still: bool = False
    salinity_g_per_kg: float = 0.0
    altitude_m: float = 0.0
    pressure_hpa: float | None = None
    expected_temperature_deg_c: float | None = None
    own: OwnLimits = OwnLimits()


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why the water is judged as it is.

    ``value`` and ``limit`` are in ``unit``; None where nothing was measured. ``stops``
    is what must wait until it is better.
    """

    code: str
    about: Quantity
    verdict: Verdict
    message: Annotated[
        Message, Field(description="For people, with the reading and its age.")
    ]
    value: Annotated[
        float | None,
        Field(description="The reading, in `unit`; null where there is none."),
    ]
    limit: Annotated[
        float | None,
        Field(description="The limit, in `unit`; null where nothing was read."),
    ]
    unit: Annotated[str, Field(description="Unit of value and limit.")]
    source: Annotated[Message, Field(description="Where the limit comes from.")]
    do_now: Annotated[
        tuple[Message, ...], Field(description="What to do, in this order.")
    ]
    stops: Annotated[tuple[Stop, ...], Field(description="What must wait.")] = ()

    @property
    def advice(self) -> Message | None:
        """What to do, as a sentence."""
        return do_now(self.do_now)


def do_now(steps: Iterable[Message]) -> Message | None:
    """Return what to do now as one sentence, in the order of ``STEPS``."""
    wanted = set(steps)
    ordered = tuple(step for step in STEPS if step in wanted)
    return Message.of("do-now", steps=ordered) if ordered else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """A limit and whose it is."""

    value: float
    source: Message
    whose: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """What the rules judge: readings that count, and the bands of the fish."""

    readings: Readings
    setting: Setting
    bands: tuple[tuple[str, WaterFigures], ...]

    @classmethod
    def of(cls, readings: Readings, setting: Setting) -> "Case":
        """Return the case; food fish in general where no fish are known."""
        keys = setting.species_keys or ("",)
        return cls(
            readings=readings.counting(),
            setting=setting,
            bands=tuple((key, water_of(key)) for key in keys),
        )

    def lowest(self, figure: Callable[[WaterFigures], Figure | None]) -> Bound | None:
        """Return the strictest of upper limits."""
        return min(self._bounds(figure), key=lambda bound: bound.value, default=None)

    def highest(self, figure: Callable[[WaterFigures], Figure | None]) -> Bound | None:
        """Return the strictest of lower limits."""
        return max(self._bounds(figure), key=lambda bound: bound.value, default=None)

    def temperature_deg_c(self) -> float | None:
        """Return the temperature to calculate gases and ammonia with."""
        read = self.readings.temperature_deg_c
        return self.setting.expected_temperature_deg_c if read is None else read.value

    def _bounds(self, figure: Callable[[WaterFigures], Figure | None]) -> list[Bound]:
        found = []
        for key, bands in self.bands:
            one = figure(bands)
            if one is not None:
                source = one.note(one.value)
                found.append(
                    Bound(value=one.value, source=source, whose=fish_name(key))
                )
        return found


def fish_name(key: str) -> Message:
    """Return a species in words, as within a sentence."""
    if not key:
        return Message.of("fish", case="food")
    name = key.replace("-", " ")
    if key in species_keys():
        name = packaged_species(key).common_name
    return Message.of("species-name", key=key, name=name)
