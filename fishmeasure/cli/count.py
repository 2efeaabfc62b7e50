"""``fishmeasure count``: how many fish photos of a tub or a tray show."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from fishmeasure.base.words import wording
from fishmeasure.cli import options, output

if TYPE_CHECKING:
    from fishmeasure.base.flags import Problem
    from fishmeasure.photo.count import FishCount


_OF_LENGTHS: Final = frozenset(
    {
        "in-water",
        "no-water",
        "not-validated",
        "small-fish",
        "rough-scale",
        "no-usable-fish",
    }
)
"""Problems that spoil no count."""


def count_command(
    photos: Annotated[list[Path], typer.Argument(help="help-count-photos")],
    *,
    expected: Annotated[
        int | None, typer.Option(help="help-count-expected", min=0)
    ] = None,
    print_scale: options.PrintScale = None,
    paper: options.Paper = None,
    lens: options.Lens = None,
    water: options.InWater = False,
    json_to: options.JsonTo = None,
) -> None:
    """Count the fish in photos of a tub or a tray, fingerlings too."""
    from fishmeasure.cli.photo import measure_file, short_names

    settings = options.photo_settings(
        species=None,
        print_scale=print_scale,
        paper=paper,
        known=None,
        lens=lens,
        water=(water, None),
    )
    names = short_names(photos)
    counted = [
        measure_file(path, names[path], settings)
        for path in output.tracked(photos, wording("cli-measuring"))
    ]
    for one in counted:
        problems = [p for p in one.problems if p.code not in _OF_LENGTHS]
        if one.fish_count is not None:
            if json_to != "-":
                output.console().print(_told(one.photo, one.fish_count))
            problems += _doubts(one.photo, one.fish_count, expected)
        for problem in problems:
            output.print_problem(one.photo, problem)
    if json_to is not None:
        output.write_json(json_to, {"photos": [one.to_json() for one in counted]})
    if any(one.fish_count is None for one in counted):
        raise typer.Exit(output.STATUS_UNUSABLE_INPUT)


def _told(photo: str, count: "FishCount") -> str:
    return wording(
        "cli-count", photo=photo, seen=count.value, low=count.low, high=count.high
    )


def _doubts(photo: str, count: "FishCount", expected: int | None) -> "list[Problem]":
    from fishmeasure.base.flags import Problem

    if expected is None or count.low <= expected <= count.high:
        return []
    return [
        Problem.of(
            "count-doubted",
            photo=photo,
            expected=expected,
            seen=count.value,
            low=count.low,
            high=count.high,
        )
    ]
