"""Which book the commands mean."""

import os
from typing import TYPE_CHECKING, Annotated

import typer

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
    """Return the book that the option, the environment or the default names.

    One on a full or broken disk can be read, so that it can be saved elsewhere.
    """
    from fishmeasure.ledger.store import open_book

    where = book or os.environ.get("FISHMEASURE_BOOK") or DEFAULT_BOOK
    return open_book(where, to_read=True)
