"""Pairing: a one-time code makes a device's token."""

import hashlib
import secrets
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from uuid import uuid4

from api.errors import TooManyTriesError, WrongCodeError
from fishmeasure.store.archive import Archive, Device

CODE_DIGITS = 8
MAX_FAILURES = 5
"""Wrong codes after which a new code is made: the chance to guess one of 10^8 stays
under 1 in 10^7 a code."""
PAUSE_S = 30.0
"""After that many wrong codes nobody is paired for so long."""


def token_hash(token: str) -> str:
    """Return what is kept of a token."""
    return hashlib.sha256(token.encode()).hexdigest()


@dataclass(slots=True)
class Pairing:
    """The code that the next device needs; safe to use from many threads.

    ``announce`` is called with each new code, to show it to the person at the
    server. Codes expire after ``minutes``.
    """

    minutes: float
    announce: Callable[[str], None]
    clock: Callable[[], float] = time.monotonic
    _lock: threading.Lock = field(default_factory=threading.Lock)
    _code: str = ""
    _made_at: float = 0.0
    _failures: int = 0
    _closed_until: float = -1.0

    def renew(self) -> str:
        """Make, announce and return a new code; the old one is void."""
        self._code = "".join(secrets.choice("0123456789") for _ in range(CODE_DIGITS))
        self._made_at = self.clock()
        self._failures = 0
        self.announce(self._code)
        return self._code

    def pair(self, code: str, name: str, archive: Archive) -> tuple[Device, str]:
        """Return a new device and its token; the code is used up.

        Raises
        ------
        WrongCodeError
            If the code is not the one shown, or too old.
        TooManyTriesError
            If wrong codes were sent too often.
        """
        with self._lock:
            now = self.clock()
            if now < self._closed_until:
                raise TooManyTriesError(self._closed_until - now)
            digits = "".join(letter for letter in code if letter.isdecimal())
            # Before the first code is made an empty one would be right.
            if not self._code or now - self._made_at > 60.0 * self.minutes:
                self.renew()
                raise WrongCodeError
            if not secrets.compare_digest(digits.encode(), self._code.encode()):
                self._failures += 1
                if self._failures >= MAX_FAILURES:
                    self._closed_until = now + PAUSE_S
                    self.renew()
                raise WrongCodeError
            token = secrets.token_urlsafe(32)
            device = Device(id=uuid4(), name=name, paired_at=datetime.now(UTC))
            archive.add_device(device, token_hash(token))
            self.renew()
            return device, token
