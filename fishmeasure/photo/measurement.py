"""What a photo gave: one record for the figures, their JSON and their table.

The JSON holds all that is needed to rebuild the records: a correction made later
needs no pixels.
"""

from collections.abc import Iterable, Mapping
from dataclasses import fields
from typing import Annotated, Any, Literal, Self, get_type_hints

from pydantic import Field

from fishmeasure.base.cells import text_to_cell
from fishmeasure.base.flags import FLAGS, Problem, Written
from fishmeasure.base.record import plain, read, record
from fishmeasure.base.written import ArrayOf, rounded
from fishmeasure.photo.count import FishCount
from fishmeasure.photo.length import FishLength
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.weight import FishWeight, WeightFrom, fish_weight
from fishmeasure.species import Species

Json = dict[str, Any]
Grams = Annotated[float, rounded(2)]


@record(frozen=True, slots=True, kw_only=True, eq=False)
class MeasuredFish(FishLength):
    """One fish of a photo; it has no weight where its length must not be used."""

    species: Annotated[
        str, Field(description="Key of the species.", examples=["rainbow-trout"])
    ]
    weight_g: Annotated[
        Grams | None,
        Field(description="Weight, g; null where the fish is not used."),
    ] = None
    weight_se_g: Annotated[
        Grams | None, Field(description="Its standard error, g.")
    ] = None
    weight_low_g: Annotated[
        Grams | None, Field(description="Low end of its 90 % interval, g.")
    ] = None
    weight_high_g: Annotated[
        Grams | None, Field(description="High end of its 90 % interval, g.")
    ] = None
    weight_from: Annotated[
        WeightFrom | None,
        Field(
            description="What the weight is from: `outline`, the depth of this fish's "
            "body beside its length; `length`, the species' line alone; `stock`, the "
            "own stock's figures; null where there is no weight."
        ),
    ] = None

    def __repr__(self) -> str:
        """Return the figures in a line."""
        length = f"{self.fork_length_mm:.1f} ± {self.fork_length_se_mm:.1f} mm"
        weight = "" if self.weight_g is None else f", {self.weight_g:.4g} g"
        flags = ", ".join(self.flags)
        doubts = f" ({flags[:60]}{'…' * (len(flags) > 60)})" if flags else ""
        used = "" if self.complete else ", not used"
        return f"<{self.species[:30]} {length}{weight}{used}{doubts}>"

    def to_json(self) -> Json:
        """Return it as the public format has it."""
        data: Json = plain(self)
        return data


def weighed(
    length: FishLength, species: Species, weight: FishWeight | None = None
) -> MeasuredFish:
    """Return a fish of a species with its weight, where its length may be used.

    The weight is that of the fish alone where none is given.
    """
    figures = {item.name: getattr(length, item.name) for item in fields(FishLength)}
    of_length = tuple(word for word in length.flags if not FLAGS[word].of_weight)
    figures |= {"species": species.key, "flags": of_length}
    if length.complete:
        found = weight or fish_weight(length, species)
        grams = found.weight_g
        figures |= {
            "weight_g": grams.value,
            "weight_se_g": grams.sd,
            "weight_low_g": grams.low,
            "weight_high_g": grams.high,
            "weight_from": found.weight_from,
            "flags": (*of_length, *found.flags),
        }
    return MeasuredFish(**figures)


