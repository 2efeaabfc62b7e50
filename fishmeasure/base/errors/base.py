"""The root of all errors."""

from typing import Any, Self

from fishmeasure.base.words import NEUTRAL, Message, Reason, advice, say, what


class FishMeasureError(Exception):
    """No honest figure can be given; why, and what to do, stands in the catalogue.

    Parameters
    ----------
    parameters
        The figures and names of the sentence of the class's code.
    """

    code: str = "failed"

    def __init__(self, **parameters: Any) -> None:
        super().__init__()
        self.said = Message.of(self.code, **parameters)

    @property
    def message(self) -> str:
        """What is wrong, with the figures, in the present voice."""
        return what(self.said)

    @property
    def advice(self) -> str:
        """What the grower does now, in the present voice."""
        return advice(self.said)

    def __str__(self) -> str:
        """Return both in neutral English, for logs and Python."""
        return say(self.said, NEUTRAL)

    def __reduce__(self) -> tuple[Any, ...]:
        # Classes take other arguments than Exception keeps; an error must reach the
        # server from its workers nevertheless.
        return self._as_it_was, (self.args,), vars(self)

    @classmethod
    def _as_it_was(cls, args: tuple[Any, ...]) -> Self:
        return cls.__new__(cls, *args)


class BadFieldError(FishMeasureError):
    """A record has an unusable, unknown or missing field."""

    code = "bad-field"

    def __init__(self, *, field: str, reason: Reason) -> None:
        super().__init__(field=field, reason=reason)
        self.field = field
        self.reason = reason
