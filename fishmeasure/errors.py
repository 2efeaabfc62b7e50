"""The tree of errors.

FishMeasureError            no figure can be given; says why and what to do
├── PhotoError              the photo cannot be used
├── MarkerError             no scale can be had from the photo
├── LensError               a lens profile cannot be made or read
├── SpeciesError            a species is unknown or its file is wrong
├── SampleError             the weighings or the sample file cannot be used
├── StockError              a stocking calculation was asked outside its range
└── LedgerError             the book refuses an entry or cannot be read

Each failure is a class that writes its own message. ``ValueError`` is for a
bug of the caller, never for what a grower typed.
"""

import math


class FishMeasureError(Exception):
    """No honest figure can be given.

    Parameters
    ----------
    message
        What is wrong, with the figures.
    advice
        What the grower does now.
    """

    code: str = "failed"

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


class LensError(FishMeasureError):
    """A lens profile cannot be made or read."""


class SpeciesError(FishMeasureError):
    """A species is unknown or its file is wrong."""


class SampleError(FishMeasureError):
    """The weighings or the sample file cannot be used."""


class StockError(FishMeasureError):
    """A stocking calculation was asked outside its range."""


class LedgerError(FishMeasureError):
    """The book refuses an entry or cannot be read."""


# --- stocking calculations ---------------------------------------------------


class UnknownStockSpeciesError(StockError):
    """There are no stocking figures for the species."""

    code = "no-stock-figures"

    def __init__(self, species_key: str, known: tuple[str, ...]) -> None:
        super().__init__(
            f"There are no growth, feed and oxygen figures for {species_key!r}.",
            f"Use one of: {', '.join(known)}.",
        )


class StockRangeError(StockError):
    """A figure given is outside what the calculation can take."""

    code = "outside-range"

    def __init__(
        self, name: str, value: float, unit: str, low: float, high: float
    ) -> None:
        suffix = f" {unit}" if unit else ""
        if math.isinf(high):
            allowed = f"above {low:g}{suffix}"
        else:
            allowed = f"from {low:g} to {high:g}{suffix}"
        super().__init__(
            f"The {name} of {value:g}{suffix} is outside what can be worked with.",
            f"Give a value {allowed}.",
        )


class NoSamplesError(StockError):
    """There is no weight to start from."""

    code = "no-samples"

    def __init__(self) -> None:
        super().__init__(
            "There is no weight sample to start from.",
            "Enter the weight at stocking or take a net sample.",
        )


class GainNotKnownError(StockError):
    """The gain cannot be told from zero, so no feed conversion can be given."""

    code = "gain-not-known"

    def __init__(self, gain_kg: float, sd_kg: float) -> None:
        super().__init__(
            f"The gain of {gain_kg:.1f} kg (standard error {sd_kg:.1f} kg) cannot be "
            "told from zero, so no feed conversion can be given.",
            "Wait for more growth, or weigh more nets at both ends of the period.",
        )


class OptionFormatError(StockError):
    """An option's text cannot be read."""

    code = "option-format"

    def __init__(self, option: str, given: str, example: str) -> None:
        said = f"{given!r} cannot be read" if given else "nothing was given"
        super().__init__(f"{option}: {said}.", f"Write it like this: {example}.")


# --- corrections ------------------------------------------------------------


class BadCorrectionError(FishMeasureError):
    """A person's correction of a photo cannot be made."""

    code = "bad-correction"

    def __init__(self, number: int, reason: str) -> None:
        super().__init__(
            f"Correction {number} cannot be made: {reason}.",
            "Load the photo again and repeat it.",
        )


# --- command line -----------------------------------------------------------


class BadOptionError(FishMeasureError):
    """An option or a file name on the command line cannot be used."""

    code = "bad-option"

    def __init__(self, option: str, value: str, wanted: str) -> None:
        super().__init__(
            f"{option} {value} is not {wanted}.",
            "Correct it and run the command again.",
        )


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


# --- scale ------------------------------------------------------------------


class LensFileError(LensError):
    """The file is no lens profile."""

    code = "lens-file"

    def __init__(self, name: str, reason: str) -> None:
        super().__init__(
            f"{name} cannot be used as a lens profile: {reason}.",
            "Make one with 'fishmeasure lens'.",
        )


