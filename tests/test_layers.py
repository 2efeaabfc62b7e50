"""Who may import whom, where lint cannot say it."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


def imports(path: Path) -> set[str]:
    """Return the dotted names that a module imports, at any depth."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            names.add(node.module)
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


def offenders(folder: str, *banned: str, but: tuple[str, ...] = ()) -> list[str]:
    found = []
    for path in sorted((ROOT / folder).rglob("*.py")):
        inside = path.relative_to(ROOT).as_posix()
        if but and inside.startswith(but):
            continue
        found += [
            f"{inside}: {name}"
            for name in imports(path)
            if name in banned or name.startswith(tuple(f"{b}." for b in banned))
        ]
    return found


@pytest.mark.parametrize(
    ("folder", "banned", "but"),
    [
        ("fishmeasure/stock", ("cv2", "PIL", "skimage", "fishmeasure.segment"), ()),
        ("fishmeasure/segment", ("fishmeasure.species", "fishmeasure.weight"), ()),
        ("fishmeasure/ledger", ("fastapi", "starlette", "api", "cv2"), ()),
        (
            "fishmeasure",
            ("fishmeasure.pipeline",),
            ("fishmeasure/cli/", "fishmeasure/training/"),
        ),
        ("fishmeasure", ("torch",), ("fishmeasure/training/",)),
    ],
)
def test_layers_point_one_way(
    folder: str, banned: tuple[str, ...], but: tuple[str, ...]
) -> None:
    """A lower layer imports nothing of a higher one."""
    assert offenders(folder, *banned, but=but) == []
