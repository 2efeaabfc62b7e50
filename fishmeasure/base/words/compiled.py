"""Messages as JSON, for an evaluator of a page in JavaScript.

A message is ``{"value": pattern, "attributes": {name: pattern}}``; a pattern is a list
of texts and expressions. An expression is one of::

    {"var": "weight_g"}
    {"call": "AMOUNT", "args": [expression], "named": {"decimals": 1}}
    {"select": expression, "variants": {"one": pattern, …}, "default": "other"}
    {"message": "no-marker", "attribute": "advice"}

What is selected by is a word, a number or, for a number, its plural category (CLDR, as
``Intl.PluralRules`` has it): an exact number goes before a category. Terms are put in
where they are named.
"""

from collections.abc import Iterator
from functools import cache
from typing import Any

from fluent.syntax import FluentParser, ast

from fishmeasure.base.words.sources import ENGLISH, entries

Pattern = list[Any]
Entry = dict[str, Any]
_TERM = "-"


def references(resource: ast.Resource) -> Iterator[str]:
    """Yield the ids of entries that others name; terms with their dash."""
    for entry in resource.body:
        for node in _nodes(entry):
            if isinstance(node, ast.MessageReference):
                yield node.id.name
            elif isinstance(node, ast.TermReference):
                yield _TERM + node.id.name


def compiled(prefix: str, language: str = ENGLISH) -> dict[str, Entry]:
    """Return the messages whose ids begin so, as JSON.

    What a language lacks is there in English, and so is what they refer to.
    """
    wanted = [name for name in entries(ENGLISH) if name.startswith(prefix)]
    found: dict[str, Entry] = {}
    while wanted:
        name = wanted.pop(0)
        if name not in found and not name.startswith(_TERM):
            found[name] = entry_of(name, language)
            wanted += references(ast.Resource([parsed(name, language)]))
    return found


def entry_of(name: str, language: str = ENGLISH) -> Entry:
    """Return a message as JSON; the English one where the language lacks it."""
    return _Compiler(language).entry(parsed(name, language))


@cache
def parsed(name: str, language: str = ENGLISH) -> Any:
    """Return an entry of a language, or of English; its line breaks are spaces."""
    own = entries(language)
    entry = FluentParser().parse_entry(own.get(name) or entries(ENGLISH)[name])
    if isinstance(entry, ast.Junk):
        message = f"{language}.ftl: {name} cannot be read"
        raise ValueError(message)  # noqa: TRY004 - of the file, not of a type
    for node in _nodes(entry):
        if isinstance(node, ast.TextElement):
            node.value = node.value.replace("\n", " ")
    return entry


def outlines(pattern: Pattern) -> tuple[str, ...]:
    """Return a pattern for people, once for each ``case``: figures by their names."""
    said = [_outline(pattern, case) for case in sorted(_cases(pattern)) or [""]]
    return tuple(dict.fromkeys(text.strip() for text in said if text.strip()))


def _cases(pattern: Pattern) -> set[str]:
    """Return the cases that a pattern tells apart."""
    found: set[str] = set()
    for part in pattern:
        if isinstance(part, dict) and "select" in part:
            if part["select"] == {"var": "case"}:
                found |= set(part["variants"])
            for variant in part["variants"].values():
                found |= _cases(variant)
        elif isinstance(part, dict) and "message" in part:
            found |= _cases(_referred(part))
    return found


def _outline(pattern: Pattern, case: str) -> str:
    return "".join(
        part if isinstance(part, str) else _outlined(part, case) for part in pattern
    )


def _outlined(part: Entry, case: str) -> str:
    if "var" in part:
        return f"{{{part['var']}}}"
    if "call" in part:
        return "".join(_outlined(item, case) for item in part["args"])
    if "select" in part:
        variants = part["variants"]
        key = case if part["select"] == {"var": "case"} and case in variants else ""
        return _outline(variants[key or part["default"]], case)
    return _outline(_referred(part), case)


def _referred(part: Entry) -> Pattern:
    entry = entry_of(part["message"])
    attribute = part.get("attribute")
    found: Pattern = entry["attributes"][attribute] if attribute else entry["value"]
    return found


class _Compiler:
    """Takes the entries of one language apart."""

    def __init__(self, language: str) -> None:
        self._language = language

    def entry(self, entry: Any) -> Entry:
        found: Entry = {}
        if entry.value is not None:
            found["value"] = self._pattern(entry.value)
        attributes = {
            item.id.name: self._pattern(item.value) for item in entry.attributes
        }
        if attributes:
            found["attributes"] = attributes
        return found

    def _pattern(self, pattern: ast.Pattern) -> Pattern:
        found: Pattern = []
        for element in pattern.elements:
            parts = (
                [element.value]
                if isinstance(element, ast.TextElement)
                else self._expression(element.expression)
            )
            for part in parts:
                if isinstance(part, str) and found and isinstance(found[-1], str):
                    found[-1] += part
                else:
                    found.append(part)
        return found

    def _expression(self, node: Any) -> Pattern:
        found: Pattern
        match node:
            case ast.Placeable():
                found = self._expression(node.expression)
            case ast.StringLiteral() | ast.NumberLiteral():
                found = [str(node.parse()["value"])]
            case ast.VariableReference():
                found = [{"var": node.id.name}]
            case ast.TermReference():
                found = self._pattern(self._term(node))
            case ast.MessageReference():
                named = {"attribute": node.attribute.name} if node.attribute else {}
                found = [{"message": node.id.name} | named]
            case ast.FunctionReference():
                found = [self._call(node)]
            case _:
                found = [self._select(node)]
        return found

    def _term(self, node: ast.TermReference) -> Any:
        entry = parsed(_TERM + node.id.name, self._language)
        if node.attribute is None:
            return entry.value
        named = {item.id.name: item.value for item in entry.attributes}
        return named[node.attribute.name]

    def _call(self, node: ast.FunctionReference) -> Entry:
        return {
            "call": node.id.name,
            "args": [
                part
                for item in node.arguments.positional
                for part in self._expression(item)
            ],
            "named": {
                item.name.name: item.value.parse()["value"]
                for item in node.arguments.named
            },
        }

    def _select(self, node: ast.SelectExpression) -> Entry:
        [selector] = self._expression(node.selector)
        return {
            "select": selector,
            "variants": {
                _key(item): self._pattern(item.value) for item in node.variants
            },
            "default": next(_key(item) for item in node.variants if item.default),
        }


def _key(variant: ast.Variant) -> str:
    key = variant.key
    return key.name if isinstance(key, ast.Identifier) else str(key.value)


def _nodes(node: Any) -> Iterator[ast.BaseNode]:
    """Yield a node and all below it."""
    if isinstance(node, ast.BaseNode):
        yield node
        for item in vars(node).values():
            yield from _nodes(item)
    elif isinstance(node, list):
        for item in node:
            yield from _nodes(item)
