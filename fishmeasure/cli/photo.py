"""``fishmeasure photo``: lengths and weights of the fish in photos."""

import errno
import os
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.errors import FishMeasureError, NotDrawnError, PhotoTooLargeError
from fishmeasure.base.words import Message, system_reason, wording
from fishmeasure.cli import options, output
from fishmeasure.husbandry.cautions import TUB

if TYPE_CHECKING:
    from fishmeasure.photo.image import Photo
    from fishmeasure.photo.measurement import PhotoMeasurement
    from fishmeasure.photo.weight import WeightFrom
    from fishmeasure.pipeline import PhotoSettings


def photo_command(
    photos: Annotated[list[Path], typer.Argument(help="help-photo-photos")],
    *,
    species: options.Species = None,
    print_scale: options.PrintScale = None,
    paper: options.Paper = None,
    known: options.Known = None,
    lens: options.Lens = None,
    water: options.InWater = False,
    water_depth_mm: options.WaterDepth = None,
    json_to: options.JsonTo = None,
    csv_to: options.CsvTo = None,
    overlay: options.Overlay = None,
) -> None:
    """Measure the fish in photos: lengths, and weights by their outlines."""
    from fishmeasure.photo.measurement import csv_rows

    options.one_on_stdout(json_to, csv_to)
    settings = options.photo_settings(
        species=species,
        print_scale=print_scale,
        paper=paper,
        known=known,
        lens=lens,
        water=(water, water_depth_mm),
    )
    names = short_names(photos)
    measurements = [
        measure_file(path, names[path], settings, overlay)
        for path in output.tracked(photos, wording("cli-measuring"))
    ]
    quiet = "-" in {json_to, csv_to}
    report(measurements, settings.species.key, quiet=quiet)
    if water and not quiet:
        output.console().print(f"\n{TUB}", highlight=False)
    if json_to is not None:
        output.write_json(json_to, {"photos": [m.to_json() for m in measurements]})
    if csv_to is not None:
        output.write_csv(csv_to, csv_rows(measurements))
    not_drawn = {NotDrawnError.code}  # what was asked for could not be made
    if not all(
        m.usable and not_drawn.isdisjoint(p.code for p in m.problems)
        for m in measurements
    ):
        raise typer.Exit(output.STATUS_UNUSABLE_INPUT)


def report(
    measurements: "Sequence[PhotoMeasurement]", species: str, *, quiet: bool
) -> None:
    """Show tables on stdout, unless that is for data, and problems on stderr."""
    from rich.markup import escape

    for measurement in measurements:
        if measurement.fish and not quiet:
            output.console().print(output.photo_title(measurement), soft_wrap=True)
            output.console().print(output.photo_table(measurement))
        for problem in measurement.problems:
            output.print_problem(measurement.photo, problem)
    used = [fish for m in measurements for fish in m.complete_fish]
    if not quiet and used:
        ways = {fish.weight_from for fish in used}
        output.console().print("\n" + escape(_weights_from(ways, species)))


def _weights_from(ways: "set[WeightFrom | None]", species: str) -> str:
    """Return what the weights are from, and what makes them surer."""
    if "stock" in ways:
        return wording("cli-weights", case="stock")
    if "outline" in ways:
        return wording("cli-weights", case="outline", species=species)
    return wording("cli-weights", case="line", species=species)


def measure_file(
    path: Path, name: str, settings: "PhotoSettings", overlay: Path | None = None
) -> "PhotoMeasurement":
    """Return the measurement of one file, unreadable ones as a problem."""
    from fishmeasure.base.flags import Problem
    from fishmeasure.photo.image import read_photo
    from fishmeasure.photo.measurement import PhotoMeasurement
    from fishmeasure.pipeline import measure_decoded, refused

    try:
        photo = read_photo(_bytes_of(path, name, settings), name, settings.limits)
    except OSError as error:
        folder = os.path.isdir(path)  # noqa: PTH112 - Path's fails on names too long
        problem = Problem.of(
            "not-an-image",
            fatal=True,
            case="folder" if folder else "file",
            name=name or str(path),
            reason=system_reason(error),
        )
        return PhotoMeasurement(
            photo=name, width_px=0, height_px=0, problems=(problem,)
        )
    except FishMeasureError as error:
        return refused(name, error)
    measurement = measure_decoded(photo, settings)
    if overlay is None:
        return measurement
    return write_overlay(photo, measurement, overlay)


def write_overlay(
    photo: "Photo", measurement: "PhotoMeasurement", overlay: Path
) -> "PhotoMeasurement":
    """Draw a measured photo into a folder; return the measurement, with what failed."""
    from fishmeasure.base.flags import Problem
    from fishmeasure.photo.overlay import overlay_jpeg

    try:
        picture = overlay_jpeg(photo, measurement)
    except NotDrawnError as error:
        problem = Problem.of_error(error)
        return replace(measurement, problems=(*measurement.problems, problem))
    output.write_bytes(overlay / f"{Path(photo.name).stem}.overlay.jpg", picture)
    return measurement


def _bytes_of(path: Path, name: str, settings: "PhotoSettings") -> bytes:
    """Return a photo's bytes; a pipe or device may have no end, or none to read yet."""
    from fishmeasure.base.files import read_at_most

    most = settings.limits.max_bytes
    kept = os.path.isfile(path) or os.path.isdir(path)  # noqa: PTH112, PTH113 - as above
    if os.path.exists(path) and not kept:  # noqa: PTH110
        raise OSError(None, wording("cli-no-file"))
    try:
        return read_at_most(path, most)
    except OSError as error:
        if error.errno != errno.EFBIG:
            raise
        from fishmeasure.photo.image import megabytes

        limit = megabytes(most)
        over = Message.of("more-than", size=limit)
        raise PhotoTooLargeError(name, over, limit) from None


def short_names(paths: Sequence[Path]) -> dict[Path, str]:
    """Return the file's name, or its path where two files share a name."""
    todo = list(dict.fromkeys(paths))
    names = [path.name for path in todo]
    return {
        path: path.name if names.count(path.name) == 1 else path.as_posix()
        for path in todo
    }
