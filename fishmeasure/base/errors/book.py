"""The book refuses an entry or cannot be read."""

from datetime import date
from typing import Any
from uuid import UUID

from fishmeasure.base.errors.base import FishMeasureError
from fishmeasure.base.words import NOTHING, Message, Reason


class LedgerError(FishMeasureError):
    """The book refuses an entry or cannot be read."""


def _is_identifier(name: str) -> bool:
    """Return whether a name is one that a program gave, not a person."""
    try:
        UUID(name)
    except ValueError:
        return False
    return True


class BadEntryError(LedgerError):
    """A unit, cohort or entry has an unusable or missing field."""

    code = "bad-entry"

    def __init__(self, *, field: Reason, reason: Reason) -> None:
        super().__init__(field=field, reason=reason)
        self.field = field
        self.reason = reason


class UnknownRecordError(LedgerError):
    """A unit, cohort or entry is not in the book."""

    code = "unknown-record"

    def __init__(self, what: str, name: str, known: tuple[str, ...] = ()) -> None:
        super().__init__(
            case="listed" if known else "bare",
            what=what,
            name=name,
            known=known,
            example="none" if _is_identifier(name) else what,
        )
        self.what = what
        self.name = name


class FutureDayError(LedgerError):
    """What has not been yet cannot be entered."""

    code = "future-day"

    def __init__(self, on: date, today: date) -> None:
        super().__init__(on=on, today=today)


class DoubtfulEntryError(LedgerError):
    """An entry is far from what the book expects; it waits for an answer.

    ``token`` confirms these entries as they are, by this book; ``details`` are the
    questions as JSON has them.
    """

    code = "doubtful-entry"

    def __init__(
        self,
        doubts: tuple[Message, ...],
        slip: Message | None,
        token: str,
        details: tuple[dict[str, Any], ...] = (),
    ) -> None:
        *others, told = doubts
        for doubt in reversed(others):
            told = Message.of("both-said", first=doubt, then=told)
        super().__init__(
            case="plain" if slip is None else "slip",
            doubts=told,
            slip=NOTHING if slip is None else slip,
        )
        self.token = token
        self.details = details


class NoBookError(LedgerError):
    """There is no file where a book is to be read."""

    code = "no-book"

    def __init__(self, where: str) -> None:
        super().__init__(where=where)


class EntryConflictError(LedgerError):
    """The same id was sent before with other content."""

    code = "entry-conflict"

    def __init__(self, what: str, identity: str, differing: tuple[str, ...]) -> None:
        super().__init__(what=what, identity=identity, differing=differing)


class AlreadyReplacedError(LedgerError):
    """Somebody else corrected or took back the entry first."""

    code = "already-replaced"

    def __init__(self, identity: str, by: str) -> None:
        super().__init__(identity=identity, by=by)


class VersionConflictError(LedgerError):
    """Somebody else changed the unit or cohort first."""

    code = "version-conflict"

    def __init__(self, what: str, name: str, sent: int, newest: int) -> None:
        super().__init__(
            what=what,
            name=name,
            sent_version=sent,
            newest_version=newest,
            next_version=newest + 1,
        )


class NameTakenError(LedgerError):
    """Two units or two cohorts cannot have one name."""

    code = "name-taken"

    def __init__(self, what: str, name: str) -> None:
        super().__init__(what=what, name=name)


class BookNewerError(LedgerError):
    """The book was written by a newer version of the program."""

    code = "book-newer"

    def __init__(self, revision: str) -> None:
        super().__init__(revision=revision)


class BookUnreadableError(LedgerError):
    """The file or address is no book, or cannot be reached."""

    code = "book-unreadable"

    def __init__(self, where: str, reason: Reason) -> None:
        super().__init__(case="here", where=where, reason=reason)


class BookDamagedError(BookUnreadableError):
    """The file was a book, and a part of it was lost."""

    code = "book-damaged"

    def __init__(self, where: str, reason: Reason) -> None:
        LedgerError.__init__(self, case="here", where=where, reason=reason)


class BookBusyError(LedgerError):
    """Another program held the book for too long."""

    code = "book-busy"

    def __init__(self, waited_s: float) -> None:
        super().__init__(waited_s=waited_s)


class BookInUseError(LedgerError):
    """A backup cannot be put back under a running server, nor one start meanwhile."""

    code = "book-in-use"

    def __init__(self, where: str, *, by_servers: bool) -> None:
        super().__init__(case="server" if by_servers else "restore", where=where)


class BookNotEmptyError(LedgerError):
    """The demo would mix with what is in the book."""

    code = "book-not-empty"

    def __init__(self) -> None:
        super().__init__()


class BookWriteError(LedgerError):
    """The disk or the server refused the write."""

    code = "book-write"

    def __init__(self, reason: Reason) -> None:
        super().__init__(case="here", reason=reason)


class BookFullError(BookWriteError):
    """There is no room for what was to be written."""

    code = "book-full"

    def __init__(self) -> None:
        LedgerError.__init__(self)


class ImportFileError(LedgerError):
    """A file to be imported is not what the book exports."""

    code = "import-file"

    def __init__(self, where: Reason, reason: Reason) -> None:
        super().__init__(where=where, reason=reason)


class BackupError(LedgerError):
    """A backup cannot be made or put back."""

    code = "backup"

    @classmethod
    def of_server(cls) -> "BackupError":
        """Return the error for a book on a database server."""
        return cls(case="server")

    @classmethod
    def of_existing(cls, where: str) -> "BackupError":
        """Return the error for a file that would be overwritten."""
        return cls(case="existing", where=where)

    @classmethod
    def of_disk(cls, where: str, reason: Reason) -> "BackupError":
        """Return the error for a disk that refuses."""
        return cls(case="disk", where=where, reason=reason)


class BackupDamagedError(LedgerError):
    """A backup is not as it was made."""

    code = "backup-damaged"

    def __init__(self, name: str, reason: Reason) -> None:
        super().__init__(name=name, reason=reason)


class NoBackupError(BackupDamagedError):
    """A file is no backup at all."""

    code = "no-backup"

    def __init__(self, name: str) -> None:
        LedgerError.__init__(self, name=name)
