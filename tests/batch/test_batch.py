"""Many photos: resumed, bounded, and a worker's death costs one photo."""

import json
import os
import signal
import sys
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from functools import partial
from itertools import product
from pathlib import Path
from typing import Any

import pytest

from fishmeasure import cli
from fishmeasure.base.errors import ResultFileError
from fishmeasure.batch import CHUNK_PHOTOS, BatchCount, ResultFile, Workers, run_batch

Json = dict[str, Any]


def line(path: str) -> Json:
    return {"path": path, "problems": [{"fatal": True}] if "bad" in path else []}


def lines(paths: tuple[str, ...]) -> list[Json]:
    return [line(path) for path in paths]


def dies_on_poison(paths: tuple[str, ...]) -> list[Json]:
    if any("poison" in path for path in paths):
        os.kill(os.getpid(), signal.SIGKILL)  # as the kernel does when memory is out
    return lines(paths)


class Counting(Executor):
    """An executor in this process that counts what is sent ahead."""

    def __init__(self) -> None:
        self.sent: list[str] = []

    def submit(self, fn: Any, /, *args: Any, **kwargs: Any) -> Future[Any]:
        self.sent += args[0]
        future: Future[Any] = Future()
        future.set_result(fn(*args, **kwargs))
        return future


def run(
    paths: list[str], file: Path, measure: Any = lines, executor: Any = Counting
) -> list[BatchCount]:
    workers = Workers(start=executor, count=2)
    with ResultFile(file) as results:
        return list(run_batch(paths, results, measure, workers))


def read(file: Path) -> list[str]:
    return [json.loads(text)["path"] for text in file.read_text("utf-8").splitlines()]


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "results.jsonl"


def test_every_photo_has_one_line(file: Path) -> None:
    """Named twice, measured once; the unusable are counted."""
    paths = [f"{n}.jpg" for n in range(20)] + ["bad.jpg", "3.jpg"]
    counts = run(paths, file)
    assert sorted(read(file)) == sorted(set(paths))
    assert counts[-1] == BatchCount(done=21, unusable=1, total=21)


def test_a_second_run_measures_only_what_is_missing(file: Path) -> None:
    """Stopped after some chunks, nothing is measured twice."""
    paths = [f"{n}.jpg" for n in range(5 * CHUNK_PHOTOS)]
    with ResultFile(file) as results:
        first = run_batch(paths, results, lines, Workers(start=Counting, count=1))
        next(first)
        first.close()  # as a stop in the middle does
    done = read(file)
    assert 0 < len(done) < len(paths)
    executor = Counting()
    counts = run(paths, file, executor=lambda: executor)
    assert set(executor.sent).isdisjoint(done)
    assert sorted(read(file)) == sorted(paths)
    assert counts[0].done == len(done)


@pytest.mark.parametrize(
    "torn", ['{"path": "9', "", '{"path": "9.jpg", "problems": []}']
)
def test_a_torn_line_is_not_done(file: Path, torn: str) -> None:
    """A crash while writing costs one photo's work, not the file."""
    file.write_text(json.dumps(line("0.jpg")) + "\n" + torn, encoding="utf-8")
    run(["0.jpg", "9.jpg"], file)
    assert read(file) == ["0.jpg", "9.jpg"]


RUBBISH = [b"\0" * 700, b"\0" * 90 + b"\n\0\0\n", b'{"path": "7.\xff\n']


@pytest.mark.parametrize(
    ("at", "rubbish"),
    [*product((0, 3, 6), RUBBISH), (3, b"[]\n"), (6, b'{"path": 7}\n')],
)
def test_damaged_lines_are_measured_again_and_others_kept(
    file: Path, at: int, rubbish: bytes
) -> None:
    """As a power cut leaves them: blocks of zeros, or of another file's content."""
    good = [json.dumps(line(f"{n}.jpg")).encode() + b"\n" for n in range(6)]
    file.write_bytes(b"".join((*good[:at], rubbish, *good[at:])))
    with ResultFile(file) as kept:
        pass
    # Zeros without an end of line take the next line with them.
    lost = {f"{at}.jpg"} if not rubbish.endswith(b"\n") and at < 6 else set()
    assert set(kept.known) == {f"{n}.jpg" for n in range(6)} - lost
    assert kept.damaged == max(rubbish.count(b"\n"), 1)
    run([f"{n}.jpg" for n in range(8)], file)
    assert sorted(read(file)) == [f"{n}.jpg" for n in range(8)]


@pytest.mark.parametrize("content", [b"my notes", b"\xff\xd8\xff", b"[]\n", b"a,b\n"])
def test_another_file_is_never_taken_for_results(file: Path, content: bytes) -> None:
    """It is refused, and left as it is."""
    file.write_bytes(content)
    with pytest.raises(ResultFileError, match="something else"):
        ResultFile(file)
    assert file.read_bytes() == content


def test_two_runs_never_share_a_file(file: Path) -> None:
    """The second would measure what the first does; after the first it may go on."""
    with ResultFile(file) as results, ResultFile(file) as late:  # before it is there
        results.add(lines(("0.jpg",)))
        with pytest.raises(ResultFileError, match="another run"):
            late.add(lines(("0.jpg",)))
        with pytest.raises(ResultFileError, match="another run"):
            ResultFile(file)
    run(["0.jpg", "1.jpg"], file)
    assert read(file) == ["0.jpg", "1.jpg"]


def test_a_command_says_how_much_it_measures_again(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    file: Path,
) -> None:
    """Then the file is whole."""
    (tmp_path / "a.jpg").write_text("no photo")
    path = str(tmp_path / "a.jpg")
    file.write_bytes(json.dumps(line(path)).encode() + b"\n" + b"\0" * 100)
    batch(monkeypatch, tmp_path, "--results", file, "--workers", 1)
    assert "1 line of" in capsys.readouterr().err
    assert read(file) == [path]


