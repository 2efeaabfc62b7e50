"""What the book expects of the figures of an entry, before the entry is in it.

Each is the predictive distribution of one figure: the state's own error, the entry's,
and what lies between all fish and those that were taken, together.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from fishmeasure.base.estimate import Estimate
from fishmeasure.book.asking.place import Place, sample_sd, spread_of
from fishmeasure.book.cv_and_condition import condition_factor
from fishmeasure.book.entries import Entry, Graded, Sample
from fishmeasure.book.posterior.priors import (
    LEVEL_DRIFT,
    USUAL_CV,
    Assumptions,
    months_root,
)
from fishmeasure.estimation.hypotheses import log_below, log_density
from fishmeasure.husbandry.propagation import z_score

Said = Mapping[str, float]
Side = Literal["both", "most", "least"]
_USUAL: Final = Assumptions()
# Fish of which nothing is known: fry of 0.4 g to 6 kg in 999 of 1000 units; common
# practice, no source.
_ANY_SIZE: Final = (50.0, 1.6)
# Deaths of an entry about those of late, sd of ln; what dies is the least even of all
# that is entered. Common practice, no source.
_DEAD_SD: Final = 1.2
_FIRST_DEAD: Final = (0.003, 1.5)  # share of the fish, where none have died yet
# More than a tenth of the fish dead at once is a disaster or a slip; common practice.
_MASS_DEATH: Final = (0.1, 0.35)
# A meal about those of late, and about a ration of the fish's weight, sd of ln: fasting
# days and half rations are usual. Common practice, no source.
_FEED_SD: Final = 0.5
_RATION: Final = (0.012, 1.0)
# The densest that tanks with pure oxygen are stocked; common practice, no source.
_DENSEST_KG_PER_M3: Final = (150.0, 0.4)
# Less dry feed than half a kilogram makes no kilogram of fish (a fish is a quarter dry
# matter, feed nine tenths: 0.5 would be a yield of more than half; computed).
_LEAST_FCR: Final = (0.5, 0.25)
_TEMPERATURE_SD_C: Final = 3.0  # of a reading about the table of months
_SORTED_SD: Final = 0.25  # moved and graded fish about the mean of all; common practice
_EMPTY_SD: Final = 0.5  # a tank thought to hold a few may as well be empty
_TOO_SMALL: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One figure of an entry beside what is expected of it.

    ``side`` "both": about ``middle``; "most" and "least": up to it, or from it on.
    ``linear`` figures have their sd in their own unit, others that of their ln.
    """

    figure: str
    value: float
    middle: float
    sd: float
    side: Side = "both"
    linear: bool = False

    @property
    def distance(self) -> float:
        """How far the figure lies from the middle, in what ``sd`` is in."""
        if self.linear:
            return self.value - self.middle
        value, middle = max(self.value, _TOO_SMALL), max(self.middle, _TOO_SMALL)
        return math.log(value / middle)

    @property
    def log_likelihood(self) -> float:
        """Ln of the likelihood of the figure."""
        match self.side:
            case "most":
                return log_below(self.distance, self.sd)
            case "least":
                return log_below(-self.distance, self.sd)
        return log_density(self.distance, self.sd)

    @property
    def oddness(self) -> float:
        """How many standard deviations it is too far out, on the side that counts."""
        z = self.distance / self.sd
        return {"both": abs(z), "most": z, "least": -z}[self.side]

    @property
    def expected(self) -> Estimate:
        """What is expected, with its interval."""
        reach = z_score(0.9) * self.sd
        if self.linear:
            return Estimate.normal(self.middle, self.sd)
        low, high = (self.middle * math.exp(sign * reach) for sign in (-1.0, 1.0))
        if self.side == "most":
            low = 0.0
        return Estimate(value=self.middle, sd=self.middle * self.sd, low=low, high=high)


def said_of(entry: Entry) -> dict[str, float]:
    """Return the figures of an entry by the name of their field, with their errors."""
    if isinstance(entry, Graded):
        groups = entry.groups
        total = float(sum(group.fish_count for group in groups))
        said = {"fish_count": total}
        said["fish_count_sd"] = math.hypot(*(group.fish_count_sd for group in groups))
        if total and all(group.mean_weight_g for group in groups):
            grams = sum(g.fish_count * (g.mean_weight_g or 0.0) for g in groups)
            said["mean_weight_g"] = grams / total
        return said
    said = {
        name: float(value)
        for name in _FIGURES
        if (value := getattr(entry, name, None)) is not None
    }
    if isinstance(entry, Sample):
        said["mean_sd"] = sample_sd(entry)
        factor = condition_factor(entry) if entry.fish_weighed else None
        if factor is not None:
            said["condition_sd"] = spread_of(factor)
        else:
            said.pop("condition_factor", None)
    return said


