"""Fish outlines and end points by three small networks; see MODEL_CARD.md.

The first sees the whole plane from straight above, and parts of it nearer, and says
of every spot whether it is fish and where that fish's snout and fork are; spots that
mean the same ends are one fish. The second sees each fish by itself, level and
enlarged, draws it, and says what of it can be seen. The third sees its ends as the
photo has them, and says where they are, and how sure that is.
"""

from dataclasses import dataclass

import cv2
import numpy as np

from fishmeasure.base.arrays import BoolArray, frozen
from fishmeasure.photo.image import Photo
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.learned.ends import (
    FORK,
    SNOUT,
    TAIL_TIP,
    FishEnd,
    find_end,
)
from fishmeasure.photo.segment.learned.heap import in_a_heap
from fishmeasure.photo.segment.learned.judge import Verdict, judge
from fishmeasure.photo.segment.learned.portrait import Drawn, draw
from fishmeasure.photo.segment.learned.search import Search, search
from fishmeasure.photo.segment.learned.view import Frame
from fishmeasure.photo.segment.outline import FishOutline, Found

MOST_FISH = 100
"""Looked at one by one, those with most votes, the largest, first: a lower limit leaves
out the small ones of a full photo. 50 fish took 6 s on a busy machine; the server gives
a photo 60 s."""
SAME_SHARE = 0.5
"""Two outlines of which the smaller lies by this share within the other are one
fish; of a fish over another only what is seen is outlined."""
LIKELY_FISH = 5.0
"""Logit. Where nothing can be used and nothing looks more like a fish than this, there
is none: whole fish of 40 rendered photos have 6.8 and more; of 16 everyday pictures 4
had outlines of 3.8 to 6.3."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Seen:
    """A fish as all three networks see it."""

    drawn: Drawn
    ends: tuple[FishEnd, FishEnd]
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class LearnedSegmenter:
    """Finds fish of any kind, touching or overlapping, on anything."""

    name: str = "learned"

    def find(self, photo: Photo, plane: PlaneScale) -> Found:
        """Return the outlines, in reading order; none if there is no fish."""
        where = search(photo, plane)
        outlines = [_outline(one, plane) for one in find_seen(photo, plane, where)]
        row_px = max(photo.height_px / 20.0, 1.0)
        outlines.sort(
            key=lambda one: (
                round(float(one.contour_px[:, 1].mean()) / row_px),
                float(one.contour_px[:, 0].mean()),
            ),
        )
        left_out = max(len(where.ends_mm) - MOST_FISH, 0)
        return Found(
            outlines=tuple(outlines),
            too_small=where.too_small + left_out,
            smallest_mm=where.shortest_mm,
        )


def find_seen(photo: Photo, plane: PlaneScale, where: Search) -> list[Seen]:
    """Return the fish with what is thought of them, surest first."""
    found: list[tuple[Drawn, Verdict]] = []
    for ends in where.ends_mm[:MOST_FISH]:
        drawn = draw(photo, plane, ends[0], ends[1])
        if drawn is None:
            continue
        verdict = judge(drawn)
        if verdict.is_fish:
            found.append((drawn, verdict))
    found.sort(key=lambda pair: -pair[1].confidence)
    kept: list[tuple[Drawn, Verdict]] = []
    masks: list[BoolArray] = []
    for drawn, verdict in found:
        mine = _mask(drawn, where.frame)
        if all((mine & other).sum() < _least(mine, other) for other in masks):
            kept.append((drawn, verdict))
            masks.append(mine)
    if not any(_convinces(drawn, verdict) for drawn, verdict in kept):
        return []
    verdicts = in_a_heap([verdict for _, verdict in kept], masks, where.fish_like)
    return [
        _with_ends(photo, plane, drawn, verdict)
        for (drawn, _), verdict in zip(kept, verdicts, strict=True)
    ]


def _with_ends(photo: Photo, plane: PlaneScale, drawn: Drawn, verdict: Verdict) -> Seen:
    """Return the fish with its ends looked at for good."""
    snout_mm, fork_mm = drawn.snout_mm, drawn.fork_mm
    hind = TAIL_TIP if verdict.posture == "upright" else FORK
    ends = (
        find_end(photo, plane, snout_mm, fork_mm, SNOUT),
        find_end(photo, plane, fork_mm, snout_mm, hind),
    )
    length_mm = float(np.hypot(*(ends[1].place_mm - ends[0].place_mm)))
    return Seen(drawn=drawn, ends=ends, verdict=verdict.with_ends(ends, length_mm))


def _convinces(drawn: Drawn, verdict: Verdict) -> bool:
    return not verdict.flags or float(drawn.judge[0]) >= LIKELY_FISH


def _mask(drawn: Drawn, frame: Frame) -> BoolArray:
    """Return where the outline lies in the first picture."""
    mask = np.zeros(frame.shape, np.uint8)
    points = np.round(frame.to_view(drawn.contour_mm)).astype(np.int32)
    cv2.fillPoly(mask, [points], (1,))
    return mask > 0


def _least(one: BoolArray, other: BoolArray) -> float:
    return SAME_SHARE * float(max(min(one.sum(), other.sum()), 1))


def _outline(seen: Seen, plane: PlaneScale) -> FishOutline:
    drawn, (snout, fork) = seen.drawn, seen.ends
    body = drawn.body_mm
    return FishOutline(
        contour_px=frozen(plane.to_photo_px(drawn.contour_mm)),
        body_px=None if body is None else frozen(plane.to_photo_px(body)),
        confidence=seen.verdict.confidence,
        snout_px=frozen(plane.to_photo_px(snout.place_mm[None])[0]),
        fork_px=frozen(plane.to_photo_px(fork.place_mm[None])[0]),
        ends_se_mm=(snout.along_se_mm, fork.along_se_mm),
        posture=seen.verdict.posture,
        flags=seen.verdict.flags,
    )
