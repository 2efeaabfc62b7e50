"""Corner bias and scale error on the rendered sample images and on drawn scenes.

``python -m tests.accuracy.markers [FOLDER ...]`` prints a table. Truth of the
rendered images: corners from the scene's geometry; the true plane follows from
them with the true camera by the standard pose solution.
"""

import json
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import cv2
import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import FishMeasureError
from fishmeasure.photo.image import Photo, read_photo
from fishmeasure.photo.markers import find_plane, observed_markers
from fishmeasure.photo.markers.detect import find_markers
from fishmeasure.photo.markers.sheet import PAPERS_MM, sheet_layout
from fishmeasure.photo.plane import CameraModel, PlaneScale

SAMPLE_IMAGES = Path(__file__).parents[2] / "sample_images"


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkerErrors:
    """Of one photo.

    Attributes
    ----------
    inward_px
        Mean distance of the corners towards the marker's middle, as found by the
        detector before and after the fit to the edges.
    scale_error, relative_se
        Mean error of the log scale where the fish lie, and what was claimed.
    """

    name: str
    method: str
    count: int
    tilt_deg: float
    rough_inward_px: float
    inward_px: float
    corner_rms_px: float
    scale_error: float
    scale_rms: float
    relative_se: float
    focal_error: float
    k1_error: float


def true_camera(truth: dict[str, Any]) -> CameraModel:
    camera = truth["camera"]
    return CameraModel(
        focal_px=camera["focal_px"],
        centre_x_px=camera["centre_px"][0],
        centre_y_px=camera["centre_px"][1],
        k1=camera["k1"],
    )


def true_plane(truth: dict[str, Any]) -> PlaneScale:
    """Return the plane from the true corners and the true camera."""
    camera = true_camera(truth)
    candidates = []
    markers = truth["markers"]
    for paper in PAPERS_MM if markers[0]["kind"] == "sheet" else ("",):
        if paper:
            layout = sheet_layout(paper)
            model = [layout.corners_mm(marker["id"]) for marker in markers]
            seen = [marker["corners_px"] for marker in markers]
        else:  # one card fixes plane and scale exactly where corners are exact
            largest = max(markers, key=lambda marker: marker["side_mm"])
            unit = np.array([[-0.5, -0.5], [0.5, -0.5], [0.5, 0.5], [-0.5, 0.5]])
            model, seen = [unit * largest["side_mm"]], [largest["corners_px"]]
        world = np.concatenate(model) * truth.get("print_scale", 1.0)
        world = np.column_stack([world, np.zeros(len(world))])
        pixels = np.asarray(seen, float).reshape(-1, 2)
        rays = camera.normalise(pixels)
        _, vectors, translations, errors = cv2.solvePnPGeneric(
            world - world.mean(0), rays, np.eye(3), None, flags=cv2.SOLVEPNP_IPPE
        )
        rotation = np.asarray(cv2.Rodrigues(vectors[0])[0], np.float64)
        translation = np.asarray(translations[0]).ravel() - rotation @ world.mean(0)
        candidates.append((float(np.ravel(errors)[0]), rotation, translation))
    _, rotation, translation = min(candidates, key=lambda candidate: candidate[0])
    return PlaneScale(
        method="sheet",
        marker_ids=(),
        camera=camera,
        rotation=rotation,
        translation_mm=translation,
        tilt_deg=0.0,
        camera_height_mm=0.0,
        px_per_mm=0.0,
        relative_se=0.0,
        rms_residual_mm=0.0,
        markers_px=np.empty((0, 4, 2)),
    )


def inward_px(found: FloatArray, true: FloatArray) -> float:
    outwards = true - true.mean(axis=0)
    outwards = outwards / np.linalg.norm(outwards, axis=1, keepdims=True)
    # A side bled over by b moves a corner by b in x and in y.
    return float(-np.mean(np.sum((found - true) * outwards, axis=1)) / np.sqrt(2.0))


def measure(photo: Photo, truth: dict[str, Any]) -> MarkerErrors:
    """Return the errors of one photo.

    Raises
    ------
    FishMeasureError
        If it gives no scale.
    """
    by_id = {m["id"]: np.asarray(m["corners_px"]) for m in truth["markers"]}
    markers = observed_markers(photo)
    plane = find_plane(photo, print_scale=truth.get("print_scale", 1.0))
    rough = {
        marker.marker_id: photo.to_display(marker.corners)
        for marker in find_markers(photo)
    }
    differences = [m.corners_px - by_id[m.marker_id] for m in markers]
    points = np.concatenate(
        [np.asarray(fish["midline_px"]) for fish in truth["fish"]] or [plane.markers_px]
    ).reshape(-1, 2)
    error = plane.log_scale(points) - true_plane(truth).log_scale(points)
    camera = true_camera(truth)
    return MarkerErrors(
        name=photo.name,
        method=plane.method,
        count=len(plane.marker_ids),
        tilt_deg=plane.tilt_deg,
        rough_inward_px=float(
            np.mean(
                [inward_px(rough[m.marker_id], by_id[m.marker_id]) for m in markers]
            )
        ),
        inward_px=float(
            np.mean([inward_px(m.corners_px, by_id[m.marker_id]) for m in markers])
        ),
        corner_rms_px=float(np.sqrt(np.mean(np.square(differences)))),
        scale_error=float(error.mean()),
        scale_rms=float(np.sqrt(np.mean(error**2))),
        relative_se=float(np.sqrt(np.mean(plane.relative_se_at(points) ** 2))),
        focal_error=plane.camera.focal_px / camera.focal_px - 1.0,
        k1_error=plane.camera.k1 - camera.k1,
    )


def sample_photos(folder: Path) -> list[tuple[Photo, dict[str, Any]]]:
    """Return the photos of a folder that have a truth file with markers."""
    found = []
    for path in sorted(folder.glob("*.truth.json")):
        truth = json.loads(path.read_text(encoding="utf-8"))
        image = path.with_name(truth["photo"])
        if truth.get("markers") and image.exists():
            found.append((read_photo(image.read_bytes(), image.name), truth))
    return found


def main(folders: list[Path]) -> None:
    heads = "photo method n tilt rough_in in rms_px scale% rms% se% f% k1"
    print("{:28}{:15}{:>3}{:>6}".format(*heads.split()[:4]), end="")
    print("".join(f"{head:>9}" for head in heads.split()[4:]))
    for folder in folders:
        for photo, truth in sample_photos(folder):
            try:
                row = measure(photo, truth)
            except FishMeasureError as error:
                print(f"{photo.name:28}{error.code}")
                continue
            print(
                f"{row.name:28}{row.method:15}{row.count:3}{row.tilt_deg:6.1f}"
                f"{row.rough_inward_px:9.2f}{row.inward_px:9.3f}"
                f"{row.corner_rms_px:9.3f}{100 * row.scale_error:9.3f}"
                f"{100 * row.scale_rms:9.3f}{100 * row.relative_se:9.2f}"
                f"{100 * row.focal_error:9.2f}{row.k1_error:9.4f}"
            )


if __name__ == "__main__":
    main([Path(argument) for argument in sys.argv[1:]] or [SAMPLE_IMAGES])
