"""What can be doubtful about a fish or a photo; the one table of both.

A doubtful fish stays in the result, marked. A flag that is ``disqualifying``
makes the fish ``complete = False``: its length must not be used.
"""

from typing import Annotated

from pydantic import Field

from fishmeasure.base.problem import Problem
from fishmeasure.base.record import record
from fishmeasure.base.wire import Written
from fishmeasure.base.words import Message

__all__ = ["FLAGS", "Flag", "Problem", "Written", "is_complete"]


@record(frozen=True, slots=True, kw_only=True)
class Flag:
    """A doubt about a fish, in one word for programs and one sentence for people."""

    word: Annotated[str, Field(description="As in `flags`.", examples=["touching"])]
    sentence: Annotated[Message, Field(description="For people.")]
    disqualifying: Annotated[
        bool, Field(description="Whether the fish is not used.")
    ] = False
    of_weight: Annotated[
        bool,
        Field(description="Whether it is of the species' line, and goes with it."),
    ] = False


_ALL = (
    Flag(
        word="edge-cut",
        sentence=Message.of("flag", case="edge-cut"),
        disqualifying=True,
    ),
    Flag(
        word="hidden",
        sentence=Message.of("flag", case="hidden"),
        disqualifying=True,
    ),
    Flag(
        word="touching",
        sentence=Message.of("flag", case="touching"),
        disqualifying=True,
    ),
    Flag(
        word="not-fish-shaped",
        sentence=Message.of("flag", case="not-fish-shaped"),
        disqualifying=True,
    ),
    Flag(
        word="ends-doubtful",
        sentence=Message.of("flag", case="ends-doubtful"),
        disqualifying=True,
    ),
    Flag(
        word="under-water",
        sentence=Message.of("flag", case="under-water"),
        disqualifying=True,
    ),
    Flag(word="on-others", sentence=Message.of("flag", case="on-others")),
    Flag(
        word="end-in-shadow",
        sentence=Message.of("flag", case="end-in-shadow"),
    ),
    Flag(
        word="coiled",
        sentence=Message.of("flag", case="coiled"),
        disqualifying=True,
    ),
    Flag(word="bent", sentence=Message.of("flag", case="bent")),
    Flag(
        word="tail-doubtful",
        sentence=Message.of("flag", case="tail-doubtful"),
    ),
    Flag(
        word="far-from-markers",
        sentence=Message.of("flag", case="far-from-markers"),
    ),
    Flag(
        word="published-weight",
        sentence=Message.of("flag", case="published-weight"),
        of_weight=True,
    ),
    Flag(
        word="outline-doubtful",
        sentence=Message.of("flag", case="outline-doubtful"),
        of_weight=True,
    ),
    Flag(
        word="outside-species-range",
        sentence=Message.of("flag", case="outside-species-range"),
        of_weight=True,
    ),
    Flag(
        word="other-species",
        sentence=Message.of("flag", case="other-species"),
        of_weight=True,
    ),
    Flag(word="edited", sentence=Message.of("flag", case="edited")),
    Flag(
        word="dropped",
        sentence=Message.of("flag", case="dropped"),
        disqualifying=True,
    ),
)

FLAGS: dict[str, Flag] = {flag.word: flag for flag in _ALL}


def is_complete(words: tuple[str, ...]) -> bool:
    """Return whether none of the flags forbids use of the length.

    Raises
    ------
    KeyError
        If a word is not in the table, which is a bug.
    """
    return not any(FLAGS[word].disqualifying for word in words)
