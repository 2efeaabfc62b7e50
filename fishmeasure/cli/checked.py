"""A command that takes no number that is none."""

import math
from typing import Any

from typer.core import TyperCommand

from fishmeasure.errors import BadOptionError


class CheckedCommand(TyperCommand):
    """Refuses "nan" and "inf", which the parser takes for numbers.

    Here, once for all commands, because a comparison with "nan" is false and so
    passes most range checks unseen.
    """

    def make_context(
        self, info_name: str | None, args: list[str], parent: Any = None, **extra: Any
    ) -> Any:
        """Read the arguments, and say which option is no number."""
        context = super().make_context(info_name, args, parent, **extra)
        for parameter in self.params:
            value = context.params.get(parameter.name or "")
            if isinstance(value, float) and not math.isfinite(value):
                raise BadOptionError(parameter.opts[0], f"{value:g}", "a number")
        return context
