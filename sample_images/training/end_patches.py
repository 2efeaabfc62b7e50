"""Ends of fish cut from scenes, as the third network will see them.

They come from scenes of single ends, as a photo shows them in full, and from
the scenes that the other two networks learn from, where fish are smaller.
"""

from dataclasses import dataclass

import torch
from torch import Tensor
from torch.nn import functional

from sample_images.training.network import (
    KINDS_OF_END,
    PATCH_PX,
    PATCH_SHARE,
    SAID_OF_END,
)
from sample_images.training.scene import OUTSIDE_GREY

_SMALLEST_PX = 60.0
_HEAT_CELLS = 1.0  # spread of the heat that is asked for
_CELLS = PATCH_PX // 2
_INSIDE = 0.44  # of the patch: an end farther from its middle is as good as not seen
_MISLED, _FARTHEST_MISLED = 0.35, 0.055  # how often; of the length
_SCALE_RANGE = (-3.0, 3.5)  # of the log of the Laplace scale in pixels


@dataclass(frozen=True, slots=True, eq=False)
class Ends:
    """Ends of fish in scenes: which scene, and a row of the end's truth each.

    ``row`` (m, 9): x, y, kind, outward x, y, seen, in shadow (NaN: not known), fork
    length, valid.
    """

    scene: Tensor
    row: Tensor


@dataclass(frozen=True, slots=True, eq=False)
class Patches:
    """Pictures (m, 3, rows, columns), 0-255, outward to the right, and their truth.

    ``place`` (m, 2) is the end in patch pixels; ``kind`` (m,), ``seen`` (m,),
    ``shadow`` (m,) with NaN where it is not known.
    """

    image: Tensor
    place: Tensor
    kind: Tensor
    seen: Tensor
    shadow: Tensor


def ends_of_scenes(fish: Tensor, number: int, generator: torch.Generator) -> Ends:
    """Return ends of the scenes' fish, tables (n, k, m), a few of them none."""
    n, device = number, fish.device
    chord = (fish[..., 2:4] - fish[..., 0:2]).norm(dim=2)
    odds = torch.where((fish[..., 8] > 0) & (chord > _SMALLEST_PX), chord, 0.0) + 1e-6
    rate = (odds.amax(dim=1).sqrt() + 1.0).cpu()
    index = torch.multinomial(rate, n, replacement=True, generator=generator)
    index = index.to(device)
    chosen = torch.multinomial(odds[index], 1)[:, 0]
    row = fish[index, chosen]
    valid = (row[:, 8] > 0) & (chord[index, chosen] > _SMALLEST_PX)
    hind = torch.rand(n, generator=generator).to(device) < 0.6
    place = torch.where(hind[:, None], row[:, 2:4], row[:, 0:2])
    outward = row[:, 2:4] - row[:, 0:2]
    outward = functional.normalize(torch.where(hind[:, None], outward, -outward), dim=1)
    unknown = torch.full_like(row[:, 0], torch.nan)
    upright = row[:, 9].nan_to_num() if row.shape[1] > 9 else torch.zeros_like(unknown)
    snout_dark, fork_dark = (
        (row[:, 11], row[:, 12]) if row.shape[1] > 12 else (unknown, unknown)
    )
    kind = torch.where(hind, 1 + (upright > 0.5).float(), 0.0)
    seen = torch.where(hind, row[:, 5], row[:, 4])
    shadow = torch.where(hind, fork_dark, snout_dark)
    length = chord[index, chosen].clamp(min=_SMALLEST_PX)
    table = torch.stack([kind, *outward.T, seen, shadow, length, valid.float()], dim=1)
    return Ends(scene=index, row=torch.cat([place, table], dim=1))


def ends_of_close_ups(ends: Tensor, each: int, generator: torch.Generator) -> Ends:
    """Return ``each`` ends of every close-up's table (n, k, 9 or more)."""
    n, device = len(ends), ends.device
    scene = torch.arange(n, device=device).repeat_interleave(each)
    odds = (ends[..., 8] > 0).float() + 1e-6
    chosen = torch.multinomial(odds[scene].cpu(), 1, generator=generator)[:, 0]
    return Ends(scene=scene, row=ends[scene, chosen.to(device), :9])


