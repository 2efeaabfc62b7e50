"""64 clients at once on a real server: no error but 503, nothing acknowledged lost."""

import io
from pathlib import Path

import numpy as np
from PIL import Image

from tests.api.load import listed, stamped, upload_at_once
from tests.api.running import running

CLIENTS = 64
MEMORY_MB = 1000.0
"""A small computer beside the tanks has 2 to 4 GB. Each of two workers holds OpenCV,
SciPy and one photo; 64 uploads of 1.3 MB more must not show."""


def quick_photo() -> bytes:
    """Return a photo without a marker, so that measuring is short."""
    out = io.BytesIO()
    noise = np.random.default_rng(0).integers(0, 255, (600, 800, 3), dtype=np.uint8)
    Image.fromarray(noise).save(out, "JPEG", quality=60)
    return out.getvalue()


def test_many_clients_at_once(tmp_path: Path) -> None:
    """Each is taken or told when to come again, and what is taken is on the disk."""
    photo = quick_photo()
    photos = [
        stamped(photo, number, extra_bytes=1_200_000) for number in range(CLIENTS)
    ]
    data = tmp_path / "data"
    with running(data) as server:
        found = upload_at_once(server, photos, tries=2)
        assert set(found.answers) <= {200, 503}
        assert found.without_retry_after == 0
        assert len(found.acknowledged) >= 8  # workers and queue: never fewer
        assert found.acknowledged <= listed(server)
        server.stop()
    kept = {path.name for path in (data / "photos").rglob("*") if path.is_file()}
    assert found.acknowledged <= kept
    assert not list((data / "incoming").iterdir())
    assert found.peak_mb < MEMORY_MB
