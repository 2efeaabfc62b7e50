"""A server whose disk is really full, or breaks: said, survived, nothing lost."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import httpx2
import pytest

from api.files import PhotoFiles
from tests.api.live import BATCH, Entries, Photos, Sender, Units
from tests.api.running import Server, running
from tests.api.starter import Starter
from tests.disks import SmallDisk, small_disk

__all__ = ["small_disk"]  # the fixture

Senders = tuple[Sender, ...]
OK = [(200, "")] * 3


@pytest.fixture
def senders() -> Senders:
    """Return what sends a photo, entries and a unit."""
    return Photos(7000), Entries(7000), Units()


@pytest.fixture(scope="module")
def starter() -> Iterator[Starter]:
    """Return what starts servers in less than a second."""
    with Starter() as process:
        yield process


@contextmanager
def serving(
    disk: SmallDisk, starter: Starter
) -> Iterator[tuple[Server, httpx2.Client]]:
    """Give a server with its folder on the disk, and a client."""
    data, log = disk.path / "data", disk.path.parent
    with (
        running(data, "--workers", "1", log=log, starter=starter) as server,
        httpx2.Client(base_url=server.url, timeout=120) as client,
    ):
        yield server, client


def send(client: httpx2.Client, senders: Senders) -> list[tuple[int, str]]:
    """Send one of each; return their statuses and codes."""
    answers = [sender.send(client)[0] for sender in senders]
    for answer in answers:
        assert answer.status_code == 200 or answer.json()["advice"]
        assert answer.status_code != 503 or answer.headers["Retry-After"]
    return [(a.status_code, a.json().get("code", "")) for a in answers]


def shown(client: httpx2.Client) -> list[list[dict[str, Any]]]:
    """Return all that the server has."""
    return [
        client.get(f"/v1/{what}", params={"limit": 200}).json()["items"]
        for what in ("photos", "entries", "units")
    ]


def large_photo() -> dict[str, tuple[str, bytes]]:
    """Return an upload that is put down before anything looks at it."""
    photo, _ = Photos(1).photo()
    return {"photos": ("large.jpg", photo + b"\0" * 3_000_000)}


def test_a_disk_that_is_full_is_said_and_survived(
    small_disk: SmallDisk, senders: Senders, starter: Starter
) -> None:
    """507 (RFC 4918, 11.5) as long as it is; reading goes on; then all goes on."""
    full = [(507, "disk-full"), (507, "book-full"), (507, "book-full")]
    with serving(small_disk, starter) as (server, client):
        assert send(client, senders) == OK
        before = shown(client)
        small_disk.fill()
        assert [send(client, senders) for _ in range(3)] == [full] * 3
        answer = client.post("/v1/photos", files=large_photo())
        assert (answer.status_code, answer.json()["code"]) == (507, "disk-full")
        assert client.get("/ready").status_code == 200
        assert shown(client) == before
        picture = client.get(f"/v1/photos/{before[0][0]['id']}/thumbnail.jpg")
        assert picture.headers["Content-Type"] == "image/jpeg"
        assert list((small_disk.path / "data" / "incoming").iterdir()) == []
        small_disk.empty()
        assert send(client, senders) == OK
        after = shown(client)
        assert [len(items) for items in after] == [2, 6, 3]
        assert server.stop() == 0
    with serving(small_disk, starter) as (_, client):
        assert shown(client) == after


def test_what_fits_is_kept_and_what_does_not_is_refused(
    small_disk: SmallDisk, senders: Senders, starter: Starter
) -> None:
    """With ever more room, so that each step of keeping a photo or entry fails once."""
    photos, _, _ = senders
    assert isinstance(photos, Photos)
    confirmed = 0
    statuses = set()
    with serving(small_disk, starter) as (_, client):
        assert send(client, senders) == OK
        for leave in range(0, 40 << 10, 4 << 10):
            small_disk.fill(leave)
            photo, name = photos.photo()
            answer = client.post("/v1/photos", files={"photos": ("a.jpg", photo)})
            statuses.add(answer.status_code)
            entries = send(client, senders[1:])
            statuses |= {status for status, _ in entries}
            confirmed += entries.count((200, ""))
            small_disk.empty()
            if answer.status_code != 200:  # sent again, it is taken
                answer = client.post("/v1/photos", files={"photos": ("a.jpg", photo)})
            assert answer.json()["items"][0]["id"] == name
            picture = client.get(f"/v1/photos/{name}/picture")
            assert picture.headers["Content-Type"] == "image/jpeg"
        assert statuses == {200, 507}
        has = shown(client)
    assert len(has[0]) == 11
    # Units one by one, entries in threes; the first of each, and "UNIT".
    assert len(has[1]) / BATCH + len(has[2]) == confirmed + 3


def test_a_disk_that_breaks_loses_nothing_that_was_confirmed(
    small_disk: SmallDisk, senders: Senders, starter: Starter
) -> None:
    """The kernel sets it read-only under the server; the next start finds all."""
    broken = [(503, "storage-failed"), (503, "book-write"), (503, "book-write")]
    with serving(small_disk, starter) as (server, client):
        for _ in range(3):
            assert send(client, senders) == OK
        before = shown(client)
        small_disk.fail()
        assert [send(client, senders) for _ in range(2)] == [broken] * 2
        assert client.post("/v1/photos", files=large_photo()).status_code == 503
        assert shown(client) == before
        assert server.stop() == 0
    small_disk.mend()
    with serving(small_disk, starter) as (_, client):
        assert shown(client) == before
        files = PhotoFiles(small_disk.path / "data" / "photos")
        for photo in before[0]:
            assert files.read(photo["id"])[:2] == b"\xff\xd8"  # T.81: SOI
        assert send(client, senders) == OK


@pytest.mark.parametrize("trouble", ["full", "read-only"])
def test_it_does_not_start_where_it_could_keep_nothing(
    small_disk: SmallDisk, senders: Senders, starter: Starter, trouble: str
) -> None:
    """Status 2 and one line; when the disk takes writes again, it starts."""
    with serving(small_disk, starter) as (server, client):
        assert send(client, senders) == OK
        before = shown(client)
        server.stop()
    if trouble == "full":
        small_disk.fill()
    else:
        small_disk.refuse_writes()
    with pytest.raises(AssertionError) as caught, serving(small_disk, starter):
        pass
    (said,) = str(caught.value).splitlines()[:1]
    assert said.startswith("fishmeasure: ")
    if trouble == "full":
        small_disk.empty()
    else:
        small_disk.take_writes()
    with serving(small_disk, starter) as (_, client):
        assert shown(client) == before
