"""What is known of a species: one record, each figure in it once."""

import dataclasses
import math
from collections.abc import Iterator
from dataclasses import field, replace
from itertools import pairwise
from typing import Annotated, Any, Final, Literal, NoReturn

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from fishmeasure.base.record import Count, Name, Text, record, wrong
from fishmeasure.base.words import Message, wording

LengthKind = Literal["fork", "total", "standard"]
Confidence = Literal["high", "medium", "low"]
Standing = Literal["good", "watch", "act"]
RespirationForm = Literal["exponential", "dome"]
FeedRule = Literal["chart", "growth"]

StockKind = Literal["farmed", "wild"]
"""Whose condition a level describes; wild fish are leaner than fed ones."""

Status = Literal["seen", "computed", "stand-in", "memory", "practice"]
"""How a figure is known, best first."""

_Positive = Annotated[float, Field(gt=0.0)]
_NotNegative = Annotated[float, Field(ge=0.0)]
_RelativeSd = Annotated[float, Field(ge=0.0, lt=1.0)]


def _one_line(text: str) -> str:
    if not text.strip():
        raise wrong(Message.of("wanted", case="text"))
    return " ".join(text.split())


_Source = Annotated[Text, AfterValidator(_one_line)]


def _refuse(reason: Message) -> NoReturn:
    raise PydanticCustomError("slip", "{reason}", {"reason": reason})


class _Sourced:
    """What has a source and a status, and how the screen says so."""

    __slots__ = ()
    source: str
    status: Status

    @property
    def origin(self) -> str:
        """How well it is known and from where."""
        return wording("origin", case=self.status, source=self.source)

    def note(self, what: Message | str | float) -> Message:
        """Return a note for the screen on where it comes from.

        Parameters
        ----------
        what
            What it is, with its value.
        """
        status, source = self.status, self.source
        return Message.of("sourced", case=status, what=what, source=source)


@record(frozen=True, slots=True, kw_only=True)
class Figure(_Sourced):
    """One published or customary number; its unit is in the field's name.

    ``relative_sd`` is its error or spread, 0 for a limit that somebody set.
    """

    value: float
    relative_sd: _RelativeSd
    source: _Source
    status: Status

    @property
    def sd(self) -> float:
        """Its error in its own unit."""
        return abs(self.value) * self.relative_sd


def _within(low: float, high: float) -> AfterValidator:
    def check(figure: Figure) -> Figure:
        if not low <= figure.value <= high:
            _refuse(
                Message.of("figure-outside", value=figure.value, low=low, high=high)
            )
        return figure

    return AfterValidator(check)


def _words(text: str) -> Any:
    return Field(description=text)


# --- length and weight --------------------------------------------------------


@record(frozen=True, slots=True, kw_only=True)
class LengthWeight(_Sourced):
    """W = a L^b with W in grams and L in centimetres.

    ``a_g_cm`` is that of the median line, as a log-log fit gives it.
    ``relative_sd`` is the error of the level for an unknown stock (about 0.25
    for published coefficients); ``residual_sd_ln`` the spread of ln W of single
    fish about their own stock's line; ``b_sd`` the spread of b between stocks.
    ``min_length_mm`` to ``max_length_mm`` is where a and b hold, in that same length.
    """

    a_g_cm: _Positive
    b: float
    length_kind: LengthKind
    min_length_mm: _Positive
    max_length_mm: _Positive
    relative_sd: _NotNegative
    residual_sd_ln: _NotNegative
    b_sd: _NotNegative
    source: _Source
    confidence: Confidence
    stock: StockKind = "wild"
    status: Status = "seen"

    def __post_init__(self) -> None:
        if self.min_length_mm >= self.max_length_mm:
            _refuse(Message.of("species-slip", case="lengths"))

    @property
    def reference_length_mm(self) -> float:
        """Length at which errors of level and of b are independent.

        The geometric middle of the range: published a and b trade off about the
        middle of the fish they were fitted to.
        """
        return math.sqrt(self.min_length_mm * self.max_length_mm)


# Limits that catch a slip of unit or decimal point, not an odd fish. a: eels 0.001,
# pufferfish 0.05 (FishBase's range, from memory); b: Froese 2006 finds 2.5-3.5 for
# most; depth: eel 0.05, bream 0.46 (Brofeldt 1917), moonfish above.
_LINE_LIMITS: Final = {
    "a_g_cm": (0.0002, 0.2),
    "b": (2.0, 4.0),
    "min_length_mm": (5.0, 5000.0),
    "max_length_mm": (5.0, 5000.0),
    "relative_sd": (0.001, 1.0),
    "residual_sd_ln": (0.001, 1.0),
    "b_sd": (0.0, 0.5),
}


