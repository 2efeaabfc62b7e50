"""``fishmeasure explain``: what a code means."""

from difflib import get_close_matches
from typing import Annotated

import typer

from fishmeasure.base.errors import UnknownCodeError
from fishmeasure.base.words import wording
from fishmeasure.cli.options import JsonTo


def explain_command(
    code: Annotated[
        str | None,
        typer.Argument(metavar="[CODE]", help="help-code"),
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
        lines += [wording("cli-it-says", told=x) for one in told for x in one.says]
        lines += [wording("cli-what-to-do", told=x) for one in told for x in one.advice]
    write_lines(lines)
