"""Writes photographs with their EXIF and truth beside them."""

import json
from pathlib import Path

import numpy as np
import pillow_heif
from PIL import Image

from sample_images.generator.scene import Scene, SceneSpec
from sample_images.generator.truth import describe

_ORIENTATION, _MAKE, _MODEL, _SOFTWARE, _DESCRIPTION = (
    0x0112,
    0x010F,
    0x0110,
    0x0131,
    0x010E,
)
_EXIF_BLOCK, _FOCAL_35MM = 0x8769, 0xA405


def _exif(scene: Scene) -> Image.Exif:
    exif = Image.Exif()
    exif[_DESCRIPTION] = "Invented and rendered, no real fish"
    exif[_MAKE], exif[_MODEL] = "Invented", "Rendered phone"
    exif[_SOFTWARE] = "sample_images.generator"
    exif[_ORIENTATION] = scene.spec.orientation
    if scene.camera.write_focal:
        exif.get_ifd(_EXIF_BLOCK)[_FOCAL_35MM] = scene.camera.focal_35mm
    return exif


def file_name(spec: SceneSpec) -> str:
    """Return the photograph's file name."""
    return f"{spec.name}.{spec.file_type}"


def write_photo(scene: Scene, picture: np.ndarray, folder: Path) -> Path:
    """Write the photograph, stored turned where its EXIF orientation says so."""
    spec = scene.spec
    image = Image.fromarray(picture)
    if spec.orientation == 6:  # shown after a quarter turn clockwise
        image = image.transpose(Image.Transpose.ROTATE_90)
    path = folder / file_name(spec)
    exif = _exif(scene).tobytes()
    if spec.file_type == "heic":
        pillow_heif.register_heif_opener()
        image.save(path, format="HEIF", quality=spec.quality, exif=exif)
    elif spec.file_type == "webp":
        image.save(path, quality=spec.quality, exif=exif)
    else:
        image.save(path, quality=spec.quality, exif=exif, subsampling="4:2:0")
    return path


def write_truth(scene: Scene, folder: Path) -> Path:
    """Write what is true beside the photograph."""
    facts = {"photo": file_name(scene.spec), **describe(scene)}
    path = folder / f"{scene.spec.name}.truth.json"
    text = json.dumps(facts, separators=(",", ":"))
    # One line a fish and marker keeps the file small and its history readable.
    for mark in ('{"fork_length_mm"', '{"id"', '"fish":', '"markers":', '"camera":'):
        text = text.replace(mark, "\n" + mark)
    path.write_text(text + "\n", encoding="utf-8")
    return path
