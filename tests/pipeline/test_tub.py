"""A rendered photo of live fish in a tub: refused, and measured if it is said."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.pipeline import PhotoSettings, measure_photo

DATA = Path(__file__).parents[1] / "data"
TRUTH: dict[str, Any] = json.loads((DATA / "tub_01.truth.json").read_text())


def measured(**settings: Any) -> PhotoMeasurement:
    data = (DATA / "tub_01.jpg").read_bytes()
    return measure_photo(data, "tub_01.jpg", PhotoSettings(**settings))


def test_through_water_of_which_nobody_spoke_no_length_is_given() -> None:
    """In air it would read several per cent long; the count needs no bending."""
    photo = measured()
    assert photo.problems[0].code == "in-water"
    assert photo.problems[0].fatal
    assert photo.fish == ()
    assert photo.fish_count is not None
    assert photo.fish_count.low <= len(TRUTH["fish"]) <= photo.fish_count.high


@pytest.mark.parametrize("depth_mm", [None, TRUTH["water"]["depth_mm"]])
def test_upright_fish_are_measured_to_the_tip_of_the_tail(
    depth_mm: float | None,
) -> None:
    """The truth is the scene's geometry; the renderer bent the rays by itself."""
    photo = measured(in_water=True, water_depth_mm=depth_mm)
    assert not any(problem.fatal for problem in photo.problems)
    off, stated = [], []
    for true in TRUTH["fish"]:
        upright = true["lies"] == "upright"
        ends = np.array(
            [true["snout_px"], true["tail_tip_px" if upright else "fork_px"]]
        )
        found = [
            fish
            for fish in photo.complete_fish
            if np.linalg.norm([fish.snout_px, fish.fork_px] - ends, axis=1).max() < 25
        ]
        if found:
            (fish,) = found
            assert fish.posture == true["lies"]
            read = fish.total_length_mm if upright else fish.fork_length_mm
            right = true["total_length_mm" if upright else "fork_length_mm"]
            off.append(read / right - 1.0)
            stated.append(fish.total_length_se_mm / fish.total_length_mm)
    assert len(off) >= 4
    assert abs(np.mean(off)) < 0.015
    assert np.all(np.abs(off) < 2.0 * np.array(stated))
