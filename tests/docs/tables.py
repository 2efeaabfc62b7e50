"""The tables of the rooms' pages that follow from the code.

python tests/docs/tables.py          says whether a page differs
python tests/docs/tables.py --write  brings the pages up to date
"""

import ast
import re
import sys
from collections.abc import Callable, Iterable
from pathlib import Path

import typer

from api.settings import settings_table
from fishmeasure.base.flags import FLAGS
from fishmeasure.base.words import meaning
from fishmeasure.base.words.explain import codes
from fishmeasure.cli import app
from fishmeasure.cli.helping import help_of
from fishmeasure.species import load_species, species_keys

ROOT = Path(__file__).resolve().parents[2]


def _table(header: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    head = list(header)
    lines = [head, ["---"] * len(head), *(list(row) for row in rows)]
    return "\n".join("| " + " | ".join(line) + " |" for line in lines)


def commands() -> str:
    """Return the commands and what each does."""
    group = typer.main.get_command(app)
    found = getattr(group, "commands", {})
    return _table(
        ("command", "what it does"),
        (
            (f"`fishmeasure {name}`", help_of(command.help or ""))
            for name, command in found.items()
        ),
    )


def flags() -> str:
    """Return the doubts about fish."""
    return _table(
        ("flag", "meaning", "used?"),
        (
            (f"`{f.word}`", str(f.sentence), "not used" if f.disqualifying else "used")
            for f in FLAGS.values()
        ),
    )


_WITH_CODES = {"Answer", "Problem", "Reason", "_Needed"}


def problem_codes() -> set[str]:
    """Return the codes of all problems, and of the water's reasons, in the sources."""
    return {
        code.value
        for path in sorted((ROOT / "fishmeasure").rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") in _WITH_CODES
        for keyword in node.keywords
        if keyword.arg == "code"
        for code in _either(keyword.value)
        if isinstance(code, ast.Constant) and isinstance(code.value, str)
    }


def _either(value: ast.expr) -> tuple[ast.expr, ...]:
    """Return what an expression may be: itself, or both sides of a choice."""
    if isinstance(value, ast.IfExp):
        return value.body, value.orelse
    return (value,)


def problems() -> str:
    """Return the codes of problems and errors."""
    return _table(("code", "meaning"), ((f"`{c}`", meaning(c)) for c in codes()))


def species() -> str:
    """Return the species and their lines."""
    rows = []
    for key in species_keys():
        found = load_species(key)
        line = found.on_fork_length()
        rows.append(
            (
                f"`{key}`",
                f"*{found.latin_name}*",
                f"{line.a_g_cm:.5f}",
                f"{line.b:.3f}",
                f"{line.min_length_mm:.0f}-{line.max_length_mm:.0f}",
                line.stock,
                line.confidence,
            )
        )
    header = ("key", "species", "a", "b", "fork length, mm", "of fish", "confidence")
    note = "W = a L^b with W in grams and L, the fork length, in centimetres."
    return _table(header, rows) + "\n\n" + note


def settings() -> str:
    """Return the server's settings."""
    return _table(
        ("variable", "default", "meaning"),
        ((f"`{name}`", f"`{value}`", text) for name, value, text in settings_table()),
    )


TABLES: dict[str, dict[str, Callable[[], str]]] = {
    "fishmeasure/cli/README.md": {"commands": commands},
    "fishmeasure/photo/README.md": {"flags": flags},
    "fishmeasure/species/README.md": {"species": species},
    "api/README.md": {"settings": settings, "problems": problems},
}


def filled(page: str) -> str:
    """Return a page with each of its tables as the code has it."""
    text = (ROOT / page).read_text(encoding="utf-8")
    for name, make in TABLES[page].items():
        pattern = rf"(<!-- {name} -->\n).*?(\n<!-- end -->)"
        if not re.search(pattern, text, flags=re.DOTALL):
            message = f"{page} has no place for the table {name!r}"
            raise ValueError(message)
        new = make().replace("\\", r"\\")
        text = re.sub(pattern, rf"\g<1>\n{new}\n\g<2>", text, flags=re.DOTALL)
    return text


def main() -> None:
    """Compare, or write."""
    for page in TABLES:
        new = filled(page)
        if "--write" in sys.argv:
            (ROOT / page).write_text(new, encoding="utf-8")
        elif new != (ROOT / page).read_text(encoding="utf-8"):
            sys.exit(f"{page} is not up to date: python tests/docs/tables.py --write")


if __name__ == "__main__":
    main()
