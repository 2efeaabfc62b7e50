"""Do the tests notice a wrong formula? Mutants drawn by a seed, and who kills them.

    python -m tests.mutants --seed 7 --count 40

Each mutant is one changed comparison, sign, operator, constant or condition
in a calculation, in a copy of the repository; its room's tests run until one fails,
those first that run the changed line, the quickest of them first.
A survivor is printed with its line: write the test that it lacks, or see that the
change is none (a bound that nothing reaches, a tolerance of an iteration).
"""

import argparse
import ast
import base64
import json
import marshal
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from tests import mutants_run as run

ROOT = Path(__file__).resolve().parents[1]

TESTS: dict[str, tuple[str, ...]] = {
    "fishmeasure/husbandry": ("tests/husbandry",),
    "fishmeasure/estimation": (
        "tests/estimation",
        "tests/cli/test_plan_and_fit_commands.py",
        "tests/accuracy/test_population.py",
        "tests/cli/test_sample_record.py",
    ),
    "fishmeasure/book": ("tests/book", "tests/outlook"),
    "fishmeasure/photo/length": (
        "tests/photo/length",
        "tests/photo/test_water.py",
        "tests/species/test_likeness.py",
        "tests/photo/markers/test_scale_errors.py",
    ),
}
"""The tests of a room; more would kill a few more and take hours."""

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


class Mutant(NamedTuple):
    """A changed module, and what was changed in it."""

    path: Path
    tree: ast.Module
    lines: tuple[int, int]
    words: str


def _lines(tree: ast.Module, node: ast.AST) -> tuple[int, int]:
    """Return the node's lines, from the beginning of its statement."""
    first, last = getattr(node, "lineno", 0), getattr(node, "end_lineno", 0)
    statements = [stmt for stmt in ast.walk(tree) if isinstance(stmt, ast.stmt)]
    around = [s.lineno for s in statements if s.lineno <= first and s.end_lineno]
    return max(around, default=first), last


def _mutated(place: Place, seed: int) -> Mutant:
    """Return the changed module."""
    tree = ast.parse((ROOT / place.path).read_text("utf-8"))
    node = list(_nodes(tree))[place.number]
    before, lines = ast.unparse(node), _lines(tree, node)
    _change(node, random.Random(f"{seed} {place}"))  # noqa: S311 - no secret
    words = f"{place.path}:{lines[0]}: {before} -> {ast.unparse(node)}"
    return Mutant(place.path, ast.fix_missing_locations(tree), lines, words)


def _pytest(copy: Path, rooms: tuple[str, ...], *options: str) -> list[str]:
    found = dict.fromkeys(name for room in rooms for name in TESTS[room])
    command = [sys.executable, "-m", "pytest", "-q", "--no-header", *options]
    command += ["-p", "no:cacheprovider", "-p", "tests.mutants_run"]
    return [*command, *(name for name in found if (copy / name).exists())]


def _settings(copy: Path) -> dict[str, str]:
    """Return the settings of a run in the copy, which finds ../shared, too."""
    beside = {"FISHMEASURE_SHARED": str(ROOT.parent / "shared")}
    one = {"OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1"}
    ours = {"PYTHONPATH": str(copy), "PYTHONDONTWRITEBYTECODE": "1"}
    return beside | os.environ | one | ours


def _seen(copy: Path, room: str) -> Path:
    """Run the room's tests once as they are; return what ran which line, how long.

    It is kept; delete it when tests have changed much.
    """
    kept = ROOT / ".mutants_cache" / f"{room.replace('/', '.')}.json"
    if not kept.exists():
        kept.parent.mkdir(exist_ok=True)
        tracing = ("--cov-context=test", "--cov-report=", f"--cov={room}")
        found = {run.WRITE: str(kept), "COVERAGE_FILE": str(kept) + ".coverage"}
        command = _pytest(copy, (room,), *tracing)
        subprocess.run(command, cwd=copy, env=_settings(copy) | found, check=True)  # noqa: S603
    return kept


def _told(copy: Path, room: str, mutant: Mutant) -> dict[str, object]:
    """Return what the run must know of a mutant."""
    code = compile(mutant.tree, str(copy / mutant.path), "exec")
    return {
        "path": mutant.path.as_posix(),
        "source": ast.unparse(mutant.tree),
        "code": base64.b64encode(marshal.dumps(code)).decode(),
        "lines": mutant.lines,
        "words": mutant.words,
        "tests": TESTS[room],
        "seen": str(_seen(copy, room)),
    }


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--count", type=int, default=40)
    parser.add_argument("--rooms", nargs="+", default=list(TESTS), choices=list(TESTS))
    parser.add_argument("--minutes", type=float, default=20.0, help="a mutant, at most")
    parser.add_argument("--only", nargs="+", type=int, help="these of them, from 1")
    parser.add_argument(
        "--seconds",
        type=float,
        default=60.0,
        help="processor time of the tests that a mutant is put to, the nearest first",
    )
    return parser.parse_args()


def main() -> None:
    """Draw mutants, run the tests against each, and count the killed."""
    options = _options()
    rooms = tuple(options.rooms)
    drawn = random.Random(options.seed).sample(places(rooms), options.count)  # noqa: S311
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "copy"
        leave_out = (".venv", ".git", "__pycache__", ".*_cache", "node_modules")
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(*leave_out))
        mutants = []
        for number in options.only or range(1, len(drawn) + 1):
            place = drawn[number - 1]
            room = next(r for r in rooms if place.path.as_posix().startswith(r))
            told = _told(copy, room, _mutated(place, options.seed))
            mutants.append({"number": number, **told})
        plan = vars(options) | {"mutants": mutants}
        (Path(folder) / "plan.json").write_text(json.dumps(plan), "utf-8")
        where = {run.PLAN: str(Path(folder) / "plan.json")}
        command = _pytest(copy, rooms, "-x", "-s")
        subprocess.run(command, cwd=copy, env=_settings(copy) | where, check=True)  # noqa: S603


if __name__ == "__main__":
    main()
