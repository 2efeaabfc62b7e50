"""Weight from the outline: geometry, what is shared, and when it is not used."""

import math
from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.photo.length import FishLength, squared_depth_sources
from fishmeasure.photo.length.depth import squared_depth
from fishmeasure.photo.length.midline import trace_midline
from fishmeasure.photo.length.parallax import Camera, Pose
from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement, weighed
from fishmeasure.photo.weighing import photo_weights, weigh_together, with_weights
from fishmeasure.photo.weight import fish_weight
from fishmeasure.species import Species, load_species
from tests.photo.measured import fish_of_250_mm

FAR = Camera(foot_mm=np.zeros(2), height_mm=1e9)
FLAT = Pose(half_thickness_mm=0.0, snout_share=1.0, fork_share=1.0)


def spindle(bend_rad: float = 0.0) -> FloatArray:
    """Return an outline of depth 60 sin(pi s) mm and 200 mm length, bent to an arc."""
    share = np.linspace(0.0, 1.0, 400)
    half = 30.0 * np.sin(np.pi * share)
    along = np.concatenate([share, share[::-1]]) * 200.0
    across = np.concatenate([half, -half[::-1]])
    if bend_rad == 0.0:
        return np.column_stack([along, across])
    radius = 200.0 / bend_rad
    angle = along / radius
    return np.column_stack(
        [(radius - across) * np.sin(angle), radius - (radius - across) * np.cos(angle)]
    )


def depth_of(outline: FloatArray, camera: Camera = FAR, pose: Pose = FLAT) -> float:
    midline = trace_midline(outline)
    ends = float(midline.contour_along.min()), float(midline.contour_along.max())
    found = squared_depth(outline, midline, ends, camera, pose, 0.5)
    assert found is not None
    return found


def test_squared_depth_of_a_spindle_is_its_integral() -> None:
    """The integral of (60 sin(pi s))^2 over 200 mm is 60^2 x 200 / 2 mm3."""
    assert depth_of(spindle()) == pytest.approx(360_000.0, rel=0.01)


def test_a_bent_spindle_has_the_depth_of_the_straight_one() -> None:
    """Pappus: an area moved across its centroid's path fills the same volume."""
    assert depth_of(spindle(0.6)) == pytest.approx(360_000.0, rel=0.02)


def test_nearer_the_camera_it_is_smaller_by_the_cube() -> None:
    """All of a body lifted 12 mm towards a camera 600 mm up looks 1/0.98 as large."""
    level = Pose(half_thickness_mm=12.0, snout_share=1.0, fork_share=1.0)
    seen = depth_of(
        spindle(), Camera(foot_mm=np.array([100.0, 0.0]), height_mm=600.0), level
    )
    slanting = 1.0 / (1.0 + (0.5 * 100.0 / 600.0) ** 2)  # at the ends, hardly any depth
    assert 360_000.0 * 0.98**3 * slanting < seen < 360_000.0 * 0.98**3 * 1.01


# --- the two predictors -----------------------------------------------------------


def seen_fish(
    fork_mm: float, squared_depth_mm3: float, *sources: UncertaintySource
) -> FishLength:
    return replace(
        fish_of_250_mm(*sources),
        fork_length_mm=fork_mm,
        body_depth_mm=0.22 * fork_mm,
        squared_depth_mm3=squared_depth_mm3,
        midline_px=np.array([[0.0, 0.0], [500.0, 0.0], [1000.0, 0.0]]),
        fork_px=np.array([1000.0, 0.0]),
        outline_px=np.empty((0, 2)),
    )


def slope_of_error(species: Species, b: float, c: float, *, by_outline: bool) -> float:
    """Return how the error of ln W grows with ln L in a stock W = a L^b = c V."""
    lengths = np.geomspace(90.0, 420.0, 40)
    rng = np.random.default_rng(4)
    errors = []
    for fork_mm in lengths:
        fat = float(np.exp(rng.normal(0.0, 0.08)))
        true_g = 0.012 * (fork_mm / 10.0) ** b * fat
        fish = seen_fish(float(fork_mm), 1000.0 * true_g / c)
        found = fish_weight(fish, species, by_outline=by_outline).weight_g.value
        errors.append(math.log(found / true_g))
    return float(np.polyfit(np.log(lengths), errors, 1)[0])


