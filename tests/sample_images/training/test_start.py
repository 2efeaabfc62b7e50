"""Weights of the files that users have, taken back: the same answers."""

from importlib import resources
from pathlib import Path

import cv2
import numpy as np
import pytest
import torch


@pytest.mark.parametrize("name", ["find", "crop"])
def test_a_network_taken_back_answers_as_its_file(name: str) -> None:
    from sample_images.training.network import new_networks
    from sample_images.training.start import load_folded

    path = (
        Path(str(resources.files("fishmeasure.photo.segment")))
        / "learned"
        / f"{name}.onnx"
    )
    network = new_networks()[name]
    rng = np.random.default_rng(4)
    image = rng.normal(0, 1, (2, 3, 160, 320)).astype(np.float32)
    load_folded(network, path, torch.from_numpy(image))
    network.eval()
    with torch.no_grad():
        mine = network(torch.from_numpy(image[:1]))
    engine = getattr(cv2.dnn, "ENGINE_CLASSIC", None)
    file = (
        cv2.dnn.readNetFromONNX(str(path))
        if engine is None
        else cv2.dnn.readNetFromONNX(str(path), engine=engine)
    )
    file.setInput(image[:1])
    for own, theirs in zip(mine, file.forward(list(network.outputs)), strict=True):
        # heads may have grown since the file was written
        assert np.abs(own.numpy()[:, : theirs.shape[1]] - theirs).max() < 0.02
