"""A command that says in one line what it cannot take."""

import math
from typing import Any

import typer
from typer.core import TyperCommand

from fishmeasure.errors import BadOptionError, CommandLineError

# The parser's own usage error; where it lives differs between versions of typer.
_UsageError: Any = typer.BadParameter.__mro__[1]


class CheckedCommand(TyperCommand):
    """Refuses what the command cannot take, "nan" and "inf" among it.

    The parser takes those for numbers. Here, once for all commands, because a
    comparison with "nan" is false and so passes most range checks unseen.
    """

    def make_context(
        self, info_name: str | None, args: list[str], parent: Any = None, **extra: Any
    ) -> Any:
        """Read the arguments, and say which option is no number."""
        try:
            context = super().make_context(info_name, args, parent, **extra)
        except _UsageError as error:
            raise CommandLineError(info_name or "", error.format_message()) from None
        for parameter in self.params:
            value = context.params.get(parameter.name or "")
            if isinstance(value, float) and not math.isfinite(value):
                raise BadOptionError(parameter.opts[0], f"{value:g}", "a number")
        return context
