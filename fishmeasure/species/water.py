"""What water a species bears, and from where on it has to be watched or acted on."""

from itertools import pairwise
from typing import Annotated, Final

from fishmeasure.base.record import record
from fishmeasure.base.words import Message
from fishmeasure.species.figure import Figure, Standing, described, refuse, within

# --- water --------------------------------------------------------------------

_DegC = Annotated[Figure, within(-1.0, 42.0)]
_MgPerL = Annotated[Figure, within(0.001, 1000.0)]
_Ph = Annotated[Figure, within(3.0, 12.0)]
_Percent = Annotated[Figure, within(100.0, 400.0)]


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

    feeding_low_deg_c: Annotated[_DegC, described("Feeds from, °C")]
    feeding_high_deg_c: Annotated[_DegC, described("Feeds up to, °C")]
    act_low_deg_c: Annotated[_DegC, described("Deaths or lost balance at or below, °C")]
    act_high_deg_c: Annotated[
        _DegC, described("Deaths or lost balance at or above, °C")
    ]
    do_watch_mg_per_l: Annotated[_MgPerL, described("Caution level of oxygen, mg/L")]
    do_act_mg_per_l: Annotated[_MgPerL, described("Critical level of oxygen, mg/L")]
    saturation_watch_percent: Annotated[
        _Percent, described("Watch oxygen over, % of saturation")
    ]
    saturation_act_percent: Annotated[
        _Percent, described("Act on oxygen over, % of saturation")
    ]
    ph_act_low: Annotated[_Ph, described("Act on pH under")]
    ph_watch_low: Annotated[_Ph, described("Watch pH under")]
    ph_watch_high: Annotated[_Ph, described("Watch pH over")]
    ph_act_high: Annotated[_Ph, described("Act on pH over")]
    unionised_ammonia_n_act_mg_per_l: Annotated[
        _MgPerL, described("Act on un-ionised ammonia over, mg/L as N")
    ]
    nitrite_n_watch_mg_per_l: Annotated[
        _MgPerL, described("Watch nitrite over, mg/L as N at 10 mg/L chloride")
    ]
    nitrite_n_act_mg_per_l: Annotated[
        _MgPerL, described("Act on nitrite over, mg/L as N at 10 mg/L chloride")
    ]
    nitrate_n_watch_mg_per_l: Annotated[
        _MgPerL, described("Watch nitrate over, mg/L as N")
    ]
    generic: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for rising in _RISING:
            values = [getattr(self, name).value for name in rising]
            if not all(low < high for low, high in pairwise(values)):
                refuse(Message.of("figures-must-rise", names=rising))

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
