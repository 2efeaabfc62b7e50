"""Lens profiles that the server keeps, one file each."""

import logging
import re
from pathlib import Path

from api.errors import NotFoundError
from api.services import Services
from fishmeasure.base.errors import LensFileError
from fishmeasure.base.files import write_durably
from fishmeasure.photo.lens import LensProfile, lens_to_text, read_lens

log = logging.getLogger(__name__)

NAME_LENGTH = 60
NAME = re.compile(rf"[A-Za-z0-9][A-Za-z0-9_-]{{0,{NAME_LENGTH - 1}}}")
"""Of a profile: part of a file's name, so nothing that could lead elsewhere."""


def _path(services: Services, name: str) -> Path:
    if not NAME.fullmatch(name):
        raise NotFoundError("lens", name)
    return services.files.folder.parent / "lenses" / f"{name}.json"


def find_lens(services: Services, name: str) -> LensProfile:
    """Return a profile.

    Raises
    ------
    NotFoundError
        If there is none of that name.
    LensFileError
        If its file is damaged.
    """
    try:
        data = _path(services, name).read_bytes()
    except FileNotFoundError:
        raise NotFoundError("lens", name) from None
    return read_lens(data.decode(errors="replace"), name)


def list_lenses(services: Services) -> tuple[LensProfile, ...]:
    """Return all profiles, by name; damaged ones are left out and logged."""
    folder = services.files.folder.parent / "lenses"
    found = []
    for path in sorted(folder.glob("*.json")):
        try:
            found.append(find_lens(services, path.stem))
        except LensFileError as error:
            log.warning("%s", error)
    return tuple(found)


def keep_lens(services: Services, profile: LensProfile) -> None:
    """Keep a profile; one of the same name is replaced.

    Raises
    ------
    NotFoundError
        If the name is none.
    """
    path = _path(services, profile.name)
    write_durably(path, lens_to_text(profile).encode())
