"""Training: scenes on the fly, a pool of them on the device, one schedule."""

import copy
import time
from dataclasses import dataclass
from pathlib import Path

import torch
from torch import Tensor

from fishmeasure.training.network import OutlineNet, export_onnx
from fishmeasure.training.supply import Chunk, Supply, make_chunks
from fishmeasure.training.targets import loss_parts, make_targets


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What is fixed for one run.

    Attributes
    ----------
    photos, out
        The shared photos' folder; where weights and log go.
    minutes, steps
        The run ends at whichever comes first; the rate follows the clock.
    resume
        Weights to start from.
    """

    photos: Path
    out: Path
    minutes: float = 8.0
    steps: int = 1_000_000
    batch: int = 48
    workers: int = 15
    pool: int = 60_000
    seed: int = 0
    rate: float = 2e-3
    resume: Path | None = None


class Pool:
    """The newest scenes, kept on the device as bytes."""

    def __init__(self, size: int, device: torch.device) -> None:
        self.size, self.count, self.made, self.device = size, 0, 0, device
        self._arrays: dict[str, Tensor] = {}

    def add(self, chunk: Chunk) -> None:
        """Put a chunk in place of the oldest scenes."""
        for name in ("photo", "cover", "owner", "fish"):
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
    fish = batch["fish"].clone()
    for name, axes in (("photo", (1, 2)), ("cover", (1, 2)), ("owner", (1, 2))):
        array = torch.rot90(batch[name], turns, axes)
        batch[name] = array.flip(2) if mirror else array
    for first in (0, 2):
        x, y = fish[..., first].clone(), fish[..., first + 1].clone()
        for _ in range(turns % 4):  # rot90 carries (x, y) to (y, size - 1 - x)
            x, y = y, size - 1 - x
        fish[..., first] = size - 1 - x if mirror else x
        fish[..., first + 1] = y
    batch["fish"] = fish


def to_input(photo: Tensor, *, vary: bool) -> Tensor:
    """Return (n, 3, h, w) input of uint8 photos; ``vary`` changes their tones."""
    image = photo.permute(0, 3, 1, 2).float()
    if vary:
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
        image = image.clamp(0, 255)
    return (image - 127.5) / 64.0


def _average(target: OutlineNet, source: OutlineNet, keep: float) -> None:
    """Move the running average of the weights a little towards the newest."""
    with torch.no_grad():
        for kept, new in zip(target.parameters(), source.parameters(), strict=True):
            kept.lerp_(new, 1 - keep)
        for kept, new in zip(target.buffers(), source.buffers(), strict=True):
            kept.copy_(new)


def _rate_at(share: float, peak: float) -> float:
    warm = min(1.0, share / 0.03 + 0.02)
    fall = 0.5 * (1 + torch.cos(torch.tensor(share * torch.pi)).item())
    return peak * warm * max(fall, 0.004)


def train(plan: Plan) -> dict[str, float]:
    """Train, write ``weights.pt`` and ``outline.onnx``; return the last losses."""
    torch.manual_seed(plan.seed)
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.backends.cudnn.benchmark = True
    generator = torch.Generator().manual_seed(plan.seed)
    network = OutlineNet().to(device, memory_format=torch.channels_last)
    if plan.resume is not None:
        network.load_state_dict(torch.load(plan.resume, map_location=device))
    average = copy.deepcopy(network)
    optimiser = torch.optim.AdamW(network.parameters(), plan.rate, weight_decay=0.02)
    plan.out.mkdir(parents=True, exist_ok=True)
    pool = Pool(plan.pool, device)
    with Supply(plan.photos, plan.workers, 1000 * plan.seed) as supply:
        first = min(32 * plan.batch, plan.pool // 2)
        while pool.count < first:
            chunk = supply.take(120)
            if chunk is None:
                break
            pool.add(chunk)
        start, step, log = time.monotonic(), 0, {}
        while True:
            share = max(
                (time.monotonic() - start) / (60 * plan.minutes), step / plan.steps
            )
            if share >= 1:
                break
            while (chunk := supply.take(0.0001)) is not None:
                pool.add(chunk)
                if torch.rand((), generator=generator) < 0.2:
                    break
            for group in optimiser.param_groups:
                group["lr"] = _rate_at(share, plan.rate)
            log = _step(network, optimiser, pool.draw(plan.batch, generator), generator)
            step += 1
            _average(average, network, min(0.998, 1 - 1 / (step + 1)))
            if step % 100 == 0 or step == 1:
                text = " ".join(f"{key} {value.item():.4f}" for key, value in log.items())
                print(  # noqa: T201
                    f"{time.monotonic() - start:6.0f} s step {step} scenes {pool.made} "
                    f"{text}",
                    flush=True,
                )
    torch.save(average.state_dict(), plan.out / "weights.pt")
    export_onnx(average.float().cpu(), str(plan.out / "outline.onnx"))
    print(f"steps {step} scenes {pool.made}")  # noqa: T201
    return {key: float(value) for key, value in log.items()}


def _step(
    network: OutlineNet,
    optimiser: torch.optim.Optimizer,
    batch: dict[str, Tensor],
    generator: torch.Generator,
) -> dict[str, Tensor]:
    """Take one step; return the parts of the loss before it."""
    turns = int(torch.randint(4, (), generator=generator))
    turn_batch(batch, turns, mirror=bool(torch.rand((), generator=generator) < 0.5))
    image = to_input(batch["photo"], vary=True)
    image = image.contiguous(memory_format=torch.channels_last)
    truth = make_targets(batch["cover"], batch["owner"], batch["fish"])
    with torch.autocast(image.device.type, dtype=torch.bfloat16):
        fine, field = network(image)
    parts = loss_parts(fine.float(), field.float(), truth)
    optimiser.zero_grad(set_to_none=True)
    torch.stack(list(parts.values())).sum().backward()
    torch.nn.utils.clip_grad_norm_(network.parameters(), 5.0)
    optimiser.step()
    return {key: value.detach() for key, value in parts.items()}


def check_scenes(photos: Path, seed: int) -> Chunk:
    """Return one chunk made in this process, for looking at."""
    chunk: Chunk = next(make_chunks(photos, seed))
    return chunk
