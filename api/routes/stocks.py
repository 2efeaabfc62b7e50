"""A stock's own shape and weight, learned from fish photographed and weighed."""

import datetime as dt
from typing import Annotated, Any, Literal
from uuid import UUID, uuid4

from fastapi import Query, Response
from pydantic import Field

from api.access import READER, WORKER, closed_router
from api.answers import PDF
from api.errors import NotFoundError
from api.outlooks import today
from api.routes.book import AnyEntry
from api.schemas import FiniteIn, Out
from api.services import Services, WithServices
from api.stocks import stock_on
from fishmeasure.base.errors import LengthWeightDataError
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.record import Grams
from fishmeasure.base.words import Message
from fishmeasure.book.entries import (
    Millimetres,
    PhotographedFish,
    StockMeasured,
    entry_to_plain,
)
from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement
from fishmeasure.photo.stockfit import (
    ShapeFit,
    WeighedFish,
    WeightFit,
    fit_shape,
    fit_weights,
    stock_of,
)
from fishmeasure.photo.weighing import PhotoWeights, photo_weights, weigh_together
from fishmeasure.render.five_fish import five_fish_pdf
from fishmeasure.species import Species, packaged_species
from fishmeasure.store.entering import check_day

router = closed_router(prefix="/v1", tags=["stocks"])


class FitFishIn(FiniteIn):
    """One fish of a photo and what was read beside it."""

    photo: str = Field(max_length=64, description="Id of the photo.")
    fish: int = Field(ge=1, le=10_000, description="Its number in the photo, from 1.")
    weight_g: Grams | None = Field(default=None, description="Weighed alone, g.")
    fork_length_mm: Millimetres | None = Field(
        default=None, description="Fork length read on a ruler, mm."
    )


class FitIn(FiniteIn):
    """Fish photographed, and weighed or read on a ruler one by one."""

    unit_id: UUID = Field(description="Unit that they were taken from.")
    on: dt.date = Field(description="Day on which they were photographed.")
    ripe: bool = Field(default=False, description="Whether they are ripe or spawning.")
    fish: list[FitFishIn] = Field(min_length=1, max_length=500, description="Each.")


class Interval(Out):
    """A figure with its 90 % interval."""

    value: float = Field(description="Best figure, in the unit of the field.")
    low: float = Field(description="Low end, in the unit of the field.")
    high: float = Field(description="High end, in the unit of the field.")

    @classmethod
    def of(cls, figure: Estimate) -> "Interval":
        """Return it from an estimate."""
        return cls(value=figure.value, low=figure.low, high=figure.high)


class PhotoFigures(Out):
    """What the photos say of their fish that are used, without a scale."""

    mean_weight_g: Interval = Field(description="Mean weight, g.")
    condition_factor: Interval = Field(description="100 W/L³, g and cm.")


class StockFigure(Out):
    """Weight over squared depth along the body of a stock."""

    c_g_per_cm3: Interval = Field(description="Weight over squared depth, g/cm³.")
    relative_sd: float = Field(description="Its standard error, a fraction.")
    is_own: bool = Field(description="Learned from own fish, or the species'.")
    source: str = Field(description="Where it comes from.")


class FitOut(Out):
    """What the fish teach, and what it changes; nothing is kept by it."""

    before: StockFigure | None = Field(description="What was known; null: nothing.")
    after: StockFigure | None = Field(description="null where none was weighed.")
    left_out_error: float | None = Field(
        description="Mean error of one fish told by the others, a fraction."
    )
    by_length_error: float | None = Field(
        description="The same by length alone, a fraction."
    )
    photos_before: PhotoFigures | None = Field(description="By what was known.")
    photos_after: PhotoFigures | None = Field(description="By what is learned.")
    notes: list[str] = Field(description="What to know of it, in words.")
    entry: AnyEntry = Field(description="To be sent to `/v1/entries` to keep it.")


class StockOut(Out):
    """What the book knows of a cohort's own fish on a day."""

    figure: StockFigure | None = Field(description="null where nothing is known.")
    tellings: list[AnyEntry] = Field(description="Entries that it is from, newest.")
    ripe_on: dt.date | None = Field(description="Last day on which they were ripe.")
    is_ripe: bool = Field(description="Whether they may be ripe or spawning that day.")


