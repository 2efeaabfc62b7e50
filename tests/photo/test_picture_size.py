"""Pictures made of a photo stay small, whatever the photo's sides are."""

import io
import json
import pickle
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, JpegImagePlugin

from api.worker import shrink
from fishmeasure.base.errors import NotDrawnError, PhotoError, PhotoTooLargeError
from fishmeasure.photo.picture_size import MOST_PIXELS, MOST_SIDE_PX, fitted
from fishmeasure.photo.privacy import strip_private_tags

SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"
MOST_MB = 800
_RUN = """
import sys
from pathlib import Path
from fishmeasure import cli
try:
    cli.main()
except SystemExit as end:
    # Not ru_maxrss: a process starts with that of the one that started it.
    lines = Path("/proc/self/status").read_text().splitlines()
    (peak,) = [line.split()[1] for line in lines if line.startswith("VmHWM")]
    print("PEAK", float(peak) / 1024, file=sys.stderr)
    raise
"""


def jpeg(width_px: int, height_px: int, **options: object) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (width_px, height_px), (90, 90, 90)).save(out, "JPEG", **options)
    return out.getvalue()


@given(st.integers(1, 4_000_000), st.integers(1, 4_000_000), st.integers(1, 6000))
def test_no_picture_is_over_the_bounds(width: int, height: int, wanted: int) -> None:
    """Of any photo; and one that may be as wide as is wanted is so."""
    across, down = fitted(width, height, wanted)
    assert 1 <= across <= wanted
    assert 1 <= down <= MOST_SIDE_PX
    assert across * down <= MOST_PIXELS + max(across, down)  # by rounding a side
    if wanted * (wanted * height / width) <= MOST_PIXELS and (
        wanted * max(1.0, height / width) <= MOST_SIDE_PX
    ):
        assert across == wanted
        assert down == max(1, round(wanted * height / width))


@pytest.mark.skipif(
    not Path("/proc/self/status").exists(), reason="the peak is read as Linux tells it"
)
def test_a_strip_is_said_and_the_other_photos_are_drawn(tmp_path: Path) -> None:
    """32 x 30,000 pixels: one sentence, status 2, and less than 800 MB."""
    for name, size in {"tall": (32, 30_000), "wide": (30_000, 32)}.items():
        (tmp_path / f"{name}.jpg").write_bytes(jpeg(*size))
    good = SAMPLES / "tank_a_net2.jpg"
    names = [tmp_path / "tall.jpg", good, tmp_path / "wide.jpg"]
    done = subprocess.run(  # noqa: S603 - this program
        [
            *(sys.executable, "-c", _RUN, "photo", *map(str, names)),
            *("--overlay", str(tmp_path / "drawn"), "--json", "-"),
        ],
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert float(done.stderr.split("PEAK")[1]) < MOST_MB
    tall, drawn, wide = json.loads(done.stdout)["photos"]
    for strip, sides in ((tall, "32 x 30000"), (wide, "30000 x 32")):
        said = [p["message"] for p in strip["problems"] if p["code"] == "not-drawn"]
        assert len(said) == 1
        assert sides in said[0]
    assert "not-drawn" not in {problem["code"] for problem in drawn["problems"]}
    found = [path.name for path in (tmp_path / "drawn").iterdir()]
    assert found == ["tank_a_net2.overlay.jpg"]


@pytest.mark.parametrize("size", [(32, 200_000), (200_000, 32), (32, 30_000)])
def test_a_download_of_a_strip_is_a_picture(
    size: tuple[int, int], tmp_path: Path
) -> None:
    """No side over what a JPEG can have: it was called lost."""
    path = tmp_path / "strip.png"
    Image.fromarray(np.zeros((size[1], size[0]), np.uint8)).save(path)
    with Image.open(io.BytesIO(shrink(path, 6000))) as picture:
        assert max(picture.size) <= MOST_SIDE_PX
        assert picture.width * picture.height <= MOST_PIXELS


@pytest.mark.parametrize("orientation", [1, 6])
def test_a_picture_is_decoded_no_larger_than_it_needs(
    orientation: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """libjpeg halves 12 megapixels for 1,600 pixels across, an eighth for 240."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = tmp_path / "photo.jpg"
    path.write_bytes(jpeg(4000, 3000, exif=exif))
    decoded: list[tuple[int, int]] = []
    load = JpegImagePlugin.JpegImageFile.load

    def spy(image: JpegImagePlugin.JpegImageFile) -> object:
        decoded.append(image.size)
        return load(image)

    monkeypatch.setattr(JpegImagePlugin.JpegImageFile, "load", spy)
    across = 1600 if orientation == 1 else 1200  # of a photo that stands upright
    with Image.open(io.BytesIO(shrink(path, across))) as picture:
        assert picture.size == ((1600, 1200) if orientation == 1 else (1200, 1600))
    assert max(decoded) == (2000, 1500)
    decoded.clear()
    shrink(path, 240)
    assert max(decoded) == (500, 375)


def test_two_hundred_megapixels_are_not_called_damaged(tmp_path: Path) -> None:
    """Nor when a server takes them in, which takes the private tags off first."""
    path = tmp_path / "large.png"
    Image.fromarray(np.zeros((10_000, 20_000), np.uint8)).save(path, compress_level=1)
    with pytest.raises(PhotoTooLargeError, match="120 megapixels"):
        strip_private_tags(path.read_bytes(), "large.png")


def test_an_error_comes_whole_out_of_a_worker() -> None:
    """One made of other arguments than its sentence could not be sent."""
    error: PhotoError = NotDrawnError("a.jpg", 32, 30_000)
    again = pickle.loads(pickle.dumps(error))  # noqa: S301 - our own
    assert type(again) is NotDrawnError
    assert (str(again), again.code) == (str(error), "not-drawn")
    assert again.advice
