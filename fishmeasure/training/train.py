"""Training: scenes on the fly, a pool of them on the device, one schedule."""

import copy
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

import torch
from torch import Tensor

from fishmeasure.training.crops import crop_loss_parts, draw_crops
from fishmeasure.training.export import export_onnx
from fishmeasure.training.network import CropNet, FindNet
from fishmeasure.training.supply import Chunk, Supply
from fishmeasure.training.targets import loss_parts, make_targets

_AVERAGE_EVERY = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What is fixed for one run.

    Attributes
    ----------
    which
        The network to train.
    photos, out
        The shared photos' folder; where weights and network go.
    minutes, steps
        The run ends at whichever comes first; the rate follows the clock.
    resume
        Weights to start from.
    """

    which: Literal["find", "crop"]
    photos: Path
    out: Path
    minutes: float = 8.0
    steps: int = 1_000_000
    batch: int = 112
    workers: int = 15
    pool: int = 60_000
    seed: int = 0
    rate: float = 2e-3
    resume: Path | None = None
    device: str = "cuda"


class Pool:
    """The newest scenes, kept on the device as bytes."""

    def __init__(self, size: int, device: torch.device) -> None:
        self.size, self.count, self.made, self.device = size, 0, 0, device
        self._arrays: dict[str, Tensor] = {}

    def add(self, chunk: Chunk) -> None:
        """Put a chunk in place of the oldest scenes."""
        for name in ("photo", "cover", "owner", "fish", "things"):
            new = torch.from_numpy(getattr(chunk, name))
            if name not in self._arrays:
                self._arrays[name] = torch.empty(
                    (self.size, *new.shape[1:]), dtype=new.dtype, device=self.device
                )
            at = self.made % self.size
            number = min(len(new), self.size - at)
            self._arrays[name][at : at + number] = new[:number].to(self.device)
        self.made += len(chunk.photo)
        self.count = min(self.size, self.count + len(chunk.photo))

    def draw(self, batch: int, generator: torch.Generator) -> dict[str, Tensor]:
        """Return a random batch."""
        index = torch.randint(self.count, (batch,), generator=generator)
        index = index.to(self.device)
        return {name: array[index] for name, array in self._arrays.items()}


def turn_batch(batch: dict[str, Tensor], turns: int, *, mirror: bool) -> None:
    """Turn a batch by quarter turns and mirror it, its end points included."""
    size = batch["photo"].shape[1]
    for name in ("photo", "cover", "owner"):
        array = torch.rot90(batch[name], turns, (1, 2))
        batch[name] = array.flip(2) if mirror else array
    for name in ("fish", "things"):
        table = batch[name].clone()
        for first in (0, 2):
            x, y = table[..., first].clone(), table[..., first + 1].clone()
            for _ in range(turns % 4):  # rot90 carries (x, y) to (y, size - 1 - x)
                x, y = y, size - 1 - x
            table[..., first] = size - 1 - x if mirror else x
            table[..., first + 1] = y
        batch[name] = table


def vary(image: Tensor) -> Tensor:
    """Return (n, 3, h, w) pictures, 0-255, with other tones and grain."""
    number, device = len(image), image.device

    def draw(low: float, high: float, channels: int = 1) -> Tensor:
        span = torch.rand(number, channels, 1, 1, device=device)
        return low + (high - low) * span

    mean = image.mean(dim=(2, 3), keepdim=True)
    image = mean + (image - mean) * draw(0.75, 1.2)
    image = image * draw(0.75, 1.25) * draw(0.92, 1.08, 3) + draw(-12, 12)
    image = image + torch.randn_like(image) * draw(0, 4)
    grey = image.mean(dim=1, keepdim=True)
    image = torch.where(draw(0, 1) < 0.04, grey.expand_as(image), image)
    return image.clamp(0, 255)


def _losses(
    network: FindNet | CropNet, batch: dict[str, Tensor], generator: torch.Generator
) -> dict[str, Tensor]:
    """Return the parts of the loss on a batch of scenes."""
    turns = int(torch.randint(4, (), generator=generator))
    turn_batch(batch, turns, mirror=bool(torch.rand((), generator=generator) < 0.5))
    kind = batch["photo"].device.type

    def answer(image: Tensor) -> tuple[Tensor, Tensor]:
        image = ((vary(image) - 127.5) / 64.0).contiguous(
            memory_format=torch.channels_last
        )
        with torch.autocast(kind, dtype=torch.bfloat16):
            one, two = network(image)
        return one.float(), two.float()

    if isinstance(network, CropNet):
        crops = draw_crops(batch, 2, generator)
        return crop_loss_parts(*answer(crops.image), crops)
    truth = make_targets(batch["cover"], batch["owner"], batch["fish"])
    image = batch["photo"].permute(0, 3, 1, 2).float()
    return loss_parts(*answer(image), truth)


def _follow(target: torch.nn.Module, source: torch.nn.Module, keep: float) -> None:
    """Move the running average of the weights a little towards the newest."""
    with torch.no_grad():
        kept, new = list(target.parameters()), list(source.parameters())
        torch._foreach_lerp_(kept, new, 1 - keep)
        for old, buffer in zip(target.buffers(), source.buffers(), strict=True):
            old.copy_(buffer)


def _rate_at(share: float, peak: float) -> float:
    warm = min(1.0, share / 0.03 + 0.02)
    fall = 0.5 * (1 + torch.cos(torch.tensor(share * torch.pi)).item())
    return peak * warm * max(fall, 0.004)


def train(plan: Plan) -> dict[str, float]:
    """Train, write ``WHICH.pt`` and ``WHICH.onnx``; return the last losses."""
    torch.manual_seed(plan.seed)
    device = torch.device(plan.device if torch.cuda.is_available() else "cpu")
    torch.backends.cudnn.benchmark = True
    generator = torch.Generator().manual_seed(plan.seed)
    network: FindNet | CropNet = FindNet() if plan.which == "find" else CropNet()
    network.to(device, memory_format=torch.channels_last)
    if plan.resume is not None:
        network.load_state_dict(torch.load(plan.resume, map_location=device))
    average = copy.deepcopy(network)
    optimiser = torch.optim.AdamW(network.parameters(), plan.rate, weight_decay=0.02)
    plan.out.mkdir(parents=True, exist_ok=True)
    pool = Pool(plan.pool, device)
    with Supply(plan.photos, plan.workers, 1000 * (plan.seed + 1)) as supply:
        _fill(pool, supply, min(24 * plan.batch, plan.pool // 2))
        start, step = time.monotonic(), 0
        log: dict[str, Tensor] = {}
        while True:
            share = (time.monotonic() - start) / (60 * plan.minutes)
            share = max(share, step / plan.steps)
            if share >= 1:
                break
            for _ in range(8):
                chunk = supply.take(0)
                if chunk is None:
                    break
                pool.add(chunk)
            for group in optimiser.param_groups:
                group["lr"] = _rate_at(share, plan.rate)
            log = _losses(network, pool.draw(plan.batch, generator), generator)
            optimiser.zero_grad(set_to_none=True)
            torch.stack(list(log.values())).sum().backward()
            torch.nn.utils.clip_grad_norm_(network.parameters(), 5.0)
            optimiser.step()
            step += 1
            if step % _AVERAGE_EVERY == 0 or step < 100:
                _follow(average, network, min(0.99, 1 - 1 / (step + 1)))
            if step % 200 == 0 or step == 1:
                _report(time.monotonic() - start, step, pool.made, log)
    torch.save(average.state_dict(), plan.out / f"{plan.which}.pt")
    export_onnx(average.float().cpu(), plan.out / f"{plan.which}.onnx")
    _report(time.monotonic() - start, step, pool.made, log)
    return {key: value.item() for key, value in log.items()}


def _fill(pool: Pool, supply: Supply, first: int) -> None:
    while pool.count < first:
        chunk = supply.take(120)
        if chunk is None:
            break
        pool.add(chunk)


def _report(seconds: float, step: int, made: int, log: dict[str, Tensor]) -> None:
    text = " ".join(f"{key} {value.item():.4f}" for key, value in log.items())
    print(f"{seconds:5.0f} s step {step} scenes {made} {text}", flush=True)  # noqa: T201
