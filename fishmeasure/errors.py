"""The tree of errors.

FishMeasureError            no figure can be given; says why and what to do
├── PhotoError              the photo cannot be used
├── MarkerError             no scale can be had from the photo
├── SpeciesError            a species is unknown or its file is wrong
├── SampleError             the weighings or the sample file cannot be used
├── StockError              a stocking calculation was asked outside its range
└── LedgerError             the book refuses an entry or cannot be read

Each failure is a class that writes its own message. ``ValueError`` is for a
bug of the caller, never for what a grower typed.
"""

from typing import ClassVar


class FishMeasureError(Exception):
    """No honest figure can be given.

    Parameters
    ----------
    message
        What is wrong, with the figures.
    advice
        What the grower does now.
    """

    code: ClassVar[str] = "failed"

    def __init__(self, message: str, advice: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.advice = advice

    def __str__(self) -> str:
        return f"{self.message} {self.advice}".strip()


class PhotoError(FishMeasureError):
    """The photo cannot be used."""


class MarkerError(FishMeasureError):
    """No scale can be had from the photo."""


class SpeciesError(FishMeasureError):
    """A species is unknown or its file is wrong."""


class SampleError(FishMeasureError):
    """The weighings or the sample file cannot be used."""


class StockError(FishMeasureError):
    """A stocking calculation was asked outside its range."""


class LedgerError(FishMeasureError):
    """The book refuses an entry or cannot be read."""


# --- photos -----------------------------------------------------------------


class NotAnImageError(PhotoError):
    """The bytes are not a picture that can be read."""

    code = "not-an-image"

    def __init__(self, name: str, reason: str = "") -> None:
        detail = f" ({reason})" if reason else ""
        super().__init__(
            f"{name} is not a picture that can be read{detail}.",
            "Send the photo as the phone saved it: JPEG, PNG, WebP or HEIC.",
        )


class PhotoTooLargeError(PhotoError):
    """The photo is over the limit in bytes or pixels."""

    code = "too-large"

    def __init__(self, name: str, size: str, limit: str) -> None:
        super().__init__(
            f"{name} is too large: {size}, the limit is {limit}.",
            "Take it with the phone's normal setting, not as a panorama or scan.",
        )


class PhotoTooSmallError(PhotoError):
    """The photo has too few pixels for any figure."""

    code = "too-small"

    def __init__(self, name: str, width_px: int, height_px: int) -> None:
        super().__init__(
            f"{name} is only {width_px} x {height_px} pixels.",
            "Send the original photo, not a preview or a cut-out.",
        )


# --- species ----------------------------------------------------------------


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
            f"Species file {where}: {reason}.",
            "Correct the file; the README shows its layout.",
        )