def _as_entered(line: LengthWeight) -> LengthWeight:
    """Check a line as it is published; on another kind of length it may lie outside."""
    for name, (low, high) in _LINE_LIMITS.items():
        value = getattr(line, name)
        if not low <= value <= high:
            _refuse(
                Message.of(
                    "figure-outside-named", name=name, value=value, low=low, high=high
                )
            )
    return line


@record(frozen=True, slots=True, kw_only=True)
class Shape:
    """Proportions of the body, and their spread between fish.

    Where the spread of the two length ratios was not measured it is that of 86 lake
    trout (Arctic LTER), 56 perch (Brofeldt 1917) and 100 bluegill (Lake Mary): 0.8 to
    2.1 % for the fork, from 1.7 % for the standard length.

    Attributes
    ----------
    fork_per_total, standard_per_total
        Length ratios (fork length / total length; 1 where the tail has no fork).
    thickness_per_depth
        Side-to-side thickness over body depth, for the height of the midline.
    depth_per_fork_length
        Typical body depth over fork length.
    snout_height, fork_height
        Over the board, as shares of half the thickness, of a fish on its side; their
        error is how far the fish of a photo, limp or stiff, are from it.
    """

    fork_per_total: Annotated[
        Figure, _within(0.6, 1.0), _words("Fork length over total length")
    ]
    standard_per_total: Annotated[
        Figure, _within(0.5, 1.0), _words("Standard length over total length")
    ]
    thickness_per_depth: Annotated[
        Figure, _within(0.05, 2.0), _words("Thickness over body depth")
    ]
    depth_per_fork_length: Annotated[
        Figure, _within(0.02, 1.0), _words("Body depth over fork length")
    ]
    snout_height: Annotated[
        Figure, _within(0.0, 2.0), _words("Snout over the board, per half thickness")
    ]
    fork_height: Annotated[
        Figure, _within(0.0, 2.0), _words("Fork over the board, per half thickness")
    ]

    def __post_init__(self) -> None:
        if self.standard_per_total.value > self.fork_per_total.value:
            _refuse(Message.of("species-slip", case="standard"))


@record(frozen=True, slots=True, kw_only=True)
class BodyFigures:
    """What weighs a fish by the depth of its body: W = c V, see ``photo.length.depth``.

    V is the integral of the squared depth across the midline, without fins, from the
    snout to the base of the tail fin; c is in g per cubic centimetre of V.

    Attributes
    ----------
    c_g_per_cm3
        Its ``relative_sd`` is how well it is known for the species' stocks on average;
        None where no fish of the species were weighed beside their outlines.
    stock_relative_sd, fish_relative_sd
        Spread of c between stocks of a species, and between fish of a stock.
    squared_depth_per_cubed_length
        Usual V over cubed fork length, of fish of the published line at its
        ``reference_length_mm``; None where it follows from the usual depth.
    squared_depth_per_depth2_length
        V over greatest squared depth times fork length.
    """

    c_g_per_cm3: Annotated[
        Annotated[Figure, _within(0.05, 2.0)] | None,
        _words("Weight over squared depth along the body, g/cm³"),
    ] = None
    stock_relative_sd: Annotated[
        Figure, _within(0.0, 0.5), _words("Its spread between stocks, fraction")
    ]
    fish_relative_sd: Annotated[
        Figure, _within(0.0, 0.5), _words("Its spread between fish, fraction")
    ]
    squared_depth_per_cubed_length: Annotated[
        Annotated[Figure, _within(0.001, 0.5)] | None,
        _words("Squared depth along the body over cubed fork length"),
    ] = None
    squared_depth_per_depth2_length: Annotated[
        Figure,
        _within(0.2, 1.0),
        _words("Squared depth along the body over depth squared times fork length"),
    ]

    def usual_squared_depth(self, depth_per_fork_length: Figure) -> tuple[float, float]:
        """Return V over cubed fork length as usual, and its relative error."""
        if (own := self.squared_depth_per_cubed_length) is not None:
            return own.value, own.relative_sd
        fill, depth = self.squared_depth_per_depth2_length, depth_per_fork_length
        return (
            fill.value * depth.value**2,
            math.hypot(fill.relative_sd, 2.0 * depth.relative_sd),
        )


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
        _within(0.05, 10.0),
        _words("Thermal growth coefficient x 1000, g^(1/3) per degree-day"),
    ]
    optimum_temperature_deg_c: Annotated[
        Figure, _within(2.0, 38.0), _words("Growth no faster above, °C")
    ]
    plate_size_g: Annotated[Figure, _within(10.0, 20_000.0), _words("Plate size, g")]


