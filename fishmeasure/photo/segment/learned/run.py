"""The trained networks, run by OpenCV."""

from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from threading import Lock
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.base.arrays import ByteArray

Floats = NDArray[np.float32]

OFFSET_UNIT_PX = 64.0
_LOCK = Lock()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Answer:
    """What the network says of one picture.

    Attributes
    ----------
    cover
        (rows / 2, columns / 2) probability of fish.
    votes
        (4, rows / 4, columns / 4): where each cell's fish has its snout x, y and
        fork x, y, in pixels of the picture.
    spread
        (2, rows / 4, columns / 4): how far wrong the two may be, in pixels.
    """

    cover: Floats
    votes: Floats
    spread: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Portrait:
    """What the second network says of one fish.

    Attributes
    ----------
    cover, snout, fork
        (rows / 2, columns / 2) probabilities: this fish, its visible ends.
    judge
        (5,) logits: a fish as said; its snout, its fork, 90 % of its midline seen;
        its length right to 4 %.
    """

    cover: Floats
    snout: Floats
    fork: Floats
    judge: Floats


@lru_cache(maxsize=2)
def _network(name: str) -> Any:
    data = resources.files("fishmeasure.photo.segment.learned").joinpath(f"{name}.onnx")
    packed = np.frombuffer(data.read_bytes(), dtype=np.uint8)
    # OpenCV 5 has a second engine, slower on this network (0.36 s against 0.21 s);
    # OpenCV 4 has the classic one alone.
    engine = getattr(cv2.dnn, "ENGINE_CLASSIC", None)
    if engine is None:
        return cv2.dnn.readNetFromONNX(packed)
    return cv2.dnn.readNetFromONNX(packed, engine=engine)


def _forward(name: str, rgb: ByteArray, outputs: tuple[str, str]) -> list[Floats]:
    blob = cv2.dnn.blobFromImage(
        np.ascontiguousarray(rgb), scalefactor=1 / 64.0, mean=(127.5, 127.5, 127.5)
    )
    with _LOCK:  # one network, perhaps several threads
        network = _network(name)
        network.setInput(blob)
        answers = network.forward(list(outputs))
    return [np.array(answer, dtype=np.float32)[0] for answer in answers]


def _logistic(x: Floats) -> Floats:
    return np.asarray(1.0 / (1.0 + np.exp(-np.clip(x, -30, 30))), dtype=np.float32)


def ask(rgb: ByteArray) -> Answer:
    """Return the network's answer; rows and columns are multiples of 32."""
    fine, field = _forward("find", rgb, ("fine", "field"))
    rows, columns = field.shape[1:]
    place_x = np.broadcast_to(np.arange(columns) * 4 + 1.5, (rows, columns))
    place_y = np.broadcast_to(np.arange(rows)[:, None] * 4 + 1.5, (rows, columns))
    votes = field[0:4] * OFFSET_UNIT_PX + np.stack([place_x, place_y] * 2)
    return Answer(
        cover=_logistic(fine[0]),
        votes=votes.astype(np.float32),
        spread=np.exp(np.clip(field[4:6], -4, 3)).astype(np.float32) * OFFSET_UNIT_PX,
    )


def ask_crop(rgb: ByteArray) -> Portrait:
    """Return the second network's answer for a level fish."""
    fine, judge = _forward("crop", rgb, ("fine", "judge"))
    heads = _logistic(fine)
    return Portrait(
        cover=heads[0], snout=heads[1], fork=heads[2], judge=judge.reshape(-1)
    )
