"""What is asked about an entry before it is stored, as records."""

from dataclasses import dataclass
from typing import Annotated
from uuid import UUID

from pydantic import Field

from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.entries import Entry


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """Why an entry is asked about, and what may have been meant.

    Attributes
    ----------
    entry
        As it was entered.
    doubts
        What is far out, with what the book expects and its interval; the worst first.
    slip
        The likeliest slip, None where no known one explains it.
    slip_chance
        Of that slip, 0 to 1, among all that may be so.
    corrected
        The entry if the slip is so; None where only a person can tell the right figure.
    """

    entry: Entry
    doubts: tuple[Problem, ...]
    slip: Message | None = None
    slip_chance: float = 0.0
    corrected: Entry | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """What a slip makes of a figure: the right one is so many times what is entered."""

    slip: str
    times: Annotated[float, Field(description="So many times the entered is right.")]
    field: Annotated[str, Field(description="Field of the entry that is wrong.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """Within what a figure of a kind of entry is not asked about on a day.

    For who enters without reach of the server. ``over`` is the field by which
    ``figure`` is divided, empty where it stands alone. Ends and remedies are for the
    figure in the unit of its field (kg by the fish where ``over`` is a count).
    """

    kind: str
    cohort_id: Annotated[
        UUID | None, Field(description="Cohort; null of the unit's water and feed.")
    ]
    figure: Annotated[str, Field(description="Field of the entry.")]
    over: Annotated[str, Field(description="Field that it is divided by, or empty.")]
    low: Annotated[
        float | None, Field(description="Less is asked, in the unit of the field.")
    ]
    high: Annotated[
        float | None, Field(description="More is asked, in the unit of the field.")
    ]
    expected: Annotated[
        float, Field(description="Likeliest, in the unit of the field.")
    ]
    remedies: tuple[Remedy, ...]
