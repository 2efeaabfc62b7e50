"""From photo to fish: a doubtful fish stays, a photo without any says so."""

from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pytest

from fishmeasure.base.flags import FLAGS, Problem
from fishmeasure.base.record import plain, read
from fishmeasure.estimation.sample import read_sample
from fishmeasure.photo.corrections import Correction, apply_corrections
from fishmeasure.photo.image import Photo
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment import FishOutline, Segmentation
from fishmeasure.pipeline import (
    PhotoSettings,
    measure_decoded,
    measure_photo,
    measure_sample,
)
from fishmeasure.species import load_species
from sample_images.synth.fish import DrawnFish, true_fish
from sample_images.synth.plane import PlaneScene, draw_plane, sheet_cards, true_plane

SCENE = PlaneScene(
    width_px=1000,
    height_px=750,
    focal_px=780.0,
    distance_mm=520.0,
    cards=sheet_cards("A4"),
)
SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"


@dataclass(frozen=True)
class Given:
    """Finds what it was given."""

    outlines: tuple[FishOutline, ...]
    name: str = "given"

    too_small: int = 0

    def find(self, photo: Photo, plane: PlaneScale) -> Segmentation:
        del photo, plane
        return Segmentation(
            outlines=self.outlines, too_small=self.too_small, smallest_mm=40.0
        )


@pytest.fixture(scope="module")
def photo() -> Photo:
    rgb = draw_plane(SCENE, np.random.default_rng(5))
    return Photo(
        name="drawn.jpg",
        rgb=rgb,
        width_px=SCENE.width_px,
        height_px=SCENE.height_px,
        focal_length_px=SCENE.focal_px,
    )


def outline(fish: DrawnFish, *flags: str) -> FishOutline:
    truth = true_fish(fish, true_plane(SCENE))
    return FishOutline(contour_px=truth.outline_px, confidence=0.9, flags=flags)


def test_an_empty_board_has_no_fish(photo: Photo) -> None:
    """The packaged method finds nothing on a bare board beside the sheet."""
    result = measure_decoded(photo, PhotoSettings())
    assert [problem.code for problem in result.problems] == ["no-fish"]
    assert result.usable


@pytest.mark.parametrize(
    "word", [word for word, flag in FLAGS.items() if flag.disqualifying]
)
def test_a_doubtful_fish_stays_unused(photo: Photo, word: str) -> None:
    """Each such flag makes the fish incomplete; it keeps its place, has no weight."""
    middle = DrawnFish(x_mm=148.5, y_mm=105.0)
    found = Given((outline(middle, word),))
    result = measure_decoded(photo, PhotoSettings(), found)
    (fish,) = result.fish
    assert word in fish.flags
    assert not fish.complete
    assert fish.weight_g is None
    assert [problem.code for problem in result.problems] == ["no-usable-fish"]


def test_a_coiled_fish_is_not_used(photo: Photo) -> None:
    """A fish bent to more than half a circle: its ends are near each other."""
    found = Given((outline(DrawnFish(x_mm=148.5, y_mm=105.0, bend_deg=240.0)),))
    (fish,) = measure_decoded(photo, PhotoSettings(), found).fish
    assert not fish.complete
    assert "coiled" in fish.flags


def test_a_fish_far_from_the_markers_says_so(photo: Photo) -> None:
    """Half a metre beyond the sheet; still used, with a wider error."""
    near = outline(DrawnFish(x_mm=148.5, y_mm=105.0))
    far = outline(DrawnFish(x_mm=1000.0, y_mm=105.0))
    result = measure_decoded(photo, PhotoSettings(), Given((near, far)))
    one, other = result.fish
    assert "far-from-markers" not in one.flags
    assert "far-from-markers" in other.flags
    assert other.fork_length_se_mm > one.fork_length_se_mm


def test_a_fish_that_leaves_the_photo_is_not_used() -> None:
    """The rendered photo's truth names the fish that is cut."""
    path = SAMPLES / "cut_by_edge.jpg"
    result = measure_photo(path.read_bytes(), path.name)
    cut = [fish for fish in result.fish if "edge-cut" in fish.flags]
    assert len(cut) == 1
    assert not cut[0].complete
    # of the five others one has a glare on its tail like a label; it may be left out
    assert len(result.complete_fish) >= len(result.fish) - 2


