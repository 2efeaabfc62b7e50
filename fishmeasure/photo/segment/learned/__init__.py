"""Fish outlines and end points by two small networks; see MODEL_CARD.md.

The first sees the whole plane from straight above and says of every spot whether
it is fish and where that fish's snout and fork are; spots that mean the same ends
are one fish. The second sees each fish by itself, level and enlarged, draws it,
and says what of it can be seen.
"""

from dataclasses import dataclass, replace

import cv2
import numpy as np

from fishmeasure.base.arrays import BoolArray, FloatArray, frozen
from fishmeasure.photo.image import Photo
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.learned.group import Instance, find_instances
from fishmeasure.photo.segment.learned.judge import Verdict, judge
from fishmeasure.photo.segment.learned.portrait import Drawn, draw, unsteadiness
from fishmeasure.photo.segment.learned.run import ask
from fishmeasure.photo.segment.learned.view import Frame, rectify, whole_frame
from fishmeasure.photo.segment.outline import FishOutline

MOST_PX = 140_000.0
"""Pixels of the first picture. On 380 rendered fish of 70 to 400 mm 0.14 megapixels
found as many, all of them, as 0.2 did, in two thirds of the time."""
MOST_PX_PER_MM = 1.0
MOST_FISH = 100
"""Looked at one by one, those with most votes, the largest, first: a lower limit leaves
out the small ones of a full photo. 50 fish took 6 s on a busy machine; the server gives
a photo 60 s."""
SAME_SHARE = 0.5
"""Two outlines of which the smaller lies by this share within the other are one
fish; of a fish over another only what is seen is outlined."""
VERY_SURE = 0.98
"""Fish of less confidence get a second look. Of 255 used outlines in hard drawn scenes
10 were wrong by more than 5 %, none of them surer than this."""
STEADY_SHARE = 0.04
"""Ends that move further than this, in lengths, in the second look were guessed. In
the same scenes that was so for 4 of the 10, and for 9 in 100 of the right ones; on
419 rendered fish for 1 in 200."""
LIKELY_FISH = 3.0
"""Logit. Where nothing can be used and nothing looks more like a fish than this, there
is none: so were 8 of 10 drawn scenes without fish that had outlines, and 7 of 119 with
fish, tiny ones in heaps."""
RAISED_SHARE = 0.03
"""Of a fish's area within two pixels of a hidden one: that is a border of about a
third of its length."""


@dataclass(frozen=True, slots=True)
class LearnedSegmenter:
    """Finds fish of any kind, touching or overlapping, on anything."""

    name: str = "learned"

    def find(self, photo: Photo, plane: PlaneScale) -> tuple[FishOutline, ...]:
        """Return the outlines, in reading order; empty if there is no fish."""
        found = find_drawn(photo, plane)
        outlines = [_outline(drawn, verdict, plane) for drawn, verdict in found]
        row_px = max(photo.height_px / 20.0, 1.0)
        return tuple(
            sorted(
                outlines,
                key=lambda one: (
                    round(float(one.contour_px[:, 1].mean()) / row_px),
                    float(one.contour_px[:, 0].mean()),
                ),
            )
        )


def find_drawn(photo: Photo, plane: PlaneScale) -> list[tuple[Drawn, Verdict]]:
    """Return the fish with what is thought of them, surest first."""
    frame = whole_frame(photo, plane, MOST_PX, MOST_PX_PER_MM)
    instances = find_instances(ask(rectify(photo, plane, frame).rgb))
    found: list[tuple[Drawn, Verdict]] = []
    for instance in instances[:MOST_FISH]:
        ends = _ends_mm(instance, frame)
        drawn = draw(photo, plane, ends[0], ends[1])
        if drawn is None:
            continue
        verdict = judge(drawn)
        if verdict.is_fish:
            found.append((drawn, _looked_at_again(photo, plane, drawn, verdict)))
    found.sort(key=lambda pair: -pair[1].confidence)
    kept: list[tuple[Drawn, Verdict]] = []
    taken: list[BoolArray] = []
    for drawn, verdict in found:
        mine = _mask(drawn, frame)
        if all((mine & other).sum() < _least(mine, other) for other in taken):
            kept.append((drawn, verdict))
            taken.append(mine)
    if not any(_convinces(drawn, verdict) for drawn, verdict in kept):
        return []
    return _mark_raised(kept, taken)


def _looked_at_again(
    photo: Photo, plane: PlaneScale, drawn: Drawn, verdict: Verdict
) -> Verdict:
    """Return the verdict, with a doubt if a second look finds other ends."""
    if verdict.flags or verdict.confidence >= VERY_SURE:
        return verdict
    if unsteadiness(photo, plane, drawn) <= STEADY_SHARE:
        return verdict
    return replace(verdict, flags=("ends-doubtful",))


def _convinces(drawn: Drawn, verdict: Verdict) -> bool:
    return not verdict.flags or float(drawn.judge[0]) >= LIKELY_FISH


def _mark_raised(
    found: list[tuple[Drawn, Verdict]], masks: list[BoolArray]
) -> list[tuple[Drawn, Verdict]]:
    """Mark whole fish that border on a hidden one: they may lie on it.

    A fish on another is nearer the camera by a thickness, and looks 3 to 5 % too
    long: 1.8 to 5.3 % on the rendered heaps.
    """
    hidden = np.zeros_like(masks[0]) if masks else np.zeros((1, 1), bool)
    for (_, verdict), mask in zip(found, masks, strict=True):
        if "hidden" in verdict.flags and "edge-cut" not in verdict.flags:
            hidden |= mask
    near = cv2.dilate(hidden.astype(np.uint8), np.ones((5, 5), np.uint8)) > 0
    marked = []
    for (drawn, verdict), mask in zip(found, masks, strict=True):
        border = float((near & mask).sum())
        doubtful = border > RAISED_SHARE * float(mask.sum())
        if doubtful and not verdict.flags:
            verdict = replace(verdict, flags=("touching",))  # noqa: PLW2901
        marked.append((drawn, verdict))
    return marked


def _ends_mm(instance: Instance, frame: Frame) -> FloatArray:
    return frame.to_mm(np.array([instance.snout, instance.fork]))


def _mask(drawn: Drawn, frame: Frame) -> BoolArray:
    """Return where the outline lies in the first picture."""
    mask = np.zeros(frame.shape, np.uint8)
    points = np.round(frame.to_view(drawn.contour_mm)).astype(np.int32)
    cv2.fillPoly(mask, [points], (1,))
    return mask > 0


def _least(one: BoolArray, other: BoolArray) -> float:
    return SAME_SHARE * float(max(min(one.sum(), other.sum()), 1))


def _outline(drawn: Drawn, verdict: Verdict, plane: PlaneScale) -> FishOutline:
    return FishOutline(
        contour_px=frozen(plane.to_photo_px(drawn.contour_mm)),
        confidence=verdict.confidence,
        snout_px=frozen(plane.to_photo_px(drawn.snout_mm[None])[0]),
        fork_px=frozen(plane.to_photo_px(drawn.fork_mm[None])[0]),
        flags=verdict.flags,
    )
