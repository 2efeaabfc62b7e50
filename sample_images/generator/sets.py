"""The photographs of the sample folder."""

from dataclasses import replace

import numpy as np

from sample_images.generator.camera import CameraSpec
from sample_images.generator.layout import Rules, lay
from sample_images.generator.paper import PaperSpec
from sample_images.generator.scene import SceneSpec
from sample_images.generator.stock import Cohort, draw

TWO_MP = {"width_px": 1632, "height_px": 1224}
TWELVE_MP = {"width_px": 4000, "height_px": 3000}
RAINBOW = Cohort(skins=("rainbow",), length_mm=232, length_cv=0.09)


def first() -> list[SceneSpec]:
    """Return three early scenes."""
    sheet = (PaperSpec(kind="sheet", position_mm=(0, 0), rotation_deg=2),)
    out = []
    for k, (board, light, tilt) in enumerate(
        [
            ("wood", "daylight", 4),
            ("green-board", "lamp", 12),
            ("cutting-board", "overcast", 7),
        ]
    ):
        rng = np.random.default_rng(100 + k)
        cam = CameraSpec(
            **TWO_MP,
            height_mm=640,
            tilt_deg=tilt,
            tilt_towards_deg=70 + 60 * k,
            k1=0.02 - 0.02 * k,
        )
        fish = draw(RAINBOW, rng, 7)
        if k == 1:
            fish = [
                replace(f, bend_deg=float(rng.uniform(15, 60))) if i % 3 == 0 else f
                for i, f in enumerate(fish)
            ]
        out.append(
            SceneSpec(
                name=f"first_{k + 1}",
                board=board,
                light=light,
                camera=cam,
                papers=sheet,
                fish=lay(fish, cam, sheet, rng, Rules()),
                seed=1000 + 10 * k,
            )
        )
    return out


SETS = {"first": first}
