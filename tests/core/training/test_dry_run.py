"""One small training step on a CPU, from scenes to a file that OpenCV reads."""

import os
import subprocess
import sys
from pathlib import Path

import cv2
import numpy as np
import pytest


@pytest.mark.shared
@pytest.mark.parametrize(
    ("which", "shape", "outputs"),
    [
        ("find", (1, 3, 128, 192), ((1, 4, 64, 96), (1, 9, 32, 48))),
        ("crop", (1, 3, 160, 320), ((1, 3, 80, 160), (1, 5, 1, 1))),
    ],
)
def test_a_dry_run_leaves_a_network(
    which: str,
    shape: tuple[int, ...],
    outputs: tuple[tuple[int, ...], ...],
    shared: Path,
    tmp_path: Path,
) -> None:
    command = [sys.executable, "-m", "fishmeasure.training", which]
    command += [str(shared / "photos"), str(tmp_path), "--dry-run"]
    subprocess.run(command, check=True, env=dict(os.environ))  # noqa: S603
    names = ["fine", "field" if which == "find" else "judge"]
    engine = getattr(cv2.dnn, "ENGINE_CLASSIC", None)
    path = str(tmp_path / f"{which}.onnx")
    network = (
        cv2.dnn.readNetFromONNX(path)
        if engine is None
        else cv2.dnn.readNetFromONNX(path, engine=engine)
    )
    network.setInput(np.zeros(shape, np.float32))
    assert tuple(answer.shape for answer in network.forward(names)) == outputs
