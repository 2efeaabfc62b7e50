"""What is known of a species: one record, each figure in it once."""

import dataclasses
from collections.abc import Iterator
from dataclasses import field, replace
from typing import Annotated, Any

from pydantic import AfterValidator, Field

from fishmeasure.base.record import Count, Name, Text, record
from fishmeasure.base.words import Message, wording
from fishmeasure.species.figure import (
    FeedRule,
    Figure,
    Positive,
    RelativeSd,
    RespirationForm,
    Source,
    Sourced,
    Status,
    described,
    refuse,
    within,
)
from fishmeasure.species.size import BodyFigures, LengthWeight, Shape, as_entered
from fishmeasure.species.water import WaterFigures

# --- growth, feed, oxygen and limits ------------------------------------------


@record(frozen=True, slots=True, kw_only=True)
class GrowthFigures:
    """Thermal growth coefficient x 1000 and the size for the plate.

    Above ``optimum_temperature_deg_c`` growth is held at its value there, and outside
    the temperatures of feeding in ``WaterFigures`` it is taken as nil (Jobling 2003,
    Aquac Res 34:581-584: the linear temperature term fails near and above the optimum).
    """

    tgc_x1000: Annotated[
        Figure,
        within(0.05, 10.0),
        described("Thermal growth coefficient x 1000, g^(1/3) per degree-day"),
    ]
    optimum_temperature_deg_c: Annotated[
        Figure, within(2.0, 38.0), described("Growth no faster above, °C")
    ]
    plate_size_g: Annotated[Figure, within(10.0, 20_000.0), described("Plate size, g")]


@record(frozen=True, slots=True, kw_only=True)
class FeedFigures:
    """How the ration is found, and what the feed is."""

    rule: FeedRule
    fcr: Annotated[Figure, within(0.5, 5.0), described("Feed conversion ratio")]
    protein_percent: Annotated[
        Figure, within(10.0, 80.0), described("Protein of the feed, %")
    ]


@record(frozen=True, slots=True, kw_only=True)
class Swimming:
    """What swimming adds: a factor exp(cost U), U = a W^b exp(q T) in cm/s.

    Up to ``highest_temperature_deg_c``, whose speed is held above it (Stewart & Ibarra
    1991, Can J Fish Aquat Sci 48:909-922, as tabled in Fish Bioenergetics 4.0, whose
    own speed falls to W^b there).
    """

    a_cm_per_s: Positive
    weight_exponent: float
    temperature_q: Annotated[float, described("Of the speed, 1 over degrees Celsius.")]
    cost_s_per_cm: Positive
    highest_temperature_deg_c: Positive


@record(frozen=True, slots=True, kw_only=True)
class Respiration(Sourced):
    """Oxygen use of fasted fish, g O2 per g per day = a W^b f(T) activity.

    ``exponential``: f = exp(q T). ``dome``: f = V^x exp(x (1 - V)) with V =
    (highest - T) / (highest - optimum) (Kitchell, Stewart & Weininger 1977, J Fish
    Res Board Can 34:1922-1935), whose two temperatures the other form has not.
    ``swimming`` comes on top of ``activity`` where the equation has that term.
    """

    form: RespirationForm
    a_g_per_g_day: Positive
    weight_exponent: float
    temperature_q: Annotated[
        float,
        Field(gt=0.0),
        described(
            "Exponential: 1 over degrees Celsius; dome: rise in 10 degrees, times."
        ),
    ]
    optimum_temperature_deg_c: float = 0.0
    highest_temperature_deg_c: float = 0.0
    activity: Annotated[float, Field(gt=0.0), described("Of moving fish, times.")]
    min_temperature_deg_c: float
    max_temperature_deg_c: float
    min_weight_g: Positive
    max_weight_g: Positive
    relative_sd: RelativeSd
    source: Source
    status: Status
    swimming: Swimming | None = None

    def __post_init__(self) -> None:
        ends = (self.optimum_temperature_deg_c, self.highest_temperature_deg_c)
        if self.form == "dome" and not 0.0 < ends[0] < ends[1]:
            refuse(Message.of("species-slip", case="dome"))


