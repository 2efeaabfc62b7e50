"""What the parser refuses on a command line, in plain sentences.

The parser's own words differ between its versions; what is not known here keeps
them.
"""

import re
from collections.abc import Callable, Sequence
from typing import Any, Final

from fishmeasure.base.errors import CommandLineError

PROGRAM: Final = "fishmeasure"

_WORDS: Final = (
    (r"valid (number|float)", "it takes a number"),
    (r"valid integer", "it takes a whole number"),
    (r"less than or equal to (\S+)", r"it takes \1 at most"),
    (r"not in the range (\S+)<=x<=(\S+)", r"it takes \1 to \2"),
    (r"greater than or equal to (\S+)", r"it takes \1 at least"),
    (r"Value error, (.*)", r"\1"),
)


def usage_error(
    error: Any, command: str, parameters: Sequence[Any]
) -> CommandLineError:
    """Return the error of a command line that the parser refused.

    Parameters
    ----------
    error
        The parser's.
    command
        As a person writes it, such as "fishmeasure book units".
    parameters
        Of the command.
    """
    say = _SENTENCES.get(type(error).__name__, _other)
    reason, near = say(error, command, parameters)
    return CommandLineError(command, reason, near)


Said = tuple[str, tuple[str, ...]]


def _no_option(error: Any, command: str, _: Sequence[Any]) -> Said:
    near = tuple(error.possibilities or ())
    return f"'{command}' has no option {error.option_name}", near


def _missing(error: Any, command: str, _: Sequence[Any]) -> Said:
    return f"'{command}' needs {_named(error.param)}", ()


def _usage(error: Any, command: str, parameters: Sequence[Any]) -> Said:
    """Say that an option lacks its value, or takes none."""
    if "requires" not in error.message:
        return f"{error.option_name} takes no value", ()
    for parameter in parameters:
        if error.option_name in parameter.opts:
            return f"'{command}' needs a value after {_named(parameter)}", ()
    return _other(error, command, parameters)


def _value(error: Any, command: str, parameters: Sequence[Any]) -> Said:
    if error.param is None:
        return _other(error, command, parameters)
    reason = error.message
    for pattern, words in _WORDS:
        if match := re.search(pattern, reason):
            reason = match.expand(words)
            break
    return f"{_name(error.param)}: {reason}", ()


def _other(error: Any, command: str, _: Sequence[Any]) -> Said:
    if match := re.search(r"unexpected extra argument\S* \((.*)\)", error.message):
        return f"'{command}' does not take '{match[1]}'", ()
    return error.format_message(), ()


def _name(parameter: Any) -> str:
    if parameter.param_type_name == "option":
        return str(parameter.opts[0])
    return str(parameter.metavar or parameter.name.upper())


def _named(parameter: Any) -> str:
    """Return a parameter with what its help says."""
    text = (parameter.help or "").rstrip(".")
    return f"{_name(parameter)} ({text})" if text else _name(parameter)


_SENTENCES: Final[dict[str, Callable[[Any, str, Sequence[Any]], Said]]] = {
    "NoSuchOption": _no_option,
    "MissingParameter": _missing,
    "BadOptionUsage": _usage,
    "BadParameter": _value,
}
