"""Recall, length error and calibration on the rendered sample images: a table.

``python -m tests.accuracy.lengths [--outlines learned|true] [FOLDER ...]``.
Truth is the scenes' geometry. With ``true`` the outlines are the truth's own, which
leaves the error of the scale, the midline, the end points and the parallax.
"""

import argparse
import json
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import cv2
import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import MarkerError
from fishmeasure.photo.image import Photo, read_photo
from fishmeasure.photo.length import FishLength, FishShape, measure_length, shape_of
from fishmeasure.photo.length.budget import LAID
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment import SEGMENTERS
from fishmeasure.photo.segment.outline import FishOutline
from fishmeasure.species import load_species

SAMPLE_IMAGES = Path(__file__).parents[2] / "sample_images"
SHAPE = shape_of(load_species("rainbow-trout"))
SEEN = 0.01
"""A fish of which a greater share is cut off or hidden need not be measured."""
SAME = 0.4
"""Overlap (intersection over union) from which an outline is of a true fish."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Case:
    """One photo with its truth."""

    name: str
    photo: Photo
    plane: PlaneScale
    truth: dict[str, Any]

    @property
    def whole(self) -> list[dict[str, Any]]:
        """The fish that must be found."""
        return [fish for fish in self.truth["fish"] if is_whole(fish)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One fish that was measured and may be used, and what is true of it.

    ``own_sd`` leaves out the errors that all photos share (the print scale that
    nobody measured, the thickness of the species); ``laid_sd`` is the relative error
    by how fish were laid alone.
    """

    photo: str
    group: str
    bent: bool
    whole: bool
    true_mm: float
    found_mm: float
    sd_mm: float
    own_sd_mm: float
    laid_sd: float

    @property
    def error(self) -> float:
        """Relative error of the fork length."""
        return self.found_mm / self.true_mm - 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """What came out of one photo: usable fish, those to find, and false ones."""

    group: str
    wanted: int
    measured: tuple[Measured, ...]
    false_fish: int


def is_whole(fish: dict[str, Any]) -> bool:
    return bool(max(fish["cut_fraction"], fish["occluded_fraction"]) < SEEN)


def cases(folders: list[Path]) -> list[Case]:
    """Return the photos of which a plane can be had."""
    found = []
    for path in sorted(p for folder in folders for p in folder.glob("*.truth.json")):
        truth = json.loads(path.read_text())
        photo = read_photo(path.with_name(truth["photo"]).read_bytes(), truth["photo"])
        try:
            plane = find_plane(photo, print_scale=truth["print_scale"] or 1.0)
        except MarkerError:
            continue
        found.append(Case(name=truth["photo"], photo=photo, plane=plane, truth=truth))
    return found


def true_outlines(case: Case) -> tuple[FishOutline, ...]:
    return tuple(
        FishOutline(contour_px=np.array(fish["outline_px"]), confidence=1.0)
        for fish in case.whole
    )


def found_by(name: str) -> Callable[[Case], tuple[FishOutline, ...]]:
    """Return the outlines' maker by its name in the table, or "true"."""
    if name == "true":
        return true_outlines
    return lambda case: SEGMENTERS[name].find(case.photo, case.plane).outlines


def laid(case: Case) -> FishShape:
    """Return the usual shape with the heights at which the fish of a photo lie."""
    ends = [np.array(f["midline_height_mm"])[[0, -1]] for f in case.whole]
    halves = [f["thickness_mm"] / 2.0 for f in case.whole]
    snout, fork = np.mean(np.array(ends) / np.array(halves)[:, None], axis=0)
    return replace(SHAPE, snout_height=float(snout), fork_height=float(fork))


def tally(
    case: Case, outlines: tuple[FishOutline, ...], shape: FishShape = SHAPE
) -> Tally:
    """Return what the outlines of a photo come to."""
    group = case.plane.method
    taken: set[int] = set()
    measured = []
    false_fish = 0
    for outline in outlines:
        length = measure_length(outline, case.plane, shape)
        if not length.complete:
            continue
        overlaps = [overlap(length, fish) for fish in case.truth["fish"]]
        best = int(np.argmax(overlaps)) if overlaps else -1
        if best < 0 or overlaps[best] < SAME or best in taken:
            false_fish += 1
            continue
        taken.add(best)
        measured.append(compared(case, length, case.truth["fish"][best]))
    return Tally(
        group=group,
        wanted=len(case.whole),
        measured=tuple(measured),
        false_fish=false_fish,
    )


