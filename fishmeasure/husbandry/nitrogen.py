"""Nitrogen: ammonia from feed, its poisonous share, nitrate, the plant bed."""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from fishmeasure.base.arrays import FloatArray, frozen
from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry.ammonia_criteria import (
    CRITERIA_NOTE,
    acute_tan_n_mg_per_l,
    any_salmonid,
    chronic_tan_n_mg_per_l,
)
from fishmeasure.husbandry.checks import outside, require, require_temperature
from fishmeasure.husbandry.propagation import lognormal, product, relative_sd, z_score
from fishmeasure.species import Figure, farmed_species

Crop = Literal["leafy", "fruiting", "raft", "nft"]

# TAN per protein fed: 0.092 (Timmons & Ebeling, seen on a third-party page) and
# 0.16 x 0.80 = 0.128 (the same page). The two are the ends of the 90 % interval.
TAN_PER_PROTEIN = (0.092, 0.128)
TAN_NOTE = Message.of("note-feed-nitrogen")
UPTAKE_NOTE = Message.of("note-plant-uptake")
PH_ERROR = 0.1  # of a field meter or drop test; common practice, no source

# Feed over plant bed, g/m2/day, lowest and highest: FAO Technical Paper 589 for
# leafy and fruiting crops at 32 % protein; Rakocy 2007 for rafts, and about a
# quarter of that for a nutrient film. The two sources differ by up to twice.
FEED_PER_BED_G_PER_M2_DAY: dict[Crop, tuple[float, float]] = {
    "leafy": (40.0, 50.0),
    "fruiting": (50.0, 80.0),
    "raft": (60.0, 100.0),
    "nft": (15.0, 25.0),
}
_BED_SOURCE = Message.of("note-feed-per-bed")


# --- ammonia ------------------------------------------------------------------


def unionised_fraction(*, ph: float, temperature_deg_c: float) -> float:
    """Return the share of total ammonia that is un-ionised, in fresh water.

    Emerson, Russo, Lund & Thurston 1975, J Fish Res Board Can 32:2379-2383: pKa =
    0.09018 + 2729.92 / T, 0-30 °C. Salt water has a smaller share (higher ionic
    strength), so the figure is on the safe side there.

    Raises
    ------
    StockRangeError
        Outside pH 4-11 or 0-40 °C.
    """
    require("pH", ph, "", 4.0, 11.0)
    require_temperature(temperature_deg_c)
    pka = 0.09018 + 2729.92 / (temperature_deg_c + 273.15)
    return 1.0 / (1.0 + math.pow(10.0, pka - ph))


@dataclass(frozen=True, slots=True, kw_only=True)
class AmmoniaReading:
    """What a reading of total ammonia means for the fish.

    ``limit_used_fraction`` is the un-ionised ammonia over the species' limit, which is
    loose at low pH; beside it stand the criteria of total ammonia at this pH and
    temperature (``ammonia_criteria``).
    """

    unionised_fraction: float
    unionised_n_mg_per_l: Estimate
    limit_n_mg_per_l: float
    limit_used_fraction: Estimate
    chronic_tan_n_mg_per_l: float
    acute_tan_n_mg_per_l: float
    notes: tuple[Message, ...] = ()
    problems: tuple[Problem, ...] = ()