def test_errors_of_a_stock_of_another_exponent_do_not_grow_with_length() -> None:
    """Stock of b = 3.1 and W = c V: trout's b of 3 alone errs by -0.1 a unit of ln L.

    The outline takes more than three quarters of that, and all of it where b is right.
    """
    trout = load_species("rainbow-trout")
    alone = slope_of_error(trout, 3.1, 0.45, by_outline=False)
    assert alone == pytest.approx(-0.1, abs=0.02)
    assert abs(slope_of_error(trout, 3.1, 0.45, by_outline=True)) < 0.025
    right = replace(trout, length_weight=replace(trout.length_weight, b=3.1))
    assert abs(slope_of_error(right, 3.1, 0.45, by_outline=True)) < 0.01


def test_without_a_constant_the_usual_shape_weighs_as_the_line() -> None:
    """Perch have no c: at the usual depth and middle length W is a L^b, fat more."""
    perch = load_species("perch")
    assert perch.body.c_g_per_cm3 is None
    fork_mm = perch.on_fork_length().reference_length_mm
    usual, _ = perch.body.usual_squared_depth(perch.shape.depth_per_fork_length)
    line = fish_weight(seen_fish(fork_mm, 1.0), perch, by_outline=False).weight_g.value
    middle = fish_weight(seen_fish(fork_mm, usual * fork_mm**3), perch)
    fat = fish_weight(seen_fish(fork_mm, 1.2 * usual * fork_mm**3), perch)
    assert middle.weight_from == "outline"
    assert middle.weight_g.value == pytest.approx(line, rel=0.01)
    assert 1.05 < fat.weight_g.value / middle.weight_g.value < 1.2


def test_a_scale_error_is_shared_by_both_and_counted_once() -> None:
    """1 % of scale is 3 % of weight by either way, so 3 % of both, not 4.2 %."""
    scale = UncertaintySource(name="print scale", relative_sd=0.01, scope="sample")
    fish = seen_fish(250.0, 400_000.0, scale)
    assert squared_depth_sources(fish)[0][0].relative_sd == pytest.approx(0.03)
    weight = fish_weight(fish, load_species("rainbow-trout"))
    (found,) = [source for source in weight.sources if source.scope == "sample"]
    assert weight.weight_from == "outline"
    assert found.relative_sd == pytest.approx(0.03)


def test_a_known_outline_is_surer_than_the_published_line() -> None:
    """Its interval holds 1.9 times the usual condition too, and is half as wide."""
    trout = load_species("rainbow-trout")
    by_length = fish_weight(seen_fish(250.0, 1.0), trout, by_outline=False).weight_g
    fat_g = 1.9 * 1.15 * 25.0**3 / 100.0  # Davidson et al. 2014: 1.9 times K 1.15
    fat = fish_weight(seen_fish(250.0, 1000.0 * fat_g / 0.5), trout).weight_g
    assert fat.sd / fat.value < 0.6 * by_length.sd / by_length.value
    assert fat.low < fat_g < fat.high


def test_an_outline_that_no_trout_can_have_is_not_used() -> None:
    """Over 2.2 or under 0.5 times the published condition the length weighs alone."""
    trout = load_species("rainbow-trout")
    usual_mm3 = 1000.0 * 0.0138 * 25.0**3 / 0.5
    for factor, used in ((0.4, False), (0.6, True), (2.0, True), (2.4, False)):
        weight = fish_weight(seen_fish(250.0, factor * usual_mm3), trout)
        assert (weight.weight_from == "outline") is used
        assert ("published-weight" in weight.flags) is not used


# --- the fish of a photo ----------------------------------------------------------


def kept(fish: FishLength) -> MeasuredFish:
    return weighed(fish, load_species("rainbow-trout"))


