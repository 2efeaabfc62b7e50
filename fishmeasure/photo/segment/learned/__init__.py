"""Fish outlines and end points by three small networks; see MODEL_CARD.md.

The first sees the whole plane from straight above, and parts of it nearer, and says
of every spot whether it is fish and where that fish's snout and fork are; spots that
mean the same ends are one fish. The second sees each fish by itself, level and
enlarged, draws it, and says what of it can be seen. The third sees its ends as the
photo has them, and says where they are, and how sure that is.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np

from fishmeasure.base.arrays import BoolArray, FloatArray, frozen
from fishmeasure.photo.image import Photo
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.learned.candidates import (
    Candidates,
    find_candidates,
    find_nearer,
)
from fishmeasure.photo.segment.learned.ends import (
    FORK,
    SNOUT,
    TAIL_TIP,
    FishEnd,
    find_end,
)
from fishmeasure.photo.segment.learned.halves import first_of_each
from fishmeasure.photo.segment.learned.heap import PILED_FISH, flag_heaped_fish
from fishmeasure.photo.segment.learned.refiner import RefinedFish, refine
from fishmeasure.photo.segment.learned.verifier import Assessment, is_seen, verify
from fishmeasure.photo.segment.learned.view import Frame
from fishmeasure.photo.segment.outline import FishOutline, Segmentation

MAX_FISH = 100
"""Looked at one by one, those with most votes, the largest, first: a lower limit leaves
out the small ones of a full photo. 50 fish took 6 s on a busy machine; the server gives
a photo 60 s."""
MIN_LIKE_SHARE = 0.5
"""Of what the nearer look finds, so much must look like fish in the first picture, too:
true fish of eight rendered heaps have 0.72 and more, patches of wet board 0 to 0.2."""
MAX_OVERLAP_SHARE = 0.5
"""Two outlines of which the smaller lies by this share within the other are one
fish; of a fish over another only what is seen is outlined."""
MIN_FISH_LOGIT = 5.0
"""Logit. Where nothing can be used and nothing looks more like a fish than this, there
is none: whole fish of 40 rendered photos have 6.8 and more; of 16 everyday pictures 4
had outlines of 3.8 to 6.3."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SegmentedFish:
    """A fish as outlined, with its ends, by all three networks."""

    refined: RefinedFish
    ends: tuple[FishEnd, FishEnd]
    assessment: Assessment


@dataclass(frozen=True, slots=True)
class LearnedSegmenter:
    """Finds fish of any kind, touching or overlapping, on anything."""

    name: str = "learned"

    def find(self, photo: Photo, plane: PlaneScale) -> Segmentation:
        """Return the outlines, in reading order; none if there is no fish."""
        candidates = find_candidates(photo, plane)
        outlines = [_outline(one, plane) for one in find_fish(photo, plane, candidates)]
        row_px = max(photo.height_px / 20.0, 1.0)
        outlines.sort(
            key=lambda one: (
                round(float(one.contour_px[:, 1].mean()) / row_px),
                float(one.contour_px[:, 0].mean()),
            ),
        )
        left_out = max(len(candidates.ends_mm) - MAX_FISH, 0)
        return Segmentation(
            outlines=tuple(outlines),
            too_small=candidates.too_small + left_out,
            smallest_mm=candidates.shortest_mm,
        )


def find_fish(
    photo: Photo, plane: PlaneScale, candidates: Candidates
) -> list[SegmentedFish]:
    """Return the fish with their assessments, surest first."""
    kept: list[tuple[RefinedFish, Assessment]] = []
    masks: list[BoolArray] = []
    for refined, assessment in _taken_for_fish(photo, plane, candidates):
        mine = _mask(refined, candidates.frame)
        if all((mine & other).sum() < _max_overlap(mine, other) for other in masks):
            kept.append((refined, assessment))
            masks.append(mine)
    if not any(_is_surely_fish(refined, assessment) for refined, assessment in kept):
        return []
    assessments = flag_heaped_fish(
        [assessment for _, assessment in kept],
        masks,
        candidates.fish_like,
        in_water=plane.water is not None,
    )
    fish = [
        _with_ends(photo, plane, refined, assessment)
        for (refined, _), assessment in zip(kept, assessments, strict=True)
    ]
    fish = [one for one in fish if is_seen(float(one.refined.logits[0]), one.ends)]
    whole = first_of_each(
        [np.array([end.place_mm for end in one.ends]) for one in fish],
        [one.assessment.seen[2] < 0.0 for one in fish],
    )
    return [fish[at] for at in whole]