def test_a_board_all_white_is_overexposed_and_without_marker(photo: Photo) -> None:
    """Both reasons are given, so that the grower knows why no marker was seen."""
    white = replace(photo, rgb=np.full_like(photo.rgb, 255))
    codes = [p.code for p in measure_decoded(white, PhotoSettings()).problems]
    assert codes == ["no-marker", "overexposed"]


def test_a_species_tested_on_no_real_photo_says_so(photo: Photo) -> None:
    """A note, no refusal; a sample says it once, and a correction to catfish drops it.

    Of the packaged species channel catfish alone were tested on real photos.
    """
    found = Given((outline(DrawnFish(x_mm=148.5, y_mm=105.0)),))
    trout = measure_decoded(photo, PhotoSettings(), found)
    (said,) = (one for one in trout.problems if one.code == "not-validated")
    assert not said.fatal
    assert "rainbow trout was not validated on photos" in said.message
    assert trout.usable
    catfish = PhotoSettings(species=load_species("channel-catfish"))
    codes = {one.code for one in measure_decoded(photo, catfish, found).problems}
    assert "not-validated" not in codes
    change = Correction(kind="species", fish=0, species="channel-catfish")
    corrected = apply_corrections(trout, [change], load_species, "rainbow-trout")
    assert "not-validated" not in {one.code for one in corrected.problems}


def test_a_sample_says_once_that_its_species_was_not_tested(photo: Photo) -> None:
    found = Given((outline(DrawnFish(x_mm=148.5, y_mm=105.0)),))
    nets = (f'[[net]]\nfish = 1\nphotos = ["{name}.jpg"]\n' for name in "ab")
    sample = read_sample("".join(nets))
    result = measure_sample(
        sample,
        load_species("rainbow-trout"),
        lambda name: replace(
            measure_decoded(photo, PhotoSettings(), found), photo=name
        ),
    )
    codes = [problem.code for problem in result.problems]
    assert codes.count("not-validated") == 1


def test_fish_too_small_to_be_measured_are_said(photo: Photo) -> None:
    """Their number, and that the mean would be too high without them."""
    found = Given((outline(DrawnFish(x_mm=148.5, y_mm=105.0)),), too_small=5)
    result = measure_decoded(photo, PhotoSettings(), found)
    (said,) = (one for one in result.problems if one.code == "small-fish")
    assert "At least 5 fish are too small" in said.message
    assert "Go nearer" in said.message
    assert result.smallest_fish_mm == 40.0
    again = read(PhotoMeasurement, plain(result))
    assert again.smallest_fish_mm == 40.0


def test_a_sample_says_which_photo_leaves_small_fish_out(photo: Photo) -> None:
    found = {
        "a.jpg": Given((outline(DrawnFish(x_mm=148.5, y_mm=105.0)),)),
        "b.jpg": Given((outline(DrawnFish(x_mm=148.5, y_mm=105.0)),), too_small=5),
    }
    nets = (f'[[net]]\nfish = 6\nphotos = ["{name}"]\n' for name in found)
    result = measure_sample(
        read_sample("".join(nets)),
        load_species("rainbow-trout"),
        lambda name: replace(
            measure_decoded(photo, PhotoSettings(), found[name]), photo=name
        ),
    )
    (said,) = (one for one in result.problems if one.code == "small-fish")
    assert said.message.startswith("b.jpg: At least 5 fish are too small")
    assert "too high" in said.message


def test_a_problem_of_a_photo_names_it_in_the_language_of_now() -> None:
    """What is kept is the code; what was kept as a sentence keeps its words."""
    said = Problem.of("no-usable-fish", fatal=True).in_photo("a.jpg")
    assert said.message.startswith("a.jpg: No fish was whole")
    assert said.message.endswith("by hand.")
    assert read(Problem, plain(said)) == said
    old = Problem(code="blurred", message="It is blurred.").in_photo("a.jpg")
    assert old.message == "a.jpg: It is blurred."
