"""Photos that arrive in parts, so that a slow or broken line loses one part alone.

After the idea of the IETF's "Resumable Uploads for HTTP" (an offset that the server
tells). What has arrived is in files without a name, which end with the server: a photo
with its tags outlives no crash, and the phone then begins it anew.
"""

import contextlib
import tempfile
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO, Final
from uuid import UUID

from api.errors import BusyError, NotFoundError

MOST_UPLOADS: Final = 16
IDLE_S: Final = 3600.0
"""After which an upload may be given up; a phone out of reach begins it anew."""
CROWDED_IDLE_S: Final = 120.0
"""The same where others wait for its place."""

Key = tuple[UUID | None, UUID]
"""Device and upload: none goes on with another's."""


@dataclass(slots=True)
class Upload:
    """What has arrived of a photo."""

    length_bytes: int
    file: IO[bytes]
    offset_bytes: int = 0
    touched: float = field(default_factory=time.monotonic)

    @property
    def is_whole(self) -> bool:
        """Whether all of it is here."""
        return self.offset_bytes == self.length_bytes


class Uploads:
    """Uploads under way; safe to use from many threads."""

    def __init__(self, folder: Path, *, most: int = MOST_UPLOADS) -> None:
        self._folder = folder
        self._most = most
        self._found: dict[Key, Upload] = {}
        self._lock = threading.Lock()

    def find(self, key: Key) -> Upload | None:
        """Return an upload, or None where nothing of it is here."""
        with self._lock:
            return self._found.get(key)

    def add(self, key: Key, part: bytes, *, offset_bytes: int, of_bytes: int) -> Upload:
        """Take a part that goes on where the last one ended; another is left out.

        A first part of another length begins the upload anew.

        Raises
        ------
        BusyError
            If too many uploads are under way.
        """
        with self._lock:
            upload = self._found.get(key)
            if upload is None or upload.length_bytes != of_bytes:
                self._drop(key)
                self._make_room()
                file = tempfile.TemporaryFile(dir=self._folder)  # noqa: SIM115 - kept
                upload = self._found[key] = Upload(length_bytes=of_bytes, file=file)
            room = upload.length_bytes - upload.offset_bytes
            if offset_bytes == upload.offset_bytes and len(part) <= room:
                upload.file.seek(offset_bytes)
                upload.file.write(part)
                upload.file.flush()
                upload.offset_bytes += len(part)
            upload.touched = time.monotonic()
            return upload

    def read(self, key: Key, start: int, most: int) -> bytes:
        """Return some of what has arrived; it stays, as an answer may be lost.

        Raises
        ------
        NotFoundError
            If it was given up meanwhile.
        """
        with self._lock:
            upload = self._found.get(key)
            if upload is None:
                raise NotFoundError("upload", str(key[1]))
            upload.touched = time.monotonic()
            upload.file.seek(start)
            return upload.file.read(most)

    def close(self) -> None:
        """Forget all."""
        with self._lock:
            for key in list(self._found):
                self._drop(key)

    def _make_room(self) -> None:
        now = time.monotonic()
        crowded = len(self._found) >= self._most
        most_s = CROWDED_IDLE_S if crowded else IDLE_S
        for key, upload in list(self._found.items()):
            if now - upload.touched > most_s or (crowded and upload.is_whole):
                self._drop(key)
        if len(self._found) >= self._most:
            raise BusyError

    def _drop(self, key: Key) -> None:
        upload = self._found.pop(key, None)
        if upload is not None:
            with contextlib.suppress(OSError):
                upload.file.close()
