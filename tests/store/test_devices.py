"""Paired devices: roles, ends of tokens, names."""

from datetime import UTC, datetime, timedelta
from uuid import uuid4

import pytest

from fishmeasure.base.errors import UnknownRecordError
from fishmeasure.store.book import Book
from fishmeasure.store.devices import ROLES, Author, Device, Role

NOON = datetime(2026, 3, 1, 12, tzinfo=UTC)
TOKEN = "cd" * 32


def phone(role: Role = "owner") -> Device:
    return Device(id=uuid4(), name="phone", paired_at=NOON, role=role)


def test_a_device_is_known_by_its_token_until_it_is_removed(book: Book) -> None:
    """Only the hash of the token is kept; a second removal is told."""
    devices, device = book.devices, phone()
    devices.add(device, TOKEN)
    assert devices.of_token(TOKEN) == device
    assert devices.all() == (device,)
    devices.remove(device.id)
    assert devices.of_token(TOKEN) is None
    with pytest.raises(UnknownRecordError):
        devices.remove(device.id)
    with pytest.raises(UnknownRecordError):
        devices.change(device.id, name="other", role="reader")


def test_each_role_may_what_those_before_it_may() -> None:
    """As told in api/access.py: a reader sees, a worker enters, the owner does all."""
    may = {role: [phone(role).may(least) for least in ROLES] for role in ROLES}
    assert may == {
        "reader": [True, False, False],
        "worker": [True, True, False],
        "owner": [True, True, True],
    }


def test_a_used_device_is_let_in_for_as_long_again(book: Book) -> None:
    """One that an older program paired gets its end by its first use."""
    devices, device = book.devices, phone()
    devices.add(device, TOKEN)
    assert not device.has_ended(NOON + timedelta(days=5000))
    devices.seen(device.id, NOON, timedelta(days=180))
    seen = devices.of_token(TOKEN)
    assert seen is not None
    assert seen.last_seen_at == NOON
    assert not seen.has_ended(NOON + timedelta(days=179))
    assert seen.has_ended(NOON + timedelta(days=180))


def test_a_device_has_one_name_and_its_writings_the_old_one(book: Book) -> None:
    """Renamed, it is the same device; an author is a name of then."""
    devices, device = book.devices, phone("worker")
    devices.add(device, TOKEN)
    changed = devices.change(device.id, name="Ann", role="reader")
    assert (changed.name, changed.role, changed.id) == ("Ann", "reader", device.id)
    assert device.author == Author(name="phone", device_id=device.id)
    assert devices.all() == (changed,)
