"""``load_sample`` and ``estimate``: nets of fish to the mean weight of a unit."""

import os
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from fishmeasure.estimation import sample as samples
from fishmeasure.face.photos import Measurement, measure, read_text
from fishmeasure.face.shown import Shown, Table, count, interval
from fishmeasure.pipeline import SampleMeasurement, measure_sample
from fishmeasure.species import load_species

if TYPE_CHECKING:
    from fishmeasure.base.estimate import Estimate
    from fishmeasure.base.flags import Problem
    from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement

_NET_HEADER = ("net", "fish", "measured", "weight g", "against the rest")


class Sample:
    """A sample file: nets weighed, photographed or both.

    ``record`` is what the file says; its photos lie in ``folder``.
    """

    def __init__(self, record: samples.Sample, folder: Path) -> None:
        self.record = record
        self.folder = folder

    @property
    def photos(self) -> tuple[str, ...]:
        """Names of the photos, each once."""
        return self.record.photos

    def __repr__(self) -> str:
        record = self.record
        nets = count(len(record.nets), "net")
        photos = count(len(self.photos), "photo")
        where = f" of {record.unit}" if record.unit else ""
        when = f" on {record.date}" if record.date else ""
        return f"<Sample{where}{when}: {nets}, {photos}>"


class SampleResult(Shown):
    """What a sample says of the fish in the unit.

    Each figure is an ``Estimate`` in the unit of its name. ``record`` holds all
    that is known of the nets and of the model.
    """

    def __init__(
        self, record: SampleMeasurement, photos: tuple[Measurement, ...], title: str
    ) -> None:
        self.record = record
        self.photos = photos
        self._title = title

    @property
    def mean_weight_g(self) -> "Estimate":
        """Of the fish in the unit."""
        return self.record.estimate.mean_weight_g

    @property
    def cv(self) -> "Estimate | None":
        """Coefficient of variation of the weights; None where no fish was measured."""
        estimate = self.record.estimate
        return estimate.cv if estimate.spread_is_measured else None

    @property
    def fork_length_mean_mm(self) -> "Estimate | None":
        """None where no fish was measured."""
        return self.record.estimate.fork_length_mean_mm

    @property
    def condition_factor(self) -> "Estimate | None":
        """K = 100 W / L^3, in grams and centimetres."""
        return self.record.estimate.condition_factor

    @property
    def biomass_kg(self) -> "Estimate | None":
        """None where the sample names no count in the unit."""
        return self.record.estimate.biomass_kg

    @cached_property
    def fish(self) -> "tuple[MeasuredFish, ...]":
        """The fish of all photos."""
        return tuple(fish for photo in self.photos for fish in photo.fish)

    @property
    def problems(self) -> "tuple[Problem, ...]":
        """Those of the estimate, then those of the photos."""
        return self.record.problems

    def to_json(self) -> dict[str, Any]:
        """Return what ``fishmeasure sample --json`` writes."""
        return self.record.to_json()

    def __repr__(self) -> str:
        return (
            f"<SampleResult of {self._title}: {interval(self.mean_weight_g, 0, 'g')}, "
            f"{count(len(self.problems), 'problem')}>"
        )

    def _rows(self) -> list[tuple[str, ...]]:
        rows = [
            ("mean weight", interval(self.mean_weight_g, 0, "g")),
            ("spread (CV)", interval(self.cv, 2)),
            ("mean fork length", interval(self.fork_length_mean_mm, 0, "mm")),
            ("condition factor K", interval(self.condition_factor, 2)),
            ("biomass", interval(self.biomass_kg, 1, "kg")),
        ]
        return [row for row in rows if row[1] != interval(None)]

    def _nets(self) -> list[tuple[str, ...]]:
        return [
            (
                str(net.label),
                str(net.fish_count),
                str(net.fish_measured),
                "-" if net.weight_g is None else f"{net.weight_g:.0f}",
                "-"
                if net.residual_percent is None
                else f"{net.residual_percent:+.1f} %",
            )
            for net in self.record.estimate.nets
        ]

    def _tables(self) -> tuple[Table, ...]:
        title = f"{self._title}, {100 * self.mean_weight_g.level:.0f} % intervals"
        return (
            Table(title, ("", ""), self._rows()),
            Table("Nets", _NET_HEADER, self._nets()),
        )


def load_sample(path: str | os.PathLike[str]) -> Sample:
    """Return the sample in a file; its photos are sought beside it.

    Parameters
    ----------
    path
        Of a SAMPLE.toml.

    Raises
    ------
    FishMeasureError
        If it is not there, cannot be read, or says something that cannot be.

    Examples
    --------
    >>> sample = load_sample("sample_images/spring_tanks.toml")
    >>> sample.photos
    ('tank_a_net1.jpg', 'tank_a_net2.jpg', 'tank_a_net3.jpg', 'tank_a_net4.jpg')
    >>> sample.record.count_in_unit
    420
    """
    place = Path(path)
    return Sample(samples.read_sample(read_text(place)), place.parent)


def estimate(
    sample: Sample,
    *,
    species: str | os.PathLike[str] | None = None,
    print_scale: float = 1.0,
    water: bool = False,
    paper: str | None = None,
    lens: str | os.PathLike[str] | None = None,
) -> SampleResult:
    """Estimate mean weight and spread from a sample, measuring its photos.

    Parameters
    ----------
    sample
        From ``load_sample``.
    species
        In place of the one that the sample names; rainbow trout where neither does.
    print_scale, water, paper, lens
        Of all its photos, as for ``measure``.

    Raises
    ------
    FishMeasureError
        If a photo is not there, or no net was weighed and no fish measured.

    Examples
    --------
    The mean of the invented stock is 160.6 g.

    >>> result = estimate(load_sample("sample_images/spring_tanks.toml"))
    >>> result.mean_weight_g.low < 160.6 < result.mean_weight_g.high
    True
    >>> len(result.fish), len(result.record.estimate.nets)
    (32, 5)
    >>> print(result)  # doctest: +ELLIPSIS
    Tank A 2026-05-02, 90 % intervals
    mean weight         1... g (... to ...)
    ...
    """
    key = os.fspath(species or sample.record.species or "rainbow-trout")
    photos: dict[str, Measurement] = {}

    def measured(name: str) -> "PhotoMeasurement":
        net = sample.record.net_of(name)
        photos[name] = measure(
            sample.folder / name,
            species=key,
            print_scale=print_scale,
            water=water or (net is not None and net.in_water),
            water_depth_mm=None if net is None else net.water_depth_mm,
            paper=paper,
            lens=lens,
        )
        return photos[name].record

    record = measure_sample(sample.record, load_species(key), measured)
    said = (str(part) for part in (sample.record.unit, sample.record.date) if part)
    title = " ".join(said) or "a sample"
    return SampleResult(record, tuple(photos.values()), title)
