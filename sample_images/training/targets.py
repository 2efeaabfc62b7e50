"""Truth of scenes to what the network should say, and how wrong it is."""

from dataclasses import dataclass

import torch
from torch import Tensor
from torch.nn import functional

from sample_images.training.network import OFFSET_UNIT_PX

_HEAT_SIGMA_CELLS = 1.5
_WHOLE_MIDLINE = 0.9  # share of the midline that must be seen for use
_NOBODY = 255.0
_AT_ONCE = 24  # fish, of perhaps 200 in a scene
_LEAST_PX = 10.0  # of a fish; a shorter one is fish, but its ends cannot be told


@dataclass(frozen=True, slots=True, eq=False)
class Targets:
    """What ``fine`` and ``field`` should say; ``weight`` is 0 off the fish."""

    cover: Tensor
    contact: Tensor
    heat: Tensor
    offsets: Tensor
    seen: Tensor
    weight: Tensor


def make_targets(cover: Tensor, owner: Tensor, fish: Tensor) -> Targets:
    """Return targets of uint8 ``cover``, ``owner`` (n, h, w), ``fish`` (n, k, m)."""
    number = owner.float()[:, None]
    largest = functional.max_pool2d(number, 3, 1, 1)
    hidden = torch.where(number > 0, number, torch.full_like(number, _NOBODY))
    smallest = -functional.max_pool2d(-hidden, 3, 1, 1)
    differs = (largest != smallest) & (number > 0)
    contact = functional.max_pool2d(differs.float(), 3, 1, 1)
    shape = (owner.shape[1], owner.shape[2])
    snout = heat_of(fish[..., 0:2], fish[..., 4], shape)
    fork = heat_of(fish[..., 2:4], fish[..., 5], shape)
    heat = torch.stack([snout, fork], dim=1)
    quarter = owner[:, ::2, ::2].long()
    mine = _gather(fish[..., :9], quarter)
    rows = torch.arange(quarter.shape[1], device=owner.device) * 4 + 1.5
    columns = torch.arange(quarter.shape[2], device=owner.device) * 4 + 1.5
    place = torch.stack(
        [
            columns[None, :].expand(len(rows), -1),
            rows[:, None].expand(-1, len(columns)),
        ]
    )
    offsets = (mine[:, 0:4] - place.repeat(2, 1, 1)[None]) / OFFSET_UNIT_PX
    seen = torch.stack(
        [mine[:, 4], mine[:, 5], (mine[:, 6] >= _WHOLE_MIDLINE).float()], dim=1
    )
    return Targets(
        cover=cover.float()[:, None] / 255,
        contact=contact,
        heat=heat,
        offsets=offsets,
        seen=seen,
        weight=_weights(quarter, fish.shape[1]) * (mine[:, 7:8] > _LEAST_PX),
    )


def shrink(batch: dict[str, Tensor], size: int) -> dict[str, Tensor]:
    """Return the scenes ``size`` pixels wide: fish as a whole photo shows them."""
    share = size / batch["photo"].shape[1]
    photo = batch["photo"].permute(0, 3, 1, 2).float()
    photo = functional.interpolate(photo, size=(size, size), mode="area")
    cover = batch["cover"].float()[:, None]
    cover = functional.interpolate(cover, size=(size // 2, size // 2), mode="area")
    owner = batch["owner"].float()[:, None]
    owner = functional.interpolate(owner, size=(size // 2, size // 2), mode="nearest")
    fish = batch["fish"].clone()
    fish[..., :4] = (fish[..., :4] + 0.5) * share - 0.5
    fish[..., 7] = fish[..., 7] * share
    return {
        "photo": photo.permute(0, 2, 3, 1),
        "cover": cover[:, 0],
        "owner": owner[:, 0].to(torch.uint8),
        "fish": fish,
    }


def heat_of(points: Tensor, seen: Tensor, shape: tuple[int, int]) -> Tensor:
    """Return (n, h, w) at half size: a bump at every (n, k) end that is seen."""
    rows = torch.arange(shape[0], device=points.device) * 2 + 0.5
    columns = torch.arange(shape[1], device=points.device) * 2 + 0.5
    sigma = _HEAT_SIGMA_CELLS * 2
    along = torch.exp(-(((columns - points[..., 0:1]) / sigma) ** 2) / 2)
    down = torch.exp(-(((rows - points[..., 1:2]) / sigma) ** 2) / 2)
    along = along * (seen > 0)[..., None]
    bumps = torch.zeros(len(points), *shape, device=points.device)
    for first in range(0, points.shape[1], _AT_ONCE):
        some = slice(first, first + _AT_ONCE)
        each = down[:, some, :, None] * along[:, some, None, :]
        bumps = torch.maximum(bumps, each.amax(dim=1))
    return bumps


def _gather(fish: Tensor, number: Tensor) -> Tensor:
    """Return (n, m, h, w): for each cell the row of its fish, zeros for nobody."""
    padded = functional.pad(fish, (0, 0, 1, 0))
    flat = number.flatten(1)
    rows = torch.gather(padded, 1, flat[..., None].expand(-1, -1, fish.shape[2]))
    return rows.transpose(1, 2).unflatten(2, number.shape[1:])


def _weights(number: Tensor, most: int) -> Tensor:
    """Return (n, 1, h, w): small fish count more per cell, 0 off the fish."""
    flat = number.flatten(1)
    area = torch.zeros(len(flat), most + 1, device=flat.device)
    area.scatter_add_(1, flat, torch.ones_like(flat, dtype=area.dtype))
    each = area.clamp(min=1).rsqrt()
    each[:, 0] = 0
    weight = torch.gather(each, 1, flat).unflatten(1, number.shape[1:])[:, None]
    return weight / weight.sum().clamp(min=1e-6)


def loss_parts(fine: Tensor, field: Tensor, truth: Targets) -> dict[str, Tensor]:
    """Return each part of the loss, weighted; their sum is to fall."""
    logistic = functional.binary_cross_entropy_with_logits
    edge = 1 + 2 * (1 - (2 * truth.cover - 1).abs()) + truth.contact
    cover = logistic(fine[:, 0:1], truth.cover, weight=edge)
    likely = fine[:, 0:1].sigmoid()
    both = (likely * truth.cover).sum(dim=(1, 2, 3))
    total = likely.sum(dim=(1, 2, 3)) + truth.cover.sum(dim=(1, 2, 3))
    dice = 1 - ((2 * both + 50) / (total + 50)).mean()
    contact = logistic(fine[:, 1:2], truth.contact, weight=1 + 4 * truth.contact)
    heat = logistic(fine[:, 2:4], truth.heat, weight=1 + 30 * truth.heat)
    miss = (field[:, 0:4] - truth.offsets).abs()
    apart = torch.stack([miss[:, 0:2].sum(dim=1), miss[:, 2:4].sum(dim=1)], dim=1)
    spread = field[:, 4:6].clamp(-4.0, 3.0)
    nll = (apart * torch.exp(-spread) + spread) * truth.weight
    length = (truth.offsets[:, 0:2] - truth.offsets[:, 2:4]).norm(dim=1, keepdim=True)
    relative = (apart / length.clamp(min=0.3)).clamp(max=3.0) * truth.weight
    seen = logistic(field[:, 6:9], truth.seen, reduction="none") * truth.weight
    return {
        "cover": cover,
        "dice": 0.5 * dice,
        "contact": 0.4 * contact,
        "heat": 3.0 * heat,
        "offset": 0.1 * nll.sum(),
        "relative": 1.5 * relative.sum(),
        "seen": 0.2 * seen.sum(),
    }
