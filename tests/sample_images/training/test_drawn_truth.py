"""What the drawn scenes say of themselves is what their pictures show."""

import time
from pathlib import Path

import numpy as np
import pytest

from sample_images.training import columns as col
from sample_images.training.bodies import draw_body, load_all_bodies
from sample_images.training.cutouts import photo_files
from sample_images.training.end_scenes import EndScene, draw_end_scene
from sample_images.training.end_skin import fine_alpha
from sample_images.training.layouts import draw_scene
from sample_images.training.mouths import open_mouth
from sample_images.training.reef import held_out, load_reef_bodies
from sample_images.training.scene import MAX_FISH, Scene, SpriteMaker
from sample_images.training.shapes import Body, rasterise
from sample_images.training.tails import put_tail

pytestmark = pytest.mark.shared


@pytest.fixture(scope="module")
def bodies(shared: Path) -> tuple[Body, ...]:
    return load_all_bodies(shared / "photos")


@pytest.fixture(scope="module")
def scenes(bodies: tuple[Body, ...]) -> list[Scene]:
    rng = np.random.default_rng(7)
    maker = SpriteMaker(bodies, (), rng)
    layouts = ("tub", "tub", "crowd", "heap", "mixed", "touch", "none")
    return [draw_scene(maker, rng, layout) for layout in layouts]


@pytest.fixture(scope="module")
def ends(bodies: tuple[Body, ...]) -> list[EndScene]:
    rng = np.random.default_rng(8)
    maker = SpriteMaker(bodies, (), rng)
    return [draw_end_scene(maker, rng) for _ in range(40)]


def test_body_lies_within_cover_and_leaves_fins_out(scenes: list[Scene]) -> None:
    for scene in scenes:
        assert (scene.body <= scene.cover).all()
    whole = sum(int(scene.cover.sum()) for scene in scenes)
    bare = sum(int(scene.body.sum()) for scene in scenes)
    # fins and tail are a tenth to a quarter of a fish's side: by no means all or none
    assert 0.6 * whole < bare < 0.97 * whole


def test_used_rows_come_first_and_columns_hold_what_they_name(
    scenes: list[Scene],
) -> None:
    for scene in scenes:
        used = scene.fish[:, col.USED]
        count = int(used.sum())
        assert (used[:count] == 1).all()
        assert scene.owner.max() <= count <= MAX_FISH
        rows = scene.fish[:count]
        for column in (
            col.SNOUT_SEEN,
            col.HIND_SEEN,
            col.POSTURE,
            col.RAISED,
            col.SNOUT_SHADOW,
            col.HIND_SHADOW,
            col.IN_WATER,
        ):
            assert np.isin(rows[:, column], (0, 1)).all()
        for column in (col.MIDLINE_SEEN, col.AREA_SEEN):
            assert ((rows[:, column] >= 0) & (rows[:, column] <= 1)).all()
        tip = rows[:, col.HIND_KIND] == col.TIP
        assert (tip == (rows[:, col.POSTURE] == col.UPRIGHT)).all()
        chord = np.hypot(*(rows[:, 0:2] - rows[:, 2:4]).T)
        assert (chord <= rows[:, col.LENGTH] * 1.05 + 8).all()  # ripples move ends


def test_tubs_hold_fish_in_water_and_crowds_many(scenes: list[Scene]) -> None:
    tubs, crowd = scenes[:2], scenes[2]
    for scene in tubs:
        used = scene.fish[:, col.USED] > 0
        assert used.any()
        assert scene.fish[used, col.IN_WATER].all()
    assert crowd.fish[:, col.USED].sum() >= 40
    assert np.median(crowd.fish[crowd.fish[:, col.USED] > 0, col.LENGTH]) < 60


def test_seen_ends_of_pieces_lie_on_the_edge_of_a_fish(ends: list[EndScene]) -> None:
    """Four pixels inward lies fish, except under another; outward of lone fish none."""
    inward: list[float] = []
    outward: list[float] = []
    for scene in ends:
        used = scene.ends[scene.ends[:, col.END_USED] > 0]
        for row in used[used[:, col.END_SEEN] > 0]:
            out = row[col.END_OUT : col.END_OUT + 2]
            assert np.hypot(*out) == pytest.approx(1, abs=1e-3)
            for list_, away in ((inward, -5.0), (outward, 5.0)):
                x, y = np.clip((row[:2] + out * away) / 2, 0, 127).astype(int)
                list_.append(scene.cover[y, x] / 255)
    assert len(inward) > 25
    assert np.mean(np.array(inward) > 0.5) > 0.9
    assert np.mean(np.array(outward) < 0.5) > 0.75


