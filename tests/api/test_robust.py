"""What goes wrong around a server: disks, networks, workers, ends."""

import io
import os
import signal
import socket
import threading
import time
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import Any

import httpx2
import pytest
from PIL import ExifTags, Image
from starlette.testclient import TestClient

from api.app import create_app
from api.settings import Settings
from tests.api.load import listed, stamped
from tests.api.running import Server, running


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("robust") / "data"


@pytest.fixture(scope="module")
def server(data: Path) -> Iterator[Server]:
    """Return a real server that gives a slow upload three seconds."""
    with running(data, upload_timeout_s=3, workers=1) as started:
        yield started


def grey_jpeg(number: int = 0) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (640, 480), "grey").save(out, "JPEG")
    return stamped(out.getvalue(), number)


def post(server: Server, photo: bytes) -> httpx2.Response:
    return httpx2.post(
        f"{server.url}/v1/photos", files={"photos": ("a.jpg", photo)}, timeout=60
    )


def raw_request(server: Server, body: bytes, told: int) -> socket.socket:
    """Return a connection that has sent the start of an upload."""
    port = int(server.url.rpartition(":")[2])
    connection = socket.create_connection(("127.0.0.1", port), timeout=20)
    head = (
        "POST /v1/photos HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n"
        "Content-Type: multipart/form-data; boundary=x\r\n"
        f"Content-Length: {told}\r\n\r\n"
    )
    connection.sendall(head.encode() + body)
    return connection


def answered(connection: socket.socket) -> bytes:
    """Return all that comes until the server ends the connection."""
    answer = b""
    with connection:
        while part := connection.recv(65536):
            answer += part
    return answer


def multipart(photo: bytes) -> bytes:
    head = b'--x\r\nContent-Disposition: form-data; name="photos"; filename="a.jpg"\r\n'
    return head + b"Content-Type: image/jpeg\r\n\r\n" + photo + b"\r\n--x--\r\n"


# --- networks -------------------------------------------------------------------


def test_a_double_submit_at_once_is_one_photo(server: Server) -> None:
    """Both get the same record (a thumb that trembles; a queue that repeats)."""
    photo = grey_jpeg(1)
    with ThreadPoolExecutor(2) as pool:
        answers = list(pool.map(lambda _: post(server, photo), range(2)))
    assert [answer.status_code for answer in answers] == [200, 200]
    first, second = (answer.json()["items"][0] for answer in answers)
    assert first == second


