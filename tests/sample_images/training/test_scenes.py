"""Drawn training scenes: the truth is that of the picture, held-out things are out."""

import json
from importlib import resources
from pathlib import Path

import numpy as np
import pytest

from sample_images.training.bodies import load_all_bodies
from sample_images.training.cutouts import load_cutouts
from sample_images.training.layouts import draw_scene
from sample_images.training.scene import Scene, SpriteMaker
from sample_images.training.shapes import Body, load_bodies
from sample_images.training.skins import HELD_OUT_SKINS, PALETTES
from sample_images.training.surfaces import HELD_OUT_SURFACES, SURFACES

pytestmark = pytest.mark.shared


@pytest.fixture(scope="module")
def bodies(shared: Path) -> tuple[Body, ...]:
    return load_all_bodies(shared / "photos")


def draw(bodies: tuple[Body, ...], layout: str, seed: int) -> Scene:
    rng = np.random.default_rng(seed)
    return draw_scene(SpriteMaker(bodies, (), rng), rng, layout)


def test_same_seed_same_scene(bodies: tuple[Body, ...]) -> None:
    one, two = draw(bodies, "heap", 5), draw(bodies, "heap", 5)
    assert np.array_equal(one.photo, two.photo)
    assert np.array_equal(one.fish, two.fish)


def test_no_fish_no_cover(bodies: tuple[Body, ...]) -> None:
    scene = draw(bodies, "none", 3)
    assert scene.cover.max() == 0
    assert scene.fish[:, 8].sum() == 0


@pytest.mark.parametrize("seed", range(6))
def test_ends_that_are_seen_lie_on_their_fish(
    bodies: tuple[Body, ...], seed: int
) -> None:
    """A seen end has cells of its own fish within 4 % of the length (from 30 px)."""
    scene = draw(bodies, "touch", seed)
    for number, row in enumerate(scene.fish, start=1):
        for first, seen in ((0, row[4]), (2, row[5])):
            if not seen or row[7] < 30:
                continue
            rows, columns = np.nonzero(scene.owner == number)
            away = np.hypot(
                columns * 2 + 0.5 - row[first], rows * 2 + 0.5 - row[first + 1]
            )
            assert away.min() < max(4.0, 0.04 * row[7])


def test_bodies_have_the_fork_behind_the_tail_base(shared: Path) -> None:
    """218 outlines; the fork is the unit, so the tail's base comes before it."""
    bodies = load_bodies(shared / "photos" / "outlines_nsfishes_ccbysa")
    assert len(bodies) == 218
    for body in bodies:
        assert 0.75 < body.tail_base_x < 1.0
        assert np.abs(body.polygon - [1.0, 0.0]).sum(axis=1).min() < 0.02


def test_held_out_photos_skins_and_surfaces_are_not_drawn(shared: Path) -> None:
    list_ = resources.files("sample_images.training").joinpath("cutouts.json")
    text = list_.read_text()
    used = {entry["photo"] for entry in json.loads(text)}
    assert not any("NEG_" in name or "phone_trout" in name for name in used)
    wikimedia = {name for name in used if name.startswith("wikimedia_fish/")}
    assert (
        len(wikimedia)
        <= len(list((shared / "photos/wikimedia_fish").glob("*.jpg"))) / 2
    )
    sides = [cut for cut in load_cutouts(shared / "photos") if not cut.back]
    assert len(sides) == len(used)
    assert all(SURFACES[name][0] == 0.0 for name in HELD_OUT_SURFACES)
    assert set(HELD_OUT_SKINS) < set(PALETTES)
