"""What the parser refuses on a command line, in plain sentences.

The parser's own words differ between its versions; what is not known here keeps
them.
"""

import re
from collections.abc import Callable, Sequence
from typing import Any, Final

from fishmeasure.base.errors import CommandLineError
from fishmeasure.base.words import Message, Reason
from fishmeasure.cli.helping import help_of

PROGRAM: Final = "fishmeasure"

_Groups = tuple[str, ...]
_WORDS: Final[tuple[tuple[str, Callable[[_Groups], Reason]], ...]] = (
    (r"valid (number|float)", lambda _: Message.of("usage-takes", case="number")),
    (r"valid integer", lambda _: Message.of("usage-takes", case="whole")),
    (
        r"less than or equal to (\S+)",
        lambda found: Message.of("usage-takes", case="most", limit=found[0]),
    ),
    (
        r"not in the range (\S+)<=x<=(\S+)",
        lambda found: Message.of(
            "usage-takes", case="range", low=found[0], high=found[1]
        ),
    ),
    (
        r"greater than or equal to (\S+)",
        lambda found: Message.of("usage-takes", case="least", limit=found[0]),
    ),
    (r"Value error, (.*)", lambda found: found[0]),
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


Said = tuple[Reason, tuple[str, ...]]


def _no_option(error: Any, command: str, _: Sequence[Any]) -> Said:
    near = tuple(error.possibilities or ())
    reason = Message.of("usage-no-option", command=command, option=error.option_name)
    return reason, near


def _missing(error: Any, command: str, _: Sequence[Any]) -> Said:
    told = Message.of("usage-needs", command=command, parameter=_named(error.param))
    return told, ()


def _usage(error: Any, command: str, parameters: Sequence[Any]) -> Said:
    """Say that an option lacks its value, or takes none."""
    if "requires" not in error.message:
        return Message.of("usage-no-value", option=error.option_name), ()
    for parameter in parameters:
        if error.option_name in parameter.opts:
            told = _named(parameter)
            reason = Message.of("usage-needs-value", command=command, parameter=told)
            return reason, ()
    return _other(error, command, parameters)


def _value(error: Any, command: str, parameters: Sequence[Any]) -> Said:
    if error.param is None:
        return _other(error, command, parameters)
    reason: Reason = error.message
    for pattern, words in _WORDS:
        if match := re.search(pattern, error.message):
            reason = words(match.groups())
            break
    name = _name(error.param)
    return Message.of("usage-value", parameter=name, reason=reason), ()


def _other(error: Any, command: str, _: Sequence[Any]) -> Said:
    if match := re.search(r"unexpected extra argument\S* \((.*)\)", error.message):
        return Message.of("usage-extra", command=command, argument=match[1]), ()
    return error.format_message(), ()


def _name(parameter: Any) -> str:
    if parameter.param_type_name == "option":
        return str(parameter.opts[0])
    return str(parameter.metavar or parameter.name.upper())


def _named(parameter: Any) -> Reason:
    """Return a parameter with what its help says."""
    text = help_of(parameter.help or "").rstrip(".")
    name = _name(parameter)
    return Message.of("usage-named", name=name, meaning=text) if text else name


_SENTENCES: Final[dict[str, Callable[[Any, str, Sequence[Any]], Said]]] = {
    "NoSuchOption": _no_option,
    "MissingParameter": _missing,
    "BadOptionUsage": _usage,
    "BadParameter": _value,
}
