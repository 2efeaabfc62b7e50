"""One figure of a species: value, error, source and how well it is known."""

from typing import Annotated, Any, Literal, NoReturn

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from fishmeasure.base.record import Text, record, wrong
from fishmeasure.base.words import Message, wording

LengthKind = Literal["fork", "total", "standard"]
Confidence = Literal["high", "medium", "low"]
Standing = Literal["good", "watch", "act"]
RespirationForm = Literal["exponential", "dome"]
FeedRule = Literal["chart", "growth"]

StockKind = Literal["farmed", "wild"]
"""Whose condition a level describes; wild fish are leaner than fed ones."""

Status = Literal["seen", "computed", "stand-in", "memory", "practice"]
"""How a figure is known, best first."""

Positive = Annotated[float, Field(gt=0.0)]
NotNegative = Annotated[float, Field(ge=0.0)]
RelativeSd = Annotated[float, Field(ge=0.0, lt=1.0)]


def _one_line(text: str) -> str:
    if not text.strip():
        raise wrong(Message.of("wanted", case="text"))
    return " ".join(text.split())


Source = Annotated[Text, AfterValidator(_one_line)]


def refuse(reason: Message) -> NoReturn:
    """Refuse a record for what no single figure shows."""
    raise PydanticCustomError("slip", "{reason}", {"reason": reason})


class Sourced:
    """What has a source and a status, and how the screen says so."""

    __slots__ = ()
    source: str
    status: Status

    @property
    def origin(self) -> str:
        """How well it is known and from where."""
        return wording("origin", case=self.status, source=self.source)

    def note(self, what: Message | str | float) -> Message:
        """Return a note for the screen on where it comes from.

        Parameters
        ----------
        what
            What it is, with its value.
        """
        status, source = self.status, self.source
        return Message.of("sourced", case=status, what=what, source=source)


@record(frozen=True, slots=True, kw_only=True)
class Figure(Sourced):
    """One published or customary number; its unit is in the field's name.

    ``relative_sd`` is its error or spread, 0 for a limit that somebody set.
    """

    value: float
    relative_sd: RelativeSd
    source: Source
    status: Status

    @property
    def sd(self) -> float:
        """Its error in its own unit."""
        return abs(self.value) * self.relative_sd


def within(low: float, high: float) -> AfterValidator:
    """Return the rule of a figure whose value is from low to high."""

    def check(figure: Figure) -> Figure:
        if not low <= figure.value <= high:
            refuse(Message.of("figure-outside", value=figure.value, low=low, high=high))
        return figure

    return AfterValidator(check)


def described(text: str) -> Any:
    """Return the description of a field."""
    return Field(description=text)
