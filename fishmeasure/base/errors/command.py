"""An option or a place for a file cannot be used."""

from fishmeasure.base.errors.base import FishMeasureError
from fishmeasure.base.errors.stock import StockError


def _meant(near: tuple[str, ...]) -> str:
    """Return the question which of some names was meant; none asks nothing."""
    return f" Did you mean {' or '.join(near)}?" if near else ""


class OptionFormatError(StockError):
    """An option's text cannot be read."""

    code = "option-format"

    def __init__(self, option: str, given: str, example: str) -> None:
        said = f"{given!r} cannot be read" if given else "nothing was given"
        super().__init__(f"{option}: {said}.", f"Write it like this: {example}.")


class BadOptionError(FishMeasureError):
    """An option or a file name on the command line cannot be used."""

    code = "bad-option"

    def __init__(self, option: str, value: str, wanted: str) -> None:
        super().__init__(
            f"{option} {value} is not {wanted}.",
            "Correct it and run the command again.",
        )


class NoFileError(FishMeasureError):
    """A file that was named is not there."""

    code = "no-file"

    def __init__(self, name: str) -> None:
        super().__init__(f"There is no file {name}.", "Check its name and folder.")


class UnknownKindError(FishMeasureError):
    """The book has no such kind of entry."""

    code = "unknown-kind"

    def __init__(self, word: str, near: str, known: tuple[str, ...]) -> None:
        super().__init__(
            f"The book has no kind '{word}'.",
            f"Is {near} meant?" if near else f"There are: {', '.join(known)}.",
        )


class CommandLineError(FishMeasureError):
    """A command was given something that it does not take, or not what it needs."""

    code = "command-line"

    def __init__(self, command: str, reason: str, near: tuple[str, ...] = ()) -> None:
        super().__init__(
            f"{reason.rstrip('.')}.{_meant(near)}",
            f"'{command} --help' shows the options.",
        )


class DataFileError(FishMeasureError):
    """What should name a file for results is another option, a photo or a sample."""

    code = "data-file"

    def __init__(self, given: str) -> None:
        super().__init__(
            f"{given} is no file for results.",
            "Write --json results.json, or --json - for the screen; --csv likewise.",
        )


class UnknownCommandError(FishMeasureError):
    """There is no such command."""

    code = "unknown-command"

    def __init__(self, group: str, word: str, near: tuple[str, ...]) -> None:
        super().__init__(
            f"There is no command '{group} {word}'."
            + _meant(tuple(f"'{group} {command}'" for command in near)),
            f"'{group} --help' lists them.",
        )


class ReportWriteError(FishMeasureError):
    """What a command gives cannot be written where it was wanted."""

    code = "report-write"

    def __init__(self, where: str, reason: str) -> None:
        super().__init__(
            f"{where} cannot be written: {reason.lower()}.",
            "Make room there, or choose a place that you may write to.",
        )


class ResultFileError(FishMeasureError):
    """The results of many photos cannot be kept in the file, or read from it."""

    code = "result-file"

    def __init__(self, where: str, reason: str) -> None:
        super().__init__(
            f"{where} cannot be used for results: {reason}.",
            "Make room or choose another file, then run the command again: it goes on "
            "where it was.",
        )


class ClusterLostError(FishMeasureError):
    """The scheduler of a cluster went away while photos were measured."""

    code = "cluster-lost"

    def __init__(self, address: str) -> None:
        super().__init__(
            f"The dask scheduler at {address} is gone.",
            "Start it, then run the command again: it goes on where it was.",
        )