def test_a_photo_that_kills_its_worker_is_recorded_as_failed(file: Path) -> None:
    """All others are measured."""
    paths = [f"{n}.jpg" for n in range(12)]
    paths[5] = "poison.jpg"
    counts = run(paths, file, dies_on_poison, partial(ProcessPoolExecutor, 1))
    assert sorted(read(file)) == sorted(paths)
    assert counts[-1].unusable == 1
    failed = [json.loads(t) for t in file.read_text("utf-8").splitlines()]
    codes = {f["path"]: f["problems"][0]["code"] for f in failed if f["problems"]}
    assert codes == {"poison.jpg": "measuring-failed"}


class LostError(Exception):
    """What an executor of another kind raises where a worker died."""


class Losing(Counting):
    """A cluster whose workers die on a photo."""

    def submit(self, fn: Any, /, *args: Any, **kwargs: Any) -> Future[Any]:
        if not any("poison" in path for path in args[0]):
            return super().submit(fn, *args, **kwargs)
        future: Future[Any] = Future()
        future.set_exception(LostError())
        return future


def test_a_cluster_says_in_its_own_way_that_a_worker_died(file: Path) -> None:
    """One photo is lost there too."""
    paths = [f"{n}.jpg" for n in range(3 * CHUNK_PHOTOS)]
    paths[5] = "poison.jpg"
    with ResultFile(file) as results:
        workers = Workers(start=Losing, count=1, died=LostError)
        *_, last = run_batch(paths, results, lines, workers)
    assert sorted(read(file)) == sorted(paths)
    assert last.unusable == 1


def test_what_is_sent_ahead_is_bounded(file: Path) -> None:
    """However many photos there are, few chunks are under way."""
    executor = Counting()
    paths = [f"{n}.jpg" for n in range(1000)]
    with ResultFile(file) as results:
        workers = Workers(start=lambda: executor, count=2)
        next(run_batch(paths, results, lines, workers))
    assert len(executor.sent) <= 4 * CHUNK_PHOTOS


SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"


def small_folder(folder: Path) -> Path:
    for name in ("tank_a_net2.jpg", "tank_a_net3.jpg"):
        (folder / name).write_bytes((SAMPLES / name).read_bytes())
    (folder / "notes.jpg").write_text("no picture", encoding="utf-8")
    return folder


def batch(monkeypatch: pytest.MonkeyPatch, *arguments: object) -> int:
    monkeypatch.setattr(sys, "argv", ["fishmeasure", "batch", *map(str, arguments)])
    with pytest.raises(SystemExit) as caught:
        cli.main()
    return int(caught.value.code or 0)


def test_a_folder_is_measured_by_processes(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Good photos have fish, the bad one its reason; status 2."""
    results = tmp_path / "results.jsonl"
    folder = tmp_path / "photos"
    folder.mkdir()
    status = batch(
        monkeypatch, small_folder(folder), "--results", results, "--workers", 1
    )
    found = [json.loads(t) for t in results.read_text("utf-8").splitlines()]
    assert status == 2
    assert sorted(len(photo["fish"]) for photo in found) == [0, 8, 8]
    assert all("outline_px" not in fish for photo in found for fish in photo["fish"])


def test_a_cluster_gives_the_same_lines(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A real scheduler and worker, by address, through the same code."""
    distributed = pytest.importorskip("distributed")
    folder = tmp_path / "photos"
    folder.mkdir()
    small_folder(folder)
    plain, clustered = tmp_path / "plain.jsonl", tmp_path / "cluster.jsonl"
    batch(monkeypatch, folder, "--results", plain, "--workers", 1)
    with distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, dashboard_address=":0", host="127.0.0.1"
    ) as cluster:
        address = cluster.scheduler_address
        status = batch(monkeypatch, folder, "--results", clustered, "--dask", address)
    assert status == 2
    assert sorted(plain.read_text("utf-8").splitlines()) == sorted(
        clustered.read_text("utf-8").splitlines()
    )


def test_a_cluster_that_goes_away_is_one_clear_line(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    """What was measured stays."""
    distributed = pytest.importorskip("distributed")
    folder = tmp_path / "photos"
    folder.mkdir()
    small_folder(folder)
    results = tmp_path / "results.jsonl"
    add = ResultFile.add
    with distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, dashboard_address=":0", host="127.0.0.1"
    ) as cluster:

        def add_and_stop(self: ResultFile, lines: Any) -> None:
            add(self, lines)
            cluster.close()

        monkeypatch.setattr(ResultFile, "add", add_and_stop)
        monkeypatch.setattr("fishmeasure.batch.CHUNK_PHOTOS", 1)
        address = cluster.scheduler_address
        status = batch(monkeypatch, folder, "--results", results, "--dask", address)
    assert status == 2
    assert "is gone" in capsys.readouterr().err.splitlines()[-1]
    assert len(read(results)) == 1


@pytest.mark.parametrize(
    "arguments",
    [("nowhere",), (".", "--dask", "tcp://127.0.0.1:1")],
)
def test_what_cannot_be_run_is_one_clear_line(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    arguments: tuple[str, ...],
) -> None:
    """Status 2."""
    small_folder(tmp_path)
    source, *more = arguments
    status = batch(
        monkeypatch, tmp_path / source, "--results", tmp_path / "r.jsonl", *more
    )
    assert status == 2
    assert len(capsys.readouterr().err.strip().splitlines()) == 1
