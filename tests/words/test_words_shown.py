"""Everything that a grower reads goes through the catalogue, single words too."""

import ast
import re
from collections.abc import Iterator

import pytest

from fishmeasure.base.words.sources import ENGLISH, entries, languages
from tests.words.used import ROOT, sources

SHOWS = {
    *("print", "echo", "print_line", "write_text", "drawString", "drawCentredString"),
    *("text", "centred", "annotate", "set_title", "set_xlabel", "set_ylabel"),
    *("add_column", "add_row", "section", "Paragraph", "track", "tracked"),
}
"""What puts its arguments before somebody's eyes: terminal, table, paper, plot."""
NAMED = {"help", "label", "title", "short_help", "epilog", "prompt", "caption"}
ROOMS = ("fishmeasure/cli", "fishmeasure/render", "fishmeasure/photo/overlay.py")
FIXED = {
    *("fishmeasure", "fishmeasure:"),  # the program's name
    "Commands",  # by which the parser's heading is found, and put in other words
    "4 in",  # beside the inch rule on US Letter
    *("bold", "dim", "red", "yellow", "green"),  # styles
}
_WORD = re.compile(r"[A-Za-z]{3,}")


def shown(tree: ast.Module) -> Iterator[ast.expr]:
    """Yield each expression that is shown."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "attr", getattr(node.func, "id", ""))
        if name in SHOWS:
            yield from node.args
        for keyword in node.keywords:
            if keyword.arg in NAMED:
                yield keyword.value


def literals(node: ast.expr) -> Iterator[str]:
    """Yield the texts that an expression itself puts there, not those it is told."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.JoinedStr):
        for part in node.values:
            if isinstance(part, ast.Constant):
                yield str(part.value)
    elif isinstance(node, ast.BinOp):
        yield from literals(node.left)
        yield from literals(node.right)
    elif isinstance(node, ast.IfExp):
        yield from literals(node.body)
        yield from literals(node.orelse)


def outside(text: str) -> Iterator[str]:
    """Yield the words of a source that are shown, and not in the catalogue."""
    for node in shown(ast.parse(text)):
        for literal in literals(node):
            if (
                _WORD.search(literal)
                and literal.strip() not in FIXED
                and literal not in entries(ENGLISH)
            ):
                yield literal


@pytest.mark.parametrize("room", ROOMS)
def test_no_word_that_is_shown_stands_in_the_code(room: str) -> None:
    found = {
        (path.relative_to(ROOT).as_posix(), literal)
        for path in sources()
        if path.relative_to(ROOT).as_posix().startswith(room)
        for literal in outside(path.read_text("utf-8"))
    }
    assert found == set()


def test_such_words_are_found() -> None:
    """As they stood in the code before: in help, tables, plots and labels."""
    assert set(
        outside(
            """
typer.Option(help="Name of the unit.")
table.add_column("last sample")
axes.set_xlabel("mean weight, g")
print("on: date" if known else f"{count} fish used")
canvas.drawString(0, 0, "Lay it flat")
pen.text(wording("overlay-look", reasons=found))
typer.Option(help="help-unit")
"""
        )
    ) == {
        *("Name of the unit.", "last sample", "mean weight, g", "on: date"),
        *(" fish used", "Lay it flat"),
    }


def test_help_is_plain_text() -> None:
    """It is read without Fluent, which takes long to import."""
    for language in languages():
        for name, text in entries(language).items():
            if name.startswith("help-"):
                assert not re.search(r"\{ (?!unit-)|\n +\.[a-z]", text), name
