"""A photo in parts is the photo sent at once; what breaks costs one part."""

from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from fastapi.testclient import TestClient

from api.errors import BusyError
from api.uploads import Uploads

PHOTO = Path(__file__).resolve().parents[2] / "sample_images" / "tank_a_net2.jpg"
PART = 100_000


def send(
    client: TestClient, path: str, data: bytes, at: int, length: int | None = None
) -> Any:
    """Send a part; return the answer."""
    headers = {
        "Upload-Offset": str(at),
        "Upload-Length": str(len(data) if length is None else length),
    }
    return client.patch(path, content=data[at : at + PART], headers=headers)


def test_parts_make_the_same_photo_as_one_upload(client: TestClient) -> None:
    """The same record, by the content; asked twice it is one."""
    data, path = PHOTO.read_bytes(), f"/v1/uploads/{uuid4()}"
    assert client.get(path).json() == {"offset_bytes": 0, "length_bytes": None}
    assert client.post(f"{path}/photo", data={}).status_code == 404
    at = 0
    while at < len(data):
        at = send(client, path, data, at).json()["offset_bytes"]
        assert client.get(path).json()["offset_bytes"] == at
    form = {"name": "a/b/net.jpg", "species": "rainbow-trout"}
    whole = client.post(f"{path}/photo", data=form)
    assert whole.status_code == 200, whole.text
    found = whole.json()
    assert found["measurement"]["photo"] == "net.jpg"
    assert client.post(f"{path}/photo", data=form).json()["id"] == found["id"]
    files = {"photos": ("other.jpg", data)}
    (once,) = client.post("/v1/photos", files=files).json()["items"]
    assert once["id"] == found["id"]


def test_a_part_that_does_not_follow_is_left_out(client: TestClient) -> None:
    """Sent twice, or after a lost one: the answer says where to go on."""
    data, path = PHOTO.read_bytes(), f"/v1/uploads/{uuid4()}"
    assert send(client, path, data, 0).json()["offset_bytes"] == PART
    assert send(client, path, data, 0).json()["offset_bytes"] == PART
    assert send(client, path, data, 3 * PART).json()["offset_bytes"] == PART
    assert client.post(f"{path}/photo", data={}).status_code == 404
    # A part beyond the length that was told is none of it.
    assert send(client, path, data, PART, PART + 1).json()["offset_bytes"] == 0


def test_a_photo_over_the_limit_is_refused_at_its_first_part(
    client: TestClient,
) -> None:
    """As one upload is: by the length, before anything of it is kept."""
    path = f"/v1/uploads/{uuid4()}"
    answer = send(client, path, b"x" * 10, 0, 41_000_001)
    assert (answer.status_code, answer.json()["code"]) == (413, "too-large")
    assert client.get(path).json()["length_bytes"] is None


def test_uploads_are_bounded_and_leave_no_name_on_the_disk(tmp_path: Path) -> None:
    """One too many waits; what a killed server has is gone with it."""
    uploads = Uploads(tmp_path, most=2)
    keys = [(None, uuid4()) for _ in range(3)]
    for key in keys[:2]:
        uploads.add(key, b"abc", offset_bytes=0, of_bytes=6)
    assert list(tmp_path.iterdir()) == []
    with pytest.raises(BusyError):
        uploads.add(keys[2], b"abc", offset_bytes=0, of_bytes=6)
    uploads.add(keys[0], b"def", offset_bytes=3, of_bytes=6)
    assert uploads.read(keys[0], 0, 10) == b"abcdef"
    # A whole one makes room: its phone has its answer, or sends it anew.
    assert uploads.add(keys[2], b"abc", offset_bytes=0, of_bytes=6).offset_bytes == 3
    # None goes on with another device's.
    assert uploads.find((uuid4(), keys[1][1])) is None
    uploads.close()
