"""The tables of the rooms' pages that follow from the code.

python tests/docs/tables.py          says whether a page differs
python tests/docs/tables.py --write  brings the pages up to date
"""

import ast
import re
import sys
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

import typer

from api.settings import settings_table
from fishmeasure.base import errors
from fishmeasure.base.flags import FLAGS
from fishmeasure.cli import app
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
            (f"`fishmeasure {name}`", (command.help or "").split("\n\n")[0].strip())
            for name, command in found.items()
        ),
    )


def flags() -> str:
    """Return the doubts about fish."""
    return _table(
        ("flag", "meaning", "used?"),
        (
            (f"`{f.word}`", f.sentence, "not used" if f.disqualifying else "used")
            for f in FLAGS.values()
        ),
    )


def _error_classes(
    base: type[errors.FishMeasureError] = errors.FishMeasureError,
) -> Iterator[type[errors.FishMeasureError]]:
    for kind in base.__subclasses__():
        yield kind
        yield from _error_classes(kind)


def error_codes() -> dict[str, str]:
    """Return each error's code and what its class says of it."""
    return {
        kind.__dict__["code"]: (kind.__doc__ or "").strip().splitlines()[0]
        for kind in _error_classes()
        if kind.__module__.startswith("fishmeasure") and "code" in kind.__dict__
    }


_WITH_CODES = {"Problem", "Reason", "_Needed"}


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
    known = error_codes()
    rows = dict(sorted(PROBLEM_MEANINGS.items())) | dict(sorted(known.items()))
    return _table(("code", "meaning"), ((f"`{c}`", rows[c]) for c in sorted(rows)))


PROBLEM_MEANINGS = {
    "aeration-short": "Oxygen was read lower than inflow and aerators would leave it.",
    "alkalinity-low": "The water now: too little buffer for a biofilter; watch.",
    "ammonia-high": "The water now: too much ammonia; watch or act.",
    "ammonia-unknown": "Ammonia is not known, where it must be.",
    "ammonia-over-criterion": "Total ammonia is over what may last at this pH.",
    "ammonia-over-limit": "Un-ionised ammonia is over the species' limit.",
    "biofilter-unknown": "What more feed the filter of a loop can clean is not known.",
    "blurred": "Blurred, but measured with a wider error.",
    "bulk-only": "No fish was measured: the spread is that of typical batches.",
    "count-differs": "Photos and hand count of a net differ.",
    "count-in-unit-too-small": "More fish were netted than are said to be in the unit.",
    "doubtful-lengths": "Some lengths are probably wrong; they count for little.",
    "far-from-book": "Weights are far from those published, or no fish's.",
    "marker-missing": "A marker of the sheet was not seen.",
    "measuring-failed": "The program that measured a photo of a batch broke down.",
    "net-disagrees": "A net does not agree with the others; the reason is given.",
    "net-unused": "A net gives nothing: neither weighed nor measured.",
    "near-limit": "A limit of the unit may be passed, at the unsafe end.",
    "nitrate-high": "The water now: too much nitrate.",
    "nitrate-limit-ahead": "Nitrate may reach its limit within the time ahead.",
    "nitrate-over-limit": "Nitrate may be over its limit.",
    "nitrite-high": "The water now: too much nitrite; watch or act.",
    "no-fish": "No fish was found.",
    "no-usable-fish": "No fish was whole and clear enough.",
    "no-growth-temperature": "Part of the forecast is too cold or warm for growth.",
    "no-stocking-temperature": "The water is too cold or warm to add fish.",
    "not-an-image": "The file is not there or cannot be read.",
    "not-flat": "The sheet does not lie flat.",
    "one-net": "One net says little about the rest of the unit.",
    "other-species": "The fish are deeper or slimmer than the species that was named.",
    "outside-source-range": "A calculation is outside the range of its source.",
    "outside-species-range": "Fish are outside the range of the length-weight line.",
    "overexposed": "Too bright: paper or wet fish have lost their edge.",
    "oxygen-low": "The water now: too little oxygen; watch or act.",
    "over-limit": "A limit of the unit is likely passed.",
    "oxygen-unknown": "Oxygen was not read of late.",
    "oxygen-supersaturated": "The water now: too much gas; watch or act.",
    "ph-high": "The water now: too alkaline; watch or act.",
    "ph-low": "The water now: too acid; watch or act.",
    "pond-use-unknown": "What water and bottom of a pond use of oxygen is not known.",
    "photo-only": "No net weighed: the published level, standard error 25 %.",
    "repeat-photos": "The same fish seem to be in two photos of a net.",
    "repeats-differ": "Repeated weighings of a net differ more than the scale's error.",
    "rough-scale": "The scale of the photo is uncertain.",
    "sample-disagrees": "A sample does not agree with the book.",
    "temperature-high": "The water now: too warm; watch or act.",
    "temperature-held": "Without a year's temperatures the last reading is held.",
    "temperature-low": "The water now: too cold; watch or act.",
    "temperature-unknown": "No water temperature is known for the unit.",
    "small-fish": "Fish are too small in the photo to be measured; their number.",
    "tilted": "Taken at a slant, but measured with a wider error.",
    "too-cold-to-feed": "The water is too cold for feeding.",
    "too-dark": "Too dark to see fish or marker.",
    "too-far": "The marker is small in the photo; measured with a wider error.",
    "too-warm-to-feed": "The water is too warm for feeding.",
    "two-size-groups": "The sample shows two groups of sizes.",
}


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
