"""Ask before an entry is believed: is it likely as it stands, or is a slip likelier."""

from fishmeasure.book.asking.ask import ASKING_PROBLEMS, Facts, Ledger, ask
from fishmeasure.book.asking.bounds import bounds
from fishmeasure.book.asking.records import Bound, Question, Remedy

__all__ = [
    "ASKING_PROBLEMS",
    "Bound",
    "Facts",
    "Ledger",
    "Question",
    "Remedy",
    "ask",
    "bounds",
]
