"""Options that several commands share, as one record of a command."""

import inspect
from collections.abc import Callable
from dataclasses import MISSING, Field, fields, is_dataclass
from functools import wraps
from typing import Any, get_type_hints


def grouped(command: Callable[..., None]) -> Callable[..., None]:
    """Return the command with the fields of its dataclasses as options.

    The parser reads a function's parameters; one whose type is a dataclass of
    options stands for all of its fields, so that a list of options is written once.
    """
    hints = get_type_hints(command, include_extras=True)
    groups: dict[str, Any] = {
        name: kind for name, kind in hints.items() if is_dataclass(kind)
    }

    @wraps(command)
    def called(**given: Any) -> None:
        records = {
            name: kind(**{item.name: given.pop(item.name) for item in fields(kind)})
            for name, kind in groups.items()
        }
        command(**records, **given)

    parameters = []
    for parameter in inspect.signature(command).parameters.values():
        if parameter.name in groups:
            parameters += _parameters(groups[parameter.name])
        else:
            annotation = hints[parameter.name]
            parameters.append(
                parameter.replace(kind=parameter.KEYWORD_ONLY, annotation=annotation)
            )
    called.__signature__ = inspect.Signature(parameters)  # type: ignore[attr-defined]
    called.__annotations__ = {item.name: item.annotation for item in parameters}
    return called


def _parameters(group: Any) -> list[inspect.Parameter]:
    hints = get_type_hints(group, include_extras=True)
    return [
        inspect.Parameter(
            item.name,
            inspect.Parameter.KEYWORD_ONLY,
            default=_default(item),
            annotation=hints[item.name],
        )
        for item in fields(group)
    ]


def _default(field: "Field[Any]") -> Any:
    return inspect.Parameter.empty if field.default is MISSING else field.default
