"""The book refuses an entry or cannot be read."""

from datetime import date

from fishmeasure.base.errors.base import FishMeasureError, sentence


class LedgerError(FishMeasureError):
    """The book refuses an entry or cannot be read."""


class BadEntryError(LedgerError):
    """A unit, cohort or entry has an unusable or missing field."""

    code = "bad-entry"

    def __init__(self, *, field: str, reason: str) -> None:
        super().__init__(
            sentence(f"The book cannot take this: {field} {reason}"),
            "Correct it and send it again.",
        )
        self.field = field
        self.reason = reason


class UnknownRecordError(LedgerError):
    """A unit, cohort or entry is not in the book."""

    code = "unknown-record"

    def __init__(self, what: str, name: str, known: tuple[str, ...] = ()) -> None:
        listed = f"The book has: {', '.join(known)}." if known else ""
        super().__init__(f"The book has no {what} {name}.", listed)
        self.what = what
        self.name = name


class FutureDayError(LedgerError):
    """What has not been yet cannot be entered."""

    code = "future-day"

    def __init__(self, on: date, today: date) -> None:
        super().__init__(
            f"{on} is in the future; today is {today}.",
            "Not entered. Correct the date.",
        )


class NoBookError(LedgerError):
    """There is no file where a book is to be read."""

    code = "no-book"

    def __init__(self, where: str) -> None:
        super().__init__(
            f"There is no book at {where}.",
            "Check the path; the first unit that is added makes a new book.",
        )


class EntryConflictError(LedgerError):
    """The same id was sent before with other content."""

    code = "entry-conflict"

    def __init__(self, what: str, identity: str, differing: tuple[str, ...]) -> None:
        super().__init__(
            f"The book has another {what} with the id {identity} "
            f"(differs in {', '.join(differing)}).",
            "Nothing was changed. A correction is a new entry that replaces the old.",
        )


class AlreadyReplacedError(LedgerError):
    """Somebody else corrected or took back the entry first."""

    code = "already-replaced"

    def __init__(self, identity: str, by: str) -> None:
        super().__init__(
            f"The entry {identity} was replaced by {by} already.",
            f"Look at it; if it is still wrong, replace {by}.",
        )


class VersionConflictError(LedgerError):
    """Somebody else changed the unit or cohort first."""

    code = "version-conflict"

    def __init__(self, what: str, name: str, sent: int, newest: int) -> None:
        super().__init__(
            f"{what} {name} was sent as version {sent}, but the book has "
            f"version {newest}.",
            f"Read version {newest}, make the change there, "
            f"and send it as version {newest + 1}.",
        )


class NameTakenError(LedgerError):
    """Two units or two cohorts cannot have one name."""

    code = "name-taken"

    def __init__(self, what: str, name: str) -> None:
        super().__init__(f"The book has a {what} called {name}.", "Choose another.")


class BookNewerError(LedgerError):
    """The book was written by a newer version of the program."""

    code = "book-newer"

    def __init__(self, revision: str) -> None:
        super().__init__(
            f"This book was written by a newer fishmeasure (schema {revision}).",
            "Update fishmeasure to read it; the book was left as it is.",
        )


class BookUnreadableError(LedgerError):
    """The file or address is no book, or cannot be reached."""

    code = "book-unreadable"

    def __init__(self, where: str, reason: str) -> None:
        super().__init__(
            f"{where} cannot be opened as a book: {reason}.",
            "Check the path or address, the free space, and that it may be read and "
            "written.",
        )


class BookDamagedError(BookUnreadableError):
    """The file was a book, and a part of it was lost."""

    code = "book-damaged"

    def __init__(self, where: str, reason: str) -> None:
        LedgerError.__init__(
            self,
            f"The book {where} is damaged: {reason}.",
            "Keep the file. Put a backup back beside it; an export may save what is "
            "left of it.",
        )


class BookBusyError(LedgerError):
    """Another program held the book for too long."""

    code = "book-busy"

    def __init__(self, waited_s: float) -> None:
        super().__init__(
            f"Another program kept the book locked for {waited_s:g} seconds.",
            "Nothing was written. Try again.",
        )


class BookInUseError(LedgerError):
    """A backup cannot be put back under a running server, nor one start meanwhile."""

    code = "book-in-use"

    def __init__(self, where: str, *, by_servers: bool) -> None:
        if by_servers:
            super().__init__(
                f"A running server has the book {where} open.",
                "Nothing was changed. Stop the server, then put the backup back: what "
                "is entered meanwhile would be lost.",
            )
            return
        super().__init__(
            f"A backup is being put back over the book {where}.",
            "Start the server when that is done.",
        )


class BookWriteError(LedgerError):
    """The disk or the server refused the write."""

    code = "book-write"

    def __init__(self, reason: str) -> None:
        super().__init__(
            f"The book could not be written: {reason}.",
            "Nothing of this entry was saved. Free space or repair the disk, then "
            "send it again.",
        )


class BookFullError(BookWriteError):
    """There is no room for what was to be written."""

    code = "book-full"

    def __init__(self) -> None:
        super().__init__("the disk is full")


class ImportFileError(LedgerError):
    """A file to be imported is not what the book exports."""

    code = "import-file"

    def __init__(self, where: str, reason: str) -> None:
        super().__init__(
            sentence(f"{where} cannot be imported: {reason}"), "Nothing was imported."
        )


class BackupError(LedgerError):
    """A backup cannot be made or put back."""

    code = "backup"

    @classmethod
    def of_server(cls) -> "BackupError":
        """Return the error for a book on a database server."""
        return cls(
            "A book on PostgreSQL is not backed up from here.",
            "Use pg_dump for the book, and copy the folder with the photos after it.",
        )

    @classmethod
    def of_existing(cls, where: str) -> "BackupError":
        """Return the error for a file that would be overwritten."""
        return cls(
            f"{where} is there already.",
            "Nothing was changed. Choose another place, or put a backup back over a "
            "book with --force, which keeps the old book beside it.",
        )

    @classmethod
    def of_disk(cls, where: str, reason: str) -> "BackupError":
        """Return the error for a disk that refuses."""
        return cls(
            f"{where} cannot be read or written: {reason}.",
            "Check the path and the free space; no book was changed.",
        )


class BackupDamagedError(LedgerError):
    """A backup is not as it was made."""

    code = "backup-damaged"

    def __init__(self, name: str, reason: str) -> None:
        super().__init__(
            f"{name} is no whole backup: {reason}.",
            "Nothing was changed. Take another copy or an older backup.",
        )


class NoBackupError(BackupDamagedError):
    """A file is no backup at all."""

    code = "no-backup"

    def __init__(self, name: str) -> None:
        LedgerError.__init__(
            self,
            f"{name} is no backup of a book.",
            "Nothing was changed. Give a file that was made as a backup.",
        )
