"""The generator's nets are what their description says, and hide no fish."""

from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.base.arrays import FloatArray
from sample_images.generator.camera import CameraSpec
from sample_images.generator.fish import FishSpec, depth_ratio_for
from sample_images.generator.ground import CELL_MM, HeightField, Room
from sample_images.generator.net import Net, NetSpec, drape
from sample_images.generator.scene import Scene, SceneSpec
from sample_images.generator.truth import describe

NET = NetSpec(
    knotted=True,
    mesh_mm=16.0,
    cord_mm=1.6,
    colour=(0.1, 0.3, 0.15),
    size_mm=(420.0, 300.0),
    slack=0.06,
    folds=2,
    seed=5,
)
FISH = FishSpec(
    fork_length_mm=220.0,
    weight_g=125.0,
    depth_ratio=depth_ratio_for(220.0, 125.0, 0.5),
    thickness_ratio=0.5,
    skin="rainbow",
    seed=3,
)


def _board_with_dome() -> Room:
    floor = HeightField.flat(0.0)
    count = len(floor.heights_mm)
    places = (np.arange(count) - (count - 1) / 2) * CELL_MM
    off = np.hypot(places[:, None], places) / 60
    floor.heights_mm[:] = 25 * np.sqrt(np.clip(1 - off**2, 0, 1))
    return Room(floor=floor, ceiling=HeightField.flat(1000.0))


def _flat_room() -> Room:
    return Room(floor=HeightField.flat(0.0), ceiling=HeightField.flat(1000.0))


def _bars(net: Net) -> FloatArray:
    ends = net.knots_mm[net.bars]
    lengths: FloatArray = np.linalg.norm(ends[:, 0] - ends[:, 1], axis=1)
    return lengths


@pytest.mark.parametrize("mesh_mm", [6.0, 16.0, 25.0])
def test_no_cord_is_longer_than_the_mesh(mesh_mm: float) -> None:
    """Twine gives a few per cent where it is drawn over a fish, not more."""
    net = drape(replace(NET, mesh_mm=mesh_mm), _board_with_dome())
    bars = _bars(net) / mesh_mm
    assert bars.max() < 1.10
    assert np.percentile(bars, 95) < 1.02
    assert np.median(bars) > 0.95  # and it is not drawn together either


def test_a_stretched_net_keeps_its_meshes_square() -> None:
    """Flat, without slack, each mesh has the area of its rhombus."""
    spec = replace(NET, slack=0.0, folds=0, opening_deg=70.0)
    net = drape(spec, _flat_room())
    assert _bars(net) == pytest.approx(16.0, rel=1e-3)
    low, high = net.knots_mm.min(axis=0), net.knots_mm.max(axis=0)
    area = float(np.prod((high - low)[:2]))
    # One knot belongs to each mesh of m^2 sin(angle).
    assert area / len(net.knots_mm) == pytest.approx(
        16.0**2 * np.sin(np.radians(70)), rel=0.12
    )


def test_cords_keep_their_thickness_and_lie_on_what_is_below() -> None:
    """Every point of a tube is half a diameter from its line, none under the board."""
    room = _board_with_dome()
    net = drape(replace(NET, knotted=False), room)
    sides = 9  # of a tube thicker than 1.5 mm, the first one twice
    vertices, start = net.mesh().vertices_mm, 0
    for line in net.lines:
        tube = vertices[start : start + len(line) * sides].reshape(-1, sides, 3)
        start += len(line) * sides
        assert np.linalg.norm(tube - line[:, None], axis=2) == pytest.approx(0.8)
        assert (line[:, 2] >= room.floor.at(line) + 0.8 - 1e-6).all()
    assert start == len(vertices)


def _scene(*nets: NetSpec) -> Scene:
    return Scene(
        SceneSpec(
            name="netted",
            board="wood",
            light="overcast",
            camera=CameraSpec(width_px=1632, height_px=1224, height_mm=620.0),
            papers=(),
            fish=(FISH,),
            nets=nets,
            seed=1,
        )
    )


def test_a_fish_under_a_net_is_whole() -> None:
    """Square netting of cord d and mesh m hides 1 - (1 - d / m)^2 of what is flat."""
    spec = replace(NET, knotted=False, slack=0.0, folds=0, opening_deg=90.0)
    fish = describe(_scene(spec))["fish"][0]
    bare = describe(_scene())["fish"][0]
    assert fish["occluded_fraction"] == 0.0
    assert fish["netted"]
    assert not bare["netted"]
    hidden = 1 - (1 - 1.6 / 16.0) ** 2
    # On the fish's flanks the cords lie closer as seen from above, and nearer the lens.
    assert hidden - 0.01 < fish["net_cords_fraction"] < hidden + 0.06
    for key in ("outline_px", "midline_px", "snout_px", "fork_px"):
        assert fish[key] == bare[key]


def test_netting_under_the_fish_does_not_cover_it() -> None:
    """It is named in the truth, and no cord stands above the fish's underside."""
    under = replace(NET, under=True)
    scene = Scene(
        replace(_scene(under).spec, fish=(replace(FISH, base_mm=under.thickness_mm),))
    )
    facts = describe(scene)
    assert not facts["fish"][0]["netted"]
    assert facts["nets"] == [
        {"lies": "under the fish", "knotted": True, "mesh_mm": 16.0, "cord_mm": 1.6}
    ]
    knots = scene.nets[0].knots_mm
    body = scene.fish_meshes[0].vertices_mm
    middle = knots[np.hypot(knots[:, 0], knots[:, 1]) < 20]
    assert len(middle) > 3
    assert middle[:, 2].max() < body[:, 2].min()
