"""Many photos: measured in other processes, resumed after a stop, each on its own.

Results go to a file of JSON lines, one a photo, in the order in which they are
done. What is in the file is not measured again, so a run that was stopped goes on
where it was; a line cut short by a crash is taken as not done. A photo on which the
worker dies is tried alone, and if it dies again it is recorded as failed.
"""

import json
import multiprocessing
import os
import threading
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator
from concurrent.futures import (
    FIRST_COMPLETED,
    Executor,
    Future,
    ProcessPoolExecutor,
    wait,
)
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from pathlib import Path
from typing import Any

Json = dict[str, Any]
Measure = Callable[[tuple[str, ...]], list[Json]]
"""Takes paths of photos, returns a line for each. Runs in a worker."""

CHUNK_PHOTOS = 8
"""Photos sent to a worker at once: about 2 s of work, far above the cost of sending."""
AHEAD_PER_WORKER = 2

MEASURING_FAILED: Json = {
    "code": "measuring-failed",
    "message": "The program that measured this photo broke down. Open the photo and "
    "save it anew, or leave it out.",
    "fatal": True,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchCount:
    """How far a run has come."""

    done: int
    unusable: int
    total: int


class ResultFile:
    """JSON lines on disk; what is written is on the disk before ``add`` returns."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._drop_torn_line()

    def _drop_torn_line(self) -> None:
        if not self._path.exists():
            return
        with self._path.open("rb+") as file:
            end = file.seek(0, os.SEEK_END)
            while end > 0:
                start = max(end - 65_536, 0)
                file.seek(start)
                at = file.read(end - start).rfind(b"\n")
                if at >= 0:
                    end = start + at + 1
                    break
                end = start
            file.truncate(end)

    def lines(self) -> Iterator[Json]:
        """Yield what is there."""
        if self._path.exists():
            with self._path.open(encoding="utf-8") as file:
                for line in file:
                    yield json.loads(line)

    def add(self, lines: Iterable[Json]) -> None:
        """Append lines and force them to disk."""
        text = "".join(
            json.dumps(line, ensure_ascii=False, allow_nan=False) + "\n"
            for line in lines
        )
        with self._path.open("a", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())


def end_with_parent() -> None:
    """End this worker when the program that started it is gone, however it went.

    A worker waits on a pipe that it holds both ends of, so it would wait for ever
    for a program that was killed.
    """
    parent = multiprocessing.parent_process()

    def wait() -> None:
        if parent is not None:
            parent.join()
            os._exit(1)

    threading.Thread(target=wait, daemon=True).start()


def start_processes(workers: int, preload: str) -> ProcessPoolExecutor:
    """Return an executor whose processes are never forked from this one.

    A forked copy of a process with threads can lock up. The fork server has none,
    and has the module ``preload`` loaded, so that a new worker is there at once.
    """
    methods = multiprocessing.get_all_start_methods()
    kind = "forkserver" if "forkserver" in methods else "spawn"
    context = multiprocessing.get_context(kind)
    if kind == "forkserver":
        context.set_forkserver_preload([preload])
    return ProcessPoolExecutor(workers, context, initializer=end_with_parent)


def run_batch(
    paths: Iterable[str],
    results: ResultFile,
    measure: Measure,
    start_workers: Callable[[], Executor],
    workers: int,
) -> Generator[BatchCount, None, None]:
    """Measure what the results lack; yield the count after each chunk.

    Parameters
    ----------
    paths
        Of the photos; one that is named twice is measured once.
    results
        Where lines go, and what is done already.
    measure
        Must be importable in the workers.
    start_workers
        Returns an executor; called again where one has broken down.
    workers
        How many calls it runs at once: decides how much is sent ahead, which
        bounds the memory whatever the number of photos.
    """
    wanted = list(dict.fromkeys(paths))
    known = {line["path"]: _unusable(line) for line in results.lines()}
    seen = [known[path] for path in wanted if path in known]
    done, unusable = len(seen), sum(seen)
    todo = [path for path in wanted if path not in known]
    chunks = deque(
        tuple(todo[at : at + CHUNK_PHOTOS]) for at in range(0, len(todo), CHUNK_PHOTOS)
    )
    if done:
        yield BatchCount(done=done, unusable=unusable, total=len(wanted))
    for lines in _measured(chunks, measure, start_workers, workers):
        results.add(lines)
        done += len(lines)
        unusable += sum(_unusable(line) for line in lines)
        yield BatchCount(done=done, unusable=unusable, total=len(wanted))


def _measured(
    chunks: deque[tuple[str, ...]],
    measure: Measure,
    start_workers: Callable[[], Executor],
    workers: int,
) -> Iterator[list[Json]]:
    suspects: deque[str] = deque()
    while chunks or suspects:
        running: dict[Future[list[Json]], tuple[str, ...]] = {}
        with start_workers() as executor:
            try:
                while suspects:  # one at a time, to know on which the worker dies
                    running = {executor.submit(measure, (suspects[0],)): (suspects[0],)}
                    yield next(iter(running)).result()
                    running.clear()
                    suspects.popleft()
                while chunks or running:
                    while chunks and len(running) < AHEAD_PER_WORKER * workers:
                        chunk = chunks.popleft()
                        running[executor.submit(measure, chunk)] = chunk
                    finished, _ = wait(running, return_when=FIRST_COMPLETED)
                    for future in finished:
                        lines = future.result()
                        del running[future]
                        yield lines
            except BrokenProcessPool:
                if suspects:
                    yield [_failed(suspects.popleft())]
                else:
                    suspects.extend(
                        path for chunk in running.values() for path in chunk
                    )


def _unusable(line: Json) -> bool:
    return any(problem["fatal"] for problem in line["problems"])


def _failed(path: str) -> Json:
    return {
        "path": path,
        "photo": Path(path).name,
        "width_px": 0,
        "height_px": 0,
        "scale": None,
        "fish": [],
        "problems": [MEASURING_FAILED],
    }
