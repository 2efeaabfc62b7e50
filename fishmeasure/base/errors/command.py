"""An option or a place for a file cannot be used."""

from fishmeasure.base.errors.base import FishMeasureError
from fishmeasure.base.errors.stock import StockError
from fishmeasure.base.words import Reason


class OptionFormatError(StockError):
    """An option's text cannot be read."""

    code = "option-format"

    def __init__(self, option: str, given: Reason, example: Reason) -> None:
        super().__init__(
            case="unread" if given else "empty",
            option=option,
            given=given,
            example=example,
        )


class BadOptionError(FishMeasureError):
    """An option or a file name on the command line cannot be used."""

    code = "bad-option"

    def __init__(self, option: Reason, value: Reason, wanted: Reason) -> None:
        super().__init__(option=option, value=value, wanted=wanted)


class NoNumberError(FishMeasureError):
    """What was typed is no number, or has an unknown unit."""

    code = "no-number"

    def __init__(self, *, given: str) -> None:
        super().__init__(given=given)


class UnclearNumberError(FishMeasureError):
    """What was typed can be read as two numbers."""

    code = "unclear-number"

    def __init__(self, *, given: str, whole: str, decimal: str) -> None:
        super().__init__(given=given, whole=whole, decimal=decimal)
        self.whole, self.decimal = whole, decimal


class NoFileError(FishMeasureError):
    """A file that was named is not there."""

    code = "no-file"

    def __init__(self, name: str) -> None:
        super().__init__(name=name)


class UnknownKindError(FishMeasureError):
    """The book has no such kind of entry."""

    code = "unknown-kind"

    def __init__(self, word: str, near: str, known: tuple[str, ...]) -> None:
        super().__init__(
            case="near" if near else "far", word=word, near=near, known=known
        )


class UnknownCodeError(FishMeasureError):
    """No problem and no error has this code."""

    code = "unknown-code"

    def __init__(self, word: str, near: tuple[str, ...]) -> None:
        super().__init__(case="near" if near else "far", word=word, near=near)


class CommandLineError(FishMeasureError):
    """A command was given something that it does not take, or not what it needs."""

    code = "command-line"

    def __init__(
        self, command: str, reason: Reason, near: tuple[str, ...] = ()
    ) -> None:
        super().__init__(
            case="near" if near else "far", command=command, reason=reason, near=near
        )


class DataFileError(FishMeasureError):
    """What should name a file for results is another option, a photo or a sample."""

    code = "data-file"

    def __init__(self, given: str) -> None:
        super().__init__(given=given)


class UnknownCommandError(FishMeasureError):
    """There is no such command."""

    code = "unknown-command"

    def __init__(self, group: str, word: str, near: tuple[str, ...]) -> None:
        super().__init__(
            case="near" if near else "far",
            group=group,
            word=word,
            near=tuple(f"'{group} {command}'" for command in near),
        )


class ReportWriteError(FishMeasureError):
    """What a command gives cannot be written where it was wanted."""

    code = "report-write"

    def __init__(self, where: Reason, reason: Reason) -> None:
        super().__init__(where=where, reason=reason)


class ResultFileError(FishMeasureError):
    """The results of many photos cannot be kept in the file, or read from it."""

    code = "result-file"

    def __init__(self, where: str, reason: Reason) -> None:
        super().__init__(where=where, reason=reason)


class ClusterLostError(FishMeasureError):
    """The scheduler of a cluster went away while photos were measured."""

    code = "cluster-lost"

    def __init__(self, address: str) -> None:
        super().__init__(address=address)
