"""``fishmeasure fit`` with photos: fish photographed and weighed, or put on a ruler."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from fishmeasure.base.errors import LengthWeightDataError
from fishmeasure.base.words import Message, wording
from fishmeasure.cli.output import write_bytes

if TYPE_CHECKING:
    from fishmeasure.base.arrays import FloatArray
    from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement
    from fishmeasure.photo.plane import PlaneScale
    from fishmeasure.pipeline import PhotoSettings
    from fishmeasure.species import LengthWeight, Species
    from fishmeasure.species.body_fit import BodyFit
    from fishmeasure.species.size import BodyFigures, Shape


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedFish:
    """A fish of a photo with the weight, or the length on a ruler, that was read."""

    photo: str
    fish: "MeasuredFish"
    scale: "PlaneScale"
    weight_g: float | None = None
    ruler_mm: float | None = None


def fit_photos(
    rows: Sequence[Mapping[str, str]],
    columns: "Mapping[str, FloatArray]",
    table: Path,
    settings: "PhotoSettings",
    save: Path | None,
) -> None:
    """Fit heights and c = W / V to fish of photos, print them and save the stock."""
    from fishmeasure.species.fit import species_toml
    from fishmeasure.species.loader import read_own_stock

    species, note = settings.species, f"From {table.name}."
    fish = _matched(rows, columns, table.parent, settings)
    if "fork_length_mm" in columns:
        species = replace(species, shape=_own_shape(fish, species, note))
        settings = replace(settings, species=species)
    line, body = None, None
    if "weight_g" in columns:
        if "fork_length_mm" in columns:  # at the heights just learned
            fish = _matched(rows, columns, table.parent, settings)
        line, body = _own_weight(fish, species, note)
    elif species.is_own_stock:
        line, body = species.length_weight, species.body
    if save is None:
        return
    text = species_toml(species, line, body)
    read_own_stock(text, save.name)  # what cannot be is not saved
    write_bytes(save, text.encode())
    print(wording("cli-stock-saved", file=save))


def _own_weight(
    weighed: Sequence[WeighedFish], species: "Species", note: str
) -> "tuple[LengthWeight, BodyFigures]":
    """Fit c = W / V and the line, print them and return them."""
    from fishmeasure.species.body_fit import own_body, own_level
    from fishmeasure.species.fit import FEWEST_FISH, fit_length_weight, own_line

    fit, lengths, weights = _fit(weighed)
    _print(fit)
    line = species.on_fork_length()
    if len(weights) >= FEWEST_FISH and lengths.max() > 1.3 * lengths.min():
        line = own_line(fit_length_weight(lengths, weights), line, note=note)
    else:
        line = own_level(line, lengths, weights, note=note)
    return line, own_body(fit, species.body, note=note)


def _own_shape(ruled: Sequence[WeighedFish], species: "Species", note: str) -> "Shape":
    """Fit how high snout and fork lie, print it and return the stock's shape."""
    from fishmeasure.photo.length import ruled_fish, shape_of
    from fishmeasure.species.heights_fit import fit_heights, own_shape

    fit = fit_heights(
        [
            ruled_fish(
                one.fish,
                one.scale,
                shape_of(species),
                photo=one.photo,
                ruler_mm=one.ruler_mm or 0.0,
            )
            for one in ruled
        ]
    )
    shape = own_shape(fit, species.shape, note=note)
    print(
        wording(
            "cli-heights",
            snout=shape.snout_height.value,
            fork=shape.fork_height.value,
            snout_sd=shape.snout_height.sd,
            fork_sd=shape.fork_height.sd,
            fish=fit.fish_count,
            photos=fit.photo_count,
            usual_snout=species.shape.snout_height.value,
            usual_fork=species.shape.fork_height.value,
        )
    )
    told = {"stiffness": fit.stiffness, "stiffness_se": fit.stiffness_se}
    print(wording("cli-heights-told", **told))
    print(wording("cli-heights-hold"))
    return shape


