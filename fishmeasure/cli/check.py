"""``fishmeasure check``: how far off a photo is on a dummy of known length."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.errors import BadOptionError
from fishmeasure.base.words import Message, wording
from fishmeasure.cli import options, output

if TYPE_CHECKING:
    from fishmeasure.base.arrays import FloatArray
    from fishmeasure.base.flags import Problem
    from fishmeasure.photo.check import LengthCheck


def check_command(
    photo: Annotated[Path, typer.Argument(help="help-check-photo")],
    *,
    length_mm: Annotated[
        float, typer.Option(help="help-check-length", min=10.0, max=5000.0)
    ] = 200.0,
    height_mm: Annotated[
        float, typer.Option(help="help-check-height", min=0.0, max=500.0)
    ] = 0.0,
    ends: Annotated[
        str | None, typer.Option(metavar="X1,Y1,X2,Y2", help="help-check-ends")
    ] = None,
    print_scale: options.PrintScale = None,
    paper: options.Paper = None,
    lens: options.Lens = None,
    water: options.InWater = False,
    water_depth_mm: options.WaterDepth = None,
    overlay: options.Overlay = None,
) -> None:
    """Check camera, sheet and tub with a dummy or a fish of known length."""
    from fishmeasure.cli.photo import measure_file
    from fishmeasure.photo.check import check_length

    settings = options.photo_settings(
        species=None,
        print_scale=print_scale,
        paper=paper,
        known=None,
        lens=lens,
        water=(water, water_depth_mm),
    )
    points = None if ends is None else _points(ends)
    measured = measure_file(photo, photo.name, settings, overlay)
    for problem in measured.problems:
        if problem.code != "not-validated":
            output.print_problem(measured.photo, problem)
    if not measured.usable:
        raise typer.Exit(output.STATUS_UNUSABLE_INPUT)
    found = check_length(measured, length_mm, height_mm, points)
    if found is None:
        output.print_problem("", _not_seen(length_mm))
        raise typer.Exit(output.STATUS_UNUSABLE_INPUT)
    output.console().print(_verdict(found, in_water=water), highlight=False)


def _not_seen(length_mm: float) -> "Problem":
    from fishmeasure.base.flags import Problem

    return Problem.of("dummy-not-seen", fatal=True, length_mm=length_mm)


def _verdict(found: "LengthCheck", *, in_water: bool) -> str:
    return wording(
        "cli-check",
        case=("within" if found.within else "water" if in_water else "air"),
        known_mm=found.known_mm,
        read_mm=found.read_mm,
        off=abs(found.off),
        way="long" if found.off > 0.0 else "short",
        may=2.0 * found.relative_sd,
    )


def _points(text: str) -> "FloatArray":
    import numpy as np

    try:
        numbers = [float(part) for part in text.split(",")]
        points = np.array(numbers, dtype=np.float64).reshape(2, 2)
    except ValueError:
        wanted = Message.of("cli-wanted", case="ends")
        raise BadOptionError("--ends", text, wanted) from None
    return points
