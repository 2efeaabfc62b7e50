"""Many photos: measured in other processes, resumed after a stop, each on its own.

Results go to a file of JSON lines, one a photo, in the order in which they are
done. What is in the file is not measured again, so a run that was stopped goes on
where it was; a line cut short by a crash is taken as not done. A photo on which the
worker dies is tried alone, and if it dies again it is recorded as failed.
"""

import json
import multiprocessing
import os
import sys
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
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any, Self

from fishmeasure.base.errors import ResultFileError
from fishmeasure.base.files import taking_place
from fishmeasure.base.flags import Problem
from fishmeasure.base.memory import bound_memory
from fishmeasure.base.words import Message, system_reason
from fishmeasure.photo.measurement import PhotoMeasurement

if sys.platform != "win32":
    import fcntl

Json = dict[str, Any]
Measure = Callable[[tuple[str, ...]], list[Json]]
"""Takes paths of photos, returns a line for each. Runs in a worker."""

CHUNK_PHOTOS = 8
"""Photos sent to a worker at once: about 2 s of work, far above the cost of sending."""
AHEAD_PER_WORKER = 2
_FIRST_BYTES = b'{"path": '
"""Of every line, so that no other file is taken for one of results."""

MEASURING_FAILED = Problem.of("measuring-failed", case="batch", fatal=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Workers:
    """Who measures.

    Attributes
    ----------
    start
        Returns an executor; called again where one has broken down.
    count
        How many calls it runs at once: decides how much is sent ahead, which bounds
        the memory whatever the number of photos.
    died
        What it raises of a call whose worker died.
    """

    start: Callable[[], Executor]
    count: int
    died: type[Exception] = BrokenProcessPool


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchCount:
    """How far a run has come."""

    done: int
    unusable: int
    total: int


class ResultFile:
    """JSON lines on disk; what is written is on the disk before ``add`` returns.

    Opening drops what a crash or a power cut has left of lines, so that their photos
    are measured again. Until it is closed, other runs are kept from the file: each
    would measure what the other does.

    Attributes
    ----------
    known
        Of each photo that is in the file, whether it is unusable.
    damaged
        How many lines were dropped.

    Raises
    ------
    ResultFileError
        If the file cannot be used, holds something else, or another run uses it.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self.known: dict[str, bool] = {}
        self.damaged = 0
        self._held: IO[bytes] | None = None
        with self._using():
            if path.exists():
                self._hold()
                try:
                    self._read()
                except BaseException:
                    self.close()
                    raise

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Let other runs use the file."""
        if self._held is not None:
            self._held.close()
            self._held = None

    def _hold(self) -> None:
        self.close()
        self._held = self._path.open("ab")
        try:
            _lock(self._held)
        except BlockingIOError:
            self.close()
            reason = Message.of("batch-in-use")
            raise ResultFileError(str(self._path), reason) from None

    @contextmanager
    def _using(self) -> Iterator[None]:
        try:
            yield
        except OSError as error:
            raise ResultFileError(str(self._path), system_reason(error)) from None

    def _read(self) -> None:
        if not _is_ours(self._path):
            raise ResultFileError(str(self._path), Message.of("batch-not-results"))
        with self._path.open("rb") as file:
            for raw in file:
                line = _result(raw)
                if line is None:
                    self.damaged += 1
                else:
                    self.known[line["path"]] = _unusable(line)
        if self.damaged:
            self._drop_damaged()
            self._hold()  # it is another file now

    def _drop_damaged(self) -> None:
        with (
            self._path.open("rb") as file,
            taking_place(self._path) as part,
            part.open("xb") as kept,
        ):
            kept.writelines(raw for raw in file if _result(raw) is not None)
            kept.flush()
            os.fsync(kept.fileno())

    def add(self, lines: Iterable[Json]) -> None:
        """Append lines and force them to disk."""
        data = b"".join(_written(line) for line in lines)
        with self._using():
            end = self._path.stat().st_size if self._path.exists() else 0
            try:
                if self._held is None:
                    self._hold()
                with self._path.open("ab") as file:
                    file.write(data)
                    file.flush()
                    os.fsync(file.fileno())
            except OSError:
                # No half line for others that read it, and no file of nothing.
                if end:
                    os.truncate(self._path, end)
                else:
                    self._path.unlink(missing_ok=True)
                raise


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


def _begin(memory_bytes: int | None) -> None:
    end_with_parent()
    if memory_bytes is not None:
        bound_memory(memory_bytes)


def start_processes(
    workers: int, preload: str, memory_bytes: int | None = None
) -> ProcessPoolExecutor:
    """Return an executor whose processes are never forked from this one.

    A forked copy of a process with threads can lock up. The fork server has none,
    and has the module ``preload`` loaded, so that a new worker is there at once. Each
    may have ``memory_bytes`` beyond what it starts with.
    """
    methods = multiprocessing.get_all_start_methods()
    kind = "forkserver" if "forkserver" in methods else "spawn"
    context = multiprocessing.get_context(kind)
    if kind == "forkserver":
        context.set_forkserver_preload([preload])
    return ProcessPoolExecutor(
        workers, context, initializer=_begin, initargs=(memory_bytes,)
    )


def run_batch(
    paths: Iterable[str],
    results: ResultFile,
    measure: Measure,
    workers: Workers,
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
    workers
        Who measures.
    """
    wanted = list(dict.fromkeys(paths))
    known = results.known
    seen = [known[path] for path in wanted if path in known]
    done, unusable = len(seen), sum(seen)
    todo = [path for path in wanted if path not in known]
    chunks = deque(
        tuple(todo[at : at + CHUNK_PHOTOS]) for at in range(0, len(todo), CHUNK_PHOTOS)
    )
    if done:
        yield BatchCount(done=done, unusable=unusable, total=len(wanted))
    for lines in _measured(chunks, measure, workers):
        results.add(lines)
        done += len(lines)
        unusable += sum(_unusable(line) for line in lines)
        yield BatchCount(done=done, unusable=unusable, total=len(wanted))


def _measured(
    chunks: deque[tuple[str, ...]],
    measure: Measure,
    workers: Workers,
) -> Iterator[list[Json]]:
    suspects: deque[str] = deque()
    while chunks or suspects:
        running: dict[Future[list[Json]], tuple[str, ...]] = {}
        with workers.start() as executor:
            try:
                while suspects:  # one at a time, to know on which the worker dies
                    running = {executor.submit(measure, (suspects[0],)): (suspects[0],)}
                    yield next(iter(running)).result()
                    running.clear()
                    suspects.popleft()
                while chunks or running:
                    while chunks and len(running) < AHEAD_PER_WORKER * workers.count:
                        chunk = chunks.popleft()
                        running[executor.submit(measure, chunk)] = chunk
                    finished, _ = wait(running, return_when=FIRST_COMPLETED)
                    for future in finished:
                        lines = future.result()
                        del running[future]
                        yield lines
            except workers.died:
                if suspects:
                    yield [_failed(suspects.popleft())]
                else:
                    suspects.extend(
                        path for chunk in running.values() for path in chunk
                    )


def _lock(file: IO[bytes]) -> None:
    if sys.platform == "win32":
        return
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        raise
    except OSError:
        return  # a disk without locks, as some of a network are


def _is_ours(path: Path) -> bool:
    """Return whether a file was begun by us, or is empty, or zeros after a crash."""
    with path.open("rb") as file:
        head = file.read(len(_FIRST_BYTES))
    return _FIRST_BYTES.startswith(head) or not head.strip(b"\0")


def _written(line: Json) -> bytes:
    try:
        text = json.dumps(line, ensure_ascii=False, allow_nan=False).encode()
    except UnicodeEncodeError:  # a path that is not of the disk's encoding
        text = json.dumps(line, allow_nan=False).encode()
    return text + b"\n"


def _result(raw: bytes) -> Json | None:
    """Return a line, or None where it is cut off or damaged."""
    try:
        line: Json = json.loads(raw)
        _unusable(line)
        whole = raw.endswith(b"\n") and isinstance(line["path"], str)
    except (ValueError, LookupError, TypeError, RecursionError):
        return None
    return line if whole else None


def _unusable(line: Json) -> bool:
    return any(problem["fatal"] for problem in line["problems"])


def _failed(path: str) -> Json:
    failed = PhotoMeasurement(
        photo=Path(path).name, width_px=0, height_px=0, problems=(MEASURING_FAILED,)
    )
    return {"path": path, **failed.to_json()}
