"""What a photo gave, and its JSON and CSV forms.

The JSON holds the fields of the public format and, beside them, all that is
needed to rebuild the records: a correction made later needs no pixels.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from fishmeasure.base.arrays import FloatArray, frozen
from fishmeasure.base.cells import text_to_cell
from fishmeasure.base.estimate import Estimate, UncertaintySource
from fishmeasure.base.flags import Problem
from fishmeasure.photo.length import FishLength
from fishmeasure.photo.plane import CameraModel, PlaneScale
from fishmeasure.photo.weight import FishWeight

Json = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeasuredFish:
    """One fish of a photo.

    ``weight`` is None where the fish is not complete.
    """

    length: FishLength
    weight: FishWeight | None
    species_key: str

    @property
    def flags(self) -> tuple[str, ...]:
        """Words of the length's and the weight's flags, each once."""
        words = self.length.flags + (self.weight.flags if self.weight else ())
        return tuple(dict.fromkeys(words))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PhotoMeasurement:
    """All that one photo gave.

    Attributes
    ----------
    photo
        File name.
    width_px, height_px
        As displayed; 0 where the photo could not be read.
    plane
        None where no scale was found.
    fish
        Complete and doubtful fish alike, in reading order.
    problems
        What is wrong with the photo, worst first.
    """

    photo: str
    width_px: int
    height_px: int
    plane: PlaneScale | None = None
    fish: tuple[MeasuredFish, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def usable(self) -> bool:
        """Whether no problem forbids the use of the figures."""
        return not any(problem.fatal for problem in self.problems)

    @property
    def complete_fish(self) -> tuple[MeasuredFish, ...]:
        """The fish whose length may be used."""
        return tuple(fish for fish in self.fish if fish.length.complete)


# --- JSON -------------------------------------------------------------------


def _points(points: FloatArray, digits: int = 2) -> list[Any]:
    rounded: list[Any] = np.round(points, digits).tolist()
    return rounded


def _estimate(estimate: Estimate) -> Json:
    return {
        "value": estimate.value,
        "sd": estimate.sd,
        "low": estimate.low,
        "high": estimate.high,
        "level": estimate.level,
    }


def _sources(sources: Iterable[UncertaintySource]) -> list[Json]:
    return [
        {"name": s.name, "relative_sd": s.relative_sd, "scope": s.scope}
        for s in sources
    ]


def problem_to_json(problem: Problem) -> Json:
    """Return a problem as the public format has it."""
    return {"code": problem.code, "message": problem.message, "fatal": problem.fatal}


def _scale_to_json(plane: PlaneScale) -> Json:
    camera = plane.camera
    return {
        "method": plane.method,
        "marker_ids": list(plane.marker_ids),
        "tilt_deg": round(plane.tilt_deg, 2),
        "camera_height_mm": round(plane.camera_height_mm, 1),
        "px_per_mm": round(plane.px_per_mm, 4),
        "relative_se": round(plane.relative_se, 5),
        "rms_residual_mm": round(plane.rms_residual_mm, 4),
        "camera": {
            "focal_px": camera.focal_px,
            "centre_px": [camera.centre_x_px, camera.centre_y_px],
            "k1": camera.k1,
            "focal_relative_sd": camera.focal_relative_sd,
            "focal_source": camera.focal_source,
        },
        "rotation": plane.rotation.tolist(),
        "translation_mm": plane.translation_mm.tolist(),
        "markers_px": _points(plane.markers_px),
        "paper_px": [_points(paper) for paper in plane.paper_px],
        "sources": _sources(plane.sources),
        "covariance": plane.covariance.tolist(),
        "constant_relative_sd": plane.constant_relative_sd,
    }


def fish_to_json(fish: MeasuredFish) -> Json:
    """Return one fish as the public format has it."""
    length, weight = fish.length, fish.weight
    return {
        "fork_length_mm": round(length.fork_length_mm.value, 2),
        "fork_length_se_mm": round(length.fork_length_mm.sd, 3),
        "total_length_mm": round(length.total_length_mm.value, 2),
        "standard_length_mm": round(length.standard_length_mm.value, 2),
        "body_depth_mm": round(length.body_depth_mm.value, 2),
        "weight_g": round(weight.weight_g.value, 2) if weight else None,
        "weight_se_g": round(weight.weight_g.sd, 2) if weight else None,
        "species": fish.species_key,
        "snout_px": _points(length.snout_px),
        "fork_px": _points(length.fork_px),
        "outline_px": _points(length.contour_px),
        "midline_px": _points(length.midline_px),
        "complete": length.complete,
        "flags": list(fish.flags),
        "confidence": round(length.confidence, 4),
        "bend_deg": round(length.bend_deg, 2),
        "thickness_mm": round(length.thickness_mm, 2),
        "area_mm2": round(length.area_mm2, 1),
        "lengths": {
            "fork_length_mm": _estimate(length.fork_length_mm),
            "total_length_mm": _estimate(length.total_length_mm),
            "standard_length_mm": _estimate(length.standard_length_mm),
            "body_depth_mm": _estimate(length.body_depth_mm),
        },
        "length_flags": list(length.flags),
        "length_sources": _sources(length.sources),
        "weight": None
        if weight is None
        else {
            "weight_g": _estimate(weight.weight_g),
            "flags": list(weight.flags),
            "sources": _sources(weight.sources),
        },
    }


def photo_to_json(measurement: PhotoMeasurement) -> Json:
    """Return a photo as the public format has it."""
    plane = measurement.plane
    return {
        "photo": measurement.photo,
        "width_px": measurement.width_px,
        "height_px": measurement.height_px,
        "scale": None if plane is None else _scale_to_json(plane),
        "fish": [fish_to_json(fish) for fish in measurement.fish],
        "problems": [problem_to_json(p) for p in measurement.problems],
    }


def _array(data: Any, shape: tuple[int, ...]) -> FloatArray:
    return frozen(np.asarray(data, dtype=np.float64).reshape(shape))


def _read_sources(data: Iterable[Mapping[str, Any]]) -> tuple[UncertaintySource, ...]:
    return tuple(UncertaintySource(**source) for source in data)


def _read_scale(data: Mapping[str, Any]) -> PlaneScale:
    camera = data["camera"]
    return PlaneScale(
        method=data["method"],
        marker_ids=tuple(data["marker_ids"]),
        camera=CameraModel(
            focal_px=camera["focal_px"],
            centre_x_px=camera["centre_px"][0],
            centre_y_px=camera["centre_px"][1],
            k1=camera["k1"],
            focal_relative_sd=camera["focal_relative_sd"],
            focal_source=camera["focal_source"],
        ),
        rotation=_array(data["rotation"], (3, 3)),
        translation_mm=_array(data["translation_mm"], (3,)),
        tilt_deg=data["tilt_deg"],
        camera_height_mm=data["camera_height_mm"],
        px_per_mm=data["px_per_mm"],
        relative_se=data["relative_se"],
        rms_residual_mm=data["rms_residual_mm"],
        markers_px=_array(data["markers_px"], (-1, 4, 2)),
        paper_px=tuple(_array(paper, (-1, 2)) for paper in data["paper_px"]),
        sources=_read_sources(data["sources"]),
        covariance=_array(data["covariance"], (8, 8)),
        constant_relative_sd=data["constant_relative_sd"],
    )


def _read_fish(data: Mapping[str, Any]) -> MeasuredFish:
    lengths = data["lengths"]
    weight = data["weight"]
    return MeasuredFish(
        species_key=data["species"],
        length=FishLength(
            fork_length_mm=Estimate(**lengths["fork_length_mm"]),
            total_length_mm=Estimate(**lengths["total_length_mm"]),
            standard_length_mm=Estimate(**lengths["standard_length_mm"]),
            body_depth_mm=Estimate(**lengths["body_depth_mm"]),
            thickness_mm=data["thickness_mm"],
            area_mm2=data["area_mm2"],
            bend_deg=data["bend_deg"],
            contour_px=_array(data["outline_px"], (-1, 2)),
            midline_px=_array(data["midline_px"], (-1, 2)),
            snout_px=_array(data["snout_px"], (2,)),
            fork_px=_array(data["fork_px"], (2,)),
            confidence=data["confidence"],
            complete=data["complete"],
            flags=tuple(data["length_flags"]),
            sources=_read_sources(data["length_sources"]),
        ),
        weight=None
        if weight is None
        else FishWeight(
            weight_g=Estimate(**weight["weight_g"]),
            species_key=data["species"],
            flags=tuple(weight["flags"]),
            sources=_read_sources(weight["sources"]),
        ),
    )


def photo_from_json(data: Mapping[str, Any]) -> PhotoMeasurement:
    """Return the measurement that ``photo_to_json`` wrote."""
    scale = data["scale"]
    return PhotoMeasurement(
        photo=data["photo"],
        width_px=data["width_px"],
        height_px=data["height_px"],
        plane=None if scale is None else _read_scale(scale),
        fish=tuple(_read_fish(fish) for fish in data["fish"]),
        problems=tuple(Problem(**problem) for problem in data["problems"]),
    )


# --- CSV --------------------------------------------------------------------

CSV_COLUMNS = (
    "photo",
    "fish",
    "species",
    "complete",
    "fork_length_mm",
    "fork_length_se_mm",
    "total_length_mm",
    "standard_length_mm",
    "body_depth_mm",
    "weight_g",
    "weight_se_g",
    "confidence",
    "flags",
)


def csv_rows(measurements: Iterable[PhotoMeasurement]) -> Iterable[list[str]]:
    """Yield the header, then one row a fish; what is not known is empty."""
    yield list(CSV_COLUMNS)
    for measurement in measurements:
        for number, fish in enumerate(measurement.fish, start=1):
            data = fish_to_json(fish)
            data |= {
                "photo": measurement.photo,
                "fish": number,
                "flags": " ".join(fish.flags),
            }
            yield [_cell(data[column]) for column in CSV_COLUMNS]


def _cell(value: object) -> str:
    if value is None or (isinstance(value, float) and not math.isfinite(value)):
        return ""
    if isinstance(value, str):
        return text_to_cell(value)
    return str(value).lower() if isinstance(value, bool) else str(value)
