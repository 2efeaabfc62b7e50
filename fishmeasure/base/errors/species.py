"""A species is unknown or its file is wrong."""

from fishmeasure.base.errors.base import FishMeasureError, sentence


class SpeciesError(FishMeasureError):
    """A species is unknown or its file is wrong."""


class UnknownSpeciesError(SpeciesError):
    """No species has this name."""

    code = "unknown-species"

    def __init__(
        self, name: str, close: tuple[str, ...], known: tuple[str, ...]
    ) -> None:
        advice = (
            f"Is {' or '.join(close)} meant?"
            if close
            else f"Known are: {', '.join(known)}. For another fish give your own file, "
            "such as mystock.toml."
        )
        super().__init__(f'There is no species "{name}".', advice)
        self.close = close


class SpeciesFileError(SpeciesError):
    """A species file cannot be read or breaks the layout."""

    code = "species-file"

    def __init__(self, file_name: str, key: str, reason: str) -> None:
        where = f"{file_name}, {key}" if key else file_name
        super().__init__(
            sentence(f"Species file {where}: {reason}"),
            "Correct the file; the README shows its layout.",
        )
