"""Asking at the terminal about an entry that the book finds unlikely."""

import sys
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.words import wording

if TYPE_CHECKING:
    from datetime import date
    from uuid import UUID

    from fishmeasure.book.asking import Facts, Question
    from fishmeasure.book.entries import Entry
    from fishmeasure.store.book import Book

ConfirmOption = Annotated[
    bool,
    typer.Option("--confirm", help="help-confirm"),
]


def entered(
    book: "Book",
    entry: "Entry",
    *,
    today: "date",
    confirm: bool,
    facts: "Facts | None" = None,
) -> "UUID":
    """Write an entry and return its id; what is doubtful is asked at a terminal.

    Raises
    ------
    DoubtfulEntryError
        If nobody can be asked, or it is left: nothing is written then.
    """
    from fishmeasure.store.entering import enter, questions_about

    known = {} if facts is None else {entry.id: facts}
    if not confirm and sys.stdin.isatty():
        asked = questions_about(book, [entry], today=today, facts=known)
        if asked.questions:
            answer = _ask(asked.questions[0])
            if answer is None:
                raise asked.error()
            confirm, entry = True, answer
    enter(book, [entry], today=today, confirm=confirm, facts=known)
    return entry.id


def _ask(question: "Question") -> "Entry | None":
    """Return the entry to be stored, None for none."""
    said = [problem.message for problem in question.doubts]
    if question.slip is not None:
        said.append(str(question.slip))
    sys.stderr.write("\n".join(said) + "\n")
    right = question.corrected
    case = "plain" if right is None else "corrected"
    while True:
        sys.stderr.write(wording("cli-ask-right", case=case) + " ")
        sys.stderr.flush()
        answer = sys.stdin.readline().strip().lower()
        if answer in _YES:
            return question.entry
        if answer in _CORRECT and right is not None:
            return replace(right, confirmed=False)
        if answer in _NO:
            return None


# The letters that the question names, in every language, and what people type for them.
_YES = ("y", "yes")
_CORRECT = ("c", "correct")
_NO = ("", "n", "no")
