"""What the grower said once: settings that commands take where they are told none.

They lie beside the book, in ``settings.toml``. What a command is told wins.
"""

import tomllib
from pathlib import Path
from typing import Annotated, Any, Final, Literal

from pydantic import Field, StringConstraints

from fishmeasure.base.errors import (
    BadFieldError,
    BadOptionError,
    NoNumberError,
    UnclearNumberError,
)
from fishmeasure.base.files import write_durably
from fishmeasure.base.record import between, field_names, plain, read, record
from fishmeasure.base.record_help import is_text
from fishmeasure.base.toml_text import pair
from fishmeasure.base.typed import typed_number
from fishmeasure.base.words import Message, system_reason, voice, wording
from fishmeasure.cli.book_options import SETTINGS_FILE, places
from fishmeasure.cli.options import read_text
from fishmeasure.photo.settings import PRINT_SCALES

COMMONEST: Final = "rainbow-trout"
"""What is measured where nobody said what, as by the server."""
_YES_AND_NO: Final = {"true": True, "yes": True, "false": False, "no": False}


@record(frozen=True, slots=True, kw_only=True)
class Kept:
    """Settings of the grower's own; None where nothing was said."""

    species: Annotated[
        Annotated[str, StringConstraints(min_length=1, max_length=1000)] | None,
        Field(description="Fish that is measured: a species' key, or its file."),
    ] = None
    print_scale: Annotated[
        Annotated[float, between(*PRINT_SCALES)] | None,
        Field(description="Printed length of the sheet's check line in mm / 100."),
    ] = None
    scale_resolution_g: Annotated[
        Annotated[float, Field(gt=0.0, le=1e5)] | None,
        Field(description="Step of the scale's display, g."),
    ] = None
    wet_tare: Annotated[
        bool | None,
        Field(description="Whether the empty net is weighed wet and drained."),
    ] = None
    units: Annotated[
        Literal["metric", "us"] | None,
        Field(description="Units of what is said and typed: metric, or US customary."),
    ] = None
    weight_unit: Annotated[
        Literal["g", "kg", "lb", "oz"] | None,
        Field(description="Unit of a weight that is typed without one."),
    ] = None

    @property
    def typed_in(self) -> str:
        """The unit of a weight that is typed without one; else that of the voice."""
        return self.weight_unit or ("lb" if voice().units == "us" else "g")


def kept() -> Kept:
    """Return the grower's settings; none are kept before the first.

    Raises
    ------
    BadOptionError
        If the file cannot be read or says what cannot be.
    """
    path = _path()
    if not path.exists():
        return Kept()
    try:
        return read(Kept, tomllib.loads(read_text(path)))
    except (tomllib.TOMLDecodeError, BadFieldError) as error:
        told = error.said if isinstance(error, BadFieldError) else str(error)
        wanted = Message.of("cli-wanted", case="settings", reason=told)
        where = Message.of("cli-the-file")
        raise BadOptionError(where, str(path), wanted) from None


def usual_species(given: str | None) -> str:
    """Return the species that is meant: as said, as kept, else the commonest."""
    return given or kept().species or COMMONEST


def keep(settings: Kept) -> Path:
    """Write the settings to their file and return where it lies.

    Raises
    ------
    BadOptionError
        If it cannot be written.
    """
    path = _path()
    said = plain(settings, sparse=True).items()
    heading = "# " + wording("cli-settings-heading")
    text = "\n".join([heading, *(pair(*item) for item in said), ""])
    try:
        write_durably(path, text.encode())
    except OSError as error:
        reason = system_reason(error)
        wanted = Message.of("cli-wanted", case="writable", reason=reason)
        where = Message.of("cli-the-file")
        raise BadOptionError(where, str(path), wanted) from None
    return path


def changed(settings: Kept, words: list[str]) -> Kept:
    """Return the settings with ``name=value`` taken in; ``name=`` takes one back.

    Raises
    ------
    BadOptionError, BadFieldError
        If a word has another form, or a value cannot be.
    """
    values: dict[str, Any] = dict(plain(settings, sparse=True))
    for word in words:
        name, equals, value = word.partition("=")
        if not equals or name.strip() not in field_names(Kept):
            known = ", ".join(f"{known}=" for known in field_names(Kept))
            wanted = Message.of("wanted", case="choice", choices=known)
            raise BadOptionError(Message.of("cli-the-setting"), word, wanted)
        values.pop(name.strip(), None)
        if value.strip():
            values[name.strip()] = _value(name.strip(), value.strip())
    return read(Kept, values)


def _value(name: str, text: str) -> object:
    """Return what was typed as the setting has it; what cannot be is refused later."""
    if is_text(Kept, name) or name in {"weight_unit", "units"}:
        return text
    if text.lower() in _YES_AND_NO:
        return _YES_AND_NO[text.lower()]
    try:
        return typed_number(text)
    except (NoNumberError, UnclearNumberError):
        return text


def _path() -> Path:
    folder, _ = places()
    return folder / SETTINGS_FILE
