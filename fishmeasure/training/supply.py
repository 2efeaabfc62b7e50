"""Scenes made by many processes while the network trains on them."""

import multiprocessing
import queue
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Self

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.training.cutouts import load_cutouts
from fishmeasure.training.layouts import draw_scene
from fishmeasure.training.scene import SpriteMaker
from fishmeasure.training.shapes import load_bodies

if TYPE_CHECKING:
    from multiprocessing.context import SpawnProcess

CHUNK = 8


@dataclass(frozen=True, slots=True, eq=False)
class Chunk:
    """Some scenes, stacked."""

    photo: NDArray[np.uint8]
    cover: NDArray[np.uint8]
    owner: NDArray[np.uint8]
    fish: NDArray[np.float32]
    things: NDArray[np.float32]


def make_chunks(photos: Path, seed: int) -> Any:
    """Yield chunks without end, the same ones for the same seed."""
    cv2.setNumThreads(1)
    rng = np.random.default_rng([2026, seed])
    bodies = load_bodies(photos / "outlines_nsfishes_ccbysa")
    maker = SpriteMaker(bodies, load_cutouts(photos), rng)
    while True:
        scenes = [draw_scene(maker, rng) for _ in range(CHUNK)]
        yield Chunk(
            photo=np.stack([scene.photo for scene in scenes]),
            cover=np.stack([scene.cover for scene in scenes]),
            owner=np.stack([scene.owner for scene in scenes]),
            fish=np.stack([scene.fish for scene in scenes]),
            things=np.stack([scene.things for scene in scenes]),
        )


def _work(photos: str, seed: int, out: Any) -> None:
    for chunk in make_chunks(Path(photos), seed):
        out.put(chunk)


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