def ammonia_reading(
    *,
    species_key: str,
    tan_mg_per_l: Estimate,
    ph: float,
    temperature_deg_c: float,
    salinity_g_per_kg: float = 0.0,
    own_limit_mg_per_l: float | None = None,
) -> AmmoniaReading:
    """Return the un-ionised ammonia of a water reading against the limit.

    The pH's error of 0.1 is carried, which is most of the interval.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
    """
    require("total ammonia nitrogen", tan_mg_per_l.value, "mg/L", 0.0)
    limit = own_limit(own_limit_mg_per_l) or _ammonia_limit(species_key)
    fraction = unionised_fraction(ph=ph, temperature_deg_c=temperature_deg_c)
    spread = _fraction_relative_sd(fraction)
    share = lognormal(fraction, spread, tan_mg_per_l.level)
    unionised = product(tan_mg_per_l, share, level=tan_mg_per_l.level)
    notes = [
        Message.of("note-unionised-share"),
        limit.note(Message.of("note-ammonia-limit", limit_mg_per_l=limit.value)),
        CRITERIA_NOTE,
    ]
    if salinity_g_per_kg > 0.0:
        notes.append(Message.of("note-unionised-in-salt"))
    chronic = chronic_tan_n_mg_per_l(ph=ph, temperature_deg_c=temperature_deg_c)
    problems = outside("water temperature", temperature_deg_c, "°C", 0.0, 30.0)
    if unionised.high > limit.value:
        problems += (
            Problem.of(
                "ammonia-over-limit",
                most_mg_per_l=unionised.high,
                limit_mg_per_l=limit.value,
            ),
        )
    elif tan_mg_per_l.high > chronic:
        problems += (_over_criterion(tan_mg_per_l, ph, temperature_deg_c, chronic),)
    return AmmoniaReading(
        unionised_fraction=fraction,
        unionised_n_mg_per_l=unionised,
        limit_n_mg_per_l=limit.value,
        limit_used_fraction=product(
            unionised,
            lognormal(1.0 / limit.value, limit.relative_sd),
            level=tan_mg_per_l.level,
        ),
        chronic_tan_n_mg_per_l=chronic,
        acute_tan_n_mg_per_l=acute_tan_n_mg_per_l(
            ph=ph,
            temperature_deg_c=temperature_deg_c,
            salmonids=any_salmonid((species_key,)),
        ),
        notes=tuple(notes),
        problems=problems,
    )


def _over_criterion(
    tan_mg_per_l: Estimate, ph: float, temperature_deg_c: float, chronic: float
) -> Problem:
    return Problem.of(
        "ammonia-over-criterion",
        most_mg_per_l=tan_mg_per_l.high,
        criterion_mg_per_l=chronic,
        ph=ph,
        water_deg_c=temperature_deg_c,
    )


def _fraction_relative_sd(fraction: float) -> float:
    """Return d ln(fraction) for the pH's error."""
    return math.log(10.0) * (1.0 - fraction) * PH_ERROR


def own_limit(value: float | None) -> Figure | None:
    """Return a unit's own limit, which stands for the species' where it is set."""
    if value is None:
        return None
    source = "set for the unit"
    return Figure(value=value, relative_sd=0.0, source=source, status="seen")


def _ammonia_limit(species_key: str) -> Figure:
    return farmed_species(species_key).water.unionised_ammonia_n_act_mg_per_l


# --- from feed ------------------------------------------------------------------


def tan_per_feed_g_per_kg(
    *, protein_percent: float, level: float = DEFAULT_LEVEL
) -> Estimate:
    """Return total ammonia nitrogen per kilogram of feed.

    ``TAN_PER_PROTEIN`` times the protein: 36.8 to 51.2 g/kg at 40 %.

    Raises
    ------
    StockRangeError
        Outside 5-80 % protein.
    """
    require("feed protein", protein_percent, "%", 5.0, 80.0)
    low, high = TAN_PER_PROTEIN
    sigma = math.log(high / low) / (2.0 * z_score(DEFAULT_LEVEL))
    middle = math.sqrt(low * high) * protein_percent / 100.0 * 1000.0
    return lognormal(middle, math.sqrt(math.expm1(sigma**2)), level)


def tan_g_per_day(*, feed_kg_per_day: Estimate, protein_percent: float) -> Estimate:
    """Return the total ammonia nitrogen that a day's feed makes."""
    require("feed", feed_kg_per_day.value, "kg/day", 0.0)
    level = feed_kg_per_day.level
    each = tan_per_feed_g_per_kg(protein_percent=protein_percent, level=level)
    return product(feed_kg_per_day, each, level=level)


@dataclass(frozen=True, slots=True, kw_only=True)
class Nitrification:
    """What takes ammonia out besides the outflow: a filter or the plant bed."""

    removal_g_per_day: float = 0.0


