"""Scenes made by many processes while the networks train on them."""

import multiprocessing
import queue
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, fields
from pathlib import Path
from typing import TYPE_CHECKING, Any, Self

import cv2
import numpy as np
from numpy.typing import NDArray

from sample_images.training.bodies import load_all_bodies
from sample_images.training.cutouts import load_cutouts, photo_files
from sample_images.training.end_scenes import draw_end_scene
from sample_images.training.layouts import draw_scene
from sample_images.training.scene import SpriteMaker

if TYPE_CHECKING:
    from multiprocessing.context import SpawnProcess

SCENES, CLOSE_UPS = 8, 6  # in a chunk

OUTLINES = (
    "outlines_nsfishes_ccbysa/outlines_all218.npz",
    "outlines_reef_ccby/outlines.npz",
)

Arrays = dict[str, NDArray[Any]]


@dataclass(frozen=True, slots=True, eq=False)
class Chunk:
    """Some scenes and some close-ups of ends, their fields stacked."""

    scenes: Arrays
    close_ups: Arrays


def make_chunks(photos: Path, seed: int) -> Iterator[Chunk]:
    """Yield chunks without end, the same ones for the same seed."""
    cv2.setNumThreads(1)
    rng = np.random.default_rng([2026, seed])
    maker = SpriteMaker(load_all_bodies(photos), load_cutouts(photos), rng)
    while True:
        yield Chunk(
            scenes=_stacked([draw_scene(maker, rng) for _ in range(SCENES)]),
            close_ups=_stacked([draw_end_scene(maker, rng) for _ in range(CLOSE_UPS)]),
        )


def _stacked(drawn: list[Any]) -> Arrays:
    """Return the fields of like records, each stacked."""
    names = [field.name for field in fields(drawn[0])]
    return {name: np.stack([getattr(one, name) for one in drawn]) for name in names}


def _work(photos: str, seed: int, out: Any) -> None:
    for chunk in make_chunks(Path(photos), seed):
        out.put(chunk)


def pack_photos(photos: Path, out: Path) -> None:
    """Copy what training opens of the shared photos, for a machine without them."""
    for name in (*photo_files(), *OUTLINES):
        target = out / name
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(photos / name, target)


class Supply:
    """Worker processes and the queue they fill; use as a context."""

    def __init__(self, photos: Path, workers: int, first_seed: int) -> None:
        context = multiprocessing.get_context("spawn")
        self._queue: Any = context.Queue(maxsize=4 * workers)
        self._workers: list[SpawnProcess] = [
            context.Process(
                target=_work,
                args=(str(photos), first_seed + index, self._queue),
                daemon=True,
            )
            for index in range(workers)
        ]

    def __enter__(self) -> Self:
        """Start the workers."""
        for worker in self._workers:
            worker.start()
        return self

    def __exit__(self, *_: object) -> None:
        """Stop the workers."""
        for worker in self._workers:
            worker.terminate()

    def take(self, timeout_s: float) -> Chunk | None:
        """Return the next chunk, or None if none comes in time."""
        try:
            chunk: Chunk = self._queue.get(timeout_s > 0, timeout_s)
        except queue.Empty:
            return None
        return chunk
