"""``fishmeasure backup`` and ``fishmeasure restore``."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.words import Message, wording
from fishmeasure.cli import output
from fishmeasure.cli.book_options import BookOption, places

if TYPE_CHECKING:
    from fishmeasure.store.backup import BackupContent

DataOption = Annotated[
    Path | None,
    typer.Option("--data", help="help-data-option"),
]


def backup_command(
    file: Annotated[
        Path,
        typer.Argument(help="help-file"),
    ],
    *,
    data: DataOption = None,
    book: BookOption = None,
) -> None:
    """Save book, photos and lens profiles in one checked file, while serving too."""
    from fishmeasure.store.backup import make_backup
    from fishmeasure.store.engine import open_to_read

    folder, where = places(book=book, data=data)
    if "://" not in where and not Path(where).exists():
        told = wording("cli-no-book-yet", where=where)
        output.error_console().print(f"fishmeasure: {told}")
        raise typer.Exit(output.STATUS_UNUSABLE_INPUT)
    engine = open_to_read(where)
    try:
        content = make_backup(engine, folder, file)
    finally:
        engine.dispose()
    _report(content, Message.of("cli-saved-in", where=file))


def restore_command(
    file: Annotated[Path, typer.Argument(help="help-restore-file")],
    *,
    data: DataOption = None,
    book: BookOption = None,
    force: Annotated[
        bool,
        typer.Option("--force", help="help-force"),
    ] = False,
) -> None:
    """Put a backup back, once all of it is checked; stop the server before."""
    from fishmeasure.base.errors import BackupError
    from fishmeasure.store.backup import restore_backup

    folder, where = places(book=book, data=data)
    if "://" in where:
        raise BackupError.of_server()
    content = restore_backup(file, folder, Path(where), force=force)
    apart = Path(where).parent != folder
    told = Message.of(
        "cli-back-in", case="apart" if apart else "together", where=folder, book=where
    )
    _report(content, told)


def _report(content: "BackupContent", what: Message) -> None:
    output.console().print(
        wording(
            "cli-backup",
            photos=content.photo_count,
            size_mb=content.size_bytes / 1e6,
            what=what,
        ),
        highlight=False,
        soft_wrap=True,
    )
    if content.missing:
        output.error_console().print(
            "fishmeasure: "
            + wording(
                "cli-backup-missing",
                photos=len(content.missing),
                first=content.missing[0],
            )
        )
