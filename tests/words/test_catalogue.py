"""Every code has its sentence, every sentence its parameters, in every language."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
import typer
from babel import Locale
from fluent.syntax import FluentParser
from fluent.syntax import ast as ftl

from fishmeasure.base import errors
from fishmeasure.base.words import Message, Voice, advice, catalogue, meaning, say, what
from fishmeasure.base.words.compiled import (
    Entry,
    Pattern,
    entry_of,
    parsed,
    references,
)
from fishmeasure.base.words.explain import codes, explained
from fishmeasure.base.words.sources import ENGLISH, FOLDER, entries, languages
from fishmeasure.cli import app
from tests.words.needs import PLURALS, examples, needs
from tests.words.used import ROOT, Said, said, sources

DONE = (
    "fishmeasure/base/errors",
    "fishmeasure/husbandry",
    "fishmeasure/outlook",
    "fishmeasure/render",
    "fishmeasure/species",
    "fishmeasure/pipeline.py",
    "fishmeasure/batch.py",
    "fishmeasure/store",
    "api",
    "fishmeasure/cli",
    "fishmeasure/photo",
    "fishmeasure/book",
    "fishmeasure/estimation",
)
"""Rooms whose sentences all stand in the catalogue; the list only grows."""
DESCRIBES = {f"api/{name}.py" for name in ("openapi", "answers", "app", "observe")} | {
    "api/routes/page.py",
    "fishmeasure/estimation/model/answer.py",
}
"""The API's documentation is English; the page's entry in a menu is the page's."""


def has_value(code: str) -> bool:
    return code in entries(ENGLISH) and "value" in entry_of(code)


FORMS = (
    *("day-format", "list-", "span", "percent", "share-", "unit-", "page-", "flag-"),
    *("alternatives", "as-said", "asked", "help-", "fingerlings-"),
)
"""Messages that functions or the page name."""


def cases(one: Said) -> list[str | None]:
    return [*sorted(one.cases)] or [None]


def spoken() -> Iterator[tuple[str, str | None, str]]:
    """Yield each code that is said, with each of its cases, and where."""
    for one in said():
        for case in cases(one):
            yield one.code, case, one.where


@pytest.mark.parametrize("language", languages())
def test_the_whole_file_can_be_read(language: str) -> None:
    """Each entry by itself, as it is read when it is said, and once."""
    text = (FOLDER / f"{language}.ftl").read_text("utf-8")
    body = FluentParser().parse(text).body
    assert [node.content for node in body if isinstance(node, ftl.Junk)] == []
    names = [
        ("-" if isinstance(node, ftl.Term) else "") + node.id.name
        for node in body
        if isinstance(node, ftl.Message | ftl.Term)
    ]
    assert len(names) == len(set(names))
    assert set(names) == set(entries(language))
    for name in names:
        for other in references(ftl.Resource([parsed(name, language)])):
            assert other in entries(language) | entries(ENGLISH), name


def test_every_code_that_is_said_has_a_sentence() -> None:
    without = {
        (one.code, one.where)
        for one in said()
        if not has_value(one.code)
        and one.parameters is not None
        and (one.parameters or one.where.startswith(DONE))
    }
    assert without == set()


def test_every_parameter_of_a_sentence_is_given() -> None:
    """Where a sentence is said, all that stands in it, in its case, is told."""
    missing = {}
    for one in said():
        if one.parameters is None or not has_value(one.code):
            continue
        for case in cases(one):
            needed = set(needs(one.code, ENGLISH, case, told=one.is_problem))
            lacking = needed - one.parameters
            if lacking:
                missing[f"{one.where} {one.code}"] = lacking
    assert missing == {}


def test_every_case_of_a_sentence_is_there() -> None:
    """A case that is said is a variant, or the default stands for it."""
    for one in said():
        entry = entry_of(one.code) if one.code in entries(ENGLISH) else {}
        variants = {
            key
            for part in entry.get("value", [])
            if isinstance(part, dict) and part.get("select") == {"var": "case"}
            for key in part["variants"]
        }
        if variants:
            told = one.parameters is None or "case" in one.parameters
            assert told, f"{one.where}: {one.code} needs a case"


