"""What a server needs for each photo and entry: disk, processor time, memory.

Run from the repository: ``python -m tests.bench.bench_sizes [photo...]``. With
``FISHMEASURE_TEST_POSTGRES_URL`` (see ``.ci/postgres.sh``) also for PostgreSQL.
"""

import argparse
import json
import os
import statistics
import tempfile
import time
from pathlib import Path

import cv2
import httpx2
from PIL import Image
from sqlalchemy import create_engine, text
from sqlalchemy.engine import make_url

from fishmeasure.cli.batch import brief
from fishmeasure.photo.privacy import strip_private_tags
from fishmeasure.pipeline import measure_photo
from fishmeasure.store.book import open_book
from tests.api.load import stamped
from tests.api.running import Server, family, pss_kb, running
from tests.bench.bench_book import content

SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"
FEW, MANY = 2_000, 22_000
"""Entries: what an empty book takes falls out of the difference."""
UPLOADS = 24


def photo_line(path: Path) -> str:
    """Return what one photo takes."""
    data = path.read_bytes()
    kept = strip_private_tags(data, path.name)
    with Image.open(path) as image:
        size = f"{image.width * image.height / 1e6:.1f} MP"
    measurement = measure_photo(kept, path.name)
    used_s = []
    for _ in range(5):
        begun = time.process_time()
        measure_photo(kept, path.name)
        used_s.append(time.process_time() - begun)
    whole = measurement.to_json()
    book_kb = 2 * len(json.dumps(whole)) / 1e3  # as measured, and as corrected
    line_kb = len(json.dumps(brief(whole))) / 1e3
    return (
        f"{path.name} ({size}, {len(measurement.fish)} fish): {len(kept) / 1e6:.2f} MB "
        f"kept, {1e3 * statistics.median(used_s):.0f} ms of processor time; in the "
        f"book {book_kb:.0f} kB, in a batch's results {line_kb:.1f}"
    )


def sqlite_bytes(entry_count: int) -> int:
    """Return the size of a closed book with so many entries."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "book.db"
        with open_book(file) as book:
            book.add_content(content(entry_count, 10, 6))
        return sum(part.stat().st_size for part in Path(folder).iterdir())


def postgres_bytes(entry_count: int, server: str) -> int:
    """Return the size of a fresh database with so many entries."""
    name = f"sizes_{os.getpid()}"
    url = make_url(server).set(drivername="postgresql+psycopg")
    engine = create_engine(url, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(f"CREATE DATABASE {name}"))
        try:
            address = url.set(database=name).render_as_string(hide_password=False)
            with open_book(address) as book:
                book.add_content(content(entry_count, 10, 6))
            sized = text("SELECT pg_database_size(:name)")
            return int(connection.execute(sized, {"name": name}).scalar_one())
        finally:
            connection.execute(text(f"DROP DATABASE {name} WITH (FORCE)"))
            engine.dispose()


def memory_line(server: Server, when: str) -> str:
    """Return the memory of each process, shared pages once each."""
    parts_mb = [pss_kb(pid) / 1024 for pid in family(server.process.pid)]
    parts = ", ".join(f"{part_mb:.0f}" for part_mb in sorted(parts_mb))
    return f"memory {when}: {sum(parts_mb):.0f} MB (processes: {parts})"


def print_server(photo: Path) -> None:
    """Print a server's memory before and after uploads."""
    jpeg = photo.read_bytes()
    with (
        tempfile.TemporaryDirectory() as folder,
        running(Path(folder) / "data") as server,
        httpx2.Client(base_url=server.url, timeout=120) as http,
    ):
        print(memory_line(server, "of a server at rest"))
        for number in range(UPLOADS):
            sent = {"photos": ("net.jpg", stamped(jpeg, number))}
            http.post("/v1/photos", files=sent).raise_for_status()
        print(memory_line(server, f"after {UPLOADS} photos"))
        server.stop()


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("photos", nargs="*", type=Path)
    photos = parser.parse_args().photos or [SAMPLES / "tank_a_net1.jpg"]
    cv2.setNumThreads(1)
    for path in photos:
        print(photo_line(path))
    each = (sqlite_bytes(MANY) - sqlite_bytes(FEW)) / (MANY - FEW)
    print(f"an entry in SQLite: {each:.0f} bytes")
    if server := os.environ.get("FISHMEASURE_TEST_POSTGRES_URL"):
        more = postgres_bytes(MANY, server) - postgres_bytes(FEW, server)
        print(f"an entry in PostgreSQL: {more / (MANY - FEW):.0f} bytes")
    print_server(photos[0])


if __name__ == "__main__":
    main()
