"""Outlines and lengths on rendered truth and on real photos, by method.

``python -m tests.accuracy.outlines [FOLDER ...] [--method NAME] [--shared FOLDER]``
prints three tables: by group of rendered photos, by confidence, and the real
photos one by one. FOLDER holds photos with a ``.truth.json`` beside each; the
networks never saw a rendered picture. The real photos carry no scale: one is made
up so that the fish gets a plausible length, and only ratios are compared, with
outlines drawn by hand (tests/data/real_outlines.json).
"""

import argparse
import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import cv2
import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import FishMeasureError
from fishmeasure.photo.image import Photo, read_photo
from fishmeasure.photo.length import FishLength, FishShape, measure_length
from fishmeasure.photo.length.budget import COMMON_ENDS_SHARE
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.plane import CameraModel, PlaneScale
from fishmeasure.photo.segment import SEGMENTERS, FishOutline, Segmenter

ROOT = Path(__file__).parents[2]
DRAWN = ROOT / "tests" / "data" / "real_outlines.json"
MATCHED_IOU = 0.5
SURE = 0.9
WRONG = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class FishResult:
    """One true fish and what was found of it.

    ``hidden`` is the share cut off or covered, the worse of both; ``error`` is
    relative, None where nothing was found.
    """

    group: str
    length_mm: float
    hidden: float
    iou: float
    error: float | None
    confidence: float
    complete: bool

    @property
    def whole(self) -> bool:
        return self.hidden < 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """Everything found in a set of rendered photos.

    ``empty`` has a line for each photo without fish.
    """

    fish: tuple[FishResult, ...]
    strays: dict[str, list[tuple[float, bool]]]
    photos: int
    empty: tuple[str, ...]


def mask_of(polygon: FloatArray, size: tuple[int, int], scale: float) -> FloatArray:
    mask = np.zeros(size, np.uint8)
    cv2.fillPoly(mask, [np.round(polygon * scale).astype(np.int32)], (1,))
    return mask.astype(np.float64)


def overlap(one: FloatArray, other: FloatArray, photo: Photo) -> float:
    """Return intersection over union of two outlines of one photo."""
    scale = 900.0 / max(photo.width_px, photo.height_px)
    size = (int(photo.height_px * scale) + 2, int(photo.width_px * scale) + 2)
    first, second = mask_of(one, size, scale), mask_of(other, size, scale)
    both = float((first * second).sum())
    return both / max(float(first.sum() + second.sum()) - both, 1.0)


def measured(
    method: Segmenter, photo: Photo, plane: PlaneScale
) -> list[tuple[FishOutline, FishLength]]:
    return [
        (outline, measure_length(outline, plane, FishShape()))
        for outline in method.find(photo, plane)
    ]


def rendered(folders: list[Path]) -> Iterator[tuple[Photo, dict[str, Any]]]:
    """Yield each photo that has its truth beside it."""
    for folder in folders:
        for path in sorted(folder.glob("*.truth.json")):
            truth = json.loads(path.read_text(encoding="utf-8"))
            picture = folder / truth["photo"]
            if picture.exists():
                yield read_photo(picture.read_bytes(), picture.name), truth


def find_all(method: Segmenter, folders: list[Path]) -> Findings:
    """Return what a method finds in the rendered photos."""
    results: list[FishResult] = []
    strays: dict[str, list[tuple[float, bool]]] = {}
    photos = 0
    empty = []
    for photo, truth in rendered(folders):
        group = truth["group"] or "samples"
        try:
            plane = find_plane(photo, print_scale=truth["print_scale"] or 1.0)
        except FishMeasureError as error:
            print(f"{photo.name}: no scale ({error.message})")
            continue
        photos += 1
        found = measured(method, photo, plane)
        free = set(range(len(found)))
        for fish in truth["fish"]:
            outline = np.array(fish["outline_px"])
            rated = [
                (overlap(outline, found[index][0].contour_px, photo), index)
                for index in free
            ]
            iou, index = max(rated, default=(0.0, -1))
            if iou > 0.3:
                free.discard(index)
            length = found[index][1] if index >= 0 else None
            results.append(_result(group, fish, iou, length))
        strays.setdefault(group, []).extend(
            (found[index][1].confidence, found[index][1].complete) for index in free
        )
        if not truth["fish"]:
            used = sum(length.complete for _, length in found)
            empty.append(f"{photo.name}: {len(found)} outlines, {used} used")
    return Findings(
        fish=tuple(results), strays=strays, photos=photos, empty=tuple(empty)
    )


