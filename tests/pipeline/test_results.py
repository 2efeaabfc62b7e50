"""A measurement's JSON is lossless; corrections need nothing else."""

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from fishmeasure.base.errors import BadCorrectionError
from fishmeasure.base.flags import FLAGS, Problem
from fishmeasure.photo.corrections import Correction, apply_corrections
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.pipeline import measure_photo
from fishmeasure.species import load_species

SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"


@pytest.fixture(scope="module")
def measured() -> PhotoMeasurement:
    return measure_photo((SAMPLES / "tank_a_net2.jpg").read_bytes(), "tank_a_net2.jpg")


def corrected(
    measurement: PhotoMeasurement, *corrections: Correction
) -> PhotoMeasurement:
    return apply_corrections(measurement, corrections, load_species, "rainbow-trout")


def test_json_comes_back_as_the_same_json(measured: PhotoMeasurement) -> None:
    """Written, read and written again, nothing has changed."""
    text = json.dumps(measured.to_json(), allow_nan=False)
    again = PhotoMeasurement.from_json(json.loads(text)).to_json()
    assert json.loads(text) == again


def test_what_is_shown_of_it_fits_in_a_line(measured: PhotoMeasurement) -> None:
    """Also where names are long and every doubt is there, and no array is in it."""
    worst = replace(
        measured.fish[0], species="a" * 60, flags=tuple(FLAGS), complete=False
    )
    problems = tuple(Problem(code=code, message="x" * 999) for code in FLAGS)
    long = replace(measured, photo="p" * 120, fish=(worst,) * 99, problems=problems)
    assert len(repr(measured)) < 100
    for fish in (*measured.fish, worst):
        assert len(repr(fish)) < 160
        assert f"{fish.fork_length_mm:.1f}" in repr(fish)
    assert len(repr(long)) < 300
    assert "99 fish, 0 used" in repr(long)


def test_points_go_through_the_plane_alike_after_a_round_trip(
    measured: PhotoMeasurement,
) -> None:
    """The geometry that comes back measures the same."""
    back = PhotoMeasurement.from_json(measured.to_json())
    assert measured.scale is not None
    assert back.scale is not None
    points = np.array([[100.0, 200.0], [900.0, 700.0]])
    assert np.array_equal(
        back.scale.to_plane_mm(points, 12.0), measured.scale.to_plane_mm(points, 12.0)
    )


def test_a_moved_end_changes_the_length_by_as_much(measured: PhotoMeasurement) -> None:
    """The fork moved inwards by a tenth makes the fish a tenth shorter, to 2 %."""
    fish = measured.fish[0]
    snout, fork = fish.snout_px, fish.fork_px
    nearer = fork + 0.1 * (snout - fork)
    moved = corrected(
        measured,
        Correction(kind="move", fish=0, snout_px=tuple(snout), fork_px=tuple(nearer)),
    ).fish[0]
    assert moved.fork_length_mm == pytest.approx(0.9 * fish.fork_length_mm, rel=0.02)
    assert moved.complete
    assert "edited" in moved.flags


def test_ends_exchanged_turn_the_fish_round(measured: PhotoMeasurement) -> None:
    """Snout and fork the other way about: the length stays within 3 %."""
    fish = measured.fish[0]
    turned = corrected(
        measured,
        Correction(
            kind="move",
            fish=0,
            snout_px=tuple(fish.fork_px),
            fork_px=tuple(fish.snout_px),
        ),
    ).fish[0]
    assert np.allclose(turned.snout_px, fish.fork_px, atol=3.0)
    assert turned.fork_length_mm == pytest.approx(fish.fork_length_mm, rel=0.03)


def test_a_doubtful_fish_can_be_kept(measured: PhotoMeasurement) -> None:
    """A person's word takes the doubt's ban away, and the flag says so."""
    first = measured.fish[0]
    doubtful = replace(first, weight_g=None, flags=("touching",), complete=False)
    kept = corrected(
        replace(measured, fish=(doubtful,)), Correction(kind="keep", fish=0)
    )
    assert kept.fish[0].complete
    assert kept.fish[0].weight_g is not None
    assert kept.fish[0].flags[0] == "edited"


def test_another_species_has_another_weight(measured: PhotoMeasurement) -> None:
    """Length nearly the same, weight by the other line."""
    carp = corrected(
        measured, Correction(kind="species", fish=0, species="common-carp")
    ).fish[0]
    before = measured.fish[0]
    assert carp.species == "common-carp"
    assert carp.fork_length_mm == pytest.approx(before.fork_length_mm, rel=0.02)
    assert carp.weight_g is not None
    assert before.weight_g is not None
    assert carp.weight_g != before.weight_g


def test_without_a_scale_nothing_can_be_corrected() -> None:
    """No corrections are fine, one is refused."""
    nothing = PhotoMeasurement(photo="x.jpg", width_px=640, height_px=480)
    assert corrected(nothing) is nothing
    with pytest.raises(BadCorrectionError):
        corrected(nothing, Correction(kind="drop", fish=0))