def test_every_sentence_is_said() -> None:
    """What nothing says is taken out."""
    used = {one.code for one in said()}
    used |= {
        other
        for name in entries(ENGLISH)
        for other in references(ftl.Resource([parsed(name)]))
        if other != name
    }
    literals = {
        node.value
        for path in sources()
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    unused = {
        name
        for name in entries(ENGLISH)
        if name not in used | literals and not name.startswith(FORMS)
    }
    assert unused == set()


@pytest.mark.parametrize("language", languages())
def test_every_sentence_can_be_said(
    language: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By whoever tells it, in each system of units, with examples of its figures."""

    def fails(message: Message, found: list[Exception]) -> None:
        pytest.fail(f"{language}: {message!r}: {found}")

    monkeypatch.setattr(catalogue, "fault", fails)
    for code, case, where in spoken():
        if not has_value(code):
            continue
        for parameters in examples(needs(code, language, case), case):
            message = Message.of(code, **parameters)
            for voice in voices(language):
                text = say(message, voice)
                assert text or code == "nothing", where
                assert "\n" not in text
                assert not re.search(r"(?<!\d)  ", text), text
                assert not re.search(r"\{\$|\?\?\?", text), text


def voices(language: str) -> Iterator[Voice]:
    for teller in (None, "cli", "page"):
        for units in ("metric", "us"):
            yield Voice(language=language, teller=teller, units=units)


CHOSEN_BY = {"key"}
"""What a language may tell apart that English writes as it is given."""


@pytest.mark.parametrize("language", languages())
def test_a_language_has_all_that_english_has(language: str) -> None:
    """The same sentences, parts, parameters and cases."""
    assert set(entries(language)) == set(entries(ENGLISH))
    for name in entries(ENGLISH):
        ours, theirs = parts(name, language), parts(name, ENGLISH)
        assert set(ours) == set(theirs), name
        for part, pattern in theirs.items():
            same = parameters(ours[part]) - CHOSEN_BY == parameters(pattern) - CHOSEN_BY
            assert same, f"{language}: {name}.{part}: other parameters"
            assert told_apart(ours[part]) == told_apart(pattern), f"{name}.{part}"


@pytest.mark.parametrize("language", languages())
def test_plurals_are_those_of_the_language(language: str) -> None:
    """The categories that CLDR has for whole numbers, or fewer with "other"."""
    known = set(Locale.parse(language).plural_form.tags) | {"other"}
    for name in entries(language):
        for pattern in parts(name, language).values():
            for found in selections(pattern):
                if set(found["variants"]) <= PLURALS:
                    assert set(found["variants"]) <= known, name
                    assert found["default"] == "other", name


def parts(name: str, language: str) -> dict[str, Pattern]:
    """Return a message's value, as ``value``, and its attributes."""
    entry = entry_of(name, language)
    attributes: dict[str, Pattern] = entry.get("attributes", {})
    return {"value": entry.get("value", [])} | attributes


def parameters(pattern: Pattern) -> set[str]:
    """Return all that a pattern puts in or chooses by."""
    return {part["var"] for part in parts_within(pattern) if "var" in part}


def told_apart(pattern: Pattern) -> set[frozenset[str]]:
    """Return the cases that a pattern tells apart by ``case``."""
    return {
        frozenset(found["variants"])
        for found in selections(pattern)
        if found["select"] == {"var": "case"}
    }


def selections(pattern: Pattern) -> Iterator[Entry]:
    """Yield each choice in a pattern."""
    return (part for part in parts_within(pattern) if "select" in part)


def parts_within(pattern: Pattern) -> Iterator[Entry]:
    """Yield each expression of a pattern, those inside others too."""
    for part in pattern:
        if isinstance(part, str):
            continue
        yield part
        yield from parts_within(part.get("args", []))
        if "select" in part:
            yield from parts_within([part["select"]])
            for variant in part["variants"].values():
                yield from parts_within(variant)


def test_every_error_says_what_it_means() -> None:
    """The table of codes is whole: each class with a code has its line."""
    known = set(codes())
    assert {one.code for one in said() if one.is_problem} <= known
    for kind in vars(errors).values():
        if isinstance(kind, type) and "code" in vars(kind):
            assert vars(kind)["code"] in known
    for code in known:
        assert meaning(code).endswith("."), code
        assert explained(code).meaning == meaning(code)


def test_advice_is_neutral_but_at_the_command_line() -> None:
    """A phone shows neither commands nor options; nor does a sentence itself."""
    commands = "|".join(getattr(typer.main.get_command(app), "commands", ()))
    command = re.compile(rf"fishmeasure ({commands})\b|--[a-z]|\bFISHMEASURE_")
    only_there = {"command-line", "data-file", "unknown-command", "option-format"}
    for code in set(codes()) - only_there:
        entry = entry_of(code)
        attributes = entry.get("attributes", {})
        shown = [entry.get("value", []), attributes.get("advice", [])]
        for pattern in [*shown, attributes.get("page", [])]:
            assert not command.search(str(pattern)), code


@pytest.mark.parametrize("room", DONE)
def test_no_sentence_stands_in_a_room_that_is_done(room: str) -> None:
    """Texts of more than three words with a full stop are the catalogue's."""
    paths = (
        [ROOT / room] if room.endswith(".py") else sorted((ROOT / room).rglob("*.py"))
    )
    assert [
        found
        for path in paths
        if path.relative_to(ROOT).as_posix() not in DESCRIBES
        for found in sentences(path)
    ] == []


HELP = {"help", "description", "metadata"}
"""What says a field's or an option's meaning is its documentation."""


def sentences(path: Path) -> Iterator[str]:
    tree = ast.parse(path.read_text("utf-8"))
    documented = {
        id(inner)
        for node in ast.walk(tree)
        if isinstance(node, ast.keyword) and node.arg in HELP
        for inner in ast.walk(node.value)
    }
    documented |= {
        id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)
    }  # docstrings, of fields too
    documented |= {
        id(inner)
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "described"
        for inner in node.args
    }  # a field's description
    for node in ast.walk(tree):
        if id(node) in documented:
            continue
        text = _text(node)
        if text.rstrip().endswith(".") and len(text.split()) > 3:
            yield f"{path.name}: {text}"


def _text(node: ast.AST) -> str:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.JoinedStr):
        return "".join(_text(part) or "x" for part in node.values)
    return ""


def test_nothing_said_of_a_missing_sentence_is_a_traceback(
    caplog: pytest.LogCaptureFixture,
) -> None:
    """A bug in the catalogue is logged; the grower gets the code."""
    assert say(Message.of("no-such-code", x=1)) == "no-such-code"
    assert what(Message.of("no-marker")) == "no-marker"
    assert advice(Message.of("no-such-code")) == ""
    assert "no sentence for no-marker" in caplog.text
