"""Feed broken photos to the readers in a worker process that may die or hang.

``python -m tests.fuzz.attack --count 10000`` prints what happened; see
``tests/fuzz/README.md``.
"""

import argparse
import json
import multiprocessing
import resource
import sys
import time
import traceback
from collections import Counter
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from pathlib import Path

from fishmeasure.base.errors import FishMeasureError
from fishmeasure.photo.image import read_photo, small_picture
from fishmeasure.photo.privacy import strip_private_tags
from fishmeasure.pipeline import measure_photo
from tests.fuzz import real_photos
from tests.fuzz.bases import SECRET
from tests.fuzz.mutants import mutants

SECONDS_EACH = 60.0
"""The server's own limit for a photo (``measure_timeout_s``)."""
START_SECONDS = 600.0
MEMORY_BYTES = 3_000_000_000
"""Address space of a worker; 120 megapixels of RGBA are 0.5 GB, thrice in use."""


@dataclass(slots=True, kw_only=True)
class Outcome:
    """What became of the photos."""

    photos: int = 0
    taken: int = 0
    peak_mb: float = 0.0
    slowest_s: float = 0.0
    refused: Counter[str] = field(default_factory=Counter)
    failures: list[str] = field(default_factory=list)


def try_one(name: str, data: bytes) -> str:
    """Return "" if the photo was taken, else the code of the refusal.

    Anything but a typed error passes through.
    """
    try:
        clean = strip_private_tags(data, name)
    except FishMeasureError:
        clean = None
    codes = []
    for content in (data, clean):
        if content is not None:
            try:
                read_photo(content, name)
                codes.append("")
            except FishMeasureError as error:
                codes.append(error.code)
    measured = measure_photo(data if clean is None else clean, name)
    if measured.width_px == 0:
        assert measured.problems[0].fatal
    elif clean is not None and SECRET in clean and not _in_model(clean, name):
        message = f"private text left in {name}"
        raise AssertionError(message)
    return codes[-1]


def try_reading(name: str, data: bytes) -> str:
    """Do what the server does with a photo but measure it; return as ``try_one``.

    A photo counts as stored where what is left of it can be read.
    """
    try:
        clean = strip_private_tags(data, name)
        read_photo(clean, name)
        small_picture(clean, name, 64)
    except FishMeasureError as error:
        return error.code
    if real_photos.private_in(clean) and not _in_model(clean, name):
        message = f"private text left in {name}"
        raise AssertionError(message)
    return ""


def _in_model(clean: bytes, name: str) -> bool:
    """Return whether a broken pointer has made another tag's text the maker's."""
    return SECRET.decode() in read_photo(clean, name).camera_model


def peak_mb() -> float:
    """Return the most memory that this process has held (proc(5), VmHWM).

    ``getrusage`` would count what the parent held when it was started.
    """
    text = Path("/proc/self/status").read_text(encoding="ascii")
    line = next(line for line in text.splitlines() if line.startswith("VmHWM:"))
    return int(line.split()[1]) / 1000.0


def _work(
    said: Connection, folder: Path | None, seed: int, first: int, last: int
) -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    photos, attempt = mutants(seed, first, last), try_one
    if folder is not None:
        photos = real_photos.mutants(folder, seed, first, last)
        attempt = try_reading
    for number, (name, data) in enumerate(photos, first):
        said.send((number, name, None, 0.0, 0.0))
        start = time.monotonic()
        try:
            answer = attempt(name, data)
        except BaseException:  # noqa: BLE001 - it is what we look for
            answer = "!" + traceback.format_exc()
        said.send((number, name, answer, time.monotonic() - start, peak_mb()))


def _run_worker(
    folder: Path | None, seed: int, first: int, last: int, outcome: Outcome
) -> int:
    """Run until the end or a death; return the number to go on with."""
    context = multiprocessing.get_context("spawn")
    heard, said = context.Pipe(duplex=False)
    worker = context.Process(target=_work, args=(said, folder, seed, first, last))
    worker.start()
    said.close()
    number, name = first, ""
    try:
        while heard.poll(SECONDS_EACH if name else START_SECONDS):
            number, name, answer, seconds, peak = heard.recv()
            if answer is None:
                continue
            outcome.photos += 1
            outcome.slowest_s = max(outcome.slowest_s, seconds)
            outcome.peak_mb = max(outcome.peak_mb, peak)
            if answer.startswith("!"):
                outcome.failures.append(f"{name}: {answer[1:]}")
            elif answer:
                outcome.refused[answer] += 1
            else:
                outcome.taken += 1
        outcome.failures.append(f"{name}: no answer in {SECONDS_EACH:g} s")
        worker.kill()
    except EOFError:
        worker.join()
        if worker.exitcode == 0:
            return last
        outcome.failures.append(f"{name}: worker ended with {worker.exitcode}")
    worker.join()
    outcome.photos += 1
    return number + 1


def attack(seed: int, first: int, last: int, *, folder: Path | None = None) -> Outcome:
    """Return what became of the mutants with these numbers.

    With a folder they are those of its photos (``real_photos``), and are read alone.
    """
    outcome = Outcome()
    while first < last:
        first = _run_worker(folder, seed, first, last, outcome)
    return outcome


def main() -> None:
    """Attack and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=10_000)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--folder", type=Path, help="of real photos, broken by parts")
    options = parser.parse_args()
    last = options.first + options.count
    outcome = attack(options.seed, options.first, last, folder=options.folder)
    found = {name: getattr(outcome, name) for name in Outcome.__slots__}
    sys.stdout.write(json.dumps(found, indent=1) + "\n")
    sys.exit(bool(outcome.failures))


if __name__ == "__main__":
    main()
