"""Pairing: a one-time code makes a device's token."""

import hashlib
import ipaddress
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
"""Wrong codes from one address after which it must wait."""
PAUSE_S = 30.0
"""That wait; it doubles with each further wrong code from there, up to the longest."""
LONGEST_PAUSE_S = 3600.0
"""In the 10 minutes of a code one address so has 9 guesses (5, then after 30, 60, 120
and 240 s): the 254 of a small network together hit one of 10^8 once in 40,000 codes."""
MOST_ADDRESSES = 10_000
"""Remembered: 1 MB."""
_NETWORK_BITS = 64
"""Of an IPv6 address; the rest a device picks by itself (RFC 4291, 2.5.4)."""


def token_hash(token: str) -> str:
    """Return what is kept of a token."""
    return hashlib.sha256(token.encode()).hexdigest()


def network_of(address: str) -> str:
    """Return what cannot be changed at will of an address."""
    try:
        found = ipaddress.ip_address(address.partition("%")[0])
    except ValueError:
        return address[:60]
    if isinstance(found, ipaddress.IPv4Address):
        return str(found)
    if found.ipv4_mapped is not None:
        return str(found.ipv4_mapped)
    return str(ipaddress.ip_network((found, _NETWORK_BITS), strict=False))


@dataclass(slots=True)
class _Tries:
    """Wrong codes of one address, and until when it must wait."""

    wrong: int = 0
    closed_until: float = -1.0

    def count(self, now: float) -> None:
        self.wrong += 1
        if self.wrong >= MAX_FAILURES:
            pause = PAUSE_S * 2.0 ** min(self.wrong - MAX_FAILURES, 20)
            self.closed_until = now + min(pause, LONGEST_PAUSE_S)


@dataclass(slots=True)
class Pairing:
    """The code that the next device needs; safe to use from many threads.

    ``announce`` is called with each new code, to show it to the person at the
    server. Codes expire after ``minutes``. Wrong codes are held against the address
    they come from, and void no code: nobody can shut out the others.
    """

    minutes: float
    announce: Callable[[str], None]
    clock: Callable[[], float] = time.monotonic
    _lock: threading.Lock = field(default_factory=threading.Lock)
    _code: str = ""
    _made_at: float = 0.0
    _tries: dict[str, _Tries] = field(default_factory=dict)

    def renew(self) -> str:
        """Make, announce and return a new code; the old one is void."""
        self._code = "".join(secrets.choice("0123456789") for _ in range(CODE_DIGITS))
        self._made_at = self.clock()
        self.announce(self._code)
        return self._code

    def pair(
        self, code: str, name: str, archive: Archive, address: str
    ) -> tuple[Device, str]:
        """Return a new device and its token; the code is used up.

        Parameters
        ----------
        code, name
            As sent.
        archive
            Where the device is kept.
        address
            Whence it was sent; guesses are counted by it.

        Raises
        ------
        WrongCodeError
            If the code is not the one shown, or too old.
        TooManyTriesError
            If wrong codes came from this address too often.
        """
        with self._lock:
            now = self.clock()
            tries = self._tries_of(address)
            if now < tries.closed_until:
                raise TooManyTriesError(tries.closed_until - now)
            digits = "".join(letter for letter in code if letter.isdecimal())
            # Before the first code is made an empty one would be right.
            if not self._code or now - self._made_at > 60.0 * self.minutes:
                self.renew()
                raise WrongCodeError
            if not secrets.compare_digest(digits.encode(), self._code.encode()):
                tries.count(now)
                raise WrongCodeError
            token = secrets.token_urlsafe(32)
            device = Device(id=uuid4(), name=name, paired_at=datetime.now(UTC))
            archive.add_device(device, token_hash(token))
            del self._tries[network_of(address)]
            self.renew()
            return device, token

    def _tries_of(self, address: str) -> _Tries:
        """Return the tries of an address, as the newest; the oldest are forgotten."""
        network = network_of(address)
        found = self._tries[network] = self._tries.pop(network, _Tries())
        if len(self._tries) > MOST_ADDRESSES:
            del self._tries[next(iter(self._tries))]
        return found