_FIGURES: Final = (
    "fish_count",
    "fish_count_sd",
    "weight_kg",
    "bulk_weight_kg",
    "mean_weight_g",
    "mean_weight_sd_g",
    "condition_factor",
    "feed_kg",
    "temperature_deg_c",
)


def checks_of(kind: str, said: Said, place: Place) -> list[Check]:
    """Return what of an entry can be held against the book."""
    make = _CHECKS.get(kind)
    return [] if make is None else make(said, place)


# --- one kind each -------------------------------------------------------------


def _sample(said: Said, place: Place) -> list[Check]:
    fish, value = place.present, said["mean_weight_g"]
    pond = place.unit.kind == "pond"
    usual = _USUAL
    chosen = usual.pond_netting_sd_fraction if pond else usual.netting_sd_fraction
    own = math.hypot(said.get("mean_sd", 0.1), chosen, usual.drip_sd_fraction)
    if fish is None or fish.mean_weight_g is None:
        middle, sd = _ANY_SIZE
        return [Check(figure="size", value=value, middle=middle, sd=sd)]
    sd = math.hypot(own, spread_of(fish.mean_weight_g))
    middle = fish.mean_weight_g.value
    found = [Check(figure="mean_weight_g", value=value, middle=middle, sd=sd)]
    return found + _condition(said, place) + _conversion(said, place)


def _condition(said: Said, place: Place) -> list[Check]:
    """Hold weight at a length against the last sample's: the stock's own level."""
    before = None
    if place.last_sample is not None and place.last_sample.fish_weighed:
        before = condition_factor(place.last_sample)
    factor, last = said.get("condition_factor"), place.last_sample
    if before is None or factor is None or last is None:
        return []
    drift = LEVEL_DRIFT * months_root((place.on - last.on).days)
    sd = math.hypot(said["condition_sd"], spread_of(before), drift)
    return [Check(figure="condition_factor", value=factor, middle=before.value, sd=sd)]


def _conversion(said: Said, place: Place) -> list[Check]:
    """Hold the feed since the last weighing against what the fish put on."""
    last, fish = place.weighed, place.present
    if last is None or last.fed_kg is None or fish is None:
        return []
    gain_g = said["mean_weight_g"] - last.mean_g
    apart = math.hypot(
        said.get("mean_sd", 0.1) * said["mean_weight_g"],
        last.relative_sd * last.mean_g,
    )
    if gain_g <= 2.0 * apart or last.fed_kg <= 0.0:
        return []
    gain_kg = gain_g * fish.fish_count.value / 1000.0
    least, own = _LEAST_FCR
    sd = math.hypot(own, apart / gain_g, spread_of(fish.fish_count))
    ratio = last.fed_kg / gain_kg
    return [Check(figure="fcr", value=ratio, middle=least, sd=sd, side="least")]


def _counted(said: Said, place: Place) -> list[Check]:
    fish, count = place.present, said["fish_count"]
    if fish is None:
        return []
    middle = fish.fish_count.value
    if count <= 0.0:  # an empty tank: as far out as half a fish
        spread = max(spread_of(fish.fish_count), _EMPTY_SD)
        return [Check(figure="fish_count", value=0.5, middle=middle, sd=spread)]
    own = _USUAL.count_sd_fraction
    if "fish_count_sd" in said:
        own = min(1.0, said["fish_count_sd"] / count)
    sd = math.hypot(spread_of(fish.fish_count), max(own, 0.5 / count))
    return [Check(figure="fish_count", value=count, middle=middle, sd=sd)]


def _graded(said: Said, place: Place) -> list[Check]:
    found = _counted(said, place)
    fish = place.present
    if fish is not None and fish.mean_weight_g is not None and "mean_weight_g" in said:
        sd = math.hypot(0.05, spread_of(fish.mean_weight_g))
        found.append(_each(said["mean_weight_g"], fish.mean_weight_g.value, sd))
    return found


def _each(value: float, middle: float, sd: float) -> Check:
    return Check(figure="each_g", value=value, middle=middle, sd=sd)


def _leaves(said: Said, place: Place) -> list[Check]:
    """Fish that go: no more than there are."""
    fish, count = place.present, said.get("fish_count")
    if fish is None or not count:
        return []
    there = fish.fish_count
    # One fish more than there is no slip: a count off by one is as usual as that.
    sd = math.hypot(spread_of(there), min(1.0, 1.0 / max(there.value, 1.0)))
    return [
        Check(
            figure="fish_gone",
            value=count,
            middle=there.value,
            sd=max(sd, 0.01),
            side="most",
        )
    ]


