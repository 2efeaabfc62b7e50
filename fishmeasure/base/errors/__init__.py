"""The tree of errors.

FishMeasureError            no figure can be given; says why and what to do
├── BadFieldError           a record of no other family has an unusable field
├── PhotoError              the photo cannot be used
├── MarkerError             no scale can be had from the photo
├── LensError               a lens profile cannot be made or read
├── SpeciesError            a species is unknown or its file is wrong
├── SampleError             the weighings or the sample file cannot be used
├── StockError              a stocking calculation was asked outside its range
└── LedgerError             the book refuses an entry or cannot be read

One module for each family, all names here. Each failure is a class that writes its
own message. ``ValueError`` is for a bug of the caller, never for what a grower typed.
"""

from fishmeasure.base.errors.base import BadFieldError, FishMeasureError
from fishmeasure.base.errors.book import (
    AlreadyReplacedError,
    BackupDamagedError,
    BackupError,
    BadEntryError,
    BookBusyError,
    BookDamagedError,
    BookFullError,
    BookInUseError,
    BookNewerError,
    BookUnreadableError,
    BookWriteError,
    EntryConflictError,
    FutureDayError,
    ImportFileError,
    LedgerError,
    NameTakenError,
    NoBackupError,
    NoBookError,
    UnknownRecordError,
    VersionConflictError,
)
from fishmeasure.base.errors.command import (
    BadOptionError,
    ClusterLostError,
    CommandLineError,
    DataFileError,
    NoFileError,
    OptionFormatError,
    ReportWriteError,
    ResultFileError,
    UnknownCommandError,
    UnknownKindError,
)
from fishmeasure.base.errors.photo import (
    BadCorrectionError,
    NotAnImageError,
    NotDrawnError,
    PhotoError,
    PhotoTooLargeError,
    PhotoTooSmallError,
)
from fishmeasure.base.errors.sample import (
    EmptySampleError,
    LengthWeightDataError,
    NetValueError,
    OtherSpeciesError,
    PlanError,
    SampleElsewhereError,
    SampleError,
    SampleFileError,
    SampleJsonError,
    SampleNotEnteredError,
)
from fishmeasure.base.errors.scale import (
    BlurredError,
    BoardMisfitError,
    BoardPhotosAlikeError,
    KnownDistanceError,
    LensError,
    LensFileError,
    MarkerError,
    MarkersDisagreeError,
    MixedCamerasError,
    NoMarkerError,
    SeveralSheetsError,
    TooFarError,
    TooFewBoardPhotosError,
    TooTiltedError,
)
from fishmeasure.base.errors.species import (
    SpeciesError,
    SpeciesFileError,
    UnknownSpeciesError,
)
from fishmeasure.base.errors.stock import (
    GainNotKnownError,
    NoSamplesError,
    StockError,
    StockRangeError,
    UnknownStockSpeciesError,
    WeeklyHarvestError,
)

__all__ = [
    "AlreadyReplacedError",
    "BackupDamagedError",
    "BackupError",
    "BadCorrectionError",
    "BadEntryError",
    "BadFieldError",
    "BadOptionError",
    "BlurredError",
    "BoardMisfitError",
    "BoardPhotosAlikeError",
    "BookBusyError",
    "BookDamagedError",
    "BookFullError",
    "BookInUseError",
    "BookNewerError",
    "BookUnreadableError",
    "BookWriteError",
    "ClusterLostError",
    "CommandLineError",
    "DataFileError",
    "EmptySampleError",
    "EntryConflictError",
    "FishMeasureError",
    "FutureDayError",
    "GainNotKnownError",
    "ImportFileError",
    "KnownDistanceError",
    "LedgerError",
    "LengthWeightDataError",
    "LensError",
    "LensFileError",
    "MarkerError",
    "MarkersDisagreeError",
    "MixedCamerasError",
    "NameTakenError",
    "NetValueError",
    "NoBackupError",
    "NoBookError",
    "NoFileError",
    "NoMarkerError",
    "NoSamplesError",
    "NotAnImageError",
    "NotDrawnError",
    "OptionFormatError",
    "OtherSpeciesError",
    "PhotoError",
    "PhotoTooLargeError",
    "PhotoTooSmallError",
    "PlanError",
    "ReportWriteError",
    "ResultFileError",
    "SampleElsewhereError",
    "SampleError",
    "SampleFileError",
    "SampleJsonError",
    "SampleNotEnteredError",
    "SeveralSheetsError",
    "SpeciesError",
    "SpeciesFileError",
    "StockError",
    "StockRangeError",
    "TooFarError",
    "TooFewBoardPhotosError",
    "TooTiltedError",
    "UnknownCommandError",
    "UnknownKindError",
    "UnknownRecordError",
    "UnknownSpeciesError",
    "UnknownStockSpeciesError",
    "VersionConflictError",
    "WeeklyHarvestError",
]