class MixedCamerasError(LensError):
    """The photos of the board are from more than one camera or setting."""

    code = "lens-photos"

    def __init__(self) -> None:
        super().__init__(
            "These photos are not from one camera at one size, so they give no lens "
            "profile.",
            "Give photos taken with the same phone, lens and setting.",
        )


class TooFewBoardPhotosError(LensError):
    """Too few photos show the board well."""

    code = "lens-photos"

    def __init__(self, found: int, given: int, needed: int) -> None:
        super().__init__(
            f"The lens board is seen well in {found} of {given} photos; {needed} are "
            "needed.",
            "Take more photos of the printed lens board, flat and sharp.",
        )


class BoardMisfitError(LensError):
    """The board's corners do not fit one lens."""

    code = "lens-photos"

    def __init__(self, rms_px: float) -> None:
        super().__init__(
            f"The photos of the board do not fit one lens (off by {rms_px:.1f} "
            "pixels).",
            "Glue the board to something flat, hold the phone still, do not zoom.",
        )


class BoardPhotosAlikeError(LensError):
    """The photos of the board cannot tell the focal length."""

    code = "lens-photos"

    def __init__(self) -> None:
        super().__init__(
            "The photos of the board are too alike to tell the focal length.",
            "Tilt the phone by 20 to 40 degrees to each side for some of them.",
        )


class NoMarkerError(MarkerError):
    """No printed marker was found, or none that is one of the project's."""

    code = "no-marker"

    def __init__(self, name: str) -> None:
        super().__init__(
            f"No calibration marker can be seen in {name}, so nothing gives its scale.",
            "Lay the printed sheet or marker flat beside the fish, wholly in view "
            "and dry, and take the photo again.",
        )


class SeveralSheetsError(MarkerError):
    """The same marker is in the photo twice."""

    code = "several-sheets"

    def __init__(self, name: str, marker_ids: tuple[int, ...]) -> None:
        listed = ", ".join(str(marker_id) for marker_id in marker_ids)
        super().__init__(
            f"{name} shows marker {listed} more than once.",
            "Leave one sheet, or one of each card, in view.",
        )


class MarkersDisagreeError(MarkerError):
    """The markers do not lie in one plane at their printed sizes."""

    code = "markers-disagree"

    def __init__(self, name: str, rms_mm: float) -> None:
        super().__init__(
            f"The markers in {name} do not fit one flat plane "
            f"(off by {rms_mm:.1f} mm).",
            "Use markers of one print at one scale, and lay all of them flat on the "
            "surface that the fish lie on.",
        )


class TooTiltedError(MarkerError):
    """The camera looks at the plane too much from the side."""

    code = "tilted"

    def __init__(self, name: str, tilt_deg: float, limit_deg: float) -> None:
        super().__init__(
            f"{name} was taken at {tilt_deg:.0f} degrees from straight down; "
            f"over {limit_deg:.0f} no length can be trusted.",
            "Hold the phone flat, straight above the fish.",
        )


class BlurredError(MarkerError):
    """The photo is too blurred for its markers to be measured."""

    code = "blurred"

    def __init__(self, name: str, blur_mm: float) -> None:
        super().__init__(
            f"{name} is blurred: an edge is smeared over about {4 * blur_mm:.0f} mm.",
            "Hold the phone still, tap on the fish to focus, use more light, wipe the "
            "lens.",
        )


class TooFarError(MarkerError):
    """The markers are too small in the photo."""

    code = "too-far"

    def __init__(self, name: str, side_px: float, limit_px: float) -> None:
        super().__init__(
            f"The marker in {name} is only {side_px:.0f} pixels wide; "
            f"{limit_px:.0f} are needed.",
            "Go nearer, or send the photo at its full size.",
        )


class KnownDistanceError(MarkerError):
    """The two points of a known distance cannot be used."""

    code = "known-distance"

    def __init__(self, name: str, distance_px: float, limit_px: float) -> None:
        super().__init__(
            f"The two points in {name} cannot give a scale: they are "
            f"{distance_px:.0f} pixels apart; {limit_px:.0f} are needed, both in the "
            "photo, and a length above 0 mm.",
            "Give two points in the photo, far apart, and the millimetres between "
            "them.",
        )


