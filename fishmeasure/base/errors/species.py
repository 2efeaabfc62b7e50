"""A species is unknown or its file is wrong."""

from fishmeasure.base.errors.base import FishMeasureError
from fishmeasure.base.words import Reason


class SpeciesError(FishMeasureError):
    """A species is unknown or its file is wrong."""


class UnknownSpeciesError(SpeciesError):
    """No species has this name."""

    code = "unknown-species"

    def __init__(
        self, name: str, close: tuple[str, ...], known: tuple[str, ...]
    ) -> None:
        super().__init__(
            case="near" if close else "far", name=name, close=close, known=known
        )
        self.close = close


class SpeciesFileError(SpeciesError):
    """A species file cannot be read or breaks the layout."""

    code = "species-file"

    def __init__(self, file_name: str, key: str, reason: Reason) -> None:
        super().__init__(
            case="key" if key else "whole", file_name=file_name, key=key, reason=reason
        )
