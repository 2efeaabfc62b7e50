"""The root of all errors."""


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


def sentence(text: str) -> str:
    """Return a text with the full stop that it lacks; a question keeps its mark."""
    return text if text.endswith(("?", "!", ".")) else f"{text}."