def test_a_client_that_leaves_loses_nothing(server: Server) -> None:
    """Gone before the answer: the photo is kept. Gone amid the body: nothing is."""
    whole, cut = multipart(grey_jpeg(2)), multipart(grey_jpeg(3))
    before = listed(server)
    raw_request(server, cut[: len(cut) // 2], len(cut)).close()
    raw_request(server, whole, len(whole)).close()
    until = time.monotonic() + 30
    while len(listed(server)) == len(before) and time.monotonic() < until:
        time.sleep(0.1)
    assert len(listed(server) - before) == 1
    assert httpx2.get(f"{server.url}/health").status_code == 200


def test_a_very_slow_client_is_let_go(server: Server) -> None:
    """After the time limit it is told so (408), and others are served meanwhile."""
    body = multipart(grey_jpeg(4))
    connection = raw_request(server, body[:100], len(body))
    assert post(server, grey_jpeg(5)).status_code == 200
    answer = answered(connection)
    assert answer.startswith(b"HTTP/1.1 408")
    assert b"too-slow-upload" in answer


def test_a_body_that_tells_too_much_is_refused(server: Server) -> None:
    """A length over the limit is 413 with the one body, once it stops sending."""
    answer = answered(raw_request(server, b"", 10**12))
    assert answer.startswith(b"HTTP/1.1 413")
    assert b"too-large" in answer


def begun(data: Path, pending: Future[httpx2.Response]) -> None:
    """Wait until an upload has arrived and is being measured."""
    until = time.monotonic() + 60
    while not list((data / "incoming").glob("upload-*")):
        assert not pending.done(), pending.result().text
        assert time.monotonic() < until
        time.sleep(0.01)


# --- workers --------------------------------------------------------------------


def worker_pids(server: Server) -> list[int]:
    """Return the processes that measure: children of the fork server."""
    found = []
    for path in Path("/proc").glob("[0-9]*/cmdline"):
        try:
            text = path.read_bytes()
            parent = int(
                (path.parent / "stat").read_text().rpartition(")")[2].split()[1]
            )
        except (FileNotFoundError, ProcessLookupError):
            continue
        if b"forkserver" in text and parent != server.process.pid:
            grand = (Path("/proc") / str(parent) / "stat").read_text()
            if int(grand.rpartition(")")[2].split()[1]) == server.process.pid:
                found.append(int(path.parent.name))
    return found


def test_a_worker_killed_while_measuring_costs_no_photo(
    server: Server, data: Path, net_photo: bytes
) -> None:
    """It is measured by the next one, and its client need not know."""
    assert post(server, grey_jpeg(6)).status_code == 200  # a worker is up
    photo = stamped(net_photo, 7)
    with ThreadPoolExecutor(1) as pool:
        pending = pool.submit(post, server, photo)
        begun(data, pending)
        for pid in worker_pids(server):
            os.kill(pid, signal.SIGKILL)
        answer = pending.result()
    assert answer.status_code == 200, answer.text
    assert len(answer.json()["items"][0]["measurement"]["fish"]) >= 5


# --- ends -----------------------------------------------------------------------


def test_a_stop_finishes_what_was_begun_and_a_restart_finds_everything(
    tmp_path: Path, net_photo: bytes
) -> None:
    """SIGTERM amid an upload: its client is answered, and what it was told is kept.

    What kill -9 leaves is in test_killed_server.
    """
    folder = tmp_path / "data"
    with running(folder, workers=1) as first:
        with ThreadPoolExecutor(1) as pool:
            pending = pool.submit(post, first, net_photo)
            begun(folder, pending)
            first.stop()
            stopped = pending.result()
        assert stopped.status_code == 200
    name = stopped.json()["items"][0]["id"]
    left = folder / "incoming" / "upload-left"
    left.write_bytes(b"half a photo")
    os.utime(left, (0, 0))  # a young one may be another server's
    with running(folder, workers=1) as second:
        assert listed(second) == {name}
        picture = httpx2.get(f"{second.url}/v1/photos/{name}/thumbnail.jpg", timeout=60)
        assert picture.headers["content-type"] == "image/jpeg"
        assert not left.exists()


# --- disks ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("number", "status", "code"),
    [(28, 507, "disk-full"), (30, 503, "storage-failed"), (13, 503, "storage-failed")],
)
def test_a_disk_that_fails_is_said_and_survived(
    client: TestClient,
    monkeypatch: pytest.MonkeyPatch,
    number: int,
    status: int,
    code: str,
) -> None:
    """errno(3): 28 no space, 30 read-only file system, 13 permission denied."""

    def fails(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number), "/secret/path")

    before = client.get("/v1/photos").json()
    with monkeypatch.context() as broken:
        broken.setattr("api.files.tempfile.NamedTemporaryFile", fails)
        files = {"photos": ("a.jpg", grey_jpeg(9))}
        answer = client.post("/v1/photos", files=files)
    assert (answer.status_code, answer.json()["code"]) == (status, code)
    assert answer.json()["advice"]
    assert "/secret" not in answer.text
    assert client.get("/v1/photos").json() == before
    assert client.post("/v1/photos", files=files).status_code == 200


def test_a_full_disk_in_the_worker_is_said(tmp_path: Path) -> None:
    """The photos' folder is a file: what the worker meets comes back as an answer."""
    settings = Settings(data_dir=tmp_path, workers=1, hosts="testserver")
    with TestClient(create_app(settings)) as client:
        (tmp_path / "photos").write_text("in the way")
        answer = client.post("/v1/photos", files={"photos": ("a.jpg", grey_jpeg(10))})
        assert (answer.status_code, answer.json()["code"]) == (503, "storage-failed")
        assert client.get("/v1/photos").json()["items"] == []
        (tmp_path / "photos").unlink()
        files = {"photos": ("a.jpg", grey_jpeg(10))}
        assert client.post("/v1/photos", files=files).status_code == 200


