"""What a power cut or a failing disk does to kept files: said, and no more is lost."""

import logging
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from api.app import create_app
from api.files import PhotoFiles
from api.settings import Settings
from fishmeasure.base.errors import BookDamagedError
from tests.api.live import small_photo

Damage = Callable[[Path], None]


def emptied(path: Path) -> None:
    path.write_bytes(b"")


def cut(path: Path) -> None:
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def zeroed(path: Path) -> None:
    path.write_bytes(b"\0" * path.stat().st_size)


def half_zeroed(path: Path) -> None:
    size = path.stat().st_size
    cut(path)
    path.write_bytes(path.read_bytes().ljust(size, b"\0"))


def gone(path: Path) -> None:
    path.unlink()


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    return Settings(data_dir=tmp_path / "data", workers=1, hosts="testserver")


def send(client: TestClient, photo: bytes) -> dict[str, Any]:
    answer = client.post("/v1/photos", files={"photos": ("a.jpg", photo)})
    assert answer.status_code == 200
    found: dict[str, Any] = answer.json()["items"][0]
    return found


@pytest.mark.parametrize("damage", [emptied, cut, zeroed, half_zeroed, gone])
def test_a_lost_photo_is_said_keeps_its_figures_and_comes_again(
    settings: Settings,
    net_photo: bytes,
    caplog: pytest.LogCaptureFixture,
    damage: Damage,
) -> None:
    """410 for its pictures; its measurement, corrections and other photos stay."""
    files = PhotoFiles(settings.data_dir / "photos")
    with TestClient(create_app(settings)) as client:
        photo, other = send(client, net_photo), send(client, small_photo(1))
        answer = client.put(
            f"/v1/photos/{photo['id']}/corrections",
            json={"corrections": [{"kind": "drop", "fish": 1}]},
        )
        assert answer.status_code == 200, answer.text
        corrected = answer.json()
    whole = files.read(photo["id"])
    damage(files.path(photo["id"]))
    with (
        caplog.at_level(logging.WARNING, "api.services"),
        TestClient(create_app(settings)) as client,
    ):
        if damage is not cut:  # only decoding finds that one
            assert f"once more: {photo['id']}" in caplog.text
        assert other["id"] not in caplog.text
        base = f"/v1/photos/{photo['id']}"
        for name in ("thumbnail.jpg", "picture", "overlay.jpg"):
            answer = client.get(f"{base}/{name}")
            assert (answer.status_code, answer.json()["code"]) == (410, "photo-lost")
        anew = {"species": "arctic-char"}
        assert client.put(f"{base}/settings", json=anew).status_code == 410
        assert client.get(base).json() == corrected
        assert client.get(f"/v1/photos/{other['id']}/picture").status_code == 200
        assert send(client, net_photo) == corrected
        assert files.read(photo["id"]) == whole
        assert client.get(f"{base}/overlay.jpg").status_code == 200
        assert client.put(f"{base}/settings", json=anew).status_code == 200


def test_a_damaged_lens_is_left_out(
    settings: Settings, caplog: pytest.LogCaptureFixture
) -> None:
    """The others are listed; to measure with it is refused in a sentence."""
    folder = settings.data_dir / "lenses"
    folder.mkdir(parents=True)
    (folder / "bad.json").write_bytes(b"\0" * 40)
    with TestClient(create_app(settings)) as client:
        assert client.get("/v1/lenses").json()["items"] == []
        assert "bad cannot be used as a lens profile" in caplog.text
        files = {"photos": ("a.jpg", small_photo(2))}
        answer = client.post("/v1/photos", files=files, data={"lens": "bad"})
        assert (answer.status_code, answer.json()["code"]) == (422, "lens-file")


def test_a_book_that_was_lost_is_noticed(
    settings: Settings, caplog: pytest.LogCaptureFixture
) -> None:
    """Photos without a book are most likely in the wrong folder, or the book is."""
    with TestClient(create_app(settings)) as client:
        send(client, small_photo(3))
        assert "is it the right one" not in caplog.text
    for path in settings.data_dir.glob("book.sqlite*"):
        path.unlink()
    with TestClient(create_app(settings)):
        assert "is it the right one" in caplog.text


def test_a_server_does_not_write_to_a_damaged_book(settings: Settings) -> None:
    """It would spread the damage; the file stays as it is."""
    with TestClient(create_app(settings)) as client:
        send(client, small_photo(4))
    book = settings.data_dir / "book.sqlite"
    data = book.read_bytes()
    book.write_bytes(data[: len(data) // 2].ljust(len(data), b"\0"))
    before = book.read_bytes()
    with pytest.raises(BookDamagedError), TestClient(create_app(settings)):
        pass
    assert book.read_bytes() == before


def test_a_book_damaged_while_it_is_served_is_said(settings: Settings) -> None:
    """503 and a way out, where a disk fails under a running server."""
    with TestClient(create_app(settings)) as client:
        for number in range(40):
            assert client.put(**unit(number)).status_code == 200
        book = settings.data_dir / "book.sqlite"
        for path in settings.data_dir.glob("book.sqlite-*"):
            assert path.stat().st_size > 0
        client.app.state.services.book.close()  # type: ignore[attr-defined]
        data = book.read_bytes()
        book.write_bytes(data[:4096].ljust(len(data), b"\xa5"))
        answer = client.get("/v1/units")
        assert (answer.status_code, answer.json()["code"]) == (503, "book-damaged")
        assert "Put a backup back" in answer.json()["advice"]


def unit(number: int) -> dict[str, Any]:
    """Return what puts a unit."""
    name = f"00000000-0000-0000-0000-{number:012d}"
    tank = {"id": name, "name": name, "kind": "tank", "volume_m3": 6.0, "depth_m": 1.0}
    return {"url": f"/v1/units/{name}", "json": tank}