def compared(case: Case, length: FishLength, fish: dict[str, Any]) -> Measured:
    own = [s.relative_sd for s in length.sources if s.scope in ("fish", "photo")]
    laid_sd = next(s.relative_sd for s in length.sources if s.name == LAID)
    return Measured(
        photo=case.name,
        group=case.plane.method,
        bent=fish["bent"],
        whole=is_whole(fish),
        true_mm=fish["fork_length_mm"],
        found_mm=length.fork_length_mm,
        sd_mm=length.fork_length_se_mm,
        own_sd_mm=float(np.linalg.norm(own)) * length.fork_length_mm,
        laid_sd=laid_sd,
    )


def overlap(length: FishLength, fish: dict[str, Any]) -> float:
    """Return intersection over union of a found and a true outline."""
    polygons = [length.outline_px, np.array(fish["outline_px"])]
    low = np.min([p.min(axis=0) for p in polygons], axis=0)
    size = np.max([p.max(axis=0) for p in polygons], axis=0) - low
    scale = 400.0 / float(size.max())
    one, other = (filled((p - low) * scale) for p in polygons)
    return float(np.sum(one & other) / np.sum(one | other))


def filled(polygon: FloatArray) -> np.ndarray[Any, np.dtype[np.uint8]]:
    mask = np.zeros((402, 402), np.uint8)
    cv2.fillPoly(mask, [np.round(polygon).astype(np.int32)], (1,))
    return mask


def figures(tallies: list[Tally]) -> dict[str, float]:
    """Return the figures of a group of photos; lengths in per cent."""
    fish = [each for one in tallies for each in one.measured]
    errors = 100.0 * np.array([each.error for each in fish])
    scores = np.array([(f.found_mm - f.true_mm) / f.own_sd_mm for f in fish])
    wanted = sum(one.wanted for one in tallies)
    return {
        "photos": len(tallies),
        "fish": wanted,
        "recall": sum(each.whole for each in fish) / max(wanted, 1),
        "false": sum(one.false_fish for one in tallies),
        "mape": float(np.mean(np.abs(errors))),
        "bias": float(np.mean(errors)),
        "p95": float(np.percentile(np.abs(errors), 95.0)),
        "worst": float(np.max(np.abs(errors))),
        "z_sd": float(np.sqrt(np.mean(scores**2))),
        "laid_sd": 100.0 * float(np.mean([f.laid_sd for f in fish])),
        "mean_se": 100.0 * float(np.mean([f.sd_mm / f.found_mm for f in fish])),
    }


def groups(tallies: list[Tally]) -> dict[str, list[Tally]]:
    """Return the photos by what gave the scale, and the fish by bend."""
    by_group: dict[str, list[Tally]] = {"all": tallies}
    for one in tallies:
        by_group.setdefault(one.group, []).append(one)
    for name, bent in (("bent fish", True), ("straight fish", False)):
        by_group[name] = [
            Tally(
                group=one.group,
                wanted=0,
                measured=tuple(f for f in one.measured if f.bent == bent),
                false_fish=0,
            )
            for one in tallies
        ]
    return {
        name: group
        for name, group in by_group.items()
        if any(one.measured for one in group)
    }


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folders", nargs="*", type=Path, default=[SAMPLE_IMAGES])
    parser.add_argument("--outlines", default="learned", choices=["true", *SEGMENTERS])
    options = parser.parse_args()
    make = found_by(options.outlines)
    tallies = []
    for case in cases(options.folders):
        one = tally(case, make(case))
        tallies.append(one)
        worst = max((abs(f.error) for f in one.measured), default=0.0)
        used = sum(f.whole for f in one.measured)
        print(f"{case.name:28} {one.group:14} {used}/{one.wanted}", end=" ")
        print(f"false {one.false_fish} worst {100 * worst:.2f} %")
    print(f"\n{'group':14}", end="")
    for index, (name, group) in enumerate(groups(tallies).items()):
        row = figures(group)
        if index == 0:
            print("".join(f"{key:>9}" for key in row))
        print(f"{name:14}" + "".join(f"{value:9.3g}" for value in row.values()))


if __name__ == "__main__":
    main()
