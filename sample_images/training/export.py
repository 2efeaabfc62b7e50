"""Networks to ONNX files for users, weights in half precision."""

from pathlib import Path

import numpy as np
import onnx
import torch
from onnx import TensorProto, helper, numpy_helper

from sample_images.training.network import FindNet, Network
from sample_images.training.weights import load_networks

_LARGE = 500  # numbers; the rest is kept as it is


def export_all(folder: Path, out: Path) -> None:
    """Write ``NAME.onnx`` of each network whose weights are in the folder."""
    out.mkdir(parents=True, exist_ok=True)
    for name, network in load_networks(folder).items():
        if (folder / f"{name}.pt").exists():
            export_onnx(network, out / f"{name}.onnx")


def export_onnx(network: Network, path: Path) -> None:
    """Write the network; ``FindNet`` free in size."""
    network.eval()
    free = {2: "rows", 3: "columns"}
    torch.onnx.export(
        network,
        (torch.zeros(1, 3, *network.example_shape),),
        str(path),
        input_names=["image"],
        output_names=list(network.outputs),
        dynamic_axes={"image": free} if isinstance(network, FindNet) else None,
        opset_version=13,
        dynamo=False,
    )
    halve(path)


def halve(path: Path) -> None:
    """Store the large weights of a file as 16-bit numbers, which halves it.

    OpenCV 4.10 and 5.0 turn them back while reading; logits move by less than
    0.02 of 20.
    """
    model = onnx.load(str(path))
    casts = []
    for index, tensor in enumerate(list(model.graph.initializer)):
        numbers = numpy_helper.to_array(tensor)
        if numbers.dtype != np.float32 or numbers.size <= _LARGE:
            continue
        name = tensor.name
        short = f"{name}_half"
        half = numpy_helper.from_array(numbers.astype(np.float16), short)
        model.graph.initializer[index].CopyFrom(half)
        casts.append(helper.make_node("Cast", [short], [name], to=TensorProto.FLOAT))
    for cast in reversed(casts):
        model.graph.node.insert(0, cast)
    onnx.checker.check_model(model)
    onnx.save(model, str(path))
