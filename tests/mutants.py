"""Do the tests notice a wrong formula? Mutants drawn by a seed, and who kills them.

    python -m tests.mutants --seed 7 --count 40

Each mutant is one changed comparison, sign, operator, constant or condition
in a calculation, in a copy of the repository; its room's tests run until one fails.
A survivor is printed with its line: write the test that it lacks, or see that the
change is none (a bound that nothing reaches, a tolerance of an iteration).
"""

import argparse
import ast
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[1]

TESTS: dict[str, tuple[str, ...]] = {
    "fishmeasure/husbandry": (
        "tests/husbandry",
        "tests/outlook",
        "tests/book/test_readings.py",
        "tests/api/test_calculations.py",
    ),
    "fishmeasure/estimation": (
        "tests/estimation",
        "tests/cli/test_plan_and_fit_commands.py",
        "tests/accuracy/test_population.py",
        "tests/cli/test_sample_record.py",
    ),
    "fishmeasure/book": (
        "tests/book",
        "tests/outlook",
        "tests/store",
        "tests/accuracy/test_book_intervals.py",
    ),
    "fishmeasure/photo/length": (
        "tests/photo/length",
        "tests/species/test_likeness.py",
        "tests/photo/markers/test_scale_errors.py",
        "tests/pipeline/test_pipeline.py",
        "tests/pipeline/test_rendered_fish.py",
        "tests/pipeline/test_sample_images.py",
        "tests/accuracy/test_lengths.py",
    ),
}
"""The tests of a room, those that are quick and near first."""

_COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.GtE,
    ast.GtE: ast.Lt,
    ast.Gt: ast.LtE,
    ast.LtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
_CALCULATED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
}


class Place(NamedTuple):
    """Where a mutant may be: a file, and which of its nodes."""

    path: Path
    number: int


def _mutable(node: ast.AST) -> bool:
    match node:
        case ast.Compare(ops=[op]):
            return type(op) in _COMPARED
        case ast.BinOp(op=op, left=left):
            text = isinstance(left, ast.Constant | ast.JoinedStr)
            words = text and not isinstance(getattr(left, "value", ""), int | float)
            return type(op) in _CALCULATED and not words
        case ast.UnaryOp(op=ast.USub() | ast.Not()) | ast.BoolOp() | ast.IfExp():
            return True
        case ast.Constant(value=value):
            return isinstance(value, int | float) and not isinstance(value, bool)
    return False


def _nodes(tree: ast.Module) -> Iterator[ast.AST]:
    """Yield what can be changed inside functions, not in annotations or decorators."""
    for function in ast.walk(tree):
        if isinstance(function, ast.FunctionDef):
            for statement in function.body:
                yield from (node for node in ast.walk(statement) if _mutable(node))


def _change(node: ast.AST, chance: random.Random) -> None:
    match node:
        case ast.Compare():
            node.ops = [_COMPARED[type(node.ops[0])]()]
        case ast.BinOp():
            node.op = _CALCULATED[type(node.op)]()
        case ast.UnaryOp():
            node.op = ast.UAdd() if isinstance(node.op, ast.USub) else ast.Not()
            if isinstance(node.op, ast.Not):
                node.operand = ast.UnaryOp(op=ast.Not(), operand=node.operand)
        case ast.BoolOp():
            node.op = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        case ast.IfExp():
            node.body, node.orelse = node.orelse, node.body
        case ast.Constant():
            value = node.value
            assert isinstance(value, int | float)
            node.value = value + 1 if not value else value * chance.choice((2, -1))


def places(rooms: tuple[str, ...]) -> list[Place]:
    """Return every place for a mutant in the rooms, in a fixed order."""
    return [
        Place(path.relative_to(ROOT), number)
        for room in rooms
        for path in sorted((ROOT / room).rglob("*.py"))
        for number, _ in enumerate(_nodes(ast.parse(path.read_text("utf-8"))))
    ]


def _mutated(place: Place, seed: int) -> tuple[str, str]:
    """Return the changed module's source, and what was changed in words."""
    source = (ROOT / place.path).read_text("utf-8")
    tree = ast.parse(source)
    node = list(_nodes(tree))[place.number]
    before = ast.unparse(node)
    line = getattr(node, "lineno", 0)
    _change(node, random.Random(f"{seed} {place}"))  # noqa: S311 - no secret
    tree = ast.fix_missing_locations(tree)
    return ast.unparse(tree), f"{place.path}:{line}: {before} -> {ast.unparse(node)}"


def _killed(copy: Path, room: str, minutes: float) -> str | None:
    """Return the test that fails, or None where none does."""
    found = [path for name in TESTS[room] for path in sorted(copy.glob(name))]
    command = [sys.executable, "-m", "pytest", "-x", "-q", "--no-header", "-p"]
    command += ["no:cacheprovider", *(str(path.relative_to(copy)) for path in found)]
    try:
        done = subprocess.run(  # noqa: S603 - our own interpreter
            command,
            cwd=copy,
            capture_output=True,
            text=True,
            timeout=60.0 * minutes,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return "it never ends"
    if done.returncode == 0:
        return None
    failed = [line for line in done.stdout.splitlines() if line.startswith("FAILED")]
    return failed[0].split(" - ")[0] if failed else done.stdout[-300:]


def main() -> None:
    """Draw mutants, run the tests against each, and count the killed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--count", type=int, default=40)
    parser.add_argument("--rooms", nargs="+", default=list(TESTS), choices=list(TESTS))
    parser.add_argument("--minutes", type=float, default=20.0, help="a mutant, at most")
    options = parser.parse_args()
    rooms = tuple(options.rooms)
    drawn = random.Random(options.seed).sample(places(rooms), options.count)  # noqa: S311
    killed = 0
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "copy"
        leave_out = shutil.ignore_patterns(".venv", ".git", "__pycache__", ".*_cache")
        shutil.copytree(ROOT, copy, ignore=leave_out)
        for place in drawn:
            room = next(r for r in rooms if place.path.as_posix().startswith(r))
            source, words = _mutated(place, options.seed)
            (copy / place.path).write_text(source, "utf-8")
            by = _killed(copy, room, options.minutes)
            shutil.copyfile(ROOT / place.path, copy / place.path)
            killed += by is not None
            print("killed  " if by else "SURVIVED", words, "|", by or "", flush=True)
    print(f"{killed} of {len(drawn)} killed (seed {options.seed})")


if __name__ == "__main__":
    main()
