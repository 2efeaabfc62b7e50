"""The only module that joins the stages: a photo, or a sample, from end to end."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from fishmeasure.base.errors import (
    FishMeasureError,
    LengthWeightDataError,
    NoMarkerError,
)
from fishmeasure.base.flags import Problem
from fishmeasure.base.record import field_names, plain, record
from fishmeasure.base.words import Message, wording
from fishmeasure.estimation.exchanged import exchanged_photos
from fishmeasure.estimation.model import (
    PopulationEstimate,
    estimate_population,
    estimate_to_json,
)
from fishmeasure.estimation.nets import NetWeighing, fish_in_net, shared_length_sd
from fishmeasure.estimation.same_fish import same_fish, shapes_of
from fishmeasure.estimation.sample import LengthErrors, Sample
from fishmeasure.estimation.sizes import PhotoWeight, sized, with_lengths
from fishmeasure.estimation.views import best_photos, doubts_of_net
from fishmeasure.photo.count import count_of
from fishmeasure.photo.faint import with_faint_tails
from fishmeasure.photo.image import DEFAULT_LIMITS, Photo, PhotoLimits, read_photo
from fishmeasure.photo.length import measure_length, shape_of
from fishmeasure.photo.lens import LensProfile
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement, weighed
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.quality import check_photo
from fishmeasure.photo.segment import Segmentation, Segmenter, default_segmenter
from fishmeasure.photo.settings import MeasuringSettings, PhotoChoices
from fishmeasure.photo.stockweights import of_the_stock
from fishmeasure.photo.weighing import NOT_VALIDATED, with_validation, with_weights
from fishmeasure.photo.weight import OF_THE_FISH, FishWeight, fish_weight
from fishmeasure.photo.wet import water_problem
from fishmeasure.species import LengthWeight, Species, load_species
from fishmeasure.species.body_fit import body_of, level_of, ripened
from fishmeasure.species.likeness import other_species
from fishmeasure.species.size import BodyFigures

NO_FISH = Problem.of("no-fish", case="photo")
NONE_COMPLETE = Problem.of("no-usable-fish")
RIPE = Problem.of("ripe-fish")


@record(frozen=True, slots=True, kw_only=True)
class PhotoSettings(MeasuringSettings):
    """How photos are measured.

    Attributes
    ----------
    species
        Of all fish in the photo; decides proportions and weight.
    lens
        Profile of the camera.
    limits
        Of the photo file.
    """

    species: Species = field(default_factory=lambda: load_species("rainbow-trout"))
    lens: LensProfile | None = None
    limits: PhotoLimits = DEFAULT_LIMITS

    @classmethod
    def of(
        cls, chosen: MeasuringSettings, species: Species, lens: LensProfile | None
    ) -> "PhotoSettings":
        """Return the settings with what the names in those chosen stand for."""
        same = {name: getattr(chosen, name) for name in field_names(MeasuringSettings)}
        return cls(species=species, lens=lens, **same)

    def choices(self) -> PhotoChoices:
        """Return the settings as they are kept beside a photo.

        A profile outside the server has no name there, and points are of one photo.
        """
        return PhotoChoices(
            species=self.species.key,
            print_scale=self.print_scale,
            paper=self.paper,
            in_water=self.in_water,
            water_depth_mm=self.water_depth_mm,
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SampleMeasurement:
    """A sample's answer, the nets and photos it came from, whether fish were ripe."""

    estimate: PopulationEstimate
    nets: tuple[NetWeighing, ...]
    photos: tuple[PhotoMeasurement, ...]
    ripe: bool = False

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Those of the estimate, then those of the photos, each naming its photo.

        Which species was tested on no real photo is said once.
        """
        of_photos = tuple(
            problem.in_photo(photo.photo)
            for photo in self.photos
            for problem in photo.problems
            if problem.code != NOT_VALIDATED
        )
        untested = {
            problem.message: problem
            for photo in self.photos
            for problem in photo.problems
            if problem.code == NOT_VALIDATED
        }
        return (*self.estimate.problems, *of_photos, *untested.values())

    def to_json(self) -> dict[str, Any]:
        """Return the public fields, the photos' among them."""
        return {
            **estimate_to_json(self.estimate),
            "problems": [plain(problem) for problem in self.problems],
            "photos": [photo.to_json() for photo in self.photos],
        }


def measure_photo(
    data: bytes,
    name: str,
    settings: PhotoSettings | None = None,
    segmenter: Segmenter | None = None,
) -> PhotoMeasurement:
    """Return what a photo file gives; its failures are ``problems``, not raised."""
    settings = settings or PhotoSettings()
    try:
        photo = read_photo(data, name, settings.limits)
    except FishMeasureError as error:
        return refused(name, error)
    return measure_decoded(photo, settings, segmenter)


def refused(name: str, error: FishMeasureError) -> PhotoMeasurement:
    """Return the measurement of a photo that could not be read."""
    return PhotoMeasurement(
        photo=name,
        width_px=0,
        height_px=0,
        problems=(Problem.of_error(error, fatal=True),),
    )


