"""The sample photographs agree with what their truth files say.

The checks use OpenCV's own marker detection and pose, and the layout of the printed
sheet as fixed by contract (A4, 40 mm markers 15 mm in from both edges).
"""

import json
import math
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pillow_heif
import pytest
from PIL import Image, ImageOps

from fishmeasure.base.arrays import FloatArray

FOLDER = Path(__file__).parents[2] / "sample_images"
PHOTO_TRUTHS = sorted(FOLDER.glob("*.truth.json"))
PAPER_MM = 0.1  # thickness of the printed paper in the scenes
MAX_FOLDER_BYTES = 15_000_000
SHEET_MM = (297.0, 210.0)
SHEET_CORNERS_MM = {
    number: np.array([[x, y], [x + 40, y], [x + 40, y + 40], [x, y + 40]])
    for number, (x, y) in enumerate(
        [(15.0, 15.0), (242.0, 15.0), (242.0, 155.0), (15.0, 155.0)]
    )
}

# Sub-pixel refinement finds the corner of the blurred, saturated photograph: white
# bleeds into the ink, so it lies inside the printed one. Measured on these photos:
# up to 1.0 px, 0.7 on average.
CORNER_TOLERANCE_PX = 1.3

pillow_heif.register_heif_opener()

each_photo = pytest.mark.parametrize(
    "path", PHOTO_TRUTHS, ids=[path.name.split(".")[0] for path in PHOTO_TRUTHS]
)


def _truth(path: Path) -> dict[str, Any]:
    facts: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return facts


def _camera(facts: dict[str, Any]) -> tuple[FloatArray, FloatArray]:
    camera = facts["camera"]
    matrix = np.array(
        [
            [camera["focal_px"], 0, camera["centre_px"][0]],
            [0, camera["focal_px"], camera["centre_px"][1]],
            [0, 0, 1],
        ]
    )
    return matrix, np.array([camera["k1"], 0.0, 0.0, 0.0])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pose:
    """OpenCV's pose: world x right, y down on the paper, z into the board."""

    rotation: FloatArray
    translation_mm: FloatArray

    @property
    def place_mm(self) -> FloatArray:
        place: FloatArray = -self.rotation.T @ self.translation_mm
        return place

    @property
    def tilt_deg(self) -> float:
        return math.degrees(math.acos(abs(self.rotation[2, 2])))


def _pose(facts: dict[str, Any], flat: FloatArray, seen: FloatArray) -> Pose:
    matrix, distortion = _camera(facts)
    world = np.column_stack([flat, np.zeros(len(flat))])
    found, turn, shift = cv2.solvePnP(
        world, seen, matrix, distortion, flags=cv2.SOLVEPNP_IPPE
    )
    assert found
    found, turn, shift = cv2.solvePnP(
        world, seen, matrix, distortion, turn, shift, useExtrinsicGuess=True
    )
    rotation = np.asarray(cv2.Rodrigues(turn)[0], dtype=float)
    return Pose(
        rotation=rotation, translation_mm=np.asarray(shift, dtype=float).ravel()
    )


def _poses(facts: dict[str, Any]) -> list[Pose]:
    """Return the pose from the whole sheet, or one from each loose marker."""
    scale, markers = facts["print_scale"], facts["markers"]
    corners = [np.array(marker["corners_px"]) for marker in markers]
    if markers[0]["kind"] == "sheet":
        flat = np.vstack([SHEET_CORNERS_MM[m["id"]] for m in markers]) * scale
        return [_pose(facts, flat, np.vstack(corners))]
    square = np.array([[0.0, 0], [1, 0], [1, 1], [0, 1]])
    return [
        _pose(facts, square * marker["side_mm"] * scale, seen)
        for marker, seen in zip(markers, corners, strict=True)
    ]


@each_photo
def test_truth_says_that_the_photo_is_invented(path: Path) -> None:
    """Nobody may take a rendered fish for a real one."""
    assert "Invented and rendered" in _truth(path)["statement"]


@each_photo
def test_markers_are_found_where_the_truth_has_them(path: Path) -> None:
    """OpenCV reads every printed id, unmirrored, within the stated tolerance."""
    facts = _truth(path)
    with Image.open(FOLDER / facts["photo"]) as stored:
        image = ImageOps.exif_transpose(stored).convert("L")
    camera = facts["camera"]
    assert image.size == (camera["width_px"], camera["height_px"])
    settings = cv2.aruco.DetectorParameters()
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
    detector = cv2.aruco.ArucoDetector(dictionary, settings)
    corners, ids, _ = detector.detectMarkers(np.asarray(image))
    found = dict(
        zip(
            (int(v) for v in np.asarray(ids).ravel()),
            (np.asarray(c).reshape(4, 2) for c in corners),
            strict=True,
        )
    )
    limit = np.array([camera["width_px"], camera["height_px"]])
    whole = [
        marker
        for marker in facts["markers"]
        if (np.array(marker["corners_px"]) > 0).all()
        and (np.array(marker["corners_px"]) < limit - 1).all()
    ]
    assert {marker["id"] for marker in whole} <= set(found)
    for marker in whole:
        error = found[marker["id"]] - np.array(marker["corners_px"])
        assert np.hypot(*error.T).max() < CORNER_TOLERANCE_PX


