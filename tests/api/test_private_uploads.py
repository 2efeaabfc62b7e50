"""A photo as it was sent, with its place in it, does not outlive its server."""

import contextlib
import io
import signal
import stat
import threading
import time
from pathlib import Path

import httpx2
from PIL import ExifTags, Image

from api.files import sweep_uploads, upload_file
from tests.api.running import running

PLACE = b"KILLED-SERVER-PLACE-47N"
SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"


def photo_with_place() -> bytes:
    """Return a photo that takes a while to measure, its place in its tags."""
    exif = Image.Exif()
    exif.get_ifd(ExifTags.IFD.GPSInfo)[ExifTags.GPS.GPSMapDatum] = PLACE.decode()
    out = io.BytesIO()
    with Image.open(SAMPLES / "tank_a_net2.jpg") as image:
        image.save(out, "JPEG", exif=exif)
    assert PLACE in out.getvalue()
    return out.getvalue()


def test_a_killed_server_leaves_no_place_behind(tmp_path: Path) -> None:
    """kill -9 during an upload; the next start removes it at once."""
    data = tmp_path / "data"
    with running(data, "--workers", "1") as server:
        files = {"photos": ("a.jpg", photo_with_place())}

        def send() -> None:
            with contextlib.suppress(httpx2.TransportError):
                httpx2.post(f"{server.url}/v1/photos", files=files, timeout=60)

        sender = threading.Thread(target=send)
        sender.start()
        until = time.monotonic() + 60
        while not list((data / "incoming").glob("upload-*")):
            assert time.monotonic() < until
            time.sleep(0.001)
        assert stat.S_IMODE((data / "incoming").stat().st_mode) == 0o700
        server.stop(signal.SIGKILL)
        sender.join()
    assert list((data / "incoming").iterdir())  # nobody was there to remove it
    with running(data, "--workers", "1"):
        left = [path for path in data.rglob("*") if path.is_file()]
        assert [path for path in left if PLACE in path.read_bytes()] == []


def test_an_upload_of_a_living_server_is_left_alone(tmp_path: Path) -> None:
    """Two servers may share a folder."""
    (tmp_path / "upload-left-over").write_bytes(b"of a crash")
    with upload_file(tmp_path) as mine:
        sweep_uploads(tmp_path)
        assert [str(path) for path in tmp_path.iterdir()] == [mine.name]
    assert list(tmp_path.iterdir()) == []