@record(frozen=True, slots=True, kw_only=True, eq=False)
class PhotoMeasurement:
    """All that one photo gave."""

    version: Annotated[
        Literal[2], Field(description="Of this form of the measurement.")
    ] = 2
    photo: Annotated[
        Written, Field(description="File name.", examples=["tank_a_net_1.jpg"])
    ]
    width_px: Annotated[
        int, Field(description="Width as displayed, pixels; 0 where unreadable.")
    ]
    height_px: Annotated[
        int, Field(description="Height as displayed, pixels; 0 where unreadable.")
    ]
    scale: Annotated[
        PlaneScale | None, Field(description="null where no scale was found.")
    ] = None
    fish: Annotated[
        tuple[MeasuredFish, ...],
        Field(description="Complete and doubtful alike, in reading order."),
    ] = ()
    problems: Annotated[tuple[Problem, ...], Field(description="Worst first.")] = ()
    fish_count: Annotated[
        FishCount | None,
        Field(
            description="Fish that it shows, those not used and those too small to be "
            "measured among them; null where it was not searched."
        ),
    ] = None
    smallest_fish_mm: Annotated[
        Annotated[float, rounded(1)] | None,
        Field(
            description="The shortest fork length that can be measured in it, mm; null "
            "where it was not searched."
        ),
    ] = None
    mean_weight_g: Annotated[
        Grams | None,
        Field(description="Mean weight of the fish used, g; null where there is none."),
    ] = None
    mean_weight_interval_g: Annotated[
        tuple[Grams, Grams] | None,
        Field(description="Its 90 % interval, what the fish share counted once, g."),
    ] = None
    condition_factor: Annotated[
        Annotated[float, rounded(3)] | None,
        Field(description="Mean of 100 W/L³ (g, cm) of the fish used."),
    ] = None
    condition_factor_interval: Annotated[
        tuple[Annotated[float, rounded(3)], Annotated[float, rounded(3)]] | None,
        Field(description="Its 90 % interval."),
    ] = None

    def __repr__(self) -> str:
        """Return what it holds in a line."""
        scale = "no scale" if self.scale is None else self.scale.method
        codes = ", ".join(problem.code for problem in self.problems)
        problems = f", {codes[:80]}{'…' * (len(codes) > 80)}" if codes else ""
        return (
            f"<{self.photo[-80:]}: {self.width_px} x {self.height_px} px, {scale}, "
            f"{len(self.fish)} fish, {len(self.complete_fish)} used{problems}>"
        )

    @property
    def usable(self) -> bool:
        """Whether no problem forbids the use of the figures."""
        return not any(problem.fatal for problem in self.problems)

    @property
    def complete_fish(self) -> tuple[MeasuredFish, ...]:
        """The fish whose length may be used."""
        return tuple(fish for fish in self.fish if fish.complete)

    def to_json(self) -> Json:
        """Return it as the public format has it."""
        data: Json = plain(self)
        return data

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> Self:
        """Return the measurement that this or an earlier program wrote."""
        return read(cls, data if "version" in data else _of_first_version(data))


def _of_first_version(data: Mapping[str, Any]) -> Json:
    """Return a measurement that has no version in today's form.

    It had the lengths and the weight twice, rounded and whole.
    """
    return {
        **data,
        "scale": data["scale"] and _first_scale(data["scale"]),
        "fish": [_first_fish(fish) for fish in data["fish"]],
    }


def _first_scale(data: Mapping[str, Any]) -> Json:
    camera = dict(data["camera"])
    camera["centre_x_px"], camera["centre_y_px"] = camera.pop("centre_px")
    return {**data, "camera": camera}


def _first_fish(data: Mapping[str, Any]) -> Json:
    fish = {**data, "sources": data["length_sources"]}
    for name, length in fish.pop("lengths").items():
        fish[name] = length["value"]
        fish[f"{name.removesuffix('_mm')}_se_mm"] = length["sd"]
    weight = fish.pop("weight")
    if weight is not None:
        grams = weight["weight_g"]
        fish |= {"weight_g": grams["value"], "weight_se_g": grams["sd"]}
        fish |= {"weight_low_g": grams["low"], "weight_high_g": grams["high"]}
    del fish["length_sources"], fish["length_flags"]
    return fish


# --- CSV --------------------------------------------------------------------


def _columns() -> tuple[str, ...]:
    """Return the figures and words of a fish: its species and weight, its lengths."""
    hints = get_type_hints(MeasuredFish, include_extras=True)
    lengths = [item.name for item in fields(FishLength)]
    own = [item.name for item in fields(MeasuredFish) if item.name not in lengths]
    return tuple(
        name
        for name in (*own, *lengths)
        if name != "sources"
        and not any(isinstance(m, ArrayOf) for m in hints[name].__metadata__)
    )


def csv_rows(measurements: Iterable[PhotoMeasurement]) -> Iterable[list[str]]:
    """Yield the header, then one row a fish; what is not known is empty."""
    columns = _columns()
    yield ["photo", "fish", *columns]
    for measurement in measurements:
        for number, fish in enumerate(measurement.fish, start=1):
            data = fish.to_json()
            cells = [_cell(data[column]) for column in columns]
            yield [text_to_cell(measurement.photo), str(number), *cells]


def _cell(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, str):
        return text_to_cell(value)
    if isinstance(value, list):
        return " ".join(str(item) for item in value)
    return str(value).lower() if isinstance(value, bool) else str(value)