@record(frozen=True, slots=True, kw_only=True)
class FeedFigures:
    """How the ration is found, and what the feed is."""

    rule: FeedRule
    fcr: Annotated[Figure, _within(0.5, 5.0), _words("Feed conversion ratio")]
    protein_percent: Annotated[
        Figure, _within(10.0, 80.0), _words("Protein of the feed, %")
    ]


@record(frozen=True, slots=True, kw_only=True)
class Swimming:
    """What swimming adds: a factor exp(cost U), U = a W^b exp(q T) in cm/s.

    Up to ``highest_temperature_deg_c``, whose speed is held above it (Stewart & Ibarra
    1991, Can J Fish Aquat Sci 48:909-922, as tabled in Fish Bioenergetics 4.0, whose
    own speed falls to W^b there).
    """

    a_cm_per_s: _Positive
    weight_exponent: float
    temperature_q: Annotated[float, _words("Of the speed, 1 over degrees Celsius.")]
    cost_s_per_cm: _Positive
    highest_temperature_deg_c: _Positive


@record(frozen=True, slots=True, kw_only=True)
class Respiration(_Sourced):
    """Oxygen use of fasted fish, g O2 per g per day = a W^b f(T) activity.

    ``exponential``: f = exp(q T). ``dome``: f = V^x exp(x (1 - V)) with V =
    (highest - T) / (highest - optimum) (Kitchell, Stewart & Weininger 1977, J Fish
    Res Board Can 34:1922-1935), whose two temperatures the other form has not.
    ``swimming`` comes on top of ``activity`` where the equation has that term.
    """

    form: RespirationForm
    a_g_per_g_day: _Positive
    weight_exponent: float
    temperature_q: Annotated[
        float,
        Field(gt=0.0),
        _words("Exponential: 1 over degrees Celsius; dome: rise in 10 degrees, times."),
    ]
    optimum_temperature_deg_c: float = 0.0
    highest_temperature_deg_c: float = 0.0
    activity: Annotated[float, Field(gt=0.0), _words("Of moving fish, times.")]
    min_temperature_deg_c: float
    max_temperature_deg_c: float
    min_weight_g: _Positive
    max_weight_g: _Positive
    relative_sd: _RelativeSd
    source: _Source
    status: Status
    swimming: Swimming | None = None

    def __post_init__(self) -> None:
        ends = (self.optimum_temperature_deg_c, self.highest_temperature_deg_c)
        if self.form == "dome" and not 0.0 < ends[0] < ends[1]:
            _refuse(Message.of("species-slip", case="dome"))


@record(frozen=True, slots=True, kw_only=True)
class OxygenFigures:
    """Oxygen use; the levels to keep above stand in ``WaterFigures``."""

    respiration: Respiration
    fed_factor: Annotated[
        Figure, _within(1.0, 4.0), _words("Oxygen use after a meal over fasted, times")
    ]


@record(frozen=True, slots=True, kw_only=True)
class LimitFigures:
    """Stocking limits.

    ``min_saturation_percent`` is the oxygen that stands beside a density in its rule;
    None where the density comes from no such rule.
    """

    density_kg_per_m3: Annotated[
        Figure, _within(0.1, 500.0), _words("Most fish, kg/m³")
    ]
    min_saturation_percent: Annotated[
        Annotated[Figure, _within(10.0, 100.0)] | None,
        _words("Oxygen that goes with that density, % of saturation"),
    ] = None


# --- water --------------------------------------------------------------------

_DegC = Annotated[Figure, _within(-1.0, 42.0)]
_MgPerL = Annotated[Figure, _within(0.001, 1000.0)]
_Ph = Annotated[Figure, _within(3.0, 12.0)]
_Percent = Annotated[Figure, _within(100.0, 400.0)]