@router.get(
    "/cohorts/{cohort_id}/stock",
    summary="What own fish have taught of a cohort",
    dependencies=[READER],
)
def get_stock(
    services: WithServices,
    cohort_id: UUID,
    date: Annotated[dt.date | None, Query(description="The day; else today.")] = None,
) -> StockOut:
    """Return weight over squared depth as photos of that day take it."""
    usual = packaged_species(services.book.cohort(cohort_id).species_key)
    known = stock_on(services, usual, cohort_id, date or today())
    return StockOut(
        figure=_figure(known.species),
        tellings=list(known.tellings),
        ripe_on=known.ripe_on,
        is_ripe=known.is_ripe,
    )


@router.post(
    "/cohorts/{cohort_id}/fit",
    summary="Learn from fish photographed and weighed",
    dependencies=[WORKER],
)
def fit(services: WithServices, cohort_id: UUID, sent: FitIn) -> FitOut:
    """Return what fish weighed one by one, or read on a ruler, tell of their stock.

    It is what `fishmeasure fit` does. To keep it, send `entry` to `/v1/entries`; a
    `cancelled` entry takes it back.

    Raises
    ------
    NotFoundError
        If a photo is not here.
    LengthWeightDataError, HeightsError
        If a fish of it cannot be used, or they tell too little.
    """
    services.book.unit(sent.unit_id)
    check_day(sent.on, today())
    usual = packaged_species(services.book.cohort(cohort_id).species_key)
    known = stock_on(services, usual, cohort_id, sent.on).species
    photos = _photos(services, sent)
    fish = _matched(photos, sent)
    ruled = [one for one in fish if one.ruler_mm is not None]
    weighed = [one for one in fish if one.weight_g is not None]
    shape = fit_shape(ruled, usual) if ruled else None
    weights = fit_weights(weighed, usual) if weighed or not ruled else None
    own = stock_of(known, weights, shape)
    body = None if weights is None else weights.fit
    return FitOut(
        before=_figure(known),
        after=None if weights is None else _figure(own),
        left_out_error=None if body is None else body.left_out_error_percent / 100.0,
        by_length_error=None if body is None else body.by_length_error_percent / 100.0,
        photos_before=_weighed(photos, known),
        photos_after=None if weights is None else _weighed(photos, own),
        notes=_notes(usual, weights, shape, sent),
        entry=entry_to_plain(_entry(cohort_id, sent, weights, shape)),
    )


@router.get(
    "/five-fish.pdf",
    summary="How to photograph and weigh five fish",
    responses=PDF,
    dependencies=[READER],
)
def five_fish_page(
    paper: Annotated[Literal["A4", "Letter"], Query(description="To print on.")] = "A4",
) -> Response:
    """Return a page that says how, with a table to fill in."""
    disposition = f'inline; filename="five-fish-{paper}.pdf"'
    return Response(
        five_fish_pdf(paper),
        media_type="application/pdf",
        headers={"Content-Disposition": disposition},
    )


# --- what was sent ----------------------------------------------------------------


def _photos(services: Services, sent: FitIn) -> dict[str, PhotoMeasurement]:
    found = {}
    for number, one in enumerate(sent.fish, 1):
        if one.photo in found:
            continue
        stored = services.archive.find_photo(one.photo)
        if stored is None:
            raise NotFoundError("photo", one.photo)
        found[one.photo] = PhotoMeasurement.from_json(stored.measurement)
        photo = found[one.photo]
        if not photo.usable or photo.scale is None:
            told = "; ".join(problem.message for problem in photo.problems)
            reason = Message.of(
                "fit-row-problems", row=number, photo=photo.photo, told=told.rstrip(".")
            )
            raise LengthWeightDataError(reason)
    return found


