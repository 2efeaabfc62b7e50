"""Single fish cut from scenes, as the second network will see them."""

from dataclasses import dataclass

import torch
from torch import Tensor
from torch.nn import functional

from sample_images.training.scene import OUTSIDE_GREY
from sample_images.training.targets import heat_of

ROWS, COLUMNS = 160, 320
SNOUT_X, MIDDLE_Y, LENGTH = 36.0, 80.0, 232.0
_WHOLE_MIDLINE = 0.9
_MORE = (9, 10, 13)  # columns of the fish table: upright, raised, in water
_SMALLEST_PX = 50.0
_EMPTY_RATE = 0.3
_RIGHT = 0.04
WARY = 2.0  # how many times a wrong length counts; the runtime undoes it
_LEAST_DEPTH = 12.0  # half pixels; whole fish have 18 to 50
_STRAIGHT = 0.87  # cosine: ends of two fish that might be taken for one bent fish
_MATCHED = 0.14  # ends nearer than this share of the length: the fish is meant


@dataclass(frozen=True, slots=True, eq=False)
class Crops:
    """Level pictures (m, 3, rows, columns), 0-255, and what to say of them.

    ``ends`` (m, 2, 2) are the true snout and fork in crop pixels. ``judge`` has what
    is to be said but for the length, NaN where it is not known. ``body`` is None where
    the scenes do not tell the body from its fins.
    """

    image: Tensor
    cover: Tensor
    body: Tensor | None
    heat: Tensor
    judge: Tensor
    ends: Tensor


def _pick(
    fish: Tensor, count: int, generator: torch.Generator
) -> tuple[Tensor, Tensor, Tensor]:
    """Return scenes (m,), which fish can be meant (n, k), odds of each to be it.

    Scenes without any are taken more seldom: most crops in use are of fish.
    """
    chord = (fish[..., 2:4] - fish[..., 0:2]).norm(dim=2)
    fits = (fish[..., 8] > 0) & (chord > _SMALLEST_PX)
    shown = fits & (fish[..., 6] > 0.5)
    rate = torch.where(shown.any(dim=1), 1.0, _EMPTY_RATE).cpu()
    scene = torch.multinomial(rate, count, replacement=True, generator=generator)
    odds = chord**1.5 * (0.2 + fish[..., 6])  # those that can be seen, more often
    return scene.to(fish.device), fits, torch.where(fits, odds, 0.0) + 1e-6


def draw_crops(
    batch: dict[str, Tensor], count: int, generator: torch.Generator
) -> Crops:
    """Return ``count`` crops of the scenes: meant fish, and missed ones."""
    photo, fish = batch["photo"], batch["fish"]
    device = photo.device
    scene, fits, odds = _pick(fish, count, generator)

    def uniform(*shape: int) -> Tensor:
        return torch.rand(*shape, generator=generator).to(device)

    def normal(*shape: int) -> Tensor:
        return torch.randn(*shape, generator=generator).to(device)

    chosen = torch.multinomial(odds[scene], 1)[:, 0]
    row = fish[scene, chosen]
    real = fits[scene, chosen]
    ends = torch.stack([row[:, 0:2], row[:, 2:4]], dim=1)
    length = (ends[:, 1] - ends[:, 0]).norm(dim=1).clamp(min=_SMALLEST_PX)
    missed = uniform(count) < 0.15
    # the first network's ends are off by 0.015 of the length, by 0.08 of small fish's
    lot = uniform(count)
    share = torch.where(lot < 0.5, 0.02, torch.where(lot < 0.85, 0.045, 0.075))
    share = torch.where(missed, 0.35, share)
    told = ends + normal(count, 2, 2) * (share * length)[:, None, None]
    side = photo.shape[1]
    anywhere = uniform(count, 1, 2) * side
    reach = (80 + 250 * uniform(count, 1, 1)) * functional.normalize(
        normal(count, 1, 2), dim=2
    )
    guess = torch.cat([anywhere, anywhere + reach], dim=1)
    # as often, something that is no fish, or the snout of one and the fork of another
    things = batch["things"][scene]
    thing = torch.multinomial(things[..., 4] + 1e-6, 1)[:, 0]
    lying = things[torch.arange(count, device=device), thing]
    at_thing = (lying[:, 4] > 0) & (uniform(count) < 0.75)
    span = lying[:, :4].unflatten(1, (2, 2))
    # a part of it, as one takes a squid's body without its arms for a fish
    part = torch.stack([0.4 * uniform(count) - 0.08, 1.08 - 0.4 * uniform(count)], 1)
    span = span[:, :1] + part[:, :, None] * (span[:, 1:] - span[:, :1])
    guess = torch.where(at_thing[:, None, None], span, guess)
    real = real & (uniform(count) > 0.18)
    likely = _goes_on(fish[scene], chosen, ends) & fits[scene]
    other = torch.multinomial(odds[scene] + 1e5 * likely, 1)[:, 0]
    other = fish[scene, other]
    crossed = uniform(count) < torch.where(likely.any(dim=1), 0.2, 0.05)
    mixed = torch.stack([ends[:, 0], other[:, 2:4]], dim=1)
    told = torch.where(crossed[:, None, None], mixed, told)
    told = torch.where(real[:, None, None], told, guess)
    short = (told[:, 1] - told[:, 0]).norm(dim=1) < 0.5 * _SMALLEST_PX
    told = torch.where(short[:, None, None], ends, told)
    far = torch.tensor([[0.0, 0.0], [_SMALLEST_PX, 0.0]], device=device)
    hopeless = (told[:, 1] - told[:, 0]).norm(dim=1) < 0.5 * _SMALLEST_PX
    told = torch.where(hopeless[:, None, None], far, told)
    real = real | (short & fits[scene, chosen])
    off = (told - ends).norm(dim=2).amax(dim=1) / length
    meant = real & (off < _MATCHED)
    unclear = real & (off >= _MATCHED) & (off < 0.24)
    told = torch.where(unclear[:, None, None], ends, told)
    meant = meant | unclear
    swapped = uniform(count) < 0.12
    told = torch.where(swapped[:, None, None], told.flip(1), told)
    return _cut(batch, scene, chosen, (told, meant, row))