def test_the_mean_of_a_photo_keeps_what_its_fish_share() -> None:
    """A hundred fish shrink the fishes' errors tenfold and the photo's not at all."""
    scale = UncertaintySource(name="lens", relative_sd=0.02, scope="photo")
    one = kept(seen_fish(250.0, 400_000.0, scale))
    trout = load_species("rainbow-trout")
    few, many = photo_weights([one], trout), photo_weights([one] * 100, trout)
    assert few is not None
    assert many is not None
    shared = [s for s in fish_weight(one, trout).sources if s.scope != "fish"]
    expected = math.sqrt(sum(s.relative_sd**2 for s in shared))
    got = many.mean_weight_g
    assert got.sd / got.value == pytest.approx(expected, rel=0.02)
    assert few.mean_weight_g.sd > got.sd
    # W / L^3 keeps nothing of a scale that is wrong for both
    k = many.condition_factor
    assert k.sd / k.value < math.sqrt(expected**2 - 0.05**2)


@pytest.mark.parametrize(
    ("fish", "why"),
    [
        (
            replace(
                seen_fish(250.0, 400_000.0),
                midline_px=np.array([[0.0, 0.0], [500.0, 60.0], [1000.0, 0.0]]),
            ),
            "sag of 6 % of the length",
        ),
        (
            replace(seen_fish(250.0, 400_000.0), fork_px=np.array([290.0, 0.0])),
            "290 pixels",
        ),
        (seen_fish(250.0, 600_000.0), "1.5 times the condition of the others"),
    ],
)
def test_a_doubtful_outline_is_weighed_by_length(fish: FishLength, why: str) -> None:
    """As the rules of the fall-back say; the fish stays used and says so."""
    trout = load_species("rainbow-trout")
    others = [kept(seen_fish(250.0, 400_000.0))] * 3
    found = weigh_together([*others, kept(fish)], lambda _: trout)[-1]
    assert found.weight_from == "length", why
    assert "outline-doubtful" in found.flags
    assert found.complete


def test_a_doubtful_one_among_fat_fish_is_taken_as_fat() -> None:
    """Its length alone would say 216 g; the others are 1.4 times as heavy as that."""
    trout = load_species("rainbow-trout")
    fat = kept(seen_fish(250.0, 1.4 * 1000.0 * 216.0 / 0.5))
    small = kept(replace(seen_fish(250.0, 400_000.0), fork_px=np.array([290.0, 0.0])))
    found = weigh_together([fat, fat, fat, small], lambda _: trout)[-1]
    assert found.weight_from == "length"
    assert fat.weight_g is not None
    assert found.weight_g == pytest.approx(fat.weight_g, rel=0.01)
    assert found.weight_se_g is not None
    assert found.weight_se_g / fat.weight_g < 0.2
    assert "published-weight" not in found.flags


def test_fish_that_lie_along_each_other_are_weighed_by_length() -> None:
    """Where two bodies run side by side one hides the other's edge, or shades it."""
    x = np.linspace(0.0, 1000.0, 200)
    upper = np.column_stack([x, np.full(200, 0.0)])
    fish = replace(seen_fish(250.0, 400_000.0), outline_px=upper)
    trout = load_species("rainbow-trout")
    for gap_px, used in ((5.0, "length"), (60.0, "outline")):
        beside = replace(fish, outline_px=upper + np.array([0.0, gap_px]))
        found = weigh_together([kept(fish), kept(beside)], lambda _: trout)
        assert {one.weight_from for one in found} == {used}


def test_a_photo_kept_before_has_no_depth_and_still_opens() -> None:
    """Its weights stay as they were; what is new is null."""
    trout = load_species("rainbow-trout")
    photo = PhotoMeasurement(
        photo="old.jpg", width_px=10, height_px=10, fish=(kept(fish_of_250_mm()),)
    )
    data = with_weights(photo, lambda _: trout).to_json()
    new = ("mean_weight_g", "mean_weight_interval_g", "condition_factor")
    for name in (*new, "condition_factor_interval"):
        del data[name]
    for name in ("weight_from", "squared_depth_mm3"):
        del data["fish"][0][name]
    opened = PhotoMeasurement.from_json(data)
    assert opened.fish[0].weight_g == pytest.approx(photo.fish[0].weight_g, abs=0.01)
    assert opened.fish[0].weight_from is None
    assert opened.mean_weight_g is None
