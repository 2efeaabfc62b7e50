"""Species figures for growth, feed and oxygen, each with source and standing.

One TOML a species in ``husbandry/data``. Every figure is a table ``{value,
relative_sd, source, status}``:

seen
    Read in the publication, its abstract or a data set that cites it.
computed
    Worked out here from figures that were seen.
stand-in
    Seen, but of another species, for want of this one's.
practice
    Common practice, no source.
memory
    From memory, not checked against its source.
"""

import csv
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any, Literal, get_args

from fishmeasure.base.errors import UnknownStockSpeciesError
from fishmeasure.species import species_keys

Status = Literal["seen", "computed", "stand-in", "practice", "memory"]
RespirationForm = Literal["exponential", "dome"]
FeedRule = Literal["chart", "growth"]

_SPECIES = resources.files("fishmeasure.species")
_DATA = resources.files("fishmeasure.husbandry").joinpath("data")
_WEAK = {
    "stand-in": "is another species' figure, for want of this one's",
    "practice": "is common practice without a source",
    "memory": "is from memory and not checked against its source",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One published or customary number; its unit is in the field's name."""

    value: float
    relative_sd: float
    source: str
    status: Status

    def note(self, name: str) -> str:
        """Return a sentence for the screen on where the figure comes from.

        Parameters
        ----------
        name
            What it is, with its value and unit in words.
        """
        if self.status in _WEAK:
            return f"{name} {_WEAK[self.status]} ({self.source})."
        return f"{name}: {self.source}."


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthFigures:
    """Thermal growth coefficient x 1000 and where it may be used.

    Above ``optimum_temperature_deg_c`` growth is held at its value there, and outside
    ``lowest_temperature_deg_c`` to ``highest_temperature_deg_c``, the ends of feeding
    in the species' ``[water]``, it is taken as nil (Jobling 2003, Aquac Res
    34:581-584: the linear temperature term fails near and above the optimum).
    """

    tgc_x1000: Figure
    optimum_temperature_deg_c: Figure
    lowest_temperature_deg_c: Figure
    highest_temperature_deg_c: Figure
    plate_size_g: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedFigures:
    """How the ration is found, and what the feed is."""

    rule: FeedRule
    fcr: Figure
    protein_percent: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Swimming:
    """What swimming adds: a factor exp(cost U), U = a W^b exp(q T) in cm/s.

    Up to ``highest_temperature_deg_c``, whose speed is held above it (Stewart & Ibarra
    1991, Can J Fish Aquat Sci 48:909-922, as tabled in Fish Bioenergetics
    4.0, whose own speed falls to W^b there).
    """

    a_cm_per_s: float
    weight_exponent: float
    temperature_q: float
    cost_s_per_cm: float
    highest_temperature_deg_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Respiration:
    """Oxygen use of fasted fish, g O2 per g per day = a W^b f(T) activity.

    ``exponential``: f = exp(q T). ``dome``: f = V^x exp(x (1 - V)) with V =
    (highest - T) / (highest - optimum) (Kitchell, Stewart & Weininger 1977, J Fish
    Res Board Can 34:1922-1935), whose two temperatures are 0 in the other form.
    ``swimming`` comes on top of ``activity`` where the equation has that term.
    """

    form: RespirationForm
    a_g_per_g_day: float
    weight_exponent: float
    temperature_q: float
    optimum_temperature_deg_c: float
    highest_temperature_deg_c: float
    activity: float
    min_temperature_deg_c: float
    max_temperature_deg_c: float
    min_weight_g: float
    max_weight_g: float
    relative_sd: float
    source: str
    status: Status
    swimming: Swimming | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenFigures:
    """Oxygen demand and the levels to keep above."""

    respiration: Respiration
    fed_factor: Figure
    caution_mg_per_l: Figure
    critical_mg_per_l: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitFigures:
    """Stocking limits.

    ``min_saturation_percent`` is the oxygen that stands beside a density in its rule;
    None where the density comes from no such rule.
    """

    density_kg_per_m3: Figure
    unionised_ammonia_mg_per_l: Figure
    nitrate_n_mg_per_l: Figure
    min_saturation_percent: Figure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StockFigures:
    """All that the stocking calculations know of a species."""

    key: str
    common_name: str
    growth: GrowthFigures
    feed: FeedFigures
    oxygen: OxygenFigures
    limits: LimitFigures


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedChartCell:
    """One cell of the feed chart: % of body weight a day."""

    temperature_deg_f: int
    size_class_in: str
    min_weight_g: float | None
    max_weight_g: float | None
    percent_per_day: float
    suspect: bool


def _figure(table: dict[str, Any]) -> Figure:
    status = table["status"]
    if status not in get_args(Status):  # a wrong file is a bug, not a grower's input
        msg = f"unknown status {status!r}"
        raise ValueError(msg)
    return Figure(
        value=float(table["value"]),
        relative_sd=float(table["relative_sd"]),
        source=table["source"],
        status=status,
    )


def _figures(table: dict[str, Any], *names: str) -> dict[str, Figure]:
    return {name: _figure(table[name]) for name in names}


def _respiration(table: dict[str, Any]) -> Respiration:
    swimming = table.get("swimming")
    return Respiration(
        **{key: value for key, value in table.items() if key != "swimming"},
        swimming=Swimming(**swimming) if swimming else None,
    )


def water_figures(species_key: str) -> dict[str, Figure]:
    """Return a species' own figures of water, by name; none where it is unknown.

    They stand as ``[water]`` in the species' own TOML, for all species, whether or
    not there are figures of growth.
    """
    if species_key not in species_keys():
        return {}
    text = _SPECIES.joinpath(f"{species_key}.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text).get("water", {})
    return _figures(table, *table)


def generic_water_figures() -> dict[str, Figure]:
    """Return the figures of water for food fish in general, by name."""
    text = _DATA.joinpath("generic", "food-fish.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text)["water"]
    return _figures(table, *table)


@cache
def stock_species() -> tuple[str, ...]:
    """Return the keys of the species with stocking figures, sorted."""
    return tuple(
        sorted(
            entry.name.removesuffix(".toml")
            for entry in _DATA.iterdir()
            if entry.name.endswith(".toml")
        )
    )


@cache
def load_stock_figures(species_key: str) -> StockFigures:
    """Return the stocking figures of a species.

    Raises
    ------
    UnknownStockSpeciesError
        If there are none; its message lists the species that have them.
    """
    if species_key not in stock_species():
        raise UnknownStockSpeciesError(species_key, stock_species())
    text = _DATA.joinpath(f"{species_key}.toml").read_text(encoding="utf-8")
    data = tomllib.loads(text)
    oxygen, water = data["oxygen"], water_figures(species_key)
    return StockFigures(
        key=species_key,
        common_name=data["common_name"],
        growth=GrowthFigures(
            **_figures(
                data["growth"],
                "tgc_x1000",
                "optimum_temperature_deg_c",
                "plate_size_g",
            ),
            lowest_temperature_deg_c=water["feeding_low_deg_c"],
            highest_temperature_deg_c=water["feeding_high_deg_c"],
        ),
        feed=FeedFigures(
            rule=data["feed"]["rule"],
            **_figures(data["feed"], "fcr", "protein_percent"),
        ),
        oxygen=OxygenFigures(
            respiration=_respiration(oxygen["respiration"]),
            **_figures(oxygen, "fed_factor", "caution_mg_per_l", "critical_mg_per_l"),
        ),
        limits=LimitFigures(**_figures(data["limits"], *data["limits"])),
    )


@cache
def load_feed_chart() -> tuple[FeedChartCell, ...]:
    """Return the 363 cells of the trout feed chart.

    Source: Leitritz & Lewis 1980, Trout and Salmon Culture (Calif. Fish Bull. 164),
    as reprinted by the North Carolina extension service. Two cells (67 and 68 F,
    1-2 in) break the run of their column and are marked ``suspect``.
    """
    text = _DATA.joinpath("feed_chart_trout.csv").read_text(encoding="utf-8")
    return tuple(
        FeedChartCell(
            temperature_deg_f=int(row["temperature_deg_f"]),
            size_class_in=row["size_class_in"],
            min_weight_g=float(row["min_weight_g"]) if row["min_weight_g"] else None,
            max_weight_g=float(row["max_weight_g"]) if row["max_weight_g"] else None,
            percent_per_day=float(row["percent_per_day"]),
            suspect=row["suspect"] == "True",
        )
        for row in csv.DictReader(text.splitlines())
    )