def feed_for_ammonia_kg_per_day(
    *,
    species_key: str,
    ph: float,
    temperature_deg_c: float,
    exchange_m3_per_day: float,
    protein_percent: float,
    nitrification: Nitrification | None = None,
    own_limit_mg_per_l: float | None = None,
    tan_use: Estimate | None = None,
) -> Estimate:
    """Return the feed at which ammonia settles at the stricter of two limits.

    They are the species' own of un-ionised ammonia and, tighter at low pH, the chronic
    criterion of total ammonia (``ammonia_criteria``); ``own_limit_mg_per_l`` of
    un-ionised ammonia, set for the unit, stands for both. Ammonia leaves with the
    exchanged water at the unit's level (well mixed, none in the inflow) and by the
    filter's stated removal. ``tan_use`` is a factor on the ammonia of the feed.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
    """
    require("water exchange", exchange_m3_per_day, "m³/day", 0.0)
    limit = own_limit(own_limit_mg_per_l) or _ammonia_limit(species_key)
    fraction = unionised_fraction(ph=ph, temperature_deg_c=temperature_deg_c)
    removal = nitrification.removal_g_per_day if nitrification else 0.0
    by_limit = limit.value / fraction
    if own_limit_mg_per_l is None:
        by_limit = min(
            by_limit, chronic_tan_n_mg_per_l(ph=ph, temperature_deg_c=temperature_deg_c)
        )
    allowed_tan_g = by_limit * exchange_m3_per_day + removal
    each = tan_per_feed_g_per_kg(protein_percent=protein_percent)
    if tan_use is not None:
        each = lognormal(each.value * tan_use.value, relative_sd(tan_use))
    # The criterion changes less with pH than the share, whose error is kept for both.
    spread = math.hypot(
        _fraction_relative_sd(fraction), relative_sd(each), limit.relative_sd
    )
    return lognormal(allowed_tan_g / each.value, spread)


# --- nitrate --------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NitrateTrend:
    """Nitrate nitrogen ahead.

    Attributes
    ----------
    days, nitrate_n_mg_per_l, low_mg_per_l, high_mg_per_l
        (n,) arrays.
    settled_mg_per_l
        Where it settles; None where nothing takes nitrate out and it rises on.
    days_to_limit
        At the high end; None where the limit is not reached in the time asked.
    """

    days: FloatArray
    nitrate_n_mg_per_l: FloatArray
    low_mg_per_l: FloatArray
    high_mg_per_l: FloatArray
    settled_mg_per_l: float | None
    limit_n_mg_per_l: float
    days_to_limit: int | None
    notes: tuple[Message, ...] = ()
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class NitrogenLoop:
    """A unit as the nitrogen sees it.

    Attributes
    ----------
    plant_uptake_g_per_day
        Nitrogen; see ``plant_uptake_g_per_day``.
    inflow_nitrate_n_mg_per_l
        Of the exchanged water.
    """

    volume_m3: float
    exchange_m3_per_day: float = 0.0
    plant_uptake_g_per_day: float = 0.0
    inflow_nitrate_n_mg_per_l: float = 0.0


def nitrate_trend(
    *,
    species_key: str,
    loop: NitrogenLoop,
    start_n_mg_per_l: float,
    nitrogen_g_per_day: Estimate,
    days: int,
    own_limit_mg_per_l: float | None = None,
) -> NitrateTrend:
    """Return nitrate ahead, all ammonia of the feed turned into nitrate.

    V dC/dt = N - uptake - exchange (C - C inflow), closed form; plants take
    nothing once there is none. Losses by denitrification are left out, the safe
    side.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
    """
    require("water volume", loop.volume_m3, "m³", 0.01)
    require("water exchange", loop.exchange_m3_per_day, "m³/day", 0.0)
    require("nitrate at the start", start_n_mg_per_l, "mg/L", 0.0)
    require("days ahead", days, "days", 1.0, 1500.0)
    limit = own_limit(own_limit_mg_per_l) or (
        farmed_species(species_key).water.nitrate_n_watch_mg_per_l
    )
    times = np.arange(days + 1, dtype=float)

    def course(nitrogen_g: float) -> FloatArray:
        net = (
            nitrogen_g
            - loop.plant_uptake_g_per_day
            + loop.exchange_m3_per_day * loop.inflow_nitrate_n_mg_per_l
        )
        rate = loop.exchange_m3_per_day / loop.volume_m3
        if rate == 0.0:
            reached = start_n_mg_per_l + net / loop.volume_m3 * times
        else:
            settled = net / loop.exchange_m3_per_day
            reached = settled + (start_n_mg_per_l - settled) * np.exp(-rate * times)
        floored: FloatArray = np.maximum(reached, 0.0)
        return floored

    middle = course(nitrogen_g_per_day.value)
    high = course(nitrogen_g_per_day.high)
    over = np.flatnonzero(high > limit.value)
    settled: float | None = None
    if loop.exchange_m3_per_day > 0.0:
        net = nitrogen_g_per_day.value - loop.plant_uptake_g_per_day
        settled = max(
            0.0, net / loop.exchange_m3_per_day + loop.inflow_nitrate_n_mg_per_l
        )
    days_to_limit = int(over[0]) if over.size else None
    return NitrateTrend(
        days=frozen(times),
        nitrate_n_mg_per_l=frozen(middle),
        low_mg_per_l=frozen(course(nitrogen_g_per_day.low)),
        high_mg_per_l=frozen(high),
        settled_mg_per_l=settled,
        limit_n_mg_per_l=limit.value,
        days_to_limit=days_to_limit,
        notes=(
            limit.note(Message.of("note-nitrate-limit", limit_mg_per_l=limit.value)),
            TAN_NOTE,
        ),
        problems=_nitrate_problems(limit.value, days_to_limit),
    )


