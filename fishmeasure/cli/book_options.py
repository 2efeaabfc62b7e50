"""Which book the commands mean."""

import os
import re
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.words.voice import Units

if TYPE_CHECKING:
    from fishmeasure.store.book import Book

SETTINGS_FILE = "settings.toml"
_US = re.compile(r"^units *= *[\"']us[\"']", re.MULTILINE)
# The same as the server's default, so that both see one book.
DEFAULT_FOLDER = "~/.local/share/fishmeasure"

BookOption = Annotated[
    str | None,
    typer.Option(
        "--book",
        help="help-book-option",
    ),
]


def places(*, book: str | None = None, data: Path | None = None) -> tuple[Path, str]:
    """Return the folder of photos and the book, as the server would choose them."""
    given = data or os.environ.get("FISHMEASURE_DATA_DIR") or DEFAULT_FOLDER
    folder = Path(given).expanduser()
    where = book or os.environ.get("FISHMEASURE_BOOK") or str(folder / "book.sqlite")
    return folder, where if "://" in where else str(Path(where).expanduser())


def kept_units() -> Units:
    """Return the units that ``fishmeasure settings`` keeps, quickly.

    What is wrong with the folder or the file is said where all of it is read.
    """
    try:
        text = (places()[0] / SETTINGS_FILE).read_text("utf-8-sig")
    except (OSError, UnicodeDecodeError, RuntimeError):  # of a "~name" of nobody
        return "metric"
    return "us" if _US.search(text) else "metric"


def opened(book: str | None, *, may_be_new: bool = False) -> "Book":
    """Return the book that the option, the environment or the default names.

    One on a full or broken disk can be read, so that it can be saved elsewhere.

    Raises
    ------
    NoBookError
        If there is none, unless ``may_be_new``.
    """
    from fishmeasure.store.book import open_book, open_existing

    _, where = places(book=book)
    return open_book(where, to_read=True) if may_be_new else open_existing(where)
