"""Fish that border on hidden or unknown ones are trusted in heaps alone, and higher."""

import math
from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.base.arrays import BoolArray
from fishmeasure.photo.segment.learned.ends import FishEnd
from fishmeasure.photo.segment.learned.heap import flag_heaped_fish
from fishmeasure.photo.segment.learned.verifier import Assessment, is_seen

ROWS, COLUMNS = 160, 320


def assessment(
    *flags: str, raised: float = -4.0, confidence: float = 0.95
) -> Assessment:
    return Assessment(
        is_fish=True,
        confidence=confidence,
        raised=raised,
        flags=flags,
        posture="side",
        seen=(5.0, 5.0, 5.0),
    )


def box(rows: slice, columns: slice) -> BoolArray:
    mask = np.zeros((ROWS, COLUMNS), bool)
    mask[rows, columns] = True
    return mask


def cells(mask: BoolArray) -> BoolArray:
    """Return the mask as the first network gives it, a quarter of the size."""
    return mask[::4, ::4]


FISH = box(slice(40, 80), slice(40, 200))  # 6,400 pixels


def test_a_fish_alone_is_trusted() -> None:
    assert flag_heaped_fish([assessment()], [FISH], cells(FISH))[0].flags == ()


def test_a_fish_beside_one_that_was_not_found_is_not_used() -> None:
    # 24 x 60 pixels beside its tail: over a fifth of its own area
    unknown = box(slice(50, 74), slice(200, 260))
    marked = flag_heaped_fish([assessment()], [FISH], cells(FISH | unknown))
    assert marked[0].flags == ("touching",)


def test_what_looks_like_fish_elsewhere_or_is_tiny_changes_nothing() -> None:
    elsewhere = box(slice(120, 150), slice(40, 200))
    tiny = box(slice(56, 64), slice(208, 220))
    for other in (elsewhere, tiny):
        assert (
            flag_heaped_fish([assessment()], [FISH], cells(FISH | other))[0].flags == ()
        )


def test_a_fish_on_a_hidden_one_is_not_used() -> None:
    below = box(slice(80, 110), slice(40, 200))
    marked = flag_heaped_fish(
        [assessment(), assessment("hidden")], [FISH, below], cells(FISH)
    )
    assert [one.flags for one in marked] == [("touching",), ("hidden",)]
    # one that the photo's edge cuts lies beside it, as good as any
    cut = flag_heaped_fish(
        [assessment(), assessment("edge-cut", "hidden")], [FISH, below], cells(FISH)
    )
    assert cut[0].flags == ()


def test_doubts_that_were_there_stay_and_no_fish_gives_none() -> None:
    marked = flag_heaped_fish([assessment("edge-cut")], [FISH], cells(FISH))
    assert marked[0].flags == ("edge-cut",)
    assert flag_heaped_fish([], [], cells(FISH)) == []


BELOW = box(slice(80, 110), slice(40, 200))
AWAY = box(slice(120, 150), slice(220, 300))


def test_in_a_heap_a_sure_fish_is_used_and_how_likely_it_lies_on_others_is_told() -> (
    None
):
    fish = [
        assessment(raised=2.0),
        assessment("hidden"),
        assessment(raised=-3.0),
    ]
    upper, hidden, lower = flag_heaped_fish(fish, [FISH, BELOW, AWAY], cells(FISH))
    assert (upper.flags, hidden.flags, lower.flags) == (("on-others",), ("hidden",), ())
    assert upper.raised_share > 0.9
    assert 0.0 < lower.raised_share < 0.1
    assert upper.strict
    assert lower.strict


def test_in_a_heap_an_unsure_fish_is_not_used() -> None:
    fish = [assessment(raised=2.0, confidence=0.9), assessment("hidden")]
    marked = flag_heaped_fish(fish, [FISH, BELOW], cells(FISH))
    assert marked[0].flags == ("touching",)


def test_a_fish_that_lies_on_something_alone_is_not_used() -> None:
    marked = flag_heaped_fish([assessment(raised=1.0)], [FISH], cells(FISH))
    assert marked[0].flags == ("touching",)
    assert marked[0].raised_share == 0.0


def test_swimming_fish_need_less_and_their_shadow_is_no_fish_below_them() -> None:
    """In air an upright one lies as others do, and what is beside it counts."""
    fish = [
        replace(assessment(raised=1.0, confidence=0.91), posture="upright"),
        replace(assessment(raised=-1.0, confidence=0.8), posture="upright"),
        assessment("hidden"),
    ]
    masks = [FISH, BELOW, AWAY]
    upper, beside, _ = flag_heaped_fish(fish, masks, cells(FISH), in_water=True)
    assert upper.flags == ("on-others",)
    assert beside.flags == ()
    assert beside.raised_share == pytest.approx(1.0 / (1.0 + math.e))

    _, lying, _ = flag_heaped_fish(fish, masks, cells(FISH))
    assert lying.strict
    assert lying.flags == ("touching",)


def test_seen_through_water_is_no_doubt_that_hides_another() -> None:
    wet = assessment("under-water", raised=1.0)
    marked = flag_heaped_fish([wet], [FISH], cells(FISH))
    assert marked[0].flags == ("under-water", "touching")


def test_a_patch_without_ends_that_hardly_looks_like_a_fish_is_none() -> None:
    def end(seen: float) -> FishEnd:
        return FishEnd(place_mm=np.zeros(2), along_se_mm=1.0, seen=seen, shadow=-1.0)

    assert not is_seen(2.0, (end(0.5), end(-1.0)))
    assert is_seen(2.0, (end(0.5), end(3.0)))
    assert is_seen(5.0, (end(0.5), end(-1.0)))
