"""What can be doubtful about a fish or a photo; the one table of both.

A doubtful fish stays in the result, marked. A flag that is ``disqualifying``
makes the fish ``complete = False``: its length must not be used.
"""

from typing import Annotated

from pydantic import Field

from fishmeasure.base.problem import Problem
from fishmeasure.base.record import record
from fishmeasure.base.wire import Written

__all__ = ["FLAGS", "Flag", "Problem", "Written", "is_complete"]


@record(frozen=True, slots=True, kw_only=True)
class Flag:
    """A doubt about a fish, in one word for programs and one sentence for people."""

    word: Annotated[str, Field(description="As in `flags`.", examples=["touching"])]
    sentence: Annotated[str, Field(description="For people.")]
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
        sentence="The fish runs out of the photo.",
        disqualifying=True,
    ),
    Flag(
        word="hidden",
        sentence="Part of the fish is covered.",
        disqualifying=True,
    ),
    Flag(
        word="touching",
        sentence="The fish touches or overlaps something; its outline is uncertain.",
        disqualifying=True,
    ),
    Flag(
        word="not-fish-shaped",
        sentence="The outline is not that of a whole fish.",
        disqualifying=True,
    ),
    Flag(
        word="ends-doubtful",
        sentence="Snout or fork is uncertain; look, then keep the fish or move them.",
        disqualifying=True,
    ),
    Flag(
        word="under-water",
        sentence="The fish is seen through water, which bends what is seen.",
        disqualifying=True,
    ),
    Flag(
        word="end-in-shadow",
        sentence="Snout or fork lies in a shadow, so its place is less certain.",
    ),
    Flag(
        word="coiled",
        sentence="The fish is bent too strongly to be measured along its middle.",
        disqualifying=True,
    ),
    Flag(word="bent", sentence="The fish is bent; it was measured along its middle."),
    Flag(
        word="tail-doubtful",
        sentence="It is uncertain which end is the tail.",
    ),
    Flag(
        word="far-from-markers",
        sentence="The fish lies far from the markers, so its scale is less certain.",
    ),
    Flag(
        word="published-weight",
        sentence="The weight is from the published line alone: standard error 25 %.",
        of_weight=True,
    ),
    Flag(
        word="outline-doubtful",
        sentence="The body's outline is too bent, small, odd or close to another fish "
        "to weigh by; the weight is from the length.",
        of_weight=True,
    ),
    Flag(
        word="outside-species-range",
        sentence="The length is outside the range of the species' coefficients.",
        of_weight=True,
    ),
    Flag(
        word="other-species",
        sentence="The fish is deeper or slimmer than its species; is it another one?",
        of_weight=True,
    ),
    Flag(word="edited", sentence="A person moved an end point."),
    Flag(
        word="dropped",
        sentence="A person left this fish out.",
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
