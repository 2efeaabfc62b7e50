"""Training: all three networks at once on one pool of scenes, drawn meanwhile.

Scenes are what takes long, so every network learns from each: the first from the
scenes as they are and from others shrunk to what a whole photo shows of small fish,
the second from single fish cut out of both, the third from their ends and from
close-ups of ends.
"""

import copy
import time
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import torch
from torch import Tensor

from sample_images.training.crops import crop_loss_parts, draw_crops
from sample_images.training.end_patches import (
    cut_patches,
    end_loss_parts,
    ends_of_close_ups,
    ends_of_scenes,
)
from sample_images.training.network import Network
from sample_images.training.supply import Arrays, Supply
from sample_images.training.targets import loss_parts, make_targets, shrink
from sample_images.training.weights import load_networks, save_networks

_AVERAGE_EVERY = 8
_SHRUNK = (128, 160, 192, 224)
"""Sides in pixels of scenes of 384 for the first network's small fish: of 38 and more
pixels they leave 13 to 22."""
_SAVE_EVERY_S = 100.0

Losses = dict[str, dict[str, Tensor]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What is fixed for one run.

    Attributes
    ----------
    photos, out
        The shared photos' folder; where the weights go.
    minutes, steps
        The run ends at whichever comes first; the rate follows the clock.
    batch
        Scenes for either half of the first network's work, and as many close-ups.
    resume
        Folder with weights to start from; networks that it lacks start anew.
    """

    photos: Path
    out: Path
    minutes: float = 8.0
    steps: int = 1_000_000
    batch: int = 48
    workers: int = 15
    pool: int = 48_000
    seed: int = 0
    rate: float = 1.5e-3
    resume: Path | None = None
    device: str = "cuda"


class Pool:
    """The newest of one kind of scenes, kept on the device."""

    def __init__(self, size: int, device: torch.device) -> None:
        self.size, self.count, self.made, self.device = size, 0, 0, device
        self._arrays: dict[str, Tensor] = {}

    def add(self, scenes: Arrays) -> None:
        """Put scenes in place of the oldest ones."""
        at = self.made % self.size
        number = 0
        for name, array in scenes.items():
            new = torch.from_numpy(np.ascontiguousarray(array))
            if name not in self._arrays:
                self._arrays[name] = torch.empty(
                    (self.size, *new.shape[1:]), dtype=new.dtype, device=self.device
                )
            number = min(len(new), self.size - at)
            self._arrays[name][at : at + number] = new[:number].to(self.device)
        self.made += number
        self.count = min(self.size, self.count + number)

    def draw(self, batch: int, generator: torch.Generator) -> dict[str, Tensor]:
        """Return a random batch."""
        index = torch.randint(self.count, (batch,), generator=generator)
        index = index.to(self.device)
        return {name: array[index] for name, array in self._arrays.items()}


def turn_batch(batch: dict[str, Tensor], turns: int, *, mirror: bool) -> None:
    """Turn a batch by quarter turns and mirror it, its end points included."""
    size = batch["photo"].shape[1]
    for name in ("photo", "cover", "owner", "body"):
        if name in batch:
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


def prepared(image: Tensor) -> Tensor:
    """Return pictures, 0-255, as the networks take them."""
    return ((image - 127.5) / 64.0).contiguous(memory_format=torch.channels_last)


@dataclass(frozen=True, slots=True)
class Classroom:
    """The networks and the pools that they learn from."""

    networks: dict[str, Network]
    scenes: Pool
    close_ups: Pool
    generator: torch.Generator

    def losses(self, batch: int) -> Losses:
        """Return the parts of every network's loss on new draws from the pools."""
        scenes = self._scenes(2 * batch)
        plain = {name: array[:batch] for name, array in scenes.items()}
        side = _SHRUNK[int(torch.randint(len(_SHRUNK), (), generator=self.generator))]
        small = shrink({name: array[batch:] for name, array in scenes.items()}, side)
        find = self._find(plain)
        for name, loss in self._find(small).items():
            find[name] = find[name] + 0.7 * loss
        crops = draw_crops(scenes, 2 * batch, self.generator)
        crop = crop_loss_parts(*self._answer("crop", crops.image), crops)
        return {"find": find, "crop": crop, "ends": self._ends(scenes, 2 * batch)}

    def _scenes(self, number: int) -> dict[str, Tensor]:
        scenes = self.scenes.draw(number, self.generator)
        turns = int(torch.randint(4, (), generator=self.generator))
        mirror = bool(torch.rand((), generator=self.generator) < 0.5)
        turn_batch(scenes, turns, mirror=mirror)
        used = scenes["fish"][..., 8].amax(dim=0).nonzero()
        most = int(used.max()) + 1 if len(used) else 1
        scenes["fish"] = scenes["fish"][:, :most]  # few scenes hold many
        return scenes

    def _find(self, scenes: dict[str, Tensor]) -> dict[str, Tensor]:
        truth = make_targets(scenes["cover"], scenes["owner"], scenes["fish"])
        image = scenes["photo"].permute(0, 3, 1, 2).float()
        return loss_parts(*self._answer("find", image), truth)

    def _ends(self, scenes: dict[str, Tensor], number: int) -> dict[str, Tensor]:
        generator = self.generator
        ends = ends_of_scenes(scenes["fish"], number, generator)
        parts = [cut_patches(scenes["photo"], ends, generator)]
        if self.close_ups.count:
            near = self.close_ups.draw(number, generator)
            ends = ends_of_close_ups(near["ends"], 2, generator)
            parts.append(cut_patches(near["photo"], ends, generator))
        patches = type(parts[0])(
            **{
                name: torch.cat([getattr(part, name) for part in parts])
                for name in ("image", "place", "kind", "seen", "shadow")
            }
        )
        return end_loss_parts(*self._answer("ends", patches.image), patches)

    def _answer(self, name: str, image: Tensor) -> tuple[Tensor, Tensor]:
        kind = image.device.type
        with torch.autocast(kind, dtype=torch.bfloat16, enabled=kind == "cuda"):
            one, two = self.networks[name](prepared(vary(image)))
        return one.float(), two.float()


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
    """Train, write ``NAME.pt`` of each network; return the last losses."""
    torch.manual_seed(plan.seed)
    device = torch.device(plan.device if torch.cuda.is_available() else "cpu")
    torch.backends.cudnn.benchmark = True
    if device.type == "cpu":  # the workers need the others
        torch.set_num_threads(1)
    room = Classroom(
        networks=load_networks(plan.resume or plan.out),
        scenes=Pool(plan.pool, device),
        close_ups=Pool(plan.pool, device),
        generator=torch.Generator().manual_seed(plan.seed),
    )
    for network in room.networks.values():
        network.to(device, memory_format=torch.channels_last).train()
    averages = copy.deepcopy(room.networks)
    weights = [p for network in room.networks.values() for p in network.parameters()]
    optimiser = torch.optim.AdamW(weights, plan.rate, weight_decay=0.02)
    log = _Log()
    with Supply(plan.photos, plan.workers, 1000 * (plan.seed + 1)) as supply:
        _fill(room, supply, min(24 * plan.batch, plan.pool // 2))
        start, step, saved = time.monotonic(), 0, 0.0
        while True:
            seconds = time.monotonic() - start
            share = max(seconds / (60 * plan.minutes), step / plan.steps)
            if share >= 1:
                break
            for _ in range(8):
                if not _take(room, supply, 0):
                    break
            for group in optimiser.param_groups:
                group["lr"] = _rate_at(share, plan.rate)
            losses = room.losses(plan.batch)
            optimiser.zero_grad(set_to_none=True)
            _total(losses).backward()
            for network in room.networks.values():  # each by itself
                torch.nn.utils.clip_grad_norm_(network.parameters(), 5.0)
            optimiser.step()
            step += 1
            if step % _AVERAGE_EVERY == 0 or step < 100:
                for name, average in averages.items():
                    keep = min(0.99, 1 - 1 / (step + 1))
                    _follow(average, room.networks[name], keep)
            log.add(losses)
            if step % 200 == 0 or step == 1:
                log.report(seconds, step, room.scenes.made)
            if seconds - saved > _SAVE_EVERY_S:
                saved = seconds
                save_networks(averages, plan.out)
    save_networks(averages, plan.out)
    return log.report(time.monotonic() - start, step, room.scenes.made)


def _total(losses: Losses) -> Tensor:
    parts = [
        value
        for network in losses.values()
        for name, value in network.items()
        if not name.startswith("_")
    ]
    return torch.stack(parts).sum()


def _take(room: Classroom, supply: Supply, timeout_s: float) -> bool:
    """Put the next chunk in the pools; return whether there was one."""
    chunk = supply.take(timeout_s)
    if chunk is None:
        return False
    room.scenes.add(chunk.scenes)
    if chunk.close_ups:
        room.close_ups.add(chunk.close_ups)
    return True


def _fill(room: Classroom, supply: Supply, first: int) -> None:
    while room.scenes.count < first and _take(room, supply, 120):
        pass


class _Log:
    """Means of the losses since the last report."""

    def __init__(self) -> None:
        self._sums: dict[str, Tensor] = {}
        self._count = 0

    def add(self, losses: Losses) -> None:
        """Count one step."""
        self._count += 1
        for network, parts in losses.items():
            for name, value in parts.items():
                key = f"{network}.{name}"
                old = self._sums.get(key)
                new = value.detach()
                self._sums[key] = new if old is None else old + new

    def report(self, seconds: float, step: int, made: int) -> dict[str, float]:
        """Print the means, forget and return them."""
        means = {key: sums.item() / self._count for key, sums in self._sums.items()}
        text = " ".join(f"{key} {value:.4f}" for key, value in means.items())
        print(f"{seconds:5.0f} s step {step} scenes {made} {text}", flush=True)  # noqa: T201
        self._sums, self._count = {}, 0
        return means
