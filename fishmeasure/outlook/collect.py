"""One collector of problems: whatever an outlook holds, once each, the worst first.

It walks the records themselves, so that a calculation that is added later cannot be
forgotten: a result that carries a ``Problem`` anywhere is heard.
"""

import dataclasses
from collections.abc import Iterable, Iterator
from typing import Any, Final

from fishmeasure.base.flags import Problem

# The worst first; fish that suffer today come before limits that are passed, these
# before what is unknown, and doubts about a figure last. A code that stands nowhere
# here ranks as something that is not known.
SEVERITY: Final[tuple[tuple[str, ...], ...]] = (
    ("act",),
    (
        "too-warm-to-feed",
        "too-cold-to-feed",
        "no-stocking-temperature",
        "ammonia-over-limit",
        "ammonia-over-criterion",
    ),
    ("watch",),
    ("withdrawal-period",),
    ("over-limit", "nitrate-over-limit"),
    ("near-limit", "nitrate-limit-ahead"),
    ("no-fish", "no-weight", "load-incomplete", "no-oxygen-supply"),
    (
        "sample-disagrees",
        "sample-off-track",
        "feed-off-track",
        "oxygen-use-differs",
        "ammonia-use-differs",
        "outside-range",
        "temperature-held",
        "no-growth-temperature",
    ),
    ("outside-source-range",),
)
_RANKS: Final = {code: rank for rank, codes in enumerate(SEVERITY) for code in codes}
_UNLISTED: Final = _RANKS["no-fish"]


def rank_of(problem: Problem, verdicts: dict[Problem, str]) -> int:
    """Return how far down a problem stands; 0 is the worst.

    ``verdicts`` are those of the water's own reasons, which decide before the code.
    """
    return _RANKS.get(verdicts.get(problem, problem.code), _UNLISTED)


def problems_in(record: Any) -> Iterator[Problem]:
    """Yield every problem that a record holds, at any depth."""
    if isinstance(record, Problem):
        yield record
    elif dataclasses.is_dataclass(record) and not isinstance(record, type):
        for field in dataclasses.fields(record):
            yield from problems_in(getattr(record, field.name))
    elif isinstance(record, dict):
        yield from problems_in(tuple(record.values()))
    elif isinstance(record, tuple | list):
        for item in record:
            yield from problems_in(item)


def collected(
    records: Iterable[Any], verdicts: dict[Problem, str]
) -> tuple[Problem, ...]:
    """Return the problems of all records, each sentence once, the worst first."""
    once = {found.message: found for found in problems_in(tuple(records))}
    return tuple(sorted(once.values(), key=lambda problem: rank_of(problem, verdicts)))
