"""What the code says: each place that names a message, with its parameters."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ("fishmeasure", "api")


@dataclass(frozen=True, slots=True)
class Said:
    """A place that says something.

    ``parameters`` is None where they are not spelled out there; ``cases`` are the
    values that ``case`` may have, none where there is no such parameter. A note, or a
    reason inside another sentence, is no problem, and nobody asks what its code means.
    """

    code: str
    parameters: frozenset[str] | None
    cases: frozenset[str]
    where: str
    is_problem: bool = True


def sources() -> Iterator[Path]:
    for room in ROOMS:
        yield from sorted((ROOT / room).rglob("*.py"))


@cache
def said() -> tuple[Said, ...]:
    """Return all places that say something."""
    trees = [(path, ast.parse(path.read_text("utf-8"))) for path in sources()]
    errors = _error_classes([tree for _, tree in trees])
    found: list[Said] = []
    for path, tree in trees:
        where = path.relative_to(ROOT).as_posix()
        for node in ast.walk(tree):
            if isinstance(node, ast.Call):
                found += _of_call(node, where)
            elif isinstance(node, ast.ClassDef) and node.name in errors:
                found += _of_error(node, errors[node.name], where)
    return tuple(found)


NAMING = {"Problem.of", "Message.of", "Said.of", "wording"}
"""What takes a code and its parameters: ``Problem.of("no-fish", name=…)``."""


def _of_call(node: ast.Call, where: str) -> Iterator[Said]:
    function = ast.unparse(node.func)
    if function in NAMING and node.args:
        for code in _words(node.args[0]):
            found = _said(code, node, where)
            yield replace(found, is_problem=function == "Problem.of")


def _of_error(kind: ast.ClassDef, code: str, where: str) -> Iterator[Said]:
    for node in ast.walk(kind):
        if isinstance(node, ast.Call) and _makes_error(node.func):
            yield _said(code, node, where)


def _makes_error(function: ast.expr) -> bool:
    return ast.unparse(function) == "cls" or (
        isinstance(function, ast.Attribute)
        and function.attr == "__init__"
        and ast.unparse(function.value).endswith(("super()", "Error"))
    )


def _said(code: str, node: ast.Call, where: str) -> Said:
    keywords = {keyword.arg: keyword.value for keyword in node.keywords}
    known = None not in keywords and not (
        node.args and isinstance(node.args[-1], ast.Starred)
    )
    names = frozenset(name for name in keywords if name and name != "fatal")
    cases = frozenset(_words(keywords["case"])) if "case" in keywords else frozenset()
    place = f"{where}:{node.lineno}"
    return Said(code, names if known else None, cases, place)


def _words(node: ast.expr) -> Iterator[str]:
    """Yield the words that an expression may be."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from _words(node.body)
        yield from _words(node.orelse)


def _error_classes(trees: list[ast.Module]) -> dict[str, str]:
    """Return the code of each error class that says something of its own."""
    classes = {
        node.name: node
        for tree in trees
        for node in tree.body
        if isinstance(node, ast.ClassDef)
    }
    return {
        name: code
        for name, node in classes.items()
        if name.endswith("Error")
        for code in [_code_of(node, classes)]
        if code
    }


def _code_of(kind: ast.ClassDef, classes: dict[str, ast.ClassDef]) -> str:
    for node in kind.body:
        target = getattr(node, "targets", [None])[0]
        if isinstance(target, ast.Name) and target.id == "code":
            return next(_words(node.value), "")  # type: ignore[attr-defined]
    for base in kind.bases:
        if isinstance(base, ast.Name) and base.id in classes:
            return _code_of(classes[base.id], classes)
    return ""
