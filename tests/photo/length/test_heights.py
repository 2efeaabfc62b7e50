"""How high snout and fork lie: its error is the photo's, and a ruler teaches it."""

import math
from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.base.errors import HeightsError
from fishmeasure.base.estimate import Scope, UncertaintySource
from fishmeasure.estimation.model.lengths import collect_lengths, net_means
from fishmeasure.estimation.nets import NetWeighing, fish_in_net, shared_length_sd
from fishmeasure.photo.length import (
    FishLength,
    FishShape,
    measure_length,
    ruled_fish,
    shape_of,
)
from fishmeasure.photo.length.budget import Course
from fishmeasure.photo.length.measure import bend_share
from fishmeasure.photo.length.parallax import Camera, Pose
from fishmeasure.photo.segment.outline import FishOutline
from fishmeasure.species import load_species
from fishmeasure.species.heights_fit import (
    HeightsFit,
    RuledFish,
    fit_heights,
    own_shape,
)
from fishmeasure.species.loader import read_own_stock
from sample_images.synth.fish import DrawnFish, true_fish
from tests.photo.length.test_measure import SHAPE, seen_from

TROUT = load_species("rainbow-trout")
STIFF = DrawnFish(snout_share=0.70 + 0.175, fork_share=0.275 + 0.10)


def measured(fish: DrawnFish, distance_mm: float) -> FishLength:
    plane = seen_from(distance_mm)
    outline = true_fish(fish, plane).outline_px
    return measure_length(FishOutline(contour_px=outline, confidence=1.0), plane, SHAPE)


def laid(length: FishLength) -> float:
    """Return the error that a photo's fish share by how they pose."""
    (found,) = (one for one in length.sources if one.name == "how fish were laid")
    assert found.scope == "photo"
    return found.relative_sd


def ruled(fish: DrawnFish, distance_mm: float, photo: str = "a.jpg") -> RuledFish:
    return ruled_fish(
        measured(fish, distance_mm),
        seen_from(distance_mm),
        SHAPE,
        photo=photo,
        ruler_mm=fish.fork_length_mm,
    )


def test_the_error_of_the_heights_is_what_geometry_says() -> None:
    """Under the camera, an end h higher is h / H nearer to the middle, so of half L.

    0.175 and 0.10 of half the thickness, half of the variance as if both ends went
    together, half as if each went alone.
    """
    length = measured(DrawnFish(), 600.0)
    each = 0.5 * 0.5 * length.thickness_mm / 600.0 * np.array([0.175, 0.10])
    expected = math.sqrt(0.5 * each.sum() ** 2 + 0.5 * float(each @ each))
    assert laid(length) == pytest.approx(expected, rel=0.15)


def test_a_camera_half_as_high_doubles_it() -> None:
    low, high = measured(DrawnFish(), 400.0), measured(DrawnFish(), 800.0)
    assert laid(low) == pytest.approx(2.0 * laid(high), rel=0.1)


def test_a_tail_that_hangs_down_makes_no_fish_longer() -> None:
    """A measuring board reads along the board: 200 mm, though the midline falls.

    In space it would be hypot(50, 14) + 50 + hypot(100, 14) = 202.9 mm.
    """
    x = np.linspace(0.0, 200.0, 401)
    course = Course(points_mm=np.column_stack([x, np.zeros(401)]), bend_share=1.0)
    far = Camera(foot_mm=np.array([100.0, 0.0]), height_mm=1e7)
    hangs = Pose(half_thickness_mm=14.0, snout_share=0.0, fork_share=0.0)
    assert course.length_mm(far, hangs) == pytest.approx(200.0, abs=0.01)


@pytest.mark.parametrize(("depth", "share"), [(0.22, 0.9), (0.35, 0.4)])
def test_a_deep_body_turns_by_its_shape(depth: float, share: float) -> None:
    """A trout's midline that turns by 33 degrees is bent; a bream's may be its shape.

    Against 0.20 and 0.74 rad: 0.576^2 / (0.576^2 + 0.20^2) = 0.89, and 0.38.
    """
    assert bend_share(math.radians(33.0), depth) == pytest.approx(share, abs=0.03)


def test_many_fish_of_a_photo_share_it() -> None:
    """The mean of 40 fish of one photo is no surer than that; of four photos, half."""
    length = measured(DrawnFish(), 500.0)
    shared = shared_length_sd([length], "photo")
    assert shared is not None
    assert shared >= laid(length)

    def sd(photos: int) -> float:
        fish = [
            one
            for photo in range(photos)
            for one in fish_in_net([length] * 40, photo=photo)
        ]
        net = NetWeighing(
            fish_count=len(fish), fish=tuple(fish), photo_relative_sd=shared or 0.0
        )
        lengths = collect_lengths((net,))
        assert lengths is not None
        return math.sqrt(net_means(lengths, np.array([1e-3])).variance[0, 0])

    assert sd(1) >= shared
    assert sd(4) == pytest.approx(sd(1) / 2.0, rel=0.01)


