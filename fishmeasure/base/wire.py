"""How flags and problems look in JSON; ``problem.py`` has them for the program."""

from typing import Annotated

from pydantic import BeforeValidator, Field

from fishmeasure.base.record import record
from fishmeasure.base.words import Parameters


def _can_be_written(text: object) -> object:
    if not isinstance(text, str):
        return text
    return text.replace("\0", "").encode("utf-8", "replace").decode("utf-8")


Written = Annotated[str, BeforeValidator(_can_be_written)]
"""Text with the name of a file in it, whose bytes need not be any text."""

_RENAMED = {
    "book-weight": "published-weight",
    "far-from-book": "far-from-published",
}


def _as_today(word: object) -> object:
    return _RENAMED.get(word, word) if isinstance(word, str) else word


Word = Annotated[str, BeforeValidator(_as_today)]
"""A flag or code, as called today where it was stored under an older name."""


@record(frozen=True, slots=True, kw_only=True)
class ProblemWire:
    """Something wrong with a photo or a sample, said so that one can act."""

    code: Annotated[
        Word, Field(description="A word for programs.", examples=["no-marker"])
    ]
    message: Annotated[
        Written,
        Field(description="What is wrong and what to do, in the caller's language."),
    ]
    parameters: Annotated[
        Parameters | None,
        Field(
            description="Figures and names of the message, units in their names; null "
            "where only the sentence was kept."
        ),
    ] = None
    fatal: Annotated[
        bool, Field(description="Whether no figure was given because of it.")
    ] = False
