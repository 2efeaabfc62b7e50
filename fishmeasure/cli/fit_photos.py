"""``fishmeasure fit`` with photos: fish photographed and weighed, or put on a ruler."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from fishmeasure.base.errors import LengthWeightDataError
from fishmeasure.base.words import Message, wording
from fishmeasure.cli.output import write_bytes

if TYPE_CHECKING:
    from fishmeasure.base.arrays import FloatArray
    from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement
    from fishmeasure.photo.stockfit import WeighedFish
    from fishmeasure.pipeline import PhotoSettings
    from fishmeasure.species import LengthWeight, Species
    from fishmeasure.species.body_fit import BodyFit
    from fishmeasure.species.size import BodyFigures, Shape


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
    weighed: "Sequence[WeighedFish]", species: "Species", note: str
) -> "tuple[LengthWeight, BodyFigures]":
    """Fit c = W / V and the line, print them and return them."""
    from fishmeasure.photo.stockfit import fit_weights

    for one in weighed:
        if not one.outlined:
            print(wording("fit-left", photo=one.photo))
    found = fit_weights(weighed, species, note=note)
    _print(found.fit)
    return found.line, found.body


def _own_shape(
    ruled: "Sequence[WeighedFish]", species: "Species", note: str
) -> "Shape":
    """Fit how high snout and fork lie, print it and return the stock's shape."""
    from fishmeasure.photo.stockfit import fit_shape

    found = fit_shape(ruled, species, note=note)
    shape, fit = found.shape, found.fit
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
) -> "list[WeighedFish]":
    """Return the fish that the rows name, each photo measured once."""
    from fishmeasure.cli.photo import measure_file
    from fishmeasure.photo.stockfit import WeighedFish

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
            "fit-row-problems", row=number, photo=photo.photo, told=told.rstrip(".")
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
            "fit-row-other-fish",
            row=number,
            given=which[:20],
            photo=photo.photo,
            fish=len(photo.fish),
        )
        raise LengthWeightDataError(reason)
    fish = photo.fish[int(which) - 1]
    if not fish.complete:
        reason = Message.of(
            "fit-row-unmeasured", row=number, number=which, photo=photo.photo
        )
        raise LengthWeightDataError(reason)
    return fish


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
        print(wording("fit-one-photo"))
    for index in fit.outliers:
        print(wording("fit-outlier", number=index + 1))
    print(wording("fit-holds"))
