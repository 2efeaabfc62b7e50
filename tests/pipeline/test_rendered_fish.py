"""The generator's bodies have the proportions and weights that they claim."""

import csv
from collections import Counter
from pathlib import Path
from statistics import fmean

import cv2
import numpy as np
import pytest

from sample_images.generator.blind import BLIND
from sample_images.generator.camera import CameraSpec
from sample_images.generator.families import FAMILIES
from sample_images.generator.fish import Body, FishSpec, depth_ratio_for
from sample_images.generator.held_out import HELD_OUT
from sample_images.generator.recipes import Recipe
from sample_images.generator.scene import Scene, SceneSpec
from sample_images.generator.sets import SAMPLES
from sample_images.generator.truth import describe

each_family = pytest.mark.parametrize("family", sorted(FAMILIES))


def _fish(family: str, condition: float = 1.6) -> FishSpec:
    shape = FAMILIES[family]
    weight = condition * 20.0**3 / 100
    thickness = fmean(shape.thickness)
    return FishSpec(
        fork_length_mm=200.0,
        weight_g=weight,
        depth_ratio=depth_ratio_for(200.0, weight, thickness, family),
        thickness_ratio=thickness,
        skin="silver",
        family=family,
        seed=1,
        fork_depth=fmean(shape.fork_depth),
        tail_spread=fmean(shape.tail_spread),
    )


@pytest.mark.shared
@pytest.mark.parametrize("family", ["bream", "perch"])
def test_proportions_are_those_of_measured_fish(shared: Path, family: str) -> None:
    """Brofeldt 1917: means of the fish of Laengelmaevesi, weights over 0."""
    table = shared / "reference" / "datasets" / "finnish_159_fish.csv"
    with table.open(encoding="utf-8") as lines:
        rows = [
            {k: float(v) for k, v in row.items() if k != "species_name"}
            for row in csv.DictReader(lines)
            if row["species_name"] == family and float(row["weight_g"] or 0) > 0
        ]
    fork = [row["length_fork_cm"] for row in rows]
    total = [row["length_total_cm"] for row in rows]
    condition = fmean(
        100 * row["weight_g"] / f**3 for row, f in zip(rows, fork, strict=True)
    )
    depth = fmean(
        row["height_pct_total"] / 100 * t / f
        for row, t, f in zip(rows, total, fork, strict=True)
    )
    body = Body(_fish(family, condition))
    # Depth follows from weight, width and a cross-section that only resembles theirs.
    assert body.body_depth_mm / 200 == pytest.approx(depth, rel=0.06)
    standard = fmean(
        row["length_std_cm"] / f for row, f in zip(rows, fork, strict=True)
    )
    assert body.family.caudal_base == pytest.approx(standard, abs=0.01)
    assert body.total_length_mm / 200 == pytest.approx(
        fmean(t / f for t, f in zip(total, fork, strict=True)), abs=0.01
    )


@each_family
def test_a_body_weighs_what_it_should(family: str) -> None:
    """Volume times the density of live fish, near that of water, is the weight."""
    spec = _fish(family)
    grams = Body(spec).trunk().signed_volume_mm3() * 1.03e-3
    # Lying on the board flattens it a little; a section fuller than an ellipse adds.
    assert grams == pytest.approx(spec.weight_g, rel=0.04)


@each_family
def test_truth_hangs_together_for_every_body(family: str) -> None:
    """Snout and tail are at the outline's edge, the mid-line within it."""
    scene = Scene(
        SceneSpec(
            name=family,
            board="wood",
            light="overcast",
            camera=CameraSpec(width_px=1632, height_px=1224, height_mm=500.0),
            papers=(),
            fish=(_fish(family),),
            seed=1,
        )
    )
    fish = describe(scene)["fish"][0]
    outline = np.array(fish["outline_px"], dtype=np.float32)
    for x, y in fish["midline_px"]:
        inside = cv2.pointPolygonTest(outline, (float(x), float(y)), measureDist=True)
        assert inside > -1.0
    for end in ("snout_px", "fork_px"):
        x, y = fish[end]
        edge = cv2.pointPolygonTest(outline, (float(x), float(y)), measureDist=True)
        assert abs(edge) < 6  # px, of a fish 480 px long
    lengths = [fish[f"{n}_length_mm"] for n in ("standard", "fork", "total")]
    assert lengths == sorted(lengths)
    # The silhouette reaches from the snout to the longest part of the tail.
    extent = float(np.ptp(outline[:, 0])) * 500.0 / scene.camera.focal_px
    assert extent == pytest.approx(fish["total_length_mm"], rel=0.03)


def _skins(recipe: Recipe) -> set[str]:
    second = recipe.second.skins if recipe.second else ()
    return {*recipe.cohort.skins, *second}


def test_the_blind_set_shares_nothing_with_the_others() -> None:
    """Seeds, boards, lights and skins are its own."""
    seen = (*SAMPLES, *HELD_OUT)
    shown = [recipe for recipe in BLIND if recipe.count]
    assert not {r.seed for r in BLIND} & {r.seed for r in seen}
    assert not {r.board for r in BLIND} & {r.board for r in seen}
    assert not {r.light for r in BLIND} & {r.light for r in seen}
    assert not set().union(*map(_skins, shown)) & set().union(*map(_skins, seen))
    assert len({r.seed for r in BLIND}) == len({r.name for r in BLIND}) == len(BLIND)


def test_the_blind_set_holds_what_it_promises() -> None:
    """Eight groups of fish, some of other families, and photos without one."""
    assert Counter(recipe.group for recipe in BLIND) == {
        "net": 6,
        "other-bodies": 6,
        "empty": 5,
        "clean": 8,
        "touching": 5,
        "dark": 3,
        "glare": 3,
        "overlapping": 4,
        "bent": 3,
    }
    assert all((recipe.count == 0) == (recipe.group == "empty") for recipe in BLIND)
    families = {
        cohort.family
        for recipe in BLIND
        for cohort in (recipe.cohort, recipe.second)
        if cohort and recipe.count
    }
    assert families == set(FAMILIES)
