"""Pairing: a one-time code makes a device's token."""

import hashlib
import ipaddress
import secrets
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from uuid import uuid4

from api.errors import TooManyTriesError, WrongCodeError
from fishmeasure.store.devices import Device, Devices, Role

CODE_DIGITS = 8
MAX_FAILURES = 5
"""Wrong codes from one address after which it must wait."""
PAUSE_S = 30.0
"""That wait; it doubles with each further wrong code from there, up to the longest."""
LONGEST_PAUSE_S = 3600.0
"""In the 10 minutes of a code one address so has 9 guesses (5, then after 30, 60, 120
and 240 s): the 254 of a small network together hit one of 10^8 once in 40,000 times."""
MOST_ADDRESSES = 10_000
"""Remembered: 1 MB."""
MOST_INVITATIONS = 9
"""Good at the same time: with the server's own ten, so a guess hits one of 10^7."""
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Sender:
    """Who wants to be paired: its address, and how long its token is to last."""

    address: str
    lasts: timedelta


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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Code:
    """A code that is good once, and the role that it gives."""

    digits: str
    role: Role
    made_at: float


@dataclass(slots=True)
class Pairing:
    """The codes that new devices need; safe to use from many threads.

    One is the server's own, for the owner: ``announce`` is called with each new one, to
    show it to the person at the server. Others are invitations, which the owner makes
    for a role. Codes expire after ``minutes``, and are used up by one device. Wrong
    codes are held against the address they come from, and void no code: nobody can
    shut out the others.
    """

    minutes: float
    announce: Callable[[str], None]
    clock: Callable[[], float] = time.monotonic
    _lock: threading.Lock = field(default_factory=threading.Lock)
    _own: _Code | None = None
    _invitations: list[_Code] = field(default_factory=list)
    _tries: dict[str, _Tries] = field(default_factory=dict)

    def renew(self) -> str:
        """Make, announce and return a new code of the server's; the old one is void."""
        self._own = self._made("owner")
        self.announce(self._own.digits)
        return self._own.digits

    def invite(self, role: Role) -> str:
        """Return a new code for one device of a role; too many void the oldest."""
        with self._lock:
            made = self._made(role)
            kept = [code for code in self._invitations if self._is_good(code)]
            self._invitations = [*kept, made][-MOST_INVITATIONS:]
            return made.digits

    def pair(
        self, code: str, name: str, devices: Devices, sender: Sender
    ) -> tuple[Device, str]:
        """Return a new device and its token; the code is used up.

        Parameters
        ----------
        code, name
            As sent.
        devices
            Where the device is kept.
        sender
            Whence it was sent, by which guesses are counted; how long its token lasts.

        Raises
        ------
        WrongCodeError
            If the code is none of those that are good.
        TooManyTriesError
            If wrong codes came from this address too often.
        """
        with self._lock:
            now = self.clock()
            tries = self._tries_of(sender.address)
            if now < tries.closed_until:
                raise TooManyTriesError(tries.closed_until - now)
            digits = "".join(letter for letter in code if letter.isdecimal())
            found = self._found(digits)
            if found is None:
                # Before the first code is made an empty one would be right.
                if self._own is None or not self._is_good(self._own):
                    self.renew()
                else:
                    tries.count(now)
                raise WrongCodeError
            token = secrets.token_urlsafe(32)
            moment = datetime.now(UTC)
            device = Device(
                id=uuid4(),
                name=name,
                paired_at=moment,
                role=found.role,
                last_seen_at=moment,
                ends_at=moment + sender.lasts,
            )
            devices.add(device, token_hash(token))
            del self._tries[network_of(sender.address)]
            if found is self._own:
                self.renew()
            else:
                self._invitations.remove(found)
            return device, token

    def _made(self, role: Role) -> _Code:
        digits = "".join(secrets.choice("0123456789") for _ in range(CODE_DIGITS))
        return _Code(digits=digits, role=role, made_at=self.clock())

    def _is_good(self, code: _Code) -> bool:
        return self.clock() - code.made_at <= 60.0 * self.minutes

    def _found(self, digits: str) -> _Code | None:
        """Return the code that was sent; all are compared: time tells nothing."""
        own = [] if self._own is None else [self._own]
        good = [code for code in (*own, *self._invitations) if self._is_good(code)]
        same = [
            code
            for code in good
            if secrets.compare_digest(digits.encode(), code.digits.encode())
        ]
        return same[0] if same else None

    def _tries_of(self, address: str) -> _Tries:
        """Return the tries of an address, as the newest; the oldest are forgotten."""
        network = network_of(address)
        found = self._tries[network] = self._tries.pop(network, _Tries())
        if len(self._tries) > MOST_ADDRESSES:
            del self._tries[next(iter(self._tries))]
        return found
