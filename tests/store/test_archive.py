"""Photos, samples and devices beside the book."""

from uuid import uuid4

import pytest

from fishmeasure.base.errors import UnknownRecordError, VersionConflictError
from fishmeasure.store.archive import Page
from fishmeasure.store.book import Book
from fishmeasure.store.devices import Author

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


def test_what_is_not_there_is_said(book: Book) -> None:
    """Unknown photos and samples are told by name."""
    with pytest.raises(UnknownRecordError):
        book.archive.photo(DIGEST)
    with pytest.raises(UnknownRecordError):
        book.archive.sample(uuid4())


def test_who_sent_corrected_and_deleted_a_photo_is_kept(book: Book) -> None:
    """What was measured stays when the file goes."""
    archive = book.archive
    ann, bob, cis = (Author(name=name, device_id=uuid4()) for name in "abc")
    sent = archive.add_photo(DIGEST, name="a", settings={}, measured={"x": 1}, by=ann)
    changed = archive.change_photo(sent, {"measurement": {"x": 2}}, bob)
    gone = archive.delete_photo(changed, cis)
    assert (gone.received, gone.changed, gone.deleted) == (ann, bob, cis)
    assert gone.deleted_at is not None
    assert gone.measurement == {"x": 2}
    assert archive.deleted_photo_ids() == (DIGEST,)
    assert archive.newest_photo_ids(9) == ()
    with pytest.raises(VersionConflictError):
        archive.delete_photo(sent, ann)


def test_a_sample_taken_back_is_there_again_once_somebody_goes_on(book: Book) -> None:
    """An estimate made anew is nobody's change."""
    archive, name = book.archive, uuid4()
    ann, bob = (Author(name=name, device_id=uuid4()) for name in "ab")
    first = archive.put_sample(name, body={}, result=None, by=ann)
    gone = archive.take_back_sample(first, bob)
    again = archive.put_sample(name, body={}, result={})
    assert gone.taken_back_at is not None
    assert again.taken_back_at == gone.taken_back_at
    assert (again.received, again.changed) == (ann, bob)
    there = archive.put_sample(name, body={}, result={}, by=ann)
    assert (there.taken_back_at, there.changed) == (None, ann)
