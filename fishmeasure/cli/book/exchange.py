"""The whole book as a file, and files into the book."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.errors import ImportFileError
from fishmeasure.base.files import read_at_most
from fishmeasure.base.words import Message, system_reason, wording
from fishmeasure.cli.book_options import BookOption, opened
from fishmeasure.cli.output import write_bytes

if TYPE_CHECKING:
    from fishmeasure.store.book import Book, BookContent


def export_command(
    target: Annotated[Path, typer.Argument(help="help-target")],
    book: BookOption = None,
) -> None:
    """Write the whole book as one JSON file or as CSV tables."""
    from fishmeasure.store.exchange import book_to_csv, book_to_json

    with opened(book) as open_:
        content = open_.content()
    if target.suffix == ".json":
        write_bytes(target, book_to_json(content).encode())
    else:
        for name, text in book_to_csv(content).items():
            write_bytes(target / f"{name}.csv", text.encode())
    print(wording("cli-exported", entries=len(content.entries), file=target))


def import_command(
    source: Annotated[Path, typer.Argument(help="help-import-source")],
    book: BookOption = None,
) -> None:
    """Add what a file holds; what is in the book already is left as it is."""
    with opened(book, may_be_new=True) as open_:
        added = open_.add_content(_read(source, open_))
    print(
        wording("cli-imported", entries=len(added.added), repeated=len(added.repeated))
    )


def _read(source: Path, book: "Book") -> "BookContent":
    from fishmeasure.store.exchange import TABLES, book_from_csv, book_from_json

    try:
        if source.suffix == ".json":
            return book_from_json(read_at_most(source).decode("utf-8"), source.name)
        paths = (
            [source / f"{name}.csv" for name in TABLES] if source.is_dir() else [source]
        )
        tables = {
            path.stem: read_at_most(path).decode("utf-8")
            for path in paths
            if path.exists() or not source.is_dir()
        }
    except (OSError, UnicodeDecodeError) as error:
        raise ImportFileError(str(source), _reason(error)) from None
    if not tables:
        reason = Message.of("cli-import-nothing", table=TABLES[0])
        raise ImportFileError(str(source), reason)
    return book_from_csv(tables, book.content())


def _reason(error: OSError | UnicodeDecodeError) -> Message:
    if isinstance(error, UnicodeDecodeError):
        return Message.of("cli-not-utf-8")
    return system_reason(error)
