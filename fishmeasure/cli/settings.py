"""``fishmeasure settings``: what is kept once and for all."""

import json
from typing import Annotated

import typer

from fishmeasure.base.words import wording


def settings_command(
    words: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[NAME=VALUE]...",
            help="help-settings-words",
        ),
    ] = None,
) -> None:
    """Show or change what other commands take where they are told nothing."""
    from fishmeasure.base.record import plain
    from fishmeasure.base.record_help import field_help
    from fishmeasure.cli.kept import Kept, changed, keep, kept

    settings = kept()
    if words:
        settings = changed(settings, words)
        typer.echo(wording("cli-settings-kept", file=keep(settings)), err=True)
    values = plain(settings)
    for name, taken in field_help(Kept).items():
        shown = "" if values[name] is None else json.dumps(values[name]).strip('"')
        meaning = wording("cli-setting", case=name)
        typer.echo(f"{name}={shown}\n    {meaning} ({taken})")