def _taken_for_fish(
    photo: Photo, plane: PlaneScale, candidates: Candidates
) -> list[tuple[RefinedFish, Assessment]]:
    """Return what is a fish by itself, those to be believed first."""
    found = _verified(photo, plane, candidates.ends_mm[:MAX_FISH])
    if sum(one.covering for _, one in found) < PILED_FISH:
        return found
    ends_mm = find_nearer(photo, plane, candidates).ends_mm[: MAX_FISH // 2]
    near = [
        one
        for one in _verified(photo, plane, ends_mm)
        if _share(_mask(one[0], candidates.frame), candidates) > MIN_LIKE_SHARE
    ]
    if plane.water is not None:  # near by, a fish and its shadow pass for one fish
        return found + near
    return _surest(found + near)


def _surest(
    found: list[tuple[RefinedFish, Assessment]],
) -> list[tuple[RefinedFish, Assessment]]:
    return sorted(found, key=lambda pair: -pair[1].confidence)


def _verified(
    photo: Photo, plane: PlaneScale, ends_mm: Sequence[FloatArray]
) -> list[tuple[RefinedFish, Assessment]]:
    """Return the fish among the candidates, surest first."""
    refined = (refine(photo, plane, snout, fork) for snout, fork in ends_mm)
    both = ((one, verify(one)) for one in refined if one is not None)
    return _surest([(one, told) for one, told in both if told.is_fish])


def _with_ends(
    photo: Photo, plane: PlaneScale, refined: RefinedFish, assessment: Assessment
) -> SegmentedFish:
    """Return the fish with its ends located on the photo itself."""
    snout_mm, fork_mm = refined.snout_mm, refined.fork_mm
    hind = TAIL_TIP if assessment.posture == "upright" else FORK
    ends = (
        find_end(photo, plane, snout_mm, fork_mm, SNOUT),
        find_end(photo, plane, fork_mm, snout_mm, hind),
    )
    length_mm = float(np.hypot(*(ends[1].place_mm - ends[0].place_mm)))
    return SegmentedFish(
        refined=refined, ends=ends, assessment=assessment.with_ends(ends, length_mm)
    )


def _is_surely_fish(refined: RefinedFish, assessment: Assessment) -> bool:
    return not assessment.flags or float(refined.logits[0]) >= MIN_FISH_LOGIT


def _mask(refined: RefinedFish, frame: Frame) -> BoolArray:
    """Return where the outline lies in the first picture."""
    mask = np.zeros(frame.shape, np.uint8)
    points = np.round(frame.to_view(refined.contour_mm)).astype(np.int32)
    cv2.fillPoly(mask, [points], (1,))
    return mask > 0


def _share(mask: BoolArray, candidates: Candidates) -> float:
    """Return how much of a mask the first picture takes for fish."""
    rows, columns = np.nonzero(mask[::4, ::4])
    like = candidates.fish_like
    inside = (rows < like.shape[0]) & (columns < like.shape[1])
    if not inside.any():
        return 0.0
    return float(like[rows[inside], columns[inside]].mean())


def _max_overlap(one: BoolArray, other: BoolArray) -> float:
    return MAX_OVERLAP_SHARE * float(max(min(one.sum(), other.sum()), 1))


def _outline(fish: SegmentedFish, plane: PlaneScale) -> FishOutline:
    refined, (snout, fork) = fish.refined, fish.ends
    body = refined.body_mm
    return FishOutline(
        contour_px=frozen(plane.to_photo_px(refined.contour_mm)),
        body_px=None if body is None else frozen(plane.to_photo_px(body)),
        confidence=fish.assessment.confidence,
        snout_px=frozen(plane.to_photo_px(snout.place_mm[None])[0]),
        fork_px=frozen(plane.to_photo_px(fork.place_mm[None])[0]),
        ends_se_mm=(snout.along_se_mm, fork.along_se_mm),
        posture=fish.assessment.posture,
        upright_share=fish.assessment.upright_share,
        water_share=fish.assessment.water_share,
        raised_share=fish.assessment.raised_share,
        flags=fish.assessment.flags,
    )