def _result(
    group: str, fish: dict[str, Any], iou: float, length: FishLength | None
) -> FishResult:
    hidden = max(fish.get("cut_fraction", 0.0), fish.get("occluded_fraction", 0.0))
    true = float(fish["fork_length_mm"])
    if length is None or iou < 0.3:
        length = None
    return FishResult(
        group=group,
        length_mm=true,
        hidden=hidden,
        iou=iou,
        error=None if length is None else length.fork_length_mm / true - 1.0,
        confidence=0.0 if length is None else length.confidence,
        complete=length is not None and length.complete,
    )


def print_groups(findings: Findings) -> None:
    """Print recall and errors of the fish that are used, by group."""
    print(
        "group      fish whole recall  used  MAPE  bias   max  wrong stray stray-used"
    )
    groups = list(dict.fromkeys(one.group for one in findings.fish))
    for group in [*groups, "all"]:
        mine = [one for one in findings.fish if group in {one.group, "all"}]
        whole = [one for one in mine if one.whole]
        found = [one for one in whole if one.iou >= MATCHED_IOU]
        used = [one for one in mine if one.complete and one.error is not None]
        errors = np.array([one.error for one in used] or [np.nan], dtype=float)
        if group == "all":
            strays = [stray for part in findings.strays.values() for stray in part]
        else:
            strays = findings.strays.get(group, [])
        print(
            f"{group:10} {len(mine):4} {len(whole):5} "
            f"{100 * len(found) / max(len(whole), 1):5.1f}% "
            f"{100 * len(used) / max(len(mine), 1):4.0f}% "
            f"{100 * np.abs(errors).mean():5.2f} {100 * errors.mean():+5.2f} "
            f"{100 * np.abs(errors).max():5.1f} "
            f"{int((np.abs(errors) > WRONG).sum()):5} {len(strays):5} "
            f"{sum(complete for _, complete in strays):5}"
        )


def print_confidence(findings: Findings) -> None:
    """Print how often fish of a confidence are wrong, and what selection does."""
    print("\nconfidence   fish  wrong by > 5 %")
    rated = [one for one in findings.fish if one.error is not None]
    strays = [stray for part in findings.strays.values() for stray in part]
    for low, high in ((0.0, 0.3), (0.3, 0.6), (0.6, 0.8), (0.8, SURE), (SURE, 1.01)):
        mine = [one for one in rated if low <= one.confidence < high]
        wrong = sum(abs(one.error or 0.0) > WRONG for one in mine)
        wrong += sum(low <= confidence < high for confidence, _ in strays)
        count = len(mine) + sum(low <= value < high for value, _ in strays)
        print(f"{low:.1f} to {min(high, 1.0):.1f} {count:8} {wrong:8}")
    whole = [one for one in findings.fish if one.whole]
    used = [one.length_mm for one in whole if one.complete]
    rest = [one.length_mm for one in whole if not one.complete]
    print(
        f"mean true length of whole fish: used {np.mean(used):.1f} mm (n {len(used)})"
        + (f", not used {np.mean(rest):.1f} mm (n {len(rest)})" if rest else "")
    )


def flat_plane(photo: Photo, px_per_mm: float) -> PlaneScale:
    """Return a plane seen from straight above at a made-up scale."""
    height = 1000.0
    camera = CameraModel(
        focal_px=px_per_mm * height,
        centre_x_px=(photo.width_px - 1) / 2,
        centre_y_px=(photo.height_px - 1) / 2,
    )
    return PlaneScale(
        method="known-distance",
        marker_ids=(),
        camera=camera,
        rotation=np.eye(3),
        translation_mm=np.array([0.0, 0.0, height]),
        tilt_deg=0.0,
        camera_height_mm=height,
        px_per_mm=px_per_mm,
        relative_se=0.01,
        rms_residual_mm=0.0,
        markers_px=np.zeros((0, 4, 2)),
    )