def _matched(photos: dict[str, PhotoMeasurement], sent: FitIn) -> list[WeighedFish]:
    matched = []
    seen = set()
    for number, one in enumerate(sent.fish, 1):
        photo = photos[one.photo]
        name = {"row": number, "photo": photo.photo}
        if one.fish > len(photo.fish):
            reason = Message.of(
                "fit-row-other-fish", given=str(one.fish), fish=len(photo.fish), **name
            )
            raise LengthWeightDataError(reason)
        fish = photo.fish[one.fish - 1]
        slip = {
            "fit-row-unmeasured": not fish.complete,
            "fit-row-twice": (one.photo, one.fish) in seen,
            "fit-row-nothing": one.weight_g is None and one.fork_length_mm is None,
        }
        for code in (word for word, holds in slip.items() if holds):
            reason = Message.of(code, number=str(one.fish), **name)
            raise LengthWeightDataError(reason)
        seen.add((one.photo, one.fish))
        assert photo.scale is not None  # noqa: S101 - ``_photos`` has looked
        matched.append(
            WeighedFish(
                photo=photo.photo,
                fish=fish,
                scale=photo.scale,
                weight_g=one.weight_g,
                ruler_mm=one.fork_length_mm,
            )
        )
    return matched


# --- what is answered -------------------------------------------------------------


def _figure(species: Species) -> StockFigure | None:
    body = species.body
    constant = body.c_g_per_cm3
    if constant is None:
        return None
    # Of the stock at hand: how well c is known, and how far a stock may be from it.
    of_stock = 0.0 if species.is_own_stock else body.stock_relative_sd.value
    sd = (constant.relative_sd**2 + of_stock**2) ** 0.5
    return StockFigure(
        c_g_per_cm3=Interval.of(Estimate.normal(constant.value, sd * constant.value)),
        relative_sd=sd,
        is_own=species.is_own_stock,
        source=constant.source,
    )


def _weighed(
    photos: dict[str, PhotoMeasurement], species: Species
) -> PhotoFigures | None:
    fish: list[MeasuredFish] = []
    for photo in photos.values():
        alike = [one for one in photo.fish if one.species == species.key]
        fish += weigh_together(alike, lambda _: species)
    found: PhotoWeights | None = photo_weights(fish, species)
    if found is None:
        return None
    return PhotoFigures(
        mean_weight_g=Interval.of(found.mean_weight_g),
        condition_factor=Interval.of(found.condition_factor),
    )


def _notes(
    usual: Species, weights: WeightFit | None, shape: ShapeFit | None, sent: FitIn
) -> list[str]:
    said: list[Message] = []
    if weights is not None:
        said += [Message.of("fit-left", photo=one.photo) for one in weights.left]
        if weights.fit.photo_count == 1:
            said.append(Message.of("fit-one-photo"))
        said += [
            Message.of("fit-outlier", number=at + 1) for at in weights.fit.outliers
        ]
        said.append(Message.of("fit-ripe" if sent.ripe else "fit-holds"))
    if shape is not None:
        own = shape.shape
        said.append(
            Message.of(
                "fit-heights",
                snout=own.snout_height.value,
                fork=own.fork_height.value,
                usual_snout=usual.shape.snout_height.value,
                usual_fork=usual.shape.fork_height.value,
            )
        )
    return [str(one) for one in said]


def _entry(
    cohort_id: UUID, sent: FitIn, weights: WeightFit | None, shape: ShapeFit | None
) -> StockMeasured:
    figures: dict[str, Any] = {}
    if weights is not None:
        line = weights.line
        figures |= {
            "c_g_per_cm3": weights.fit.c_g_per_cm3,
            "c_relative_sd": weights.fit.relative_se,
            "a_g_cm": line.a_g_cm,
            "b": line.b,
            "level_relative_sd": line.relative_sd,
            "min_length_mm": line.min_length_mm,
            "max_length_mm": line.max_length_mm,
        }
    if shape is not None:
        for name in ("snout_height", "fork_height"):
            figure = getattr(shape.shape, name)
            figures[name] = figure.value
            figures[f"{name}_relative_sd"] = figure.relative_sd
    return StockMeasured(
        id=uuid4(),
        on=sent.on,
        unit_id=sent.unit_id,
        cohort_id=cohort_id,
        fish=tuple(
            PhotographedFish(
                photo=one.photo,
                fish=one.fish,
                weight_g=one.weight_g,
                fork_length_mm=one.fork_length_mm,
            )
            for one in sent.fish
        ),
        ripe=sent.ripe,
        **figures,
    )