def _matched(
    rows: Sequence[Mapping[str, str]],
    columns: "Mapping[str, FloatArray]",
    folder: Path,
    settings: "PhotoSettings",
) -> list[WeighedFish]:
    """Return the fish that the rows name, each photo measured once."""
    from fishmeasure.cli.photo import measure_file

    measured: dict[str, PhotoMeasurement] = {}
    weighed = []
    weights, rulers = columns.get("weight_g"), columns.get("fork_length_mm")
    for number, row in enumerate(rows, 1):
        name = (row.get("photo") or "").strip()
        if not name:
            reason = Message.of("cli-row-no-photo", row=number)
            raise LengthWeightDataError(reason)
        if name not in measured:
            measured[name] = measure_file(folder / name, name, settings)
        fish, scale = _named(number, row, measured[name]), measured[name].scale
        if scale is None:  # a photo with fish has one
            raise ValueError(name)
        weighed.append(
            WeighedFish(
                photo=name,
                fish=fish,
                scale=scale,
                weight_g=None if weights is None else float(weights[number - 1]),
                ruler_mm=None if rulers is None else float(rulers[number - 1]),
            )
        )
    return weighed


def _named(
    number: int, row: Mapping[str, str], photo: "PhotoMeasurement"
) -> "MeasuredFish":
    """Return the fish that a row is about: by its number, or the only one."""
    if not photo.usable:
        told = "; ".join(problem.message for problem in photo.problems)
        reason = Message.of(
            "cli-row-problems", row=number, photo=photo.photo, told=told.rstrip(".")
        )
        raise LengthWeightDataError(reason)
    which = (row.get("fish") or "").strip()
    if not which:
        used = photo.complete_fish
        if len(used) == 1:
            return used[0]
        reason = Message.of(
            "cli-row-which-fish", row=number, photo=photo.photo, fish=len(used)
        )
        raise LengthWeightDataError(reason)
    if not which.isdigit() or not 1 <= int(which) <= len(photo.fish):
        reason = Message.of(
            "cli-row-other-fish",
            row=number,
            given=which[:20],
            photo=photo.photo,
            fish=len(photo.fish),
        )
        raise LengthWeightDataError(reason)
    fish = photo.fish[int(which) - 1]
    if not fish.complete:
        reason = Message.of(
            "cli-row-unmeasured", row=number, number=which, photo=photo.photo
        )
        raise LengthWeightDataError(reason)
    return fish


def _fit(weighed: Sequence[WeighedFish]) -> "tuple[BodyFit, FloatArray, FloatArray]":
    """Return the fit of those whose outline may be used, and all lengths, weights."""
    import numpy as np

    from fishmeasure.species.body_fit import fit_body

    used = [
        one
        for one in weighed
        if one.fish.squared_depth_mm3 is not None
        and "outline-doubtful" not in one.fish.flags
    ]
    for one in weighed:
        if one not in used:
            print(wording("cli-fit-left", photo=one.photo))
    fit = fit_body(
        np.array([one.fish.squared_depth_mm3 for one in used], dtype=float),
        np.array([one.fish.fork_length_mm for one in used], dtype=float),
        np.array([one.weight_g for one in used], dtype=float),
        photos=[one.photo for one in used],
        photo_relative_sd=_shared_sd(used, "photo"),
        shared_relative_sd=_shared_sd(used, "sample"),
    )
    lengths = np.array([one.fish.fork_length_mm for one in weighed], dtype=float)
    weights = np.array([one.weight_g for one in weighed], dtype=float)
    return fit, lengths, weights


def _shared_sd(weighed: Sequence[WeighedFish], scope: str) -> float:
    """Return the largest error of squared depth of a scope, 0 where none is."""
    from fishmeasure.photo.length import squared_depth_sources

    found = (
        math.sqrt(
            sum(
                source.relative_sd**2
                for source, _ in squared_depth_sources(one.fish)
                if source.scope == scope
            )
        )
        for one in weighed
    )
    return max(found, default=0.0)


def _print(fit: "BodyFit") -> None:
    print(
        wording(
            "cli-body",
            factor=fit.c_g_per_cm3,
            share=fit.relative_se,
            fish=fit.fish_count,
            photos=fit.photo_count,
        )
    )
    print(
        wording(
            "cli-body-left-out",
            share=fit.left_out_error_percent / 100.0,
            by_length=fit.by_length_error_percent / 100.0,
        )
    )
    if fit.photo_count == 1:
        print(wording("cli-body-one-photo"))
    for index in fit.outliers:
        print(wording("cli-body-outlier", number=index + 1))
    print(wording("cli-body-holds"))