# --- what is kept ---------------------------------------------------------------


def private_exif() -> Image.Exif:
    """Return tags as a phone writes them: place, time, owner, serial number."""
    exif = Image.Exif()
    exif[ExifTags.Base.Make] = "Invented"
    exif[ExifTags.Base.Artist] = "PRIVATE-NAME"
    exif.get_ifd(ExifTags.IFD.GPSInfo).update(
        {1: "N", 2: (47.0, 11.0, 22.0), 3: "E", 4: (11.0, 22.0, 33.0)}
    )
    inner = exif.get_ifd(ExifTags.IFD.Exif)
    inner[ExifTags.Base.DateTimeOriginal] = "2026:05:02 06:30:00"
    inner[ExifTags.Base.BodySerialNumber] = "PRIVATE-SERIAL"
    return exif


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_nothing_private_is_kept_or_served(
    client: TestClient, settings: Settings, kind: str
) -> None:
    """GPS, name, serial number and time (Exif 2.32) are in no file and no answer."""
    import pillow_heif

    pillow_heif.register_heif_opener()
    out = io.BytesIO()
    picture = Image.effect_noise((640, 480), 40).convert("RGB")
    picture.save(out, kind, exif=private_exif().tobytes())
    sent = out.getvalue()
    assert b"PRIVATE-NAME" in sent
    upload = client.post("/v1/photos", files={"photos": ("a", sent)})
    assert upload.status_code == 200, upload.text
    photo: dict[str, Any] = upload.json()["items"][0]
    assert photo["measurement"]["width_px"] == 640
    path = settings.data_dir / "photos" / photo["id"][:2] / photo["id"]
    served = [client.get(link).content for link in photo["links"].values()]
    for content in (path.read_bytes(), *served):
        assert b"PRIVATE" not in content
        with Image.open(io.BytesIO(content)) as image:
            found = image.getexif()
            assert not found.get_ifd(ExifTags.IFD.GPSInfo)
            inner = found.get_ifd(ExifTags.IFD.Exif)
            assert ExifTags.Base.DateTimeOriginal not in inner
    assert "PRIVATE" not in upload.text


def test_names_of_files_lead_nowhere(client: TestClient, settings: Settings) -> None:
    """A path in a file's name is cut down to its last part."""
    before = set(settings.data_dir.parent.rglob("*"))
    for number, name in enumerate(
        ("../../../evil.jpg", "C:\\\\evil\\\\b.jpg", "/etc/x")
    ):
        photo = grey_jpeg(20 + number)
        answer = client.post("/v1/photos", files={"photos": (name, photo)}).json()
        shown = answer["items"][0]["measurement"]["photo"]
        assert not set(shown) & set("/\\\\")
        assert ".." not in shown
    new = set(settings.data_dir.parent.rglob("*")) - before
    assert all(settings.data_dir in path.parents for path in new)


def test_bodies_of_another_type_change_nothing(client: TestClient) -> None:
    """A form of another page can only send these three types (Fetch, 2.2.2)."""
    for kind in (
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data",
    ):
        answer = client.post(
            "/v1/entries", content=b'{"entries": []}', headers={"Content-Type": kind}
        )
        assert answer.status_code in {400, 422}


def test_many_threads_may_read_while_photos_come(client: TestClient) -> None:
    """Lists stay whole: no error and no doubled photo while uploads go on."""
    wrong: list[Any] = []
    done = threading.Event()

    def read() -> None:
        while not done.is_set():
            answer = client.get("/v1/photos", params={"limit": 200})
            names = [photo["id"] for photo in answer.json().get("items", [])]
            if answer.status_code != 200 or len(set(names)) != len(names):
                wrong.append(answer.text)

    reader = threading.Thread(target=read)
    reader.start()
    for number in range(30, 36):
        client.post("/v1/photos", files={"photos": ("a.jpg", grey_jpeg(number))})
    done.set()
    reader.join()
    assert wrong == []