def cut_patches(photo: Tensor, ends: Ends, generator: torch.Generator) -> Patches:
    """Return the patches of ends in photos (n, h, w, 3), told not quite rightly."""
    row, device = ends.row, photo.device
    m, side = len(row), photo.shape[1]

    def uniform(*shape: int) -> Tensor:
        return torch.rand(*shape, generator=generator).to(device)

    def normal(*shape: int) -> Tensor:
        return torch.randn(*shape, generator=generator).to(device)

    valid = row[:, 8] > 0
    kind = torch.where(valid, row[:, 2], torch.floor(3 * uniform(m))).long()
    length = torch.where(valid, row[:, 7], 200 + 600 * uniform(m))
    lot = uniform(m)
    share = torch.where(lot < 0.55, 0.006, torch.where(lot < 0.88, 0.014, 0.03))
    told = row[:, :2] + normal(m, 2) * (share * length)[:, None]
    # the other networks take a shadow that goes on from an end for a part of the fish
    misled = (row[:, 6] > 0.5) & (uniform(m) < _MISLED)
    beyond = torch.where(misled, _FARTHEST_MISLED * uniform(m) * length, 0.0)
    told = told + row[:, 3:5] * beyond[:, None]
    anywhere = uniform(m, 2) * side
    told = torch.where(valid[:, None], told, anywhere)
    # the other way round, or beside the end: nothing of the kind is to be seen there
    turned = uniform(m) < 0.04
    angle = torch.atan2(row[:, 4], row[:, 3]) + 0.09 * normal(m)
    angle = torch.where(valid, angle, 6.2832 * uniform(m))
    angle = torch.where(turned, angle + torch.pi, angle)
    ahead = torch.stack([torch.cos(angle), torch.sin(angle)], dim=1)
    aside = torch.stack([-ahead[:, 1], ahead[:, 0]], dim=1)
    mirrored = torch.where(uniform(m) < 0.5, -1.0, 1.0)
    aside = aside * mirrored[:, None]
    step = PATCH_SHARE * length / PATCH_PX * torch.exp(0.06 * normal(m))
    image = _sample(photo, ends.scene, told, (ahead, aside), step)
    away = row[:, :2] - told
    middle = (PATCH_PX - 1) / 2
    place = torch.stack([(away * ahead).sum(dim=1), (away * aside).sum(dim=1)], dim=1)
    place = place / step[:, None] + middle
    near = (place - middle).abs().amax(dim=1) < _INSIDE * PATCH_PX
    in_photo = ((row[:, :2] >= 0) & (row[:, :2] <= side - 1)).all(dim=1)
    seen = valid & ~turned & near & in_photo & (row[:, 5] > 0.5)
    return Patches(
        image=image,
        place=place,
        kind=kind,
        seen=seen,
        shadow=torch.where(seen, row[:, 6], torch.nan),
    )


def _sample(
    photo: Tensor,
    scene: Tensor,
    told: Tensor,
    axes: tuple[Tensor, Tensor],
    step: Tensor,
) -> Tensor:
    """Return (m, 3, rows, columns), four places averaged for each pixel."""
    side, device = photo.shape[1], photo.device
    fine = (torch.arange(2 * PATCH_PX, device=device) + 0.5) / 2 - PATCH_PX / 2
    down, along = torch.meshgrid(fine, fine, indexing="ij")
    ahead, aside = (axis[:, None, None] * step[:, None, None, None] for axis in axes)
    places = told[:, None, None] + along[None, ..., None] * ahead
    places = places + down[None, ..., None] * aside
    source = photo[scene].permute(0, 3, 1, 2).float() - OUTSIDE_GREY
    image = functional.grid_sample(
        source, (places + 0.5) * (2 / side) - 1, align_corners=False
    )
    return functional.avg_pool2d(image, 2) + OUTSIDE_GREY


def read_ends(heat: Tensor, said: Tensor, kind: Tensor) -> tuple[Tensor, ...]:
    """Return place (m, 2), log scale (m, 2), logits seen, shadow (m,), log heat."""
    index = torch.arange(len(kind), device=kind.device)
    mine = functional.log_softmax(heat[index, kind].flatten(1), dim=1)
    likely = mine.exp().unflatten(1, (_CELLS, _CELLS))
    cells = torch.arange(_CELLS, device=kind.device) * 2 + 0.5
    x = (likely.sum(dim=1) * cells).sum(dim=1)
    y = (likely.sum(dim=2) * cells).sum(dim=1)
    told = said.flatten(1).unflatten(1, (KINDS_OF_END, SAID_OF_END))[index, kind]
    scale = told[:, :2].clamp(*_SCALE_RANGE)
    return torch.stack([x, y], dim=1), scale, told[:, 2], told[:, 3], mine


def end_loss_parts(heat: Tensor, said: Tensor, truth: Patches) -> dict[str, Tensor]:
    """Return each part of the loss, weighted, and two plain figures of error."""
    place, scale, seen, shadow, mine = read_ends(heat, said, truth.kind)
    good = truth.seen.float()
    count = good.sum().clamp(min=1)
    cells = torch.arange(_CELLS, device=heat.device) * 2 + 0.5
    away_x = (cells[None] - truth.place[:, 0:1]) / (2 * _HEAT_CELLS)
    away_y = (cells[None] - truth.place[:, 1:2]) / (2 * _HEAT_CELLS)
    bump_x = functional.softmax(-(away_x**2) / 2, dim=1)
    bump_y = functional.softmax(-(away_y**2) / 2, dim=1)
    bump = (bump_y[:, :, None] * bump_x[:, None, :]).flatten(1)
    cross = -(bump * mine).sum(dim=1)
    miss = (place - truth.place).abs()
    nll = (miss * torch.exp(-scale) + scale).sum(dim=1)
    logistic = functional.binary_cross_entropy_with_logits
    dark = truth.shadow.isfinite()
    shadows = logistic(shadow, truth.shadow.nan_to_num(), reduction="none")
    along = (miss[:, 0] * good).detach()
    return {
        "place": 0.15 * (cross * good).sum() / count,
        "error": 0.5 * (nll * good).sum() / count,
        "shown": 0.5 * logistic(seen, good),
        "shadow": 0.2 * (shadows * dark).sum() / dark.sum().clamp(min=1),
        "_px": along.sum() / count,
        "_over": (along * torch.exp(-scale[:, 0].detach())).sum() / count,
    }
