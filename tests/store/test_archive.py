"""Photos, samples and devices beside the book."""

from datetime import UTC, datetime
from uuid import uuid4

import pytest

from fishmeasure.base.errors import UnknownRecordError, VersionConflictError
from fishmeasure.store.archive import Device, Page
from fishmeasure.store.book import Book

DIGEST = "ab" * 32


def test_a_photo_sent_twice_is_kept_once(book: Book) -> None:
    """The second time changes nothing, whatever is sent with it."""
    archive = book.archive
    first = archive.add_photo(DIGEST, name="a.jpg", settings={}, measured={"fish": []})
    again = archive.add_photo(DIGEST, name="b.jpg", settings={}, measured={})
    assert again == first
    assert archive.photos(Page()) == (first,)


def test_a_change_raises_the_revision(book: Book) -> None:
    """Corrections leave the photo's own measurement alone."""
    archive = book.archive
    old = archive.add_photo(DIGEST, name="a.jpg", settings={}, measured={"fish": [1]})
    new = archive.change_photo(
        old, {"measurement": {"fish": []}, "corrections": [{"kind": "drop"}]}
    )
    assert (new.revision, new.measured, new.measurement) == (
        2,
        {"fish": [1]},
        {"fish": []},
    )
    assert archive.photo(DIGEST) == new


def test_a_stale_change_is_refused(book: Book) -> None:
    """Two phones correct one photo: the second is told."""
    archive = book.archive
    old = archive.add_photo(DIGEST, name="a.jpg", settings={}, measured={})
    archive.change_photo(old, {"corrections": []})
    with pytest.raises(VersionConflictError):
        archive.change_photo(old, {"corrections": [{"kind": "drop"}]})


def test_pages_go_from_newest_to_oldest(book: Book) -> None:
    """Each page goes on where the last one ended, none twice."""
    archive = book.archive
    for number in range(5):
        archive.add_photo(f"{number:064x}", name=str(number), settings={}, measured={})
    seen: list[str] = []
    before = None
    while page := archive.photos(Page(limit=2, before=before)):
        seen += [photo.name for photo in page]
        before = page[-1].seq
    assert seen == ["4", "3", "2", "1", "0"]


def test_a_sample_grows_by_revisions(book: Book) -> None:
    """A sample sent again replaces what it said; a stale one is refused."""
    archive = book.archive
    identity = uuid4()
    first = archive.put_sample(identity, body={"nets": []}, result=None)
    second = archive.put_sample(identity, body={"nets": [1]}, result={"x": 1})
    assert (first.revision, second.revision) == (1, 2)
    assert archive.sample(identity) == second
    assert archive.samples(Page()) == (second,)
    with pytest.raises(VersionConflictError):
        archive.put_sample(identity, body={}, result=None, based_on=1)


def test_a_device_is_known_by_its_token_until_removed(book: Book) -> None:
    """Only the hash of the token is kept."""
    archive = book.archive
    device = Device(id=uuid4(), name="a phone", paired_at=datetime.now(UTC))
    archive.add_device(device, "cd" * 32)
    assert archive.device_of("cd" * 32) == device
    assert archive.devices() == (device,)
    archive.remove_device(device.id)
    assert archive.device_of("cd" * 32) is None
    with pytest.raises(UnknownRecordError):
        archive.remove_device(device.id)


def test_what_is_not_there_is_said(book: Book) -> None:
    """Unknown photos and samples are told by name."""
    with pytest.raises(UnknownRecordError):
        book.archive.photo(DIGEST)
    with pytest.raises(UnknownRecordError):
        book.archive.sample(uuid4())
