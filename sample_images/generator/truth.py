"""What is true about a rendered photograph, from its geometry."""

from typing import Any

import numpy as np

from sample_images.generator import truth_body
from sample_images.generator.camera import Array
from sample_images.generator.fish import Body
from sample_images.generator.net import NetSpec
from sample_images.generator.scene import Scene
from sample_images.generator.silhouette import Silhouette

STATEMENT = (
    "Invented and rendered: no real fish, place, person or firm. Every figure here "
    "comes from the scene's geometry, none from the pixels."
)
DEFINITIONS = {
    "pixels": "(0, 0) is the centre of the top-left pixel of the photo as displayed",
    "corners_px": "outer corners of the printed ink, clockwise from the marker's own "
    "top-left",
    "lift_mm": "height of the paper's face above the board",
    "family": "body shape, of those in the generator's families.py",
    "fork_length_mm": "snout tip to the middle of the tail fork (of the tail's "
    "margin where it has none) along the body's axis, "
    "parallel to the board, as a measuring board reads it after straightening",
    "total_length_mm": "the same to the tip of the lobes in natural spread",
    "standard_length_mm": "the same to the end of the spine",
    "body_depth_mm": "greatest depth without fins",
    "thickness_mm": "greatest height of the body above what it lies on",
    "midline_px": "the body's axis in its middle plane, snout to fork",
    "midline_height_mm": "height of the mid-line's points above the board",
    "outline_px": "silhouette of the whole fish, fins included, also where another "
    "fish or the photo's edge hides it",
    "nets": "netting over the fish or under them; mesh_mm is one side of a mesh, knot "
    "to knot",
    "net_cords_fraction": "share of the fish's silhouette behind cords of a net over "
    "it; a fish under a net is whole, so occluded_fraction does not count them",
    "netted": "a net lies over the fish",
    "weight_g": "drawn from the length-weight relation in length_weight; the body's "
    "volume times 1.03 g/cm3 equals it",
}


def _rounded(values: Array, digits: int = 2) -> Any:
    return np.round(values, digits).tolist()


def _fish(
    scene: Scene, body: Body, outline: Silhouette, above: list[Silhouette]
) -> dict[str, Any]:
    """Return what is true about one fish; ``above`` are those that lie on it."""
    spec = body.spec
    midline = scene.project(body.midline_mm())
    points = outline.centres_px(2)
    width, height = scene.camera.width_px, scene.camera.height_px
    outside = (points < -0.5).any(axis=1)
    outside |= (points[:, 0] > width - 0.5) | (points[:, 1] > height - 0.5)
    hidden = np.zeros(len(points), dtype=bool)
    for other in above:
        hidden |= other.covers(points)
    over = [net for net in scene.nets if not net.spec.under]
    cords = sum(outline.share_behind(scene, net) for net in over)
    cut, occluded = float(outside.mean()), float((hidden & ~outside).mean())
    return {
        "fork_length_mm": round(spec.fork_length_mm, 2),
        "total_length_mm": round(body.total_length_mm, 2),
        "standard_length_mm": round(spec.fork_length_mm * body.family.caudal_base, 2),
        "body_depth_mm": round(body.body_depth_mm, 2),
        "thickness_mm": round(2 * body.half_thickness_mm, 2),
        "weight_g": round(spec.weight_g, 1),
        "skin": spec.skin,
        "family": spec.family,
        "bent": spec.bend_deg != 0.0,
        "bend_deg": spec.bend_deg,
        "s_shape": spec.s_shape,
        "cut_fraction": round(cut, 4),
        "occluded_fraction": round(occluded, 4),
        "netted": cords > 0,
        "net_cords_fraction": round(cords, 4),
        "snout_px": _rounded(midline[0]),
        "fork_px": _rounded(midline[-1]),
        "midline_px": _rounded(midline),
        "midline_height_mm": _rounded(body.midline_mm()[:, 2]),
        "outline_px": _rounded(outline.outline_px(), 1),
    }


def _net(spec: NetSpec) -> dict[str, Any]:
    """Return what is true about a net."""
    lies = "heap" if spec.heap else "under the fish" if spec.under else "over the fish"
    return {
        "lies": lies,
        "knotted": spec.knotted,
        "mesh_mm": spec.mesh_mm,
        "cord_mm": spec.cord_mm,
    }


def describe(scene: Scene) -> dict[str, Any]:
    """Return the JSON object that goes beside the photograph."""
    camera, spec = scene.camera, scene.spec
    outlines = [Silhouette(scene, mesh) for mesh in scene.fish_meshes]
    fish = []
    for index, body in enumerate(scene.bodies):
        above = [
            outlines[k]
            for k, other in enumerate(scene.bodies)
            if (other.spec.layer, other.spec.base_mm)
            > (body.spec.layer, body.spec.base_mm)
        ]
        facts = _fish(scene, body, outlines[index], above)
        if spec.full_truth:
            facts |= truth_body.facts(scene, body, above)
        fish.append(facts)
    markers = [
        {
            "id": marker_id,
            "kind": piece_spec.kind,
            "side_mm": 60.0 if piece_spec.kind == "single" else 40.0,
            "lift_mm": round(piece_spec.lift_mm, 2),
            "corners_px": _rounded(scene.project(corners), 3),
        }
        for piece_spec, piece in zip(spec.papers, scene.papers, strict=True)
        for marker_id, corners in piece.corners_mm.items()
    ]
    more = truth_body.of_scene(scene) if spec.full_truth else {}
    return {
        "statement": STATEMENT,
        "definitions": DEFINITIONS | (truth_body.MORE if spec.full_truth else {}),
        "notes": spec.notes,
        "tags": list(spec.tags),
        "group": spec.group,
        "clutter": [item.kind for item in spec.items],
        "nets": [_net(net) for net in spec.nets],
        "board": spec.board,
        "light": spec.light,
        "camera": {
            "width_px": camera.width_px,
            "height_px": camera.height_px,
            "focal_px": round(camera.focal_px, 3),
            "centre_px": list(camera.centre_px),
            "k1": camera.k1,
            "height_mm": round(float(camera.position_mm[2]), 2),
            "tilt_deg": camera.tilt_deg,
            "exif_focal_35mm": camera.focal_35mm if camera.write_focal else None,
        },
        "print_scale": spec.papers[0].print_scale if spec.papers else None,
        "markers": markers,
        **more,
        "fish": fish,
    }