@record(frozen=True, slots=True, kw_only=True)
class OxygenFigures:
    """Oxygen use; the levels to keep above stand in ``WaterFigures``."""

    respiration: Respiration
    fed_factor: Annotated[
        Figure,
        within(1.0, 4.0),
        described("Oxygen use after a meal over fasted, times"),
    ]


@record(frozen=True, slots=True, kw_only=True)
class LimitFigures:
    """Stocking limits.

    ``min_saturation_percent`` is the oxygen that stands beside a density in its rule;
    None where the density comes from no such rule.
    """

    density_kg_per_m3: Annotated[
        Figure, within(0.1, 500.0), described("Most fish, kg/m³")
    ]
    min_saturation_percent: Annotated[
        Annotated[Figure, within(10.0, 100.0)] | None,
        described("Oxygen that goes with that density, % of saturation"),
    ] = None


@record(frozen=True, slots=True, kw_only=True)
class Photos:
    """On how many photos of real fish of the species the measuring was tested.

    ``result`` is how well, or on what else it was tested, in words.
    """

    real_count: Count = 0
    result: Text = ""

    @property
    def sentence(self) -> str:
        """What the screen says."""
        if self.real_count == 0:
            told = f" {self.result}" if self.result else ""
            return wording("tested", case="not", photos=0, result=told)
        return wording(
            "tested", case="real", photos=self.real_count, result=self.result
        )


@record(frozen=True, slots=True, kw_only=True)
class Species:
    """One species or one stock of it.

    Attributes
    ----------
    key
        Name on the command line, such as "rainbow-trout".
    common_name
        As within a sentence: "rainbow trout", "Atlantic salmon".
    family
        Such as "Salmonidae"; empty where nobody knows.
    length_weight
        The coefficients as published; ``on_fork_length`` for use.
    growth, feed, oxygen, limits
        All of them or none; see ``FarmedSpecies``.
    """

    key: str
    common_name: Annotated[Name, Field(min_length=1)]
    latin_name: Annotated[Name, Field(min_length=1)]
    family: Name = ""
    length_weight: Annotated[LengthWeight, AfterValidator(as_entered)]
    shape: Shape
    body: BodyFigures
    growth: GrowthFigures | None = None
    feed: FeedFigures | None = None
    oxygen: OxygenFigures | None = None
    limits: LimitFigures | None = None
    water: WaterFigures
    photos: Photos = field(default_factory=Photos)
    is_own_stock: bool = False

    @property
    def said(self) -> Message:
        """Its name, as within a sentence."""
        return Message.of("species-name", key=self.key, name=self.common_name)

    @property
    def title(self) -> str:
        """The common name as a heading has it."""
        return self.common_name[:1].upper() + self.common_name[1:]

    @property
    def is_salmonid(self) -> bool:
        """Whether water criteria for salmonids apply."""
        return self.family == "Salmonidae"

    def on_fork_length(self) -> LengthWeight:
        """Return the coefficients and their range for fork length.

        With L = r FL, W = a L^b = (a r^b) FL^b, which is exact.
        """
        published, shape = self.length_weight, self.shape
        per_fork = {
            "fork": 1.0,
            "total": 1.0 / shape.fork_per_total.value,
            "standard": shape.standard_per_total.value / shape.fork_per_total.value,
        }[published.length_kind]
        return replace(
            published,
            a_g_cm=published.a_g_cm * per_fork**published.b,
            length_kind="fork",
            min_length_mm=published.min_length_mm / per_fork,
            max_length_mm=published.max_length_mm / per_fork,
        )


@record(frozen=True, slots=True, kw_only=True)
class FarmedSpecies(Species):
    """A species with all that the calculations of husbandry ask for."""

    growth: GrowthFigures
    feed: FeedFigures
    oxygen: OxygenFigures
    limits: LimitFigures


def figures_of(part: Any, path: str = "") -> Iterator[tuple[str, str, Figure]]:
    """Yield each figure of a record: its place, its words with the unit, the figure.

    A place is such as ``growth.tgc_x1000``.
    """
    for name, item in type(part).__pydantic_fields__.items():
        place, value = f"{path}{name}", getattr(part, name)
        if isinstance(value, Figure):
            yield place, item.description or name, value
        elif dataclasses.is_dataclass(value):
            yield from figures_of(value, f"{place}.")
