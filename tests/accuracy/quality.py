"""Scale error against blur, marker size, light and tilt, on drawn scenes.

``python -m tests.accuracy.quality`` prints the table that the thresholds of
``fishmeasure.photo.quality`` come from.
"""

from dataclasses import replace

import numpy as np

from fishmeasure.base.errors import MarkerError
from fishmeasure.photo import quality
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.markers.scale import summary_points
from fishmeasure.photo.plane import PlaneScale
from sample_images.synth.plane import (
    Card,
    PlaneScene,
    draw_plane,
    sheet_cards,
    true_plane,
)

SHEET = PlaneScene(cards=sheet_cards("A4"), tilt_deg=8.0)
SINGLE = replace(
    SHEET,
    sheet_mm=None,
    cards=(Card(marker_id=10, side_mm=60, card_mm=80, x_mm=60, y_mm=60),),
)
CASES: dict[str, list[dict[str, float]]] = {
    "blur": [{"blur_px": blur} for blur in (1.0, 2.0, 3.0, 4.0, 6.0, 8.0)],
    "distance": [
        {"distance_mm": distance, "board": 0.3}
        for distance in (500.0, 1000.0, 2000.0, 3000.0, 4000.0)
    ],
    "light": [
        {"exposure": exposure, "noise_sd": noise}
        for exposure, noise in (
            (0.2, 0.01),
            (0.1, 0.02),
            (0.05, 0.03),
            (0.03, 0.03),
            (2.0, 0.004),
            (8.0, 0.004),
        )
    ],
    "tilt": [
        {"tilt_deg": tilt, "distance_mm": 600.0} for tilt in (0.0, 15.0, 30.0, 45.0)
    ],
}
REPEATS = 4


def one(scene: PlaneScene, number: int) -> tuple[PlaneScale, float]:
    """Return the plane and its root mean square scale error."""
    turned = replace(
        scene, roll_deg=3.0 + 20.0 * number, tilt_towards_deg=77.0 * number
    )
    rgb = draw_plane(turned, np.random.default_rng(number))
    photo = Photo(
        name="drawn",
        rgb=rgb,
        width_px=turned.width_px,
        height_px=turned.height_px,
        focal_length_px=turned.focal_px,
    )
    plane = find_plane(photo)
    points = summary_points(photo)
    error = plane.log_scale(points) - true_plane(turned).log_scale(points)
    return plane, float(np.sqrt(np.mean(error**2)))


def main() -> None:
    """Print one line for each case."""
    # The refusals are what is to be judged, so they are lifted here.
    quality.BLUR_LIMIT_CELLS = quality.TILT_LIMIT_DEG = 1e9
    quality.SIDE_LIMIT_PX = 0.0
    print(
        "set    case                           found  rms%   se%  side"
        " blur  bloom light"
    )
    for name, base in (("sheet", SHEET), ("single", SINGLE)):
        for case in (case for cases in CASES.values() for case in cases):
            found = []
            for number in range(REPEATS):
                try:
                    found.append(one(replace(base, **case), number))  # type: ignore[arg-type]
                except MarkerError:
                    continue
            words = " ".join(f"{key}={value:g}" for key, value in case.items())
            if not found:
                print(f"{name:7}{words:32}0/{REPEATS}")
                continue
            looks = [plane.look for plane, _ in found if plane.look is not None]
            rms = np.sqrt(np.mean([error**2 for _, error in found]))
            claimed = np.mean([plane.relative_se for plane, _ in found])
            print(
                f"{name:7}{words:32}{len(found)}/{REPEATS}{100 * rms:7.3f}"
                f"{100 * claimed:6.2f}{np.mean([k.side_raster_px for k in looks]):6.0f}"
                f"{np.mean([look.blur_cells for look in looks]):5.2f}"
                f"{np.mean([look.bloom_mm for look in looks]):7.3f}"
                f"{np.mean([look.contrast for look in looks]):6.2f}"
            )


if __name__ == "__main__":
    main()