def _goes_on(fish: Tensor, chosen: Tensor, ends: Tensor) -> Tensor:
    """Return (m, k): whose fork would go well with the snout of the chosen one."""
    along = ends[:, 1] - ends[:, 0]
    length = along.norm(dim=1, keepdim=True).clamp(min=1.0)
    reach = fish[..., 2:4] - ends[:, None, 0]
    far = reach.norm(dim=2)
    straight = (reach * along[:, None]).sum(dim=2) / (far * length).clamp(min=1.0)
    others = torch.arange(fish.shape[1], device=fish.device)[None] != chosen[:, None]
    share = far / length
    return others & (share > 0.7) & (share < 1.35) & (straight > _STRAIGHT)


def _cut(
    batch: dict[str, Tensor],
    scene: Tensor,
    chosen: Tensor,
    prompt: tuple[Tensor, Tensor, Tensor],
) -> Crops:
    told, meant, row = prompt
    device = told.device
    along = (told[:, 1] - told[:, 0]) / LENGTH  # scene pixels per crop pixel
    across = torch.stack([-along[:, 1], along[:, 0]], dim=1)

    def places(step: int) -> Tensor:
        first = (step - 1) / 2
        x = torch.arange(COLUMNS // step, device=device) * step + first - SNOUT_X
        y = torch.arange(ROWS // step, device=device) * step + first - MIDDLE_Y
        grid_y, grid_x = torch.meshgrid(y, x, indexing="ij")
        return (
            told[:, 0][:, None, None]
            + grid_x[None, ..., None] * along[:, None, None]
            + grid_y[None, ..., None] * across[:, None, None]
        )

    side = batch["photo"].shape[1]
    photo = batch["photo"][scene].permute(0, 3, 1, 2).float() - OUTSIDE_GREY
    image = functional.grid_sample(
        photo, (places(1) + 0.5) * (2 / side) - 1, align_corners=False
    )
    owner = batch["owner"][scene].float()[:, None]
    grown = functional.max_pool2d(owner, 3, 1, 1)
    owner = torch.where(owner > 0, owner, grown)
    mine = (owner == (chosen + 1)[:, None, None, None]).float()
    layers = ("cover", "body") if "body" in batch else ("cover",)
    masks = [mine * batch[name][scene].float()[:, None] / 255 for name in layers]
    masks = functional.grid_sample(
        torch.cat(masks, dim=1),
        (places(2) + 0.5) * (2 / side) - 1,
        align_corners=False,
    )
    masks = masks * meant[:, None, None, None]
    scale = along.square().sum(dim=1, keepdim=True)
    ends = []
    for first in (0, 2):
        away = row[:, first : first + 2] - told[:, 0]
        x = (away * along).sum(dim=1, keepdim=True) / scale + SNOUT_X
        y = (away * across).sum(dim=1, keepdim=True) / scale + MIDDLE_Y
        ends.append(torch.cat([x, y], dim=1))
    shape = (ROWS // 2, COLUMNS // 2)
    seen_snout, seen_fork = row[:, 4] * meant, row[:, 5] * meant
    heat = torch.stack(
        [
            heat_of(ends[0][:, None], seen_snout[:, None], shape),
            heat_of(ends[1][:, None], seen_fork[:, None], shape),
        ],
        dim=1,
    )
    whole = (row[:, 6] >= _WHOLE_MIDLINE).float()
    judge = torch.stack([meant.float(), row[:, 4], row[:, 5], whole], dim=1)
    return Crops(
        image=image + OUTSIDE_GREY,
        cover=masks[:, :1],
        body=masks[:, 1:] if "body" in batch else None,
        heat=heat,
        judge=torch.cat([judge, _more(row)], dim=1),
        ends=torch.stack(ends, dim=1),
    )


def _more(row: Tensor) -> Tensor:
    """Return (m, 3): upright, raised, in water, of rows that may not tell."""
    unknown = torch.full_like(row[:, :1], torch.nan)
    told = [row[:, at : at + 1] if row.shape[1] > at else unknown for at in _MORE]
    return torch.cat(told, dim=1)


def _mask_loss(logit: Tensor, truth: Tensor) -> tuple[Tensor, Tensor]:
    """Return what a mask's cells and its overlap with the truth cost."""
    edge = 1 + 3 * (1 - (2 * truth - 1).abs())
    cells = functional.binary_cross_entropy_with_logits(logit, truth, weight=edge)
    likely = logit.sigmoid()
    both = (likely * truth).sum(dim=(1, 2, 3))
    total = likely.sum(dim=(1, 2, 3)) + truth.sum(dim=(1, 2, 3))
    return cells, 1 - ((2 * both + 50) / (total + 50)).mean()


def crop_loss_parts(fine: Tensor, judge: Tensor, truth: Crops) -> dict[str, Tensor]:
    """Return each part of the loss, weighted."""
    logistic = functional.binary_cross_entropy_with_logits
    cover, dice = _mask_loss(fine[:, 0:1], truth.cover)
    heat = logistic(fine[:, 1:3], truth.heat, weight=1 + 30 * truth.heat)
    right = _right(fine, truth)
    wanted = torch.cat([truth.judge[:, :4], right, truth.judge[:, 4:]], dim=1)
    known = wanted.isfinite()
    wanted = wanted.nan_to_num()
    said = logistic(judge[:, :, 0, 0], wanted, reduction="none")
    meant = truth.judge[:, 0:1]
    one = torch.ones_like(meant)
    # a wrong length that is used is worse than a right one that is not
    wary = torch.where(right > 0, one, WARY * one)
    weight = torch.cat([one, meant.expand(-1, 3), wary, meant.expand(-1, 3)], dim=1)
    weight = weight * known
    parts = {
        "cover": cover,
        "dice": 0.5 * dice,
        "heat": 3.0 * heat,
        "judge": 0.8 * (said * weight).sum() / weight.sum(),
    }
    if truth.body is not None:
        cells, overlap = _mask_loss(fine[:, 3:4], truth.body)
        parts["body"] = 0.7 * cells + 0.35 * overlap
        parts["depth"] = _depth_loss(fine[:, 3:4], truth.body)
    return parts


def _depth_loss(logit: Tensor, truth: Tensor) -> Tensor:
    """Return how wrong the body's depths are, in greatest depths: weight is theirs."""
    depths = truth.sum(dim=2)
    greatest = depths.amax(dim=2, keepdim=True)
    miss = (logit.sigmoid().sum(dim=2) - depths).abs() / greatest.clamp(
        min=_LEAST_DEPTH
    )
    return (miss * (greatest > 0)).mean()


def _right(fine: Tensor, truth: Crops) -> Tensor:
    """Return (m, 1): 1 where the drawn length of a whole fish is right."""
    with torch.no_grad():
        flat = fine[:, 1:3].flatten(2).argmax(dim=2)
        columns = flat % (COLUMNS // 2) * 2 + 0.5
        rows = flat // (COLUMNS // 2) * 2 + 0.5
        drawn = torch.stack([columns, rows], dim=2)
        length = (drawn[:, 1] - drawn[:, 0]).norm(dim=1)
        true = (truth.ends[:, 1] - truth.ends[:, 0]).norm(dim=1).clamp(min=1.0)
        near = (drawn - truth.ends).norm(dim=2).amax(dim=1) < 0.1 * true
        right = ((length / true - 1).abs() < _RIGHT) & near
        return (right & (truth.judge[:, :4] > 0.5).all(dim=1)).float()[:, None]
