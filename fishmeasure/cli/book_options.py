"""Which book the commands mean, and days as they are typed."""

import os
from datetime import date
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.errors import OptionFormatError

if TYPE_CHECKING:
    from fishmeasure.ledger.store import Book

# The same folder as the server's default, so that both see one book.
DEFAULT_BOOK = "~/.local/share/fishmeasure/book.sqlite"

BookOption = Annotated[
    str | None,
    typer.Option(
        "--book",
        help="File or address of the book, such as postgresql://host/name; "
        "else FISHMEASURE_BOOK, else your own.",
    ),
]


def opened(book: str | None) -> "Book":
    """Return the book that the option, the environment or the default names."""
    from fishmeasure.ledger.store import open_book

    return open_book(book or os.environ.get("FISHMEASURE_BOOK") or DEFAULT_BOOK)


def read_day(option: str, given: str | None) -> date:
    """Return a day written as 2026-05-02; today where none is given.

    Raises
    ------
    OptionFormatError
    """
    if given is None:
        return date.today()  # noqa: DTZ011 - the grower's own day
    try:
        return date.fromisoformat(given)
    except ValueError:
        raise OptionFormatError(option, given, "2026-05-02") from None
