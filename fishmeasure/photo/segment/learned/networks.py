"""The trained networks, run by ONNX Runtime on one thread."""

from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

import numpy as np
import onnxruntime
from numpy.typing import NDArray

from fishmeasure.base.arrays import ByteArray

Floats = NDArray[np.float32]

# As in training (sample_images/training/network.py).
OFFSET_UNIT_PX = 64.0
PATCH_PX = 96
PATCH_SHARE = 0.15
END_KINDS = 3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DetectorOutput:
    """What the detector says of one picture.

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
class RefinerOutput:
    """What the refiner says of one fish.

    Attributes
    ----------
    cover, snout, fork, body
        (rows / 2, columns / 2) probabilities: this fish, its visible ends, its body
        without fins.
    logits
        (8,) logits: a fish as said; its snout, its fork, 90 % of its midline seen;
        its length right to 4 %; upright; lying on something; seen through water.
    """

    cover: Floats
    snout: Floats
    fork: Floats
    body: Floats
    logits: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EndOutput:
    """What the end finder says of one end, in pixels of its patch.

    Attributes
    ----------
    place
        (2,) along the fish, outward, and across it.
    scale
        (2,) of the Laplace distribution of either error, as learned.
    seen, shadow
        Logits: that the end is seen, that it lies in a shadow.
    """

    place: Floats
    scale: Floats
    seen: float
    shadow: float


@lru_cache(maxsize=3)
def _network(name: str) -> onnxruntime.InferenceSession:
    data = resources.files("fishmeasure.photo.segment.learned").joinpath(f"{name}.onnx")
    options = onnxruntime.SessionOptions()
    # A photo takes one core, whatever the machine has: a server measures several.
    options.intra_op_num_threads = options.inter_op_num_threads = 1
    options.log_severity_level = 3
    return onnxruntime.InferenceSession(
        data.read_bytes(), options, providers=["CPUExecutionProvider"]
    )


def _forward(name: str, rgb: ByteArray, outputs: tuple[str, str]) -> list[Floats]:
    planes = np.moveaxis(rgb, -1, 0)[None].astype(np.float32)
    image = (planes - np.float32(127.5)) * np.float32(1 / 64.0)
    raw = _network(name).run(list(outputs), {"image": image})
    return [np.asarray(output, dtype=np.float32)[0] for output in raw]


def _logistic(x: Floats) -> Floats:
    return np.asarray(1.0 / (1.0 + np.exp(-np.clip(x, -30, 30))), dtype=np.float32)


def run_detector(rgb: ByteArray) -> DetectorOutput:
    """Return the detector's output; rows and columns are multiples of 32."""
    fine, field = _forward("find", rgb, ("fine", "field"))
    rows, columns = field.shape[1:]
    place_x = np.broadcast_to(np.arange(columns) * 4 + 1.5, (rows, columns))
    place_y = np.broadcast_to(np.arange(rows)[:, None] * 4 + 1.5, (rows, columns))
    votes = field[0:4] * OFFSET_UNIT_PX + np.stack([place_x, place_y] * 2)
    return DetectorOutput(
        cover=_logistic(fine[0]),
        votes=votes.astype(np.float32),
        spread=np.exp(np.clip(field[4:6], -4, 3)).astype(np.float32) * OFFSET_UNIT_PX,
    )


def run_refiner(rgb: ByteArray) -> RefinerOutput:
    """Return the refiner's output for a level fish."""
    fine, logits = _forward("crop", rgb, ("fine", "judge"))
    heads = _logistic(fine)
    return RefinerOutput(
        cover=heads[0],
        snout=heads[1],
        fork=heads[2],
        body=heads[3],
        logits=logits.reshape(-1),
    )


def run_end_finder(rgb: ByteArray, kind: int) -> EndOutput:
    """Return the end finder's output for an end, outward to the right.

    ``kind``: 0 snout, 1 fork or a round tail's edge, 2 tail tip of an upright fish.
    """
    heat, said = _forward("ends", rgb, ("heat", "said"))
    mine = heat[kind] - heat[kind].max()
    likely = np.exp(mine)
    likely /= likely.sum()
    cells = np.arange(PATCH_PX // 2, dtype=np.float32) * 2 + np.float32(0.5)
    checks = said.reshape(END_KINDS, -1)[kind]
    return EndOutput(
        place=np.array(
            [likely.sum(axis=0) @ cells, likely.sum(axis=1) @ cells], np.float32
        ),
        scale=np.exp(np.clip(checks[:2], -3.0, 3.5)),
        seen=float(checks[2]),
        shadow=float(checks[3]),
    )