def test_some_pieces_hold_no_end_and_kinds_are_as_said(ends: list[EndScene]) -> None:
    rows = np.vstack([scene.ends for scene in ends])
    rows = rows[rows[:, col.END_USED] > 0]
    assert set(rows[:, col.END_KIND]) == {0.0, 1.0, 2.0}
    assert rows[:, col.END_FISH_LENGTH].min() > 150
    assert any(scene.ends[:, col.END_USED].sum() == 0 for scene in ends)


def test_an_outline_is_filled_to_a_twentieth_of_a_pixel() -> None:
    """A circle of 60 pixels covers pi r^2, its middle where it was put."""
    angle = np.linspace(0, 2 * np.pi, 400, endpoint=False)
    for shift in (0.0, 0.3, 0.77):
        circle = np.column_stack([np.cos(angle), np.sin(angle)]) * 60
        alpha = fine_alpha(circle + np.array([120 + shift, 110.4]), (256, 256))
        assert np.sqrt(alpha.sum() / np.pi) == pytest.approx(60, abs=0.05)
        columns = np.arange(256)
        middle = (alpha * columns).sum() / alpha.sum()
        assert middle == pytest.approx(120 + shift, abs=0.05)


def test_a_body_is_drawn_as_long_as_it_is() -> None:
    """An ellipse of one fork length, at three scales, to a quarter pixel."""
    angle = np.linspace(0, 2 * np.pi, 400, endpoint=False)
    oval = np.column_stack([0.5 + 0.5 * np.cos(angle), 0.15 * np.sin(angle)])
    body = Body("oval", oval.astype(np.float32), 0.9, 0.0, trunk=oval)
    for scale in (150.0, 201.3, 340.0):
        raster = rasterise(body, scale)
        assert raster.alpha.sum(axis=1).max() == pytest.approx(scale, abs=0.3)
        assert raster.alpha.sum(axis=0).max() == pytest.approx(0.3 * scale, abs=0.3)


@pytest.mark.parametrize("kind", [col.FORKED, col.ROUND])
def test_a_new_tail_ends_one_fork_length_behind_the_snout(
    bodies: tuple[Body, ...], kind: int
) -> None:
    rng = np.random.default_rng(3)
    for body in bodies[::60]:
        made = put_tail(body, rng, kind)
        hind = np.abs(made.polygon - [1.0, 0.0]).sum(axis=1)
        assert hind.min() < 1e-4
        lobes = made.polygon[:, 0].max()
        at_fork = made.polygon[int(hind.argmin()), 0]
        assert lobes > at_fork + 0.002 if kind == col.FORKED else lobes < 1.08


def test_an_open_mouth_leaves_the_snout_foremost(bodies: tuple[Body, ...]) -> None:
    rng = np.random.default_rng(4)
    for _ in range(20):
        body = open_mouth(draw_body(bodies, rng), rng)
        assert np.hypot(*body.polygon.T).min() < 0.02


def test_held_out_outlines_and_photos_are_not_drawn(shared: Path) -> None:
    """The authors' validation part, every sixth block of forty; one tank photo only."""
    folder = shared / "photos" / "outlines_reef_ccby"
    drawn = {body.name for body in load_reef_bodies(folder)}
    kept = {body.name for body in load_reef_bodies(folder, held=True)}
    assert drawn
    assert kept
    assert not drawn & kept
    assert all(held_out(number) for number in (*range(200, 240), *range(720, 910)))
    tank = [name for name in photo_files() if name.startswith("ras_topview")]
    assert len(tank) == 1
    assert not any(
        name.startswith(("phone_trout", "single_open")) for name in photo_files()
    )


def test_pieces_are_cheap(bodies: tuple[Body, ...]) -> None:
    """A piece costs less than a scene: their ratio is in the model card."""
    rng = np.random.default_rng(5)
    maker = SpriteMaker(bodies, (), rng)
    cost = []
    for draw in (draw_scene, draw_end_scene):
        draw(maker, rng)
        start = time.process_time()
        for _ in range(12):
            draw(maker, rng)
        cost.append(time.process_time() - start)
    assert cost[1] < cost[0]
