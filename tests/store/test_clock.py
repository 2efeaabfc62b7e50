"""A clock that goes back changes the order of nothing and loses nothing."""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from fishmeasure.store import archive
from fishmeasure.store.archive import Page
from fishmeasure.store.book import open_book


def test_photos_stay_in_the_order_in_which_they_came(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The machine's clock is set back by an hour between any two."""
    start = datetime(2026, 6, 1, 12, tzinfo=UTC)
    with open_book(tmp_path / "book.db") as book:
        for number in range(5):

            class Clock(datetime):
                @classmethod
                def now(cls, tz: Any = None, _back: int = number) -> Any:  # noqa: ARG003
                    return start - timedelta(hours=_back)

            monkeypatch.setattr(archive, "datetime", Clock)
            name = f"{number:064d}"
            book.archive.add_photo(name, name="a", settings={}, measured={})
        shown = [int(photo.id) for photo in book.archive.photos(Page(limit=3))]
        rest = book.archive.photos(Page(limit=3, before=3))
    assert shown == [4, 3, 2]
    assert [int(photo.id) for photo in rest] == [1, 0]