@record(frozen=True, slots=True, kw_only=True)
class WaterFigures:
    """Where a species is well, where to watch and where to act.

    Attributes
    ----------
    feeding_low_deg_c, feeding_high_deg_c
        Outside: no feeding, no growth, no handling, no stocking.
    act_low_deg_c, act_high_deg_c
        At or beyond: published deaths or loss of balance near there.
    do_watch_mg_per_l, do_act_mg_per_l
        Below; also called the caution and the critical level of oxygen.
    saturation_watch_percent, saturation_act_percent
        Of oxygen, above; gas bubble disease.
    ph_act_low, ph_watch_low, ph_watch_high, ph_act_high
        Outside.
    unionised_ammonia_n_act_mg_per_l
        Above; the species' own limit, beside the criteria in ``ammonia_criteria``.
    nitrite_n_watch_mg_per_l, nitrite_n_act_mg_per_l
        Above, at 10 mg/L chloride, which keeps nitrite out of the gills; see
        ``at_chloride``. Nitrite makes the blood brown and carry no oxygen.
    nitrate_n_watch_mg_per_l
        Above.
    generic
        Names of the fields that are those of food fish in general.
    """

    feeding_low_deg_c: Annotated[_DegC, _words("Feeds from, °C")]
    feeding_high_deg_c: Annotated[_DegC, _words("Feeds up to, °C")]
    act_low_deg_c: Annotated[_DegC, _words("Deaths or lost balance at or below, °C")]
    act_high_deg_c: Annotated[_DegC, _words("Deaths or lost balance at or above, °C")]
    do_watch_mg_per_l: Annotated[_MgPerL, _words("Caution level of oxygen, mg/L")]
    do_act_mg_per_l: Annotated[_MgPerL, _words("Critical level of oxygen, mg/L")]
    saturation_watch_percent: Annotated[
        _Percent, _words("Watch oxygen over, % of saturation")
    ]
    saturation_act_percent: Annotated[
        _Percent, _words("Act on oxygen over, % of saturation")
    ]
    ph_act_low: Annotated[_Ph, _words("Act on pH under")]
    ph_watch_low: Annotated[_Ph, _words("Watch pH under")]
    ph_watch_high: Annotated[_Ph, _words("Watch pH over")]
    ph_act_high: Annotated[_Ph, _words("Act on pH over")]
    unionised_ammonia_n_act_mg_per_l: Annotated[
        _MgPerL, _words("Act on un-ionised ammonia over, mg/L as N")
    ]
    nitrite_n_watch_mg_per_l: Annotated[
        _MgPerL, _words("Watch nitrite over, mg/L as N at 10 mg/L chloride")
    ]
    nitrite_n_act_mg_per_l: Annotated[
        _MgPerL, _words("Act on nitrite over, mg/L as N at 10 mg/L chloride")
    ]
    nitrate_n_watch_mg_per_l: Annotated[
        _MgPerL, _words("Watch nitrate over, mg/L as N")
    ]
    generic: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for rising in _RISING:
            values = [getattr(self, name).value for name in rising]
            if not all(low < high for low, high in pairwise(values)):
                _refuse(Message.of("figures-must-rise", names=rising))

    def feeds_at(self, temperature_deg_c: float) -> bool:
        """Return whether fish are fed at a temperature."""
        low, high = self.feeding_low_deg_c.value, self.feeding_high_deg_c.value
        return low <= temperature_deg_c <= high

    def temperature_standing(self, temperature_deg_c: float) -> Standing:
        """Return how a temperature is borne."""
        low, high = self.act_low_deg_c.value, self.act_high_deg_c.value
        if not low < temperature_deg_c < high:
            return "act"
        return "good" if self.feeds_at(temperature_deg_c) else "watch"


_RISING: Final = (
    (
        "act_low_deg_c",
        "feeding_low_deg_c",
        "feeding_high_deg_c",
        "act_high_deg_c",
    ),
    ("do_act_mg_per_l", "do_watch_mg_per_l"),
    ("saturation_watch_percent", "saturation_act_percent"),
    ("ph_act_low", "ph_watch_low", "ph_watch_high", "ph_act_high"),
    ("nitrite_n_watch_mg_per_l", "nitrite_n_act_mg_per_l"),
)


# --- the species --------------------------------------------------------------


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
    length_weight: Annotated[LengthWeight, AfterValidator(_as_entered)]
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
