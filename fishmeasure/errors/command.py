"""An option or a place for a file cannot be used."""

from fishmeasure.errors.base import FishMeasureError
from fishmeasure.errors.stock import StockError


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


class CommandLineError(FishMeasureError):
    """A command was given something that it does not take, or not what it needs."""

    code = "command-line"

    def __init__(self, command: str, reason: str) -> None:
        super().__init__(
            f"{reason.rstrip('.')}.",
            f"'fishmeasure {command} --help' shows the options.",
        )


class ReportWriteError(FishMeasureError):
    """A report cannot be written where it was wanted."""

    code = "report-write"

    def __init__(self, where: str, reason: str) -> None:
        super().__init__(
            f"{where} cannot be written: {reason.lower()}.",
            "Choose a folder that you may write to.",
        )