def test_every_species_has_them_as_common_practice() -> None:
    """Anywhere from limp to stiff, 0.4 to 1.0 and 0.1 to 0.45: an even spread.

    Its mean is the middle, its standard deviation the width over the root of 12.
    """
    for figure, low, high in (
        (TROUT.shape.snout_height, 0.4, 1.0),
        (TROUT.shape.fork_height, 0.1, 0.45),
    ):
        assert figure.status == "practice"
        assert figure.value == pytest.approx((low + high) / 2.0)
        assert figure.sd == pytest.approx((high - low) / math.sqrt(12.0), rel=0.02)
    assert shape_of(TROUT).snout_height == FishShape().snout_height


@pytest.mark.parametrize("distance_mm", [350.0, 500.0])
def test_a_ruler_tells_how_stiff_fish_lay(distance_mm: float) -> None:
    """Drawn one standard deviation stiffer than the species has it."""
    fish = [
        ruled(replace(STIFF, fork_length_mm=size, x_mm=x, y_mm=y), distance_mm)
        for size, x, y in ((240.0, 0.0, -60.0), (250.0, 20.0, 0.0), (260.0, 0.0, 60.0))
    ]
    fit = fit_heights(fish)
    assert fit.stiffness == pytest.approx(1.0, abs=0.5)
    assert fit.stiffness_se > 0.5  # what other photos differ by


def test_from_far_away_heights_do_not_matter() -> None:
    """From 2 m a length changes by 0.1 % between limp and stiff."""
    fish = [ruled(STIFF, 2000.0)] * 4
    with pytest.raises(HeightsError, match="do not tell how high") as told:
        fit_heights(fish)
    assert "from nearer" in told.value.advice


def test_two_fish_or_a_slip_of_the_pen_tell_nothing() -> None:
    fish = ruled(STIFF, 500.0)
    with pytest.raises(HeightsError, match="3 are needed"):
        fit_heights([fish, fish])
    for slip in (300.0, 0.0, -250.0, math.nan):
        with pytest.raises(HeightsError, match=r"Fish 2, in a\.jpg"):
            fit_heights([fish, replace(fish, ruler_mm=slip), fish])


def test_the_scale_s_error_is_no_smaller_for_many_fish() -> None:
    """0.5 % that all share, over a slope of 0.5 %, is a standard deviation for ever."""
    fish = RuledFish(
        photo="a.jpg",
        length_mm=250.0,
        ruler_mm=250.0,
        slope=-0.005,
        own_sd=0.001,
        photo_sd=0.0,
        shared_sd=0.005,
        camera_mm=500.0,
        thickness_mm=30.0,
    )
    many = fit_heights([replace(fish, photo=f"{n % 50}.jpg") for n in range(200)])
    assert many.stiffness == pytest.approx(0.0, abs=1e-9)
    assert many.stiffness_se == pytest.approx(1.0, rel=0.02)


def test_what_a_ruler_says_is_weighed_with_what_was_known() -> None:
    """As sure as the species' own figure: halfway; and photos differ by half an sd."""
    fit = HeightsFit(stiffness=1.0, stiffness_se=1.0, fish_count=5, photo_count=2)
    shape = own_shape(fit, TROUT.shape, note="")
    usual = TROUT.shape.snout_height
    assert shape.snout_height.value == pytest.approx(usual.value + 0.5 * usual.sd)
    assert shape.snout_height.sd == pytest.approx(usual.sd * math.sqrt(0.5 + 0.25))
    limp = own_shape(replace(fit, stiffness=-9.0), TROUT.shape, note="")
    assert limp.fork_height.value > 0.0


def test_a_stock_s_file_of_before_has_its_species_heights() -> None:
    """And one with heights alone is weighed by its species' line, as published."""
    stock = read_own_stock(
        'common_name = "ours"\nlatin_name = "Oncorhynchus mykiss"\n[shape]\n'
        + "".join(
            f'{name} = {{ value = {value}, relative_sd = 0.1, source = "ours", '
            'status = "seen" }\n'
            for name, value in (
                ("fork_per_total", 0.95),
                ("standard_per_total", 0.88),
                ("thickness_per_depth", 0.5),
                ("depth_per_fork_length", 0.25),
            )
        ),
        "ours.toml",
    )
    assert stock.shape.snout_height == TROUT.shape.snout_height
    assert stock.length_weight == TROUT.length_weight
    assert not stock.is_own_stock


def test_errors_of_a_ruled_fish_add_as_squares_by_their_scope() -> None:
    """3 and 4 % are 5 %; how fish were laid is no error: the ruler is to tell it."""
    scopes: tuple[tuple[str, Scope, float], ...] = (
        ("end points", "fish", 0.03),
        ("bend", "fish", 0.04),
        ("camera height", "photo", 0.02),
        ("how fish were laid", "photo", 0.09),
        ("print scale", "sample", 0.006),
        ("thickness of the species", "species", 0.008),
    )
    sources = tuple(
        UncertaintySource(name=name, relative_sd=sd, scope=scope)
        for name, scope, sd in scopes
    )
    length = replace(measured(DrawnFish(), 600.0), sources=sources)
    found = ruled_fish(length, seen_from(600.0), SHAPE, photo="a.jpg", ruler_mm=250.0)
    assert found.own_sd == pytest.approx(0.05)
    assert found.photo_sd == pytest.approx(0.02)
    assert found.shared_sd == pytest.approx(0.01)
    assert (found.length_mm, found.ruler_mm) == (length.fork_length_mm, 250.0)
    assert found.camera_mm == pytest.approx(600.0)
