"""``fishmeasure explain``: what a code means."""

from difflib import get_close_matches
from typing import Annotated

import typer

from fishmeasure.base.errors import UnknownCodeError
from fishmeasure.cli.options import JsonTo


def explain_command(
    code: Annotated[
        str | None,
        typer.Argument(metavar="[CODE]", help="Such as no-marker; all, if left out."),
    ] = None,
    json_to: JsonTo = None,
) -> None:
    """Tell what a code of a problem or an error means, and what is said with it."""
    from fishmeasure.base.words.explain import codes, explained
    from fishmeasure.cli.output import data_only, write_lines

    known = codes()
    if code is not None and code not in known:
        raise UnknownCodeError(code, tuple(get_close_matches(code, known)))
    told = [explained(name) for name in (known if code is None else (code,))]
    if data_only(json_to, told):
        return
    lines = [f"{one.code}: {one.meaning}" for one in told]
    if code is not None:
        lines += [f"It says: {sentence}" for one in told for sentence in one.says]
        lines += [f"What to do: {step}" for one in told for step in one.advice]
    write_lines(lines)
