"""Commands that say in one line what they cannot take."""

import math
from collections.abc import Callable
from difflib import get_close_matches
from pathlib import Path
from typing import Any, TypeVar

import typer
from typer.core import TyperCommand, TyperGroup

from fishmeasure.base.errors import BadOptionError, UnknownCommandError
from fishmeasure.base.words import Message
from fishmeasure.cli.helping import PREFIX, Context
from fishmeasure.cli.options import NO_DATA
from fishmeasure.cli.typed_option import take_numbers_as_typed
from fishmeasure.cli.usage import PROGRAM, usage_error

# The parser's own usage error; where it lives differs between versions of typer.
_UsageError: Any = typer.BadParameter.__mro__[1]
_NUMBER = Message.of("wanted", case="number")
_Function = TypeVar("_Function", bound=Callable[..., Any])


class CheckedCommand(TyperCommand):
    """Refuses what the command cannot take, "nan" and "inf" among it.

    The parser takes those for numbers. Here, once for all commands, because a
    comparison with "nan" is false and so passes most range checks unseen.
    """

    context_class = Context
    _numbers_as_typed = False

    def make_context(
        self, info_name: str | None, args: list[str], parent: Any = None, **extra: Any
    ) -> Any:
        """Read the arguments, and say which option is no number."""
        if not self._numbers_as_typed:
            take_numbers_as_typed(self.params)
            self._numbers_as_typed = True
        try:
            context = super().make_context(info_name, args, parent, **extra)
        except _UsageError as error:
            raise usage_error(error, _path(info_name, parent), self.params) from None
        for parameter in self.params:
            value = context.params.get(parameter.name or "")
            if isinstance(value, float) and not math.isfinite(value):
                raise BadOptionError(parameter.opts[0], f"{value:g}", _NUMBER)
        return context


class CheckedGroup(TyperGroup):
    """Says which command is not there, and which may have been meant."""

    context_class = Context

    def make_context(
        self, info_name: str | None, args: list[str], parent: Any = None, **extra: Any
    ) -> Any:
        """Read what comes before the command."""
        only_help = not args
        try:
            return super().make_context(info_name, args, parent, **extra)
        except _UsageError as error:
            if only_help:
                raise
            raise usage_error(error, _path(info_name, parent), self.params) from None

    def get_params(self, ctx: Any) -> Any:
        """Return the options, which cost nothing where they are not given."""
        found = super().get_params(ctx)
        for parameter in found:
            _take_nothing_as_it_is(parameter)
        return found

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """Return the command that the first word names."""
        if self.get_command(ctx, args[0]) is None:
            group = _path(ctx.info_name, ctx.parent)
            raise UnknownCommandError(group, args[0], self._near(args[0]))
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """List the commands with the whole of what they do."""
        named = (
            (name, self.get_command(ctx, name)) for name in self.list_commands(ctx)
        )
        rows = [
            (name, command.help or "")
            for name, command in named
            if command is not None and not command.hidden
        ]
        with formatter.section("Commands"):
            formatter.write_dl(rows)

    def _near(self, word: str) -> tuple[str, ...]:
        """Return what may have been meant: a file's command, or a like name."""
        suffix = Path(word).suffix.lower()
        if suffix in NO_DATA:
            command = "sample" if suffix == ".toml" else "photo"
            return (f"{command} {word}",) if command in self.commands else ()
        below = tuple(
            f"{name} {word}"
            for name, command in self.commands.items()
            if word in getattr(command, "commands", {})
        )
        return below or tuple(get_close_matches(word, self.commands))


class CheckedTyper(typer.Typer):
    """A group of commands, each of them checked."""

    def __init__(self, **options: Any) -> None:
        # Help in plain words: boxes and colours would take as long to import as the
        # rest of it, and read worse in a log.
        super().__init__(
            cls=CheckedGroup, no_args_is_help=True, rich_markup_mode=None, **options
        )

    def command(
        self, name: str | None = None, **options: Any
    ) -> Callable[[_Function], _Function]:
        """Return a decorator that adds a command; its help is in the catalogue."""

        def add(function: _Function) -> _Function:
            told = f"{PREFIX}{function.__name__}".replace("_", "-")
            added = super(CheckedTyper, self).command(
                name, cls=CheckedCommand, help=told, **options
            )
            return added(function)

        return add


def _take_nothing_as_it_is(parameter: Any) -> None:
    """Let an option that was not given pass unchecked.

    Typer makes a check for it even then, whose imports take twice as long as help.
    """
    checked = type(parameter).process_value

    def process_value(context: Any, value: Any) -> Any:
        return None if value is None else checked(parameter, context, value)

    if not parameter.required and parameter.nargs == 1 and not parameter.multiple:
        parameter.process_value = process_value


def _path(name: str | None, parent: Any) -> str:
    """Return a command as a person writes it, however the program was started."""
    words = [name or ""]
    while parent is not None:
        words.insert(0, parent.info_name or "")
        parent = parent.parent
    return " ".join([PROGRAM, *words[1:]])
