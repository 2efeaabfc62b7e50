"""The root of all errors."""

from typing import Any, Self


class FishMeasureError(Exception):
    """No honest figure can be given.

    Parameters
    ----------
    message
        What is wrong, with the figures.
    advice
        What the grower does now.
    """

    code: str = "failed"

    def __init__(self, message: str, advice: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.advice = advice

    def __str__(self) -> str:
        return f"{self.message} {self.advice}".strip()

    def __reduce__(self) -> tuple[Any, ...]:
        # Classes compose their sentence from other arguments than Exception keeps;
        # an error must reach the server from its workers nevertheless.
        return self._as_it_was, (self.args,), vars(self)

    @classmethod
    def _as_it_was(cls, args: tuple[Any, ...]) -> Self:
        return cls.__new__(cls, *args)


def sentence(text: str) -> str:
    """Return a text with the full stop that it lacks; a question keeps its mark."""
    return text if text.endswith(("?", "!", ".")) else f"{text}."


class BadFieldError(FishMeasureError):
    """A record has an unusable, unknown or missing field."""

    code = "bad-field"

    def __init__(self, *, field: str, reason: str) -> None:
        super().__init__(sentence(f"{field} {reason}"), "Correct it.")
        self.field = field
        self.reason = reason
