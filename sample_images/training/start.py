"""Weights to start from, of the files that users have.

A file for users has the norms folded into the convolutions. Their weights come back
through the order in which convolutions run, and each norm gets the mean and spread
that its input has on a few scenes, with the factors that undo just these: in use the
network answers as before, in training its norms work as norms.
"""

from importlib import resources
from itertools import pairwise
from pathlib import Path

import numpy as np
import onnx
import torch
from onnx import numpy_helper
from torch import Tensor, nn

from sample_images.training.network import Network, new_networks
from sample_images.training.weights import save_networks


def load_folded(network: Network, path: Path, image: Tensor) -> None:
    """Take the weights of an ONNX file of a network of the same build.

    Heads may have grown: their first channels are taken, the others stay as they are.

    Parameters
    ----------
    image
        (n, 3, h, w) as the network sees them, to set the norms by.
    """
    folded = _convolutions(path)
    order = _run_order(network, image)
    if len(order) != len(folded):
        message = f"{path} has {len(folded)} convolutions, not {len(order)}."
        raise ValueError(message)
    shifts: dict[nn.BatchNorm2d, Tensor] = {}
    with torch.no_grad():
        for (conv, norm), (weight, bias) in zip(order, folded, strict=True):
            conv.weight[: len(weight)] = weight
            if norm is not None:
                shifts[norm] = bias
            elif conv.bias is not None:
                conv.bias[: len(bias)] = bias
    _set_norms(network, shifts, image)


def _convolutions(path: Path) -> list[tuple[Tensor, Tensor]]:
    """Return weight and bias of each convolution, in the order of the file."""
    graph = onnx.load(str(path)).graph
    stored = {
        tensor.name: numpy_helper.to_array(tensor) for tensor in graph.initializer
    }
    for node in graph.node:
        if node.op_type == "Cast":
            stored[node.output[0]] = stored[node.input[0]]
    pairs = []
    for node in graph.node:
        if node.op_type == "Conv":
            weight, bias = (stored[name].astype(np.float32) for name in node.input[1:3])
            pairs.append((torch.from_numpy(weight), torch.from_numpy(bias)))
    return pairs


def _run_order(
    network: Network, image: Tensor
) -> list[tuple[nn.Conv2d, nn.BatchNorm2d | None]]:
    """Return the convolutions as they run, each with the norm that follows it."""
    followed = {
        one: other
        for module in network.modules()
        if isinstance(module, nn.Sequential)
        for one, other in pairwise(module)
        if isinstance(other, nn.BatchNorm2d)
    }
    order: list[tuple[nn.Conv2d, nn.BatchNorm2d | None]] = []

    def note(module: nn.Module, *_: object) -> None:
        if isinstance(module, nn.Conv2d):
            order.append((module, followed.get(module)))

    hooks = [
        module.register_forward_hook(note)
        for module in network.modules()
        if isinstance(module, nn.Conv2d)
    ]
    network.eval()
    with torch.no_grad():
        network(image[:1])
    for hook in hooks:
        hook.remove()
    return order


def _set_norms(
    network: Network, shifts: dict[nn.BatchNorm2d, Tensor], image: Tensor
) -> None:
    """Set every norm to its input's mean and spread, so that it only adds a shift."""

    def set_one(module: nn.Module, given: tuple[Tensor, ...]) -> None:
        if not isinstance(module, nn.BatchNorm2d):
            return
        mean = given[0].mean(dim=(0, 2, 3))
        variance = given[0].var(dim=(0, 2, 3)).clamp(min=1e-4)
        module.running_mean.copy_(mean)
        module.running_var.copy_(variance)
        module.weight.copy_((variance + module.eps).sqrt())
        module.bias.copy_(mean + shifts[module])

    with torch.no_grad():
        hooks = [norm.register_forward_pre_hook(set_one) for norm in shifts]
        network.eval()
        network(image)
        for hook in hooks:
            hook.remove()


def write_start(photos: Path, out: Path) -> None:
    """Write the weights of the networks that users have, to train on from them.

    Norms are set on drawn scenes and on single fish cut from them.
    """
    # late: training itself needs neither
    from sample_images.training.crops import draw_crops  # noqa: PLC0415
    from sample_images.training.supply import make_chunks  # noqa: PLC0415
    from sample_images.training.train import prepared  # noqa: PLC0415

    torch.manual_seed(0)
    chunks = make_chunks(photos, 987_654)
    parts = [next(chunks).scenes for _ in range(4)]
    scenes = {
        name: torch.from_numpy(np.concatenate([part[name] for part in parts]))
        for name in parts[0]
    }
    generator = torch.Generator().manual_seed(0)
    seen = {
        "find": scenes["photo"].permute(0, 3, 1, 2).float(),
        "crop": draw_crops(scenes, 32, generator).image,
    }
    networks = new_networks()
    folder = Path(str(resources.files("fishmeasure.photo.segment"))) / "learned"
    for name, image in seen.items():
        load_folded(networks[name], folder / f"{name}.onnx", prepared(image))
    save_networks({name: networks[name] for name in seen}, out)
