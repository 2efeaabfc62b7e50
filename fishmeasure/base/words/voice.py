"""In which language, and to whom, sentences are said.

The command line and the API set it once, for all that is said until they set it anew;
what is said elsewhere, in a log or to Python, is neutral English.
"""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Literal

from fishmeasure.base.words.sources import ENGLISH, languages

Teller = Literal["cli", "page"]
Units = Literal["metric", "us"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Voice:
    """How sentences are said.

    Attributes
    ----------
    language
        A language of the catalogue.
    teller
        Whose terms the advice is in; neutral where None.
    units
        The system in which figures are given.
    """

    language: str = ENGLISH
    teller: Teller | None = None
    units: Units = "metric"


NEUTRAL = Voice()
_voice: ContextVar[Voice] = ContextVar("voice", default=NEUTRAL)


def voice() -> Voice:
    """Return how sentences are said here and now."""
    return _voice.get()


def set_voice(new: Voice) -> None:
    """Have sentences said so from here on."""
    _voice.set(new)


@contextmanager
def speaking(new: Voice) -> Iterator[None]:
    """Have sentences said so within."""
    token = _voice.set(new)
    try:
        yield
    finally:
        _voice.reset(token)


def accepted(header: str) -> str:
    """Return the language that an ``Accept-Language`` likes best (RFC 9110, 12.5.4).

    A range stands for its language: the catalogue has no regions. English where none
    is there.
    """
    liked: dict[str, float] = {}
    for item in header.split(","):
        name, _, rest = item.strip().partition(";")
        weight = _weight(rest)
        base = name.strip().lower().partition("-")[0]
        liked[base] = max(weight, liked.get(base, 0.0))
    known = [(weight, name) for name, weight in liked.items() if name in languages()]
    best = max((weight for weight, _ in known), default=0.0)
    first = (name for weight, name in known if weight == best > 0.0)
    return next(first, ENGLISH)


def of_locale(environ: Mapping[str, str]) -> str:
    """Return the language of the environment, as POSIX has it (XBD 8.2)."""
    for name in ("LC_ALL", "LC_MESSAGES", "LANG"):
        if environ.get(name):
            wanted = environ[name].lower().partition(".")[0].partition("_")[0]
            return wanted if wanted in languages() else ENGLISH
    return ENGLISH


def _weight(parameters: str) -> float:
    name, _, value = parameters.strip().partition("=")
    if name.strip().lower() != "q":
        return 1.0
    try:
        return min(max(float(value), 0.0), 1.0)
    except ValueError:
        return 0.0
