"""What an outlook is asked, and answers that may fail."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Annotated, ClassVar, Final, TypeVar

from fishmeasure.base.errors import BadEntryError, FishMeasureError
from fishmeasure.base.flags import Problem
from fishmeasure.base.record import Refusal, between, record

_T = TypeVar("_T")

AHEAD_DAYS: Final = 365  # how far growth is projected
# How far ahead a date is looked for: what misses an autumn is often ready in the next.
DATES_AHEAD_DAYS: Final = 730


@record(frozen=True, slots=True, kw_only=True)
class Options:
    """What the outlook is asked.

    ``stocking_days`` is how far ahead the room is asked for, ``hours`` how long an
    outage is to be survived.
    """

    refusal: ClassVar[Refusal] = BadEntryError
    harvest_days: tuple[Annotated[int, between(0, AHEAD_DAYS)], ...] = (0, 28, 56, 84)
    stocking_days: Annotated[int, between(1, AHEAD_DAYS)] = 90
    fingerling_weight_g: Annotated[float, between(0.1, 5000.0)] = 20.0
    hours: Annotated[float, between(0.1, 24.0)] = 4.0


@dataclass(slots=True)
class Attempts:
    """Answers that may fail, and why they did."""

    problems: list[Problem] = field(default_factory=list)

    def get(self, answer: Callable[[], _T]) -> _T | None:
        """Return the answer, or None and keep the reason."""
        try:
            return answer()
        except FishMeasureError as error:
            self.problems.append(Problem.of_error(error))
            return None
