"""Options that the stocking commands share, and how they are read."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Annotated, TypeVar

import typer

from fishmeasure.base.errors import BadFieldError, OptionFormatError
from fishmeasure.base.words import Message, wording
from fishmeasure.cli.options import read_day

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from fishmeasure.base.estimate import Estimate
    from fishmeasure.husbandry.growth import GrowthFit, WeightSample
    from fishmeasure.husbandry.temperature import TemperatureForecast
    from fishmeasure.husbandry.unit import RearingUnit, UnitLimits

Choice = TypeVar("Choice", bound=str)

MOST_WEIGHT_G = 200_000.0  # as in the book; more is a wrong unit
DAY_ZERO = date(2000, 1, 1)  # any day, where one temperature is given for all

SpeciesArgument = Annotated[
    str,
    typer.Argument(help="help-species-argument", metavar="SPECIES"),
]
BiomassError = Annotated[float, typer.Option(help="help-biomass-error")]
Salinity = Annotated[float, typer.Option(help="help-salinity")]
Temp = Annotated[float, typer.Option(help="help-temp")]
Volume = Annotated[float, typer.Option(help="help-volume")]


@dataclass(frozen=True, slots=True, kw_only=True)
class FishOptions:
    """The fish, and how warm they have it."""

    species: SpeciesArgument
    mean_weight: Annotated[float, typer.Option(help="help-mean-weight")]
    temp: Temp
    biomass: Annotated[float, typer.Option(help="help-biomass")]
    biomass_error: BiomassError = 10.0

    def biomass_kg(self) -> Estimate:
        """Return the biomass with its error."""
        return with_percent(self.biomass, self.biomass_error)

    def count(self) -> Estimate:
        """Return how many fish that makes."""
        from fishmeasure.husbandry.propagation import scaled

        return scaled(self.biomass_kg(), 1000.0 / self.mean_weight)


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitOptions:
    """The unit that the fish are in."""

    volume: Volume
    depth: Annotated[
        float | None,
        typer.Option(help="help-depth"),
    ] = None
    inflow: Annotated[float, typer.Option(help="help-inflow")] = 0.0
    inflow_do: Annotated[
        float | None,
        typer.Option(help="help-inflow-do"),
    ] = None
    standard_transfer: Annotated[float, typer.Option(help="help-standard-transfer")] = (
        0.0
    )
    air: Annotated[
        float,
        typer.Option(help="help-air"),
    ] = 0.0
    air_depth: Annotated[float, typer.Option(help="help-air-depth")] = 0.0
    bubbles: Annotated[str, typer.Option(help="help-bubbles")] = "coarse"
    altitude: Annotated[float, typer.Option(help="help-altitude")] = 0.0
    salinity: Salinity = 0.0
    water_use: Annotated[float, typer.Option(help="help-water-use")] = 0.0

    def unit(
        self, standby: Sequence[Mapping[str, object]] = (), **more: object
    ) -> RearingUnit:
        """Return the unit, with ``standby`` aerators and ``more`` fields.

        Raises
        ------
        BadFieldError
            Naming the option.
        """
        from fishmeasure.base.record import read
        from fishmeasure.husbandry.unit import RearingUnit

        values = {
            name: getattr(self, option)
            for name, option in _UNIT_OPTIONS.items()
            if hasattr(self, option) and hasattr(RearingUnit, name)
        }
        values["aeration"] = [*self._aerators(), *standby]
        return read(RearingUnit, values | more, _bad_option)

    def _aerators(self) -> list[dict[str, object]]:
        found: list[dict[str, object]] = []
        if self.standard_transfer:
            rate = self.standard_transfer
            found.append(
                {
                    "name": wording("device-name", case="aerator"),
                    "standard_transfer_g_per_h": rate,
                }
            )
        if self.air:
            found.append(
                {
                    "name": wording("device-name", case="air-pump"),
                    "gas_l_per_min": self.air,
                    "diffuser_depth_m": self.air_depth,
                    "bubbles": self.bubbles,
                }
            )
        return found


# The options that a unit's fields and its aerators' come from.
_UNIT_OPTIONS = {
    "volume_m3": "volume",
    "depth_m": "depth",
    "inflow_l_per_min": "inflow",
    "inflow_do_mg_per_l": "inflow_do",
    "altitude_m": "altitude",
    "salinity_g_per_kg": "salinity",
    "water_respiration_mg_per_l_h": "water_use",
    "standard_transfer_g_per_h": "standard_transfer",
    "gas_l_per_min": "air",
    "diffuser_depth_m": "air_depth",
    "bubbles": "bubbles",
    "backup_hours": "backup_hours",
    "max_density_kg_per_m3": "density",
}


def own_limits(max_density_kg_per_m3: float | None) -> UnitLimits:
    """Return the grower's own limits.

    Raises
    ------
    BadFieldError
        Naming the option.
    """
    from fishmeasure.base.record import read
    from fishmeasure.husbandry.unit import UnitLimits

    given = {"max_density_kg_per_m3": max_density_kg_per_m3}
    return read(UnitLimits, given, _bad_option)


def _bad_option(*, field: str, reason: Message) -> BadFieldError:
    """Return the error of a unit's field in the command line's own words."""
    name = field.rpartition(".")[2]
    option = _UNIT_OPTIONS.get(name, name).replace("_", "-")
    return BadFieldError(field=f"--{option}", reason=reason)


Wind = Annotated[float | None, typer.Option(help="help-wind")]
Fasted = Annotated[bool, typer.Option("--fasted", help="help-fasted")]
PlateSize = Annotated[float | None, typer.Option(help="help-plate-size")]


@dataclass(frozen=True, slots=True, kw_only=True)
class CohortOptions:
    """A cohort: its samples, its spread, and how warm its water will be."""

    species: SpeciesArgument
    sample: Annotated[
        list[str],
        typer.Option(help="help-cohort-options-sample"),
    ]
    temp: Annotated[
        float | None,
        typer.Option(help="help-cohort-options-temp"),
    ] = None
    monthly: Annotated[
        str | None,
        typer.Option(help="help-monthly"),
    ] = None
    wave: Annotated[
        str | None,
        typer.Option(help="help-wave"),
    ] = None
    cv: Annotated[float, typer.Option(help="help-cohort-options-cv")] = 0.25

    def water(self) -> TemperatureForecast:
        """Return the forecast of whichever option was given."""
        return read_forecast(self.temp, self.monthly, self.wave)

    def samples(self) -> tuple[WeightSample, ...]:
        """Return the samples by day."""
        return tuple(sorted(read_samples(self.sample), key=lambda found: found.day))

    def fit(self) -> GrowthFit:
        """Return the growth that the samples show."""
        from fishmeasure.husbandry.growth import fit_growth

        return fit_growth(
            samples=self.samples(), temperature=self.water(), species_key=self.species
        )

    def spread(self) -> Estimate:
        """Return the CV; its error is an allowance, no source."""
        from fishmeasure.husbandry.propagation import lognormal

        return lognormal(self.cv, 0.15)


def choice(option: str, given: str, allowed: tuple[Choice, ...]) -> Choice:
    """Return the given word if it is one of those allowed.

    Raises
    ------
    OptionFormatError
    """
    for word in allowed:
        if word == given:
            return word
    raise OptionFormatError(option, given, ", ".join(allowed))


def _numbers(option: str, given: str, example: str) -> tuple[float, ...]:
    try:
        found = tuple(float(part) for part in given.split(","))
    except ValueError:
        raise OptionFormatError(option, given, example) from None
    if len(found) != len(example.split(",")) or not all(map(math.isfinite, found)):
        raise OptionFormatError(option, given, example)
    return found


def read_samples(given: list[str]) -> tuple[WeightSample, ...]:
    """Return samples written as 2026-05-01=180 or 2026-05-01=180/6.

    Without a percentage 7 % is taken, about the error of four nets of eight fish
    (see the estimates of ``fishmeasure.estimation.model``).

    Raises
    ------
    OptionFormatError
    """
    from fishmeasure.husbandry.growth import WeightSample

    example = "2026-05-01=180/6"
    samples = []
    for text in given:
        day, _, weight = text.partition("=")
        grams, _, percent = weight.partition("/")
        try:
            mean = _weight(float(grams), float(percent or 7.0))
        except ValueError:
            raise OptionFormatError("--sample", text, example) from None
        samples.append(WeightSample(day=read_day("--sample", day), mean_weight_g=mean))
    return tuple(samples)


def _weight(grams: float, percent: float) -> Estimate:
    from fishmeasure.husbandry.checks import require

    require("mean weight", grams, "g", 0.001, MOST_WEIGHT_G)
    return with_percent(grams, percent, "mean weight", "g")


def read_takes(given: list[str]) -> tuple[tuple[date, int], ...]:
    """Return harvests written as 2026-08-01=60.

    Raises
    ------
    OptionFormatError
    """
    takes = []
    for text in given:
        day, _, count = text.partition("=")
        if not count.isdigit():
            raise OptionFormatError("--take", text, "2026-08-01=60")
        takes.append((read_day("--take", day), int(count)))
    return tuple(takes)


def read_forecast(
    temp: float | None, monthly: str | None, wave: str | None
) -> TemperatureForecast:
    """Return the forecast of whichever option was given.

    Raises
    ------
    OptionFormatError
        If none was given, or one cannot be read.
    """
    from fishmeasure.husbandry.checks import require, require_temperature
    from fishmeasure.husbandry.temperature import (
        ConstantTemperature,
        MonthlyTemperature,
        SinusoidTemperature,
    )

    if sum(given is not None for given in (temp, monthly, wave)) > 1:
        given = Message.of("cli-more-than-one")
        alone = Message.of("cli-example", case="temp-alone")
        raise OptionFormatError("--temp", given, alone)
    if monthly is not None:
        example = "4,4,6,8,11,14,16,16,13,10,7,5"
        temperatures_deg_c = _numbers("--monthly", monthly, example)
        for monthly_deg_c in temperatures_deg_c:
            require_temperature(monthly_deg_c)
        return MonthlyTemperature(temperatures_deg_c=temperatures_deg_c)
    if wave is not None:
        mean, amplitude, warmest = _numbers("--wave", wave, "9,5,205")
        require_temperature(mean)
        require("amplitude of the wave", amplitude, "°C", 0.0, 40.0)
        require("warmest day of the year", warmest, "", 1.0, 366.0)
        return SinusoidTemperature(
            mean_deg_c=mean,
            amplitude_deg_c=amplitude,
            warmest_day_of_year=round(warmest),
        )
    if temp is None:
        which = Message.of("cli-example", case="temp")
        raise OptionFormatError("--temp", "", which)
    require_temperature(temp)
    return ConstantTemperature(temperature_deg_c=temp)


def with_percent(
    value: float, percent: float, name: str = "biomass", unit: str = "kg"
) -> Estimate:
    """Return a figure with a standard error in per cent.

    Raises
    ------
    StockRangeError
        If the figure is below 0, or the error is none.
    """
    from fishmeasure.husbandry.checks import require
    from fishmeasure.husbandry.propagation import lognormal

    require(name, value, unit, 0.0)
    require("standard error", percent, "%", 0.0, 100.0)
    return lognormal(value, percent / 100.0)
