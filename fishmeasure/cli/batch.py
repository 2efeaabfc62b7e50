"""``fishmeasure batch``: a folder or a list of photos, however many."""

import logging
import os
from collections.abc import Iterator
from concurrent.futures import CancelledError
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from fishmeasure.base.errors import BadOptionError, ClusterLostError
from fishmeasure.base.words import NEUTRAL, Message, Voice, speaking, voice, wording
from fishmeasure.cli import options, output

if TYPE_CHECKING:
    from fishmeasure.batch import Workers
    from fishmeasure.pipeline import PhotoSettings


def batch_command(
    source: Annotated[
        Path,
        typer.Argument(help="help-source"),
    ],
    results: Annotated[
        Path,
        typer.Option(
            "--results",
            help="help-results",
        ),
    ],
    *,
    species: options.Species = None,
    print_scale: options.PrintScale = None,
    paper: options.Paper = None,
    lens: options.Lens = None,
    workers: Annotated[
        int | None,
        typer.Option(min=1, help="help-workers"),
    ] = None,
    full: Annotated[
        bool,
        typer.Option("--full", help="help-full"),
    ] = False,
    dask: Annotated[
        str | None,
        typer.Option(help="help-dask"),
    ] = None,
) -> None:
    """Measure many photos; stopped and started again, it goes on where it was."""
    from rich.progress import (
        BarColumn,
        MofNCompleteColumn,
        Progress,
        TimeRemainingColumn,
    )

    from fishmeasure.batch import BatchCount, ResultFile, run_batch

    settings = options.photo_settings(
        species=species, print_scale=print_scale, paper=paper, known=None, lens=lens
    )
    paths = list(find_photos(source))
    if not paths:
        wanted = Message.of("cli-wanted", case="photos")
        raise BadOptionError("SOURCE", str(source), wanted)
    kept = ResultFile(results)
    if kept.damaged:
        output.error_console().print(
            "fishmeasure: "
            + wording("cli-batch-damaged", lines=kept.damaged, file=results)
        )
    last = BatchCount(done=0, unusable=0, total=len(paths))
    columns = (BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with (
        kept,
        _workers(workers, dask) as measuring,
        Progress(*columns, console=output.error_console()) as bar,
    ):
        task = bar.add_task("", total=len(paths))
        for last in run_batch(
            paths,
            kept,
            partial(measure_paths, settings=settings, full=full, speaks=voice()),
            measuring,
        ):
            bar.update(task, completed=last.done, total=last.total)
    output.console().print(
        wording(
            "cli-batch-done", photos=last.done, unusable=last.unusable, file=results
        ),
        highlight=False,
    )
    if last.unusable:
        raise typer.Exit(output.STATUS_UNUSABLE_INPUT)


def find_photos(source: Path) -> Iterator[str]:
    """Yield the photos of a folder, its folders too, or the lines of a list."""
    if os.path.isdir(source):  # noqa: PTH112 - Path's fails on names too long
        for folder, folders, files in os.walk(source):
            folders.sort()
            for name in sorted(files):
                if Path(name).suffix.lower() in options.PHOTO_SUFFIXES:
                    yield str(Path(folder) / name)
        return
    for line in options.read_text(source).splitlines():
        if line.strip():
            yield line.strip()


def measure_paths(
    paths: tuple[str, ...],
    settings: "PhotoSettings",
    *,
    full: bool,
    speaks: Voice = NEUTRAL,
) -> list[dict[str, Any]]:
    """Return a line for each path; runs in a worker, which has no voice yet."""
    import cv2

    from fishmeasure.cli.photo import measure_file

    cv2.setNumThreads(1)  # the photos are the parallel work
    lines = []
    for path in paths:
        measurement = measure_file(Path(path), Path(path).name, settings)
        with speaking(speaks):
            line = {"path": path, **measurement.to_json()}
        lines.append(line if full else brief(line))
    return lines


def brief(line: dict[str, Any]) -> dict[str, Any]:
    """Return a photo's line without its lists of points, rows and causes of error.

    They make it large, and only a picture or a later correction needs them.
    """

    def without(item: dict[str, Any]) -> dict[str, Any]:
        return {key: value for key, value in item.items() if not nested(value)}

    def nested(value: Any) -> bool:
        return isinstance(value, list) and any(
            isinstance(one, list | dict) for one in value
        )

    scale = line["scale"] and without(line["scale"])
    return {**line, "scale": scale, "fish": [without(one) for one in line["fish"]]}


@contextmanager
def _workers(workers: int | None, dask: str | None) -> "Iterator[Workers]":
    from fishmeasure.batch import Workers, start_processes

    if dask is None:
        count = workers or os.cpu_count() or 1
        start = partial(start_processes, count, "fishmeasure.pipeline")
        yield Workers(start=start, count=count)
        return
    try:
        from distributed import Client, KilledWorker
    except ModuleNotFoundError:
        wanted = Message.of("cli-wanted", case="cluster")
        raise BadOptionError("--dask", dask, wanted) from None
    # What its own log says of a lost connection is no help to a grower.
    logging.getLogger("distributed").setLevel(logging.CRITICAL + 1)
    try:
        client = Client(dask, timeout="5s")
    except (OSError, ValueError, TimeoutError):
        wanted = Message.of("cli-wanted", case="scheduler")
        raise BadOptionError("--dask", dask, wanted) from None
    with client:
        threads = sum(client.nthreads().values())
        try:
            yield Workers(
                start=partial(client.get_executor, pure=False),
                count=max(threads, 1),
                died=KilledWorker,
            )
        except CancelledError:
            raise ClusterLostError(dask) from None