def _died(said: Said, place: Place) -> list[Check]:
    found, fish = _leaves(said, place), place.present
    count = said["fish_count"]
    if fish is None or count <= 0.0:
        return found
    share, sd = _FIRST_DEAD
    middle = max(1.0, share * fish.fish_count.value)
    if place.usual_dead is not None:
        middle, sd = max(middle, place.usual_dead), _DEAD_SD
    most, most_sd = _MASS_DEATH
    most *= max(1.0, fish.fish_count.value)
    return [
        *found,
        # Fewer than usual are as likely as the usual: nobody is asked about one fish.
        Check(figure="dead", value=max(count, middle), middle=middle, sd=sd),
        Check(figure="dead", value=count, middle=most, sd=most_sd, side="most"),
    ]


def _taken(said: Said, place: Place) -> list[Check]:
    fish = place.present
    found = _leaves(said, place)
    if fish is None or fish.mean_weight_g is None or not said.get("weight_kg"):
        return found
    kg, count = said["weight_kg"], said.get("fish_count")
    if not count:
        if fish.biomass_kg is None or fish.biomass_kg.value <= 0.0:
            return found
        sd = math.hypot(spread_of(fish.biomass_kg), _USUAL.bulk_weight_sd_fraction)
        middle = fish.biomass_kg.value
        most = Check(
            figure="weight_kg", value=kg, middle=middle, sd=max(sd, 0.02), side="most"
        )
        return [most]
    left = max(0.0, 1.0 - count / max(fish.fish_count.value, 1.0))
    chosen = _USUAL.taken_size_sd_fraction * left
    few = (fish.cv.value if fish.cv else USUAL_CV) * left / math.sqrt(count)
    scale = _USUAL.bulk_weight_sd_fraction
    sd = math.hypot(chosen, few, scale, spread_of(fish.mean_weight_g))
    return [*found, _each(kg * 1000.0 / count, fish.mean_weight_g.value, sd)]


def _moved(said: Said, place: Place) -> list[Check]:
    found, fish = _leaves(said, place), place.present
    if fish is None or fish.mean_weight_g is None or "mean_weight_g" not in said:
        return found
    sd = math.hypot(_SORTED_SD, spread_of(fish.mean_weight_g))
    return [*found, _each(said["mean_weight_g"], fish.mean_weight_g.value, sd)]


def _stocked(said: Said, place: Place) -> list[Check]:
    count, kg = said.get("fish_count"), said.get("bulk_weight_kg")
    each = said.get("mean_weight_g")
    found = []
    usual = _USUAL
    if count and kg and each:
        sd = math.hypot(
            said["fish_count_sd"] / count
            if "fish_count_sd" in said
            else usual.stocked_count_sd_fraction,
            usual.bulk_weight_sd_fraction,
            said["mean_weight_sd_g"] / each
            if "mean_weight_sd_g" in said
            else usual.stocked_weight_sd_fraction,
        )
        sd = max(sd, 0.02)
        found.append(
            Check(figure="bulk_weight_kg", value=kg, middle=count * each / 1e3, sd=sd)
        )
    if each is None and count and kg:
        each = kg * 1000.0 / count
    if each:
        fish = place.present
        if fish is not None and fish.mean_weight_g is not None:
            middle, sd = fish.mean_weight_g.value, 0.5
        else:
            middle, sd = _ANY_SIZE
        found.append(Check(figure="size", value=each, middle=middle, sd=sd))
    if kg is None and count and each:
        kg = count * each / 1000.0
    if kg and place.unit.volume_m3:
        most, sd = _DENSEST_KG_PER_M3
        density = kg / place.unit.volume_m3
        found.append(
            Check(figure="density", value=density, middle=most, sd=sd, side="most")
        )
    return found


def _feed(said: Said, place: Place) -> list[Check]:
    kg = said["feed_kg"]
    if kg <= 0.0:
        return []
    middle, sd = place.usual_feed_kg, _FEED_SD
    if middle is None:
        biomass = place.state.biomass_kg
        if biomass is None or biomass.value <= 0.0:
            return []
        share, sd = _RATION
        middle = share * biomass.value
    return [Check(figure="feed_kg", value=kg, middle=middle, sd=sd)]


def _water(said: Said, place: Place) -> list[Check]:
    read = said.get("temperature_deg_c")
    if read is None:
        return []
    forecast = place.state.temperature
    sd = math.hypot(_TEMPERATURE_SD_C, forecast.sd_deg_c)
    middle = forecast.on(place.on)
    return [
        Check(figure="temperature_deg_c", value=read, middle=middle, sd=sd, linear=True)
    ]


_CHECKS: Final[Mapping[str, Callable[[Said, Place], list[Check]]]] = {
    "sample": _sample,
    "counted": _counted,
    "graded": _graded,
    "died": _died,
    "harvested": _taken,
    "sold": _taken,
    "moved": _moved,
    "stocked": _stocked,
    "feed": _feed,
    "water": _water,
}
