"""What is true beyond lengths: bodies without fins, postures, ends, water."""

from dataclasses import replace
from typing import Any

import numpy as np

from sample_images.generator.camera import Array
from sample_images.generator.fish import Body
from sample_images.generator.mesh import join
from sample_images.generator.mouths import open_mouth
from sample_images.generator.scene import Scene
from sample_images.generator.silhouette import Silhouette
from sample_images.generator.swim import SwimmingBody
from sample_images.generator.water import Surface

MORE = {
    "lies": "side, or upright as it swims",
    "hind_end": "fork, or round where the tail has none (fork_px is then the middle "
    "of its hind edge)",
    "snout_px": "tip of the upper jaw, also where the mouth is open",
    "body_outline_px": "silhouette without fins, cut straight across where the spine "
    "ends (standard length)",
    "squared_depth_mm3": "integral along the axis of the squared depth without fins, "
    "snout to the end of the spine",
    "depth_profile_mm": "depth without fins at 0, 5, ... 100 % of the fork length; 0 "
    "behind the scaly part",
    "posture": "heights of snout and fork as shares of half the greatest thickness",
    "tail": "opacity is the share of light that it stops, splits are tears in it",
    "snout_seen": "within the photo and not under another fish; so fork_seen",
    "tail_tip_px": "of an upright fish: the hindmost point seen from above, the tip of "
    "the upper lobe (total length; the fork lies under it)",
    "belly_over_bottom_mm": "of an upright fish: lowest point of the belly over the "
    "floor of the tub",
    "water": "all pixels are where light arrives that was bent at the rippled surface; "
    "corner_shift_px is how far ripples move the markers' corners",
    "aslope_deg": "of a fish that lies on others: how much its fork is higher than its "
    "snout, as an angle; occluded_fraction is the share that other fish cover",
    "layer": "fish of a higher layer lie on those of a lower one",
}
_STATIONS = np.linspace(0.0, 1.0, 21)


def _seen(scene: Scene, point_px: Array, above: list[Silhouette]) -> bool:
    """Say whether a point is in the photo and under no other fish."""
    size = np.array([scene.camera.width_px, scene.camera.height_px])
    if (point_px < -0.5).any() or (point_px > size - 0.5).any():
        return False
    return not any(other.covers(point_px[None])[0] for other in above)


def facts(scene: Scene, body: Body, above: list[Silhouette]) -> dict[str, Any]:
    """Return what is true about one fish, beyond what every set says."""
    spec, family = body.spec, body.family
    upright = isinstance(body, SwimmingBody)
    ends = body.midline_mm()[[0, -1]]
    ends_px = scene.project(ends)
    bare = join([body.trunk(family.caudal_base), *open_mouth(body)[:1]])
    dorsal, ventral, _ = body.halves_mm(_STATIONS)
    depths = np.where(family.body_end > _STATIONS, dorsal + ventral, 0.0)
    outline = Silhouette(scene, bare).outline_px()
    more = swimming(scene, body) if isinstance(body, SwimmingBody) else {}
    if spec.rest_mm is not None:
        rise = spec.rest_mm[1] - spec.rest_mm[0]
        more["aslope_deg"] = round(float(np.degrees(np.arctan(rise / body.scale))), 2)
    heights = (ends[:, 2] - spec.base_mm) / body.half_thickness_mm
    return {
        "lies": "upright" if upright else "side",
        "hind_end": "fork" if spec.fork_depth > 0 else "round",
        "snout_height_mm": round(float(ends[0, 2]), 2),
        "fork_height_mm": round(float(ends[1, 2]), 2),
        "posture": None
        if upright
        else dict(zip(("snout", "fork"), heights.round(3).tolist(), strict=True)),
        "gape_deg": spec.gape_deg,
        "tail": {
            "opacity": spec.tail.opacity,
            "splits": spec.tail.splits,
            "split_depth": spec.tail.split_depth,
        },
        "layer": spec.layer,
        "snout_seen": _seen(scene, ends_px[0], above),
        "fork_seen": _seen(scene, ends_px[1], above),
        "squared_depth_mm3": round(body.squared_depth_mm3(family.caudal_base), 1),
        "depth_profile_mm": depths.round(2).tolist(),
        **more,
        "body_outline_px": outline.round(1).tolist(),
    }


def swimming(scene: Scene, body: SwimmingBody) -> dict[str, Any]:
    """Return what is true about a fish that swims upright."""
    swim, tip = body.spec.swim, body.tail_tip_mm()
    if swim is None:
        return {}
    return {
        "belly_over_bottom_mm": swim.belly_mm,
        "back_over_bottom_mm": round(body.top_mm(), 1),
        "pitch_deg": swim.pitch_deg,
        "roll_deg": swim.roll_deg,
        "tail_tip_px": scene.project(tip)[0].round(2).tolist(),
        "tail_tip_height_mm": round(float(tip[0, 2]), 2),
    }


def of_scene(scene: Scene) -> dict[str, Any]:
    """Return what is true about the whole photo, beyond what every set says."""
    spec, surface = scene.spec, scene.surface
    if surface is None:
        return {"in_water": False, "film": spec.film}
    corners = np.concatenate([c for p in scene.papers for c in p.corners_mm.values()])
    calm = Surface(replace(surface.spec, waves=()))
    still = scene.camera.project(calm.crossing_mm(corners, scene.camera.position_mm))
    shift = np.linalg.norm(scene.project(corners) - still, axis=1)
    grid = np.linspace(-250, 250, 101)
    slopes = surface.slopes(*np.meshgrid(grid, grid))
    return {
        "in_water": True,
        "water": {
            "depth_mm": surface.spec.depth_mm,
            "index": surface.spec.index,
            "turbidity_per_mm": surface.spec.turbidity_per_mm,
            "flakes": surface.spec.flakes,
            "droppings": surface.spec.droppings,
            "slope_rms": round(float(np.sqrt((slopes**2).sum(axis=-1).mean())), 4),
            "corner_shift_px": {
                "mean": round(float(shift.mean()), 2),
                "largest": round(float(shift.max()), 2),
            },
        },
    }