def measure_decoded(
    photo: Photo, settings: PhotoSettings, segmenter: Segmenter | None = None
) -> PhotoMeasurement:
    """Return what a decoded photo gives."""
    result = PhotoMeasurement(
        photo=photo.name, width_px=photo.width_px, height_px=photo.height_px
    )
    try:
        plane = find_plane(
            photo,
            print_scale=settings.print_scale,
            lens=settings.lens,
            known=settings.known,
            paper=settings.paper,
            water=settings.water,
        )
    except NoMarkerError as error:
        # Why no marker was seen is in the photo as a whole.
        return replace(
            result,
            problems=(Problem.of_error(error, fatal=True), *check_photo(photo, None)),
        )
    except FishMeasureError as error:
        return replace(result, problems=(Problem.of_error(error, fatal=True),))
    problems = check_photo(photo, plane)
    result = replace(result, scale=plane, problems=problems)
    if not result.usable:
        return result
    found = (segmenter or default_segmenter()).find(photo, plane)
    found, faint = with_faint_tails(photo, found)
    wet = water_problem(found, plane)
    if wet is not None:
        if wet.fatal:  # ripples are no curled sheet
            problems = tuple(one for one in problems if one.code != "not-flat")
        problems = (*problems, wet) if not wet.fatal else (wet, *problems)
        if wet.fatal:  # a count, unlike a length, needs no bending of rays
            count = count_of(found, found.too_small, in_water=True)
            return replace(result, problems=problems, fish_count=count)
    fish = _measure_fish(found, plane, settings)
    result = with_weights(
        replace(
            result,
            fish=fish,
            fish_count=count_of(
                fish, found.too_small, in_water=settings.water is not None
            ),
            smallest_fish_mm=round(found.smallest_mm, 1),
        ),
        lambda _: settings.species,
    )
    if faint:
        problems = (*problems, Problem.of("faint-tails", fish_count=faint))
    problems = (*problems, *_fish_problems(result, found, settings))
    return with_validation(
        replace(result, problems=problems), lambda _: settings.species
    )


def _fish_problems(
    result: PhotoMeasurement, found: Segmentation, settings: PhotoSettings
) -> Iterator[Problem]:
    """Yield what is wrong with the fish of a photo, or with there being none."""
    if found.piled and result.fish_count is not None and settings.water is None:
        yield Problem.of(
            "heap",
            least=result.fish_count.low,
            measured=len(result.complete_fish),
        )
    if found.too_small:
        yield _small_fish(found)
    if not result.fish and not found.too_small:
        yield NO_FISH
    elif not result.complete_fish:
        yield NONE_COMPLETE
    depths = [fish.seen_depth_per_length for fish in result.complete_fish]
    unlike = other_species([d for d in depths if d is not None], settings.species)
    if unlike is not None:
        yield unlike


def _small_fish(found: Segmentation) -> Problem:
    """Return what is said of fish that are seen and not measured."""
    return Problem.of(
        "small-fish", fish_count=found.too_small, smallest_mm=found.smallest_mm
    )


def _measure_fish(
    found: Segmentation, plane: PlaneScale, settings: PhotoSettings
) -> tuple[MeasuredFish, ...]:
    shape = shape_of(settings.species)
    return tuple(
        weighed(measure_length(outline, plane, shape), settings.species)
        for outline in found
    )


# --- samples ----------------------------------------------------------------


def measure_sample(
    sample: Sample,
    species: Species,
    measure: Callable[[str], PhotoMeasurement],
) -> SampleMeasurement:
    """Return a sample's mean weight and spread.

    Parameters
    ----------
    sample
        As read from its file.
    species
        For the length-weight line that the weighings then correct.
    measure
        Returns the measurement of a photo that the sample names.

    Raises
    ------
    SampleError
        If nothing usable is left: no net weighed and no fish measured.
    """
    if sample.ripe:
        species = ripened(species)
    photos = {name: measure(name) for name in sample.photos}
    lengths = [fish for photo in photos.values() for fish in photo.complete_fish]
    settings = sample.settings
    sample_sd = shared_length_sd(lengths, "sample")
    if sample_sd is not None and sample.lengths.sample_relative_sd is None:
        settings = replace(settings, length_relative_sd=sample_sd)
    taken = [[photos[name] for name in net.photos] for net in sample.nets]
    of_nets = list(zip(taken, sample.weighings, strict=True))
    seen = tuple(best_photos(views, weighing) for views, weighing in of_nets)
    nets = tuple(
        _with_photos(weighing, views, sample.lengths)
        for weighing, views in zip(sample.weighings, seen, strict=True)
    )
    line = species.on_fork_length()
    weights = photo_weights_of(seen, species)
    weighed_nets = sized(nets, weights, line, settings)
    of_photos, published, settings = (
        (nets, line, settings)
        if weighed_nets is None
        else (weighed_nets.nets, weighed_nets.published, weighed_nets.settings)
    )
    estimate = estimate_population(
        of_photos,
        published=published,
        settings=settings,
        count_in_unit=sample.count_in_unit,
        count_in_unit_sd=sample.count_in_unit_sd,
    )
    ratio = estimate.line.level_ratio  # over what the photos weigh the fish
    if weighed_nets is not None:
        estimate = with_lengths(estimate, weighed_nets)
    elif estimate.mode == "photo-only":  # how fat the fish are is not seen
        estimate = replace(estimate, condition_factor=None)
    measured = tuple(photos.values())
    if estimate.mode == "both":
        measured = tuple(of_the_stock(one, species, ratio) for one in measured)
    mixed = same_fish(nets, shapes_of(nets, weights)) or exchanged_photos(
        of_photos, published, settings
    )
    doubts = [*mixed, *(doubt for one in of_nets for doubt in doubts_of_net(*one))]
    if sample.ripe and photos:
        doubts.append(RIPE)
    estimate = replace(estimate, problems=(*estimate.problems, *doubts))
    return SampleMeasurement(
        estimate=estimate, nets=nets, photos=measured, ripe=sample.ripe
    )