def _nitrate_problems(limit: float, days: int | None) -> tuple[Problem, ...]:
    if days is None:
        return ()
    return (
        Problem.of(
            "nitrate-over-limit" if days == 0 else "nitrate-limit-ahead",
            limit_mg_per_l=limit,
            days=days,
        ),
    )


# --- plant bed ------------------------------------------------------------------


def feed_per_bed_g_per_m2_day(crop: Crop) -> Estimate:
    """Return the feed that a square metre of bed takes up a day.

    The source's range is the interval; see ``FEED_PER_BED_G_PER_M2_DAY``.
    """
    low, high = FEED_PER_BED_G_PER_M2_DAY[crop]
    return Estimate(
        value=(low + high) / 2.0,
        sd=(high - low) / (2.0 * z_score(DEFAULT_LEVEL)),
        low=low,
        high=high,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class BedBalance:
    """A plant bed against the day's feed.

    ``bed_needed_m2`` is what the feed carries; ``feed_carried_kg`` what the bed
    takes up. Low ends go with rich feeding of the bed.
    """

    crop: Crop
    bed_needed_m2: Estimate
    feed_carried_kg: Estimate
    notes: tuple[Message, ...] = ()


def bed_balance(*, crop: Crop, feed_kg_per_day: Estimate, bed_m2: float) -> BedBalance:
    """Return the bed that the feed carries and the feed that the bed carries.

    Raises
    ------
    StockRangeError
        If the feed or the bed is below 0.
    """
    require("plant bed", bed_m2, "m²", 0.0)
    ratio = feed_per_bed_g_per_m2_day(crop)
    spread = math.hypot(relative_sd(feed_kg_per_day), relative_sd(ratio))
    require("feed", feed_kg_per_day.value, "kg/day", 0.0)
    needed = 1000.0 * feed_kg_per_day.value / ratio.value
    return BedBalance(
        crop=crop,
        bed_needed_m2=lognormal(needed, spread, feed_kg_per_day.level),
        feed_carried_kg=Estimate(
            value=bed_m2 * ratio.value / 1000.0,
            sd=bed_m2 * ratio.sd / 1000.0,
            low=bed_m2 * ratio.low / 1000.0,
            high=bed_m2 * ratio.high / 1000.0,
            level=ratio.level,
        ),
        notes=(_BED_SOURCE,),
    )


def plant_uptake_g_per_day(
    *, crop: Crop, bed_m2: float, protein_percent: float = 32.0
) -> Estimate:
    """Return the nitrogen that a bed takes up, from the feed it balances.

    Computed from the feed-rate ratio (feed of 32 % protein) and the nitrogen per
    feed; no uptake figure was found. An upper figure for a full, growing bed.
    """
    require("plant bed", bed_m2, "m²", 0.0)
    return product(
        feed_per_bed_g_per_m2_day(crop),
        tan_per_feed_g_per_kg(protein_percent=protein_percent),
        scale=bed_m2 / 1000.0,
    )