@each_photo
def test_camera_explains_the_marker_corners(path: Path) -> None:
    """OpenCV's pose from the true corners gives the camera's height and tilt."""
    facts = _truth(path)
    camera = facts["camera"]
    whole_sheet = facts["markers"][0]["kind"] == "sheet"
    # One small marker fixes the pose less well than four wide apart.
    height_share, tilt_deg = (2e-4, 0.05) if whole_sheet else (5e-3, 0.5)
    for pose in _poses(facts):
        height = abs(pose.place_mm[2]) + PAPER_MM
        assert height == pytest.approx(camera["height_mm"], rel=height_share)
        assert pose.tilt_deg == pytest.approx(camera["tilt_deg"], abs=tilt_deg)


@each_photo
def test_fish_truth_hangs_together(path: Path) -> None:
    """Outline, mid-line, snout, fork, lengths and weight fit each other."""
    facts = _truth(path)
    for fish in facts["fish"]:
        outline = np.array(fish["outline_px"], dtype=np.float32)
        midline = np.array(fish["midline_px"])
        size = math.dist(fish["snout_px"], fish["fork_px"])
        for x, y in midline:
            assert (
                cv2.pointPolygonTest(outline, (float(x), float(y)), measureDist=True)
                > -1.0
            )
        # Snout and fork are at the outline's edge (the snout's round tip may hide
        # a little of it when seen from behind the head).
        assert math.dist(midline[0], fish["snout_px"]) < 0.01
        assert math.dist(midline[-1], fish["fork_px"]) < 0.01
        for end in ("snout_px", "fork_px"):
            x, y = fish[end]
            inside = cv2.pointPolygonTest(
                outline, (float(x), float(y)), measureDist=True
            )
            assert abs(inside) < 0.02 * size
        lengths = [fish[f"{n}_length_mm"] for n in ("standard", "fork", "total")]
        assert lengths == sorted(lengths)
        assert 0.15 < fish["body_depth_mm"] / fish["fork_length_mm"] < 0.30
        assert 0.40 < fish["thickness_mm"] / fish["body_depth_mm"] < 0.60
        condition = 1e5 * fish["weight_g"] / fish["fork_length_mm"] ** 3
        # Fulton's K of salmonids, from thin wild to fat farmed: common practice.
        assert 0.7 < condition < 1.7


@each_photo
def test_fork_length_follows_from_camera_and_heights(path: Path) -> None:
    """The mid-line brought back to its own height is as long as the fish."""
    facts = _truth(path)
    matrix, distortion = _camera(facts)
    pose = _poses(facts)[0]
    limit = 1e-3 if facts["markers"][0]["kind"] == "sheet" else 5e-3
    for fish in facts["fish"]:
        points = np.array(fish["midline_px"])[:, None]
        flat = cv2.undistortPoints(points, matrix, distortion).reshape(-1, 2)
        rays = np.column_stack([flat, np.ones(len(flat))]) @ pose.rotation
        depth = PAPER_MM - np.array(fish["midline_height_mm"])
        steps = (depth - pose.place_mm[2]) / rays[:, 2]
        line = pose.place_mm[:2] + steps[:, None] * rays[:, :2]
        length = float(np.hypot(*np.diff(line, axis=0).T).sum())
        assert length == pytest.approx(fish["fork_length_mm"], rel=limit)


def test_set_is_wide_enough() -> None:
    """The folder holds the promised variety within the promised size."""
    facts = [_truth(path) for path in PHOTO_TRUTHS]
    megapixels = [
        f["camera"]["width_px"] * f["camera"]["height_px"] / 1e6 for f in facts
    ]
    kinds = [{m["kind"] for m in f["markers"]} for f in facts]
    assert len(facts) >= 20
    assert sum(len(f["fish"]) for f in facts) >= 110
    assert sum(size >= 12 for size in megapixels) >= 5
    assert all(any(kind in k for k in kinds) for kind in ("sheet", "card", "single"))
    assert sum(f["bent"] for x in facts for f in x["fish"]) >= 12
    assert any(f["cut_fraction"] > 0.05 for x in facts for f in x["fish"])
    suffixes = {Path(f["photo"]).suffix for f in facts}
    assert {".jpg", ".webp", ".heic"} <= suffixes
    size = sum(p.stat().st_size for p in FOLDER.rglob("*") if p.suffix != ".pyc")
    assert size < MAX_FOLDER_BYTES


def test_one_photo_is_stored_turned() -> None:
    """A reader that ignores the EXIF orientation fails on it."""
    orientations = []
    for path in PHOTO_TRUTHS:
        with Image.open(FOLDER / _truth(path)["photo"]) as stored:
            orientations.append(stored.getexif().get(0x0112, 1))
    assert 6 in orientations


def test_bulk_weighings_fit_the_fish_in_the_photos() -> None:
    """Gross less tare is the fish's weight plus some water and the scale's steps."""
    sample = tomllib.loads((FOLDER / "spring_tanks.toml").read_text(encoding="utf-8"))
    true_nets = _truth(FOLDER / "spring_tanks.nets.json")["nets"]
    assert sample["unit"] == "Tank A"
    weighed_only = 0
    for net, true_net in zip(sample["net"], true_nets, strict=True):
        excess = net["gross_g"] - net["tare_g"] - true_net["true_net_g"]
        assert -4 <= excess <= 0.02 * true_net["true_net_g"] + 4
        if "photos" not in net:
            weighed_only += 1
            continue
        truth_name = Path(net["photos"][0]).with_suffix(".truth.json").name
        fish = _truth(FOLDER / truth_name)["fish"]
        assert net["fish"] == len(fish)
        total = sum(f["weight_g"] for f in fish)
        assert total == pytest.approx(true_net["true_net_g"], abs=0.5)
    assert weighed_only == 1
