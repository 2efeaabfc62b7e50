"""``measure``: one photo to its fish."""

import os
from base64 import b64encode
from pathlib import Path
from typing import Any, Final

from fishmeasure.base.errors import (
    FishMeasureError,
    NoFileError,
    NotAnImageError,
)
from fishmeasure.base.files import read_at_most
from fishmeasure.base.flags import Problem
from fishmeasure.base.record import read
from fishmeasure.face.shown import count, html_table, text_table, with_problems
from fishmeasure.photo.image import read_photo
from fishmeasure.photo.lens import read_lens
from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement
from fishmeasure.photo.overlay import overlay_jpeg
from fishmeasure.photo.settings import MeasuringSettings
from fishmeasure.pipeline import PhotoSettings, measure_photo
from fishmeasure.species import load_species

_HEADER: Final = ("fish", "fork mm", "± mm", "weight g", "± g", "doubts")


class Measurement:
    """What one photo gave: its fish, and what is wrong with it.

    ``print`` shows a table; in a notebook the photo with its fish drawn in stands
    below it. ``record`` is the full record, with the scale and its covariance.
    """

    def __init__(self, record: PhotoMeasurement, photo: bytes = b"") -> None:
        self.record = record
        self._photo = photo

    @property
    def photo(self) -> str:
        """Name of the photo."""
        return self.record.photo

    @property
    def fish(self) -> tuple[MeasuredFish, ...]:
        """Complete and doubtful fish alike, in reading order."""
        return self.record.fish

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong with the photo, worst first."""
        return self.record.problems

    def to_json(self) -> dict[str, Any]:
        """Return what ``fishmeasure photo --json`` writes of a photo."""
        return self.record.to_json()

    def overlay(self) -> bytes:
        """Return the photo with its fish drawn in, as JPEG.

        Raises
        ------
        FishMeasureError
            If it cannot be drawn, as where the photo could not be read.
        """
        if not self._photo:
            raise NotAnImageError(self.photo, "its pixels were not kept")
        return overlay_jpeg(read_photo(self._photo, self.photo), self.record)

    def __repr__(self) -> str:
        used = sum(fish.complete for fish in self.fish)
        problems = count(len(self.problems), "problem")
        return (
            f"<Measurement of {self.photo}: {len(self.fish)} fish, {used} used, "
            f"{problems}>"
        )

    def _rows(self) -> list[tuple[str, ...]]:
        return [
            (
                str(number),
                f"{fish.fork_length_mm:.1f}",
                f"{fish.fork_length_se_mm:.1f}",
                "not used" if fish.weight_g is None else f"{fish.weight_g:.0f}",
                "" if fish.weight_se_g is None else f"{fish.weight_se_g:.0f}",
                " ".join(flag for flag in fish.flags if flag != "published-weight"),
            )
            for number, fish in enumerate(self.fish, start=1)
        ]

    def __str__(self) -> str:
        table = text_table(_HEADER, self._rows()) if self.fish else repr(self)
        return with_problems(table, self.problems)

    def _repr_html_(self) -> str:
        table = html_table(self.photo, _HEADER, self._rows(), self.problems)
        try:
            picture = b64encode(self.overlay()).decode("ascii")
        except FishMeasureError:
            return table
        source = f"data:image/jpeg;base64,{picture}"
        return f'{table}<img alt="" style="max-width:100%" src="{source}">'


def measure(
    photo: str | os.PathLike[str] | bytes,
    *,
    species: str | os.PathLike[str] = "rainbow-trout",
    print_scale: float = 1.0,
    water: bool = False,
    water_depth_mm: float | None = None,
    paper: str | None = None,
    known: tuple[tuple[float, float, float, float], float] | None = None,
    lens: str | os.PathLike[str] | None = None,
) -> Measurement:
    """Measure the fish in a photo.

    Parameters
    ----------
    photo
        Path of a photo, or its bytes.
    species
        Name from ``fishmeasure species``, or the TOML file of a stock of one's own.
    print_scale
        Length of the sheet's printed check line in mm, over 100.
    water
        Whether the markers lie on the bottom of a tub and the fish swim over them.
    water_depth_mm
        From the water's surface to the markers, where it was measured.
    paper
        Of the printed sheet: "A4", "A3" or "Letter"; else the markers tell it.
    known
        Without a marker: ``((x1, y1, x2, y2), mm)``, two points in pixels from the
        photo's top left and how far apart they are.
    lens
        Profile that ``fishmeasure lens`` wrote.

    Returns
    -------
    Measurement
        A photo that cannot be used has no fish, and a problem that says why.

    Raises
    ------
    FishMeasureError
        If there is no such file, species or lens profile, or an argument cannot be
        used.

    Examples
    --------
    >>> photo = measure("sample_images/tank_a_net1.jpg")
    >>> photo
    <Measurement of tank_a_net1.jpg: 8 fish, 8 used, 1 problem>
    >>> fish = photo.fish[0]
    >>> bool(abs(fish.fork_length_mm - 227) < 5 * fish.fork_length_se_mm)
    True
    >>> measure(b"not a photo").problems[0].code
    'not-an-image'
    """
    given: dict[str, Any] = {
        "print_scale": print_scale,
        "paper": paper,
        "in_water": water,
        "water_depth_mm": water_depth_mm,
    }
    settings = _settings(species, given, known, lens)
    if isinstance(photo, bytes):
        return Measurement(measure_photo(photo, "photo", settings), photo)
    path = Path(photo)
    data = _bytes_of(path, settings.limits.max_bytes)
    return Measurement(measure_photo(data, path.name, settings), data)


def _settings(
    species: str | os.PathLike[str],
    given: dict[str, Any],
    known: tuple[tuple[float, float, float, float], float] | None,
    lens: str | os.PathLike[str] | None,
) -> PhotoSettings:
    profile = None
    if lens is not None:
        profile = read_lens(read_text(Path(lens)), Path(lens).name)
    if known is not None:
        (x1, y1, x2, y2), distance_mm = known
        points = [[x1, y1], [x2, y2]]
        given["known"] = {"points_px": points, "distance_mm": distance_mm}
    chosen = read(MeasuringSettings, given)
    return PhotoSettings.of(chosen, load_species(os.fspath(species)), profile)


def _bytes_of(path: Path, most_bytes: int) -> bytes:
    try:
        return read_at_most(path, most_bytes)
    except OSError as error:
        if not path.exists():
            raise NoFileError(str(path)) from None
        reason = (error.strerror or "no access").lower()
        raise NotAnImageError(str(path), reason) from None


def read_text(path: Path) -> str:
    """Return a text file's content.

    Raises
    ------
    NoFileError
        If it cannot be read.
    """
    try:
        return read_at_most(path).decode("utf-8-sig")
    except (OSError, UnicodeDecodeError):
        raise NoFileError(str(path)) from None
