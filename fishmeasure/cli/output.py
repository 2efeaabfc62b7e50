"""How results are shown and written."""

import csv
import io
import json
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, TypeVar

from fishmeasure.base.errors import BadOptionError
from fishmeasure.base.files import write_durably
from fishmeasure.base.words import Message, system_reason, wording

if TYPE_CHECKING:
    from rich.console import Console
    from rich.table import Table

    from fishmeasure.base.estimate import Estimate
    from fishmeasure.base.flags import Problem
    from fishmeasure.photo.measurement import PhotoMeasurement

STATUS_UNUSABLE_INPUT: Final = 2
STATUS_ASKS: Final = 3
MANY: Final = 3
"""Items from which a progress bar is worth its line."""

_T = TypeVar("_T")


# Made when first written to: --help needs none, and the library is slow to import.
@cache
def console() -> "Console":
    """Return what writes to stdout."""
    from rich.console import Console

    return Console()


@cache
def error_console() -> "Console":
    """Return what writes to stderr."""
    from rich.console import Console

    return Console(stderr=True, soft_wrap=True, highlight=False)


def tracked(items: Sequence[_T], label: str) -> Iterator[_T]:
    """Yield the items, with a progress bar on stderr where there are many."""
    if len(items) < MANY:
        yield from items
        return
    from rich.progress import track

    yield from track(items, description=label, console=error_console(), transient=True)


def print_problem(name: str, problem: "Problem") -> None:
    """Write one line on stderr: where, what is wrong and what to do."""
    message = problem.message
    if name not in message:
        message = wording("in-photo", photo=name, told=message)
    from rich.markup import escape

    error_console().print(escape(f"fishmeasure: {message}"))


def write_json(target: str, content: Any) -> None:
    """Write JSON to a file, or to stdout where the target is "-"."""
    text = json.dumps(content, indent=2, ensure_ascii=False, allow_nan=False) + "\n"
    _write(target, text)


def data_only(json_to: str | None, record: Any) -> bool:
    """Write a record as JSON where that is wanted; return whether stdout is full."""
    if json_to is not None:
        from fishmeasure.base.record import plain

        write_json(json_to, plain(record))
    return json_to == "-"


def write_lines(
    lines: Sequence[str],
    *,
    problems: "Sequence[Problem]" = (),
    notes: Sequence[Message | str] = (),
    cautions: Sequence[Message | str] = (),
) -> None:
    """Write the answer first, then warnings, cautions and sources."""
    parts = [
        "\n".join(lines),
        "\n".join(wording("cli-warning", told=problem.message) for problem in problems),
        "\n".join(map(str, cautions)),
        "\n".join(f"- {note}" for note in dict.fromkeys(map(str, notes))),
    ]
    sys.stdout.write("\n\n".join(part for part in parts if part) + "\n")


def write_csv(target: str, rows: Iterable[Sequence[str]]) -> None:
    """Write rows as CSV to a file, or to stdout where the target is "-"."""
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    _write(target, text.getvalue())


def write_bytes(target: Path, content: bytes) -> None:
    """Write a file as a whole or not at all, making its folder.

    Raises
    ------
    BadOptionError
        If it cannot be written.
    """
    with _writing(str(target)):
        if target.exists() and not target.is_file():  # a device, a pipe
            target.write_bytes(content)
        else:
            write_durably(target.resolve(), content)


def _write(target: str, text: str) -> None:
    if target == "-":
        sys.stdout.write(text)
    else:
        write_bytes(Path(target), text.encode())


@contextmanager
def _writing(target: str) -> Iterator[None]:
    """Turn a failed write into a sentence."""
    try:
        yield
    except OSError as error:
        reason = system_reason(error)
        wanted = Message.of("cli-wanted", case="writable", reason=reason)
        raise BadOptionError(Message.of("cli-the-file"), target, wanted) from None


def grams(estimate: "Estimate") -> str:
    """Return "153 g (140 to 169)"."""
    value, low, high = estimate.value, estimate.low, estimate.high
    return wording("cli-figure", case="g", value_g=value, low_g=low, high_g=high)


def kilograms(estimate: "Estimate") -> str:
    """Return "12.0 kg (11.1 to 13.2)"."""
    value, low, high = estimate.value, estimate.low, estimate.high
    return wording("cli-figure", case="kg", value_kg=value, low_kg=low, high_kg=high)


def millimetres(estimate: "Estimate") -> str:
    """Return "212 mm (208 to 216)"."""
    value, low, high = estimate.value, estimate.low, estimate.high
    return wording("cli-figure", case="mm", value_mm=value, low_mm=low, high_mm=high)


def bare(estimate: "Estimate") -> str:
    """Return "1.02 (0.98 to 1.06)"."""
    return wording("cli-figure", case="bare", figure=estimate)


def length_cell(length_mm: float) -> str:
    """Return a length as a table has it, whose heading has the unit."""
    return wording("cli-figure", case="cell-mm", value_mm=length_mm)


def weight_cell(weight_g: float) -> str:
    """Return a weight as a table has it, whose heading has the unit."""
    return wording("cli-figure", case="cell-g", value_g=weight_g)


def columns(headings: str) -> list[str]:
    """Return the headings of a table, which stand in one line of the catalogue."""
    return headings.split(" | ")


def photo_title(measurement: "PhotoMeasurement") -> str:
    """Return the photo's name and what gave its scale."""
    from rich.markup import escape

    plane = measurement.scale
    title = escape(measurement.photo)
    if plane is not None:
        title += ": " + wording(
            "cli-photo-scale",
            method=plane.method,
            px=plane.px_per_mm,
            tilt=plane.tilt_deg,
            scale_sd=plane.relative_se,
        )
    weight, interval = measurement.mean_weight_g, measurement.mean_weight_interval_g
    condition = measurement.condition_factor
    likely = measurement.condition_factor_interval
    if weight and interval and condition and likely:
        title += "\n" + wording(
            "cli-photo-weight",
            value_g=weight,
            low_g=interval[0],
            high_g=interval[1],
            condition=condition,
            least_condition=likely[0],
            most_condition=likely[1],
        )
    return title


def photo_table(measurement: "PhotoMeasurement") -> "Table":
    """Return the fish of a photo as a table."""
    from rich.table import Table

    table = Table(box=None, padding=(0, 2, 0, 0))
    *headings, last = columns(wording("cli-columns", case="photo"))
    for column in headings:
        table.add_column(column, justify="right", no_wrap=True)
    table.add_column(last)
    not_used = wording("cli-not-used")
    for number, fish in enumerate(measurement.fish, start=1):
        words = [word for word in fish.flags if word != "published-weight"]
        table.add_row(
            str(number),
            length_cell(fish.fork_length_mm),
            length_cell(fish.fork_length_se_mm),
            length_cell(fish.total_length_mm),
            length_cell(fish.body_depth_mm),
            not_used if fish.weight_g is None else weight_cell(fish.weight_g),
            ", ".join(wording("flag-words", case=word) for word in words),
            style=None if fish.complete else "dim",
        )
    return table
