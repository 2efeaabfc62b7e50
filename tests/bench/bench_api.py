"""Uploads: one client's time to the result against one decode, and 64 at once.

Run from the repository: ``python -m tests.bench.bench_api [photo...]``.
"""

import argparse
import io
import os
import platform
import statistics
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

import httpx2
from PIL import Image

from fishmeasure.pipeline import measure_photo
from tests.api.load import listed, stamped, upload_at_once
from tests.api.running import Server, running

SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"
TARGET_RATIO = 5.0
SINGLE_UPLOADS = 20
CLIENTS = 64
PHONE_WIDTH_PX = 4032


@dataclass(frozen=True, slots=True)
class Rounds:
    """Seconds of each round."""

    decode_s: list[float] = field(default_factory=list)
    measure_s: list[float] = field(default_factory=list)
    upload_s: list[float] = field(default_factory=list)


def timed_together(server: Server, jpeg: bytes) -> Rounds:
    """Return the times of decoding, measuring and uploading, by turns.

    What else the machine does then weighs on all three alike.
    """
    rounds = Rounds()
    with httpx2.Client(base_url=server.url, timeout=120) as http:
        for number in range(-2, SINGLE_UPLOADS):  # two to warm up
            photo = stamped(jpeg, number % 10_000)
            begun = time.perf_counter()
            with Image.open(io.BytesIO(photo)) as image:
                image.convert("RGB")
            decoded = time.perf_counter()
            measure_photo(photo, "net.jpg")
            measured = time.perf_counter()
            answer = http.post("/v1/photos", files={"photos": ("net.jpg", photo)})
            answered = time.perf_counter()
            assert answer.status_code == 200, answer.text
            if number >= 0:
                rounds.decode_s.append(decoded - begun)
                rounds.measure_s.append(measured - decoded)
                rounds.upload_s.append(answered - measured)
    return rounds


def phone_sized(jpeg: bytes) -> bytes:
    """Return the picture at the size of a phone's photo."""
    out = io.BytesIO()
    with Image.open(io.BytesIO(jpeg)) as image:
        height_px = round(image.height * PHONE_WIDTH_PX / image.width)
        large = image.convert("RGB").resize((PHONE_WIDTH_PX, height_px))
    large.save(out, "JPEG", quality=92)
    return out.getvalue()


def single(server: Server, name: str, jpeg: bytes) -> None:
    with Image.open(io.BytesIO(jpeg)) as image:
        size = f"{image.width * image.height / 1e6:.1f} MP"
    rounds = timed_together(server, jpeg)
    decode, measure, upload = (
        statistics.median(times)
        for times in (rounds.decode_s, rounds.measure_s, rounds.upload_s)
    )
    p95 = statistics.quantiles(rounds.upload_s, n=20)[-1]
    print(
        f"{name} ({size}): decode {1e3 * decode:.0f} ms; measuring "
        f"{measure / decode:.1f} x, upload to result {upload / decode:.1f} x, the "
        f"server's part {1e3 * (upload - measure):.0f} ms; p95 {1e3 * p95:.0f} ms = "
        f"{p95 / decode:.1f} x (target <= {TARGET_RATIO:g} x)"
    )


def many(server: Server, path: Path) -> None:
    jpeg = path.read_bytes()
    idle = server.memory_mb()
    photos = [stamped(jpeg, 10_000 + number) for number in range(CLIENTS)]
    found = upload_at_once(server, photos, tries=60)
    lost = found.acknowledged - listed(server)
    print(
        f"{CLIENTS} clients at once: {found.seconds:.1f} s, answers "
        f"{dict(sorted(found.answers.items()))}, {len(found.acknowledged)} acknowledged"
        f", {len(lost)} lost; memory {idle:.0f} MB before, "
        f"{found.peak_mb:.0f} MB at most"
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("photos", nargs="*", type=Path)
    photos = parser.parse_args().photos or [SAMPLES / "tank_a_net2.jpg"]
    print(
        f"{platform.machine()}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}"
    )
    with (
        tempfile.TemporaryDirectory() as folder,
        running(Path(folder) / "data") as server,
    ):
        for path in photos:
            single(server, path.name, path.read_bytes())
            single(server, f"{path.name}, enlarged", phone_sized(path.read_bytes()))
        many(server, photos[0])
        server.stop()


if __name__ == "__main__":
    main()