def made_up_scale(photo: Photo, drawn: list[dict[str, Any]]) -> float:
    """Return pixels per millimetre that make a drawn fish 250 mm long.

    Without a drawn fish the photo's longer side is taken as 350 mm.
    """
    for fish in drawn:
        if fish["snout_px"] and fish["fork_px"]:
            along = np.array(fish["snout_px"]) - np.array(fish["fork_px"])
            return float(np.hypot(*along)) / 250.0
    return max(photo.width_px, photo.height_px) / 350.0


def print_real(method: Segmenter, shared: Path) -> None:
    """Print what is found in each real photo, against the drawn outlines."""
    everything = json.loads(DRAWN.read_text(encoding="utf-8"))["fish"]
    print("\nphoto                                          found used  IoU   length")
    scores: dict[str, list[float]] = {}
    pictures = sorted(
        path for kind in ("*.jpg", "*.png") for path in (shared / "photos").rglob(kind)
    )
    for path in pictures:
        name = path.relative_to(shared).as_posix()
        drawn = [fish for fish in everything if fish["photo"] == name]
        photo = read_photo(path.read_bytes(), path.name)
        plane = flat_plane(photo, made_up_scale(photo, drawn))
        found = measured(method, photo, plane)
        used = sum(length.complete for _, length in found)
        parts = []
        for fish in drawn:
            polygon = np.array(fish["polygon_px"])
            rated = [(overlap(polygon, o.contour_px, photo), o, m) for o, m in found]
            iou, best, length = max(
                rated, default=(0.0, None, None), key=lambda one: one[0]
            )
            error = _ratio(fish, best) if iou > 0.3 else None
            if error is None or best is None or length is None:
                parts.append(f"{iou:.2f}")
                continue
            stated = _stated(best, plane)
            parts.append(f"{iou:.2f} {100 * error:+.1f} % (stated {100 * stated:.2f})")
            if length.complete:
                scores.setdefault(path.parent.name, []).append(error / stated)
        short = "/".join(path.parts[-2:])[-44:]
        print(f"{short:46} {len(found):4} {used:4}   {'; '.join(parts)}")
    print_calibration(scores)


def print_calibration(scores: dict[str, list[float]]) -> None:
    """Print errors of the ends of used fish over the stated ones, by set of photos.

    No set had a part in choosing the stated errors, so each is one left out.
    """
    pooled = [score for mine in scores.values() for score in mine]
    for name, mine in (*sorted(scores.items()), ("all", pooled)):
        rms = float(np.sqrt(np.mean(np.square(mine)))) if mine else float("nan")
        held = sum(abs(score) < 1.96 for score in mine)
        print(
            f"{name:24} {len(mine):3} fish, rms of error over stated {rms:.2f},",
            end=" ",
        )
        print(f"95 % intervals hold {held}")


def _ratio(fish: dict[str, Any], outline: FishOutline | None) -> float | None:
    """Return the error of the straight length, where both ends are drawn."""
    if outline is None or outline.snout_px is None or outline.fork_px is None:
        return None
    if not (fish["snout_px"] and fish["fork_px"]):
        return None
    true = np.hypot(*(np.array(fish["snout_px"]) - np.array(fish["fork_px"])))
    mine = np.hypot(*(outline.snout_px - outline.fork_px))
    return float(mine / true - 1)


def _stated(outline: FishOutline, plane: PlaneScale) -> float:
    """Return the standard error of both ends, and of what they share, in lengths."""
    if outline.snout_px is None or outline.fork_px is None:
        return float("nan")
    ends = plane.to_plane_mm(np.array([outline.snout_px, outline.fork_px]))
    length_mm = float(np.hypot(*(ends[1] - ends[0])))
    own = np.hypot(*(outline.ends_se_mm or (float("nan"),) * 2)) / length_mm
    return float(np.hypot(own, COMMON_ENDS_SHARE))


def main() -> None:
    parser = argparse.ArgumentParser(prog="tests.accuracy.outlines")
    parser.add_argument("folders", nargs="*", type=Path)
    parser.add_argument("--method", default="learned", choices=list(SEGMENTERS))
    parser.add_argument("--shared", type=Path, default=ROOT / "shared")
    given = parser.parse_args()
    method = SEGMENTERS[given.method]
    findings = find_all(method, given.folders or [ROOT / "sample_images"])
    print_groups(findings)
    for line in findings.empty:
        print(f"no fish in it: {line}")
    print_confidence(findings)
    if (given.shared / "photos").is_dir():
        print_real(method, given.shared)


if __name__ == "__main__":
    main()