def photo_weights_of(
    nets: Sequence[Sequence[PhotoMeasurement]], species: Species
) -> dict[tuple[int, int], PhotoWeight]:
    """Return what the outlines of each net's fish weigh, by net and place in it."""
    found = {}
    for at, photos in enumerate(nets):
        fish = [one for photo in photos for one in photo.fish]
        for place, one in enumerate(fish):
            if one.complete and "outline-doubtful" not in one.flags:
                weight = fish_weight(one, species)
                if weight.share > 0.0:
                    found[at, place] = _as_photo_weight(weight)
    return found


def _as_photo_weight(weight: FishWeight) -> PhotoWeight:
    def sd(scope: str, *, unseen: bool = False) -> float:
        return math.sqrt(
            sum(
                source.relative_sd**2
                for source in weight.sources
                if source.scope == scope and (source.name == OF_THE_FISH) is unseen
            )
        )

    return PhotoWeight(
        weight_g=weight.median_g,
        own_sd=sd("fish"),
        photo_sd=sd("photo"),
        sample_sd=sd("sample"),
        stock_sd=sd("species"),
        unseen_sd=sd("fish", unseen=True),
    )


def _with_photos(
    net: NetWeighing, photos: list[PhotoMeasurement], said: LengthErrors
) -> NetWeighing:
    """Return a net with the fish of its photos."""
    fish = tuple(
        seen
        for index, photo in enumerate(photos)
        for seen in fish_in_net(photo.fish, photo=index)
    )
    if not fish:
        return net
    if said.fish_relative_sd is not None:
        fish = tuple(replace(f, relative_sd=said.fish_relative_sd) for f in fish)
    shared = said.photo_relative_sd
    if shared is None:
        lengths = [fish for photo in photos for fish in photo.complete_fish]
        shared = shared_length_sd(lengths, "photo") or net.photo_relative_sd
    heap = any(one.code == "heap" for photo in photos for one in photo.problems)
    return replace(net, fish=fish, photo_relative_sd=shared, heap=heap)


def learned_body(result: SampleMeasurement, species: Species) -> BodyFigures | None:
    """Return c from a bulk weighing of photographed nets; None where none tells it."""
    if result.ripe:
        return None
    try:
        return learned_stock(result, species)[1]
    except LengthWeightDataError:
        return None


def learned_stock(
    result: SampleMeasurement, species: Species, *, note: str = ""
) -> tuple[LengthWeight, BodyFigures]:
    """Return a stock's own line and c, from a bulk weighing of photographed nets.

    c is the condition that the weighing gave over the mean V / L^3 of the photos: no
    fish is weighed singly.

    Raises
    ------
    LengthWeightDataError
        If no net was both weighed and photographed, or no outline can be used.
    """
    fish = [
        one
        for photo in result.photos
        for one in photo.complete_fish
        if one.squared_depth_mm3 is not None and "outline-doubtful" not in one.flags
    ]
    both = [net for net in result.nets if net.weighed and net.complete_fish]
    condition = result.estimate.condition_factor
    if not fish or not both or condition is None:
        raise LengthWeightDataError(Message.of("lw-data", case="no-net"))
    shapes = [(one.squared_depth_mm3 or 0.0) / one.fork_length_mm**3 for one in fish]
    source = wording(
        "source-own-nets",
        weighed=sum(net.fish_count for net in both),
        fish=len(fish),
        photos=len(result.photos),
        note=note,
    ).strip()
    ratio = result.estimate.line.level_ratio
    line = level_of(
        species.on_fork_length(), ratio.value, ratio.sd / ratio.value, source=source
    )
    c_g_per_cm3 = condition.value / 100.0 / (sum(shapes) / len(shapes))
    error = condition.sd / condition.value  # of the same edges as V's
    return line, body_of(c_g_per_cm3, error, species.body, source=source)