# --- samples ----------------------------------------------------------------


class SampleFileError(SampleError):
    """The sample file cannot be read or breaks its layout.

    ``place`` says where, such as "net 3, gross_g".
    """

    code = "sample-file"

    def __init__(self, place: str, reason: str, advice: str = "") -> None:
        where = f" ({place})" if place else ""
        super().__init__(
            f"The sample file cannot be used{where}: {reason}.",
            advice or "Correct that line; the README shows a whole file.",
        )


class NetValueError(SampleError):
    """A figure of a net cannot be."""

    code = "net-value"

    def __init__(self, net: str, key: str, value: str, wanted: str) -> None:
        super().__init__(
            f"{net}: {key} is {value}, but it must be {wanted}.",
            "Correct the figure, or leave the net out.",
        )


class EmptySampleError(SampleError):
    """No net has a weight or a measured fish."""

    code = "empty-sample"

    def __init__(self) -> None:
        super().__init__(
            "No net has a weight or a fish whose length can be used.",
            "Weigh at least one counted net, or photograph its fish.",
        )


# --- the book ---------------------------------------------------------------


class BadEntryError(LedgerError):
    """A unit, cohort or entry has an unusable or missing field."""

    code = "bad-entry"

    def __init__(self, *, field: str, reason: str) -> None:
        super().__init__(
            f"The book cannot take this: {field} {reason}.",
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
            "Check the path or address, and that it may be read and written.",
        )


class BookBusyError(LedgerError):
    """Another program held the book for too long."""

    code = "book-busy"

    def __init__(self, waited_s: float) -> None:
        super().__init__(
            f"Another program kept the book locked for {waited_s:g} seconds.",
            "Nothing was written. Try again.",
        )


class BookWriteError(LedgerError):
    """The disk or the server refused the write."""

    code = "book-write"

    def __init__(self, reason: str) -> None:
        super().__init__(
            f"The book could not be written: {reason}.",
            "Nothing of this entry was saved. Free space or mend the disk, then "
            "send it again.",
        )


class ImportFileError(LedgerError):
    """A file to be imported is not what the book exports."""

    code = "import-file"

    def __init__(self, where: str, reason: str) -> None:
        super().__init__(
            f"{where} cannot be imported: {reason}.", "Nothing was imported."
        )


class LengthWeightDataError(SampleError):
    """Single lengths and weights cannot be fitted."""

    code = "length-weight-data"

    def __init__(self, reason: str) -> None:
        super().__init__(
            f"No length-weight line can be fitted: {reason}.",
            "Weigh and measure 20 to 30 fish one by one, small and large ones.",
        )


class PlanError(SampleError):
    """No sampling plan gives what was asked."""

    code = "plan"

    @classmethod
    def out_of_range(cls, half_width: float, fish_per_net: int) -> "PlanError":
        """Return the error for figures that cannot be."""
        return cls(
            f"A plan for +-{100 * half_width:g} % with {fish_per_net} fish a net "
            "makes no sense.",
            "Give a width above 0 and below 100 %, and at least one fish a net.",
        )

    @classmethod
    def out_of_reach(cls, half_width: float, nets: int, reached: float) -> "PlanError":
        """Return the error for a width that no number of nets gives."""
        return cls(
            f"+-{100 * half_width:g} % cannot be had: {nets} nets would still leave "
            f"+-{100 * reached:.1f} %.",
            "Ask for a wider interval, or take the drip water and the scale's error "
            "down first.",
        )


class SampleJsonError(SampleError):
    """A file that should hold a sample's JSON does not."""

    code = "sample-json"

    def __init__(self, name: str) -> None:
        super().__init__(
            f"{name} does not hold the JSON of a sample.",
            "Make it with: fishmeasure sample SAMPLE.toml --json FILE.",
        )


class ReportWriteError(FishMeasureError):
    """A report cannot be written where it was wanted."""

    code = "report-write"

    def __init__(self, where: str, reason: str) -> None:
        super().__init__(
            f"{where} cannot be written: {reason.lower()}.",
            "Choose a folder that you may write to.",
        )
