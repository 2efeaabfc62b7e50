"""Small training steps on a CPU, from scenes to files that OpenCV reads."""

import os
import subprocess
import sys
from pathlib import Path

import cv2
import numpy as np
import pytest

ANSWERS = {
    "find": ((1, 3, 128, 192), {"fine": (1, 4, 64, 96), "field": (1, 9, 32, 48)}),
    "crop": ((1, 3, 160, 320), {"fine": (1, 4, 80, 160), "judge": (1, 8, 1, 1)}),
    "ends": ((1, 3, 96, 96), {"heat": (1, 3, 48, 48), "said": (1, 12, 1, 1)}),
}


def run(*arguments: str) -> None:
    command = [sys.executable, "-m", "sample_images.training", *arguments]
    subprocess.run(command, check=True, env=dict(os.environ))  # noqa: S603


@pytest.mark.shared
def test_a_dry_run_leaves_three_networks(shared: Path, tmp_path: Path) -> None:
    run("pack", str(shared / "photos"), str(tmp_path / "photos"))
    weights, files = str(tmp_path / "weights"), str(tmp_path / "files")
    run("all", str(tmp_path / "photos"), weights, "--dry-run")
    run("export", weights, files)
    engine = getattr(cv2.dnn, "ENGINE_CLASSIC", None)
    for name, (shape, answers) in ANSWERS.items():
        path = str(Path(files) / f"{name}.onnx")
        network = (
            cv2.dnn.readNetFromONNX(path)
            if engine is None
            else cv2.dnn.readNetFromONNX(path, engine=engine)
        )
        network.setInput(np.zeros(shape, np.float32))
        given = network.forward(list(answers))
        assert tuple(answer.shape for answer in given) == tuple(answers.values())
