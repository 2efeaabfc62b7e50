"""The speed table of README.md here, by one command.

    python tests/bench/run_all.py [--write]

A photo's steps are given as processor time on one thread, and as full decodes of the
same JPEG, which say the same on another machine.
"""

import argparse
import json
import os
import re
import resource
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from fishmeasure.batch import ResultFile, Workers, run_batch, start_processes  # noqa: E402
from fishmeasure.cli.batch import measure_paths  # noqa: E402
from fishmeasure.photo.image import read_photo  # noqa: E402
from fishmeasure.photo.markers import find_plane  # noqa: E402
from fishmeasure.photo.measurement import PhotoMeasurement  # noqa: E402
from fishmeasure.photo.segment import SEGMENTERS  # noqa: E402
from fishmeasure.pipeline import PhotoSettings, measure_photo  # noqa: E402
from tests.bench.bench_photo import full_decode  # noqa: E402
from tests.bench.plain_skimage import measure_plainly  # noqa: E402
from tests.bench.timing import processor_s, use_one_thread  # noqa: E402

PHOTO = ROOT / "sample_images" / "tank_a_net1.jpg"
PAGE = Path(__file__).parent / "README.md"
MANY = 100_000
Row = tuple[str, str, str]


def photo_rows(data: bytes, runs: int) -> list[Row]:
    """Return the processor time of a photo's steps, on one thread."""
    use_one_thread()
    floor = processor_s(partial(full_decode, data), runs)
    photo = read_photo(data, "p")
    found = {
        "one full decode of the 12 MP photo": floor,
        "reading and scale (reduced decode, markers)": processor_s(
            lambda: find_plane(read_photo(data, "p")), runs
        ),
    }
    for name, segmenter in SEGMENTERS.items():
        whole = partial(measure_photo, data, "p", PhotoSettings(), segmenter)
        found[f"photo to result, outlines: {name}"] = processor_s(whole, runs)
    plane = find_plane(photo)
    corners_px = np.array(plane.markers_px, dtype=float).reshape(-1, 2)
    corners_mm = plane.to_plane_mm(corners_px)
    plainly = partial(measure_plainly, data, corners_px, corners_mm)
    found["the same with scikit-image alone, markers given"] = processor_s(
        plainly, max(runs // 3, 1)
    )
    return [
        (name, f"{1000 * seconds:.0f} ms", f"{seconds / floor:.1f}")
        for name, seconds in found.items()
    ]


def errors_mm(photo: PhotoMeasurement | None, data: bytes) -> tuple[int, float]:
    """Return how many fish were found and the middle error of their fork length."""
    truth = json.loads(PHOTO.with_suffix(".truth.json").read_text("utf-8"))["fish"]
    centres = np.array(
        [np.add(fish["snout_px"], fish["fork_px"]) / 2 for fish in truth]
    )
    known = np.array([fish["fork_length_mm"] for fish in truth])
    if photo is not None:
        found = [
            (
                (fish.snout_px + fish.fork_px) / 2,
                fish.fork_length_mm,
            )
            for fish in photo.complete_fish
        ]
    else:
        plane = find_plane(read_photo(data, "p"))
        corners_px = np.array(plane.markers_px, dtype=float).reshape(-1, 2)
        regions = measure_plainly(data, corners_px, plane.to_plane_mm(corners_px))
        found = [(region.centre_px, region.length_mm) for region in regions]
    errors = []
    for centre, length_mm in found:
        away_px = np.linalg.norm(centres - centre, axis=1)
        if away_px.min() < 150.0:
            errors.append(abs(length_mm - known[int(away_px.argmin())]))
    return len(errors), float(np.median(errors))


def help_row() -> Row:
    """Return what the command line's help takes, beside Python's own start."""

    def cpu_s(*arguments: str) -> float:
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        command = [sys.executable, *arguments]
        subprocess.run(command, check=True, capture_output=True, cwd=ROOT)  # noqa: S603
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime

    seconds = min(cpu_s("-m", "fishmeasure", "--help") for _ in range(5))
    return "`fishmeasure --help`", f"{1000 * seconds:.0f} ms", ""


def _stub(paths: tuple[str, ...]) -> list[dict[str, Any]]:
    return [{"path": path, "problems": []} for path in paths]


class _AtOnce(ProcessPoolExecutor):
    """Runs in this process: what is timed is the bookkeeping."""

    def submit(self, fn: Any, /, *args: Any, **kwargs: Any) -> Any:
        from concurrent.futures import Future

        future: Future[Any] = Future()
        future.set_result(fn(*args, **kwargs))
        return future


def batch_rows() -> list[Row]:
    """Return the cost of a list of 100,000, stopped in the middle and resumed."""
    paths = [f"/photos/{number:06d}.jpg" for number in range(MANY)]
    workers = Workers(start=lambda: _AtOnce(1), count=2)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "results.jsonl"
        start = time.process_time()
        before_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000
        with ResultFile(file) as results:
            for count in run_batch(paths, results, _stub, workers):
                if count.done >= MANY // 2:
                    break
        with ResultFile(file) as results:
            *_, last = run_batch(paths, results, _stub, workers)
        seconds = time.process_time() - start
        lines = file.read_text("utf-8").splitlines()
        more_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000 - before_mb
    assert last.done == MANY
    assert len(lines) == len(set(lines)) == MANY
    name = "`batch`: bookkeeping of 100,000 photos with a stop in the middle"
    return [(name, f"{seconds:.1f} s, {more_mb:.0f} MB", "")]


def throughput_row(data: bytes, photos: int) -> Row:
    """Return how many times faster two processes are than one."""
    seconds = {}
    with tempfile.TemporaryDirectory() as folder:
        paths = []
        for number in range(photos):
            path = Path(folder) / f"{number}.jpg"
            path.write_bytes(data)
            paths.append(str(path))
        measure = partial(measure_paths, settings=PhotoSettings(), full=False)
        for workers in (1, 2):
            with start_processes(workers, "fishmeasure.pipeline") as pool:
                warm = [pool.submit(measure, (paths[0],)) for _ in range(2 * workers)]
                for future in warm:
                    future.result()
                start = time.perf_counter()
                for future in [pool.submit(measure, (path,)) for path in paths]:
                    future.result()
                seconds[workers] = time.perf_counter() - start
    gain = seconds[1] / seconds[2]
    name = f"`batch`: {photos} photos by 2 processes, by the clock, over by 1"
    return name, f"{gain:.2f} x as fast", ""


def table(runs: int, photos: int) -> str:
    """Return the table and where it was measured."""
    data = PHOTO.read_bytes()
    rows = [*photo_rows(data, runs), help_row(), *batch_rows()]
    if photos:
        rows.append(throughput_row(data, photos))
    lines = ["| what | time | decodes |", "| --- | ---: | ---: |"]
    lines += [f"| {' | '.join(row)} |" for row in rows]
    ours = errors_mm(measure_photo(data, "p"), data)
    plain = errors_mm(None, data)
    note = (
        f"By `python tests/bench/run_all.py{'' if photos else ' --photos 0'}`: "
        f"processor time on one thread, on {os.cpu_count()} cores at a load of "
        f"{os.getloadavg()[0]:.0f}. The photo has 8 drawn fish: the default method "
        f"measures {ours[0]} with a middle error of {ours[1]:.1f} mm, scikit-image's "
        f"major axes find {plain[0]} with {plain[1]:.1f} mm."
    )
    return "\n".join(lines) + "\n\n" + note


def main() -> None:
    """Print the table, or put it into the page."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=7)
    parser.add_argument(
        "--photos",
        type=int,
        default=24,
        help="of the row by the clock, which needs idle cores; 0: without that row",
    )
    parser.add_argument("--write", action="store_true")
    options = parser.parse_args()
    found = table(options.runs, options.photos)
    print(found)
    if options.write:
        text = PAGE.read_text("utf-8")
        place = r"(<!-- speed -->\n).*?(\n<!-- end -->)"
        new = re.sub(place, lambda m: f"{m[1]}\n{found}\n{m[2]}", text, flags=re.DOTALL)
        PAGE.write_text(new, "utf-8")


if __name__ == "__main__":
    main()
